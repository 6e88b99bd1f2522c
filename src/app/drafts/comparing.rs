//! Drafts and links beside each other: pinning one, opening an answer, following the pinned one.

use super::notices::{FROM_LINK, FROM_LINK_BESIDE, Notice};
use super::storage::{self, Entry, StorageError};
use super::{Drafts, clear_address, keep_address};
use crate::app::compare::{Origin, Pinned};
use crate::app::panel::Panel;
use crate::design::Design;
use crate::design::link::{self, Answer, Linked};
use leptos::prelude::*;
use std::sync::Arc;

impl Drafts {
    /// Pins a draft beside the design on the bench; the one on the bench is pinned as it is now.
    pub fn pin(self, entry: &Entry) {
        self.flush();
        if self.open.get_untracked().as_ref() == Some(&entry.id) {
            let now = self.workspace.design.get_untracked();
            self.comparison.pin(now, Origin::Earlier(entry.id.clone()));
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
                let mut notice = Notice::of(text).at_the_beginning().with_note(&question);
                if let Some(mine) = mine {
                    notice = notice.with(
                        "Compare with mine",
                        Arc::new(move || {
                            self.compare_with(&mine, theirs.clone(), Origin::Link);
                        }),
                    );
                }
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
    fn compare_with(self, mine: &str, theirs: Design, origin: Origin) {
        self.leave();
        if self.open_draft(mine) {
            clear_address();
            self.comparison.pin(theirs, origin);
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
        let origin = Origin::Answer(answer.note);
        if !opened {
            let name = answer.base.about.name.clone();
            self.bench(answer.base);
            if let Some(changed) = list.into_iter().find(|entry| entry.name == name) {
                let (theirs, with_note) = (answer.design.clone(), origin.clone());
                let compare =
                    move || self.compare_with(&changed.id, theirs.clone(), with_note.clone());
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
        self.comparison.pin(answer.design, origin);
    }

    /// What came by link is beside the design that was made from it, and goes when another takes its place.
    pub(super) fn follow_base(self) {
        let base = self.base.get();
        let is_of_base = (self.comparison.pinned).with_untracked(|pinned| match pinned {
            Some(Pinned {
                design,
                origin: Origin::AsItCame,
            }) => (base.and_then(|base| link::read(&base).ok()))
                .is_some_and(|opened| opened.design == *design),
            _ => true,
        });
        if !is_of_base {
            self.comparison.pinned.set(None);
            if self.workspace.panel.get_untracked() == Panel::Compare {
                self.workspace.panel.set(Panel::Verdicts);
            }
        }
    }

    /// What is beside the bench follows its draft: changed in another tab, while it was open itself, or while the page was
    /// not there; deleted, and there again. What the design on the bench was waits while another is there. A copy that is kept
    /// nowhere stays as it is.
    pub(super) fn follow_pinned(self) {
        let pinned = self.comparison.pinned;
        let Some(before) = pinned.get_untracked() else {
            return;
        };
        if let Origin::Earlier(id) | Origin::Waiting(id) = &before.origin {
            let is_there = self.open.with_untracked(|open| open.as_ref() == Some(id));
            let origin = match is_there {
                true => Origin::Earlier(id.clone()),
                false => Origin::Waiting(id.clone()),
            };
            if origin != before.origin {
                pinned.set(Some(Pinned { origin, ..before }));
            }
            return;
        }
        let (Origin::Draft(id, revision)
        | Origin::Open(id, revision)
        | Origin::Deleted(id, revision)) = before.origin.clone()
        else {
            return;
        };
        let now = if self.open.with_untracked(|open| open.as_ref() == Some(&id)) {
            Pinned {
                origin: Origin::Open(id, revision),
                ..before.clone()
            }
        } else {
            match storage::open(&id) {
                Ok(there) => Pinned {
                    design: there.design,
                    origin: Origin::Draft(id, there.revision),
                },
                Err(StorageError::Gone) => Pinned {
                    origin: Origin::Deleted(id, revision),
                    ..before.clone()
                },
                Err(_) => return,
            }
        };
        if now != before {
            pinned.set(Some(now));
        }
    }
}
