//! Stages of the gas train on the parts list: each weighs what closed forms say, once, and none is forgotten.

use super::lines;
use hearthplan::design::inputs::{
    CoolerType, Cover, FilterMedium, Group, Part, Shape, StageKind, TrainStage,
};
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Lever, Verdict, assess, remedies};
use hearthplan::sizing::machine::layout;
use hearthplan::sizing::parts_list::{Counted, PartLine};
use hearthplan::sizing::weight::weigh;
use std::f64::consts::PI;
use uom::si::f64::{Length, Mass};
use uom::si::length::millimeter;
use uom::si::mass::kilogram;

fn mass_of_stage(change: impl FnOnce(&mut TrainStage), kind: StageKind) -> f64 {
    let mut stage = TrainStage {
        kind,
        ..TrainStage::default()
    };
    change(&mut stage);
    let design = Design {
        train: vec![stage],
        ..Design::default()
    };
    let found = lines(&design);
    let of_stage = found.iter().filter(|line| line.from == "train.0");
    of_stage.map(|line| line.mass.value).sum()
}

#[test]
fn stages_of_the_gas_train_weigh_what_closed_forms_say() {
    let mm = Length::new::<millimeter>;
    let tube = |outside: f64, inside: f64| 0.25 * PI * (outside * outside - inside * inside);
    let close = |found: f64, wanted: f64, what: &str| {
        assert!(
            (found / wanted - 1.0).abs() < 1e-9,
            "{what}: {found} against {wanted}"
        );
    };
    let pipe = mass_of_stage(
        |stage| (stage.length, stage.bends, stage.valves) = (mm(2000.0), 2, 1),
        StageKind::Pipe,
    );
    // Two bends of 4 bores and a valve of 15 bores of 52 mm.
    close(
        pipe,
        7850.0 * tube(0.056, 0.052) * (2.0 + 23.0 * 0.052),
        "pipe",
    );
    let wrapped = mass_of_stage(|stage| stage.cover = Cover::Insulated, StageKind::Pipe);
    let wool = 100.0 * tube(0.156, 0.056);
    close(
        wrapped,
        7850.0 * tube(0.056, 0.052) + wool,
        "insulated pipe",
    );

    let cooler = mass_of_stage(
        |stage| stage.cooling = CoolerType::Finned,
        StageKind::Cooler,
    );
    let fins = 2700.0 * tube(0.060, 0.031) * 0.0005 * 4.0 / 0.010;
    close(
        cooler,
        4.0 * (7850.0 * tube(0.031, 0.028) * 4.0 + fins),
        "cooler",
    );

    // A drum with two flat ends as wide as its outside.
    let drum = |inside: f64, height: f64| {
        let outside = inside + 0.004;
        7850.0 * (tube(outside, inside) * height + 2.0 * tube(outside, 0.0) * 0.002)
    };
    close(
        mass_of_stage(|_| (), StageKind::Trap),
        drum(0.16, 0.30),
        "trap",
    );
    let bed = 200.0 * tube(0.40, 0.0) * 0.40;
    close(
        mass_of_stage(|_| (), StageKind::Filter),
        drum(0.40, 0.60) + bed,
        "filter",
    );
    let cloth = mass_of_stage(
        |stage| stage.medium = FilterMedium::Cloth,
        StageKind::Filter,
    );
    close(cloth, drum(0.16, 0.30) + 0.5 * 0.5, "cloth");

    // Lapple, 100 mm: body and cone of 200 mm, outlet 50 mm wide and 62.5 mm deep, dust outlet 25 mm.
    let slant = 0.2_f64.hypot(0.0375);
    let cone = PI * (0.051 + 0.0135) * slant * 0.002;
    let lid = (tube(0.104, 0.0) - tube(0.05, 0.0)) * 0.002;
    let sheet = tube(0.104, 0.1) * 0.2 + cone + lid + tube(0.054, 0.05) * 0.0625;
    close(
        mass_of_stage(|_| (), StageKind::Cyclone),
        7850.0 * sheet,
        "cyclone",
    );

    let weight = Mass::new::<kilogram>(7.5);
    close(
        mass_of_stage(|stage| stage.own_weight = weight, StageKind::Blower),
        7.5,
        "blower",
    );
    close(
        mass_of_stage(|stage| stage.weighed = Some(weight), StageKind::Trap),
        7.5,
        "by hand",
    );
}

#[test]
fn no_stage_is_weighed_twice() {
    let mut design = Design::default();
    let train: f64 = (lines(&design).iter())
        .filter(|line| line.from.starts_with("train."))
        .map(|line| line.mass.value)
        .sum();
    assert!(train > 20.0, "{train} kg");
    let weight = weigh(&layout(&design)).empty.mass;
    design.train.clear();
    assert_eq!(weigh(&layout(&design)).empty.mass, weight);

    // Nothing stands for it yet, and that is said; in the improved example other parts do.
    let design = Design::default();
    let train = |line: &&PartLine| line.from.starts_with("train.");
    assert!(
        lines(&design)
            .iter()
            .filter(train)
            .all(|line| line.counted == Counted::Nowhere)
    );
    let verdict = |design: &Design| {
        let assessment = assess(design);
        assessment
            .finding("workshop.train_weight")
            .expect("asked")
            .verdict
    };
    assert_eq!(verdict(&design), Verdict::Watch);
    let improved = example::as_improved();
    assert!(
        lines(&improved)
            .iter()
            .filter(train)
            .all(|line| line.counted == Counted::AsOtherParts)
    );
    assert_eq!(verdict(&improved), Verdict::Good);
}

/// The examples are one machine: what stands for the filter stage is the drum around its bed.
#[test]
fn the_filter_of_the_examples_fits_its_drum() {
    for design in [example::as_first_drawn(), example::as_improved()] {
        let drum = (design.parts.iter()).find(|part| part.name == "Filter drum");
        let stage = (design.train.iter()).find(|stage| stage.kind == StageKind::Filter);
        let (drum, stage) = (drum.expect("a drum"), stage.expect("a filter"));
        let inside = drum.diameter - 2.0 * drum.thickness;
        assert!((inside - stage.filter_diameter).abs().value < 1e-9);
        assert_eq!(drum.thickness, stage.wall);
        assert!(stage.filter_depth < drum.height);
    }
}

/// What stands for a stage that was forgotten is offered, passes, and weighs as much as the stage.
#[test]
fn a_forgotten_stage_is_offered_a_part() {
    const ID: &str = "workshop.train_weight";
    let weight = |design: &Design, group: Group| {
        let assessment = assess(design);
        let weights = &assessment.workshop.train_weights;
        *weights
            .iter()
            .find(|one| one.group == group)
            .expect("asked")
    };
    let offered = |design: &Design| -> Vec<(Lever, Design)> {
        (remedies(design, ID).into_iter())
            .filter_map(|remedy| Some((remedy.lever, remedy.change?.apply(design)?)))
            .collect()
    };

    // No filter at all: one part, amid those of the train that are there.
    let mut design = example::as_improved();
    design.parts.retain(|part| part.group != Group::Filter);
    let found = offered(&design);
    let [(Lever::NewItem { .. }, mended)] = found.as_slice() else {
        panic!("{found:?}");
    };
    let part = mended.parts.last().expect("a part");
    assert_eq!((part.group, part.shape), (Group::Filter, Shape::Weighed));
    assert!(part.name.contains("to weigh and place"), "{}", part.name);
    let ends = |at: fn(&Part) -> f64| {
        (design.parts.iter())
            .filter(|part| matches!(part.group, Group::Cooler | Group::Condensate))
            .map(at)
            .fold((f64::MAX, f64::MIN), |(low, high), at| {
                (low.min(at), high.max(at))
            })
    };
    for at in [(|part| part.x.value) as fn(&Part) -> f64, |part| {
        part.y.value
    }] {
        let (low, high) = ends(at);
        assert!((low..=high).contains(&at(part)), "{part:?}");
    }
    let filter = weight(mended, Group::Filter);
    // What its stages weigh, though half of it would be taken for enough.
    let more = (filter.placed - filter.computed).value;
    assert!((0.0..0.11).contains(&more), "{filter:?}");

    // A filter entered far too light: its weighed part may be made heavier, or another be added beside it; a cyclone that
    // weighs what it should stays.
    let mut design = example::as_improved();
    design.parts.retain(|part| part.name != "Filter drum");
    let packing = (design.parts.iter())
        .position(|part| part.group == Group::Filter)
        .expect("packing");
    design.parts[packing].mass = Mass::new::<kilogram>(0.1);
    let found = offered(&design);
    let [
        (Lever::Input(path), heavier),
        (Lever::NewItem { .. }, added),
    ] = found.as_slice()
    else {
        panic!("{found:?}");
    };
    for mended in [heavier, added] {
        let filter = weight(mended, Group::Filter);
        assert!(filter.placed >= filter.computed, "{filter:?}");
    }
    assert_eq!(*path, format!("parts.{packing}.mass"));
    let (part, packing) = (added.parts.last().expect("a part"), &design.parts[packing]);
    // Near it, for the cyclone that stands elsewhere is light.
    let cyclone = (design.parts.iter()).find(|part| part.name == "Cyclone");
    let cyclone = cyclone.expect("a cyclone");
    assert!(packing.x < part.x && part.x <= cyclone.x, "{part:?}");

    // Nothing stands for anything: each part is offered over the front edge, and none is enough alone.
    let design = Design::default();
    let tried = remedies(&design, ID);
    assert!(tried.len() > 1 && tried.iter().all(|remedy| remedy.change.is_none()));
    for remedy in tried {
        let changed = remedy
            .lever
            .change(Value::Number(10.0))
            .apply(&design)
            .expect("fits");
        let part = changed.parts.last().expect("a part");
        assert!((part.y + 0.5 * design.base.depth).abs().value < 1e-3);
    }
}
