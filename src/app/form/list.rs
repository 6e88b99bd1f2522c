//! A list of equal records: add, copy, move, remove, and a line that sums up each.

use super::arrange::{self, Place};
use super::fields;
use super::order::TakeOrder;
use crate::app::Workspace;
use crate::app::naming;
use crate::app::shown::{Rows, Show, live};
use crate::app::train;
use crate::app::verdicts::{Mark, mark};
use crate::design::phrase::{Phrase, upper_first};
use crate::design::{Design, ListInfo, Value};
use crate::review::Verdict;
use leptos::prelude::*;

/// One list; its heading is not seen where its group above says the same.
pub(super) fn list(name: &'static str, above: &'static str) -> AnyView {
    Design::list_info(name)
        .map(|info| view! { <ListView info above /> })
        .into_any()
}

/// What an item is, in a few words: its first two values that count; of a stage
/// of the train, how warm the gas leaves it.
fn summary(workspace: Workspace, place: Place) -> String {
    let system = workspace.system.get();
    let mut words: Vec<String> = workspace.design.with(|design| {
        let Some(record) = design
            .list(place.list)
            .and_then(|list| list.item(place.index))
        else {
            return Vec::new();
        };
        let inputs = record.inputs().iter().enumerate();
        let said = inputs.filter_map(|(at, input)| match record.read(at)? {
            Value::Text(text) if text.is_empty() => None,
            Value::Flag(_) => None,
            value => Some((input, naming::of_value(design, input, &value, system))),
        });
        said.filter(|(input, _)| {
            design.is_asked(&format!("{}.{}.{}", place.list, place.index, input.name))
        })
        .map(|(_, word)| word)
        .take(2)
        .collect()
    });
    if let Some(leaves) = train::leaves(workspace, place) {
        words.truncate(1);
        words.push(format!("gas leaves at {leaves}"));
    }
    words.join(", ")
}

/// What the review says of an item: the result of a leak test, a step that hides a joint.
fn remark(workspace: Workspace, place: Place) -> AnyView {
    let said = workspace.assessment.with(|assessment| {
        let ask = |design: &Design| assessment.remark(design, place.list, place.index);
        workspace.design.with_untracked(ask)
    });
    let words = |(verdict, words): (Verdict, Phrase)| {
        let words = upper_first(&words.text(workspace.system.get()));
        view! {
            <p class=format!("verdict-line {}", mark::class(verdict))>
                <Mark verdict />
                <b class="verdict">{verdict.word()}</b>
                <span>{words}</span>
            </p>
        }
    };
    said.map(words).into_any()
}

#[component]
fn ListView(info: &'static ListInfo, above: &'static str) -> impl IntoView {
    let workspace = Workspace::get();
    let count = Memo::new(move |_| {
        workspace
            .design
            .with(|design| design.list(info.name).map_or(0, |list| list.count()))
    });
    let add = move |_| {
        let place = Place {
            list: info.name,
            index: count.get_untracked(),
        };
        arrange::add(workspace, place);
    };
    let full = move || count.get() >= info.longest;
    let is_asked = Memo::new(move |_| workspace.design.with(|design| design.is_asked(info.name)));
    view! {
        <Show when=move || is_asked.get()>
            <fieldset class="section list" id=format!("list-{}", info.name)>
                <legend class:visually-hidden=info.label == above>{info.label}</legend>
                <p class="meaning">{info.meaning}</p>
                <Rows each=move || (0..count.get()).collect() key=usize::to_string let:index>
                    <ItemView info index count />
                </Rows>
                <button
                    type="button"
                    class="add"
                    aria-label=format!("Add {}: {}", info.item.to_lowercase(), info.label)
                    on:click=add
                    disabled=full
                >
                    "Add " {info.item.to_lowercase()}
                </button>
                <Show when=full>
                    <p class="meaning">"No more than " {info.longest} " fit into a design."</p>
                </Show>
                {(info.name == "build_steps").then(|| view! { <TakeOrder /> })}
            </fieldset>
        </Show>
    }
}

#[component]
fn ItemView(info: &'static ListInfo, index: usize, count: Memo<usize>) -> impl IntoView {
    let workspace = Workspace::get();
    let place = Place {
        list: info.name,
        index,
    };
    let is_open = Memo::new(move |_| workspace.item.get() == Some((info.name, index)));
    let toggle = move |event: leptos::ev::MouseEvent| {
        event.prevent_default();
        let open = (!is_open.get_untracked()).then_some((info.name, index));
        workspace.item.set(open);
    };
    let title = Memo::new(move |_| summary(workspace, place));
    let full = Signal::derive(move || count.get() >= info.longest);
    let mover = move |way: &'static str, sign, to: usize, possible: Signal<bool>| {
        view! {
            <button
                type="button"
                id=format!("{}-{way}-{index}", info.name)
                aria-label=format!("Move {} {} {way}: {}", info.item.to_lowercase(), index + 1, info.label)
                disabled=move || !possible.get()
                on:click=move |_| arrange::move_to(workspace, place, to, info.name)
            >
                {sign}
            </button>
        }
    };
    let tool = move |label, class, off: Signal<bool>, act: fn(Workspace, Place)| {
        view! {
            <button
                type="button"
                class=class
                aria-label=format!("{label}: {}, {} {}", info.label, info.item.to_lowercase(), index + 1)
                disabled=off
                on:click=move |_| act(workspace, place)
            >
                {label}
            </button>
        }
    };
    view! {
        <div class="item">
            <details id=place.element_id() prop:open=move || is_open.get()>
                <summary on:click=toggle>
                    <span class="item-number">{index + 1}</span>
                    <span>{title}</span>
                </summary>
                <Show when=move || is_open.get()>
                    <div class="item-body">
                        {fields(&format!("{}.{index}", info.name), info.inputs)}
                        {(info.name == "train").then(|| view! { <train::CycloneFigure index /> })}
                        <div class="item-tools">
                            {tool("Add before", "", full, arrange::add)}
                            {tool("Copy", "", full, arrange::copy)}
                            {tool("Remove", "danger", false.into(), arrange::remove)}
                        </div>
                    </div>
                </Show>
            </details>
            <div class="item-remark">{live(move || remark(workspace, place))}</div>
            <div class="item-moves">
                {mover("up", "↑", index.saturating_sub(1), (index > 0).into())}
                {mover("down", "↓", index + 1, Signal::derive(move || index + 1 < count.get()))}
            </div>
        </div>
    }
}
