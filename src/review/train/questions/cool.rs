//! Is the gas cool enough, for the engine and on its way?

use super::{Answer, At, Question, Solved, is};
use crate::design::Design;
use crate::design::Source::{self, CommonPractice, FromMemory};
use crate::design::inputs::{CoolerType, Lie, LoadTime, StageKind, TrainStage};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::review::train::{levers, new_stage};
use crate::sizing::cooler::{CoolerError, CoolerResult, share_in_sight};
use crate::sizing::cooler_drive::CoolerDrive;
use crate::sizing::train::{Detail, Note, TrainSolution};

pub(super) const METHOD: Source = FromMemory(
    "Gnielinski, Int. Chem. Eng. 16, 1976; Churchill and Chu, Int. J. Heat Mass Transfer 18, 1975",
);

pub(super) fn ask(solved: &Solved) -> Vec<Finding> {
    let mut findings = vec![engine(solved)];
    findings.extend(tar(solved));
    findings
}

/// What makes the coolers cool more; a cooler where there is none.
pub(super) fn cooling(design: &Design) -> Vec<Lever> {
    let cooler = is(StageKind::Cooler);
    if !design.train.iter().any(&cooler) {
        let behind = [StageKind::Trap, StageKind::Filter, StageKind::Blower];
        return vec![new_stage::cooler(design, &behind)];
    }
    let mut found = switched_on(design);
    found.extend(levers::of(design, &cooler, "tube_length"));
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

/// When fans and pumps are on that rest at work.
fn switched_on(design: &Design) -> Vec<Lever> {
    [CoolerDrive::Fan, CoolerDrive::Pump]
        .into_iter()
        .flat_map(|drive| levers::switched_on(design, drive, LoadTime::Running))
        .collect()
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
        sure: "About 20 % of the temperature drop for clean tubes; soot and tar take off more. The start of a tube, where heat passes better, is left out: in slow, laminar flow through a bore of 28 mm (1.1 in) tubes of 1 m (3.3 ft) take off about a sixth more than told, of 0.5 m a third more, of 0.3 m half as much again (by Hausen's sum for it, as in the VDI Heat Atlas, G1). So tubes that short are told longer than they need be.",
    }
}

fn engine(solved: &Solved) -> Finding {
    let limits = &solved.design.limits;
    let (good, stop) = (limits.engine_gas_good().value, limits.engine_gas_stop.value);
    let full = outlet(solved.clean).max(outlet(solved.dirty));
    let usual = outlet(solved.usual);
    let hottest = full.max(usual);
    let told = [
        Measure::new(Q::Temperature, full).into(),
        Measure::new(Q::Temperature, usual).into(),
        Measure::new(Q::Temperature, good).into(),
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
        verdict: Verdict::at_most(hottest, good, stop),
        margin: (good - hottest) / (good - 273.15).max(1.0),
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

/// Speed of the air that a fan blows across the tubes; none without a fan, or where it rests.
pub(super) fn air_of_fan(at: &At) -> Option<(&'static str, &'static str, Measure)> {
    let speed = Measure::new(Q::Velocity, of_cooler(at)?.fan_air?.value);
    Some(("w", "air of the fan between the tubes", speed))
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
