//! How sure the verdicts are: the whole review over many cases in which each input that is not known
//! exactly lies somewhere inside its plus-minus.
//!
//! Propagation of distributions by sampling as in JCGM 101:2008, with stratified draws. Inputs are taken
//! as independent of each other; each is surely inside its plus-minus and most likely as entered.

mod draws;
mod ranks;
mod report;

pub use draws::{Draws, Generator, triangular};
pub use ranks::{chance, quantile, rank_correlation, ranks};
pub use report::{Driver, HowSure, SamplingReport, Span};

use super::reads::Known;
use super::{Assessment, Chapter, Finding, Verdict, assess, changed_verdicts};
use crate::design::quantity::Quantity;
use crate::design::spread::Doubtful;
use crate::design::{Design, Value};
use std::ops::Range;

/// Numbers kept of each finding in each case: verdict, margin, main number.
const PER_FINDING: usize = 3;

/// Most cases that are reckoned.
pub const MOST_CASES: usize = 20_000;

/// How far a sampling has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Progress {
    /// Cases reckoned.
    pub done: usize,
    /// Cases wanted.
    pub wanted: usize,
}

/// A finding of the design as entered.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Subject {
    id: &'static str,
    chapter: Chapter,
    /// Quantity of the main number.
    quantity: Option<Quantity>,
    /// What that number counts.
    counted: Option<&'static str>,
    as_entered: [f32; PER_FINDING],
}

impl Subject {
    fn new(finding: &Finding) -> Self {
        let quantity = finding.compared.first_measure().map(|main| main.quantity);
        Self {
            id: finding.id,
            chapter: finding.chapter,
            quantity,
            counted: finding.compared.first_counted(),
            as_entered: numbers(Some(finding), quantity),
        }
    }
}

/// Verdict, margin and main number, if that is of the same quantity as in the design as entered.
fn numbers(found: Option<&Finding>, quantity: Option<Quantity>) -> [f32; PER_FINDING] {
    let verdict = found.map_or(Verdict::CannotTell, |finding| finding.verdict);
    let margin = found.and_then(|finding| finding.margin);
    let main = found
        .and_then(|finding| finding.compared.first_measure())
        .filter(|main| Some(main.quantity) == quantity);
    [
        f32::from(verdict as u8),
        margin.map_or(f32::NAN, |margin| margin as f32),
        main.map_or(f32::NAN, |main| main.si as f32),
    ]
}

/// A sampling under way. The same design, seed and number of cases give the same report, however the work
/// is cut into slices and whoever reckons them.
///
/// ```
/// use hearthplan::{design::Design, review::sampling::Sampling};
/// let mut sampling = Sampling::new(&Design::default(), 1, 40);
/// while sampling.progress().done < sampling.progress().wanted {
///     sampling.run(20);
/// }
/// let report = sampling.report();
/// assert!(report.findings.iter().all(|finding| (0.0..=1.0).contains(&finding.passes)));
/// ```
#[derive(Debug, Clone)]
pub struct Sampling {
    design: Design,
    /// What the review says of the design as entered; in the cases only those chapters are asked again that read
    /// something that is not known exactly.
    entered: Box<Assessment>,
    inputs: Vec<Doubtful>,
    draws: Draws,
    subjects: Vec<Subject>,
    reckoned: Vec<bool>,
    outcomes: Vec<f32>,
}

impl Sampling {
    /// A sampling of so many cases, at most [`MOST_CASES`]; nothing is reckoned yet but the design as entered.
    pub fn new(design: &Design, seed: u64, cases: usize) -> Self {
        let cases = cases.min(MOST_CASES);
        let inputs = design.all_doubtful();
        let draws = Draws::new(seed, cases, inputs.iter().map(|input| input.path.as_str()));
        let entered = Box::new(assess(design));
        let subjects: Vec<Subject> = entered.findings.iter().map(Subject::new).collect();
        Self {
            design: design.clone(),
            entered,
            inputs,
            draws,
            reckoned: vec![false; cases],
            outcomes: vec![f32::NAN; cases * subjects.len() * PER_FINDING],
            subjects,
        }
    }

    /// The inputs that are not held fixed.
    pub fn inputs(&self) -> &[Doubtful] {
        &self.inputs
    }

    /// The design of one case.
    pub fn case(&self, case: usize) -> Design {
        let mut design = self.design.clone();
        self.turn_into(&mut design, case);
        design
    }

    /// Makes of a design of any case that of this one; the same for all cases is all that is not in doubt.
    fn turn_into(&self, design: &mut Design, case: usize) {
        for (place, doubtful) in self.inputs.iter().enumerate() {
            let share = self.draws.share(case, place);
            let mut value = triangular(share, doubtful.low, doubtful.value, doubtful.high);
            if doubtful.input.is_whole() {
                value = value.round();
            }
            // Inside the allowed range by its making; where a value is refused all the same the input is as entered.
            if design.set(&doubtful.path, Value::Number(value)).is_err() {
                let _ = design.set(&doubtful.path, Value::Number(doubtful.value));
            }
        }
    }

    /// What the review says of these cases, to be given to [`Sampling::take`]: of each finding in each case the
    /// verdict, the margin and the main number. Says nothing of cases that are not planned.
    pub fn outcomes(&self, cases: Range<usize>) -> Vec<f32> {
        let cases = cases.start..cases.end.min(self.reckoned.len());
        let known = Known::but_for(
            &self.entered,
            self.inputs.iter().map(|input| input.path.as_str()),
        );
        let taken_over = |subject: &Subject| known.about(subject.chapter).is_some();
        let taken_over: Vec<bool> = self.subjects.iter().map(taken_over).collect();
        let mut outcomes = Vec::with_capacity(cases.len() * self.subjects.len() * PER_FINDING);
        let mut design = self.design.clone();
        for case in cases {
            self.turn_into(&mut design, case);
            let findings = changed_verdicts(&design, &known);
            // Nearly always the findings come in the same order in every case.
            let mut next = 0;
            for (subject, taken_over) in self.subjects.iter().zip(&taken_over) {
                if *taken_over {
                    outcomes.extend(subject.as_entered);
                    continue;
                }
                let is_it = |finding: &Finding| finding.id == subject.id;
                let place = match findings.get(next) {
                    Some(finding) if is_it(finding) => Some(next),
                    _ => findings.iter().position(is_it),
                };
                next = place.map_or(next, |place| place + 1);
                let found = place.and_then(|place| findings.get(place));
                outcomes.extend(numbers(found, subject.quantity));
            }
        }
        outcomes
    }

    /// Takes in what [`Sampling::outcomes`] of an equal sampling said of the cases from `first` on.
    pub fn take(&mut self, first: usize, outcomes: &[f32]) {
        let width = self.subjects.len() * PER_FINDING;
        if width == 0 {
            self.reckoned.fill(true);
            return;
        }
        let rows = outcomes.chunks_exact(width);
        let places = self.outcomes.chunks_exact_mut(width).skip(first);
        let marks = self.reckoned.iter_mut().skip(first);
        for ((row, place), mark) in rows.zip(places).zip(marks) {
            place.copy_from_slice(row);
            *mark = true;
        }
    }

    /// Reckons the next so many cases here.
    pub fn run(&mut self, cases: usize) {
        let first = self.reckoned.iter().position(|reckoned| !reckoned);
        if let Some(first) = first {
            let outcomes = self.outcomes(first..first.saturating_add(cases));
            self.take(first, &outcomes);
        }
    }

    /// How far it has come.
    pub fn progress(&self) -> Progress {
        Progress {
            done: self.reckoned.iter().filter(|reckoned| **reckoned).count(),
            wanted: self.reckoned.len(),
        }
    }

    /// What the cases reckoned so far say.
    pub fn report(&self) -> SamplingReport {
        report::of(self)
    }
}
