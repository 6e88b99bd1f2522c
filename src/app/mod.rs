//! What a person sees: fields, drawings, charts, drafts, print. Computes nothing itself.

mod back;
mod beside;
mod charts;
mod compare;
mod drafts;
mod drawing;
mod fields;
mod first_paint;
mod focus;
mod form;
mod guide;
mod how_sure;
mod landing;
mod layout;
mod markup;
mod media;
mod naming;
mod panel;
mod results;
mod shown;
mod train;
mod turns;
mod verdicts;
mod workshop;
mod workspace;

pub use workspace::Workspace;

use leptos::prelude::*;

/// Mounts the app into the page and takes the page's first words away. A worker, which has no window, only wants
/// the program.
pub fn start() {
    if web_sys::window().is_none() {
        return;
    }
    // The optimised site has no texts of panics; start.js tells the person.
    if cfg!(debug_assertions) {
        console_error_panic_hook::set_once();
    }
    turns::soon(|| leptos::mount::mount_to_body(|| view! { <layout::Screen /> }));
}
