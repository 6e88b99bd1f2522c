//! The questions about the gas train.

mod arrives;
mod bed_drains;
mod bores;
mod clean;
mod cool;
mod cooler_outside;
mod filter;
mod filter_bed;
mod filter_drum;
mod frost;
pub(in crate::review) mod leak;
pub(super) mod leaves;
mod metal;
mod power;
mod safe;
mod steps;
mod tar_early;
mod touch;
mod water;

pub(in crate::review) use cooler_outside::SCALDS;
pub(in crate::review) use safe::EXPLODES;

use super::{TrainReview, levers};
use crate::design::Design;
use crate::design::inputs::{LoadTime, StageKind, TrainStage};
use crate::design::phrase::Phrase;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::review::heart::Heart;
use crate::sizing::train::{GasState, StageError, StageOutcome, TrainError, TrainSolution};
use uom::si::f64::Ratio;

/// A train that could be solved at every load.
pub(super) struct Solved<'a> {
    pub design: &'a Design,
    pub train: &'a TrainReview,
    /// Share of the hearth too cold for tar at usual or full load; none where it is within its mark.
    pub cold_hearth: Option<Ratio>,
    /// None where there is no way to the flare.
    pub startup: Option<&'a TrainSolution>,
    pub usual: &'a TrainSolution,
    pub clean: &'a TrainSolution,
    pub dirty: &'a TrainSolution,
}

/// A load at which the train is solved.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Load {
    Full,
    Usual,
    Lighting,
}

impl Load {
    /// When it is.
    pub fn words(self) -> &'static str {
        match self {
            Load::Full => "at full load",
            Load::Usual => "at usual load",
            Load::Lighting => "while lighting",
        }
    }

    /// The state of the machine, for what is switched on then.
    pub fn state(self) -> LoadTime {
        match self {
            Load::Full | Load::Usual => LoadTime::Running,
            Load::Lighting => LoadTime::Lighting,
        }
    }
}

/// A stage at one load.
#[derive(Clone, Copy)]
pub(super) struct At<'a> {
    pub place: usize,
    pub entry: &'a TrainStage,
    /// Gas that comes in.
    pub gas: &'a GasState,
    pub outcome: &'a StageOutcome,
}

impl<'a> Solved<'a> {
    /// Every load that leads somewhere.
    pub fn loads(&self) -> impl Iterator<Item = &'a TrainSolution> + use<'a> {
        [
            self.startup,
            Some(self.usual),
            Some(self.clean),
            Some(self.dirty),
        ]
        .into_iter()
        .flatten()
    }

    /// The same with what each is called, the highest first.
    pub fn named_loads(&self) -> impl Iterator<Item = (Load, &'a TrainSolution)> + use<'a> {
        [
            Some((Load::Full, self.clean)),
            Some((Load::Full, self.dirty)),
            Some((Load::Usual, self.usual)),
            self.startup.map(|solution| (Load::Lighting, solution)),
        ]
        .into_iter()
        .flatten()
    }

    /// The stages of a kind at one load.
    pub fn stages<F: Fn(&TrainStage) -> bool>(
        &self,
        solution: &'a TrainSolution,
        fits: F,
    ) -> impl Iterator<Item = At<'a>> + use<'a, F> {
        self.design
            .train
            .iter()
            .zip(&solution.outcomes)
            .zip(&solution.points)
            .enumerate()
            .map(|(place, ((entry, outcome), gas))| At {
                place,
                entry,
                gas,
                outcome,
            })
            .filter(move |at| fits(at.entry))
    }

    /// What a stage is called.
    pub fn name(&self, place: usize) -> String {
        self.train
            .names
            .get(place)
            .map_or_else(String::new, |name| name.told.to_string())
    }
}

pub(super) fn is(kind: StageKind) -> impl Fn(&TrainStage) -> bool {
    move |stage| stage.kind == kind
}

/// The words of a question that are always the same.
pub(super) struct Question {
    pub id: &'static str,
    pub title: &'static str,
    pub meaning: &'static str,
    pub why: &'static str,
    pub caution: Option<&'static str>,
}

/// The answer to a question.
pub(super) struct Answer {
    pub verdict: Verdict,
    pub margin: f64,
    pub compared: Phrase,
    pub working: Vec<Step>,
    pub levers: Vec<Lever>,
}

impl Question {
    pub fn answered(self, answer: Answer) -> Finding {
        Finding {
            id: self.id,
            chapter: Chapter::Train,
            title: self.title,
            meaning: self.meaning,
            verdict: answer.verdict,
            compared: answer.compared,
            why: self.why,
            margin: Some(answer.margin).filter(|margin| margin.is_finite()),
            working: answer.working,
            caution: self.caution,
            levers: answer.levers,
            about: "train",
        }
    }
}

/// Every question that fits the train.
pub(super) fn ask(design: &Design, heart: &Heart, train: &TrainReview) -> Vec<Finding> {
    match (&train.usual, &train.full_clean, &train.full_dirty) {
        (Ok(usual), Ok(clean), Ok(dirty)) => {
            let solved = Solved {
                design,
                train,
                cold_hearth: heart.cold_for_tar(design),
                startup: train.startup.as_ref().ok(),
                usual,
                clean,
                dirty,
            };
            let mut findings = vec![passes(design, None)];
            findings.extend(cool::ask(&solved));
            findings.extend(cooler_outside::ask(&solved));
            findings.extend(tar_early::ask(&solved));
            findings.extend(touch::ask(&solved));
            findings.extend(frost::jacket(design));
            findings.extend(metal::ask(&solved));
            findings.extend(bores::ask(&solved));
            findings.extend(steps::ask(design, train));
            findings.extend(clean::ask(&solved));
            findings.extend(filter::ask(&solved));
            findings.extend(filter_bed::ask(&solved));
            findings.extend(filter_drum::ask(&solved));
            findings.extend(arrives::ask(&solved));
            findings.extend(water::ask(&solved));
            findings.extend(safe::ask(&solved));
            findings.push(leak::ask(design, train));
            findings.extend(power::ask(&solved));
            findings.extend(frost::ice(&solved));
            findings
        }
        (Err(why), _, _) => refused(design, train, (why, "at the usual load")),
        (_, Err(why), _) => refused(design, train, (why, "at full load")),
        (_, _, Err(why)) => refused(design, train, (why, "at full load with a dirty filter")),
    }
}

/// What is asked of a train that cannot be solved, with the load at which it cannot.
fn refused(
    design: &Design,
    train: &TrainReview,
    (why, at): (&TrainError, &'static str),
) -> Vec<Finding> {
    let leak = !why.is_for_want_of_gas();
    [passes(design, Some((why, at)))]
        .into_iter()
        .chain(leak.then(|| leak::ask(design, train)))
        .chain(frost::jacket(design))
        .chain(steps::ask(design, train))
        .collect()
}

/// Whether the train could be solved; `refused` says why not, and at which load.
fn passes(design: &Design, refused: Option<(&TrainError, &'static str)>) -> Finding {
    let (verdict, compared, levers) = match refused {
        None => (
            Verdict::Good,
            Phrase::plain("it passes every stage, at usual and at full load"),
            Vec::new(),
        ),
        Some((why, at)) if why.lets_nothing_through() => (
            Verdict::Stop,
            nothing_passes(why, at),
            levers::through(design, why),
        ),
        Some((why, _)) => (Verdict::CannotTell, told(why), Vec::new()),
    };
    Question {
        id: "train.passes",
        title: "Gas gets through the train",
        meaning: "Every stage must be one that gas can pass at usual and at full load.",
        why: "Nothing else can be said of the train before this is put right.",
        caution: None,
    }
    .answered(Answer {
        verdict,
        margin: f64::NAN,
        compared,
        working: Vec::new(),
        levers,
    })
}

fn told(why: &TrainError) -> Phrase {
    Phrase::new("{}", [why.to_string().into()])
}

/// Why no gas passes at a load, although everything is known.
pub(in crate::review) fn nothing_passes(why: &TrainError, at: &'static str) -> Phrase {
    match why.reason {
        StageError::NoPressureLeft if why.number == 0 => Phrase::new(
            "the way in of the air, char and grate take so much pressure {} that no gas would flow",
            [at.into()],
        ),
        StageError::NoPressureLeft => Phrase::new("{}, {}", [at.into(), why.to_string().into()]),
        _ => Phrase::new("no gas passes: {}", [why.to_string().into()]),
    }
}
