//! The shape of a verdict, so that it never depends on colour.

pub use crate::paper::html::{class, shape};
use crate::review::Verdict;
use leptos::prelude::*;

/// The shape beside a verdict's word.
#[component]
pub fn Mark(verdict: Verdict) -> impl IntoView {
    let (outline, sign) = shape(verdict);
    view! {
        <svg class="mark" viewBox="0 0 20 20" width="20" height="20" aria-hidden="true">
            <path class="mark-outline" d=outline />
            <path class="mark-sign" d=sign />
        </svg>
    }
}
