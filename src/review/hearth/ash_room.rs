//! How long until the ash under the grate reaches it?

use super::questions::finite;
use crate::design::Design;
use crate::design::Source::{CommonPractice, OwnMark};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::review::heart::Heart;
use crate::sizing::fuel::fuel_of;
use crate::sizing::machine::HearthShape;
use std::f64::consts::PI;

/// Ash and char fines as they lie under a grate, kg/m³ (common practice, no source; 100 to 250).
const BULK: f64 = 150.0;
/// A room that fills within this share of the time wanted is a Stop. Our own mark.
const GREY_TIME: f64 = 0.25;

/// Not asked where the hearth makes no gas at the usual load, or the wood cannot be told.
pub(super) fn ash_room(design: &Design, heart: &Heart) -> Option<Finding> {
    let fuel = fuel_of(design).ok()?;
    if !heart.at.usual.makes_gas() {
        return None;
    }
    let wall = &design.hearth_wall;
    let height = HearthShape::ash_room(design).value;
    let room = 0.25 * PI * wall.inside_diameter.value.powi(2) * height;
    let dry = heart.at.usual.supply.fuel_rate.value * (1.0 - fuel.moisture.value);
    let falls = fuel.ash.value + design.gas_making.char_drawn.value;
    let rate = dry * falls / BULK;
    let time = room / rate;
    if !time.is_finite() {
        return None;
    }
    let wanted = design.limits.ash_time.value;
    let told = |quantity, si| Measure::new(quantity, si);
    Some(Finding {
        id: "hearth.ash_room",
        chapter: Chapter::Hearth,
        title: "Room for the ash",
        meaning: "Ash and bits of char fall through the grate and lie under it until somebody takes them out of the cold machine.",
        verdict: Verdict::at_least(time, wanted, GREY_TIME * wanted),
        compared: Phrase::new(
            "the room under the grate, {} high, is full after {} at the usual load; wanted {}",
            [
                told(Q::Length, height).into(),
                told(Q::LongTime, time).into(),
                told(Q::LongTime, wanted).into(),
            ],
        ),
        why: "Ash that reaches the grate shuts off the gas, and the grate burns.",
        margin: finite(time / wanted - 1.0),
        working: vec![
            Step {
                words: "What falls through the grate, as it lies",
                formula: "V̇ = ṁ (a + c) / ρ",
                values: vec![
                    ("ṁ", "dry wood at the usual load", told(Q::MassFlow, dry)),
                    ("a", "ash in it", told(Q::Share, fuel.ash.value)),
                    (
                        "c",
                        "char lost at the grate",
                        told(Q::Share, design.gas_making.char_drawn.value),
                    ),
                    (
                        "ρ",
                        "ash and char fines as they lie",
                        told(Q::Density, BULK),
                    ),
                ],
                result: told(Q::Flow, rate),
                source: CommonPractice,
                sure: "Within a factor of two: how much char a grate lets fall depends on how it is shaken.",
            },
            Step {
                words: "Time until the room under the grate is full",
                formula: "t = π/4 · D² · h / V̇",
                values: vec![
                    (
                        "D",
                        "hearth wall inside",
                        told(Q::Length, wall.inside_diameter.value),
                    ),
                    ("h", "from its floor to the grate", told(Q::Length, height)),
                    ("V̇", "what falls through", told(Q::Flow, rate)),
                ],
                result: told(Q::LongTime, time),
                source: OwnMark(
                    "what the hearth leaves free of its wall's height is shared by the room above the nozzles and the one under the grate",
                ),
                sure: "As sure as what falls through.",
            },
        ],
        caution: Some(
            "Never open the ash door of a machine that is hot or holds gas: air lights what is in it. Ash glows for a day; keep it in a closed metal can, outdoors.",
        ),
        levers: vec![
            Lever::input("hearth_wall.inside_diameter"),
            Lever::input("hearth_wall.height"),
        ],
        about: "hearth_wall",
    })
}
