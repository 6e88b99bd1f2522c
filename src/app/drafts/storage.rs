//! Drafts in the browser's local storage, one entry each, so that a damaged one harms no other.
//!
//! Every entry carries a revision. A save that finds another revision than the one it knows has met
//! another tab, and does not overwrite it.

use super::unfinished::Unfinished;
use crate::design::{Choice as _, Design, Note, file};
use leptos::prelude::window;
use serde::{Deserialize, Serialize};
use thiserror::Error;
use web_sys::Storage;

const PREFIX: &str = "hearthplan/draft/";
const OPEN: &str = "hearthplan/open";
const SYSTEM: &str = "hearthplan/units";
const PINNED: &str = "hearthplan/pinned";

/// Why a draft could not be kept or read, as a sentence.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum StorageError {
    /// The browser gives no storage.
    #[error(
        "This browser keeps nothing for this page (private window, or storage blocked). Your design lasts only as long as this page: export it as a file, or share it as a link."
    )]
    Blocked,
    /// The storage is full.
    #[error(
        "The browser's storage is full, so the last change is not kept. Delete a design or export this one as a file."
    )]
    Full,
    /// Another tab changed the draft.
    #[error("This design was changed in another tab.")]
    ChangedElsewhere,
    /// The stored text cannot be read.
    #[error("{0}")]
    Damaged(String),
    /// There is no such draft.
    #[error("This design is no longer there.")]
    Gone,
}

/// What is stored for a draft.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
struct Stored {
    revision: u64,
    changed: f64,
    design: String,
    /// The link it was made from, so that it can be answered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    base: Option<String>,
    /// Where else it came from; read by itself, as what is begun.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    came: Option<serde_json::Value>,
    /// What is begun in it; read by itself, so that what another version wrote there harms no design.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    unfinished: Option<serde_json::Value>,
}

/// Where a draft came from, if it was not started here.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Came {
    /// Someone's link.
    Link,
    /// A file.
    File,
    /// Another design.
    Copy,
    /// One of the examples.
    Example,
}

impl Came {
    /// In words, behind others.
    pub fn words(self) -> &'static str {
        match self {
            Came::Link => "from a link",
            Came::File => "from a file",
            Came::Copy => "a copy",
            Came::Example => "from an example",
        }
    }
}

/// A draft as listed.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// Its key.
    pub id: String,
    /// Its name, or a word for a damaged one.
    pub name: String,
    /// What tells it apart from another of its name; none of a damaged one.
    pub told: Option<Told>,
    /// When it was changed, milliseconds since 1970.
    pub changed: f64,
    /// Where it came from.
    pub came: Option<Came>,
    /// Why it cannot be opened.
    pub damage: Option<String>,
}

/// What a machine is for, in short.
#[derive(Debug, Clone, PartialEq)]
pub struct Told {
    /// Power wanted, W.
    pub power: f64,
    /// The wood.
    pub wood: &'static str,
}

impl Entry {
    /// What its line shows, so that a line that shows another is made anew.
    pub fn key(&self) -> String {
        let told = self.told.as_ref();
        let told = told.map(|told| format!("{} {}", told.power, told.wood));
        format!("{} {} {}", self.id, self.name, told.unwrap_or_default())
    }

    fn of(id: String, design: &Design, changed: f64, came: Option<Came>) -> Self {
        Self {
            id,
            name: design.about.name.clone(),
            told: Some(Told {
                power: design.engine.wanted_power.value,
                wood: design.fuel.kind.label(),
            }),
            changed,
            came,
            damage: None,
        }
    }
}

/// A draft as opened.
#[derive(Debug, Clone)]
pub struct Opened {
    /// The design.
    pub design: Design,
    /// Its revision.
    pub revision: u64,
    /// What was not taken as it stands.
    pub notes: Vec<Note>,
    /// The link it was made from.
    pub base: Option<String>,
    /// What is begun in it.
    pub unfinished: Unfinished,
}

/// The storage; some private windows have one that only throws, which is as good as none.
fn storage() -> Result<Storage, StorageError> {
    window()
        .local_storage()
        .ok()
        .flatten()
        .filter(|storage| storage.length().is_ok())
        .ok_or(StorageError::Blocked)
}

impl Stored {
    fn came(&self) -> Option<Came> {
        let told = self.came.clone();
        told.and_then(|came| serde_json::from_value(came).ok())
            .or(self.base.as_ref().map(|_| Came::Link))
    }
}

fn put(storage: &Storage, key: &str, text: &str) -> Result<(), StorageError> {
    storage.set_item(key, text).map_err(|_| StorageError::Full)
}

fn key(id: &str) -> String {
    format!("{PREFIX}{id}")
}

fn stored(storage: &Storage, id: &str) -> Result<Stored, StorageError> {
    let text = storage
        .get_item(&key(id))
        .map_err(|_| StorageError::Blocked)?
        .ok_or(StorageError::Gone)?;
    serde_json::from_str(&text)
        .map_err(|_| StorageError::Damaged("What was stored for this design is damaged.".into()))
}

/// Whether the browser keeps anything.
///
/// # Errors
/// Blocked.
pub fn check() -> Result<(), StorageError> {
    storage().map(|_| ())
}

/// All drafts, the last changed first. Damaged ones are listed with the reason.
pub fn list() -> Vec<Entry> {
    let Ok(storage) = storage() else {
        return Vec::new();
    };
    let keys = (0..storage.length().unwrap_or(0)).filter_map(|place| storage.key(place).ok()?);
    let mut entries: Vec<Entry> = keys
        .filter_map(|key| key.strip_prefix(PREFIX).map(str::to_string))
        .map(|id| {
            let read = stored(&storage, &id);
            let changed = read.as_ref().map_or(0.0, |stored| stored.changed);
            let came = read.as_ref().ok().and_then(Stored::came);
            match read.and_then(|stored| parse(&stored.design)) {
                Ok(opened) => Entry::of(id, &opened.design, changed, came),
                Err(error) => Entry {
                    id,
                    name: "Damaged design".into(),
                    told: None,
                    changed,
                    came,
                    damage: Some(error.to_string()),
                },
            }
        })
        .collect();
    entries.sort_by(|first, second| second.changed.total_cmp(&first.changed));
    entries
}

fn parse(text: &str) -> Result<crate::design::Opened, StorageError> {
    file::read(text).map_err(|error| StorageError::Damaged(error.to_string()))
}

/// Opens a draft.
///
/// # Errors
/// Blocked, gone or damaged.
pub fn open(id: &str) -> Result<Opened, StorageError> {
    let stored = stored(&storage()?, id)?;
    let opened = parse(&stored.design)?;
    Ok(Opened {
        design: opened.design,
        revision: stored.revision,
        notes: opened.notes,
        base: stored.base,
        unfinished: (stored.unfinished)
            .and_then(|unfinished| serde_json::from_value(unfinished).ok())
            .unwrap_or_default(),
    })
}

/// The stored text of a draft as it stands, damaged or not.
pub fn raw(id: &str) -> Option<String> {
    storage().ok()?.get_item(&key(id)).ok()?
}

/// Puts a stored text back, to undo a deletion; under which key. A draft that has come back by another way stays.
///
/// # Errors
/// Blocked or full.
pub fn restore(id: &str, text: &str) -> Result<String, StorageError> {
    let id = match raw(id) {
        Some(there) if there != text => new_id(),
        _ => id.to_string(),
    };
    put(&storage()?, &key(&id), text)?;
    Ok(id)
}

/// A draft as saved.
#[derive(Debug, Clone)]
pub struct Saved {
    /// Its new revision.
    pub revision: u64,
    /// How it is listed from now on.
    pub entry: Entry,
}

/// Saves a draft over the revision that is known, with what is begun in it and where it came from; none leaves either as it
/// is. A save comes after the newest one so far, also when the clock was set back.
///
/// # Errors
/// Blocked, full, or changed elsewhere since that revision.
pub fn save(
    id: &str,
    design: &Design,
    known: Option<u64>,
    unfinished: Option<&Unfinished>,
    (base, came): (Option<String>, Option<Came>),
    newest: f64,
) -> Result<Saved, StorageError> {
    let storage = storage()?;
    let (there, base_there, came_there, begun) = match stored(&storage, id) {
        Ok(stored) => (
            Some(stored.revision),
            stored.base,
            stored.came,
            stored.unfinished,
        ),
        Err(StorageError::Gone) => (None, None, None, None),
        Err(error) => return Err(error),
    };
    // A draft deleted in another tab comes back when this tab goes on with it.
    if there.is_some() && there != known {
        return Err(StorageError::ChangedElsewhere);
    }
    let revision = there.or(known).unwrap_or(0) + 1;
    let changed = js_sys::Date::now().max(newest + 1.0);
    let stored = Stored {
        revision,
        changed,
        design: file::write(design),
        base: base.or(base_there),
        came: came
            .and_then(|came| serde_json::to_value(came).ok())
            .or(came_there),
        unfinished: match unfinished {
            Some(unfinished) if unfinished.is_empty() => None,
            Some(unfinished) => serde_json::to_value(unfinished).ok(),
            None => begun,
        },
    };
    let text =
        serde_json::to_string(&stored).map_err(|error| StorageError::Damaged(error.to_string()))?;
    put(&storage, &key(id), &text)?;
    let entry = Entry::of(id.to_string(), design, changed, stored.came());
    Ok(Saved { revision, entry })
}

/// Deletes a draft.
pub fn delete(id: &str) {
    if let Ok(storage) = storage() {
        // Nothing to do when it cannot be removed: it stays listed.
        let _ = storage.remove_item(&key(id));
    }
}

/// A new key, not used by any draft here.
pub fn new_id() -> String {
    let now = js_sys::Date::now() as u64;
    (0..)
        .map(|more| format!("{:x}", now + more))
        .find(|id| raw(id).is_none())
        .unwrap_or_default()
}

/// Remembers something for this tab, and for one that is opened later.
fn remember(key: &str, text: &str) {
    for storage in [of_tab(), storage().ok()].into_iter().flatten() {
        // Only a convenience: each thing that is remembered so has something else in its place.
        let _ = storage.set_item(key, text);
    }
}

/// What this tab remembers; where it has none yet, what another tab remembered last. Tabs that are open side by side
/// would else show each other's design when they are loaded again.
fn remembered(key: &str) -> Option<String> {
    let here = of_tab().and_then(|storage| storage.get_item(key).ok()?);
    here.or_else(|| storage().ok()?.get_item(key).ok()?)
        .filter(|text| !text.is_empty())
}

/// The storage of this tab alone, which lasts as long as it; none where there is none to be had.
fn of_tab() -> Option<Storage> {
    window().session_storage().ok()?
}

/// Remembers which draft is open. Without it the last changed one is opened.
pub fn remember_open(id: &str) {
    remember(OPEN, id);
}

/// The draft that was open last.
pub fn last_open() -> Option<String> {
    remembered(OPEN)
}

/// Remembers what is compared with; none when nothing is. Without it the comparison is off after leaving the page.
pub fn remember_pinned(text: Option<&str>) {
    remember(PINNED, text.unwrap_or_default());
}

/// What was compared with when the page was left.
pub fn last_pinned() -> Option<String> {
    remembered(PINNED)
}

/// Remembers the system of units by name. Without it the next visit starts metric.
pub fn remember_system(name: &str) {
    remember(SYSTEM, name);
}

/// The name of the system of units used last.
pub fn last_system() -> Option<String> {
    remembered(SYSTEM)
}

/// The draft that a change of this storage key is about.
pub fn id_of_key(key: &str) -> Option<&str> {
    key.strip_prefix(PREFIX)
}
