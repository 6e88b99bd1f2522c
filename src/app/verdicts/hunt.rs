//! One trial carried out: by workers, or by the page, one lever at a time, so that it answers in between. Levers alone come
//! first; then those with a second one, where none was enough; then detours, for a next step that neither gives.

use super::trial::{Answer, Outcome, Trial};
use crate::app::beside::{Job, Pace, Task, Workers};
use crate::design::Design;
use crate::review::{Assessment, Verdict};
use leptos::prelude::*;
use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;
use wasm_bindgen::JsValue;

/// Between two levers the page may paint and take input.
const BREATH: Duration = Duration::from_millis(1);

/// What a trial is made for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum For {
    /// What is offered for each question that does not pass.
    EachQuestion,
    /// The next step: only what stops is tried, and two changes together only where no single one removes a Stop.
    NextStep,
}

/// Takes what came of all levers.
type Told = Rc<dyn Fn(Outcome)>;

/// Handle to one trial at a time; cheap to copy.
#[derive(Clone, Copy)]
pub struct Hunt {
    purpose: For,
    breath: StoredValue<Option<TimeoutHandle>>,
    work: StoredValue<Option<Work>, LocalStorage>,
}

/// How levers are tried.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Round {
    Alone,
    WithSecond,
    Detours,
}

struct Work {
    trial: Trial,
    /// What came of each piece, as far as it has been done.
    answers: Vec<Option<Answer>>,
    /// The pieces gone about now.
    wanted: Vec<usize>,
    /// How levers are tried now.
    round: Round,
    job: Job,
    /// The workers that try; none when the page does it.
    workers: Option<Workers>,
    told: Told,
}

impl Work {
    fn of(trial: Trial, job: Job, purpose: For, told: Told) -> Self {
        Self {
            answers: vec![None; trial.len()],
            wanted: match purpose {
                For::EachQuestion => trial.alone(Verdict::Watch),
                For::NextStep => trial.alone(Verdict::Stop),
            },
            round: Round::Alone,
            trial,
            job,
            workers: None,
            told,
        }
    }

    fn note(&mut self, piece: usize, answer: Answer) {
        if let Some(place) = self.answers.get_mut(piece) {
            *place = Some(answer);
        }
    }

    /// The first wanted piece that has not been done.
    fn next(&self) -> Option<usize> {
        let open = |piece: &usize| self.answers.get(*piece).is_some_and(Option::is_none);
        self.wanted.iter().copied().find(open)
    }

    /// Goes on to the next round that has something to try; false if there is none.
    fn go_on(&mut self, purpose: For) -> bool {
        self.workers = None;
        if self.round == Round::Alone && !(purpose == For::NextStep && self.is_enough()) {
            self.round = Round::WithSecond;
            self.wanted = self.trial.to_pair(&self.answers);
            if !self.wanted.is_empty() {
                return true;
            }
        }
        if self.round == Round::WithSecond && purpose == For::NextStep {
            self.round = Round::Detours;
            self.wanted = self.trial.to_detour(&self.answers);
            return !self.wanted.is_empty();
        }
        false
    }

    fn is_enough(&self) -> bool {
        self.trial.is_enough(&self.answers)
    }
}

impl Hunt {
    /// Nothing is tried yet.
    pub fn new(purpose: For) -> Self {
        Self {
            purpose,
            breath: StoredValue::new(None),
            work: StoredValue::new_local(None),
        }
    }

    /// Drops what is under way.
    pub fn drop_work(self) {
        if let Some(breath) = self.breath.get_value() {
            breath.clear();
        }
        self.work.set_value(None);
    }

    /// Tries the levers of a design, in the place of what is under way; what comes of it is told to `told`.
    pub fn begin(
        self,
        design: Design,
        assessment: Arc<Assessment>,
        told: impl Fn(Outcome) + 'static,
    ) {
        self.drop_work();
        let job = Job::search(&design);
        let trial = Trial::new(design, assessment);
        let work = Work::of(trial, job, self.purpose, Rc::new(told));
        let has_levers = work.next().is_some();
        self.work.set_value(Some(work));
        if has_levers {
            self.set_off();
        } else {
            self.finish();
        }
    }

    /// Goes about the pieces that are wanted now.
    fn set_off(self) {
        let task = self.with_work(|work| (work.job.clone(), work.wanted.clone()));
        let Some((job, pieces)) = task else {
            return;
        };
        let workers = Workers::start(Task {
            job,
            pieces,
            pace: Pace::Brisk,
            take: Rc::new(move |piece, answer| self.take(piece, &answer)),
            failed: Rc::new(move || self.go_on_alone()),
        });
        if workers.is_none() {
            self.step();
            return;
        }
        self.with_work(|work| work.workers = workers);
    }

    fn with_work<T>(self, act: impl FnOnce(&mut Work) -> T) -> Option<T> {
        self.work
            .try_update_value(|work| work.as_mut().map(act))
            .flatten()
    }

    /// Takes in what a worker found.
    fn take(self, piece: usize, answer: &JsValue) {
        let written = answer.as_string().unwrap_or_default();
        let next = self.with_work(|work| {
            let answer = work.trial.read(&written)?;
            work.note(piece, answer);
            Ok::<_, serde_json::Error>(work.next())
        });
        match next {
            Some(Ok(None)) => self.finish(),
            Some(Err(_)) => self.go_on_alone(),
            _ => {}
        }
    }

    /// Goes on without workers.
    fn go_on_alone(self) {
        let had_workers = self.with_work(|work| work.workers.take().is_some());
        if had_workers == Some(true) {
            self.step();
        }
    }

    /// Tries one lever, then lets the page breathe.
    fn step(self) {
        let next = self.with_work(|work| {
            let next = work.next();
            if let Some(piece) = next {
                let answer = work.trial.answer(piece);
                work.note(piece, answer);
            }
            next
        });
        match next {
            Some(Some(_)) => {
                let again = set_timeout_with_handle(move || self.step(), BREATH);
                self.breath.set_value(again.ok());
            }
            Some(None) => self.finish(),
            None => {}
        }
    }

    /// All pieces that were wanted are done.
    fn finish(self) {
        let purpose = self.purpose;
        if self.with_work(|work| work.go_on(purpose)) == Some(true) {
            self.set_off();
            return;
        }
        let work = self.work.try_update_value(Option::take).flatten();
        if let Some(Work {
            trial,
            answers,
            told,
            ..
        }) = work
        {
            told(trial.outcome(&answers));
        }
    }
}
