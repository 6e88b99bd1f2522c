//! Charts that answer "what if": what one number of the design does to the verdicts.
//!
//! Before them, what the hearth makes, in numbers ([`hearth_makes`]).
//!
//! Each chart is described as plain data ([`chart`]) by a file of its own, drawn on a canvas by
//! [`draw`], and put into the page by [`figure`], which all charts share.

mod blower;
mod chart;
mod draw;
mod figure;
mod hearth_makes;
mod hearth_table;
mod labels;
mod load;
mod paint;
mod pen;
mod place;
pub mod redraw;
mod scale;
mod thickness;
mod throat;
mod tip_angle;

use super::{Workspace, media};
use figure::ChartFigure;
use hearth_makes::HearthMakes;
use leptos::prelude::*;
use std::sync::Arc;
use thickness::Tried;

/// All charts.
#[component]
pub fn Charts() -> impl IntoView {
    let dark = media::matches("(prefers-color-scheme: dark)");
    view! {
        <div class="charts">
            <HearthMakes />
            <h2>"What if"</h2>
            <ChartFigure question=load::QUESTION answers=Arc::new(load::answer) dark />
            <ChartFigure question=tip_angle::QUESTION answers=Arc::new(tip_angle::answer) dark />
            <ThicknessChart dark />
            <ChartFigure question=throat::QUESTION answers=Arc::new(throat::answer) dark />
            <ChartFigure question=blower::QUESTION answers=Arc::new(blower::answer) dark />
        </div>
    }
}

/// The chart of heat loss, with the choice of the layer.
#[component]
fn ThicknessChart(dark: ReadSignal<bool>) -> impl IntoView {
    let workspace = Workspace::get();
    let wanted = RwSignal::new(None::<Tried>);
    let choices = Memo::new(move |_| {
        workspace.design.with(|design| {
            thickness::choices(design)
                .into_iter()
                .map(|tried| (tried, tried.label(design)))
                .collect::<Vec<_>>()
        })
    });
    let listed = move |tried: &Tried| {
        choices.with(|choices| choices.iter().any(|(listed, _)| listed == tried))
    };
    // A choice that has gone, for instance with its layer, gives way to the first.
    let tried = Memo::new(move |_| {
        wanted
            .get()
            .filter(listed)
            .or_else(|| choices.with(|choices| choices.first().map(|(tried, _)| *tried)))
    });
    let choose = move |name: String| {
        wanted.set(choices.with_untracked(|choices| {
            choices
                .iter()
                .map(|(tried, _)| *tried)
                .find(|tried| tried.name() == name)
        }));
    };
    view! {
        <ChartFigure
            question=thickness::QUESTION
            answers=Arc::new(move |design, assessment, system| match tried.get_untracked() {
                Some(tried) => thickness::answer(design, assessment, system, tried),
                None => Err("There is no wall to insulate.".to_string()),
            })
            follows=Signal::derive(move || tried.track())
            dark
        >
            <label class="chart-choice">
                <span>"Layer"</span>
                <select on:change=move |event| choose(event_target_value(&event))>
                    {move || {
                        choices
                            .get()
                            .into_iter()
                            .map(|(choice, label)| {
                                view! {
                                    <option
                                        value=choice.name()
                                        selected=move || tried.get() == Some(choice)
                                    >
                                        {label}
                                    </option>
                                }
                            })
                            .collect_view()
                    }}
                </select>
            </label>
        </ChartFigure>
    }
}
