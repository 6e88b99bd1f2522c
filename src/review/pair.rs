//! Two changes taken together.

use super::best_step::with_milder;
use super::best_step::{SHORT_LIST, size};
use super::finding::{Lever, Verdict};
use super::harm::worst_first;
use super::remedy::{Brought, Remedy, makes_stops};
use super::{Assessment, BestStep, Tally, rank_steps};
use crate::design::Design;

/// Two changes that together make a question pass; checked by the whole review.
#[derive(Debug, Clone, PartialEq)]
pub struct Pair {
    /// Both changes in the order in which they are made: the second is told for the design with the first. What they
    /// do to other questions is told of both together.
    pub changes: [Remedy; 2],
    /// Findings that both together make worse, as of a [`Remedy`].
    pub worsens: Vec<(&'static str, Verdict, Verdict)>,
    /// Questions among them that are only asked with both, as of a [`Remedy`].
    pub brings: Vec<Brought>,
    /// The verdicts of the whole review with both.
    pub after: Tally,
    /// How large they are together: of a number against its usual range; anything else counts as 1.
    pub size: f64,
}

impl Pair {
    /// The pair of these changes, which do this together; none when they do not fit the design.
    pub fn of(
        design: &Design,
        changes: [Remedy; 2],
        worsens: Vec<(&'static str, Verdict, Verdict)>,
        brings: Vec<Brought>,
        after: Tally,
    ) -> Option<Self> {
        let [first, second] = &changes;
        let between = first.change.as_ref()?.apply(design)?;
        let size = size(design, first) + size(&between, second);
        Some(Self {
            changes,
            worsens,
            brings,
            after,
            size,
        })
    }

    /// The design with the first change: the one that the second is told for.
    pub fn between(&self, design: &Design) -> Option<Design> {
        self.changes[0].change.as_ref()?.apply(design)
    }

    /// The design with both changes.
    pub fn apply(&self, design: &Design) -> Option<Design> {
        let second = self.changes[1].change.as_ref()?;
        second.apply(&self.between(design)?)
    }

    /// Whether a builder can take both as they stand.
    pub fn is_plain(&self) -> bool {
        self.changes.iter().all(Remedy::is_plain)
    }

    /// Whether another one pulls the same two levers, in any order.
    fn is_like(&self, other: &Self) -> bool {
        let levers = |pair: &Self| {
            let [first, second] = &pair.changes;
            let second = told_without(&first.lever, &second.lever);
            [Some(first.lever.clone()), second].map(|lever| lever.as_ref().map(without_place))
        };
        let ([first, second], others) = (levers(self), levers(other));
        others == [first.clone(), second.clone()] || others == [second, first]
    }
}

/// Where a new item stands is no part of what it is; nor is it which of the stages changes places with the others.
pub(super) fn without_place(lever: &Lever) -> Lever {
    let mut lever = lever.clone();
    match &mut lever {
        Lever::NewItem { index: place, .. } | Lever::Move { from: place, .. } => *place = 0,
        Lever::Input(_) => {}
    }
    lever
}

/// A lever of the design with the first change, as it is called without that; none where it belongs to a new item, or to a
/// list whose order the first changes.
pub(super) fn told_without(first: &Lever, second: &Lever) -> Option<Lever> {
    let (list, new) = match first {
        Lever::Input(_) => return Some(second.clone()),
        Lever::Move { list, .. } => {
            return Some(second.clone()).filter(|second| !is_about(second, list));
        }
        Lever::NewItem { list, index, .. } => (*list, *index),
    };
    let mut told = second.clone();
    match &mut told {
        Lever::NewItem {
            list: other,
            index: place,
            ..
        } => {
            if *other == list && *place > new {
                *place -= 1;
            }
        }
        Lever::Input(path) => {
            if let Some((place, field)) = item_of(path, list) {
                let before = place_without(place, new)?;
                *path = Design::item_input(list, before, &field).into();
            }
        }
        Lever::Move { list: other, from } => {
            if *other == list {
                *from = place_without(*from, new)?;
            }
        }
    }
    Some(told)
}

/// Where an item stands without the new one at that place; none for the new one itself.
fn place_without(place: usize, new: usize) -> Option<usize> {
    (place != new).then(|| if place > new { place - 1 } else { place })
}

/// Place and field of an input of an item of this list.
fn item_of(path: &str, list: &str) -> Option<(usize, String)> {
    let rest = path.strip_prefix(list)?.strip_prefix('.')?;
    let (place, field) = rest.split_once('.')?;
    Some((place.parse().ok()?, field.to_string()))
}

/// Whether a lever is about the items of this list, or their order.
fn is_about(lever: &Lever, list: &str) -> bool {
    match lever {
        Lever::Input(path) => item_of(path, list).is_some(),
        Lever::NewItem { list: its, .. } | Lever::Move { list: its, .. } => *its == list,
    }
}

/// The pairs that are offered: no two of the same levers, what a builder can take as it stands first, then the smallest;
/// three at most.
pub fn rank_pairs(mut pairs: Vec<Pair>) -> Vec<Pair> {
    pairs.sort_by(|one, other| {
        (!one.is_plain())
            .cmp(&!other.is_plain())
            .then(one.size.total_cmp(&other.size))
    });
    short_list(pairs)
}

/// The first of each two levers, three at most.
fn short_list(pairs: Vec<Pair>) -> Vec<Pair> {
    let mut short: Vec<Pair> = Vec::with_capacity(SHORT_LIST);
    for pair in pairs {
        if short.len() < SHORT_LIST && !short.iter().any(|kept| kept.is_like(&pair)) {
            short.push(pair);
        }
    }
    short
}

/// What to take first, over all failing verdicts.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Advice {
    /// The single steps that mend most.
    pub steps: Vec<BestStep>,
    /// The pairs that remove most Stops, where no single step that a builder can take removes one.
    pub pairs: Vec<Pair>,
    /// Where neither removes one: single changes that do, but that nobody can take as they stand.
    pub beyond: Vec<BestStep>,
    /// Where neither removes one, and only if asked for: changes that mend a Stop and leave as many or more, which is worth
    /// it only for what can be mended after them. See [`rank_detours`](super::rank_detours).
    pub detours: Vec<BestStep>,
}

impl Advice {
    /// Whether a step or a pair that a builder can take leaves fewer than these Stops.
    pub fn leads_on(&self, stops: usize) -> bool {
        let by_pair = |pair: &Pair| pair.is_plain() && pair.after.stops < stops;
        self.removes_plainly(stops) || self.pairs.iter().any(by_pair)
    }

    /// Whether a single step that a builder can take leaves fewer than these Stops.
    pub fn removes_plainly(&self, stops: usize) -> bool {
        (self.steps.iter()).any(|step| step.removes_plainly(stops))
    }

    /// The Stops of the review before, by title, where nothing that is told here removes one: wishes and pass marks are no
    /// steps, so that no step may be left while a question still stops.
    pub fn leaves(&self, before: &Assessment) -> Vec<&'static str> {
        let stops = Tally::of(&before.findings).stops;
        let removed = (self.steps.iter().map(|step| step.stops.1))
            .chain(self.pairs.iter().map(|pair| pair.after.stops))
            .any(|left| left < stops);
        (worst_first(&before.findings).into_iter())
            .filter(|finding| finding.verdict == Verdict::Stop && !removed)
            .map(|finding| finding.title)
            .collect()
    }
}

/// What to take first, of all single steps, of those that only ease a Stop, and of all pairs. Where single steps remove
/// Stops they alone are told, with those that ease one and leave as few for less; else pairs that do; where no builder can take one of these either, what turns a Stop into a Watch.
pub fn advice(
    stops: usize,
    steps: Vec<BestStep>,
    eased: Vec<BestStep>,
    pairs: Vec<Pair>,
) -> Advice {
    if steps.iter().any(|step| step.removes_plainly(stops)) {
        let eased = eased.into_iter().filter(|step| step.removes_plainly(stops));
        return Advice {
            steps: with_milder(rank_steps(steps), eased.collect()),
            ..Advice::default()
        };
    }
    let pairs = best_pairs(stops, pairs);
    let removes = |step: &&BestStep| step.stops.1 < stops;
    let beyond = rank_steps(steps.iter().filter(removes).cloned().collect());
    let eased = if pairs.iter().any(Pair::is_plain) {
        Vec::new()
    } else {
        eased
    };
    Advice {
        steps: rank_steps(steps.into_iter().chain(eased).collect()),
        pairs,
        beyond,
        detours: Vec::new(),
    }
}

/// The pairs that remove most Stops, of as many those that make no new one, then most Watches, for least change.
fn best_pairs(stops: usize, mut pairs: Vec<Pair>) -> Vec<Pair> {
    pairs.retain(|pair| pair.after.stops < stops);
    let rank = |pair: &Pair| {
        let stops = (pair.after.stops, makes_stops(&pair.worsens));
        (!pair.is_plain(), stops, pair.after.watches)
    };
    pairs.sort_by(|one, other| {
        rank(one)
            .cmp(&rank(other))
            .then(one.size.total_cmp(&other.size))
    });
    short_list(pairs)
}
