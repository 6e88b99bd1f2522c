//! What is begun on the bench and not finished: texts that cannot be used yet, the first questions, and the words that are to
//! go with an answer. It is kept with the
//! draft, so that a page that is loaded again, as a phone does by itself, goes on where it was.

use super::notices::Notice;
use super::storage::StorageError;
use super::{Drafts, called};
use crate::app::panel::Panel;
use crate::app::workspace::Rejected;
use crate::review::guided::{Part, QUESTIONS};
use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// What is begun and not finished.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Unfinished {
    /// Fields whose text cannot be used, by path.
    rejected: BTreeMap<String, Rejected>,
    /// The first questions, while they are asked.
    questions: Option<Questions>,
    /// The words that are to go with the answer to the link it was made from.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    words: String,
}

/// The first questions as they stand.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
struct Questions {
    asked: usize,
    there: Vec<Part>,
    emptied: BTreeSet<String>,
}

impl Unfinished {
    /// Whether there is nothing to finish.
    pub fn is_empty(&self) -> bool {
        self.rejected.is_empty() && self.questions.is_none() && self.words.is_empty()
    }

    /// Whether a person has done something that the design does not tell.
    fn is_begun(&self) -> bool {
        let goes_on = (self.questions.as_ref()).is_some_and(|questions| questions.asked > 0);
        goes_on || !self.rejected.is_empty() || !self.words.is_empty()
    }
}

impl Drafts {
    /// What is begun on the bench.
    pub(super) fn unfinished(self) -> Unfinished {
        let workspace = self.workspace;
        let asked = workspace.question.get_untracked();
        Unfinished {
            rejected: workspace.rejected.get_untracked(),
            questions: asked.map(|asked| Questions {
                asked,
                there: workspace.there.get_untracked(),
                emptied: workspace.emptied.get_untracked(),
            }),
            words: self.words.get_untracked(),
        }
    }

    /// Follows what is begun.
    pub(super) fn track_unfinished(self) {
        let workspace = self.workspace;
        workspace.rejected.track();
        workspace.question.track();
        workspace.there.track();
        workspace.emptied.track();
        self.words.track();
    }

    /// Whether something on the bench is not kept yet.
    pub(super) fn is_to_be_kept(self) -> bool {
        let is_changed = (self.workspace.design)
            .with_untracked(|design| self.kept.with_value(|(kept, _)| kept != design));
        let unfinished = self.unfinished();
        is_changed
            || self.kept.with_value(|(_, kept)| *kept != unfinished)
                && (unfinished.is_begun() || self.open.with_untracked(Option::is_some))
    }

    /// Goes on with what was begun in the design on the bench.
    pub(super) fn take_up(self, unfinished: Unfinished) {
        let workspace = self.workspace;
        self.words.set(unfinished.words);
        let mut rejected = unfinished.rejected;
        workspace
            .design
            .with_untracked(|design| rejected.retain(|path, _| design.input(path).is_some()));
        if !rejected.is_empty() {
            workspace.rejected.set(rejected);
        }
        let questions = unfinished.questions;
        if let Some(questions) = questions.filter(|questions| questions.asked < QUESTIONS.len()) {
            workspace.there.set(questions.there);
            workspace.emptied.set(questions.emptied);
            workspace.question.set(Some(questions.asked));
            workspace.panel.set(Panel::Numbers);
            self.take_back(&self.questions_left());
        }
    }

    /// Told of a design that is left while the first questions are asked.
    fn questions_left(self) -> String {
        let name = (self.workspace.design).with_untracked(|design| called(&design.about.name));
        format!("The first questions of “{name}” are not finished: nothing is sized yet.")
    }

    /// Tells that the design on the bench is left before its first questions are finished, with the way back to them.
    pub(super) fn tell_questions_left(self) {
        let is_asked = (self.workspace.question).with_untracked(Option::is_some);
        let Some(id) = self.open.get_untracked().filter(|_| is_asked) else {
            return;
        };
        let go_on = Arc::new(move || {
            self.leave();
            if !self.open_draft(&id) {
                self.tell(StorageError::Gone.to_string());
            }
        });
        self.notify(Notice::of(self.questions_left()).with("Go on", go_on));
    }
}
