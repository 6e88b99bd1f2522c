//! Format versions of files and links, and the defaults each version was made against.
//!
//! A link holds a design only where it differs from the defaults, so a version pins them: they
//! stand frozen in `defaults/v1.json` and so on, and never change once links of that version are
//! out. What may change, and what to do:
//!
//! - A new input: nothing breaks. `FREEZE=1 cargo test --test design frozen` adds it to the
//!   newest frozen file; older links open with that default.
//! - Another default of an existing input or list: a new version. Raise [`FORMAT`], append the new
//!   file to `FROZEN`, and write it with the same command.
//! - Another name of an input or option: a new version too; [`open`] is the place to translate.

mod from_1;

use super::declare::Record;
use super::document::Design;
use super::tree::{self, Branch, Opened, Tree};
use serde_json::{Map, Value as Json};

/// The format version this build writes, and the newest it reads.
pub const FORMAT: u32 = 2;

/// The entry of a file that tells the format version, and that this is a design at all. Nothing else has this name.
pub(super) const VERSION_NAME: &str = "hearthplan";

/// The frozen defaults, from version 1 upwards.
const FROZEN: &[&str] = &[
    include_str!("defaults/v1.json"),
    include_str!("defaults/v2.json"),
];

/// What a file or link of some version starts from.
pub(super) struct Start {
    /// The design of which the file or link tells the differences.
    pub design: Design,
    /// A design with one new item in each list.
    items: Design,
}

impl Start {
    /// What this build itself would start from.
    fn current() -> Self {
        let mut items = Design::default();
        for list in Design::LISTS {
            if let Some(items) = items.list_mut(list.name) {
                items.insert_new(0);
            }
        }
        Self {
            design: Design::default(),
            items,
        }
    }

    /// A new item of the list with this name.
    pub fn new_item(&self, list: &str) -> Option<&dyn Record> {
        self.items.list(list).and_then(|items| items.item(0))
    }

    /// Takes the values of a frozen file; inputs it does not hold stay.
    fn overlaid(self, frozen: &str) -> Self {
        let Ok(Json::Object(mut document)) = serde_json::from_str(frozen) else {
            return self;
        };
        let mut entries = |name: &str| match document.remove(name) {
            Some(Json::Object(entries)) => entries,
            _ => Map::new(),
        };
        let new_items = entries("new_item")
            .into_iter()
            .map(|(list, item)| (list, Json::Array(vec![item])))
            .collect();
        let design = entries("design");
        let of_items = Self {
            design: self.items.clone(),
            items: self.items,
        };
        let items = known_part(&of_items, new_items);
        let start = Self {
            design: self.design,
            items,
        };
        let design = known_part(&start, design);
        Self { design, ..start }
    }
}

/// What this build still knows of a frozen file.
fn known_part(start: &Start, entries: Map<String, Json>) -> Design {
    let mut design = tree::lay_over(start, entries).design;
    design.unknown.clear();
    design
}

/// What a file or link of this version starts from. An input that came later starts from the first
/// frozen file that holds it.
pub(super) fn start(version: u32) -> Start {
    let older = usize::try_from(version.saturating_sub(1)).unwrap_or(usize::MAX);
    FROZEN
        .iter()
        .skip(older)
        .rev()
        .fold(Start::current(), |start, frozen| start.overlaid(frozen))
}

/// Opens the entries of a file or link of this version.
pub(super) fn open(version: u32, entries: Map<String, Json>) -> Opened {
    let entries = match version {
        1 => from_format_1(entries),
        _ => entries,
    };
    tree::lay_over(&start(version), entries)
}

fn from_format_1(entries: Map<String, Json>) -> Map<String, Json> {
    let frozen: Json = FROZEN
        .first()
        .and_then(|frozen| serde_json::from_str(frozen).ok())
        .unwrap_or_default();
    let new_item = frozen.pointer("/new_item/fittings");
    match frozen.get("design") {
        Some(Json::Object(defaults)) => from_1::translated(entries, defaults, new_item),
        _ => entries,
    }
}

/// The defaults of this build, in the form of a frozen file.
pub fn current_defaults() -> String {
    let start = Start::current();
    let mut new_items = Tree::default();
    for list in Design::LISTS {
        if let Some(item) = start.new_item(list.name) {
            new_items.push(list.name, Branch::Tree(tree::record_tree(item, None)));
        }
    }
    let mut document = Tree::default();
    document.push("design", Branch::Tree(tree::whole(&start.design)));
    document.push("new_item", Branch::Tree(new_items));
    tree::text(&document)
}

/// The newest frozen file as it stands.
pub fn newest_frozen() -> &'static str {
    FROZEN.last().copied().unwrap_or_default()
}
