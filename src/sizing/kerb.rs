//! Does it go over when its wheels strike a kerb?
//!
//! The wheels on one edge strike a low kerb together while the machine is pushed at walking pace.
//! A wheel that turns freely passes no force around its rim, so the blow acts from the kerb's edge
//! through the axle; it is taken as plastic (the wheel stays on the kerb) and over in an instant.
//! Momentum and angular momentum of the rigid machine give its turning about the axle just after the
//! blow (plane rigid-body mechanics). It goes over when the energy of that turning lifts the centre of
//! gravity over the axle; on ground that falls towards the edge it has less far to go. Left out: give of tyres and frame, and the hand that goes on pushing. At a
//! kerb as high as the axle, or higher, and wherever the wheel cannot climb, the axle stops dead.

use super::footprint::{Edge, Footprint};
use super::tipping::Lever;
use super::weight::Weight;
use crate::design::inputs::Base;
use crate::physics::air::GRAVITY;
use uom::si::f64::{Energy, Force, Length, Velocity};

/// Rolling speed that tips it, over the rolling speed: half as much again in energy. Our own mark.
pub const RESERVE: f64 = 1.25;
/// A machine that stands still strikes no kerb; a speed below this is taken as this, m/s.
const SLOWEST: f64 = 1.0e-3;

/// The rolling speed that must not yet tip it.
///
/// ```
/// use hearthplan::{design::Design, sizing::kerb::wanted_speed};
/// let base = Design::default().base;
/// assert_eq!(wanted_speed(&base), 1.25 * base.walking_speed);
/// ```
pub fn wanted_speed(base: &Base) -> Velocity {
    let slowest = Velocity::new::<uom::si::velocity::meter_per_second>(SLOWEST);
    RESERVE * base.walking_speed.max(slowest)
}

/// What a kerb does to the machine.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KerbStrike {
    /// The edge whose wheels strike.
    pub edge: Edge,
    /// Energy of turning about the axle after the blow, at the rolling speed.
    pub turning_energy: Energy,
    /// Energy that brings the centre of gravity over the axle, on the ground where it stands.
    pub tip_energy: Energy,
    /// Rolling speed at which it just goes over; none when the wheel rides up instead.
    pub tip_speed: Option<Velocity>,
    /// Level push at the axles that climbs the kerb from rest; none when it cannot be climbed.
    pub climb_push: Option<Force>,
    /// Load on the wheels that strike.
    pub wheel_load: Force,
    /// Level distance of the centre of gravity behind the axle.
    pub distance: Length,
    /// Height of the centre of gravity above the axle; negative below it.
    pub above_axle: Length,
    /// Radius of gyration about the centre of gravity, for turning over this edge.
    pub gyration: Length,
    /// What the axle does after the blow.
    pub axle: AxleAfter,
}

/// What the axle of the wheels that struck does after the blow.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AxleAfter {
    /// It goes on, up and over the kerb's edge, while the machine turns.
    Climbs,
    /// It stops, and the machine turns about it.
    Stops,
    /// The blow turns the machine back onto its wheels.
    RidesUp,
}

/// The blow of a kerb on the wheels of one edge. None when that edge does not roll.
///
/// ```
/// use hearthplan::design::{Design, inputs::Stance};
/// use hearthplan::sizing::{footprint, kerb, machine, weight};
/// let mut design = Design::default();
/// design.base.stance = Stance::FourWheels;
/// let weights = weight::weigh(&machine::layout(&design));
/// let footprint = footprint::footprint(&design);
/// let strike = kerb::strike(&design.base, &footprint, &footprint.edges[0], &weights.full).unwrap();
/// assert!(strike.tip_speed.is_some());
/// ```
pub fn strike(
    base: &Base,
    footprint: &Footprint,
    edge: &Edge,
    weight: &Weight,
) -> Option<KerbStrike> {
    if !edge.rolls {
        return None;
    }
    let radius = 0.5 * base.wheel_diameter.value;
    let kerb = base.kerb_height.value;
    let (mass, outwards) = (weight.mass.value, edge.outwards());
    let distance = edge
        .distance_inside(weight.centre.x, weight.centre.y)
        .value
        .max(0.0);
    // Way from kerb's edge to axle: cosine and sine of its lean from the plumb line.
    let upright = ((radius - kerb) / radius).clamp(0.0, 1.0);
    let level = (1.0 - upright * upright).sqrt();
    let above_axle = weight.centre.z.value - radius;
    let gyration = weight.gyration_squared(outwards).value;
    // Arm of the blow about the centre of gravity; positive turns it over the kerb.
    let arm = above_axle * level - distance * upright;
    let about_axle = gyration + distance * distance + above_axle * above_axle;
    // Rate of turning at a rolling speed of one, and what the axle does: both for any speed.
    let (rate, axle) = if about_axle <= 0.0 || gyration <= 0.0 {
        (0.0, AxleAfter::RidesUp)
    } else {
        let blow = level / (1.0 + arm * arm / gyration);
        let free = blow * arm / gyration;
        // Speed of the axle up and over the kerb's edge. When it would move back down, the ground
        // under the wheel holds it too, and the machine turns about an axle at rest.
        let climbing = upright * (1.0 - free * above_axle) - level * free * distance;
        if climbing >= 0.0 {
            (free, AxleAfter::Climbs)
        } else {
            (above_axle / about_axle, AxleAfter::Stops)
        }
    };
    let turning = |speed: f64| 0.5 * mass * about_axle * (rate * speed).powi(2);
    let tip_energy = Lever {
        distance,
        height: above_axle,
        weight: mass * GRAVITY,
        slope: base.slope.value,
    }
    .tip_energy();
    let goes_over = arm > 0.0 && above_axle > 0.0;
    let at_one = turning(1.0);
    let span = span(footprint, edge);
    let share = if span > 0.0 {
        ((span - distance) / span).clamp(0.0, 1.0)
    } else {
        1.0
    };
    let wheel_load = Force::new::<uom::si::force::newton>(mass * GRAVITY * share);
    let metres = Length::new::<uom::si::length::meter>;
    let joule = Energy::new::<uom::si::energy::joule>;
    Some(KerbStrike {
        edge: *edge,
        turning_energy: joule(if goes_over {
            turning(base.walking_speed.value)
        } else {
            0.0
        }),
        tip_energy: joule(tip_energy),
        tip_speed: (goes_over && at_one > 0.0).then(|| {
            Velocity::new::<uom::si::velocity::meter_per_second>((tip_energy / at_one).sqrt())
        }),
        climb_push: (upright > 0.0).then(|| wheel_load * (level / upright)),
        wheel_load,
        distance: metres(distance),
        above_axle: metres(above_axle),
        gyration: metres(gyration.max(0.0).sqrt()),
        axle: if goes_over { axle } else { AxleAfter::RidesUp },
    })
}

/// Width of the footprint across an edge, m.
fn span(footprint: &Footprint, edge: &Edge) -> f64 {
    (footprint.points.iter())
        .map(|point| edge.distance_inside(point.x, point.y).value)
        .fold(0.0, f64::max)
}
