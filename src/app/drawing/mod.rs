//! The machine to scale, from the numbers entered, with what matters written on it.

mod about;
mod build_front;
mod build_plan;
mod frame;
mod ghost;
mod grips;
mod hatch;
mod hearth_detail;
mod ink;
mod larger;
mod notes;
mod paper;
mod pieces;
mod plan;
mod scene;
mod skins;
mod tap;
mod tilt;
mod told;

pub use hearth_detail::{HearthDetail, hearth_on_paper};
pub use ink::Look;
pub use larger::Larger;
pub use paper::{at_first, on_paper};
pub use tilt::TiltControl;

use super::Workspace;
use super::compare::Comparison;
use super::form::{GROUPS, group_of, show_field};
use crate::app::markup::following;
use crate::app::panel::Panel;
use crate::app::shown::{Rows, Show};
use crate::app::turns::Turns;
use crate::app::verdicts;
use ink::PieceName;
use larger::Enlarged;
use leptos::ev::PointerEvent;
use leptos::prelude::*;
use scene::Scene;
use tap::Meant;
use web_sys::Element;

/// The figure, looked at from one side, on ground that tilts so many degrees.
#[component]
pub fn Drawing(
    look: RwSignal<Look>,
    tilt: RwSignal<f64>,
    /// What is looked at where it is as large as the window.
    #[prop(optional_no_strip)]
    enlarged: Option<Enlarged>,
) -> impl IntoView {
    let (title_id, text_id) = match enlarged {
        Some(_) => ("larger-title", "larger-text"),
        None => ("drawing-title", "drawing-text"),
    };
    let pressed = StoredValue::new((0.0, 0.0));
    let leave = enlarged.map(|enlarged| enlarged.leave);
    let workspace = Workspace::get();
    let comparison = Comparison::get();
    let level = move || matches!(look.get(), Look::Level(_));
    let touched = RwSignal::new(None::<PieceName>);
    let in_view = workspace.machine_in_view();
    let driving = Turns::get().driving();
    // What was touched here is not what another panel is about.
    Effect::new(move |before: Option<Panel>| {
        let panel = workspace.panel.get();
        if before.is_some_and(|before| before != panel) {
            touched.set(None);
        }
        panel
    });
    let scene = Memo::new(move |before: Option<&Scene>| {
        if let Some(before) = before.filter(|_| !in_view.get()) {
            return before.clone();
        }
        let system = workspace.system.get();
        let (pinned, other) = (comparison.pinned.get(), comparison.assessment.get());
        let other = pinned
            .as_ref()
            .map(|pinned| &pinned.design)
            .zip(other.as_deref());
        workspace.design.with(|design| {
            workspace.assessment.with(|assessment| match look.get() {
                Look::Level(view) => {
                    let scene = Scene::of(design, assessment, other, view, tilt.get(), system);
                    match enlarged {
                        Some(enlarged) => {
                            enlarged.part_of(scene, &assessment.standing.machine, look.get())
                        }
                        None => scene,
                    }
                }
                Look::Above => plan::from_above(design, assessment, other, system),
            })
        })
    });
    // What was touched is another piece from another side, or none.
    Effect::new(move |_| {
        look.track();
        touched.set(None);
    });
    view! {
        <figure class="drawing">
            <svg
                role="group"
                aria-labelledby=title_id
                aria-describedby=text_id
                viewBox=move || scene.with(Scene::view_box)
                font-size=move || scene.with(|scene| format!("{:.1}", scene.text_size))
                on:pointerdown=move |event: PointerEvent| {
                    pressed.set_value((f64::from(event.client_x()), f64::from(event.client_y())));
                }
                on:click=move |event| {
                    let names = scene.with_untracked(Scene::piece_names);
                    match tap::meant(&event, pressed.get_value()) {
                        Some(Meant::Piece(piece)) => touched.set(name_of(&names, &piece)),
                        Some(Meant::Label(leads)) => follow(workspace, touched, &names, &leads, leave),
                        None => {}
                    }
                }
            >
                <title id=title_id>
                    {move || {
                        if level() {
                            "The machine, cut through its axis"
                        } else {
                            "The machine from above"
                        }
                    }}
                </title>
                {enlarged
                    .is_none()
                    .then(|| {
                        view! {
                            <g inner_html=move || {
                                hatch::patterns(scene.with(|scene| scene.text_size))
                            }></g>
                        }
                    })}
                <g
                    class="standing"
                    class:fallen=move || scene.with(|scene| scene.fallen)
                    transform=move || scene.with(Scene::lean)
                >
                    {following(move || scene.with(|scene| ink::paths(&scene.ground)))}
                    <Show when=level>
                        <grips::GroundGrip scene tilt />
                    </Show>
                    <g transform=move || scene.with(Scene::fall)>
                        <Rows each=move || scene.with(Scene::piece_names) key=PieceName::key let:name>
                            <Piece name scene touched />
                        </Rows>
                        {following(move || scene.with(|scene| ink::paths(&scene.contacts)))}
                        {following(move || scene.with(|scene| ink::paths(&scene.fire)))}
                        {following(move || scene.with(|scene| ink::paths(&scene.balance.strokes)))}
                        <Show when=move || driving.get() && level()>
                            <grips::LayerGrips scene look />
                        </Show>
                        {following(move || scene.with(|scene| ink::paths(&scene.ghost.strokes)))}
                    </g>
                </g>
                <g class="notes-of-drawing">
                    <Show when=move || driving.get()>
                        {following(move || scene.with(|scene| ink::paths(&scene.notes.strokes)))}
                        {following(move || scene.with(|scene| ink::texts(&scene.notes.labels)))}
                        {following(move || scene.with(|scene| ink::texts(&scene.drags.labels)))}
                    </Show>
                </g>
            </svg>
            <figcaption>
                <Show when=move || enlarged.is_some() && touched.with(Option::is_none)>
                    <p class="meaning">"Tap a part to read what it is."</p>
                </Show>
                <Touched touched leave />
                <p class="visually-hidden" id=text_id>
                    {move || scene.with(|scene| scene.words.clone())}
                </p>
            </figcaption>
        </figure>
    }
}

/// Opens what the label leads to that was tapped.
fn follow(
    workspace: Workspace,
    touched: RwSignal<Option<PieceName>>,
    names: &[PieceName],
    leads: &str,
    leave: Option<Callback<()>>,
) {
    let leads = leads.split_once(' ');
    if let Some(leave) = leave.filter(|_| !matches!(leads, Some(("piece", _)))) {
        leave.run(());
    }
    match leads {
        Some(("piece", path)) => {
            touched.set(names.iter().find(|name| name.path == path).cloned());
        }
        Some(("input", path)) => show_field(workspace, path),
        Some(("verdict", id)) => {
            verdicts::show(workspace, &format!("article[data-finding=\"{id}\"]"));
        }
        Some((_, name)) => {
            if let Some(group) = GROUPS.iter().find(|group| group.name == name) {
                workspace.show_group(group.name);
            }
        }
        None => {}
    }
}

/// The name of the piece that an element draws.
fn name_of(names: &[PieceName], piece: &Element) -> Option<PieceName> {
    let (path, label) = (
        piece.get_attribute("data-piece")?,
        piece.get_attribute("aria-label")?,
    );
    (names.iter())
        .find(|name| name.path == path && name.label == label)
        .cloned()
}

/// A piece of the machine: touching it says what it is and opens its inputs. Its lines follow the
/// scene while the element itself stays, so that focus stays too.
#[component]
fn Piece(
    name: PieceName,
    scene: Memo<Scene>,
    touched: RwSignal<Option<PieceName>>,
) -> impl IntoView {
    let name = StoredValue::new(name);
    let is_touched =
        move || touched.with(|touched| name.with_value(|name| touched.as_ref() == Some(name)));
    let touch = move || touched.set(Some(name.get_value()));
    let lines =
        move || scene.with(|scene| name.with_value(|name| ink::paths(scene.strokes_of(name))));
    view! {
        <g
            class="piece"
            class:touched=is_touched
            role="button"
            tabindex="0"
            aria-label=name.with_value(|name| name.label.clone())
            data-piece=name.with_value(|name| name.path.clone())
            on:keydown=move |event| {
                if matches!(event.key().as_str(), "Enter" | " ") {
                    event.prevent_default();
                    touch();
                }
            }
        >
            {following(lines)}
        </g>
    }
}

/// What is known about the piece that was touched, and the way to its inputs.
#[component]
fn Touched(
    touched: RwSignal<Option<PieceName>>,
    /// Leaves the figure for what is to be changed.
    leave: Option<Callback<()>>,
) -> impl IntoView {
    let workspace = Workspace::get();
    let known = move || {
        let name = touched.get()?;
        let words = workspace.design.with(|design| {
            workspace
                .assessment
                .with(|assessment| about::about(design, assessment, &name, workspace.system.get()))
        })?;
        let head = name.path.split('.').next().unwrap_or_default().to_string();
        let group = group_of(&head)?;
        Some(view! {
            <p class="touched-piece" role="status">
                <span>{words}</span>
                <button
                    type="button"
                    on:click=move |_| {
                        touched.set(None);
                        if let Some(leave) = leave {
                            leave.run(());
                        }
                        workspace.show_group(group.name);
                    }
                >
                    "Change"
                </button>
                <button type="button" aria-label="Close" on:click=move |_| touched.set(None)>
                    "×"
                </button>
            </p>
        })
    };
    view! { {known} }
}
