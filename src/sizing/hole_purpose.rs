//! What is a hole in the shell for? Its name tells; a person may call it what they like, so that what no name tells is not
//! known.

use super::names::words;
use crate::design::Design;
use crate::design::inputs::{Hole, HoleUse};

/// Words that tell by the name of a hole that the fire is lit through it.
const LIGHTING: [&str; 6] = [
    "lighting", "ignition", "igniter", "lighter", "kindling", "glow",
];

/// Whether a word stands in the name of a hole.
fn has(hole: &Hole, wanted: &str) -> bool {
    words(&hole.name).any(|word| word.eq_ignore_ascii_case(wanted))
}

/// How plainly the name of a hole tells that the gas leaves by it; 0 where it does not.
pub fn tells_of_gas(hole: &Hole) -> u8 {
    match (has(hole, "gas"), has(hole, "outlet")) {
        (true, true) => 3,
        (true, false) => 2,
        (false, true)
            if !["ash", "air", "water"]
                .into_iter()
                .any(|word| has(hole, word)) =>
        {
            1
        }
        _ => 0,
    }
}

/// The hole that the gas leaves by, by its name, with its place in the list.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::sizing::hole_purpose::gas_outlet;
/// let design = example::as_improved();
/// assert_eq!(gas_outlet(&design).unwrap().1.name, "Gas outlet");
/// ```
pub fn gas_outlet(design: &Design) -> Option<(usize, &Hole)> {
    (design.holes.iter().enumerate())
        .rev()
        .max_by_key(|(_, hole)| tells_of_gas(hole))
        .filter(|(_, hole)| tells_of_gas(hole) > 0)
}

/// Whether a hole is an opening that is called after the ash.
pub fn is_ash_door(hole: &Hole) -> bool {
    hole.carries == HoleUse::Open && has(hole, "ash")
}

/// Whether the fire is lit through a hole, by its name.
pub fn tells_of_lighting(hole: &Hole) -> bool {
    LIGHTING.into_iter().any(|word| has(hole, word))
}
