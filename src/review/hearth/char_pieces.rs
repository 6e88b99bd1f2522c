//! Can the char come from this wood?

use super::questions::{TAPE, finite};
use crate::design::Design;
use crate::design::Source::CommonPractice;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};

/// Up to this share of the wood's size char is taken as it is entered. Our own mark, above the half that is usual.
const LARGE: f64 = 0.7;

/// Size of the char against that of the wood it is made of.
pub(super) fn char_pieces(design: &Design) -> Finding {
    let (char, wood) = (design.hearth.char_size.value, design.fuel.piece_size.value);
    let length = |value| Measure::new(Q::Length, value);
    let verdict = Verdict::at_most(char, LARGE * wood + TAPE, f64::INFINITY);
    Finding {
        id: "hearth.char_pieces",
        chapter: Chapter::Hearth,
        title: "Char no larger than the wood",
        meaning: "Wood shrinks and breaks as it chars, so that its char is smaller than it was.",
        verdict,
        compared: Phrase::new(
            match verdict {
                Verdict::Good => "char pieces of {} from wood pieces of {}",
                _ if char <= wood + TAPE => {
                    "char pieces of {} from wood pieces of {}: char usually is about half as large as its wood, and smaller char takes more pressure than is reckoned here"
                }
                _ => {
                    "char pieces of {} cannot come from wood pieces of {}: one of the two is entered wrong, and the bed takes more pressure than is reckoned here"
                }
            },
            [length(char).into(), length(wood).into()],
        ),
        why: "Pressure lost in the bed, suction at the engine and work of the blower are reckoned with the size of the char. Too large a size makes all of them look small.",
        margin: finite(1.0 - char / (LARGE * wood)),
        working: vec![Step {
            words: "Largest that char of this wood is taken for without a question",
            formula: "d_char ≤ 0.7 d_wood",
            values: vec![
                ("d_char", "char size", length(char)),
                ("d_wood", "piece size of the wood", length(wood)),
            ],
            result: length(LARGE * wood),
            source: CommonPractice,
            sure: "Char usually is about half as large as the wood was, and much of it smaller; 0.7 is our own mark.",
        }],
        caution: None,
        levers: vec![
            Lever::input("hearth.char_size"),
            Lever::input("fuel.piece_size"),
        ],
        about: "hearth",
    }
}
