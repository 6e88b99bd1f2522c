//! What answers rest on that is neither weighed nor wired stands in lists all the same.

use hearthplan::design::inputs::{
    CoolerType, CostLine, Cover, ElectricLoad, FlowSource, HearthKind, HoleUse, JointKind,
    StageKind,
};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::paper::html;
use hearthplan::paper::sheets::all;
use hearthplan::review::guided::complete;
use hearthplan::review::{Verdict, assess};
use uom::si::f64::Length;
use uom::si::length::meter;

/// From the first questions, with the fan of their cooler, guards, shields and a fire tube that comes out.
pub(super) fn with_all() -> Design {
    let mut start = example::to_start_from();
    start
        .set("engine.wanted_power", Value::Number(5000.0))
        .expect("in range");
    let mut design = complete(&start, &[]);
    design.hearth.comes_out = true;
    design.body_wall.guarded = true;
    design.lid.guarded = true;
    design.battery_box.sheets = 2;
    design
}

pub(super) fn sheet(design: &Design, name: &str) -> String {
    let sheets = all(design, &assess(design), System::Metric, &[]);
    let sheet = sheets
        .iter()
        .find(|sheet| sheet.name == name)
        .expect("made");
    html::blocks(sheet, System::Metric)
}

const NAMES: [&str; 12] = [
    "Ring around the fire tube",
    "Tube plates and gas boxes: Tube cooler",
    "Dust box: Cyclone",
    "Fan: Tube cooler",
    "Guard: Body wall",
    "Guard: Lid",
    "Guard: Cyclone",
    "Guard: Tube cooler",
    "Shield sheets of the battery box",
    "Spare fire tube with throat",
    "Spare nozzle tubes",
    "Caps for the nozzles",
];

#[test]
fn fan_guards_shields_and_spare_stand_in_parts_and_cost() {
    let design = with_all();
    let parts = sheet(&design, "parts");
    assert!(parts.contains("Also needed, not weighed"));
    for name in NAMES {
        assert!(parts.contains(&format!(">{name}<")), "{name}: {parts}");
    }
    assert!(parts.contains("air of 4 m/s between"), "{parts}");
    let cost = assess(&design).cost;
    for name in NAMES {
        let line = cost.lines.iter().find(|line| line.name == name);
        assert!(line.is_some_and(|line| line.lacks_price()), "{name}");
    }
    let mut plain = design.clone();
    plain.hearth.comes_out = false;
    // Air comes in at its open top.
    plain.hearth.kind = HearthKind::Straight;
    for zone in ["hearth_wall", "body_wall", "lid", "bottom"] {
        plain
            .set(&format!("{zone}.guarded"), Value::Flag(false))
            .expect("a flag");
    }
    // One sheet for the lid, not bolted on, and no liner in the body.
    plain.lid_layers.truncate(1);
    plain.body_layers.remove(0);
    for joint in &mut plain.joints {
        joint.kind = JointKind::Welded;
    }
    // As wide as the wall, it needs no ring around it.
    plain.hearth.tube_diameter =
        plain.hearth_wall.inside_diameter - 2.0 * plain.hearth.steel_thickness;
    plain.battery_box.sheets = 0;
    for stage in &mut plain.train {
        stage.cooling = CoolerType::Bare;
        stage.guarded = false;
        stage.tubes = 1;
    }
    let gone = [StageKind::Cyclone, StageKind::Blower];
    plain.train.retain(|stage| !gone.contains(&stage.kind));
    plain.operation.flow_source = FlowSource::Entered;
    // Doors and what is set on the shell have sleeves.
    plain.holes.retain(|hole| hole.name == "Thermometer");
    assert!(sheet(&plain, "parts").contains("Also needed, not weighed<"));
    plain.holes.clear();
    assert!(!sheet(&plain, "parts").contains("Also needed, not weighed<"));
}

/// A thermometer closes its hole: no disc is bought for it, but it is, unless a line tells of it.
#[test]
fn an_instrument_closes_its_hole() {
    let mut design = with_all();
    let closing = "Thermometer, what closes it";
    let wanted = "it fills and closes its hole of 13 mm, with a seal";
    let parts = sheet(&design, "parts");
    assert!(!parts.contains(closing) && parts.contains("Ash door, what closes it"));
    assert!(parts.contains(wanted), "{parts}");
    let lines = assess(&design).cost.lines;
    assert!(lines.iter().all(|line| line.name != closing));
    assert!(sheet(&design, "build-order").contains("fit what it is named for with its seal"));
    design.cost_lines.push(CostLine {
        name: "Two thermometers".to_string(),
        ..CostLine::default()
    });
    assert!(!sheet(&design, "parts").contains(wanted));
    let mut holes = design.holes.iter_mut();
    let thermometer = holes.find(|hole| hole.name == "Thermometer");
    thermometer.expect("its hole").name = "Peep hole".to_string();
    let parts = sheet(&design, "parts");
    assert!(parts.contains("Peep hole, what closes it") && !parts.contains(wanted));
}

#[test]
fn a_line_of_the_costs_pays_for_them() {
    let mut design = with_all();
    let lacking = |design: &Design| {
        let cost = assess(design).cost;
        NAMES.map(|name| {
            let line = cost.lines.iter().find(|line| line.name == name);
            line.is_none_or(|line| line.lacks_price())
        })
    };
    assert_eq!(lacking(&design), [true; 12]);
    for name in [
        "Guards of wire mesh",
        "Fan, 24 V",
        "Shields",
        "Pipe caps",
        "Rings and plates",
        "Dust box",
    ] {
        design.cost_lines.push(CostLine {
            name: name.to_string(),
            likely: 10.0,
            ..CostLine::default()
        });
    }
    let spare = NAMES.map(|name| name.starts_with("Spare"));
    assert_eq!(lacking(&design), spare);
}

#[test]
fn a_fan_that_draws_nothing_is_told() {
    let mut design = with_all();
    design.loads.clear();
    let place = (design.train.iter())
        .position(|stage| stage.kind == StageKind::Cooler)
        .expect("a cooler");
    let told = |design: &Design| {
        let said = assess(design).remark(design, "train", place);
        let wiring = sheet(design, "wiring").contains("No load is entered for the fan");
        assert_eq!(said.is_some(), wiring);
        said.map(|(verdict, _)| verdict)
    };
    assert_eq!(told(&design), Some(Verdict::Watch));
    design.loads.push(ElectricLoad {
        name: "Cooling fan".to_string(),
        ..ElectricLoad::default()
    });
    assert_eq!(told(&design), None);
}

#[test]
fn what_weighs_most_is_named_first_where_prices_are_missing() {
    let design = with_all();
    let cost = assess(&design).cost;
    let lacking = cost.lacking();
    let masses: Vec<f64> = (lacking.iter())
        .map(|line| line.mass.map_or(0.0, |mass| mass.value))
        .collect();
    assert!(masses.len() > 20 && masses.is_sorted_by(|one, next| one >= next));
    let text = sheet(&design, "cost");
    assert!(text.contains("Begin with what weighs most: "), "{text}");
    assert!(text.contains(&lacking[0].name), "{text}");
}

#[test]
fn a_stage_that_other_parts_stand_for_is_told_to_be_bought_once() {
    let parts = sheet(&with_all(), "parts");
    assert!(parts.contains("as “Filter drum”: buy it once"), "{parts}");
}

#[test]
fn the_order_of_the_work_tells_holes_and_hearth_and_closes_the_lid_again() {
    let design = with_all();
    let text = sheet(&design, "build-order");
    for words in [
        "Ash door",
        "Thermometer",
        "Hopper lid",
        "catches that open without tools",
        "Lighting port",
        "Fire tube with throat",
        "Grate",
        "Nozzle, ",
        "Close again if it was opened for the lining, and test again",
    ] {
        assert!(text.contains(words), "{words}: {text}");
    }
}

/// The tubes of the nozzles reach into the fire tube, which would not pass them: they go in after it, and where it comes out
/// they can be drawn again.
#[test]
fn tubes_that_reach_into_the_fire_tube_go_in_after_it() {
    use hearthplan::sizing::build_order::{Besides, besides, order};
    let of = |comes_out: bool| -> Vec<Besides> {
        let mut design = with_all();
        design.hearth.comes_out = comes_out;
        besides(&design, &order(&design).expect("an order"))
    };
    let nozzles = format!("Nozzle, {} of them", with_all().hearth.nozzle_count);
    for comes_out in [true, false] {
        let more = of(comes_out);
        let at = |what: &dyn Fn(&Besides) -> bool| more.iter().position(what).expect("told");
        let tube = at(&|one| one.on == "Fire tube with throat");
        for pipe in [nozzles.as_str(), "Lighting port"] {
            let rows: Vec<usize> = (0..more.len())
                .filter(|row| more[*row].on == pipe)
                .collect();
            let [cut, in_it] = rows[..] else {
                panic!("{pipe}: {more:?}");
            };
            assert!(cut < tube && tube < in_it, "{more:?}");
            assert!(!more[cut].work.contains("set the pipes through"));
            assert!(more[cut].when.contains("before the first leak test"));
            assert!(more[in_it].work.starts_with("Push each in from outside"));
            let (drawn, welded) = ("drawn out again", "weld it round");
            assert_eq!(more[in_it].work.contains(drawn), comes_out);
            assert_eq!(more[in_it].work.contains(welded), !comes_out);
        }
        // What seals them is looked at after that, and the lighting port needs its hole before.
        let seals = at(&|one| one.on == format!("{nozzles}; Lighting port"));
        assert!(seals > tube && more[seals].work.contains("soap film"));
        assert_eq!(
            more[seals].when.contains("each time they were drawn"),
            comes_out
        );
        assert!(at(&|one| one.on == "Lighting port, in the fire tube") < tube);
    }
    // A straight tube has no nozzles; a pipe at another height ends short of the fire tube.
    let mut low = with_all();
    let port = (low.holes.iter())
        .position(|hole| hole.name == "Lighting port")
        .expect("there");
    low.holes[port].height += Length::new::<meter>(0.2);
    let more = besides(&low, &order(&low).expect("an order"));
    let of_port: Vec<&Besides> = (more.iter())
        .filter(|one| one.on.contains("Lighting port"))
        .collect();
    assert_eq!(of_port.len(), 1);
    assert!(of_port[0].work.contains("set the pipes through"));
    assert_eq!(low.holes[port].carries, HoleUse::SetIn);
    let mut straight = with_all();
    straight.hearth.kind = HearthKind::Straight;
    let more = besides(&straight, &order(&straight).expect("an order"));
    assert!(
        !more
            .iter()
            .any(|one| one.work.contains("into its hole in the fire tube"))
    );
    assert!(more.iter().any(|one| one.on == "Fire tube"));
    assert!(!more.iter().any(|one| one.on.contains("throat")));
    let lid = more.iter().find(|one| one.on == "Hopper lid");
    assert!(lid.expect("told").work.contains("Air comes in there"));
}

/// Where air comes in at the open top, no sheet of use or upkeep speaks of nozzles or a throat, nor has the lid shut.
#[test]
fn a_straight_tube_is_lit_filled_and_stopped_at_its_open_top() {
    let mut design = with_all();
    design.hearth.kind = HearthKind::Straight;
    for name in ["lighting", "build-order"] {
        let text = sheet(&design, name).to_lowercase();
        for word in ["nozzle", "throat", "air inlet", "its lid shut"] {
            // A hole keeps the name that somebody gave it.
            let told = text.replace("nozzle, 5 of them", "");
            assert!(!told.contains(word), "{name}: {word}: {told}");
        }
    }
    let lighting = sheet(&design, "lighting");
    for words in [
        "light the char from above",
        "the top stands open, for air comes in there",
        "never lean over it",
        "put the lid tightly on the open top",
    ] {
        assert!(lighting.contains(words), "{words}: {lighting}");
    }
    design.hearth.comes_out = true;
    let parts = sheet(&design, "parts");
    assert!(parts.contains(">Spare fire tube<"), "{parts}");
}

/// Air comes in through the nozzles: to stop, each gets a cap.
#[test]
fn each_nozzle_has_a_cap_for_stopping() {
    let mut design = with_all();
    design.hearth.nozzle_count = 7;
    let parts = sheet(&design, "parts");
    assert!(parts.contains(">Caps for the nozzles<"), "{parts}");
    let needed = hearthplan::sizing::also_needed::Need::NozzleCaps;
    assert_eq!(needed.count(&design), 7);
    let lighting = sheet(&design, "lighting");
    for words in [
        "a cap tightly on each of the 7 nozzles",
        "Caps off all 7 nozzles",
        "carbon monoxide in it: leave it shut, outdoors",
    ] {
        assert!(lighting.contains(words), "{words}: {lighting}");
    }
    design.hearth.kind = HearthKind::Straight;
    let lighting = sheet(&design, "lighting");
    assert!(lighting.contains("shut gas outlet and every other opening tightly"));
    assert!(!lighting.contains(" cap "), "{lighting}");
}

/// What neither purges nor flares is not lit, and no sheet speaks of a blower that is not there.
#[test]
fn without_a_blower_nothing_is_lit() {
    let mut design = example::as_improved();
    assert!(sheet(&design, "lighting").contains("let the blower draw air"));
    design.train.retain(|stage| stage.kind != StageKind::Blower);
    let lighting = sheet(&design, "lighting");
    for words in [
        "No blower stands in the gas train",
        "Do not light it so",
        "engine off, then",
    ] {
        assert!(lighting.contains(words), "{words}: {lighting}");
    }
    for words in [
        "let the blower",
        "blower off",
        "blower turns",
        "light the flare",
    ] {
        assert!(!lighting.contains(words), "{words}: {lighting}");
    }
    assert!(!sheet(&design, "leak-tests").contains("let the blower"));
}

#[test]
fn a_water_jacket_weighs_and_its_pump_is_told() {
    use hearthplan::sizing::train_mass::{computed_mass, jacket};
    let mut design = example::as_improved();
    let place = (design.train.iter())
        .position(|stage| stage.kind == StageKind::Cooler)
        .expect("a cooler");
    let mut weigh = |cooling| {
        design.train[place].cooling = cooling;
        let stage = &design.train[place];
        let parts = sheet(&design, "parts");
        let weights = assess(&design).workshop.train_weights;
        let group = hearthplan::design::inputs::Group::Cooler;
        let whole = weights
            .iter()
            .find(|one| one.group == group)
            .expect("weighed");
        (
            computed_mass(&design, stage).value,
            jacket(stage),
            whole.computed.value,
            parts,
        )
    };
    let (bare, none, of_bare, _) = weigh(CoolerType::Bare);
    assert_eq!(none, None);
    let (cooled, found, of_cooled, parts) = weigh(CoolerType::Water);
    let found = found.expect("a jacket");
    // Shell and two ends of 3 mm steel.
    let (bore, length) = (found.bore.value, found.length.value);
    let ends = 0.5 * std::f64::consts::PI * (bore + 0.006_f64).powi(2);
    let steel = 7850.0 * 0.003 * (std::f64::consts::PI * (bore + 0.003) * length + ends);
    assert!(
        (cooled - bare - steel).abs() < 1e-6 * steel,
        "{cooled} {bare} {steel}"
    );
    let more = of_cooled - of_bare - steel;
    assert!(
        (more - found.water.value).abs() < 1e-6 && more > 1.0,
        "{more}"
    );
    for words in [
        "Pump, hoses and water: ",
        "of water in it are not in the mass",
    ] {
        assert!(parts.contains(words), "{words}: {parts}");
    }
}

#[test]
fn tubes_weigh_however_long_they_are() {
    use hearthplan::design::inputs::TrainStage;
    use hearthplan::sizing::train_mass::computed_mass;
    let of = |kind, metres: f64| {
        let long = Length::new::<meter>(metres);
        let stage = TrainStage {
            kind,
            length: long,
            tube_length: long,
            ..TrainStage::default()
        };
        computed_mass(&Design::default(), &stage).value
    };
    for kind in [StageKind::Pipe, StageKind::Cooler] {
        assert!((of(kind, 60.0) / of(kind, 30.0) - 2.0).abs() < 1e-9);
    }
}

#[test]
fn the_sum_of_a_cooler_tells_the_air_of_its_fan() {
    let mut design = with_all();
    // The cooler is the hottest of the train where all else is well covered.
    for stage in &mut design.train {
        stage.cover = Cover::Insulated;
        stage.insulation = Length::new::<meter>(0.15);
    }
    let speeds = |design: &Design| -> Vec<f64> {
        let assessment = assess(design);
        ["train.engine_temperature", "train.touch"]
            .iter()
            .filter_map(|id| assessment.finding(id))
            .flat_map(|finding| &finding.working)
            .flat_map(|step| &step.values)
            .filter(|(symbol, _, _)| *symbol == "w")
            .map(|(_, _, value)| value.si)
            .collect()
    };
    // Its touch is that while lighting, when the fan rests.
    assert_eq!(speeds(&design), [4.0]);
    for stage in &mut design.train {
        stage.cooling = CoolerType::Bare;
    }
    assert!(speeds(&design).is_empty());
}

#[test]
fn flanges_that_no_list_holds_are_told() {
    let told = sheet(&example::as_improved(), "parts");
    assert!(told.contains("A joint takes two, or one where a lid is bolted on"));
}
