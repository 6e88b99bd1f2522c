//! Can the water of a jacket freeze?

use super::{Answer, Question, is};
use crate::design::inputs::{CoolerType, StageKind, TrainStage};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, celsius};
use crate::review::finding::{Finding, Verdict};

/// A water jacket in frost: while it stands still, nothing keeps it warm. Asked only where it comes to that.
pub(super) fn ask(design: &Design) -> Option<Finding> {
    let air = design.site.air_temperature.value;
    let jacket =
        |stage: &TrainStage| is(StageKind::Cooler)(stage) && stage.cooling == CoolerType::Water;
    (air <= celsius(0.0) && design.train.iter().any(jacket)).then(|| {
        Question {
            id: "train.cooler_frost",
            title: "Frost in the water jacket",
            meaning: "Water that freezes takes more room and bursts jacket, tubes and pump.",
            why: "A tube that burst lets water into the gas, and gas into the water: carbon monoxide then comes out where the water does.",
            caution: None,
        }
        .answered(Answer {
            verdict: Verdict::Watch,
            margin: (air / celsius(0.0) - 1.0).min(-f64::EPSILON),
            compared: Phrase::new(
                "in air of {} a jacket that stands still freezes and bursts: drain jacket, pump and hoses whenever it stops, or fill it with antifreeze in a closed round (common practice, no source)",
                [Measure::new(Q::Temperature, air).into()],
            ),
            working: Vec::new(),
            levers: Vec::new(),
        })
    })
}
