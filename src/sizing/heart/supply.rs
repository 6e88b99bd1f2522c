//! What the hearth supplies to the rest of the machine, also where it cannot be worked out.

use crate::physics::equilibrium::GasAmounts;
use crate::physics::secant::{Search, crossing};
use crate::sizing::gas::{
    GasSolution, HearthSolution, ShellLoss, lower_heating_value, stoichiometric_air,
};
use std::marker::PhantomData;
use uom::si::f64::{MassRate, Power, Ratio, ThermodynamicTemperature, VolumeRate};
use uom::si::ratio::ratio;
use uom::si::specific_volume::cubic_meter_per_kilogram;

/// How well the supply is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// From hearth and shell in agreement.
    Solved,
    /// As if the shell lost nothing, because with its loss the hearth holds no fire.
    WithoutLoss,
    /// Gas as published, because the fuel entered gives none.
    Published,
}

/// What the hearth supplies at one load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Supply {
    /// How well it is known.
    pub basis: Basis,
    /// Dry gas, at 0 °C and 101.325 kPa.
    pub gas_flow: VolumeRate,
    /// Mole fractions of the dry gas.
    pub gas: GasAmounts,
    /// Moles of steam in the raw gas per mole of dry gas.
    pub steam: f64,
    /// Gas volume from one volume of air.
    pub gas_per_air: f64,
    /// Heat in the gas, J per normal m³.
    pub gas_heat: f64,
    /// Normal m³ of gas from a kg of fuel as fired.
    pub gas_per_fuel: f64,
    /// Fuel as fired.
    pub fuel_rate: MassRate,
    /// Higher heating value of the fuel burned per time.
    pub fuel_power: Power,
    /// Temperature of the inside of the hearth wall.
    pub wall_temperature: ThermodynamicTemperature,
    /// Heat that leaves through the whole shell; none when a zone could not be computed.
    pub loss: Option<Power>,
}

/// Mean temperature of a hearth that works, K; stands in where the fuel gives no answer. Our own estimate.
pub(super) const USUAL_MEAN: f64 = 1400.0;

/// Full gas flow where the engine gives no answer: that of a new design.
pub(super) const USUAL_FLOW: VolumeRate = VolumeRate {
    dimension: PhantomData,
    units: PhantomData,
    value: 25.0 / 3600.0,
};

/// Zainal et al., Energy Conversion and Management 42, 2001, from memory.
const PUBLISHED: GasAmounts = GasAmounts {
    carbon_monoxide: 0.196,
    carbon_dioxide: 0.120,
    hydrogen: 0.211,
    water: 0.0,
    methane: 0.006,
    nitrogen: 0.467,
    oxygen: 0.0,
};
/// Steam over dry gas: a tenth of the raw gas is steam (common practice, no source).
const PUBLISHED_STEAM: f64 = 0.11;
/// SERI/SP-271-3022, table 5-1, from memory.
const PUBLISHED_GAS_PER_AIR: f64 = 1.68;
/// SERI/SP-271-3022, table 5-1, from memory; normal m³ per kg.
const PUBLISHED_GAS_PER_FUEL: f64 = 2.1;
/// Higher heating value of air-dry wood, J/kg as fired (common practice, no source).
const PUBLISHED_FUEL_HEAT: f64 = 17.0e6;

impl Supply {
    pub(super) fn solved(solution: &HearthSolution) -> Self {
        let gas = &solution.gas;
        Self {
            basis: Basis::Solved,
            gas_flow: solution.gas_rate,
            gas: gas.dry,
            steam: steam(gas),
            gas_per_air: gas_per_air(gas),
            gas_heat: 1e6 * gas.lower_heating_value,
            gas_per_fuel: gas.gas_per_fuel.get::<cubic_meter_per_kilogram>(),
            fuel_rate: solution.fuel_rate,
            fuel_power: solution.fuel_power,
            wall_temperature: solution.profile.wall,
            loss: Some(whole(&solution.shell)),
        }
    }

    pub(super) fn next_best(
        lossless: Option<&GasSolution>,
        wall_temperature: ThermodynamicTemperature,
        loss: Option<ShellLoss>,
        flow: impl FnOnce(f64) -> VolumeRate,
    ) -> Self {
        let (basis, gas, steam, per_air, per_fuel, heat) = match lossless {
            Some(solution) => (
                Basis::WithoutLoss,
                solution.dry,
                steam(solution),
                gas_per_air(solution),
                solution.gas_per_fuel.get::<cubic_meter_per_kilogram>(),
                solution.fuel_energy.value,
            ),
            None => (
                Basis::Published,
                PUBLISHED,
                PUBLISHED_STEAM,
                PUBLISHED_GAS_PER_AIR,
                PUBLISHED_GAS_PER_FUEL,
                PUBLISHED_FUEL_HEAT,
            ),
        };
        let gas_flow = flow(stoichiometric_air(&gas));
        let fuel_rate = MassRate {
            dimension: PhantomData,
            units: PhantomData,
            value: gas_flow.value / per_fuel,
        };
        Self {
            basis,
            gas_flow,
            gas,
            steam,
            gas_per_air: per_air,
            gas_heat: 1e6 * lower_heating_value(&gas),
            gas_per_fuel: per_fuel,
            fuel_rate,
            fuel_power: Power {
                dimension: PhantomData,
                units: PhantomData,
                value: fuel_rate.value * heat,
            },
            wall_temperature,
            loss: loss.as_ref().map(whole),
        }
    }

    /// The loss as a share of the fuel's heat.
    pub fn loss_share(&self) -> Option<Ratio> {
        self.loss.map(|loss| loss / self.fuel_power)
    }
}

fn whole(loss: &ShellLoss) -> Power {
    loss.at_or_above_nozzle + loss.below_nozzle
}

fn steam(gas: &GasSolution) -> f64 {
    gas.wet.water / (1.0 - gas.wet.water)
}

fn gas_per_air(gas: &GasSolution) -> f64 {
    (gas.gas_per_fuel / gas.air_volume_per_fuel).get::<ratio>()
}

/// Where the wall is as hot as its own loss leaves it, K; `wall_for` gives the wall's temperature for the loss of a wall
/// at the temperature given.
pub(super) fn wall_temperature(mean: f64, wall_for: impl Fn(f64) -> Option<f64>) -> Option<f64> {
    let search = Search {
        low: 250.0,
        high: 3000.0,
        first: 0.7 * mean,
        expected_slope: 1.5,
        value_tolerance: 0.1,
        step_tolerance: 1e-3,
    };
    crossing(search, |inside| {
        wall_for(inside).map(|wall| inside - wall).ok_or(())
    })
    .ok()
}
