//! What can be dragged: the ground's slope, and the outside of an insulating layer. The same can be
//! done with the slider and the fields, so the grips are left out for screen readers.

use super::ink::{Look, View};
use super::pieces::mm;
use super::scene::Scene;
use super::tilt::steepest;
use crate::app::Workspace;
use crate::app::shown::Show;
use crate::design::Value;
use leptos::ev::PointerEvent;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, SvgElement};

/// Half of a thumb's target, as a multiple of the text size, which is about 12 pixels on a phone.
const THUMB: f64 = 1.8;

/// Where the pointer is in the figure, mm.
fn point(event: &PointerEvent, scene: &Scene) -> Option<(f64, f64)> {
    let grip: SvgElement = event.current_target()?.dyn_into().ok()?;
    let figure = grip.owner_svg_element()?.get_bounding_client_rect();
    let at = (
        f64::from(event.client_x()) - figure.left(),
        f64::from(event.client_y()) - figure.top(),
    );
    Some(scene.point_under(at, (figure.width(), figure.height())))
}

/// Keeps the pointer on the grip while it is dragged, wherever it moves.
fn hold(event: &PointerEvent) {
    event.prevent_default();
    if let Some(grip) = event
        .current_target()
        .and_then(|target| target.dyn_into::<Element>().ok())
    {
        // Without capture the drag ends when the pointer leaves the grip; nothing else is lost.
        let _ = grip.set_pointer_capture(event.pointer_id());
    }
}

fn is_held(event: &PointerEvent) -> bool {
    event
        .current_target()
        .and_then(|target| target.dyn_into::<Element>().ok())
        .is_some_and(|grip| grip.has_pointer_capture(event.pointer_id()))
}

/// The end of the ground line: pull it down or up to tilt the ground.
#[component]
pub fn GroundGrip(scene: Memo<Scene>, tilt: RwSignal<f64>) -> impl IntoView {
    let workspace = Workspace::get();
    let drag = move |event: PointerEvent| {
        if is_held(&event) {
            let most = (workspace.assessment).with_untracked(|found| steepest(&found.standing));
            let slope = scene
                .with_untracked(|scene| point(&event, scene).map(|at| scene.slope_towards(at)));
            if let Some(slope) = slope {
                tilt.set((2.0 * slope).round().clamp(-2.0 * most, 2.0 * most) / 2.0);
            }
        }
    };
    view! {
        <g class="grip" aria-hidden="true" on:pointerdown=move |event| hold(&event) on:pointermove=drag>
            <circle
                class="grip-target"
                cx=move || scene.with(|scene| scene.ground_grip().0)
                cy="0"
                r=move || scene.with(|scene| THUMB * scene.text_size)
            />
            <circle
                class="grip-dot"
                cx=move || scene.with(|scene| scene.ground_grip().0)
                cy="0"
                r=move || scene.with(|scene| 0.5 * scene.text_size)
            />
        </g>
    }
}

/// The grips on the insulation of hearth and body.
#[component]
pub fn LayerGrips(scene: Memo<Scene>, look: RwSignal<Look>) -> impl IntoView {
    [("hearth_layers", 0.3), ("body_layers", 0.6)]
        .map(|(list, share)| view! { <LayerGrip scene look list share /> })
}

/// The grip on the outside of the first insulating layer of a wall; none when there is no such layer.
#[component]
fn LayerGrip(
    scene: Memo<Scene>,
    look: RwSignal<Look>,
    /// Name of the list of layers.
    list: &'static str,
    /// How far up the wall it stands.
    share: f64,
) -> impl IntoView {
    let workspace = Workspace::get();
    // Where the layer begins and ends, mm from the figure's origin, and the height of the grip.
    let layer = Memo::new(move |_| {
        workspace.assessment.with(|assessment| {
            let vessel = &assessment.standing.machine.vessel;
            let axis = mm(match look.get() {
                Look::Level(View::Front) => vessel.x,
                Look::Level(View::Side) => vessel.y,
                Look::Above => return None,
            });
            let heat = assessment
                .warmth
                .zones
                .iter()
                .flatten()
                .find(|heat| heat.zone.layer_list() == list)?;
            let (bottom, top) = match list {
                "hearth_layers" => (vessel.hearth_bottom, vessel.hearth_top),
                _ => (vessel.hearth_top, vessel.body_top),
            };
            let index = heat.layers.iter().position(|layer| layer.insulates)?;
            let layer = heat.layers.get(index)?;
            let inside = axis + 0.5 * mm(heat.inner_diameter) + mm(layer.depth);
            let up = mm(bottom) + share * (mm(top) - mm(bottom));
            Some((index, inside, inside + mm(layer.thickness), up))
        })
    });
    let drag = move |event: PointerEvent| {
        let (true, Some((index, inside, _, _))) = (is_held(&event), layer.get_untracked()) else {
            return;
        };
        if let Some((x, _)) = scene.with_untracked(|scene| point(&event, scene)) {
            let thickness = (x - inside).max(1.0).round() / 1000.0;
            // A thickness out of range is not taken; the last one stays.
            let _ = workspace.set(
                &format!("{list}.{index}.thickness"),
                Value::Number(thickness),
            );
        }
    };
    let place =
        move |part: fn((usize, f64, f64, f64)) -> f64| move || layer.get().map_or(0.0, part);
    view! {
        <Show when=move || layer.get().is_some()>
            <g
                class="grip grip-layer"
                aria-hidden="true"
                on:pointerdown=move |event| hold(&event)
                on:pointermove=drag
                on:pointerup=move |_| workspace.finish_typing()
            >
                <circle
                    class="grip-target"
                    cx=place(|(_, _, outside, _)| outside)
                    cy=place(|(_, _, _, up)| -up)
                    r=move || scene.with(|scene| THUMB * scene.text_size)
                />
                <circle
                    class="grip-dot"
                    cx=place(|(_, _, outside, _)| outside)
                    cy=place(|(_, _, _, up)| -up)
                    r=move || scene.with(|scene| 0.35 * scene.text_size)
                />
            </g>
        </Show>
    }
}
