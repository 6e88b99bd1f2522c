//! Looks for remedies while the person is not typing, one lever at a time, so that the page answers
//! in between.

use crate::app::Workspace;
use crate::design::Design;
use crate::review::{Assessment, BestStep, Remedy, Verdict, rank_steps, remedy, weigh_step};
use leptos::prelude::*;
use std::collections::{BTreeMap, VecDeque};
use std::sync::Arc;
use std::time::Duration;

/// Searching waits until typing pauses for this long.
const PAUSE: Duration = Duration::from_millis(350);
/// Between two levers the page may paint and take input.
const BREATH: Duration = Duration::from_millis(1);

/// What is found so far for one finding.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Found {
    /// The remedies, in the order of the levers.
    pub remedies: Vec<Remedy>,
    /// Whether all levers have been tried.
    pub complete: bool,
}

/// Handle to the search; cheap to copy, found in context.
#[derive(Clone, Copy)]
pub struct Search {
    /// What is found so far, by id of the finding.
    pub found: RwSignal<BTreeMap<&'static str, Found>>,
    /// The single changes that mend most; empty until everything has been tried.
    pub best: RwSignal<Vec<BestStep>>,
    running: StoredValue<Option<TimeoutHandle>>,
}

/// The levers still to be tried on one state of the design.
struct Work {
    design: Design,
    assessment: Arc<Assessment>,
    /// Id of a finding and place of the lever in it.
    levers: VecDeque<(&'static str, usize)>,
    /// What the remedies so far do to all verdicts.
    steps: Vec<BestStep>,
}

impl Search {
    /// The search of the app.
    pub fn get() -> Self {
        expect_context::<Self>()
    }

    /// Starts to search anew whenever the design changes.
    pub fn start(workspace: Workspace) -> Self {
        let search = Self {
            found: RwSignal::default(),
            best: RwSignal::default(),
            running: StoredValue::new(None),
        };
        Effect::new(move |_| {
            let assessment = workspace.assessment.get();
            if let Some(handle) = search.running.get_value() {
                handle.clear();
            }
            search.found.set(BTreeMap::new());
            search.best.set(Vec::new());
            let work = Work {
                design: workspace.design.get_untracked(),
                levers: levers(&assessment),
                steps: Vec::new(),
                assessment,
            };
            search.go_on(work, PAUSE);
        });
        search
    }

    fn go_on(self, work: Work, after: Duration) {
        let handle = set_timeout_with_handle(move || self.step(work), after).ok();
        self.running.set_value(handle);
    }

    fn step(self, mut work: Work) {
        let Some((id, place)) = work.levers.pop_front() else {
            self.best.set(rank_steps(work.steps));
            return;
        };
        let Some(finding) = work.assessment.finding(id) else {
            return;
        };
        let complete = work.levers.front().is_none_or(|(next, _)| *next != id);
        let tried = finding
            .levers
            .get(place)
            .and_then(|lever| remedy(&work.design, &work.assessment, finding, lever));
        work.steps.extend(
            tried
                .as_ref()
                .and_then(|tried| weigh_step(&work.design, &work.assessment, tried)),
        );
        self.found.update(|found| {
            let found = found.entry(id).or_default();
            found.remedies.extend(tried);
            found.complete = complete;
        });
        self.go_on(work, BREATH);
    }
}

/// All levers of what does not pass, worst findings first.
fn levers(assessment: &Assessment) -> VecDeque<(&'static str, usize)> {
    let mut failing: Vec<_> = assessment
        .findings
        .iter()
        .filter(|finding| finding.verdict != Verdict::Good)
        .collect();
    failing.sort_by_key(|finding| std::cmp::Reverse(finding.verdict));
    failing
        .into_iter()
        .flat_map(|finding| (0..finding.levers.len()).map(move |place| (finding.id, place)))
        .collect()
}
