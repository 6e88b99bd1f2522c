//! Every computed number, chapter by chapter, for whoever wants to check or compare.

use super::Workspace;
use crate::app::shown::Show;
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
    let results = move || -> Vec<NamedResult> {
        let head = format!("{}.", chapter.name());
        workspace.assessment.with(|assessment| {
            assessment
                .results()
                .into_iter()
                .filter(|result| result.name.starts_with(&head))
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
                                .map(|result| {
                                    let shown = result.measure.show(workspace.system.get());
                                    view! {
                                        <tr data-result=result.name>
                                            <th scope="row">{result.label}</th>
                                            <td>{shown}</td>
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
