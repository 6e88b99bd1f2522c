//! What the review says of one item of a list, for the place where that item is entered.

use super::{Assessment, Verdict};
use crate::design::Design;
use crate::design::phrase::Phrase;
use crate::sizing::also_needed::{
    fan_without_load, has_fan, has_jacket, loads_without_cooler, pump_without_load,
};

/// What is said where a cooler has a fan that draws nothing.
pub const FAN_WITHOUT_LOAD: &str = "No load is entered for the fan of the cooler: battery time, cables and fuses leave it out. Enter it under electric loads, with “fan” in its name.";

/// What is said where a water jacket has a pump that draws nothing.
pub const PUMP_WITHOUT_LOAD: &str = "No load is entered for the pump of the water jacket: battery time, cables and fuses leave it out. Enter it under electric loads, with “pump” in its name. Only water from a tap, or that rises by itself, needs none.";

/// What is said of fan or pump of a cooler where no cooler has one.
const LOAD_WITHOUT_COOLER: &str = "By its name this is fan or pump of a cooler, but no cooler of the gas train has one: battery, cables and fuses look worse than they are. Take it out, or give it another name.";

impl Assessment {
    /// What a leak test gave, what is wrong with a step of a person's own order, which cooler has a fan or a pump that
    /// is no electric load, or which load is fan or pump of a cooler that has none; none where there is nothing to say. The
    /// item is counted from zero.
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
            "train" => {
                let stage = design.train.get(index)?;
                let words = match (has_fan(stage), has_jacket(stage)) {
                    (true, _) if fan_without_load(design) => FAN_WITHOUT_LOAD,
                    (_, true) if pump_without_load(design) => PUMP_WITHOUT_LOAD,
                    _ => return None,
                };
                Some((Verdict::Watch, Phrase::plain(words)))
            }
            "loads" => (loads_without_cooler(design).contains(&index))
                .then(|| (Verdict::Watch, Phrase::plain(LOAD_WITHOUT_COOLER))),
            _ => None,
        }
    }
}
