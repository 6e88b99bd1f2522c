//! Workers beside the page that reckon cases with the same program.

use super::Sureness;
use crate::design::{Design, file};
use js_sys::{Float32Array, Object, Reflect};
use leptos::prelude::*;
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use web_sys::{Event, MessageEvent, Worker, WorkerOptions, WorkerType};

/// Fewest and most workers, whatever the processor says of itself.
const WORKERS: (f64, f64) = (2.0, 4.0);
/// Cases given to a worker at once.
const RUN: usize = 50;

/// The workers of one sampling; they end when this is dropped.
pub struct Workers {
    workers: Vec<Worker>,
    // Kept as long as the workers may call them.
    _on_message: Closure<dyn FnMut(MessageEvent)>,
    _on_error: Closure<dyn FnMut(Event)>,
}

impl Drop for Workers {
    fn drop(&mut self) {
        for worker in &self.workers {
            worker.set_onmessage(None);
            worker.set_onerror(None);
            worker.terminate();
        }
    }
}

/// An object for a message.
fn message(entries: &[(&str, JsValue)]) -> JsValue {
    let object = Object::new();
    for (name, value) in entries {
        // A plain object takes any entry.
        let _ = Reflect::set(&object, &(*name).into(), value);
    }
    object.into()
}

fn entry(object: &JsValue, name: &str) -> JsValue {
    Reflect::get(object, &name.into()).unwrap_or_default()
}

impl Workers {
    /// Starts the workers; none where the browser gives none.
    pub fn start(design: &Design, seed: u32, wanted: usize, sureness: Sureness) -> Option<Self> {
        let glue = document()
            .query_selector("script[data-glue]")
            .ok()??
            .get_attribute("data-glue")?;
        let base = document().base_uri().ok()??;
        let glue = web_sys::Url::new_with_base(&glue, &base).ok()?.href();
        let opening = message(&[
            ("program", wasm_bindgen::module()),
            ("glue", glue.into()),
            ("design", file::write(design).into()),
            ("seed", seed.into()),
            ("wanted", (wanted as u32).into()),
        ]);
        let next = Rc::new(Cell::new(0));
        let on_message = Closure::new(move |event: MessageEvent| {
            let Some(worker) = event.target().and_then(|it| it.dyn_into::<Worker>().ok()) else {
                return;
            };
            // The next run goes out first, so that the worker is not kept waiting.
            let first = next.get();
            if first < wanted {
                let end = (first + RUN).min(wanted);
                next.set(end);
                let run = [("first", first as u32), ("end", end as u32)];
                let run = run.map(|(name, place)| (name, place.into()));
                if worker.post_message(&message(&run)).is_err() {
                    sureness.alone();
                    return;
                }
            }
            let data = event.data();
            if let Ok(outcomes) = entry(&data, "outcomes").dyn_into::<Float32Array>() {
                let first = entry(&data, "first").as_f64().unwrap_or_default();
                later(move || sureness.take(first as usize, &outcomes.to_vec()));
            }
        });
        let on_error = Closure::new(move |_: Event| later(move || sureness.alone()));
        let count = window().navigator().hardware_concurrency();
        let mut started = Self {
            workers: Vec::new(),
            _on_message: on_message,
            _on_error: on_error,
        };
        let options = WorkerOptions::new();
        options.set_type(WorkerType::Module);
        for _ in 0..count.clamp(WORKERS.0, WORKERS.1) as usize {
            let worker = Worker::new_with_options("worker.js", &options).ok()?;
            worker.set_onmessage(Some(started._on_message.as_ref().unchecked_ref()));
            worker.set_onerror(Some(started._on_error.as_ref().unchecked_ref()));
            worker.post_message(&opening).ok()?;
            started.workers.push(worker);
        }
        Some(started)
    }
}

/// Not from inside the workers' own call, which ends them when all is done.
fn later(then: impl FnOnce() + 'static) {
    queue_microtask(then);
}
