//! Which steel of the design is the vessel that was bought and measured, so that it is neither cut nor bought any more?

use super::machine::Piece;
use crate::design::Design;
use crate::design::inputs::Layer;
use std::f64::consts::PI;
use uom::si::f64::Length;

/// A wall is the vessel where both are as wide outside but for this share. Our own mark.
const AS_WIDE: f64 = 0.01;

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

/// Whether that vessel has seams of its own: they are in no joint of the design.
///
/// ```
/// use hearthplan::sizing::shell_there::has_own_seams;
/// let mut design = hearthplan::design::example::as_improved();
/// assert!(has_own_seams(&design));
/// design.real_vessel.measured = false;
/// assert!(!has_own_seams(&design));
/// ```
pub fn has_own_seams(design: &Design) -> bool {
    let vessel = &design.real_vessel;
    let round = [vessel.lower_seam, vessel.upper_seam];
    vessel.measured && (!vessel.seamless || round.iter().any(|seam| seam.value > 0.0))
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
