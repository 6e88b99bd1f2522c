//! What the review says of one item of a list, for the place where that item is entered.

use super::{Assessment, Verdict};
use crate::design::Design;
use crate::design::inputs::LoadTime;
use crate::design::phrase::Phrase;
use crate::sizing::cooler_drive::{CoolerDrive, loads_without_cooler};

/// What is said where a cooler has a fan that draws nothing.
const FAN_WITHOUT_LOAD: &str = "No load is entered for the fan of the cooler: battery time, cables and fuses leave it out. Enter it under electric loads, with “fan” in its name.";

/// What is said where a water jacket has a pump that draws nothing.
const PUMP_WITHOUT_LOAD: &str = "No load is entered for the pump of the water jacket: battery time, cables and fuses leave it out. Enter it under electric loads, with “pump” in its name. Only water from a tap, or that rises by itself, needs none.";

/// What is said where the fan of a cooler is a load that is never on at work.
const FAN_OFF: &str = "Each load with “fan” in its name is off while the engine runs: still air cools the tubes. Switch it on then.";

/// What is said where the pump of a water jacket is a load that is never on at work.
const PUMP_OFF: &str = "Each load with “pump” in its name is off while the engine runs: the water stands in the jacket and boils. Switch it on then.";

/// What is said of fan or pump of a cooler where no cooler has one.
const LOAD_WITHOUT_COOLER: &str = "By its name this is fan or pump of a cooler, but no cooler of the gas train has one: battery, cables and fuses look worse than they are. Take it out, or give it another name.";

/// What is wrong with the loads that drive a cooler; none where nothing is.
pub(crate) fn of_drive(design: &Design, drive: CoolerDrive) -> Option<&'static str> {
    if drive.has_no_load(design) {
        return Some(match drive {
            CoolerDrive::Fan => FAN_WITHOUT_LOAD,
            CoolerDrive::Pump => PUMP_WITHOUT_LOAD,
        });
    }
    let off = drive.is_needed(design) && !drive.runs(design, LoadTime::Running);
    off.then_some(match drive {
        CoolerDrive::Fan => FAN_OFF,
        CoolerDrive::Pump => PUMP_OFF,
    })
}

impl Assessment {
    /// What a leak test gave, what is wrong with a step of a person's own order, which cooler has a fan or a pump that
    /// is no electric load or is off at work, or which load is fan or pump of a cooler that has none; none where there is
    /// nothing to say. The item is counted from zero.
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
                let drive = [CoolerDrive::Fan, CoolerDrive::Pump]
                    .into_iter()
                    .find(|drive| drive.is_of(stage))?;
                let words = of_drive(design, drive)?;
                let verdict = match drive.has_no_load(design) {
                    true => Verdict::Watch,
                    false => Verdict::Stop,
                };
                Some((verdict, Phrase::plain(words)))
            }
            "loads" => (loads_without_cooler(design).contains(&index))
                .then(|| (Verdict::Watch, Phrase::plain(LOAD_WITHOUT_COOLER))),
            _ => None,
        }
    }
}
