//! Putting something of one's own into the design beside it, and taking that back from there, whatever is beside by then.

use super::notices::Notice;
use super::storage::{self, Came, StorageError};
use super::{Drafts, called, copy_name};
use crate::app::compare::{Origin, Pinned};
use crate::design::Design;
use leptos::prelude::*;
use std::sync::Arc;

/// What was put into another design.
pub(super) struct Sent {
    before: Pinned,
    after: Pinned,
    /// How many times in a row, with this.
    steps: usize,
}

impl Drafts {
    /// Changes the pinned design, with a way back. What cannot be kept is not changed.
    pub fn change_pinned(self, edit: impl FnOnce(&mut Design)) {
        let Some(mut before) = self.comparison.pinned.get_untracked() else {
            return;
        };
        let mut changed = before.design.clone();
        edit(&mut changed);
        if changed == before.design {
            return;
        }
        let came_by_link = before.origin == Origin::Link;
        if came_by_link {
            // As a design that came by link does when it is changed on the bench, it joins one's own.
            changed.about.name = self.free(&changed.about.name);
            before.design.about.name = changed.about.name.clone();
        }
        match self.keep_pinned(&before.origin, changed) {
            Ok(after) => {
                self.comparison.pinned.set(Some(after.clone()));
                self.tell_sent(before, after, came_by_link);
            }
            Err(error) => self.tell(error.to_string()),
        }
    }

    /// Tells that the pinned design was changed. What was told of the change before comes again when this one is taken
    /// back, so that they are taken back one by one.
    fn tell_sent(self, before: Pinned, after: Pinned, came_by_link: bool) {
        let mut earlier = None;
        self.notices.update(|notices| {
            let goes_on = |notice: &Notice| {
                (notice.sent.as_ref()).is_some_and(|sent| sent.after.is_the_same(&before))
            };
            let place = notices.iter().position(goes_on);
            earlier = place.map(|place| notices.remove(place));
        });
        let sent_earlier = earlier.as_ref().and_then(|earlier| earlier.sent.as_ref());
        let steps = 1 + sent_earlier.map_or(0, |sent| sent.steps);
        let name = called(&after.design.about.name);
        let told = if came_by_link {
            format!("Changed “{name}”, the other design: it is among your designs now.")
        } else if steps > 1 {
            format!("Changed “{name}”, the other design, in {steps} steps.")
        } else {
            format!("Changed “{name}”, the other design.")
        };
        let sent = Arc::new(Sent {
            before,
            after,
            steps,
        });
        let taken_back = sent.clone();
        let back = Arc::new(move || {
            let is_back = self.take_back_sent(&taken_back);
            if let Some(earlier) = earlier.clone().filter(|_| is_back) {
                self.notify(earlier);
            }
            is_back
        });
        let mut notice = Notice::of(told).with_way_back("Undo", back);
        notice.sent = Some(sent);
        self.notify(notice);
    }

    /// Puts a design back as it was before something was put into it; whether that went well.
    fn take_back_sent(self, Sent { before, after, .. }: &Sent) -> bool {
        let Origin::Draft(id, _) = &after.origin else {
            return self.take_back_from_copy(before, after);
        };
        self.flush();
        let name = called(&after.design.about.name);
        let there = match storage::open(id) {
            Ok(there) => there,
            Err(error) => {
                self.tell(format!("“{name}” is not put back. {error}"));
                return false;
            }
        };
        let (mut wanted, mut known) = (before.design.clone(), after.design.clone());
        if there.design.about.name != known.about.name {
            // Another name since then stays.
            for design in [&mut wanted, &mut known] {
                design.about.name = there.design.about.name.clone();
            }
        }
        let done = if there.design != known {
            self.keep_copy(wanted).map(|copy| {
                let copy = called(&copy.design.about.name);
                self.tell(format!("“{name}” was changed since, which stays. As it was before is kept beside it, as “{copy}”."));
            })
        } else if self.open.with_untracked(|open| open.as_ref() == Some(id)) {
            self.workspace.change(|design| *design = wanted);
            self.flush();
            Ok(())
        } else {
            let known = Some(there.revision);
            storage::save(id, &wanted, known, None, (None, None), self.newest()).map(|_| ())
        };
        self.list.set(storage::list());
        self.follow_pinned();
        done.inspect_err(|error| self.tell(error.to_string()))
            .is_ok()
    }

    /// The same where the pinned design is a copy that is kept nowhere; once another is beside the bench, it is gone.
    fn take_back_from_copy(self, before: &Pinned, after: &Pinned) -> bool {
        let pinned = self.comparison.pinned;
        if pinned.with_untracked(|pinned| pinned.as_ref() == Some(after)) {
            pinned.set(Some(before.clone()));
        } else {
            let name = called(&after.design.about.name);
            self.tell(format!(
                "“{name}” is no longer compared with, and was kept nowhere: there is nothing to take back."
            ));
        }
        true
    }

    /// Keeps a changed design that is pinned, if it is a draft or came by link; as a copy where the draft was changed
    /// meanwhile, so that nothing is lost.
    fn keep_pinned(self, origin: &Origin, design: Design) -> Result<Pinned, StorageError> {
        let (id, known) = match origin {
            Origin::Draft(id, revision) => (id.clone(), Some(*revision)),
            Origin::Link => (storage::new_id(), None),
            Origin::Open(..)
            | Origin::Earlier(_)
            | Origin::Waiting(_)
            | Origin::AsItCame
            | Origin::Answer(_)
            | Origin::Deleted(..) => {
                let origin = origin.clone();
                return Ok(Pinned { design, origin });
            }
        };
        let came = (*origin == Origin::Link).then_some(Came::Link);
        let kept = match storage::save(&id, &design, known, None, (None, came), self.newest()) {
            Err(StorageError::ChangedElsewhere | StorageError::Damaged(_)) => {
                self.tell(
                    "The pinned design was changed meanwhile: this is kept as a copy.".into(),
                );
                self.keep_copy(design)
            }
            other => other.map(|saved| Pinned {
                design,
                origin: Origin::Draft(id, saved.revision),
            }),
        };
        self.list.set(storage::list());
        kept
    }

    /// Keeps a design as a copy, under a name that no draft has.
    fn keep_copy(self, mut design: Design) -> Result<Pinned, StorageError> {
        design.about.name = self.free(&copy_name(&design.about.name));
        let id = storage::new_id();
        let saved = storage::save(
            &id,
            &design,
            None,
            None,
            (None, Some(Came::Copy)),
            self.newest(),
        )?;
        Ok(Pinned {
            design,
            origin: Origin::Draft(id, saved.revision),
        })
    }
}
