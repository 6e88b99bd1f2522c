//! Does the blast reach all around the hearth?

use super::questions::finite;
use crate::design::Design;
use crate::design::Source::{CommonPractice, OwnMark};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use std::f64::consts::PI;

/// With fewer nozzles the far side of the hearth stays cold (common practice, no source).
const FEWEST: u32 = 3;
/// Nozzles farther apart along the ring leave the char between them cold, m. Our own mark: in the published hearths
/// (SERI/SP-271-3022, table 5-1) they are 170 to 190 mm apart.
const FARTHEST: f64 = 0.250;

/// How many nozzles there are, and how far apart.
pub(super) fn around(design: &Design) -> Finding {
    let hearth = &design.hearth;
    let count = hearth.nozzle_count;
    let ring = hearth.nozzle_ring_diameter.value;
    let apart = PI * ring / f64::from(count);
    let few = f64::from(count) / f64::from(FEWEST);
    let (number, length) = (
        |count: u32| Measure::new(Q::Count, f64::from(count)),
        |value| Measure::new(Q::Length, value),
    );
    let slots = [
        number(count).into(),
        length(apart).into(),
        number(FEWEST).into(),
        length(FARTHEST).into(),
    ];
    Finding {
        id: "hearth.nozzles_around",
        chapter: Chapter::Hearth,
        title: "Nozzles all around the hearth",
        meaning: "Each nozzle keeps the char before it white hot. What lies far from all of them stays dark.",
        verdict: Verdict::at_least(few, 1.0, 0.0).max(Verdict::at_most(
            apart,
            FARTHEST,
            f64::INFINITY,
        )),
        compared: if count < FEWEST {
            Phrase::new(
                "nozzles: {}, {} apart around the fire tube; wanted at least {}, at most {} apart: the rest of the hearth stays cold, and tar passes there. The published hearths have 5 or 7",
                slots,
            )
        } else if apart > FARTHEST {
            Phrase::new(
                "nozzles: {}, {} apart around the fire tube; wanted at least {}, at most {} apart: the char between them stays cold",
                slots,
            )
        } else if count.is_multiple_of(2) {
            Phrase::new(
                "nozzles: {}, {} apart around the fire tube; wanted at least {}, at most {} apart. With an even number the jets meet head-on; an odd one is better",
                slots,
            )
        } else {
            Phrase::new(
                "nozzles: {}, {} apart around the fire tube; wanted at least {}, at most {} apart",
                slots,
            )
        },
        why: "Tar that comes down past a cold place is not broken up, however hot the rest of the fire is.",
        margin: finite((few - 1.0).min(1.0 - apart / FARTHEST)),
        working: vec![
            Step {
                words: "From nozzle to nozzle along the inside of the fire tube",
                formula: "s = π D / n",
                values: vec![
                    ("D", "fire tube at the nozzles", length(ring)),
                    ("n", "nozzles", number(count)),
                ],
                result: length(apart),
                source: OwnMark(
                    "the published hearths (SERI/SP-271-3022, table 5-1, from memory) have 170 to 190 mm (6 3/4 to 7 1/2 in)",
                ),
                sure: "The arithmetic is exact; how far a blast reaches depends on the char.",
            },
            Step {
                words: "Fewest nozzles: with one or two the far side stays cold",
                formula: "n ≥ n_least",
                values: vec![
                    ("n", "nozzles", number(count)),
                    ("n_least", "fewest", number(FEWEST)),
                ],
                result: number(FEWEST),
                source: CommonPractice,
                sure: "A habit of the trade; the published hearths have 5 or 7.",
            },
        ],
        caution: None,
        levers: vec![
            Lever::input("hearth.nozzle_count"),
            Lever::input("hearth.nozzle_ring_diameter"),
        ],
        about: "hearth",
    }
}
