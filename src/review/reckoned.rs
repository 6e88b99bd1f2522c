//! In the working of which verdict a computed number is reckoned.

use super::Assessment;
use super::finding::{Finding, NamedResult};
use crate::design::Design;

impl Assessment {
    /// The finding whose working comes to this number, its own chapter before others; none for what no working comes to.
    ///
    /// A number is found again by being the same to the last digit, which two that are reckoned apart hardly ever are. A
    /// whole number says too little for that.
    ///
    /// ```
    /// use hearthplan::{design::example, review::assess};
    /// let design = example::as_first_drawn();
    /// let assessment = assess(&design);
    /// let results = assessment.results();
    /// let angle = results.iter().find(|result| result.name == "standing.tip_angle_full").unwrap();
    /// assert_eq!(assessment.reckoned_in(&design, angle).unwrap().id, "standing.tip_full");
    /// ```
    pub fn reckoned_in(&self, design: &Design, result: &NamedResult) -> Option<&Finding> {
        let number = result.measure;
        if !number.si.is_finite() || number.si.fract() == 0.0 {
            return None;
        }
        let own = result.name.split('.').next()?;
        let comes_to_it = |finding: &&Finding| {
            let further = self.further_steps(design, finding);
            let mut steps = finding.working.iter().chain(&further);
            steps.any(|step| step.result == number)
        };
        let mut found = self.findings.iter().filter(comes_to_it);
        let first = found.next()?;
        let of_own = |finding: &&Finding| finding.chapter.name() == own;
        Some(
            std::iter::once(first)
                .chain(found)
                .find(of_own)
                .unwrap_or(first),
        )
    }
}
