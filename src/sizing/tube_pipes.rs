//! Which pipes that are set through the shell reach into the fire tube? The nozzles, and what is set in beside them, such as
//! a lighting port: it has to meet the tube where that goes straight on.

use super::hole_purpose::{tells_of_gas, tells_of_lighting};
use super::machine::{self, HearthShape};
use super::marking::{height_above_bottom, pipe_outside};
use super::nozzle_tube::nozzle_ring;
use crate::design::Design;
use crate::design::inputs::{HearthKind, Hole, HoleUse};
use crate::design::quantity::exceeds;
use uom::si::f64::Length;
use uom::si::length::meter;

/// Heights that are apart by less than this are one, m.
const NOTHING: f64 = 1e-6;

/// A hole beside the ring of nozzles, where its pipe meets the fire tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beside {
    /// Its middle above the bottom end, at the shell.
    pub at: Length,
    /// The nozzles above the bottom end: their ring of holes, or while none is entered where the hearth has them.
    pub nozzles: Length,
    /// What a leaning pipe falls on its way to the fire tube.
    pub fall: Length,
    /// Its middle above that of the nozzles; below is negative.
    pub above: Length,
    /// How far the nozzles may be off its middle, so that they lie at its height all the same.
    pub reach: Length,
    /// How far the fire tube goes straight on below the nozzles.
    pub straight: Length,
    /// How far it reaches up above them.
    pub up: Length,
    /// Whether it passes beside the fire tube.
    pub passes_by: bool,
}

impl Beside {
    /// Where a hole lies, whatever sits in it.
    pub fn of(design: &Design, hole: &Hole) -> Self {
        let (vessel, hearth) = machine::measures(design);
        let ring = nozzle_ring(design).map(|(_, ring)| ring);
        let nozzles = ring.map_or(hearth.nozzle_plane - vessel.underside, |ring| {
            height_above_bottom(design, ring)
        });
        let [straight, _] = HearthShape::below_nozzles(&design.hearth);
        let at = height_above_bottom(design, hole);
        let fall = falls_inwards(hole, vessel.hearth_outer_radius - hearth.tube_radius);
        let half = |hole: &Hole| 0.5 * hole.diameter.max(pipe_outside(hole));
        Self {
            at,
            nozzles,
            fall,
            above: at - nozzles - fall,
            reach: ring.map_or(half(hole), |ring| half(hole).max(half(ring))),
            straight,
            up: hearth.tube_top - hearth.nozzle_plane,
            passes_by: hole.offset.abs() >= hearth.tube_radius,
        }
    }

    /// Whether its middle lies below the end of the fire tube: there it opens on the cone, or beside that.
    pub fn is_below_the_tube(&self) -> bool {
        self.above + self.straight < Length::new::<meter>(-NOTHING)
    }

    /// Whether it lies at the height of the nozzles.
    pub fn is_at_the_nozzles(&self) -> bool {
        !exceeds(self.above.value.abs(), self.reach.value)
    }

    /// Whether its middle meets the fire tube.
    pub fn meets_the_tube(&self) -> bool {
        !self.passes_by && !self.is_below_the_tube() && !exceeds(self.above.value, self.up.value)
    }
}

/// How much lower the axis of a leaning pipe lies so far inside of the shell.
///
/// ```
/// use hearthplan::design::inputs::Hole;
/// use hearthplan::sizing::tube_pipes::falls_inwards;
/// use uom::si::{angle::degree, f64::{Angle, Length}, length::millimeter};
/// let leaning = Hole { lean: Angle::new::<degree>(45.0), ..Hole::default() };
/// let mm = Length::new::<millimeter>;
/// assert!((falls_inwards(&leaning, mm(100.0)) - mm(100.0)).value.abs() < 1e-12);
/// assert!(falls_inwards(&Hole::default(), mm(100.0)).value.abs() < 1e-12);
/// ```
pub fn falls_inwards(hole: &Hole, depth: Length) -> Length {
    depth.max(Length::default()) / hole.lean.value.tan()
}

/// The pipes set through the shell beside the nozzles, by their places in the list: what is named for lighting, and what lies at
/// the height of the nozzles and is no way of the gas. A straight fire tube has no nozzles.
pub fn beside_nozzles(design: &Design) -> impl Iterator<Item = (usize, &Hole, Beside)> {
    let ring = nozzle_ring(design).map(|(place, _)| place);
    (design.holes.iter().enumerate())
        .filter(move |(place, hole)| {
            let set_in = hole.carries == HoleUse::SetIn && tells_of_gas(hole) == 0;
            set_in && Some(*place) != ring && design.hearth.kind == HearthKind::Constricted
        })
        .map(|(place, hole)| (place, hole, Beside::of(design, hole)))
        .filter(|(_, hole, beside)| tells_of_lighting(hole) || beside.is_at_the_nozzles())
}

/// Whether the pipe in a hole, by its place in the list, reaches into the fire tube: a nozzle, or a pipe set through the
/// shell that meets the tube beside the nozzles, such as a lighting port. A straight fire tube has no nozzles.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::sizing::tube_pipes::reaches_fire_tube;
/// let design = example::as_improved();
/// let reach = (0..design.holes.len()).filter(|place| reaches_fire_tube(&design, *place));
/// let names: Vec<&str> = reach.map(|place| design.holes[place].name.as_str()).collect();
/// assert_eq!(names, ["Nozzle", "Lighting port"]);
/// ```
pub fn reaches_fire_tube(design: &Design, place: usize) -> bool {
    let is_ring = nozzle_ring(design).is_some_and(|(ring, _)| ring == place);
    design.hearth.kind == HearthKind::Constricted
        && (is_ring
            || beside_nozzles(design)
                .any(|(other, _, beside)| other == place && beside.meets_the_tube()))
}

/// The holes that the fire is lit through, with their places in the list: those that are named so; where none is, a pipe set
/// in beside the nozzles.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::sizing::tube_pipes::lighting_ports;
/// let mut design = example::as_improved();
/// let named: Vec<usize> = lighting_ports(&design).iter().map(|(place, _)| *place).collect();
/// assert_eq!(named, [3]);
/// design.holes[3].name = "Port".to_string();
/// assert_eq!(lighting_ports(&design).len(), 1);
/// ```
pub fn lighting_ports(design: &Design) -> Vec<(usize, &Hole)> {
    let named: Vec<(usize, &Hole)> = (design.holes.iter().enumerate())
        .filter(|(_, hole)| tells_of_lighting(hole))
        .collect();
    if !named.is_empty() {
        return named;
    }
    (beside_nozzles(design))
        .map(|(place, hole, _)| (place, hole))
        .collect()
}
