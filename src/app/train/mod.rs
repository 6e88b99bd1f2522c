//! The gas train as a process diagram: every stage in its order, the gas between them in numbers.
//!
//! The figure is plain data ([`chain`]), laid out as elements ([`sheet`]): made anew on every change
//! and laid over what is shown, so that one handler serves all its buttons.

mod chain;
mod cyclone;
mod kinds;
mod pen;
mod sheet;
mod symbols;
mod words;

use super::Workspace;
use super::charts::redraw;
use super::form::arrange::{self, Place};
use super::markup::following;
use super::panel::Panel;
use super::shown::Show;
use super::verdicts::{Mark, mark, show_reasons};
use crate::design::Design;
use crate::design::quantity::{Quantity, System};
use crate::paper::sheets::Drawing;
use crate::review::{Assessment, Verdict, worst_first};
use chain::{Chain, Load};
pub use cyclone::CycloneFigure;
use kinds::{Asked, Kinds};
use leptos::html;
use leptos::prelude::*;
use sheet::Sheet;
use wasm_bindgen::JsCast as _;

const LIST: &str = "train";
/// What the findings are about that speak of the train.
const ABOUT: [&str; 4] = [LIST, "raw_gas", "pipes", "blower"];

/// How warm the gas leaves a stage at full load; none for items of other lists.
pub fn leaves(workspace: Workspace, place: Place) -> Option<String> {
    let system = workspace.system.get();
    workspace.assessment.with(|assessment| {
        let found = assessment.train.full_clean.as_ref();
        let points = match found {
            Ok(found) => &found.points,
            Err(error) => &error.reached.points,
        };
        let gas = (place.list == LIST).then(|| points.get(place.index + 1))??;
        Some(Quantity::Temperature.show(gas.temperature.value, system))
    })
}

/// The train at full load, as a drawing that stands by itself.
pub fn on_paper(design: &Design, assessment: &Assessment, system: System) -> Drawing {
    let chain = Chain::of(design, assessment, Load::Full, system);
    let words: Vec<String> = chain.stations.iter().map(chain::Station::words).collect();
    let words = format!("The gas train at full load. {}", words.join(". "));
    Drawing {
        name: "gas-train".to_string(),
        svg: sheet::on_paper(&chain),
        words,
        is_captioned: false,
    }
}

/// Leads from the form to the diagram.
#[component]
pub fn ToDiagram() -> impl IntoView {
    let workspace = Workspace::get();
    let show = move |_| {
        workspace.panel.set(Panel::Train);
        request_animation_frame(|| {
            if let Some(panel) = document().get_element_by_id("panel-train") {
                panel.scroll_into_view();
            }
        });
    };
    view! {
        <button type="button" on:click=show>
            "See it as a diagram"
        </button>
    }
}

/// The figure with the choice of load, what fails, and the same numbers as a table.
#[component]
pub fn TrainDiagram() -> impl IntoView {
    let workspace = Workspace::get();
    let load = RwSignal::new(Load::Full);
    let asked = RwSignal::new(None::<Asked>);
    let figure = NodeRef::<html::Figure>::new();
    let in_view = redraw::in_view(figure);
    let wanted = Memo::new(move |_| in_view.get());
    let chain = Memo::new(move |before: Option<&Option<Chain>>| {
        if !wanted.get() {
            return before.cloned().flatten();
        }
        let (load, system) = (load.get(), workspace.system.get());
        Some(workspace.assessment.with(|assessment| {
            let made = |design: &_| Chain::of(design, assessment, load, system);
            workspace.design.with_untracked(made)
        }))
    });
    let sheet = Memo::new(move |_| {
        let open = workspace
            .item
            .get()
            .and_then(|(list, index)| (list == LIST).then_some(index));
        chain.with(|chain| chain.as_ref().map(|chain| sheet::draw(chain, open)))
    });
    let elements = move || {
        let elements = |sheet: &Option<Sheet>| sheet.as_ref().map(|sheet| sheet.elements.clone());
        sheet.with(elements).unwrap_or_default()
    };
    let height = Memo::new(move |before: Option<&f64>| {
        let needed = sheet.with(|sheet| sheet.as_ref().map_or(100.0, |sheet| sheet.height));
        sheet::steady(before.copied(), needed)
    });
    let view_box = move || format!("0 0 {} {:.0}", sheet::WIDTH, height.get());
    let trouble =
        move || chain.with(|chain| chain.as_ref().and_then(|chain| chain.trouble.clone()));
    view! {
        <figure class="train" node_ref=figure aria-labelledby="train-title">
            <figcaption>
                <h2 id="train-title">"From hearth to engine"</h2>
                <p class="meaning">
                    "Pressures are against the air outside; below it a leak draws air in. Tap a stage to change it."
                </p>
                <p class="meaning in-large-text">
                    "The words of the figure do not grow with your text: read it as a table, below it."
                </p>
            </figcaption>
            <div class="train-load" role="radiogroup" aria-label="Load">
                {Load::ALL.map(|choice| load_choice(choice, load)).collect_view()}
            </div>
            <p class="chart-trouble stop">{trouble}</p>
            <svg
                role="group"
                aria-label="The gas train, stage by stage"
                viewBox=view_box
                on:click=move |event| {
                    press(workspace, asked, event.target());
                }
                on:keydown=move |event| {
                    if matches!(event.key().as_str(), "Enter" | " ")
                        && press(workspace, asked, event.target())
                    {
                        event.prevent_default();
                    }
                }
            >
                {following(elements)}
            </svg>
            <Show when=move || asked.with(Option::is_some)>
                <Kinds asked />
            </Show>
            <Failing wanted />
            <Table chain />
        </figure>
    }
    .into_any()
}

fn load_choice(choice: Load, load: RwSignal<Load>) -> impl IntoView {
    view! {
        <label>
            <input
                type="radio"
                name="train-load"
                prop:checked=move || load.get() == choice
                on:change=move |_| load.set(choice)
            />
            <span>{choice.label()}</span>
        </label>
    }
}

/// Does what the pressed part of the figure is for; says whether there was one.
fn press(
    workspace: Workspace,
    asked: RwSignal<Option<Asked>>,
    target: Option<web_sys::EventTarget>,
) -> bool {
    let button = target
        .and_then(|target| target.dyn_into::<web_sys::Element>().ok())
        .and_then(|element| element.closest("[data-act]").ok().flatten());
    let Some(button) = button else {
        return false;
    };
    let read = |name| button.get_attribute(name).unwrap_or_default();
    let index = read("data-stage").parse().unwrap_or(0_usize);
    let place = Place { list: LIST, index };
    match read("data-act").as_str() {
        "open" => arrange::show(workspace, place),
        "add" => kinds::ask(asked, place, &button),
        "up" => arrange::move_to(workspace, place, index.saturating_sub(1), "diagram"),
        "down" => arrange::move_to(workspace, place, index + 1, "diagram"),
        "engine" => workspace.show_group("gas"),
        _ => workspace.show_group("train"),
    }
    true
}

/// What of the verdicts speaks of the train and is not Good, worst first; each leads to its verdict.
#[component]
fn Failing(wanted: Memo<bool>) -> impl IntoView {
    let workspace = Workspace::get();
    let failing = Memo::new(move |before: Option<&Vec<Failed>>| {
        if !wanted.get() {
            return before.cloned().unwrap_or_default();
        }
        workspace.assessment.with(|assessment| {
            (worst_first(&assessment.findings).into_iter())
                .filter(|finding| ABOUT.contains(&finding.about))
                .map(|finding| (finding.verdict, finding.id, finding.title))
                .collect()
        })
    });
    move || {
        failing
            .get()
            .into_iter()
            .map(|(verdict, id, title)| {
                view! {
                    <button
                        type="button"
                        class=format!("verdict-line {}", mark::class(verdict))
                        data-leads=id
                        on:click=move |_| show_reasons(workspace, id)
                    >
                        <span class="verdict">
                            <Mark verdict />
                            {verdict.word()}
                        </span>
                        <span>{title}</span>
                    </button>
                }
            })
            .collect_view()
    }
}

/// A verdict with the id and the title of its question.
type Failed = (Verdict, &'static str, &'static str);

/// What the table tells of the gas behind a stage.
const HEADINGS: [&str; 4] = ["Temperature", "Pressure", "Flow", "Water"];

/// The same numbers as a table, folded on a phone as the sheets are; only made while it is open.
#[component]
fn Table(chain: Memo<Option<Chain>>) -> impl IntoView {
    let open = RwSignal::new(false);
    let rows = move || {
        chain.with(|chain| {
            let points = chain.iter().flat_map(Chain::points);
            points
                .map(|(behind, point)| {
                    let cells = point.map(|point| {
                        let cells = [
                            &point.temperature,
                            &point.pressure,
                            &point.flow,
                            &point.water,
                        ];
                        HEADINGS
                            .into_iter()
                            .zip(cells)
                            .map(|(head, cell)| view! { <td class="number" data-label=head>{cell.clone()}</td> })
                            .collect_view()
                    });
                    view! {
                        <tr>
                            <th scope="row">{behind.to_string()}</th>
                            {cells}
                        </tr>
                    }
                })
                .collect_view()
        })
    };
    view! {
        <details
            class="chart-table"
            on:toggle=move |event| {
                open.set(event_target::<web_sys::Element>(&event).has_attribute("open"));
            }
        >
            <summary aria-label="As a table: gas train">"As a table"</summary>
            <div class="chart-table-room sheet" tabindex="0" role="region" aria-label="Table: gas train">
                <table>
                    <thead>
                        <tr>
                            <th scope="col">"Behind"</th>
                            {HEADINGS.map(|head| view! { <th scope="col" class="number">{head}</th> }).collect_view()}
                        </tr>
                    </thead>
                    <tbody>{move || open.get().then(rows)}</tbody>
                </table>
            </div>
        </details>
    }
    .into_any()
}
