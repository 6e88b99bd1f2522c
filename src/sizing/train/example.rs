//! A whole train with invented numbers, for examples, tests and timing: about 30 Nm³/h of gas, the size of a small pump
//! engine.

use super::{
    BlowerStage, Circumstances, Cover, Dust, EnteredLoss, GasState, PipeRun, Stage, Tar, TrainLoad,
    Trap, WithEngine,
};
use crate::design::inputs::FittingKind;
use crate::physics::equilibrium::GasAmounts;
use crate::sizing::blower::{BlowerCurve, BlowerError, BlowerPoint};
use crate::sizing::cooler::{Cooler, CoolerKind, Orientation};
use crate::sizing::cyclone::{Cyclone, Proportions};
use crate::sizing::filter::{Filter, Medium};
use crate::sizing::nozzles::Surroundings;
use crate::sizing::pressure_chain::{End, Filter as Condition};
use uom::si::area::square_meter;
use uom::si::f64::{
    Area, Length, Mass, MassDensity, MassRate, Pressure, Ratio, ThermalConductance,
    ThermalConductivity, ThermodynamicTemperature, Volume, VolumeRate,
};
use uom::si::length::{meter, micrometer, millimeter};
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::mass_rate::kilogram_per_hour;
use uom::si::pressure::pascal;
use uom::si::ratio::{percent, ratio};
use uom::si::thermal_conductance::watt_per_kelvin;
use uom::si::thermal_conductivity::watt_per_meter_kelvin;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::volume::liter;
use uom::si::volume_rate::cubic_meter_per_hour;

fn mm(length: f64) -> Length {
    Length::new::<millimeter>(length)
}

fn celsius(temperature: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(temperature)
}

/// Full load: 30 Nm³/h of dry gas at 350 °C with 3 kg/h of steam, drawn by the engine through a clean filter.
pub fn full_load() -> TrainLoad {
    let rate = MassRate::new::<kilogram_per_hour>(0.06);
    let dust = Dust::log_normal(
        rate,
        Length::new::<micrometer>(20.0),
        Ratio::new::<ratio>(2.5),
    );
    TrainLoad {
        start: GasState {
            dry: GasAmounts {
                carbon_monoxide: 0.21,
                carbon_dioxide: 0.11,
                hydrogen: 0.17,
                methane: 0.02,
                nitrogen: 0.49,
                ..GasAmounts::default()
            },
            dry_flow: VolumeRate::new::<cubic_meter_per_hour>(30.0),
            vapour: MassRate::new::<kilogram_per_hour>(3.0),
            liquid: MassRate::default(),
            temperature: celsius(350.0),
            pressure: Pressure::new::<pascal>(99_500.0),
            // The numbers above are in range, so there always is dust.
            dust: dust.unwrap_or(Dust::NONE),
            tar: Tar {
                dew_point: Some(celsius(150.0)),
                mist: false,
            },
        },
        circumstances: Circumstances {
            surroundings: Surroundings {
                temperature: celsius(25.0),
                pressure: Pressure::new::<pascal>(101_325.0),
            },
            filter: Condition::Clean,
            end: End::Engine,
            fans: true,
            pumps: true,
        },
    }
}

/// Start-up at three tenths of the flow to the flare, usual load at seven tenths, full load with a dirty filter.
pub fn three_loads() -> [TrainLoad; 3] {
    let full = full_load();
    let mut start = full.at_share(0.3);
    start.circumstances.end = End::Flare;
    let mut dirty = full;
    dirty.circumstances.filter = Condition::Dirty;
    [start, full.at_share(0.7), dirty]
}

/// Four bare tubes of 28 mm bore that run to and fro.
pub fn cooler() -> Cooler {
    Cooler {
        tubes: 4,
        length: Length::new::<meter>(9.0),
        bore: mm(28.0),
        wall: mm(1.5),
        wall_conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(45.0),
        roughness: mm(0.05),
        emittance: Ratio::new::<ratio>(0.9),
        orientation: Orientation::Level,
        block: None,
        header_loss: 4.0,
        kind: CoolerKind::Bare,
    }
}

/// A run of 42 mm pipe with two bends.
pub fn pipe() -> PipeRun {
    PipeRun {
        bore: mm(42.0),
        wall: mm(3.0),
        length: Length::new::<meter>(0.8),
        roughness: mm(0.1),
        fittings: vec![FittingKind::Elbow90, FittingKind::LongElbow90],
        other_loss: 0.0,
        cover: Cover::Bare {
            emittance: Ratio::new::<ratio>(0.9),
        },
        orientation: Orientation::Level,
    }
}

/// A trap of four litres.
pub fn trap() -> Trap {
    Trap {
        bore: mm(42.0),
        loss_coefficient: 1.5,
        separation: Ratio::new::<percent>(95.0),
        capacity: Volume::new::<liter>(4.0),
        wall_conductance: ThermalConductance::new::<watt_per_kelvin>(1.0),
    }
}

/// A bed of char pieces in a drum.
pub fn filter() -> Filter {
    Filter {
        medium: Medium::PackedBed {
            piece_size: mm(8.0),
            void_share: Ratio::new::<ratio>(0.45),
            depth: mm(400.0),
            dirty_factor: 5.0,
        },
        area: Area::new::<square_meter>(0.15),
        efficiency: Ratio::new::<percent>(95.0),
        dust_capacity: Mass::new::<kilogram>(1.0),
        limit: celsius(200.0),
        may_be_wet: true,
        wall_conductance: ThermalConductance::new::<watt_per_kelvin>(2.0),
    }
}

/// A Lapple cyclone of 90 mm.
pub fn cyclone() -> Cyclone {
    Cyclone {
        proportions: Proportions::Lapple,
        body_diameter: mm(90.0),
        particle_density: MassDensity::new::<kilogram_per_cubic_meter>(1200.0),
        wall_conductance: ThermalConductance::new::<watt_per_kelvin>(0.5),
    }
}

/// A small radial blower.
///
/// # Errors
/// None with these points; the curve's own check is passed on.
pub fn blower() -> Result<BlowerStage, BlowerError> {
    let point = |flow, pressure| BlowerPoint {
        flow: VolumeRate::new::<cubic_meter_per_hour>(flow),
        pressure: Pressure::new::<pascal>(pressure),
    };
    let curve = BlowerCurve::new([
        point(0.0, 2300.0),
        point(20.0, 2400.0),
        point(50.0, 1900.0),
        point(90.0, 400.0),
    ])?;
    Ok(BlowerStage {
        curve,
        fastest: Ratio::new::<ratio>(1.2),
        bore: mm(42.0),
        resting_loss: 8.0,
        efficiency: Ratio::new::<ratio>(0.35),
        motor_efficiency: Ratio::new::<ratio>(0.6),
        limit: celsius(80.0),
        with_engine: WithEngine::Stopped,
        flare: EnteredLoss {
            at_flow: Pressure::new::<pascal>(150.0),
            flow: VolumeRate::new::<cubic_meter_per_hour>(30.0),
            linear: false,
        },
    })
}

/// Outlet, cyclone, cooler, trap, filter, pipe, blower, engine.
pub fn stages() -> Vec<Stage> {
    let mut stages = vec![
        Stage::HearthOutlet(pipe()),
        Stage::Cyclone(cyclone()),
        Stage::Cooler(cooler()),
        Stage::CondensateTrap(trap()),
        Stage::Filter(filter()),
        Stage::Pipe(pipe()),
    ];
    stages.extend(blower().ok().map(Stage::Blower));
    stages.push(Stage::Engine);
    stages
}
