//! Changes that mend what stops but leave as many Stops or more: worth taking only for what can be mended after them.
//!
//! A hearth that makes no gas hides what else is wrong with it. What makes it burn brings all that to light, and so removes
//! no Stop at first, though nothing leads on without it.

use super::best_step::{BestStep, SHORT_LIST, is_goal, is_like, weigh};
use super::finding::{Finding, Lever, Verdict};
use super::pull::Pull;
use super::remedy::Remedy;
use super::{Assessment, Tally};
use crate::design::Design;

/// The smallest change of this lever with which a Stop passes, whatever else it stops, as long as the ground that all
/// questions rest on holds; where a builder cannot take that, with which it is no Stop any more. None where there is none.
pub fn detour(
    design: &Design,
    before: &Assessment,
    finding: &Finding,
    lever: &Lever,
) -> Option<Remedy> {
    if finding.verdict != Verdict::Stop {
        return None;
    }
    let at_least = |enough| {
        let pull = Pull {
            at_any_price: true,
            enough,
            ..Pull::new(design, before, finding, lever)
        };
        (pull.remedy()).filter(|remedy| remedy.change.is_some() && remedy.is_plain())
    };
    at_least(Verdict::Good).or_else(|| at_least(Verdict::Watch))
}

/// The Stops with a change, but for those that could not be told without it: they may have been Stops all the time.
fn stops_known(remedy: &Remedy) -> Option<usize> {
    let untold = (remedy.worsens.iter())
        .filter(|(_, then, now)| *then == Verdict::CannotTell && *now == Verdict::Stop);
    Some(remedy.after?.stops.saturating_sub(untold.count()))
}

/// Of changes that each mend a Stop those that a builder can take, fewest Stops first but for what comes to light, then
/// the smallest; of one lever only the best, three at most.
pub fn rank_detours<'a>(
    design: &Design,
    before: &Assessment,
    remedies: impl Iterator<Item = &'a Remedy>,
) -> Vec<BestStep> {
    let now = Tally::of(&before.findings);
    let mut steps: Vec<(usize, BestStep)> = remedies
        .filter(|remedy| remedy.is_plain())
        .filter_map(|remedy| Some((stops_known(remedy)?, weigh(design, now, remedy)?)))
        .filter(|(_, step)| !is_goal(&step.change))
        .collect();
    steps.sort_by(|(one_stops, one), (other_stops, other)| {
        let rank = |stops: usize, step: &BestStep| (stops, step.stops.1, step.more_watches);
        (rank(*one_stops, one).cmp(&rank(*other_stops, other)))
            .then(one.size.total_cmp(&other.size))
    });
    let mut short: Vec<BestStep> = Vec::with_capacity(SHORT_LIST);
    for (_, step) in steps {
        let is_new = |kept: &BestStep| !is_like(&kept.remedy.lever, &step.remedy.lever);
        if short.len() < SHORT_LIST && short.iter().all(is_new) {
            short.push(step);
        }
    }
    short
}
