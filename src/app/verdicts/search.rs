//! Looks for remedies while the person is not typing and looks at the verdicts: by workers, or by the
//! page, one lever at a time, so that it answers in between. Levers alone come first; then those with a second one, where
//! none was enough.

use super::trial::{Answer, Outcome, Trial};
use crate::app::Workspace;
use crate::app::beside::{Job, Pace, Task, Workers};
use crate::app::panel::Panel;
use crate::app::turns::Turns;
use crate::design::{Design, example};
use crate::review::Assessment;
use leptos::prelude::*;
use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;
use wasm_bindgen::JsValue;

/// Searching waits until typing pauses for this long.
const PAUSE: Duration = Duration::from_millis(350);
/// Between two levers the page may paint and take input.
const BREATH: Duration = Duration::from_millis(1);

/// Id of the element in which the build left what it found for the example of the first visit.
pub const FIRST_OUTCOME: &str = "first-outcome";

/// Handle to the search; cheap to copy, found in context.
#[derive(Clone, Copy)]
pub struct Search {
    /// What was found last; it stays until all of the next is there.
    pub outcome: RwSignal<Arc<Outcome>>,
    /// Whether that was found for the design whose verdicts are shown.
    pub is_current: Memo<bool>,
    pause: StoredValue<Option<TimeoutHandle>>,
    work: StoredValue<Option<Work>, LocalStorage>,
}

struct Work {
    trial: Trial,
    /// What came of each piece, as far as it has been done.
    answers: Vec<Option<Answer>>,
    /// The pieces gone about now.
    wanted: Vec<usize>,
    /// Whether these are the last.
    with_second: bool,
    job: Job,
    /// The workers that try; none when the page does it.
    workers: Option<Workers>,
}

impl Work {
    fn of(trial: Trial, job: Job) -> Self {
        Self {
            answers: vec![None; trial.len()],
            wanted: trial.alone(),
            with_second: false,
            trial,
            job,
            workers: None,
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

    /// Goes on to levers with a second one; false if that was done, or nothing needs it.
    fn go_on(&mut self) -> bool {
        self.workers = None;
        if self.with_second {
            return false;
        }
        self.with_second = true;
        self.wanted = self.trial.to_pair(&self.answers);
        !self.wanted.is_empty()
    }
}

/// What the build found for a design, so that it need not be looked for again.
struct Known {
    design: Design,
    written: String,
}

impl Known {
    /// What stands in the page; nothing in one that was not finished by the build.
    fn in_page() -> Option<Self> {
        let element = document().get_element_by_id(FIRST_OUTCOME)?;
        Some(Self {
            design: example::as_first_drawn(),
            written: element.text_content()?,
        })
    }

    /// The outcome, if this is the design.
    fn outcome(&self, design: &Design, assessment: &Arc<Assessment>) -> Option<Outcome> {
        if self.design != *design {
            return None;
        }
        let trial = Trial::new(design.clone(), assessment.clone());
        let answers = trial.read_all(&self.written).ok()?;
        (answers.len() == trial.len()).then(|| trial.outcome(&answers))
    }
}

impl Search {
    /// The search of the app.
    pub fn get() -> Self {
        expect_context::<Self>()
    }

    /// Starts to search anew whenever the design changes or is looked at again.
    pub fn start(workspace: Workspace) -> Self {
        let outcome = RwSignal::new(Arc::new(Outcome::default()));
        let assessment = workspace.assessment_while(workspace.on_screen(Panel::Verdicts));
        let search = Self {
            outcome,
            is_current: Memo::new(move |_| {
                assessment.with(|assessment| outcome.with(|outcome| outcome.is_for(assessment)))
            }),
            pause: StoredValue::new(None),
            work: StoredValue::new_local(None),
        };
        let known = Known::in_page();
        let its_turn = Turns::get().search();
        Effect::new(move |_| {
            if !its_turn.get() {
                return;
            }
            let assessment = assessment.get();
            search.drop_work();
            let design = workspace.design.get_untracked();
            let known = known.as_ref();
            if let Some(outcome) = known.and_then(|known| known.outcome(&design, &assessment)) {
                search.tell(outcome);
                return;
            }
            let begin = move || search.begin(design.clone(), assessment.clone());
            search
                .pause
                .set_value(set_timeout_with_handle(begin, PAUSE).ok());
        });
        search
    }

    fn drop_work(self) {
        if let Some(pause) = self.pause.get_value() {
            pause.clear();
        }
        self.work.set_value(None);
    }

    fn begin(self, design: Design, assessment: Arc<Assessment>) {
        let job = Job::search(&design);
        let trial = Trial::new(design, assessment);
        let work = Work::of(trial, job);
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
                self.pause.set_value(again.ok());
            }
            Some(None) => self.finish(),
            None => {}
        }
    }

    /// All pieces that were wanted are done.
    fn finish(self) {
        if self.with_work(Work::go_on) == Some(true) {
            self.set_off();
            return;
        }
        let work = self.work.try_update_value(Option::take).flatten();
        if let Some(Work { trial, answers, .. }) = work {
            self.tell(trial.outcome(&answers));
        }
    }

    fn tell(self, outcome: Outcome) {
        self.outcome.set(Arc::new(outcome));
    }
}
