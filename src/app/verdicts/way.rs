//! All steps one after another, to as few Stops as they lead to; looked for when asked for.

use super::hunt::{For, Hunt};
use super::remedy::Proposal;
use super::trial::Outcome;
use crate::app::Workspace;
use crate::app::focus;
use crate::app::layout::UNDO;
use crate::app::naming::lower_first;
use crate::app::shown::{Show, live};
use crate::design::Design;
use crate::design::quantity::System;
use crate::review::{Assessment, OpenQuestion, Verdict, Way, WayStep};
use leptos::prelude::*;
use std::sync::Arc;

/// What stands on the button that asks for all steps.
pub const FIND_ALL: &str = "Find all steps, one after another";

/// A way with the assessment that it begins at.
#[derive(Clone)]
struct Begun {
    way: Way,
    from: Arc<Assessment>,
}

/// Handle to the way; cheap to copy.
#[derive(Clone, Copy)]
pub struct Walk {
    workspace: Workspace,
    begun: RwSignal<Option<Begun>>,
    hunt: Hunt,
}

impl Walk {
    /// None is looked for yet; whenever the verdicts change, what was found is dropped.
    pub fn start(workspace: Workspace) -> Self {
        let walk = Self {
            workspace,
            begun: RwSignal::new(None),
            hunt: Hunt::new(For::NextStep),
        };
        Effect::new(move |_| {
            let now = workspace.assessment.get();
            let is_of_old = |begun: &Begun| !Arc::ptr_eq(&begun.from, &now);
            if walk
                .begun
                .with_untracked(|begun| begun.as_ref().is_some_and(is_of_old))
            {
                walk.stop();
            }
        });
        walk
    }

    /// Whether all steps were looked for, so that what they leave is told.
    pub fn is_whole(self) -> bool {
        self.of_way(Way::is_whole)
    }

    /// Whether steps were found: the first of them are among those that are best alone, which need not be told twice.
    pub fn can_be_taken(self) -> bool {
        self.of_way(|way| way.is_whole() && !way.steps().is_empty())
    }

    /// How a question is answered at the end of the steps that were found, where that is better than without them.
    pub fn betters(self, id: &str) -> Option<Verdict> {
        self.begun.with(|begun| {
            let Begun { way, from } = begun.as_ref()?;
            let at_end = way.end().1.finding(id)?.verdict;
            (way.is_whole() && at_end < from.finding(id)?.verdict).then_some(at_end)
        })
    }

    fn of_way(self, ask: fn(&Way) -> bool) -> bool {
        (self.begun).with(|begun| begun.as_ref().is_some_and(|begun| ask(&begun.way)))
    }

    /// Looks for the way from the design as it is.
    fn ask(self) {
        let from = self.workspace.assessment.get_untracked();
        let design = self.workspace.design.get_untracked();
        let way = Way::from(design, from.clone());
        self.look_on(Begun { way, from });
    }

    /// Looks for the next step, if there is more to look for.
    fn look_on(self, begun: Begun) {
        let (design, assessed) = begun.way.next();
        let next = (!begun.way.is_whole()).then(|| (design.clone(), assessed.clone()));
        self.begun.set(Some(begun));
        if let Some((design, assessment)) = next {
            let told = move |outcome| self.go_on(&outcome);
            self.hunt.begin(design, assessment, told);
        }
    }

    fn go_on(self, outcome: &Outcome) {
        if let Some(mut begun) = self.begun.get_untracked() {
            begun.way.go_on(&outcome.best);
            self.look_on(begun);
        }
    }

    fn stop(self) {
        self.hunt.drop_work();
        self.begun.set(None);
    }

    /// Makes all changes, as one step to be undone.
    fn apply(self) {
        let Some(Begun { way, .. }) = self.begun.get_untracked() else {
            return;
        };
        let design = self.workspace.design.get_untracked();
        let changed = way.steps().iter().try_fold(design, |design, step| {
            step.remedy.change.as_ref()?.apply(&design)
        });
        if let Some(changed) = changed {
            self.workspace.change(|design| *design = changed);
            let count = way.steps().len();
            (self.workspace.said).set(format!("Done: {}. Undo takes them back.", changes(count)));
        }
    }
}

fn changes(count: usize) -> String {
    match count {
        1 => "1 change".to_string(),
        many => format!("{many} changes"),
    }
}

/// What a step leaves of so many Stops before it, in words.
fn left(step: &WayStep, before: usize) -> String {
    let left = match step.after.stops {
        0 => "No Stop left".to_string(),
        1 => "1 Stop left".to_string(),
        many => format!("{many} Stops left"),
    };
    let yet = match step.after.stops {
        after if after > before => ", more than before until the next changes are made",
        after if after == before => ", as many as before until the next change is made",
        _ => "",
    };
    format!("{left}{yet}")
}

/// How far the way has come, in words.
fn state(way: &Way) -> String {
    let (before, left) = (way.stops_before(), way.left());
    let found = changes(way.steps().len());
    match (way.is_whole(), way.steps().is_empty()) {
        // Each step tells in the list what it leaves; said aloud it would be too much.
        (false, _) => "Looking…".to_string(),
        (true, true) => {
            "No change that a builder can take as it stands removes a Stop.".to_string()
        }
        (true, false) if left.is_empty() => format!("{found}: no Stop is left of {before}."),
        (true, false) => {
            let new = way
                .open_questions()
                .iter()
                .filter(|open| open.is_new)
                .count();
            let new = match new {
                0 => String::new(),
                some => format!(", {some} new"),
            };
            format!("{found}: {} left of {before} Stops{new}.", left.len())
        }
    }
}

/// What a person has to decide or to find out where a question still stops at the end, in words.
fn open(question: &OpenQuestion, end: &Design, system: System) -> String {
    let title = question.finding.title;
    let stops = match question.is_new {
        true => "stops with these changes",
        false => "still stops",
    };
    match question.decision {
        Some(remedy) => {
            let words = lower_first(&Proposal::One(remedy.clone()).words(end, system));
            let aside = remedy.reservations(system).join("; ");
            format!(
                "“{title}” {stops}. Only you can decide or find out whether this is so: {words} ({aside})."
            )
        }
        None => {
            let compared = question.finding.compared.text(system);
            if question.finding.levers.is_empty() {
                return format!(
                    "“{title}” {stops}: {compared}. No number mends that: it is done by hand."
                );
            }
            format!(
                "“{title}” {stops}: {compared}. No change that was tried mends it without making something else worse: get or build that part otherwise, measure what is only assumed, or ask for less."
            )
        }
    }
}

/// What stands on it once they are found.
const BACK: &str = "Back to the best steps alone";

/// The question for all steps, and its answer.
#[component]
pub fn WholeWay(walk: Walk) -> impl IntoView {
    let workspace = Workspace::get();
    let any = Memo::new(move |_| {
        (workspace.assessment).with(|assessment| assessment.count(Verdict::Stop) > 0)
    });
    let is_looking = Memo::new(move |_| walk.of_way(|way| !way.is_whole()));
    let can_be_taken = Memo::new(move |_| walk.can_be_taken());
    let said = Memo::new(move |_| {
        walk.begun.with(|begun| {
            begun
                .as_ref()
                .map_or_else(String::new, |begun| state(&begun.way))
        })
    });
    let press = move |_| {
        if is_looking.get_untracked() || can_be_taken.get_untracked() {
            walk.stop();
        } else {
            walk.ask();
        }
    };
    let steps = move || {
        let system = workspace.system.get();
        let begun = walk.begun.get();
        let steps = begun.iter().flat_map(|begun| begun.way.steps());
        let mut before = begun.as_ref().map_or(0, |begun| begun.way.stops_before());
        let step = |step: &WayStep| {
            let stops_before = std::mem::replace(&mut before, step.after.stops);
            let aside = step.remedy.reservations(system).join("; ");
            let aside = (!aside.is_empty()).then(|| format!(" ({aside})"));
            let words = Proposal::One(step.remedy.clone()).words(&step.before, system);
            view! {
                <li>
                    <span>
                        {words} <span class="side-effect">{aside}</span>
                        <span class="effect">" " {left(step, stops_before)}</span>
                    </span>
                </li>
            }
        };
        steps.map(step).collect_view().into_any()
    };
    let open_questions = move || {
        let system = workspace.system.get();
        let begun = walk.begun.get().filter(|begun| begun.way.is_whole());
        let told = begun.map_or_else(Vec::new, |begun| {
            let questions = begun.way.open_questions();
            let words = |question| open(question, begun.way.end().0, system);
            questions.iter().map(words).collect()
        });
        let told = told.into_iter();
        told.map(|words| view! { <p class="open-question">{words}</p> })
            .collect_view()
            .into_any()
    };
    let take = move |event: leptos::ev::MouseEvent| {
        walk.apply();
        // Pressed by a key: the button goes, and whoever sees nothing would be left nowhere.
        if event.detail() == 0 {
            focus::soon(vec![format!("#{UNDO}")]);
        }
    };
    let count = move || {
        let begun = walk.begun.get();
        begun.map_or(0, |begun| begun.way.steps().len())
    };
    view! {
        <Show when=move || any.get()>
            <div class="whole-way" data-whole=move || can_be_taken.get().to_string()>
                <button type="button" class="ask" on:click=press>
                    {move || match (is_looking.get(), can_be_taken.get()) {
                        (true, _) => "Stop looking",
                        (false, true) => BACK,
                        (false, false) => FIND_ALL,
                    }}
                </button>
                <p role="status" aria-live="polite">{said}</p>
                <ol class="remedies">{live(steps)}</ol>
                {live(open_questions)}
                <Show when=move || can_be_taken.get()>
                    <button type="button" class="apply" on:click=take>
                        {move || format!("Apply all {}", changes(count()))}
                    </button>
                </Show>
            </div>
        </Show>
    }
    .into_any()
}
