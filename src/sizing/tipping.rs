//! When does it tip? Tip angle, push, energy, and whether it slides or rolls away first.
//!
//! A rigid machine tips over an edge of its footprint when the resultant of weight and push passes outside that edge:
//! statics, no source needed. Ground that slopes is taken to fall towards each edge in turn, since nobody promises to
//! turn the machine the better way round.

use super::footprint::{Edge, Footprint};
use super::grip::against_push;
use super::machine::Machine;
use super::weight::{State, Weight};
use crate::design::inputs::{Base, Limits};
use crate::physics::air::GRAVITY;
use uom::si::angle::radian;
use uom::si::energy::joule;
use uom::si::f64::{Angle, Energy, Force, Length, Mass};
use uom::si::force::newton;
use uom::si::length::meter;

/// A push lower than this is taken at this height, m: nobody pushes at the ground. Our own mark.
const LOWEST_PUSH: f64 = 0.05;

/// What the machine does first when it is pushed harder and harder.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GivesWay {
    /// It tips.
    Tips,
    /// It slides.
    Slides,
    /// It rolls away.
    Rolls,
}

/// How the machine stands against tipping over one edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EdgeTipping {
    /// The edge.
    pub edge: Edge,
    /// Distance of the centre of gravity inside the edge, level; negative when it lies outside.
    pub distance: Length,
    /// Slope of the ground, falling towards this edge, on which it tips; negative when it falls
    /// over on level ground.
    pub tip_angle: Angle,
    /// Push along the ground at push height that tips it, with its feet or wheels held; 0 when it falls by itself.
    pub tip_push: Force,
    /// Grip of feet and wheels this way, over the force that it presses on the ground with, by what each of them carries under
    /// such a push.
    pub grip: f64,
    /// Push along the ground that makes it slide or roll this way; 0 when it does by itself.
    pub give_push: Force,
    /// What it does first.
    pub gives_way: GivesWay,
    /// Energy that brings its centre of gravity over the edge.
    pub tip_energy: Energy,
}

/// How the machine stands against tipping in one state.
#[derive(Debug, Clone, PartialEq)]
pub struct StateTipping {
    /// The state.
    pub state: State,
    /// Its weight.
    pub weight: Weight,
    /// Height of the push: push height, or the top if that is lower.
    pub push_height: Length,
    /// One answer for each edge of the footprint.
    pub edges: Vec<EdgeTipping>,
}

impl StateTipping {
    /// The edge it tips over first on a slope. None without a footprint.
    pub fn weakest(&self) -> Option<&EdgeTipping> {
        (self.edges.iter()).min_by(|a, b| a.tip_angle.value.total_cmp(&b.tip_angle.value))
    }

    /// The edge over which the least push tips it. None without a footprint.
    pub fn weakest_to_push(&self) -> Option<&EdgeTipping> {
        (self.edges.iter()).min_by(|a, b| a.tip_push.value.total_cmp(&b.tip_push.value))
    }

    /// Slope on which it tips when the ground falls towards `azimuth` (from the x axis, towards
    /// the y axis). None without a footprint.
    ///
    /// ```
    /// use hearthplan::{design::Design, review};
    /// use uom::si::{angle::degree, f64::Angle};
    /// let standing = review::assess(&Design::default()).standing;
    /// let towards = |azimuth| standing.full.tip_angle_towards(Angle::new::<degree>(azimuth)).unwrap();
    /// // Towards a corner it stands steeper than towards a side.
    /// assert!(towards(45.0) > towards(0.0));
    /// ```
    pub fn tip_angle_towards(&self, azimuth: Angle) -> Option<Angle> {
        let (uy, ux) = azimuth.value.sin_cos();
        let height = self.weight.centre.z.value;
        self.edges
            .iter()
            .filter_map(|answer| {
                let (nx, ny) = answer.edge.outwards();
                let share = nx * ux + ny * uy;
                let distance = answer.distance.value;
                // Outside an edge it falls whichever way the ground slopes.
                let level = if distance < 0.0 { 1.0 } else { share };
                (level > 1.0e-9).then(|| distance.atan2(height * level))
            })
            .reduce(f64::min)
            .map(Angle::new::<radian>)
    }

    /// Slope still in hand on ground that slopes by this much towards the weakest side; negative
    /// when it tips there. None without a footprint.
    pub fn margin_on_slope(&self, slope: Angle) -> Option<Angle> {
        self.weakest().map(|answer| answer.tip_angle - slope)
    }
}

/// Statics of one edge: distance of the centre of gravity from it and its height, m, weight in N, and the slope of the
/// ground towards the edge, rad.
#[derive(Debug, Clone, Copy)]
pub(super) struct Lever {
    pub distance: f64,
    pub height: f64,
    pub weight: f64,
    pub slope: f64,
}

impl Lever {
    pub fn tip_angle(self) -> f64 {
        self.distance.atan2(self.height)
    }

    /// Level distance of the weight inside the edge, m; 0 when it lies outside.
    pub fn arm(self) -> f64 {
        let (across, down) = (self.slope.cos(), self.slope.sin());
        (self.distance * across - self.height * down).max(0.0)
    }

    pub fn tip_push(self, push_height: f64) -> f64 {
        self.weight * self.arm() / push_height
    }

    pub fn tip_energy(self) -> f64 {
        if self.arm() > 0.0 {
            let above = self.height * self.slope.cos() + self.distance * self.slope.sin();
            self.weight * (self.distance.hypot(self.height) - above)
        } else {
            0.0
        }
    }
}

/// The height of a push on a machine whose top is at `top`, both m.
pub(super) fn push_height(base: &Base, top: f64) -> f64 {
    base.push_height.value.min(top).max(LOWEST_PUSH)
}

/// The level push it must bear: the lesser of a share of its weight and the most asked for.
///
/// ```
/// use hearthplan::{design::Design, sizing::tipping::needed_push};
/// use uom::si::{f64::Mass, mass::kilogram};
/// let limits = Design::default().limits;
/// assert_eq!(needed_push(&limits, Mass::new::<kilogram>(1000.0)), limits.push_most);
/// ```
pub fn needed_push(limits: &Limits, mass: Mass) -> Force {
    let share = Force::new::<newton>(limits.push_share.value * mass.value * GRAVITY);
    share.min(limits.push_most)
}

/// How a machine in one state stands against tipping over each edge of its footprint.
///
/// ```
/// use hearthplan::design::Design;
/// use hearthplan::sizing::{footprint, machine, tipping, weight};
/// let design = Design::default();
/// let machine = machine::layout(&design);
/// let weights = weight::weigh(&machine);
/// let footprint = footprint::footprint(&design);
/// let full = tipping::tipping(&design.base, &machine, &footprint, &weights, weight::State::Full);
/// assert!(full.weakest().unwrap().tip_angle.value > 0.0);
/// ```
pub fn tipping(
    base: &Base,
    machine: &Machine,
    footprint: &Footprint,
    weights: &super::weight::Weights,
    state: State,
) -> StateTipping {
    let weight = *weights.in_state(state);
    let top = match state {
        State::HopperOff => machine.top_without_hopper,
        State::Empty | State::Full => machine.top,
    };
    let push_height = push_height(base, top.value);
    let newtons = weight.mass.value * GRAVITY;
    let edges = (footprint.edges.iter())
        .map(|&edge| {
            let distance = edge.distance_inside(weight.centre.x, weight.centre.y);
            let lever = Lever {
                distance: distance.value,
                height: weight.centre.z.value,
                weight: newtons,
                slope: base.slope.value,
            };
            let tip_push = lever.tip_push(push_height);
            let push = (edge.outwards(), push_height);
            let held_by = against_push(base, footprint, &weight, push);
            let grip = held_by.over_load;
            let held = grip * base.slope.value.cos() - base.slope.value.sin();
            let give_push = held.max(0.0) * newtons;
            EdgeTipping {
                edge,
                distance,
                tip_angle: Angle::new::<radian>(lever.tip_angle()),
                tip_push: Force::new::<newton>(tip_push),
                grip,
                give_push: Force::new::<newton>(give_push),
                gives_way: if tip_push <= give_push {
                    GivesWay::Tips
                } else if held_by.gripping > 0.0 {
                    GivesWay::Slides
                } else {
                    GivesWay::Rolls
                },
                tip_energy: Energy::new::<joule>(lever.tip_energy()),
            }
        })
        .collect();
    StateTipping {
        state,
        weight,
        push_height: Length::new::<meter>(push_height),
        edges,
    }
}
