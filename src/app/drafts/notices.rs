//! What the person should know, above everything else.

use super::Drafts;
use crate::design::Note;
use crate::review::Verdict;
use leptos::prelude::*;
use std::sync::Arc;

/// What a notice's button does. Counted, not owned by the component that told it, since a notice
/// outlives what it is about.
pub(super) type Act = Arc<dyn Fn() + Send + Sync>;

/// Told of a design out of the first questions that has Stops.
const NOT_ALL: &str = "Complete, but with these answers not all could be made to pass:";

/// Told of a design that came by link, until it is kept.
pub(super) const FROM_LINK: &str = "Opened from a link. It joins your designs when you change it.";

/// The same where a person has designs: with nothing to undo they must not seem to be lost.
pub(super) const FROM_LINK_BESIDE: &str =
    "Opened from a link. It joins your designs when you change it. Your own are under Designs.";

/// Something the person should know, with at most one thing to do about it.
#[derive(Clone)]
pub struct Notice {
    /// What happened.
    pub text: String,
    /// What the person who made the design has to say; empty if nothing.
    pub note: String,
    /// Label of the button and what it does.
    pub action: Option<(&'static str, Act)>,
    /// Whether it speaks of what stands in the design that is open, and goes when another takes its place.
    pub is_of_design: bool,
}

impl Notice {
    /// A notice with nothing to do about it.
    pub fn of(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            note: String::new(),
            action: None,
            is_of_design: false,
        }
    }

    /// The same with a button.
    pub fn with(mut self, label: &'static str, act: Act) -> Self {
        self.action = Some((label, act));
        self
    }

    /// The same with words of the person who made the design.
    pub fn with_note(mut self, note: &str) -> Self {
        self.note = note.trim().to_string();
        self
    }
}

impl Drafts {
    pub(super) fn tell(self, text: String) {
        self.notify(Notice::of(text));
    }

    /// Tells the person something, once.
    pub fn notify(self, notice: Notice) {
        self.notices.update(|notices| {
            notices.retain(|known| known.text != notice.text);
            notices.push(notice);
        });
    }

    /// Tells what a design out of the first questions could not be sized for, in the words of its note.
    pub fn tell_of_stops(self) {
        let assessment = self.workspace.assessment.get_untracked();
        if assessment.count(Verdict::Stop) > 0 {
            let notice = (self.workspace.design)
                .with_untracked(|design| Notice::of(NOT_ALL).with_note(&design.about.note));
            self.notify(notice);
        }
    }

    /// Takes a notice back that no longer holds.
    pub(super) fn take_back(self, text: &str) {
        let told = |notice: &Notice| notice.text == text;
        if self
            .notices
            .with_untracked(|notices| notices.iter().any(told))
        {
            self.notices
                .update(|notices| notices.retain(|notice| !told(notice)));
        }
    }

    /// Takes back what only holds for the design that was open before.
    pub(super) fn take_back_of_before(self) {
        self.take_back(NOT_ALL);
        self.take_back_from_link();
        self.notices
            .update(|notices| notices.retain(|notice| !notice.is_of_design));
    }

    pub(super) fn take_back_from_link(self) {
        self.take_back(FROM_LINK);
        self.take_back(FROM_LINK_BESIDE);
    }

    pub(super) fn tell_notes(self, notes: &[Note]) {
        let system = self.workspace.system.get_untracked();
        let more = notes.len().saturating_sub(5);
        let told = (notes.iter().take(5).map(|note| note.sentence(system))).chain(
            (more > 0).then(|| format!("And {more} more things were not taken as they stand.")),
        );
        for text in told {
            self.notify(Notice {
                is_of_design: true,
                ..Notice::of(text)
            });
        }
    }
}

/// What the person should know, above everything else.
#[component]
pub fn Notices() -> impl IntoView {
    let drafts = Drafts::get();
    let dismiss = move |text: String| {
        drafts
            .notices
            .update(|notices| notices.retain(|notice| notice.text != text));
    };
    view! {
        <div class="notices" role="status">
            {move || {
                drafts
                    .notices
                    .get()
                    .into_iter()
                    .map(|notice| {
                        let text = notice.text.clone();
                        let acted = text.clone();
                        view! {
                            <p class="notice">
                                <span>{notice.text}</span>
                                {(!notice.note.is_empty())
                                    .then(|| view! { <q class="notice-note">{notice.note}</q> })}
                                {notice
                                    .action
                                    .map(|(label, act)| {
                                        view! {
                                            <button
                                                type="button"
                                                on:click=move |_| {
                                                    dismiss(acted.clone());
                                                    act();
                                                }
                                            >
                                                {label}
                                            </button>
                                        }
                                    })}
                                <button
                                    type="button"
                                    aria-label="Dismiss"
                                    on:click=move |_| dismiss(text.clone())
                                >
                                    "×"
                                </button>
                            </p>
                        }
                    })
                    .collect_view()
            }}
        </div>
    }
}
