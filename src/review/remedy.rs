//! The smallest single change that makes a question pass, found by search and checked by the review.

use super::earlier::dust_along;
use super::finding::{Finding, Lever, Verdict};
use super::harm::{Harm, worst_first};
use super::marking::SHELL;
use super::pull::{GROUND, Pull};
use super::reservations::in_order;
use super::{Assessment, Tally, assess};
use crate::design::{Design, Input, Kind, Value};
use crate::sizing::shell_there::keeps_vessel;

/// A change of a design.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// Sets one input; what belongs to a choice comes along, as where a person chooses, and so does the dust in a bed that
    /// is changed at another loss.
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
    /// Takes one item of a list to another place; those between move up.
    Move {
        /// Name of the list.
        list: &'static str,
        /// Where it stands.
        from: usize,
        /// Where it stands then.
        to: usize,
    },
}

impl Change {
    /// The design with this change, or none if the change does not fit the design.
    pub fn apply(&self, design: &Design) -> Option<Design> {
        let mut changed = design.clone();
        match self {
            Change::Set { path, value } => match value {
                Value::Choice(option) => changed.choose(path, option).ok()?,
                value => {
                    changed.set(path, value.clone()).ok()?;
                    if let Some((held, dust)) = dust_along(design, path, value) {
                        changed.set(&held, dust).ok()?;
                    }
                }
            },
            Change::Insert {
                list,
                index,
                fields,
            } => {
                let info = Design::list_info(list)?;
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
            Change::Move { list, from, to } => {
                let count = changed.list(list)?.count();
                if *from >= count || *to >= count {
                    return None;
                }
                changed.move_item(list, *from, *to);
            }
        }
        Some(changed)
    }
}

/// A question that is only asked with a change and does not pass: title, verdict and what comes of it.
pub type Brought = (String, Verdict, Option<Harm>);

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
    /// Findings that the change makes worse: id, verdict before, verdict after; both are Stop where it makes a Stop a worse
    /// one.
    pub worsens: Vec<(&'static str, Verdict, Verdict)>,
    /// Questions among them that are only asked with the change, and so have no title without it: title, verdict and what
    /// comes of it.
    pub brings: Vec<Brought>,
    /// All questions that did not pass and are Good with the change, the worst first.
    pub mends: Vec<&'static str>,
    /// The verdicts of the whole review with the change; none without a change.
    pub after: Option<Tally>,
    /// Whether the vessel that is there already would have to be another one.
    pub other_vessel: bool,
    /// Whether the hearth that is built already would have to be another one.
    pub other_hearth: bool,
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
    in_order(remedies_of(design, &before, finding))
}

/// What comes of every lever of a finding.
pub(super) fn remedies_of(design: &Design, before: &Assessment, finding: &Finding) -> Vec<Remedy> {
    let levers = finding.levers.iter().enumerate();
    levers
        .filter(|(place, lever)| !finding.levers.iter().take(*place).any(|it| it == *lever))
        .map(|(_, lever)| lever)
        .filter_map(|lever| remedy(design, before, finding, lever))
        .collect()
}

/// Tries one lever of a finding of the assessment of this design, so that a caller can spread the
/// search over several turns. None when the lever does not fit the design.
pub fn remedy(
    design: &Design,
    before: &Assessment,
    finding: &Finding,
    lever: &Lever,
) -> Option<Remedy> {
    Pull::new(design, before, finding, lever).remedy()
}

/// The smallest change of this lever with which a Stop is one no longer, though not Good: less than a remedy, and no
/// worse a change. None where there is none.
pub fn easing(
    design: &Design,
    before: &Assessment,
    finding: &Finding,
    lever: &Lever,
) -> Option<Remedy> {
    if finding.verdict != Verdict::Stop {
        return None;
    }
    let pull = Pull {
        enough: Verdict::Watch,
        ..Pull::new(design, before, finding, lever)
    };
    pull.remedy().filter(|remedy| remedy.change.is_some())
}

/// A Stop whose margin falls by more, as a share of the margin where that is more than 1, is a worse one. Our own mark.
const DEEPER: f64 = 0.03;

/// Whether one of these changes for the worse is a new Stop. What could not be told before may have been one all the time.
pub(super) fn makes_stops(worsens: &[(&'static str, Verdict, Verdict)]) -> bool {
    let known = |then: Verdict| !matches!(then, Verdict::CannotTell | Verdict::Stop);
    (worsens.iter()).any(|(_, then, now)| *now == Verdict::Stop && known(*then))
}

/// Whether a Stop is a worse one after a change, or what all other findings rest on fails by more.
fn is_deeper(then: &Finding, now: &Finding) -> bool {
    let fails = match then.verdict {
        Verdict::Stop => true,
        Verdict::Watch => GROUND.contains(&then.id),
        _ => false,
    };
    let stay = fails && then.verdict == now.verdict;
    let fell = match (then.margin, now.margin) {
        (Some(then), Some(now)) => then - now > DEEPER * then.abs().max(1.0),
        _ => false,
    };
    stay && fell
}

/// The findings that are worse after a change: id, verdict before, verdict after. Of a worse Stop both are the same.
pub(super) fn worsened(
    before: &Assessment,
    after: &[Finding],
) -> Vec<(&'static str, Verdict, Verdict)> {
    after
        .iter()
        .filter_map(|now| {
            let found = before.finding(now.id);
            let then = found.map_or(Verdict::Good, |then| then.verdict);
            let worse = now.verdict > then || found.is_some_and(|then| is_deeper(then, now));
            worse.then_some((now.id, then, now.verdict))
        })
        .collect()
}

/// The questions that did not pass before a change and are Good after it, the worst first.
pub(super) fn mended(before: &Assessment, after: &[Finding]) -> Vec<&'static str> {
    let is_good = |id: &str| {
        let now = after.iter().find(|now| now.id == id);
        now.is_some_and(|now| now.verdict == Verdict::Good)
    };
    (worst_first(&before.findings).into_iter())
        .map(|then| then.id)
        .filter(|id| is_good(id))
        .collect()
}

/// Whether a change takes another vessel than the one that is there, or that is marked out: that one is no longer as wide
/// as its wall, or is to be of other steel.
pub(super) fn takes_another_vessel(
    before: &Design,
    after: &Design,
    worse: &[(&'static str, Verdict, Verdict)],
) -> bool {
    let stops = |(id, _, now): &(&str, _, _)| *id == SHELL && *now == Verdict::Stop;
    worse.iter().any(stops) || !keeps_vessel(before, after)
}

/// The questions that are only asked after a change and do not pass.
pub(super) fn brought(before: &Assessment, after: &[Finding]) -> Vec<Brought> {
    let is_new = |now: &&Finding| now.verdict != Verdict::Good && before.finding(now.id).is_none();
    (after.iter().filter(is_new))
        .map(|now| (now.title.to_string(), now.verdict, now.harm()))
        .collect()
}
