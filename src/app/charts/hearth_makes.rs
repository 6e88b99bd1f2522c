//! The tables of what the hearth makes, in the page.

use super::hearth_table::{Cell, Row, Table, Told, told};
use super::redraw;
use crate::app::Workspace;
use crate::app::panel::Panel;
use crate::app::verdicts::{Mark, class};
use leptos::html;
use leptos::prelude::*;

/// What the hearth makes; follows the design while its panel is on the screen.
#[component]
pub fn HearthMakes() -> impl IntoView {
    let workspace = Workspace::get();
    let figure = NodeRef::<html::Figure>::new();
    let in_view = redraw::in_view(figure);
    let on_screen = workspace.on_screen(Panel::Charts);
    let shown = RwSignal::new(None::<Told>);
    Effect::new(move |waiting: Option<Option<TimeoutHandle>>| {
        if let Some(handle) = waiting.flatten() {
            handle.clear();
        }
        workspace.design.track();
        let system = workspace.system.get();
        let first = shown.with_untracked(Option::is_none);
        let pause = redraw::pause(in_view.get(), on_screen.get(), first)?;
        let tell = move || {
            let new = workspace.design.with_untracked(|design| {
                workspace
                    .assessment
                    .with_untracked(|assessment| told(design, assessment, system))
            });
            if shown.with_untracked(|shown| shown.as_ref() != Some(&new)) {
                shown.set(Some(new));
            }
        };
        set_timeout_with_handle(tell, pause).ok()
    });
    view! {
        <figure class="hearth-makes" node_ref=figure aria-labelledby="hearth-makes">
            <h2 id="hearth-makes">"What the hearth makes"</h2>
            {move || shown.get().map(in_the_page)}
        </figure>
    }
}

fn in_the_page(told: Told) -> impl IntoView {
    let sentences = told.sentences.into_iter();
    view! {
        {told.tables.into_iter().map(table_in_the_page).collect_view()}
        {sentences.map(|sentence| view! { <p>{sentence}</p> }).collect_view()}
        {told.caution.map(|caution| view! { <p class="caution">{caution}</p> })}
    }
}

fn table_in_the_page(table: Table) -> impl IntoView {
    let heads = table.columns.into_iter();
    view! {
        <table>
            <caption>{table.caption}</caption>
            <thead>
                <tr>
                    <td></td>
                    {heads.map(|head| view! { <th scope="col">{head}</th> }).collect_view()}
                </tr>
            </thead>
            <tbody>{table.rows.into_iter().map(row_in_the_page).collect_view()}</tbody>
        </table>
    }
}

fn row_in_the_page(row: Row) -> impl IntoView {
    let cells = row.cells.into_iter();
    view! {
        <tr>
            <th scope="row">
                {row.name}
                {(!row.wanted.is_empty()).then(|| view! { <span class="wanted">{row.wanted}</span> })}
            </th>
            {cells.map(cell_in_the_page).collect_view()}
        </tr>
    }
}

/// A figure that fails has the mark and the word of its verdict under it.
fn cell_in_the_page(cell: Cell) -> impl IntoView {
    let fails = cell.fails.map(|verdict| {
        view! {
            <span class="verdict">
                <Mark verdict />
                {verdict.word()}
            </span>
        }
    });
    view! {
        <td class=cell.fails.map_or("", class)>
            {cell.text}
            {fails}
        </td>
    }
}
