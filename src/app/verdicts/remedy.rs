//! The changes that would make a question pass, found after the result is painted.

use crate::app::Workspace;
use crate::design::quantity::System;
use crate::design::{Design, Kind, Value};
use crate::review::{Change, Lever, Remedy, remedies};
use leptos::prelude::*;
use std::time::Duration;

/// Searching waits until typing pauses for this long.
const PAUSE: Duration = Duration::from_millis(350);

/// A value as a person reads it.
fn say(value: &Value, kind: Kind, system: System) -> String {
    match (value, kind) {
        (Value::Number(si), Kind::Number { quantity, .. }) => quantity.show(*si, system),
        (Value::Choice(name), Kind::Choice { options, .. }) => options
            .iter()
            .find(|option| option.name == name)
            .map_or_else(|| name.clone(), |option| option.label.to_string()),
        (Value::Flag(true), _) => "yes".to_string(),
        (Value::Flag(false), _) => "no".to_string(),
        (Value::Text(text), _) => text.clone(),
        _ => "nothing".to_string(),
    }
}

/// What stands before the input's own label: which layer, part or point it belongs to.
fn owner(design: &Design, path: &str) -> String {
    let Some((head, rest)) = path.split_once('.') else {
        return String::new();
    };
    let index = rest
        .split_once('.')
        .and_then(|(index, _)| index.parse::<usize>().ok());
    let list = Design::LISTS.iter().find(|info| info.name == head);
    match (list, index) {
        (Some(list), Some(index)) => {
            let name = ["name", "material", "kind"].iter().find_map(|field| {
                let path = format!("{head}.{index}.{field}");
                Some(say(
                    &design.get(&path)?,
                    design.input(&path)?.kind,
                    System::Metric,
                ))
            });
            format!(
                "{}: {}, ",
                list.label,
                name.unwrap_or_else(|| format!("{} {}", list.item, index + 1))
            )
        }
        _ => Design::SECTIONS
            .iter()
            .find(|info| info.name == head)
            .map(|info| format!("{}: ", info.label))
            .unwrap_or_default(),
    }
}

/// The offer in words, with the button's label when there is a change to apply.
fn offer(remedy: &Remedy, design: &Design, system: System) -> String {
    let kind = remedy.input.kind;
    match (&remedy.lever, &remedy.value) {
        (Lever::Input(path), Some(value)) => {
            let now = design
                .get(path)
                .map(|now| say(&now, kind, system))
                .unwrap_or_default();
            format!(
                "{}{} {} → {}",
                owner(design, path),
                remedy.input.label.to_lowercase(),
                now,
                say(value, kind, system)
            )
        }
        (Lever::Input(path), None) => {
            format!(
                "{}{}: no allowed value is enough alone",
                owner(design, path),
                remedy.input.label.to_lowercase()
            )
        }
        (Lever::NewItem { list, fields, .. }, value) => {
            let info = Design::LISTS.iter().find(|info| info.name == *list);
            let label = info.map_or("", |info| info.label);
            let what = fields
                .iter()
                .filter_map(|(name, value)| {
                    let input = info?.inputs.iter().find(|input| input.name == *name)?;
                    Some(say(value, input.kind, system))
                })
                .collect::<Vec<_>>()
                .join(", ");
            match value {
                Some(value) => format!("{label}: add {what}, {}", say(value, kind, system)),
                None => format!("{label}: adding {what} is not enough alone"),
            }
        }
    }
}

/// The remedies of one finding, searched when the typing pauses, dropped as soon as the design changes.
#[component]
pub fn Remedies(id: &'static str) -> impl IntoView {
    let workspace = Workspace::get();
    let found = RwSignal::new(None::<Vec<Remedy>>);
    Effect::new(move |running: Option<Option<TimeoutHandle>>| {
        workspace.design.track();
        if let Some(handle) = running.flatten() {
            handle.clear();
        }
        found.set(None);
        set_timeout_with_handle(
            move || {
                found.try_set(Some(
                    workspace
                        .design
                        .with_untracked(|design| remedies(design, id)),
                ));
            },
            PAUSE,
        )
        .ok()
    });
    view! {
        <ul class="remedies" data-ready=move || found.with(|found| found.is_some().to_string())>
            {move || {
                found
                    .get()
                    .unwrap_or_default()
                    .into_iter()
                    .map(|remedy| view! { <Offer remedy /> })
                    .collect_view()
            }}
        </ul>
    }
}

#[component]
fn Offer(remedy: Remedy) -> impl IntoView {
    let workspace = Workspace::get();
    let words = {
        let remedy = remedy.clone();
        move || {
            workspace
                .design
                .with_untracked(|design| offer(&remedy, design, workspace.system.get()))
        }
    };
    let side_effects = remedy
        .worsens
        .iter()
        .filter_map(|(id, _, after)| {
            let title = workspace
                .assessment
                .with_untracked(|assessment| assessment.finding(id).map(|finding| finding.title))?;
            Some(format!("then {}: {title}", after.word()))
        })
        .collect::<Vec<_>>()
        .join("; ");
    let apply = remedy.change.clone().map(|change: Change| {
        view! {
            <button type="button" class="apply" on:click=move |_| workspace.apply(&change)>
                "Apply"
            </button>
        }
    });
    view! {
        <li class:no-way=remedy.change.is_none()>
            <span>
                {words}
                {(!side_effects.is_empty())
                    .then(|| view! { <span class="side-effect">" (" {side_effects} ")"</span> })}
            </span>
            {apply}
        </li>
    }
}
