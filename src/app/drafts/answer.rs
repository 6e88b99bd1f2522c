//! A link that answers a link: what was changed, and a few words.

use super::{Drafts, sharing};
use crate::app::Workspace;
use crate::app::compare::Origin;
use crate::app::panel::Panel;
use crate::app::shown::Show;
use crate::design::difference::{differences, how_much};
use crate::design::link::{self, LONGEST_NOTE, LONGEST_SAFE};
use leptos::prelude::*;

/// Shown while the design on the bench was made from someone's link.
#[component]
pub fn AnswerLink() -> impl IntoView {
    let workspace = Workspace::get();
    let drafts = Drafts::get();
    let note = drafts.words;
    let copied = RwSignal::new(None::<&'static str>);
    let looked_at = move || workspace.panel.get() == Panel::Designs;
    let base = Memo::new(move |_| {
        let fragment = drafts.base.get().filter(|_| looked_at())?;
        Some(link::read(&fragment).ok()?.design)
    });
    // Nothing at all where there is no link to answer, empty where nothing differs.
    let changes = Memo::new(move |_| {
        base.with(|base| {
            let base = base.as_ref()?;
            let found = workspace.design.with(|design| differences(base, design));
            Some(if found.is_empty() {
                String::new()
            } else {
                how_much(&found)
            })
        })
    });
    let address = Memo::new(move |_| {
        copied.set(None);
        base.get().map_or_else(String::new, |base| {
            let design = workspace.design.get();
            sharing::answer_address(base, design, note.get())
        })
    });
    let told = move || {
        let changes = changes.get().unwrap_or_default();
        if !changes.is_empty() {
            format!("Against the link you opened: {changes}.")
        } else if note.with(|note| note.trim().is_empty()) {
            "Change what you would do otherwise; then send your answer from here.".to_string()
        } else {
            "Your words alone go with it; nothing is changed.".to_string()
        }
    };
    let any = move || changes.with(|changes| changes.as_ref().is_some_and(|it| !it.is_empty()));
    let show = move |_| {
        if let Some(base) = base.get_untracked() {
            drafts.comparison.pin(base, Origin::AsItCame);
        }
    };
    view! {
        <Show when=move || changes.with(Option::is_some)>
            <div class="share answer">
                <h2>"Answer"</h2>
                <p role="status">{told}</p>
                <Show when=any>
                    <button type="button" on:click=show>"Show the changes"</button>
                </Show>
                <label for="answer-note">"A few words with it"</label>
                <textarea
                    id="answer-note"
                    rows="3"
                    maxlength=LONGEST_NOTE
                    prop:value=move || note.get()
                    on:input=move |event| note.set(event_target_value(&event))
                ></textarea>
                <label for="answer-link">"Link that shows what you changed"</label>
                <input id="answer-link" type="text" readonly prop:value=move || address.get() />
                <button
                    type="button"
                    on:click=move |_| sharing::copy(address.get_untracked(), copied)
                >
                    "Copy the answer"
                </button>
                <p role="status">{move || copied.get()}</p>
                <LinkLength address />
            </div>
        </Show>
    }
}

/// Says when a link is longer than messengers like.
#[component]
pub fn LinkLength(address: Memo<String>) -> impl IntoView {
    let length = Memo::new(move |_| address.with(|address| address.chars().count()));
    view! {
        <Show when=move || { length.get() > LONGEST_SAFE }>
            <p class="caution">
                {move || {
                    format!(
                        "This link has {} characters. Some messengers cut links longer than {LONGEST_SAFE}: send it by mail, or export the design as a file.",
                        length.get(),
                    )
                }}
            </p>
        </Show>
    }
}
