//! How wide must the base be? Tip angles against base width, and the least width that passes.

use super::footprint::{self, ContactPoint, Towards};
use super::kerb;
use super::machine::{self, Piece, Solid};
use super::tipping::{Lever, needed_push, push_height};
use super::weight::{State, StateMoments, Weight, state_moments};
use super::wind;
use crate::design::Design;
use crate::design::inputs::{ContactKind, Stance};
use crate::physics::air::GRAVITY;
use uom::si::angle::radian;
use uom::si::f64::{Angle, Length};
use uom::si::length::meter;

/// Widths are found to this, m.
const STEP: f64 = 0.001;

/// Tip angles in the least favourable direction at one base width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WidthAngles {
    /// The base width.
    pub width: Length,
    /// Filled.
    pub full: Angle,
    /// Empty.
    pub empty: Angle,
    /// Empty, hopper off.
    pub hopper_off: Angle,
}

/// A design prepared for many base widths: everything but the frame is weighed once.
pub struct WidthStudy<'a> {
    design: &'a Design,
    rest: StateMoments,
    top: f64,
    top_without_hopper: f64,
    /// Moment of the strongest wind from the side, N·m: the frame catches none of it.
    side_wind: f64,
    frame: Vec<Solid>,
}

impl<'a> WidthStudy<'a> {
    /// Prepares a design that has been laid out. None for own contact points, which have no one width.
    pub fn new(design: &'a Design, machine: &machine::Machine) -> Option<Self> {
        let of_frame = |solid: &&Solid| {
            matches!(
                solid.piece,
                Piece::OfSection {
                    section: "base",
                    ..
                }
            )
        };
        (design.base.stance != Stance::Points).then(|| Self {
            design,
            rest: state_moments(machine.weighing().filter(|solid| !of_frame(solid))),
            top: machine.top.value,
            top_without_hopper: machine.top_without_hopper.value,
            side_wind: side_wind(design, machine),
            frame: Vec::with_capacity(14),
        })
    }

    fn points(&self, width: f64) -> [ContactPoint; 4] {
        let wheels = match self.design.base.stance {
            Stance::FourWheels => (ContactKind::Wheel, ContactKind::Wheel),
            Stance::TwoWheels => (ContactKind::Foot, ContactKind::Wheel),
            Stance::Feet | Stance::Points => (ContactKind::Foot, ContactKind::Foot),
        };
        footprint::rectangle(
            Length::new::<meter>(width),
            self.design.base.depth,
            wheels.0,
            wheels.1,
        )
    }

    fn weights(&mut self, width: f64) -> [(State, Weight); 3] {
        let points = self.points(width);
        self.frame.clear();
        machine::frame_members(self.design, &points, &mut self.frame);
        let frame = state_moments(&self.frame).empty;
        [
            (State::Full, self.rest.full.plus(&frame).weight()),
            (State::Empty, self.rest.empty.plus(&frame).weight()),
            (State::HopperOff, self.rest.hopper_off.plus(&frame).weight()),
        ]
    }

    fn inset(&self) -> f64 {
        let base = &self.design.base;
        if base.stance == Stance::FourWheels && base.on_castors() {
            base.castor_trail.value
        } else {
            0.0
        }
    }

    /// Tip angles at a base width, in the least favourable direction.
    pub fn tip_angles(&mut self, width: Length) -> WidthAngles {
        let inset = self.inset();
        let depth = self.design.base.depth.value;
        let [full, empty, hopper_off] = self.weights(width.value).map(|(_, weight)| {
            let centre = &weight.centre;
            let sideways = 0.5 * width.value - centre.x.value.abs();
            let lengthways = 0.5 * depth - centre.y.value.abs();
            let distance = sideways.min(lengthways) - inset;
            Angle::new::<radian>(distance.atan2(centre.z.value))
        });
        WidthAngles {
            width,
            full,
            empty,
            hopper_off,
        }
    }

    /// Whether a base of this width, m, bears slope, push, wind and a step to either side, in every state in which that
    /// is asked.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn passes(&mut self, width: f64) -> bool {
        let inset = self.inset();
        let limits = &self.design.limits;
        let base = &self.design.base;
        let (top, bare) = (self.top, self.top_without_hopper);
        let gust = wind::RESERVE * self.side_wind;
        let slope = base.slope.value;
        let across = Length::new::<meter>((width - inset).max(0.0));
        let weights = self.weights(width);
        let stands = weights.iter().all(|(state, weight)| {
            let lever = Lever {
                distance: 0.5 * width - weight.centre.x.value.abs() - inset,
                height: weight.centre.z.value,
                weight: weight.mass.value * GRAVITY,
                slope,
            };
            let in_hand = lever.tip_angle() - slope;
            let top = if *state == State::HopperOff {
                bare
            } else {
                top
            };
            let needed = needed_push(limits, weight.mass).value;
            lever.tip_angle() >= limits.tip_angle_good().value
                && lever.tip_push(push_height(base, top)) * (1.0 + 1.0e-9) >= needed
                && (slope <= 0.0 || in_hand >= limits.tip_angle_least.value)
                && (*state != State::Empty || wind::restoring(lever, base.anchors, across) >= gust)
        });
        stands && (!base.on_castors() || self.rides_steps(width, &weights))
    }

    /// Whether no step that its castors strike sideways tips it, filled or empty.
    fn rides_steps(&self, width: f64, weights: &[(State, Weight); 3]) -> bool {
        let base = &self.design.base;
        let wanted = kerb::wanted_speed(base);
        let footprint = footprint::around(base, self.points(width).to_vec());
        let sides = || (footprint.edges.iter()).filter(|edge| is_side(edge.towards));
        weights
            .iter()
            .filter(|(state, _)| *state != State::HopperOff)
            .flat_map(|(_, weight)| sides().map(move |edge| (edge, weight)))
            .filter_map(|(edge, weight)| kerb::strike(base, &footprint, edge, weight)?.tip_speed)
            .all(|speed| speed >= wanted)
    }

    /// The least width that does not tip to the left or to the right by slope, push, wind or a step, to the millimetre.
    /// None when no allowed width does.
    pub fn least_width(&mut self) -> Option<Length> {
        let (mut failing, mut passing) = Design::allowed("base", "width")?;
        if !self.passes(passing) {
            return None;
        }
        if self.passes(failing) {
            return Some(Length::new::<meter>(failing));
        }
        while passing - failing > STEP {
            let middle = 0.5 * (passing + failing);
            if self.passes(middle) {
                passing = middle;
            } else {
                failing = middle;
            }
        }
        Some(Length::new::<meter>((passing / STEP).ceil() * STEP))
    }
}

fn is_side(towards: Towards) -> bool {
    matches!(towards, Towards::Left | Towards::Right)
}

/// Moment of the strongest wind from that side from which the machine catches more of it, N·m.
fn side_wind(design: &Design, machine: &machine::Machine) -> f64 {
    (footprint::footprint(design).edges.iter())
        .filter(|edge| is_side(edge.towards))
        .map(|edge| wind::wind(design, machine, edge, State::Empty, &Weight::default()))
        .map(|load| load.overturning.value)
        .fold(0.0, f64::max)
}

/// Tip angles of a design with another base width. For many widths, use [`WidthStudy`].
/// None for own contact points, which have no one width.
///
/// ```
/// use hearthplan::{design::Design, sizing::base_width::tip_angles_at_width};
/// use uom::si::{f64::Length, length::meter};
/// let design = Design::default();
/// let at = |width| tip_angles_at_width(&design, Length::new::<meter>(width)).unwrap();
/// assert!(at(0.7).full > at(0.4).full);
/// ```
pub fn tip_angles_at_width(design: &Design, width: Length) -> Option<WidthAngles> {
    let machine = machine::layout(design);
    WidthStudy::new(design, &machine).map(|mut study| study.tip_angles(width))
}
