//! The changes that would make a question pass, in words, with a button that applies them.

use super::search::Search;
use crate::app::Workspace;
use crate::app::focus;
use crate::app::layout::UNDO;
use crate::app::naming::{NAMING, lower_first, of_input};
use crate::app::shown::{Show, live};
use crate::design::quantity::System;
use crate::design::{Design, Value};
use crate::review::{Assessment, BestStep, Change, Lever, Remedy, Verdict};
use leptos::prelude::*;

/// The offer in words.
pub fn offer(remedy: &Remedy, design: &Design, system: System) -> String {
    match &remedy.lever {
        Lever::Input(path) => {
            let name = of_input(design, path, remedy.input);
            match &remedy.value {
                Some(value) => {
                    let now = design.get(path).unwrap_or(Value::Empty);
                    let [now, then] = remedy.input.show_alike([&now, value], system);
                    format!("{name} {now} → {then}")
                }
                None => format!("{name}: no allowed value is enough alone"),
            }
        }
        Lever::NewItem { list, fields, .. } => {
            let info = Design::LISTS.iter().find(|info| info.name == *list);
            let heading = info.map_or("", |info| info.label);
            let what = NAMING
                .iter()
                .find_map(|naming| fields.iter().find(|(name, _)| name == naming))
                .and_then(|(name, value)| {
                    let input = info?.inputs.iter().find(|input| input.name == *name)?;
                    Some(lower_first(&input.show(value, system)))
                })
                .unwrap_or_default();
            match &remedy.value {
                Some(value) => format!(
                    "{heading}: add {what}, {}",
                    remedy.input.show(value, system)
                ),
                None => format!("{heading}: adding {what} is not enough alone"),
            }
        }
    }
}

/// Said where no lever is enough alone.
pub const NO_WAY: &str = "No single change is enough here: it takes two or more together.";

/// Whether levers were tried, and none is enough alone.
pub fn none_passes(remedies: &[Remedy]) -> bool {
    !remedies.is_empty() && remedies.iter().all(|remedy| remedy.change.is_none())
}

/// The remedies of one finding. Levers that are not enough alone are only
/// told when `all` are asked for.
#[component]
pub fn Remedies(id: &'static str, all: RwSignal<bool>) -> impl IntoView {
    let search = Search::get();
    let found = Memo::new(move |_| {
        search
            .outcome
            .with(|outcome| outcome.remedies.get(id).cloned())
    });
    let none_passes = move || found.with(|found| found.as_deref().is_some_and(none_passes));
    view! {
        <Show when=none_passes>
            <p class="no-way">{NO_WAY}</p>
        </Show>
        <ul class="remedies">
            {move || {
                found
                    .get()
                    .unwrap_or_default()
                    .into_iter()
                    .filter(|remedy| all.get() || remedy.change.is_some())
                    .map(|remedy| view! { <Offer remedy /> })
                    .collect_view()
            }}
        </ul>
    }
}

/// What a step does to all verdicts, in words.
pub fn effect(step: &BestStep) -> String {
    let stops = step.stops;
    if stops.1 < stops.0 {
        format!(": removes {} of {} Stops", stops.0 - stops.1, stops.0)
    } else {
        format!(": makes {} more Good", step.more_watches.unsigned_abs())
    }
}

/// The single changes that mend most.
#[component]
pub fn BestSteps() -> impl IntoView {
    let search = Search::get();
    let best = Memo::new(move |_| search.outcome.with(|outcome| outcome.best.clone()));
    let looking = Memo::new(move |_| !search.is_current.get());
    view! {
        <Show when=move || looking.get() || best.with(|best| !best.is_empty())>
            <section
                class="best-step"
                class:has-steps=move || best.with(|best| !best.is_empty())
                aria-label="Best step"
            >
                <h2>"Best step" <span class="again">{STILL_LOOKING}</span></h2>
                <Show when=move || best.with(Vec::is_empty)>
                    <p class="meaning">"Looking for what would mend most…"</p>
                </Show>
                <ul class="remedies">
                    {move || {
                        best.get()
                            .into_iter()
                            .map(|step| {
                                let effect = effect(&step);
                                view! { <Offer remedy=step.remedy effect /> }
                            })
                            .collect_view()
                    }}
                </ul>
            </section>
        </Show>
    }
    .into_any()
}

/// Said of changes that were found before the design changed.
const STILL_LOOKING: &str = "for the numbers before; looking again…";

/// Most verdicts named that a change makes worse, unless they are Stops; more would hide what it mends.
const MOST_TOLD: usize = 2;

/// What to know of a change before it is taken, and what else it does that is not wanted, in words; empty if nothing.
pub fn side_effects(remedy: &Remedy, assessment: &Assessment, system: System) -> String {
    let told = |stops: bool| {
        let worse = remedy.worsens.iter();
        worse
            .filter(move |(_, _, after)| (*after == Verdict::Stop) == stops)
            .filter_map(|(id, _, after)| {
                let title = assessment.finding(id)?.title;
                Some(format!("then {}: {title}", after.word()))
            })
    };
    let stops: Vec<_> = told(true).collect();
    let room = MOST_TOLD.max(stops.len());
    let mut told: Vec<_> = stops.into_iter().chain(told(false)).collect();
    let untold = told.len().saturating_sub(room);
    told.truncate(room);
    let mut words = (remedy.reservations(system).into_iter().chain(told))
        .collect::<Vec<_>>()
        .join("; ");
    if untold > 0 {
        words.push_str(&format!("; and {untold} more get worse"));
    }
    words
}

#[component]
fn Offer(remedy: Remedy, #[prop(optional)] effect: String) -> impl IntoView {
    let workspace = Workspace::get();
    let search = Search::get();
    let is_current = search.is_current;
    let words = {
        let remedy = remedy.clone();
        move || {
            // A new name changes the words of a remedy that is the same otherwise.
            search.outcome.track();
            workspace
                .design
                .with_untracked(|design| offer(&remedy, design, workspace.system.get()))
        }
    };
    let aside = {
        let remedy = remedy.clone();
        move || {
            let told = workspace.assessment.with_untracked(|assessment| {
                side_effects(&remedy, assessment, workspace.system.get())
            });
            (!told.is_empty())
                .then(|| view! { <span class="side-effect">" (" {told} ")"</span> })
                .into_any()
        }
    };
    let apply = remedy.change.clone().map(|change: Change| {
        // What was found for an earlier state of the design may no longer mend it.
        let told = words.clone();
        let press = move |event: leptos::ev::MouseEvent| {
            if is_current.get_untracked() {
                let told = told();
                workspace.apply(&change);
                workspace
                    .said
                    .set(format!("Done: {told}. Undo takes it back."));
                // Pressed by a key: the button goes, and whoever sees nothing would be left nowhere.
                if event.detail() == 0 {
                    focus::soon(vec![format!("#{UNDO}")]);
                }
            } else {
                workspace.said.set(format!("Found {STILL_LOOKING}"));
            }
        };
        view! {
            <button
                type="button"
                class="apply"
                aria-disabled=move || (!is_current.get()).to_string()
                on:click=press
            >
                "Apply"
            </button>
        }
    });
    view! {
        <li class:no-way=remedy.change.is_none()>
            <span>
                {words}
                {effect}
                {live(aside)}
            </span>
            {apply}
        </li>
    }
}
