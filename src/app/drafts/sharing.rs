//! Links and files: the browser's side of sharing a design.

use crate::design::link::Answer;
use crate::design::{Design, file, link};
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, Url};

/// The link that opens this design, in this very page.
pub fn address(design: &Design) -> String {
    here(&link::write(design))
}

/// The link that shows this design as an answer to another.
pub fn answer_address(base: Design, design: Design, note: String) -> String {
    here(&link::write_answer(&Answer { base, design, note }))
}

fn here(fragment: &str) -> String {
    let location = window().location();
    let origin = location.origin().unwrap_or_default();
    let path = location.pathname().unwrap_or_default();
    format!("{origin}{path}#{fragment}")
}

/// Copies a text and tells how that went.
pub fn copy(text: String, outcome: RwSignal<Option<&'static str>>) {
    spawn_local(async move {
        let writing = window().navigator().clipboard().write_text(&text);
        let told = match JsFuture::from(writing).await {
            Ok(_) => "Copied.",
            Err(_) => "The browser did not let us copy: select the link and copy it by hand.",
        };
        outcome.try_set(Some(told));
    });
}

/// Offers the design as a file to download.
pub fn download(design: &Design) {
    let name: String = design
        .about
        .name
        .chars()
        .map(|letter| {
            if letter.is_alphanumeric() {
                letter
            } else {
                '-'
            }
        })
        .collect();
    offer_file(
        &format!("{name}.hearthplan.json"),
        "application/json",
        file::write(design).as_bytes(),
    );
}

/// Offers a file to download; does nothing where the browser forbids it.
pub fn offer_file(name: &str, kind: &str, content: &[u8]) -> Option<()> {
    let parts = js_sys::Array::of1(&js_sys::Uint8Array::from(content));
    let options = BlobPropertyBag::new();
    options.set_type(kind);
    let blob = Blob::new_with_u8_array_sequence_and_options(&parts, &options).ok()?;
    let url = Url::create_object_url_with_blob(&blob).ok()?;
    let anchor: HtmlAnchorElement = document().create_element("a").ok()?.dyn_into().ok()?;
    anchor.set_href(&url);
    anchor.set_download(name);
    anchor.click();
    Url::revoke_object_url(&url).ok()
}
