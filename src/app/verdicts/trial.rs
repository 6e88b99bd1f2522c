//! Trying every lever of everything that does not pass: by the page or by its workers, who number
//! the levers alike.

use crate::design::{Design, Value};
use crate::review::{
    Assessment, BestStep, Finding, Lever, Remedy, Tally, Verdict, assess, in_order, rank_steps,
    remedy, weigh_step,
};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::sync::Arc;

/// A design with the levers that may mend it.
pub struct Trial {
    design: Design,
    assessment: Arc<Assessment>,
    /// Id of a finding and place of the lever in it; worst findings first.
    levers: Vec<(&'static str, usize)>,
}

/// What all levers came to.
#[derive(Debug, Default)]
pub struct Outcome {
    /// The remedies in the order in which they are offered, by id of the finding.
    pub remedies: BTreeMap<&'static str, Vec<Remedy>>,
    /// The single changes that mend most.
    pub best: Vec<BestStep>,
    /// What it was found for; none while nothing has been looked for.
    pub found_for: Option<Arc<Assessment>>,
}

impl Outcome {
    /// Whether it was found for the design with this assessment.
    pub fn is_for(&self, assessment: &Arc<Assessment>) -> bool {
        (self.found_for.as_ref()).is_some_and(|found_for| Arc::ptr_eq(found_for, assessment))
    }
}

/// What came of one lever on its way from a worker to the page, which knows the lever.
#[derive(Serialize, Deserialize)]
struct Written {
    value: Option<Value>,
    worsens: Vec<(String, Verdict, Verdict)>,
    after: Option<Tally>,
}

impl Trial {
    /// All levers of what does not pass in this assessment of the design.
    pub fn new(design: Design, assessment: Arc<Assessment>) -> Self {
        let mut failing: Vec<_> = assessment
            .findings
            .iter()
            .filter(|finding| finding.verdict != Verdict::Good)
            .collect();
        failing.sort_by_key(|finding| std::cmp::Reverse(finding.verdict));
        let levers = failing
            .into_iter()
            .flat_map(|finding| (0..finding.levers.len()).map(move |place| (finding.id, place)))
            .collect();
        Self {
            design,
            assessment,
            levers,
        }
    }

    /// The same for a design that has yet to be assessed.
    pub fn of_design(design: Design) -> Self {
        let assessment = Arc::new(assess(&design));
        Self::new(design, assessment)
    }

    /// The number of levers.
    pub fn len(&self) -> usize {
        self.levers.len()
    }

    fn lever(&self, piece: usize) -> Option<(&Finding, &Lever)> {
        let (id, place) = self.levers.get(piece)?;
        let finding = self.assessment.finding(id)?;
        Some((finding, finding.levers.get(*place)?))
    }

    /// Tries a lever; none when it does not fit the design.
    pub fn pull(&self, piece: usize) -> Option<Remedy> {
        let (finding, lever) = self.lever(piece)?;
        remedy(&self.design, &self.assessment, finding, lever)
    }

    /// What came of all levers, in their order.
    pub fn outcome(&self, tried: impl IntoIterator<Item = Option<Remedy>>) -> Outcome {
        let mut outcome = Outcome::default();
        let mut steps = Vec::new();
        for ((id, _), remedy) in self.levers.iter().zip(tried) {
            let found = outcome.remedies.entry(*id).or_default();
            if let Some(remedy) = remedy {
                steps.extend(weigh_step(&self.design, &self.assessment, &remedy));
                found.push(remedy);
            }
        }
        for found in outcome.remedies.values_mut() {
            *found = in_order(std::mem::take(found));
        }
        outcome.best = rank_steps(steps);
        outcome.found_for = Some(self.assessment.clone());
        outcome
    }

    /// Tries a lever and writes down what came of it, for [`Trial::read`].
    pub fn written(&self, piece: usize) -> String {
        let written = self.pull(piece).map(|remedy| Written {
            value: remedy.value,
            worsens: (remedy.worsens.into_iter())
                .map(|(id, before, after)| (id.to_string(), before, after))
                .collect(),
            after: remedy.after,
        });
        serde_json::to_string(&written).unwrap_or_default()
    }

    /// What a worker wrote of a lever.
    ///
    /// # Errors
    /// The text is not what a worker of this program writes.
    pub fn read(&self, piece: usize, written: &str) -> Result<Option<Remedy>, serde_json::Error> {
        let written: Option<Written> = serde_json::from_str(written)?;
        Ok(written.and_then(|written| self.tried(piece, written)))
    }

    /// What was written of all levers, as a list.
    ///
    /// # Errors
    /// The text is not what this program writes.
    pub fn read_all(&self, written: &str) -> Result<Vec<Option<Remedy>>, serde_json::Error> {
        let written: Vec<Option<Written>> = serde_json::from_str(written)?;
        let tried = |(piece, written): (usize, Option<Written>)| self.tried(piece, written?);
        Ok(written.into_iter().enumerate().map(tried).collect())
    }

    fn tried(&self, piece: usize, written: Written) -> Option<Remedy> {
        let (_, lever) = self.lever(piece)?;
        let known = |id: &str| self.assessment.findings.iter().find(|known| known.id == id);
        Some(Remedy {
            lever: lever.clone(),
            input: lever.input_of(&self.design)?,
            change: written.value.clone().map(|value| lever.change(value)),
            value: written.value,
            // One that only the change brings up has no title here, and is not told.
            worsens: (written.worsens.into_iter())
                .filter_map(|(id, before, after)| Some((known(&id)?.id, before, after)))
                .collect(),
            after: written.after,
        })
    }
}
