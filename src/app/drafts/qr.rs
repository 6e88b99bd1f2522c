//! The link as a square code, for the phone on the bench.

use crate::app::shown::Show;
use leptos::prelude::*;
use qrcode::{Color, EcLevel, QrCode};
use std::fmt::Write as _;

/// Blank modules around the code, as ISO/IEC 18004 asks for.
const QUIET: usize = 4;

/// Width of the code with its quiet zone, and the path that fills its dark modules.
fn path(text: &str) -> Option<(usize, String)> {
    let code = QrCode::with_error_correction_level(text, EcLevel::L).ok()?;
    let width = code.width();
    let mut path = String::new();
    for (place, colour) in code.to_colors().into_iter().enumerate() {
        if colour == Color::Dark {
            // Writing to a string cannot fail.
            let _ = write!(
                path,
                "M{} {}h1v1h-1z",
                QUIET + place % width,
                QUIET + place / width
            );
        }
    }
    Some((width + 2 * QUIET, path))
}

/// The code, made only while it is shown.
#[component]
pub fn SquareCode(address: Memo<String>) -> impl IntoView {
    let open = RwSignal::new(false);
    let code = move || match address.with(|address| path(address)) {
        Some((size, path)) => view! {
            <svg
                class="square-code"
                role="img"
                aria-label="Square code of the link"
                viewBox=format!("0 0 {size} {size}")
                shape-rendering="crispEdges"
            >
                <rect width=size height=size fill="#fff" />
                <path d=path fill="#000" />
            </svg>
        }
        .into_any(),
        None => view! { <p>"The design is too large for a square code: export it as a file."</p> }
            .into_any(),
    };
    view! {
        <button
            type="button"
            aria-expanded=move || open.get().to_string()
            on:click=move |_| open.update(|open| *open = !*open)
        >
            "Show as a square code"
        </button>
        <Show when=move || open.get()>{code}</Show>
    }
}
