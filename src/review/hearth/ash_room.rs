//! How long until the ash under the grate reaches it?

use super::questions::finite;
use crate::design::Design;
use crate::design::Source::{CommonPractice, OwnMark};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::review::heart::{self, Heart, char_left_over};
use crate::sizing::fuel::{char_drawn_of, fuel_of};
use crate::sizing::heart::HeartAt;
use crate::sizing::machine::HearthShape;
use std::f64::consts::PI;
use uom::si::f64::{Ratio, Time};
use uom::si::time::second;

/// Ash and char fines as they lie under a grate, kg/m³ (common practice, no source; 100 to 250).
const BULK: f64 = 150.0;
/// A room that fills within this share of the time wanted is a Stop. Our own mark.
const GREY_TIME: f64 = 0.25;

/// What falls under the grate at one load, and the room that it has there.
struct AshRoom {
    /// From its floor to the grate, m.
    height: f64,
    /// Dry wood, kg/s.
    dry: f64,
    /// Share of that which is ash.
    ash: f64,
    /// Share of that which is lost as char at the grate.
    drawn: f64,
    /// Share of that which is left as char for want of air.
    left: Ratio,
    /// What falls, as it lies, m³/s.
    rate: f64,
    /// Until the room is full, s.
    time: f64,
}

impl AshRoom {
    /// None where the hearth makes no gas at this load, or the wood cannot be told.
    fn at(design: &Design, at: &HeartAt) -> Option<Self> {
        let fuel = fuel_of(design).ok()?;
        if !at.makes_gas() {
            return None;
        }
        let wide = design.hearth_wall.inside_diameter.value;
        let height = HearthShape::ash_room(design).value;
        let dry = at.supply.fuel_rate.value * (1.0 - fuel.moisture.value);
        let ash = fuel.ash.value;
        let drawn = char_drawn_of(design).value;
        // What finds no air to turn it into gas has no other way out.
        let left = char_left_over(at);
        let rate = dry * (ash + drawn + left.value) / BULK;
        let time = 0.25 * PI * wide.powi(2) * height / rate;
        time.is_finite().then_some(Self {
            height,
            dry,
            ash,
            drawn,
            left,
            rate,
            time,
        })
    }
}

/// How long it takes at a load until the ash reaches the grate; none where that cannot be told.
pub fn ash_room_lasts(design: &Design, at: &HeartAt) -> Option<Time> {
    AshRoom::at(design, at).map(|room| Time::new::<second>(room.time))
}

/// Not asked where the hearth makes no gas at the usual load, or the wood cannot be told.
pub(super) fn ash_room(design: &Design, heart: &Heart) -> Option<Finding> {
    let wall = &design.hearth_wall;
    let AshRoom {
        height,
        dry,
        ash,
        drawn,
        left,
        rate,
        time,
    } = AshRoom::at(design, &heart.at.usual)?;
    let wanted = design.limits.ash_time.value;
    let told = |quantity, si| Measure::new(quantity, si);
    let compared = Phrase::new(
        "the room under the grate, {} high, is full after {} at the usual load; wanted {}",
        [
            told(Q::Length, height).into(),
            told(Q::LongTime, time).into(),
            told(Q::LongTime, wanted).into(),
        ],
    );
    Some(Finding {
        id: "hearth.ash_room",
        chapter: Chapter::Hearth,
        title: "Room for the ash",
        meaning: "Ash and bits of char fall through the grate and lie under it until somebody takes them out of the cold machine.",
        verdict: Verdict::at_least(time, wanted, GREY_TIME * wanted),
        compared: match heart::is_told(left) {
            true => Phrase::new(
                "{}. The {} of the dry wood that is left over as char fills it too: mend “Char left over” first",
                [compared.into(), told(Q::Share, left.value).into()],
            ),
            false => compared,
        },
        why: "Ash that reaches the grate shuts off the gas, and the grate burns.",
        margin: finite(time / wanted - 1.0),
        working: vec![
            Step {
                words: "What falls through the grate, as it lies",
                formula: "V̇ = ṁ (a + c + l) / ρ",
                values: vec![
                    ("ṁ", "dry wood at the usual load", told(Q::MassFlow, dry)),
                    ("a", "ash in it", told(Q::Share, ash)),
                    ("c", "char lost at the grate", told(Q::Share, drawn)),
                    (
                        "l",
                        "char left over: it finds no air to turn it into gas",
                        told(Q::Share, left.value),
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
                    "what the hearth leaves free of its wall's height is shared by the room above the fire and the one under the grate",
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
