//! Does more char come to the grate than is drawn off there?

use super::Heart;
use crate::design::Design;
use crate::design::Source::FromMemory;
use crate::design::inputs::AirRule;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Step, Verdict};

/// Char left over, as a share of the dry fuel, that is within what is known of the char drawn off. Our own mark.
const LITTLE_CHAR: f64 = 0.01;

/// Asked only where char stays over although the hearth is said to use it up.
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
        .max_by(|(_, one), (_, other)| one.char_left.value.total_cmp(&other.char_left.value))?;
    let left = gas.char_left.value;
    let share = |value| Measure::new(Q::Share, value);
    (left > LITTLE_CHAR).then(|| Finding {
        id: "heart.char_left",
        chapter: Chapter::Heart,
        title: "Char left over",
        meaning: "A hearth full of char should use up all of it but what falls through the grate.",
        verdict: Verdict::Watch,
        compared: Phrase::new(
            "at {} {} of the dry fuel stays over as char, besides the {} drawn off at the grate: so dry and rich in carbon it gives its heat with less air than all its char needs",
            [
                load.into(),
                share(left).into(),
                share(design.gas_making.char_drawn.value).into(),
            ],
        ),
        why: "A real hearth burns that char with more air and gets hotter than is told here, hot enough for slag and burned steel; what does not burn fills the hearth. Take gas, temperatures and fuel used as rough, and measure.",
        margin: Some(-left),
        working: vec![Step {
            words: "Solid carbon that equilibrium leaves where the gas stops changing",
            formula: "fuel + air = gas at T_e + char drawn + char left + loss",
            values: vec![
                (
                    "φ",
                    "air over that of full burning",
                    Measure::new(Q::Number, gas.equivalence_ratio.value),
                ),
                (
                    "T_e",
                    "gas stops changing at",
                    Measure::new(Q::Temperature, gas.exit_temperature.value),
                ),
            ],
            result: share(left),
            source: FromMemory("Zainal et al., Energy Conversion and Management 42, 2001"),
            sure: "that char is left is sure; how much is not: charcoal hearths do not come to equilibrium",
        }],
        caution: None,
        levers: Vec::new(),
        about: "gas_making",
    })
}
