//! Which changes mend several questions at once, so that what fails for one cause is told with one change.

use super::Assessment;
use super::best_step::is_like;
use super::finding::Tally;
use super::harm::worst_first;
use super::pair::{Advice, Pair};
use super::remedy::{Change, Remedy};
use crate::design::quantity::System;
use std::collections::BTreeMap;

/// Where a change stands that mends a question.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// Among the best steps.
    BestSteps,
    /// At the question with this id.
    Question(&'static str),
}

/// A change that stands elsewhere and mends a question no worse than what is offered there.
#[derive(Debug, Clone, PartialEq)]
pub struct Elsewhere {
    /// Where it stands.
    pub place: Place,
    /// The change.
    pub remedy: Remedy,
}

/// What is offered for a question: single changes, and two together.
pub type Own<'a> = (&'a [Remedy], &'a [Pair]);

/// The questions that a change mends which stands elsewhere: among the best steps, or at a question that is told before.
///
/// It is told so where that change is of a lever of the question as well, or where no single change is offered for it, and
/// leaves no more Stops, and of as many no more Watches, than anything that is offered there; not of one that there is
/// something to know of before it is taken. Of several questions that offer one of the best steps the first keeps it.
pub fn mended_elsewhere<'a>(
    before: &Assessment,
    advice: &'a Advice,
    offered: &dyn Fn(&str) -> Own<'a>,
) -> BTreeMap<&'static str, Elsewhere> {
    let is_free = |remedy: &Remedy| remedy.reservations(System::Metric).is_empty();
    let shared = |remedy: &&Remedy| remedy.mends.len() > 1 && is_free(remedy);
    let best = advice.steps.iter().map(|step| &step.remedy);
    let mut told: Vec<(Place, &Remedy)> = (best.filter(shared))
        .map(|remedy| (Place::BestSteps, remedy))
        .collect();
    let mut kept: Vec<&Change> = Vec::new();
    let mut found = BTreeMap::new();
    for finding in worst_first(&before.findings) {
        let (singles, pairs) = offered(finding.id);
        let own: Vec<&Remedy> = (singles.iter())
            .filter(|remedy| remedy.change.is_some())
            .collect();
        let is_own = |remedy: &Remedy| own.iter().any(|own| own.change == remedy.change);
        let first = told.iter().find_map(|(place, remedy)| {
            let change = remedy.change.as_ref()?;
            let is_first = *place == Place::BestSteps && !kept.contains(&change);
            (is_first && is_own(remedy)).then_some(change)
        });
        if let Some(change) = first {
            kept.push(change);
            continue;
        }
        let does_as_well = |remedy: &Remedy| {
            let of_a_lever = own.iter().any(|own| is_like(&own.lever, &remedy.lever));
            let no_more = |after: Option<Tally>| remedy.after <= after;
            remedy.mends.contains(&finding.id)
                && (own.is_empty() || of_a_lever)
                && own.iter().all(|own| no_more(own.after))
                && pairs.iter().all(|pair| no_more(Some(pair.after)))
        };
        match told.iter().find(|(_, remedy)| does_as_well(remedy)) {
            Some((place, remedy)) => {
                let elsewhere = Elsewhere {
                    place: *place,
                    remedy: (*remedy).clone(),
                };
                found.insert(finding.id, elsewhere);
            }
            None => {
                let place = Place::Question(finding.id);
                let own = own.into_iter().filter(shared);
                told.extend(own.map(|remedy| (place, remedy)));
            }
        }
    }
    found
}
