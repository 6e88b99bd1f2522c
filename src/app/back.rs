//! The way back on a phone: a panel that takes the place of another is a step of the browser's own history, so that its
//! back button leads to the panel before instead of out of the app.

use super::Workspace;
use super::compare::Comparison;
use super::panel::Panel;
use leptos::ev;
use leptos::prelude::*;
use wasm_bindgen::JsValue;

/// Follows the panels while they take turns.
pub fn lead_back(workspace: Workspace, comparison: Comparison) {
    Effect::new(move |before: Option<Panel>| {
        let panel = workspace.panel.get();
        match before {
            // A page that is loaded again begins where the app begins.
            None if is_between_panels() => mark(panel),
            Some(left) if left != panel => step(workspace, left, panel),
            _ => {}
        }
        panel
    });
    let handle = window_event_listener(ev::popstate, move |event| {
        let Some(panel) = marked(&event.state()) else {
            return;
        };
        let is_there = panel != Panel::Compare || comparison.is_on();
        workspace
            .panel
            .set(if is_there { panel } else { Panel::Verdicts });
    });
    on_cleanup(move || handle.remove());
}

/// What the present step of the history holds: kept when only the address is changed.
pub fn state() -> JsValue {
    let history = window().history();
    history
        .and_then(|history| history.state())
        .unwrap_or(JsValue::NULL)
}

/// Whether the present step of the history is one between panels.
pub fn is_between_panels() -> bool {
    marked(&state()).is_some()
}

fn marked(state: &JsValue) -> Option<Panel> {
    let name = state.as_string()?;
    Panel::ALL.into_iter().find(|panel| panel.name() == name)
}

fn step(workspace: Workspace, left: Panel, panel: Panel) {
    let here = marked(&state());
    // On a desk panels stand side by side; and who came by the way back is there already.
    if !workspace.is_narrow() || here == Some(panel) {
        return;
    }
    if here.is_none() {
        mark(left);
    }
    if let Ok(history) = window().history() {
        // A browser that refuses leaves the way back as it was.
        let _ = history.push_state(&panel.name().into(), "");
    }
}

/// Says of the present step which panel it is.
fn mark(panel: Panel) {
    if let Ok(history) = window().history() {
        // As above.
        let _ = history.replace_state(&panel.name().into(), "");
    }
}
