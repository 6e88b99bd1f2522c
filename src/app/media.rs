//! What the browser says of the screen, as signals.

use leptos::prelude::*;
use wasm_bindgen::JsCast as _;
use wasm_bindgen::closure::Closure;

/// Whether a media query holds, now and from now on; false where the browser cannot tell.
pub fn matches(query: &str) -> ReadSignal<bool> {
    let list = window().match_media(query).ok().flatten();
    let (holds, set_holds) = signal(list.as_ref().is_some_and(|list| list.matches()));
    let kept = StoredValue::new_local(list.map(|list| {
        let asked = list.clone();
        let notice = Closure::<dyn Fn()>::new(move || set_holds.set(asked.matches()));
        list.set_onchange(Some(notice.as_ref().unchecked_ref()));
        (list, notice)
    }));
    on_cleanup(move || {
        kept.try_with_value(|kept| {
            if let Some((list, _)) = kept {
                list.set_onchange(None);
            }
        });
    });
    holds
}
