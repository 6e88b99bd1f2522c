//! Does the filter stand the gas, does it stay dry, is it large enough, and how long does it last?

use super::bed_drains::without_trap;
use super::clean::DUST;
use super::water::{CONDENSATE, caught};
use super::{Answer, At, Question, Solved, is};
use crate::design::Source::{CommonPractice, FromMemory};
use crate::design::inputs::{FilterMedium, StageKind};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, celsius};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::review::train::{levers, new_stage};
use crate::sizing::condensate::trap_volume;
use crate::sizing::filter::{BED_FASTEST, CLOTH_FASTEST, DEW_POINT_MARGIN, FilterResult};
use crate::sizing::train::{Detail, Stage};
use crate::sizing::train_mass;
use std::cmp::Ordering;

/// Gas hotter than this much below the medium's limit is Watch, K. Our own choice.
const NEAR_LIMIT: f64 = 15.0;
/// Hottest gas that glass cloth takes, K: common practice, no source.
const GLASS_CLOTH: f64 = celsius(260.0);
/// A filter changed oftener than this share of the wanted time is a Stop. Our own choice.
const GREY_TIME: f64 = 0.25;
/// Face velocity over the usual one at which it is a Stop. Our own choice.
const GREY_SPEED: f64 = 2.0;

pub(super) fn ask(solved: &Solved) -> Vec<Finding> {
    [
        filter_temperature(solved),
        filter_wet(solved),
        filter_speed(solved),
        filter_interval(solved),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn of_filter<'a>(at: &At<'a>) -> Option<&'a FilterResult> {
    match &at.outcome.detail {
        Detail::Filter(found) => Some(found),
        _ => None,
    }
}

fn filter_temperature(solved: &Solved) -> Option<Finding> {
    let below = |at: &At| of_filter(at).map_or(f64::NAN, |found| found.below_limit.value);
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
        false => vec![new_stage::cooler(solved.design, &[StageKind::Filter])],
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
            working: vec![Step {
                words: "What its medium stands, over the hottest gas that comes to it",
                formula: "ΔT = T_most − T",
                values: vec![
                    (
                        "T_most",
                        "its medium stands",
                        Measure::new(Q::Temperature, limit),
                    ),
                    ("T", "gas comes in", Measure::new(Q::Temperature, hottest)),
                ],
                result: Measure::new(Q::TemperatureDifference, limit - hottest),
                source: CommonPractice,
                sure: "As sure as the gas temperature: about 20 % of what cooler and pipes take off it.",
            }],
            levers: (cooler_in_front(solved.design, at.place).into_iter())
                .chain(cooler_before)
                .chain([levers::at(at.place, "medium_limit")])
                .collect(),
        }),
    )
}

/// A filter behind a cooler that it stands in front of.
fn cooler_in_front(design: &Design, filter: usize) -> Vec<Lever> {
    let mut found = levers::moved(design, &[StageKind::Cooler], filter + 1..=usize::MAX);
    if !found.is_empty() {
        found.extend(levers::moved(design, &[StageKind::Filter], filter..=filter));
    }
    found
}

/// A filter in warmer gas, or behind a trap that it stands in front of.
fn kept_dry(design: &Design, filter: usize) -> Vec<Lever> {
    let mut found = levers::moved(design, &[StageKind::Filter], filter..=filter);
    let (before, behind) = (0..=filter, filter + 1..=usize::MAX);
    found.extend(levers::moved(design, &[StageKind::Cooler], before));
    found.extend(levers::moved(design, &[StageKind::Trap], behind));
    found
}

fn filter_wet(solved: &Solved) -> Option<Finding> {
    let above = |at: &At| {
        let dry = of_filter(at)
            .and_then(|found| found.above_dew_point)
            .map_or(f64::INFINITY, |above| above.value);
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
    let closest = |one: &At, other: &At| above(one).total_cmp(&above(other));
    let may_be_wet = |at: &At| at.entry.medium == FilterMedium::Packed && at.entry.may_be_wet;
    let dry = filters().filter(|at| !may_be_wet(at)).min_by(closest);
    let question = Question {
        id: "train.filter_wet",
        title: "Water in the filter",
        meaning: "Gas at its dew point wets what it touches. A bed with a drain may get wet; cloth may not.",
        why: "Wet cloth closes up at once; wet dust in it dries to a crust.",
        caution: None,
    };
    let Some(at) = dry else {
        let at = filters().max_by(|one, other| {
            one.outcome
                .water_removed
                .value
                .total_cmp(&other.outcome.water_removed.value)
        })?;
        let water = at.outcome.water_removed;
        let name = solved.name(at.place);
        let question = Question {
            caution: (water.value > 0.0).then_some(CONDENSATE),
            ..question
        };
        if let Some(tarry) = without_trap(solved, &at) {
            return Some(question.answered(tarry));
        }
        return Some(question.answered(Answer {
            verdict: Verdict::Good,
            margin: 0.0,
            compared: if water.value > 0.0 {
                let time = solved.design.limits.drain_time;
                Phrase::new(
                    "{}: may get wet; up to {} of water runs out of it, {} in the {} that are wanted between drainings: its drain needs a closed can as large",
                    [
                        name.into(),
                        Measure::new(Q::MassFlow, water.value).into(),
                        Measure::new(Q::Volume, trap_volume(time, water).value).into(),
                        Measure::new(Q::LongTime, time.value).into(),
                    ],
                )
            } else {
                Phrase::new("{}: may get wet, and no water falls out in it", [name.into()])
            },
            working: vec![caught(&at, at.entry.catches)],
            levers: Vec::new(),
        }));
    };
    let place = at.place;
    // Cloth that "may" get wet still closes up; a bed in its place may.
    let other_bed = match at.entry.medium {
        FilterMedium::Packed => "may_be_wet",
        FilterMedium::Cloth => "medium",
    };
    let shown = above(&at).clamp(-300.0, 1000.0);
    let verdict = Verdict::at_least(shown, DEW_POINT_MARGIN, 0.0);
    let compared = Phrase::new(
        match shown < 0.0 {
            true => "{}: {} below the dew point at the worst, wanted {} above it",
            false => "{}: {} above the dew point at the nearest, wanted {}",
        },
        [
            solved.name(place).into(),
            Measure::new(Q::TemperatureDifference, shown.abs()).into(),
            Measure::new(Q::TemperatureDifference, DEW_POINT_MARGIN).into(),
        ],
    );
    let is_cloth = at.entry.medium == FilterMedium::Cloth;
    let compared = match hottest_before_cooler(solved, place) {
        Some(hot) if is_cloth && verdict != Verdict::Good => before_cooler(compared, hot),
        _ => compared,
    };
    Some(
        question.answered(Answer {
            verdict,
            margin: shown / DEW_POINT_MARGIN - 1.0,
            compared,
            working: above_dew_point(&at, shown),
            levers: (kept_dry(solved.design, place).into_iter())
                .chain([levers::at(place, "cover"), levers::at(place, other_bed)])
                .chain(levers::of(
                    solved.design,
                    is(StageKind::Cooler),
                    "tube_length",
                ))
                .collect(),
        }),
    )
}

/// The hottest gas, in K, that comes to the first cooler in front of a filter: that the filter would get in its place.
fn hottest_before_cooler(solved: &Solved, filter: usize) -> Option<f64> {
    let coolers = solved
        .loads()
        .flat_map(|load| solved.stages(load, is(StageKind::Cooler)))
        .filter(|at| at.place < filter);
    let hot = coolers.map(|at| (at.place, at.gas.temperature.value));
    hot.reduce(|one, other| match one.0.cmp(&other.0) {
        Ordering::Less => one,
        Ordering::Equal => (one.0, one.1.max(other.1)),
        Ordering::Greater => other,
    })
    .map(|(_, hot)| hot)
}

/// That cloth stays dry in front of the cooler, and whether any bears the gas there.
fn before_cooler(compared: Phrase, hot: f64) -> Phrase {
    Phrase::new(
        match hot <= GLASS_CLOTH - NEAR_LIMIT {
            true => {
                "{}. In front of the cooler it stays dry: gas of {} comes there, and glass cloth bears {}"
            }
            false => {
                "{}. In front of the cooler it would stay dry, but gas of {} comes there, and even glass cloth bears no more than {}"
            }
        },
        [
            compared.into(),
            Measure::new(Q::Temperature, hot).into(),
            Measure::new(Q::Temperature, GLASS_CLOTH).into(),
        ],
    )
}

/// How far the gas is above its dew point; nothing where it is too dry to have one.
fn above_dew_point(at: &At, kelvin: f64) -> Vec<Step> {
    let Some(dew_point) = at.gas.dew_point() else {
        return Vec::new();
    };
    let temperature = |value| Measure::new(Q::Temperature, value);
    let gas = at.outcome.out.temperature.value;
    let drum = train_mass::drum_outside(at.entry).zip(train_mass::drum_surface(at.entry));
    let drum = drum.map(|([diameter, height], surface)| Step {
        words: "Outside of its drum, shell and both ends, through which the gas gives off heat",
        formula: "A = π D (H + D / 2)",
        values: vec![
            (
                "D",
                "drum outside",
                Measure::new(Q::Length, diameter.value),
            ),
            ("H", "its height", Measure::new(Q::Length, height.value)),
        ],
        result: Measure::new(Q::Area, surface.value),
        source: CommonPractice,
        sure: "Heat through bare steel is known to a fifth; a pleated or hung cloth does not change it.",
    });
    let steps = [
        Step {
            words: "Dew point: there the saturation pressure of water is that of the steam in the gas",
            formula: "p_s(T_d) = x p",
            values: vec![
                (
                    "x",
                    "steam in the gas",
                    Measure::new(Q::Share, at.gas.steam_share().value),
                ),
                (
                    "p",
                    "pressure of the gas",
                    Measure::new(Q::Pressure, at.gas.pressure.value),
                ),
            ],
            result: temperature(dew_point.value),
            source: FromMemory("IAPWS R7-97 saturation line"),
            sure: "A few degrees: as sure as the moisture of the wood.",
        },
        Step {
            words: "Gas above its dew point where it leaves the filter",
            formula: if kelvin < gas - dew_point.value {
                "ΔT = 0, since drops of water come in with the gas"
            } else {
                "ΔT = T − T_d"
            },
            values: vec![("T", "gas goes out", temperature(gas))],
            result: Measure::new(Q::TemperatureDifference, kelvin),
            source: CommonPractice,
            sure: "About 20 % of what cooler and pipes take off the gas.",
        },
    ];
    drum.into_iter().chain(steps).collect()
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
    let area = match solved.train.stages.get(at.place) {
        Some(Stage::Filter(filter)) => filter.area.value,
        _ => f64::NAN,
    };
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
                values: vec![
                    (
                        "V",
                        "gas as it is",
                        Measure::new(Q::Flow, at.gas.volume_rate().value),
                    ),
                    ("A", "area of the filter", Measure::new(Q::Area, area)),
                ],
                result: Measure::new(Q::Velocity, velocity),
                source: CommonPractice,
                sure: "The velocity is sure; the mark is a rule of the trade.",
            }],
            levers: (cooler_in_front(solved.design, at.place).into_iter())
                .chain([levers::at(
                    at.place,
                    match at.entry.medium {
                        FilterMedium::Packed => "filter_diameter",
                        FilterMedium::Cloth => "cloth_area",
                    },
                )])
                .collect(),
        }),
    )
}

/// What lets a filter hold more dust: in a packed bed that costs more pressure as well.
fn due_later(at: &At) -> Vec<Lever> {
    let packed = at.entry.medium == FilterMedium::Packed;
    let names = packed.then_some("dirty_factor").into_iter();
    (names.chain(["dust_capacity"]))
        .map(|name| levers::at(at.place, name))
        .collect()
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
            levers: levers::moved(
                solved.design,
                &[StageKind::Cyclone],
                at.place + 1..=usize::MAX,
            )
            .into_iter()
                .chain(due_later(&at))
                .chain(levers::of(
                    solved.design,
                    is(StageKind::Cyclone),
                    "body_diameter",
                ))
                .collect(),
        }),
    )
}
