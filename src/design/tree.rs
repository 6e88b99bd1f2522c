//! A design as the tree of names and values that files and links hold.

use super::declare::{Input, Items, Record, Value};
use super::document::{Design, InputError, ListInfo, check};
use super::quantity::System;
use super::upgrade::{Start, VERSION_NAME};
use serde::ser::{Serialize, SerializeMap, Serializer};
use serde_json::{Map, Value as Json};

/// A design read from a file or link, with everything in it that was not taken as it stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Opened {
    /// The design.
    pub design: Design,
    /// What a person should know about how it was read.
    pub notes: Vec<Note>,
}

/// Something in a file or link that was not taken as it stands.
#[derive(Debug, Clone, PartialEq)]
pub enum Note {
    /// An entry that this version does not know; it is kept and written back.
    Unknown {
        /// Where it stands.
        path: String,
    },
    /// A value that its input does not take; the starting value is used.
    Refused {
        /// Where it stands.
        path: String,
        /// Why it is not taken.
        error: InputError,
    },
    /// An entry that should hold named values, or a list of them, and does not.
    NoValues {
        /// Where it stands.
        path: String,
    },
    /// More entries that this version does not know than it keeps.
    LeftOut {
        /// How many were not kept.
        entries: usize,
    },
    /// More items than the list takes; the first ones are used.
    TooMany {
        /// Where the list stands.
        path: String,
        /// Most items accepted.
        longest: usize,
        /// Items found.
        given: usize,
    },
}

impl Note {
    /// The note as a sentence, with ranges in the given system of units.
    pub fn sentence(&self, system: System) -> String {
        match self {
            Note::Unknown { path } => {
                format!("“{path}” is not known to this version. It is kept and saved again.")
            }
            Note::Refused { path, error } => format!(
                "{} (“{path}”). The starting value is used instead.",
                error.sentence(system)
            ),
            Note::NoValues { path } => {
                format!("“{path}” does not hold what it should and was left out.")
            }
            Note::LeftOut { entries } => format!(
                "This version does not know {entries} further entries, and has no room to keep them."
            ),
            Note::TooMany {
                path,
                longest,
                given,
            } => format!(
                "“{path}” takes at most {longest} items. The other {} were left out.",
                given.saturating_sub(*longest)
            ),
        }
    }
}

/// Named entries in the order they are written.
#[derive(Default)]
pub(super) struct Tree(Vec<(String, Branch)>);

/// What stands under a name.
pub(super) enum Branch {
    Leaf(Json),
    Tree(Tree),
    List(Vec<Tree>),
}

impl Serialize for Tree {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(self.0.len()))?;
        for (name, branch) in &self.0 {
            map.serialize_entry(name, branch)?;
        }
        map.end()
    }
}

impl Serialize for Branch {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Branch::Leaf(value) => value.serialize(serializer),
            Branch::Tree(tree) => tree.serialize(serializer),
            Branch::List(trees) => trees.serialize(serializer),
        }
    }
}

impl Tree {
    pub fn push(&mut self, name: &str, branch: Branch) {
        self.0.push((name.to_string(), branch));
    }

    pub fn push_first(&mut self, name: &str, value: Json) {
        self.0.insert(0, (name.to_string(), Branch::Leaf(value)));
    }

    fn branch_mut(&mut self, name: &str) -> Option<&mut Branch> {
        self.0
            .iter_mut()
            .find(|(own, _)| own == name)
            .map(|(_, branch)| branch)
    }

    /// Puts an entry that is not known back where it was found.
    fn restore(&mut self, path: &str, value: &Json) {
        let mut steps = path.split('.').collect::<Vec<_>>();
        let name = steps.pop().map(unescaped).unwrap_or_default();
        let place = match steps.as_slice() {
            [] => Some(self),
            [section] => {
                if self.branch_mut(section).is_none() {
                    self.push(section, Branch::Tree(Tree::default()));
                }
                match self.branch_mut(section) {
                    Some(Branch::Tree(tree)) => Some(tree),
                    _ => None,
                }
            }
            [list, index] => match (self.branch_mut(list), index.parse::<usize>()) {
                (Some(Branch::List(trees)), Ok(index)) => trees.get_mut(index),
                _ => None,
            },
            _ => None,
        };
        if let Some(tree) = place
            && tree.branch_mut(&name).is_none()
        {
            tree.push(&name, Branch::Leaf(value.clone()));
        }
    }
}

/// A name as a step of a path: a dot in it must not look like a step.
fn escaped(name: &str) -> String {
    name.replace('~', "~0").replace('.', "~1")
}

fn unescaped(step: &str) -> String {
    step.replace("~1", ".").replace("~0", "~")
}

/// All entries of a record, or those that differ from a start.
pub(super) fn record_tree(record: &dyn Record, start: Option<&dyn Record>) -> Tree {
    let mut tree = Tree::default();
    for (index, input) in record.inputs().iter().enumerate() {
        let value = record.read(index).unwrap_or(Value::Empty);
        if start.and_then(|start| start.read(index)).as_ref() != Some(&value) {
            tree.push(input.name, Branch::Leaf(json_of(&value)));
        }
    }
    tree
}

fn list_tree(list: &dyn Items, start: Option<&dyn Record>) -> Vec<Tree> {
    (0..list.count())
        .filter_map(|index| list.item(index))
        .map(|item| record_tree(item, start))
        .collect()
}

/// The tree as text for people to read: one entry a line.
pub(super) fn text(tree: &Tree) -> String {
    // A tree of plain names and values can always be written.
    serde_json::to_string_pretty(tree).unwrap_or_default() + "\n"
}

/// The whole design.
pub(super) fn whole(design: &Design) -> Tree {
    let mut tree = Tree::default();
    for section in Design::SECTIONS {
        if let Some(record) = design.section(section.name) {
            tree.push(section.name, Branch::Tree(record_tree(record, None)));
        }
    }
    for info in Design::LISTS {
        if let Some(list) = design.list(info.name) {
            tree.push(info.name, Branch::List(list_tree(list, None)));
        }
    }
    restore_unknown(&mut tree, design);
    tree
}

/// The design where it differs from a start: single inputs of sections, whole lists.
pub(super) fn difference(design: &Design, start: &Start, with_unknown: bool) -> Tree {
    let mut tree = Tree::default();
    for section in Design::SECTIONS {
        if let Some(record) = design.section(section.name) {
            let changed = record_tree(record, start.design.section(section.name));
            if !changed.0.is_empty() {
                tree.push(section.name, Branch::Tree(changed));
            }
        }
    }
    let holds_unknown = |name: &str| {
        with_unknown
            && design
                .unknown
                .keys()
                .any(|path| path.split('.').next() == Some(name))
    };
    for info in Design::LISTS {
        if let (Some(list), Some(first)) = (design.list(info.name), start.design.list(info.name))
            && (!equal(list, first) || holds_unknown(info.name))
        {
            tree.push(
                info.name,
                Branch::List(list_tree(list, start.new_item(info.name))),
            );
        }
    }
    if with_unknown {
        restore_unknown(&mut tree, design);
    }
    tree
}

fn restore_unknown(tree: &mut Tree, design: &Design) {
    for (path, value) in &design.unknown {
        tree.restore(path, value);
    }
}

fn equal(one: &dyn Items, other: &dyn Items) -> bool {
    one.count() == other.count()
        && (0..one.count()).all(|place| match (one.item(place), other.item(place)) {
            (Some(one), Some(other)) => {
                (0..one.inputs().len()).all(|index| one.read(index) == other.read(index))
            }
            _ => false,
        })
}

fn json_of(value: &Value) -> Json {
    /// Whole numbers up to here are exact, and shorter without their `.0`.
    const EXACT: f64 = 9e15;
    match value {
        Value::Number(number) if number.fract() == 0.0 && number.abs() < EXACT => {
            Json::from(*number as i64)
        }
        Value::Number(number) => Json::from(*number),
        Value::Choice(text) | Value::Text(text) => Json::from(text.as_str()),
        Value::Flag(state) => Json::from(*state),
        Value::Empty => Json::Null,
    }
}

fn value_of(input: &Input, json: &Json) -> Option<Value> {
    match (input.default_value(), json) {
        (_, Json::Number(number)) => number.as_f64().map(Value::Number),
        (Value::Choice(_), Json::String(text)) => Some(Value::Choice(text.clone())),
        (_, Json::String(text)) => Some(Value::Text(text.clone())),
        (_, Json::Bool(state)) => Some(Value::Flag(*state)),
        (_, Json::Null) => Some(Value::Empty),
        _ => None,
    }
}

/// Writes one value into a record after checking it.
fn write_checked(record: &mut dyn Record, index: usize, json: &Json) -> Result<(), InputError> {
    let Some(input) = record.inputs().get(index) else {
        return Ok(());
    };
    let wrong_kind = InputError::WrongKind { label: input.label };
    let value = value_of(input, json).ok_or(wrong_kind.clone())?;
    check(input, &value)?;
    if record.write(index, &value) {
        Ok(())
    } else {
        Err(wrong_kind)
    }
}

/// Lays the entries of a file or link over the start of its format version.
pub(super) fn lay_over(start: &Start, entries: Map<String, Json>) -> Opened {
    let mut opened = Opened {
        design: start.design.clone(),
        notes: Vec::new(),
    };
    let mut room = ROOM;
    for (name, json) in entries {
        let list = Design::LISTS.iter().find(|list| list.name == name);
        let section = Design::SECTIONS.iter().find(|section| section.name == name);
        match (list, section, json) {
            (Some(list), _, Json::Array(items)) => opened.lay_list(start, list, items, &mut room),
            (_, Some(_), Json::Object(values)) => {
                if let Some(record) = opened.design.section_mut(&name) {
                    let unknown = fill(record, values, &name, &mut opened.notes);
                    opened.keep(&name, unknown, &mut room);
                }
            }
            // A link has its version in front of it; kept, this would stand in a file twice.
            (None, None, _) if name == VERSION_NAME => {}
            (None, None, json) => opened.keep("", vec![(name, json)], &mut room),
            _ => opened.notes.push(Note::NoValues { path: name }),
        }
    }
    opened
}

/// Writes named values into a record; gives back the entries it does not know.
fn fill(
    record: &mut dyn Record,
    values: Map<String, Json>,
    path: &str,
    notes: &mut Vec<Note>,
) -> Vec<(String, Json)> {
    let mut unknown = Vec::new();
    for (name, json) in values {
        match record.index_of(&name) {
            Some(index) => {
                if let Err(error) = write_checked(record, index, &json) {
                    notes.push(Note::Refused {
                        path: format!("{path}.{name}"),
                        error,
                    });
                }
            }
            None => unknown.push((name, json)),
        }
    }
    unknown
}

impl Opened {
    fn lay_list(&mut self, start: &Start, info: &ListInfo, items: Vec<Json>, room: &mut usize) {
        let path = info.name;
        let given = items.len();
        if given > info.longest {
            self.notes.push(Note::TooMany {
                path: path.to_string(),
                longest: info.longest,
                given,
            });
        }
        // What was kept for items that now go away has no place any more.
        let inside = format!("{path}.");
        let unknown = &mut self.design.unknown;
        unknown.retain(|kept, _| !kept.starts_with(&inside));
        let Some(list) = self.design.list_mut(path) else {
            return;
        };
        while list.count() > 0 {
            list.remove_item(0);
        }
        for (found, json) in items.into_iter().take(info.longest).enumerate() {
            let Json::Object(values) = json else {
                self.notes.push(Note::NoValues {
                    path: format!("{path}.{found}"),
                });
                continue;
            };
            let Some(list) = self.design.list_mut(path) else {
                return;
            };
            let place = list.count();
            list.insert_new(place);
            if let Some(item) = list.item_mut(place) {
                if let Some(new) = start.new_item(path) {
                    copy(new, item);
                }
                let unknown = fill(item, values, &format!("{path}.{found}"), &mut self.notes);
                self.keep(&format!("{path}.{place}"), unknown, room);
            }
        }
    }

    /// Keeps entries that are not known while there is room for them in a file.
    fn keep(&mut self, parent: &str, unknown: Vec<(String, Json)>, room: &mut usize) {
        for (name, json) in unknown {
            let path = match parent {
                "" => escaped(&name),
                parent => format!("{parent}.{}", escaped(&name)),
            };
            let needed = ENTRY + escaped_length(&name) + length(&json, 3);
            if needed <= *room {
                *room -= needed;
                self.notes.push(Note::Unknown { path: path.clone() });
                self.design.unknown.insert(path, json);
            } else if let Some(entries) = self.notes.iter_mut().rev().find_map(|note| match note {
                Note::LeftOut { entries } => Some(entries),
                _ => None,
            }) {
                *entries += 1;
            } else {
                self.notes.push(Note::LeftOut { entries: 1 });
            }
        }
    }
}

/// Most bytes of a file that entries which are not known may take, so that what is read can be written and read again.
const ROOM: usize = 600_000;

/// What an entry costs besides its text. It also bounds how many there can be: each of them is told to a person.
const ENTRY: usize = 1_000;

/// At least as many bytes as a value takes in a file, where every value stands in a line of its own, set in by its depth.
fn length(json: &Json, depth: usize) -> usize {
    /// Longest number.
    const NUMBER: usize = 24;
    let line = 2 * depth + NUMBER;
    match json {
        Json::String(text) => line + escaped_length(text),
        Json::Array(items) => {
            2 * line
                + items
                    .iter()
                    .map(|item| length(item, depth + 1))
                    .sum::<usize>()
        }
        Json::Object(entries) => {
            let of =
                |(name, value): (&String, &Json)| escaped_length(name) + length(value, depth + 1);
            2 * line + entries.iter().map(of).sum::<usize>()
        }
        _ => line,
    }
}

/// Bytes of a text in quotation marks, with what must be escaped in it.
fn escaped_length(text: &str) -> usize {
    let bytes = text.bytes().map(|byte| match byte {
        b'"' | b'\\' => 2,
        0..=31 => 6,
        _ => 1,
    });
    2 + bytes.sum::<usize>()
}

fn copy(from: &dyn Record, to: &mut dyn Record) {
    for index in 0..from.inputs().len() {
        if let Some(value) = from.read(index) {
            to.write(index, &value);
        }
    }
}
