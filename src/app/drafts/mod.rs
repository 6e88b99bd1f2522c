//! Which design is on the bench, where it is kept, and what to tell the person about it.

mod answer;
mod comparing;
mod deleting;
mod notices;
mod panel;
pub mod qr;
mod renaming;
mod sending;
pub mod sharing;
mod storage;
mod unfinished;
mod when;

pub use notices::{Notice, Notices};
pub use panel::Designs;
pub use storage::{last_pinned, last_system, remember_pinned, remember_system};

use super::Workspace;
use super::back;
use super::compare::Comparison;
use super::panel::Panel;
use crate::design::quantity::System;
use crate::design::{Design, example, file, free_name, link};
use crate::review::guided::Unmet;
use leptos::ev;
use leptos::prelude::*;
use std::sync::Arc;
use std::time::Duration;
use storage::{Came, Entry, StorageError};
use unfinished::Unfinished;

/// Typing is kept after a pause of this length.
const PAUSE: Duration = Duration::from_millis(250);

/// Told on a first visit, and the button beside it.
pub const WELCOME: (&str, &str) = (
    "An example with invented figures: tap what fails, or change anything.",
    "Start my own",
);

/// Handle to the drafts; cheap to copy, found in context.
#[derive(Clone, Copy)]
pub struct Drafts {
    workspace: Workspace,
    comparison: Comparison,
    /// All drafts, the last changed first.
    pub list: RwSignal<Vec<Entry>>,
    /// Key of the draft on the bench; none while it is not kept.
    pub open: RwSignal<Option<String>>,
    /// What the person should know.
    pub notices: RwSignal<Vec<Notice>>,
    /// What the design on the bench did not meet when the first questions were over.
    unmet: RwSignal<Option<Unmet>>,
    /// The link that the design on the bench was made from, to be answered.
    pub base: RwSignal<Option<String>>,
    /// The words that are to go with that answer.
    pub words: RwSignal<String>,
    /// Where the design on the bench came from, as long as it is not kept.
    came: StoredValue<Option<Came>>,
    revision: StoredValue<Option<u64>>,
    /// The design as it was opened or kept last, with what was begun in it.
    kept: StoredValue<(Design, Unfinished)>,
}

impl Drafts {
    /// The drafts of the app.
    pub fn get() -> Self {
        expect_context::<Self>()
    }

    /// Opens what the link in the address asks for, else the last draft, else the example.
    pub fn start(workspace: Workspace, comparison: Comparison) -> Self {
        let drafts = Self {
            workspace,
            comparison,
            list: RwSignal::new(storage::list()),
            open: RwSignal::new(None),
            notices: RwSignal::default(),
            unmet: RwSignal::new(None),
            base: RwSignal::new(None),
            words: RwSignal::default(),
            came: StoredValue::new(None),
            revision: StoredValue::new(None),
            kept: StoredValue::new((workspace.design.get_untracked(), Unfinished::default())),
        };
        if !drafts.open_address() {
            drafts.open_last();
        }
        if let Err(error) = storage::check() {
            drafts.tell_at_the_beginning(error.to_string());
        }
        Effect::new(move |_| {
            drafts.open.track();
            drafts.follow_pinned();
        });
        Effect::new(move |_| drafts.follow_base());
        drafts.keep_what_changes();
        drafts.watch_other_tabs();
        drafts.watch_address();
        drafts.watch_versions();
        drafts
    }

    /// Puts a design on the bench that is not kept yet.
    fn bench(self, design: Design) {
        // The welcome has done its work; what the storage has to say stays.
        self.take_back(WELCOME.0);
        self.take_back_of_before();
        self.open.set(None);
        self.base.set(None);
        self.words.set(String::new());
        self.came.set_value(None);
        self.revision.set_value(None);
        self.kept.set_value((design.clone(), Unfinished::default()));
        self.workspace.open(design);
    }

    fn open_last(self) {
        let last = storage::last_open().into_iter();
        let ids: Vec<String> = last
            .chain(self.list.get_untracked().into_iter().map(|entry| entry.id))
            .collect();
        let opened = ids.into_iter().find(|id| self.open_draft(id));
        if opened.is_none() {
            self.bench(example::as_first_drawn());
            self.came.set_value(Some(Came::Example));
            let welcome = Notice::of(WELCOME.0).at_the_beginning();
            self.notify(welcome.with(WELCOME.1, Arc::new(move || self.start_own())));
        }
    }

    /// Keeps the design before another takes its place; one that cannot be kept gets a way back.
    fn leave(self) {
        self.flush();
        if !self.is_to_be_kept() {
            self.tell_questions_left();
            return;
        }
        let unfinished = self.unfinished();
        let design = self.workspace.design.get_untracked();
        let place = (self.open.get_untracked(), self.revision.get_value());
        let came = self.came.get_value();
        let base = self.base.get_untracked();
        let text = format!("“{}” could not be kept.", design.about.name);
        let back = Arc::new(move || {
            self.leave();
            self.bench(Design::default());
            self.open.set(place.0.clone());
            self.revision.set_value(place.1);
            self.came.set_value(came);
            self.base.set(base.clone());
            self.workspace.open(design.clone());
            self.take_up(unfinished.clone());
            true
        });
        self.notify(Notice::of(text).with_way_back("Show it again", back));
    }

    /// Opens a draft that a person chose from the list.
    pub fn open_kept(self, id: &str) {
        self.leave();
        self.open_draft(id);
    }

    /// Opens a draft; says why when it cannot.
    pub fn open_draft(self, id: &str) -> bool {
        match storage::open(id) {
            Ok(opened) => {
                self.take_back_of_before();
                self.came.set_value(None);
                self.revision.set_value(Some(opened.revision));
                self.open.set(Some(id.to_string()));
                self.base.set(opened.base);
                self.workspace.open(opened.design.clone());
                self.take_up(opened.unfinished);
                self.kept.set_value((opened.design, self.unfinished()));
                storage::remember_open(id);
                self.tell_notes(&opened.notes);
                true
            }
            Err(StorageError::Gone) => false,
            Err(error) => {
                self.tell(format!(
                    "A stored design cannot be opened. {error} Your other designs are untouched."
                ));
                false
            }
        }
    }

    /// Opens the design in the address, if there is one; says why when it cannot.
    fn open_address(self) -> bool {
        let fragment = window().location().hash().unwrap_or_default();
        if fragment.len() < 2 {
            return false;
        }
        match link::open(&fragment) {
            Ok(linked) => {
                self.open_linked(linked, &fragment);
                true
            }
            Err(error) => {
                self.tell_at_the_beginning(format!(
                    "The link cannot be opened. {error} Your own designs are untouched."
                ));
                clear_address();
                false
            }
        }
    }

    /// Whether the draft on the bench came from the link in the address.
    fn is_of_address(self) -> bool {
        let fragment = window().location().hash().unwrap_or_default();
        let came_from = self.base.get_untracked();
        self.open.get_untracked().is_some()
            && came_from.as_deref() == Some(fragment.trim_start_matches('#'))
    }

    fn watch_address(self) {
        let handle = window_event_listener(ev::hashchange, move |_| {
            let none = window().location().hash().is_ok_and(|hash| hash.is_empty());
            let only_looked_at =
                self.base.get_untracked().is_some() && self.open.get_untracked().is_none();
            if none && only_looked_at {
                // Back from a link: what is kept comes up again.
                self.leave();
                self.open_last();
            } else if back::is_between_panels() && self.is_of_address() {
                // Back among the panels, to before it was changed: what it has become stays.
                clear_address();
            } else {
                self.open_address();
            }
        });
        on_cleanup(move || handle.remove());
    }

    /// Offers a newer version of the app once it is here; never changes it while typing.
    fn watch_versions(self) {
        let handle = window_event_listener_untyped("newer-version", move |_| {
            let take = Arc::new(move || {
                self.leave();
                if let Ok(event) = web_sys::Event::new("take-newer-version") {
                    // Nobody listens when the newer version is gone again: then nothing changes.
                    let _ = window().dispatch_event(&event);
                }
            });
            self.notify(
                Notice::of("A newer version of Hearthplan is ready.")
                    .at_the_beginning()
                    .with("Use it now", take),
            );
        });
        on_cleanup(move || handle.remove());
    }

    fn keep_what_changes(self) {
        Effect::new(move |running: Option<Option<TimeoutHandle>>| {
            self.workspace.design.track();
            self.track_unfinished();
            if let Some(handle) = running.flatten() {
                handle.clear();
            }
            set_timeout_with_handle(move || self.flush(), PAUSE).ok()
        });
        let hidden = window_event_listener(ev::pagehide, move |_| self.flush());
        let before = window_event_listener(ev::beforeunload, move |event| {
            self.flush();
            if self.is_to_be_kept() {
                // The browser asks whether to leave all the same.
                event.prevent_default();
            }
        });
        on_cleanup(move || {
            hidden.remove();
            before.remove();
        });
    }

    /// Keeps the design and what is begun in it now, if either differs from what is kept.
    pub fn flush(self) {
        let Some(design) = self.workspace.design.try_get_untracked() else {
            return;
        };
        if !self.is_to_be_kept() {
            return;
        }
        let unfinished = self.unfinished();
        let id = self.open.get_untracked().unwrap_or_else(storage::new_id);
        match storage::save(
            &id,
            &design,
            self.revision.get_value(),
            Some(&unfinished),
            (self.base.get_untracked(), self.came.get_value()),
            self.newest(),
        ) {
            Ok(saved) => {
                clear_address();
                self.take_back(&StorageError::Full.to_string());
                self.take_back_from_link();
                self.revision.set_value(Some(saved.revision));
                self.kept.set_value((design, unfinished));
                self.open.set(Some(id.clone()));
                storage::remember_open(&id);
                // The other drafts stay as listed: reading them all at every pause would be for nothing.
                self.list.update(|list| {
                    list.retain(|entry| entry.id != id);
                    list.insert(0, saved.entry);
                });
            }
            Err(StorageError::ChangedElsewhere | StorageError::Damaged(_)) => {
                self.keep_as_copy();
            }
            Err(error @ StorageError::Blocked) => self.tell_at_the_beginning(error.to_string()),
            Err(error) => self.tell(error.to_string()),
        }
    }

    /// When the last changed draft was changed.
    fn newest(self) -> f64 {
        self.list
            .with_untracked(|list| list.first().map_or(0.0, |entry| entry.changed))
    }

    /// Another tab has saved over the draft: both versions are kept, under two names.
    fn keep_as_copy(self) {
        self.open.set(None);
        self.came.set_value(Some(Came::Copy));
        self.revision.set_value(None);
        self.call_copy();
        self.take_back(notices::CHANGED_ELSEWHERE);
        self.tell(
            "This design was also changed in another tab. What you have here is kept as a copy; nothing is lost."
                .into(),
        );
    }

    /// Gives the design on the bench the name of a copy, and keeps it.
    fn call_copy(self) {
        self.workspace
            .change(|design| design.about.name = self.free(&copy_name(&design.about.name)));
        self.flush();
    }

    fn watch_other_tabs(self) {
        let handle = window_event_listener(ev::storage, move |event| {
            self.list.set(storage::list());
            self.follow_pinned();
            let open = self.open.get_untracked();
            let about_open = event.key().is_some_and(|key| {
                storage::id_of_key(&key).is_some_and(|id| Some(id) == open.as_deref())
            });
            if let (true, Some(id)) = (about_open, open) {
                let deleted = event.new_value().is_none();
                let load = Arc::new(move || self.open_kept(&id));
                self.notify(if deleted {
                    Notice::of(
                        "This design was deleted in another tab. If you go on here, it comes back.",
                    )
                } else {
                    Notice::of(notices::CHANGED_ELSEWHERE).with("Show the newer one", load)
                });
            }
        });
        on_cleanup(move || handle.remove());
    }

    /// Puts a new design of the person's own on the bench.
    pub fn start_own(self) {
        self.leave();
        let mut design = example::to_start_from();
        design.about.name = self.free(&design.about.name);
        self.bench(design);
        self.workspace.panel.set(Panel::Numbers);
        self.workspace.question.set(Some(0));
    }

    /// A name, or one like it that no draft has.
    fn free(self, name: &str) -> String {
        let taken = (self.list).with_untracked(|list| {
            list.iter()
                .map(|entry| entry.name.clone())
                .collect::<Vec<_>>()
        });
        free_name(name, &taken)
    }

    /// Puts an example on the bench, under a name that no draft has: what is made of it is kept as one.
    pub fn show_example(self, mut design: Design) {
        self.leave();
        design.about.name = self.free(&design.about.name);
        self.bench(design);
        self.came.set_value(Some(Came::Example));
    }

    /// Copies the design on the bench into a new draft.
    pub fn duplicate(self) {
        self.leave();
        let mut design = self.workspace.design.get_untracked();
        design.about.name = self.free(&copy_name(&design.about.name));
        self.bench(Design::default());
        self.came.set_value(Some(Came::Copy));
        self.workspace.open(design);
        self.flush();
    }

    /// Opens the text of a file as a new draft; says why when it cannot.
    pub fn import(self, text: &str) {
        match file::read(text) {
            Ok(opened) => {
                self.leave();
                self.bench(Design::default());
                self.came.set_value(Some(Came::File));
                self.workspace.open(opened.design);
                self.flush();
                self.tell_notes(&opened.notes);
            }
            Err(error) => self.tell_of_file(&error.to_string()),
        }
    }
}

/// What a design is called on the screen: one whose name was taken away must still be found.
pub fn called(name: &str) -> String {
    match name.trim() {
        "" => "Without a name".to_string(),
        name => name.to_string(),
    }
}

fn copy_name(name: &str) -> String {
    let short: String = name.chars().take(50).collect();
    format!("{short} (copy)")
}

/// Puts a link into the address again that was taken out while it was opened.
fn keep_address(fragment: &str) {
    let location = window().location();
    if location.hash().is_ok_and(|hash| hash.is_empty())
        && let Ok(history) = window().history()
    {
        // Only the address bar: the design itself is on the bench already.
        let _ = history.replace_state_with_url(&back::state(), "", Some(fragment));
    }
}

/// Takes the link out of the address once the design is no longer the one it stands for.
fn clear_address() {
    let location = window().location();
    if location.hash().is_ok_and(|hash| !hash.is_empty()) {
        let path = location.pathname().unwrap_or_default();
        if let Ok(history) = window().history() {
            // Only the address bar: the design itself is kept already.
            let _ = history.replace_state_with_url(&back::state(), "", Some(&path));
        }
    }
}

/// The system of units a person used last.
pub fn system() -> System {
    match last_system().as_deref() {
        Some("inch") => System::Inch,
        _ => System::Metric,
    }
}
