//! What the review says of one item of a list, for the place where that item is entered.

use super::{Assessment, Verdict};
use crate::design::Design;
use crate::design::phrase::Phrase;
use crate::sizing::also_needed::{fan_without_load, has_fan};

/// What is said where a cooler has a fan that draws nothing.
pub const FAN_WITHOUT_LOAD: &str = "No load is entered for the fan of the cooler: battery time, cables and fuses leave it out. Enter it under electric loads, with “fan” in its name.";

impl Assessment {
    /// What a leak test gave, what is wrong with a step of a person's own order, or which cooler has a fan that is no
    /// electric load; none where there is nothing to say. The item is counted from zero.
    ///
    /// ```
    /// use hearthplan::{design::{Design, inputs::{BuildStep, StepKind}}, review::{Verdict, assess}};
    /// let mut design = Design::default();
    /// design.build_steps = vec![BuildStep { joint: 1, ..BuildStep::default() }, BuildStep { kind: StepKind::CloseIn, ..BuildStep::default() }];
    /// let (verdict, _) = assess(&design).remark(&design, "build_steps", 1).unwrap();
    /// assert_eq!(verdict, Verdict::Stop);
    /// ```
    pub fn remark(&self, design: &Design, list: &str, index: usize) -> Option<(Verdict, Phrase)> {
        match list {
            "readings" => self.leaks.said(design, index),
            "build_steps" => self.order.said(design, index),
            "train" => (design.train.get(index))
                .filter(|stage| has_fan(stage) && fan_without_load(design))
                .map(|_| (Verdict::Watch, Phrase::plain(FAN_WITHOUT_LOAD))),
            _ => None,
        }
    }
}
