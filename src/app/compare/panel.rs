//! What differs, side by side: inputs with the choice to take them over, verdicts, numbers.

use super::{Comparison, Origin};
use crate::app::Workspace;
use crate::app::panel::Panel;
use crate::app::shown::Show;
use crate::app::verdicts::{Mark, class};
use crate::design::difference::{Differing, What};
use crate::design::quantity::System;
use crate::design::{Input, Kind, Value};
use crate::review::compare::{Change, VerdictPair, result_pairs, verdict_pairs};
use crate::review::{Assessment, Finding, Tally, Verdict};
use leptos::prelude::*;

/// What one design has in one row.
#[derive(Clone, Default, PartialEq)]
struct Cell {
    text: String,
    verdict: Option<Verdict>,
}

impl From<String> for Cell {
    fn from(text: String) -> Self {
        Self {
            text,
            verdict: None,
        }
    }
}

/// One row of any of the tables.
#[derive(Clone, PartialEq)]
struct Row {
    /// What it belongs to, above its name.
    part: String,
    name: String,
    cells: [Cell; 2],
    /// How the other differs from the first.
    less: String,
    /// Whether that is no difference, which is told quietly.
    alike: bool,
    /// What the buttons take over.
    differing: Option<Differing>,
}

/// The bar that tells that a comparison is on.
#[component]
pub fn ComparisonBar() -> impl IntoView {
    let comparison = Comparison::get();
    let workspace = Workspace::get();
    let look = move |_| comparison.look();
    view! {
        <Show when=move || comparison.is_on()>
            <section class="comparison-bar" aria-label="Comparison">
                <p role="status">{move || headline(comparison)}</p>
                <button
                    type="button"
                    hidden=move || workspace.panel.get() == Panel::Compare
                    on:click=look
                >
                    "See what differs"</button>
                <button type="button" on:click=move |_| comparison.stop()>"Stop comparing"</button>
            </section>
        </Show>
    }
}

/// With what the design is compared, and how much differs.
fn headline(comparison: Comparison) -> String {
    let changes = comparison.how_much();
    comparison.pinned.with(|pinned| {
        pinned.as_ref().map_or_else(String::new, |pinned| {
            let name = &pinned.design.about.name;
            match pinned.origin {
                Origin::Answer(_) => format!("Answer: {changes}"),
                Origin::Earlier => format!("Beside “{name}” as it was: {changes}"),
                Origin::Draft(..) => format!("Beside “{name}”: {changes}"),
                Origin::Deleted(..) => format!("Beside “{name}”, deleted since: {changes}"),
                Origin::Link => format!("Beside “{name}” from a link: {changes}"),
            }
        })
    })
}

/// What differs, while a comparison is on.
#[component]
pub fn Compare() -> impl IntoView {
    let comparison = Comparison::get();
    let workspace = Workspace::get();
    // What is the same for both, or used by neither, is only shown when asked for.
    let all = RwSignal::new(false);
    let close = move |_| comparison.look_away();
    let note = move || {
        comparison
            .pinned
            .with(|pinned| match pinned.as_ref()?.origin {
                Origin::Answer(ref note) if !note.trim().is_empty() => {
                    Some(view! { <blockquote class="answer-note">{note.clone()}</blockquote> })
                }
                _ => None,
            })
    };
    let totals = move || {
        comparison.assessment.get().map(|theirs| {
            (workspace.assessment).with(|mine| {
                told_totals(comparison.names(), comparison.in_columns([mine, &theirs]))
            })
        })
    };
    let take_all = move |_| comparison.take(&comparison.found.get_untracked());
    let inputs = Memo::new(move |_| {
        let (system, all) = (workspace.system.get(), all.get());
        comparison.found.with(|found| {
            let shown = found.iter().filter(|it| all || it.in_use);
            shown.map(|it| input_row(comparison, it, system)).collect()
        })
    });
    let verdicts = Memo::new(move |_| {
        let (system, all) = (workspace.system.get(), all.get());
        with_both(comparison, |one, other| {
            verdict_pairs(one, other)
                .iter()
                .filter_map(|pair| verdict_row(pair, system))
                .filter(|row| all || row.cells[0] != row.cells[1])
                .collect()
        })
    });
    let numbers = Memo::new(move |_| {
        let (system, all) = (workspace.system.get(), all.get());
        with_both(comparison, |one, other| {
            result_pairs(one, other)
                .into_iter()
                .map(|pair| {
                    let cells = [pair.one, pair.other].map(|measure| {
                        Cell::from(
                            measure.map_or_else(|| "—".to_string(), |measure| measure.show(system)),
                        )
                    });
                    let alike = cells[0] == cells[1];
                    let less = pair.shown_difference(system);
                    Row {
                        less: less.or(alike.then(|| SAME.to_string())).unwrap_or_default(),
                        alike,
                        cells,
                        part: String::new(),
                        name: pair.label,
                        differing: None,
                    }
                })
                .filter(|row| all || row.cells[0] != row.cells[1])
                .collect()
        })
    });
    let any = move || (comparison.found).with(|found| found.iter().any(|it| it.in_use));
    view! {
        <div class="compare-head">
            <h2 tabindex="-1">{move || headline(comparison)}</h2>
            <button type="button" class="close" on:click=close>"Close"</button>
        </div>
        <p class="totals">{totals}</p>
        {note}
        <p class="meaning">
            {move || {
                if comparison.is_with_earlier() {
                    BESIDE_EARLIER
                } else if comparison.is_with_deleted() {
                    BESIDE_DELETED
                } else {
                    BESIDE_OTHER
                }
            }}
        </p>
        <Show when=move || !any()>
            <p>"Nothing differs that either design makes use of."</p>
        </Show>
        <Show when=any>
            <Table title="Changed inputs" rows=inputs />
            <div class="item-tools">
                <button type="button" on:click=take_all>
                    {move || {
                        if comparison.is_with_earlier() { "Put all back" } else { "Take everything over" }
                    }}
                </button>
            </div>
        </Show>
        <label class="tick-row">
            <input type="checkbox" on:change=move |event| all.set(event_target_checked(&event)) />
            "Show all: what is the same for both, and what neither uses"
        </label>
        <Table title="Verdicts" rows=verdicts />
        <Table title="Numbers" rows=numbers />
    }
}

/// What the buttons do, beside another design, beside the own as it was, and beside one that was deleted.
const BESIDE_OTHER: &str = "In the drawing the other design is the dashed line. “Take over” puts its value into the design that is open, and undo takes that back; “Put mine there” puts yours into the other design.";
const BESIDE_EARLIER: &str = "In the drawing the dashed line is the design as it was. “Put back” sets a value as it was before, and undo takes that back.";

const BESIDE_DELETED: &str = "In the drawing the other design is the dashed line. It was deleted since: what stands here is a copy, so nothing of yours can be put there. “Take over” puts its value into the design that is open, and undo takes that back.";

/// How many Stops and Watches there are with the one and with the other.
fn told_totals([one, other]: [&str; 2], both: [&Assessment; 2]) -> String {
    let [first, second] = both.map(|assessment| Tally::of(&assessment.findings));
    format!(
        "{one} → {other}: Stops {} → {}, Watch or Can't tell {} → {}",
        first.stops, second.stops, first.watches, second.watches
    )
}

/// What both assessments give, in the order of the columns; nothing while none is pinned.
fn with_both(
    comparison: Comparison,
    rows: impl FnOnce(&Assessment, &Assessment) -> Vec<Row>,
) -> Vec<Row> {
    let theirs = comparison.assessment.get();
    theirs.map_or_else(Vec::new, |theirs| {
        Workspace::get().assessment.with(|mine| {
            let [one, other] = comparison.in_columns([mine, &*theirs]);
            rows(one, other)
        })
    })
}

/// In the place of items that one of the two designs does not have.
const NOT_THERE: &str = "not there";

/// In the place of a difference where both numbers are shown alike.
const SAME: &str = "same";

/// In the place of items that one of the two designs has, and that have nothing to tell.
const THERE: &str = "there";

fn input_row(comparison: Comparison, differing: &Differing, system: System) -> Row {
    let in_columns = match comparison.is_with_earlier() {
        true => differing.reversed(),
        false => differing.clone(),
    };
    let mut less = String::new();
    let (name, cells) = match &in_columns.what {
        What::Input {
            input, one, other, ..
        } => {
            if let (Value::Number(one), Value::Number(other), Kind::Number { quantity, .. }) =
                (one, other, input.kind)
            {
                less = quantity.show_difference([*one, *other], system);
            }
            (input.label, input.show_alike([one, other], system))
        }
        What::Item {
            is_added, values, ..
        } => {
            let value = |(input, value): &(&Input, Value)| {
                format!("{}: {}", input.label, input.show(value, system))
            };
            let told = match values.as_slice() {
                [] => THERE.to_string(),
                values => values.iter().map(value).collect::<Vec<_>>().join("; "),
            };
            match is_added {
                true => ("Added", [NOT_THERE.to_string(), told]),
                false => ("Removed", [told, NOT_THERE.to_string()]),
            }
        }
        What::Order { one, other } => ("Order", [one, other].map(|names| names.join("; "))),
    };
    Row {
        part: in_columns.part(),
        name: name.to_string(),
        cells: cells.map(Cell::from),
        less,
        alike: false,
        differing: Some(differing.clone()),
    }
}

fn verdict_row(pair: &VerdictPair, system: System) -> Option<Row> {
    let cell = |finding: Option<&Finding>| {
        finding.map_or_else(
            || Cell::from("Does not arise".to_string()),
            |finding| Cell {
                text: finding.compared.text(system),
                verdict: Some(finding.verdict),
            },
        )
    };
    let either = pair.either()?;
    Some(Row {
        part: either.chapter.label().to_string(),
        name: either.title.to_string(),
        cells: [cell(pair.one), cell(pair.other)],
        less: pair.told().to_string(),
        alike: pair.change() == Change::Same,
        differing: None,
    })
}

/// Rows of two cells and their difference; each row is a block of its own on a phone.
#[component]
fn Table(title: &'static str, rows: Memo<Vec<Row>>) -> impl IntoView {
    let comparison = Comparison::get();
    let names = move || comparison.names();
    let body = move || {
        rows.get()
            .into_iter()
            .map(|row| table_row(comparison, row))
            .collect_view()
    };
    view! {
        <Show when=move || rows.with(|rows| !rows.is_empty())>
            <table class="side-by-side" data-table=title>
                <caption>{title}</caption>
                <thead>
                    <tr>
                        <th scope="col">"What"</th>
                        <th scope="col">{move || names()[0]}</th>
                        <th scope="col">{move || names()[1]}</th>
                        <th scope="col">"Difference"</th>
                    </tr>
                </thead>
                <tbody>{body}</tbody>
            </table>
        </Show>
    }
}

/// Longest value that a button repeats.
const SHORT: usize = 16;

/// The label of the button of a cell that puts its value into the other column, and its words for those who do not see
/// the table; none where nothing is to be put there.
fn press(comparison: Comparison, row: &Row, place: usize) -> Option<(String, String)> {
    row.differing.as_ref()?;
    let what = format!("{} {}", row.part, row.name);
    let [one, other] = comparison.names();
    match (comparison.is_with_earlier(), place) {
        (true, 0) => {
            let text = &row.cells[0].text;
            let label = if text == NOT_THERE {
                "Take away again".to_string()
            } else if text.chars().count() > SHORT {
                "Put back".to_string()
            } else {
                format!("Put back {text}")
            };
            let words = format!("{label}: {what}");
            Some((label, words))
        }
        (true, _) => None,
        // It would come back by itself.
        (false, 0) if comparison.is_with_deleted() => None,
        (false, 0) => Some((
            "Put mine there".to_string(),
            format!("Put mine there: {what} from “{one}” into “{other}”"),
        )),
        (false, _) => Some((
            "Take over".to_string(),
            format!("Take over {what} from “{other}” into “{one}”"),
        )),
    }
}

fn table_row(comparison: Comparison, row: Row) -> impl IntoView {
    let names = comparison.names();
    let presses = [0, 1].map(|place| press(comparison, &row, place));
    // Beside the own design as it was every button takes over.
    let takes_over = [comparison.is_with_earlier(), true];
    let differing = StoredValue::new(row.differing);
    let cells = presses.into_iter().enumerate().map(|(place, press)| {
        let cell = row.cells[place].clone();
        let mark = cell.verdict.map(|verdict| {
            view! {
                <span class=format!("verdict {}", class(verdict))>
                    <Mark verdict />
                    {verdict.word()}
                </span>
            }
        });
        let button = press.map(|(label, words)| {
            let act = move |_| {
                differing.with_value(|differing| {
                    if let Some(differing) = differing {
                        if takes_over[place] {
                            comparison.take(std::slice::from_ref(differing));
                        } else {
                            comparison.give(differing);
                        }
                    }
                });
            };
            view! { <button type="button" aria-label=words on:click=act>{label}</button> }
        });
        view! {
            <td data-label=names[place]>
                {mark}
                <span class="value">{cell.text}</span>
                {button}
            </td>
        }
    });
    let less = if row.alike { "less alike" } else { "less" };
    let part = (!row.part.is_empty()).then(|| view! { <span class="part">{row.part}</span> });
    view! {
        <tr>
            <th scope="row">{part} {row.name}</th>
            {cells.collect_view()}
            <td class=less data-label="Difference">{row.less}</td>
        </tr>
    }
}
