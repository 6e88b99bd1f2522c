//! One component for each kind of input. Each reads its declaration and writes through the workspace.

mod choice;
mod flag;
mod number;
mod plus_minus;
mod text;

pub use number::read_again;

use super::Workspace;
use crate::app::shown::Show;
use crate::design::{Input, Kind};
use crate::review::guided::{Otherwise, There};
use leptos::prelude::*;

/// The field for the input at a path, whatever kind it is; hidden while nothing asks for it.
#[component]
pub fn Field(
    /// Path of the input.
    path: String,
    /// Its declaration.
    input: &'static Input,
    /// What may be there already, where the first questions ask for it.
    #[prop(optional_no_strip)]
    once: Option<&'static There>,
    /// What it is called where a question asks for another measure than the form.
    #[prop(optional_no_strip)]
    otherwise: Option<&'static Otherwise>,
) -> impl IntoView {
    let workspace = Workspace::get();
    let place = path.clone();
    let is_asked = Memo::new(move |_| {
        (workspace.design).with(|design| match once {
            Some(once) => once.asks(design, &place),
            None => design.is_asked(&place),
        })
    });
    view! {
        <Show when=move || is_asked.get()>
            {
                let path = path.clone();
                match input.kind {
                    Kind::Number { quantity, allowed, usual, .. } => {
                        view! { <number::NumberField path input quantity allowed usual otherwise /> }
                            .into_any()
                    }
                    Kind::Choice { options, .. } => {
                        view! { <choice::ChoiceField path input options /> }.into_any()
                    }
                    Kind::Text { longest, .. } => {
                        view! { <text::TextField path input longest /> }.into_any()
                    }
                    Kind::Flag { .. } => view! { <flag::FlagField path input /> }.into_any(),
                }
            }
        </Show>
    }
}

/// Said beside a figure of what is there already that nobody has typed: of an engine its plate tells it.
pub fn not_filled_in(path: &str) -> &'static str {
    if path.starts_with("engine.") {
        "Not filled in yet: type what the plate tells."
    } else {
        "Not filled in yet: type what you measured."
    }
}

/// The id of the element that edits the input at this path.
pub fn element_id(path: &str) -> String {
    format!("in-{}", path.replace('.', "-"))
}
