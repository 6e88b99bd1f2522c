//! The shape of a verdict, so that it never depends on colour.

pub use crate::paper::html::class;
use crate::review::Verdict;
use leptos::prelude::*;

/// Circle with a tick, triangle, diamond with a question mark, octagon with a bar: the outline and
/// what is in it, on a sheet of 20 by 20.
pub fn shape(verdict: Verdict) -> (&'static str, &'static str) {
    match verdict {
        Verdict::Good => (
            "M10 2a8 8 0 1 0 0 16a8 8 0 1 0 0-16z",
            "M6 10.5l3 3 5.5-6.5",
        ),
        Verdict::Watch => ("M10 2l9 16H1z", "M10 8v5M10 14.8v.7"),
        Verdict::CannotTell => (
            "M10 1l9 9-9 9-9-9z",
            "M7.8 8a2.2 2.2 0 1 1 2.2 2.6v1.4M10 13.8v.7",
        ),
        Verdict::Stop => ("M6.5 1.5h7l5 5v7l-5 5h-7l-5-5v-7z", "M5.5 10h9"),
    }
}

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
