//! Is the gas fast enough to carry its dust, and does the cyclone work as it should?

use super::{Answer, At, Question, Solved, is};
use crate::design::Source::{CommonPractice, FromMemory};
use crate::design::inputs::{Lie, StageKind};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Step, Verdict};
use crate::review::train::levers;
use crate::sizing::cyclone::{CycloneResult, FASTEST_INLET, SLOWEST_INLET};
use crate::sizing::train::{CONVEYING, Detail};
use std::f64::consts::PI;

/// A cyclone whose inlet is faster than this wears and stirs its dust up again, m/s. Our own choice.
const MUCH_TOO_FAST: f64 = 30.0;
/// Dust above this, kg per normal m³, soon fills a pipe in which it settles. Our own choice.
const MUCH_DUST: f64 = 0.0005;

pub(super) const DUST: &str = "Dust from cyclone and filter holds glowing bits and tar: let it cool with the machine shut, wear mask and gloves, wet it, keep it in a closed metal bucket outdoors.";

pub(super) fn ask(solved: &Solved) -> Vec<Finding> {
    (dust_settles(solved).into_iter())
        .chain(cyclone(solved))
        .collect()
}

fn of_cyclone<'a>(at: &At<'a>) -> Option<&'a CycloneResult> {
    match &at.outcome.detail {
        Detail::Cyclone(found) => Some(found),
        _ => None,
    }
}

fn dust_settles(solved: &Solved) -> Option<Finding> {
    let level = |at: &At| at.entry.lie == Lie::Level;
    let slowest = |at: &At| match &at.outcome.detail {
        Detail::Cooler(cooler) => cooler.slowest.value,
        _ => at.outcome.velocity.value,
    };
    let carried = |at: &At| at.gas.dust.total().value / at.gas.dry_flow.value;
    let worst = solved
        .stages(solved.usual, |stage| {
            stage.kind == StageKind::Cooler
                || (stage.kind == StageKind::Pipe && stage.length.value > 0.0)
        })
        .filter(|at| level(at) && carried(at) > MUCH_DUST)
        .min_by(|one, other| slowest(one).total_cmp(&slowest(other)));
    let question = Question {
        id: "train.dust_settles",
        title: "Dust in pipes and cooler",
        meaning: "Gas must be fast enough to carry its dust to the cyclone; in slow, level pipe the dust stays.",
        why: "Dust that settles closes the pipe, and glowing dust in it is a fire waiting for air.",
        caution: Some(DUST),
    };
    let Some(at) = worst else {
        let most = solved
            .stages(solved.usual, |_| true)
            .last()
            .map_or(0.0, |at| carried(&at));
        return Some(question.answered(Answer {
            verdict: Verdict::Good,
            margin: 0.0,
            compared: Phrase::new(
                "no level stage carries much dust; {} is left behind the train",
                [Measure::new(Q::DustLoad, most).into()],
            ),
            working: Vec::new(),
            levers: Vec::new(),
        }));
    };
    let velocity = slowest(&at);
    let (count, bore) = match at.entry.kind {
        StageKind::Cooler => (at.entry.tubes, at.entry.tube_bore),
        _ => (1, at.entry.bore),
    };
    let area = f64::from(count) * 0.25 * PI * (bore * bore).value;
    let fields: &[&str] = match at.entry.kind {
        StageKind::Cooler => &["tubes", "tube_bore", "lie"],
        _ => &["bore", "lie"],
    };
    Some(
        question.answered(Answer {
            verdict: Verdict::at_least(velocity, CONVEYING, 0.0),
            margin: velocity / CONVEYING - 1.0,
            compared: Phrase::new(
                "{}: {} at usual load with {} of dust, wanted {}",
                [
                    solved.name(at.place).into(),
                    Measure::new(Q::Velocity, velocity).into(),
                    Measure::new(Q::DustLoad, carried(&at)).into(),
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
            levers: fields
                .iter()
                .map(|name| levers::at(at.place, name))
                .collect(),
        }),
    )
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
    let verdict = Verdict::at_least(full, SLOWEST_INLET, 0.5 * SLOWEST_INLET)
        .max(Verdict::at_most(full, FASTEST_INLET, MUCH_TOO_FAST))
        .max(Verdict::at_least(usual, 0.5 * SLOWEST_INLET, 0.0));
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
                    .min(usual / (0.5 * SLOWEST_INLET))
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
            levers: vec![
                levers::at(at.place, "body_diameter"),
                levers::at(at.place, "family"),
            ],
        }),
    )
}
