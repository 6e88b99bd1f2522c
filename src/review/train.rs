//! The gas train: what happens to the gas between hearth and engine.

mod hearth_chain;
pub(super) mod levers;
pub(super) mod new_stage;
mod power_left;
mod questions;
mod results;
mod stages;
pub(super) use hearth_chain::grate;
pub use power_left::PowerLeft;
pub(super) use questions::{EXPLODES, SCALDS, leak, nothing_passes};
pub(super) use stages::{BLOWER_LIMIT, CAKE, CLOTH_VELOCITY, COOL_VISCOSITY};

use super::Depth;
use super::finding::Finding;
use super::heart::{self, Heart};
use super::hearth::surroundings;
use crate::design::Design;
use crate::design::inputs::{FlowSource, LoadTime, StageKind, TrainStage};
use crate::physics::normal_state::MOLAR_VOLUME;
use crate::physics::species::Species;
use crate::sizing::air_leak::{self, Burned};
use crate::sizing::blower::{BlowerCurve, BlowerError};
use crate::sizing::cooler::CoolerError;
use crate::sizing::cooler_drive::CoolerDrive;
use crate::sizing::engine::EngineRun;
use crate::sizing::heart::{HeartAt, Supply};
use crate::sizing::pressure_chain::{End, Filter, PressureChain};
use crate::sizing::train::{
    Circumstances, Dust, GasState, Stage, StageError, SystemCurve, Tar, Train, TrainError,
    TrainLoad, TrainSolution,
};
use std::sync::Arc;
use uom::si::f64::{Length, MassRate, Pressure, Ratio, VolumeRate};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::ratio::ratio;

/// What a stage is called, and where it was entered.
#[derive(Debug, Clone, PartialEq)]
pub struct StageName {
    /// Its name in results.
    pub name: Arc<str>,
    /// The name given to it, or that of its kind.
    pub label: Arc<str>,
    /// The same with its place, where another stage is called the same.
    pub told: Arc<str>,
    /// Its kind; none for the engine.
    pub kind: Option<StageKind>,
}

/// What the hearth gives the train at one supply of gas.
#[derive(Debug, Clone)]
pub struct Given {
    /// Air nozzles, wood and char before the train.
    pub hearth: PressureChain,
    /// What the gas becomes where the air that leaks in at the outlet burns in it; none where it does not burn.
    pub burned: Option<Burned>,
}

impl Given {
    /// Dry gas that the hearth makes where so much flows into the train: air that burns at the outlet makes more of it.
    pub fn made(&self, flow: VolumeRate) -> VolumeRate {
        flow / self.burned.as_ref().map_or(1.0, Burned::dry)
    }

    /// Pressure lost in the hearth where so much flows into the train.
    pub fn drop(&self, flow: VolumeRate) -> Pressure {
        self.hearth.drop(self.made(flow))
    }
}

/// The gas train of a design, solved.
#[derive(Debug, Clone)]
pub struct TrainReview {
    /// What the gas passes, the engine last: as many as the stages of the design and one more.
    pub names: Vec<StageName>,
    /// The stages as they are computed, in the same order.
    pub stages: Vec<Stage>,
    /// The curve of the blower, or why it cannot be used.
    pub curve: Result<BlowerCurve, BlowerError>,
    /// Gas at the outlet of the vessel at full load, before any air has leaked into it.
    pub outlet: GasState,
    /// What the hearth gives it at full load and while lighting.
    pub at_full: Given,
    /// What the hearth gives it at usual load, with another gas and another share of steam.
    pub at_usual: Given,
    /// What goes in while lighting: a share of the full flow, to the flare, filters due: it is lit on such days too.
    pub startup_load: TrainLoad,
    /// What goes in at usual load, filters clean.
    pub usual_load: TrainLoad,
    /// What goes in at full load, filters clean.
    pub full_load: TrainLoad,
    /// What goes in at full load, filters due.
    pub dirty_load: TrainLoad,
    /// The engine on this gas at full load, before suction and warm gas take of its power; none for a test without
    /// engine, or where hearth or engine cannot be worked out.
    pub on_gas: Option<EngineRun>,
    /// What the train leaves of its power; none where there is no such engine, or the train cannot be worked out.
    pub power_left: Option<PowerLeft>,
    /// Length of each tube of the last cooler that alone would cool the gas to what is wanted at the engine, at full
    /// load. None if there is no cooler, or in a quick look at one question.
    pub cooler_length: Option<Result<Length, CoolerError>>,
    /// While lighting. Ends at the blower, where the gas leaves to the flare.
    pub startup: Result<TrainSolution, TrainError>,
    /// Usual load, to the engine, filters clean.
    pub usual: Result<TrainSolution, TrainError>,
    /// Full load, to the engine, filters clean.
    pub full_clean: Result<TrainSolution, TrainError>,
    /// Full load, to the engine, filters due.
    pub full_dirty: Result<TrainSolution, TrainError>,
}

impl TrainReview {
    /// What the hearth gives the train at a load of this review.
    pub fn given(&self, load: &TrainLoad) -> &Given {
        if *load == self.usual_load {
            &self.at_usual
        } else {
            &self.at_full
        }
    }

    /// Pressure needed against flow at the blower, around a load of this review with its solution; none where the hearth
    /// makes no gas at that load.
    pub fn system_curve<'a>(
        &'a self,
        load: &'a TrainLoad,
        solved: &Result<TrainSolution, TrainError>,
    ) -> Option<SystemCurve<'a>> {
        if solved.as_ref().is_err_and(TrainError::is_for_want_of_gas) {
            return None;
        }
        let given = self.given(load);
        SystemCurve::around(
            &self.stages,
            load,
            |flow| given.drop(flow),
            solved.as_ref().ok(),
        )
    }
}

/// The name of every stage, the engine last.
fn names(design: &Design) -> Vec<StageName> {
    use crate::design::Choice as _;
    let called = |stage: &TrainStage| -> Arc<str> {
        match stage.name.trim() {
            "" => stage.kind.label().into(),
            _ => stage.name.as_str().into(),
        }
    };
    let labels: Vec<Arc<str>> = design.train.iter().map(called).collect();
    let is_alone = |label: &Arc<str>| labels.iter().filter(|other| *other == label).count() == 1;
    let stages = design.train.iter().zip(&labels).enumerate();
    stages
        .map(|(place, (stage, label))| StageName {
            name: format!("{}_{}", place + 1, stage.kind.name()).into(),
            label: label.clone(),
            told: if is_alone(label) {
                label.clone()
            } else {
                format!("{label} (stage {})", place + 1).into()
            },
            kind: Some(stage.kind),
        })
        .chain([StageName {
            name: format!("{}_engine", design.train.len() + 1).into(),
            label: "Engine".into(),
            told: "Engine".into(),
            kind: None,
        }])
        .collect()
}

/// The gas of a supply as it leaves the hearth at `flow`, dry, where the hearth has left it `pressure`.
fn raw_gas(design: &Design, supply: &Supply, flow: VolumeRate, pressure: Pressure) -> GasState {
    let raw = &design.raw_gas;
    let steam = supply.steam * flow.value / MOLAR_VOLUME * Species::Water.molar_mass();
    let dust = Dust::log_normal(
        raw.dust_load * flow,
        raw.dust_size,
        Ratio::new::<ratio>(raw.dust_spread),
    );
    GasState {
        dry: supply.gas,
        dry_flow: flow,
        vapour: MassRate::new::<kilogram_per_second>(steam),
        liquid: MassRate::default(),
        temperature: raw.temperature,
        pressure,
        // Dust that is out of range is refused where it is entered.
        dust: dust.unwrap_or(Dust::NONE),
        tar: Tar {
            dew_point: Some(raw.tar_dew_point),
            mist: false,
        },
    }
}

/// The gas of a supply where air that leaks in at the outlet burns in it; none where it does not.
fn burned(design: &Design, supply: &Supply) -> Option<Burned> {
    let (raw, air) = (&design.raw_gas, design.site.air_temperature);
    air_leak::burned(
        &supply.gas,
        supply.steam,
        raw.temperature,
        raw.air_leak,
        air,
    )
    .ok()
    .flatten()
}

/// The gas at the outlet as it goes into the train: air that leaks in at its hottest place burns, where it can.
fn into_train(outlet: GasState, burned: Option<&Burned>) -> GasState {
    let Some(burned) = burned else {
        return outlet;
    };
    let steam = burned.amounts.water * outlet.dry_moles() * Species::Water.molar_mass();
    GasState {
        dry: burned.amounts.dry(),
        dry_flow: outlet.dry_flow * burned.dry(),
        vapour: MassRate::new::<kilogram_per_second>(steam),
        temperature: burned.temperature,
        ..outlet
    }
}

/// The state of the machine in which the gas goes there.
fn state(end: End) -> LoadTime {
    match end {
        End::Flare => LoadTime::Lighting,
        End::Engine => LoadTime::Running,
    }
}

/// Puts a design through the questions of this chapter.
pub(super) fn examine(design: &Design, heart: &Heart, depth: Depth) -> (TrainReview, Vec<Finding>) {
    let mut train = compute(design, heart);
    // It changes no verdict, and takes as long as all loads together.
    if depth == Depth::Whole {
        train.cooler_length = cooler_length(design, &train);
    }
    let findings = ask(design, heart, &train);
    (train, findings)
}

/// The findings of a train that has been solved.
pub(super) fn ask(design: &Design, heart: &Heart, train: &TrainReview) -> Vec<Finding> {
    let mut findings = questions::ask(design, heart, train);
    if train.usual.is_ok() {
        findings.extend(questions::leaves::ask(design, heart, train));
    }
    findings
}

fn cooler_length(design: &Design, train: &TrainReview) -> Option<Result<Length, CoolerError>> {
    let place = (train.stages.iter()).rposition(|stage| matches!(stage, Stage::Cooler(_)))?;
    let Stage::Cooler(cooler) = train.stages.get(place)? else {
        return None;
    };
    let solved = train.full_clean.as_ref().ok()?;
    let (gas, outcome) = (solved.points.get(place)?, solved.outcomes.get(place)?);
    let circumstances = &train.full_load.circumstances;
    let wanted = design.limits.engine_gas_good();
    let as_it_runs = cooler.with_what_runs(circumstances);
    let around = &circumstances.surroundings;
    Some(as_it_runs.needed_length_knowing(gas, around, wanted, Some(outcome)))
}

/// The engine where it is one that draws the gas.
fn on_gas(design: &Design, heart: &Heart) -> Option<EngineRun> {
    let full = &heart.at.full;
    (design.operation.flow_source == FlowSource::Engine && full.solved.is_ok())
        .then(|| heart::run(design, full).ok())
        .flatten()
}

/// Where a blower is in the train but its curve cannot be used, that is what keeps it from being lit.
fn startup(
    design: &Design,
    solved: Result<TrainSolution, TrainError>,
    curve: &Result<BlowerCurve, BlowerError>,
) -> Result<TrainSolution, TrainError> {
    let blower = (design.train.iter()).position(|stage| stage.kind == StageKind::Blower);
    solved.map_err(|error| match (curve, blower) {
        (Err(why), Some(place)) if error.reason == StageError::NoFlare => TrainError {
            number: place + 1,
            label: "Blower",
            reason: StageError::NoCurve(*why),
            ..error
        },
        _ => error,
    })
}

/// Solves the train of a design.
pub(super) fn compute(design: &Design, heart: &Heart) -> TrainReview {
    let around = surroundings(design);
    let (supply, usual) = (&heart.at.full.supply, &heart.at.usual.supply);
    let full = supply.gas_flow;
    let grate = grate(design);
    let [at_full, at_usual] = [supply, usual].map(|supply| Given {
        hearth: hearth_chain::hearth_chain(design, supply, grate.ok()),
        burned: burned(design, supply),
    });
    let outlet = |supply: &Supply, given: &Given, flow| {
        raw_gas(
            design,
            supply,
            flow,
            around.pressure - given.hearth.drop(flow),
        )
    };
    let load = |(supply, given): (&Supply, &Given), flow: VolumeRate, filter, end| TrainLoad {
        start: into_train(outlet(supply, given, flow), given.burned.as_ref()),
        circumstances: Circumstances {
            surroundings: around,
            filter,
            end,
            fans: CoolerDrive::Fan.runs(design, state(end)),
            pumps: CoolerDrive::Pump.runs(design, state(end)),
        },
    };
    let of_full = (supply, &at_full);
    let startup_load = load(
        of_full,
        full * design.operation.startup_share,
        Filter::Dirty,
        End::Flare,
    );
    let usual_load = load(
        (usual, &at_usual),
        usual.gas_flow,
        Filter::Clean,
        End::Engine,
    );
    let full_load = load(of_full, full, Filter::Clean, End::Engine);
    let dirty_load = load(of_full, full, Filter::Dirty, End::Engine);
    let stages::Stages { stages, curve } = stages::stages(design, full_load.start.dry_flow);
    let solve = |at: &HeartAt, words, load: &TrainLoad| match grate {
        _ if !at.makes_gas() => Err(TrainError::no_gas(words)),
        Err(why) => Err(TrainError::grate(why)),
        Ok(_) => Train::solve(&stages, load),
    };
    let solve_full = |load: &TrainLoad| solve(&heart.at.full, "full load", load);
    let full_clean = solve_full(&full_load);
    let train = TrainReview {
        names: names(design),
        on_gas: on_gas(design, heart),
        power_left: None,
        startup: startup(design, solve_full(&startup_load), &curve),
        usual: solve(&heart.at.usual, "the usual load", &usual_load),
        full_dirty: match &full_clean {
            Ok(clean) => Train::solve_beside(&stages, &dirty_load, clean),
            Err(_) => solve_full(&dirty_load),
        },
        full_clean,
        stages,
        cooler_length: None,
        curve,
        outlet: outlet(supply, &at_full, full),
        at_full,
        at_usual,
        startup_load,
        usual_load,
        full_load,
        dirty_load,
    };
    TrainReview {
        power_left: power_left::power_left(design, &train),
        ..train
    }
}
