//! How much air leaks into the gas, and what does it cost?

use super::{Answer, EXPLODES, Question};
use crate::design::Design;
use crate::design::Source::{CommonPractice, FromMemory, OwnMark, Published};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::review::train::TrainReview;
use crate::sizing::air_leak::{Burned, IGNITION, STOP, WATCH};
use crate::sizing::flammability::OXYGEN_IN_AIR;
use uom::si::f64::{Ratio, ThermodynamicTemperature};

/// Air over gas against its marks.
pub(in crate::review) fn verdict(share: Ratio) -> Verdict {
    Verdict::at_most(share.value, WATCH, STOP)
}

/// How far it is from its mark.
pub(in crate::review) fn margin(share: Ratio) -> f64 {
    1.0 - share.value / WATCH
}

/// The air that is taken to leak into the train, and what it costs at its hottest place.
pub(super) fn ask(design: &Design, train: &TrainReview) -> Finding {
    let leak = design.raw_gas.air_leak;
    let outlet = design.raw_gas.temperature.value;
    let share = |value| Measure::new(Q::Share, value).into();
    let temperature = |value| Measure::new(Q::Temperature, value).into();
    Question {
        id: "train.air_leak",
        title: "Air that leaks into the train",
        meaning: "The train is under suction: every leak draws air. In hot gas it burns at once, in cold gas it stays.",
        why: "Air that burns costs heat and power and makes the gas hotter; air that does not burn makes it dangerous. Taken here as the worst of both: for the power all of it comes in at the outlet, where the gas is hottest, for “Oxygen in the gas” all of it behind.",
        caution: Some(EXPLODES),
    }
    .answered(Answer {
        verdict: verdict(leak),
        margin: margin(leak),
        compared: match &train.at_full.burned {
            Some(burned) => Phrase::new(
                "{} of the gas, wanted at most {}; at the outlet, {}, it burns: the gas comes to {}, and the engine loses {} of its power",
                [
                    share(leak.value),
                    share(WATCH),
                    temperature(outlet),
                    temperature(burned.temperature.value),
                    share(1.0 - burned.power_kept().value),
                ],
            ),
            None if leak.value > 0.0 && outlet < IGNITION => Phrase::new(
                "{} of the gas, wanted at most {}; gas of {} is too cold to burn with it, so that it costs no power: the mixer adds as much less",
                [share(leak.value), share(WATCH), temperature(outlet)],
            ),
            None => Phrase::new(
                "{} of the gas, wanted at most {}",
                [share(leak.value), share(WATCH)],
            ),
        },
        working: match &train.at_full.burned {
            Some(burned) => working(burned, leak),
            None => vec![Step {
                words: "The mark: twice the share that is common practice",
                formula: "x_most = 2 x_usual",
                values: vec![
                    ("x_usual", "a tight train", Measure::new(Q::Share, 0.5 * WATCH)),
                    ("x", "air over gas", Measure::new(Q::Share, leak.value)),
                ],
                result: Measure::new(Q::Share, WATCH),
                source: OwnMark("twice a hundredth is Watch, more than five hundredths is a hole and no leak"),
                sure: "Only a leak test tells what really leaks.",
            }],
        },
        levers: vec![Lever::input("raw_gas.air_leak")],
    })
}

/// What becomes of gas in which air burns, and of the power.
pub(in crate::review) fn working(burned: &Burned, leak: Ratio) -> Vec<Step> {
    let heat = |megajoule: f64| Measure::new(Q::EnergyPerVolume, 1e6 * megajoule);
    let number = |value| Measure::new(Q::Number, value);
    let temperature = |value: ThermodynamicTemperature| Measure::new(Q::Temperature, value.value);
    let share = |value| Measure::new(Q::Share, value);
    vec![
        Step {
            words: "Carbon monoxide and hydrogen that the leaking air burns, over the gas: each part of oxygen takes two, as long as there is so much",
            formula: "b = min(2 o y, w)",
            values: vec![
                ("o", "oxygen in air", share(OXYGEN_IN_AIR)),
                ("y", "air over gas", share(leak.value)),
                ("w", "both of them in the gas", share(burned.fuel_before)),
                (
                    "T_fire",
                    "gas takes fire above",
                    Measure::new(Q::Temperature, IGNITION),
                ),
            ],
            result: share(burned.fuel),
            source: FromMemory(
                "handbooks: in air carbon monoxide takes fire at about 605 °C (1120 °F), hydrogen at 500 to 590 °C (930 to 1090 °F)",
            ),
            sure: "The chemistry is exact; where the leak is, only a leak test tells.",
        },
        Step {
            words: "Gas in which it has burned: the heat of burning stays in it",
            formula: "hot gas at T_g + air at T_a = burned gas at T_b",
            values: vec![
                ("T_g", "gas before", temperature(burned.gas_temperature)),
                ("T_a", "air", temperature(burned.air_temperature)),
                ("T_b", "burned gas", temperature(burned.temperature)),
                (
                    "H₁",
                    "heat in a cubic metre of gas before",
                    heat(burned.heat_before),
                ),
                ("H₂", "heat in what became of it", heat(burned.heat)),
            ],
            result: temperature(burned.temperature),
            source: Published("NASA TM-4513, 1993"),
            sure: "Nothing is taken off for the wall: a few degrees in a hundred.",
        },
        Step {
            words: "Power that the engine keeps: heat in a cylinder of gas and just enough air, over that without the leak",
            formula: "k = H₂ / (V₂ + A₂) / (H₁ / (1 + A₁))",
            values: vec![
                (
                    "H₁",
                    "heat in a cubic metre of gas before",
                    heat(burned.heat_before),
                ),
                ("A₁", "air it needs, m³", number(burned.air_before)),
                ("H₂", "heat in what became of it", heat(burned.heat)),
                ("V₂", "dry gas it became, m³", number(burned.dry())),
                ("A₂", "air that needs, m³", number(burned.air)),
            ],
            result: share(burned.power_kept().value),
            source: CommonPractice,
            sure: "As sure as the leak: nothing else is guessed.",
        },
    ]
}
