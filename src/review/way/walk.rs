//! One try at a way: changes one after another, until none of what is advised removes a Stop.

use super::WayStep;
use crate::design::Design;
use crate::review::pair::{Advice, without_place};
use crate::review::remedy::Remedy;
use crate::review::two_changes::is_of_choice;
use crate::review::{Assessment, Finding, Lever, Tally, Verdict, assess_after};
use std::sync::Arc;

/// Changes that were made one after another.
#[derive(Debug, Clone)]
pub(super) struct Walk {
    pub(super) steps: Vec<WayStep>,
    pub(super) end: Design,
    pub(super) assessed: Arc<Assessment>,
    /// What would mend a Stop that is left, but not as it stands, with the ids of the questions that it mends.
    decisions: Vec<(Vec<&'static str>, Remedy)>,
    /// The assessments before each step.
    before: Vec<Arc<Assessment>>,
    /// How many steps were made when each advice was taken.
    taken: Vec<usize>,
    /// Levers that are left alone, since where they lead was seen.
    avoided: Vec<Lever>,
}

impl Walk {
    pub(super) fn from(design: Design, assessed: Arc<Assessment>) -> Self {
        Self {
            steps: Vec::new(),
            end: design,
            assessed,
            decisions: Vec::new(),
            before: Vec::new(),
            taken: Vec::new(),
            avoided: Vec::new(),
        }
    }

    /// What stops at its end.
    pub(super) fn left(&self) -> impl Iterator<Item = &Finding> {
        let findings = self.assessed.findings.iter();
        findings.filter(|finding| finding.verdict == Verdict::Stop)
    }

    /// Takes what is advised for its end; false where nothing of it removes a Stop.
    pub(super) fn go_on(&mut self, advice: &Advice) -> bool {
        let changes = self.advised(advice).to_vec();
        self.take(&changes)
    }

    /// The changes to make next, of what was found for the end: one, else two together; none where neither removes a Stop.
    fn advised<'a>(&self, advice: &'a Advice) -> &'a [Remedy] {
        let stops = self.left().count();
        let single = (advice.steps.iter())
            .find(|step| step.removes_plainly(stops) && self.may_take(&step.remedy));
        let pair = || {
            (advice.pairs.iter()).find(|pair| {
                let may = pair.changes.iter().all(|remedy| self.may_take(remedy));
                pair.is_plain() && pair.after.stops < stops && may
            })
        };
        match single {
            Some(step) => std::slice::from_ref(&step.remedy),
            None => pair().map_or(&[], |pair| &pair.changes),
        }
    }

    fn may_take(&self, remedy: &Remedy) -> bool {
        let lever = without_place(&remedy.lever);
        !self.avoided.contains(&lever)
    }

    /// Makes these changes one after another; false, and none made, if there are none or one does not fit.
    pub(super) fn take(&mut self, changes: &[Remedy]) -> bool {
        let count = self.steps.len();
        let mut at = (self.end.clone(), self.assessed.clone());
        for remedy in changes {
            let changed = (remedy.change.as_ref()).and_then(|change| change.apply(&at.0));
            let Some(changed) = changed else {
                self.steps.truncate(count);
                self.before.truncate(count);
                return false;
            };
            let assessed = Arc::new(assess_after(&at.0, &at.1, &changed));
            self.steps.push(WayStep {
                before: std::mem::replace(&mut at.0, changed),
                remedy: remedy.clone(),
                after: Tally::of(&assessed.findings),
            });
            self.before.push(std::mem::replace(&mut at.1, assessed));
        }
        (self.end, self.assessed) = at;
        self.taken.push(count);
        self.steps.len() > count
    }

    /// Notes what of the advice for its end would mend what is left, but not as it stands.
    pub(super) fn decide(&mut self, advice: &Advice) {
        let mends = |remedy: &Remedy| {
            let changed = remedy.change.as_ref()?.apply(&self.end)?;
            let after = assess_after(&self.end, &self.assessed, &changed);
            let ids = self.left().map(|finding| finding.id);
            Some(ids.filter(|id| passed(&after, id)).collect())
        };
        let remedies = advice.beyond.iter().map(|step| &step.remedy);
        self.decisions = remedies
            .filter_map(|remedy| Some((mends(remedy)?, remedy.clone())))
            .collect();
    }

    /// What would mend this question, if a person decided for it.
    pub(super) fn decision(&self, id: &str) -> Option<&Remedy> {
        let decisions = self.decisions.iter();
        let mut mending = decisions.filter(|(ids, _)| ids.contains(&id));
        mending.next().map(|(_, remedy)| remedy)
    }

    /// The same from the start on with these changes alone, which leave the same; none if one does not fit.
    pub(super) fn again(
        &self,
        start: &Design,
        assessed: &Arc<Assessment>,
        changes: &[Remedy],
    ) -> Option<Self> {
        let mut again = Self::from(start.clone(), assessed.clone());
        let fits = changes.is_empty() || again.take(changes);
        again.decisions.clone_from(&self.decisions);
        fits.then_some(again)
    }

    /// Other walks that may leave fewer Stops: on from the end by a change that mends one though it brings others to light,
    /// and from before each step that brought one that is left. None where only facts and wishes are left.
    pub(super) fn others(&self, advice: &Advice, start: &Assessment) -> Vec<Self> {
        let left: Vec<&Finding> = self
            .left()
            .filter(|finding| finding.levers.iter().any(is_of_choice))
            .collect();
        if left.is_empty() {
            return Vec::new();
        }
        let mut others: Vec<Self> = Vec::new();
        for detour in (advice.detours.iter()).filter(|step| self.may_take(&step.remedy)) {
            let mut other = self.clone();
            if other.take(std::slice::from_ref(&detour.remedy)) {
                others.push(other);
            }
        }
        let mut places: Vec<usize> = left
            .iter()
            .filter(|finding| passed(start, finding.id))
            .filter_map(|finding| self.brought(finding.id))
            .collect();
        places.sort_unstable_by(|one, other| other.cmp(one));
        places.dedup();
        others.extend(places.into_iter().filter_map(|place| self.without(place)));
        others
    }

    /// Which step made this question stop for good.
    fn brought(&self, id: &str) -> Option<usize> {
        (self.before.iter()).rposition(|before| passed(before, id))
    }

    /// The walk up to where the advice with this step was taken, to go on from there without that lever.
    fn without(&self, place: usize) -> Option<Self> {
        let from = *self.taken.iter().rfind(|from| **from <= place)?;
        let mut other = self.clone();
        other.end = self.steps.get(from)?.before.clone();
        other.assessed = self.before.get(from)?.clone();
        let lever = &self.steps.get(place)?.remedy.lever;
        other.avoided.push(without_place(lever));
        other.steps.truncate(from);
        other.before.truncate(from);
        other.taken.retain(|taken| *taken < from);
        Some(other)
    }
}

/// Whether a question passed, if not well.
pub(super) fn passed(assessment: &Assessment, id: &str) -> bool {
    let finding = assessment.finding(id);
    finding.is_none_or(|finding| matches!(finding.verdict, Verdict::Good | Verdict::Watch))
}
