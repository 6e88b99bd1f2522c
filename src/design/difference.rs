//! What two designs differ in, one thing at a time, each of which can be taken over either way.

mod align;
mod show;
mod take;

pub use take::take_over;

use super::declare::{Input, Kind, Record, Value};
use super::document::{Design, ListInfo};
use super::phrase::lower_first;
use super::quantity::System;
use super::references::Reference;
use align::{ABOUT_INPUTS, Alignment, Pairs};

/// One thing in which two designs differ.
#[derive(Debug, Clone, PartialEq)]
pub struct Differing {
    /// Name of the section or list it stands in.
    pub head: &'static str,
    /// Heading of the section or list.
    pub heading: &'static str,
    /// The item it is about, where there is one.
    pub item: Option<ItemName>,
    /// What differs there.
    pub what: What,
    /// Whether one of the two designs makes use of it as it stands.
    pub in_use: bool,
    /// Whether it was found the other way round: of items that are alike it may matter from which side they are matched.
    is_reversed: bool,
}

/// What an item is called in two designs.
#[derive(Debug, Clone, PartialEq)]
pub struct ItemName {
    /// What an item of this list is.
    word: &'static str,
    /// Its places in the first design and in the other, from 0; none where it is not there.
    places: [Option<usize>; 2],
    /// Its own name or its first choice in both, where it has one.
    own: [Option<String>; 2],
}

impl ItemName {
    /// In words: “stage 6, Filter”; “stage 6 / 7, Filter” where it stands elsewhere in the other.
    fn words(&self) -> String {
        let number = |place: usize| (place + 1).to_string();
        let numbers = match self.places {
            [Some(one), Some(other)] if one != other => {
                format!("{} / {}", number(one), number(other))
            }
            [one, other] => one.or(other).map(number).unwrap_or_default(),
        };
        let named = format!("{} {numbers}", self.word.to_lowercase());
        let [one, other] = &self.own;
        match one.as_ref().or(other.as_ref()) {
            Some(own) => format!("{named}, {own}"),
            None => named,
        }
    }

    fn reversed(&self) -> Self {
        let mut reversed = self.clone();
        reversed.places.reverse();
        reversed.own.reverse();
        reversed
    }
}

/// What differs between two designs, the first of them “one”.
#[derive(Debug, Clone, PartialEq)]
pub enum What {
    /// An input that both have, with two values.
    Input {
        /// Path of the input in the first design, and in the other.
        paths: [String; 2],
        /// Its declaration.
        input: &'static Input,
        /// Its value in the first design.
        one: Value,
        /// Its value in the other.
        other: Value,
    },
    /// An item that only one of them has.
    Item {
        /// Where it stands in the design that has it.
        place: usize,
        /// Whether the other design has it, and not the first.
        is_added: bool,
        /// What it makes use of, in the order of the form.
        values: Vec<(&'static Input, Value)>,
    },
    /// The items of a list that both have, in another order.
    Order {
        /// Names of those that stand elsewhere, as they stand in the first design.
        one: Vec<String>,
        /// The same as they stand in the other.
        other: Vec<String>,
    },
}

/// Everything in which two designs differ, in the order of the form. Items of lists are found again wherever they stand
/// in the other design. Entries that this version does not know are left aside.
///
/// ```
/// use hearthplan::design::{Design, Value, difference::differences};
/// let one = Design::default();
/// let mut other = one.clone();
/// other.set("base.width", Value::Number(0.9)).unwrap();
/// let found = differences(&one, &other);
/// assert_eq!(found.len(), 1);
/// assert_eq!(found[0].part(), "Base");
/// ```
pub fn differences(one: &Design, other: &Design) -> Vec<Differing> {
    let mut found = Vec::new();
    for info in Design::SECTIONS {
        if let (Some(first), Some(second)) = (one.section(info.name), other.section(info.name)) {
            let prefix = info.name.to_string();
            let both = Compared {
                head: info.name,
                heading: info.label,
                item: None,
                alignment: None,
                prefixes: [prefix.clone(), prefix],
            };
            found.extend(both.inputs([first, second], [one, other]));
        }
    }
    let alignment = Alignment::of(one, other);
    for info in Design::LISTS {
        if let Some(pairs) = alignment.pairs(info.name) {
            let lists = Lists {
                info,
                designs: [one, other],
                alignment: &alignment,
                pairs,
            };
            found.extend(lists.differences());
        }
    }
    found
}

/// A list in both designs.
struct Lists<'a> {
    info: &'static ListInfo,
    designs: [&'a Design; 2],
    alignment: &'a Alignment,
    pairs: &'a Pairs,
}

impl Lists<'_> {
    fn differences(&self) -> Vec<Differing> {
        let mut found = Vec::new();
        // An item that was added is told behind the one that it follows.
        let behind = |there: usize| {
            let before = self.pairs.here.iter().take(there).rev();
            before
                .copied()
                .find_map(|here| here)
                .map_or(0, |here| here + 1)
        };
        let added: Vec<(usize, usize)> = (self.pairs.here.iter().enumerate())
            .filter(|(_, here)| here.is_none())
            .map(|(there, _)| (behind(there), there))
            .collect();
        for here in 0..=self.pairs.there.len() {
            let added = added.iter().filter(|(behind, _)| *behind == here);
            found.extend(added.filter_map(|(_, there)| self.of_one_alone(*there, true)));
            match self.pairs.there.get(here) {
                Some(Some(there)) => found.extend(self.of_both(here, *there)),
                Some(None) => found.extend(self.of_one_alone(here, false)),
                None => {}
            }
        }
        found.extend(self.order());
        found
    }

    fn name(&self, places: [Option<usize>; 2]) -> ItemName {
        let [one, other] = self.designs;
        ItemName {
            word: self.info.item,
            places,
            own: [(one, places[0]), (other, places[1])]
                .map(|(design, place)| own_name(self.info, design, place?)),
        }
    }

    fn of_both(&self, here: usize, there: usize) -> Vec<Differing> {
        let list = self.info.name;
        let [one, other] = self.designs;
        let first = one.list(list).and_then(|items| items.item(here));
        let second = other.list(list).and_then(|items| items.item(there));
        let (Some(first), Some(second)) = (first, second) else {
            return Vec::new();
        };
        let both = Compared {
            head: list,
            heading: self.info.label,
            item: Some(self.name([Some(here), Some(there)])),
            alignment: Some(self.alignment),
            prefixes: [here, there].map(|place| Design::item_path(list, place)),
        };
        let mut found = both.inputs([first, second], self.designs);
        if list == ABOUT_INPUTS {
            // The same input has another path where its item stands elsewhere.
            found.retain(|it| !matches!(&it.what, What::Input { input, .. } if is_text(input)));
        }
        found
    }

    /// An item that one design has alone; none for what is said of an item that the other lacks, since it goes with that.
    fn of_one_alone(&self, place: usize, is_added: bool) -> Option<Differing> {
        let list = self.info.name;
        let design = self.designs[usize::from(is_added)];
        if list == ABOUT_INPUTS {
            let path = &design.spreads.get(place)?.input;
            match is_added {
                true => self.alignment.path_here(path),
                false => self.alignment.path_there(path),
            }?;
        }
        let used =
            |input: &&'static Input| design.in_use(&Design::item_input(list, place, input.name));
        let value = |input: &'static Input| {
            let value = design.get(&Design::item_input(list, place, input.name))?;
            Some((input, value))
        };
        let places = match is_added {
            true => [None, Some(place)],
            false => [Some(place), None],
        };
        Some(Differing {
            head: list,
            heading: self.info.label,
            item: Some(self.name(places)),
            is_reversed: false,
            what: What::Item {
                place,
                is_added,
                values: (self.info.inputs.iter())
                    .filter(used)
                    .filter_map(value)
                    .collect(),
            },
            in_use: true,
        })
    }

    /// The order, if it is another. In which order the plus-minus stand says nothing.
    fn order(&self) -> Option<Differing> {
        let moved = &self.pairs.moved;
        if moved.is_empty() || self.info.name == ABOUT_INPUTS {
            return None;
        }
        let here = |place: &usize| self.name([Some(*place), None]).words();
        let there = |place: &usize| {
            let there = self.pairs.there.get(*place)?;
            Some(self.name([None, *there]).words())
        };
        Some(Differing {
            head: self.info.name,
            heading: self.info.label,
            item: None,
            is_reversed: false,
            what: What::Order {
                one: moved.iter().map(here).collect(),
                other: moved.iter().filter_map(there).collect(),
            },
            in_use: true,
        })
    }
}

/// Two records that stand for the same thing.
struct Compared<'a> {
    head: &'static str,
    heading: &'static str,
    item: Option<ItemName>,
    /// Which items are the same, where they stand in a list.
    alignment: Option<&'a Alignment>,
    prefixes: [String; 2],
}

impl Compared<'_> {
    /// Whether two values tell something else. What names an item by its place tells the same wherever that stands.
    fn differ(&self, input: &Input, [one, other]: [&Value; 2], used: [bool; 2]) -> bool {
        let reference = Reference::of(self.head, input.name).zip(self.alignment);
        let renamed = reference.map(|(reference, all)| all.renamed(reference, one));
        let names_another = renamed.map(|now| now.is_gone || now.value != *other);
        match (names_another, used) {
            (Some(names_another), [true, true]) => names_another,
            (None, _) | (_, [false, false]) => one != other,
            (Some(names_another), _) => names_another || one != other,
        }
    }

    fn inputs(&self, [first, second]: [&dyn Record; 2], designs: [&Design; 2]) -> Vec<Differing> {
        let differing = |(place, input): (usize, &'static Input)| {
            let (one, other) = (first.read(place)?, second.read(place)?);
            let names_an_item = Reference::of(self.head, input.name).is_some();
            if one == other && !names_an_item {
                return None;
            }
            let paths = (self.prefixes.each_ref()).map(|prefix| format!("{prefix}.{}", input.name));
            let used = [0, 1].map(|at| designs[at].in_use(&paths[at]));
            self.differ(input, [&one, &other], used).then(|| Differing {
                head: self.head,
                heading: self.heading,
                item: self.item.clone(),
                is_reversed: false,
                in_use: used.contains(&true),
                what: What::Input {
                    paths,
                    input,
                    one,
                    other,
                },
            })
        };
        let inputs = first.inputs().iter().enumerate();
        inputs.filter_map(differing).collect()
    }
}

fn is_text(input: &Input) -> bool {
    matches!(input.kind, Kind::Text { .. })
}

/// What an item is called by itself: its own name or its first choice; what is said of an input, by that.
pub(super) fn own_name(info: &ListInfo, design: &Design, place: usize) -> Option<String> {
    let item = design.list(info.name)?.item(place)?;
    if info.name == ABOUT_INPUTS
        && let Some(told) = told_path(design, &design.spreads.get(place)?.input)
    {
        return Some(told);
    }
    info.inputs
        .iter()
        .enumerate()
        .filter(|(_, input)| matches!(input.kind, Kind::Text { .. } | Kind::Choice { .. }))
        .filter_map(|(index, input)| Some(input.show(&item.read(index)?, System::Metric)))
        .find(|own| !own.is_empty())
}

/// What the input of a path is called; none where the design has none.
fn told_path(design: &Design, path: &str) -> Option<String> {
    let (head, place, _) = Design::split(path)?;
    let label = lower_first(design.input(path)?.label);
    let section = || Design::SECTIONS.iter().find(|info| info.name == head);
    let list = || {
        Design::LISTS
            .iter()
            .find(|info| info.name == head && head != ABOUT_INPUTS)
    };
    Some(match place {
        None => format!("{}: {label}", section()?.label),
        Some(place) => {
            let info = list()?;
            let item = ItemName {
                word: info.item,
                places: [Some(place), None],
                own: [own_name(info, design, place), None],
            };
            format!("{}, {}: {label}", info.label, item.words())
        }
    })
}

/// How much differs, in words: changes of the machine that either design makes use of counted, another name or note
/// named.
///
/// ```
/// use hearthplan::design::{Design, Value, difference::{differences, how_much}};
/// let one = Design::default();
/// let mut other = one.clone();
/// other.set("about.note", Value::Text("Feet wider.".into())).unwrap();
/// assert_eq!(how_much(&differences(&one, &other)), "only another note");
/// ```
pub fn how_much<'a>(found: impl IntoIterator<Item = &'a Differing>) -> String {
    counted(found, ["change", "changes"])
}

/// The same of two designs of which neither was made from the other.
///
/// ```
/// use hearthplan::design::{Design, Value, difference::{differences, how_many_differences}};
/// let one = Design::default();
/// let mut other = one.clone();
/// other.set("base.width", Value::Number(0.9)).unwrap();
/// assert_eq!(how_many_differences(&differences(&one, &other)), "1 difference");
/// ```
pub fn how_many_differences<'a>(found: impl IntoIterator<Item = &'a Differing>) -> String {
    counted(found, ["difference", "differences"])
}

fn counted<'a>(found: impl IntoIterator<Item = &'a Differing>, [one, many]: [&str; 2]) -> String {
    let (mut changes, mut texts) = (0, Vec::new());
    for differing in found {
        match &differing.what {
            _ if differing.bears_on_the_machine() => changes += usize::from(differing.in_use),
            What::Input { input, .. } if matches!(input.kind, Kind::Text { .. }) => {
                texts.push(lower_first(input.label))
            }
            _ => {}
        }
    }
    let texts = texts.join(" and ");
    let changes = match changes {
        1 => format!("1 {one}"),
        0 if !texts.is_empty() => return format!("only another {texts}"),
        count => format!("{count} {many}"),
    };
    if texts.is_empty() {
        changes
    } else {
        format!("{changes}, and another {texts}")
    }
}

impl Differing {
    /// Whether it bears on the machine, rather than on the name and note of the design alone.
    pub fn bears_on_the_machine(&self) -> bool {
        self.head != "about"
    }

    /// Whether it is the name of the design.
    pub fn is_the_name(&self) -> bool {
        self.is_of("about.name")
    }

    /// Whether it is what tells a design apart from others, its name or its note, which is no part of what is built.
    pub fn is_name_or_note(&self) -> bool {
        self.is_the_name() || self.is_of("about.note")
    }

    fn is_of(&self, input: &str) -> bool {
        matches!(&self.what, What::Input { paths, .. } if paths.iter().all(|path| path == input))
    }

    /// Heading of the section or list, with the item where there is one.
    pub fn part(&self) -> String {
        match &self.item {
            Some(item) => format!("{}: {}", self.heading, item.words()),
            None => self.heading.to_string(),
        }
    }

    /// The same seen from the other design.
    pub fn reversed(&self) -> Self {
        let mut reversed = self.clone();
        reversed.is_reversed = !self.is_reversed;
        reversed.item = self.item.as_ref().map(ItemName::reversed);
        match &mut reversed.what {
            What::Input {
                paths, one, other, ..
            } => {
                paths.reverse();
                std::mem::swap(one, other);
            }
            What::Item { is_added, .. } => *is_added = !*is_added,
            What::Order { one, other } => std::mem::swap(one, other),
        }
        reversed
    }
}
