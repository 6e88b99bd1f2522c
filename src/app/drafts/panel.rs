//! The person's designs: open, start, copy, rename, delete, share, import and export.

use super::answer::{AnswerLink, LinkLength};
use super::qr::SquareCode;
use super::storage::Entry;
use super::{Drafts, called, renaming, sharing, when};
use crate::app::Workspace;
use crate::app::focus;
use crate::app::naming::lower_first;
use crate::app::panel::Panel;
use crate::app::shown::{Rows, Show};
use crate::design::example;
use crate::design::quantity::Quantity;
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::HtmlInputElement;

/// The panel of designs.
#[component]
pub fn Designs() -> impl IntoView {
    let drafts = Drafts::get();
    view! {
        <AnswerLink />
        <h2>"Share"</h2>
        <Share />
        <h2>"Your designs"</h2>
        <p class="meaning">"Kept in this browser only. Nothing is sent anywhere."</p>
        <Show when=move || drafts.list.with(Vec::is_empty)>
            <p>"None yet. Whatever you change is kept here by itself."</p>
        </Show>
        <ul class="drafts">
            <Rows each=move || drafts.list.get() key=Entry::key let:entry>
                <Draft entry />
            </Rows>
        </ul>
        <div class="item-tools">
            <button type="button" on:click=move |_| drafts.start_own()>"Start my own"</button>
            <button type="button" on:click=move |_| drafts.duplicate()>"Copy this design"</button>
        </div>
        <h2>"Examples"</h2>
        <p class="meaning">
            "The pump set of a fruit co-operative. All figures are invented to show the tool."
        </p>
        <div class="item-tools">
            <button type="button" on:click=move |_| drafts.show_example(example::as_first_drawn())>
                "As first drawn"
            </button>
            <button type="button" on:click=move |_| drafts.show_example(example::as_improved())>
                "As improved"
            </button>
        </div>
    }
}

#[component]
fn Draft(entry: Entry) -> impl IntoView {
    let drafts = Drafts::get();
    let entry = StoredValue::new(entry);
    let id = move || entry.with_value(|entry| entry.id.clone());
    let is_open = move || drafts.open.with(|open| open.as_ref() == Some(&id()));
    // A design beside itself shows nothing: what is changed from now on is what differs.
    let compare = move || {
        if is_open() {
            "Compare what I change next with this"
        } else {
            "Compare with this"
        }
    };
    let damage = entry.with_value(|entry| entry.damage.clone());
    let damaged = damage.is_some();
    let renaming = RwSignal::new(false);
    // Two of one name are told apart by what they are for, where they came from, and when they were changed last: the
    // line is not made anew for that.
    let system = Workspace::get().system;
    let changed = Memo::new(move |_| {
        let id = id();
        drafts.list.with(|list| {
            let now = list.iter().find(|entry| entry.id == id);
            now.map(|entry| entry.changed)
        })
    });
    let told = move || {
        let system = system.get();
        let changed = changed.get().map(when::told);
        entry.with_value(|entry| {
            let told = entry.told.as_ref()?;
            let power = Quantity::EnginePower.show(told.power, system);
            let machine = format!("{power} wanted, {}", lower_first(told.wood));
            let came = entry.came.map(|came| came.words().to_string());
            let changed = changed.map(|changed| format!("changed {changed}"));
            let parts = [Some(machine), came, changed].into_iter().flatten();
            Some(parts.collect::<Vec<_>>().join("; "))
        })
    };
    let told_id = format!("told-{}", id());
    view! {
        <li>
            <button
                type="button"
                class="draft-name"
                aria-describedby=told_id.clone()
                aria-pressed=move || is_open().to_string()
                disabled=damage.is_some()
                on:click=move |_| {
                    drafts.open_kept(&id());
                }
            >
                {entry.with_value(|entry| called(&entry.name))}
            </button>
            {damage
                .map(|damage| {
                    view! {
                        <p class="wrong">{damage}</p>
                        <button
                            type="button"
                            on:click=move |_| {
                                if let Some(text) = super::storage::raw(&id()) {
                                    sharing::offer_file("damaged-design.txt", "text/plain", text.as_bytes());
                                }
                            }
                        >
                            "Save its text"
                        </button>
                    }
                })}
            <button
                type="button"
                aria-label=move || entry.with_value(|entry| format!("{}: {}", compare(), entry.name))
                disabled=damaged
                on:click=move |_| entry.with_value(|entry| drafts.pin(entry))
            >
                {compare}
            </button>
            <button
                type="button"
                id=renaming::opener(&id())
                aria-label=move || entry.with_value(|entry| format!("Rename {}", called(&entry.name)))
                aria-expanded=move || renaming.get().to_string()
                disabled=damaged
                on:click=move |_| renaming.update(|open| *open = !*open)
            >
                "Rename"
            </button>
            <button
                type="button"
                class="danger"
                aria-describedby=told_id.clone()
                aria-label=move || entry.with_value(|entry| format!("Delete {}", entry.name))
                on:click=move |event| {
                    let place = drafts.place_of(&id());
                    let line = |place| format!(".drafts li:nth-child({place}) .danger");
                    let other = ".designs-button".to_string();
                    focus::after_press(&event, vec![line(place + 1), line(place), other]);
                    entry.with_value(|entry| drafts.delete(entry));
                }
            >
                "Delete"
            </button>
            <Show when=move || renaming.get()>
                {renaming::field(drafts, entry, renaming)}
            </Show>
            <p class="meaning" id=told_id>{told}</p>
        </li>
    }
}

#[component]
fn Share() -> impl IntoView {
    let workspace = Workspace::get();
    let drafts = Drafts::get();
    let copied = RwSignal::new(None::<&'static str>);
    // Packing a design takes longer than all its answers, so it waits until someone looks.
    let address = Memo::new(move |_| {
        if workspace.panel.get() != Panel::Designs {
            return String::new();
        }
        copied.set(None);
        workspace.design.with(sharing::address)
    });
    let import = move |event: leptos::ev::Event| {
        let Some(input) = event
            .target()
            .and_then(|it| it.dyn_into::<HtmlInputElement>().ok())
        else {
            return;
        };
        let Some(chosen) = input.files().and_then(|files| files.get(0)) else {
            return;
        };
        spawn_local(async move {
            let text = match JsFuture::from(chosen.text()).await {
                Ok(text) => text.as_string().unwrap_or_default(),
                Err(_) => String::new(),
            };
            drafts.import(&text);
            // So that the same file can be chosen again.
            input.set_value("");
        });
    };
    view! {
        <div class="share">
            <label for="share-link">"Link that holds the whole design"</label>
            <input id="share-link" type="text" readonly prop:value=move || address.get() />
            <div class="item-tools">
                <button type="button" on:click=move |_| sharing::copy(address.get_untracked(), copied)>"Copy the link"</button>
                <button type="button" on:click=move |_| workspace.design.with_untracked(sharing::download)>
                    "Export as a file"
                </button>
                <label class="button" for="import-file">
                    "Open a file"
                    <input id="import-file" type="file" accept=".json,application/json" on:change=import />
                </label>
            </div>
            <p role="status">{move || copied.get()}</p>
            <LinkLength address />
            <SquareCode address />
        </div>
    }
}
