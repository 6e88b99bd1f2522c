//! How much room is in the hopper?

use crate::design::Design;
use std::f64::consts::PI;
use uom::si::f64::Volume;
use uom::si::volume::cubic_meter;

/// Room in the hopper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HopperRoom {
    /// In its straight part.
    pub straight: Volume,
    /// In the cone below, which narrows to the inside of the vessel.
    pub cone: Volume,
}

/// The room in a hopper, full to its lid.
///
/// ```
/// use hearthplan::{design::Design, sizing::hopper::room};
/// let mut design = Design::default();
/// let before = room(&design);
/// design.hopper.cone_height *= 2.0;
/// let after = room(&design);
/// assert_eq!(after.straight, before.straight);
/// assert!((after.cone / before.cone).value > 1.999);
/// ```
pub fn room(design: &Design) -> HopperRoom {
    let hopper = &design.hopper;
    let wide = hopper.diameter.value;
    let below = design.body_wall.inside_diameter.value;
    let volume = Volume::new::<cubic_meter>;
    HopperRoom {
        straight: volume(PI / 4.0 * wide * wide * hopper.height.value),
        cone: volume(
            PI / 12.0 * hopper.cone_height.value * (wide * wide + wide * below + below * below),
        ),
    }
}
