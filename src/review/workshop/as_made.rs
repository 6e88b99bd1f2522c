//! Is what is made already still as the design has it?

use crate::design::Design;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Verdict};
use crate::review::order::first_told;
use crate::sizing::as_made::{MadeOtherwise, kept_parts};
use uom::si::f64::Length;

/// Two lengths that differ by less are told as finely as a thickness, m.
const FINE: f64 = 0.003;

/// Not asked before a joint is ticked that has kept sizes.
pub(super) fn as_drawn(design: &Design, otherwise: &[MadeOtherwise]) -> Option<Finding> {
    let parts = kept_parts(design);
    if parts == 0 {
        return None;
    }
    let (verdict, compared) = match otherwise {
        [] => {
            let parts = Measure::new(Q::Count, parts as f64);
            let words = "{} sizes kept by the ticks, and the design still has them all";
            (Verdict::Good, Phrase::new(words, [parts.into()]))
        }
        _ => {
            let words = ["{}", "{}; {}", "{}; {}; parts besides: {}"];
            (
                Verdict::Watch,
                first_told(otherwise, in_words, |_| 1, &words),
            )
        }
    };
    Some(Finding {
        id: "workshop.as_made",
        chapter: Chapter::Workshop,
        title: "What is made is as the design has it",
        meaning: "The tick of a joint keeps the sizes of the metal parts on both sides of it. A change of the design after that does not reach the steel.",
        verdict,
        compared,
        why: "If such a part is made already, it must be made anew and tested again, or the change taken back. Ticked once more, a joint keeps the sizes of that moment.",
        margin: None,
        working: Vec::new(),
        caution: None,
        levers: Vec::new(),
        about: "joints",
    })
}

fn in_words(one: &MadeOtherwise) -> Phrase {
    let part: Slot = one.part.clone().into();
    let joint: Slot = Measure::new(Q::Count, one.joint as f64 + 1.0).into();
    match one.sizes {
        Some(sizes) => {
            let [was, now] = told_apart(sizes);
            let words = "{}: {} when joint {} was ticked, {} now";
            Phrase::new(words, [part, was.into(), joint, now.into()])
        }
        None => Phrase::new(
            "{}: there when joint {} was ticked, not in the design now",
            [part, joint],
        ),
    }
}

/// Both sizes, so finely that they differ.
pub fn told_apart((was, now): (Length, Length)) -> [Measure; 2] {
    let quantity = if (was - now).value.abs() < FINE {
        Q::Thickness
    } else {
        Q::Length
    };
    [was, now].map(|length| Measure::new(quantity, length.value))
}
