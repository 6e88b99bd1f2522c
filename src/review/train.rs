//! The gas train: what happens to the gas between hearth and engine.

mod stages;

use super::heart::Heart;
use super::hearth::surroundings;
use crate::design::Design;
use crate::design::inputs::StageKind;
use crate::physics::species::Species;
use crate::sizing::blower::{BlowerCurve, BlowerError};
use crate::sizing::heart::Supply;
use crate::sizing::pressure_chain::{End, Filter, PressureChain};
use crate::sizing::train::{
    Circumstances, Dust, GasState, Stage, Tar, Train, TrainError, TrainLoad, TrainSolution,
};
use uom::si::f64::{MassRate, Pressure, Ratio, VolumeRate};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::ratio::ratio;

/// Volume of a mole at 0 °C and 101.325 kPa, m³/mol.
const NORMAL_MOLAR_VOLUME: f64 = 8.314_462_618 * 273.15 / 101_325.0;

/// What a stage is called, and where it was entered.
#[derive(Debug, Clone, PartialEq)]
pub struct StageName {
    /// The name given to it, or that of its kind.
    pub label: String,
    /// Its kind; none for the engine.
    pub kind: Option<StageKind>,
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
    /// What goes in while lighting: a share of the full flow, to the flare, filters clean.
    pub startup_load: TrainLoad,
    /// What goes in at full load, filters clean.
    pub full_load: TrainLoad,
    /// While lighting. Ends at the blower, where the gas leaves to the flare.
    pub startup: Result<TrainSolution, TrainError>,
    /// Usual load, to the engine, filters clean.
    pub usual: Result<TrainSolution, TrainError>,
    /// Full load, to the engine, filters clean.
    pub full_clean: Result<TrainSolution, TrainError>,
    /// Full load, to the engine, filters due.
    pub full_dirty: Result<TrainSolution, TrainError>,
}

/// The name of every stage, the engine last.
fn names(design: &Design) -> Vec<StageName> {
    use crate::design::Choice as _;
    design
        .train
        .iter()
        .map(|stage| StageName {
            label: if stage.name.trim().is_empty() {
                stage.kind.label().to_string()
            } else {
                stage.name.clone()
            },
            kind: Some(stage.kind),
        })
        .chain([StageName {
            label: "Engine".to_string(),
            kind: None,
        }])
        .collect()
}

/// The gas of a supply as it leaves the hearth at `flow`, dry, where the hearth has left it `pressure`.
fn raw_gas(design: &Design, supply: &Supply, flow: VolumeRate, pressure: Pressure) -> GasState {
    let raw = &design.raw_gas;
    let steam = supply.steam * flow.value / NORMAL_MOLAR_VOLUME * Species::Water.molar_mass();
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

/// Solves the train of a design.
pub(super) fn examine(design: &Design, heart: &Heart, hearth: &PressureChain) -> TrainReview {
    let around = surroundings(design);
    let supply = &heart.at.full.supply;
    let full = supply.gas_flow;
    let stages::Stages { stages, curve } = stages::stages(design, full);
    let load = |supply: &Supply, flow: VolumeRate, filter, end| TrainLoad {
        start: raw_gas(
            design,
            supply,
            flow,
            around.pressure - hearth.hearth_drop(flow),
        ),
        circumstances: Circumstances {
            surroundings: around,
            filter,
            end,
        },
    };
    let startup_load = load(
        supply,
        full * design.operation.startup_share,
        Filter::Clean,
        End::Flare,
    );
    let usual = &heart.at.usual.supply;
    let usual_load = load(usual, usual.gas_flow, Filter::Clean, End::Engine);
    let full_load = load(supply, full, Filter::Clean, End::Engine);
    let dirty_load = load(supply, full, Filter::Dirty, End::Engine);
    TrainReview {
        names: names(design),
        startup: Train::solve(&stages, &startup_load),
        usual: Train::solve(&stages, &usual_load),
        full_clean: Train::solve(&stages, &full_load),
        full_dirty: Train::solve(&stages, &dirty_load),
        stages,
        curve,
        startup_load,
        full_load,
    }
}
