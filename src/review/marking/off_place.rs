//! How far off its place a hole is, in words.

use super::questions::length;
use crate::design::phrase::{Phrase, Slot};
use crate::sizing::marking::BlindCut;
use uom::si::f64::Length;

/// Less than this is shown as nothing, m.
const NOTHING: f64 = 0.000_5;

fn is_nothing(off: Length) -> bool {
    off.value.abs() < NOTHING
}

/// Which way a length is off, such as `81 mm too low`; the bare length where it is none.
fn side(off: Length, [above, below]: [&'static str; 2]) -> Slot {
    let words = match off {
        _ if is_nothing(off) => return length(off.abs()),
        off if off.value < 0.0 => below,
        _ => above,
    };
    Phrase::new("{} {}", [length(off.abs()), words.into()]).into()
}

/// Which way a hole is off in height; where it `passes`, that it may be so.
pub(super) fn in_height(blind: &BlindCut, passes: bool) -> Slot {
    match passes {
        true => side(
            blind.up,
            [
                "higher, within what may be off",
                "lower, within what may be off",
            ],
        ),
        false => side(blind.up, ["too high", "too low"]),
    }
}

/// Which way a hole is off along the wrap; where it `passes`, that it may be so.
pub(super) fn along(blind: &BlindCut, passes: bool) -> Slot {
    match passes {
        true => side(
            blind.along,
            [
                "to the right, within what may be off",
                "to the left, within what may be off",
            ],
        ),
        false => side(blind.along, ["too far right", "too far left"]),
    }
}

/// Which way a hole that does not pass is off its place; a direction in which it is not off is left out.
pub(crate) fn told(blind: &BlindCut) -> Slot {
    match (is_nothing(blind.up), is_nothing(blind.along)) {
        (true, false) => along(blind, false),
        (_, true) => in_height(blind, false),
        (false, false) => {
            let both = [in_height(blind, false), along(blind, false)];
            Phrase::new("{} and {}", both).into()
        }
    }
}
