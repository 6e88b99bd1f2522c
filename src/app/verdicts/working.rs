//! The working behind a number: formula, values, source, and how sure we are.

use crate::app::Workspace;
use crate::design::phrase::{Measure, upper_first};
use crate::review::Step;
use leptos::prelude::*;

#[component]
pub fn Working(steps: Vec<Step>) -> impl IntoView {
    let workspace = Workspace::get();
    steps
        .into_iter()
        .map(|step| {
            let step = StoredValue::new(step);
            let show = move |measure: &Measure| {
                step.with_value(|step| step.shown(measure, workspace.system.get()))
            };
            let values =
                move |(symbol, meaning, measure): (&'static str, &'static str, Measure)| {
                    view! {
                        <div>
                            <dt><i>{symbol}</i>" "{meaning}</dt>
                            <dd>{move || show(&measure)}</dd>
                        </div>
                    }
                };
            let Step {
                words,
                formula,
                result,
                sure,
                ..
            } = step.get_value();
            let source = step.with_value(|step| step.source.sentence());
            view! {
                <div class="working">
                    <p>
                        {words}
                        ": "
                        <strong>{move || show(&result)}</strong>
                    </p>
                    <p class="formula">{formula}</p>
                    <dl>{step.get_value().values.into_iter().map(values).collect_view()}</dl>
                    <p class="source">"Source: " {source} ". " {upper_first(sure)}</p>
                </div>
            }
        })
        .collect_view()
}
