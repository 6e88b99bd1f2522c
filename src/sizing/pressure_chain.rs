//! What pressure does it take to pull air and gas through the hearth?
//!
//! The chain runs from the air outside to the hearth's outlet; what follows is the gas train. Each stage is computed at
//! its own temperature and density; the small fall of pressure along the chain (a few percent) is not carried into the
//! density.

mod stage;

use super::nozzles::{NozzleRing, Surroundings};
use crate::physics::species::{GAS_CONSTANT, Species};
use crate::physics::{air, normal_state};
pub use stage::HearthStage;
use stage::{Resistance, Stage};
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{
    Area, DynamicViscosity, Length, MassDensity, MolarMass, Pressure, Ratio,
    ThermodynamicTemperature, VolumeRate,
};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::molar_mass::{gram_per_mole, kilogram_per_mole};
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

/// What the chain must know of the gas.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gas {
    /// Mass of a mole as it flows, steam included.
    pub molar_mass: MolarMass,
    /// Viscosity over that of air at the same temperature.
    pub viscosity_per_air: Ratio,
    /// Moles of steam per mole of dry gas: flows are counted dry, and the steam takes its room beside them.
    pub steam: Ratio,
}

impl Default for Gas {
    /// Dry gas of the composition published by Zainal et al., Energy Conversion and Management 42, 2001, from memory:
    /// 24.4 g/mol. Its viscosity is about nine tenths of air's (our own estimate from the viscosities of its parts).
    fn default() -> Self {
        Self {
            molar_mass: MolarMass::new::<gram_per_mole>(24.4),
            viscosity_per_air: Ratio::new::<ratio>(0.9),
            steam: Ratio::default(),
        }
    }
}

impl Gas {
    /// A dry gas with steam in it. Steam has 0.9 to 1.0 of the viscosity of air between 600 and 1000 °C (from memory), as
    /// the dry gas has, so that the viscosity stays.
    ///
    /// ```
    /// use hearthplan::sizing::pressure_chain::Gas;
    /// use uom::si::{f64::Ratio, molar_mass::gram_per_mole, ratio::ratio};
    /// let wet = Gas::default().with_steam(Ratio::new::<ratio>(0.1));
    /// assert!((wet.molar_mass.get::<gram_per_mole>() - (24.4 + 0.1 * 18.015) / 1.1).abs() < 1e-3);
    /// ```
    #[must_use]
    pub fn with_steam(self, steam: Ratio) -> Self {
        let water = MolarMass::new::<kilogram_per_mole>(Species::Water.molar_mass());
        Self {
            molar_mass: (self.molar_mass + steam * water) / (1.0 + steam.value),
            steam,
            ..self
        }
    }

    /// Density by the ideal gas law.
    ///
    /// ```
    /// use hearthplan::sizing::pressure_chain::Gas;
    /// use uom::si::{f64::*, mass_density::kilogram_per_cubic_meter, pressure::pascal, thermodynamic_temperature::kelvin};
    /// let density = Gas::default().density(
    ///     ThermodynamicTemperature::new::<kelvin>(273.15),
    ///     Pressure::new::<pascal>(101_325.0),
    /// );
    /// assert!((density.get::<kilogram_per_cubic_meter>() - 1.089).abs() < 0.001);
    /// ```
    pub fn density(
        &self,
        temperature: ThermodynamicTemperature,
        pressure: Pressure,
    ) -> MassDensity {
        MassDensity::new::<kilogram_per_cubic_meter>(
            pressure.value * self.molar_mass.value / (GAS_CONSTANT * temperature.value),
        )
    }
}

/// What flows through a bed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Through {
    /// The air that makes the gas.
    Air,
    /// The gas.
    Gas,
}

/// A bed of pieces in a cylinder or a cone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bed {
    /// The stage it belongs to.
    pub stage: HearthStage,
    /// What flows through it.
    pub through: Through,
    /// Diameter where the flow enters.
    pub entry_diameter: Length,
    /// Diameter where the flow leaves.
    pub exit_diameter: Length,
    /// Length along the flow.
    pub length: Length,
    /// Usual size of a piece.
    pub piece_size: Length,
    /// Share of the bed that is gap.
    pub void_share: Ratio,
    /// How many times the clean bed's resistance to expect.
    pub fouling: f64,
    /// Temperature of what flows.
    pub temperature: ThermodynamicTemperature,
}

/// A grate with char lying on it and in its holes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grate {
    /// Area of the char above it.
    pub char: Area,
    /// Area of its holes under the char, and of what it leaves open beside it.
    pub open: Area,
    /// Share of the bed that is gap: of the holes as much is free.
    pub void_share: Ratio,
    /// Temperature of the gas.
    pub temperature: ThermodynamicTemperature,
}

impl Grate {
    /// Free area over that of the char above it; never quite nothing, so that any grate has a number.
    pub fn free_share(&self) -> f64 {
        let free = (self.open / self.char * self.void_share).value;
        free.clamp(0.001, 1.0)
    }
}

/// Everything between the air outside and the hearth's outlet.
#[derive(Debug, Clone, PartialEq)]
pub struct ChainInputs {
    /// The gas.
    pub gas: Gas,
    /// Gas volume from one volume of air.
    pub gas_per_air: f64,
    /// The air outside.
    pub surroundings: Surroundings,
    /// The air nozzles, if there are any.
    pub nozzles: Option<NozzleRing>,
    /// Beds of wood and char, in the order of the flow.
    pub beds: Vec<Bed>,
    /// The grate below the last bed, if anything is known of it.
    pub grate: Option<Grate>,
}

/// State of the filter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Filter {
    /// Just cleaned.
    Clean,
    /// Just before it is cleaned.
    Dirty,
}

/// Where the gas goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// To the flare, while lighting.
    Flare,
    /// To the engine.
    Engine,
}

/// Pressure drop of one stage at one flow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StageDrop {
    /// Which stage.
    pub kind: HearthStage,
    /// Its drop.
    pub drop: Pressure,
    /// Temperature used for it.
    pub temperature: ThermodynamicTemperature,
    /// Density used for it.
    pub density: MassDensity,
    /// Viscosity used for it.
    pub viscosity: DynamicViscosity,
    /// What flows through it, at that temperature.
    pub flow: VolumeRate,
}

/// The chain, ready to be asked at any gas flow.
#[derive(Debug, Clone, PartialEq)]
pub struct PressureChain {
    stages: Vec<Stage>,
}

impl PressureChain {
    /// Prepares the chain.
    ///
    /// Nozzles: orifice equation. Beds: Ergun, Chemical Engineering Progress 48, 1952, integrated along the cone, times
    /// the fouling. Grate: a plate with sharp-edged holes after Idelchik, as far as char leaves them free.
    ///
    /// ```
    /// use hearthplan::{design::Design, review::assess};
    /// use uom::si::{f64::VolumeRate, volume_rate::cubic_meter_per_hour};
    /// let chain = assess(&Design::default()).train.at_full.hearth;
    /// let flow = VolumeRate::new::<cubic_meter_per_hour>(20.0);
    /// let stages = chain.stages(flow);
    /// let sum: f64 = stages.iter().map(|stage| stage.drop.value).sum();
    /// assert!((chain.drop(flow).value - sum).abs() < 1e-9);
    /// ```
    pub fn new(inputs: &ChainInputs) -> Self {
        let around = &inputs.surroundings;
        let air_mass = normal_state::AIR_DENSITY / inputs.gas_per_air;
        let wet = 1.0 + inputs.gas.steam.value;
        let gas_mass = wet * inputs.gas.molar_mass.value / normal_state::MOLAR_VOLUME;
        let gas_density = |temperature| inputs.gas.density(temperature, around.pressure).value;
        let mut stages = Vec::with_capacity(8);
        if let Some(ring) = &inputs.nozzles {
            let air = air::Air::at(around.temperature.value, around.pressure.value);
            stages.push(Stage {
                kind: HearthStage::Nozzles,
                temperature: around.temperature.value,
                density: air.density,
                viscosity: air.viscosity,
                swelling: air_mass / air.density,
                resistance: Resistance::nozzles(ring, air.density, air_mass),
            });
        }
        for bed in &inputs.beds {
            let temperature = bed.temperature.value;
            let air = air::Air::at(temperature, around.pressure.value);
            let (density, viscosity, mass) = match bed.through {
                Through::Air => (air.density, air.viscosity, air_mass),
                Through::Gas => (
                    gas_density(bed.temperature),
                    air.viscosity * inputs.gas.viscosity_per_air.value,
                    gas_mass,
                ),
            };
            stages.push(Stage {
                kind: bed.stage,
                temperature,
                density,
                viscosity,
                swelling: mass / density,
                resistance: Resistance::bed(bed, density, viscosity, mass),
            });
        }
        if let Some(grate) = &inputs.grate {
            let temperature = grate.temperature.value;
            let density = gas_density(grate.temperature);
            let air = air::Air::at(temperature, around.pressure.value);
            stages.push(Stage {
                kind: HearthStage::Grate,
                temperature,
                density,
                viscosity: air.viscosity * inputs.gas.viscosity_per_air.value,
                swelling: gas_mass / density,
                resistance: Resistance::grate(grate, density, gas_mass),
            });
        }
        Self { stages }
    }

    /// Drop of the whole chain at a gas flow counted at 0 °C and 101.325 kPa.
    pub fn drop(&self, flow: VolumeRate) -> Pressure {
        let drop = self
            .stages
            .iter()
            .map(|stage| stage.resistance.drop(flow.value))
            .sum();
        Pressure::new::<pascal>(drop)
    }

    /// Drop of each stage, in the order of the flow; beds of one kind are added up.
    pub fn stages(&self, flow: VolumeRate) -> Vec<StageDrop> {
        let mut drops: Vec<StageDrop> = Vec::with_capacity(4);
        for stage in &self.stages {
            let drop = Pressure::new::<pascal>(stage.resistance.drop(flow.value));
            match drops.last_mut().filter(|last| last.kind == stage.kind) {
                Some(last) => last.drop += drop,
                None => drops.push(StageDrop {
                    kind: stage.kind,
                    drop,
                    temperature: ThermodynamicTemperature::new::<kelvin>(stage.temperature),
                    density: MassDensity::new::<kilogram_per_cubic_meter>(stage.density),
                    viscosity: DynamicViscosity::new::<pascal_second>(stage.viscosity),
                    flow: flow * stage.swelling,
                }),
            }
        }
        drops
    }
}
