//! Two changes that together make a question pass, where none does alone.
//!
//! They are looked for as a person would: what helps a little is made, and a second change looked for that does the
//! rest; what would do but spoils something else is made, and a second change looked for that mends the new fault.

use super::best_step::GOALS;
use super::finding::{Finding, Lever, Verdict};
use super::moving::places;
use super::offered::{as_computed, grid, sizes_sold, without_dust};
use super::pair::{Pair, rank_pairs, told_without, without_place};
use super::pull::{GROUND, Pull, other_choices};
use super::reach::reach;
use super::remedy::{Remedy, brought, remedies_of, worsened};
use super::{Assessment, FACTS, Tally, assess, assess_after};
use crate::design::{Design, Input, Kind, Value};
use crate::sizing::hearth_there::keeps_hearth;
use crate::sizing::shell_there::keeps_vessel;
use std::cmp::Ordering;

/// Shares of the way that a number may go, tried on each side to see where it helps most.
const SCAN: [f64; 4] = [0.125, 0.25, 0.5, 1.0];

/// Most values of one first change that a second is looked for.
const MOST_FIRST: usize = 3;

/// Most new faults of one first change that a second is looked for: one change rarely mends more.
const MOST_FAULTS: usize = 2;

/// Whether a lever moves something that a person can choose to build: no fact, no wish and no pass mark.
pub(super) fn is_of_choice(lever: &Lever) -> bool {
    match lever {
        Lever::Input(path) => {
            !FACTS.contains(&path.as_ref()) && !GOALS.iter().any(|goal| path.starts_with(goal))
        }
        Lever::NewItem { .. } | Lever::Move { .. } => true,
    }
}

/// Whether levers were tried and none gives a change that a person could choose to build and leave all others as they are:
/// then two together are worth looking for.
pub fn takes_two(tried: &[Remedy]) -> bool {
    let enough = |remedy: &Remedy| {
        remedy.change.is_some() && is_of_choice(&remedy.lever) && !remedy.binds_others()
    };
    !tried.is_empty() && !tried.iter().any(enough)
}

/// The search for one finding with one first lever.
struct Search<'a> {
    design: &'a Design,
    before: &'a Assessment,
    finding: &'a Finding,
    first: &'a Lever,
    input: &'static Input,
    found: Vec<Pair>,
}

/// Pairs whose first change is of this lever, best first, at most three; so that a caller can spread the search over
/// several turns. Meant for findings where [`takes_two`] holds. All of them go through [`rank_pairs`] in the end.
pub fn pairs(design: &Design, before: &Assessment, finding: &Finding, lever: &Lever) -> Vec<Pair> {
    if !is_of_choice(lever) {
        return Vec::new();
    }
    let Some(input) = lever.input_of(design) else {
        return Vec::new();
    };
    let mut search = Search {
        design,
        before,
        finding,
        first: lever,
        input,
        found: Vec::new(),
    };
    let (helping, passing) = search.first_values();
    for value in &helping {
        search.second_for_the_rest(value);
    }
    for value in &passing {
        search.second_for_new_faults(value);
    }
    rank_pairs(search.found)
}

impl Search<'_> {
    fn pull(&self) -> Pull<'_> {
        Pull::new(self.design, self.before, self.finding, self.first)
    }

    /// Values that help but are not enough, gentlest first, and values that would do for this question alone.
    fn first_values(&self) -> (Vec<Value>, Vec<Value>) {
        let pull = self.pull();
        let Some(start) = pull.start(self.input) else {
            return (Vec::new(), Vec::new());
        };
        let now = Nearness::of(self.finding);
        let help = |value: Value| {
            let answer = pull.answer(&value)?;
            let near = Nearness::of(&answer);
            let helps = match near.cmp(&now) {
                Ordering::Less => false,
                // Where no margin tells what helps, anything chosen may.
                Ordering::Equal => answer.margin.is_none() && !matches!(value, Value::Number(_)),
                Ordering::Greater => true,
            };
            helps.then_some((value, near))
        };
        let enough = |near: &Nearness| near.is_good;
        let sorted = |tried: Vec<(Value, Nearness)>| {
            let (passing, mut helping): (Vec<_>, Vec<_>) =
                tried.into_iter().partition(|(_, near)| enough(near));
            helping.sort_by(|one, other| other.1.cmp(&one.1));
            let few = |values: Vec<(Value, _)>| {
                let values = values.into_iter().map(|(value, _)| value);
                values.take(MOST_FIRST).collect()
            };
            (few(helping), few(passing))
        };
        if let Lever::Move { list, from } = self.first {
            let places = places(self.design, list, *from).flatten();
            return sorted(places.filter_map(help).collect());
        }
        match (self.input.kind, start) {
            (Kind::Number { .. }, Value::Number(start)) => {
                let suits = as_computed(self.design, self.before, self.finding.id, self.first);
                let suits = suits.and_then(|number| help(Value::Number(number)));
                let mut helping: Vec<Value> = (suits.into_iter())
                    .filter(|(_, near)| !enough(near))
                    .map(|(value, _)| value)
                    .collect();
                for side in scan(&pull, self.input, start) {
                    let tried = side.into_iter().map(Value::Number).filter_map(help);
                    let short = tried.filter(|(_, near)| !enough(near));
                    let short: Vec<_> = short.collect();
                    let best = (short.iter().enumerate())
                        .max_by(|(_, one), (_, other)| one.1.cmp(&other.1));
                    if let Some((place, _)) = best {
                        let halfway = place / 2;
                        let wanted = |at: usize| at == place || at == halfway;
                        let short = short.into_iter().enumerate();
                        helping.extend(short.filter(|(at, _)| wanted(*at)).map(|(_, it)| it.0));
                    }
                }
                helping.truncate(MOST_FIRST);
                (helping, pull.smallest().flatten().into_iter().collect())
            }
            (Kind::Choice { options, .. }, start) => {
                sorted(other_choices(options, &start).filter_map(help).collect())
            }
            (Kind::Flag { .. }, Value::Flag(state)) => match help(Value::Flag(!state)) {
                Some((value, near)) if enough(&near) => (Vec::new(), vec![value]),
                Some((value, _)) => (vec![value], Vec::new()),
                None => (Vec::new(), Vec::new()),
            },
            _ => (Vec::new(), Vec::new()),
        }
    }

    /// Looks for what does the rest where the first change helps.
    fn second_for_the_rest(&mut self, value: &Value) {
        let Some((between, after)) = self.made(value) else {
            return;
        };
        let Some(finding) = after.finding(self.finding.id) else {
            return;
        };
        for lever in &finding.levers {
            self.second(value, &between, &after, finding, lever);
        }
    }

    /// Looks for what mends the new faults of a first change that is enough by itself.
    fn second_for_new_faults(&mut self, value: &Value) {
        let Some((between, after)) = self.made(value) else {
            return;
        };
        let faults =
            worsened(self.before, &after.findings)
                .into_iter()
                .filter(|(id, then, now)| {
                    let is_new = *now == Verdict::Stop && now != then;
                    is_new || GROUND.contains(id)
                });
        for (id, _, _) in faults.take(MOST_FAULTS) {
            let Some(finding) = after.finding(id) else {
                continue;
            };
            for lever in &finding.levers {
                self.second(value, &between, &after, finding, lever);
            }
        }
    }

    /// The design with the first change, and what the review says of it.
    fn made(&self, value: &Value) -> Option<(Design, Assessment)> {
        let between = self.first.change(value.clone()).apply(self.design)?;
        let after = assess_after(self.design, self.before, &between);
        Some((between, after))
    }

    /// Looks for the second change with this lever, which mends a finding of the design with the first.
    fn second(
        &mut self,
        first: &Value,
        between: &Design,
        after: &Assessment,
        finding: &Finding,
        lever: &Lever,
    ) {
        let Some(alone) = told_without(self.first, lever) else {
            return;
        };
        if !is_of_choice(lever) || without_place(&alone) == without_place(self.first) {
            return;
        }
        let Some(input) = lever.input_of(between) else {
            return;
        };
        let pull = Pull::new(between, after, finding, lever);
        if !may_pass(&pull, input) {
            return;
        }
        let Some(second) = pull.smallest().flatten() else {
            return;
        };
        let along = lever.change(second.clone());
        let pull = Pull {
            along: Some(&along),
            ..self.pull()
        };
        // With the second there, less of the first may be enough.
        let smaller = pull.smallest().flatten().filter(|value| value != first);
        let verified = smaller
            .into_iter()
            .chain([first.clone()])
            .find_map(|value| {
                pull.verify(&value)
                    .map(|(change, after)| (value, change, after))
            });
        let Some((value, change, after)) = verified else {
            return;
        };
        if self.is_enough_alone(self.first, &value) || self.is_enough_alone(&alone, &second) {
            return;
        }
        let Some(between) = change.apply(self.design) else {
            return;
        };
        let Some(both) = along.apply(&between) else {
            return;
        };
        let kept = keeps_vessel(self.design, &both);
        let part = |lever: &Lever, input, change, value, before, after| Remedy {
            lever: lever.clone(),
            input,
            change: Some(change),
            value: Some(value),
            worsens: Vec::new(),
            brings: Vec::new(),
            mends: Vec::new(),
            after: None,
            other_vessel: !kept && !keeps_vessel(before, after),
            other_hearth: !keeps_hearth(before, after),
        };
        let changes = [
            part(self.first, self.input, change, value, self.design, &between),
            part(lever, input, along.clone(), second, &between, &both),
        ];
        let worsens = worsened(self.before, &after);
        let brings = brought(self.before, &after);
        let pair = Pair::of(self.design, changes, worsens, brings, Tally::of(&after));
        self.found.extend(pair);
    }

    /// Whether a change mends the question without another.
    fn is_enough_alone(&self, lever: &Lever, value: &Value) -> bool {
        let pull = Pull::new(self.design, self.before, self.finding, lever);
        pull.passes(value.clone()) && pull.verify(value).is_some()
    }
}

/// Numbers on the way up and on the way down, as far as a remedy may go; sizes that are sold, where only such make sense.
fn scan(pull: &Pull, input: &Input, start: f64) -> [Vec<f64>; 2] {
    let Kind::Number {
        quantity,
        allowed,
        usual,
        ..
    } = input.kind
    else {
        return [Vec::new(), Vec::new()];
    };
    let (least, most) = reach(pull.design, pull.lever, start, allowed, usual);
    let sold = sizes_sold(pull.design, pull.lever, quantity);
    let step = grid(pull.design, pull.lever, quantity, usual.1 - usual.0);
    let on_the_way = |end: f64| {
        let mut values: Vec<f64> = if sold.is_empty() {
            let at = SCAN.map(|share| start + (end - start) * share);
            at.map(|value| without_dust((value / step).round() * step))
                .to_vec()
        } else {
            let (low, high) = (start.min(end), start.max(end));
            let sold = sold.iter().copied();
            let mut sizes: Vec<f64> = sold.filter(|size| (low..=high).contains(size)).collect();
            if end < start {
                sizes.reverse();
            }
            sizes
        };
        values.retain(|value| *value != start && (least..=most).contains(value));
        values.dedup();
        values
    };
    if matches!(pull.lever, Lever::NewItem { .. }) {
        let mut up = on_the_way(most);
        up.insert(0, start);
        [up, Vec::new()]
    } else {
        [on_the_way(most), on_the_way(least)]
    }
}

/// Whether the question passes anywhere on the way of a number: asked before a thorough search, most of which end without.
fn may_pass(pull: &Pull, input: &Input) -> bool {
    let Some(Value::Number(start)) = pull.start(input) else {
        return true;
    };
    if matches!(pull.lever, Lever::Move { .. }) {
        return true;
    }
    let tried = scan(pull, input, start).into_iter().flatten();
    tried.map(Value::Number).any(|value| pull.passes(value))
}

/// How near an answer is to Good: what can be told before what cannot, then by its margin.
#[derive(Debug, Clone, Copy)]
struct Nearness {
    is_good: bool,
    is_told: bool,
    margin: f64,
}

impl Nearness {
    fn of(finding: &Finding) -> Self {
        let margin = finding.margin.filter(|margin| margin.is_finite());
        Self {
            is_good: finding.verdict == Verdict::Good,
            is_told: finding.verdict != Verdict::CannotTell,
            margin: margin.unwrap_or(match finding.verdict {
                Verdict::Stop => -1.0,
                _ => 0.0,
            }),
        }
    }

    fn cmp(&self, other: &Self) -> Ordering {
        (self.is_good.cmp(&other.is_good))
            .then(self.is_told.cmp(&other.is_told))
            .then(self.margin.total_cmp(&other.margin))
    }
}

/// Two changes that together make the question with this id pass, best first; empty where one is enough, or where no
/// two of those tried are.
///
/// ```
/// use hearthplan::{design::example, review};
/// let design = example::as_first_drawn();
/// let stops = |design: &_| review::assess(design).count(review::Verdict::Stop);
/// for pair in review::two_changes(&design, "heart.turndown") {
///     assert!(stops(&pair.apply(&design).unwrap()) <= stops(&design));
/// }
/// ```
pub fn two_changes(design: &Design, id: &str) -> Vec<Pair> {
    let before = assess(design);
    let Some(finding) = before.finding(id) else {
        return Vec::new();
    };
    if !takes_two(&remedies_of(design, &before, finding)) {
        return Vec::new();
    }
    let levers = finding.levers.iter();
    rank_pairs(
        levers
            .flat_map(|lever| pairs(design, &before, finding, lever))
            .collect(),
    )
}
