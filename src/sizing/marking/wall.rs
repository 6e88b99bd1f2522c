//! Which wall is a hole drilled in: the vessel that is marked out, or one of another width?
//!
//! The vessel is that wall of the design which its pipes pass through; where they pass through both, the one whose steel is
//! more nearly as wide. The other wall may have another width: there the angle of a hole holds, and its distance round is that
//! of the other wall.

use super::Vessel;
use super::vessel::above_bottom;
use crate::design::Design;
use crate::design::inputs::{Hole, HoleUse, Layer};
use crate::sizing::machine;
use std::f64::consts::{PI, TAU};
use uom::si::f64::Length;

/// The vessel may be this share of its width wider or narrower than the wall it is to be. Our own mark.
pub const AS_WIDE: f64 = 0.01;

/// A wall that a hole is drilled in and that is not the vessel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OtherWall {
    /// What it is called.
    pub name: &'static str,
    /// Across that steel of it which is nearest to the vessel, outside: a tape can be laid round it before anything covers it.
    /// None without steel.
    pub across: Option<Length>,
    /// Across another steel of it, which the hole passes too: the outermost of them.
    pub also: Option<Length>,
}

/// Outside of the metal layer of a wall that is nearest to a vessel so far across; none without metal.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::sizing::marking::nearest_steel;
/// use uom::si::{f64::Length, length::millimeter};
/// let design = example::as_improved();
/// let vessel = Length::new::<millimeter>(500.0);
/// let steel = nearest_steel(design.body_wall.inside_diameter, &design.body_layers, vessel);
/// assert!((steel.unwrap().get::<millimeter>() - 463.0).abs() < 1e-6);
/// ```
pub fn nearest_steel(inside: Length, layers: &[Layer], across: Length) -> Option<Length> {
    nearest_metal(inside, layers, across).map(|(_, outside)| outside)
}

/// That layer, with its outside.
pub(crate) fn nearest_metal(
    inside: Length,
    layers: &[Layer],
    across: Length,
) -> Option<(&Layer, Length)> {
    let off = |outside: Length| (outside - across).value.abs();
    metals(inside, layers).min_by(|(_, one), (_, other)| off(*one).total_cmp(&off(*other)))
}

/// The metal layers of a wall from inside, each with its outside.
fn metals(inside: Length, layers: &[Layer]) -> impl Iterator<Item = (&Layer, Length)> {
    layers
        .iter()
        .scan(inside, |outside, layer| {
            *outside += 2.0 * layer.thickness;
            Some((layer, *outside))
        })
        .filter(|(layer, outside)| layer.material.is_metal() && outside.value.is_finite())
}

/// How far round from the front mark a seam or hole is, along the steel of the wall that it is in: what a tape tells of
/// the angle at this path. The plan's vessel counts for holes while none is measured; none where the path is no such angle,
/// and where no tape can be laid round.
///
/// ```
/// use hearthplan::{design::Design, sizing::marking::along_the_shell};
/// let design = Design::default();
/// let back = along_the_shell(&design, "real_vessel.long_seam").unwrap();
/// assert!((back / design.real_vessel.girth).value == 0.5);
/// assert!(along_the_shell(&design, "base.slope").is_none());
/// ```
pub fn along_the_shell(design: &Design, path: &str) -> Option<Length> {
    let (real, plan) = (&design.real_vessel, &design.plan_vessel);
    if path == "real_vessel.long_seam" {
        return Some(real.girth * (real.long_seam.value / TAU));
    }
    let place = path.strip_prefix("holes.")?.strip_suffix(".angle")?;
    let hole = design.holes.get(place.parse::<usize>().ok()?)?;
    let planned = Vessel::planned(plan);
    let vessel = Vessel::marked_out(design);
    let up = above_bottom(hole, plan.datum, [&planned, &vessel]);
    match Walls::of(design, &planned, &vessel).other_at(up) {
        None => Some(vessel.girth * (hole.angle.value / TAU)),
        Some(wall) => Some(wall.across? * (0.5 * hole.angle.value)),
    }
}

/// Hearth wall and body wall beside the vessel.
pub(super) struct Walls {
    /// Where the body begins, above the bottom end, m.
    body_from: f64,
    /// What holes in the hearth wall and in the body wall are drilled in; none where that is the vessel.
    other: [Option<OtherWall>; 2],
}

impl Walls {
    pub(super) fn of(design: &Design, plan: &Vessel, vessel: &Vessel) -> Self {
        let (shape, _) = machine::measures(design);
        let body_from = (shape.hearth_top - shape.underside).value;
        let across = vessel.girth / PI;
        let (hearth, body) = (&design.hearth_wall, &design.body_wall);
        let walls = [
            ("hearth wall", hearth.inside_diameter, &design.hearth_layers),
            ("body wall", body.inside_diameter, &design.body_layers),
        ];
        // A wall without steel is no vessel.
        let off = walls.map(|(_, inside, layers)| {
            let steel = nearest_steel(inside, layers, across);
            steel.map_or(f64::INFINITY, |steel| {
                ((steel - across) / across).value.abs()
            })
        });
        let binding = binding(design, [plan, vessel], body_from);
        let other = [[0, 1], [1, 0]].map(|[own, beside]| {
            let (name, inside, layers) = walls[own];
            let is_vessel = match (binding[own], binding[beside]) {
                (true, false) => true,
                (false, true) => false,
                _ => off[own] <= off[beside],
            };
            (!is_vessel && off[own] > AS_WIDE).then(|| {
                let steel = nearest_steel(inside, layers, across);
                OtherWall {
                    name,
                    across: steel,
                    also: (metals(inside, layers).map(|(_, outside)| outside))
                        .filter(|outside| Some(*outside) != steel)
                        .last(),
                }
            })
        });
        Self { body_from, other }
    }

    /// What a hole at this height above the bottom end is drilled in; none where that is the vessel.
    pub(super) fn other_at(&self, above_bottom: f64) -> Option<OtherWall> {
        let [hearth, body] = self.other;
        if above_bottom >= self.body_from {
            body
        } else {
            hearth
        }
    }
}

/// Whether hearth wall and body wall are bound to the vessel by their holes: a pipe must meet what is inside; mere openings
/// bind where there are no pipes.
fn binding(design: &Design, vessels: [&Vessel; 2], body_from: f64) -> [bool; 2] {
    let has_pipe = |hole: &Hole| hole.carries != HoleUse::Open;
    let any_pipe = design.holes.iter().any(has_pipe);
    let in_body = |hole: &Hole| above_bottom(hole, design.plan_vessel.datum, vessels) >= body_from;
    [false, true].map(|body| {
        (design.holes.iter())
            .filter(|hole| has_pipe(hole) || !any_pipe)
            .any(|hole| in_body(hole) == body)
    })
}
