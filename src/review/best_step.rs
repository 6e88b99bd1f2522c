//! The single changes that mend most for least change, over all failing verdicts.

use super::detour::{detour, rank_detours};
use super::finding::{Lever, Verdict};
use super::moving::moves_alike;
use super::pair::{Advice, advice, rank_pairs};
use super::remedy::{Change, Remedy, easing, makes_stops, remedies_of};
use super::reservations::adds_alike;
use super::two_changes::{pairs, takes_two};
use super::{Assessment, Tally, assess};
use crate::design::{Design, Kind, Value};

/// Most steps in the short list.
pub(super) const SHORT_LIST: usize = 3;

/// Wishes and pass marks: to move them mends nothing.
pub(super) const GOALS: [&str; 3] = ["limits.", "doubt.", "engine.wanted_power"];

/// A change and what it does to the verdicts, counted by the whole review.
#[derive(Debug, Clone, PartialEq)]
pub struct BestStep {
    /// The remedy it comes from.
    pub remedy: Remedy,
    /// The change.
    pub change: Change,
    /// Number of Stops before and after.
    pub stops: (usize, usize),
    /// How many more verdicts are neither Good nor Stop; below zero where fewer are.
    pub more_watches: isize,
    /// How large the change is: of a number against its usual range; anything else counts as 1.
    pub size: f64,
}

impl BestStep {
    /// Whether a builder can take it as it stands, and fewer than these Stops are left with it.
    pub(super) fn removes_plainly(&self, stops: usize) -> bool {
        self.remedy.is_plain() && self.stops.1 < stops
    }
}

/// When two changes together are looked for as well.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Pairs {
    Never,
    Always,
    /// Where no single step that a builder can take removes a Stop.
    WhereNeeded,
}

/// What a remedy does to all verdicts; none when it leaves as many Stops and Watches as before, or
/// only moves a wish or a pass mark.
pub fn weigh_step(design: &Design, before: &Assessment, remedy: &Remedy) -> Option<BestStep> {
    let step = weigh(design, Tally::of(&before.findings), remedy)?;
    let (now, then) = step.stops;
    let is_better = then < now || then == now && step.more_watches < 0;
    (is_better && !is_goal(&step.change)).then_some(step)
}

/// Whether a change only moves a wish or a pass mark.
pub(super) fn is_goal(change: &Change) -> bool {
    matches!(change, Change::Set { path, .. } if GOALS.iter().any(|goal| path.starts_with(goal)))
}

/// What a remedy does to the verdicts, counted so before it.
pub(super) fn weigh(design: &Design, now: Tally, remedy: &Remedy) -> Option<BestStep> {
    let then = remedy.after?;
    Some(BestStep {
        remedy: remedy.clone(),
        change: remedy.change.clone()?,
        stops: (now.stops, then.stops),
        more_watches: then.watches as isize - now.watches as isize,
        size: size(design, remedy),
    })
}

/// The change of a number against the width of its usual range; 1 for anything else.
pub(super) fn size(design: &Design, remedy: &Remedy) -> f64 {
    let Lever::Input(path) = &remedy.lever else {
        return 1.0;
    };
    match (remedy.input.kind, design.get(path), &remedy.value) {
        (Kind::Number { usual, .. }, Some(Value::Number(now)), Some(Value::Number(then))) => {
            let size = (then - now).abs() / (usual.1 - usual.0);
            if size.is_finite() { size } else { 1.0 }
        }
        _ => 1.0,
    }
}

/// The short list: fewest Stops left first, of as many what makes no new one, then fewest Watches, then the smallest
/// change; of one lever only the best. What no builder would do, a blanket as thick as the vessel, and what is no
/// choice, a hoist at hand, come behind all others.
pub fn rank_steps(mut steps: Vec<BestStep>) -> Vec<BestStep> {
    let rank = |step: &BestStep| {
        let remedy = &step.remedy;
        let stops = (step.stops.1, makes_stops(&remedy.worsens));
        (!remedy.is_plain(), stops, step.more_watches)
    };
    steps.sort_by(|one, other| {
        rank(one)
            .cmp(&rank(other))
            .then(one.size.total_cmp(&other.size))
    });
    let mut short: Vec<BestStep> = Vec::with_capacity(SHORT_LIST);
    for step in steps {
        if short.len() < SHORT_LIST
            && short
                .iter()
                .all(|kept| !is_like(&kept.remedy.lever, &step.remedy.lever))
        {
            short.push(step);
        }
    }
    short
}

/// A change of the same lever is worth telling beside another where it is smaller by as much of it. Our own mark.
const MILDER: f64 = 0.1;

/// The short list with what leaves as few Stops by less of the same lever, though some of what passes there is only a Watch:
/// behind the step that it is milder than, where that one makes something else worse or lies beyond the usual. In a list
/// that is full the last ones give way.
pub(super) fn with_milder(short: Vec<BestStep>, eased: Vec<BestStep>) -> Vec<BestStep> {
    let mut told = Vec::with_capacity(SHORT_LIST);
    for step in short {
        let costs = !step.remedy.worsens.is_empty() || !step.remedy.is_usual();
        let milder = (eased.iter())
            .filter(|eased| costs && eased.remedy.lever == step.remedy.lever)
            .filter(|eased| eased.stops.1 <= step.stops.1)
            .filter(|eased| eased.size <= (1.0 - MILDER) * step.size)
            .min_by(|one, other| one.size.total_cmp(&other.size))
            .cloned();
        told.push(step);
        told.extend(milder);
    }
    told.truncate(SHORT_LIST);
    told
}

/// Whether two steps are too much alike to stand in one short list.
pub(super) fn is_like(one: &Lever, other: &Lever) -> bool {
    one == other || adds_alike(one, other) || moves_alike(one, other)
}

/// The single changes that remove most Stops, then most Watches, for least change. Candidates are the
/// remedies of everything that is not Good; each is counted by the whole review.
///
/// ```
/// use hearthplan::{design::example, review};
/// let design = example::as_first_drawn();
/// let best = review::best_step(&design);
/// assert!(best.iter().all(|step| step.stops.1 <= step.stops.0));
/// ```
pub fn best_step(design: &Design) -> Vec<BestStep> {
    let before = assess(design);
    best_of(design, &before, Verdict::Watch, Pairs::Never).steps
}

/// As [`best_step`], with the pairs to take where no single step removes a Stop, or what eases a Stop where there is no
/// pair either.
pub fn best_steps_or_pairs(design: &Design) -> Advice {
    let before = assess(design);
    best_of(design, &before, Verdict::Watch, Pairs::Always)
}

/// What to take first of all that mends what stops; pairs are only looked for where no single step will do.
pub(super) fn best_of_stops(design: &Design, before: &Assessment) -> Advice {
    best_of(design, before, Verdict::Stop, Pairs::WhereNeeded)
}

/// What to take first, of what mends questions with this verdict or a worse one.
fn best_of(design: &Design, before: &Assessment, from: Verdict, wanted: Pairs) -> Advice {
    let stops = Tally::of(&before.findings).stops;
    let tried: Vec<_> = (before.findings.iter())
        .filter(|finding| finding.verdict >= from)
        .map(|finding| (finding, remedies_of(design, before, finding)))
        .collect();
    let weigh = |remedy: &Remedy| weigh_step(design, before, remedy);
    let steps: Vec<BestStep> = (tried.iter())
        .flat_map(|(_, tried)| tried.iter().filter_map(weigh))
        .collect();
    let with_pairs = match wanted {
        Pairs::Never => false,
        Pairs::Always => true,
        Pairs::WhereNeeded => !steps.iter().any(|step| step.removes_plainly(stops)),
    };
    let (mut eased, mut together) = (Vec::new(), Vec::new());
    for (finding, tried) in tried.iter().filter(|_| with_pairs) {
        if takes_two(tried) {
            let mut found = Vec::new();
            for lever in &finding.levers {
                found.extend(pairs(design, before, finding, lever));
                eased.extend(
                    easing(design, before, finding, lever)
                        .as_ref()
                        .and_then(weigh),
                );
            }
            together.extend(rank_pairs(found));
        }
    }
    let mut found = advice(stops, steps, eased, together);
    if wanted == Pairs::WhereNeeded && !found.leads_on(stops) {
        let mut bold = Vec::new();
        for (finding, tried) in &tried {
            let without = tried.iter().filter(|remedy| remedy.change.is_none());
            bold.extend(without.filter_map(|it| detour(design, before, finding, &it.lever)));
        }
        let tried = tried.iter().flat_map(|(_, tried)| tried);
        found.detours = rank_detours(design, before, tried.chain(&bold));
    }
    found
}
