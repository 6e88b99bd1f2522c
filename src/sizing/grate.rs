//! How much of the grate lies open under the char?

use super::pattern::{PatternError, grate_holes};
use crate::design::Design;
use crate::design::inputs::HearthKind;
use std::f64::consts::PI;
use uom::si::area::square_meter;
use uom::si::f64::{Area, Length};

/// The grate under the char that rests on it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UnderChar {
    /// Width of the char where it rests on the grate.
    pub foot: Length,
    /// Holes under the char.
    pub holes: f64,
    /// Their area.
    pub open: Area,
    /// Area of the char beside a grate that is too narrow for it.
    pub beside: Area,
}

impl UnderChar {
    /// Area of the char.
    pub fn char(&self) -> Area {
        disc(self.foot)
    }
}

/// Width of the char where it rests on the grate.
pub fn foot(design: &Design) -> Length {
    match design.hearth.kind {
        HearthKind::Constricted => design.hearth.below_throat_diameter,
        HearthKind::Straight => design.hearth.tube_diameter,
    }
}

/// The grate of a design under its char. A hole counts if its middle lies under the char.
///
/// # Errors
/// As [`grate_holes`].
///
/// ```
/// use hearthplan::{design::Design, sizing::grate::under_char};
/// let found = under_char(&Design::default()).unwrap();
/// assert!(found.holes > 10.0 && found.open < found.char());
/// assert_eq!(found.beside.value, 0.0);
/// ```
pub fn under_char(design: &Design) -> Result<UnderChar, PatternError> {
    let (plate, foot) = (&design.grate, foot(design));
    // The pattern counts in millimetres.
    let reach = 500.0 * foot.value;
    let holes = grate_holes(plate)?
        .filter(|hole| hole.is_within(reach))
        .count() as f64;
    Ok(UnderChar {
        foot,
        holes,
        open: disc(plate.hole) * holes,
        beside: (disc(foot) - disc(plate.diameter)).max(Area::default()),
    })
}

fn disc(diameter: Length) -> Area {
    Area::new::<square_meter>(0.25 * PI * diameter.value * diameter.value)
}
