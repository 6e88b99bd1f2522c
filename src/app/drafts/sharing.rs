//! Links and files: the browser's side of sharing a design.

use crate::design::{Design, file, link};
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, Url};

/// The link that opens this design, in this very page.
pub fn address(design: &Design) -> String {
    let location = window().location();
    let origin = location.origin().unwrap_or_default();
    let path = location.pathname().unwrap_or_default();
    format!("{origin}{path}#{}", link::write(design))
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
