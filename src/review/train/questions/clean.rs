//! Is the gas clean enough, and do cyclone and filter work as they should?

use super::{Answer, At, Question, Solved, is};
use crate::design::Source::{CommonPractice, FromMemory};
use crate::design::inputs::{FilterMedium, Lie, StageKind};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Step, Verdict};
use crate::review::train::levers;
use crate::sizing::cyclone::{CycloneResult, FASTEST_INLET, SLOWEST_INLET};
use crate::sizing::filter::{BED_FASTEST, CLOTH_FASTEST, DEW_POINT_MARGIN, FilterResult};
use crate::sizing::train::{CONVEYING, Detail};

/// A cyclone whose inlet is faster than this wears and stirs its dust up again, m/s. Our own choice.
const MUCH_TOO_FAST: f64 = 30.0;
/// Gas hotter than this much below the medium's limit is Watch, K. Our own choice.
const NEAR_LIMIT: f64 = 15.0;
/// Dust above this, kg per normal m³, soon fills a pipe in which it settles. Our own choice.
const MUCH_DUST: f64 = 0.0005;
/// A filter changed oftener than this share of the wanted time is a Stop. Our own choice.
const GREY_TIME: f64 = 0.25;
/// Face velocity over the usual one at which it is a Stop. Our own choice.
const GREY_SPEED: f64 = 2.0;

const DUST: &str = "Dust from cyclone and filter holds glowing bits and tar: let it cool with the machine shut, wear mask and gloves, wet it, keep it in a closed metal bucket outdoors.";

pub(super) fn ask(solved: &Solved) -> Vec<Finding> {
    [
        dust_settles(solved),
        cyclone(solved),
        filter_temperature(solved),
        filter_wet(solved),
        filter_speed(solved),
        filter_interval(solved),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn of_cyclone<'a>(at: &At<'a>) -> Option<&'a CycloneResult> {
    match &at.outcome.detail {
        Detail::Cyclone(found) => Some(found),
        _ => None,
    }
}

fn of_filter<'a>(at: &At<'a>) -> Option<&'a FilterResult> {
    match &at.outcome.detail {
        Detail::Filter(found) => Some(found),
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
                values: vec![(
                    "V",
                    "gas as it is",
                    Measure::new(Q::Flow, at.gas.volume_rate().value),
                )],
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
                formula: "d₅₀ = √(9 μ W / (2π N v ρ_p))",
                values: vec![
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
                ],
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

fn filter_temperature(solved: &Solved) -> Option<Finding> {
    let below = |at: &At| of_filter(at).map_or(f64::NAN, |found| found.below_limit);
    let at = solved
        .loads()
        .flat_map(|load| solved.stages(load, is(StageKind::Filter)))
        .min_by(|one, other| below(one).total_cmp(&below(other)))?;
    let limit = at.entry.medium_limit.value;
    let hottest = at.gas.temperature.value;
    let before = solved.design.train.get(..at.place).unwrap_or_default();
    let cooler_before = match before.iter().any(is(StageKind::Cooler)) {
        true => super::cool::cooling(solved.design)
            .into_iter()
            .take(2)
            .collect(),
        false => vec![levers::new_stage(
            solved.design,
            "cooler",
            &[StageKind::Filter],
            "tube_length",
        )],
    };
    Some(
        Question {
            id: "train.filter_temperature",
            title: "Filter temperature",
            meaning: "Each medium stands only so much heat.",
            why: "A filter that is too hot chars, melts or catches fire.",
            caution: Some("A filter that glows feeds on any air that leaks in: stop, shut every valve, let it cool for hours before you open it, outdoors."),
        }
        .answered(Answer {
            verdict: Verdict::at_most(hottest, limit - NEAR_LIMIT, limit),
            margin: (limit - NEAR_LIMIT - hottest) / (limit - 273.15).max(1.0),
            compared: Phrase::new(
                "{}: {} at the hottest, its medium stands {}",
                [
                    solved.name(at.place).into(),
                    Measure::new(Q::Temperature, hottest).into(),
                    Measure::new(Q::Temperature, limit).into(),
                ],
            ),
            working: Vec::new(),
            levers: (cooler_before.into_iter())
                .chain([levers::at(at.place, "medium_limit")])
                .collect(),
        }),
    )
}

fn filter_wet(solved: &Solved) -> Option<Finding> {
    let above = |at: &At| {
        let dry = of_filter(at)
            .and_then(|found| found.above_dew_point)
            .unwrap_or(f64::INFINITY);
        if at.gas.liquid.value > 0.0 {
            dry.min(0.0)
        } else {
            dry
        }
    };
    let filters = || {
        solved
            .loads()
            .flat_map(|load| solved.stages(load, is(StageKind::Filter)))
    };
    let nearest = |at: Option<At<'_>>| at.map(|at| (at.place, above(&at)));
    let closest = |one: &At, other: &At| above(one).total_cmp(&above(other));
    let dry = nearest(filters().filter(|at| !at.entry.may_be_wet).min_by(closest));
    let question = Question {
        id: "train.filter_wet",
        title: "Water in the filter",
        meaning: "Gas at its dew point wets what it touches. A bed with a drain may get wet; cloth may not.",
        why: "Wet cloth closes up at once; wet dust in it dries to a crust.",
        caution: None,
    };
    let Some((place, kelvin)) = dry else {
        let at = filters().max_by(|one, other| {
            one.outcome
                .water_removed
                .value
                .total_cmp(&other.outcome.water_removed.value)
        })?;
        return Some(question.answered(Answer {
            verdict: Verdict::Good,
            margin: 0.0,
            compared: Phrase::new(
                "{}: may get wet; up to {} of water runs out of it",
                [
                    solved.name(at.place).into(),
                    Measure::new(Q::MassFlow, at.outcome.water_removed.value).into(),
                ],
            ),
            working: Vec::new(),
            levers: Vec::new(),
        }));
    };
    let shown = kelvin.clamp(-300.0, 1000.0);
    Some(
        question.answered(Answer {
            verdict: Verdict::at_least(shown, DEW_POINT_MARGIN, 0.0),
            margin: shown / DEW_POINT_MARGIN - 1.0,
            compared: Phrase::new(
                "{}: {} above the dew point at the nearest, wanted {}",
                [
                    solved.name(place).into(),
                    Measure::new(Q::TemperatureDifference, shown).into(),
                    Measure::new(Q::TemperatureDifference, DEW_POINT_MARGIN).into(),
                ],
            ),
            working: Vec::new(),
            levers: vec![levers::at(place, "cover"), levers::at(place, "may_be_wet")]
                .into_iter()
                .chain(levers::of(
                    solved.design,
                    is(StageKind::Cooler),
                    "tube_length",
                ))
                .collect(),
        }),
    )
}

fn filter_speed(solved: &Solved) -> Option<Finding> {
    let fastest = |at: &At| match at.entry.medium {
        FilterMedium::Packed => BED_FASTEST,
        FilterMedium::Cloth => CLOTH_FASTEST,
    };
    let over =
        |at: &At| of_filter(at).map_or(f64::NAN, |found| found.face_velocity.value) / fastest(at);
    let at = solved
        .stages(solved.dirty, is(StageKind::Filter))
        .max_by(|one, other| over(one).total_cmp(&over(other)))?;
    let found = of_filter(&at)?;
    let limit = fastest(&at);
    let velocity = found.face_velocity.value;
    Some(
        Question {
            id: "train.filter_speed",
            title: "Speed through the filter",
            meaning: "The gas flow over the filter's area. Slow gas leaves its dust behind.",
            why: "Too fast, and dust and tar are pushed through the medium instead of staying in it.",
            caution: None,
        }
        .answered(Answer {
            verdict: Verdict::at_most(velocity, limit, GREY_SPEED * limit),
            margin: 1.0 - velocity / limit,
            compared: Phrase::new(
                "{}: {} at full load, wanted at most {}; it loses {} clean, {} dirty",
                [
                    solved.name(at.place).into(),
                    Measure::new(Q::Velocity, velocity).into(),
                    Measure::new(Q::Velocity, limit).into(),
                    Measure::new(Q::Pressure, found.clean_loss.value).into(),
                    Measure::new(Q::Pressure, found.dirty_loss.value).into(),
                ],
            ),
            working: vec![Step {
                words: "Gas through the empty area of the filter",
                formula: "v = V / A",
                values: vec![(
                    "V",
                    "gas as it is",
                    Measure::new(Q::Flow, at.gas.volume_rate().value),
                )],
                result: Measure::new(Q::Velocity, velocity),
                source: CommonPractice,
                sure: "The velocity is sure; the mark is a rule of the trade.",
            }],
            levers: vec![levers::at(
                at.place,
                match at.entry.medium {
                    FilterMedium::Packed => "filter_diameter",
                    FilterMedium::Cloth => "cloth_area",
                },
            )],
        }),
    )
}

fn filter_interval(solved: &Solved) -> Option<Finding> {
    let wanted = solved.design.limits.filter_time.value;
    let time = |at: &At| {
        of_filter(at)
            .and_then(|found| found.change_interval)
            .map_or(f64::INFINITY, |time| time.value)
    };
    let at = solved
        .stages(solved.usual, is(StageKind::Filter))
        .min_by(|one, other| time(one).total_cmp(&time(other)))?;
    let hours = time(&at);
    let shown = hours.min(1.0e9);
    Some(
        Question {
            id: "train.filter_interval",
            title: "Time between filter changes",
            meaning: "How long the filter takes to fill with as much dust as you let it hold.",
            why: "A filter that fills too soon is not changed in time, and the engine starves or gets the dust.",
            caution: Some(DUST),
        }
        .answered(Answer {
            verdict: Verdict::at_least(shown, wanted, GREY_TIME * wanted),
            margin: shown / wanted - 1.0,
            compared: if hours.is_finite() {
                Phrase::new(
                    "{}: {} at usual load, wanted {}",
                    [
                        solved.name(at.place).into(),
                        Measure::new(Q::LongTime, shown).into(),
                        Measure::new(Q::LongTime, wanted).into(),
                    ],
                )
            } else {
                Phrase::new("{}: no dust comes to it", [solved.name(at.place).into()])
            },
            working: vec![Step {
                words: "Dust it holds over the dust it catches",
                formula: "t = m / ṁ",
                values: vec![
                    (
                        "m",
                        "dust it holds",
                        Measure::new(Q::Mass, at.entry.dust_capacity.value),
                    ),
                    (
                        "ṁ",
                        "dust caught",
                        Measure::new(Q::MassFlow, at.outcome.dust_caught.value),
                    ),
                ],
                result: Measure::new(Q::LongTime, shown),
                source: CommonPractice,
                sure: "Within a factor of three: dust depends on the hearth, the load and the wood.",
            }],
            levers: [levers::at(at.place, "dust_capacity")]
                .into_iter()
                .chain(levers::of(
                    solved.design,
                    is(StageKind::Cyclone),
                    "body_diameter",
                ))
                .collect(),
        }),
    )
}
