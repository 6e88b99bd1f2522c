//! What power is left once suction, warm gas, its steam and air that burns in it have taken theirs?

use super::{Answer, Question, Solved, cool, leak};
use crate::design::Source::CommonPractice;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::engine::{GREY_POWER, caution_of_power};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::review::train::{PowerLeft, levers};

/// Not asked of a test without engine, nor where hearth or engine cannot be worked out.
pub(super) fn ask(solved: &Solved) -> Option<Finding> {
    let (design, train) = (solved.design, solved.train);
    let power_left = train.power_left.as_ref()?;
    let wanted = design.engine.wanted_power.value;
    let (whole, left) = (power_left.whole.value, power_left.left.value);
    let stop = wanted * (1.0 - GREY_POWER);
    // The power that is left is as little whoever takes it; but then no other train mends it.
    let short = Verdict::at_least(whole, wanted, stop) == Verdict::Stop;
    let power = |value| Measure::new(Q::EnginePower, value);
    let share = |value| Measure::new(Q::Share, value);
    Some(
        Question {
            id: "train.engine_power",
            title: "Power left at the end of the train",
            meaning: "An engine that must suck its gas, or is given it warm, gets less of it into its cylinders at each turn.",
            why: "This is what the engine gives in the end. The power told under “Power on wood gas, before the train” is that with gas that comes by itself and is no warmer than the mixture entered.",
            caution: Some(caution_of_power(design)),
        }
        .answered(Answer {
            verdict: Verdict::at_least(left, wanted, stop),
            margin: left / wanted - 1.0,
            compared: Phrase::new(
                match (short, train.at_full.burned.is_some()) {
                    (true, false) => "{} of {} at full load with dirty filters, or {} from a generator on that shaft; wanted {} at the shaft, for which the engine is too small by itself: no other train mends that; {} of suction takes {}, gas of {} takes {}, steam in it {}",
                    (false, false) => "{} of {} at full load with dirty filters, or {} from a generator on that shaft; wanted {} at the shaft; {} of suction takes {}, gas of {} takes {}, steam in it {}",
                    (true, true) => "{} of {} at full load with dirty filters, or {} from a generator on that shaft; wanted {} at the shaft, for which the engine is too small by itself: no other train mends that; {} of suction takes {}, gas of {} takes {}, steam in it {}, air that leaks in and burns at the outlet {}",
                    (false, true) => "{} of {} at full load with dirty filters, or {} from a generator on that shaft; wanted {} at the shaft; {} of suction takes {}, gas of {} takes {}, steam in it {}, air that leaks in and burns at the outlet {}",
                },
                [
                    power(left).into(),
                    power(whole).into(),
                    Measure::new(Q::Power, power_left.electric.value).into(),
                    power(wanted).into(),
                    Measure::new(Q::Pressure, power_left.suction.value).into(),
                    share(1.0 - power_left.by_suction.value).into(),
                    Measure::new(Q::Temperature, power_left.gas_temperature.value).into(),
                    share(1.0 - power_left.by_warmth.value).into(),
                    share(1.0 - power_left.by_steam.value).into(),
                    share(1.0 - power_left.by_leak.value).into(),
                ],
            ),
            working: working(solved, power_left),
            levers: (!short)
                .then(|| of_train(solved))
                .into_iter()
                .flatten()
                .chain((!design.engine.at_hand).then(|| Lever::input("engine.displacement")))
                .chain([Lever::input("engine.wanted_power")])
                .collect(),
        }),
    )
}

/// What makes the train take less.
fn of_train(solved: &Solved) -> Vec<Lever> {
    let (design, train) = (solved.design, solved.train);
    levers::wider(design, &train.full_dirty, 2)
        .into_iter()
        .chain(cool::cooling(design))
        .chain((train.at_full.burned.is_some()).then(|| Lever::input("raw_gas.air_leak")))
        .collect()
}

fn working(solved: &Solved, left: &PowerLeft) -> Vec<Step> {
    let power = |value| Measure::new(Q::EnginePower, value);
    let temperature = |value| Measure::new(Q::Temperature, value);
    let around = &solved.train.full_load.circumstances.surroundings;
    let intake = solved.design.engine.intake_temperature.value;
    let entered = ("T_i", "mixture as entered", temperature(intake));
    let mut steps = vec![Step {
        words: "Mixture at the engine: where the gas is warmer than the mixture entered, it warms its share of it",
        formula: "T_m = T_i + s max(T_g − T_i, 0)",
        values: vec![
            entered,
            (
                "T_g",
                "gas at the engine",
                temperature(left.gas_temperature.value),
            ),
            (
                "s",
                "gas in the mixture",
                Measure::new(Q::Share, left.gas_share.value),
            ),
        ],
        result: temperature(left.mixture.value),
        source: CommonPractice,
        sure: "a few degrees; the manifold warms the mixture further",
    }];
    let leak = solved.train.at_full.burned.as_ref();
    steps.extend(
        leak.into_iter()
            .flat_map(|burned| leak::working(burned, solved.design.raw_gas.air_leak)),
    );
    steps.push(
        Step {
            words: "The cylinders are filled by as much less as the mixture is thinner (ideal gas), and as steam takes room in it",
            formula: match leak {
                Some(_) => "P' = k P (1 − Δp / p) T_i / T_m / (1 + s x)",
                None => "P' = P (1 − Δp / p) T_i / T_m / (1 + s x)",
            },
            values: vec![
                ("P", "power without suction", power(left.whole.value)),
                (
                    "Δp",
                    "suction",
                    Measure::new(Q::Pressure, left.suction.value),
                ),
                (
                    "p",
                    "air outside",
                    Measure::new(Q::Pressure, around.pressure.value),
                ),
                (
                    "s x",
                    "steam over dry mixture",
                    Measure::new(Q::Share, 1.0 / left.by_steam.value - 1.0),
                ),
                entered,
            ],
            result: power(left.left.value),
            source: CommonPractice,
            sure: "a tenth of what is lost; as the engine draws less, so does the suction",
        });
    steps
}
