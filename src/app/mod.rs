//! What a person sees: fields, drawings, charts, pages, drafts, print. Computes nothing itself.

use leptos::prelude::*;

/// Mounts the app into the page.
pub fn start() {
    console_error_panic_hook::set_once();
    leptos::mount::mount_to_body(|| view! { <p>"Hearthplan"</p> });
}
