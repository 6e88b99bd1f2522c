//! What many cases together say about each finding.

use super::ranks::{Rising, chance, ranks, span, together};
use super::{PER_FINDING, Sampling};
use crate::design::Input;
use crate::design::phrase::Measure;
use crate::design::quantity::Quantity;
use crate::review::Verdict;

/// Most inputs named for one finding.
const MOST_DRIVERS: usize = 5;

/// How sure the verdicts are.
#[derive(Debug, Clone, PartialEq)]
pub struct SamplingReport {
    /// Cases reckoned.
    pub cases: usize,
    /// Inputs that were not held fixed.
    pub inputs: usize,
    /// Weaker correlations than this are chance.
    pub chance: f64,
    /// Each finding of the design as entered, in the order the questions are asked.
    pub findings: Vec<HowSure>,
    /// The inputs that drive the verdicts that could turn out either way, strongest first.
    pub drivers: Vec<Driver>,
}

impl SamplingReport {
    /// What is said of the finding with this id.
    pub fn finding(&self, id: &str) -> Option<&HowSure> {
        self.findings.iter().find(|finding| finding.id == id)
    }
}

/// How sure one verdict is.
#[derive(Debug, Clone, PartialEq)]
pub struct HowSure {
    /// Id of the finding.
    pub id: &'static str,
    /// Share of cases that are Good, 0 to 1.
    pub passes: f64,
    /// Share of cases that are not Stop, 0 to 1; what cannot be told counts as not Stop.
    pub not_stop: f64,
    /// The main number of the comparison over the cases; none where it does not vary, such as a limit, or where it has
    /// no unit and nothing tells what it counts.
    pub number: Option<Span<Measure>>,
    /// What that number counts, where it has no unit.
    pub counted: Option<&'static str>,
    /// The margin over the cases, as a share of the limit.
    pub margin: Option<Span<f64>>,
    /// The inputs it follows, strongest first; empty when none stands out from chance.
    pub drivers: Vec<Driver>,
}

impl HowSure {
    /// Whether the verdict could turn out either way.
    pub fn is_open(&self) -> bool {
        self.passes > 0.0 && self.passes < 1.0 || self.not_stop > 0.0 && self.not_stop < 1.0
    }
}

/// Where a number lies over the cases.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span<T> {
    /// A tenth of the cases lies below.
    pub low: T,
    /// Half of the cases lies below.
    pub middle: T,
    /// A tenth of the cases lies above.
    pub high: T,
}

/// An input that a finding follows.
#[derive(Debug, Clone, PartialEq)]
pub struct Driver {
    /// Path of the input.
    pub path: String,
    /// Its declaration.
    pub input: &'static Input,
    /// Spearman's rank correlation with the margin, −1 to 1: above 0 more is better.
    pub correlation: f64,
}

/// Strongest first.
fn by_strength(one: &Driver, other: &Driver) -> std::cmp::Ordering {
    (other.correlation.abs()).total_cmp(&one.correlation.abs())
}

pub(super) fn of(sampling: &Sampling) -> SamplingReport {
    let cases: Vec<usize> = (sampling.reckoned.iter().enumerate())
        .filter_map(|(case, reckoned)| reckoned.then_some(case))
        .collect();
    let inputs: Vec<Option<Vec<f64>>> = (0..sampling.inputs.len())
        .map(|input| sampling.draws.ranks(input, &cases))
        .collect();
    let chance = chance(cases.len());
    let findings: Vec<HowSure> = (0..sampling.subjects.len())
        .filter_map(|subject| how_sure(sampling, subject, &cases, &inputs, chance))
        .collect();
    let mut drivers: Vec<Driver> = Vec::new();
    for driver in findings
        .iter()
        .filter(|finding| finding.is_open())
        .flat_map(|finding| &finding.drivers)
    {
        match drivers.iter_mut().find(|known| known.path == driver.path) {
            Some(known) if known.correlation.abs() >= driver.correlation.abs() => {}
            Some(known) => *known = driver.clone(),
            None => drivers.push(driver.clone()),
        }
    }
    drivers.sort_by(by_strength);
    SamplingReport {
        cases: cases.len(),
        inputs: sampling.inputs.len(),
        chance,
        findings,
        drivers,
    }
}

fn how_sure(
    sampling: &Sampling,
    place: usize,
    cases: &[usize],
    inputs: &[Option<Vec<f64>>],
    chance: f64,
) -> Option<HowSure> {
    let subject = sampling.subjects.get(place)?;
    let column = |field: usize| -> Vec<f64> {
        let width = sampling.subjects.len() * PER_FINDING;
        cases
            .iter()
            .map(|case| case * width + place * PER_FINDING + field)
            .map(|at| {
                sampling
                    .outcomes
                    .get(at)
                    .map_or(f64::NAN, |&x| f64::from(x))
            })
            .collect()
    };
    let (verdicts, margins, numbers) = (column(0), column(1), column(2));
    let share = |wanted: fn(f64) -> bool| {
        let count = verdicts.iter().filter(|&&code| wanted(code)).count();
        count as f64 / cases.len().max(1) as f64
    };
    let margins = Rising::of(&margins);
    let margin = margins.span();
    let main = span(numbers);
    // What follows the inputs: the margin; where there is none, how bad the verdict is.
    let row = match margin {
        Some(_) => margins.ranks(),
        None => ranks(&verdicts.iter().map(|code| -code).collect::<Vec<_>>()),
    };
    // Among so many inputs some follow any verdict by chance: only what its chapter reads can drive it.
    let mut drivers: Vec<Driver> = inputs
        .iter()
        .zip(&sampling.inputs)
        .filter(|(_, doubtful)| subject.chapter.reads_input(&doubtful.path))
        .filter_map(|(drawn, doubtful)| {
            Some(Driver {
                path: doubtful.path.clone(),
                input: doubtful.input,
                correlation: together(drawn.as_ref()?, row.as_ref()?),
            })
        })
        .filter(|driver| driver.correlation.abs() > chance)
        .collect();
    drivers.sort_by(by_strength);
    drivers.truncate(MOST_DRIVERS);
    let plain = |quantity: &Quantity| matches!(quantity, Quantity::Number | Quantity::Count);
    let told = (subject.quantity).filter(|quantity| !plain(quantity) || subject.counted.is_some());
    let measure = |si| told.map(|quantity| Measure::new(quantity, si));
    Some(HowSure {
        id: subject.id,
        passes: share(|code| code == f64::from(Verdict::Good as u8)),
        not_stop: share(|code| code < f64::from(Verdict::Stop as u8)),
        number: main.filter(|main| main.low < main.high).and_then(|main| {
            Some(Span {
                low: measure(main.low)?,
                middle: measure(main.middle)?,
                high: measure(main.high)?,
            })
        }),
        counted: subject.counted,
        margin,
        drivers,
    })
}
