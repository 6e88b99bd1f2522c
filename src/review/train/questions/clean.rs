//! Is the gas fast enough to carry its dust, and does the cyclone work as it should?

use super::{Answer, At, Question, Solved, is};
use crate::design::Source::{CommonPractice, FromMemory};
use crate::design::inputs::{Lie, StageKind};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::review::train::{levers, new_stage};
use crate::sizing::cyclone::{CycloneResult, FASTEST_INLET, SLOWEST_INLET, WORKS_POORLY};
use crate::sizing::train::{CONVEYING, Detail, GasState, MUCH_DUST, NARROW, Note};
use std::f64::consts::PI;

/// A cyclone whose inlet is faster than this wears and stirs its dust up again, m/s. Our own choice.
const MUCH_TOO_FAST: f64 = 30.0;

pub(super) const DUST: &str = "Dust from cyclone and filter holds glowing bits and tar: let it cool with the machine shut, wear mask and gloves, wet it, keep it in a closed metal bucket outdoors.";

pub(super) fn ask(solved: &Solved) -> Vec<Finding> {
    std::iter::once(dust_settles(solved))
        .chain(cyclone(solved))
        .collect()
}

fn of_cyclone<'a>(at: &At<'a>) -> Option<&'a CycloneResult> {
    match &at.outcome.detail {
        Detail::Cyclone(found) => Some(found),
        _ => None,
    }
}

/// Slowest gas in a stage, m/s.
fn slowest(at: &At) -> f64 {
    match &at.outcome.detail {
        Detail::Cooler(cooler) => cooler.slowest.value,
        _ => at.outcome.velocity.value,
    }
}

/// Number of bores side by side, and the bore with its input.
fn bores(at: &At) -> (u32, f64, &'static str) {
    let entry = at.entry;
    match entry.kind {
        StageKind::Cooler => (entry.tubes, entry.tube_bore.value, "tube_bore"),
        _ => (1, entry.bore.value, "bore"),
    }
}

/// Dust that meets tar or water in a narrow bore cakes there; else it settles where the gas is slow and the pipe level.
fn dust_settles(solved: &Solved) -> Finding {
    let question = Question {
        id: "train.dust_settles",
        title: "Dust in pipes and cooler",
        meaning: "Gas must be fast enough to carry its dust to the cyclone; in slow, level pipe the dust stays, and in a narrow wet one it sticks.",
        why: "Dust that settles closes the pipe, and glowing dust in it is a fire waiting for air.",
        caution: Some(DUST),
    };
    let passed = || {
        solved.stages(solved.usual, |stage| {
            stage.kind == StageKind::Cooler
                || (stage.kind == StageKind::Pipe && stage.length.value > 0.0)
        })
    };
    let dustiest = |one: &At, other: &At| one.gas.dust_load().total_cmp(&other.gas.dust_load());
    let slower = |one: &At, other: &At| slowest(one).total_cmp(&slowest(other));
    let cakes = |at: &At| at.outcome.notes.contains(&Note::DustCakes);
    let dusty = || passed().filter(|at| at.gas.dust_load() > MUCH_DUST);
    let caked = dusty().filter(cakes).max_by(dustiest);
    let level = dusty()
        .filter(|at| at.entry.lie == Lie::Level)
        .min_by(slower);
    question.answered(match (caked, level) {
        (Some(at), _) => dust_cakes(solved, &at),
        (None, Some(at)) => dust_lies(solved, &at),
        (None, None) => Answer {
            verdict: Verdict::Good,
            margin: 0.0,
            compared: no_dust_stays(solved, dusty().min_by(slower), passed().next().is_some()),
            working: Vec::new(),
            levers: Vec::new(),
        },
    })
}

/// Why no dust stays where something upright carries it, or where nothing does.
fn no_dust_stays(solved: &Solved, upright: Option<At>, any: bool) -> Phrase {
    let load = |gas: &GasState| Measure::new(Q::DustLoad, gas.dust_load());
    match upright {
        Some(at) => Phrase::new(
            "{}: {} at usual load with {} of dust; it stands upright, so that dust falls through",
            [
                solved.name(at.place).into(),
                Measure::new(Q::Velocity, slowest(&at)).into(),
                load(at.gas).into(),
            ],
        ),
        None => Phrase::new(
            match any {
                true => "no pipe and no tube carries much dust; {} is left behind the train",
                false => "there is neither pipe nor cooler; {} goes on to the engine",
            },
            (solved.usual.points.last()).map(|gas| load(gas).into()),
        ),
    }
}

/// Much dust in a narrow bore in which tar or water falls out.
fn dust_cakes(solved: &Solved, at: &At) -> Answer {
    let (_, bore, path) = bores(at);
    let dust = at.gas.dust_load();
    let before = solved.design.train.iter().take(at.place);
    let cyclones =
        || (before.clone().enumerate()).filter(|(_, stage)| is(StageKind::Cyclone)(stage));
    let spun: Vec<Lever> = cyclones()
        .map(|(place, _)| levers::at(place, "body_diameter"))
        .collect();
    let new =
        (spun.is_empty()).then(|| new_stage::cyclone(at.place, solved.clean.points.get(at.place)));
    Answer {
        verdict: Verdict::Watch,
        // Either of both is enough.
        margin: (MUCH_DUST / dust).max(bore / NARROW) - 1.0,
        compared: Phrase::new(
            "{}: {} of dust in a bore of {} in which tar or water falls out: wet dust sticks and cakes; wanted at most {} of dust, or a bore of {}",
            [
                solved.name(at.place).into(),
                Measure::new(Q::DustLoad, dust).into(),
                Measure::new(Q::Bore, bore).into(),
                Measure::new(Q::DustLoad, MUCH_DUST).into(),
                Measure::new(Q::Bore, NARROW).into(),
            ],
        ),
        working: vec![Step {
            words: "Dust in the gas that comes to it, in each normal cubic metre; a cyclone takes it out while it is still dry, before the cooler",
            formula: "c = ṁ / V",
            values: vec![
                (
                    "ṁ",
                    "dust in the gas",
                    Measure::new(Q::MassFlow, at.gas.dust.total().value),
                ),
                (
                    "V",
                    "dry gas",
                    Measure::new(Q::NormalFlow, at.gas.dry_flow.value),
                ),
            ],
            result: Measure::new(Q::DustLoad, dust),
            source: CommonPractice,
            sure: "Within a factor of three: dust depends on the hearth, the load and the wood.",
        }],
        levers: (cyclone_first(solved, at.place).into_iter())
            .chain(spun)
            .chain(new)
            .chain([levers::at(at.place, path)])
            .collect(),
    }
}

/// A cyclone in front of a stage that it stands behind.
fn cyclone_first(solved: &Solved, place: usize) -> Vec<Lever> {
    let behind = place + 1..=usize::MAX;
    levers::moved(solved.design, &[StageKind::Cyclone], behind)
}

/// Dust in level pipe or tubes.
fn dust_lies(solved: &Solved, at: &At) -> Answer {
    let velocity = slowest(at);
    let (count, bore, _) = bores(at);
    let area = f64::from(count) * 0.25 * PI * bore * bore;
    let fields: &[&str] = match at.entry.kind {
        StageKind::Cooler => &["tubes", "tube_bore", "lie"],
        _ => &["bore", "lie"],
    };
    Answer {
        verdict: Verdict::at_least(velocity, CONVEYING, 0.0),
        margin: velocity / CONVEYING - 1.0,
        compared: Phrase::new(
            "{}: {} at usual load with {} of dust, wanted {}",
            [
                solved.name(at.place).into(),
                Measure::new(Q::Velocity, velocity).into(),
                Measure::new(Q::DustLoad, at.gas.dust_load()).into(),
                Measure::new(Q::Velocity, CONVEYING).into(),
            ],
        ),
        working: vec![Step {
            words: "Gas velocity at its slowest place in the stage",
            formula: "v = V / A",
            values: vec![
                (
                    "V",
                    "gas as it is there",
                    Measure::new(Q::Flow, velocity * area),
                ),
                ("A", "bores together", Measure::new(Q::Area, area)),
            ],
            result: Measure::new(Q::Velocity, velocity),
            source: CommonPractice,
            sure: "Fine dust is carried by less, coarse and sticky dust needs more.",
        }],
        levers: (cyclone_first(solved, at.place).into_iter())
            .chain(fields.iter().map(|name| levers::at(at.place, name)))
            .collect(),
    }
}

/// A cyclone in hotter gas, which is faster, where a cooler stands in front of it.
fn before_cooler(solved: &Solved, place: usize) -> Vec<Lever> {
    let mut before = solved.design.train.iter().take(place);
    match before.any(is(StageKind::Cooler)) {
        true => levers::moved(solved.design, &[StageKind::Cyclone], place..=place),
        false => Vec::new(),
    }
}

fn cyclone(solved: &Solved) -> Option<Finding> {
    let speed = |at: &At| of_cyclone(at).map_or(f64::NAN, |found| found.inlet_velocity.value);
    let outside = |velocity: f64| (SLOWEST_INLET - velocity).max(velocity - FASTEST_INLET);
    let at = solved
        .stages(solved.clean, is(StageKind::Cyclone))
        .max_by(|one, other| outside(speed(one)).total_cmp(&outside(speed(other))))?;
    let found = of_cyclone(&at)?;
    let full = found.inlet_velocity.value;
    let properties = at.gas.properties().ok().map(|gas| {
        [
            (
                "μ",
                "viscosity in µPa·s",
                Measure::new(Q::Number, 1e6 * gas.viscosity),
            ),
            (
                "ρ",
                "density of the gas",
                Measure::new(Q::Density, gas.density),
            ),
        ]
    });
    let usual = solved
        .stages(solved.usual, is(StageKind::Cyclone))
        .find(|usual| usual.place == at.place)
        .map_or(f64::NAN, |at| speed(&at));
    let poor = WORKS_POORLY * SLOWEST_INLET;
    let verdict = Verdict::at_least(full, SLOWEST_INLET, poor)
        .max(Verdict::at_most(full, FASTEST_INLET, MUCH_TOO_FAST))
        .max(Verdict::at_least(usual, poor, 0.0));
    Some(
        Question {
            id: "train.cyclone",
            title: "Cyclone inlet velocity",
            meaning: "A cyclone throws dust out by spinning the gas: it needs speed, but not so much that it stirs the dust up again.",
            why: "Below half of its flow a cyclone hardly works: dust then goes on to cooler and filter.",
            caution: Some(DUST),
        }
        .answered(Answer {
            verdict,
            margin: if verdict == Verdict::Good {
                0.0
            } else {
                (full / SLOWEST_INLET)
                    .min(FASTEST_INLET / full)
                    .min(usual / poor)
                    - 1.0
            },
            compared: Phrase::new(
                "{} at full load, {} at usual load, wanted {} to {} at full load; it catches half of the grains of {}",
                [
                    Measure::new(Q::Velocity, full).into(),
                    Measure::new(Q::Velocity, usual).into(),
                    Measure::new(Q::Velocity, SLOWEST_INLET).into(),
                    Measure::new(Q::Velocity, FASTEST_INLET).into(),
                    Measure::new(Q::Thickness, found.cut_diameter.value).into(),
                ],
            ),
            working: vec![Step {
                words: "Grain of which half is caught",
                formula: "d₅₀ = √(9 μ W / (2π N v (ρ_p − ρ)))",
                values: properties
                    .into_iter()
                    .flatten()
                    .chain([
                    ("v", "velocity in the inlet", Measure::new(Q::Velocity, full)),
                    (
                        "W",
                        "width of the inlet",
                        Measure::new(Q::Length, found.dimensions.inlet_width.value),
                    ),
                    ("N", "turns", Measure::new(Q::Number, found.turns)),
                    (
                        "ρ_p",
                        "density of a grain",
                        Measure::new(Q::Density, at.entry.grain_density.value),
                    ),
                ])
                .collect(),
                result: Measure::new(Q::Thickness, found.cut_diameter.value),
                source: FromMemory("Cooper and Alley, Air Pollution Control"),
                sure: "Within a third; a leak at the dust pot spoils it altogether.",
            }],
            levers: before_cooler(solved, at.place)
                .into_iter()
                .chain(["body_diameter", "family"].map(|name| levers::at(at.place, name)))
                .collect(),
        }),
    )
}
