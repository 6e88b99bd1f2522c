//! What was sized is one machine in all chapters: marked out, joined, wired, and with room for each part.

use super::{POWERS, power_wanted, verdict};
use hearthplan::design::inputs::{Datum, Group, HotWall, Lie, Presence, StageKind, TrainStage};
use hearthplan::design::{Design, example};
use hearthplan::review::guided::{Part, complete};
use hearthplan::review::{Verdict, assess};
use hearthplan::sizing::also_needed::{Need, also_needed};
use hearthplan::sizing::build_order::{Task, order};
use hearthplan::sizing::machine::{BoxEnvelope, Closure, Envelope, Machine, Piece, Solid, layout};
use hearthplan::sizing::marking::mark_out;
use hearthplan::sizing::parts_list::{Counted, parts_list};
use hearthplan::sizing::train_mass::{computed_mass, drum_size};
use hearthplan::sizing::zone::Zone;
use std::f64::consts::PI;
use uom::si::f64::Length;
use uom::si::length::meter;

/// A fan that is reckoned to cool the gas is reckoned to draw current as well.
#[test]
fn the_fan_of_the_cooler_is_an_electric_load() {
    let mut answered = power_wanted(5.0);
    answered.loads.retain(|load| !load.name.contains("fan"));
    let design = complete(&answered, &[]);
    let fans: Vec<_> = (design.loads.iter())
        .filter(|load| load.name == "Cooler fan")
        .collect();
    assert_eq!(fans.len(), 1);
    assert!(fans[0].power.value > 0.0);
    let note = &design.about.note;
    assert!(note.contains("Fan of the cooler: 80 W"), "{note}");
    assert!(note.contains("from memory"), "{note}");
    let assessment = assess(&design);
    assert!(
        assessment
            .electrics
            .wiring
            .iter()
            .any(|row| row.name == "Cooler fan")
    );
    assert_eq!(verdict(&design, "breath.battery"), Some(Verdict::Good));
    // A load of one's own stands for it.
    let mut own = example::cooler_fan();
    own.name = "Blower of the cooler".to_string();
    answered.loads.push(own);
    let design = complete(&answered, &[]);
    assert!(!design.loads.iter().any(|load| load.name == "Cooler fan"));
    assert!(!design.about.note.contains("Fan of the cooler"));
}

fn mm(value: f64) -> Length {
    Length::new::<meter>(value / 1000.0)
}

/// Whether two lengths are the same to half a millimetre, which sizes are rounded to.
fn same(one: Length, other: Length) -> bool {
    (one - other).value.abs() < 0.000_6
}

#[test]
fn the_vessel_that_was_sized_is_the_one_that_is_marked_out() {
    for kilowatts in POWERS {
        let design = complete(&power_wanted(kilowatts), &[]);
        let machine = layout(&design);
        let (vessel, plan) = (machine.vessel, &design.plan_vessel);
        assert!(same(vessel.hearth_outer_radius, vessel.body_outer_radius));
        assert!(same(plan.girth, 2.0 * PI * vessel.hearth_outer_radius));
        assert!(same(plan.length, vessel.body_top - vessel.underside));
        assert!(same(
            plan.lower_seam,
            vessel.hearth_bottom - vessel.underside
        ));
        assert!(same(plan.upper_seam, vessel.hearth_top - vessel.underside));
        let nozzles = &design.holes[0];
        let plane = machine.hearth.nozzle_plane - vessel.underside;
        // What is entered is what is marked: both count from the bottom end.
        assert_eq!(plan.datum, Datum::BottomEnd);
        assert!((nozzles.height - plane).value.abs() < 0.002);
        let marks = mark_out(&design).unwrap().marks;
        assert_eq!(marks[0].from_tape_datum, nozzles.height);
        assert_eq!(nozzles.count, design.hearth.nozzle_count);
        let (outlet, pipe) = (&design.holes[2], &design.train[0]);
        assert_eq!(outlet.name, "Gas outlet");
        let outside = pipe.bore + 2.0 * pipe.wall;
        assert_eq!(outlet.diameter, pipe.bore);
        assert_eq!(outlet.pipe, Some(outside));
        assert!(same(design.flanges[0].bore, outside + mm(1.0)));
        // The tube goes through its hole, and its own bore is that of the nozzle.
        let tube = nozzles.pipe.unwrap();
        let play = nozzles.diameter - tube;
        assert!(
            play > mm(0.29) && play < mm(0.81),
            "{kilowatts} kW: {play:?}"
        );
        assert!(same(
            tube - 2.0 * nozzles.pipe_wall,
            design.hearth.nozzle_bore
        ));
        for id in [
            "marking.fits",
            "marking.clash",
            "marking.nozzles",
            "marking.pipes",
            "marking.outlet",
            "marking.cone_weld",
            "marking.flanges",
            "train.steps",
        ] {
            assert_eq!(
                verdict(&design, id),
                Some(Verdict::Good),
                "{kilowatts} kW: {id}"
            );
        }
    }
}

/// By whole millimetres, and no more than half of the way down to the throat.
#[test]
fn the_fire_tube_goes_on_until_the_nozzles_are_clear_of_the_cone() {
    for kilowatts in [2.0, 3.0, 4.0].into_iter().chain(POWERS) {
        let design = complete(&power_wanted(kilowatts), &[]);
        let hearth = &design.hearth;
        let told = verdict(&design, "marking.cone_weld");
        assert_eq!(told, Some(Verdict::Good), "{kilowatts} kW");
        let straight = 1000.0 * hearth.straight_below_nozzles.value;
        assert!((straight - straight.round()).abs() < 1e-9, "{straight}");
        assert!(hearth.straight_below_nozzles <= 0.5 * hearth.nozzle_height);
        // A millimetre less is too little.
        let mut shorter = design.clone();
        shorter.hearth.straight_below_nozzles -= mm(1.0);
        let told = verdict(&shorter, "marking.cone_weld");
        assert_eq!(told, Some(Verdict::Watch), "{kilowatts} kW");
    }
    // One that is built stays as it is.
    let mut built = power_wanted(10.0);
    built.hearth.straight_below_nozzles = mm(0.0);
    let built = complete(&built, &[Part::Hearth]);
    assert_eq!(built.hearth.straight_below_nozzles, mm(0.0));
}

#[test]
fn a_built_hearth_with_more_nozzles_is_marked_out_with_as_many_holes() {
    for nozzles in [3, 7, 9] {
        let mut design = power_wanted(10.0);
        design.hearth.nozzle_count = nozzles;
        let design = complete(&design, &[Part::Hearth]);
        assert_eq!(design.holes[0].count, nozzles);
        for id in ["marking.clash", "marking.nozzles"] {
            assert_eq!(verdict(&design, id), Some(Verdict::Good), "{nozzles}: {id}");
        }
    }
}

#[test]
fn the_joints_follow_the_train_and_so_does_the_order_of_the_work() {
    let design = complete(&power_wanted(5.0), &[]);
    let names: Vec<&str> = (design.joints.iter())
        .map(|joint| joint.name.as_str())
        .collect();
    let wanted = [
        "Gas outlet to cyclone",
        "Cyclone to cooler",
        "Cooler to trap",
        "Trap to filter",
        "Filter to last trap",
        "Last trap to blower",
        "Blower to engine",
    ];
    assert!(names.ends_with(&wanted), "{names:?}");
    assert!(design.build_steps.is_empty());
    let steps = order(&design).unwrap();
    let made: Vec<usize> = (design.joints.len() - wanted.len()..design.joints.len())
        .map(|place| {
            let make =
                |step: &hearthplan::sizing::build_order::OrderStep| step.task == Task::Make(place);
            steps.iter().position(make).unwrap()
        })
        .collect();
    assert!(made.is_sorted(), "{made:?}");
    for id in ["order.gas_way", "order.buries", "workshop.one_lump"] {
        assert_eq!(verdict(&design, id), Some(Verdict::Good), "{id}");
    }
}

/// A train in another order gets its own joints.
#[test]
fn joints_follow_another_train_as_well() {
    let mut design = power_wanted(10.0);
    design.train.swap(2, 4);
    let design = complete(&design, &[]);
    assert_eq!(verdict(&design, "order.gas_way"), Some(Verdict::Good));
    let sides: Vec<[Group; 2]> = (design.joints.iter().skip(7))
        .map(|joint| [joint.first, joint.second])
        .collect();
    use Group::{Condensate, Cooler, Filter, Reactor};
    let wanted = [
        [Reactor, Filter],
        [Filter, Condensate],
        [Condensate, Cooler],
    ];
    assert!(sides.starts_with(&wanted), "{sides:?}");
}

/// The box around a part.
fn box_of(solid: &Solid) -> BoxEnvelope {
    match solid.envelope {
        Envelope::Box(sides) => sides,
        Envelope::Round(round) => {
            let radius = round.outer_bottom.max(round.outer_top);
            BoxEnvelope {
                left: round.x - radius,
                right: round.x + radius,
                front: round.y - radius,
                back: round.y + radius,
                bottom: round.bottom,
                top: round.top,
            }
        }
    }
}

/// Whether the box of a part reaches into a solid.
fn meet(part: &BoxEnvelope, other: &Envelope) -> bool {
    if part.bottom >= other.top() || other.bottom() >= part.top {
        return false;
    }
    match other {
        Envelope::Box(sides) => {
            part.left < sides.right
                && sides.left < part.right
                && part.front < sides.back
                && sides.front < part.back
        }
        Envelope::Round(round) => {
            let away =
                |least: Length, most: Length, at: Length| (at - at.max(least).min(most)).value;
            let across = away(part.left, part.right, round.x);
            let along = away(part.front, part.back, round.y);
            across.hypot(along) < round.outer_bottom.max(round.outer_top).value
        }
    }
}

/// The parts of a machine that do not lie in another one.
fn parts_beside<'a>(design: &Design, machine: &'a Machine) -> Vec<&'a Solid> {
    let inside = |name: &str| {
        ["Filter packing and grids"].contains(&name)
            || name.starts_with("Water in")
            || name.ends_with(", bottom")
            || name.ends_with(", lid")
    };
    (machine.solids.iter())
        .filter(
            |solid| matches!(solid.piece, Piece::Part(place) if !inside(&design.parts[place].name)),
        )
        .collect()
}

#[test]
fn no_part_stands_in_the_vessel_the_frame_or_another_part() {
    for kilowatts in POWERS {
        let design = complete(&power_wanted(kilowatts), &[]);
        let machine = layout(&design);
        let parts = parts_beside(&design, &machine);
        assert_eq!(parts.len(), 10);
        let fixed = (machine.solids.iter()).filter(|solid| !matches!(solid.piece, Piece::Part(_)));
        for solid in fixed {
            for part in &parts {
                let name = part.piece.label(&design);
                let of_drum = matches!(solid.piece, Piece::Closure(Closure::DrumFlange(_)));
                if of_drum && name == "Filter drum" {
                    continue;
                }
                let other = solid.piece.label(&design);
                assert!(
                    !meet(&box_of(part), &solid.envelope),
                    "{kilowatts} kW: {name} in {other}"
                );
            }
        }
        for (place, part) in parts.iter().enumerate() {
            for other in &parts[place + 1..] {
                let names = [part, other].map(|solid| solid.piece.label(&design));
                assert!(
                    !meet(&box_of(part), &Envelope::Box(box_of(other))),
                    "{kilowatts} kW: {names:?}"
                );
            }
        }
        assert_eq!(
            verdict(&design, "workshop.train_weight"),
            Some(Verdict::Good)
        );
    }
}

/// What the lid of the filter weighs more, in kg, by the edge that is bolted to its flange.
fn edge_of_lid(design: &Design, machine: &Machine, group: Group) -> f64 {
    if group != Group::Filter {
        return 0.0;
    }
    let place = (design.parts.iter()).position(|part| part.name == "Filter drum, lid");
    let place = place.unwrap();
    let solid = (machine.solids.iter()).find(|solid| solid.piece == Piece::Part(place));
    let lid = &design.parts[place];
    let disc = 0.25 * PI * lid.diameter.value.powi(2) * lid.thickness.value;
    solid.unwrap().mass.value - disc * design.material_density(lid.material).unwrap().value
}

/// The parts list has each trap, filter and blower as a stage and as a part that stands for it: both of one size.
#[test]
fn the_other_parts_are_as_large_and_heavy_as_the_stages() {
    for kilowatts in POWERS.into_iter().chain([2.0]) {
        let design = complete(&power_wanted(kilowatts), &[]);
        let machine = layout(&design);
        let stages = |kind: StageKind| design.train.iter().filter(move |stage| stage.kind == kind);
        let part = |name: &str| {
            (design.parts.iter())
                .find(|part| part.name == name)
                .unwrap()
        };
        for (name, stage) in (["Condensate trap", "Last trap"].into_iter())
            .zip(stages(StageKind::Trap))
            .chain([("Filter drum", stages(StageKind::Filter).next().unwrap())])
        {
            let [bore, height] = drum_size(stage).unwrap();
            let drum = part(name);
            assert_eq!(drum.height, height, "{kilowatts} kW: {name}");
            assert_eq!(drum.thickness, stage.wall);
            assert!(same(drum.diameter - 2.0 * drum.thickness, bore));
        }
        let lines = parts_list(&design, &machine);
        for (group, kinds) in [
            (Group::Condensate, [StageKind::Trap, StageKind::Trap]),
            (Group::Filter, [StageKind::Filter, StageKind::Cyclone]),
            (Group::Cooler, [StageKind::Cooler, StageKind::Pipe]),
        ] {
            let stands: f64 = (lines.iter())
                .filter(|line| line.group == group && line.from.starts_with("parts."))
                .map(|line| line.mass.value)
                .sum();
            let stands = stands - edge_of_lid(&design, &machine, group);
            let computed: f64 = (design.train.iter())
                .filter(|stage| kinds.contains(&stage.kind))
                .map(|stage| computed_mass(&design, stage).value)
                .sum();
            assert!(
                (stands / computed - 1.0).abs() < 1e-3,
                "{kilowatts} kW: {stands} {computed}"
            );
        }
        let blower = stages(StageKind::Blower).next().unwrap();
        assert_eq!(part("Blower with motor").mass, blower.own_weight);
        // All of the train stands somewhere, and nothing else is taken for it, such as battery and switch box.
        for weight in assess(&design).workshop.train_weights {
            let edge = edge_of_lid(&design, &machine, weight.group);
            let share = (weight.placed.value - edge) / weight.computed.value;
            assert!((share - 1.0).abs() < 1e-3, "{kilowatts} kW: {weight:?}");
        }
        let stages: Vec<_> = (lines.iter())
            .filter(|line| line.from.starts_with("train."))
            .collect();
        assert!((stages.iter()).all(|line| line.counted == Counted::AsOtherParts));
        // Both traps hold water when the machine is full.
        let full: f64 = (machine.solids.iter())
            .filter(|solid| solid.group == Group::Condensate)
            .filter(|solid| solid.presence == Presence::WhenFull)
            .map(|solid| solid.mass.value)
            .sum();
        let held: f64 = (design.train.iter())
            .filter(|stage| stage.kind == StageKind::Trap)
            .map(|stage| {
                let [bore, height] = drum_size(stage).unwrap();
                let drum = (0.25 * PI * bore * bore * height).value;
                1000.0 * stage.capacity.value.min(0.8 * drum)
            })
            .sum();
        assert!(
            (full / held - 1.0).abs() < 1e-6,
            "{kilowatts} kW: {full} {held}"
        );
    }
}

#[test]
fn the_battery_is_held_against_the_wall_at_its_height() {
    let design = complete(&power_wanted(5.0), &[]);
    let battery = (design.parts.iter())
        .find(|part| part.name == "Battery")
        .unwrap();
    assert!(battery.z + battery.height < layout(&design).vessel.hearth_top);
    assert_eq!(design.battery_box.beside, HotWall::Hearth);
    assert_eq!(verdict(&design, "electrics.box"), Some(Verdict::Good));
}

#[test]
fn the_tubes_of_the_cooler_are_no_longer_than_the_machine_is_high() {
    for kilowatts in POWERS {
        let design = complete(&power_wanted(kilowatts), &[]);
        let is_cooler = |stage: &&TrainStage| stage.kind == StageKind::Cooler;
        let cooler = design.train.iter().find(is_cooler).unwrap();
        assert_eq!(cooler.lie, Lie::Upright);
        assert!(cooler.tube_length < layout(&design).vessel.hopper_top);
        for id in [
            "workshop.cooler_tubes",
            "train.engine_temperature",
            "leaks.plan",
        ] {
            assert_eq!(
                verdict(&design, id),
                Some(Verdict::Good),
                "{kilowatts} kW: {id}"
            );
        }
    }
}

/// A train of one's own has as many parts as stages on its way, each by its name, and none for what it lacks.
#[test]
fn each_pipe_and_cyclone_of_a_train_stands_somewhere() {
    let mut answered = power_wanted(5.0);
    let pipe = answered.train[0].clone();
    answered.train.insert(
        3,
        TrainStage {
            name: "Pipe across".to_string(),
            ..pipe
        },
    );
    answered
        .train
        .retain(|stage| stage.kind != StageKind::Cyclone);
    let design = complete(&answered, &[]);
    let parts = |name: &str| design.parts.iter().filter(|part| part.name == name).count();
    for (name, count) in [
        ("Hearth outlet", 1),
        ("Pipe across", 1),
        ("Pipe with fittings", 1),
        ("Cyclone", 0),
    ] {
        assert_eq!(parts(name), count, "{name}");
    }
    assert_eq!(
        verdict(&design, "workshop.train_weight"),
        Some(Verdict::Good)
    );
}

/// What is cool enough to touch needs no guard: the lid, that lies under wool, has none to be bought.
#[test]
fn no_guard_is_to_be_bought_for_a_lid_that_is_cool_enough() {
    for kilowatts in POWERS {
        let design = complete(&power_wanted(kilowatts), &[]);
        assert!(!also_needed(&design).contains(&Need::Guard(Zone::Lid)));
        assert_eq!(
            verdict(&design, "warmth.touch_lid"),
            Some(Verdict::Good),
            "{kilowatts} kW"
        );
    }
    assert!(example::as_first_drawn().lid.guarded);
}
