//! What was done last among the steps, told in sight with the way back beside it: the next step does not come up under the
//! thumb that took this one.

use crate::app::Workspace;
use crate::app::focus;
use crate::app::shown::Show;
use crate::design::Design;
use crate::review::Assessment;
use leptos::ev::MouseEvent;
use leptos::prelude::*;
use std::sync::Arc;

/// What was done, and the assessment that came of it; told until the next change.
#[derive(Clone)]
struct Done {
    words: String,
    after: Arc<Assessment>,
}

/// Handle to what was done; cheap to copy, found in context.
#[derive(Clone, Copy)]
pub struct LastStep {
    done: RwSignal<Option<Done>>,
    /// What is told; empty once something else was changed.
    words: Memo<String>,
}

impl LastStep {
    /// Nothing is done yet.
    pub fn start(workspace: Workspace) -> Self {
        let done = RwSignal::new(None::<Done>);
        let words = Memo::new(move |_| {
            done.with(|done| match done {
                Some(done)
                    if workspace
                        .assessment
                        .with(|now| Arc::ptr_eq(now, &done.after)) =>
                {
                    done.words.clone()
                }
                _ => String::new(),
            })
        });
        Self { done, words }
    }

    /// The last step of the app.
    pub fn get() -> Self {
        expect_context::<Self>()
    }

    /// Whether there is something to tell.
    pub fn is_told(self) -> bool {
        self.words.with(|words| !words.is_empty())
    }

    /// Puts the design with a step on the bench, and says so.
    pub fn take(self, workspace: Workspace, changed: Design, words: String) {
        workspace.change(|design| *design = changed);
        workspace.said.set(words.clone());
        let after = workspace.assessment.get_untracked();
        self.done.set(Some(Done { words, after }));
    }
}

/// The line that tells it. Who does not see it has heard it already: it is no live region.
#[component]
pub fn DoneLine() -> impl IntoView {
    let workspace = Workspace::get();
    let last = LastStep::get();
    let undo = move |event: MouseEvent| {
        workspace.undo();
        // The button goes with its line.
        focus::after_press(&event, vec![".whole-way .ask".to_string()]);
    };
    view! {
        <Show when=move || last.is_told()>
            <p class="done">
                <span>{move || last.words.get()}</span>
                <button type="button" aria-label="Undo this step" on:click=undo>
                    "Undo"
                </button>
            </p>
        </Show>
    }
    .into_any()
}
