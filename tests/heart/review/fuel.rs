//! What is told of the wood: its water, its pieces, its char, and how long a filling lasts.

use super::{choose, share, verdict, with};
use crate::mended::every_remedy_passes;
use hearthplan::design::inputs::Group;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, celsius, example};
use hearthplan::review::{Lever, Verdict, assess, remedies};
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
