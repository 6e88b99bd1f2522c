//! Looks for remedies while the person is not typing and looks at the verdicts.

use super::hunt::{For, Hunt};
use super::trial::{Outcome, Trial};
use crate::app::Workspace;
use crate::app::panel::Panel;
use crate::app::turns::Turns;
use crate::design::{Design, example};
use crate::review::Assessment;
use leptos::prelude::*;
use std::sync::Arc;
use std::time::Duration;

/// Searching waits until typing pauses for this long.
const PAUSE: Duration = Duration::from_millis(350);

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
    hunt: Hunt,
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
            hunt: Hunt::new(For::EachQuestion),
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
                search.outcome.set(Arc::new(outcome));
                return;
            }
            let tell = move |found| search.outcome.set(Arc::new(found));
            let begin = move || (search.hunt).begin(design.clone(), assessment.clone(), tell);
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
        self.hunt.drop_work();
    }
}
