//! The stages of a design as they are computed.

use crate::design::Design;
use crate::design::inputs::{
    CoolerType, Cover as CoverChoice, FilterMedium, FittingKind, Lie, StageKind, TrainStage,
    TubeMetal,
};
use crate::sizing::blower::{BlowerCurve, BlowerError, BlowerPoint};
use crate::sizing::cooler::{Cooler, CoolerKind, Orientation, TubeBlock, TubeFins};
use crate::sizing::cyclone::Cyclone;
use crate::sizing::filter::{Filter, Medium};
use crate::sizing::train::{
    BlowerStage, Cover, EnteredLoss, Measured, OUTSIDE_EMITTANCE, PipeRun, Stage, Trap, WithEngine,
};
use crate::sizing::train_mass::{self, drum_surface};
use std::f64::consts::PI;
use uom::si::area::square_meter;
use uom::si::f64::{
    Area, Length, Pressure, Ratio, ThermalConductance, ThermalConductivity,
    ThermodynamicTemperature, VolumeRate,
};
use uom::si::length::millimeter;
use uom::si::ratio::ratio;
use uom::si::thermal_conductance::watt_per_kelvin;
use uom::si::thermal_conductivity::watt_per_meter_kelvin;
use uom::si::thermodynamic_temperature::degree_celsius;

/// Heat from a bare steel vessel to still air, radiation included, W/(m²·K). Our own estimate.
const BARE_VESSEL: f64 = 10.0;
/// Velocity at which the losses of cloth and cake are entered, m/s.
pub(in crate::review) const CLOTH_VELOCITY: f64 = 0.03;
/// Dust on the cloth at which the loss of the cake is entered, kg/m².
pub(in crate::review) const CAKE: f64 = 0.1;
/// Viscosity of gas at about 30 °C, Pa·s (our own estimate from its parts).
pub(in crate::review) const COOL_VISCOSITY: f64 = 1.65e-5;
/// A blower stands gas up to here (common practice, no source).
pub(in crate::review) const BLOWER_LIMIT: f64 = 80.0;

/// The stages in their order, the engine last.
pub(super) struct Stages {
    /// What the gas passes.
    pub stages: Vec<Stage>,
    /// The curve of the blower, or why it cannot be used.
    pub curve: Result<BlowerCurve, BlowerError>,
}

/// The stages of a design whose full gas flow, dry, is `full`.
pub(super) fn stages(design: &Design, full: VolumeRate) -> Stages {
    let curve = BlowerCurve::new(design.blower_curve.iter().map(|point| BlowerPoint {
        flow: point.flow,
        pressure: point.pressure,
    }));
    let stages = design
        .train
        .iter()
        .map(|entry| stage(design, entry, full, curve.as_ref().ok()))
        .chain([Stage::Engine])
        .collect();
    Stages { stages, curve }
}

fn stage(
    design: &Design,
    entry: &TrainStage,
    full: VolumeRate,
    curve: Option<&BlowerCurve>,
) -> Stage {
    match entry.kind {
        StageKind::Pipe => Stage::Pipe(pipe(entry)),
        StageKind::Cyclone => Stage::Cyclone(cyclone(entry)),
        StageKind::Cooler => Stage::Cooler(cooler(entry)),
        StageKind::Trap => Stage::CondensateTrap(trap(entry)),
        StageKind::Filter => Stage::Filter(filter(entry)),
        StageKind::Measured => Stage::Measured(measured(entry, full)),
        StageKind::Blower => match curve {
            Some(curve) => Stage::Blower(blower(design, entry, full, curve)),
            // Without a curve it still is a hole that the engine draws through.
            None => Stage::Pipe(PipeRun {
                length: Length::default(),
                cover: Cover::NoLoss,
                fittings: Vec::new(),
                ..pipe(entry)
            }),
        },
    }
}

fn orientation(entry: &TrainStage) -> Orientation {
    match entry.lie {
        Lie::Level => Orientation::Level,
        Lie::Upright => Orientation::Upright,
    }
}

fn pipe(entry: &TrainStage) -> PipeRun {
    let emittance = Ratio::new::<ratio>(OUTSIDE_EMITTANCE);
    let counted = [
        (FittingKind::Elbow90, entry.elbows),
        (FittingKind::LongElbow90, entry.bends),
        (FittingKind::TeeBranch, entry.tees),
        (FittingKind::BallValve, entry.valves),
    ];
    PipeRun {
        bore: entry.bore,
        wall: entry.wall,
        length: entry.length,
        // Bumps higher than a twentieth of the bore are obstacles and no roughness.
        roughness: entry.roughness.min(entry.bore * 0.05),
        fittings: counted
            .into_iter()
            .flat_map(|(kind, count)| std::iter::repeat_n(kind, count.min(MOST) as usize))
            .collect(),
        other_loss: entry.other_loss,
        cover: match entry.cover {
            CoverChoice::Bare => Cover::Bare { emittance },
            CoverChoice::Insulated => Cover::Insulated {
                emittance,
                thickness: entry.insulation,
                conductivity: entry.insulation_conductivity,
            },
        },
        orientation: orientation(entry),
    }
}

/// More fittings of a kind than can be entered; keeps a nonsense count from filling the memory.
const MOST: u32 = 100;

/// Heat through a vessel's wall: steel counts nothing, insulation stands in series with the air outside.
fn wall_conductance(entry: &TrainStage, area: Area) -> ThermalConductance {
    ThermalConductance::new::<watt_per_kelvin>(area.value * heat_flux(entry, 1.0))
}

/// Heat through each square metre of a vessel's wall, W/m², with gas inside that is so much hotter than the air, K.
pub(in crate::review) fn heat_flux(entry: &TrainStage, hotter: f64) -> f64 {
    let insulation = match entry.cover {
        CoverChoice::Bare => 0.0,
        CoverChoice::Insulated => entry.insulation.value / entry.insulation_conductivity.value,
    };
    hotter / (1.0 / BARE_VESSEL + insulation)
}

fn cyclone(entry: &TrainStage) -> Cyclone {
    let cyclone = train_mass::built(entry);
    let sizes = cyclone.dimensions();
    let body = sizes.body_diameter;
    // The cone is so steep that its slant is as good as its height.
    let mean_of_cone = 0.5 * (body + sizes.dust_outlet);
    let area = PI * (body * sizes.body_height + mean_of_cone * sizes.cone_height)
        + 0.25 * PI * body * body;
    Cyclone {
        wall_conductance: wall_conductance(entry, area),
        ..cyclone
    }
}

/// Handbook values near room temperature, from memory; what is sold as copper or aluminium tube conducts less than the pure
/// metal.
fn conductivity(metal: TubeMetal) -> ThermalConductivity {
    ThermalConductivity::new::<watt_per_meter_kelvin>(match metal {
        TubeMetal::MildSteel => 45.0,
        TubeMetal::Stainless => 16.0,
        TubeMetal::Copper => 380.0,
        TubeMetal::Aluminium => 200.0,
    })
}

/// The cooler of an entry.
pub(super) fn cooler(entry: &TrainStage) -> Cooler {
    let fins = TubeFins {
        diameter: entry.fin_diameter,
        thickness: entry.fin_thickness,
        pitch: entry.fin_pitch,
        conductivity: entry.fin_conductivity,
    };
    Cooler {
        tubes: entry.tubes,
        length: entry.tube_length,
        bore: entry.tube_bore,
        wall: entry.tube_wall,
        wall_conductivity: conductivity(entry.tube_material),
        roughness: Length::new::<millimeter>(TUBE_ROUGHNESS),
        emittance: entry.emittance,
        orientation: orientation(entry),
        block: Some(TubeBlock::of(entry)),
        header_loss: entry.header_loss,
        kind: match entry.cooling {
            CoolerType::Bare => CoolerKind::Bare,
            CoolerType::Finned => CoolerKind::Finned(fins),
            CoolerType::Fan => CoolerKind::FanBlown {
                air_speed: entry.air_speed,
                fins: None,
            },
            CoolerType::FinnedFan => CoolerKind::FanBlown {
                air_speed: entry.air_speed,
                fins: Some(fins),
            },
            CoolerType::Water => CoolerKind::WaterJacket {
                inlet: entry.water_temperature,
                flow: entry.water_flow,
                coefficient: entry.water_coefficient,
            },
        },
    }
}

/// Drawn tube, mm (Moody, Trans. ASME 66, 1944, for commercial steel; from memory).
const TUBE_ROUGHNESS: f64 = 0.046;

fn trap(entry: &TrainStage) -> Trap {
    Trap {
        bore: entry.bore,
        loss_coefficient: entry.other_loss.min(100.0),
        separation: entry.separation,
        capacity: train_mass::holds(entry),
        wall_conductance: wall_conductance(entry, drum_surface(entry).unwrap_or_default()),
    }
}

fn filter(entry: &TrainStage) -> Filter {
    let (medium, area) = match entry.medium {
        FilterMedium::Packed => {
            let diameter = entry.filter_diameter.value;
            (
                Medium::PackedBed {
                    piece_size: entry.filter_piece,
                    void_share: entry.filter_voids,
                    depth: entry.filter_depth,
                    dirty_factor: entry.dirty_factor,
                },
                Area::new::<square_meter>(0.25 * PI * diameter * diameter),
            )
        }
        FilterMedium::Cloth => {
            let per_resistance = COOL_VISCOSITY * CLOTH_VELOCITY;
            (
                Medium::Cloth {
                    resistance: entry.cloth_loss.value / per_resistance,
                    cake_resistance: entry.cake_loss.value / per_resistance / CAKE,
                },
                entry.cloth_area,
            )
        }
    };
    Filter {
        medium,
        area,
        efficiency: entry.catches,
        dust_capacity: entry.dust_capacity,
        limit: entry.medium_limit,
        may_be_wet: entry.medium == FilterMedium::Packed && entry.may_be_wet,
        wall_conductance: wall_conductance(entry, drum_surface(entry).unwrap_or_default()),
    }
}

fn measured(entry: &TrainStage, full: VolumeRate) -> Measured {
    let loss = |at_flow: Pressure| EnteredLoss {
        at_flow,
        flow: full,
        linear: entry.measured_linear,
    };
    Measured {
        clean: loss(entry.measured_loss),
        dirty: loss(entry.measured_dirty),
        leaves_at: entry.leaves_at,
    }
}

fn blower(
    design: &Design,
    entry: &TrainStage,
    full: VolumeRate,
    curve: &BlowerCurve,
) -> BlowerStage {
    let blower = &design.blower;
    // No controller is told to go faster than can be entered.
    let fastest = Design::nearest_allowed("blower", "speed_share", f64::INFINITY);
    BlowerStage {
        curve: curve.clone(),
        fastest: Ratio::new::<ratio>(fastest),
        bore: entry.bore,
        resting_loss: entry.other_loss,
        efficiency: blower.efficiency,
        motor_efficiency: blower.motor_efficiency,
        limit: ThermodynamicTemperature::new::<degree_celsius>(BLOWER_LIMIT),
        with_engine: if blower.assists {
            WithEngine::Running(blower.speed_share)
        } else {
            WithEngine::Stopped
        },
        flare: EnteredLoss {
            at_flow: blower.flare_drop,
            flow: full,
            linear: false,
        },
    }
}
