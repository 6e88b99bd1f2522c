//! What stands above and below the machine: how many verdicts there are of each kind, and the worst of them by name. Each is a way
//! to the verdicts themselves.

use super::{Mark, class, refused, to_mend};
use crate::app::Workspace;
use crate::app::focus;
use crate::app::form::show_field;
use crate::app::panel::Panel;
use crate::review::{Assessment, Verdict};
use leptos::prelude::*;
use std::collections::BTreeSet;
use wasm_bindgen::JsCast as _;
use web_sys::HtmlElement;

/// Most characters of the line of names: two lines of a phone.
const ROOM: usize = 78;

/// Said while a field cannot be used.
const STALE: &str = "Shown: the last numbers that could be used. ";

/// How many of each verdict there are, worst first.
pub fn tally(assessment: &Assessment) -> Vec<(Verdict, usize)> {
    [
        Verdict::Stop,
        Verdict::Watch,
        Verdict::CannotTell,
        Verdict::Good,
    ]
    .map(|verdict| (verdict, assessment.count(verdict)))
    .into_iter()
    .filter(|(_, count)| *count > 0)
    .collect()
}

/// The worst verdict below Good, and in one line the questions that have it, in the order of the list; none where all is
/// Good.
pub fn worst_by_name(assessment: &Assessment) -> Option<(Verdict, String)> {
    let bad = to_mend(assessment);
    let (worst, _) = bad.first()?;
    let verdict = worst.verdict;
    let titles: Vec<&str> = (bad.iter())
        .filter(|(finding, _)| finding.verdict == verdict)
        .map(|(finding, _)| finding.title)
        .collect();
    let line = |told: usize| {
        let (told, rest) = titles.split_at(told);
        let told = told.join(", ");
        let kind = match verdict {
            Verdict::Stop => "Stops",
            _ => verdict.word(),
        };
        match rest.len() {
            0 => format!("{kind}: {told}"),
            more => format!("{kind}: {told} and {more} more"),
        }
    };
    let fitting = (2..=titles.len())
        .rev()
        .map(line)
        .find(|line| line.chars().count() <= ROOM);
    Some((verdict, fitting.unwrap_or_else(|| line(1))))
}

/// Brings what this selects among the verdicts into view and gives it the focus.
pub fn show(workspace: Workspace, selector: &str) {
    workspace.panel.set(Panel::Verdicts);
    let head = format!("{selector} .finding-head");
    focus::soon(vec![head.clone()]);
    request_animation_frame(move || {
        if let Ok(Some(head)) = document().query_selector(&head) {
            head.scroll_into_view();
        }
    });
}

/// Brings a verdict into view with its reasons unfolded, its working among them.
pub fn show_reasons(workspace: Workspace, id: &str) {
    let article = format!("article[data-finding=\"{id}\"]");
    show(workspace, &article);
    let folded = format!("{article} .finding-head[aria-expanded=\"false\"]");
    request_animation_frame(move || {
        let head = document().query_selector(&folded).ok().flatten();
        if let Some(head) = head.and_then(|head| head.dyn_into::<HtmlElement>().ok()) {
            head.click();
        }
    });
}

fn show_first(workspace: Workspace, verdict: Verdict) {
    show(
        workspace,
        &format!("article[data-verdict=\"{}\"]", verdict.word()),
    );
}

/// How many of each verdict, in words; also the first thing a stranger reads.
#[component]
pub fn Summary() -> impl IntoView {
    let workspace = Workspace::get();
    let counts = Memo::new(move |_| workspace.assessment.with(|assessment| tally(assessment)));
    let tallies = move || {
        counts
            .get()
            .into_iter()
            .map(|(verdict, count)| {
                view! {
                    <button
                        type="button"
                        class=format!("tally {}", class(verdict))
                        on:click=move |_| show_first(workspace, verdict)
                    >
                        <Mark verdict />
                        <span class="counted">
                            {count} " " <span class="word">{verdict.word()}</span>
                        </span>
                    </button>
                }
            })
            .collect_view()
    };
    let told = refused::told_once_typed(workspace);
    let wrong = Memo::new(move |_| told.with(|told| told.first().cloned()));
    let mending = move || match told.with(BTreeSet::len) {
        0 | 1 => " needs correcting".to_string(),
        2 => " and 1 more field need correcting".to_string(),
        all => format!(" and {} more fields need correcting", all - 1),
    };
    let to_mend = move || {
        wrong.get().map(|path| {
            let name = workspace.name_of(&path);
            view! {
                <span class="stale">
                    {move || if workspace.is_stale() { STALE } else { "" }}
                    <button type="button" class="to-field" on:click=move |_| show_field(workspace, &path)>
                        {name}
                    </button>
                    {mending}
                </span>
            }
        })
    };
    view! {
        <p class="summary" role="status" aria-live="polite">
            {tallies}
            {to_mend}
        </p>
    }
}

/// The worst verdicts by name; a tap leads to the first of them.
#[component]
pub fn WorstByName() -> impl IntoView {
    let workspace = Workspace::get();
    let worst =
        Memo::new(move |_| (workspace.assessment).with(|assessment| worst_by_name(assessment)));
    move || {
        worst.get().map(|(verdict, line)| {
            view! {
                <button
                    type="button"
                    class="worst"
                    on:click=move |_| show_first(workspace, verdict)
                >
                    <span>{line}</span>
                </button>
            }
        })
    }
}
