//! What is told of the wood: its water, its pieces, its char, and how long a filling lasts.

use super::{choose, share, verdict, with};
use crate::mended::every_remedy_passes;
use hearthplan::design::inputs::Group;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, celsius, example};
use hearthplan::review::{Lever, Verdict, assess, remedies};
use hearthplan::sizing::fuel::{char_drawn_of, fuel_of};
use hearthplan::sizing::heart::Basis;
use std::f64::consts::PI;
use uom::si::f64::Mass;
use uom::si::mass::gram;

#[test]
fn char_that_would_stay_over_makes_the_fire_hotter_and_is_told() {
    let wood = example::as_improved();
    assert!(assess(&wood).finding("heart.char_left").is_none());
    let charcoal = choose(wood, "fuel.kind", "charcoal");
    let assessment = assess(&with(charcoal, &[("fuel.moisture", 0.04)]));
    let finding = assessment.finding("heart.char_left").unwrap();
    assert_eq!(finding.verdict, Verdict::Watch);
    let gas = assessment.heart.at.full.solved.as_ref().unwrap().gas;
    assert!(gas.char_left < share(1e-6), "{:?}", gas.char_left);
    let hotter = gas.exit_temperature.value - celsius(800.0);
    assert!(hotter > 50.0, "{hotter}");
    assert!(-finding.margin.unwrap() >= hotter / celsius(800.0));
    assert!(
        finding
            .compared
            .text(System::Metric)
            .contains("not at 800 °C"),
        "{}",
        finding.compared.text(System::Metric)
    );
}

#[test]
fn drier_charcoal_burns_no_more_fuel_and_no_colder() {
    let charcoal = choose(example::as_improved(), "fuel.kind", "charcoal");
    let (mut fuel, mut mean) = (f64::INFINITY, 0.0);
    for moisture in [0.12, 0.10, 0.08, 0.06, 0.05, 0.03] {
        let assessment = assess(&with(charcoal.clone(), &[("fuel.moisture", moisture)]));
        let full = assessment.heart.at.full.solved.as_ref().unwrap();
        let burned = full.fuel_rate.value;
        assert!(
            burned < fuel && !(burned < 0.9 * fuel && fuel.is_finite()),
            "{moisture}: {burned} after {fuel}"
        );
        assert!(full.profile.mean.value > mean - 1.0, "{moisture}");
        (fuel, mean) = (burned, full.profile.mean.value);
        let verdict = verdict(&assessment, "heart.full");
        assert_eq!(verdict, Verdict::Watch, "{moisture}");
    }
}

#[test]
fn weighing_stands_for_the_moisture() {
    let mut design = example::as_improved();
    design.fuel.weighed_before = Some(Mass::new::<gram>(500.0));
    design.fuel.weighed_after = Some(Mass::new::<gram>(375.0));
    let assessment = assess(&design);
    let finding = assessment.finding("heart.moisture").unwrap();
    assert_eq!(finding.verdict, Verdict::Watch);
    assert!(
        finding
            .compared
            .text(System::Metric)
            .starts_with("25 % water by weighing")
    );
    assert!(finding.levers.is_empty());
    assert!(!design.in_use("fuel.moisture"));
    design.fuel.weighed_after = Some(Mass::new::<gram>(600.0));
    let assessment = assess(&design);
    for id in ["heart.moisture", "heart.full", "heart.turndown"] {
        assert_eq!(verdict(&assessment, id), Verdict::CannotTell, "{id}");
    }
    // The other chapters still answer, but for what burns, which that hearth tells too cold.
    assert_eq!(assessment.heart.at.full.supply.basis, Basis::Published);
    for id in [
        "warmth.touch_hearth",
        "warmth.layers_hearth",
        "hearth.lasts",
        "electrics.box",
    ] {
        let found = assessment.finding(id).unwrap();
        let words = found.compared.text(System::Metric);
        assert!(
            found.verdict == Verdict::Stop || words.contains("the hearth has no solution"),
            "{id}: {words}"
        );
    }
    assert_ne!(
        verdict(&assessment, "hearth.load_full"),
        Verdict::CannotTell
    );
}

/// 50 g on a scale that shows steps of 5 g may be 9 % off either way.
#[test]
fn a_scale_too_coarse_to_tell_passes_no_wood() {
    let said = |after: f64, step: f64| {
        let mut design = example::as_improved();
        design.fuel.weighed_before = Some(Mass::new::<gram>(50.0));
        design.fuel.weighed_after = Some(Mass::new::<gram>(after));
        design.fuel.scale_step = Mass::new::<gram>(step);
        let assessment = assess(&design);
        let finding = assessment.finding("heart.moisture").unwrap().clone();
        assert_eq!(
            finding.margin.is_none(),
            finding.verdict == Verdict::CannotTell
        );
        (finding.verdict, finding.compared.text(System::Metric))
    };
    let finer = "with a finer scale";
    for (after, step, verdict, is_told) in [
        (41.0, 5.0, Verdict::CannotTell, true),
        (41.0, 0.1, Verdict::Good, false),
        (36.0, 5.0, Verdict::Watch, true),
        (36.0, 0.1, Verdict::Watch, false),
        (34.0, 5.0, Verdict::Stop, false),
    ] {
        let (found, words) = said(after, step);
        assert_eq!(found, verdict, "{words}");
        assert_eq!(words.contains(finer), is_told, "{words}");
    }
}

#[test]
fn an_analysis_that_does_not_add_up_is_named() {
    let design = choose(Design::default(), "fuel.kind", "own");
    assert_ne!(verdict(&assess(&design), "heart.full"), Verdict::CannotTell);
    let design = with(design, &[("fuel.carbon", 0.6)]);
    let assessment = assess(&design);
    let finding = assessment.finding("heart.full").unwrap();
    assert_eq!(finding.verdict, Verdict::CannotTell);
    assert!(finding.compared.text(System::Metric).contains("add up to"));
}

#[test]
fn large_pieces_and_a_short_filling_are_seen() {
    let design = with(
        example::as_improved(),
        &[("fuel.piece_size", 0.080), ("hopper.height", 0.05)],
    );
    let assessment = assess(&design);
    assert_eq!(verdict(&assessment, "heart.pieces"), Verdict::Stop);
    assert_ne!(verdict(&assessment, "engine.refuel"), Verdict::Good);
    let small = with(example::as_improved(), &[("fuel.piece_size", 0.005)]);
    assert_eq!(verdict(&assess(&small), "heart.pieces"), Verdict::Stop);
}

/// By hand: the same share of straight part and cone, frustum and cylinder, as the machine weighs in its hopper.
#[test]
fn a_hopper_filled_in_part_lasts_as_long_as_the_wood_in_it() {
    let base = with(
        example::as_improved(),
        &[("hopper.cone_height", 0.2), ("hopper.height", 0.3)],
    );
    let (wide, narrow, cone, straight): (f64, f64, f64, f64) = (0.50, 0.354, 0.2, 0.3);
    let room = PI / 4.0 * wide * wide * straight
        + PI / 12.0 * cone * (wide * wide + wide * narrow + narrow * narrow);
    for share in [1.0, 0.6, 0.25, 0.0] {
        let design = with(base.clone(), &[("hopper.fill_share", share)]);
        let assessment = assess(&design);
        let filling = assessment.engine.filling.value;
        assert!((filling - share * 200.0 * room).abs() < 1e-9, "{share}");
        let groups = &assessment.standing.weights.groups;
        let hopper = groups
            .iter()
            .find(|sum| sum.group == Group::Hopper)
            .unwrap();
        let weighed = (hopper.full - hopper.empty).value;
        assert!((filling - weighed).abs() < 1e-9, "{share}");
    }
    let low = with(base, &[("hopper.fill_share", 0.2)]);
    assert_ne!(verdict(&assess(&low), "engine.refuel"), Verdict::Good);
    every_remedy_passes(&low, "engine.refuel", 1);
    let offered = remedies(&low, "engine.refuel");
    let fill = Lever::input("hopper.fill_share");
    assert!(offered.iter().any(|remedy| remedy.lever == fill));
}

#[test]
fn too_little_char_for_the_fuel_is_told_in_words() {
    let mut design = with(
        example::as_improved(),
        &[
            ("gas_making.char_share", 0.22),
            ("gas_making.equivalence_ratio", 0.25),
            ("fuel.moisture", 0.05),
        ],
    );
    (design.set("gas_making.air_rule", Value::Choice("air_held".into()))).unwrap();
    (design.set("fuel.kind", Value::Choice("charcoal".into()))).unwrap();
    let assessment = assess(&design);
    let told = assessment.finding("heart.full").unwrap();
    assert_eq!(told.verdict, Verdict::CannotTell);
    let words = told.compared.text(System::Metric);
    assert!(
        words.contains("22 % of char") && words.contains("“Char from the wood”"),
        "{words}"
    );
    // Left empty, as it says, there is an answer.
    design.gas_making.char_share = None;
    assert!(assess(&design).heart.at.full.solved.is_ok());
}

/// The ash room's time at the usual load by hand, s: ash, char lost and char left over.
fn time_by_hand(design: &Design) -> f64 {
    let usual = assess(design).heart.at.usual;
    let dry = usual.supply.fuel_rate.value * (1.0 - design.fuel.moisture.value);
    let wall = &design.hearth_wall;
    let tall = design.hearth.nozzle_height + design.hearth.reduction_height;
    let height = 0.5 * (wall.height - tall).value;
    let room = PI / 4.0 * wall.inside_diameter.value.powi(2) * height;
    let ash = fuel_of(design).unwrap().ash.value;
    let left = usual.solved.unwrap().gas.char_left.value;
    let lost = char_drawn_of(design).value;
    room * 150.0 / (dry * (ash + lost + left))
}

fn ash_room(design: &Design) -> (Verdict, f64) {
    let finding = assess(design).finding("hearth.ash_room").unwrap().clone();
    (finding.verdict, finding.working[1].result.si)
}

#[test]
fn char_that_the_air_leaves_over_is_told_and_fills_the_ash_room() {
    let air = |kind, ratio: f64| {
        let design = choose(example::as_improved(), "fuel.kind", kind);
        let design = choose(design, "gas_making.air_rule", "air_held");
        with(design, &[("gas_making.equivalence_ratio", ratio)])
    };
    for (kind, ratio, wanted) in [
        ("charcoal", 0.20, Verdict::Stop),
        ("softwood", 0.25, Verdict::Watch),
    ] {
        let design = air(kind, ratio);
        let assessment = assess(&design);
        let finding = assessment.finding("heart.char_left").unwrap();
        assert_eq!(finding.verdict, Verdict::Watch, "{kind}");
        assert!(finding.margin.unwrap() < 0.0);
        let left = finding.working[0].result.show(System::Metric);
        let told = finding.compared.text(System::Metric);
        assert!(told.contains(&format!("leaves {left} of")), "{told}");
        let (verdict, time) = ash_room(&design);
        assert_eq!(verdict, wanted, "{kind}: {time} s");
        let by_hand = time_by_hand(&design);
        assert!((time / by_hand - 1.0).abs() < 1e-9, "{time} {by_hand}");
        let room = assessment.finding("hearth.ash_room").unwrap();
        let told = room.compared.text(System::Metric);
        assert!(told.contains("“Char left over”"), "{told}");
    }
    // With air enough nothing is left.
    let design = air("softwood", 0.35);
    assert!(assess(&design).finding("heart.char_left").is_none());
    assert_eq!(ash_room(&design).0, Verdict::Good);
}

#[test]
fn no_more_char_is_lost_at_the_grate_than_the_wood_leaves() {
    let lost = |share| with(example::as_improved(), &[("gas_making.char_drawn", share)]);
    let all = ash_room(&lost(0.22)).1;
    for share in [0.03, 0.22] {
        assert!(assess(&lost(share)).finding("heart.char_drawn").is_none());
    }
    for share in [0.30, 0.50] {
        let assessment = assess(&lost(share));
        let finding = assessment.finding("heart.char_drawn").unwrap();
        assert_eq!(finding.verdict, Verdict::Watch);
        assert!(finding.margin.unwrap() < 0.0);
        let told = finding.compared.text(System::Metric);
        assert!(told.contains("but only 22 %"), "{told}");
        // Ash room and the working of the air reckon with what is told.
        assert_eq!(ash_room(&lost(share)).1, all);
        let air = &assessment.finding("heart.full").unwrap().working;
        let taken = (air.iter().flat_map(|step| &step.values))
            .find(|(_, words, _)| words.starts_with("char drawn off"));
        assert_eq!(taken.unwrap().2.si, 0.22);
    }
}
