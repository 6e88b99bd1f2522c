//! What power is left once suction and warm gas have taken theirs?

use super::{Answer, Question, Solved, cool};
use crate::design::Source::CommonPractice;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::review::train::levers;

/// Power short by less than this share is still Watch: efficiency and filling are known no better. Our own mark.
const GREY_POWER: f64 = 0.10;

/// Not asked of a test without engine, nor where hearth or engine cannot be worked out.
pub(super) fn ask(solved: &Solved) -> Option<Finding> {
    let (design, train) = (solved.design, solved.train);
    let run = train.on_gas.as_ref()?;
    let gas = solved.dirty.points.last()?;
    let air = train.full_load.circumstances.surroundings.pressure.value;
    let vacuum = (air - gas.pressure.value).max(0.0);
    let intake = design.engine.intake_temperature.value;
    let gas_share = (run.gas_rate / (run.gas_rate + run.air_rate)).value;
    let mixture = intake + gas_share * (gas.temperature.value - intake).max(0.0);
    let (by_suction, by_warmth) = (1.0 - vacuum / air, intake / mixture);
    let (whole, wanted) = (run.shaft_power.value, design.engine.wanted_power.value);
    let left = whole * by_suction * by_warmth;
    let power = |value| Measure::new(Q::EnginePower, value);
    let share = |value| Measure::new(Q::Share, value);
    Some(
        Question {
            id: "train.engine_power",
            title: "Power left at the end of the train",
            meaning: "An engine that must suck its gas, or is given it warm, gets less of it into its cylinders at each turn.",
            why: "The power told for the engine is that with gas that comes by itself and is no warmer than the mixture entered.",
            caution: None,
        }
        .answered(Answer {
            verdict: Verdict::at_least(left, wanted, wanted * (1.0 - GREY_POWER)),
            margin: left / wanted - 1.0,
            compared: Phrase::new(
                "{} of {} at full load with dirty filters, wanted {}; {} of suction takes {}, gas of {} takes {}",
                [
                    power(left).into(),
                    power(whole).into(),
                    power(wanted).into(),
                    Measure::new(Q::Pressure, vacuum).into(),
                    share(1.0 - by_suction).into(),
                    Measure::new(Q::Temperature, gas.temperature.value).into(),
                    share(1.0 - by_warmth).into(),
                ],
            ),
            working: vec![
                Step {
                    words: "Mixture at the engine: where the gas is warmer than the mixture entered, it warms its share of it",
                    formula: "T_m = T_i + s (T_g − T_i)",
                    values: vec![
                        ("T_i", "mixture as entered", Measure::new(Q::Temperature, intake)),
                        (
                            "T_g",
                            "gas at the engine",
                            Measure::new(Q::Temperature, gas.temperature.value),
                        ),
                        ("s", "gas in the mixture", share(gas_share)),
                    ],
                    result: Measure::new(Q::Temperature, mixture),
                    source: CommonPractice,
                    sure: "a few degrees; the manifold warms the mixture further",
                },
                Step {
                    words: "The cylinders are filled by as much less as the mixture is thinner (ideal gas)",
                    formula: "P' = P (1 − Δp / p) T_i / T_m",
                    values: vec![
                        ("P", "power without suction", power(whole)),
                        ("Δp", "suction", Measure::new(Q::Pressure, vacuum)),
                        ("p", "air outside", Measure::new(Q::Pressure, air)),
                    ],
                    result: power(left),
                    source: CommonPractice,
                    sure: "a tenth of what is lost; as the engine draws less, so does the suction",
                },
            ],
            levers: levers::wider(design, &train.full_dirty, 2)
                .into_iter()
                .chain(cool::cooling(solved))
                .chain([
                    Lever::input("engine.displacement"),
                    Lever::input("engine.wanted_power"),
                ])
                .collect(),
        }),
    )
}
