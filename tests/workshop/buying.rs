//! What is to be bought, added up, against the parts list.

use crate::random_design::random_design;
use hearthplan::design::inputs::{
    CoolerType, Cover, Group, Material, Part, Shape, StageKind, TrainStage,
};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::paper::html;
use hearthplan::paper::sheets::all;
use hearthplan::review::assess;
use hearthplan::sizing::buying::{Amount, Form, ToBuy, to_buy};
use hearthplan::sizing::machine::layout;
use hearthplan::sizing::parts_list::{PartLine, parts_list};
use hearthplan::sizing::stock::{Stock, stock};
use std::f64::consts::PI;
use uom::si::f64::Length;
use uom::si::length::millimeter;

fn list(design: &Design) -> (Vec<ToBuy>, Vec<PartLine>) {
    let machine = layout(design);
    let parts = parts_list(design, &machine);
    (to_buy(design, &machine, &parts), parts)
}

#[test]
fn sheet_and_tube_weigh_what_their_parts_weigh() {
    let mut held = 0;
    let designs = [example::as_improved(), example::as_first_drawn()];
    // Other parts may have a bore, or walls that meet: what is cut away is bought as well. Stages have fittings.
    let of_itself = |seed| Design {
        parts: Vec::new(),
        train: Vec::new(),
        flanges: Vec::new(),
        ..random_design(seed)
    };
    for design in designs.into_iter().chain((0..60).map(of_itself)) {
        let (bought, parts) = list(&design);
        let by_hand = |name: &String| {
            (parts.iter()).any(|line| line.name == *name && line.computed_mass.is_some())
        };
        for one in bought {
            let Some(density) = (one.material)
                .and_then(|material| design.material(material).ok())
                .map(|known| known.density.value)
            else {
                continue;
            };
            let volume = match (one.form, one.amount) {
                (Form::Sheet { thickness }, Amount::Area(area)) => thickness.value * area.value,
                (Form::SquareTube { side, wall }, Amount::Length(length)) => {
                    let hole = (side.value - 2.0 * wall.value).max(0.0);
                    (side.value.powi(2) - hole.powi(2)) * length.value
                }
                (Form::Tube { outside, wall }, Amount::Length(length)) => {
                    PI * (outside - wall).value * wall.value * length.value
                }
                _ => continue,
            };
            // Holes weigh nothing, but their sheet is bought; stages have ends and fittings besides.
            let drilled = [
                "flange",
                "Flange",
                "of the lid",
                "Grate",
                "door",
                "cover",
                "port",
                "Filter",
                "trap",
            ];
            let plain =
                (one.parts.iter()).all(|name| !drilled.iter().any(|word| name.contains(word)));
            if !plain || one.parts.iter().any(by_hand) {
                continue;
            }
            let mass = volume * density;
            // Nozzles have no length where the fire tube is wider than its wall.
            let nothing = mass == 0.0 && one.mass.value == 0.0;
            assert!(
                nothing || (mass / one.mass.value - 1.0).abs() < 0.03,
                "{:?} {:?} {:?}: {mass} kg against {:?}",
                one.material,
                one.form,
                one.parts,
                one.mass
            );
            held += 1;
        }
    }
    assert!(held > 200, "only {held}");
}

#[test]
fn every_cut_part_is_in_it_once() {
    let design = example::as_improved();
    let machine = layout(&design);
    let (bought, parts) = list(&design);
    for line in &parts {
        let stock = stock(&design, &machine, line);
        let drum = |line: &PartLine| {
            let part = line.stand_in.map(|index| &design.parts[index]);
            part.is_some_and(|part| part.shape == Shape::Tube)
        };
        let stood_for =
            matches!(stock, Some(Stock::Drum { .. } | Stock::Cyclone { .. })) && drum(line);
        if stood_for {
            continue;
        }
        let whole = matches!(
            stock,
            None | Some(Stock::Dish { .. } | Stock::Block { .. } | Stock::Wheel { .. })
        );
        let found = (bought.iter())
            .filter(|one| one.material == line.material && one.parts.contains(&line.name))
            .count();
        assert_eq!(found > 0, !whole, "{}", line.name);
    }
    // By hand: the hopper's wall, lid and cone are of one sheet of mild steel.
    let hopper = &design.hopper;
    let sheet = (bought.iter())
        .find(|one| {
            one.material == Some(Material::MildSteel)
                && one.parts.iter().any(|name| name == "Hopper")
        })
        .unwrap();
    let Form::Sheet { thickness } = sheet.form else {
        panic!("{:?}", sheet.form);
    };
    assert!((thickness - hopper.wall_thickness).abs().value < 1e-9);
    let Amount::Area(area) = sheet.amount else {
        panic!("{:?}", sheet.amount);
    };
    let wall = PI * (hopper.diameter + hopper.wall_thickness).value * hopper.height.value;
    assert!(area.value > wall);
    let names = sheet.parts.join(", ");
    assert!(
        names.contains("Hopper lid") && names.contains("Hopper cone"),
        "{names}"
    );
}

#[test]
fn bolts_are_asked_for_by_their_metric_name() {
    let design = example::as_improved();
    let assessment = assess(&design);
    let sheets = all(&design, &assessment, System::Metric, &[]);
    let parts = sheets.iter().find(|sheet| sheet.name == "parts").unwrap();
    for system in [System::Metric, System::Inch] {
        let text = html::blocks(parts, system);
        assert!(text.contains("To buy, added up"));
        assert!(text.contains("bolts with nuts, M"), "{text}");
    }
}

/// What the stages of a design are taken to be among its other parts, by name.
fn stood_for(design: &Design) -> Vec<Option<String>> {
    let (_, parts) = list(design);
    let stages = parts.iter().filter(|line| {
        line.from.starts_with("train.") && line.material != Some(Material::RockWool)
    });
    stages
        .map(|line| Some(design.parts[line.stand_in?].name.clone()))
        .collect()
}

/// A stage is stood for by the part that is named for it, and by no other; what none stands for is bought.
#[test]
fn a_stage_that_no_part_stands_for_is_bought() {
    let mut design = example::as_improved();
    let names = |names: &[&str]| -> Vec<Option<String>> {
        names
            .iter()
            .map(|name| (!name.is_empty()).then(|| name.to_string()))
            .collect()
    };
    assert_eq!(
        stood_for(&design)[..5],
        names(&[
            "Hearth outlet",
            "Cyclone",
            "Cooler tubes",
            "Condensate trap",
            "Filter drum"
        ])[..]
    );
    let for_part = |design: &Design, name: &str| -> Vec<ToBuy> {
        let (bought, _) = list(design);
        bought
            .into_iter()
            .filter(|one| one.parts.iter().any(|part| part == name))
            .collect()
    };
    // The cyclone: body, cone and lid of its sheet.
    let [cyclone] = &for_part(&design, "Cyclone")[..] else {
        panic!("{:?}", for_part(&design, "Cyclone"));
    };
    let sheet = design.train[1].wall;
    assert_eq!(cyclone.form, Form::Sheet { thickness: sheet });

    // A second filter is a second drum, though the packing is named for a filter as well; by hand, shell and two ends.
    let second = TrainStage {
        kind: StageKind::Filter,
        name: "Safety filter".to_string(),
        wall: Length::new::<millimeter>(1.25),
        ..TrainStage::default()
    };
    design.train.insert(5, second.clone());
    assert_eq!(stood_for(&design)[4..6], names(&["Filter drum", ""])[..]);
    let [drum] = &for_part(&design, "Safety filter")[..] else {
        panic!("{:?}", for_part(&design, "Safety filter"));
    };
    let (bore, height, sheet) = (0.40, 0.60, 0.00125);
    let area = PI * (bore + sheet) * height + 2.0 * 0.25 * PI * (bore + 2.0 * sheet).powi(2);
    let Amount::Area(found) = drum.amount else {
        panic!("{drum:?}");
    };
    assert!((found.value / area - 1.0).abs() < 1e-9, "{found:?}");
    // The bed in it is not cut from sheet.
    assert!((drum.mass.value / (7850.0 * area * sheet) - 1.0).abs() < 0.01);

    // Once a drum is entered under its name, that one is bought.
    let own = Part {
        name: "Safety filter".to_string(),
        group: Group::Filter,
        shape: Shape::Tube,
        ..Part::default()
    };
    design.parts.push(own);
    assert_eq!(stood_for(&design)[5], Some("Safety filter".to_string()));
    // What is only weighed tells nothing of the sheet, so that this is still bought.
    let sheets = |design: &Design| {
        let thin = |one: &&ToBuy| matches!(one.form, Form::Sheet { thickness } if (thickness - second.wall).abs().value < 1e-9);
        list(design).0.iter().filter(thin).count()
    };
    assert_eq!(sheets(&design), 0);
    design.parts.last_mut().unwrap().shape = Shape::Weighed;
    assert_eq!(sheets(&design), 1);
    design.parts.retain(|part| part.name != "Cyclone");
    assert_eq!(stood_for(&design)[1], None);
    let said = all(&design, &assess(&design), System::Metric, &[]);
    let said = html::blocks(
        said.iter().find(|sheet| sheet.name == "parts").unwrap(),
        System::Metric,
    );
    for words in [
        "as “Safety filter”: buy it once",
        "no other part is named for it: buy it",
    ] {
        assert!(said.contains(words), "{words}");
    }
}

/// What lies around a pipe is no pipe: it is bought as wool, and both together weigh what they did.
#[test]
fn the_insulation_of_a_stage_is_bought_as_wool() {
    let mut design = example::as_improved();
    // No layer of the walls is as thick.
    design.train[0].insulation = Length::new::<millimeter>(47.0);
    let outlet = &design.train[0];
    assert_eq!(outlet.cover, Cover::Insulated);
    let (bought, _) = list(&design);
    let of = |name: &str| {
        let mut found = bought
            .iter()
            .filter(|one| one.parts.iter().any(|part| part == name));
        let one = found.next().unwrap();
        assert_eq!(found.count(), 0, "{name}");
        one
    };
    // By hand: 40 mm bore, 2 mm wall, a metre and a bend of 4 bores; wool 47 mm thick of 100 kg/m³.
    assert_eq!(
        (outlet.bore.value, outlet.wall.value, outlet.bends),
        (0.04, 0.002, 1)
    );
    let length = outlet.length.value + 4.0 * 0.04;
    let steel = 7850.0 * PI * 0.042 * 0.002 * length;
    let wool = 100.0 * PI * 0.091 * 0.047 * length;
    let pipes: Vec<&ToBuy> = (bought.iter())
        .filter(|one| one.parts.iter().any(|part| part == "Hearth outlet"))
        .collect();
    assert!((pipes.iter()).all(|pipe| pipe.material == Some(Material::MildSteel)));
    let all: f64 = pipes.iter().map(|pipe| pipe.mass.value).sum();
    assert!((all / steel - 1.0).abs() < 1e-9, "{pipes:?}");
    let around = of("Insulation of hearth outlet");
    assert_eq!(around.material, Some(Material::RockWool));
    assert!((around.mass.value / wool - 1.0).abs() < 1e-9, "{around:?}");
    let Amount::Area(area) = around.amount else {
        panic!("{around:?}");
    };
    assert!((area.value / (PI * 0.091 * length) - 1.0).abs() < 1e-9);
}

/// What is written beside a length is what that length weighs; bends and valves are asked for by number.
#[test]
fn pipe_is_bought_by_its_length_and_its_fittings_by_number() {
    let mut design = example::as_improved();
    let mm = Length::new::<millimeter>;
    design.train.truncate(1);
    let pipe = &mut design.train[0];
    (pipe.bore, pipe.wall, pipe.length) = (mm(52.0), mm(2.0), mm(2000.0));
    (pipe.elbows, pipe.bends, pipe.tees, pipe.valves) = (0, 2, 0, 1);
    pipe.cover = Cover::Bare;
    design.train.push(design.train[0].clone());
    let (bought, parts) = list(&design);
    let of_pipe: Vec<&ToBuy> = (bought.iter())
        .filter(|one| one.parts.iter().any(|part| part == "Hearth outlet"))
        .collect();
    // By hand, of both: 4 m; 4 bends as heavy as 4 bores each, 2 valves as heavy as 15.
    let metre = 7850.0 * PI * 0.054 * 0.002;
    let [tube, bends, valves] = of_pipe[..] else {
        panic!("{of_pipe:?}");
    };
    for (row, amount, metres) in [
        (tube, Amount::Length(mm(4000.0)), 4.0),
        (bends, Amount::Count(4), 4.0 * 4.0 * 0.052),
        (valves, Amount::Count(2), 2.0 * 15.0 * 0.052),
    ] {
        match (row.amount, amount) {
            (Amount::Length(found), Amount::Length(wanted)) => {
                assert!((found - wanted).abs().value < 1e-9);
            }
            (found, wanted) => assert_eq!(found, wanted),
        }
        let mass = metre * metres;
        assert!((row.mass.value / mass - 1.0).abs() < 1e-9, "{row:?} {mass}");
    }
    // Nothing is lost between list and shop.
    let weighs = |line: &&PartLine| line.from.starts_with("train.");
    let listed: f64 = parts
        .iter()
        .filter(weighs)
        .map(|line| line.mass.value)
        .sum();
    let shopped: f64 = of_pipe.iter().map(|row| row.mass.value).sum();
    assert!((shopped / listed - 1.0).abs() < 1e-9);
    let sheets = all(&design, &assess(&design), System::Metric, &[]);
    let sheet = sheets.iter().find(|sheet| sheet.name == "parts").unwrap();
    let text = html::blocks(sheet, System::Metric);
    for words in ["long bends of tube Ø 56 mm", "valves of tube Ø 56 mm"] {
        assert!(text.contains(words), "{words}");
    }
}

/// A water jacket is sheet, and its cooler's tubes are tube.
#[test]
fn a_jacket_is_bought_as_sheet() {
    let mut design = example::as_improved();
    let cooler = (design.train.iter_mut()).find(|stage| stage.kind == StageKind::Cooler);
    let cooler = cooler.unwrap();
    cooler.cooling = CoolerType::Water;
    // Nothing else is of such sheet.
    design.body_layers.clear();
    design.holes.clear();
    let cooler = (design.train.iter()).find(|stage| stage.kind == StageKind::Cooler);
    let cooler = cooler.unwrap();
    let name = cooler.name.clone();
    let (bought, parts) = list(&design);
    let name = if name.is_empty() {
        "Tube cooler"
    } else {
        &name
    };
    let rows: Vec<&ToBuy> = (bought.iter())
        .filter(|one| one.parts.iter().any(|part| part == name))
        .collect();
    let listed = (parts.iter()).find(|line| line.name == name).unwrap();
    let [Form::Tube { outside, wall }, Form::Sheet { thickness }] = [rows[0].form, rows[1].form]
    else {
        panic!("{rows:?}");
    };
    let (Amount::Length(length), Amount::Area(area)) = (rows[0].amount, rows[1].amount) else {
        panic!("{rows:?}");
    };
    let tubes = 7850.0 * PI * ((outside - wall) * wall * length).value;
    assert!((rows[0].mass.value / tubes - 1.0).abs() < 1e-9);
    assert!(thickness.value > 0.0 && area.value > 0.0);
    let jacket = 7850.0 * (thickness * area).value;
    assert!(((tubes + jacket) / listed.mass.value - 1.0).abs() < 1e-9);
}

/// By hand: body, frustum down to the dust outlet, lid without the gas outlet, and the outlet pipe below it.
#[test]
fn the_sheet_of_a_cyclone_is_all_that_it_is_cut_from() {
    let mut design = example::as_improved();
    let sheet = 0.0017;
    design.train[1].wall = Length::new::<millimeter>(1000.0 * sheet);
    let wide = design.train[1].body_diameter.value;
    let (bought, _) = list(&design);
    let cyclone = (bought.iter())
        .find(|one| one.parts.iter().any(|part| part == "Cyclone"))
        .unwrap();
    let Amount::Area(area) = cyclone.amount else {
        panic!("{cyclone:?}");
    };
    // Proportions of Lapple: body and cone twice as high as wide, dust outlet a quarter, gas outlet half as wide, and
    // five eighths deep.
    let (dust, outlet) = (0.25 * wide, 0.5 * wide);
    let body = PI * (wide + sheet) * 2.0 * wide;
    let slant = (2.0 * wide).hypot(0.5 * (wide - dust));
    let cone = 0.5 * PI * (wide + dust + 2.0 * sheet) * slant;
    let lid = 0.25 * PI * ((wide + 2.0 * sheet).powi(2) - outlet * outlet);
    let pipe = PI * (outlet + sheet) * 0.625 * wide;
    let by_hand = body + cone + lid + pipe;
    assert!(
        (area.value / by_hand - 1.0).abs() < 1e-6,
        "{area:?} {by_hand}"
    );
    let mass = 7850.0 * sheet * by_hand;
    assert!(
        (cyclone.mass.value / mass - 1.0).abs() < 1e-6,
        "{cyclone:?}"
    );
}
