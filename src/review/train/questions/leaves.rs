//! Can the gas leave the vessel as hot or cold as it was entered?

use super::{Answer, Question};
use crate::design::Design;
use crate::design::Source::CommonPractice;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::review::heart::Heart;
use crate::review::train::TrainReview;

/// The gas at the outlet against the gas as it is made. None where hearth or gas cannot be worked out.
pub(in crate::review::train) fn ask(
    design: &Design,
    heart: &Heart,
    train: &TrainReview,
) -> Option<Finding> {
    let solution = heart.at.full.solved.as_ref().ok()?;
    let made = solution.gas.exit_temperature;
    let raw = &train.outlet;
    let leaves = design.raw_gas.temperature;
    let hot = raw.settled(made.value, raw.pressure.value).ok()?;
    let given = hot.enthalpy_rate().ok()? - raw.enthalpy_rate().ok()?;
    let flow = raw.gas_mass_rate().value;
    let capacity = given.value / (flow * (made.value - leaves.value));
    let temperature = |value| Measure::new(Q::Temperature, value);
    Some(
        Question {
            id: "train.leaves",
            title: "Gas at the outlet of the vessel",
            meaning: "Between char and outlet the gas gives off heat: to the wood above, to the air that comes in, and through the shell.",
            why: "Nothing heats the gas once it is made. What it gives back to air and wood is not counted for the fire here, and what it loses through the body is counted as entered there: measure the outlet once it runs.",
            caution: None,
        }
        .answered(Answer {
            verdict: Verdict::at_most(leaves.value, made.value, made.value),
            margin: 1.0 - (leaves.value - 273.15) / (made.value - 273.15),
            compared: Phrase::new(
                if leaves <= made {
                    "made at {}, it leaves at {}: it gives off {} on the way"
                } else {
                    "made at {}, it cannot leave at {}"
                },
                [temperature(made.value).into(), temperature(leaves.value).into()]
                    .into_iter()
                    .chain((leaves <= made).then(|| Measure::new(Q::Power, given.value).into())),
            ),
            working: (capacity.is_finite())
                .then(|| Step {
                    words: "Heat that the gas gives off from char to outlet, at full load",
                    formula: "Q = ṁ c (T₁ − T₂)",
                    values: vec![
                        ("ṁ", "gas with its steam", Measure::new(Q::MassFlow, flow)),
                        (
                            "c",
                            "mean heat capacity",
                            Measure::new(Q::HeatCapacity, capacity),
                        ),
                        ("T₁", "gas as it is made", temperature(made.value)),
                        ("T₂", "gas at the outlet", temperature(leaves.value)),
                    ],
                    result: Measure::new(Q::Power, given.value),
                    source: CommonPractice,
                    sure: "as sure as the outlet temperature, which only a measurement tells",
                })
                .into_iter()
                .collect(),
            levers: vec![Lever::input("raw_gas.temperature")],
        }),
    )
}
