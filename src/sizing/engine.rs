//! What the engine draws, what it gives, and what wood that takes; and the way back, from power or gas to size.
//!
//! A piston engine draws a fixed volume of mixture per turn, whatever is in it. Wood gas and its air hold less
//! heat per volume than petrol and air, so the same engine gives less. Friction and throttling at part load are
//! inside the brake efficiency: use a lower one for part load.

mod efficiency;
mod entered;

pub use efficiency::{part_load_factor, usual_brake_efficiency};
pub(crate) use entered::cycle_of;
pub use entered::{engine_of, intake_of};

use super::gas::GasSolution;
use crate::physics::air::pressure_at_altitude;
use crate::physics::normal_state;
use uom::si::angular_velocity::revolution_per_minute;
use uom::si::f64::{
    AngularVelocity, Length, MassRate, Power, Pressure, Ratio, SpecificVolume,
    ThermodynamicTemperature, Volume, VolumeRate,
};
use uom::si::length::meter;
use uom::si::power::watt;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::specific_volume::cubic_meter_per_kilogram;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::volume::cubic_meter;
use uom::si::volume_rate::cubic_meter_per_second;

/// Heat of a stoichiometric mixture of petrol vapour and air, MJ per normal m³: 43.5 MJ/kg, 14.7 kg of air of
/// 1.293 kg/m³ per kg, vapour of 105 g/mol (from memory of common handbooks).
pub const PETROL_MIXTURE_HEAT: f64 = 43.5 / (14.7 / 1.293 + 22.414 / 105.0);

/// How often a cylinder fills.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cycle {
    /// Every second turn.
    FourStroke,
    /// Every turn.
    TwoStroke,
}

impl Cycle {
    /// Turns from one filling of a cylinder to the next.
    pub fn turns_per_filling(self) -> f64 {
        match self {
            Cycle::FourStroke => 2.0,
            Cycle::TwoStroke => 1.0,
        }
    }
}

/// An engine and how it is run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Engine {
    /// Four- or two-stroke.
    pub cycle: Cycle,
    /// Swept volume of all cylinders, 10 cm³ to 100 L.
    pub displacement: Volume,
    /// Speed, 100 to 12 000 turns per minute.
    pub speed: AngularVelocity,
    /// Mixture drawn over swept volume, 0.2 to 1.2; usual 0.80 (common practice).
    pub volumetric_efficiency: Ratio,
    /// Shaft work over heat of the gas, 0.05 to 0.45; see [`usual_brake_efficiency`].
    pub brake_efficiency: Ratio,
    /// The same on petrol, 0.05 to 0.45, for comparison; usual 0.25 for a small engine (common practice).
    pub petrol_efficiency: Ratio,
    /// Electric over shaft power, 0.1 to 1; usual 0.85 (common practice).
    pub generator_efficiency: Ratio,
    /// Mixture drawn over that at full throttle, 0.02 to 1.
    pub load: Ratio,
}

/// Where the engine stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Intake {
    /// Height above sea level, -400 to 5000 m.
    pub altitude: Length,
    /// Temperature of the mixture at the intake, -40 to 120 °C.
    pub temperature: ThermodynamicTemperature,
}

/// The gas as the engine sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EngineGas {
    /// Lower heating value, MJ per normal m³ of dry gas, 0.5 to 40.
    pub lower_heating_value: f64,
    /// Stoichiometric air, normal m³ per normal m³ of dry gas, 0.1 to 15.
    pub stoichiometric_air: f64,
    /// Air drawn over stoichiometric air, 0.8 to 3; usual 1.
    pub air_ratio: Ratio,
    /// Water vapour left in the gas per dry gas by volume, 0 to 1; gas cooled to 40 °C holds 0.08 when saturated.
    pub water_per_gas: Ratio,
    /// Dry gas per kg of fuel as fired.
    pub gas_per_fuel: SpecificVolume,
}

impl EngineGas {
    /// Gas of a hearth, cooled and dried, with stoichiometric air.
    ///
    /// ```
    /// use hearthplan::sizing::{engine::EngineGas, fuel::PRESETS, gas::{Gasifier, HeatLoss}};
    /// use uom::si::{f64::Ratio, ratio::ratio};
    /// let none = Ratio::new::<ratio>(0.0);
    /// let made = Gasifier::usual(PRESETS[0].fuel())
    ///     .solve(HeatLoss::Share { at_or_above_nozzle: none, below_nozzle: none })
    ///     .unwrap();
    /// assert_eq!(EngineGas::dried(&made).lower_heating_value, made.lower_heating_value);
    /// ```
    pub fn dried(gas: &GasSolution) -> Self {
        EngineGas {
            lower_heating_value: gas.lower_heating_value,
            stoichiometric_air: gas.stoichiometric_air,
            air_ratio: Ratio::new::<ratio>(1.0),
            water_per_gas: Ratio::new::<ratio>(0.0),
            gas_per_fuel: gas.gas_per_fuel,
        }
    }

    /// Volume of mixture per volume of dry gas.
    fn mixture_per_gas(&self) -> f64 {
        1.0 + self.stoichiometric_air * self.air_ratio.get::<ratio>()
            + self.water_per_gas.get::<ratio>()
    }

    fn checked(&self) -> Result<(), EngineError> {
        within(
            "heating value of the gas in MJ/Nm³",
            self.lower_heating_value,
            0.5,
            40.0,
        )?;
        within(
            "stoichiometric air in m³/m³",
            self.stoichiometric_air,
            0.1,
            15.0,
        )?;
        within("air ratio", self.air_ratio.get::<ratio>(), 0.8, 3.0)?;
        within(
            "water vapour per gas",
            self.water_per_gas.get::<ratio>(),
            0.0,
            1.0,
        )?;
        within(
            "gas per fuel in m³/kg",
            self.gas_per_fuel.get::<cubic_meter_per_kilogram>(),
            0.1,
            20.0,
        )
    }
}

/// What the engine draws and gives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EngineRun {
    /// Mixture at intake pressure and temperature.
    pub mixture_rate: VolumeRate,
    /// Dry gas at normal conditions.
    pub gas_rate: VolumeRate,
    /// Air at normal conditions.
    pub air_rate: VolumeRate,
    /// Heat of the gas.
    pub gas_power: Power,
    /// At the shaft.
    pub shaft_power: Power,
    /// At the generator's terminals.
    pub electric_power: Power,
    /// What the same engine would give at the shaft on petrol, at the same place, speed and load.
    pub petrol_power: Power,
    /// Share of the petrol power that is kept on gas.
    pub power_kept: Ratio,
    /// Power over that at sea level and 15 °C.
    pub thin_air_factor: Ratio,
    /// Fuel as fired.
    pub fuel_rate: MassRate,
    /// kg of fuel as fired per kWh at the shaft.
    pub fuel_per_shaft_kilowatt_hour: f64,
    /// kg of fuel as fired per kWh of electricity.
    pub fuel_per_electric_kilowatt_hour: f64,
}

/// Why an engine cannot be worked out.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum EngineError {
    /// A number outside its range.
    #[error("{field} is {value:.4}, it must lie between {low} and {high}")]
    OutOfRange {
        /// What was given, with its unit.
        field: &'static str,
        /// Its value in that unit.
        value: f64,
        /// Lowest value.
        low: f64,
        /// Highest value.
        high: f64,
    },
}

fn within(field: &'static str, value: f64, low: f64, high: f64) -> Result<(), EngineError> {
    if value >= low && value <= high {
        Ok(())
    } else {
        Err(EngineError::OutOfRange {
            field,
            value,
            low,
            high,
        })
    }
}

impl Engine {
    fn checked(&self) -> Result<(), EngineError> {
        within(
            "displacement in m³",
            self.displacement.get::<cubic_meter>(),
            1e-5,
            0.1,
        )?;
        within(
            "speed in turns per minute",
            self.speed.get::<revolution_per_minute>(),
            100.0,
            12_000.0,
        )?;
        let share = |field, value: Ratio, low, high| within(field, value.get::<ratio>(), low, high);
        share(
            "volumetric efficiency",
            self.volumetric_efficiency,
            0.2,
            1.2,
        )?;
        share("brake efficiency on gas", self.brake_efficiency, 0.05, 0.45)?;
        share(
            "brake efficiency on petrol",
            self.petrol_efficiency,
            0.05,
            0.45,
        )?;
        share("generator efficiency", self.generator_efficiency, 0.1, 1.0)?;
        share("share of full load", self.load, 0.02, 1.0)
    }

    /// Mixture drawn at intake pressure and temperature, m³/s.
    fn mixture(&self) -> f64 {
        self.displacement.get::<cubic_meter>() * self.speed.get::<revolution_per_minute>()
            / 60.0
            / self.cycle.turns_per_filling()
            * self.volumetric_efficiency.get::<ratio>()
            * self.load.get::<ratio>()
    }

    /// Mixture of gas and air drawn, counted at 0 °C and 101.325 kPa, whatever gas it is.
    ///
    /// # Errors
    /// [`EngineError::OutOfRange`] for an input outside the range its field names.
    ///
    /// ```
    /// # use hearthplan::design::Design;
    /// # use hearthplan::sizing::engine::{engine_of, intake_of};
    /// # use uom::si::volume_rate::cubic_meter_per_hour;
    /// // 1.25 L at 1800 turns per minute, filled to 80 %, at 40 °C.
    /// let design = Design::default();
    /// let drawn = engine_of(&design).unwrap().normal_mixture(&intake_of(&design)).unwrap();
    /// assert!((drawn.get::<cubic_meter_per_hour>() - 47.1).abs() < 0.1);
    /// ```
    pub fn normal_mixture(&self, intake: &Intake) -> Result<VolumeRate, EngineError> {
        self.checked()?;
        let density = intake.density_ratio()?;
        Ok(VolumeRate::new::<cubic_meter_per_second>(
            self.mixture() * density,
        ))
    }

    /// What this engine draws and gives on this gas at this place.
    ///
    /// # Errors
    /// [`EngineError::OutOfRange`] for an input outside the range its field names.
    ///
    /// ```
    /// # use hearthplan::sizing::engine::{Cycle, Engine, EngineGas, Intake};
    /// # use uom::si::f64::*;
    /// # use uom::si::{angular_velocity::revolution_per_minute, length::meter, power::kilowatt, ratio::ratio};
    /// # use uom::si::{specific_volume::cubic_meter_per_kilogram, volume::cubic_centimeter};
    /// # use uom::si::thermodynamic_temperature::degree_celsius;
    /// let engine = Engine {
    ///     cycle: Cycle::FourStroke,
    ///     displacement: Volume::new::<cubic_centimeter>(400.0),
    ///     speed: AngularVelocity::new::<revolution_per_minute>(3000.0),
    ///     volumetric_efficiency: Ratio::new::<ratio>(0.8),
    ///     brake_efficiency: Ratio::new::<ratio>(0.22),
    ///     petrol_efficiency: Ratio::new::<ratio>(0.25),
    ///     generator_efficiency: Ratio::new::<ratio>(0.85),
    ///     load: Ratio::new::<ratio>(1.0),
    /// };
    /// let gas = EngineGas {
    ///     lower_heating_value: 5.0,
    ///     stoichiometric_air: 1.05,
    ///     air_ratio: Ratio::new::<ratio>(1.0),
    ///     water_per_gas: Ratio::new::<ratio>(0.0),
    ///     gas_per_fuel: SpecificVolume::new::<cubic_meter_per_kilogram>(2.2),
    /// };
    /// let intake = Intake {
    ///     altitude: Length::new::<meter>(0.0),
    ///     temperature: ThermodynamicTemperature::new::<degree_celsius>(25.0),
    /// };
    /// let run = engine.run(&gas, &intake).unwrap();
    /// assert!((run.shaft_power.get::<kilowatt>() - 3.93).abs() < 0.01);
    /// ```
    pub fn run(&self, gas: &EngineGas, intake: &Intake) -> Result<EngineRun, EngineError> {
        self.checked()?;
        gas.checked()?;
        let density = intake.density_ratio()?;
        let mixture = self.mixture();
        let normal_mixture = mixture * density;
        let gas_rate = normal_mixture / gas.mixture_per_gas();
        let air_rate = gas_rate * gas.stoichiometric_air * gas.air_ratio.get::<ratio>();
        // A rich mixture leaves gas unburned for want of air.
        let burned = gas.air_ratio.get::<ratio>().min(1.0);
        let gas_power = gas_rate * gas.lower_heating_value * 1e6;
        let shaft_power = gas_power * burned * self.brake_efficiency.get::<ratio>();
        let petrol_power =
            normal_mixture * PETROL_MIXTURE_HEAT * 1e6 * self.petrol_efficiency.get::<ratio>();
        let electric_power = shaft_power * self.generator_efficiency.get::<ratio>();
        let gas_rate = VolumeRate::new::<cubic_meter_per_second>(gas_rate);
        let fuel_rate: MassRate = gas_rate / gas.gas_per_fuel;
        let per_kilowatt_hour = |power: f64| fuel_rate.value * 3.6e6 / power;
        Ok(EngineRun {
            mixture_rate: VolumeRate::new::<cubic_meter_per_second>(mixture),
            gas_rate,
            air_rate: VolumeRate::new::<cubic_meter_per_second>(air_rate),
            gas_power: Power::new::<watt>(gas_power),
            shaft_power: Power::new::<watt>(shaft_power),
            electric_power: Power::new::<watt>(electric_power),
            petrol_power: Power::new::<watt>(petrol_power),
            power_kept: Ratio::new::<ratio>(shaft_power / petrol_power),
            thin_air_factor: Ratio::new::<ratio>(density / (273.15 / 288.15)),
            fuel_rate,
            fuel_per_shaft_kilowatt_hour: per_kilowatt_hour(shaft_power),
            fuel_per_electric_kilowatt_hour: per_kilowatt_hour(electric_power),
        })
    }

    /// The displacement that gives `shaft_power`, everything else as in this engine (its own displacement does
    /// not matter, as long as it is in range).
    ///
    /// # Errors
    /// As [`Engine::run`], or for a power outside 10 W to 10 MW.
    ///
    /// ```
    /// # use hearthplan::sizing::engine::{Cycle, Engine, EngineGas, Intake};
    /// # use uom::si::f64::*;
    /// # use uom::si::{angular_velocity::revolution_per_minute, length::meter, power::kilowatt, ratio::ratio};
    /// # use uom::si::{specific_volume::cubic_meter_per_kilogram, volume::cubic_centimeter};
    /// # use uom::si::thermodynamic_temperature::degree_celsius;
    /// # let engine = Engine {
    /// #     cycle: Cycle::FourStroke,
    /// #     displacement: Volume::new::<cubic_centimeter>(400.0),
    /// #     speed: AngularVelocity::new::<revolution_per_minute>(3000.0),
    /// #     volumetric_efficiency: Ratio::new::<ratio>(0.8),
    /// #     brake_efficiency: Ratio::new::<ratio>(0.22),
    /// #     petrol_efficiency: Ratio::new::<ratio>(0.25),
    /// #     generator_efficiency: Ratio::new::<ratio>(0.85),
    /// #     load: Ratio::new::<ratio>(1.0),
    /// # };
    /// # let gas = EngineGas {
    /// #     lower_heating_value: 5.0,
    /// #     stoichiometric_air: 1.05,
    /// #     air_ratio: Ratio::new::<ratio>(1.0),
    /// #     water_per_gas: Ratio::new::<ratio>(0.0),
    /// #     gas_per_fuel: SpecificVolume::new::<cubic_meter_per_kilogram>(2.2),
    /// # };
    /// # let intake = Intake {
    /// #     altitude: Length::new::<meter>(0.0),
    /// #     temperature: ThermodynamicTemperature::new::<degree_celsius>(25.0),
    /// # };
    /// let size = engine.displacement_for_power(Power::new::<kilowatt>(7.86), &gas, &intake).unwrap();
    /// assert!((size.get::<cubic_centimeter>() - 800.0).abs() < 2.0);
    /// ```
    pub fn displacement_for_power(
        &self,
        shaft_power: Power,
        gas: &EngineGas,
        intake: &Intake,
    ) -> Result<Volume, EngineError> {
        within(
            "shaft power wanted in W",
            shaft_power.get::<watt>(),
            10.0,
            1e7,
        )?;
        let run = self.run(gas, intake)?;
        Ok(self.displacement * (shaft_power / run.shaft_power))
    }

    /// The displacement that draws `gas_rate` (dry, normal), everything else as in this engine: what engine
    /// suits this hearth.
    ///
    /// # Errors
    /// As [`Engine::run`], or for a gas rate outside 1e-6 to 10 m³/s.
    ///
    /// ```
    /// # use hearthplan::sizing::engine::{Cycle, Engine, EngineGas, Intake};
    /// # use uom::si::f64::*;
    /// # use uom::si::{angular_velocity::revolution_per_minute, length::meter, ratio::ratio};
    /// # use uom::si::{specific_volume::cubic_meter_per_kilogram, volume::cubic_centimeter};
    /// # use uom::si::thermodynamic_temperature::degree_celsius;
    /// # let engine = Engine {
    /// #     cycle: Cycle::FourStroke,
    /// #     displacement: Volume::new::<cubic_centimeter>(400.0),
    /// #     speed: AngularVelocity::new::<revolution_per_minute>(3000.0),
    /// #     volumetric_efficiency: Ratio::new::<ratio>(0.8),
    /// #     brake_efficiency: Ratio::new::<ratio>(0.22),
    /// #     petrol_efficiency: Ratio::new::<ratio>(0.25),
    /// #     generator_efficiency: Ratio::new::<ratio>(0.85),
    /// #     load: Ratio::new::<ratio>(1.0),
    /// # };
    /// # let gas = EngineGas {
    /// #     lower_heating_value: 5.0,
    /// #     stoichiometric_air: 1.05,
    /// #     air_ratio: Ratio::new::<ratio>(1.0),
    /// #     water_per_gas: Ratio::new::<ratio>(0.0),
    /// #     gas_per_fuel: SpecificVolume::new::<cubic_meter_per_kilogram>(2.2),
    /// # };
    /// # let intake = Intake {
    /// #     altitude: Length::new::<meter>(0.0),
    /// #     temperature: ThermodynamicTemperature::new::<degree_celsius>(25.0),
    /// # };
    /// let drawn = engine.run(&gas, &intake).unwrap().gas_rate;
    /// let size = engine.displacement_for_gas(drawn, &gas, &intake).unwrap();
    /// assert!((size.get::<cubic_centimeter>() - 400.0).abs() < 1e-6);
    /// ```
    pub fn displacement_for_gas(
        &self,
        gas_rate: VolumeRate,
        gas: &EngineGas,
        intake: &Intake,
    ) -> Result<Volume, EngineError> {
        within(
            "gas rate in m³/s",
            gas_rate.get::<cubic_meter_per_second>(),
            1e-6,
            10.0,
        )?;
        let run = self.run(gas, intake)?;
        Ok(self.displacement * (gas_rate / run.gas_rate))
    }
}

impl Intake {
    fn pressure(&self) -> Pressure {
        Pressure::new::<pascal>(pressure_at_altitude(self.altitude.get::<meter>()))
    }

    /// Density of the mixture over that at normal conditions, by ideal gas.
    fn density_ratio(&self) -> Result<f64, EngineError> {
        within(
            "height above sea level in m",
            self.altitude.get::<meter>(),
            -400.0,
            5000.0,
        )?;
        let temperature = self.temperature.get::<kelvin>();
        within("intake temperature in K", temperature, 233.15, 393.15)?;
        Ok(
            self.pressure().get::<pascal>() / normal_state::PRESSURE * normal_state::TEMPERATURE
                / temperature,
        )
    }
}
