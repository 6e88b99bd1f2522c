//! What a person sees: fields, drawings, charts, drafts, print. Computes nothing itself.

mod fields;
mod form;
mod layout;
mod verdicts;
mod workspace;

pub use workspace::Workspace;

use leptos::prelude::*;

/// Mounts the app into the page in place of the first paint.
pub fn start() {
    console_error_panic_hook::set_once();
    if let Some(first_paint) = document().get_element_by_id("first-paint") {
        first_paint.remove();
    }
    leptos::mount::mount_to_body(layout::Screen);
}
