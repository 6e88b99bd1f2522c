//! Does tar fall out before the cooler, in pipe or cyclone, where nothing is made to catch it?

use super::{Answer, At, Question, Solved};
use crate::design::Source::CommonPractice;
use crate::design::inputs::{Cover, StageKind, TrainStage};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::review::train::levers;
use crate::sizing::train::Note;

/// Margin where the gas itself is warm enough and only a wall is too cold.
const ONLY_THE_WALL: f64 = -0.001;

/// Whether a stage is made to catch tar, or stands where none is left to tell of.
fn catches_tar(stage: &TrainStage) -> bool {
    match stage.kind {
        StageKind::Cooler | StageKind::Trap | StageKind::Filter | StageKind::Blower => true,
        StageKind::Pipe | StageKind::Cyclone | StageKind::Measured => false,
    }
}

/// Whether wall or gas is colder than the tar's dew point, K.
fn is_sticky(at: &At, dew: f64) -> bool {
    let out = &at.outcome.out;
    at.outcome.notes.contains(&Note::TarCondenses) || out.temperature.value < dew
}

/// Pipes and cyclones before the first stage that is made to catch tar; not asked where there are none.
pub(super) fn ask(solved: &Solved) -> Option<Finding> {
    let train = &solved.design.train;
    let first = train.iter().position(catches_tar).unwrap_or(train.len());
    let hollow = |stage: &TrainStage| matches!(stage.kind, StageKind::Pipe | StageKind::Cyclone);
    let early: Vec<At> = solved
        .stages(solved.usual, hollow)
        .filter(|at| at.place < first)
        .collect();
    let dew = solved.design.raw_gas.tar_dew_point.value;
    let sticky = early.iter().find(|at| is_sticky(at, dew));
    let at = sticky.or(early.last())?;
    let leaves = at.outcome.out.temperature.value;
    let temperature = |value| Measure::new(Q::Temperature, value);
    let above = (leaves - dew) / dew.max(1.0);
    let words = match sticky {
        None => "{}: tar falls out below {}, the gas leaves it with {} at usual load",
        Some(_) if leaves < dew => {
            "{}: tar falls out below {}, the gas leaves it with {} at usual load, before anything catches tar: tar and dust cake in it"
        }
        Some(_) => {
            "{}: tar falls out below {}, the gas leaves it with {} at usual load, but its wall is colder than that: tar and dust cake on it"
        }
    };
    Some(
        Question {
            id: "train.tar_early",
            title: "Tar before the cooler",
            meaning: "Pipe and cyclone between hearth and cooler should stay hotter than the tar's dew point, so that tar falls out where it can be caught and drained.",
            why: "Where dust is still in the gas it cakes with tar: bends and cyclone close up, and no trap drains them.",
            caution: Some(
                "Tar and soot irritate the skin and may cause cancer: gloves, long sleeves, no bare hands. Open it only when it is cold and has been aired: carbon monoxide stays in it.",
            ),
        }
        .answered(Answer {
            verdict: match sticky {
                Some(_) => Verdict::Watch,
                None => Verdict::Good,
            },
            margin: match sticky {
                Some(_) => above.min(ONLY_THE_WALL),
                None => above.max(0.0),
            },
            compared: Phrase::new(
                words,
                [
                    solved.name(at.place).into(),
                    temperature(dew).into(),
                    temperature(leaves).into(),
                ],
            ),
            working: vec![Step {
                words: "Tar begins to fall out where gas or wall is colder than its dew point",
                formula: "T < T_tar",
                values: vec![
                    ("T_tar", "tar condenses below", temperature(dew)),
                    ("T", "gas that comes in", temperature(at.gas.temperature.value)),
                ],
                result: temperature(leaves),
                source: CommonPractice,
                sure: "The dew point of tar is a guess until you look into your own pipes. At the lowest load and while lighting the gas is colder",
            }],
            levers: match sticky {
                Some(at) => kept_hot(&early, at.place),
                None => Vec::new(),
            },
        }),
    )
}

/// What keeps the gas hot up to a place: wool around what is bare, more of it, less of the way.
fn kept_hot(early: &[At], place: usize) -> Vec<Lever> {
    let before = early.iter().filter(|at| at.place <= place);
    let of = |at: &At| {
        let cover = match at.entry.cover {
            Cover::Bare => "cover",
            Cover::Insulated => "insulation",
        };
        let length = (at.entry.kind == StageKind::Pipe).then_some("length");
        [Some(cover), length]
            .into_iter()
            .flatten()
            .map(|name| levers::at(at.place, name))
            .collect::<Vec<Lever>>()
    };
    before.flat_map(of).collect()
}
