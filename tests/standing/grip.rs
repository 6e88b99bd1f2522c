//! Sliding and rolling away against closed forms: feet and wheels hold by what each carries.

use super::{add_weight, bare, choose, close, set};
use hearthplan::design::inputs::{Contact, ContactKind, Stance};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Lever, Standing, Verdict, assess};
use hearthplan::sizing::footprint::Towards;
use hearthplan::sizing::grip::{Grip, on_slope};
use hearthplan::sizing::tipping::{EdgeTipping, GivesWay};
use uom::si::f64::Length;
use uom::si::length::meter;

const ROLLING: f64 = 0.03;
const MORE: f64 = 0.5 - ROLLING;

/// Five tonnes at one place over two feet in front and two wheels behind, 0.86 m apart.
fn on_wheels(back: f64, height: f64) -> Design {
    let mut design = bare();
    add_weight(&mut design, 5000.0, (0.0, back, height));
    choose(&mut design, "base.stance", "two_wheels");
    set(&mut design, "base.depth", 0.86);
    set(&mut design, "base.rolling_resistance", ROLLING);
    set(&mut design, "base.friction", ROLLING + MORE);
    design
}

fn standing(design: &Design) -> Standing {
    assess(design).standing
}

fn held(design: &Design) -> Grip {
    let standing = standing(design);
    on_slope(&design.base, &standing.footprint, &standing.full.weight)
}

/// Level distance of the centre of gravity in front of the wheels, and its height.
fn centre(standing: &Standing) -> (f64, f64) {
    let centre = &standing.full.weight.centre;
    (0.43 - centre.y.value, centre.z.value)
}

fn pushed(standing: &Standing, towards: Towards) -> EdgeTipping {
    let mut edges = standing.full.edges.iter();
    *edges.find(|answer| answer.edge.towards == towards).unwrap()
}

#[test]
fn wheels_and_feet_hold_by_the_moments_about_the_wheels() {
    for (back, height) in [(-0.012, 0.962), (0.1, 0.962), (0.3, 0.6), (-0.3, 1.3)] {
        let design = on_wheels(back, height);
        let (before, height) = centre(&standing(&design));
        let grip = held(&design);
        let stays = (ROLLING * 0.86 + MORE * before) / (0.86 + MORE * height);
        close(grip.over_load, stays, 1e-9);
        close(grip.gripping, (before - height * stays) / 0.86, 1e-6);
        assert_eq!(grip.way, (0.0, 1.0));
    }
}

/// As many feet as wheels would hold to 14.8°.
#[test]
fn weight_that_moves_onto_the_wheels_lets_it_roll() {
    let answered = |back: f64, degrees: f64| {
        let mut design = on_wheels(back, 0.962);
        set(&mut design, "base.slope", degrees.to_radians());
        let assessment = assess(&design);
        assessment.finding("standing.stay").unwrap().clone()
    };
    assert_eq!(answered(-0.012, 6.0).verdict, Verdict::Good);
    assert_eq!(answered(-0.012, 7.5).verdict, Verdict::Watch);
    assert_eq!(answered(-0.012, 10.0).verdict, Verdict::Watch);
    assert_eq!(answered(-0.012, 10.5).verdict, Verdict::Stop);
    let rolls = answered(0.1, 10.0);
    assert_eq!(rolls.verdict, Verdict::Stop);
    let told = rolls.compared.text(System::Metric);
    assert!(told.contains("falls towards the back"), "{told}");
    assert!(told.contains("rests on its feet"), "{told}");
    assert_eq!(rolls.working.len(), 2);
    let levers = ["base.brakes", "base.slope", "base.vessel_y"].map(Lever::input);
    assert_eq!(rolls.levers, levers);
    // Brakes hold all of it.
    let mut braked = on_wheels(0.1, 0.962);
    set(&mut braked, "base.slope", 10_f64.to_radians());
    braked.set("base.brakes", Value::Flag(true)).unwrap();
    assert_eq!(held(&braked).over_load, ROLLING + MORE);
    let assessment = assess(&braked);
    let found = assessment.finding("standing.stay").unwrap();
    assert_eq!(found.verdict, Verdict::Good);
    assert_eq!(found.working.len(), 1);
}

#[test]
fn a_push_moves_the_load_by_its_own_height() {
    let mut design = on_wheels(-0.05, 0.9);
    set(&mut design, "base.push_height", 0.6);
    let standing = standing(&design);
    let (before, height) = centre(&standing);
    let weight = standing.full.weight.mass.value * 9.80665;
    let back = pushed(&standing, Towards::Back);
    let over = (ROLLING * 0.86 + MORE * before) / (0.86 + MORE * 0.6);
    close(back.grip, over, 1e-9);
    close(back.give_push.value, over * weight, 1e-9);
    assert_eq!(back.gives_way, GivesWay::Slides);
    // The other way it presses the feet down.
    let front = pushed(&standing, Towards::Front);
    close(
        front.grip,
        (ROLLING * 0.86 + MORE * before) / (0.86 - MORE * 0.6),
        1e-9,
    );
    // Fixed wheels hold sideways as feet do.
    assert_eq!(pushed(&standing, Towards::Left).grip, ROLLING + MORE);
    // On a slope the weight leans on the wheels before anybody pushes.
    set(&mut design, "base.slope", 4_f64.to_radians());
    let sloping = pushed(&self::standing(&design), Towards::Back);
    let lean = (height - 0.6) * 4_f64.to_radians().tan();
    close(
        sloping.grip,
        (ROLLING * 0.86 + MORE * (before - lean)) / (0.86 + MORE * 0.6),
        1e-9,
    );
    // Steeper than it holds: it goes by itself.
    set(&mut design, "base.slope", 20_f64.to_radians());
    let steep = pushed(&self::standing(&design), Towards::Back);
    assert_eq!(steep.give_push.value, 0.0);
}

fn on_points(points: &[(f64, f64, ContactKind)], height: f64) -> Design {
    let mut design = on_wheels(0.0, height);
    design.base.stance = Stance::Points;
    design.contacts = (points.iter())
        .map(|&(x, y, kind)| Contact {
            x: Length::new::<meter>(x),
            y: Length::new::<meter>(y),
            kind,
        })
        .collect();
    design
}

#[test]
fn of_more_than_three_points_the_feet_may_carry_least() {
    use ContactKind::{Foot, Wheel};
    let corners = [(-0.4, -0.4), (0.4, -0.4), (0.4, 0.4), (-0.4, 0.4)];
    let mut points: Vec<_> = corners.map(|(x, y)| (x, y, Foot)).to_vec();
    points.push((0.0, 0.0, Wheel));
    // The wheel in the middle may carry all; down a diagonal one foot takes over last.
    let design = on_points(&points, 0.2);
    let height = standing(&design).full.weight.centre.z.value;
    let grip = held(&design);
    let onto_foot = height / (0.4 * 2_f64.sqrt());
    close(grip.over_load, ROLLING / (1.0 - MORE * onto_foot), 1e-2);
    // Three points leave no choice: castors roll straight towards the wheel.
    let three = on_points(
        &[(-0.4, -0.4, Foot), (0.4, -0.4, Foot), (0.0, 0.4, Wheel)],
        0.5,
    );
    let centre = standing(&three).full.weight.centre;
    let before = 0.4 - centre.y.value;
    let stays = (ROLLING * 0.8 + MORE * before) / (0.8 + MORE * centre.z.value);
    close(held(&three).over_load, stays, 1e-9);
    // Wheels alone roll, feet alone slide.
    let alike = |kind| on_points(&corners.map(|(x, y)| (x, y, kind)), 0.5);
    assert_eq!(held(&alike(Wheel)).over_load, ROLLING);
    assert_eq!(held(&alike(Foot)).over_load, ROLLING + MORE);
}

/// A straight tube gets its air from above: whoever shuts the top as a lid is shut has gas burn in the leaks.
#[test]
fn an_open_top_is_not_shut_while_it_runs() {
    let mut design = example::as_improved();
    let caution = |design: &Design, id: &str| {
        let assessment = assess(design);
        assessment.finding(id).unwrap().caution.unwrap()
    };
    assert!(caution(&design, "standing.filling").contains("shut it at once"));
    choose(&mut design, "hearth.kind", "straight");
    let filling = caution(&design, "standing.filling");
    assert!(filling.contains("never shut or cover it") && !filling.contains("at once"));
    assert!(caution(&design, "engine.refuel").contains("never cover it while it runs"));
    let assessment = assess(&design);
    let told = assessment.finding("standing.filling").unwrap();
    assert!(!told.why.contains("lid"), "{}", told.why);
}

#[test]
fn a_tall_hopper_is_filled_from_a_platform() {
    let mut design = example::as_improved();
    let asked = |design: &Design| {
        let assessment = assess(design);
        let found = assessment.finding("standing.filling").unwrap();
        assert!(
            found
                .caution
                .unwrap()
                .contains("Never lean over the open lid")
        );
        let rim = match design.hopper.fitted {
            true => assessment.standing.machine.vessel.hopper_top,
            false => assessment.standing.machine.vessel.lid_top,
        };
        assert_eq!(found.working[0].result.si, rim.value);
        // From higher than a metre a fall does grave harm.
        let is_high = rim.value > 1.1 + 1.0;
        assert_eq!(found.verdict == Verdict::Watch, is_high);
        assert_eq!(found.levers.is_empty(), !is_high);
        (rim.value, found.compared.text(System::Metric))
    };
    set(&mut design, "hopper.height", 1.2);
    let (rim, told) = asked(&design);
    assert!(rim > 2.1 && told.contains("from a firm platform"), "{told}");
    let platform = format!("about {:.0} mm high", 1000.0 * (rim - 1.1));
    assert!(told.contains(&platform), "{told}: {platform}");
    design.hopper.fitted = false;
    set(&mut design, "base.clearance", 0.25);
    let (rim, told) = asked(&design);
    assert!(rim < 1.5 && told.contains("rim of the vessel"), "{told}");
}
