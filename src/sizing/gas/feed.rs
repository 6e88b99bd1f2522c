//! What goes into the hearth, per kg of dry fuel, in the numbers the balances work with.

use super::error::{GasError, within};
use super::{CharBed, Gasifier, HeatLoss, Load};
use crate::physics::equilibrium::Elements;
use crate::physics::species::{LIQUID_WATER_ENTHALPY, REFERENCE_TEMPERATURE, Species, atomic_mass};
use crate::sizing::fuel::Fuel;
use uom::si::available_energy::joule_per_kilogram;
use uom::si::f64::{Ratio, VolumeRate};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::power::watt;
use uom::si::pressure::pascal;
use uom::si::ratio::{percent, ratio};
use uom::si::volume_rate::cubic_meter_per_second;

/// Nitrogen per oxygen in air, argon counted as nitrogen.
pub(super) const NITROGEN_PER_OXYGEN: f64 = 3.76;

/// Per kg of dry fuel: mol of atoms and J.
pub(super) struct Feed {
    /// Fuel alone.
    pub fuel: Elements,
    /// Moisture, mol of water.
    pub water: f64,
    /// Enthalpy of fuel and moisture, J.
    pub enthalpy: f64,
    /// Higher heating value, J.
    pub higher_heating_value: f64,
    /// Lower heating value of the fuel as fired, J per kg as fired.
    pub lower_heating_value_as_fired: f64,
    /// Oxygen for complete combustion, mol of O2.
    pub stoichiometric_oxygen: f64,
    /// Per kg of char.
    pub char: Char,
    /// Char left by pyrolysis, kg.
    pub char_share: f64,
    /// Char drawn off at the grate, kg.
    pub char_drawn: f64,
    /// Dry share of the fuel as fired.
    pub dry_share: f64,
    /// Pressure in the hearth, Pa.
    pub pressure: f64,
}

/// Per kg of char.
pub(super) struct Char {
    pub elements: Elements,
    /// Enthalpy at 25 °C, J.
    pub enthalpy: f64,
    /// Mean heat capacity, J/(kg·K).
    pub heat_capacity: f64,
    /// Oxygen for complete combustion, mol of O2.
    pub stoichiometric_oxygen: f64,
}

impl Char {
    pub fn enthalpy_at(&self, temperature: f64) -> f64 {
        self.enthalpy + self.heat_capacity * (temperature - REFERENCE_TEMPERATURE)
    }
}

/// What a kg of dry fuel gives, normal m³.
#[derive(Clone, Copy)]
pub(super) struct Yields {
    /// Dry gas.
    pub gas: f64,
    /// Dry gas with its stoichiometric air.
    pub mixture: f64,
}

impl Yields {
    /// About what wood gives, to start a search with.
    pub const USUAL: Yields = Yields {
        gas: 2.5,
        mixture: 5.2,
    };
}

/// Heat lost per kg of dry fuel: a fixed part, and parts that go with the gas or the mixture made.
#[derive(Clone, Copy)]
pub(super) struct LossTerms {
    /// J per kg of dry fuel.
    pub per_fuel: f64,
    /// J per normal cubic metre of dry gas.
    pub per_gas: f64,
    /// J per normal cubic metre of dry gas with its stoichiometric air.
    pub per_mixture: f64,
}

impl LossTerms {
    pub fn at(&self, yields: &Yields) -> f64 {
        self.per_fuel + self.per_gas * yields.gas + self.per_mixture * yields.mixture
    }
}

impl Feed {
    pub fn new(gasifier: &Gasifier) -> Result<Feed, GasError> {
        let fuel = gasifier.fuel.checked()?;
        let values = fuel.heating_values()?;
        let higher = values.higher_dry.get::<joule_per_kilogram>();
        let moisture = fuel.moisture.get::<ratio>();
        let water_mass = 2.0 * atomic_mass::HYDROGEN + atomic_mass::OXYGEN;
        let water = moisture / (1.0 - moisture) / water_mass;
        let elements = atoms(&fuel);
        // Sulphur leaves unburned here, with the ash, so its heat must not enter the balance.
        let formation = formation_enthalpy(higher - sulphur_heat(&fuel), &elements);
        let char_share = within(
            "char share in % of dry fuel",
            gasifier.char.share.get::<percent>(),
            0.0,
            95.0,
        )? / 100.0;
        let char_drawn = within(
            "char drawn off in % of dry fuel",
            gasifier.char.drawn.get::<percent>(),
            0.0,
            100.0 * char_share,
        )? / 100.0;
        let pressure = within(
            "pressure in the hearth in Pa",
            gasifier.pressure.get::<pascal>(),
            3e4,
            3e5,
        )?;
        let char = char_of(&gasifier.char)?;
        check_char_share(char_share, &elements, &char.elements)?;
        Ok(Feed {
            fuel: elements,
            water,
            enthalpy: formation + water * LIQUID_WATER_ENTHALPY,
            higher_heating_value: higher,
            lower_heating_value_as_fired: values.lower_as_fired.get::<joule_per_kilogram>(),
            stoichiometric_oxygen: stoichiometric_oxygen(&elements),
            char,
            char_share,
            char_drawn,
            dry_share: 1.0 - moisture,
            pressure,
        })
    }

    /// Atoms of fuel less `char` kg of char, plus moisture, plus `oxygen` mol of O2 with its nitrogen.
    pub fn charge(&self, char: f64, oxygen: f64) -> Elements {
        let moisture = Elements {
            hydrogen: 2.0 * self.water,
            oxygen: self.water,
            ..Elements::default()
        };
        let left = self.fuel.plus(-char, &self.char.elements);
        // The share was checked; this only takes off what rounding leaves below zero.
        Elements {
            carbon: left.carbon.max(0.0),
            hydrogen: left.hydrogen.max(0.0),
            oxygen: left.oxygen.max(0.0),
            nitrogen: left.nitrogen,
        }
        .plus(1.0, &moisture)
        .plus(1.0, &air(oxygen))
    }

    /// Heat lost at or above the nozzle plane, and in all.
    pub fn losses(&self, loss: &HeatLoss) -> Result<(LossTerms, LossTerms), GasError> {
        match *loss {
            HeatLoss::Share {
                at_or_above_nozzle,
                below_nozzle,
            } => {
                let share = |field, value: Ratio| {
                    within(field, value.get::<percent>(), 0.0, 90.0)
                        .map(|value| value / 100.0 * self.higher_heating_value)
                };
                let above = share(
                    "loss at or above the fire in % of fuel power",
                    at_or_above_nozzle,
                )?;
                let below = share("loss below the fire in % of fuel power", below_nozzle)?;
                let fixed = |per_fuel| LossTerms {
                    per_fuel,
                    per_gas: 0.0,
                    per_mixture: 0.0,
                };
                Ok((fixed(above), fixed(above + below)))
            }
            HeatLoss::Power {
                at_or_above_nozzle,
                below_nozzle,
                load,
            } => {
                let power = |field, value: f64| within(field, value, -1e6, 1e7);
                let above = power(
                    "loss at or above the fire in W",
                    at_or_above_nozzle.get::<watt>(),
                )?;
                let below = power("loss below the fire in W", below_nozzle.get::<watt>())?;
                let volume = |field, rate: VolumeRate| {
                    within(field, rate.get::<cubic_meter_per_second>(), 1e-7, 10.0)
                };
                let (fuel, gas, mixture) = match load {
                    Load::Fuel(rate) => {
                        let rate = within(
                            "fuel in kg/s",
                            rate.get::<kilogram_per_second>(),
                            1e-7,
                            10.0,
                        )?;
                        (1.0 / (rate * self.dry_share), 0.0, 0.0)
                    }
                    Load::Gas(rate) => (0.0, 1.0 / volume("gas in normal m³/s", rate)?, 0.0),
                    Load::Mixture(rate) => {
                        (0.0, 0.0, 1.0 / volume("mixture in normal m³/s", rate)?)
                    }
                };
                let terms = |loss: f64| LossTerms {
                    per_fuel: loss * fuel,
                    per_gas: loss * gas,
                    per_mixture: loss * mixture,
                };
                Ok((terms(above), terms(above + below)))
            }
        }
    }
}

/// Air with `oxygen` mol of O2, mol of atoms.
pub(super) fn air(oxygen: f64) -> Elements {
    Elements {
        oxygen: 2.0 * oxygen,
        nitrogen: 2.0 * NITROGEN_PER_OXYGEN * oxygen,
        ..Elements::default()
    }
}

/// Mol of atoms per kg; sulphur and ash left out.
fn atoms(fuel: &Fuel) -> Elements {
    let amount = |share: Ratio, mass: f64| share.get::<ratio>() / mass;
    Elements {
        carbon: amount(fuel.carbon, atomic_mass::CARBON),
        hydrogen: amount(fuel.hydrogen, atomic_mass::HYDROGEN),
        oxygen: amount(fuel.oxygen, atomic_mass::OXYGEN),
        nitrogen: amount(fuel.nitrogen, atomic_mass::NITROGEN),
    }
}

/// The part of the higher heating value that sulphur gives, J per kg dry (Channiwala and Parikh 2002).
fn sulphur_heat(fuel: &Fuel) -> f64 {
    0.1005e6 * fuel.sulphur.get::<percent>()
}

/// Enthalpy at 25 °C of a substance that burns to carbon dioxide and liquid water with the heat given.
fn formation_enthalpy(higher_heating_value: f64, elements: &Elements) -> f64 {
    higher_heating_value
        + elements.carbon * Species::CarbonDioxide.enthalpy(REFERENCE_TEMPERATURE)
        + elements.hydrogen / 2.0 * LIQUID_WATER_ENTHALPY
}

fn stoichiometric_oxygen(elements: &Elements) -> f64 {
    elements.carbon + elements.hydrogen / 4.0 - elements.oxygen / 2.0
}

fn char_of(bed: &CharBed) -> Result<Char, GasError> {
    let zero = Ratio::new::<ratio>(0.0);
    let substance = Fuel {
        carbon: bed.carbon,
        hydrogen: bed.hydrogen,
        oxygen: bed.oxygen,
        nitrogen: zero,
        sulphur: zero,
        ash: zero,
        moisture: zero,
        heat: Ratio::new::<ratio>(1.0),
    }
    .checked()?;
    let higher = substance
        .heating_values()?
        .higher_dry
        .get::<joule_per_kilogram>();
    let elements = atoms(&substance);
    Ok(Char {
        elements,
        enthalpy: formation_enthalpy(higher, &elements),
        heat_capacity: CHAR_HEAT_CAPACITY,
        stoichiometric_oxygen: stoichiometric_oxygen(&elements),
    })
}

/// Mean heat capacity of char from room temperature to glowing, J/(kg·K) (common practice, no source).
pub(in crate::sizing) const CHAR_HEAT_CAPACITY: f64 = 1600.0;

fn check_char_share(share: f64, fuel: &Elements, char: &Elements) -> Result<(), GasError> {
    for (element, supply, demand) in [
        ("carbon", fuel.carbon, char.carbon),
        ("hydrogen", fuel.hydrogen, char.hydrogen),
        ("oxygen", fuel.oxygen, char.oxygen),
    ] {
        if share * demand > supply {
            return Err(GasError::CharShare {
                share: 100.0 * share,
                element,
                most: 100.0 * supply / demand,
            });
        }
    }
    Ok(())
}
