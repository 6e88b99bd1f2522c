//! What fills up, when it is emptied or changed, and what is heeded at that.

use super::gas_train::name;
use super::{cautions, cell, row};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, celsius};
use crate::paper::sheet::Block;
use crate::review::{Assessment, TableRow, TrainReview, ash_room_lasts};
use crate::sizing::train::{Detail, StageOutcome, TrainError, TrainSolution};
use uom::si::f64::{MassRate, Time};

/// The caution of whoever opens what gas has passed.
const COOL_FIRST: &str = "Let everything cool and air it before you open it. Char dust and filters can glow inside and light up in fresh air. Wear gloves.";
/// The questions whose cautions tell what to do with ash, dust and water.
const TAKEN_OUT: [&str; 6] = [
    "hearth.ash_room",
    "train.cyclone",
    "train.filter_interval",
    "train.trap_time",
    "train.loose_water",
    "train.ice",
];
const FULL: &str = "full load";
const USUAL: &str = "usual load";

/// What is heeded wherever ash, dust or water is taken out.
pub(super) fn heed(assessment: &Assessment) -> impl Iterator<Item = Block> {
    std::iter::once(Block::Caution(COOL_FIRST.to_string())).chain(cautions(assessment, &TAKEN_OUT))
}

/// What is to be done where and after which time, at the load at which that comes soonest: less gas may be colder gas,
/// which drops more water.
pub(super) fn due(design: &Design, assessment: &Assessment) -> Vec<TableRow> {
    let train = &assessment.train;
    (ash(design, assessment).into_iter())
        .chain((0..train.stages.len()).filter_map(|index| stage(train, index)))
        .chain((0..train.stages.len()).filter_map(|index| can(train, index)))
        .chain((0..train.stages.len()).filter_map(|index| in_frost(design, train, index)))
        .collect()
}

fn ash(design: &Design, assessment: &Assessment) -> Option<TableRow> {
    let heart = &assessment.heart;
    let warms_up = assessment.warmth.time_to_light();
    let lasts = [(FULL, &heart.at.full), (USUAL, &heart.at.usual)]
        .into_iter()
        .filter_map(|(load, at)| Some((load, ash_room_lasts(design, heart, at, warms_up)?)));
    let (load, after) = soonest(lasts)?;
    let what = match warms_up {
        Some(_) if after.value <= 0.0 => {
            return Some(row(vec![
                "Room under the grate".into(),
                "do not run it: the ash of warming up alone reaches the grate".into(),
                "before it is warm".into(),
                load.into(),
            ]));
        }
        Some(_) => {
            "stop, and take the ash out once the machine is cold; the time counts from when it is warm"
        }
        None => {
            "stop, and take the ash out once the machine is cold; the time counts from lighting, for how long it warms up is not known"
        }
    };
    Some(row(vec![
        "Room under the grate".into(),
        what.into(),
        cell(Q::LongTime, after.value),
        load.into(),
    ]))
}

fn soonest(times: impl Iterator<Item = (&'static str, Time)>) -> Option<(&'static str, Time)> {
    times.min_by(|(_, one), (_, other)| one.value.total_cmp(&other.value))
}

/// What a stage is like at each load at which the engine runs for long.
fn at_loads(
    train: &TrainReview,
    index: usize,
) -> impl Iterator<Item = (&'static str, &StageOutcome)> {
    let loads: [(_, &Result<TrainSolution, TrainError>); 2] =
        [(FULL, &train.full_clean), (USUAL, &train.usual)];
    (loads.into_iter())
        .filter_map(move |(load, solved)| Some((load, solved.as_ref().ok()?.outcomes.get(index)?)))
}

fn stage(train: &TrainReview, index: usize) -> Option<TableRow> {
    let (_, outcome) = at_loads(train, index).next()?;
    let what = match outcome.detail {
        Detail::Trap(_) => "drain the water",
        _ => "change or clean the medium",
    };
    let times =
        at_loads(train, index).filter_map(|(load, outcome)| Some((load, fills(&outcome.detail)?)));
    let (load, after) = soonest(times)?;
    Some(row(vec![
        name(train, index).into(),
        what.into(),
        cell(Q::LongTime, after.value),
        load.into(),
    ]))
}

fn fills(detail: &Detail) -> Option<Time> {
    match detail {
        Detail::Trap(trap) => trap.drain_interval,
        Detail::Filter(filter) => filter.change_interval,
        Detail::Pipe(_)
        | Detail::Cyclone(_)
        | Detail::Cooler(_)
        | Detail::Measured
        | Detail::Blower(_)
        | Detail::Engine(_) => None,
    }
}

/// Can or box of a stage, of which nobody entered how much it holds, at the load at which most comes into it.
fn can(train: &TrainReview, index: usize) -> Option<TableRow> {
    let (load, words, rate) = at_loads(train, index)
        .filter_map(|(load, outcome)| {
            let (words, rate) = falls(outcome)?;
            Some((load, words, rate))
        })
        .max_by(|(.., one), (.., other)| one.value.total_cmp(&other.value))?;
    Some(row(vec![
        name(train, index).into(),
        Phrase::new(words, [Measure::new(Q::MassFlow, rate.value).into()]).into(),
        "whenever it is full".into(),
        load.into(),
    ]))
}

/// A stage whose water freezes where it is left after a run.
fn in_frost(design: &Design, train: &TrainReview, index: usize) -> Option<TableRow> {
    let lighting = train.startup.as_ref().ok();
    let lighting = lighting.and_then(|solved| solved.outcomes.get(index));
    let leaves_water = (at_loads(train, index).map(|(_, outcome)| outcome))
        .chain(lighting)
        .any(StageOutcome::leaves_water);
    (design.site.air_temperature.value <= celsius(0.0) && leaves_water).then(|| {
        row(vec![
            name(train, index).into(),
            "drain it once it is cold: what is left in it freezes, splits it and shuts the way of the gas".into(),
            "after each run".into(),
            "frost".into(),
        ])
    })
}

/// What falls into it, if anything does.
fn falls(outcome: &StageOutcome) -> Option<(&'static str, MassRate)> {
    let (words, rate) = match outcome.detail {
        Detail::Filter(_) => (
            "empty the can under its drain: {} run into it",
            outcome.water_removed,
        ),
        Detail::Cyclone(_) => (
            "empty its dust box, once it is cold: {} of dust fall into it",
            outcome.dust_caught,
        ),
        _ => return None,
    };
    (rate.value > 0.0).then_some((words, rate))
}
