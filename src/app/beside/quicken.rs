//! Work that nobody waits for and that makes later work quicker.

use super::{Job, Pace, Task, Workers};
use leptos::prelude::*;
use std::rc::Rc;
use std::time::Duration;

/// When a worker begins to reckon the example, after the app: the page and what it fetches come first.
const START: Duration = Duration::from_secs(2);
/// How often it reckons it.
const ROUNDS: usize = 12;
/// What it leaves to others before each round.
const PAUSE: Duration = Duration::from_millis(100);

/// Has a worker reckon and draw the example some times. What is called often a browser compiles anew, to run faster, and
/// page and workers share what was compiled: so the first keystrokes find it ready. Without workers it comes with use.
pub fn quicken() {
    let workers = StoredValue::new_local(None);
    let end = move || workers.set_value(None);
    let task = Task {
        job: Job::WarmUp,
        pieces: ROUNDS,
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
