//! What to know of a remedy before it is taken: what else it spoils is told by the review, what nobody would build, and
//! what is no choice, is told here.

use super::finding::Lever;
use super::moving::moves_alike;
use super::pair::Pair;
use super::remedy::{Remedy, makes_stops};
use crate::design::quantity::System;
use crate::design::{Design, Kind, Value};

/// Inputs that tell how the place, the helpers, their time, the tools, the engine or a bought piece are; those of list items
/// without their place. Another value mends nothing by itself: it is right only where it is so.
pub const FACTS: [&str; 24] = [
    "base.room_depth",
    "base.room_width",
    "base.slope",
    "base.walking_speed",
    "engine.compression_ratio",
    "engine.intake_temperature",
    "engine.petrol_efficiency",
    "hearth.char_size",
    "leak_test.gauge_step",
    "leak_test.panel_sheet",
    "leak_test.panel_width",
    "leak_test.thermometer_step",
    "loads.duty",
    "operation.full_gas_flow",
    "pace.weekly",
    "pace.weeks",
    "raw_gas.air_leak",
    "raw_gas.temperature",
    "real_vessel.rolled",
    "shed.stands",
    "train.catches",
    "train.medium_limit",
    "workshop.hoist",
    "workshop.lifters",
];

/// Inputs that are a matter of choice, but not in the workshop: what has to be done for another value to be so.
const ELSEWHERE: [(&str, &str); 3] = [
    ("engine.displacement", "only with another engine"),
    ("fuel.moisture", "only once the wood is so dry"),
    (
        "real_vessel.long_seam",
        "by marking the front line elsewhere on the shell: all holes go round with it",
    ),
];

/// Inputs that tell when a filter is due.
const DUE: &str = "train.dust_capacity";
const DUE_BY_LOSS: &str = "train.dirty_factor";

/// What a person asked for: how much power, and down to which load.
pub(super) const WISHES: [&str; 2] = ["engine.wanted_power", "operation.idle_load"];

/// Input that all that hangs on it must be made for.
const MADE_FOR: &str = "battery.voltage";

impl Remedy {
    /// The input that it changes; of a list item without its place.
    fn input_name(&self) -> Option<String> {
        let Lever::Input(path) = &self.lever else {
            return None;
        };
        let place = |piece: &&str| piece.bytes().all(|byte| byte.is_ascii_digit());
        let pieces: Vec<&str> = path.split('.').filter(|piece| !place(piece)).collect();
        Some(pieces.join("."))
    }

    /// Whether other things must be made for it.
    pub(super) fn binds_others(&self) -> bool {
        self.input_name().is_some_and(|name| name == MADE_FOR)
    }

    /// Whether it says how something is, instead of what to build.
    pub fn is_fact(&self) -> bool {
        (self.input_name()).is_some_and(|name| FACTS.contains(&name.as_str()))
    }

    /// Whether a builder can take it as it stands: it is usual, a matter of choice, and for the vessel and the hearth there are.
    pub fn is_plain(&self) -> bool {
        let keeps = !self.other_vessel && !self.other_hearth;
        self.is_usual() && !self.is_fact() && !self.binds_others() && keeps
    }

    /// What a change comes to in the workshop, where its number does not say so.
    pub fn comes_to(&self, design: &Design) -> Option<&'static str> {
        let Lever::Input(path) = &self.lever else {
            return None;
        };
        let (Some(Value::Number(now)), Some(Value::Number(then))) = (design.get(path), &self.value)
        else {
            return None;
        };
        match (self.input_name()?.as_str(), *then < now) {
            (DUE, true) => Some("change or clean it earlier"),
            (DUE_BY_LOSS, true) => Some("change or clean it earlier, with as much less dust in it"),
            (DUE_BY_LOSS, false) => Some("change or clean it later, with as much more dust in it"),
            _ => None,
        }
    }

    /// What to know before it is taken, in words; empty if nothing.
    pub fn reservations(&self, system: System) -> Vec<String> {
        let mut told = Vec::new();
        if self.change.is_none() {
            return told;
        }
        if self.is_fact() {
            told.push("only if it is so".to_string());
        }
        let name = self.input_name();
        let elsewhere = ELSEWHERE
            .iter()
            .find(|(path, _)| Some(*path) == name.as_deref());
        told.extend(elsewhere.map(|(_, words)| words.to_string()));
        if name.as_deref().is_some_and(|name| WISHES.contains(&name)) {
            told.push("gives up a part of what you asked for".to_string());
        }
        if self.other_vessel {
            told.push("only with another vessel".to_string());
        }
        if self.other_hearth {
            told.push("only with another hearth".to_string());
        }
        if self.binds_others() {
            told.push("only if all that hangs on it is made for it".to_string());
        }
        if let (
            false,
            Kind::Number {
                quantity, usual, ..
            },
        ) = (self.is_usual(), self.input.kind)
        {
            let [least, most] = quantity.show_alike(usual.into(), system);
            told.push(format!("beyond what is usual: {least} to {most}"));
        }
        told
    }
}

impl Pair {
    /// What to know of each of both changes before they are taken, in words, in the order in which they are made.
    pub fn reservations(&self, system: System) -> [String; 2] {
        (self.changes.each_ref()).map(|change| change.reservations(system).join("; "))
    }
}

/// The remedies of one finding in the order in which they are offered: what lies beyond the usual stands
/// behind the others, and what stops something else last. Of a stage that could be added at several places only the one
/// place is offered with which the whole review is best, of equals the first; of moves within a list the shortest. A lever that is
/// named twice is offered once.
pub fn in_order(remedies: Vec<Remedy>) -> Vec<Remedy> {
    let mut offered: Vec<Remedy> = Vec::with_capacity(remedies.len());
    for remedy in remedies {
        // Two causes of one question may name the same lever.
        if offered.iter().any(|other| other.lever == remedy.lever) {
            continue;
        }
        let alike = |other: &Remedy| {
            let levers = (&other.lever, &remedy.lever);
            adds_alike(levers.0, levers.1) || moves_alike(levers.0, levers.1)
        };
        match (offered.iter_mut()).find(|other| alike(other)) {
            None => offered.push(remedy),
            Some(other) if is_better(&remedy, other) => *other = remedy,
            Some(_) => {}
        }
    }
    offered.sort_by_key(|remedy| (makes_stops(&remedy.worsens), !remedy.is_usual()));
    offered
}

/// Whether one change leaves the whole review better than another, or moves less and stops nothing; any is better than none.
fn is_better(one: &Remedy, other: &Remedy) -> bool {
    let rank = |remedy: &Remedy| {
        let moved = remedy.places_moved();
        let moved = moved.map(|places| (makes_stops(&remedy.worsens), places));
        (remedy.after.is_none(), moved, remedy.after)
    };
    rank(one) < rank(other)
}

/// Whether both add a stage of the same kind to the train; its place and its sizes may differ.
pub(super) fn adds_alike(one: &Lever, other: &Lever) -> bool {
    let added = |lever: &Lever| match lever {
        Lever::NewItem {
            list: "train",
            fields,
            ..
        } => (fields.iter().find(|(name, _)| *name == "kind")).map(|(_, kind)| kind.clone()),
        _ => None,
    };
    added(one).is_some_and(|kind| added(other) == Some(kind))
}
