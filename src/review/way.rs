//! All steps one after another: from a design to as few Stops as changes that a builder can take lead to.
//!
//! The best step is taken, then the best step of the design with it, and so on; where no single change removes a Stop, two
//! together. Where that leaves Stops that may be built otherwise, other ways are tried: by a change that mends one of them
//! and brings something else to light, or without the step that brought it. The way that leaves fewest is told. What a later
//! change makes needless is left out in the end, and what was asked for is given up no further than the others leave it.

mod walk;

use super::best_step::best_of_stops;
use super::offered::{grid, without_dust};
use super::pair::Advice;
use super::remedy::{Change, Remedy};
use super::reservations::WISHES;
use super::{Assessment, Finding, Tally, Verdict, assess};
use crate::design::{Design, Kind, Value};
use std::collections::VecDeque;
use std::sync::Arc;
use walk::{Walk, passed};

/// Most changes of one way: whoever makes more has another machine in mind.
const MOST_CHANGES: usize = 30;

/// A wish that is so many steps of its grid away is no matter of steps.
const MOST_GRID_STEPS: f64 = 1e6;

/// How often more is looked for once the best steps lead no further: each takes as long as a step on the way.
const MOST_LOOKS: usize = 24;

/// One change of a way.
#[derive(Debug, Clone, PartialEq)]
pub struct WayStep {
    /// The design with the changes before it, but without this one.
    pub before: Design,
    /// The change. What it does to other questions is told by [`WayStep::after`] alone.
    pub remedy: Remedy,
    /// The verdicts of the whole review with it and all before it.
    pub after: Tally,
}

/// A question that still stops at the end of a way.
#[derive(Debug, Clone, Copy)]
pub struct OpenQuestion<'a> {
    /// The question, as it is answered there.
    pub finding: &'a Finding,
    /// The change that would mend it, but that is right only where it is so, or lies beyond what is usual; none where none
    /// was found.
    pub decision: Option<&'a Remedy>,
    /// Whether it passed at the start, and only stops with the changes.
    pub is_new: bool,
}

/// The changes found so far, each for the design with those before it.
///
/// ```
/// use hearthplan::{design::example, review};
/// let mut design = example::as_improved();
/// design.set("base.width", hearthplan::design::Value::Number(0.4)).unwrap();
/// let way = review::whole_way(&design);
/// let steps = way.steps();
/// assert!(steps.last().is_some_and(|last| last.after.stops < way.stops_before()));
/// ```
#[derive(Debug, Clone)]
pub struct Way {
    start: Design,
    assessed_at_start: Arc<Assessment>,
    /// What leads furthest of all that was tried to its end; none while the first is under way.
    best: Option<Walk>,
    /// What is under way.
    walk: Walk,
    /// What is tried next.
    attempts: VecDeque<Walk>,
    /// How often more may be looked for.
    looks: usize,
    is_whole: bool,
}

impl Way {
    /// A way that begins at this design, which has this assessment.
    pub fn from(design: Design, assessment: Arc<Assessment>) -> Self {
        let walk = Walk::from(design.clone(), assessment.clone());
        let is_whole = walk.left().next().is_none();
        Self {
            start: design,
            assessed_at_start: assessment,
            best: None,
            is_whole,
            walk,
            attempts: VecDeque::new(),
            looks: MOST_LOOKS,
        }
    }

    fn told(&self) -> &Walk {
        self.best.as_ref().unwrap_or(&self.walk)
    }

    /// The changes, in the order in which they are made.
    pub fn steps(&self) -> &[WayStep] {
        &self.told().steps
    }

    /// The design with all changes, and its assessment.
    pub fn end(&self) -> (&Design, &Arc<Assessment>) {
        let told = self.told();
        (&told.end, &told.assessed)
    }

    /// The design that the next advice is wanted for, and its assessment: not always the end, since what led nowhere is left
    /// for another try.
    pub fn next(&self) -> (&Design, &Arc<Assessment>) {
        (&self.walk.end, &self.walk.assessed)
    }

    /// Whether nothing is looked for any more.
    pub fn is_whole(&self) -> bool {
        self.is_whole
    }

    /// Number of Stops without any change.
    pub fn stops_before(&self) -> usize {
        self.assessed_at_start.count(Verdict::Stop)
    }

    /// Titles of what still stops with all changes.
    pub fn left(&self) -> Vec<&'static str> {
        self.told().left().map(|finding| finding.title).collect()
    }

    /// What still stops with all changes, and what a person has to decide or to find out there.
    pub fn open_questions(&self) -> Vec<OpenQuestion<'_>> {
        let told = self.told();
        let question = |finding| OpenQuestion {
            finding,
            decision: told.decision(finding.id),
            is_new: passed(&self.assessed_at_start, finding.id),
        };
        told.left().map(question).collect()
    }

    /// Goes on by the best of what was found for the design that was [`next`](Self::next). Where nothing of it removes a
    /// Stop, other ways to fewer are tried, as often as is worth it; then the way is whole.
    pub fn go_on(&mut self, advice: &Advice) {
        if self.is_whole {
            return;
        }
        self.looks = self.looks.saturating_sub(usize::from(self.best.is_some()));
        let goes_on = self.walk.go_on(advice) && self.walk.left().next().is_some();
        if goes_on && self.walk.steps.len() < MOST_CHANGES && self.looks > 0 {
            return;
        }
        self.walk.decide(advice);
        let stops = |walk: &Walk| walk.left().count();
        if (self.best.as_ref()).is_none_or(|best| stops(&self.walk) < stops(best)) {
            self.attempts = self.walk.others(advice, &self.assessed_at_start).into();
            self.best = Some(self.walk.clone());
        }
        match self.attempts.pop_front().filter(|_| self.looks > 0) {
            Some(other) => self.walk = other,
            None => self.finish(),
        }
    }

    /// Nothing more is tried.
    fn finish(&mut self) {
        self.is_whole = true;
        self.attempts.clear();
        if let Some(best) = self.best.take() {
            self.walk = best;
        }
        self.leave_out_needless();
        self.come_back_to_wishes();
    }

    /// Leaves out each change without which no other question stops in the end.
    fn leave_out_needless(&mut self) {
        let wanted = self.left();
        let mut kept: Vec<Remedy> = (self.walk.steps.iter())
            .map(|step| step.remedy.clone())
            .collect();
        let count = kept.len();
        let mut place = 0;
        while let Some(remedy) = kept.get(place) {
            let others: Vec<Remedy> = (kept.iter().enumerate())
                .filter(|(other, _)| *other != place)
                .map(|(_, remedy)| remedy.clone())
                .collect();
            let goes =
                !holds_place(remedy, &kept[place + 1..]) && self.stops_no_more(&others, &wanted);
            if goes {
                kept = others;
            } else {
                place += 1;
            }
        }
        let folded = fold(&mut kept);
        if kept.len() == count && !folded {
            return;
        }
        let again = (self.walk).again(&self.start, &self.assessed_at_start, &kept);
        self.walk = again.unwrap_or_else(|| self.walk.clone());
    }

    /// Where a change gives up a part of what was asked for, no more of it than all the others together need.
    fn come_back_to_wishes(&mut self) {
        let mut kept: Vec<Remedy> = (self.walk.steps.iter())
            .map(|step| step.remedy.clone())
            .collect();
        let mut nearer = false;
        for place in 0..kept.len() {
            let found = self.nearest_to_wish(&kept, place);
            if let (Some(value), Some(remedy)) = (found, kept.get_mut(place)) {
                wish(remedy, value);
                nearer = true;
            }
        }
        if nearer {
            let again = (self.walk).again(&self.start, &self.assessed_at_start, &kept);
            self.walk = again.unwrap_or_else(|| self.walk.clone());
        }
    }

    /// The value nearest to the entered one with which nothing is worse in the end, where this change is of a wish; none
    /// where the change has it already.
    fn nearest_to_wish(&self, changes: &[Remedy], place: usize) -> Option<f64> {
        let remedy = changes.get(place)?;
        let Some(Change::Set { path, value }) = &remedy.change else {
            return None;
        };
        let Kind::Number {
            quantity, usual, ..
        } = remedy.input.kind
        else {
            return None;
        };
        if !WISHES.contains(&path.as_str()) {
            return None;
        }
        let (given, wished) = (value.number()?, self.start.get(path)?.number()?);
        let step = grid(&self.start, &remedy.lever, quantity, usual.1 - usual.0);
        let steps = ((wished - given) / step).abs().ceil();
        if !(steps.is_finite() && steps < MOST_GRID_STEPS) {
            return None;
        }
        let at =
            |steps: u32| without_dust(given + (wished - given).signum() * step * f64::from(steps));
        // Without the change something else stops, or it would have been left out: so the wish itself fails.
        let (mut passing, mut failing) = (0, steps as u32);
        while failing > passing + 1 {
            let middle = passing + (failing - passing) / 2;
            let mut tried = changes.to_vec();
            if let Some(remedy) = tried.get_mut(place) {
                wish(remedy, at(middle));
            }
            if self.is_nowhere_worse(&tried) {
                passing = middle;
            } else {
                failing = middle;
            }
        }
        (passing > 0).then(|| at(passing))
    }

    /// Whether no question is answered worse with these changes than at the end.
    fn is_nowhere_worse(&self, changes: &[Remedy]) -> bool {
        self.made(changes).is_some_and(|made| {
            let verdict = |id| {
                let finding = self.walk.assessed.finding(id);
                finding.map_or(Verdict::Good, |finding| finding.verdict)
            };
            let findings = assess(&made).findings.into_iter();
            findings
                .map(|now| (now.verdict, verdict(now.id)))
                .all(|(now, then)| now <= then)
        })
    }

    /// The design with these changes alone; none where one does not fit.
    fn made(&self, changes: &[Remedy]) -> Option<Design> {
        (changes.iter()).try_fold(self.start.clone(), |design, remedy| {
            remedy.change.as_ref()?.apply(&design)
        })
    }

    /// Whether these changes alone leave nothing that stops but what is among these titles.
    fn stops_no_more(&self, changes: &[Remedy], titles: &[&str]) -> bool {
        self.made(changes).is_some_and(|made| {
            let stops = assess(&made).findings.into_iter();
            stops
                .filter(|finding| finding.verdict == Verdict::Stop)
                .all(|finding| titles.contains(&finding.title))
        })
    }
}

/// Gives a change of a wish another value.
fn wish(remedy: &mut Remedy, number: f64) {
    if let Some(Change::Set { value, .. }) = &mut remedy.change {
        *value = Value::Number(number);
        remedy.value = Some(value.clone());
    }
}

/// Whether later changes are told by places of a list that this one shifts.
fn holds_place(remedy: &Remedy, later: &[Remedy]) -> bool {
    let list = match &remedy.change {
        Some(Change::Insert { list, .. } | Change::Move { list, .. }) => *list,
        _ => return false,
    };
    later.iter().any(|other| touches(other, list))
}

/// Whether a change is about an item of this list.
fn touches(remedy: &Remedy, list: &str) -> bool {
    match &remedy.change {
        Some(Change::Insert { list: its, .. } | Change::Move { list: its, .. }) => *its == list,
        Some(Change::Set { path, .. }) => path.split('.').next() == Some(list),
        None => false,
    }
}

/// Brings a new item at once with the value that it is given later. Whether there was such a one.
fn fold(changes: &mut Vec<Remedy>) -> bool {
    let mut folded = false;
    let mut place = 0;
    while place < changes.len() {
        match later_value(changes, place) {
            Some(later) => {
                let value = changes.remove(later).value;
                give(&mut changes[place], value);
                folded = true;
            }
            None => place += 1,
        }
    }
    folded
}

/// Which later change gives the item of this one another value of what was searched for it.
fn later_value(changes: &[Remedy], place: usize) -> Option<usize> {
    let remedy = changes.get(place)?;
    let Some(Change::Insert { list, index, .. }) = &remedy.change else {
        return None;
    };
    let its_path = Design::item_input(list, *index, remedy.input.name);
    for (later, other) in changes.iter().enumerate().skip(place + 1) {
        match &other.change {
            Some(Change::Set { path, .. }) if *path == its_path => return Some(later),
            Some(Change::Insert { .. } | Change::Move { .. }) if touches(other, list) => {
                return None;
            }
            _ => {}
        }
    }
    None
}

/// Gives a new item another value of what was searched for it.
fn give(remedy: &mut Remedy, value: Option<Value>) {
    let is_new = matches!(remedy.change, Some(Change::Insert { .. }));
    if let Some(value) = value.filter(|_| is_new) {
        remedy.change = Some(remedy.lever.change(value.clone()));
        remedy.value = Some(value);
    }
}

/// The whole way of a design, in one go.
pub fn whole_way(design: &Design) -> Way {
    let mut way = Way::from(design.clone(), Arc::new(assess(design)));
    while !way.is_whole() {
        let (design, assessed) = way.next();
        let advice = best_of_stops(design, assessed);
        way.go_on(&advice);
    }
    way
}
