//! Drafts and links beside each other: pinning one, opening an answer, keeping what is put into the
//! pinned one.

use super::notices::{Act, FROM_LINK, FROM_LINK_BESIDE, Notice};
use super::storage::{self, Entry, StorageError};
use super::{Drafts, clear_address, copy_name, keep_address};
use crate::app::compare::{Origin, Pinned};
use crate::design::Design;
use crate::design::link::{Answer, Linked};
use leptos::prelude::*;
use std::sync::Arc;

impl Drafts {
    /// Pins a draft beside the design on the bench; the one on the bench is pinned as it is now.
    pub fn pin(self, entry: &Entry) {
        self.flush();
        if self.open.get_untracked().as_ref() == Some(&entry.id) {
            let now = self.workspace.design.get_untracked();
            self.comparison.pin(now, Origin::Earlier);
            return;
        }
        match storage::open(&entry.id) {
            Ok(opened) => self.comparison.pin(
                opened.design,
                Origin::Draft(entry.id.clone(), opened.revision),
            ),
            Err(error) => self.tell(error.to_string()),
        }
    }

    /// Opens what a link holds. No draft is written over.
    pub fn open_linked(self, linked: Linked, fragment: &str) {
        self.leave();
        // What was just typed is kept now, which takes the address for that of the earlier design.
        keep_address(fragment);
        // What the page says of the link stands above everything else.
        window().scroll_to_with_x_and_y(0.0, 0.0);
        match linked {
            Linked::Design(opened) => {
                let mine = storage::last_open().or_else(|| {
                    self.list
                        .with_untracked(|list| Some(list.first()?.id.clone()))
                });
                let theirs = opened.design.clone();
                let question = theirs.about.note.clone();
                self.bench(opened.design);
                self.base
                    .set(Some(fragment.trim_start_matches('#').to_string()));
                let text = if mine.is_some() {
                    FROM_LINK_BESIDE
                } else {
                    FROM_LINK
                };
                let compare = mine.map(|mine| -> (&'static str, Act) {
                    (
                        "Compare with mine",
                        Arc::new(move || self.compare_with(&mine, theirs.clone())),
                    )
                });
                let mut notice = Notice::of(text).at_the_beginning().with_note(&question);
                notice.action = compare;
                notice.is_of_design = true;
                self.notify(notice);
                self.tell_notes(&opened.notes);
            }
            Linked::Answer(answer, notes) => {
                self.open_answer(*answer);
                self.tell_notes(&notes);
            }
        }
    }

    /// Puts a draft on the bench and someone's design beside it.
    fn compare_with(self, mine: &str, theirs: Design) {
        self.leave();
        if self.open_draft(mine) {
            clear_address();
            self.comparison.pin(theirs, Origin::Link);
        } else {
            self.tell("Your own design is no longer there.".into());
        }
    }

    /// Puts the design that was answered on the bench, the person's own draft of it where there is
    /// one, and the answer beside it. A draft of that name that was changed since is offered.
    fn open_answer(self, answer: Answer) {
        let list = self.list.get_untracked();
        let own = list.iter().find(|entry| {
            storage::open(&entry.id).is_ok_and(|opened| opened.design == answer.base)
        });
        let opened = own.is_some_and(|entry| self.open_draft(&entry.id));
        if !opened {
            let name = answer.base.about.name.clone();
            self.bench(answer.base);
            if let Some(changed) = list.into_iter().find(|entry| entry.name == name) {
                let theirs = answer.design.clone();
                let compare = move || self.compare_with(&changed.id, theirs.clone());
                let told = format!(
                    "This is “{name}” as it was sent. Yours is another by now, and is kept."
                );
                self.notify(
                    Notice::of(told)
                        .at_the_beginning()
                        .with("Compare with mine", Arc::new(compare)),
                );
            }
        }
        self.comparison
            .pin(answer.design, Origin::Answer(answer.note));
    }

    /// Changes the pinned design, with a way back.
    pub fn change_pinned(self, edit: impl FnOnce(&mut Design)) {
        let Some(before) = self.comparison.pinned.get_untracked() else {
            return;
        };
        let mut changed = before.design.clone();
        edit(&mut changed);
        let came_by_link = before.origin == Origin::Link;
        if came_by_link {
            // As a design that came by link does when it is changed on the bench, it joins one's own.
            changed.about.name = self.free(&changed.about.name);
        }
        let name = changed.about.name.clone();
        self.put_pinned(changed);
        let back = Arc::new(move || self.put_pinned(before.design.clone()));
        let told = if came_by_link {
            format!("Changed “{name}”, the other design: it is among your designs now.")
        } else {
            format!("Changed “{name}”, the other design.")
        };
        self.notify(Notice::of(told).with("Undo", back));
    }

    /// Sets the pinned design; keeps it if it is a draft, or came by link.
    fn put_pinned(self, design: Design) {
        let Some(mut pinned) = self.comparison.pinned.get_untracked() else {
            return;
        };
        pinned.design = design;
        match &pinned.origin {
            Origin::Draft(id, revision) => {
                pinned.origin = self.keep_pinned(id.clone(), Some(*revision), &pinned);
            }
            Origin::Link => pinned.origin = self.keep_pinned(storage::new_id(), None, &pinned),
            Origin::Earlier | Origin::Answer(_) | Origin::Deleted(..) => {}
        }
        self.comparison.pinned.set(Some(pinned));
    }

    /// The draft is deleted: where it is pinned, it stays there as a copy that nothing is put into, since that would bring
    /// it back.
    pub(super) fn let_go_of_pinned(self, deleted: &str) {
        self.set_origin(|origin| match origin {
            Origin::Draft(id, revision) if id == deleted => {
                Some(Origin::Deleted(id.clone(), *revision))
            }
            _ => None,
        });
    }

    /// The deleted draft is there again as it was.
    pub(super) fn take_pinned_again(self, restored: &str) {
        self.set_origin(|origin| match origin {
            Origin::Deleted(id, revision) if id == restored => {
                Some(Origin::Draft(id.clone(), *revision))
            }
            _ => None,
        });
    }

    fn set_origin(self, origin: impl FnOnce(&Origin) -> Option<Origin>) {
        let pinned = self.comparison.pinned;
        let wanted = pinned.with_untracked(|pinned| origin(&pinned.as_ref()?.origin));
        if let Some(wanted) = wanted {
            pinned.update(|pinned| {
                if let Some(pinned) = pinned {
                    pinned.origin = wanted;
                }
            });
        }
    }

    /// Lets go of a pinned draft that was deleted while the page was not there.
    pub(super) fn check_pinned(self) {
        let id = (self.comparison.pinned).with_untracked(|pinned| match &pinned.as_ref()?.origin {
            Origin::Draft(id, _) => Some(id.clone()),
            _ => None,
        });
        if let Some(id) = id.filter(|id| storage::raw(id).is_none()) {
            self.let_go_of_pinned(&id);
        }
    }

    /// Keeps the pinned draft; as a copy where it was changed meanwhile, so that nothing is lost.
    fn keep_pinned(self, id: String, revision: Option<u64>, pinned: &Pinned) -> Origin {
        let saved = match storage::save(&id, &pinned.design, revision, None, None, self.newest()) {
            Err(StorageError::ChangedElsewhere | StorageError::Damaged(_)) => {
                let mut copy = pinned.design.clone();
                copy.about.name = copy_name(&copy.about.name);
                let id = storage::new_id();
                self.tell(
                    "The pinned design was changed meanwhile: this is kept as a copy.".into(),
                );
                storage::save(&id, &copy, None, None, None, self.newest()).map(|saved| (id, saved))
            }
            other => other.map(|saved| (id, saved)),
        };
        match saved {
            Ok((id, saved)) => {
                self.list.set(storage::list());
                Origin::Draft(id, saved.revision)
            }
            Err(error) => {
                self.tell(error.to_string());
                pinned.origin.clone()
            }
        }
    }
}
