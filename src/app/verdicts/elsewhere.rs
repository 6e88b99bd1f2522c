//! What is told at a question that a change mends which stands elsewhere: where, and the way there.

use super::remedy::Proposal;
use super::search::Search;
use super::summary::show;
use super::trial::Outcome;
use super::way::Walk;
use crate::app::Workspace;
use crate::app::focus;
use crate::app::naming::lower_first;
use crate::app::shown::live;
use crate::design::Design;
use crate::design::quantity::System;
use crate::review::{Elsewhere, Place, Verdict};
use leptos::prelude::*;

/// What stands on the button that leads there.
pub const SHOW_IT: &str = "Show it";

/// The heading above the best steps, or above all steps.
const STEPS: &str = ".best-step h2";

/// Points to where a question is mended.
#[derive(Debug, Clone, PartialEq)]
pub struct Pointer {
    words: String,
    place: Place,
    /// Whether what is offered at the question does no more than a change that stands elsewhere.
    pub is_shared: bool,
}

/// What is said of a change that stands elsewhere.
pub fn words_for(
    elsewhere: &Elsewhere,
    outcome: &Outcome,
    design: &Design,
    system: System,
) -> String {
    let change = Proposal::One(elsewhere.remedy.clone()).words(design, system);
    let change = lower_first(&change);
    match elsewhere.place {
        Place::BestSteps if outcome.best.steps.len() > 1 => {
            format!("One of the best steps above mends this too: {change}")
        }
        Place::BestSteps => format!("The best step above mends this too: {change}"),
        Place::Question(id) => {
            let before = outcome.found_for.as_ref();
            let title = before.and_then(|before| Some(before.finding(id)?.title));
            let title = title.unwrap_or_default();
            format!("What is offered at “{title}” mends this too: {change}")
        }
    }
}

/// What points elsewhere from the question with this id.
pub fn pointer(walk: Walk, id: &'static str) -> Memo<Option<Pointer>> {
    let workspace = Workspace::get();
    let outcome = Search::get().outcome;
    Memo::new(move |_| {
        outcome.with(|outcome| {
            let elsewhere = outcome.elsewhere.get(id);
            if walk.can_be_taken() {
                let words = match walk.betters(id)? {
                    Verdict::Good => "All steps above together mend this.".to_string(),
                    then => format!("All steps above together leave a {} here.", then.word()),
                };
                return Some(Pointer {
                    words,
                    place: Place::BestSteps,
                    is_shared: elsewhere.is_some(),
                });
            }
            let elsewhere = elsewhere?;
            let system = workspace.system.get();
            let words = (workspace.design)
                .with_untracked(|design| words_for(elsewhere, outcome, design, system));
            Some(Pointer {
                words,
                place: elsewhere.place,
                is_shared: true,
            })
        })
    })
}

/// Brings the heading of the steps into view and gives it the focus.
fn show_steps() {
    focus::soon(vec![STEPS.to_string()]);
    request_animation_frame(|| {
        if let Ok(Some(heading)) = document().query_selector(STEPS) {
            heading.scroll_into_view();
        }
    });
}

/// The line that points elsewhere, with the way there.
pub fn shown(pointer: Memo<Option<Pointer>>) -> AnyView {
    let workspace = Workspace::get();
    live(move || {
        let Some(Pointer { words, place, .. }) = pointer.get() else {
            return ().into_any();
        };
        let go = move |_| match place {
            Place::BestSteps => show_steps(),
            Place::Question(id) => show(workspace, &format!("article[data-finding=\"{id}\"]")),
        };
        let label = format!("{SHOW_IT}: {words}");
        view! {
            <p class="elsewhere">
                <span>{words}</span>
                <button type="button" aria-label=label on:click=go>
                    {SHOW_IT}
                </button>
            </p>
        }
        .into_any()
    })
}
