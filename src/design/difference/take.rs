//! Taking over what differs: values, items that the other design has more or fewer, and their order.

use super::align::{ABOUT_INPUTS, Alignment};
use super::{Differing, What};
use crate::design::arrange::Step;
use crate::design::document::{Design, ListInfo};
use crate::design::inputs::Spread;
use crate::design::references::{Reference, Renamed};
use std::collections::{BTreeMap, BTreeSet};

/// An item of the list that is being changed.
#[derive(Debug, Clone, Copy)]
struct Seat {
    /// Its place before anything was changed; none for a new one.
    before: Option<usize>,
    /// The place of the same item in the other design.
    there: Option<usize>,
}

/// Makes `into` equal to `other` in these things, which [`differences`](super::differences) found between `into` and
/// `other`. Items come, go and move with what is said of them, and what names one by its place goes on naming it; what is
/// taken names what it names in `other`, or nothing where that is not here. False where an item found no room in its list,
/// or nothing can be named that is not here.
///
/// ```
/// use hearthplan::design::{Design, difference::{differences, take_over}};
/// let mut mine = Design::default();
/// let mut other = mine.clone();
/// other.insert_item("train", 1);
/// let found = differences(&mine, &other);
/// assert_eq!(found.len(), 1);
/// assert!(take_over(&found, &other, &mut mine));
/// assert!(mine == other);
/// ```
pub fn take_over(wanted: &[Differing], other: &Design, into: &mut Design) -> bool {
    let alignment = if wanted.iter().any(|row| row.is_reversed) {
        Alignment::of(other, into).reversed()
    } else {
        Alignment::of(into, other)
    };
    for differing in wanted {
        if let What::Input { paths, input, .. } = &differing.what
            && Reference::of(differing.head, input.name).is_none()
            && let Some(value) = other.get(&paths[1])
        {
            // The value stands in a design, so its range was checked when it came in; a path that the design has no
            // longer changes nothing.
            let _ = into.set(&paths[0], value);
        }
    }
    let seats_of = |info: &ListInfo| {
        let pairs = alignment.pairs(info.name);
        let there = pairs
            .map(|pairs| pairs.there.as_slice())
            .unwrap_or_default();
        let seat = |(place, there): (usize, &Option<usize>)| Seat {
            before: Some(place),
            there: *there,
        };
        there.iter().enumerate().map(seat).collect()
    };
    let lists = || (Design::LISTS.iter()).filter(|info| info.name != ABOUT_INPUTS);
    let mut taking = Taking {
        wanted,
        other,
        into,
        alignment: &alignment,
        seats: lists().map(|info| (info.name, seats_of(info))).collect(),
    };
    let mut is_whole = true;
    if !(wanted.iter()).all(|row| matches!(row.what, What::Input { .. })) {
        for place in taking.places(ABOUT_INPUTS, false).into_iter().rev() {
            taking.into.remove_item(ABOUT_INPUTS, place);
        }
        for info in lists() {
            is_whole &= taking.list(info);
        }
        is_whole &= taking.added_spreads();
    }
    is_whole & taking.names()
}

struct Taking<'a> {
    wanted: &'a [Differing],
    other: &'a Design,
    into: &'a mut Design,
    alignment: &'a Alignment,
    /// What stands where in each list by now.
    seats: BTreeMap<&'static str, Vec<Seat>>,
}

impl Taking<'_> {
    /// Rising places of the wanted items of a list that only one of both designs has.
    fn places(&self, list: &str, wants_added: bool) -> Vec<usize> {
        let rows = self.wanted.iter().filter(|row| row.head == list);
        let mut places: Vec<usize> = rows
            .filter_map(|row| match row.what {
                What::Item {
                    place, is_added, ..
                } if is_added == wants_added => Some(place),
                _ => None,
            })
            .collect();
        places.sort_unstable();
        places
    }

    /// Orders, removes and adds what is wanted of a list.
    fn list(&mut self, info: &ListInfo) -> bool {
        let list = info.name;
        let is_order = |row: &Differing| row.head == list && matches!(row.what, What::Order { .. });
        if self.wanted.iter().any(is_order) {
            self.order(list);
        }
        for gone in self.places(list, false) {
            let Some(seats) = self.seats.get_mut(list) else {
                break;
            };
            if let Some(place) = seats.iter().position(|seat| seat.before == Some(gone)) {
                seats.remove(place);
                self.into.arrange_alone(list, Step::Remove(place));
            }
        }
        let added = self.places(list, true).into_iter();
        added.fold(true, |is_whole, there| is_whole & self.add(info, there))
    }

    /// Puts those items that both have into the order of the other design; what it lacks keeps its place.
    fn order(&mut self, list: &str) {
        let Some(seats) = self.seats.get_mut(list) else {
            return;
        };
        let count = seats.len();
        for place in 0..count {
            let least = (place..count)
                .filter_map(|at| Some((seats.get(at)?.there?, at)))
                .min();
            let is_shared = seats.get(place).is_some_and(|seat| seat.there.is_some());
            if let Some((_, from)) = least.filter(|(_, from)| is_shared && *from != place) {
                seats.swap(place, from);
                // Both change places: the first move brings the one that stood here one place on.
                let steps = [(from, place), (place + 1, from)];
                for (from, to) in steps {
                    self.into.arrange_alone(list, Step::Move { from, to });
                }
            }
        }
    }

    /// Adds an item of the other design behind the one that it follows there.
    fn add(&mut self, info: &ListInfo, there: usize) -> bool {
        let list = info.name;
        let (Some(given), Some(seats)) = (self.other.list(list), self.seats.get_mut(list)) else {
            return true;
        };
        let Some(new) = given.item(there) else {
            return true;
        };
        if seats.len() >= info.longest {
            return false;
        }
        let behind = (0..there)
            .rev()
            .find_map(|before| seats.iter().position(|seat| seat.there == Some(before)));
        let place = behind.map_or(0, |behind| behind + 1);
        seats.insert(
            place,
            Seat {
                before: None,
                there: Some(there),
            },
        );
        self.into.arrange_alone(list, Step::Insert(place));
        if let Some(taken) = (self.into.list_mut(list)).and_then(|items| items.item_mut(place)) {
            for index in 0..new.inputs().len() {
                if let Some(value) = new.read(index) {
                    taken.write(index, &value);
                }
            }
        }
        let said = self.other.spreads.iter();
        let of_it = said.filter_map(|spread| match Design::split(&spread.input) {
            Some((head, Some(its), name)) if head == list && its == there => {
                Some((Design::item_input(list, place, name), spread.plus_minus))
            }
            _ => None,
        });
        of_it.fold(true, |is_whole, (path, plus_minus)| {
            is_whole & say(self.into, path, plus_minus)
        })
    }

    /// Adds the wanted plus-minus, each for the place that its item has by now, and puts all into the order of the
    /// other design.
    fn added_spreads(&mut self) -> bool {
        let mut is_whole = true;
        for place in self.places(ABOUT_INPUTS, true) {
            let said = self.other.spreads.get(place);
            let path = said.and_then(|spread| self.path_by_now(&spread.input));
            if let (Some(spread), Some(path)) = (said, path) {
                is_whole &= say(self.into, path, spread.plus_minus);
            }
        }
        let alignment = Alignment::of(self.into, self.other);
        if let Some(pairs) = alignment.pairs(ABOUT_INPUTS) {
            let there = pairs.there.iter().map(|there| there.unwrap_or(usize::MAX));
            let mut sorted: Vec<_> = there.zip(std::mem::take(&mut self.into.spreads)).collect();
            sorted.sort_by_key(|(there, _)| *there);
            self.into.spreads = sorted.into_iter().map(|(_, spread)| spread).collect();
        }
        is_whole
    }

    /// Names items by their places of now, which were named by those of before or, where it is taken, by those in the other
    /// design. False where that item is not here and no number is left that names nothing.
    fn names(&mut self) -> bool {
        let Self {
            wanted,
            other,
            into,
            alignment,
            seats,
        } = self;
        let count = |list: &str| seats.get(list).map_or(0, Vec::len);
        let seat =
            |list: &str, is_it: &dyn Fn(&Seat) -> bool| seats.get(list)?.iter().position(is_it);
        let before = |list: &str, place: usize| match alignment.pairs(list) {
            Some(pairs) if place < pairs.there.len() => {
                seat(list, &|seat| seat.before == Some(place))
            }
            _ => Some(place.max(count(list))),
        };
        let there = |list: &str, place: usize| match alignment.pairs(list) {
            Some(pairs) if place < pairs.here.len() => {
                seat(list, &|seat| seat.there == Some(place)).or(Some(count(list)))
            }
            _ => Some(place.max(count(list))),
        };
        let mut is_whole = true;
        let mut taken = BTreeSet::new();
        for row in wanted.iter() {
            if let What::Input { paths, input, .. } = &row.what
                && let Some(reference) = Reference::of(row.head, input.name)
                && let Some((list, Some(place), name)) = Design::split(&paths[0])
                && let Some(place) = before(list, place)
                && let Some(value) = other.get(&paths[1])
            {
                let renamed = reference.renamed(&value, there);
                let path = Design::item_input(list, place, name);
                if renamed.is_gone || into.set(&path, renamed.value).is_err() {
                    is_whole = false;
                } else {
                    taken.insert((row.head, place, input.name));
                }
            }
        }
        into.name_anew(|reference, place, value| {
            if taken.contains(&(reference.head, place, reference.input)) {
                return Renamed::same(value);
            }
            let seat = seats.get(reference.head).and_then(|seats| seats.get(place));
            if seat.is_some_and(|seat| seat.before.is_none()) {
                let renamed = reference.renamed(value, there);
                is_whole &= !(renamed.is_gone && reference.goes_along);
                renamed
            } else {
                reference.renamed(value, before)
            }
        });
        is_whole
    }

    /// The path that an input of the other design has here by now; none where its item is not here.
    fn path_by_now(&self, path: &str) -> Option<String> {
        if let Some((list, Some(place), name)) = Design::split(path)
            && self
                .other
                .list(list)
                .is_some_and(|items| place < items.count())
            && let Some(seats) = self.seats.get(list)
        {
            let here = seats.iter().position(|seat| seat.there == Some(place))?;
            return Some(Design::item_input(list, here, name));
        }
        Some(path.to_string())
    }
}

/// Says how far an input may be off, if there is room for that.
fn say(into: &mut Design, path: String, plus_minus: f64) -> bool {
    let longest = (Design::LISTS.iter()).find(|info| info.name == ABOUT_INPUTS);
    let has_room = longest.is_some_and(|info| into.spreads.len() < info.longest);
    if has_room {
        into.spreads.push(Spread {
            input: path,
            plus_minus,
        });
    }
    has_room
}
