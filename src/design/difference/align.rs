//! Which items of the lists of two designs are the same one.
//!
//! Items of one name, or of one kind where they have no name, are put together as they follow each other in both lists;
//! of equals those that are most alike. What is left over and stands elsewhere in the other list was moved; as many on
//! both sides at one place were changed there.

use crate::design::declare::{Kind, Value};
use crate::design::document::{Design, ListInfo};
use crate::design::references::{Reference, Renamed};
use std::collections::BTreeMap;

/// What a pair of items of one name counts; above all inputs of an item together, so that a pair more goes before pairs
/// that are more alike.
const OF_ONE_NAME: usize = 1000;

/// Items that are something else altogether where their kind is another.
const BY_KIND: &str = "train";

/// The list whose items are about inputs, named by their paths.
pub(super) const ABOUT_INPUTS: &str = "spreads";

/// The pairs of one list.
#[derive(Debug, Clone, Default)]
pub(super) struct Pairs {
    /// For each item of the first design the place of the same one in the other.
    pub(super) there: Vec<Option<usize>>,
    /// For each item of the other design the place of the same one in the first.
    pub(super) here: Vec<Option<usize>>,
    /// Places in the first design of those that stand in another order in the other.
    pub(super) moved: Vec<usize>,
}

impl Pairs {
    fn join(&mut self, here: usize, there: usize) {
        if let (Some(one), Some(other)) = (self.there.get_mut(here), self.here.get_mut(there)) {
            (*one, *other) = (Some(there), Some(here));
        }
    }

    fn reversed(self) -> Self {
        let there = |place: &usize| self.there.get(*place).copied().flatten();
        Self {
            moved: self.moved.iter().filter_map(there).collect(),
            there: self.here,
            here: self.there,
        }
    }
}

/// The pairs of all lists.
pub(super) struct Alignment(BTreeMap<&'static str, Pairs>);

impl Alignment {
    pub(super) fn of(one: &Design, other: &Design) -> Self {
        let mut aligned = Self(BTreeMap::new());
        let names_others = |info: &&ListInfo| Reference::all_of(info.name).next().is_some();
        let lists = || (Design::LISTS.iter()).filter(|info| info.name != ABOUT_INPUTS);
        // What names items of others is looked at with the places that those have in the other design.
        let named_first = lists().filter(|info| !names_others(info));
        for info in named_first.chain(lists().filter(names_others)) {
            let first = contents(one, info, |input, value| aligned.there(info, input, value));
            let second = contents(other, info, |_, value| value);
            let pairs = pair(info.name, &first, &second);
            aligned.0.insert(info.name, pairs);
        }
        if let Some(info) = Design::LISTS.iter().find(|info| info.name == ABOUT_INPUTS) {
            let [mut first, mut second] =
                [one, other].map(|design| contents(design, info, |_, value| value));
            for (item, spread) in first.iter_mut().zip(&one.spreads) {
                item.name = aligned.path_there(&spread.input).map(Value::Text);
            }
            for (item, spread) in second.iter_mut().zip(&other.spreads) {
                item.name = Some(Value::Text(spread.input.clone()));
            }
            aligned
                .0
                .insert(info.name, pair(info.name, &first, &second));
        }
        aligned
    }

    /// The same seen from the other design.
    pub(super) fn reversed(self) -> Self {
        let reversed = |(list, pairs): (&'static str, Pairs)| (list, pairs.reversed());
        Self(self.0.into_iter().map(reversed).collect())
    }

    /// The pairs of this list.
    pub(super) fn pairs(&self, list: &str) -> Option<&Pairs> {
        self.0.get(list)
    }

    /// A value of the first design with the places that the items it names have in the other. A place that has no item in
    /// either of both stays.
    pub(super) fn renamed(&self, reference: &Reference, value: &Value) -> Renamed {
        reference.renamed(value, |list, place| match self.pairs(list) {
            Some(pairs) => match pairs.there.get(place) {
                Some(there) => *there,
                None => (place >= pairs.here.len()).then_some(place),
            },
            None => Some(place),
        })
    }

    /// A value of the first design as it would stand in the other; nothing where that lacks what it names.
    fn there(&self, info: &ListInfo, input: &str, value: Value) -> Value {
        match Reference::of(info.name, input).map(|reference| self.renamed(reference, &value)) {
            Some(Renamed { is_gone: true, .. }) => Value::Empty,
            Some(renamed) => renamed.value,
            None => value,
        }
    }

    /// The path that an input of the first design has in the other; none where that lacks its item.
    pub(super) fn path_there(&self, path: &str) -> Option<String> {
        self.path(path, |pairs| &pairs.there)
    }

    /// The path that an input of the other design has in the first; none where that lacks its item.
    pub(super) fn path_here(&self, path: &str) -> Option<String> {
        self.path(path, |pairs| &pairs.here)
    }

    fn path(&self, path: &str, side: fn(&Pairs) -> &Vec<Option<usize>>) -> Option<String> {
        if let Some((list, Some(place), name)) = Design::split(path)
            && let Some(partner) = self.pairs(list).and_then(|pairs| side(pairs).get(place))
        {
            return partner.map(|partner| Design::item_input(list, partner, name));
        }
        Some(path.to_string())
    }
}

/// What stands in an item.
struct Contents {
    values: Vec<Value>,
    /// What it is called: its own name, else its first choice.
    name: Option<Value>,
    /// Its first choice.
    kind: Option<Value>,
}

impl Contents {
    fn likeness(&self, other: &Self) -> usize {
        let pairs = self.values.iter().zip(&other.values);
        pairs.filter(|(one, other)| one == other).count()
    }
}

fn contents(
    design: &Design,
    info: &ListInfo,
    told: impl Fn(&str, Value) -> Value,
) -> Vec<Contents> {
    let Some(items) = design.list(info.name) else {
        return Vec::new();
    };
    let item = |place| {
        let record = items.item(place)?;
        let values: Vec<Value> = (info.inputs.iter().enumerate())
            .filter_map(|(index, input)| Some(told(input.name, record.read(index)?)))
            .collect();
        let first = |wanted: fn(&Kind) -> bool| {
            let mut of_kind = (info.inputs.iter().zip(&values)).filter(|(it, _)| wanted(&it.kind));
            of_kind.next().map(|(_, value)| value.clone())
        };
        let kind = first(|kind| matches!(kind, Kind::Choice { .. }));
        let own = first(|kind| matches!(kind, Kind::Text { .. }));
        let own = own.filter(|own| *own != Value::Text(String::new()));
        Some(Contents {
            name: own.or_else(|| kind.clone()),
            kind,
            values,
        })
    };
    (0..items.count()).filter_map(item).collect()
}

fn pair(list: &str, one: &[Contents], other: &[Contents]) -> Pairs {
    let mut pairs = Pairs {
        there: vec![None; one.len()],
        here: vec![None; other.len()],
        moved: Vec::new(),
    };
    let may_be = |here: &Contents, there: &Contents| list != BY_KIND || here.kind == there.kind;
    let is_named = |here: &Contents, there: &Contents| {
        let told = list != ABOUT_INPUTS || here.name.is_some();
        told && here.name == there.name && may_be(here, there)
    };
    in_sequence(one, other, is_named, &mut pairs);
    let anchors = pairs.there.clone();
    for (place, here) in one.iter().enumerate() {
        if anchors.get(place) != Some(&None) {
            continue;
        }
        let free = (other.iter().enumerate()).filter(|(there, _)| pairs.here[*there].is_none());
        let best = free
            .filter(|(_, there)| is_named(here, there))
            .map(|(there, item)| (here.likeness(item), there))
            .max_by(|(one, first), (other, second)| one.cmp(other).then(second.cmp(first)));
        if let Some((_, there)) = best {
            pairs.join(place, there);
            pairs.moved.push(place);
        }
    }
    if list != ABOUT_INPUTS {
        changed_in_place(one, other, &anchors, may_be, &mut pairs);
    }
    pairs
}

/// The longest run of pairs that follow each other in both lists; of equals the one that is most alike, then the first.
fn in_sequence(
    one: &[Contents],
    other: &[Contents],
    is_named: impl Fn(&Contents, &Contents) -> bool,
    pairs: &mut Pairs,
) {
    let weight = |here: &Contents, there: &Contents| {
        is_named(here, there).then(|| OF_ONE_NAME + here.likeness(there))
    };
    let width = other.len() + 1;
    // What the rest of both lists is worth from each two places on.
    let mut worth = vec![0_usize; (one.len() + 1) * width];
    let at = |here: usize, there: usize| here * width + there;
    let mut weights = Vec::with_capacity(one.len() * other.len());
    for here in one {
        weights.extend(other.iter().map(|there| weight(here, there)));
    }
    let weight_at = |here: usize, there: usize| weights[here * other.len() + there];
    for here in (0..one.len()).rev() {
        for there in (0..other.len()).rev() {
            let skipped = worth[at(here + 1, there)].max(worth[at(here, there + 1)]);
            let paired =
                weight_at(here, there).map(|weight| weight + worth[at(here + 1, there + 1)]);
            worth[at(here, there)] = skipped.max(paired.unwrap_or(0));
        }
    }
    let (mut here, mut there) = (0, 0);
    while here < one.len() && there < other.len() {
        let whole = worth[at(here, there)];
        let rest = worth[at(here + 1, there + 1)];
        if weight_at(here, there).is_some_and(|weight| weight + rest == whole) {
            pairs.join(here, there);
            (here, there) = (here + 1, there + 1);
        } else if worth[at(here + 1, there)] == whole {
            here += 1;
        } else {
            there += 1;
        }
    }
}

/// Pairs what is left over between two anchors, where it is as many on both sides: it has another name, no more.
fn changed_in_place(
    one: &[Contents],
    other: &[Contents],
    anchors: &[Option<usize>],
    may_be: impl Fn(&Contents, &Contents) -> bool,
    pairs: &mut Pairs,
) {
    let (mut here, mut there) = (0, 0);
    let mut ends: Vec<(usize, usize)> = (anchors.iter().enumerate())
        .filter_map(|(place, partner)| Some((place, (*partner)?)))
        .collect();
    ends.push((one.len(), other.len()));
    for (end_here, end_there) in ends {
        let left: Vec<usize> = (here..end_here)
            .filter(|place| pairs.there[*place].is_none())
            .collect();
        let right: Vec<usize> = (there..end_there)
            .filter(|place| pairs.here[*place].is_none())
            .collect();
        if left.len() == right.len() {
            for (left, right) in left.into_iter().zip(right) {
                if may_be(&one[left], &other[right]) {
                    pairs.join(left, right);
                }
            }
        }
        (here, there) = (end_here + 1, end_there + 1);
    }
}
