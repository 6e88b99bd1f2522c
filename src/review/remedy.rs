//! The smallest single change that makes a question pass, found by search and checked by the review.

use super::finding::{Chapter, Finding, Lever, Verdict};
use super::reads::Known;
use super::reservations::in_order;
use super::standing::overhang;
use super::{Assessment, Tally, answers, assess, verdicts};
use crate::design::inputs::CableSystem;
use crate::design::quantity::Quantity;
use crate::design::{Design, Input, Kind, Value};
use crate::sizing::conductor_table::FUSES;
use crate::sizing::wiring::{Conductor, SizeSystem};

/// Findings that all others rest on: where one of these fails, the machine reckoned with is not the one that would be
/// built. No remedy makes them worse.
const GROUND: [&str; 3] = ["hearth.band", "standing.clearance", "standing.frame"];

/// How far beyond a passing number a remedy goes, as a share of the usual range: what just passes would fail again with
/// the next change.
const ROOM: f64 = 0.01;

/// A remedy goes on to a number of so many steps of its grid, where one lies within that room: it is easier said.
const ROUND: f64 = 5.0;

/// A number that is off its grid by less than this share of a step lies on it.
const DUST: f64 = 1e-6;

/// Overhangs that differ by less are the same, m.
const AS_FAR: f64 = 1e-6;

/// A change of a design.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// Sets one input.
    Set {
        /// Path of the input.
        path: String,
        /// The new value, SI.
        value: Value,
    },
    /// Inserts one item into a list.
    Insert {
        /// Name of the list.
        list: &'static str,
        /// Where to insert it.
        index: usize,
        /// Fields of the new item.
        fields: Vec<(&'static str, Value)>,
    },
}

impl Change {
    /// The design with this change, or none if the change does not fit the design.
    pub fn apply(&self, design: &Design) -> Option<Design> {
        let mut changed = design.clone();
        match self {
            Change::Set { path, value } => changed.set(path, value.clone()).ok()?,
            Change::Insert {
                list,
                index,
                fields,
            } => {
                let info = Design::LISTS.iter().find(|info| info.name == *list)?;
                let count = changed.list(list)?.count();
                if count >= info.longest || *index > count {
                    return None;
                }
                changed.insert_item(list, *index);
                for (name, value) in fields {
                    changed
                        .set(&format!("{list}.{index}.{name}"), value.clone())
                        .ok()?;
                }
            }
        }
        Some(changed)
    }
}

/// One lever tried on one finding.
#[derive(Debug, Clone, PartialEq)]
pub struct Remedy {
    /// What was tried.
    pub lever: Lever,
    /// The declaration of the input that was searched.
    pub input: &'static Input,
    /// The smallest change that passes; none when no allowed value does.
    pub change: Option<Change>,
    /// The value the searched input gets.
    pub value: Option<Value>,
    /// Findings that the change makes worse: id, verdict before, verdict after.
    pub worsens: Vec<(&'static str, Verdict, Verdict)>,
    /// The verdicts of the whole review with the change; none without a change.
    pub after: Option<Tally>,
}

impl Remedy {
    /// Whether the value it sets is one that most builders have; true of what is no number.
    pub fn is_usual(&self) -> bool {
        match (self.input.kind, &self.value) {
            (Kind::Number { usual, .. }, Some(Value::Number(value))) => {
                (usual.0..=usual.1).contains(value)
            }
            _ => true,
        }
    }
}

/// Tries every lever of the finding with this id. Empty when the question already passes, does not
/// exist, or has no levers. Each change that is offered has been checked by a full review.
pub fn remedies(design: &Design, id: &str) -> Vec<Remedy> {
    let before = assess(design);
    let Some(finding) = before.finding(id) else {
        return Vec::new();
    };
    if finding.verdict == Verdict::Good {
        return Vec::new();
    }
    let tried = (finding.levers.iter()).filter_map(|lever| remedy(design, &before, finding, lever));
    in_order(tried.collect())
}

/// A lever on a design: builds the change for a value of the searched input.
struct Pull<'a> {
    design: &'a Design,
    before: &'a Assessment,
    chapter: Chapter,
    id: &'static str,
    lever: &'a Lever,
}

impl Pull<'_> {
    fn passes(&self, value: Value) -> bool {
        self.lever
            .change(value)
            .apply(self.design)
            .is_some_and(|changed| {
                let known = Known::new(self.design, self.before, &changed);
                self.is_good(&answers(
                    &changed,
                    self.chapter,
                    Some(self.id),
                    Some(&known),
                ))
            })
    }

    fn is_good(&self, findings: &[Finding]) -> bool {
        findings
            .iter()
            .any(|finding| finding.id == self.id && finding.verdict == Verdict::Good)
    }

    /// What the whole review says of a change that its own chapter lets pass: the change is offered only if the
    /// question passes there as well, and nothing is stopped that it would not be worth.
    fn verify(&self, value: &Value) -> Option<(Change, Vec<Finding>)> {
        let change = self.lever.change(value.clone());
        let changed = change.apply(self.design)?;
        let known = Known::new(self.design, self.before, &changed);
        let after = verdicts(&changed, Some(&known));
        let carried = overhang(&changed) <= overhang(self.design) + AS_FAR;
        (carried && self.is_good(&after) && self.is_worth_it(&after)).then_some((change, after))
    }

    /// Whether a change leaves the ground that all findings rest on, and makes no new Stop, or fewer than it takes away.
    fn is_worth_it(&self, after: &[Finding]) -> bool {
        let worse = worsened(self.before, after);
        let stops = worse.iter().any(|(_, _, now)| *now == Verdict::Stop);
        let fewer = || Tally::of(after).stops < Tally::of(&self.before.findings).stops;
        worse.iter().all(|(id, _, _)| !GROUND.contains(id)) && (!stops || fewer())
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

    /// The nearest passing number on one side of `start`, on the grid of its quantity.
    fn search(&self, start: f64, towards: f64, scale: f64, quantity: Quantity) -> Option<f64> {
        let towards = match quantity {
            Quantity::Count if towards > start => towards.floor(),
            Quantity::Count => towards.ceil(),
            _ => towards,
        };
        let direction = (towards - start).signum();
        if towards == start || !scale.is_finite() || scale <= 0.0 {
            return None;
        }
        let step = grid(quantity, scale);
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
        let mut failing = start;
        let mut reach = scale / 64.0;
        let mut passing = loop {
            let candidate = on_grid(start + direction * reach, step);
            if candidate != failing {
                if passes(candidate) {
                    break candidate;
                }
                failing = candidate;
            }
            if candidate == towards {
                return None;
            }
            reach *= 1.5;
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
        // Where one step is more than the room, the number has room enough.
        let room = Some(ROOM * scale)
            .filter(|room| *room > step)
            .unwrap_or(0.0);
        let roomy = on_grid(passing + direction * room, step);
        let round = on_grid(passing + direction * 0.25 * room, ROUND * step);
        let is_near = (roomy - round) * direction >= 0.0;
        (is_near.then_some(round).into_iter())
            .chain([roomy])
            .find(|&number| number == passing || passes(number))
            .or(Some(passing))
    }
}

/// Tries one lever of a finding of the assessment of this design, so that a caller can spread the
/// search over several turns. None when the lever does not fit the design.
pub fn remedy(
    design: &Design,
    before: &Assessment,
    finding: &Finding,
    lever: &Lever,
) -> Option<Remedy> {
    let pull = Pull {
        design,
        before,
        chapter: finding.chapter,
        id: finding.id,
        lever,
    };
    let input = lever.input_of(design)?;
    let start = match (lever, input.kind) {
        (Lever::Input(path), _) => design.get(path)?,
        // A new item is at least as large as is usual.
        (Lever::NewItem { .. }, Kind::Number { usual, .. }) => Value::Number(usual.0),
        (Lever::NewItem { .. }, _) => return None,
    };
    let value = match (input.kind, start) {
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
            let sold = sizes_sold(design, quantity);
            let search = |towards| match sold.as_slice() {
                [] => pull.search(start, towards, scale, quantity),
                sold => pull.search_sold(start, towards, sold),
            };
            let (least, most) = ends(design, lever, start, offered(usual));
            let up = || search(allowed.1.min(most).max(start));
            let down = || search(allowed.0.max(least).min(start));
            let nearest = match lever {
                Lever::NewItem { .. } if pull.passes(Value::Number(start)) => Some(start),
                Lever::NewItem { .. } => up(),
                Lever::Input(_) => match (up(), down()) {
                    (Some(up), Some(down)) if (start - down) < (up - start) => Some(down),
                    (up, down) => up.or(down),
                },
            };
            nearest.map(Value::Number)
        }
        (Kind::Choice { options, .. }, start) => options
            .iter()
            .map(|option| Value::Choice(option.name.to_string()))
            .find(|value| *value != start && pull.passes(value.clone())),
        (Kind::Flag { .. }, Value::Flag(state)) => {
            Some(Value::Flag(!state)).filter(|value| pull.passes(value.clone()))
        }
        _ => return None,
    };
    let verified = value
        .as_ref()
        .and_then(|value| pull.verify(value))
        .map(|(change, after)| (change, worsened(before, &after), Tally::of(&after)));
    let untouched = Remedy {
        lever: lever.clone(),
        input,
        change: None,
        value: None,
        worsens: Vec::new(),
        after: None,
    };
    Some(match verified {
        None => untouched,
        Some((change, worsens, after)) => Remedy {
            change: Some(change),
            value,
            worsens,
            after: Some(after),
            ..untouched
        },
    })
}

fn worsened(before: &Assessment, after: &[Finding]) -> Vec<(&'static str, Verdict, Verdict)> {
    after
        .iter()
        .filter_map(|now| {
            let then = before
                .finding(now.id)
                .map_or(Verdict::Good, |then| then.verdict);
            (now.verdict > then).then_some((now.id, then, now.verdict))
        })
        .collect()
}

/// How far a remedy may go: half beyond the usual range, and not below half of its lower end.
fn offered((low, high): (f64, f64)) -> (f64, f64) {
    let far = 0.5 * (high - low);
    let least = if low > 0.0 {
        (low - far).max(0.5 * low)
    } else {
        low - far
    };
    (least, high + far)
}

/// A part is moved down so that the machine stands better, but not lower than the vessel, where nothing carries it and the
/// ground is near. Any other input may go as far as is offered.
fn ends(design: &Design, lever: &Lever, start: f64, offered: (f64, f64)) -> (f64, f64) {
    match lever {
        Lever::Input(path) if path.starts_with("parts.") && path.ends_with(".z") => {
            (offered.0.max(design.base.clearance.value), start)
        }
        _ => offered,
    }
}

/// A number without the last digits of a multiplication, which would only lengthen links and files.
fn without_dust(value: f64) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    let scale = 10_f64.powi(12 - value.abs().log10().ceil() as i32);
    let rounded = (value * scale).round() / scale;
    if rounded.is_finite() { rounded } else { value }
}

/// The sizes that can be bought, where only such make sense, SI and rising.
fn sizes_sold(design: &Design, quantity: Quantity) -> Vec<f64> {
    match quantity {
        Quantity::WireSection => {
            let system = match design.wiring.system {
                CableSystem::Metric => SizeSystem::Metric,
                CableSystem::Gauge => SizeSystem::Gauge,
            };
            Conductor::all(system)
                .into_iter()
                .map(|conductor| conductor.area.value)
                .collect()
        }
        Quantity::Current => FUSES.to_vec(),
        Quantity::Voltage => vec![6.0, 12.0, 24.0, 36.0, 48.0],
        _ => Vec::new(),
    }
}

/// The step on which a remedy is offered: fine enough to be small, coarse enough to be said aloud.
fn grid(quantity: Quantity, scale: f64) -> f64 {
    match quantity {
        Quantity::Length => 0.001,
        Quantity::Count => 1.0,
        Quantity::Share => 0.01,
        Quantity::Temperature | Quantity::TemperatureDifference => 1.0,
        Quantity::Angle => std::f64::consts::PI / 180.0 / 10.0,
        _ => 10_f64.powf((scale / 200.0).log10().floor()),
    }
}
