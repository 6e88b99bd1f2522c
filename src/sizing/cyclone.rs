//! How big is a cyclone, which grains does it catch, and what does it cost in pressure?
//!
//! Proportions and cut diameter after Lapple, and the proportions of Stairmand: Cooper and Alley, Air Pollution Control,
//! chapter on cyclones, from memory. Cut diameter: the grain of which half is caught,
//! `sqrt(9 μ W / (2 π N v (ρp − ρ)))` with the turns `N = (body + cone/2) / inlet height`. Loss: `16 H W / De²` velocity
//! heads of the inlet. Share caught of other grains: `1 / (1 + (cut/d)²)` (Theodore and DePaola's fit to Lapple's curve,
//! from memory).

use crate::physics::error::{PhysicsError, within};
use crate::sizing::train::{
    Circumstances, Detail, GasState, Note, Passage, StageError, StageOutcome, wall_heat,
};
use std::f64::consts::PI;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{
    DynamicViscosity, Length, MassDensity, Pressure, ThermalConductance, Velocity, VolumeRate,
};
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::velocity::meter_per_second;

/// Velocity heads of the inlet per `H W / De²`: tangential inlet without vanes; 12 to 18 are measured.
const LOSS_CONSTANT: f64 = 16.0;
/// Slowest good inlet velocity, m/s (Cooper and Alley, from memory).
pub const SLOWEST_INLET: f64 = 15.0;
/// Fastest good inlet velocity, m/s (Cooper and Alley, from memory).
pub const FASTEST_INLET: f64 = 20.0;
/// Below this share of the slowest good inlet velocity a cyclone works poorly (common practice, no source).
pub const WORKS_POORLY: f64 = 0.5;
/// Above so many times the fastest good inlet velocity it stirs up what it caught. Our own mark.
const STIRS_UP: f64 = 1.25;

/// Family of proportions.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Proportions {
    /// General purpose, Lapple.
    Lapple,
    /// High efficiency, Stairmand.
    Stairmand,
}

/// Lengths as shares of the body diameter.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Shares {
    inlet_height: f64,
    inlet_width: f64,
    outlet: f64,
    vortex_finder: f64,
    body: f64,
    cone: f64,
    dust_outlet: f64,
}

impl Proportions {
    fn shares(self) -> Shares {
        match self {
            Proportions::Lapple => Shares {
                inlet_height: 0.5,
                inlet_width: 0.25,
                outlet: 0.5,
                vortex_finder: 0.625,
                body: 2.0,
                cone: 2.0,
                dust_outlet: 0.25,
            },
            Proportions::Stairmand => Shares {
                inlet_height: 0.5,
                inlet_width: 0.2,
                outlet: 0.5,
                vortex_finder: 0.5,
                body: 1.5,
                cone: 2.5,
                dust_outlet: 0.375,
            },
        }
    }
}

/// Lengths to build a cyclone by; all inside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CycloneDimensions {
    /// Diameter of the body.
    pub body_diameter: Length,
    /// Height of the inlet slot.
    pub inlet_height: Length,
    /// Width of the inlet slot.
    pub inlet_width: Length,
    /// Diameter of the gas outlet.
    pub outlet_diameter: Length,
    /// Depth of the gas outlet's pipe below the lid.
    pub vortex_finder: Length,
    /// Height of the straight body.
    pub body_height: Length,
    /// Height of the cone.
    pub cone_height: Length,
    /// Diameter of the dust outlet.
    pub dust_outlet: Length,
}

/// A cyclone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cyclone {
    /// Family of proportions.
    pub proportions: Proportions,
    /// Inside diameter of the body, 20 mm to 2 m.
    pub body_diameter: Length,
    /// Density of a grain, 100 to 5000 kg/m³; char dust about 1200 (our own estimate).
    pub particle_density: MassDensity,
    /// Heat lost through its wall, 0 to 1000 W/K.
    pub wall_conductance: ThermalConductance,
}

/// Gas that runs into a cyclone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CycloneGas {
    /// Flow as it is, 1e-6 to 100 m³/s.
    pub flow: VolumeRate,
    /// Density, 0.05 to 10 kg/m³.
    pub density: MassDensity,
    /// Viscosity, 1e-6 to 1e-3 Pa·s.
    pub viscosity: DynamicViscosity,
}

/// What a cyclone does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CycloneResult {
    /// Lengths to build it by.
    pub dimensions: CycloneDimensions,
    /// Velocity in the inlet slot.
    pub inlet_velocity: Velocity,
    /// Turns of the gas.
    pub turns: f64,
    /// Grain of which half is caught.
    pub cut_diameter: Length,
    /// Loss in velocity heads of the inlet.
    pub velocity_heads: f64,
    /// Pressure lost.
    pub pressure_loss: Pressure,
}

impl CycloneResult {
    /// Share of grains of a size that is caught, 0 to 1.
    pub fn caught(&self, grain: Length) -> f64 {
        let relative = self.cut_diameter.value / grain.value;
        1.0 / (1.0 + relative * relative)
    }
}

impl Cyclone {
    /// Lengths to build it by.
    ///
    /// ```
    /// use hearthplan::sizing::cyclone::{Cyclone, Proportions};
    /// use uom::si::{f64::*, length::millimeter, mass_density::kilogram_per_cubic_meter};
    /// let cyclone = Cyclone {
    ///     proportions: Proportions::Lapple,
    ///     body_diameter: Length::new::<millimeter>(120.0),
    ///     particle_density: MassDensity::new::<kilogram_per_cubic_meter>(1200.0),
    ///     wall_conductance: ThermalConductance::default(),
    /// };
    /// assert!((cyclone.dimensions().inlet_width.get::<millimeter>() - 30.0).abs() < 1e-9);
    /// ```
    pub fn dimensions(&self) -> CycloneDimensions {
        let shares = self.proportions.shares();
        let diameter = self.body_diameter;
        CycloneDimensions {
            body_diameter: diameter,
            inlet_height: diameter * shares.inlet_height,
            inlet_width: diameter * shares.inlet_width,
            outlet_diameter: diameter * shares.outlet,
            vortex_finder: diameter * shares.vortex_finder,
            body_height: diameter * shares.body,
            cone_height: diameter * shares.cone,
            dust_outlet: diameter * shares.dust_outlet,
        }
    }

    /// Cut diameter and loss for a gas.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`] naming the value at fault.
    pub fn separate(&self, gas: &CycloneGas) -> Result<CycloneResult, PhysicsError> {
        let diameter = within(
            "body of the cyclone",
            "m",
            self.body_diameter.value,
            0.02,
            2.0,
        )?;
        let grain = within(
            "density of the grains",
            "kg/m³",
            self.particle_density.value,
            100.0,
            5000.0,
        )?;
        let flow = within("gas flow", "m³/s", gas.flow.value, 1e-6, 100.0)?;
        let density = within("gas density", "kg/m³", gas.density.value, 0.05, 10.0)?;
        let viscosity = within("gas viscosity", "Pa·s", gas.viscosity.value, 1e-6, 1e-3)?;
        let shares = self.proportions.shares();
        let (height, width) = (
            shares.inlet_height * diameter,
            shares.inlet_width * diameter,
        );
        let velocity = flow / (height * width);
        let turns = (shares.body + 0.5 * shares.cone) / shares.inlet_height;
        let cut =
            (9.0 * viscosity * width / (2.0 * PI * turns * velocity * (grain - density))).sqrt();
        let heads = LOSS_CONSTANT * shares.inlet_height * shares.inlet_width
            / (shares.outlet * shares.outlet);
        Ok(CycloneResult {
            dimensions: self.dimensions(),
            inlet_velocity: Velocity::new::<meter_per_second>(velocity),
            turns,
            cut_diameter: Length::new::<meter>(cut),
            velocity_heads: heads,
            pressure_loss: Pressure::new::<pascal>(heads * 0.5 * density * velocity * velocity),
        })
    }

    /// Sends gas through the cyclone.
    pub(crate) fn pass(
        &self,
        gas: &GasState,
        circumstances: &Circumstances,
    ) -> Result<StageOutcome, StageError> {
        let properties = gas.properties()?;
        let result = self.separate(&CycloneGas {
            flow: gas.volume_rate(),
            density: MassDensity::new::<kilogram_per_cubic_meter>(properties.density),
            viscosity: DynamicViscosity::new::<pascal_second>(properties.viscosity),
        })?;
        let conductance = within(
            "heat lost through the cyclone's wall",
            "W/K",
            self.wall_conductance.value,
            0.0,
            1000.0,
        )?;
        let heat = wall_heat(
            gas,
            conductance,
            circumstances.surroundings.temperature.value,
        )?;
        let (mut out, frost) =
            gas.after_heat(heat, gas.pressure.value - result.pressure_loss.value)?;
        out.dust = gas.dust.less(|grain| result.caught(grain));
        let mut notes = Vec::new();
        let velocity = result.inlet_velocity.value;
        if velocity < WORKS_POORLY * SLOWEST_INLET {
            notes.push(Note::BelowHalfFlow);
        }
        if velocity > STIRS_UP * FASTEST_INLET {
            notes.push(Note::TooFast);
        }
        if gas.liquid.value > 0.0 {
            notes.push(Note::DropsArrive);
        }
        if gas.tar.mist {
            notes.push(Note::TarMistArrives);
        }
        notes.extend(frost.then_some(Note::Frost));
        Passage {
            out,
            velocity,
            density: properties.density,
            detail: Detail::Cyclone(result),
            notes,
        }
        .outcome(gas)
    }
}
