//! One stage of the train: gas goes in, gas comes out.

use super::blower_stage::{BlowerResult, BlowerStage};
use super::engine_inlet::EngineResult;
use super::entered_loss::Measured;
use super::gas_state::GasState;
use super::pipe_run::{PipeResult, PipeRun};
use super::trap::{Trap, TrapResult};
use crate::physics::error::PhysicsError;
use crate::sizing::blower::BlowerError;
use crate::sizing::condensate::{liquid_enthalpy, water_moles};
use crate::sizing::cooler::{Cooler, CoolerResult};
use crate::sizing::cyclone::{Cyclone, CycloneResult};
use crate::sizing::filter::{Filter, FilterResult};
use crate::sizing::nozzles::Surroundings;
use crate::sizing::pattern::PatternError;
use crate::sizing::pressure_chain::{End, Filter as FilterCondition};
use thiserror::Error;
use uom::si::f64::{MassDensity, MassRate, Power, Pressure, ThermodynamicTemperature, Velocity};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::power::watt;
use uom::si::velocity::meter_per_second;

/// Why a stage cannot be computed.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum StageError {
    /// A number is out of range.
    #[error(transparent)]
    Physics(#[from] PhysicsError),
    /// The gas would get hotter than the calculation covers.
    #[error("the gas would be hotter than 1000 °C")]
    TooHot,
    /// So much pressure is lost that no gas would flow.
    #[error(
        "so much pressure is lost that no gas would flow: make this stage wider or the flow smaller"
    )]
    NoPressureLeft,
    /// The water of a jacket would have to be hotter than the gas.
    #[error("no water temperature was found for the jacket")]
    NoJacketTemperature,
    /// A stage stands behind the engine.
    #[error("nothing can stand behind the engine")]
    BehindEngine,
    /// The gas is to go to the flare, but no blower with a flare branch is in the train.
    #[error("there is no blower with a flare in the train, so it cannot be lit")]
    NoFlare,
    /// The hearth is too cold to make gas at this load.
    #[error(
        "cannot be told: at {load} the hearth makes no gas that burns; mend that first, under “Clean gas at {load}”"
    )]
    NoGas {
        /// Which load, in words.
        load: &'static str,
    },
    /// The grate lets no gas through, or cannot be worked out.
    #[error("{0}; mend that first, under “Grate under the char”")]
    Grate(PatternError),
    /// The curve of the blower cannot be used.
    #[error(transparent)]
    NoCurve(#[from] BlowerError),
    /// Nothing is in the train.
    #[error("the train has no stages")]
    NoStages,
}

/// What holds for all stages at once.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Circumstances {
    /// Air around the train.
    pub surroundings: Surroundings,
    /// Filters just cleaned or due.
    pub filter: FilterCondition,
    /// Where the gas goes.
    pub end: End,
    /// Whether the fans of coolers run. Where they rest, still air cools the tubes.
    pub fans: bool,
    /// Whether the pumps of water jackets run. Where they rest, the water stands.
    pub pumps: bool,
}

/// A stage of the train.
#[derive(Debug, Clone, PartialEq)]
pub enum Stage {
    /// Pipe from the hearth.
    HearthOutlet(PipeRun),
    /// Cyclone.
    Cyclone(Cyclone),
    /// Cooler of any kind.
    Cooler(Cooler),
    /// Trap for condensate.
    CondensateTrap(Trap),
    /// Filter.
    Filter(Filter),
    /// Pipe with fittings.
    Pipe(PipeRun),
    /// Something of which loss and outlet temperature were measured.
    Measured(Measured),
    /// Blower with a branch to the flare.
    Blower(BlowerStage),
    /// Engine: the end of the train.
    Engine,
}

impl Stage {
    /// Label shown to a person.
    pub fn label(&self) -> &'static str {
        match self {
            Stage::HearthOutlet(_) => "Hearth outlet",
            Stage::Cyclone(_) => "Cyclone",
            Stage::Cooler(_) => "Cooler",
            Stage::CondensateTrap(_) => "Condensate trap",
            Stage::Filter(_) => "Filter",
            Stage::Pipe(_) => "Pipe",
            Stage::Measured(_) => "Measured stage",
            Stage::Blower(_) => "Blower",
            Stage::Engine => "Engine",
        }
    }

    /// Whether it does anything else once filters are due.
    pub(super) fn heeds_filters(&self) -> bool {
        match self {
            Stage::Filter(_) | Stage::Measured(_) => true,
            Stage::HearthOutlet(_)
            | Stage::Cyclone(_)
            | Stage::Cooler(_)
            | Stage::CondensateTrap(_)
            | Stage::Pipe(_)
            | Stage::Blower(_)
            | Stage::Engine => false,
        }
    }

    /// Sends gas through the stage.
    ///
    /// # Errors
    /// [`StageError`] with the reason.
    ///
    /// ```
    /// use hearthplan::sizing::train::example;
    /// let load = example::full_load();
    /// let outcome = example::stages()[0].pass(&load.start, &load.circumstances)?;
    /// assert!(outcome.out.temperature < load.start.temperature);
    /// # Ok::<(), hearthplan::sizing::train::StageError>(())
    /// ```
    pub fn pass(
        &self,
        gas: &GasState,
        circumstances: &Circumstances,
    ) -> Result<StageOutcome, StageError> {
        gas.check()?;
        match self {
            Stage::HearthOutlet(run) | Stage::Pipe(run) => run.pass(gas, circumstances),
            Stage::Cyclone(cyclone) => cyclone.pass(gas, circumstances),
            Stage::Cooler(cooler) => cooler.pass(gas, circumstances),
            Stage::CondensateTrap(trap) => trap.pass(gas, circumstances),
            Stage::Filter(filter) => filter.pass(gas, circumstances),
            Stage::Measured(measured) => measured.pass(gas, circumstances),
            Stage::Blower(blower) => blower.pass(gas, circumstances),
            Stage::Engine => super::engine_inlet::arrive(gas, circumstances),
        }
    }
}

/// Something to tell about a stage. The words of verdict and remedy belong to the review.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Note {
    /// The gas is too slow to carry its dust along, and has much of it, in something that lies level.
    DustSettles,
    /// The same in something upright: what settles falls through.
    DustFalls,
    /// The gas is too slow to carry its dust along, but has little of it.
    LittleDust,
    /// Much dust meets tar or water that falls out in a narrow bore.
    DustCakes,
    /// Tar condenses on a wall or in the gas.
    TarCondenses,
    /// Water falls out of the gas: drops that the tables tell.
    WaterCondenses,
    /// A wall below the dew point of gas that is itself above it: water wets the wall, and no drops go on.
    WetWall,
    /// The gas would be cooled below freezing, and ice would block the stage. It is held at freezing, as by a cover.
    Frost,
    /// Drops of water come in with the gas.
    DropsArrive,
    /// Slower than half of the design velocity at the inlet.
    BelowHalfFlow,
    /// Faster than the good range.
    TooFast,
    /// Hotter than the medium stands.
    MediumTooHot,
    /// Gas at or below its dew point where the medium should stay dry.
    MediumWet,
    /// Tar reaches the stage as droplets.
    TarMistArrives,
    /// Hotter than a common blower stands.
    BlowerHot,
    /// The blower cannot make the pressure.
    BlowerTooWeak,
    /// The blower works left of its highest pressure, where it may surge.
    BlowerStalls,
    /// The gas side is under pressure: leaks let gas out.
    UnderPressure,
    /// Jacket water would boil.
    JacketBoils,
    /// Fins stand too close for still air to pass between them.
    FinsTooClose,
    /// Hotter than an engine should draw.
    EngineGasHot,
    /// Far too hot for an engine.
    EngineGasTooHot,
}

/// What a stage found out beyond the gas that leaves it.
#[derive(Debug, Clone, PartialEq)]
pub enum Detail {
    /// Of a pipe.
    Pipe(PipeResult),
    /// Of a cyclone.
    Cyclone(CycloneResult),
    /// Of a cooler.
    Cooler(CoolerResult),
    /// Of a trap.
    Trap(TrapResult),
    /// Of a filter.
    Filter(FilterResult),
    /// Nothing more is known of a measured stage.
    Measured,
    /// Of a blower.
    Blower(BlowerResult),
    /// Of the engine's inlet.
    Engine(EngineResult),
}

/// Gas out of a stage, and what it left behind.
#[derive(Debug, Clone, PartialEq)]
pub struct StageOutcome {
    /// Gas that leaves.
    pub out: GasState,
    /// Pressure at the inlet less pressure at the outlet; negative where a blower lifts it.
    pub pressure_loss: Pressure,
    /// Heat given to the surroundings or to cooling water; negative where the gas takes heat up.
    pub heat_rejected: Power,
    /// Work put into the gas.
    pub work_added: Power,
    /// Steam that became liquid in the stage; negative where drops dried up.
    pub condensate: MassRate,
    /// Water taken out of the gas for good.
    pub water_removed: MassRate,
    /// Enthalpy of that water.
    pub removed_enthalpy: Power,
    /// Dust taken out of the gas.
    pub dust_caught: MassRate,
    /// Velocity that counts for this stage: in the pipe, the inlet, the tubes, or through the medium.
    pub velocity: Velocity,
    /// Density of the wet gas that the loss was computed with.
    pub density: MassDensity,
    /// Dew point of the water where the gas leaves.
    pub dew_point: Option<ThermodynamicTemperature>,
    /// What is special to this kind of stage.
    pub detail: Detail,
    /// What to tell a person.
    pub notes: Vec<Note>,
}

impl StageOutcome {
    /// Whether water is left in the stage after a run: in a trap, or in a filter and the can under its drain.
    pub fn leaves_water(&self) -> bool {
        self.water_removed.value > 0.0
    }

    /// Takes `share` of the drops out of the gas for good.
    pub(crate) fn drained(mut self, share: f64) -> Result<StageOutcome, StageError> {
        let removed = self.out.liquid * share;
        if removed.value > 0.0 {
            let enthalpy = liquid_enthalpy(self.out.temperature.value)?;
            self.water_removed = removed;
            self.removed_enthalpy = Power::new::<watt>(water_moles(removed) * enthalpy);
            self.out.liquid -= removed;
        }
        Ok(self)
    }
}

/// Numbers of a stage before water, dust and heat are balanced.
pub(crate) struct Passage {
    /// Gas that leaves, water settled.
    pub out: GasState,
    /// m/s.
    pub velocity: f64,
    /// kg/m³.
    pub density: f64,
    pub detail: Detail,
    pub notes: Vec<Note>,
}

impl Passage {
    /// Balances in and out for a stage that takes no water out and does no work.
    pub fn outcome(self, gas: &GasState) -> Result<StageOutcome, StageError> {
        let out = self.out;
        let heat = gas.enthalpy_rate()? - out.enthalpy_rate()?;
        Ok(StageOutcome {
            out,
            pressure_loss: gas.pressure - out.pressure,
            heat_rejected: heat,
            work_added: Power::new::<watt>(0.0),
            condensate: out.liquid - gas.liquid,
            water_removed: MassRate::default(),
            removed_enthalpy: Power::default(),
            dust_caught: gas.dust.total() - out.dust.total(),
            velocity: Velocity::new::<meter_per_second>(self.velocity),
            density: MassDensity::new::<kilogram_per_cubic_meter>(self.density),
            dew_point: out.dew_point(),
            detail: self.detail,
            notes: self.notes,
        })
    }
}
