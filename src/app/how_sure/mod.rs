//! How sure the verdicts are: the sampling, run by workers or in slices, and its words.

use super::Workspace;
use super::beside::{Job, Pace, Task, Workers};
use super::form::show_field;
use super::naming::{lower_first, of_input};
use super::shown::live;
use crate::design::Design;
use crate::design::quantity::System;
use crate::review::sampling::{Driver, HowSure, Progress, Sampling, SamplingReport};
use js_sys::Float32Array;
use leptos::prelude::*;
use std::ops::Range;
use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;
use wasm_bindgen::{JsCast as _, JsValue};

/// Cases of one sampling.
const CASES: usize = 2_000;
/// Cases that a worker reckons at once.
const RUN: usize = 50;
/// The same question gets the same answer.
const SEED: u32 = 1;
/// Where no worker helps, the page reckons for so long at once, ms, and then breathes.
const SLICE: f64 = 30.0;
/// Cases between two looks at the clock.
const FEW: usize = 3;
/// Inputs named for one verdict.
const MOST_DRIVERS: usize = 3;
/// Inputs named for all verdicts together.
const MOST_NAMED: usize = 6;

/// The cases of a piece of the work.
pub fn run(piece: usize) -> Range<usize> {
    let first = piece.saturating_mul(RUN).min(CASES);
    first..(first + RUN).min(CASES)
}

/// How far the question has come.
#[derive(Debug, Clone, PartialEq)]
enum State {
    /// Not asked, or the design has changed since.
    NotAsked,
    /// Under way.
    Running(Progress),
    /// Answered.
    Done(Arc<SamplingReport>),
}

/// Handle to the question; cheap to copy, found in context.
#[derive(Clone, Copy)]
pub struct Sureness {
    state: RwSignal<State>,
    /// The answer alone, for those who need not know how far it is.
    report: Memo<Option<Arc<SamplingReport>>>,
    work: StoredValue<Option<Work>, LocalStorage>,
    design: RwSignal<Design>,
}

struct Work {
    sampling: Sampling,
    /// The workers that reckon; none when the page does it.
    workers: Option<Workers>,
}

impl Work {
    /// Reckons cases for a slice of time; only a few where the page has no clock.
    fn for_a_while(&mut self) {
        let clock = window().performance();
        let now = || clock.as_ref().map_or(f64::INFINITY, |clock| clock.now());
        let start = now();
        loop {
            self.sampling.run(FEW);
            let Progress { done, wanted } = self.sampling.progress();
            let passed = now() - start;
            if done >= wanted || passed.is_nan() || passed >= SLICE {
                break;
            }
        }
    }
}

impl Sureness {
    /// The question of the app.
    pub fn get() -> Self {
        expect_context::<Self>()
    }

    /// Nothing is asked yet; whenever the design changes, the answer is dropped.
    pub fn start(workspace: Workspace) -> Self {
        let state = RwSignal::new(State::NotAsked);
        let report = Memo::new(move |_| {
            state.with(|state| match state {
                State::Done(report) => Some(report.clone()),
                _ => None,
            })
        });
        let sureness = Self {
            state,
            report,
            work: StoredValue::new_local(None),
            design: workspace.design,
        };
        Effect::new(move |_| {
            workspace.design.track();
            sureness.stop();
        });
        sureness
    }

    fn ask(self, workspace: Workspace) {
        self.stop();
        let design = workspace.design.get_untracked();
        // They set off first: the page's own share is ready long before their first answer.
        let workers = Workers::start(Task {
            job: Job::sampling(&design, SEED, CASES),
            pieces: (0..CASES.div_ceil(RUN)).collect(),
            pace: Pace::Brisk,
            take: Rc::new(move |piece, answer| self.take(piece, answer)),
            failed: Rc::new(move || self.alone()),
        });
        let sampling = Sampling::new(&design, u64::from(SEED), CASES);
        self.state.set(State::Running(sampling.progress()));
        let alone = workers.is_none();
        self.work.set_value(Some(Work { sampling, workers }));
        if alone {
            self.slice();
        }
    }

    fn stop(self) {
        self.work.set_value(None);
        if self.state.with_untracked(|state| *state != State::NotAsked) {
            self.state.set(State::NotAsked);
        }
    }

    /// Takes in what a worker found, and tells what to show.
    fn take(self, piece: usize, answer: JsValue) {
        let Ok(outcomes) = answer.dyn_into::<Float32Array>() else {
            self.alone();
            return;
        };
        self.work.update_value(|work| {
            if let Some(work) = work {
                work.sampling.take(run(piece).start, &outcomes.to_vec());
            }
        });
        self.tell();
    }

    /// Goes on without workers.
    fn alone(self) {
        let running = self
            .work
            .try_update_value(|work| work.as_mut().map(|work| work.workers = None).is_some());
        if running == Some(true) {
            self.slice();
        }
    }

    /// Reckons a few cases, then lets the page breathe.
    fn slice(self) {
        set_timeout(
            move || {
                self.work.update_value(|work| {
                    if let Some(work) = work {
                        work.for_a_while();
                    }
                });
                if self.tell() {
                    self.slice();
                }
            },
            Duration::from_millis(1),
        );
    }

    /// Shows how far it is; whether there is more to do.
    fn tell(self) -> bool {
        let state = self.work.with_value(|work| {
            let sampling = &work.as_ref()?.sampling;
            let progress = sampling.progress();
            Some(if progress.done < progress.wanted {
                State::Running(progress)
            } else {
                State::Done(Arc::new(sampling.report()))
            })
        });
        let more = matches!(state, Some(State::Running(_)));
        if let Some(state) = state {
            if !more {
                self.work.set_value(None);
            }
            self.state.set(state);
        }
        more
    }

    /// What is known about one verdict, in words; empty while nothing is.
    pub fn words(self, id: &str, system: System) -> String {
        self.report.with(|report| {
            let finding = report.as_ref().and_then(|report| report.finding(id));
            finding.map_or_else(String::new, |finding| {
                (self.design).with_untracked(|design| words(finding, design, system))
            })
        })
    }
}

fn words(finding: &HowSure, design: &Design, system: System) -> String {
    let hundredths = (finding.passes * 100.0).round();
    let mut words = if finding.passes >= 1.0 {
        "Passes in all cases.".to_string()
    } else if finding.passes <= 0.0 {
        "Passes in no case.".to_string()
    } else {
        format!("Passes in {} of 100 cases.", hundredths.clamp(1.0, 99.0))
    };
    if let Some(number) = finding.number {
        let (low, high) = (number.low.show(system), number.high.show(system));
        let counted = finding
            .counted
            .map_or_else(String::new, |word| format!(" {word}"));
        words.push_str(&if low == high {
            format!(" {low}{counted} in most cases.")
        } else {
            format!(" In 8 of 10 cases between {low} and {high}{counted}.")
        });
    }
    if !finding.drivers.is_empty() {
        words.push_str(&format!(
            " What moves it most: {}.",
            named(&finding.drivers, design)
        ));
    } else if finding.is_open() {
        words.push_str(" No single input stands out from chance.");
    }
    words
}

/// The strongest inputs with the way that helps.
fn named(drivers: &[Driver], design: &Design) -> String {
    let names = drivers.iter().take(MOST_DRIVERS).map(|driver| {
        let way = if driver.correlation > 0.0 {
            "more is better"
        } else {
            "less is better"
        };
        let name = lower_first(&of_input(design, &driver.path, driver.input));
        format!("{name} ({way})")
    });
    names.collect::<Vec<_>>().join("; ")
}

fn answer(report: &SamplingReport) -> String {
    let open = report.findings.iter().filter(|one| one.is_open()).count();
    let mut text = format!(
        "{} cases, each with {} inputs somewhere inside their plus-minus: {open} of {} verdicts could turn out either way.",
        report.cases,
        report.inputs,
        report.findings.len()
    );
    if !report.drivers.is_empty() {
        text.push_str(" Measure first what can be measured of these, which drive them most:");
    }
    text
}

/// The inputs that drive most verdicts, strongest first, each a way to its field.
fn to_measure(sureness: Sureness, workspace: Workspace) -> impl IntoView {
    let report = sureness.report.get();
    let drivers = report.iter().flat_map(|report| &report.drivers);
    let entry = |driver: &Driver| {
        let path = driver.path.clone();
        let name =
            (sureness.design).with_untracked(|design| of_input(design, &driver.path, driver.input));
        view! {
            <li>
                <button type="button" on:click=move |_| show_field(workspace, &path)>
                    {name}
                </button>
            </li>
        }
    };
    drivers.take(MOST_NAMED).map(entry).collect_view()
}

/// The question, its progress and what drives the answer.
#[component]
pub fn HowSureBox() -> impl IntoView {
    let workspace = Workspace::get();
    let sureness = Sureness::get();
    let running = move || {
        sureness
            .state
            .with(|state| matches!(state, State::Running(_)))
    };
    let press = move |_| {
        if sureness
            .state
            .with_untracked(|state| matches!(state, State::Running(_)))
        {
            sureness.stop();
        } else {
            sureness.ask(workspace);
        }
    };
    // Said aloud by the quarter, so that a screen reader is not flooded.
    let said = Memo::new(move |_| {
        sureness.state.with(|state| match state {
            State::NotAsked => String::new(),
            State::Running(progress) => {
                let quarter = 4 * progress.done / progress.wanted.max(1);
                format!("Reckoning: {} % done.", 25 * quarter)
            }
            State::Done(report) => answer(report),
        })
    });
    let done = move || {
        sureness.state.with(|state| match state {
            State::Running(progress) => progress.done.to_string(),
            _ => "0".to_string(),
        })
    };
    view! {
        <section class="how-sure" aria-label="How sure" data-cases=move || {
            sureness.state.with(|state| match state {
                State::Done(report) => report.cases.to_string(),
                _ => String::new(),
            })
        }>
            <button type="button" class="ask" on:click=press>
                {move || if running() { "Cancel" } else { "How sure is this?" }}
            </button>
            <progress hidden=move || !running() max=CASES.to_string() value=done aria-label="Cases reckoned"></progress>
            <p role="status" aria-live="polite">{said}</p>
            <ul class="to-measure">{live(move || to_measure(sureness, workspace).into_any())}</ul>
        </section>
    }
    .into_any()
}
