//! What tube are the nozzles made of? The one that is set in their ring of holes; as long as none is marked out, one of a
//! usual wall.

use super::marking::pipe_outside;
use crate::design::Design;
use crate::design::inputs::{Hole, HoleUse};
use uom::si::f64::Length;
use uom::si::length::meter;

/// Wall of a nozzle tube that nobody entered, m. Common practice, no source.
pub const USUAL_WALL: f64 = 0.003;

/// A tube by its outside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NozzleTube {
    /// Outside diameter.
    pub outside: Length,
    /// Thickness of its wall; no more than half the outside.
    pub wall: Length,
}

impl NozzleTube {
    /// Inside diameter.
    pub fn inside(&self) -> Length {
        self.outside - 2.0 * self.wall
    }
}

/// The ring of holes that the nozzles pass, with its place in the list: of the rings with a pipe set through the shell the
/// one that has the number of nozzles most nearly.
pub fn nozzle_ring(design: &Design) -> Option<(usize, &Hole)> {
    let wanted = design.hearth.nozzle_count;
    (design.holes.iter().enumerate())
        .filter(|(_, hole)| hole.count > 1 && hole.carries == HoleUse::SetIn)
        .min_by_key(|(_, hole)| hole.count.abs_diff(wanted))
}

/// The tube of each nozzle.
///
/// ```
/// use hearthplan::design::{Design, example};
/// use hearthplan::sizing::nozzle_tube::nozzle_tube;
/// use uom::si::length::millimeter;
/// let design = example::as_improved();
/// assert_eq!(nozzle_tube(&design).outside, design.holes[0].pipe.unwrap());
/// // No ring is marked out: a wall of 3 mm around the bore of 7.5 mm.
/// assert!((nozzle_tube(&Design::default()).outside.get::<millimeter>() - 13.5).abs() < 1e-9);
/// ```
pub fn nozzle_tube(design: &Design) -> NozzleTube {
    match nozzle_ring(design) {
        Some((_, ring)) => {
            let outside = pipe_outside(ring);
            NozzleTube {
                outside,
                wall: ring.pipe_wall.min(0.5 * outside),
            }
        }
        None => {
            let wall = Length::new::<meter>(USUAL_WALL);
            NozzleTube {
                outside: design.hearth.nozzle_bore + 2.0 * wall,
                wall,
            }
        }
    }
}
