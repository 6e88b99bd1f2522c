//! The inputs, by part of the machine.

pub mod arrange;
mod find;
mod groups;
mod list;
mod order;

pub use groups::{GROUPS, Group, group_of};

use super::Workspace;
use super::drawing::HearthDetail;
use super::fields::Field;
use super::focus;
use super::train::ToDiagram;
use crate::app::shown::Show;
use crate::design::{Design, Input};
use arrange::Place;
use find::FindNumber;
use groups::Entry;
use leptos::prelude::*;

/// Opens the part of the form in which an input stands, and gives its field the focus.
pub fn show_field(workspace: Workspace, path: &str) {
    let mut steps = path.split('.');
    let head = steps.next().unwrap_or_default();
    let index = steps.next().and_then(|step| step.parse().ok());
    let list = Design::LISTS.iter().find(|info| info.name == head);
    match (list, index) {
        (Some(list), Some(index)) => arrange::show(
            workspace,
            Place {
                list: list.name,
                index,
            },
        ),
        _ => {
            if let Some(group) = group_of(head) {
                workspace.show_group(group.name);
            }
        }
    }
    focus::soon(vec![format!("[data-input='{path}']")]);
}

/// The whole form: a way to find any number of it, and one foldable group for each part; the group in focus is open.
#[component]
pub fn Form() -> impl IntoView {
    let groups = GROUPS.iter().map(|group| view! { <GroupView group /> });
    view! {
        <FindNumber />
        {groups.collect_view()}
    }
}

#[component]
fn GroupView(group: &'static Group) -> impl IntoView {
    let workspace = Workspace::get();
    let open = Memo::new(move |_| workspace.focus.get() == group.name);
    let toggle = move |event: leptos::ev::MouseEvent| {
        event.prevent_default();
        workspace
            .focus
            .update(|focus| *focus = if *focus == group.name { "" } else { group.name });
    };
    view! {
        <details class="group" id=format!("group-{}", group.name) prop:open=move || open.get()>
            <summary on:click=toggle>{group.label}<ListCounts group /></summary>
            <Show when=move || open.get()>
                <div class="group-body">
                    {(group.name == "hearth").then(|| view! { <HearthDetail /> })}
                    {(group.name == "train").then(|| view! { <ToDiagram /> })}
                    {group
                        .entries
                        .iter()
                        .map(|entry| match entry {
                            Entry::Section(name) => section(name, group.label),
                            Entry::List(name) => list::list(name, group.label),
                        })
                        .collect_view()}
                </div>
            </Show>
        </details>
    }
}

/// Says how many items the lists of a folded group hold.
#[component]
fn ListCounts(group: &'static Group) -> impl IntoView {
    let workspace = Workspace::get();
    let text = move || {
        let [Entry::List(name)] = group.entries else {
            return String::new();
        };
        let count = workspace
            .design
            .with(|design| design.list(name).map_or(0, |list| list.count()));
        format!(" ({count})")
    };
    view! { <span class="count">{text}</span> }
}

fn fields(prefix: &str, inputs: &'static [Input]) -> impl IntoView + use<> {
    inputs
        .iter()
        .map(|input| {
            let path = format!("{prefix}.{}", input.name);
            view! { <Field path input /> }
        })
        .collect_view()
}

/// One section; its heading is not seen where its group above says the same.
fn section(name: &'static str, above: &'static str) -> AnyView {
    Design::SECTIONS
        .iter()
        .find(|info| info.name == name)
        .map(|info| {
            view! {
                <fieldset class="section">
                    <legend class:visually-hidden=info.label == above>{info.label}</legend>
                    <p class="meaning">{info.meaning}</p>
                    {fields(info.name, info.inputs)}
                </fieldset>
            }
        })
        .into_any()
}
