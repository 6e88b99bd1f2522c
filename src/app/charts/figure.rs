//! One chart in the page: heading, canvas, read-out, table.

use super::chart::{Answer, Chart, Line, Question};
use super::draw::{self, Frame};
use super::redraw;
use crate::app::Workspace;
use crate::app::panel::Panel;
use crate::app::shown::Show;
use crate::design::quantity::System;
use crate::design::{Design, Value};
use crate::review::Assessment;
use leptos::ev::PointerEvent;
use leptos::html;
use leptos::prelude::*;
use std::sync::Arc;

/// About so many rows in a table.
const ROWS: usize = 10;

/// Makes the chart of a design; boxed, so that the figure is compiled once for all charts.
pub type Builder = Arc<dyn Fn(&Design, &Assessment, System) -> Answer + Send + Sync>;

/// A chart that follows the design while its panel is on the screen; it is only drawn while it can be seen.
#[component]
pub fn ChartFigure(
    /// What it is about.
    question: Question,
    /// Builds it; signals read in here are not followed.
    answers: Builder,
    /// Changes with what `answers` reads beside the design.
    #[prop(into, default = Signal::derive(|| ()))]
    follows: Signal<()>,
    /// Whether the theme is dark.
    dark: ReadSignal<bool>,
    /// Controls above the chart.
    #[prop(optional)]
    children: Option<Children>,
) -> impl IntoView {
    let workspace = Workspace::get();
    let figure = NodeRef::<html::Figure>::new();
    let canvas = NodeRef::<html::Canvas>::new();
    let in_view = redraw::in_view(figure);
    let on_screen = workspace.on_screen(Panel::Charts);
    let resizes = redraw::resizes(canvas);
    let answer = RwSignal::new(None::<Answer>);
    // The units the answer is worded in; the page may already have moved on to others.
    let system = RwSignal::new(workspace.system.get_untracked());
    let reading = RwSignal::new(None::<f64>);
    let frame = RwSignal::new(None::<Frame>);

    Effect::new(move |waiting: Option<Option<TimeoutHandle>>| {
        if let Some(handle) = waiting.flatten() {
            handle.clear();
        }
        workspace.design.track();
        follows.track();
        let wanted = workspace.system.get();
        let first = answer.with_untracked(Option::is_none);
        let pause = redraw::pause(in_view.get(), on_screen.get(), first)?;
        let answers = answers.clone();
        let build_it = move || {
            let built = workspace.design.with_untracked(|design| {
                workspace
                    .assessment
                    .with_untracked(|assessment| answers(design, assessment, wanted))
            });
            if answer.with_untracked(|answer| answer.as_ref() != Some(&built)) {
                system.set(wanted);
                answer.set(Some(built));
            }
        };
        set_timeout_with_handle(build_it, pause).ok()
    });

    Effect::new(move |_| {
        answer.track();
        reading.track();
        dark.track();
        resizes.track();
        if !in_view.get() {
            return;
        }
        request_animation_frame(move || {
            let Some(Some(element)) = canvas.try_get_untracked() else {
                return;
            };
            answer.with_untracked(|answer| {
                if let Some(Ok(chart)) = answer {
                    let drawn = draw::draw(
                        &element,
                        chart,
                        reading.get_untracked(),
                        system.get_untracked(),
                    );
                    frame.set(drawn.ok().flatten());
                }
            });
        });
    });

    let chart = move |ask: fn(&Chart) -> String| {
        answer.with(|answer| match answer {
            Some(Ok(chart)) => ask(chart),
            _ => String::new(),
        })
    };
    let trouble = move || {
        answer.with(|answer| match answer {
            Some(Err(reason)) => Some(format!("Can't tell: {reason}")),
            _ => None,
        })
    };
    let has_chart = Memo::new(move |_| answer.with(|answer| matches!(answer, Some(Ok(_)))));
    // A mouse reads where it hovers, and leaves what was read before as it was unless it is pressed.
    let hovers = StoredValue::new(None::<Option<f64>>);
    let read_under = move |event: &PointerEvent| {
        let Some(frame) = frame.get_untracked() else {
            return;
        };
        let share = (f64::from(event.offset_x()) - frame.left) / (frame.right - frame.left);
        let x = answer.with_untracked(|answer| match answer {
            Some(Ok(chart)) => {
                let (from, to) = chart.span();
                let index = chart.nearest(from + share.clamp(0.0, 1.0) * (to - from));
                chart.at.get(index).copied()
            }
            _ => None,
        });
        reading.set(x);
    };
    let title_id = format!("chart-{}", question.name);
    let title_again = title_id.clone();
    view! {
        <figure class="chart" data-chart=question.name node_ref=figure aria-labelledby=title_again>
            <figcaption>
                <h3 id=title_id>{question.title}</h3>
                <p class="meaning">{question.meaning}</p>
            </figcaption>
            {children.map(|children| children())}
            <p class="chart-trouble cannot-tell">{trouble}</p>
            <div class="chart-body" hidden=move || !has_chart.get()>
                <p class="chart-words" aria-hidden="true">{move || chart(|chart| chart.words.clone())}</p>
                <canvas
                    node_ref=canvas
                    class:tall=move || chart(|chart| chart.panes.len().to_string()) == "2"
                    role="img"
                    aria-label=move || chart(|chart| chart.words.clone())
                    on:pointerdown=move |event| {
                        hovers.set_value(None);
                        read_under(&event);
                    }
                    on:pointerenter=move |event| {
                        if event.pointer_type() == "mouse" && event.buttons() == 0 {
                            hovers.set_value(Some(reading.get_untracked()));
                        }
                    }
                    on:pointermove=move |event| {
                        if event.buttons() != 0 || hovers.with_value(Option::is_some) {
                            read_under(&event);
                        }
                    }
                    on:pointerleave=move |_| {
                        if let Some(before) = hovers.get_value() {
                            hovers.set_value(None);
                            reading.set(before);
                        }
                    }
                ></canvas>
                <Reading answer reading system title=question.title />
                <Table answer system title=question.title />
            </div>
        </figure>
    }
}

/// What the lines say at one place, in words.
fn reading_in_words(chart: &Chart, x: f64, system: System) -> String {
    let index = chart.nearest(x);
    let place = chart.at.get(index).copied().unwrap_or(x);
    let values = chart.panes.iter().flat_map(|pane| {
        pane.lines.iter().filter_map(move |line| {
            let value = line.values.get(index).filter(|value| value.is_finite())?;
            Some(format!(
                "{} {}",
                line.label,
                pane.axis.quantity.show(*value, system)
            ))
        })
    });
    // Names of lines hold commas.
    let values: Vec<String> = values.collect();
    let told = match values.is_empty() {
        true => chart.none.to_string(),
        false => values.join("; "),
    };
    let place = chart.x.quantity.show(place, system);
    format!("{} {place}: {told}", chart.x.label)
}

/// The slider that reads the chart, and the button that takes the value into the design.
#[component]
fn Reading(
    answer: RwSignal<Option<Answer>>,
    reading: RwSignal<Option<f64>>,
    system: RwSignal<System>,
    title: &'static str,
) -> impl IntoView {
    let workspace = Workspace::get();
    let with_chart = move |ask: &dyn Fn(&Chart) -> String| {
        answer.with(|answer| match answer {
            Some(Ok(chart)) => ask(chart),
            _ => String::new(),
        })
    };
    let words = Memo::new(move |_| {
        let (x, system) = (reading.get(), system.get());
        with_chart(&|chart| match x {
            Some(x) => reading_in_words(chart, x, system),
            None => String::new(),
        })
    });
    let last = move || with_chart(&|chart| chart.at.len().saturating_sub(1).to_string());
    let place = move || {
        let x = reading.get();
        with_chart(&|chart| {
            let here = chart.uprights.first().map(|upright| upright.x);
            x.or(here).map_or(0, |x| chart.nearest(x)).to_string()
        })
    };
    let move_to = move |index: usize| {
        let x = answer.with_untracked(|answer| match answer {
            Some(Ok(chart)) => chart.at.get(index).copied(),
            _ => None,
        });
        reading.set(x);
    };
    let settable = Memo::new(move |_| {
        answer.with(|answer| matches!(answer, Some(Ok(chart)) if chart.lever.is_some()))
    });
    // What the design has already is nothing to take over, such as no layer at all.
    let is_new = move || {
        let x = reading.get();
        answer.with(|answer| match (answer, x) {
            (Some(Ok(chart)), Some(x)) => {
                let now = chart.uprights.first().map(|upright| upright.x);
                chart.at.get(chart.nearest(x)).copied() != now
            }
            _ => false,
        })
    };
    let take = move |_| {
        let change = answer.with_untracked(|answer| {
            let (Some(Ok(chart)), Some(x)) = (answer, reading.get_untracked()) else {
                return None;
            };
            let x = chart.at.get(chart.nearest(x))?;
            Some(chart.lever.as_ref()?.change(Value::Number(*x)))
        });
        if let Some(change) = change {
            workspace.apply(&change);
            reading.set(None);
        }
    };
    view! {
        <div class="chart-reading">
            <label>
                <span>"Read at"</span>
                <input
                    type="range"
                    min="0"
                    step="1"
                    max=last
                    prop:value=place
                    aria-label=format!("Read the chart: {title}")
                    aria-valuetext=move || words.get()
                    on:input=move |event| {
                        move_to(event_target_value(&event).parse().unwrap_or_default());
                    }
                />
            </label>
            <Show when=move || settable.get()>
                <button
                    type="button"
                    aria-label=format!("Use this value: {title}")
                    disabled=move || !is_new()
                    on:click=take
                >
                    "Use this value"
                </button>
            </Show>
            <p class="chart-says">
                {move || {
                    let words = words.get();
                    if words.is_empty() { "Move the slider or touch the chart to read it.".to_string() } else { words }
                }}
            </p>
        </div>
    }
}

/// The chart in numbers; only made while it is open.
#[component]
fn Table(
    answer: RwSignal<Option<Answer>>,
    system: RwSignal<System>,
    title: &'static str,
) -> impl IntoView {
    let open = RwSignal::new(false);
    let table = move || {
        let system = system.get();
        answer.with(|answer| match answer {
            Some(Ok(chart)) => Some(rows(chart, system, title)),
            _ => None,
        })
    };
    view! {
        <details
            class="chart-table"
            on:toggle=move |event| {
                open.set(event_target::<web_sys::Element>(&event).has_attribute("open"));
            }
        >
            <summary aria-label=format!("As a table: {title}")>"As a table"</summary>
            <div class="chart-table-room" tabindex="0" role="region" aria-label=format!("Table: {title}")>
                {move || open.get().then(table)}
            </div>
        </details>
    }
}

/// The places that get a row: evenly spread ones, the last, the design as it is, and others worth one.
fn places(chart: &Chart) -> Vec<usize> {
    let stride = chart.at.len().div_ceil(ROWS).max(1);
    let mut places: Vec<usize> = (0..chart.at.len()).step_by(stride).collect();
    let (first, last) = chart.span();
    let uprights = chart.uprights.iter().map(|upright| upright.x);
    let noted = uprights.chain(chart.noted.iter().map(|(x, _)| *x));
    let inside = noted.filter(|x| (first..=last).contains(x));
    places.extend(inside.map(|x| chart.nearest(x)));
    places.extend(chart.at.len().checked_sub(1));
    places.sort_unstable();
    places.dedup();
    places
}

/// What is said of a place beside its number; nothing where that is not the very place.
fn remarks(chart: &Chart, place: &str, system: System) -> String {
    let is_here = |x: f64| chart.x.quantity.show(x, system) == place;
    let uprights = (chart.uprights.iter()).filter(|upright| is_here(upright.x));
    let words = uprights.map(|upright| upright.label.trim_end_matches(place).trim_end());
    let noted = chart.noted.iter().filter(|(x, _)| is_here(*x));
    let all: Vec<&str> = words.chain(noted.map(|(_, words)| *words)).collect();
    match all.is_empty() {
        true => String::new(),
        false => format!(" ({})", all.join(", ")),
    }
}

fn rows(chart: &Chart, system: System, title: &'static str) -> impl IntoView + use<> {
    let lines =
        || (chart.panes.iter()).flat_map(|pane| pane.lines.iter().map(move |line| (pane, line)));
    let several = chart.panes.len() > 1;
    let heads = lines()
        .map(|(pane, line)| {
            let name = if several && pane.lines.len() > 1 {
                format!("{}, {}", pane.axis.label, line.label)
            } else if several {
                pane.axis.label.to_string()
            } else {
                line.label.to_string()
            };
            view! { <th scope="col">{name}</th> }
        })
        .collect_view();
    let places = places(chart);
    let columns: Vec<Vec<String>> = lines()
        .map(|(pane, line)| {
            let value = |place: &usize| line.values.get(*place).copied().unwrap_or(f64::NAN);
            let values: Vec<f64> = places.iter().map(value).collect();
            pane.axis.quantity.show_column(&values, system)
        })
        .collect();
    let body = (places.iter().enumerate())
        .map(|(row, place)| {
            let x = chart.at.get(*place).copied().unwrap_or(f64::NAN);
            let x = chart.x.quantity.show(x, system);
            let has_value =
                |(_, line): (_, &Line)| line.values.get(*place).is_some_and(|it| it.is_finite());
            let cells = match lines().any(has_value) {
                true => (columns.iter())
                    .filter_map(|column| column.get(row))
                    .map(|text| view! { <td>{text.clone()}</td> })
                    .collect_view()
                    .into_any(),
                false => {
                    view! { <td colspan=columns.len().to_string()>{chart.none}</td> }.into_any()
                }
            };
            let remarks = remarks(chart, &x, system);
            view! {
                <tr>
                    <th scope="row">{x}{remarks}</th>
                    {cells}
                </tr>
            }
        })
        .collect_view();
    view! {
        <table>
            <caption class="visually-hidden">{title}</caption>
            <thead>
                <tr>
                    <th scope="col">{chart.x.label}</th>
                    {heads}
                </tr>
            </thead>
            <tbody>{body}</tbody>
        </table>
    }
}
