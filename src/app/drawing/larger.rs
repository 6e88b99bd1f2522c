//! The figure as large as the window: for parts that are smaller than a finger beside all else.

use super::Drawing;
use super::frame;
use super::ink::Look;
use super::scene::Scene;
use super::tilt::LookSwitch;
use crate::app::Workspace;
use crate::app::shown::Show;
use crate::sizing::machine::Machine;
use leptos::html;
use leptos::prelude::*;

/// What the large figure shows, and how it is left.
#[derive(Clone, Copy)]
pub struct Enlarged {
    /// Whether it shows the hearth alone.
    hearth: RwSignal<bool>,
    /// Closes it, when something else is to be seen.
    pub leave: Callback<()>,
}

impl Enlarged {
    /// The part of a scene that is looked at. On a narrow screen there is no room for texts beside the machine: a tap tells
    /// what they say.
    pub fn part_of(self, scene: Scene, machine: &Machine, look: Look) -> Scene {
        let alone = self.hearth.get();
        match look {
            Look::Level(view) if alone && !scene.is_tilted() => {
                scene.close_up(frame::hearth(machine, view))
            }
            Look::Level(_) if Workspace::get().is_narrow() && !scene.is_tilted() => {
                let all = scene.without_margins();
                scene.close_up(all)
            }
            _ => scene,
        }
    }
}

/// The button that opens the large figure, over the corner of the small one, and the large figure.
#[component]
pub fn Larger(look: RwSignal<Look>, tilt: RwSignal<f64>) -> impl IntoView {
    let open = RwSignal::new(false);
    let hearth = RwSignal::new(false);
    let dialog = NodeRef::<html::Dialog>::new();
    let close = move || {
        if let Some(dialog) = dialog.get_untracked() {
            dialog.close();
        }
    };
    let show = move |_| {
        open.set(true);
        // What is in it is there by then, and takes the focus.
        request_animation_frame(move || {
            if let Some(dialog) = dialog.get_untracked().filter(|dialog| !dialog.open()) {
                // It is in the page and closed, so that it can be shown.
                let _ = dialog.show_modal();
            }
        });
    };
    let enlarged = Enlarged {
        hearth,
        leave: Callback::new(move |()| close()),
    };
    view! {
        <div class="larger-at-hand">
            <button type="button" aria-haspopup="dialog" aria-label="The machine, larger" on:click=show>
                "Larger"
            </button>
        </div>
        <dialog
            class="larger"
            aria-label="The machine, larger"
            node_ref=dialog
            on:close=move |_| open.set(false)
        >
            <Show when=move || open.get()>
                <div class="larger-bar">
                    <LookSwitch look />
                    <button
                        type="button"
                        aria-pressed=move || hearth.get().to_string()
                        disabled=move || look.get() == Look::Above || tilt.get() != 0.0
                        on:click=move |_| hearth.update(|hearth| *hearth = !*hearth)
                    >
                        "Hearth"
                    </button>
                    <button type="button" class="close" aria-label="Close" on:click=move |_| close()>
                        "×"
                    </button>
                </div>
                <Drawing look tilt enlarged=Some(enlarged) />
            </Show>
        </dialog>
    }
}
