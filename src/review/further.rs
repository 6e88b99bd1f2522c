//! Steps of a working that cost more than the rest, and are only reckoned when a person looks at them.

use super::finding::{Finding, Step};
use super::{Assessment, engine, heart};
use crate::design::Design;

impl Assessment {
    /// The whole working of a finding of this design: what the verdict follows from, and what other layers or another
    /// engine would come to.
    ///
    /// ```
    /// use hearthplan::{design::example, review::assess};
    /// let design = example::as_improved();
    /// let assessment = assess(&design);
    /// let power = assessment.finding("engine.power").unwrap();
    /// assert!(assessment.working(&design, power).len() > power.working.len());
    /// ```
    pub fn working(&self, design: &Design, finding: &Finding) -> Vec<Step> {
        let mut steps = finding.working.clone();
        steps.extend(self.further_steps(design, finding));
        steps
    }

    /// The steps of its working that the finding does not hold itself.
    pub(super) fn further_steps(&self, design: &Design, finding: &Finding) -> Vec<Step> {
        match (finding.id, &self.engine.on_gas) {
            ("heart.usual", _) => heart::other_layers(design, &self.heart),
            ("engine.power", Some(Ok(on_gas))) => engine::other_sizes(design, on_gas),
            _ => Vec::new(),
        }
    }
}
