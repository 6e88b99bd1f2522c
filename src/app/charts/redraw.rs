//! What makes a drawn chart out of date without the design having changed: coming into view, a new
//! size, another theme.

use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::JsCast as _;
use wasm_bindgen::closure::Closure;
use web_sys::{
    IntersectionObserver, IntersectionObserverEntry, IntersectionObserverInit, ResizeObserver,
};

/// A chart is made ready when it comes this near to the screen.
const NEAR: &str = "150px";

/// Whether an element is on the screen or near it.
pub fn in_view(element: NodeRef<html::Figure>) -> ReadSignal<bool> {
    let (seen, set_seen) = signal(false);
    let kept = StoredValue::new_local(None);
    Effect::new(move |_| {
        let Some(element) = element.get() else {
            return;
        };
        let notice = Closure::<dyn Fn(js_sys::Array)>::new(move |entries: js_sys::Array| {
            let shown = entries
                .iter()
                .last()
                .and_then(|entry| entry.dyn_into::<IntersectionObserverEntry>().ok())
                .is_some_and(|entry| entry.is_intersecting());
            set_seen.set(shown);
        });
        let options = IntersectionObserverInit::new();
        options.set_root_margin(NEAR);
        let observer =
            IntersectionObserver::new_with_options(notice.as_ref().unchecked_ref(), &options);
        match observer {
            Ok(observer) => {
                observer.observe(&element);
                kept.set_value(Some((observer, notice)));
            }
            // Without the observer every chart is always drawn.
            Err(_) => set_seen.set(true),
        }
    });
    on_cleanup(move || {
        kept.try_with_value(|kept| {
            if let Some((observer, _)) = kept {
                observer.disconnect();
            }
        });
    });
    seen
}

/// Counts the changes of an element's size.
pub fn resizes(element: NodeRef<html::Canvas>) -> ReadSignal<u32> {
    let (count, set_count) = signal(0);
    let kept = StoredValue::new_local(None);
    Effect::new(move |_| {
        let Some(element) = element.get() else {
            return;
        };
        let notice = Closure::<dyn Fn()>::new(move || set_count.update(|count| *count += 1));
        if let Ok(observer) = ResizeObserver::new(notice.as_ref().unchecked_ref()) {
            observer.observe(&element);
            kept.set_value(Some((observer, notice)));
        }
    });
    on_cleanup(move || {
        kept.try_with_value(|kept| {
            if let Some((observer, _)) = kept {
                observer.disconnect();
            }
        });
    });
    count
}
