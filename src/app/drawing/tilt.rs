//! Tilting the ground under the machine, to see when it goes over; and which side is looked at.

use super::ink::{Look, View};
use crate::app::Workspace;
use crate::design::quantity::Quantity;
use leptos::prelude::*;

/// Steepest slope that can be tried, degrees.
pub const STEEPEST: f64 = 30.0;

/// The slope of the ground, and the side the drawing is seen from.
#[component]
pub fn TiltControl(look: RwSignal<Look>, tilt: RwSignal<f64>) -> impl IntoView {
    let workspace = Workspace::get();
    let shown = move || Quantity::Angle.show(tilt.get().abs().to_radians(), workspace.system.get());
    let button = move |from: Look, label: &'static str| {
        view! {
            <button
                type="button"
                aria-pressed=move || (look.get() == from).to_string()
                on:click=move |_| look.set(from)
            >
                {label}
            </button>
        }
    };
    view! {
        <div class="tilt">
            <label for="tilt">"Tilt " <output for="tilt">{shown}</output></label>
            <input
                id="tilt"
                type="range"
                min=-STEEPEST
                max=STEEPEST
                step="0.5"
                disabled=move || look.get() == Look::Above
                prop:value=move || tilt.get()
                on:input=move |event| tilt.set(event_target_value(&event).parse().unwrap_or(0.0))
            />
            <div class="switch" role="group" aria-label="Look from">
                {button(Look::Level(View::Front), "Front")} {button(Look::Level(View::Side), "Side")}
                {button(Look::Above, "Above")}
            </div>
        </div>
    }
}
