//! Does the base frame bear the machine?
//!
//! The frame is that of the weights ([`machine`](super::machine)): a rectangle of square tube on four legs, with two
//! cross-bars a third of the depth apart under the vessel. Its members are beams that rest on their ends; a leg is held at
//! its top and free to sway at its foot, since nothing is known of braces. All of the weight stands on the cross-bars.
//! Euler and beam theory for cold, straight tube; welds, knocks and heat need what is left in reserve.

use crate::design::Design;
use crate::design::inputs::{ContactKind, Stance};
use crate::design::strength::MILD_STEEL;
use crate::physics::air::GRAVITY;
use crate::sizing::footprint::contact_points;
use crate::sizing::machine::CROSS_BAR_PLACE;
use crate::sizing::weight::Weight;
use std::f64::consts::PI;
use uom::si::f64::{Area, Length, Mass, Pressure};

/// Stress at which a long flat wall buckles, times (width / thickness)² over the modulus of elasticity: π² / (3 (1 − ν²))
/// with ν = 0.3 (Bryan, Proc. London Math. Soc. 22, 1890, from memory).
pub const WALL_BUCKLING: f64 = 3.615;

/// What a knock or a kerb makes of the weight. Our own mark.
pub const KNOCK: f64 = 2.0;
/// What is left for welds, rust and heat: without it the frame is a Stop. Our own mark.
pub const IN_HAND: f64 = 1.5;
/// How many times the weight a frame should bear.
pub const WANTED: f64 = KNOCK * IN_HAND;

/// Square steel tube as a beam and as a column.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SquareTube {
    /// Outside, from face to face.
    pub side: Length,
    /// Thickness of the wall.
    pub wall: Length,
}

impl SquareTube {
    /// Inside, from face to face; nothing for a full bar.
    pub fn hole(&self) -> Length {
        (self.side - 2.0 * self.wall).max(Length::default())
    }

    /// Section of the steel.
    pub fn area(&self) -> Area {
        self.side * self.side - self.hole() * self.hole()
    }

    /// Second moment of area, m⁴.
    ///
    /// ```
    /// use hearthplan::sizing::frame_strength::SquareTube;
    /// use uom::si::{f64::Length, length::millimeter};
    /// let mm = Length::new::<millimeter>;
    /// let tube = SquareTube { side: mm(40.0), wall: mm(3.0) };
    /// // (40⁴ − 34⁴) / 12 = 101 972 mm⁴
    /// assert!((tube.second_moment() - 1.019_72e-7).abs() < 1e-12);
    /// ```
    pub fn second_moment(&self) -> f64 {
        (self.side.value.powi(4) - self.hole().value.powi(4)) / 12.0
    }

    /// Section modulus, m³.
    pub fn modulus(&self) -> f64 {
        2.0 * self.second_moment() / self.side.value
    }

    /// Stress that it bears: to the yield strength of mild steel, or until so thin a wall buckles.
    pub fn bears(&self) -> Pressure {
        let slender = (self.wall / self.hole()).value;
        MILD_STEEL
            .yield_strength
            .min(WALL_BUCKLING * MILD_STEEL.stiffness * slender * slender)
    }
}

/// A kind of member of the frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Member {
    /// Under the vessel, from side to side.
    CrossBar,
    /// From front to back, with the ends of the cross-bars on it.
    SideBar,
    /// From a contact point up to the frame.
    Leg,
}

impl Member {
    /// All of them.
    pub const ALL: [Member; 3] = [Member::CrossBar, Member::SideBar, Member::Leg];
}

/// The frame under the weight of the machine.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FrameStrength {
    /// What it is welded from.
    pub tube: SquareTube,
    /// What stands on it.
    pub mass: Mass,
    /// From side to side.
    pub width: Length,
    /// From front to back.
    pub depth: Length,
    /// Length of a cross-bar that lies under the vessel.
    pub rests: Length,
    /// Longest leg, without its wheel.
    pub leg: Length,
    /// Share of the weight on the fuller cross-bar.
    pub on_bar: f64,
    /// Share of the weight on the fuller side bar.
    pub on_side: f64,
    /// Share of the weight on the fullest leg: on uneven ground two of them carry nearly all.
    pub on_leg: f64,
}

impl FrameStrength {
    /// How many times the weight a kind of member bears.
    pub fn reserve(&self, member: Member) -> f64 {
        let weight = self.mass.value * GRAVITY;
        let moment = self.tube.bears().value * self.tube.modulus();
        let (width, depth) = (self.width.value, self.depth.value);
        match member {
            Member::CrossBar => {
                8.0 * moment / (self.on_bar * weight * (2.0 * width - self.rests.value))
            }
            Member::SideBar => 9.0 * moment / (self.on_side * weight * (1.0 + self.on_bar) * depth),
            Member::Leg => {
                let crushed = self.tube.bears().value * self.tube.area().value;
                let stiffness = MILD_STEEL.stiffness.value * self.tube.second_moment();
                let buckles = PI * PI * stiffness / (2.0 * self.leg.value).powi(2);
                crushed.min(buckles) / (self.on_leg * weight)
            }
        }
    }

    /// The kind of member that gives way first, with how many times the weight it bears.
    pub fn weakest(&self) -> (Member, f64) {
        let [first, others @ ..] = Member::ALL.map(|member| (member, self.reserve(member)));
        (others.into_iter()).fold(first, |least, next| match next.1 < least.1 {
            true => next,
            false => least,
        })
    }
}

/// The frame of a design under a weight, the vessel of this outside radius on it. None for contact points of one's own,
/// whose frame nobody knows, and without a weight.
///
/// ```
/// use hearthplan::{design::Design, sizing::{frame_strength::frame_strength, machine, weight::{State, weigh}}};
/// let design = Design::default();
/// let machine = machine::layout(&design);
/// let weights = weigh(&machine);
/// let radius = machine.vessel.hearth_outer_radius;
/// let found = frame_strength(&design, weights.in_state(State::Full), radius).unwrap();
/// assert!(found.weakest().1 > 3.0);
/// ```
pub fn frame_strength(design: &Design, weight: &Weight, radius: Length) -> Option<FrameStrength> {
    let base = &design.base;
    if base.stance == Stance::Points {
        return None;
    }
    let underside = (base.clearance - base.frame_side).max(Length::default());
    let on_wheel = underside - base.wheel_diameter.min(underside);
    let all_wheels = contact_points(design)
        .iter()
        .all(|point| point.kind == ContactKind::Wheel);
    let aside = (weight.centre.x / base.width).value.abs();
    let along = (weight.centre.y / base.depth).value.abs();
    let beside = CROSS_BAR_PLACE * base.depth;
    let half_chord = (radius * radius - beside * beside)
        .max(Area::default())
        .sqrt();
    let found = FrameStrength {
        tube: SquareTube {
            side: base.frame_side,
            wall: base.frame_wall,
        },
        mass: weight.mass,
        width: base.width,
        depth: base.depth,
        rests: (2.0 * half_chord).min(base.width),
        leg: if all_wheels { on_wheel } else { underside },
        on_bar: (0.5 + along / (2.0 * CROSS_BAR_PLACE)).min(1.0),
        on_side: (0.5 + aside).min(1.0),
        on_leg: (0.5 + aside.max(along)).min(1.0),
    };
    found.weakest().1.is_finite().then_some(found)
}
