//! The working behind a number: formula, values, source, and how sure we are.

use crate::app::Workspace;
use crate::review::Step;
use leptos::prelude::*;

#[component]
pub fn Working(steps: Vec<Step>) -> impl IntoView {
    let workspace = Workspace::get();
    steps
        .into_iter()
        .map(|step| {
            let result = step.result;
            view! {
                <div class="working">
                    <p>
                        {step.words}
                        ": "
                        <strong>{move || result.show(workspace.system.get())}</strong>
                    </p>
                    <p class="formula">{step.formula}</p>
                    <dl>
                        {step
                            .values
                            .into_iter()
                            .map(|(symbol, meaning, measure)| {
                                view! {
                                    <div>
                                        <dt><i>{symbol}</i>" "{meaning}</dt>
                                        <dd>{move || measure.show(workspace.system.get())}</dd>
                                    </div>
                                }
                            })
                            .collect_view()}
                    </dl>
                    <p class="source">"Source: " {step.source.sentence()} ". " {step.sure}</p>
                </div>
            }
        })
        .collect_view()
}
