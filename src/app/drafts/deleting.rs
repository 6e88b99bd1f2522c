//! Deleting a design, with a way back.

use super::Drafts;
use super::notices::Notice;
use super::storage::{self, Entry, StorageError};
use leptos::prelude::*;
use std::sync::Arc;

/// Told where a deletion is taken back of a design that is there again in another state.
const CAME_BACK: &str = "This design had come back meanwhile, in a newer state, which stays. What was deleted is kept beside it as a copy.";

impl Drafts {
    /// How many drafts are listed before this one.
    pub(super) fn place_of(self, id: &str) -> usize {
        let place = |list: &Vec<Entry>| list.iter().position(|entry| entry.id == id);
        self.list.with_untracked(place).unwrap_or_default()
    }

    /// Deletes a draft, with a way back.
    pub fn delete(self, entry: &Entry) {
        // What was just typed comes back with the rest.
        self.flush();
        let Some(text) = storage::raw(&entry.id) else {
            return;
        };
        let id = entry.id.clone();
        storage::delete(&id);
        self.list.set(storage::list());
        let was_open = self.open.with_untracked(|open| open.as_ref() == Some(&id));
        if was_open {
            self.open_last();
        } else {
            // There may be room now for what could not be kept.
            self.flush();
        }
        self.follow_pinned();
        let back = Arc::new(move || self.bring_back(&id, &text, was_open));
        let told = format!("Deleted “{}”.", entry.name);
        self.notify(Notice::of(told).with_way_back("Undo", back));
    }

    /// Brings a deleted draft back, onto the bench if it was there; whether there was room for it.
    fn bring_back(self, id: &str, text: &str, was_open: bool) -> bool {
        let restored = match storage::restore(id, text) {
            Ok(restored) => restored,
            Err(error) => {
                self.tell(error.to_string());
                return false;
            }
        };
        // There is room again.
        self.take_back(&StorageError::Full.to_string());
        self.list.set(storage::list());
        let is_copy = restored != id;
        if was_open || is_copy {
            self.open_kept(&restored);
        }
        if is_copy {
            self.call_copy();
            self.tell(CAME_BACK.into());
        }
        self.follow_pinned();
        true
    }
}
