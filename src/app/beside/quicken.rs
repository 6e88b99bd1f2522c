//! Work that nobody waits for and that makes later work quicker.

use super::{Job, Pace, Task, Workers};
use crate::app::{drawing, train};
use crate::design::example;
use crate::design::quantity::System;
use crate::review::assess;
use leptos::prelude::*;
use std::rc::Rc;
use std::time::Duration;
use wasm_bindgen::prelude::*;

/// When a worker begins to reckon the example, after the app: the page and what it fetches come first.
const START: Duration = Duration::from_secs(2);
/// How often it reckons it.
const ROUNDS: usize = 12;
/// What it leaves to others before each round.
const PAUSE: Duration = Duration::from_millis(100);

/// Reckons and draws the example. A browser compiles a function when it is first called, and page and workers share what
/// was compiled: so `start.js` has a worker do this before the page starts the program.
#[wasm_bindgen]
pub fn warm_up() {
    let design = example::as_first_drawn();
    let assessment = assess(&design);
    drawing::at_first(&design, &assessment, System::Metric);
    train::on_paper(&design, &assessment, System::Metric);
}

/// Has a worker reckon and draw the example some times. What is called often a browser compiles anew, to run faster, and
/// page and workers share what was compiled: so the first keystrokes find it ready. Without workers it comes with use.
pub fn quicken() {
    let workers = StoredValue::new_local(None);
    let end = move || workers.set_value(None);
    let task = Task {
        job: Job::WarmUp,
        pieces: (0..ROUNDS).collect(),
        pace: Pace::Leisurely(PAUSE),
        take: Rc::new(move |round, _| {
            if round + 1 == ROUNDS {
                end();
            }
        }),
        failed: Rc::new(end),
    };
    set_timeout(move || workers.set_value(Workers::start(task)), START);
}
