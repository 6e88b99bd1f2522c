//! Flat sheets that are rolled: cylinders and cones, on the neutral axis.
//!
//! In a rolled sheet the middle of its thickness keeps its length, as long as the radius is some ten
//! times the thickness or more. Source: geometry; the neutral axis in mid-thickness is common
//! practice, no source.

use super::{Pattern, PatternError, Stroke, Use, at, mm, told, within};
use std::f64::consts::PI;
use uom::si::f64::Length;

/// Least number of sheet thicknesses in a radius for which the neutral axis stays in the middle.
const LEAST_RADIUS: f64 = 2.0;
/// Least difference of both radii, as a share of the slant, for which a cone has a blank.
const LEAST_FLARE: f64 = 0.002;
/// Longest side of a sheet shown, mm.
const LONGEST: f64 = 50_000.0;

/// A cone of sheet, cut square to the sheet at both ends. All measures on the inside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cone {
    /// Inside diameter at the narrow end.
    pub narrow: Length,
    /// Inside diameter at the wide end.
    pub wide: Length,
    /// Upright height between the inside edges.
    pub height: Length,
    /// Thickness of the sheet.
    pub sheet: Length,
}

/// Length of the flat plate for a cylinder of an inside diameter: the circumference in the middle of
/// its thickness. Nothing is added for the seam.
///
/// ```
/// use hearthplan::sizing::pattern::rolled_plate_length;
/// use uom::si::{f64::Length, length::millimeter};
/// let mm = |value| Length::new::<millimeter>(value);
/// let length = rolled_plate_length(mm(344.0), mm(3.0)).unwrap();
/// assert!((length.get::<millimeter>() - std::f64::consts::PI * 347.0).abs() < 1e-9);
/// ```
///
/// # Errors
/// [`PatternError`]: no size, or a radius of less than two thicknesses.
pub fn rolled_plate_length(inside: Length, sheet: Length) -> Result<Length, PatternError> {
    let diameter = within("the inside diameter", inside, 0.1, LONGEST)?;
    within("the sheet", sheet, 0.0, 0.5 * diameter / LEAST_RADIUS)?;
    Ok(PI * (inside + sheet))
}

/// The flat plate for a cylinder.
///
/// ```
/// use hearthplan::sizing::pattern::rolled_plate;
/// use uom::si::{f64::Length, length::millimeter};
/// let mm = |value| Length::new::<millimeter>(value);
/// assert!(rolled_plate("Jacket", mm(344.0), mm(500.0), mm(1.5)).is_ok());
/// ```
///
/// # Errors
/// As [`rolled_plate_length`], or without height.
pub fn rolled_plate(
    name: &str,
    inside: Length,
    height: Length,
    sheet: Length,
) -> Result<Pattern, PatternError> {
    let length = mm(rolled_plate_length(inside, sheet)?);
    let height = within("the height", height, 0.1, LONGEST)?;
    let mut pattern = Pattern::new(
        name,
        format!(
            "Flat sheet of {} by {}, both diagonals {}, {} thick, for {} inside. The length is that of the middle of the \
             sheet; nothing is added for a lap or a weld gap.",
            told(length),
            told(height),
            told(length.hypot(height)),
            told(mm(sheet)),
            told(mm(inside))
        ),
    );
    pattern.rectangle(Use::Cut, at(0.0, 0.0), at(length, height));
    for quarter in 1..4_u8 {
        let x = length * f64::from(quarter) / 4.0;
        pattern.line(Use::Aid, at(x, 0.0), at(x, height));
    }
    pattern.measured_from(
        ("the left edge of the sheet", 0.0),
        ("the lower edge of the sheet", 0.0),
    );
    pattern.is_plain = true;
    Ok(pattern.finished())
}

/// The flat blank of a cone: part of a ring, on the neutral axis. Nothing is added for the seam.
///
/// With the half angle `a` between slant and axis, the middle of the sheet runs `sheet/2 · cos a`
/// outside the inner edges. The blank's radii are those mean radii over `sin a`; its angle is
/// `360° · sin a`.
///
/// ```
/// use hearthplan::sizing::pattern::{cone_blank, Cone};
/// use uom::si::{f64::Length, length::millimeter};
/// let mm = |value| Length::new::<millimeter>(value);
/// let cone = Cone { narrow: mm(300.0), wide: mm(500.0), height: mm(100.0), sheet: mm(1.5) };
/// assert!(cone_blank("Hopper cone", &cone).is_ok());
/// ```
///
/// # Errors
/// [`PatternError`]: no size, ends of one width (a tube), or a wide end narrower than the narrow one.
pub fn cone_blank(name: &str, cone: &Cone) -> Result<Pattern, PatternError> {
    let wide = 0.5 * within("the wide end", cone.wide, 0.1, LONGEST)?;
    let narrow = 0.5 * within("the narrow end", cone.narrow, 0.0, 2.0 * wide)?;
    let height = within("the cone's height", cone.height, 0.0, LONGEST)?;
    let sheet = within("the sheet", cone.sheet, 0.0, wide / LEAST_RADIUS)?;
    let flare = wide - narrow;
    let slant = flare.hypot(height);
    if !(slant > 0.0 && flare >= LEAST_FLARE * slant) {
        return Err(PatternError::DoesNotFit(
            "both ends are equally wide: roll it as a cylinder",
        ));
    }
    let (sine, cosine) = (flare / slant, height / slant);
    let middle = 0.5 * sheet * cosine;
    let (inner, outer) = ((narrow + middle) / sine, (wide + middle) / sine);
    let angle = 360.0 * sine;
    let chord = |radius: f64| 2.0 * radius * (0.5 * angle).to_radians().sin();
    let mut pattern = Pattern::new(
        name,
        format!(
            "Radii {} and {}, angle {angle:.2}°, on the middle of the sheet of {}; edges square to the sheet. \
             Straight across from corner to corner: {} on the inner arc, {} on the outer. \
             Nothing is added for a lap or a weld gap.",
            told(inner),
            told(outer),
            told(sheet),
            told(chord(inner)),
            told(chord(outer))
        ),
    );
    let (start, end) = (90.0 - 0.5 * angle, 90.0 + 0.5 * angle);
    let centre = at(0.0, 0.0);
    for radius in [inner, outer] {
        if radius > 0.0 {
            pattern.draw(
                Use::Cut,
                Stroke::Arc {
                    centre,
                    radius,
                    start,
                    end,
                },
            );
        }
    }
    for degrees in [start, end] {
        let (y, x) = f64::to_radians(degrees).sin_cos();
        pattern.line(Use::Cut, at(inner * x, inner * y), at(outer * x, outer * y));
    }
    // The centre belongs to the marking out only where it lies on the sheet's own table.
    if outer < 2_000.0 {
        pattern.crossed(Use::Aid, centre, 5.0);
    }
    pattern.line(Use::Aid, at(0.0, inner), at(0.0, outer));
    pattern.measured_from(
        ("the middle line of the blank", 0.0),
        ("the top of the outer arc", outer),
    );
    Ok(pattern.finished())
}
