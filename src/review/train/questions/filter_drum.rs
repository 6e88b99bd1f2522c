//! Does the cloth of a filter fit into its drum?

use super::{Answer, At, Question, Solved, is};
use crate::design::Source::{CommonPractice, OwnMark};
use crate::design::inputs::{FilterMedium, StageKind};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Step, Verdict};
use crate::review::train::levers;
use crate::sizing::train_mass;
use std::f64::consts::PI;

/// From cloth to cloth in a drum of bags or flat pockets, m, the ways of the gas and the cake on both sides of it on
/// average. Common practice, no source.
const APART: f64 = 0.025;
/// Folds closer than this leave the gas no way to the cloth, m. Our own mark.
const CLOSEST: f64 = 0.003;

/// Width, height and height left for the cloth of a drum, m.
struct Drum {
    diameter: f64,
    height: f64,
    filled: f64,
}

impl Drum {
    fn of(at: &At) -> Option<Drum> {
        let [diameter, height] = train_mass::drum_size(at.entry)?.map(|length| length.value);
        let filled = (height - 0.5 * diameter).max(0.5 * height);
        Some(Drum {
            diameter,
            height,
            filled,
        })
    }

    /// Cloth that it holds with such a distance from cloth to cloth, m².
    fn holds(&self, apart: f64) -> f64 {
        0.25 * PI * self.diameter * self.diameter * self.filled / apart
    }
}

/// The fullest drum with cloth. None where no filter is of cloth. The drum of a packed bed follows from its bed.
pub(super) fn ask(solved: &Solved) -> Option<Finding> {
    let filter = is(StageKind::Filter);
    let share = |drum: &Drum, at: &At| at.entry.cloth_area.value / drum.holds(APART);
    let (drum, at) = solved
        .stages(solved.clean, |entry| {
            filter(entry) && entry.medium == FilterMedium::Cloth
        })
        .filter_map(|at| Some((Drum::of(&at)?, at)))
        .max_by(|(one, of_one), (other, of_other)| {
            share(one, of_one).total_cmp(&share(other, of_other))
        })?;
    let entered = at.entry.cloth_area.value;
    let (most, no_more) = (drum.holds(APART), drum.holds(CLOSEST));
    let verdict = Verdict::at_most(entered, most, no_more);
    let length = |value| Measure::new(Q::Length, value);
    let area = |value| Measure::new(Q::Area, value);
    let words = match verdict {
        Verdict::Good => {
            "{}: {} of cloth in a drum {} wide and {} high, which holds up to {} as bags or flat pockets"
        }
        Verdict::Stop => {
            "{}: {} of cloth in a drum {} wide and {} high, which holds about {} as bags or flat pockets: so much does not fit in, however close it is folded"
        }
        _ => {
            "{}: {} of cloth in a drum {} wide and {} high, which holds about {} as bags or flat pockets: only a bought cartridge with close folds has so much, and dust soon bridges its folds"
        }
    };
    Some(
        Question {
            id: "train.filter_drum",
            title: "Cloth in its drum",
            meaning: "Cloth hangs in its drum as bags or pockets. Between them the gas must find its way, and the dust must fall down.",
            why: "Cloth that touches cloth lets no gas through: then there is less of it than is reckoned with, it clogs sooner, and the engine starves.",
            caution: None,
        }
        .answered(Answer {
            verdict,
            margin: most / entered - 1.0,
            compared: Phrase::new(
                words,
                [
                    solved.name(at.place).into(),
                    area(entered).into(),
                    length(drum.diameter).into(),
                    length(drum.height).into(),
                    area(most).into(),
                ],
            ),
            working: vec![
                Step {
                    words: "Height that the cloth takes: above and below a quarter of the width stays free for the gas, but no more than half of the height",
                    formula: "h = max(H − D / 2, H / 2)",
                    values: vec![
                        ("D", "drum inside", length(drum.diameter)),
                        ("H", "its height", length(drum.height)),
                    ],
                    result: length(drum.filled),
                    source: CommonPractice,
                    sure: "Our own assumption: a tight lid leaves more for the cloth, a dust box below it less.",
                },
                Step {
                    words: "Cloth that the drum holds as bags or flat pockets",
                    formula: "A = π D² h / (4 s)",
                    values: vec![
                        ("D", "drum inside", length(drum.diameter)),
                        ("s", "from cloth to cloth, on average", length(APART)),
                        (
                            "s_least",
                            "closest folds, from cloth to cloth",
                            length(CLOSEST),
                        ),
                        ("A_least", "cloth with folds as close as that", area(no_more)),
                    ],
                    result: area(most),
                    source: OwnMark("cloth hung by hand stands about 25 mm (1 in) apart; bags of 10 cm (4 in) with 5 cm (2 in) between them come to a third of it"),
                    sure: "Within a half: count your bags, their length times what they are around.",
                },
            ],
            levers: ["vessel_diameter", "vessel_height", "cloth_area"]
                .map(|name| levers::at(at.place, name))
                .to_vec(),
        }),
    )
}
