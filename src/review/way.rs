//! All steps one after another: from a design to as few Stops as changes that a builder can take lead to.
//!
//! The best step is taken, then the best step of the design with it, and so on; where no single change removes a Stop, two
//! together. What a later change makes needless is left out in the end.

use super::best_step::best_of_stops;
use super::pair::Advice;
use super::remedy::{Change, Remedy};
use super::{Assessment, Lever, Tally, Verdict, assess, assess_after};
use crate::design::{Design, Value};
use std::sync::Arc;

/// Most changes of one way: whoever makes more has another machine in mind.
const MOST_CHANGES: usize = 30;

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
    steps: Vec<WayStep>,
    end: Design,
    assessed: Arc<Assessment>,
    is_whole: bool,
}

impl Way {
    /// A way that begins at this design, which has this assessment.
    pub fn from(design: Design, assessment: Arc<Assessment>) -> Self {
        let mut way = Self {
            start: design.clone(),
            assessed_at_start: assessment.clone(),
            steps: Vec::new(),
            end: design,
            assessed: assessment,
            is_whole: false,
        };
        way.is_whole = way.left().is_empty();
        way
    }

    /// The changes, in the order in which they are made.
    pub fn steps(&self) -> &[WayStep] {
        &self.steps
    }

    /// The design with all changes, and its assessment.
    pub fn end(&self) -> (&Design, &Arc<Assessment>) {
        (&self.end, &self.assessed)
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
        let findings = self.assessed.findings.iter();
        findings
            .filter(|finding| finding.verdict == Verdict::Stop)
            .map(|finding| finding.title)
            .collect()
    }

    /// Goes on by the best of what was found for the design at its end; where nothing of it removes a Stop, the way is
    /// whole.
    pub fn go_on(&mut self, advice: &Advice) {
        let taken = !self.is_whole && self.take(next(advice, self.left().len()));
        self.is_whole = !taken || self.left().is_empty() || self.steps.len() >= MOST_CHANGES;
        if self.is_whole {
            self.leave_out_needless();
        }
    }

    /// Makes these changes one after another; false if there are none, or one does not fit.
    fn take(&mut self, changes: &[Remedy]) -> bool {
        let Some(walked) = self.walk(&self.end, &self.assessed, changes) else {
            return false;
        };
        if let Some((design, assessment)) = walked.end {
            self.end = design;
            self.assessed = Arc::new(assessment);
        }
        self.steps.extend(walked.steps);
        !changes.is_empty()
    }

    /// Makes changes from a design on; none if one of them does not fit.
    fn walk(&self, start: &Design, assessed: &Assessment, changes: &[Remedy]) -> Option<Walked> {
        let mut steps = Vec::with_capacity(changes.len());
        let mut end: Option<(Design, Assessment)> = None;
        for remedy in changes {
            let (before, known) = match &end {
                Some((design, assessment)) => (design, assessment),
                None => (start, assessed),
            };
            let changed = remedy.change.as_ref()?.apply(before)?;
            let assessment = assess_after(before, known, &changed);
            steps.push(WayStep {
                before: before.clone(),
                remedy: remedy.clone(),
                after: Tally::of(&assessment.findings),
            });
            end = Some((changed, assessment));
        }
        Some(Walked { steps, end })
    }

    /// Leaves out each change without which no other question stops in the end.
    fn leave_out_needless(&mut self) {
        let wanted = self.left();
        let mut kept: Vec<Remedy> = (self.steps.iter())
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
        if let Some(walked) = self.walk(&self.start, &self.assessed_at_start, &kept) {
            self.steps = walked.steps;
            let (end, assessed) = (walked.end)
                .unwrap_or_else(|| (self.start.clone(), (*self.assessed_at_start).clone()));
            self.end = end;
            self.assessed = Arc::new(assessed);
        }
    }

    /// Whether these changes alone leave nothing that stops but what is among these titles.
    fn stops_no_more(&self, changes: &[Remedy], titles: &[&str]) -> bool {
        let made = (changes.iter()).try_fold(self.start.clone(), |design, remedy| {
            remedy.change.as_ref()?.apply(&design)
        });
        made.is_some_and(|made| {
            let stops = assess(&made).findings.into_iter();
            stops
                .filter(|finding| finding.verdict == Verdict::Stop)
                .all(|finding| titles.contains(&finding.title))
        })
    }
}

/// What came of making changes.
struct Walked {
    steps: Vec<WayStep>,
    end: Option<(Design, Assessment)>,
}

/// The changes to make next, of what was found for a design with so many Stops: one, else two together; none where neither
/// removes a Stop.
fn next(advice: &Advice, stops: usize) -> &[Remedy] {
    let single = (advice.steps.iter()).find(|step| step.removes_plainly(stops));
    let pair = || (advice.pairs.iter()).find(|pair| pair.is_plain() && pair.after.stops < stops);
    match single {
        Some(step) => std::slice::from_ref(&step.remedy),
        None => pair().map_or(&[], |pair| &pair.changes),
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
    let Lever::NewItem { solve_for, .. } = &remedy.lever else {
        return;
    };
    if let (Some(Change::Insert { fields, .. }), Some(value)) = (&mut remedy.change, &value) {
        for (name, its) in fields.iter_mut() {
            if name == solve_for {
                *its = value.clone();
            }
        }
        remedy.value = Some(value.clone());
    }
}

/// The whole way of a design, in one go.
pub fn whole_way(design: &Design) -> Way {
    let mut way = Way::from(design.clone(), Arc::new(assess(design)));
    while !way.is_whole() {
        let (end, assessed) = way.end();
        let advice = best_of_stops(end, assessed);
        way.go_on(&advice);
    }
    way
}
