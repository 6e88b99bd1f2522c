//! Which steel of the design is the vessel that was bought and measured, so that it is neither cut nor bought any more?

use super::machine::Piece;
use super::marking::{AS_WIDE, Vessel, nearest_metal};
use crate::design::Design;
use crate::design::inputs::{Group, Joint, JointKind, Layer};
use std::f64::consts::PI;
use uom::si::f64::Length;
use uom::si::length::meter;

/// Whether the outermost layer of a wall is the vessel that was bought and measured: steel, and as wide outside.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::sizing::shell_there::is_there;
/// let mut design = example::as_improved();
/// let there = |design: &hearthplan::design::Design| {
///     is_there(design, design.hearth_wall.inside_diameter, &design.hearth_layers)
/// };
/// assert!(there(&design));
/// design.real_vessel.measured = false;
/// assert!(!there(&design));
/// ```
pub fn is_there(design: &Design, inside: Length, layers: &[Layer]) -> bool {
    let through: Length = layers.iter().map(|layer| layer.thickness).sum();
    let across = design.real_vessel.girth / PI;
    let off = (inside + 2.0 * through - across).abs();
    design.real_vessel.measured
        && (layers.last()).is_some_and(|layer| layer.material.is_metal())
        && off <= AS_WIDE * across
}

/// A disc that goes into the bore is at least so much narrower, m: a tape round the outside and a pipe that is not quite round
/// leave as much open, and no size told to a sixteenth of an inch is then wider than the bore, nor is a radius. A weld
/// closes it. Common practice, no source.
pub const DISC_CLEARANCE: f64 = 0.002;
/// Discs are cut in such steps, rounded down, m.
const DISC_STEP: f64 = 0.001;
/// A size that is below a step by less than this share of it lies on it.
const ROUNDING: f64 = 1e-6;

/// Bore of the vessel that was bought, by the tape round it and the gauge on its sheet; none where the hearth wall is not it.
pub fn bore(design: &Design) -> Option<Length> {
    let vessel = &design.real_vessel;
    is_there(
        design,
        design.hearth_wall.inside_diameter,
        &design.hearth_layers,
    )
    .then(|| (vessel.girth / PI - 2.0 * vessel.sheet).max(Length::default()))
}

/// The widest disc that goes into a bore with its clearance, in whole millimetres.
///
/// ```
/// use hearthplan::sizing::shell_there::widest_disc;
/// use uom::si::{f64::Length, length::millimeter};
/// let mm = Length::new::<millimeter>;
/// assert!((widest_disc(mm(393.57)) - mm(391.0)).value.abs() < 1e-12);
/// ```
pub fn widest_disc(bore: Length) -> Length {
    let steps = (bore.value - DISC_CLEARANCE) / DISC_STEP + ROUNDING;
    Length::new::<meter>(steps.floor().max(0.0) * DISC_STEP)
}

/// Seams of a vessel that is there, bought or built, that no joint of the list stands for; none where there are none. What
/// goes once around a vessel that was bought is told by the tape, so that as many welds that go around stand for it.
///
/// ```
/// use hearthplan::sizing::shell_there::seams_in_no_joint;
/// let mut design = hearthplan::design::example::as_improved();
/// assert_eq!(seams_in_no_joint(&design), Some("its long seam"));
/// design.real_vessel.seamless = true;
/// assert_eq!(seams_in_no_joint(&design), None);
/// design.joints.clear();
/// assert_eq!(seams_in_no_joint(&design), Some("its round seams"));
/// ```
pub fn seams_in_no_joint(design: &Design) -> Option<&'static str> {
    let vessel = &design.real_vessel;
    if !vessel.measured && !vessel.lined {
        return None;
    }
    // A seam at or within a dished top comes off with it.
    let stays = vessel.above_straight().value == 0.0 || Vessel::bought(vessel).has_upper_seam();
    let upper = stays.then_some(vessel.upper_seam);
    let round = [vessel.lower_seam].into_iter().chain(upper);
    let round = round.filter(|seam| seam.value > 0.0).count();
    let joints = design.joints.iter();
    let welded = joints.filter(|joint| goes_around(design, joint)).count();
    match (!vessel.seamless, vessel.measured && welded < round) {
        (false, false) => None,
        (true, false) => Some("its long seam"),
        (false, true) => Some("its round seams"),
        (true, true) => Some("its long seam and its round seams"),
    }
}

/// Whether a joint is a tight weld once around the vessel.
fn goes_around(design: &Design, joint: &Joint) -> bool {
    let girth = design.real_vessel.girth;
    joint.kind == JointKind::Welded
        && joint.airtight
        && [joint.first, joint.second] == [Group::Reactor; 2]
        && (joint.length - girth).abs() <= AROUND * girth
}

/// A weld so much longer or shorter than the vessel is round goes around it still. Our own mark, wider than that from which
/// a wrong length is told.
const AROUND: f64 = 0.15;

/// Whether a piece is the bottom of that vessel: the outermost layer of the bottom, of metal, where the vessel has one of
/// its own.
pub fn is_own_bottom(design: &Design, piece: Piece) -> bool {
    let layers = &design.bottom_layers;
    let is_last =
        matches!(piece, Piece::Layer { list: "bottom_layers", index } if index + 1 == layers.len());
    is_last
        && own_bottom(design).is_some()
        && is_there(
            design,
            design.hearth_wall.inside_diameter,
            &design.hearth_layers,
        )
}

/// The layer of the bottom that is that of the vessel itself.
fn own_bottom(design: &Design) -> Option<&Layer> {
    let vessel = &design.real_vessel;
    (design.bottom_layers.last())
        .filter(|layer| vessel.measured && vessel.has_bottom && layer.material.is_metal())
}

/// Whether a piece is of that vessel.
pub fn is_of_it(design: &Design, piece: Piece) -> bool {
    let Piece::Layer { list, index } = piece else {
        return false;
    };
    let (inside, layers) = match list {
        "hearth_layers" => (design.hearth_wall.inside_diameter, &design.hearth_layers),
        "body_layers" => (design.body_wall.inside_diameter, &design.body_layers),
        _ => return false,
    };
    index + 1 == layers.len() && is_there(design, inside, layers)
}

/// Whether a change of the design leaves the vessel that was bought and measured as it is. A wall with this vessel in it keeps
/// a metal layer as wide outside and of the same sheet, and gets no longer than the vessel; what is put inside or around it
/// is free; a bottom of its own stays as it is. True as well where none was measured, or where it was measured again. A
/// vessel that is built and lined keeps width and height of both its walls.
///
/// ```
/// use hearthplan::design::{Value, example};
/// use hearthplan::sizing::shell_there::keeps_vessel;
/// let design = example::as_improved();
/// let mut changed = design.clone();
/// changed.set("hopper.height", Value::Number(0.9)).unwrap();
/// let blanket = changed.body_layers[0].clone();
/// changed.hearth_layers.push(blanket);
/// assert!(keeps_vessel(&design, &changed));
/// changed.hearth_wall.inside_diameter *= 1.1;
/// assert!(!keeps_vessel(&design, &changed));
/// ```
pub fn keeps_vessel(before: &Design, after: &Design) -> bool {
    let vessel = &before.real_vessel;
    let [then, now] = [before, after].map(|design| walls(design).map(|wall| wall.size()));
    if vessel.lined && then != now {
        return false;
    }
    if !vessel.measured || *vessel != after.real_vessel {
        return true;
    }
    let plate = |design| own_bottom(design).map(|layer| (layer.material, layer.thickness));
    if plate(before) != plate(after) {
        return false;
    }
    let across = vessel.girth / PI;
    let mut length = [Length::default(); 2];
    for (then, now) in walls(before).into_iter().zip(walls(after)) {
        let Some(steel) = then.steel(across) else {
            continue;
        };
        let same_sheet =
            |now: &Layer| now.material == steel.material && now.thickness == steel.thickness;
        if !now.steel(across).is_some_and(same_sheet) {
            return false;
        }
        length[0] += then.height;
        length[1] += now.height;
    }
    let [then, now] = length;
    now <= then || now <= Vessel::bought(vessel).length
}

/// A wall that the vessel may be in.
struct Wall<'a> {
    inside: Length,
    height: Length,
    layers: &'a [Layer],
}

impl Wall<'_> {
    fn size(&self) -> [Length; 2] {
        [self.inside, self.height]
    }

    /// The metal layer that is a vessel so far across, if one is.
    fn steel(&self, across: Length) -> Option<&Layer> {
        nearest_metal(self.inside, self.layers, across)
            .filter(|(_, outside)| (*outside - across).abs() <= AS_WIDE * across)
            .map(|(layer, _)| layer)
    }
}

fn walls(design: &Design) -> [Wall<'_>; 2] {
    let (hearth, body) = (&design.hearth_wall, &design.body_wall);
    [
        Wall {
            inside: hearth.inside_diameter,
            height: hearth.height,
            layers: &design.hearth_layers,
        },
        Wall {
            inside: body.inside_diameter,
            height: body.height,
            layers: &design.body_layers,
        },
    ]
}
