//! The way back: on a phone a panel that takes the place of another, and everywhere a question that follows another, is a
//! step of the browser's own history, so that its back button leads to what was before instead of out of the app.

use super::Workspace;
use super::compare::Comparison;
use super::panel::Panel;
use leptos::ev;
use leptos::prelude::*;
use wasm_bindgen::JsValue;

/// Ends the name of a step that leads from one question to the next.
const FROM_QUESTION: &str = " next";

/// Where one is: in a panel, and at which of the first questions.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Place {
    panel: Panel,
    question: Option<usize>,
}

impl Place {
    /// Where the person is now.
    fn of(workspace: Workspace) -> Self {
        let panel = workspace.panel.get();
        let question = workspace.question.get();
        Self {
            panel,
            question: question.filter(|_| panel == Panel::Numbers),
        }
    }

    fn name(self) -> String {
        let panel = self.panel.name();
        (self.question).map_or_else(|| panel.to_string(), |asked| format!("{panel} {asked}"))
    }

    /// Whether both are questions, but not the same.
    fn asks_otherwise(self, other: Self) -> bool {
        (self.question.zip(other.question)).is_some_and(|(one, other)| one != other)
    }
}

/// Follows panels and questions while they take turns.
pub fn lead_back(workspace: Workspace, comparison: Comparison) {
    Effect::new(move |before: Option<Place>| {
        let place = Place::of(workspace);
        match before {
            // A page that is loaded again begins where the app begins.
            None if marked(&state()).is_some_and(|here| here != place) => mark(place),
            Some(left) if left != place => step(workspace, left, place),
            _ => {}
        }
        place
    });
    let handle = window_event_listener(ev::popstate, move |event| {
        let Some(place) = marked(&event.state()) else {
            return;
        };
        if let Some(asked) = place.question {
            let now = workspace.question.get_untracked();
            if now.is_some_and(|now| asked <= now + 1) {
                workspace.question.set(Some(asked));
            } else if asked > 0 {
                // Questions that are over are passed by; a browser that refuses stays here.
                let _ = window().history().and_then(|history| history.back());
                return;
            }
        }
        let is_there = place.panel != Panel::Compare || comparison.is_on();
        workspace.panel.set(if is_there {
            place.panel
        } else {
            Panel::Verdicts
        });
    });
    on_cleanup(move || handle.remove());
}

/// Leads to the question before, by the step that led on from there where that is the last one.
pub fn to_question_before(workspace: Workspace) {
    let question = workspace.question.get_untracked();
    let state = state();
    let is_next = (state.as_string()).is_some_and(|name| name.ends_with(FROM_QUESTION));
    let is_here = marked(&state).is_some_and(|here| here.question == question);
    let is_led = is_next
        && is_here
        && (window().history())
            .and_then(|history| history.back())
            .is_ok();
    if !is_led {
        workspace
            .question
            .set(question.and_then(|asked| asked.checked_sub(1)));
    }
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

fn marked(state: &JsValue) -> Option<Place> {
    let name = state.as_string()?;
    let mut words = name.split(' ');
    let panel = words.next()?;
    Some(Place {
        panel: Panel::ALL.into_iter().find(|one| one.name() == panel)?,
        question: words.next().and_then(|asked| asked.parse().ok()),
    })
}

fn step(workspace: Workspace, left: Place, place: Place) {
    let here = marked(&state());
    let asks_on = left.asks_otherwise(place);
    // On a desk panels stand side by side, while questions take turns there too.
    let is_step = asks_on || workspace.is_narrow() && left.panel != place.panel;
    // Who came by the way back is there already.
    let is_there =
        here.is_some_and(|here| here.panel == place.panel && !(asks_on && here != place));
    if !is_step || is_there {
        return;
    }
    if here.is_none() || asks_on && here != Some(left) {
        mark(left);
    }
    let mut name = place.name();
    if asks_on && left.question < place.question {
        name.push_str(FROM_QUESTION);
    }
    if let Ok(history) = window().history() {
        // A browser that refuses leaves the way back as it was.
        let _ = history.push_state(&name.into(), "");
    }
}

/// Says of the present step which panel it is, and which question.
fn mark(place: Place) {
    if let Ok(history) = window().history() {
        // As above.
        let _ = history.replace_state(&place.name().into(), "");
    }
}
