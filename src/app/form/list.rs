//! A list of equal records: add, copy, move, remove, and a line that sums up each.

use super::fields;
use crate::app::Workspace;
use crate::design::quantity::System;
use crate::design::{Design, Kind, ListInfo, Record, Value};
use leptos::prelude::*;

pub(super) fn list(name: &'static str) -> AnyView {
    Design::LISTS
        .iter()
        .find(|info| info.name == name)
        .map(|info| view! { <ListView info /> })
        .into_any()
}

/// What a record holds, in a few words: its first two values.
fn summary(record: &dyn Record, system: System) -> String {
    let words = record
        .inputs()
        .iter()
        .enumerate()
        .filter_map(|(place, input)| match (record.read(place)?, input.kind) {
            (Value::Text(text), _) => Some(text),
            (Value::Choice(name), Kind::Choice { options, .. }) => options
                .iter()
                .find(|option| option.name == name)
                .map(|option| option.label.to_string()),
            (Value::Number(si), Kind::Number { quantity, .. }) => Some(quantity.show(si, system)),
            _ => None,
        });
    words.take(2).collect::<Vec<_>>().join(", ")
}

#[component]
fn ListView(info: &'static ListInfo) -> impl IntoView {
    let workspace = Workspace::get();
    let count = Memo::new(move |_| {
        workspace
            .design
            .with(|design| design.list(info.name).map_or(0, |list| list.count()))
    });
    let open = RwSignal::new(None::<usize>);
    let add = move |_| {
        let end = count.get_untracked();
        workspace.change(|design| {
            if let Some(list) = design.list_mut(info.name) {
                list.insert_new(end);
            }
        });
        open.set(Some(end));
    };
    let full = move || count.get() >= info.longest;
    let in_use = Memo::new(move |_| {
        workspace.design.with(|design| {
            design.list(info.name).is_none_or(|list| list.count() == 0)
                || info
                    .inputs
                    .iter()
                    .any(|input| design.in_use(&format!("{}.0.{}", info.name, input.name)))
        })
    });
    view! {
        <Show when=move || in_use.get()>
            <fieldset class="section list" id=format!("list-{}", info.name)>
                <legend>{info.label}</legend>
                <p class="meaning">{info.meaning}</p>
                <For each=move || 0..count.get() key=|index| *index let:index>
                    <ItemView info index open />
                </For>
                <button
                    type="button"
                    class="add"
                    on:click=add
                    disabled=full
                >
                    "Add " {info.item.to_lowercase()}
                </button>
            </fieldset>
        </Show>
    }
}

#[component]
fn ItemView(info: &'static ListInfo, index: usize, open: RwSignal<Option<usize>>) -> impl IntoView {
    let workspace = Workspace::get();
    let title = move || {
        workspace.design.with(|design| {
            design
                .list(info.name)
                .and_then(|list| list.item(index))
                .map(|item| summary(item, workspace.system.get()))
                .unwrap_or_default()
        })
    };
    let is_open = Memo::new(move |_| open.get() == Some(index));
    let toggle = move |event: leptos::ev::MouseEvent| {
        event.prevent_default();
        open.update(|open| {
            *open = if *open == Some(index) {
                None
            } else {
                Some(index)
            }
        });
    };
    let edit = move |edit: fn(&mut dyn crate::design::Items, usize)| {
        workspace.change(|design| {
            if let Some(list) = design.list_mut(info.name) {
                edit(list, index);
            }
        });
    };
    let last = move || {
        workspace.design.with(|design| {
            design
                .list(info.name)
                .is_none_or(|list| index + 1 >= list.count())
        })
    };
    let full = move || {
        workspace.design.with(|design| {
            design
                .list(info.name)
                .is_none_or(|list| list.count() >= info.longest)
        })
    };
    view! {
        <details class="item" prop:open=move || is_open.get()>
            <summary on:click=toggle>
                <span class="item-number">{index + 1}</span>
                {title}
            </summary>
            <Show when=move || is_open.get()>
                <div class="item-body">
                    {fields(&format!("{}.{index}", info.name), info.inputs)}
                    <div class="item-tools">
                        <button
                            type="button"
                            disabled=index == 0
                            on:click=move |_| {
                                edit(|list, index| list.swap_items(index, index.saturating_sub(1)));
                                open.set(Some(index.saturating_sub(1)));
                            }
                        >
                            "Move up"
                        </button>
                        <button
                            type="button"
                            disabled=last
                            on:click=move |_| {
                                edit(|list, index| list.swap_items(index, index + 1));
                                open.set(Some(index + 1));
                            }
                        >
                            "Move down"
                        </button>
                        <button
                            type="button"
                            disabled=full
                            on:click=move |_| {
                                edit(|list, index| list.copy_item(index));
                                open.set(Some(index + 1));
                            }
                        >
                            "Copy"
                        </button>
                        <button
                            type="button"
                            class="danger"
                            on:click=move |_| {
                                open.set(None);
                                edit(|list, index| list.remove_item(index));
                            }
                        >
                            "Remove"
                        </button>
                    </div>
                </div>
            </Show>
        </details>
    }
}
