//! How long until the ash under the grate reaches it?

use super::questions::finite;
use crate::design::Design;
use crate::design::Source::{CommonPractice, OwnMark};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::engine;
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
/// Besides what falls while the machine warms up, the room should hold the ash of the time wanted at full load, or of this
/// share of a filling where that is used up sooner: it must be cold to be emptied, so that each time costs a day. Our own
/// mark.
const OF_FILLING: f64 = 0.5;
/// Name of the question.
pub(in crate::review) const ID: &str = "hearth.ash_room";

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

/// How long it takes at a load until the ash reaches the grate, once the machine is warm; none where that cannot be told.
/// What falls while it warms up, at a share of full load, lies there by then; where the time of that is not known, the room
/// counts as empty.
pub fn ash_room_lasts(
    design: &Design,
    heart: &Heart,
    at: &HeartAt,
    warms_up: Option<Time>,
) -> Option<Time> {
    let room = AshRoom::at(design, at)?;
    let taken = match warms_up {
        Some(warms_up) => {
            let lit = design.operation.startup_share.value * warms_up.value;
            lit * AshRoom::at(design, &heart.at.full)?.rate / room.rate
        }
        None => 0.0,
    };
    Some(Time::new::<second>((room.time - taken).max(0.0)))
}

/// What falls under the grate from one cold machine to the next, as a run at full load.
struct Run {
    /// Until the room is full at full load, s.
    time: f64,
    /// What falls through at full load, as it lies, m³/s.
    rate: f64,
    /// Time to warm up, s.
    warms_up: f64,
    /// A run at full load that leaves as much as warming up alone, s.
    lit: f64,
    /// Wood at full load, kg/s.
    wood: f64,
    /// A run at full load that leaves as much as warming up and the work after it, s.
    wanted: f64,
}

impl Run {
    /// None where it is not known how long the wall warms up, or the hearth makes no gas at full load.
    fn of(design: &Design, heart: &Heart, warms_up: Option<Time>) -> Option<Self> {
        let at = &heart.at.full;
        let room = AshRoom::at(design, at)?;
        let (warms_up, wood) = (warms_up?.value, at.supply.fuel_rate.value);
        let lit = design.operation.startup_share.value * warms_up;
        let filling = OF_FILLING * engine::filling(design).value / wood;
        let wanted = lit + filling.min(design.limits.ash_time.value);
        wanted.is_finite().then_some(Self {
            time: room.time,
            rate: room.rate,
            warms_up,
            lit,
            wood,
            wanted,
        })
    }

    fn steps(&self, design: &Design, height: f64) -> [Step; 2] {
        let told = |quantity, si| Measure::new(quantity, si);
        let wide = design.hearth_wall.inside_diameter.value;
        [
            Step {
                words: "The same at full load",
                formula: "t_f = π/4 · D² · h / V̇_f",
                values: vec![
                    ("D", "hearth wall inside", told(Q::Length, wide)),
                    ("h", "from its floor to the grate", told(Q::Length, height)),
                    (
                        "V̇_f",
                        "what falls through at full load",
                        told(Q::Flow, self.rate),
                    ),
                ],
                result: told(Q::LongTime, self.time),
                source: CommonPractice,
                sure: "As sure as what falls through.",
            },
            Step {
                words: "Run at full load that leaves as much ash as warming up and then the time wanted, or a part of a filling",
                formula: "t_r = φ t_w + min(t_a, f m / ṁ_f)",
                values: vec![
                    (
                        "φ",
                        "flow while lighting, of that at full load",
                        told(Q::Share, design.operation.startup_share.value),
                    ),
                    ("t_w", "time to warm up", told(Q::Time, self.warms_up)),
                    (
                        "t_a",
                        "time between ash removals, as wanted",
                        told(Q::LongTime, design.limits.ash_time.value),
                    ),
                    ("f", "part of a filling", told(Q::Share, OF_FILLING)),
                    (
                        "m",
                        "wood of one filling",
                        told(Q::Mass, engine::filling(design).value),
                    ),
                    ("ṁ_f", "wood at full load", told(Q::MassFlow, self.wood)),
                ],
                result: told(Q::LongTime, self.wanted),
                source: OwnMark(
                    "the machine must be cold to be emptied: once it is warm it should run as long as wanted, or burn half a filling, before that",
                ),
                sure: "As sure as the time to warm up.",
            },
        ]
    }
}

/// Not asked where the hearth makes no gas at the usual load, or the wood cannot be told.
pub(super) fn ash_room(design: &Design, heart: &Heart, warms_up: Option<Time>) -> Option<Finding> {
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
    let at_usual = Phrase::new(
        "the room under the grate, {} high, is full after {} at the usual load; wanted {}",
        [
            told(Q::Length, height).into(),
            told(Q::LongTime, time).into(),
            told(Q::LongTime, wanted).into(),
        ],
    );
    let run = Run::of(design, heart, warms_up);
    let compared = match &run {
        Some(run) => Phrase::new(
            "{}; at full load it is full after {}; wanted {}: as much ash as warming up leaves, and then the time wanted, or half a filling where that is less",
            [
                at_usual.into(),
                told(Q::LongTime, run.time).into(),
                told(Q::LongTime, run.wanted).into(),
            ],
        ),
        None => at_usual,
    };
    // Emptying more often is work, and no danger; but what is full before it is warm never runs.
    let by_run = run.as_ref().map_or(Verdict::Good, |run| {
        Verdict::at_least(run.time, run.wanted, run.lit)
    });
    let compared = match run.as_ref().filter(|run| run.time < run.lit) {
        Some(run) => Phrase::new(
            "{}. Warming up alone leaves the ash of {}: the grate burns before the machine is warm",
            [compared.into(), told(Q::LongTime, run.lit).into()],
        ),
        None => compared,
    };
    let share = run
        .as_ref()
        .map_or(f64::INFINITY, |run| run.time / run.wanted);
    Some(Finding {
        id: ID,
        chapter: Chapter::Hearth,
        title: "Room for the ash",
        meaning: "Ash and bits of char fall through the grate and lie under it until somebody takes them out of the cold machine.",
        verdict: Verdict::at_least(time, wanted, GREY_TIME * wanted).max(by_run),
        compared: match heart::is_told(left) {
            true => Phrase::new(
                "{}. The {} of the dry wood that is left over as char fills it too: mend “Char left over” first",
                [compared.into(), told(Q::Share, left.value).into()],
            ),
            false => compared,
        },
        why: "Ash that reaches the grate shuts off the gas, and the grate burns. To take it out costs a day: the machine must cool down first.",
        margin: finite((time / wanted).min(share) - 1.0),
        working: [
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
        ]
        .into_iter()
        .chain(run.iter().flat_map(|run| run.steps(design, height)))
        .collect(),
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
