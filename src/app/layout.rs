//! The one screen: the machine in view, verdicts beside it, inputs by part. On a phone the panels
//! take turns under the drawing; on a desk they stand side by side.

use super::Workspace;
use super::back::lead_back;
use super::beside::quicken;
use super::charts::Charts;
use super::compare::{Compare, Comparison, ComparisonBar};
use super::drafts::{self, Designs, Drafts, Notices};
use super::drawing::{Drawing, Larger, Look, TiltControl};
use super::fields::read_again;
use super::focus;
use super::form::Form;
use super::guide::Guide;
use super::how_sure::Sureness;
use super::landing;
use super::media;
use super::panel::{Late, Panel};
use super::results::Results;
use super::train::TrainDiagram;
use super::turns::{Turns, soon};
use super::verdicts::{LastStep, Search, Summary, Verdicts, WorstByName};
use super::workshop::{Printer, Workshop};
use crate::app::shown::{Show, live};
use crate::design::Design;
use crate::design::quantity::System;
use leptos::ev;
use leptos::prelude::*;
use wasm_bindgen::JsCast as _;

/// Id of the button that takes the last step back.
pub const UNDO: &str = "undo";

/// Narrow screens on which the machine stands above the panels, as a media query; the style sheets say the same.
const STACKED: &str = "(max-width: 56.19em) and (min-height: 30.01em)";

/// The whole app.
#[component]
pub fn Screen() -> impl IntoView {
    let workspace = Workspace::new(Design::default(), drafts::system());
    provide_context(workspace);
    // The first look at the assessment makes it, in a turn before the others.
    soon(move || workspace.assessment.with_untracked(|_| ()));
    let turns = Turns::start(take_first_words_away);
    provide_context(turns);
    let comparison = Comparison::start(workspace);
    provide_context(comparison);
    provide_context(Drafts::start(workspace, comparison));
    provide_context(Search::start(workspace));
    provide_context(LastStep::start(workspace));
    provide_context(Sureness::start(workspace));
    provide_context(Printer::start(workspace));
    listen_for_undo(workspace);
    lead_back(workspace, comparison);
    quicken();
    let its_turn = turns.frame();
    view! {
        <Show when=move || its_turn.get()>
            <Frame />
        </Show>
    }
}

/// The places of everything, and what the screen is governed with.
#[component]
fn Frame() -> impl IntoView {
    let workspace = Workspace::get();
    let comparison = Comparison::get();
    let turns = Turns::get();
    let (counts, drawing) = (turns.counts(), turns.drawing());
    let (driving, verdicts, made) = (turns.driving(), turns.verdicts(), turns.are_over());
    let look = RwSignal::new(Look::FIRST);
    // The slope a person tries out, in degrees: a question to the drawing, not a part of the design.
    let tilt = RwSignal::new(0.0_f64);
    // Where the machine stands above the verdicts, what mends it comes before what tilts it.
    let stacked = media::matches(STACKED);
    let below = Memo::new(move |_| stacked.get() && workspace.panel.get() == Panel::Verdicts);
    let asking = Memo::new(move |_| workspace.question.with(Option::is_some));
    view! {
        <button type="button" class="skip" on:click=move |_| skip_to_verdicts(workspace)>
            "Skip to the verdicts"
        </button>
        <button type="button" class="skip" on:click=move |_| skip_to_numbers(workspace)>
            "Skip to the numbers"
        </button>
        <Header />
        <div class="above">
            <Notices />
            <ComparisonBar />
        </div>
        <main
            class="screen"
            data-panel=move || workspace.panel.get().name()
            data-made=move || made.get().to_string()
            data-asking=move || asking.get().to_string()
        >
            <div class="left">
                <section class="bench" aria-label="The machine">
                    <div class="stays">
                        <Show when=move || counts.get()>
                            <Summary />
                        </Show>
                        <Show when=move || drawing.get()>
                            <UndoAtHand />
                            <Larger look tilt />
                            <Drawing look tilt />
                        </Show>
                    </div>
                    <Show when=move || counts.get()>
                        <WorstByName />
                    </Show>
                    <Show when=move || driving.get() && !below.get()>
                        <TiltControl look tilt />
                    </Show>
                </section>
                <section class="panel panel-train" id="panel-train" aria-label="Gas train">
                    <Late panel=Panel::Train>
                        <TrainDiagram />
                    </Late>
                </section>
                <section class="panel panel-charts" id="panel-charts" aria-label="Charts">
                    <Late panel=Panel::Charts>
                        <Charts />
                        <Results />
                    </Late>
                </section>
                <section class="panel panel-workshop" id="panel-workshop" aria-label="Workshop">
                    <Late panel=Panel::Workshop>
                        <Workshop />
                    </Late>
                </section>
            </div>
            <section class="panel panel-verdicts" id="panel-verdicts" aria-label="Verdicts">
                <Show when=move || verdicts.get()>
                    <Verdicts below=move || {
                        view! {
                            <Show when=move || driving.get() && below.get()>
                                <TiltControl look tilt />
                            </Show>
                        }
                    } />
                </Show>
            </section>
            <section class="panel panel-numbers" id="panel-numbers" aria-label="Numbers">
                <Late panel=Panel::Numbers>
                    {live(move || {
                        if asking.get() {
                            view! { <Guide /> }.into_any()
                        } else {
                            view! { <Form /> }.into_any()
                        }
                    })}
                </Late>
            </section>
            <section class="panel panel-designs" id="panel-designs" aria-label="Designs">
                <Late panel=Panel::Designs>
                    <Designs />
                </Late>
            </section>
            <Show when=move || comparison.is_on()>
                <section class="panel panel-compare" id="panel-compare" aria-label="Compare">
                    <Compare />
                </section>
            </Show>
        </main>
        <PanelBar />
        <p class="visually-hidden" aria-live="polite" id="said">
            {move || workspace.said.get()}
        </p>
    }
}

/// Takes what the page showed before the app was there out of it.
fn take_first_words_away() {
    for id in ["first-screen", "first-paint"] {
        if let Some(element) = document().get_element_by_id(id) {
            element.remove();
        }
    }
}

/// Past drawing and gas train, which are many steps of the keyboard.
fn skip_to_verdicts(workspace: Workspace) {
    workspace.panel.set(Panel::Verdicts);
    focus::soon(vec!["#panel-verdicts button".to_string()]);
}

/// Past the verdicts too.
fn skip_to_numbers(workspace: Workspace) {
    workspace.panel.set(Panel::Numbers);
    focus::soon(vec![
        "#panel-numbers h2".to_string(),
        "#panel-numbers summary".to_string(),
    ]);
}

/// What a desk shows all at once, in the order of its links.
pub(super) const DESK: [Panel; 5] = [
    Panel::Verdicts,
    Panel::Numbers,
    Panel::Train,
    Panel::Charts,
    Panel::Workshop,
];

/// Brings a part of the desk into view and gives it the focus, so that the keyboard goes on from there.
fn lead_to(workspace: Workspace, panel: Panel) {
    workspace.panel.set(panel);
    request_animation_frame(move || {
        let part = document().get_element_by_id(&format!("panel-{}", panel.name()));
        let Some(part) = part.and_then(|part| part.dyn_into::<web_sys::HtmlElement>().ok()) else {
            return;
        };
        // An element of the page takes the attribute, and then the focus.
        let _ = part.set_attribute("tabindex", "-1");
        let _ = part.focus();
        part.scroll_into_view();
    });
}

#[component]
fn Header() -> impl IntoView {
    let workspace = Workspace::get();
    let name = move || {
        workspace
            .design
            .with(|design| drafts::called(&design.about.name))
    };
    let invented = move || workspace.design.with(|design| design.about.invented);
    // Tabs, bookmarks and the browser's history are told apart by it.
    let title = Memo::new(move |_| format!("{} · Hearthplan", name()));
    Effect::new(move |_| document().set_title(&title.get()));
    view! {
        <header class="top">
            <h1>
                {name}
                <Show when=invented>
                    <span class="invented">"Invented example"</span>
                </Show>
            </h1>
            <nav class="parts" aria-label="Parts of the page">
                {DESK
                    .into_iter()
                    .map(|panel| {
                        view! {
                            <button type="button" on:click=move |_| lead_to(workspace, panel)>
                                {panel.label()}
                            </button>
                        }
                    })
                    .collect_view()}
            </nav>
            <div class="tools" role="toolbar" aria-label="Design">
                <button
                    type="button"
                    id=UNDO
                    title="Undo (Ctrl+Z)"
                    aria-label="Undo"
                    disabled=move || !workspace.can_undo()
                    on:click=move |_| workspace.undo()
                >
                    "↶"
                </button>
                <button
                    type="button"
                    title="Redo (Ctrl+Y)"
                    aria-label="Redo"
                    disabled=move || !workspace.can_redo()
                    on:click=move |_| workspace.redo()
                >
                    "↷"
                </button>
                <UnitSwitch />
                <button
                    type="button"
                    class="designs-button"
                    aria-expanded=move || (workspace.panel.get() == Panel::Designs).to_string()
                    aria-controls="panel-designs"
                    on:click=move |_| match workspace.panel.get_untracked() {
                        Panel::Designs => workspace.panel.set(Panel::Verdicts),
                        _ => lead_to(workspace, Panel::Designs),
                    }
                >
                    "Designs and sharing"
                </button>
            </div>
        </header>
    }
}

/// On a phone the header scrolls away, while the drawing stays: its corner has the way back, once there is one.
#[component]
fn UndoAtHand() -> impl IntoView {
    let workspace = Workspace::get();
    view! {
        <div class="undo-at-hand">
            <button
                type="button"
                aria-label="Undo the last step"
                hidden=move || !workspace.can_undo()
                on:click=move |_| workspace.undo()
            >
                "↶"
            </button>
        </div>
    }
}

#[component]
fn UnitSwitch() -> impl IntoView {
    let workspace = Workspace::get();
    let choose = move |system: System| {
        workspace.finish_typing();
        workspace.system.set(system);
        read_again(workspace);
        drafts::remember_system(match system {
            System::Metric => "metric",
            System::Inch => "inch",
        });
    };
    let button = move |system: System, label: &'static str, name: &'static str| {
        view! {
            <button
                type="button"
                aria-pressed=move || (workspace.system.get() == system).to_string()
                aria-label=name
                on:click=move |_| choose(system)
            >
                {label}
            </button>
        }
    };
    view! {
        <div class="switch" role="group" aria-label="Units">
            {button(System::Metric, "mm", "mm, metric units")}
            {button(System::Inch, "in", "in, inch units")}
        </div>
    }
}

/// The bar a thumb reaches, only shown on narrow screens.
#[component]
fn PanelBar() -> impl IntoView {
    let workspace = Workspace::get();
    let comparison = Comparison::get();
    // How far each panel was scrolled past its beginning when it was left.
    let places = StoredValue::new([0.0; Panel::ALL.len()]);
    let look_at = move |panel: Panel| {
        let left = workspace.panel.get_untracked();
        if left == panel {
            return;
        }
        let place_of = |panel: Panel| Panel::ALL.iter().position(|one| *one == panel);
        if let Some(place) = place_of(left) {
            let passed = landing::passed(left);
            places.update_value(|places| places[place] = passed);
        }
        workspace.panel.set(panel);
        let passed = place_of(panel).map_or(0.0, |place| places.with_value(|places| places[place]));
        request_animation_frame(move || landing::land(panel, passed));
    };
    view! {
        <nav class="panel-bar" aria-label="Panels">
            {Panel::ALL
                .into_iter()
                .map(|panel| {
                    view! {
                        <button
                            type="button"
                            aria-pressed=move || (workspace.panel.get() == panel).to_string()
                            hidden=move || panel == Panel::Compare && !comparison.is_on()
                            on:click=move |_| look_at(panel)
                        >
                            {panel.label()}
                        </button>
                    }
                })
                .collect_view()}
        </nav>
    }
}

/// Texts that are no part of the design, such as a note: there the browser takes back what was typed.
const OTHER_TEXTS: &str = "textarea:not([data-input]), input[type=text]:not([data-input]):not([data-spread]):not([readonly])";

/// Ctrl+Z, Ctrl+Y and their neighbours work anywhere but inside a text that is no part of the design.
fn listen_for_undo(workspace: Workspace) {
    let handle = window_event_listener(ev::keydown, move |event| {
        let target = event
            .target()
            .and_then(|it| it.dyn_into::<web_sys::Element>().ok());
        let in_other_text =
            || target.is_some_and(|target| target.matches(OTHER_TEXTS).unwrap_or(false));
        if !(event.ctrl_key() || event.meta_key()) || in_other_text() {
            return;
        }
        match (event.key().to_ascii_lowercase().as_str(), event.shift_key()) {
            ("z", false) => workspace.undo(),
            ("z", true) | ("y", _) => workspace.redo(),
            _ => return,
        }
        event.prevent_default();
    });
    on_cleanup(move || handle.remove());
}
