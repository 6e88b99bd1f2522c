//! The link as a QR code, on the screen and on paper, for the phone on the bench.

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

/// Said where the link is longer than a QR code holds.
const TOO_LARGE: &str = "The design is too large for a QR code: export it as a file.";

/// Breadth of a printed module in millimetres: a cheap phone still tells them apart.
const MODULE: f64 = 0.5;

/// Narrowest and widest printed code in millimetres.
const PRINTED: (f64, f64) = (32.0, 80.0);

/// The code as it stands on paper, as HTML: on the bench a phone opens the design from it.
pub fn on_paper(address: &str) -> String {
    let Some((size, path)) = path(address) else {
        return format!("<p>{TOO_LARGE}</p>");
    };
    let width = (size as f64 * MODULE).clamp(PRINTED.0, PRINTED.1);
    format!(
        "<div class=\"printed-code\"><svg role=\"img\" aria-label=\"Square code of the link\" width=\"{width}mm\" height=\"{width}mm\" viewBox=\"0 0 {size} {size}\" shape-rendering=\"crispEdges\"><path d=\"{path}\" fill=\"#000\"/></svg><p>Read it with a phone: it opens this design.</p></div>"
    )
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
        None => view! { <p>{TOO_LARGE}</p> }.into_any(),
    };
    view! {
        <button
            type="button"
            aria-expanded=move || open.get().to_string()
            on:click=move |_| open.update(|open| *open = !*open)
        >
            "Show as QR code"
        </button>
        <Show when=move || open.get()>{code}</Show>
    }
}
