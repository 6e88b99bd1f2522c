//! Is the leak allowed small enough, and no more than the train is reckoned with?

use super::blank::blank;
use crate::design::Design;
use crate::design::Source::OwnMark;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::Heart;
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::review::train::{EXPLODES, leak};
use crate::sizing::air_leak::{self, Burned, WATCH};

/// The leak allowed against its marks and against what is taken to leak in, and what it costs where all of it meets gas as hot as it is made.
pub(super) fn budget(design: &Design, heart: &Heart) -> Finding {
    let allowed = design.leak_test.budget;
    let share = |value| Measure::new(Q::Share, value).into();
    let burned = at_the_worst(design, heart);
    let reckoned = design.raw_gas.air_leak;
    let by_mark = leak::verdict(allowed);
    let unreckoned = by_mark == Verdict::Good && allowed > reckoned;
    let margin = match unreckoned {
        true => reckoned.value / allowed.value - 1.0,
        false => leak::margin(allowed),
    };
    Finding {
        verdict: match unreckoned {
            true => Verdict::Watch,
            false => by_mark,
        },
        margin: Some(margin).filter(|margin| margin.is_finite()),
        compared: match &burned {
            _ if unreckoned => Phrase::new(
                "{} of the gas pass the tests, but power and oxygen are reckoned with {} that leak in: allow no more than that",
                [share(allowed.value), share(reckoned.value)],
            ),
            Some(burned) => Phrase::new(
                "{} of the gas, wanted at most {}; under the hearth, where the gas is made at {}, it would all burn: {} hotter, and {} of the power lost",
                [
                    share(allowed.value),
                    share(WATCH),
                    Measure::new(Q::Temperature, burned.gas_temperature.value).into(),
                    Measure::new(
                        Q::TemperatureDifference,
                        burned.temperature.value - burned.gas_temperature.value,
                    )
                    .into(),
                    share(1.0 - burned.power_kept().value),
                ],
            ),
            None => Phrase::new(
                "{} of the gas, wanted at most {}",
                [share(allowed.value), share(WATCH)],
            ),
        },
        working: match &burned {
            Some(burned) => leak::working(burned, allowed),
            None => vec![Step {
                words: "The mark: twice the share that is common practice",
                formula: "x_most = 2 x_usual",
                values: vec![(
                    "x_usual",
                    "a tight machine",
                    Measure::new(Q::Share, 0.5 * WATCH),
                )],
                result: Measure::new(Q::Share, WATCH),
                source: OwnMark(
                    "twice a hundredth is Watch, more than five hundredths is a hole and no leak",
                ),
                sure: "What it costs cannot be told while the hearth has no solution.",
            }],
        },
        caution: Some(EXPLODES),
        levers: vec![
            Lever::input("leak_test.budget"),
            Lever::input("raw_gas.air_leak"),
        ],
        ..blank(
            "leaks.budget",
            "Leak allowed",
            "How much air the whole machine may draw through its joints, as a share of the gas. The tests of the sub-assemblies share it.",
            "A test that allows much passes a machine that leaks much: what burns is lost, and what does not burn makes the gas explosive.",
        )
    }
}

/// The gas as it is made, with all of the leak allowed burning in it.
fn at_the_worst(design: &Design, heart: &Heart) -> Option<Burned> {
    let full = &heart.at.full;
    let made = full.solved.as_ref().ok()?.gas.exit_temperature;
    air_leak::burned(
        &full.supply.gas,
        full.supply.steam,
        made,
        design.leak_test.budget,
        design.site.air_temperature,
    )
    .ok()?
}
