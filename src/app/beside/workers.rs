//! Workers as the page sees them.

use super::Job;
use js_sys::{Object, Reflect};
use leptos::prelude::*;
use std::cell::Cell;
use std::rc::Rc;
use std::time::Duration;
use wasm_bindgen::prelude::*;
use web_sys::{Event, MessageEvent, Worker, WorkerOptions, WorkerType};

/// Fewest and most workers, whatever the processor says of itself.
const WORKERS: (f64, f64) = (2.0, 4.0);

/// Pieces that a brisk worker has before it, so that it goes on while the page is busy.
const PIECES_AHEAD: usize = 2;

/// How a job is gone about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pace {
    /// By as many workers as there are processors.
    Brisk,
    /// By one worker, which leaves the processor to others for so long before each piece.
    Leisurely(Duration),
}

/// A job with what becomes of its answers.
pub struct Task {
    /// What is to be done.
    pub job: Job,
    /// The pieces to be done, in this order.
    pub pieces: Vec<usize>,
    /// How they are gone about.
    pub pace: Pace,
    /// Takes the answer to a piece; they come in any order.
    pub take: Rc<dyn Fn(usize, JsValue)>,
    /// Called when a worker cannot go on; the page then does what is left.
    pub failed: Rc<dyn Fn()>,
}

/// The workers of one task; they end when this is dropped.
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
    pub fn start(task: Task) -> Option<Self> {
        let Task {
            job,
            pieces,
            pace,
            take,
            failed,
        } = task;
        let glue = document()
            .query_selector("script[data-glue]")
            .ok()??
            .get_attribute("data-glue")?;
        let base = document().base_uri().ok()??;
        let glue = web_sys::Url::new_with_base(&glue, &base).ok()?.href();
        let opening = message(&[
            ("program", wasm_bindgen::module()),
            ("glue", glue.into()),
            ("job", serde_json::to_string(&job).ok()?.into()),
        ]);
        let next = Rc::new(Cell::new(0));
        let most = pieces.len();
        let fail = failed.clone();
        let on_message = Closure::new(move |event: MessageEvent| {
            let Some(worker) = event.target().and_then(|it| it.dyn_into::<Worker>().ok()) else {
                return;
            };
            let data = event.data();
            let done = entry(&data, "piece").as_f64();
            // The next pieces go out first, so that the worker is not kept waiting.
            let ahead = match pace {
                Pace::Brisk if done.is_none() => PIECES_AHEAD,
                _ => 1,
            };
            for &piece in pieces.iter().skip(next.get()).take(ahead) {
                next.set(next.get() + 1);
                let (worker, fail) = (worker.clone(), fail.clone());
                let hand_out = move || {
                    if worker.post_message(&JsValue::from(piece)).is_err() {
                        later(&fail);
                    }
                };
                match pace {
                    Pace::Brisk => hand_out(),
                    Pace::Leisurely(pause) => set_timeout(hand_out, pause),
                }
            }
            let Some(piece) = done else {
                return;
            };
            let (answer, take) = (entry(&data, "answer"), take.clone());
            if answer.is_undefined() {
                later(&fail);
            } else {
                queue_microtask(move || take(piece as usize, answer));
            }
        });
        let on_error = Closure::new(move |_: Event| later(&failed));
        let count = match pace {
            Pace::Brisk => {
                let processors = window().navigator().hardware_concurrency();
                processors.clamp(WORKERS.0, WORKERS.1) as usize
            }
            Pace::Leisurely(_) => 1,
        };
        let mut started = Self {
            workers: Vec::new(),
            _on_message: on_message,
            _on_error: on_error,
        };
        let options = WorkerOptions::new();
        options.set_type(WorkerType::Module);
        for _ in 0..count.min(most) {
            let worker = Worker::new_with_options("worker.js", &options).ok()?;
            worker.set_onmessage(Some(started._on_message.as_ref().unchecked_ref()));
            worker.set_onerror(Some(started._on_error.as_ref().unchecked_ref()));
            worker.post_message(&opening).ok()?;
            started.workers.push(worker);
        }
        Some(started)
    }
}

/// Not from inside the workers' own call, which may end them.
fn later(then: &Rc<dyn Fn()>) {
    let then = then.clone();
    queue_microtask(move || then());
}
