//! Another order of a list as a remedy: one item goes to another place, as where a blower is put behind the filter.

use super::Tally;
use super::finding::Lever;
use super::pull::{Pull, Verified};
use super::remedy::{Change, Remedy};
use crate::design::quantity::Quantity;
use crate::design::{Design, Input, Kind, Source, Value};

/// More items than any list takes.
const MOST: f64 = 1000.0;

/// What is searched: the place of an item in its list, from zero.
pub(super) static PLACE: Input = Input {
    name: "place",
    label: "Place",
    meaning: "Where it stands in its list.",
    kind: Kind::Number {
        quantity: Quantity::Count,
        default: None,
        allowed: (0.0, MOST),
        usual: (0.0, MOST),
    },
    source: Source::YourOwn,
};

/// Places for an item of a list, the nearest first: at each distance that in front, and that behind.
pub(super) fn places(
    design: &Design,
    list: &str,
    from: usize,
) -> impl Iterator<Item = impl Iterator<Item = Value>> {
    let count = design.list(list).map_or(0, |items| items.count());
    (1..count).map(move |far| {
        let behind = Some(from + far).filter(|place| *place < count);
        (from.checked_sub(far).into_iter())
            .chain(behind)
            .map(|place| Value::Number(place as f64))
    })
}

impl Pull<'_> {
    /// The nearest place at which the question passes.
    pub(super) fn nearest_place(&self, list: &str, from: usize) -> Option<Value> {
        (places(self.design, list, from).flatten()).find(|place| self.passes(place.clone()))
    }

    /// The nearest place at which the question passes and the whole review lets it, better one that stops nothing else; of
    /// two that are as near the one with which the whole review is better.
    pub(super) fn move_that_passes(&self, list: &str, from: usize) -> Option<Verified> {
        let mut stopping = None;
        for near in places(self.design, list, from) {
            let passing = near.filter(|place| self.passes(place.clone()));
            let found = passing.filter_map(|place| self.verified(&place));
            let (stops, clean): (Vec<_>, Vec<_>) =
                found.partition(|found| !self.stops_nothing(found));
            let best = |found: Vec<Verified>| {
                (found.into_iter()).min_by_key(|(_, _, after)| Tally::of(after))
            };
            if let Some(found) = best(clean) {
                return Some(found);
            }
            stopping = stopping.or_else(|| best(stops));
        }
        stopping
    }
}

impl Remedy {
    /// How many places further an item of a list stands; none where nothing is moved.
    pub(super) fn places_moved(&self) -> Option<usize> {
        match &self.change {
            Some(Change::Move { from, to, .. }) => Some(from.abs_diff(*to)),
            _ => None,
        }
    }
}

/// Whether both move something within the same list.
pub(super) fn moves_alike(one: &Lever, other: &Lever) -> bool {
    match (one, other) {
        (Lever::Move { list: one, .. }, Lever::Move { list: other, .. }) => one == other,
        _ => false,
    }
}
