//! Can there be an engine as it was entered?

use crate::design::Design;
use crate::design::Source::{CommonPractice, FromMemory, OwnMark};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::sizing::engine::usual_brake_efficiency;
use uom::si::f64::Ratio;
use uom::si::ratio::ratio;

/// Ratio of the heat capacities of air.
const EXPONENT: f64 = 1.4;
/// What engines reach of the ideal cycle. Our own mark: the best large ones come to about this.
const REACHED: f64 = 0.65;
/// Compression ratios of engines with spark plugs: old side-valve engines begin at 5; 17 was run on wood gas without knock.
const RATIOS: (f64, f64) = (5.0, 17.0);
/// Efficiency on gas over that on petrol beyond which one of the two is wrong: an engine turns about the same share of both
/// into work. Our own mark.
const GAS_OVER_PETROL: f64 = 2.0;
/// What a thermometer does not tell, K.
const DEGREE: f64 = 0.5;

/// Shaft work over heat that an ideal engine of this compression ratio gives: the air-standard Otto cycle.
fn ideal(compression: f64) -> f64 {
    1.0 - compression.powf(1.0 - EXPONENT)
}

/// Efficiencies, compression ratio and temperature of the mixture, each against what can be.
pub(super) fn entries(design: &Design) -> Finding {
    let engine = &design.engine;
    let (air, mixture) = (
        design.site.air_temperature.value,
        engine.intake_temperature.value,
    );
    let compression = engine.compression_ratio;
    let most = ideal(compression);
    let share = |value| Measure::new(Q::Share, value);
    let number = |value| Measure::new(Q::Number, value);
    let temperature = |value| Measure::new(Q::Temperature, value);
    let (least, highest) = RATIOS;
    let efficiencies = [
        (
            engine.brake_efficiency.map(|one| one.value),
            [
                "an efficiency on gas of {} is more than an ideal engine of compression ratio {} could have, {}: look at both, or leave the efficiency empty",
                "an efficiency on gas of {} at a compression ratio of {}: an ideal engine would have {}, and real ones come to {} at most; look at both, or leave the efficiency empty",
            ],
        ),
        (
            Some(engine.petrol_efficiency.value),
            [
                "an efficiency on petrol of {} is more than an ideal engine of compression ratio {} could have, {}: look at both",
                "an efficiency on petrol of {} at a compression ratio of {}: an ideal engine would have {}, and real ones come to {} at most; look at both",
            ],
        ),
    ];
    // An efficiency that was measured is what it is, and no lever.
    let by_efficiency = efficiencies.into_iter().filter_map(|(entered, words)| {
        let entered = entered?;
        let verdict = Verdict::at_most(entered, REACHED * most, most);
        let [impossible, doubtful] = words;
        let words = match verdict {
            Verdict::Stop => impossible,
            _ => doubtful,
        };
        let slots = [
            share(entered).into(),
            number(compression).into(),
            share(most).into(),
            share(REACHED * most).into(),
        ];
        let margin = 1.0 - entered / (REACHED * most);
        Some((
            verdict,
            margin,
            Phrase::new(words, slots),
            "engine.compression_ratio",
        ))
    });
    let petrol = engine.petrol_efficiency.value;
    let on_gas = (engine.brake_efficiency)
        .or_else(|| usual_brake_efficiency(Ratio::new::<ratio>(compression)).ok())
        .map_or(petrol, |one| one.value);
    let others = [
        (
            Verdict::at_most(on_gas / petrol, GAS_OVER_PETROL, f64::INFINITY),
            1.0 - on_gas / petrol / GAS_OVER_PETROL,
            Phrase::new(
                "an efficiency on gas of {} beside {} on petrol: an engine turns about the same share of both into work, and {} times as much of the gas at the very most; look at both",
                [
                    share(on_gas).into(),
                    share(petrol).into(),
                    number(GAS_OVER_PETROL).into(),
                ],
            ),
            "engine.petrol_efficiency",
        ),
        (
            Verdict::at_least(compression, least, 0.0).max(Verdict::at_most(
                compression,
                highest,
                f64::INFINITY,
            )),
            (compression / least - 1.0).min(1.0 - compression / highest),
            Phrase::new(
                "a compression ratio of {}: engines with spark plugs have {} to {}",
                [
                    number(compression).into(),
                    number(least).into(),
                    number(highest).into(),
                ],
            ),
            "engine.compression_ratio",
        ),
        (
            Verdict::at_least(mixture + DEGREE, air, 0.0),
            (mixture + DEGREE) / air - 1.0,
            Phrase::new(
                "a mixture of {} would be colder than the air outside, {}, of which half of it is made: the power told is too high",
                [temperature(mixture).into(), temperature(air).into()],
            ),
            "engine.intake_temperature",
        ),
    ];
    let worst = by_efficiency
        .chain(others)
        .min_by(|one, other| (other.0.cmp(&one.0)).then(one.1.total_cmp(&other.1)));
    let good = Phrase::new(
        "compression ratio {}, at best {} of the heat; a mixture of {} in air of {}: there are such engines",
        [
            number(compression).into(),
            share(REACHED * most).into(),
            temperature(mixture).into(),
            temperature(air).into(),
        ],
    );
    let (verdict, margin, compared, path) =
        worst.unwrap_or((Verdict::Good, 0.0, good.clone(), "engine.compression_ratio"));
    let passes = verdict == Verdict::Good;
    Finding {
        id: "engine.entries",
        chapter: Chapter::Engine,
        title: "Engine as entered",
        meaning: "No engine turns more of the heat into work than an ideal one of the same compression ratio, and no mixture is colder than what it is made of.",
        verdict,
        compared: if passes { good } else { compared },
        why: "Power, gas flow and the size of the hearth all follow from these numbers: one that cannot be spoils them all.",
        margin: Some(margin).filter(|margin| margin.is_finite()),
        working: working(design, most),
        caution: None,
        levers: (!passes).then(|| Lever::input(path)).into_iter().collect(),
        about: "engine",
    }
}

fn working(design: &Design, most: f64) -> Vec<Step> {
    let compression = Measure::new(Q::Number, design.engine.compression_ratio);
    let share = |value| Measure::new(Q::Share, value);
    vec![
        Step {
            words: "Efficiency of an ideal engine: the air-standard Otto cycle",
            formula: "η_most = 1 − r^(1 − γ)",
            values: vec![
                ("r", "compression ratio", compression),
                (
                    "γ",
                    "ratio of the heat capacities of air",
                    Measure::new(Q::Number, EXPONENT),
                ),
            ],
            result: share(most),
            source: FromMemory("textbooks of thermodynamics"),
            sure: "Exact for the ideal; with hot gas in place of air even the ideal is lower.",
        },
        Step {
            words: "What real engines reach of it",
            formula: "η = 0.65 η_most",
            values: vec![("η_most", "ideal", share(most))],
            result: share(REACHED * most),
            source: OwnMark(
                "the best large gas engines come to about two thirds of the ideal; small ones to less than half",
            ),
            sure: "A small engine on wood gas has 20 to 28 %.",
        },
        Step {
            words: "Highest compression ratio that was run on wood gas with spark plugs",
            formula: "r ≤ r_most",
            values: vec![
                ("r", "compression ratio", compression),
                ("r_most", "highest", Measure::new(Q::Number, RATIOS.1)),
            ],
            result: Measure::new(Q::Number, RATIOS.1),
            source: FromMemory("Sridhar, Paul and Mukunda, Biomass and Bioenergy 21, 2001"),
            sure: "The lowest, 5, is common practice: old side-valve engines.",
        },
        Step {
            words: "Coldest that the mixture can be: as cold as the air outside",
            formula: "T_least = T_a",
            values: vec![(
                "T_a",
                "air outside",
                Measure::new(Q::Temperature, design.site.air_temperature.value),
            )],
            result: Measure::new(Q::Temperature, design.site.air_temperature.value),
            source: CommonPractice,
            sure: "The manifold warms it further: 30 to 50 °C (86 to 122 °F) is usual.",
        },
    ]
}
