//! How large an engine suits a hearth, or gives a power? A hearth that is asked for more gas makes another gas: its shell takes
//! a smaller share of the heat. So gas and size are found together.

use crate::design::Design;
use crate::design::inputs::HearthKind;
use crate::physics::secant::{Search, crossing};
use crate::review::heart::{Heart, engine_gas};
use crate::sizing::engine::{
    Engine, EngineError, EngineGas, EngineRun, Intake, engine_of, intake_of,
};
use crate::sizing::gas::HearthSolution;
use crate::sizing::heart::HeartModel;
use crate::sizing::hearth_load::{gas_carried, table_tube};
use std::sync::{Arc, OnceLock};
use uom::si::f64::{Power, Ratio, Velocity, Volume, VolumeRate};
use uom::si::ratio::ratio;
use uom::si::volume::cubic_meter;

/// Sizes that differ by a smaller share are the same.
const SETTLED: f64 = 1.0e-5;
/// A search that takes shorter steps has come as near as it can, as a share of the size.
const SHORT_STEP: f64 = 1.0e-3;
/// How much more the size must change than what its gas asks for: richer gas leaves less room for itself beside its air.
const USUAL_SLOPE: f64 = 0.9;

/// An engine of another size, all else as entered.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OtherSize {
    /// Swept volume of all cylinders.
    pub displacement: Volume,
    /// The gas that it was worked out with.
    pub gas: EngineGas,
}

/// Engines of other sizes. Each takes the hearth at several loads and few verdicts tell of them, so each is looked for when
/// somebody first asks for it.
#[derive(Debug, Clone)]
pub(super) struct OtherSizes {
    engine: Engine,
    intake: Intake,
    model: Arc<HeartModel>,
    /// The hearth at full load, to begin from.
    full: Option<HearthSolution>,
    wanted: Power,
    /// The most gas that a throat may carry.
    carried: VolumeRate,
    for_power: OnceLock<Option<OtherSize>>,
    for_hearth: OnceLock<Option<OtherSize>>,
}

impl OtherSizes {
    /// Of a design with the engine at full load, and the most that its hearth may be loaded.
    pub(super) fn of(
        design: &Design,
        heart: &Heart,
        most: Velocity,
        full: &EngineRun,
    ) -> Result<Self, EngineError> {
        let engine = engine_of(design)?;
        let hearth = &design.hearth;
        Ok(Self {
            for_hearth: match hearth.kind {
                HearthKind::Constricted => OnceLock::new(),
                // The table asks for no gas: it has the power on petrol.
                HearthKind::Straight => OnceLock::from(Some(OtherSize {
                    displacement: engine.displacement
                        * (table_tube(hearth.tube_diameter).engine_power / full.petrol_power),
                    gas: engine_gas(&heart.at.full.supply),
                })),
            },
            engine,
            intake: intake_of(design),
            model: heart.model.clone(),
            full: heart.at.full.solved.as_ref().ok().copied(),
            wanted: design.engine.wanted_power,
            carried: gas_carried(hearth.throat_diameter, most),
            for_power: OnceLock::new(),
        })
    }

    /// The engine that gives the power wanted.
    pub(super) fn for_power(&self) -> Option<OtherSize> {
        *self.for_power.get_or_init(|| {
            self.fitting(|gas| (self.engine).displacement_for_power(self.wanted, gas, &self.intake))
        })
    }

    /// The engine that draws the most gas the hearth may make, or the one that the table feeds.
    pub(super) fn for_hearth(&self) -> Option<OtherSize> {
        *self.for_hearth.get_or_init(|| {
            self.fitting(|gas| (self.engine).displacement_for_gas(self.carried, gas, &self.intake))
        })
    }

    /// The engine whose size is just what the gas asks for that this hearth makes for it; `size` tells what a gas asks for.
    /// None where the hearth makes no gas for such an engine, or where no size that may be entered does it.
    fn fitting(
        &self,
        size: impl Fn(&EngineGas) -> Result<Volume, EngineError>,
    ) -> Option<OtherSize> {
        let own = self.engine.displacement.value;
        let (least, most) = Design::allowed("engine", "displacement")?;
        let full = self.full?;
        // An engine so many times as large is as many times the load; the search runs over the logarithm.
        let from_own = |volume: f64| (volume / own).ln();
        let search = Search {
            low: from_own(least),
            high: from_own(most),
            first: from_own(size(&EngineGas::dried(&full.gas)).ok()?.value),
            expected_slope: USUAL_SLOPE,
            value_tolerance: SETTLED,
            step_tolerance: SHORT_STEP,
        };
        let (mut near, mut made) = (full, None);
        let found = crossing(search, |tried| {
            let load = Ratio::new::<ratio>(tried.exp());
            match self.model.solve_beside(load, Some(&near)) {
                Ok(solution) => {
                    near = solution;
                    let gas = made.insert(EngineGas::dried(&solution.gas));
                    Ok::<f64, EngineError>(tried - from_own(size(gas)?.value))
                }
                // Whatever draws too little to keep the fire hot must be larger.
                Err(error) if error.too_cold() => Ok(f64::NEG_INFINITY),
                Err(_) => Ok(f64::NAN),
            }
        });
        Some(OtherSize {
            displacement: Volume::new::<cubic_meter>(own * found.ok()?.exp()),
            gas: made?,
        })
    }
}
