//! A number with its unit: keeps what was typed, shows the other system beside it.

use super::plus_minus::PlusMinus;
use super::{element_id, not_filled_in};
use crate::app::Workspace;
use crate::app::workspace::Rejected;
use crate::design::phrase::upper_first;
use crate::design::quantity::{Quantity, System, names_a_unit};
use crate::design::{Design, Input, Kind, TypedError, Value};
use crate::review::guided::Otherwise;
use crate::sizing::marking::along_the_shell;
use leptos::prelude::*;
use std::time::Duration;

/// The input that an angle is told as a length with.
const GIRTH: &str = "real_vessel.girth";

fn other(system: System) -> System {
    match system {
        System::Metric => System::Inch,
        System::Inch => System::Metric,
    }
}

/// How long after a field was left it says that it waits: what was pressed to leave it is not shoved from under the finger.
const AFTER_LEAVING: Duration = Duration::from_millis(300);

/// A text for comparing it: 8kW and 8 kW are one.
fn without_gaps(text: &str) -> String {
    text.split_whitespace().collect()
}

fn written(design: &Design, path: &str, quantity: Quantity, system: System) -> String {
    match design.get(path) {
        Some(Value::Number(si)) => quantity.write_short(si, system),
        _ => String::new(),
    }
}

/// Why a text is not taken, with the range and with what may have been meant.
fn refusal(
    input: &Input,
    quantity: Quantity,
    allowed: (f64, f64),
    text: &str,
    error: &TypedError,
    system: System,
) -> String {
    let mut reason = error.sentence(system);
    if matches!(error, TypedError::Unread(_)) {
        let [least, most] = quantity.show_range(allowed.into(), system);
        reason.push_str(&format!(". Allowed: {least} to {most}."));
    }
    // Who thinks in another unit forgets to say so: an engine's plate tells cubic centimetres.
    let plate = (quantity == Quantity::Displacement).then_some("cm³");
    let units = plate
        .into_iter()
        .chain([quantity.unit_symbol(other(system))]);
    let meant = units
        .map(|unit| format!("{} {unit}", text.trim()))
        .find(|meant| !names_a_unit(text) && input.read(meant, system).is_ok());
    match meant {
        Some(meant) => {
            let sentence = reason.trim_end_matches('.');
            format!("{sentence}. If you mean {meant}, type the unit too.")
        }
        None => reason,
    }
}

/// Takes what was typed for an input, or says why it cannot be used.
fn take(
    workspace: Workspace,
    path: &str,
    input: &'static Input,
    (quantity, allowed): (Quantity, (f64, f64)),
    text: String,
) {
    let system = workspace.system.get_untracked();
    let read = workspace
        .design
        .with_untracked(|design| design.read_for(input, &text, system));
    match read {
        Ok(value) => {
            if let Err(error) = workspace.set(path, value) {
                workspace.reject(path, text, error.sentence(system));
            }
        }
        Err(error) => {
            let reason = refusal(input, quantity, allowed, &text, &error, system);
            workspace.reject(path, text, reason);
        }
    }
}

/// Reads each number that cannot be used once more, in the system of units that was switched to: without a unit it means
/// another one now. A field that only waits for a text goes on waiting.
pub fn read_again(workspace: Workspace) {
    for (path, rejected) in workspace.rejected.get_untracked() {
        let input = (workspace.design).with_untracked(|design| design.input(&path));
        if let Some(input) = input
            && let Kind::Number {
                quantity, allowed, ..
            } = input.kind
            && !rejected.typed.trim().is_empty()
        {
            let number = (quantity, allowed);
            take(workspace, &path, input, number, rejected.typed);
        }
    }
    workspace.finish_typing();
}

/// What stands beside a text that means a number: the other system, and before it the unit of the field where another was
/// typed.
fn beside(
    input: &Input,
    quantity: Quantity,
    typed: &str,
    si: f64,
    system: System,
) -> impl Iterator<Item = String> + use<> {
    let here = quantity.show(si, system);
    let there = quantity.show(si, other(system));
    let is_typed = |text: &str| without_gaps(typed) == without_gaps(text);
    let own_unit = names_a_unit(typed);
    // The same figures in the unit of the field mean the same.
    let bare = typed.trim_end_matches(|sign: char| !sign.is_ascii_digit());
    let figures = input.read(bare, system).ok();
    let in_field_unit = figures.filter(|_| !names_a_unit(bare)) == Some(Value::Number(si));
    // Nobody finds decimals of an inch on a tape.
    let decimals = !own_unit && typed.contains(['.', ',']);
    let on_tape = decimals && here.ends_with(" in") && !here.contains('.');
    let told_here = on_tape || own_unit && !in_field_unit && !is_typed(&here);
    let told_there = there != here && !is_typed(&there);
    let sign = match quantity.read(&here, system) {
        Ok(read) if on_tape && (read - si).abs() > 1e-9 => "≈",
        _ => "=",
    };
    let told = [
        told_here.then(|| format!("{sign} {here}")),
        told_there.then(|| format!("= {there}")),
        quantity.gauge(si).map(|text| format!("= {text}")),
    ];
    told.into_iter().flatten()
}

/// The unit beside a field; that of money is the currency of the design, which no other field follows.
pub fn unit_beside(workspace: Workspace, quantity: Quantity) -> String {
    let system = workspace.system.get();
    match quantity {
        Quantity::Money | Quantity::MassPrice => {
            (workspace.design).with(|design| design.unit_beside(quantity, system))
        }
        _ => quantity.unit_symbol(system).to_string(),
    }
}

#[component]
pub fn NumberField(
    path: String,
    input: &'static Input,
    quantity: Quantity,
    allowed: (f64, f64),
    usual: (f64, f64),
    otherwise: Option<&'static Otherwise>,
) -> impl IntoView {
    let workspace = Workspace::get();
    let label = otherwise.map_or(input.label, |otherwise| otherwise.label);
    let meaning = otherwise.map_or(input.meaning, |otherwise| otherwise.meaning);
    let path = StoredValue::new(path);
    let id = path.with_value(|path| element_id(path));
    let notes = format!("{id}-notes");
    let system = workspace.system;

    let value = Memo::new(move |_| {
        workspace
            .design
            .with(|design| path.with_value(|path| design.get(path)))
    });
    let rejected = Memo::new(move |_| {
        workspace
            .rejected
            .with(|rejected| path.with_value(|path| rejected.get(path).cloned()))
    });
    // Of a field that only waits for a text nothing is said yet.
    let wrong = Memo::new(move |_| {
        rejected
            .get()
            .filter(|rejected| !rejected.reason.is_empty())
    });

    // What the field shows: the typed text as long as it still means the value, else the value written anew.
    let typed = RwSignal::new(path.with_value(|path| {
        rejected
            .get_untracked()
            .map(|rejected: Rejected| rejected.typed)
            .unwrap_or_else(|| {
                workspace.design.with_untracked(|design| {
                    written(design, path, quantity, system.get_untracked())
                })
            })
    }));
    let shown_in = StoredValue::new(system.get_untracked());
    Effect::new(move |_| {
        let value = value.get();
        let system = system.get();
        if let Some(rejected) = rejected.get() {
            if typed.with_untracked(|typed| *typed != rejected.typed) {
                typed.set(rejected.typed);
            }
            shown_in.set_value(system);
            return;
        }
        let text = typed.get_untracked();
        let same_system = shown_in.get_value() == system;
        let meant =
            (workspace.design).with_untracked(|design| design.read_for(input, &text, system).ok());
        let still_meant = same_system && meant == value;
        if !still_meant {
            shown_in.set_value(system);
            typed.set(path.with_value(|path| {
                workspace
                    .design
                    .with_untracked(|design| written(design, path, quantity, system))
            }));
        }
    });

    let enter = move |text: String| {
        typed.set(text.clone());
        path.with_value(|path| take(workspace, path, input, (quantity, allowed), text));
    };

    // A field that is left may be gone from the page already, or be so before a while has passed.
    let waits = move || {
        let rejected = rejected.try_get_untracked().flatten();
        rejected.is_some_and(|waiting| waiting.reason.is_empty())
    };
    let leave = move |_| {
        workspace.finish_typing();
        if !waits() {
            return;
        }
        set_timeout(
            move || {
                if waits() {
                    path.with_value(|path| {
                        workspace.reject(path, String::new(), not_filled_in(path).into());
                    });
                }
            },
            AFTER_LEAVING,
        );
    };

    // What is said of our default has no business beside a person's own value. The line keeps its room while one types.
    let is_own = Memo::new(move |_| {
        rejected.with(Option::is_some) || value.get() != Some(input.default_value())
    });
    let was_own = RwSignal::new(false);

    let own_unit = Memo::new(move |_| typed.with(|typed| names_a_unit(typed)));
    // Where a hole or seam is as a tape tells it, beside its angle.
    let around = (quantity == Quantity::Angle).then(|| {
        Memo::new(move |_| {
            let unknown = (workspace.rejected).with(|rejected| rejected.contains_key(GIRTH));
            let along = |design: &Design| path.with_value(|path| along_the_shell(design, path));
            (workspace.design).with(along).filter(|_| !unknown)
        })
    });
    let along = move || {
        let length = around.and_then(|around| around.get())?;
        let length = Quantity::Length.show(length.value, system.get());
        Some(format!("= {length} along the shell"))
    };
    let beside = move || match value.get() {
        Some(Value::Number(si)) if rejected.with(Option::is_none) => {
            let told = typed.with(|typed| beside(input, quantity, typed, si, system.get()));
            // Each stays in one piece where they stand below each other.
            let told = told.chain(along());
            Some(
                told.map(|text| view! { <span>{text}</span> " " })
                    .collect_view(),
            )
        }
        _ => None,
    };
    let unusual = move || match value.get() {
        Some(Value::Number(si)) if si < usual.0 || si > usual.1 => {
            let [least, most] = quantity.show_alike(usual.into(), system.get());
            Some(format!("Unusual: most are {least} to {most}."))
        }
        _ => None,
    };

    // A plus-minus belongs to the measure of the form.
    let sure = match otherwise {
        Some(_) => None,
        None => path.with_value(|path| PlusMinus::of(path)),
    };
    let open_sure = move |event: leptos::ev::KeyboardEvent| {
        if let Some(sure) = sure.filter(|_| event.alt_key() && event.key() == "ArrowDown") {
            event.prevent_default();
            sure.open(path);
        }
    };

    view! {
        <div
            class="field"
            class:field-wrong=move || wrong.get().is_some()
            class:field-own=move || is_own.get()
        >
            <label for=id.clone()>{label}</label>
            <div class="entry">
                <input
                    id=id
                    data-input=path.get_value()
                    type="text"
                    autocomplete="off"
                    autocapitalize="off"
                    spellcheck="false"
                    aria-describedby=notes.clone()
                    aria-invalid=move || wrong.get().is_some().then_some("true")
                    aria-keyshortcuts=sure.map(|_| "Alt+ArrowDown")
                    prop:value=move || typed.get()
                    on:input=move |event| enter(event_target_value(&event))
                    on:focus=move |_| was_own.set(is_own.get_untracked())
                    on:blur=leave
                    on:keydown=open_sure
                />
                <span class="unit" aria-hidden="true">
                    {move || match own_unit.get() {
                        true => String::new(),
                        false => unit_beside(workspace, quantity),
                    }}
                </span>
                <span class="other-system">{beside}</span>
            </div>
            <div class="notes" id=notes>
                {move || wrong.get().map(|wrong| view! { <p class="wrong" role="alert">{upper_first(&wrong.reason)}</p> })}
                {move || rejected.get().is_none().then(unusual).flatten().map(|text| view! { <p class="unusual">{text}</p> })}
                <p class="meaning">{meaning}</p>
                <p class="source" hidden=move || was_own.get()>"Default: " {input.source.sentence()} "."</p>
            </div>
            {sure.map(|sure| sure.view(path, quantity))}
        </div>
    }
}
