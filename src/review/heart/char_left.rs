//! What becomes of the char? It takes more air than the heat needs, so that the fire gets hotter than entered; or the air that
//! was entered leaves some of it over; or more is lost than there is.

use super::Heart;
use crate::design::Design;
use crate::design::Source::{FromMemory, Reckoned, YourOwn};
use crate::design::inputs::AirRule;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::{Quantity as Q, exceeds};
use crate::review::finding::{Chapter, Finding, Step, Verdict};
use crate::sizing::fuel::{char_drawn_of, char_share_of};
use crate::sizing::gas::GasSolution;
use crate::sizing::heart::HeartAt;
use uom::si::f64::Ratio;

/// Gas that leaves hotter than entered by less is as good as entered, K. Our own mark.
const LITTLE_HOTTER: f64 = 10.0;
/// Char left over that is less of the dry fuel is as good as none. Our own mark: a third of what a grate usually loses.
const LITTLE_CHAR: f64 = 0.01;

/// Less is no more than what the search for equilibrium leaves, of the dry fuel.
const NO_CHAR: f64 = 1.0e-4;

/// Char that finds no air to turn it into gas, of the dry fuel.
pub(in crate::review) fn char_left_over(at: &HeartAt) -> Ratio {
    let left = at.solved.as_ref().map(|solution| solution.gas.char_left);
    left.ok()
        .filter(|left| left.value > NO_CHAR)
        .unwrap_or_default()
}

/// Whether it is so much that a question is asked about it.
pub(in crate::review) fn is_told(left: Ratio) -> bool {
    exceeds(left.value, LITTLE_CHAR)
}

/// Asked only where the hearth must get hotter than entered to use up its char, or where the air leaves char over.
pub(super) fn finding(design: &Design, heart: &Heart) -> Option<Finding> {
    let loads = [
        ("full load", &heart.at.full),
        ("the usual load", &heart.at.usual),
        ("the lowest load", &heart.at.idle),
    ];
    let solved = loads
        .into_iter()
        .filter_map(|(load, at)| Some((load, at.solved.as_ref().ok()?.gas, at)));
    match design.gas_making.air_rule {
        AirRule::CharLimited => {
            let hottest = solved.max_by(|(_, one, _), (_, other, _)| {
                (one.exit_temperature.value).total_cmp(&other.exit_temperature.value)
            });
            let (load, gas, _) = hottest?;
            hotter(design, load, &gas)
        }
        AirRule::AirHeld => {
            let most = solved.max_by(|(_, one, _), (_, other, _)| {
                (one.char_left.value).total_cmp(&other.char_left.value)
            });
            let (load, gas, at) = most?;
            let left = char_left_over(at);
            is_told(left).then(|| left_over(design, load, &gas, left))
        }
    }
}

/// Char that burns as well makes the fire hotter than entered.
fn hotter(design: &Design, load: &'static str, gas: &GasSolution) -> Option<Finding> {
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

/// The air that was entered is too little for all char.
fn left_over(design: &Design, load: &'static str, gas: &GasSolution, left: Ratio) -> Finding {
    let share = |value| Measure::new(Q::Share, value);
    let drawn = share(char_drawn_of(design).value);
    Finding {
        id: "heart.char_left",
        chapter: Chapter::Heart,
        title: "Char left over",
        meaning: "A hearth full of char should use up all of it but what falls through the grate. With less air than that takes, some char finds nothing to turn it into gas.",
        verdict: Verdict::Watch,
        compared: Phrase::new(
            "at {} the air that was entered leaves {} of the dry wood over as char, besides the {} lost at the grate: it goes through the grate or fills the hearth up to the fire",
            [load.into(), share(left.value).into(), drawn.into()],
        ),
        why: "Char that is not used up chokes grate and hearth within hours, and its heat is lost. Either more of it goes through the grate than was entered, or there is more air: measure both again.",
        margin: Some(1.0 - left.value / LITTLE_CHAR),
        working: vec![Step {
            words: "Carbon that equilibrium leaves with this much air",
            formula: "fuel + φ = gas at T_e + c + loss + carbon left",
            values: vec![
                (
                    "φ",
                    "air over that of full burning, as entered",
                    Measure::new(Q::Number, gas.equivalence_ratio.value),
                ),
                (
                    "T_e",
                    "gas stops changing at",
                    Measure::new(Q::Temperature, gas.exit_temperature.value),
                ),
                ("c", "char lost at the grate, of dry wood", drawn),
            ],
            result: share(left.value),
            source: Reckoned("the air as entered, gas and char in equilibrium"),
            sure: "as sure as the measurement of air and wood; a hearth that is not in equilibrium leaves more",
        }],
        caution: None,
        levers: Vec::new(),
        about: "gas_making",
    }
}

/// More char is lost at the grate than the wood leaves; asked only where that was entered.
pub(super) fn more_than_there_is(design: &Design) -> Option<Finding> {
    let share = |share: Ratio| Measure::new(Q::Share, share.value);
    let (entered, most) = (design.gas_making.char_drawn, char_share_of(design));
    exceeds(entered.value, most.value).then(|| Finding {
        id: "heart.char_drawn",
        chapter: Chapter::Heart,
        title: "Char lost at the grate",
        meaning: "What falls through the grate as char is a part of the char that the wood leaves.",
        verdict: Verdict::Watch,
        compared: Phrase::new(
            "“Char lost at the grate” is {}, but only {} of the dry wood becomes char, by “Char from the wood”: reckoned with {}, so that all char is lost. Look at both",
            [entered, most, char_drawn_of(design)].map(|it| share(it).into()),
        ),
        why: "Without char no gas is made below the fire, and tar passes.",
        margin: Some(1.0 - entered.value / most.value).filter(|margin| margin.is_finite()),
        working: vec![Step {
            words: "Char lost at the grate, no more than there is",
            formula: "c = min(c₁, c₂)",
            values: vec![
                ("c₁", "lost at the grate, as entered", share(entered)),
                ("c₂", "char from the wood", share(most)),
            ],
            result: share(char_drawn_of(design)),
            source: YourOwn,
            sure: "as sure as what was entered",
        }],
        caution: None,
        levers: Vec::new(),
        about: "gas_making",
    })
}
