//! Finding a number by words: what it is called, what it means, what stands in it.

use super::{group_of, show_field};
use crate::app::Workspace;
use crate::app::focus;
use crate::app::naming;
use crate::app::shown::{Rows, Show};
use crate::design::find::{Found, find};
use leptos::ev::{KeyboardEvent, MouseEvent};
use leptos::prelude::*;

/// The field that words are typed into.
const FIELD: &str = "find-number";

/// Most that are listed: who finds more types another word sooner than to read them.
const MOST: usize = 20;

/// A single letter is in everything.
const FEWEST_LETTERS: usize = 2;

/// An input that was found, as a person reads it.
#[derive(Clone, PartialEq)]
struct Line {
    path: String,
    name: String,
    value: String,
    meaning: &'static str,
}

impl Line {
    fn key(&self) -> String {
        format!("{} {} {}", self.path, self.name, self.value)
    }
}

/// The field above the groups of the form, and below it what was found, which leads to its place in the form.
#[component]
pub fn FindNumber() -> impl IntoView {
    let workspace = Workspace::get();
    let typed = RwSignal::new(String::new());
    let is_enough = move || typed.with(|typed| typed.trim().chars().count() >= FEWEST_LETTERS);
    let found: Memo<Vec<Line>> = Memo::new(move |_| {
        if !is_enough() {
            return Vec::new();
        }
        let system = workspace.system.get();
        workspace.design.with(|design| {
            let all = typed.with(|typed| find(design, typed, system)).into_iter();
            all.filter(|found| stands_in_form(&found.path))
                .map(|Found { path, input, value }| Line {
                    name: naming::of_input(design, &path, input),
                    value: naming::of_value(design, input, &value, system),
                    meaning: input.meaning,
                    path,
                })
                .collect()
        })
    });
    let told = move || match found.with(Vec::len) {
        _ if !is_enough() => String::new(),
        0 => "Nothing found. Try another word for it, or fewer letters.".to_string(),
        count if count > MOST => {
            format!("{count} found, the first {MOST} listed. One word more leaves fewer.")
        }
        count => format!("{count} found"),
    };
    let lead_to = move |path: &str| {
        // Folded away before the form is scrolled, so that nothing moves after that.
        typed.set(String::new());
        show_field(workspace, path);
    };
    let follow_keys = move |event: KeyboardEvent| match event.key().as_str() {
        "Enter" => {
            let first = found.with_untracked(|found| found.first().map(|line| line.path.clone()));
            if let Some(path) = first {
                lead_to(&path);
            }
        }
        "ArrowDown" => {
            event.prevent_default();
            focus::soon(vec![".found button".to_string()]);
        }
        "Escape" => typed.set(String::new()),
        _ => {}
    };
    let clear = move |_: MouseEvent| {
        typed.set(String::new());
        focus::soon(vec![format!("#{FIELD}")]);
    };
    view! {
        <div class="find" role="search">
            <label for=FIELD>"Find a number"</label>
            <div class="find-entry">
                <input
                    id=FIELD
                    type="text"
                    inputmode="search"
                    autocomplete="off"
                    autocapitalize="off"
                    spellcheck="false"
                    aria-describedby="find-told"
                    prop:value=move || typed.get()
                    on:input=move |event| typed.set(event_target_value(&event))
                    on:keydown=follow_keys
                />
                <Show when=move || typed.with(|typed| !typed.is_empty())>
                    <button type="button" aria-label="Clear what was typed to find a number" on:click=clear>
                        "Clear"
                    </button>
                </Show>
            </div>
            <p class="meaning" id="find-told" role="status">{told}</p>
            <ul class="found">
                <Rows
                    each=move || found.with(|found| found.iter().take(MOST).cloned().collect())
                    key=Line::key
                    let:line
                >
                    <li>
                        <button
                            type="button"
                            data-leads-to=line.path.clone()
                            on:click=move |_| lead_to(&line.path)
                        >
                            <b>{line.name}</b>
                            <span class="value">{line.value}</span>
                            <span class="meaning">{line.meaning}</span>
                        </button>
                    </li>
                </Rows>
            </ul>
        </div>
    }
}

fn stands_in_form(path: &str) -> bool {
    path.split('.').next().and_then(group_of).is_some()
}
