//! Can the gas burn inside the train?

use super::{Answer, Question, Solved};
use crate::design::Source::FromMemory;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::flammability::{Flammability, LIMITS, flammability, with_air};
use uom::si::f64::Ratio;

pub(in crate::review) const EXPLODES: &str = "Gas with air in it explodes from one spark. Never light the flare or start the engine before the train is full of gas; purge it with the blower first, outdoors. If the flare pops or the pipes pulse, stop and find the leak.";

pub(super) fn ask(solved: &Solved) -> Vec<Finding> {
    let design = solved.design;
    let leak = design.raw_gas.air_leak;
    let limits = &design.limits;
    let (good, stop) = (limits.oxygen_good().value, limits.oxygen_stop.value);
    // Air that leaks in where the gas is hot burns and leaves no oxygen; behind it the gas is as the hearth made it.
    let found =
        (with_air(&solved.train.outlet.dry, leak).ok()).and_then(|mixed| flammability(&mixed).ok());
    let burns_at_outlet = solved.train.at_full.burned.is_some();
    let question = Question {
        id: "train.oxygen",
        title: "Oxygen in the gas",
        meaning: "Air that leaks into the train under suction brings oxygen; with enough of it the gas burns inside.",
        why: "Oxygen burns gas in the train, heats filter and blower, and at the worst explodes.",
        caution: Some(EXPLODES),
    };
    let answer = match found {
        None => Answer {
            verdict: Verdict::CannotTell,
            margin: f64::NAN,
            compared: Phrase::plain("the gas cannot be worked out"),
            working: Vec::new(),
            levers: Vec::new(),
        },
        Some(found) => {
            let oxygen = found.oxygen.value;
            let burns = if found.burns_as_it_is {
                Verdict::Stop
            } else {
                Verdict::Good
            };
            let share = |share: Ratio| Measure::new(Q::Share, share.value);
            let fuels = fuels(&found);
            let working = match (found.lower, found.upper, found.least_oxygen) {
                (Some(lower), Some(upper), Some(least)) => vec![Step {
                    words: "Least share of gas in air that burns, by Le Chatelier's rule",
                    formula: "L = 1 / (y₁/L₁ + y₂/L₂ + y₃/L₃)",
                    values: fuels
                        .into_iter()
                        .chain([
                            ("O₂", "oxygen in the gas", Measure::new(Q::Share, oxygen)),
                            ("U", "richest mixture that burns", share(upper)),
                            ("O₂,min", "least oxygen that its fuels need", share(least)),
                        ])
                        .collect(),
                    result: share(lower),
                    source: FromMemory("Zabetakis, US Bureau of Mines Bulletin 627, 1965"),
                    sure: "Cold gas, a few points of percent; hot gas burns in a wider range.",
                }],
                _ => Vec::new(),
            };
            let told = [
                Measure::new(Q::Share, oxygen).into(),
                Measure::new(Q::Share, leak.value).into(),
                Measure::new(Q::Share, good).into(),
            ];
            // The leak is told over the gas, so this is too.
            let compared = match found.air_to_burn {
                Some(air) => Phrase::new(
                    "{} with {} of air leaking in, wanted at most {}; it can burn inside from {} of air on, both over the gas",
                    told.into_iter()
                        .chain([Measure::new(Q::Share, air.value / (1.0 - air.value)).into()]),
                ),
                None => Phrase::new("{} with {} of air leaking in, wanted at most {}", told),
            };
            Answer {
                verdict: Verdict::at_most(oxygen, good, stop).max(burns),
                margin: 1.0 - oxygen / good,
                compared: match burns_at_outlet {
                    true => Phrase::new(
                        "all of the leak taken to lie behind the hot part of the train: {}. What leaks in at the outlet burns there and leaves no oxygen",
                        [compared.into()],
                    ),
                    false => compared,
                },
                working,
                levers: vec![Lever::input("raw_gas.air_leak")],
            }
        }
    };
    vec![question.answered(answer)]
}

/// The fuels in a gas, as shares of all but the air in it, with the least share of each that burns.
fn fuels(found: &Flammability) -> [(&'static str, &'static str, Measure); 6] {
    let [carbon_monoxide, hydrogen, methane] = found.fuels;
    let [first, second, third] = LIMITS.map(|limits| limits.lower);
    [
        ("y₁", "carbon monoxide, air left out", carbon_monoxide),
        ("L₁", "least of it that burns", first),
        ("y₂", "hydrogen", hydrogen),
        ("L₂", "least of it that burns", second),
        ("y₃", "methane", methane),
        ("L₃", "least of it that burns", third),
    ]
    .map(|(symbol, words, share)| (symbol, words, Measure::new(Q::Share, share)))
}
