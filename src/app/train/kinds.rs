//! Asks at a place of the diagram what kind of stage is to be added there.

use crate::app::Workspace;
use crate::app::focus;
use crate::app::form::arrange::{self, Place};
use crate::design::Choice as _;
use crate::design::inputs::StageKind;
use leptos::ev::{self, KeyboardEvent};
use leptos::prelude::*;
use wasm_bindgen::JsCast as _;
use web_sys::{Element, HtmlElement};

/// The place asked about, and where in the figure the question stands, in pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Asked {
    place: Place,
    left: f64,
    top: f64,
}

/// Asks beside the button that was pressed; pressed again it asks no more.
pub fn ask(asked: RwSignal<Option<Asked>>, place: Place, button: &Element) {
    let before = asked.get_untracked();
    if before.is_some_and(|before| before.place == place) {
        return close(asked);
    }
    let Some(figure) = button.closest("figure").ok().flatten() else {
        return;
    };
    let (figure, button) = (
        figure.get_bounding_client_rect(),
        button.get_bounding_client_rect(),
    );
    asked.set(Some(Asked {
        place,
        left: button.right() - figure.left(),
        top: button.top() - figure.top(),
    }));
    focus::soon(vec![".kinds button".into()]);
}

/// Asks no more; the focus goes back to where it came from.
fn close(asked: RwSignal<Option<Asked>>) {
    if let Some(before) = asked.get_untracked() {
        asked.set(None);
        focus::soon(vec![format!("#diagram-add-{}", before.place.index)]);
    }
}

/// The kinds, as a list.
#[component]
pub fn Kinds(asked: RwSignal<Option<Asked>>) -> impl IntoView {
    let workspace = Workspace::get();
    let pixels =
        |way: fn(Asked) -> f64| move || asked.get().map(|asked| format!("{:.0}px", way(asked)));
    let number = move || asked.get().map_or(0, |asked| asked.place.index + 1);
    let choose = move |name: &str| {
        if let (Some(asking), Some(kind)) = (asked.get_untracked(), StageKind::from_name(name)) {
            asked.set(None);
            arrange::add_stage(workspace, asking.place, kind);
        }
    };
    // A press anywhere else asks no more; one on the buttons of the diagram is told there.
    let elsewhere = window_event_listener(ev::pointerdown, move |event| {
        let pressed = event
            .target()
            .and_then(|target| target.dyn_into::<Element>().ok());
        let inside =
            pressed.and_then(|pressed| pressed.closest(".kinds, [data-act='add']").ok()?);
        if inside.is_none() {
            asked.set(None);
        }
    });
    on_cleanup(move || elsewhere.remove());
    view! {
        <div
            class="kinds"
            role="menu"
            aria-label=move || format!("Kind of the new stage at place {}", number())
            style:left=pixels(|asked| asked.left)
            style:top=pixels(|asked| asked.top)
            on:keydown=move |event| follow_keys(asked, &event)
        >
            {StageKind::OPTIONS
                .iter()
                .map(|option| {
                    view! {
                        <button
                            type="button"
                            role="menuitem"
                            tabindex="-1"
                            data-kind=option.name
                            on:click=move |_| choose(option.name)
                        >
                            {option.label}
                        </button>
                    }
                })
                .collect_view()}
        </div>
    }
    .into_any()
}

/// The arrows go through the list and around its ends; Escape and Tab leave it.
fn follow_keys(asked: RwSignal<Option<Asked>>, event: &KeyboardEvent) {
    let Some(now) = document().active_element() else {
        return;
    };
    let list = now.parent_element();
    let first = || list.as_ref().and_then(Element::first_element_child);
    let last = || list.as_ref().and_then(Element::last_element_child);
    let next = match event.key().as_str() {
        "Escape" | "Tab" => {
            close(asked);
            None
        }
        "ArrowDown" => now.next_element_sibling().or_else(first),
        "ArrowUp" => now.previous_element_sibling().or_else(last),
        "Home" => first(),
        "End" => last(),
        _ => return,
    };
    event.prevent_default();
    if let Some(next) = next.and_then(|next| next.dyn_into::<HtmlElement>().ok()) {
        // An element that cannot take the focus leaves it where it is.
        let _ = next.focus();
    }
}
