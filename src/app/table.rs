//! A table that stands on a desk, on paper and, row by row, on a phone.

use super::Workspace;
use super::verdicts::{Mark, class};
use crate::design::quantity::System;
use crate::review::{Assessment, Table};
use leptos::prelude::*;

/// The lists a person takes to the bench, each in a fold of its own.
#[component]
pub fn Sheets() -> impl IntoView {
    view! {
        <section class="sheets" aria-label="Lists">
            <h2>"Lists"</h2>
            <TableFold name="wiring" title="Wiring schedule" of=|assessment| assessment.electrics.schedule() />
        </section>
    }
}

/// A fold with a table that is made out of the assessment, while it is open or printed.
#[component]
fn TableFold(
    /// Found by tests and anchors.
    name: &'static str,
    /// What the table holds.
    title: &'static str,
    /// Makes the table.
    of: fn(&Assessment) -> Table,
) -> impl IntoView {
    let workspace = Workspace::get();
    let open = RwSignal::new(false);
    // What is folded goes on paper too.
    let printing = RwSignal::new(false);
    for (event, state) in [("beforeprint", true), ("afterprint", false)] {
        let handle = window_event_listener_untyped(event, move |_| printing.set(state));
        on_cleanup(move || handle.remove());
    }
    let shown = Memo::new(move |_| open.get() || printing.get());
    let table = move || {
        let system = workspace.system.get();
        workspace
            .assessment
            .with(|assessment| rows(title, &of(assessment), system))
    };
    view! {
        <details class="sheet" data-table=name prop:open=move || shown.get()>
            <summary on:click=move |event| {
                event.prevent_default();
                open.update(|open| *open = !*open);
            }>{title}</summary>
            {move || shown.get().then(table)}
        </details>
    }
}

/// Each cell carries its heading, for where the headings' own row has no room.
fn rows(title: &'static str, table: &Table, system: System) -> impl IntoView + use<> {
    let has_verdicts = table.rows.iter().any(|row| row.verdict.is_some());
    let heads = (table.headings.iter())
        .map(|heading| view! { <th scope="col">{*heading}</th> })
        .collect_view();
    let body = (table.rows.iter())
        .map(|row| {
            let cells = (row.cells.iter().zip(&table.headings).enumerate())
                .map(|(place, (cell, heading))| {
                    let text = cell.text(system);
                    if place == 0 {
                        view! { <th scope="row">{text}</th> }.into_any()
                    } else {
                        view! { <td data-label=*heading>{text}</td> }.into_any()
                    }
                })
                .collect_view();
            let mark = row.verdict.map(|verdict| view! {
                <td class=format!("verdict {}", class(verdict))><Mark verdict />{verdict.word()}</td>
            });
            view! { <tr>{cells}{mark}</tr> }
        })
        .collect_view();
    view! {
        <table>
            <caption class="visually-hidden">{title}</caption>
            <thead><tr>{heads}{has_verdicts.then(|| view! { <th scope="col">"Verdict"</th> })}</tr></thead>
            <tbody>{body}</tbody>
        </table>
    }
}
