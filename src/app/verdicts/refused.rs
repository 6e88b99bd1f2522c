//! Which fields are told of above the drawing as not to be used. The first figures of most numbers lie below their range, and
//! a line that comes and goes with each of them would shove the drawing, and all that stands below, from under the eye.

use crate::app::Workspace;
use crate::app::fields::element_id;
use leptos::prelude::*;
use std::collections::BTreeSet;
use std::time::Duration;

/// As long after the last key a person has stopped typing.
const PAUSE: Duration = Duration::from_millis(1500);

/// As long after a field was left: what was pressed to leave it is not shoved from under the finger.
const AFTER_LEAVING: Duration = Duration::from_millis(300);

/// The paths of the fields whose text cannot be used: of the one that is being typed in only once that has come to a rest.
/// One that was told of stays so until it can be used.
pub fn told_once_typed(workspace: Workspace) -> RwSignal<BTreeSet<String>> {
    let told = RwSignal::new(BTreeSet::new());
    let put = move |now: BTreeSet<String>| {
        if told.with_untracked(|told| *told != now) {
            told.set(now);
        }
    };
    let come_to_rest = move || put(untrack(|| workspace.refused()));
    Effect::new(move |waiting: Option<Option<TimeoutHandle>>| {
        if let Some(handle) = waiting.flatten() {
            handle.clear();
        }
        let refused = workspace.refused();
        let typed_in = |path: &&String| {
            !told.with_untracked(|told: &BTreeSet<String>| told.contains(*path)) && has_focus(path)
        };
        let typed = refused.iter().find(typed_in).cloned();
        let others = refused
            .into_iter()
            .filter(|path| Some(path) != typed.as_ref());
        put(others.collect());
        typed.and_then(|_| set_timeout_with_handle(come_to_rest, PAUSE).ok())
    });
    let left = window_event_listener(leptos::ev::focusout, move |_| {
        set_timeout(come_to_rest, AFTER_LEAVING);
    });
    on_cleanup(move || left.remove());
    told
}

/// Whether the field of this input has the focus.
fn has_focus(path: &str) -> bool {
    (document().active_element()).is_some_and(|element| element.id() == element_id(path))
}
