//! Which way does a pipe lead away from the shell? An angle alone tells neither up nor down, and an offset neither left nor
//! right: built the other way round its inner end lies elsewhere.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};
use uom::si::length::millimeter;

/// What nobody sets a pipe by, ° and mm.
const LEVEL: f64 = 0.05;
const MIDDLE: f64 = 0.05;

/// Whether a pipe of this angle to the vessel's axis goes straight out.
pub fn is_straight(lean: Angle) -> bool {
    (lean.get::<degree>() - 90.0).abs() <= LEVEL
}

/// Where the outer end of a pipe is, by its angle to the vessel's axis.
///
/// ```
/// use hearthplan::sizing::pipe_way::outer_end;
/// use uom::si::{angle::degree, f64::Angle};
/// let words = [60.0, 90.0, 120.0].map(|lean| outer_end(Angle::new::<degree>(lean)));
/// assert_eq!(words, ["outer end up", "straight out", "outer end down"]);
/// ```
pub fn outer_end(lean: Angle) -> &'static str {
    match lean.get::<degree>() {
        _ if is_straight(lean) => "straight out",
        up if up < 90.0 => "outer end up",
        _ => "outer end down",
    }
}

/// The side that a pipe is set off to, seen from outside; none where its axis meets the vessel's.
///
/// ```
/// use hearthplan::sizing::pipe_way::side;
/// use uom::si::{f64::Length, length::millimeter};
/// let sides = [20.0, 0.0, -20.0].map(|offset| side(Length::new::<millimeter>(offset)));
/// assert_eq!(sides, [Some("to the right"), None, Some("to the left")]);
/// ```
pub fn side(offset: Length) -> Option<&'static str> {
    match offset.get::<millimeter>() {
        right if right > MIDDLE => Some("to the right"),
        left if left < -MIDDLE => Some("to the left"),
        _ => None,
    }
}
