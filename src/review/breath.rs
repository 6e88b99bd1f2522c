//! Pressure from the air outside to engine or flare, and the blower.

mod curves;
mod place;
mod questions;
mod results;
mod working;

pub use curves::CurveSample;

use super::finding::{Finding, Verdict};
use super::train::TrainReview;
use crate::design::Design;
use crate::design::inputs::StageKind;
pub use crate::sizing::also_needed::has_blower;
use crate::sizing::blower::{
    BlowerCurve, BlowerError, BlowerPower, Running, WorkingPoint, blower_power,
};
use crate::sizing::pressure_chain::{End, Filter, HearthStage};
use crate::sizing::train::{Detail, TrainError, TrainLoad, TrainSolution, needed};
use std::sync::Arc;
use thiserror::Error;
use uom::si::f64::{MassDensity, Pressure, Ratio, ThermodynamicTemperature, Velocity, VolumeRate};

/// A part of the way that air and gas take.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// In the hearth.
    Hearth(HearthStage),
    /// A stage of the train.
    Stage(StageKind),
    /// From the blower to the flare.
    Flare,
}

/// Pressure lost in one part.
#[derive(Debug, Clone, PartialEq)]
pub struct PartLoss {
    /// Which part.
    pub part: Part,
    /// Its name in results.
    pub name: Arc<str>,
    /// What it is called.
    pub label: Arc<str>,
    /// Pressure lost.
    pub drop: Pressure,
    /// Temperature of what flows in.
    pub temperature: ThermodynamicTemperature,
    /// Density used.
    pub density: MassDensity,
}

/// The way at one gas flow.
#[derive(Debug, Clone, PartialEq)]
pub struct Duty {
    /// Dry gas wanted, at 0 °C and 101.325 kPa.
    pub gas_flow: VolumeRate,
    /// State of the filters.
    pub filter: Filter,
    /// Where the gas goes.
    pub end: End,
    /// Losses in the order of the flow.
    pub stages: Vec<PartLoss>,
    /// All losses together.
    pub drop: Pressure,
    /// Flow where the gas enters the blower; where it leaves the train if there is none.
    pub flow_at_blower: VolumeRate,
    /// Density there.
    pub density_at_blower: MassDensity,
}

/// The blower on one duty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BlowerDuty {
    /// Speed and gas density.
    pub running: Running,
    /// Flow wanted, at the blower's temperature and pressure.
    pub flow_needed: VolumeRate,
    /// Pressure the blower makes at the flow wanted; none when its curve ends before.
    pub available: Option<Pressure>,
    /// Where blower and train agree.
    pub working: WorkingPoint,
    /// Dry gas at the working point, at 0 °C and 101.325 kPa.
    pub gas_flow: VolumeRate,
    /// Speed that gives the flow wanted, as a share of rated speed; none when no speed does.
    pub speed_needed: Option<Ratio>,
    /// Power at the working point.
    pub power: BlowerPower,
    /// Power at the speed that gives the flow wanted.
    pub power_needed: Option<BlowerPower>,
}

/// The blower on the duties it is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct BlowerReview {
    /// The curve at rated speed.
    pub curve: BlowerCurve,
    /// Lighting, through the flare, filters clean.
    pub startup: BlowerDuty,
    /// Full gas flow, filters clean, without the engine's help; none if it stands still while the engine runs.
    pub full_clean: Option<BlowerDuty>,
    /// Full gas flow, filters due, without the engine's help; none if it stands still while the engine runs.
    pub full_dirty: Option<BlowerDuty>,
}

/// Why nothing can be said about the blower.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum BlowerTrouble {
    /// Its curve cannot be used.
    #[error(transparent)]
    Curve(#[from] BlowerError),
    /// There is none.
    #[error("there is no blower in the gas train")]
    NoBlower,
    /// The train cannot be computed.
    #[error(transparent)]
    Train(#[from] TrainError),
    /// The train can be computed at too few flows.
    #[error("the gas train can only be computed at one flow")]
    OneFlow,
}

/// Pressure and blower.
#[derive(Debug, Clone)]
pub struct Breath {
    /// Lighting: start-up flow through the flare, filters clean.
    pub startup: Result<Duty, TrainError>,
    /// Usual load into the engine, filters clean.
    pub usual: Result<Duty, TrainError>,
    /// Full load into the engine, filters clean.
    pub full_clean: Result<Duty, TrainError>,
    /// Full load into the engine, filters due.
    pub full_dirty: Result<Duty, TrainError>,
    /// The blower, or why nothing can be said about it.
    pub blower: Result<BlowerReview, BlowerTrouble>,
    /// While lighting, pressure above the air outside just after the blower.
    pub pressure_side: Option<Pressure>,
    /// While lighting, pressure below the air outside just before the blower.
    pub suction_side: Option<Pressure>,
    /// Suction the engine must make at full load with clean filters.
    pub vacuum_clean: Option<Pressure>,
    /// Suction the engine must make at full load with filters that are due.
    pub engine_vacuum: Option<Pressure>,
    /// Fastest gas in a pipe at full load.
    pub pipe_velocity: Option<Velocity>,
}

/// Puts a design through the questions of this chapter.
pub(super) fn examine(design: &Design, train: &TrainReview) -> (Breath, Vec<Finding>) {
    let breath = compute(design, train);
    let mut findings = questions::ask(design, train, &breath);
    breath.offer_nothing_for_want_of_gas(&mut findings);
    (breath, findings)
}

impl Breath {
    /// Nothing of train, blower or battery mends a hearth that makes no gas: what cannot be told for want of it gets no
    /// levers.
    pub(super) fn offer_nothing_for_want_of_gas(&self, findings: &mut [Finding]) {
        if (self.full_clean.as_ref()).is_err_and(TrainError::is_for_want_of_gas) {
            let untold = |finding: &&mut Finding| finding.verdict == Verdict::CannotTell;
            for finding in findings.iter_mut().filter(untold) {
                finding.levers.clear();
            }
        }
    }
}

fn compute(design: &Design, train: &TrainReview) -> Breath {
    let duty = |load: &TrainLoad, solved: &Result<TrainSolution, TrainError>| match solved {
        Ok(solved) => Ok(duty(train, load, solved)),
        Err(why) => Err(why.clone()),
    };
    let startup = duty(&train.startup_load, &train.startup);
    let usual = duty(&train.usual_load, &train.usual);
    let full_clean = duty(&train.full_load, &train.full_clean);
    let full_dirty = duty(&train.dirty_load, &train.full_dirty);
    let air = train.startup_load.circumstances.surroundings.pressure;
    let lighting = train.startup.as_ref().ok();
    Breath {
        blower: blower(design, train, [&startup, &full_clean, &full_dirty]),
        pressure_side: lighting
            .and_then(|solved| solved.points.last())
            .map(|gas| gas.pressure - air),
        suction_side: lighting
            .and_then(|solved| solved.points.iter().rev().nth(1))
            .map(|gas| air - gas.pressure),
        vacuum_clean: vacuum(&train.full_clean),
        engine_vacuum: vacuum(&train.full_dirty),
        pipe_velocity: fastest_pipe(&train.full_clean),
        startup,
        usual,
        full_clean,
        full_dirty,
    }
}

/// What the engine draws; none where the load cannot be worked out.
pub(super) fn vacuum(solved: &Result<TrainSolution, TrainError>) -> Option<Pressure> {
    let outcomes = &solved.as_ref().ok()?.outcomes;
    outcomes
        .iter()
        .rev()
        .find_map(|outcome| match &outcome.detail {
            Detail::Engine(engine) => Some(engine.vacuum),
            _ => None,
        })
}

fn fastest_pipe(solved: &Result<TrainSolution, TrainError>) -> Option<Velocity> {
    let outcomes = &solved.as_ref().ok()?.outcomes;
    outcomes
        .iter()
        .filter(|outcome| matches!(outcome.detail, Detail::Pipe(_)))
        .map(|outcome| outcome.velocity)
        .max_by(|one, other| one.value.total_cmp(&other.value))
}

/// The losses of a load that has been solved.
fn duty(train: &TrainReview, load: &TrainLoad, solved: &TrainSolution) -> Duty {
    let gas_flow = load.start.dry_flow;
    let given = train.given(load);
    let hearth = given
        .hearth
        .stages(given.made(gas_flow))
        .into_iter()
        .map(|stage| PartLoss {
            part: Part::Hearth(stage.kind),
            name: stage.kind.name().into(),
            label: stage.kind.label().into(),
            drop: stage.drop,
            temperature: stage.temperature,
            density: stage.density,
        });
    let stages = train
        .names
        .iter()
        .zip(&solved.outcomes)
        .zip(&solved.points)
        .filter_map(|((name, outcome), gas)| {
            let kind = name.kind?;
            Some(PartLoss {
                part: Part::Stage(kind),
                name: name.name.clone(),
                label: name.told.clone(),
                drop: outcome.pressure_loss.max(Pressure::default()),
                temperature: gas.temperature,
                density: outcome.density,
            })
        });
    let flare = solved.outcomes.last().and_then(|last| match &last.detail {
        Detail::Blower(blower) if load.circumstances.end == End::Flare => Some(PartLoss {
            part: Part::Flare,
            name: "flare".into(),
            label: "Flare".into(),
            drop: blower.flare_loss,
            temperature: last.out.temperature,
            density: last.density,
        }),
        _ => None,
    });
    let at_blower = needed(&train.stages, load, solved).map_or(&load.start, |(_, gas)| gas);
    let mut duty = Duty {
        gas_flow,
        filter: load.circumstances.filter,
        end: load.circumstances.end,
        stages: hearth.chain(stages).chain(flare).collect(),
        drop: Pressure::default(),
        flow_at_blower: at_blower.volume_rate(),
        density_at_blower: MassDensity {
            value: at_blower
                .properties()
                .map_or(f64::NAN, |found| found.density),
            ..MassDensity::default()
        },
    };
    duty.drop = duty.stages.iter().map(|stage| stage.drop).sum();
    duty
}

/// The blower while lighting and, if it helps the engine, at full load with clean and with dirty filters.
fn blower(
    design: &Design,
    train: &TrainReview,
    [startup, clean, dirty]: [&Result<Duty, TrainError>; 3],
) -> Result<BlowerReview, BlowerTrouble> {
    if !has_blower(design) {
        return Err(BlowerTrouble::NoBlower);
    }
    let curve = train.curve.as_ref().map_err(|why| *why)?;
    let run = |load: &TrainLoad, solved, duty: &Result<Duty, TrainError>, speed: Ratio| {
        let duty = duty.as_ref().map_err(|why| why.clone())?;
        let system = train
            .system_curve(load, solved)
            .ok_or(BlowerTrouble::OneFlow)?;
        let agreed = system.agreement(curve, speed);
        let density = duty.density_at_blower;
        let speed_needed = curve.speed_needed(density, duty.flow_at_blower, duty.drop);
        let power = |flow, pressure| {
            let blower = &design.blower;
            blower_power(flow, pressure, blower.efficiency, blower.motor_efficiency)
        };
        let at_duty = Running {
            speed_share: speed,
            density,
        };
        Ok::<_, BlowerTrouble>(BlowerDuty {
            running: agreed.running,
            flow_needed: duty.flow_at_blower,
            available: curve.pressure(duty.flow_at_blower, &at_duty),
            working: agreed.working,
            gas_flow: agreed.dry_flow,
            speed_needed,
            power: power(agreed.working.flow, agreed.working.pressure),
            power_needed: speed_needed.map(|_| power(duty.flow_at_blower, duty.drop)),
        })
    };
    let running = |load: &TrainLoad, solved, duty| {
        let helps = design.blower.assists;
        helps
            .then(|| run(load, solved, duty, design.blower.speed_share))
            .transpose()
    };
    Ok(BlowerReview {
        startup: run(
            &train.startup_load,
            &train.startup,
            startup,
            design.blower.startup_speed_share,
        )?,
        full_clean: running(&train.full_load, &train.full_clean, clean)?,
        full_dirty: running(&train.dirty_load, &train.full_dirty, dirty)?,
        curve: curve.clone(),
    })
}
