//! What differs, worst news first: verdicts, then numbers, then the inputs with the choice to take them over.

use super::rows::{Answers, Row, of_input, of_question, of_result};
use super::tables::{Folds, Verdicts};
use super::{Comparison, Origin};
use crate::app::Workspace;
use crate::app::focus;
use crate::app::panel::Panel;
use crate::app::shown::Show;
use crate::review::compare::{result_pairs, verdict_pairs};
use crate::review::{Assessment, Tally};
use leptos::prelude::*;

/// The bar that tells that a comparison is on, shows and hides it, and ends it.
#[component]
pub fn ComparisonBar() -> impl IntoView {
    let comparison = Comparison::get();
    let workspace = Workspace::get();
    let is_shown = move || workspace.panel.get() == Panel::Compare;
    let turn = move |_| {
        if workspace.panel.get_untracked() == Panel::Compare {
            workspace.panel.set(Panel::Verdicts);
        } else {
            comparison.look();
        }
    };
    view! {
        <Show when=move || comparison.is_on()>
            <section class="comparison-bar" aria-label="Comparison">
                <p role="status">{move || headline(comparison)}</p>
                <button type="button" on:click=turn>
                    {move || if is_shown() { "Hide comparison" } else { "Show comparison" }}
                </button>
                <button type="button" on:click=move |_| comparison.stop()>
                    "End comparison"
                </button>
            </section>
        </Show>
    }
}

/// With what the design is compared, and how much differs.
fn headline(comparison: Comparison) -> String {
    let count = comparison.how_much();
    comparison.pinned.with(|pinned| {
        pinned.as_ref().map_or_else(String::new, |pinned| {
            let name = &pinned.design.about.name;
            match pinned.origin {
                Origin::Answer(_) => format!("Answer: {count}"),
                Origin::Earlier(_) => format!("Compared with “{name}” as it was: {count}"),
                Origin::AsItCame => {
                    format!("Compared with “{name}” as the link had it: {count}")
                }
                Origin::Draft(..) => format!("Compared with “{name}”: {count}"),
                Origin::Open(..) => {
                    format!(
                        "“{name}” itself is open: open another design to compare it with this one."
                    )
                }
                Origin::Waiting(_) => {
                    format!("“{name}” as it was waits until that design is open again.")
                }
                Origin::Deleted(..) => {
                    format!("Compared with “{name}”, deleted since: {count}")
                }
                Origin::Link => format!("Compared with “{name}” from a link: {count}"),
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
        with_both(comparison, |both| {
            told_totals(&comparison.names.get(), both)
        })
    };
    let take_all = move |event: leptos::ev::MouseEvent| {
        focus::after_press(&event, vec!["#panel-compare h2".to_string()]);
        comparison.take(&untrack(|| comparison.all_to_take()));
    };
    let inputs: Memo<Vec<Row>> = Memo::new(move |_| {
        let (system, all) = (workspace.system.get(), all.get());
        comparison.found.with(|found| {
            let shown = found.iter().filter(|it| all || it.in_use);
            shown.map(|it| of_input(comparison, it, system)).collect()
        })
    });
    let verdicts: Memo<Vec<Answers>> = Memo::new(move |_| {
        let (system, all) = (workspace.system.get(), all.get());
        with_both(comparison, |[one, other]| {
            verdict_pairs(one, other)
                .iter()
                .filter_map(|pair| of_question(pair, all, system))
                .collect()
        })
    });
    let numbers: Memo<Vec<Row>> = Memo::new(move |_| {
        let (system, all) = (workspace.system.get(), all.get());
        with_both(comparison, |[one, other]| {
            let rows = result_pairs(one, other).into_iter();
            rows.map(|pair| of_result(pair, system))
                .filter(|row| all || !row.alike)
                .collect()
        })
    });
    let any = move || (comparison.found).with(|found| found.iter().any(|it| it.in_use));
    let any_to_take = move || comparison.all_to_take().iter().any(|it| it.in_use);
    // Of an answer it is asked first what is changed, and then what follows.
    let inputs_first = Memo::new(move |_| comparison.is_with_answer());
    let changed_inputs = move || {
        view! {
            <h3>"Changed inputs"</h3>
            <Show when=move || !any()>
                <p>"Nothing differs that either design makes use of."</p>
            </Show>
            <Show when=any>
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
            </Show>
            <Show when=any_to_take>
                <div class="item-tools">
                    <button type="button" on:click=take_all>
                        {move || comparison.take_all_words()}
                    </button>
                </div>
                <Show when=move || comparison.keeps_name_and_note()>
                    <p class="meaning">"Your design keeps its own name and note."</p>
                </Show>
            </Show>
            <Folds title="Changed inputs" rows=inputs />
        }
    };
    view! {
        <h2 tabindex="-1">{move || headline(comparison)}</h2>
        <Show when=move || comparison.has_other()>
        <p class="totals">{totals}</p>
        {note}
        <p class="meaning">
            {move || {
                format!("Better and worse are said of “{}”.", comparison.names.with(|names| names[1].clone()))
            }}
        </p>
        <label class="tick-row">
            <input type="checkbox" on:change=move |event| all.set(event_target_checked(&event)) />
            "Show all: what is the same for both, and what neither uses"
        </label>
        <Show when=move || inputs_first.get()>{changed_inputs()}</Show>
        <Verdicts answers=verdicts />
        <Show when=move || numbers.with(|numbers| !numbers.is_empty())>
            <h3>"Numbers"</h3>
        </Show>
        <Folds title="Numbers" rows=numbers />
        <Show when=move || !inputs_first.get()>{changed_inputs()}</Show>
        </Show>
    }
}

/// What the buttons do, beside another design, beside the own as it was, and beside one that was deleted.
const BESIDE_OTHER: &str = "In the drawing the other design is the dashed line. “Use this value” puts it into the design that is open, and undo takes that back; “Send mine there” puts yours into the other design.";
const BESIDE_EARLIER: &str = "In the drawing the dashed line is the design as it was. “Put back” sets a value as it was before, and undo takes that back.";
const BESIDE_DELETED: &str = "In the drawing the other design is the dashed line. It was deleted since: what stands here is a copy, so nothing of yours can be put there. “Use this value” puts it into the design that is open, and undo takes that back.";

/// How many Stops and Watches there are with the one and with the other.
fn told_totals([one, other]: &[String; 2], both: [&Assessment; 2]) -> String {
    let [first, second] = both.map(|assessment| Tally::of(&assessment.findings));
    format!(
        "{one} → {other}: Stops {} → {}, Watch or Can't tell {} → {}",
        first.stops, second.stops, first.watches, second.watches
    )
}

/// What both assessments give, in the order of the columns; nothing while none is pinned.
fn with_both<T: Default>(comparison: Comparison, of_both: impl FnOnce([&Assessment; 2]) -> T) -> T {
    let theirs = comparison.assessment.get();
    theirs.map_or_else(T::default, |theirs| {
        (comparison.workspace.assessment)
            .with(|mine| of_both(comparison.in_columns([mine, &*theirs])))
    })
}
