//! Is a packed bed deep and wide enough for its pieces?

use super::{Answer, At, Question, Solved, is};
use crate::design::Source::{CommonPractice, FromMemory};
use crate::design::inputs::{FilterMedium, StageKind};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::review::train::levers;

/// Fewest layers of pieces that the gas must pass: in fewer it finds a straight way through. Our own mark.
const LAYERS: f64 = 5.0;
/// Width of the bed over its pieces from which on the gas no longer slips past along the wall (common practice).
const ABREAST: f64 = 10.0;

/// One side of a bed over its pieces, and what it should be.
struct Side {
    pieces: f64,
    least: f64,
    words: &'static str,
    path: &'static str,
}

impl Side {
    fn enough(&self) -> f64 {
        self.pieces / self.least
    }
}

fn sides(at: &At) -> [Side; 2] {
    let entry = at.entry;
    let piece = entry.filter_piece.value;
    [
        Side {
            pieces: entry.filter_depth.value / piece,
            least: LAYERS,
            words: "{}: a bed of {} is only {} of its pieces of {} deep, wanted {}: dust and tar find a straight way through",
            path: "filter_depth",
        },
        Side {
            pieces: entry.filter_diameter.value / piece,
            least: ABREAST,
            words: "{}: a bed {} wide is only {} of its pieces of {} wide, wanted {}: the gas slips past along the wall, where the pieces lie loosest",
            path: "filter_diameter",
        },
    ]
}

/// The side that is farthest from enough.
fn narrower(at: &At) -> Side {
    let [deep, wide] = sides(at);
    if wide.enough() < deep.enough() {
        wide
    } else {
        deep
    }
}

/// The packed bed with the fewest pieces in its way. None where no filter is packed.
pub(super) fn ask(solved: &Solved) -> Option<Finding> {
    let packed = is(StageKind::Filter);
    let at = solved
        .stages(solved.clean, |entry| {
            packed(entry) && entry.medium == FilterMedium::Packed
        })
        .min_by(|one, other| {
            let (one, other) = (narrower(one), narrower(other));
            one.enough().total_cmp(&other.enough())
        })?;
    let entry = at.entry;
    let worst = narrower(&at);
    let verdict = Verdict::at_least(worst.enough(), 1.0, 0.0);
    let name = solved.name(at.place);
    let length = |value| Measure::new(Q::Length, value);
    let number = |value| Measure::new(Q::Number, value);
    let piece = length(entry.filter_piece.value);
    let (depth, width) = (entry.filter_depth.value, entry.filter_diameter.value);
    let [deep, wide] = sides(&at);
    let size = if worst.path == "filter_depth" {
        depth
    } else {
        width
    };
    Some(
        Question {
            id: "train.filter_bed",
            title: "Filter bed against its pieces",
            meaning: "A packed bed cleans because the gas must wind its way around many pieces.",
            why: "A bed of few pieces lets dust and tar through, whatever share is entered as caught, and its pressure loss is no longer what is reckoned.",
            caution: None,
        }
        .answered(Answer {
            verdict,
            margin: worst.enough() - 1.0,
            compared: match verdict {
                Verdict::Good => Phrase::new(
                    "{}: {} pieces deep, {} pieces wide; wanted {} and {}",
                    [
                        name.into(),
                        number(deep.pieces).into(),
                        number(wide.pieces).into(),
                        number(LAYERS).into(),
                        number(ABREAST).into(),
                    ],
                ),
                _ => Phrase::new(
                    worst.words,
                    [
                        name.into(),
                        length(size).into(),
                        number(worst.pieces).into(),
                        piece.into(),
                        number(worst.least).into(),
                    ],
                ),
            },
            working: vec![
                Step {
                    words: "Pieces one behind the other, along the gas",
                    formula: "n = L / d",
                    values: vec![
                        ("L", "bed depth", length(depth)),
                        ("d", "pieces of the bed", piece),
                    ],
                    result: number(deep.pieces),
                    source: CommonPractice,
                    sure: "Our own mark of five: in fewer layers a grain of dust passes without touching any.",
                },
                Step {
                    words: "Pieces side by side, across the gas",
                    formula: "n = D / d",
                    values: vec![
                        ("D", "filter diameter", length(width)),
                        ("d", "pieces of the bed", piece),
                    ],
                    result: number(wide.pieces),
                    source: FromMemory(
                        "handbooks on packed columns: ten pieces and more, so that the loose layer at the wall counts little; Ergun's equation holds for such beds",
                    ),
                    sure: "The mark is a rule: from 8 to 15 is read.",
                },
            ],
            levers: [levers::at(at.place, worst.path), levers::at(at.place, "filter_piece")]
                .into_iter()
                .collect::<Vec<Lever>>(),
        }),
    )
}
