//! From hot dirty gas to cool clean gas: stages in any order, each fed with what the one before leaves.
//!
//! The gas carries its water, dust and tar from stage to stage; every stage is computed at its own temperature, pressure
//! and density. The flow is given; which flow a blower or an engine draws is found by asking at several flows.

pub(crate) mod blower_stage;
mod dust;
pub(crate) mod engine_inlet;
pub(crate) mod entered_loss;
pub mod example;
pub(crate) mod gas_state;
pub(crate) mod pipe_run;
pub(crate) mod stage;
mod system_curve;
pub(crate) mod trap;
mod vessel_wall;

pub use blower_stage::{BlowerResult, BlowerStage, WithEngine};
pub(crate) use dust::Carried;
pub use dust::{CONVEYING, Dust, MUCH_DUST, NARROW, SIZES};
pub use engine_inlet::{EngineResult, TOO_HOT, WARM};
pub use entered_loss::{EnteredLoss, Measured};
pub use gas_state::{GasState, Tar};
pub use pipe_run::{Cover, PipeResult, PipeRun};
pub(crate) use stage::Passage;
pub use stage::{Circumstances, Detail, Note, Stage, StageError, StageOutcome};
pub use system_curve::{Agreement, SystemCurve, needed};
pub use trap::{Trap, TrapResult};
pub(crate) use vessel_wall::{OUTSIDE_EMITTANCE, surface_giving_off, wall_heat};

use super::pattern::PatternError;
use super::pressure_chain::End;
use thiserror::Error;
use uom::si::f64::{MassRate, Power, Pressure};

/// Gas and circumstances the train is computed for: start-up, usual load, full load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrainLoad {
    /// Gas as it leaves the hearth; its pressure is what air nozzles and fuel bed have left.
    pub start: GasState,
    /// Air around, state of the filters, where the gas goes.
    pub circumstances: Circumstances,
}

impl TrainLoad {
    /// The same gas at `share` of the flow: water and dust go with it, temperature and pressure stay.
    pub fn at_share(&self, share: f64) -> TrainLoad {
        let start = self.start;
        TrainLoad {
            start: GasState {
                dry_flow: start.dry_flow * share,
                vapour: start.vapour * share,
                liquid: start.liquid * share,
                dust: start.dust.scaled(share),
                ..start
            },
            ..*self
        }
    }
}

/// Why a train cannot be computed, and where.
#[derive(Debug, Clone, PartialEq, Error)]
#[error("{}{reason}", place(.number, .label))]
pub struct TrainError {
    /// Which stage, from 1; 0 for the train as a whole.
    pub number: usize,
    /// Label of the stage.
    pub label: &'static str,
    /// What is wrong.
    #[source]
    pub reason: StageError,
    /// What was computed before it.
    pub reached: Box<TrainSolution>,
}

/// Where something is wrong; nothing is said of the train as a whole.
fn place(number: &usize, label: &str) -> String {
    if *number == 0 {
        String::new()
    } else {
        format!("stage {number}, {label}: ")
    }
}

impl TrainError {
    /// Said of a load at which the hearth makes no gas that burns: nothing is known then of what the train is given.
    ///
    /// ```
    /// use hearthplan::sizing::train::TrainError;
    /// let error = TrainError::no_gas("full load");
    /// assert!(error.is_for_want_of_gas());
    /// assert!(error.to_string().starts_with("cannot be told: at full load"));
    /// ```
    pub fn no_gas(load: &'static str) -> Self {
        Self {
            number: 0,
            label: "Train",
            reason: StageError::NoGas { load },
            reached: Box::new(TrainSolution::new(0)),
        }
    }

    /// Said of a grate that cannot be worked out: as if there were none, all would look better than it is.
    ///
    /// ```
    /// use hearthplan::sizing::{pattern::PatternError, train::TrainError};
    /// let error = TrainError::grate(PatternError::NoHole);
    /// assert!(error.is_for_want_of_gas() && error.lets_nothing_through());
    /// ```
    pub fn grate(why: PatternError) -> Self {
        Self {
            reason: StageError::Grate(why),
            ..Self::no_gas("")
        }
    }

    /// Whether it is the hearth and not the train that is at fault.
    pub fn is_for_want_of_gas(&self) -> bool {
        matches!(self.reason, StageError::NoGas { .. } | StageError::Grate(_))
    }

    /// Whether everything is known, and no gas flows: too much pressure is lost, or the grate has no hole.
    pub fn lets_nothing_through(&self) -> bool {
        matches!(
            self.reason,
            StageError::NoPressureLeft | StageError::Grate(PatternError::NoHole)
        )
    }
}

/// The train solved.
#[derive(Debug, Clone, PartialEq)]
pub struct TrainSolution {
    /// Gas before the first stage and behind each that gas passed.
    pub points: Vec<GasState>,
    /// What each stage did. Shorter than the list of stages when the gas leaves through the flare.
    pub outcomes: Vec<StageOutcome>,
    /// Pressure lost in all stages together, blowers left out.
    pub total_loss: Pressure,
    /// Pressure made by blowers.
    pub total_rise: Pressure,
    /// Heat given off.
    pub heat_rejected: Power,
    /// Work of blowers.
    pub work_added: Power,
    /// Steam that became liquid.
    pub condensate: MassRate,
    /// Water drained.
    pub water_removed: MassRate,
    /// Enthalpy of the water drained.
    pub removed_enthalpy: Power,
    /// Dust caught.
    pub dust_caught: MassRate,
    /// Water that leaves the train as drops.
    pub drops_left: MassRate,
}

/// The gas train.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Train;

impl Train {
    /// Sends gas through `stages` in their order.
    ///
    /// With the flare as end the gas leaves at the first blower; stages behind it see nothing.
    ///
    /// # Errors
    /// [`TrainError`] naming the stage and the reason.
    ///
    /// ```
    /// use hearthplan::sizing::train::{Train, example};
    /// let found = Train::solve(&example::stages(), &example::full_load())?;
    /// assert_eq!(found.points.len(), found.outcomes.len() + 1);
    /// assert!(found.water_removed.value > 0.0);
    /// # Ok::<(), hearthplan::sizing::train::TrainError>(())
    /// ```
    pub fn solve(stages: &[Stage], load: &TrainLoad) -> Result<TrainSolution, TrainError> {
        Self::solve_on(stages, load, &[])
    }

    /// As [`solve`](Self::solve), beside the solution of a load that differs in the state of its filters alone: what
    /// lies before the first stage that heeds them is taken over.
    ///
    /// # Errors
    /// As [`solve`](Self::solve).
    ///
    /// ```
    /// use hearthplan::sizing::pressure_chain::Filter;
    /// use hearthplan::sizing::train::{Train, example};
    /// let (stages, mut load) = (example::stages(), example::full_load());
    /// let clean = Train::solve(&stages, &load)?;
    /// load.circumstances.filter = Filter::Dirty;
    /// let dirty = Train::solve_beside(&stages, &load, &clean)?;
    /// assert_eq!(dirty, Train::solve(&stages, &load)?);
    /// assert!(dirty.total_loss > clean.total_loss);
    /// # Ok::<(), hearthplan::sizing::train::TrainError>(())
    /// ```
    pub fn solve_beside(
        stages: &[Stage],
        load: &TrainLoad,
        beside: &TrainSolution,
    ) -> Result<TrainSolution, TrainError> {
        let alike = stages.iter().take_while(|stage| !stage.heeds_filters());
        let alike = beside.outcomes.get(..alike.count());
        Self::solve_on(stages, load, alike.unwrap_or(&beside.outcomes))
    }

    /// Solves the train from what its first stages are known to do.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn solve_on(
        stages: &[Stage],
        load: &TrainLoad,
        known: &[StageOutcome],
    ) -> Result<TrainSolution, TrainError> {
        let mut solution = TrainSolution::starting(load.start, stages.len());
        let whole = |reason| TrainError {
            number: 0,
            label: "Train",
            reason,
            reached: Box::new(solution.clone()),
        };
        if stages.is_empty() {
            return Err(whole(StageError::NoStages));
        }
        load.start.check().map_err(whole)?;
        let flare = load.circumstances.end == End::Flare;
        if flare && !stages.iter().any(|stage| matches!(stage, Stage::Blower(_))) {
            return Err(whole(StageError::NoFlare));
        }
        let mut gas = load.start;
        let mut arrived = false;
        for (index, stage) in stages.iter().enumerate() {
            let here = |reason| TrainError {
                number: index + 1,
                label: stage.label(),
                reason,
                reached: Box::new(solution.clone()),
            };
            if arrived {
                return Err(here(StageError::BehindEngine));
            }
            let outcome = match known.get(index) {
                Some(outcome) => outcome.clone(),
                None => stage.pass(&gas, &load.circumstances).map_err(here)?,
            };
            gas = outcome.out;
            solution.add(outcome);
            if flare && matches!(stage, Stage::Blower(_)) {
                break;
            }
            arrived = matches!(stage, Stage::Engine);
        }
        solution.drops_left = gas.liquid;
        Ok(solution)
    }

    /// Solves the train for several loads.
    ///
    /// # Errors
    /// That of the first load which cannot be computed.
    pub fn solve_loads(
        stages: &[Stage],
        loads: &[TrainLoad],
    ) -> Result<Vec<TrainSolution>, TrainError> {
        loads
            .iter()
            .map(|load| Train::solve(stages, load))
            .collect()
    }
}

impl TrainSolution {
    fn starting(gas: GasState, stages: usize) -> TrainSolution {
        let mut solution = Self::new(stages);
        solution.points.push(gas);
        solution
    }

    /// Without any gas, with room for so many stages.
    fn new(stages: usize) -> TrainSolution {
        TrainSolution {
            points: Vec::with_capacity(stages + 1),
            outcomes: Vec::with_capacity(stages),
            total_loss: Pressure::default(),
            total_rise: Pressure::default(),
            heat_rejected: Power::default(),
            work_added: Power::default(),
            condensate: MassRate::default(),
            water_removed: MassRate::default(),
            removed_enthalpy: Power::default(),
            dust_caught: MassRate::default(),
            drops_left: MassRate::default(),
        }
    }

    fn add(&mut self, outcome: StageOutcome) {
        if outcome.pressure_loss.value >= 0.0 {
            self.total_loss += outcome.pressure_loss;
        } else {
            self.total_rise -= outcome.pressure_loss;
        }
        self.heat_rejected += outcome.heat_rejected;
        self.work_added += outcome.work_added;
        self.condensate += outcome.condensate;
        self.water_removed += outcome.water_removed;
        self.removed_enthalpy += outcome.removed_enthalpy;
        self.dust_caught += outcome.dust_caught;
        self.points.push(outcome.out);
        self.outcomes.push(outcome);
    }
}
