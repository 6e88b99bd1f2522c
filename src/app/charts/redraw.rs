//! What makes a drawn chart out of date without the design having changed: coming into view, a new
//! size, another theme.

use leptos::html;
use leptos::prelude::*;
use std::time::Duration;
use wasm_bindgen::JsCast as _;
use wasm_bindgen::closure::Closure;
use web_sys::{
    IntersectionObserver, IntersectionObserverEntry, IntersectionObserverInit, ResizeObserver,
};

/// A chart waits this long after a change: the keystroke, the verdicts and the drawing come first.
const PAUSE: Duration = Duration::from_millis(80);
/// One that is scrolled out of sight can still be read aloud and searched: its words follow once all else stands.
const PAUSE_OUT_OF_SIGHT: Duration = Duration::from_millis(700);

/// How long to wait before a chart is made anew; none where nobody can meet it.
pub fn pause(in_view: bool, on_screen: bool, first: bool) -> Option<Duration> {
    match (in_view, on_screen, first) {
        (true, _, true) => Some(Duration::ZERO),
        (true, _, false) => Some(PAUSE),
        (false, true, _) => Some(PAUSE_OUT_OF_SIGHT),
        (false, false, _) => None,
    }
}

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
