//! Every computed number, chapter by chapter, for whoever wants to check or compare.

use super::Workspace;
use crate::app::shown::Show;
use crate::app::verdicts;
use crate::review::{Chapter, NamedResult};
use leptos::prelude::*;

/// All results, folded by chapter; a chapter's table is only made while it is open.
#[component]
pub fn Results() -> impl IntoView {
    view! {
        <section class="results" aria-label="All numbers">
            <h2>"All numbers"</h2>
            {Chapter::ALL
                .into_iter()
                .map(|chapter| view! { <ChapterResults chapter /> })
                .collect_view()}
        </section>
    }
}

#[component]
fn ChapterResults(chapter: Chapter) -> impl IntoView {
    let workspace = Workspace::get();
    let open = RwSignal::new(false);
    // Each with the verdict whose working comes to it.
    let results = move || -> Vec<(NamedResult, Option<&'static str>)> {
        let head = format!("{}.", chapter.name());
        workspace.assessment.with(|assessment| {
            let design = workspace.design.read_untracked();
            assessment
                .results()
                .into_iter()
                .filter(|result| result.name.starts_with(&head))
                .map(|result| {
                    let finding = assessment
                        .reckoned_in(&design, &result)
                        .map(|finding| finding.id);
                    (result, finding)
                })
                .collect()
        })
    };
    let toggle = move |event: leptos::ev::MouseEvent| {
        event.prevent_default();
        open.update(|open| *open = !*open);
    };
    view! {
        <details prop:open=move || open.get()>
            <summary on:click=toggle>{chapter.label()}</summary>
            <Show when=move || open.get()>
                <table class="numbers">
                    <tbody>
                        {move || {
                            results()
                                .into_iter()
                                .map(|(result, finding)| {
                                    let shown = result.measure.show(workspace.system.get());
                                    let working = finding
                                        .map(|id| to_working(workspace, id, &result.label));
                                    view! {
                                        <tr data-result=result.name>
                                            <th scope="row">{result.label}</th>
                                            <td>{shown}</td>
                                            <td class="to-working">{working}</td>
                                        </tr>
                                    }
                                })
                                .collect_view()
                        }}
                    </tbody>
                </table>
            </Show>
        </details>
    }
}

/// The way to the verdict that shows how a number is reckoned.
fn to_working(workspace: Workspace, id: &'static str, label: &str) -> AnyView {
    view! {
        <button
            type="button"
            aria-label=format!("Working: {label}")
            on:click=move |_| verdicts::show_reasons(workspace, id)
        >
            "Working"
        </button>
    }
    .into_any()
}
