//! Does the base frame bear the machine?
//!
//! The frame is that of the weights ([`machine`](super::machine)): a rectangle of square tube on four legs, with two
//! cross-bars a third of the depth apart under the vessel. Its members are beams that rest on their ends; a leg is held at
//! its top and free to sway at its foot, since nothing is known of braces. All of the weight stands on the cross-bars.
//! Euler and beam theory for cold, straight tube; welds, knocks and heat need what is left in reserve.
//!
//! Contact points of one's own may be no corners of a rectangle. How the bars run between such nobody knows: a safe bound is
//! told there, and beside it what no bars from the points to the vessel would bear.

use crate::design::Design;
use crate::design::inputs::ContactKind;
use crate::design::strength::MILD_STEEL;
use crate::physics::air::GRAVITY;
use crate::sizing::footprint::{ContactPoint, Extent, footprint};
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
    /// From one contact point to another, where nobody knows how the bars run.
    Rail,
    /// From a contact point up to the frame.
    Leg,
}

impl Member {
    /// All of them.
    pub const ALL: [Member; 4] = [Member::CrossBar, Member::SideBar, Member::Rail, Member::Leg];
}

/// How the bars carry the weight to the legs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Bars {
    /// Two cross-bars on two side bars, with a leg under each end of these.
    Rectangle {
        /// From side to side.
        width: Length,
        /// From front to back.
        depth: Length,
        /// Length of a cross-bar that lies under the vessel.
        rests: Length,
        /// Share of the weight on the fuller cross-bar.
        on_bar: f64,
        /// Share of the weight on the fuller side bar.
        on_side: f64,
    },
    /// Nobody knows: the contact points are no corners of a rectangle. A bar from one of them to another that bears all of
    /// the weight in its middle is bent more than any is that runs between them.
    Unknown {
        /// Between the two points that are furthest apart.
        longest: Length,
        /// How many contact points there are.
        points: usize,
        /// Sum of one over the way from each contact point to the vessel, 1/m; none where the vessel is above one.
        ways: Option<f64>,
    },
}

/// The frame under the weight of the machine.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FrameStrength {
    /// What it is welded from.
    pub tube: SquareTube,
    /// What stands on it.
    pub mass: Mass,
    /// How the bars run.
    pub bars: Bars,
    /// Longest leg, without its wheel.
    pub leg: Length,
    /// Share of the weight on the fullest leg: on uneven ground two of four at corners carry nearly all, of others perhaps one.
    pub on_leg: f64,
}

impl FrameStrength {
    /// What bends the tube for good, N·m.
    fn moment(&self) -> f64 {
        self.tube.bears().value * self.tube.modulus()
    }

    /// What presses a leg flat, N.
    fn crushed(&self) -> f64 {
        self.tube.bears().value * self.tube.area().value
    }

    /// How many times the weight a kind of member bears; without end where the frame has none of it.
    pub fn reserve(&self, member: Member) -> f64 {
        let weight = self.mass.value * GRAVITY;
        let moment = self.moment();
        match (member, self.bars) {
            (
                Member::CrossBar,
                Bars::Rectangle {
                    width,
                    rests,
                    on_bar,
                    ..
                },
            ) => 8.0 * moment / (on_bar * weight * (2.0 * width - rests).value),
            (
                Member::SideBar,
                Bars::Rectangle {
                    depth,
                    on_bar,
                    on_side,
                    ..
                },
            ) => 9.0 * moment / (on_side * weight * (1.0 + on_bar) * depth.value),
            (Member::Rail, Bars::Unknown { longest, .. }) => {
                4.0 * moment / (weight * longest.value)
            }
            (Member::Leg, _) => {
                let stiffness = MILD_STEEL.stiffness.value * self.tube.second_moment();
                let buckles = PI * PI * stiffness / (2.0 * self.leg.value).powi(2);
                self.crushed().min(buckles) / (self.on_leg * weight)
            }
            _ => f64::INFINITY,
        }
    }

    /// The kind of member that gives way first, with how many times the weight it bears: at the least, where nobody knows
    /// how the bars run.
    pub fn weakest(&self) -> (Member, f64) {
        let [first, others @ ..] = Member::ALL.map(|member| (member, self.reserve(member)));
        (others.into_iter()).fold(first, |least, next| match next.1 < least.1 {
            true => next,
            false => least,
        })
    }

    /// How many times the weight it bears at best: where nobody knows how the bars run, with one from each contact point
    /// straight to the vessel, held stiffly at both ends, and all legs pressed alike.
    pub fn at_best(&self) -> f64 {
        let Bars::Unknown { points, ways, .. } = self.bars else {
            return self.weakest().1;
        };
        let legs = points as f64 * self.crushed();
        let bars = ways.map_or(legs, |ways| 2.0 * self.moment() * ways);
        legs.min(bars) / (self.mass.value * GRAVITY)
    }
}

/// Whether a leg stands under each corner of the rectangle around the contact points, and every other leg under one of its
/// side bars. There it only helps: with the weight between the legs no bar is bent more than on the corners alone.
fn are_corners(points: &[ContactPoint], extent: &Extent, near: Length) -> bool {
    let is_near = |one: Length, other: Length| (one - other).abs() <= near;
    let on_side =
        |point: &ContactPoint| is_near(point.x, extent.left) || is_near(point.x, extent.right);
    let is_taken = |(x, y)| (points.iter()).any(|point| is_near(point.x, x) && is_near(point.y, y));
    points.iter().all(on_side) && extent.corners().into_iter().all(is_taken)
}

/// Where nobody knows how the bars run to a vessel of this radius: the greatest way between two contact points, and the ways
/// from each to the vessel.
fn unknown(design: &Design, points: &[ContactPoint], radius: Length) -> Bars {
    let apart = |one: &ContactPoint, x: Length, y: Length| (one.x - x).hypot(one.y - y);
    let base = &design.base;
    let longest = (points.iter())
        .flat_map(|one| points.iter().map(|other| apart(one, other.x, other.y)))
        .fold(Length::default(), Length::max);
    let way = |point: &ContactPoint| {
        let beyond = (apart(point, base.vessel_x, base.vessel_y) - radius).value;
        (beyond > 0.0).then(|| 1.0 / beyond)
    };
    Bars::Unknown {
        longest,
        points: points.len(),
        ways: points.iter().map(way).sum(),
    }
}

/// The frame of a design under a weight, the vessel of this outside radius on it. None without a weight, and where the
/// machine falls over for want of contact points.
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
    let footprint = footprint(design);
    if footprint.edges.is_empty() {
        return None;
    }
    let points = &footprint.points;
    let extent = Extent::of(points)?;
    let (width, depth) = (extent.width(), extent.depth());
    let (x, y) = extent.middle();
    let underside = (base.clearance - base.frame_side).max(Length::default());
    let on_wheel = underside - base.wheel_diameter.min(underside);
    let all_wheels = (points.iter()).all(|point| point.kind == ContactKind::Wheel);
    let aside = ((weight.centre.x - x) / width).value.abs();
    let along = ((weight.centre.y - y) / depth).value.abs();
    let known = are_corners(points, &extent, base.frame_side);
    let bars = if known {
        let beside = CROSS_BAR_PLACE * depth;
        let half_chord = (radius * radius - beside * beside)
            .max(Area::default())
            .sqrt();
        Bars::Rectangle {
            width,
            depth,
            rests: (2.0 * half_chord).min(width),
            on_bar: (0.5 + along / (2.0 * CROSS_BAR_PLACE)).min(1.0),
            on_side: (0.5 + aside).min(1.0),
        }
    } else {
        unknown(design, points, radius)
    };
    let found = FrameStrength {
        tube: SquareTube {
            side: base.frame_side,
            wall: base.frame_wall,
        },
        mass: weight.mass,
        bars,
        leg: if all_wheels { on_wheel } else { underside },
        on_leg: match known {
            true => (0.5 + aside.max(along)).min(1.0),
            false => 1.0,
        },
    };
    found.weakest().1.is_finite().then_some(found)
}
