//! Tip angle, push, energy, kerb and wind against closed forms.

use super::{add_weight, bare, choose, close, set};
use hearthplan::design::inputs::{Contact, ContactKind, Stance};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::review::{Standing, Verdict, assess};
use hearthplan::sizing::base_width::tip_angles_at_width;
use hearthplan::sizing::footprint::Towards;
use hearthplan::sizing::tipping::{EdgeTipping, GivesWay, StateTipping};
use uom::si::f64::{Angle, Length};
use uom::si::{angle::degree, length::meter};

const GRAVITY: f64 = 9.80665;

/// Five tonnes at one place: everything else weighs next to nothing.
fn heavy(place: (f64, f64, f64)) -> Design {
    let mut design = bare();
    add_weight(&mut design, 5000.0, place);
    design
}

fn standing(design: &Design) -> Standing {
    assess(design).standing
}

fn towards(standing: &Standing, towards: Towards) -> EdgeTipping {
    let mut edges = standing.full.edges.iter();
    *edges.find(|answer| answer.edge.towards == towards).unwrap()
}

#[test]
fn one_weight_tips_where_geometry_says() {
    let mut design = heavy((0.1, -0.05, 1.0));
    set(&mut design, "base.width", 0.8);
    set(&mut design, "base.depth", 1.2);
    let standing = standing(&design);
    for (side, distance) in [
        (Towards::Right, 0.3),
        (Towards::Left, 0.5),
        (Towards::Front, 0.55),
        (Towards::Back, 0.65),
    ] {
        let answer = towards(&standing, side);
        close(answer.distance.value, distance, 0.01);
        close(answer.tip_angle.value, distance.atan(), 0.01);
        close(
            answer.tip_energy.value,
            5000.0 * GRAVITY * (distance.hypot(1.0) - 1.0),
            0.03,
        );
    }
    assert_eq!(
        standing.full.weakest().unwrap().edge.towards,
        Towards::Right
    );
}

#[test]
fn the_push_tips_at_push_height_or_at_the_top() {
    let mut design = heavy((0.0, 0.0, 1.0));
    set(&mut design, "base.push_height", 0.9);
    let top = standing(&design).machine.top.value;
    close(top, 1.0005, 1e-9);
    let push = towards(&standing(&design), Towards::Left).tip_push.value;
    let weight = standing(&design).full.weight.mass.value * GRAVITY;
    close(push, weight * 0.33 / 0.9, 1e-6);
    set(&mut design, "base.push_height", 4.0);
    let push = towards(&standing(&design), Towards::Left).tip_push.value;
    close(push, weight * 0.33 / top, 1e-6);
}

#[test]
fn on_a_slope_less_push_and_less_wind_tip_it() {
    let mut design = example::as_improved();
    let level = standing(&design);
    set(&mut design, "base.slope", 10_f64.to_radians());
    let sloping = standing(&design);
    let height = |tipping: &StateTipping| tipping.weight.centre.z.value;
    for (flat, sloped) in level.states().zip(sloping.states()) {
        for (before, after) in flat.edges.iter().zip(&sloped.edges) {
            // Seen from the edge, the centre of gravity stands at the tip angle; the slope turns it towards the plumb line.
            let reach = before.distance.value.hypot(height(flat));
            let weight = flat.weight.mass.value * GRAVITY;
            let left = before.tip_angle.value - 10_f64.to_radians();
            let push = weight * reach * left.sin() / flat.push_height.value;
            close(after.tip_push.value, push.max(0.0), 1e-9);
            close(
                after.tip_energy.value,
                weight * reach * (1.0 - left.cos()),
                1e-9,
            );
            assert_eq!(after.tip_angle, before.tip_angle);
            assert!(after.give_push < before.give_push);
        }
    }
    let speed = |standing: &Standing| standing.wind.as_ref().unwrap().load.tip_speed.unwrap();
    assert!(speed(&sloping) < speed(&level));
    // Steeper than it stands: nothing is left, and it goes by itself.
    set(&mut design, "base.slope", 44_f64.to_radians());
    for answer in &standing(&design).full.edges {
        assert_eq!((answer.tip_push.value, answer.tip_energy.value), (0.0, 0.0));
        assert_eq!(answer.give_push.value, 0.0);
    }
    let assessment = assess(&design);
    for id in ["standing.push", "standing.wind"] {
        let finding = assessment.finding(id).unwrap();
        assert_eq!(finding.verdict, Verdict::Stop, "{id}");
        let words = finding.compared.text(System::Metric);
        assert!(words.contains("down the slope of the ground"), "{words}");
    }
}

#[test]
fn feet_slide_on_ice_and_tip_on_concrete_while_wheels_roll() {
    let mut design = heavy((0.0, 0.0, 1.0));
    let first = |design: &Design| towards(&standing(design), Towards::Left).gives_way;
    set(&mut design, "base.friction", 0.05);
    assert_eq!(first(&design), GivesWay::Slides);
    set(&mut design, "base.friction", 0.8);
    assert_eq!(first(&design), GivesWay::Tips);
    choose(&mut design, "base.stance", "four_wheels");
    assert_eq!(first(&design), GivesWay::Rolls);
    design.base.brakes = true;
    assert_eq!(first(&design), GivesWay::Tips);
    design.base.brakes = false;
    design.base.swivel = false;
    // Fixed wheels roll front to back and grip sideways.
    assert_eq!(first(&design), GivesWay::Tips);
    let front = towards(&standing(&design), Towards::Front);
    assert_eq!(front.gives_way, GivesWay::Rolls);
}

#[test]
fn castors_narrow_the_base_by_their_trail() {
    let mut design = heavy((0.0, 0.0, 1.0));
    choose(&mut design, "base.stance", "four_wheels");
    set(&mut design, "base.castor_trail", 0.05);
    close(
        towards(&standing(&design), Towards::Left).distance.value,
        0.28,
        1e-6,
    );
    design.base.swivel = false;
    close(
        towards(&standing(&design), Towards::Left).distance.value,
        0.33,
        1e-6,
    );
}

#[test]
fn own_points_make_their_convex_hull() {
    let mut design = heavy((0.0, 0.0, 1.0));
    design.base.stance = Stance::Points;
    let point = |x: f64, y: f64| Contact {
        x: Length::new::<meter>(x),
        y: Length::new::<meter>(y),
        kind: ContactKind::Foot,
    };
    // A triangle, a doubled point, and one inside.
    design.contacts = vec![
        point(-0.4, -0.3),
        point(0.4, -0.3),
        point(0.0, 0.1),
        point(0.0, 0.5),
        point(0.4, -0.3),
    ];
    let standing = standing(&design);
    assert_eq!(standing.full.edges.len(), 3);
    let front = towards(&standing, Towards::Between(0, 1));
    close(front.distance.value, 0.3, 0.01);
    // The slanting sides run from (0.4, -0.3) to (0, 0.5): normal (2, 1)/√5.
    let side = towards(&standing, Towards::Between(1, 3));
    close(side.distance.value, 0.5 / 5.0_f64.sqrt(), 0.01);
}

#[test]
fn tip_angle_grows_towards_a_corner_as_the_plane_tilts() {
    let mut design = heavy((0.0, 0.0, 1.0));
    set(&mut design, "base.depth", 0.66);
    let full = standing(&design).full;
    let angle = |azimuth| {
        full.tip_angle_towards(Angle::new::<degree>(azimuth))
            .unwrap()
    };
    let height = full.weight.centre.z.value;
    close(angle(0.0).value, (0.33 / height).atan(), 1e-6);
    close(
        angle(45.0).value,
        (0.33 * 2.0_f64.sqrt() / height).atan(),
        1e-6,
    );
    let worst = (0..360).map(|azimuth| angle(f64::from(azimuth)).value);
    close(
        worst.fold(f64::INFINITY, f64::min),
        full.weakest().unwrap().tip_angle.value,
        1e-9,
    );
}

#[test]
fn a_kerb_as_high_as_the_axle_stops_the_wheel_dead() {
    let mut design = heavy((0.0, 0.0, 1.0));
    choose(&mut design, "base.stance", "four_wheels");
    set(&mut design, "base.wheel_diameter", 0.2);
    set(&mut design, "base.kerb_height", 0.1);
    let standing = standing(&design);
    let strike = standing.kerb.unwrap().strike;
    assert!(strike.climb_push.is_none());
    // Level blow at the axle: angular momentum about the axle is kept, m v a.
    let weight = standing.weights.in_state(standing.kerb.unwrap().state);
    let (arm, distance) = (weight.centre.z.value - 0.1, 0.3);
    let gyration = weight.gyration_squared((1.0, 0.0)).value;
    let about_axle = gyration + arm * arm + distance * distance;
    let rate = 1.2 * arm / about_axle;
    let kept = 0.5 * weight.mass.value * about_axle * rate * rate;
    close(strike.turning_energy.value, kept, 1e-6);
    close(
        strike.tip_energy.value,
        weight.mass.value * GRAVITY * (arm.hypot(distance) - arm),
        1e-6,
    );
    let speed = strike.tip_speed.unwrap().value;
    close(kept * (speed / 1.2).powi(2), strike.tip_energy.value, 1e-6);
    // On ground that falls towards the step the centre of gravity has less far to rise.
    set(&mut design, "base.slope", 0.1);
    let on_slope = self::standing(&design).kerb.unwrap().strike;
    close(
        on_slope.tip_energy.value,
        weight.mass.value
            * GRAVITY
            * (arm.hypot(distance) - arm * 0.1_f64.cos() - distance * 0.1_f64.sin()),
        1e-6,
    );
    assert!(on_slope.tip_speed.unwrap().value < speed);
}

#[test]
fn a_low_step_is_climbed_by_the_textbook_push() {
    let mut design = heavy((0.0, 0.0, 1.0));
    choose(&mut design, "base.stance", "four_wheels");
    design.base.swivel = false;
    set(&mut design, "base.kerb_height", 0.02);
    let standing = standing(&design);
    let push = standing.kerb.unwrap().strike.climb_push.unwrap().value;
    // Half the weight on the struck wheels; cosθ = 0.8, tanθ = 0.75.
    let weight = standing.kerb.unwrap();
    let mass = match weight.state {
        hearthplan::sizing::weight::State::Full => standing.full.weight.mass,
        _ => standing.empty.weight.mass,
    };
    close(push, 0.5 * mass.value * GRAVITY * 0.75, 1e-6);
}

#[test]
fn wind_on_a_bare_vessel_is_drag_times_height() {
    let mut design = bare();
    set(&mut design, "site.storm_wind", 25.0);
    let standing = standing(&design);
    let wind = standing.wind.unwrap().load;
    // Two bands 0.4 m wide and 0.5 m high above a clearance of 0.25 m; air of 1.204 kg/m³ at 20 °C.
    let pressure = 0.5 * 1.204 * 25.0 * 25.0;
    close(wind.force.value, 0.7 * pressure * 0.4 * 1.0, 0.001);
    close(wind.height.value, 0.75, 1e-9);
    close(wind.overturning.value, wind.force.value * 0.75, 1e-9);
    let weight = standing.empty.weight.mass.value * GRAVITY;
    close(wind.restoring.value, weight * 0.33, 1e-9);
    let ratio = wind.restoring.value / wind.overturning.value;
    close(wind.tip_speed.unwrap().value, 25.0 * ratio.sqrt(), 1e-9);
}

#[test]
fn anchors_hold_the_other_side_down_against_the_wind_alone() {
    let mut design = bare();
    set(&mut design, "site.storm_wind", 25.0);
    let free = standing(&design);
    set(&mut design, "base.anchors", 300.0);
    let held = standing(&design);
    let [before, now] = [&free, &held].map(|standing| standing.wind.unwrap().load);
    // The feet at the other side stand 0.66 m from the edge.
    close(now.reach.value, 0.66, 1e-9);
    close(
        now.restoring.value,
        before.restoring.value + 300.0 * 0.66,
        1e-9,
    );
    assert!(now.tip_speed > before.tip_speed);
    assert_eq!(held.empty.edges, free.empty.edges);
    // What has its weight beyond the edge would hang on them.
    add_weight(&mut design, 500.0, (0.0, 0.0, 1.5));
    set(&mut design, "base.slope", 0.7);
    assert_eq!(standing(&design).wind.unwrap().load.restoring.value, 0.0);
}

#[test]
fn the_hopper_catches_wind() {
    let mut design = Design::default();
    let with = standing(&design).wind.unwrap().load;
    design.hopper.fitted = false;
    let without = standing(&design).wind.unwrap().load;
    assert!(with.overturning > without.overturning);
}

#[test]
fn the_width_study_agrees_with_the_review() {
    for stance in ["feet", "two_wheels", "four_wheels"] {
        let mut design = Design::default();
        choose(&mut design, "base.stance", stance);
        add_weight(&mut design, 60.0, (0.1, 0.15, 0.9));
        for width in [0.3, 0.66, 1.4] {
            set(&mut design, "base.width", width);
            let angles = tip_angles_at_width(&Design::clone(&design), design.base.width).unwrap();
            let standing = standing(&design);
            let worst = |tipping: &hearthplan::sizing::tipping::StateTipping| {
                tipping.weakest().unwrap().tip_angle.value
            };
            close(angles.full.value, worst(&standing.full), 1e-9);
            close(angles.empty.value, worst(&standing.empty), 1e-9);
            close(
                angles.hopper_off.value,
                worst(standing.hopper_off.as_ref().unwrap()),
                1e-9,
            );
        }
    }
}
