//! Tilting the ground under the machine, to see when it goes over; and which side is looked at.

use super::ink::{Look, View};
use crate::app::Workspace;
use crate::design::quantity::{Quantity, System};
use crate::review::Standing;
use leptos::prelude::*;
use std::f64::consts::{FRAC_PI_2, PI};
use uom::si::angle::radian;
use uom::si::f64::Angle;

/// Slopes that can be tried on any machine, and on the one that stands best, degrees.
const ALWAYS: f64 = 30.0;
const MOST: f64 = 60.0;
/// The slopes that can be tried end at a multiple of this, and at least half of it beyond where it tips, degrees.
const STEP: f64 = 5.0;

/// Which way a slope falls, as an azimuth, and in words.
fn falls(view: View, tilt: f64) -> (f64, &'static str) {
    match (view, tilt >= 0.0) {
        (View::Front, true) => (0.0, "to the right"),
        (View::Front, false) => (PI, "to the left"),
        (View::Side, true) => (FRAC_PI_2, "to the back"),
        (View::Side, false) => (-FRAC_PI_2, "to the front"),
    }
}

/// The slope at which the machine tips the way this one falls; none without a footprint.
pub fn tips_at(standing: &Standing, view: View, tilt: f64) -> Option<Angle> {
    let (azimuth, _) = falls(view, tilt);
    (standing.full).tip_angle_towards(Angle::new::<radian>(azimuth))
}

/// Whether a machine that tips there goes over on this slope.
pub fn goes_over(tips_at: Option<Angle>, tilt: f64) -> bool {
    tips_at.is_some_and(|angle| tilt.abs().to_radians() > angle.value)
}

/// The steepest slope that can be tried, degrees: past the largest at which the machine tips, as far as there is sense in
/// that.
pub fn steepest(standing: &Standing) -> f64 {
    let ways = [View::Front, View::Side].map(|view| [-1.0, 1.0].map(|tilt| (view, tilt)));
    let largest = (ways.into_iter().flatten())
        .filter_map(|(view, tilt)| tips_at(standing, view, tilt))
        .map(|angle| angle.value.to_degrees())
        .fold(0.0, f64::max);
    (((largest + 0.5 * STEP) / STEP).ceil() * STEP).clamp(ALWAYS, MOST)
}

/// A slope in words, and whether the machine stands on it.
fn told(standing: &Standing, look: Look, tilt: f64, system: System) -> String {
    let Look::Level(view) = look else {
        return "level".to_string();
    };
    if tilt == 0.0 {
        return "level".to_string();
    }
    let slope = Quantity::Angle.show(tilt.abs().to_radians(), system);
    let (_, way) = falls(view, tilt);
    let stands = match tips_at(standing, view, tilt) {
        None => "has no footprint to stand on",
        tips_at if goes_over(tips_at, tilt) => "goes over",
        _ => "stands",
    };
    format!("{slope} {way}: {stands}")
}

/// The slope of the ground, and the side the drawing is seen from.
#[component]
pub fn TiltControl(look: RwSignal<Look>, tilt: RwSignal<f64>) -> impl IntoView {
    let workspace = Workspace::get();
    let shown = move || Quantity::Angle.show(tilt.get().abs().to_radians(), workspace.system.get());
    let most = Memo::new(move |_| (workspace.assessment).with(|found| steepest(&found.standing)));
    // A machine that stands worse now is tried on no slope that the slider does not have.
    Effect::new(move |_| {
        let (most, now) = (most.get(), tilt.get_untracked());
        if now.abs() > most {
            tilt.set(now.clamp(-most, most));
        }
    });
    let in_words = Memo::new(move |_| {
        let (look, tilt, system) = (look.get(), tilt.get(), workspace.system.get());
        (workspace.assessment).with(|found| told(&found.standing, look, tilt, system))
    });
    // That it goes over, or stands again, is said to those who do not see it.
    let falls_over = Memo::new(move |before: Option<&bool>| match look.get() {
        Look::Level(view) => (workspace.assessment).with(|found| {
            let tilt = tilt.get();
            goes_over(tips_at(&found.standing, view, tilt), tilt)
        }),
        // From above nothing tilts.
        Look::Above => before.is_some_and(|before| *before),
    });
    Effect::new(move |before: Option<bool>| {
        let falls_over = falls_over.get();
        if before.is_some_and(|before| before != falls_over) {
            workspace.said.set(if falls_over {
                format!("{}.", in_words.get_untracked())
            } else {
                "The machine stands again.".to_string()
            });
        }
        falls_over
    });
    view! {
        <div class="tilt">
            <label for="tilt">"Tilt " <output for="tilt">{shown}</output></label>
            <input
                id="tilt"
                type="range"
                min=move || -most.get()
                max=move || most.get()
                step="0.5"
                disabled=move || look.get() == Look::Above
                aria-valuetext=move || in_words.get()
                prop:value=move || tilt.get()
                on:input=move |event| tilt.set(event_target_value(&event).parse().unwrap_or(0.0))
            />
            <LookSwitch look />
        </div>
    }
}

/// The side the drawing is seen from.
#[component]
pub fn LookSwitch(look: RwSignal<Look>) -> impl IntoView {
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
        <div class="switch" role="group" aria-label="Look from">
            {button(Look::Level(View::Front), "Front")} {button(Look::Level(View::Side), "Side")}
            {button(Look::Above, "Above")}
        </div>
    }
}
