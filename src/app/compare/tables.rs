//! What differs, folded: verdicts line by line, numbers and inputs as tables of two cells and their difference.

use super::Comparison;
use super::rows::{Answers, Row, press};
use crate::app::focus;
use crate::app::shown::{Show, live};
use crate::app::verdicts::{Mark, class};
use crate::review::Verdict;
use leptos::prelude::*;
use std::collections::BTreeMap;

/// Each question on one line: what it was answered with both times, and its sentences in a fold.
#[component]
pub fn Verdicts(answers: Memo<Vec<Answers>>) -> impl IntoView {
    let comparison = Comparison::get();
    let lines = move || {
        let names = comparison.names.get();
        answers
            .get()
            .into_iter()
            .map(|each| question(&names, each))
            .collect_view()
            .into_any()
    };
    view! {
        <h3>"Verdicts"</h3>
        <Show when=move || answers.with(Vec::is_empty)>
            <p>"Every question has the same verdict in both."</p>
        </Show>
        <ul class="verdict-pairs" data-table="Verdicts">{live(lines)}</ul>
    }
}

/// In the place of a verdict where the question does not arise.
const NOT_ASKED: &str = "does not arise";

fn question(names: &[String; 2], answers: Answers) -> AnyView {
    let word = |each: &Option<(Verdict, String)>| match each.as_ref().map(|each| each.0) {
        Some(verdict) => view! {
            <span class=format!("verdict {}", class(verdict))>
                <Mark verdict />
                {verdict.word()}
            </span>
        }
        .into_any(),
        None => view! { <span class="verdict">{NOT_ASKED}</span> }.into_any(),
    };
    let [before, after] = answers.each.each_ref().map(word);
    let sentences = names.iter().zip(&answers.each).map(|(name, each)| {
        let told = each.as_ref().map_or(NOT_ASKED, |(_, told)| told.as_str());
        view! {
            <dt>{name.clone()}</dt>
            <dd class="value">{told.to_string()}</dd>
        }
    });
    let sentences = sentences.collect_view();
    view! {
        <li data-question=answers.id>
            <details>
                <summary>
                    <span class="title">{answers.title}</span>
                    <span class="both">{before} " → " {after}</span>
                    <span class="less">{answers.told}</span>
                </summary>
                <dl>{sentences}</dl>
            </details>
        </li>
    }
    .into_any()
}

/// So few rows need no folding.
const FEW: usize = 12;

/// Rows in folds, each made while it is open.
#[component]
pub fn Folds(title: &'static str, rows: Memo<Vec<Row>>) -> impl IntoView {
    let folds = Memo::new(move |_| {
        let mut folds: Vec<(&'static str, usize)> = Vec::new();
        rows.with(|rows| {
            for row in rows {
                match folds.iter_mut().find(|(label, _)| *label == row.fold) {
                    Some((_, count)) => *count += 1,
                    None => folds.push((row.fold, 1)),
                }
            }
        });
        folds
    });
    // What a person opened or closed stays so.
    let chosen = RwSignal::new(BTreeMap::new());
    let few = Memo::new(move |_| rows.with(|rows| rows.len() <= FEW));
    let all = move || {
        let folds = folds.get().into_iter();
        folds
            .map(|(label, count)| fold((title, label), count, rows, (chosen, few)))
            .collect_view()
            .into_any()
    };
    live(all)
}

/// What a fold is called, with how many rows it has; a label that asks is not answered by a bare number.
fn heading(label: &str, count: usize) -> String {
    match (label.ends_with('?'), count) {
        (false, _) => format!("{label}: {count}"),
        (true, 1) => format!("{label} 1 number"),
        (true, _) => format!("{label} {count} numbers"),
    }
}

type Chosen = RwSignal<BTreeMap<&'static str, bool>>;

fn fold(
    (title, label): (&'static str, &'static str),
    count: usize,
    rows: Memo<Vec<Row>>,
    (chosen, few): (Chosen, Memo<bool>),
) -> AnyView {
    let comparison = Comparison::get();
    let is_open = Memo::new(move |_| {
        let chosen = chosen.with(|chosen| chosen.get(label).copied());
        chosen.unwrap_or_else(|| few.get())
    });
    let toggle = move |event: leptos::ev::MouseEvent| {
        event.prevent_default();
        let open = !is_open.get_untracked();
        chosen.update(|chosen| {
            chosen.insert(label, open);
        });
    };
    let body = move || {
        let names = comparison.names.get();
        rows.with(|rows| {
            let rows = rows.iter().filter(|row| row.fold == label);
            (rows.enumerate())
                .map(|(before, row)| line(comparison, &names, row.clone(), before))
                .collect_view()
                .into_any()
        })
    };
    view! {
        <details class="differing" data-fold=label prop:open=move || is_open.get()>
            <summary on:click=toggle>{heading(label, count)}</summary>
            <Show when=move || is_open.get()>
                <table class="side-by-side" data-table=title>
                    <thead>
                        <tr>
                            <th scope="col">"What"</th>
                            <th scope="col">{move || comparison.names.with(|names| names[0].clone())}</th>
                            <th scope="col">{move || comparison.names.with(|names| names[1].clone())}</th>
                            <th scope="col">"Difference"</th>
                        </tr>
                    </thead>
                    <tbody>{live(body)}</tbody>
                </table>
            </Show>
        </details>
    }
    .into_any()
}

/// A row below others of its fold; on a phone it is a block of its own.
fn line(comparison: Comparison, names: &[String; 2], row: Row, before: usize) -> AnyView {
    let fold = row.fold;
    let presses = [0, 1].map(|place| press(comparison, &row, place));
    let differing = StoredValue::new(row.differing);
    let cells = (presses.into_iter().zip(row.cells).zip(names)).enumerate();
    let cells = cells.map(|(place, ((press, text), name))| {
        let button = press.map(|(label, words)| {
            let act = move |event: leptos::ev::MouseEvent| {
                give_focus_on(&event, fold, before, place);
                differing.with_value(|differing| match differing {
                    Some(differing) if comparison.is_open_one(place) => comparison.give(differing),
                    Some(differing) => comparison.take(std::slice::from_ref(differing)),
                    None => {}
                });
            };
            view! {
                <button type="button" aria-label=words on:click=act>
                    {label}
                </button>
            }
        });
        view! {
            <td data-label=name.clone()>
                <span class="value">{text}</span>
                {button}
            </td>
        }
    });
    let cells = cells.collect_view();
    let less = if row.alike { "less alike" } else { "less" };
    let part = (!row.part.is_empty()).then(|| view! { <span class="part">{row.part}</span> });
    view! {
        <tr>
            <th scope="row">{part} {row.name}</th>
            {cells}
            <td class=less data-label="Difference">
                {row.less}
            </td>
        </tr>
    }
    .into_any()
}

/// What was taken over differs no longer: the button that stands in its place gets the focus.
fn give_focus_on(event: &leptos::ev::MouseEvent, fold: &str, before: usize, place: usize) {
    let cell = place + 2;
    let button = |row| {
        format!("[data-fold=\"{fold}\"] tbody tr:nth-child({row}) td:nth-child({cell}) button")
    };
    let selectors = vec![
        button(before + 1),
        button(before),
        "#panel-compare h2".to_string(),
    ];
    focus::after_press(event, selectors);
}
