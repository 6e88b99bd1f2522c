//! Does the char take more air than the heat needs, so that the fire gets hotter than entered?

use super::Heart;
use crate::design::Design;
use crate::design::Source::FromMemory;
use crate::design::inputs::AirRule;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Step, Verdict};

/// Gas that leaves hotter than entered by less is as good as entered, K. Our own mark.
const LITTLE_HOTTER: f64 = 10.0;

/// Asked only where the hearth must get hotter than entered to use up its char.
pub(super) fn finding(design: &Design, heart: &Heart) -> Option<Finding> {
    if design.gas_making.air_rule != AirRule::CharLimited {
        return None;
    }
    let loads = [
        ("full load", &heart.at.full),
        ("the usual load", &heart.at.usual),
        ("the lowest load", &heart.at.idle),
    ];
    let (load, gas) = loads
        .into_iter()
        .filter_map(|(load, at)| Some((load, at.solved.as_ref().ok()?.gas)))
        .max_by(|(_, one), (_, other)| {
            (one.exit_temperature.value).total_cmp(&other.exit_temperature.value)
        })?;
    let entered = design.gas_making.freeze_temperature.value;
    let hotter = gas.exit_temperature.value - entered;
    let temperature = |value| Measure::new(Q::Temperature, value);
    (hotter > LITTLE_HOTTER).then(|| Finding {
        id: "heart.char_left",
        chapter: Chapter::Heart,
        title: "Char left over",
        meaning: "A hearth full of char should use up all of it but what falls through the grate. Char that would stay over burns with more air, and makes everything hotter.",
        verdict: Verdict::Watch,
        compared: Phrase::new(
            "at {} the gas stops changing only at {}, not at {}: fuel so dry and rich in carbon gives its heat with less air than all its char needs, and what stays over burns as well",
            [
                load.into(),
                temperature(gas.exit_temperature.value).into(),
                temperature(entered).into(),
            ],
        ),
        why: "Hot enough for slag and burned steel. Charcoal hearths do not come to equilibrium: take gas, temperatures and fuel used as rough, and measure. Damper fuel, or steam with the air, takes the heat up.",
        margin: Some(-hotter / entered),
        working: vec![Step {
            words: "What the gas leaves at when there is just as much air as takes all char",
            formula: "fuel + φ = gas at T_e + char drawn + loss, no carbon left",
            values: vec![
                (
                    "φ",
                    "air over that of full burning",
                    Measure::new(Q::Number, gas.equivalence_ratio.value),
                ),
                (
                    "T_e",
                    "gas stops changing at, as entered",
                    temperature(entered),
                ),
            ],
            result: temperature(gas.exit_temperature.value),
            source: FromMemory("Zainal et al., Energy Conversion and Management 42, 2001"),
            sure: "that it gets hotter is sure; how much is not: charcoal hearths do not come to equilibrium",
        }],
        caution: None,
        levers: Vec::new(),
        about: "gas_making",
    })
}
