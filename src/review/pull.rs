//! The search for the smallest change of one lever with which a question passes.

use super::finding::{Chapter, Finding, Lever, Verdict};
use super::offered::{as_computed, grid, sizes_sold, thinnest, without_dust};
use super::reach::reach;
use super::reads::Known;
use super::remedy::{Change, Remedy, brought, makes_stops, mended, takes_another_vessel, worsened};
use super::standing::overhang;
use super::{Assessment, Tally, answers, verdicts};
use crate::design::inputs::Material;
use crate::design::quantity::Quantity;
use crate::design::{Choice, ChoiceOption, Design, Input, Kind, Value};
use crate::sizing::hearth_there::keeps_hearth;
use std::cell::LazyCell;

/// Findings that all others rest on: where one of these fails, the machine reckoned with is not the one that would be
/// built, or has no place to stand. No remedy makes them worse, Stops neither.
pub(super) const GROUND: [&str; 4] = [
    "hearth.band",
    "standing.clearance",
    "standing.frame",
    "standing.room",
];

/// How far beyond a passing number a remedy goes, as a share of the number or of its usual range, whichever is less: what
/// just passes would fail again with the next change.
const ROOM: f64 = 0.01;

/// A remedy goes on to a number of so many steps of its grid, where one lies near: it is easier said, and more likely a
/// size that is sold.
const ROUND: [f64; 3] = [50.0, 10.0, 5.0];

/// How far such a number may lie beyond, as a share like that of the room.
const NEAR: f64 = 0.04;

/// A number that is off its grid by less than this share of a step lies on it.
const DUST: f64 = 1e-6;

/// How far beyond the smallest number that passes others are tried, as shares of what is left.
const FURTHER: [f64; 5] = [0.03, 0.1, 0.25, 0.5, 0.8];

/// How often the way between two numbers is divided in search of one between them that passes.
const DIVISIONS: u32 = 12;

/// Overhangs that differ by less are the same, m.
const AS_FAR: f64 = 1e-6;

/// A value that passes, its change, and what the whole review says of it.
pub(super) type Verified = (Value, Change, Vec<Finding>);

/// A lever on a design: builds the change for a value of the searched input.
pub(super) struct Pull<'a> {
    pub(super) design: &'a Design,
    pub(super) before: &'a Assessment,
    pub(super) chapter: Chapter,
    pub(super) id: &'static str,
    pub(super) lever: &'a Lever,
    /// A change that is made after it every time.
    pub(super) along: Option<&'a Change>,
    /// The worst answer that is taken for enough.
    pub(super) enough: Verdict,
    /// Whether it may stop anything else.
    pub(super) at_any_price: bool,
}

impl<'a> Pull<'a> {
    pub(super) fn new(
        design: &'a Design,
        before: &'a Assessment,
        finding: &Finding,
        lever: &'a Lever,
    ) -> Self {
        Self {
            design,
            before,
            chapter: finding.chapter,
            id: finding.id,
            lever,
            along: None,
            enough: Verdict::Good,
            at_any_price: false,
        }
    }
}

/// Those of the findings that are a Stop.
fn stopped(findings: &[Finding]) -> impl Iterator<Item = &Finding> {
    (findings.iter()).filter(|finding| finding.verdict == Verdict::Stop)
}

impl Pull<'_> {
    /// The design with this value.
    pub(super) fn changed(&self, value: &Value) -> Option<Design> {
        let changed = self.lever.change(value.clone()).apply(self.design)?;
        match self.along {
            Some(change) => change.apply(&changed),
            None => Some(changed),
        }
    }

    /// The question as it is answered with this value.
    pub(super) fn answer(&self, value: &Value) -> Option<Finding> {
        let changed = self.changed(value)?;
        let known = Known::new(self.design, self.before, &changed);
        answers(&changed, self.chapter, Some(self.id), Some(&known))
            .into_iter()
            .find(|finding| finding.id == self.id)
    }

    pub(super) fn passes(&self, value: Value) -> bool {
        self.answer(&value)
            .is_some_and(|finding| finding.verdict <= self.enough)
    }

    fn tried(&self, number: f64) -> Tried {
        let answer = self.answer(&Value::Number(number));
        let (passes, margin) = answer.map_or((false, None), |answer| {
            (answer.verdict <= self.enough, answer.margin)
        });
        Tried {
            number,
            passes,
            margin: margin.unwrap_or(f64::NAN),
        }
    }

    fn is_enough(&self, findings: &[Finding]) -> bool {
        findings
            .iter()
            .any(|finding| finding.id == self.id && finding.verdict <= self.enough)
    }

    /// What the whole review says of a change that its own chapter lets pass: the change is offered only if the
    /// question passes there as well, and nothing is stopped that it would not be worth.
    pub(super) fn verify(&self, value: &Value) -> Option<(Change, Vec<Finding>)> {
        let change = self.lever.change(value.clone());
        let changed = self.changed(value)?;
        let known = Known::new(self.design, self.before, &changed);
        let after = verdicts(&changed, Some(&known));
        let carried = overhang(&changed) <= overhang(self.design) + AS_FAR;
        (carried && self.is_enough(&after) && self.is_worth_it(&after)).then_some((change, after))
    }

    /// Whether a change leaves the ground that all findings rest on, and makes no new Stop, or fewer than it takes away.
    fn is_worth_it(&self, after: &[Finding]) -> bool {
        let worse = worsened(self.before, after);
        let fewer = || Tally::of(after).stops < Tally::of(&self.before.findings).stops;
        worse.iter().all(|(id, _, _)| !GROUND.contains(id))
            && (self.at_any_price || !makes_stops(&worse) || fewer())
    }

    /// The value next to the present one with which the question passes, none if there is none; none at all when the
    /// lever does not fit the design.
    pub(super) fn smallest(&self) -> Option<Option<Value>> {
        let (design, lever) = (self.design, self.lever);
        let input = lever.input_of(design)?;
        let value = match (input.kind, self.start(input)?) {
            (
                Kind::Number {
                    quantity,
                    allowed,
                    usual,
                    ..
                },
                Value::Number(start),
            ) => {
                let scale = usual.1 - usual.0;
                let sold = sizes_sold(design, lever, quantity);
                let here = LazyCell::new(|| self.tried(start));
                let search = |towards| match sold.as_slice() {
                    [] => self.search(*here, towards, scale, quantity),
                    sold => self.search_sold(start, towards, sold),
                };
                let (least, most) = reach(design, lever, start, allowed, usual);
                let up = || search(most);
                let down = || search(least);
                let computed = as_computed(design, self.before, self.id, lever)
                    .filter(|number| (allowed.0..=allowed.1).contains(number));
                let nearest = match lever {
                    _ if let Some(number) = computed => {
                        Some(number).filter(|number| self.passes(Value::Number(*number)))
                    }
                    Lever::NewItem { .. } if here.passes => Some(start),
                    Lever::NewItem { .. } => up(),
                    Lever::Move { list, from } => {
                        return Some(self.nearest_place(list, *from));
                    }
                    Lever::Input(_) => match (up(), down()) {
                        (Some(up), Some(down)) if (start - down) < (up - start) => Some(down),
                        (up, down) => up.or(down),
                    },
                };
                nearest.map(Value::Number)
            }
            (Kind::Choice { options, .. }, start) => {
                other_choices(options, &start).find(|value| self.passes(value.clone()))
            }
            (Kind::Flag { .. }, Value::Flag(state)) => {
                Some(Value::Flag(!state)).filter(|value| self.passes(value.clone()))
            }
            _ => return None,
        };
        Some(value)
    }

    /// What comes of the lever; none when it does not fit the design.
    pub(super) fn remedy(&self) -> Option<Remedy> {
        let input = self.lever.input_of(self.design)?;
        let verified = match self.lever {
            Lever::Move { list, from } => self.move_that_passes(list, *from),
            _ => self.value_that_passes(self.smallest()?),
        };
        let untouched = Remedy {
            lever: self.lever.clone(),
            input,
            change: None,
            value: None,
            worsens: Vec::new(),
            brings: Vec::new(),
            mends: Vec::new(),
            after: None,
            other_vessel: false,
            other_hearth: false,
        };
        let Some((value, change, after)) = verified else {
            return Some(untouched);
        };
        let worsens = worsened(self.before, &after);
        let changed = self.changed(&value)?;
        Some(Remedy {
            other_vessel: takes_another_vessel(self.design, &changed, &worsens),
            other_hearth: !keeps_hearth(self.design, &changed),
            change: Some(change),
            value: Some(value),
            worsens,
            brings: brought(self.before, &after),
            mends: mended(self.before, &after),
            after: Some(Tally::of(&after)),
            ..untouched
        })
    }

    /// The smallest value that passes, if the whole review lets it pass, or one further that stops less.
    fn value_that_passes(&self, smallest: Option<Value>) -> Option<Verified> {
        let smallest = smallest?;
        match self.verified(&smallest) {
            Some(found) if self.stops_nothing(&found) => Some(found),
            found => self.further(&smallest, found),
        }
    }

    pub(super) fn verified(&self, value: &Value) -> Option<Verified> {
        let (change, after) = self.verify(value)?;
        Some((value.clone(), change, after))
    }

    /// Whether nothing is a Stop that was none before, told or not. A Stop that told no distance tells one for the first
    /// time, where at last some gas flows: that is no better than a new one.
    pub(super) fn stops_nothing(&self, (_, _, after): &Verified) -> bool {
        let worse = worsened(self.before, after);
        let without_distance =
            |id| stopped(&self.before.findings).any(|then| then.id == id && then.margin.is_none());
        (worse.iter()).all(|(_, then, now)| *now != Verdict::Stop || now == then)
            && !stopped(after).any(|now| now.margin.is_some() && without_distance(now.id))
    }

    /// A number beyond the smallest that passes, where that one would stop something else: a pipe that lets the gas
    /// through may still be too narrow for the engine. The nearest of those tried that the whole review lets pass; where each
    /// stops something, the smallest that is worth it, if that one is not.
    fn further(&self, smallest: &Value, mut stopping: Option<Verified>) -> Option<Verified> {
        let input = self.lever.input_of(self.design)?;
        let (
            Kind::Number {
                quantity,
                allowed,
                usual,
                ..
            },
            Value::Number(smallest),
            Value::Number(start),
        ) = (input.kind, smallest, self.start(input)?)
        else {
            return stopping;
        };
        let sold = sizes_sold(self.design, self.lever, quantity);
        let (least, most) = reach(self.design, self.lever, start, allowed, usual);
        // A new item is only ever tried larger, from its thinnest on.
        let grows = matches!(self.lever, Lever::NewItem { .. }) || *smallest > start;
        let towards = if grows { most } else { least };
        let beyond = |size: &f64| (size - smallest) * (towards - start) > 0.0;
        let numbers: Vec<f64> = if sold.is_empty() {
            let step = grid(self.design, self.lever, quantity, usual.1 - usual.0);
            let between = |share: f64| smallest + share * (towards - smallest);
            let on_grid = |value: f64| without_dust((value / step).round() * step);
            FURTHER.map(|share| on_grid(between(share))).to_vec()
        } else if towards > start {
            sold
        } else {
            sold.into_iter().rev().collect()
        };
        let tried = (numbers.into_iter().filter(beyond)).map(Value::Number);
        let passing = tried.filter(|value| self.passes(value.clone()));
        for found in passing.filter_map(|value| self.verified(&value)) {
            if self.stops_nothing(&found) {
                return Some(found);
            }
            stopping = stopping.or(Some(found));
        }
        stopping
    }

    /// Where the search begins: the present value; a new item is at least as large as its lever says, or as is usual.
    pub(super) fn start(&self, input: &Input) -> Option<Value> {
        match (self.lever, input.kind) {
            (Lever::Input(path), _) => self.design.get(path),
            (
                Lever::NewItem {
                    fields, solve_for, ..
                },
                Kind::Number { usual, allowed, .. },
            ) => {
                let said = fields.iter().find_map(|(name, value)| match value {
                    Value::Number(size) if name == solve_for => Some(*size),
                    _ => None,
                });
                let size = said.map(|size| size.clamp(allowed.0, allowed.1));
                let least = size.or_else(|| thinnest(self.design, self.lever));
                Some(Value::Number(least.unwrap_or(usual.0)))
            }
            (Lever::Move { from, .. }, _) => Some(Value::Number(*from as f64)),
            (Lever::NewItem { .. }, _) => None,
        }
    }

    /// The nearest passing size on one side of `start`, of sizes that can be bought, rising.
    fn search_sold(&self, start: f64, towards: f64, sold: &[f64]) -> Option<f64> {
        let wanted =
            |size: &f64| (start < *size && *size <= towards) || (towards <= *size && *size < start);
        let passes = |size: &f64| self.passes(Value::Number(*size));
        let mut sizes = sold.iter().copied().filter(wanted);
        if towards > start {
            sizes.find(passes)
        } else {
            sizes.rev().find(passes)
        }
    }

    /// The nearest passing number on one side of `here`, on the grid of its quantity.
    fn search(&self, here: Tried, towards: f64, scale: f64, quantity: Quantity) -> Option<f64> {
        let start = here.number;
        let towards = match quantity {
            Quantity::Count if towards > start => towards.floor(),
            Quantity::Count => towards.ceil(),
            _ => towards,
        };
        let direction = (towards - start).signum();
        if towards == start || !scale.is_finite() || scale <= 0.0 {
            return None;
        }
        let step = grid(self.design, self.lever, quantity, scale);
        // The next number on a grid, away from the start; none lies beyond where the search ends.
        let on_grid = |value: f64, grid: f64| {
            let number = if direction > 0.0 {
                (value / grid - DUST).ceil() * grid
            } else {
                (value / grid + DUST).floor() * grid
            };
            let ends = (number - towards) * direction >= 0.0;
            if ends { towards } else { without_dust(number) }
        };
        let passes = |number: f64| self.passes(Value::Number(number));
        let tried = |number: f64| self.tried(number);
        // What passes may lie between two numbers that fail, on the one side too small and on the other too large: there the
        // margin of the answer rises first and falls then.
        let mut before = here;
        let mut last = before;
        let mut reach = step.min(scale / 64.0);
        let (mut failing, mut passing) = loop {
            let candidate = on_grid(start + direction * reach, step);
            if candidate != last.number {
                let now = tried(candidate);
                if now.passes {
                    break (last.number, candidate);
                }
                if last.margin > before.margin
                    && last.margin > now.margin
                    && let Some(found) = between(&before, &now, step, &tried)
                {
                    break (before.number, found);
                }
                (before, last) = (last, now);
            }
            if candidate == towards {
                return None;
            }
            reach = (1.5 * reach).max(scale / 64.0);
        };
        loop {
            let middle = on_grid(0.5 * (passing + failing), step);
            if middle == passing || middle == failing {
                break;
            }
            if passes(middle) {
                passing = middle;
            } else {
                failing = middle;
            }
        }
        let share = |share: f64| share * scale.min(passing.abs());
        // Where one step is more than the room, the number has room enough.
        let room = Some(share(ROOM)).filter(|room| *room > step).unwrap_or(0.0);
        let roomy = on_grid(passing + direction * room, step);
        let farthest = passing + direction * room.max(share(NEAR));
        let round = ROUND.map(|steps| on_grid(passing + direction * 0.25 * room, steps * step));
        (round.into_iter())
            .filter(|round| (farthest - round) * direction >= 0.0)
            .chain([roomy])
            .find(|&number| number == passing || passes(number))
            .or(Some(passing))
    }
}

/// A number that was tried.
#[derive(Debug, Clone, Copy)]
struct Tried {
    number: f64,
    passes: bool,
    /// Not a number where the answer has none.
    margin: f64,
}

/// A number that passes between two that fail, if the margin has one peak between them: by the golden section.
fn between(one: &Tried, other: &Tried, step: f64, tried: &impl Fn(f64) -> Tried) -> Option<f64> {
    const GOLDEN: f64 = 0.618_033_988_749_895;
    let on_grid = |number: f64| without_dust((number / step).round() * step);
    let (mut from, mut to) = (one.number, other.number);
    let inner = |from: f64, to: f64, share: f64| tried(on_grid(from + share * (to - from)));
    let mut near = inner(from, to, 1.0 - GOLDEN);
    let mut far = inner(from, to, GOLDEN);
    for _ in 0..DIVISIONS {
        if let Some(found) = [near, far].iter().find(|tried| tried.passes) {
            return Some(found.number);
        }
        if (to - from).abs() <= step {
            return None;
        }
        if near.margin >= far.margin {
            to = far.number;
            (near, far) = (inner(from, to, 1.0 - GOLDEN), near);
        } else {
            from = near.number;
            (near, far) = (far, inner(from, to, GOLDEN));
        }
    }
    None
}

/// What may be chosen in place of this. For a material of some shape one of the same shape: brick or wool as thin as a sheet
/// cannot be built.
pub(super) fn other_choices(
    options: &'static [ChoiceOption],
    now: &Value,
) -> impl Iterator<Item = Value> {
    let of = |value: &Value| match value {
        Value::Choice(name) => Material::from_name(name),
        _ => None,
    };
    let has_shape = of(now).filter(|material| material.stands_for(*material));
    options
        .iter()
        .map(|option| Value::Choice(option.name.to_string()))
        .filter(move |value| value != now)
        .filter(move |value| match (has_shape, of(value)) {
            (Some(now), Some(other)) => now.stands_for(other),
            _ => true,
        })
}
