//! The questions of the hearth chapter.

use super::around::around;
use super::ash_room::ash_room;
use super::char_pieces::char_pieces;
use super::engines_fed::{self, with_engines};
use super::fire_tube::{air_in, fire_tube, fire_tube_length};
use super::fits::{inside, throat};
use super::grate::grate;
use super::lasts::lasts;
use super::spares::spares;
use super::wall::wall;
use super::{Constricted, HearthReview, surroundings};
use crate::design::Design;
use crate::design::Source::{CommonPractice, FromMemory, OwnMark};
use crate::design::inputs::HearthKind;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::{Quantity as Q, exceeds, falls_short};
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::review::heart::{FULL_UNTOLD, Heart, IDLE_UNTOLD, flow_levers, untold};
use crate::sizing::hearth_load::{TablePlace, size_throat};
use crate::sizing::machine::HearthShape;
use uom::si::f64::{Time, Velocity};
use uom::si::velocity::meter_per_second;

/// How far past a mark a value is still Watch, as a share of the mark: our own choice, because the published marks
/// are themselves given as ranges about this wide.
pub(in crate::review) const GREY_SHARE: f64 = 0.10;

/// Nozzle velocities this far outside the natural range are still Watch: the range is a habit, not a limit.
const GREY_VELOCITY: f64 = 0.25;

/// What the hearth wall should reach above the nozzles and below the grate together, m: a socket and its weld sit in it.
/// Our own mark.
const ROOM: f64 = 0.04;

/// What a tape measure cannot tell, m: a length short of the table by less than this still counts.
pub(super) const TAPE: f64 = crate::sizing::pattern::TAPE / 1000.0;

const LOAD_SOURCE: crate::design::Source = FromMemory("FAO Forestry Paper 72; SERI/SP-271-3022");
const TABLE: crate::design::Source = FromMemory("SERI/SP-271-3022 (1988), table 5-1");

/// Every question that fits the hearth type.
pub(super) fn ask(
    design: &Design,
    heart: &Heart,
    review: &HearthReview,
    warms_up: Option<Time>,
) -> Vec<Finding> {
    let mut findings = Vec::with_capacity(12);
    let at_full = |finding| match heart.at.full.makes_gas() {
        true => finding,
        false => untold(finding, FULL_UNTOLD),
    };
    if let Some(part) = &review.constricted {
        findings.extend([
            at_full(with_engines(
                design,
                review,
                load_full(design, heart, review),
            )),
            match heart.at.idle.makes_gas() {
                true => with_engines(design, review, load_idle(design, heart, review, part)),
                false => untold(load_idle(design, heart, review, part), IDLE_UNTOLD),
            },
            at_full(nozzle_velocity(design, heart, part)),
            around(design),
            throat(design),
            proportions(design, part),
        ]);
    }
    if let Some(tube) = &review.tube {
        findings.extend([
            fire_tube(design, heart, review, tube),
            fire_tube_length(design, tube),
            air_in(design),
        ]);
    }
    findings.extend([
        band(design),
        inside(design, heart),
        grate(design),
        char_pieces(design),
        lasts(design, heart),
    ]);
    findings.extend(spares(design, heart));
    findings.extend(ash_room(design, heart, warms_up));
    findings.extend(wall(design, heart));
    findings
}

/// Does the hearth wall stand around the whole fire?
fn band(design: &Design) -> Finding {
    let tall = HearthShape::tall(design).value;
    let height = design.hearth_wall.height.value;
    let wanted = tall + ROOM;
    let length = |value| Measure::new(Q::Length, value).into();
    let (words, room, fire) = match design.hearth.kind {
        HearthKind::Constricted => (
            [
                "the hearth wall is {} tall; from below the grate to above the nozzles it needs {}, {} at the very least: the fire would burn against the body wall, which is reckoned and built for less heat",
                "the hearth wall is {} tall; from below the grate to above the nozzles it should be {}, {} at the very least",
            ],
            [
                "Height that holds the fire, with room for the nozzles' sockets and the grate",
                "half the room above the nozzles, half under the grate",
            ],
            "from grate to nozzles",
        ),
        HearthKind::Straight => (
            [
                "the hearth wall is {} tall; around the whole fire tube it needs {}, {} at the very least: the fire would burn against the body wall, which is reckoned and built for less heat",
                "the hearth wall is {} tall; around the whole fire tube it should be {}, {} at the very least",
            ],
            [
                "Height that holds the fire, with room above the tube and for the grate",
                "half the room above the tube, half under the grate",
            ],
            "fire tube",
        ),
    };
    let verdict = Verdict::at_least(height, wanted, tall);
    let [short, fits] = words;
    Finding {
        id: "hearth.band",
        chapter: Chapter::Hearth,
        title: "Hearth wall around the fire",
        meaning: "The band of the vessel with the hearth's insulation must reach from below the char to above the fire.",
        verdict,
        compared: Phrase::new(
            if verdict == Verdict::Stop {
                short
            } else {
                fits
            },
            [length(height), length(wanted), length(tall)],
        ),
        why: "Where the fire leaves its insulation it heats a wall that was not made for it, and all that is said here of heat and gas holds no more.",
        margin: finite(height / wanted - 1.0),
        working: vec![Step {
            words: room[0],
            formula: "H = h + r",
            values: vec![
                ("h", fire, Measure::new(Q::Length, tall)),
                ("r", "room for both", Measure::new(Q::Length, ROOM)),
            ],
            result: Measure::new(Q::Length, wanted),
            source: OwnMark(room[1]),
            sure: "The arithmetic is exact.",
        }],
        caution: None,
        levers: vec![Lever::input("hearth_wall.height")],
        about: "hearth_wall",
    }
}

/// The levers given, and those that change how much gas is drawn.
fn with_flow(design: &Design, mut levers: Vec<Lever>) -> Vec<Lever> {
    levers.extend(flow_levers(design));
    levers
}

pub(super) fn load_step(review: &HearthReview, flow: f64, load: f64) -> Step {
    Step {
        words: "Hearth load is gas flow over the area of the narrowest bore",
        formula: "B = Q / (π/4 · d²)",
        values: vec![
            ("Q", "gas flow", Measure::new(Q::NormalFlow, flow)),
            (
                "d",
                "narrowest bore",
                Measure::new(Q::Length, review.bore.value),
            ),
        ],
        result: Measure::new(Q::HearthLoad, load),
        source: LOAD_SOURCE,
        sure: "The arithmetic is exact; the marks for throats come from wood of 15 to 20 % moisture in closed hearths.",
    }
}

/// How hard a throat is worked. A straight tube is held to its own table instead, under the bore for its engine.
fn load_full(design: &Design, heart: &Heart, review: &HearthReview) -> Finding {
    let most = design.limits.hearth_load_most;
    let load = review.load.full.value;
    let flow = heart.at.full.supply.gas_flow.value;
    let throat = size_throat(
        heart.at.full.supply.gas_flow,
        Velocity::new::<meter_per_second>(most),
    );
    let throat = Measure::new(Q::Length, throat.value);
    Finding {
        id: "hearth.load_full",
        chapter: Chapter::Hearth,
        title: "Hearth load at full load",
        meaning: "Hearth load says how much gas passes the narrowest bore, for its area.",
        verdict: Verdict::at_most(load, most, most * (1.0 + GREY_SHARE)),
        compared: Phrase::new(
            "{} at full load through the throat of {}, wanted at most {}: this much gas takes a throat of {} at the least",
            [
                Measure::new(Q::HearthLoad, load).into(),
                Measure::new(Q::Length, design.hearth.throat_diameter.value).into(),
                Measure::new(Q::HearthLoad, most).into(),
                throat.into(),
            ],
        ),
        why: "Gas that rushes through too fast tears char dust away, has no time to react and blocks the filter.",
        margin: finite(1.0 - load / most),
        working: vec![
            load_step(review, flow, load),
            throat_step(flow, most, throat),
        ],
        caution: None,
        levers: with_flow(design, vec![Lever::input("hearth.throat_diameter")]),
        about: "hearth",
    }
}

fn throat_step(flow: f64, most: f64, throat: Measure) -> Step {
    Step {
        words: "Narrowest throat for this much gas",
        formula: "d = √(4 Q / (π B))",
        values: vec![
            (
                "Q",
                "gas flow at full load",
                Measure::new(Q::NormalFlow, flow),
            ),
            ("B", "most hearth load", Measure::new(Q::HearthLoad, most)),
        ],
        result: throat,
        source: LOAD_SOURCE,
        sure: "Within about 12 % of the twelve published hearths.",
    }
}

fn load_idle(design: &Design, heart: &Heart, review: &HearthReview, part: &Constricted) -> Finding {
    let least = design.limits.hearth_load_least;
    let load = review.load.idle.value;
    let flow = heart.at.idle.supply.gas_flow.value;
    Finding {
        id: "hearth.load_idle",
        chapter: Chapter::Hearth,
        title: "Hearth load at the lowest load",
        meaning: "When little gas is drawn the hearth cools at its rim, and tar slips through to the engine.",
        verdict: Verdict::at_least(load, least, least * (1.0 - GREY_SHARE)),
        compared: Phrase::new(
            "{} at the lowest load, wanted at least {}; full load draws {} times as much gas",
            [
                Measure::new(Q::HearthLoad, load).into(),
                Measure::new(Q::HearthLoad, least).into(),
                Measure::new(Q::Number, review.turndown).into(),
            ],
        ),
        why: "Tar gums up the intake valves of an engine within hours.",
        margin: finite(load / least - 1.0),
        working: [
            load_step(review, flow, load),
            Step {
                words: "The table names a smaller least flow for hot, well insulated hearths; it is not used as the mark",
                formula: "from the table, between rows on the throat",
                values: vec![("dh", "throat", Measure::new(Q::Length, review.bore.value))],
                result: Measure::new(Q::NormalFlow, part.table.gas_least.value),
                source: TABLE,
                sure: "The two sources differ by a factor of two to three; the stricter one is the mark.",
            },
        ]
        .into_iter()
        .chain(engines_fed::least(design, review))
        .collect(),
        caution: None,
        levers: with_flow(
            design,
            vec![
                Lever::input("operation.idle_load"),
                Lever::input("hearth.throat_diameter"),
            ],
        ),
        about: "hearth",
    }
}

fn nozzle_velocity(design: &Design, heart: &Heart, part: &Constricted) -> Finding {
    let (least, most) = (
        design.limits.nozzle_velocity_least.value,
        design.limits.nozzle_velocity_most.value,
    );
    let flow = &part.nozzles.full;
    let velocity = flow.velocity.value;
    let slow = Verdict::at_least(velocity, least, least * (1.0 - GREY_VELOCITY));
    let fast = Verdict::at_most(velocity, most, most * (1.0 + GREY_VELOCITY));
    let hearth = &design.hearth;
    Finding {
        id: "hearth.nozzle_velocity",
        chapter: Chapter::Hearth,
        title: "Air velocity in the nozzles",
        meaning: "The air jets must reach the middle of the hearth without blowing holes into the char.",
        verdict: slow.max(fast),
        compared: Phrase::new(
            if heart.at.idle.makes_gas() {
                "{} at full load, wanted {} to {}; {} at the lowest load"
            } else {
                "{} at full load, wanted {} to {}"
            },
            [
                Measure::new(Q::Velocity, velocity).into(),
                Measure::new(Q::Velocity, least).into(),
                Measure::new(Q::Velocity, most).into(),
                Measure::new(Q::Velocity, part.nozzles.idle.velocity.value).into(),
            ],
        ),
        why: "Slow air leaves a cold core that passes tar; fast air cuts channels and melts ash.",
        margin: finite((velocity / least - 1.0).min(1.0 - velocity / most)),
        working: vec![
            Step {
                words: "Air velocity is air flow over the area of all nozzle tips",
                formula: "w = (Q / r) · (T / 273.15 K) · (101.325 kPa / p) / (n · π/4 · dm²)",
                values: vec![
                    (
                        "Q",
                        "gas flow at full load",
                        Measure::new(Q::NormalFlow, heart.at.full.supply.gas_flow.value),
                    ),
                    (
                        "r",
                        "gas per air",
                        Measure::new(Q::Number, heart.at.full.supply.gas_per_air),
                    ),
                    (
                        "T",
                        "air temperature",
                        Measure::new(Q::Temperature, design.site.air_temperature.value),
                    ),
                    (
                        "p",
                        "air pressure",
                        Measure::new(Q::Pressure, surroundings(design).pressure.value),
                    ),
                    (
                        "n",
                        "nozzles",
                        Measure::new(Q::Count, f64::from(hearth.nozzle_count)),
                    ),
                    (
                        "dm",
                        "nozzle bore",
                        Measure::new(Q::Thickness, hearth.nozzle_bore.value),
                    ),
                ],
                result: Measure::new(Q::Velocity, velocity),
                source: TABLE,
                sure: "Within 12 % of the velocities of the twelve published hearths.",
            },
            Step {
                words: "Pressure the nozzles take at full load",
                formula: "Δp = ρ/2 · (w / C)²",
                values: vec![
                    (
                        "ρ",
                        "density of the air",
                        Measure::new(Q::Density, flow.density.value),
                    ),
                    ("w", "air velocity", Measure::new(Q::Velocity, velocity)),
                    (
                        "C",
                        "discharge coefficient",
                        Measure::new(Q::Number, hearth.nozzle_discharge.value),
                    ),
                ],
                result: Measure::new(Q::Pressure, flow.drop.value),
                source: CommonPractice,
                sure: "As sure as the discharge coefficient: about 15 %.",
            },
        ],
        caution: Some(
            "Flame can blow back out of the nozzles when the flow stops. Keep face and hands away.",
        ),
        levers: with_flow(
            design,
            vec![
                Lever::input("hearth.nozzle_bore"),
                Lever::input("hearth.nozzle_count"),
            ],
        ),
        about: "hearth",
    }
}

/// What the gas and the tar in it need time in: char below the throat, and fire above it.
const DEPTHS: [&str; 2] = ["hearth.reduction_height", "hearth.nozzle_height"];
/// How far below the table these may be, as a share of it, before it is no hearth any more. Our own mark.
const TOO_SHALLOW: f64 = -0.5;

fn proportions(design: &Design, part: &Constricted) -> Finding {
    let tolerance = design.limits.proportion_tolerance.value;
    let farthest = part.farthest();
    let off = farthest.map_or(f64::NAN, |deviation| deviation.share().abs());
    let past = part.table.past_family();
    // Where the first is no number the answer is none.
    let share = if past > off { past } else { off };
    let inside = part.table.place == TablePlace::Inside;
    let starved = part.deviations.iter().find(|deviation| {
        DEPTHS.contains(&deviation.path) && falls_short(deviation.share(), TOO_SHALLOW)
    });
    let farthest = starved.or(farthest);
    let verdict = match Verdict::at_most(share, tolerance, f64::INFINITY) {
        _ if starved.is_some() => Verdict::Stop,
        Verdict::Good if !inside => Verdict::Watch,
        other => other,
    };
    let mut levers: Vec<Lever> = part
        .deviations
        .iter()
        .filter(|deviation| exceeds(deviation.share().abs(), tolerance))
        .map(|deviation| Lever::input(deviation.path))
        .collect();
    levers.push(Lever::input("hearth.throat_diameter"));
    let throat = Measure::new(Q::Length, design.hearth.throat_diameter.value);
    let edge = part.table.place.edge().or(part.table.family_end);
    let compared = farthest.map_or_else(
        || Phrase::plain("no dimension to compare"),
        |deviation| {
            Phrase::new(
                match part.table.place {
                    TablePlace::Inside if past > off => {
                        let words = "a throat of {} lies outside the most alike series of the table, which ends at {}: {} apart, wanted within {}";
                        let ends = edge.map(|edge| Measure::new(Q::Length, edge.value).into());
                        let shares = [past, tolerance].map(|share| Measure::new(Q::Share, share).into());
                        return Phrase::new(words, [throat.into()].into_iter().chain(ends).chain(shares));
                    }
                    TablePlace::Inside if edge.is_some() => "a throat of {} lies outside the most alike series of the table, which ends at {}; of the row there scaled to it, the farthest: {} is {}, scaled {}, {} apart, wanted within {}",
                    TablePlace::Inside => "farthest from the table: {} is {}, table {}, {} apart, wanted within {}",
                    TablePlace::Below => "a throat of {} is smaller than any in the table, whose least is {}; of the nearest row scaled to it, the farthest: {} is {}, scaled {}, {} apart, allowed {}",
                    TablePlace::Above => "a throat of {} is larger than any in the table, whose most is {}; of the nearest row scaled to it, the farthest: {} is {}, scaled {}, {} apart, allowed {}",
                },
                edge.into_iter()
                    .flat_map(|edge| [throat.into(), Measure::new(Q::Length, edge.value).into()])
                    .chain([
                        deviation.label.into(),
                        deviation.entered.into(),
                        deviation.recommended.into(),
                        Measure::new(Q::Share, share).into(),
                        Measure::new(Q::Share, tolerance).into(),
                    ]),
            )
        },
    );
    Finding {
        id: "hearth.proportions",
        chapter: Chapter::Hearth,
        title: "Proportions against the table",
        meaning: "Twelve hearths that ran well on the road are published; this compares your dimensions with them.",
        verdict,
        compared,
        why: "Hearths far from proven proportions may work, but nobody can promise clean gas.",
        margin: if inside {
            finite(1.0 - share / tolerance)
        } else {
            finite((1.0 - share / tolerance).min(-f64::EPSILON))
        },
        working: part
            .deviations
            .iter()
            .map(|deviation| Step {
                words: deviation.label,
                formula: "from the table, between rows on the throat",
                values: vec![
                    ("dh", "throat", throat),
                    ("entered", deviation.label, deviation.entered),
                ],
                result: deviation.recommended,
                source: TABLE,
                sure: "Families of the table that share a throat differ by up to a third.",
            })
            .collect(),
        caution: None,
        levers,
        about: "hearth",
    }
}

/// A margin that is a number, or none.
pub(super) fn finite(margin: f64) -> Option<f64> {
    margin.is_finite().then_some(margin)
}
