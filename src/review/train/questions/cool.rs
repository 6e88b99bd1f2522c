//! Is the gas cool enough, for the engine and on its way?

use super::{Answer, At, Question, Solved, is};
use crate::design::Design;
use crate::design::Source::{self, CommonPractice, FromMemory};
use crate::design::inputs::{CoolerType, Lie, StageKind, TrainStage};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::review::train::{levers, new_stage};
use crate::sizing::cooler::{
    BOILING, CLOSE_FINS, CoolerError, CoolerResult, TubeBlock, WATER_HEAT_CAPACITY, share_in_sight,
};
use crate::sizing::train::{Detail, Note, TrainSolution};
use uom::si::f64::Length;

/// Jacket water this much below where it would boil is Watch, K. Our own choice.
const NEAR_BOILING: f64 = 10.0;

pub(super) const METHOD: Source = FromMemory(
    "Gnielinski, Int. Chem. Eng. 16, 1976; Churchill and Chu, Int. J. Heat Mass Transfer 18, 1975",
);

pub(super) fn ask(solved: &Solved) -> Vec<Finding> {
    let mut findings = vec![engine(solved)];
    findings.extend(tar(solved));
    findings.extend(outside(solved));
    findings
}

/// What makes the coolers cool more; a cooler where there is none.
pub(super) fn cooling(design: &Design) -> Vec<Lever> {
    let cooler = is(StageKind::Cooler);
    if !design.train.iter().any(&cooler) {
        let behind = [StageKind::Trap, StageKind::Filter, StageKind::Blower];
        return vec![new_stage::cooler(design, &behind)];
    }
    let mut found = levers::of(design, &cooler, "tube_length");
    found.extend(levers::of(design, &cooler, "tubes"));
    found.extend(levers::of(design, &cooler, "cooling"));
    found.extend(levers::of(
        design,
        |stage| {
            stage.kind == StageKind::Cooler
                && stage.cooling != CoolerType::Water
                && stage.tube_spacing.is_some()
        },
        "tube_spacing",
    ));
    found.extend(levers::of(
        design,
        |stage| stage.kind == StageKind::Cooler && stage.cooling == CoolerType::Water,
        "water_flow",
    ));
    found.extend(levers::of(
        design,
        |stage| {
            stage.kind == StageKind::Cooler
                && matches!(stage.cooling, CoolerType::Fan | CoolerType::FinnedFan)
        },
        "air_speed",
    ));
    found
}

fn outlet(solution: &TrainSolution) -> f64 {
    (solution.points.last()).map_or(f64::NAN, |gas| gas.temperature.value)
}

/// The heat that a cooler takes from the gas.
fn heat_taken(at: &At) -> Step {
    Step {
        words: "Heat that the cooler takes from the gas, condensing water included",
        formula: "Q = what ṁ brings at T₁ less what it keeps at T₂, marched along n tubes of length L and bore d",
        values: [
            (
                "ṁ",
                "gas and steam",
                Measure::new(Q::MassFlow, at.gas.gas_mass_rate().value),
            ),
            (
                "n",
                "tubes",
                Measure::new(Q::Count, f64::from(at.entry.tubes)),
            ),
            (
                "L",
                "length of each",
                Measure::new(Q::Distance, at.entry.tube_length.value),
            ),
            ("d", "bore", Measure::new(Q::Bore, at.entry.tube_bore.value)),
            (
                "T₁",
                "gas comes in",
                Measure::new(Q::Temperature, at.gas.temperature.value),
            ),
            (
                "T₂",
                "gas goes out",
                Measure::new(Q::Temperature, at.outcome.out.temperature.value),
            ),
            (
                "v",
                "gas velocity at the inlet",
                Measure::new(Q::Velocity, at.outcome.velocity.value),
            ),
        ]
        .into_iter()
        .chain(air_of_fan(at))
        .chain(faces_surroundings(at.entry))
        .collect(),
        result: Measure::new(Q::Power, at.outcome.heat_rejected.value),
        source: METHOD,
        sure: "About 20 % of the temperature drop for clean tubes; soot and tar take off more.",
    }
}

fn engine(solved: &Solved) -> Finding {
    let limits = &solved.design.limits;
    let (watch, stop) = (limits.engine_gas_watch.value, limits.engine_gas_stop.value);
    let full = outlet(solved.clean).max(outlet(solved.dirty));
    let usual = outlet(solved.usual);
    let hottest = full.max(usual);
    let told = [
        Measure::new(Q::Temperature, full).into(),
        Measure::new(Q::Temperature, usual).into(),
        Measure::new(Q::Temperature, watch).into(),
    ];
    let compared = match &solved.train.cooler_length {
        Some(Ok(length)) => Phrase::new(
            "{} at full load, {} at usual load, wanted at most {}; its tubes alone would do it with {} each",
            told.into_iter()
                .chain([Measure::new(Q::Distance, length.value).into()]),
        ),
        Some(Err(CoolerError::TooWarmAround)) => Phrase::new(
            "{} at full load, {} at usual load, wanted at most {}; what cools it is no colder than that, so that no length of its tubes does it",
            told,
        ),
        Some(Err(_)) => Phrase::new(
            "{} at full load, {} at usual load, wanted at most {}; no length of these tubes does it alone",
            told,
        ),
        None => Phrase::new("{} at full load, {} at usual load, wanted at most {}", told),
    };
    let mut working: Vec<Step> = solved
        .stages(solved.clean, is(StageKind::Cooler))
        .map(|at| heat_taken(&at))
        .collect();
    working.push(Step {
        words: "Gas at the engine, after everything that cools it",
        formula: "it nears T_a in every pipe and vessel on its way",
        values: vec![(
            "T_a",
            "air around",
            Measure::new(
                Q::Temperature,
                solved
                    .train
                    .full_load
                    .circumstances
                    .surroundings
                    .temperature
                    .value,
            ),
        )],
        result: Measure::new(Q::Temperature, hottest),
        source: CommonPractice,
        sure: "A few degrees; wind cools more, sun on the pipes less.",
    });
    Question {
        id: "train.engine_temperature",
        title: "Gas temperature at the engine",
        meaning: "An engine draws a volume: the colder the gas, the more of it fits in.",
        why: "Each 6 °C (11 °F) cost the engine about a hundredth of its power, since half of what it draws is gas; hot gas also carries its water and tar into it.",
        caution: None,
    }
    .answered(Answer {
        verdict: Verdict::at_most(hottest, watch, stop.max(watch)),
        margin: (watch - hottest) / (watch - 273.15).max(1.0),
        compared,
        working,
        levers: cooling(solved.design),
    })
}

/// Tar on level cooler tubes; upright ones drain by themselves.
fn tar(solved: &Solved) -> Option<Finding> {
    let coolers: Vec<_> = solved.stages(solved.usual, is(StageKind::Cooler)).collect();
    let first = coolers.first()?;
    let sticky = coolers
        .iter()
        .find(|at| at.entry.lie == Lie::Level && at.outcome.notes.contains(&Note::TarCondenses));
    let at = sticky.unwrap_or(first);
    let slots = [
        solved.name(at.place).into(),
        Measure::new(Q::Temperature, solved.design.raw_gas.tar_dew_point.value).into(),
        Measure::new(Q::Temperature, at.outcome.out.temperature.value).into(),
    ];
    let upright = at.entry.lie == Lie::Upright;
    let words = match (sticky.is_some(), upright) {
        (true, _) => {
            "{}: tar falls out below {}, the gas leaves it with {} at usual load; level tubes keep it"
        }
        (false, true) => {
            "{}: tar falls out below {}, the gas leaves it with {} at usual load; upright tubes let it run down"
        }
        (false, false) => "{}: tar falls out below {}, the gas leaves it with {} at usual load",
    };
    let found = levers::of(
        solved.design,
        |stage| stage.kind == StageKind::Cooler && stage.lie == Lie::Level,
        "lie",
    );
    Some(
        Question {
            id: "train.cooler_tar",
            title: "Tar in the cooler",
            meaning: "Where gas or wall is colder than the tar's dew point, tar sticks to the tubes.",
            why: "Tar narrows the tubes and keeps their heat in. Upright tubes drain into a pot below; level ones must be opened and brushed.",
            caution: Some("Tar and soot from the tubes irritate the skin and may cause cancer: gloves, long sleeves, no bare hands."),
        }
        .answered(Answer {
            verdict: if sticky.is_some() {
                Verdict::Watch
            } else {
                Verdict::Good
            },
            margin: if sticky.is_some() { -0.5 } else { 0.0 },
            compared: Phrase::new(words, slots),
            working: vec![Step {
                words: "Tar begins to fall out where gas or wall is colder than its dew point",
                formula: "T < T_tar, T_wall < T_tar",
                values: [(
                    "T_tar",
                    "tar condenses below",
                    Measure::new(Q::Temperature, solved.design.raw_gas.tar_dew_point.value),
                )]
                .into_iter()
                .chain(of_cooler(at).map(|found| {
                    let coldest = Measure::new(Q::Temperature, found.coldest_wall.value);
                    ("T_wall", "coldest place of the wall", coldest)
                }))
                .collect(),
                result: Measure::new(Q::Temperature, at.outcome.out.temperature.value),
                source: CommonPractice,
                sure: "The dew point of tar is a guess until you look into your own tubes.",
            }],
            levers: found,
        }),
    )
}

/// Speed of the air that a fan blows across the tubes; none without a fan.
pub(super) fn air_of_fan(at: &At) -> Option<(&'static str, &'static str, Measure)> {
    at.entry.cooling.has_fan().then(|| {
        let speed = Measure::new(Q::Velocity, at.entry.air_speed.value);
        ("w", "air of the fan between the tubes", speed)
    })
}

/// How much of the outside of tubes in air does not only see other tubes.
fn faces_surroundings(entry: &TrainStage) -> Option<(&'static str, &'static str, Measure)> {
    let words = "of their outside faces the surroundings and not other tubes";
    let in_air = entry.cooling != CoolerType::Water && entry.tubes > 1;
    let share = share_in_sight(entry)?;
    in_air.then(|| ("s", words, Measure::new(Q::Share, share.value)))
}

pub(super) fn of_cooler<'a>(at: &At<'a>) -> Option<&'a CoolerResult> {
    match &at.outcome.detail {
        Detail::Cooler(found) => Some(found),
        _ => None,
    }
}

/// Margin of fins that lie flat in rising air: half of what they should do is a guess.
const FLAT_FINS: f64 = -0.5;

/// How an outside does its work: jacket water that stays water, fins that air can pass between.
fn outside_of(at: &At) -> (Verdict, f64) {
    let gap = (at.entry.fin_pitch - at.entry.fin_thickness).value;
    let water = of_cooler(at).and_then(|found| found.water);
    if let Some(short) = without_room(at.entry) {
        return (Verdict::Stop, -(short / at.entry.tube_bore).value);
    }
    match (water, at.entry.cooling) {
        (Some(water), _) => (
            Verdict::at_most(water.value, BOILING - NEAR_BOILING, BOILING),
            (BOILING - NEAR_BOILING - water.value) / (BOILING - NEAR_BOILING - 273.15),
        ),
        (None, CoolerType::Finned) if at.entry.lie == Lie::Upright => (Verdict::Watch, FLAT_FINS),
        (None, CoolerType::Finned) => (
            Verdict::at_least(gap, CLOSE_FINS, f64::MIN),
            gap / CLOSE_FINS - 1.0,
        ),
        (None, _) => (Verdict::Good, 0.0),
    }
}

/// How much nearer tubes in air would stand to each other than they are wide; none where they fit.
fn without_room(entry: &TrainStage) -> Option<Length> {
    let gap = TubeBlock::of(entry).gap(entry);
    let in_air = entry.cooling != CoolerType::Water && entry.tubes > 1;
    (in_air && gap.value < 0.0).then_some(-gap)
}

/// Whether what is around the tubes takes their heat.
fn outside(solved: &Solved) -> Option<Finding> {
    let at = solved
        .stages(solved.clean, is(StageKind::Cooler))
        .max_by(|one, other| outside_of(other).1.total_cmp(&outside_of(one).1))?;
    let found = of_cooler(&at)?;
    let (verdict, margin) = outside_of(&at);
    let name = solved.name(at.place).into();
    let hottest = Measure::new(Q::Temperature, found.hottest_surface.value).into();
    let gap = (at.entry.fin_pitch - at.entry.fin_thickness).value;
    let block = TubeBlock::of(at.entry);
    let length = |length: Length| Measure::new(Q::Length, length.value).into();
    let (compared, fields): (_, &[&str]) = match (found.water, at.entry.cooling) {
        _ if without_room(at.entry).is_some() => (
            Phrase::new(
                "{}: its tubes are {} wide and cannot stand {} from middle to middle",
                [
                    name,
                    length(block.spacing - block.gap(at.entry)),
                    length(block.spacing),
                ],
            ),
            &["tube_spacing", "tube_bore", "fin_diameter"],
        ),
        (Some(water), _) => (
            Phrase::new(
                "{}: jacket water leaves with {}, wanted at most {}; tubes up to {} at full load",
                [
                    name,
                    Measure::new(Q::Temperature, water.value).into(),
                    Measure::new(Q::Temperature, BOILING - NEAR_BOILING).into(),
                    hottest,
                ],
            ),
            &["water_flow", "water_temperature"],
        ),
        (None, CoolerType::Finned) if at.entry.lie == Lie::Upright => (
            Phrase::new(
                "{}: fins around upright tubes lie flat and stand in the way of rising air; they cool little more than bare tubes, though they are reckoned with here",
                [name],
            ),
            &["lie", "cooling"],
        ),
        (None, CoolerType::Finned) => (
            Phrase::new(
                "{}: {} between the fins, still air wants {}",
                [
                    name,
                    Measure::new(Q::Thickness, gap).into(),
                    Measure::new(Q::Thickness, CLOSE_FINS).into(),
                ],
            ),
            &["fin_pitch", "cooling"],
        ),
        (None, _) if at.entry.tubes > 1 => (
            Phrase::new(
                "{}: {} of air between its tubes",
                [name, length(block.gap(at.entry))],
            ),
            &[],
        ),
        (None, _) => (
            Phrase::new("{}: air passes freely around its tube", [name]),
            &[],
        ),
    };
    Some(
        Question {
            id: "train.cooler_outside",
            title: "Water or air around the cooler",
            meaning: "The tubes must be able to give their heat to what is around them: water that does not boil, air that can pass between the fins.",
            why: "Boiling water throws steam and scalding water out of the jacket; air that stands between fins or tubes hardly cools.",
            caution: None,
        }
        .answered(Answer {
            verdict,
            margin,
            compared,
            working: around_tubes(&at, found),
            levers: fields
                .iter()
                .map(|name| levers::at(at.place, name))
                .collect(),
        }),
    )
}

/// How warm the water of a jacket gets, or how wide still air has it between fins.
fn around_tubes(at: &At, found: &CoolerResult) -> Vec<Step> {
    let entry = at.entry;
    let step = match (found.water, entry.cooling) {
        (Some(water), _) => Step {
            words: "Water as it leaves the jacket, mixed in it",
            formula: "T_w = T_in + Q / (ṁ c)",
            values: vec![
                (
                    "T_in",
                    "water as it comes in",
                    Measure::new(Q::Temperature, entry.water_temperature.value),
                ),
                (
                    "Q",
                    "heat that the cooler takes",
                    Measure::new(Q::Power, at.outcome.heat_rejected.value),
                ),
                (
                    "ṁ",
                    "flow of water",
                    Measure::new(Q::MassFlow, entry.water_flow.value),
                ),
                (
                    "c",
                    "heat capacity of water",
                    Measure::new(Q::HeatCapacity, WATER_HEAT_CAPACITY),
                ),
            ],
            result: Measure::new(Q::Temperature, water.value),
            source: CommonPractice,
            sure: "About 20 % of the rise; scale on the tubes makes it less.",
        },
        (None, CoolerType::Finned) => Step {
            words: "Room between two fins",
            formula: "s = p − t",
            values: vec![
                (
                    "p",
                    "from fin to fin",
                    Measure::new(Q::Thickness, entry.fin_pitch.value),
                ),
                (
                    "t",
                    "thickness of a fin",
                    Measure::new(Q::Thickness, entry.fin_thickness.value),
                ),
            ],
            result: Measure::new(Q::Thickness, (entry.fin_pitch - entry.fin_thickness).value),
            source: CommonPractice,
            sure: "The arithmetic is exact; dust between the fins takes room.",
        },
        (None, _) => return Vec::new(),
    };
    vec![step]
}
