//! Where the focus goes when what had it leaves the page, so that keyboard and screen reader go on from there.

use leptos::ev::MouseEvent;
use leptos::prelude::*;
use wasm_bindgen::JsCast as _;

/// Gives the focus to the first of these that is there once the page shows what was changed.
pub fn soon(selectors: Vec<String>) {
    request_animation_frame(move || {
        let found = selectors
            .iter()
            .find_map(|selector| document().query_selector(selector).ok().flatten());
        let Some(element) = found else {
            return;
        };
        // To give it again would only have the browser lay out the page once more.
        if document().active_element().as_ref() == Some(&element) {
            return;
        }
        // An element that cannot take the focus leaves it where it is.
        if let Some(element) = element.dyn_ref::<web_sys::HtmlElement>() {
            let _ = element.focus();
        } else if let Some(element) = element.dyn_ref::<web_sys::SvgElement>() {
            let _ = element.focus();
        }
    });
}

/// The same after a button was pressed that goes by it. Of a finger or a mouse nothing is taken away, and the page would
/// only scroll under it.
pub fn after_press(event: &MouseEvent, selectors: Vec<String>) {
    let is_by_keyboard = event.detail() == 0;
    if is_by_keyboard {
        soon(selectors);
    }
}
