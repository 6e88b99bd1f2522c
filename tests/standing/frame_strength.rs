//! The frame under the weight of the machine, worked by hand.

use super::{add_weight, bare, choose, close, set};
use hearthplan::design::Design;
use hearthplan::design::Value;
use hearthplan::design::quantity::System;
use hearthplan::review::{Chapter, Finding, Lever, Remedy, Verdict, ask, assess, remedies};
use hearthplan::sizing::frame_strength::{Bars, Member, SquareTube, frame_strength};
use hearthplan::sizing::metric_stock_table::SQUARE_WALLS;
use hearthplan::sizing::weight::Weight;
use uom::si::f64::{Length, Mass};
use uom::si::length::{meter, millimeter};
use uom::si::mass::kilogram;
use uom::si::pressure::megapascal;

fn finding(design: &Design) -> Finding {
    (ask(design, Chapter::Standing).into_iter())
        .find(|finding| finding.id == "standing.frame_bears")
        .unwrap()
}

/// 300 kg in the middle of a frame of this tube, in metres.
fn loaded(side: f64, wall: f64) -> Design {
    let mut design = bare();
    set(&mut design, "base.frame_side", side);
    set(&mut design, "base.frame_wall", wall);
    add_weight(&mut design, 300.0, (0.0, 0.0, 0.6));
    design
}

#[test]
fn each_member_bears_what_is_worked_by_hand() {
    // 66 cm by 80 cm, 25 cm high, tube of 40 × 3 mm: I = (40⁴ − 34⁴) / 12 = 101 972 mm⁴, W = 5098.6 mm³, A = 444 mm².
    // S235 bears 235 MPa · W = 1198.2 N·m. 300 kg weigh 2942.0 N, half of it on each bar.
    let weight = Weight {
        mass: Mass::new::<kilogram>(300.0),
        ..Weight::default()
    };
    let radius = Length::new::<meter>(0.25);
    let found = frame_strength(&Design::default(), &weight, radius).unwrap();
    // 133 mm from its middle the vessel lies on 2 √(250² − 133.3²) = 423 mm of a cross-bar.
    let Bars::Rectangle { rests, .. } = found.bars else {
        panic!("{found:?}");
    };
    close(rests.value, 0.42295, 1e-4);
    // 1471 N spread over 0.423 m in the middle of 0.66 m: M = 1471 (1.32 − 0.423) / 8 = 164.9 N·m.
    close(found.reserve(Member::CrossBar), 1198.2 / 164.94, 1e-3);
    // 735.5 N at each third of 0.80 m: M = 735.5 · 0.8 / 3 = 196.1 N·m.
    close(found.reserve(Member::SideBar), 1198.2 / 196.13, 1e-3);
    // Half of the weight on a leg of 21 cm, which is pressed flat at 104.3 kN long before it buckles at 1.17 MN.
    close(found.reserve(Member::Leg), 104_340.0 / 1471.0, 1e-3);
    assert_eq!(found.weakest().0, Member::SideBar);
}

#[test]
fn a_frame_of_thin_tube_is_a_stop_and_stout_tube_passes() {
    // 20 × 1 mm: W = (20⁴ − 18⁴) / 120 = 458.5 mm³ bears 107.8 N·m; the side bars of 0.80 m take m g · 0.8 / 12.
    let thin = finding(&loaded(0.020, 0.001));
    let mass = assess(&loaded(0.020, 0.001))
        .standing
        .weights
        .full
        .mass
        .value;
    let bears = 107.755 / (mass * 9.80665 * 0.8 / 12.0);
    assert!(
        (300.0..330.0).contains(&mass) && bears < 0.6,
        "{mass} {bears}"
    );
    assert_eq!(thin.verdict, Verdict::Stop);
    close(thin.margin.unwrap(), bears / 3.0 - 1.0, 1e-3);
    let told = thin.compared.text(System::Metric);
    assert!(
        told.contains("from front to back") && told.contains("bend for good"),
        "{told}"
    );
    // 30 × 2 mm: W = (30⁴ − 26⁴) / 180 = 1961.2 mm³, about 2.2 times.
    assert_eq!(finding(&loaded(0.030, 0.002)).verdict, Verdict::Watch);
    let stout = finding(&loaded(0.040, 0.003));
    assert_eq!(stout.verdict, Verdict::Good);
    assert!(stout.levers.is_empty());
    // No wall is enough for so narrow a tube: a full bar of 20 mm bears 1.6 times.
    let offered = remedies(&loaded(0.020, 0.001), "standing.frame_bears");
    let [wider, thicker] = offered.as_slice() else {
        panic!("{offered:?}");
    };
    assert!(thicker.change.is_none());
    let change = wider.change.as_ref().unwrap();
    let changed = change.apply(&loaded(0.020, 0.001)).unwrap();
    assert_eq!(finding(&changed).verdict, Verdict::Good);
}

/// A wall of a tenth of a millimetre more would lift the Stop, and no shop has it.
#[test]
fn a_thicker_wall_is_offered_as_it_is_sold() {
    let mut offered = 0;
    for wall in [0.001, 0.0012, 0.0015, 0.0021, 0.0024] {
        let wall_of = |remedy: &Remedy| match (&remedy.lever, &remedy.value) {
            (Lever::Input(path), Some(Value::Number(value))) if path == "base.frame_wall" => {
                Some(*value)
            }
            _ => None,
        };
        for remedy in remedies(&loaded(0.030, wall), "standing.frame_bears") {
            let Some(value) = wall_of(&remedy) else {
                continue;
            };
            offered += 1;
            assert!(value > wall && SQUARE_WALLS.contains(&value), "{value}");
        }
    }
    assert!(offered > 2, "{offered}");
}

#[test]
fn long_thin_legs_buckle() {
    let mut design = loaded(0.020, 0.001);
    set(&mut design, "base.width", 0.3);
    set(&mut design, "base.depth", 0.3);
    set(&mut design, "base.clearance", 1.2);
    // Legs of 1.18 m, I = 4585.3 mm⁴: π² · 205 GPa · I / (2.36 m)² = 1665.7 N, against half of the weight.
    let mass = assess(&design).standing.weights.full.mass.value;
    let told = finding(&design);
    close(
        told.margin.unwrap(),
        1665.7 / (0.5 * mass * 9.80665) / 3.0 - 1.0,
        1e-3,
    );
    assert_eq!(told.verdict, Verdict::Stop);
    assert!(told.compared.text(System::Metric).starts_with("the legs"));
    assert!(told.levers.len() == 3);
    // On wheels of 20 cm they are so much shorter.
    choose(&mut design, "base.stance", "four_wheels");
    let leg = assess(&design).standing.frame.unwrap().leg;
    close(leg.value, 0.98, 1e-9);
}

#[test]
fn a_wall_like_paper_buckles_before_the_steel_yields() {
    let mm = Length::new::<millimeter>;
    let bears = |side, wall| {
        let tube = SquareTube {
            side: mm(side),
            wall: mm(wall),
        };
        tube.bears().get::<megapascal>()
    };
    close(bears(40.0, 3.0), 235.0, 1e-12);
    // 3.615 · 205 GPa · (0.5 / 99)² = 18.9 MPa
    close(bears(100.0, 0.5), 18.90, 1e-3);
    // A full bar has no wall to buckle.
    close(bears(10.0, 5.0), 235.0, 1e-12);
    assert_eq!(finding(&loaded(0.1, 0.0005)).working.len(), 6);
}

/// The same points under another name are the same frame.
#[test]
fn own_points_at_the_corners_are_the_frame_that_is_welded() {
    for (side, wall) in [(0.010, 0.0005), (0.020, 0.001), (0.040, 0.003)] {
        let plain = loaded(side, wall);
        let mut own = plain.clone();
        choose(&mut own, "base.stance", "points");
        assert_eq!(assess(&own).standing.frame, assess(&plain).standing.frame);
        for id in ["standing.frame", "standing.frame_bears"] {
            let told = |design: &Design| {
                let asked = ask(design, Chapter::Standing);
                let found = asked.into_iter().find(|finding| finding.id == id).unwrap();
                (found.verdict, found.compared.text(System::Metric))
            };
            assert_eq!(told(&own), told(&plain), "{id}");
        }
        // Further legs under the side bars, and another middle.
        let before = assess(&own).standing.frame.unwrap();
        own.contacts.push(own.contacts[0].clone());
        set(&mut own, "contacts.4.y", 0.1);
        set(&mut own, "base.vessel_x", 0.1);
        for point in 0..5 {
            own.contacts[point].x += Length::new::<meter>(0.1);
        }
        add_weight(&mut own, 100.0, (0.1, 0.0, 0.6));
        let bars = |frame: &hearthplan::sizing::frame_strength::FrameStrength| match frame.bars {
            Bars::Rectangle { width, rests, .. } => (width, rests),
            Bars::Unknown { .. } => panic!("{frame:?}"),
        };
        let after = assess(&own).standing.frame.unwrap();
        close(bars(&after).0.value, bars(&before).0.value, 1e-12);
        assert_eq!(bars(&after).1, bars(&before).1);
    }
}

/// Three points at (∓330, −400) and (0, 400) mm: 865.4 mm between those furthest apart.
#[test]
fn a_frame_on_three_points_is_told_by_a_safe_bound() {
    let on_three = |side, wall| {
        let mut design = loaded(side, wall);
        choose(&mut design, "base.stance", "points");
        design.contacts.truncate(3);
        set(&mut design, "contacts.2.x", 0.0);
        design
    };
    let bound = |side: f64, wall: f64| {
        let design = on_three(side, wall);
        let found = assess(&design).standing.frame.unwrap();
        let hole = side - 2.0 * wall;
        let modulus = (side.powi(4) - hole.powi(4)) / (6.0 * side);
        let weight = found.mass.value * 9.80665;
        let longest = 0.33_f64.hypot(0.8);
        close(
            found.reserve(Member::Rail),
            4.0 * 235e6 * modulus / (weight * longest),
            1e-9,
        );
        // With a bar from each point straight to the vessel, both its ends held: F = 2 M / d.
        let radius = assess(&design)
            .standing
            .machine
            .vessel
            .hearth_outer_radius
            .value;
        let ways = 2.0 / (0.33_f64.hypot(0.4) - radius) + 1.0 / (0.4 - radius);
        close(found.at_best(), 2.0 * 235e6 * modulus * ways / weight, 1e-9);
        let told = finding(&design);
        let words = told.compared.text(System::Metric);
        (found.weakest().1, told.verdict, words)
    };
    let (stout, verdict, words) = bound(0.060, 0.004);
    assert!(stout > 3.0 && verdict == Verdict::Good, "{stout} {words}");
    assert!(words.contains("bears at the least"), "{words}");
    let (fair, verdict, words) = bound(0.040, 0.003);
    assert!(
        (1.5..3.0).contains(&fair) && verdict == Verdict::Watch,
        "{fair} {words}"
    );
    let (thin, verdict, words) = bound(0.025, 0.002);
    assert!(
        thin < 1.5 && verdict == Verdict::CannotTell,
        "{thin} {words}"
    );
    assert!(words.contains("how yours run decides"), "{words}");
    let (wire, verdict, words) = bound(0.010, 0.0005);
    assert!(wire < 0.1 && verdict == Verdict::Stop, "{wire} {words}");
    assert!(words.contains("bears at best"), "{words}");
    let offered = remedies(&on_three(0.040, 0.003), "standing.frame_bears");
    let change = offered[0].change.as_ref().unwrap();
    let changed = change.apply(&on_three(0.040, 0.003)).unwrap();
    assert_eq!(finding(&changed).verdict, Verdict::Good);
}

#[test]
fn a_vessel_beside_its_own_points_is_a_stop() {
    let mut design = bare();
    choose(&mut design, "base.stance", "points");
    set(&mut design, "base.vessel_x", 0.4);
    let found = (ask(&design, Chapter::Standing).into_iter())
        .find(|finding| finding.id == "standing.frame")
        .unwrap();
    assert_eq!(found.verdict, Verdict::Stop);
    for path in ["base.vessel_x", "contacts.1.x", "contacts.2.x"] {
        assert!(found.levers.contains(&Lever::input(path)), "{path}");
    }
}
