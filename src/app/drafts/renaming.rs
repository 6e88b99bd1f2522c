//! Another name for a design in the list, without opening it.

use super::notices::Notice;
use super::storage::{self, Entry, StorageError};
use super::{Drafts, called};
use crate::app::focus;
use crate::design::{Design, Kind, Value};
use leptos::prelude::*;
use std::sync::Arc;

/// The name of a design.
const NAME: &str = "about.name";

/// The element that opens the field for another name.
pub(super) fn opener(id: &str) -> String {
    format!("rename-{id}")
}

/// Most letters of a name.
fn longest() -> usize {
    let declared = Design::default().input(NAME).map(|input| input.kind);
    match declared {
        Some(Kind::Text { longest, .. }) => longest,
        _ => usize::MAX,
    }
}

impl Drafts {
    /// Gives a draft another name, with a way back; says why when it cannot.
    fn rename(self, entry: &Entry, to: &str) {
        let (id, from, to) = (entry.id.clone(), entry.name.clone(), to.to_string());
        match self.put_name(&id, &from, &to) {
            Ok(()) => {
                let told = format!("Renamed “{}” to “{to}”.", called(&from));
                let back = Arc::new(move || {
                    self.put_name(&id, &to, &from)
                        .inspect_err(|error| self.tell_not_renamed(&to, error))
                        .is_ok()
                });
                self.notify(Notice::of(told).with_way_back("Undo", back));
            }
            Err(error) => self.tell_not_renamed(&from, &error),
        }
    }

    fn tell_not_renamed(self, name: &str, error: &StorageError) {
        self.tell(format!("“{}” is not renamed. {error}", called(name)));
    }

    /// Names a draft that is called so far as the person saw it; another name of another tab stays.
    fn put_name(self, id: &str, from: &str, to: &str) -> Result<(), StorageError> {
        let named = if self.open.get_untracked().as_deref() == Some(id) {
            self.name_open(to);
            Ok(())
        } else {
            self.name_kept(id, from, to)
        };
        self.list.set(storage::list());
        named
    }

    /// The design on the bench is named as in its form, and kept as after any change.
    fn name_open(self, to: &str) {
        self.workspace.finish_typing();
        // The field takes no more letters than the input does.
        let _ = self.workspace.set(NAME, Value::Text(to.to_string()));
        self.workspace.finish_typing();
        self.flush();
    }

    fn name_kept(self, id: &str, from: &str, to: &str) -> Result<(), StorageError> {
        let opened = storage::open(id)?;
        if opened.design.about.name != from {
            return Err(StorageError::ChangedElsewhere);
        }
        if !opened.notes.is_empty() {
            let words =
                "Not all in it can be taken as it stands: open it, and change its name there.";
            return Err(StorageError::Damaged(words.to_string()));
        }
        let mut design = opened.design;
        design.about.name = to.to_string();
        let known = opened.revision;
        storage::save(id, &design, Some(known), None, (None, None), self.newest())?;
        self.follow_pinned();
        Ok(())
    }
}

/// The field for another name of a draft; Enter keeps it, Escape leaves it.
pub(super) fn field(drafts: Drafts, entry: StoredValue<Entry>, is_open: RwSignal<bool>) -> AnyView {
    let (id, name) = entry.with_value(|entry| (entry.id.clone(), entry.name.clone()));
    let field = format!("{}-to", opener(&id));
    focus::soon(vec![format!("#{field}")]);
    let typed = RwSignal::new(name.clone());
    let leave = move || {
        is_open.set(false);
        entry.with_value(|entry| focus::soon(vec![format!("#{}", opener(&entry.id))]));
    };
    let keep = move || {
        let to: String = typed
            .get_untracked()
            .trim()
            .chars()
            .take(longest())
            .collect();
        // Without a name nobody would find it again.
        if !to.is_empty() && entry.with_value(|entry| entry.name != to) {
            entry.with_value(|entry| drafts.rename(entry, &to));
        }
        leave();
    };
    let follow_keys = move |event: leptos::ev::KeyboardEvent| match event.key().as_str() {
        "Enter" => keep(),
        "Escape" => leave(),
        _ => {}
    };
    let called = called(&name);
    view! {
        <div class="draft-rename">
            <label for=field.clone()>{format!("New name of “{called}”")}</label>
            <input
                id=field
                type="text"
                autocomplete="off"
                maxlength=longest().to_string()
                prop:value=name
                on:input=move |event| typed.set(event_target_value(&event))
                on:keydown=follow_keys
            />
            <button type="button" aria-label=format!("Keep the new name of {called}") on:click=move |_| keep()>
                "Keep the new name"
            </button>
            <button type="button" aria-label=format!("Cancel: the name of {called} stays") on:click=move |_| leave()>
                "Cancel"
            </button>
        </div>
    }
    .into_any()
}
