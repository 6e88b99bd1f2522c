//! How much room is in the hopper?

use crate::design::Design;
use std::f64::consts::PI;
use uom::si::angle::radian;
use uom::si::f64::{Angle, Volume};
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

/// Angle from level at which the cone below the store falls; none without a hopper, and where the store is no wider than
/// the vessel below it.
///
/// ```
/// use hearthplan::{design::Design, sizing::hopper::fall_of_cone};
/// use uom::si::{angle::degree, f64::Length, length::millimeter};
/// let mut design = Design::default();
/// let difference = design.hopper.diameter - design.body_wall.inside_diameter;
/// design.hopper.cone_height = 0.5 * difference;
/// assert!((fall_of_cone(&design).unwrap().get::<degree>() - 45.0).abs() < 1e-9);
/// design.hopper.diameter = design.body_wall.inside_diameter;
/// assert!(fall_of_cone(&design).is_none());
/// ```
pub fn fall_of_cone(design: &Design) -> Option<Angle> {
    let hopper = &design.hopper;
    let run = 0.5 * (hopper.diameter - design.body_wall.inside_diameter).value;
    (hopper.fitted && run > 0.0).then(|| Angle::new::<radian>(hopper.cone_height.value.atan2(run)))
}
