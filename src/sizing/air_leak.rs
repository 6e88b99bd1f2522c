//! What does air that leaks into the gas cost?
//!
//! Where the gas is hot enough to take fire, the air burns at once: each cubic metre of oxygen two of carbon monoxide and
//! hydrogen. The gas gets hotter and poorer. In colder gas the air stays what it is; the mixer before the engine then adds
//! as much less, so that it costs no power, but its oxygen makes the gas dangerous: see
//! [`flammability`](super::flammability).

use super::flammability::OXYGEN_IN_AIR;
use super::gas::{lower_heating_value, stoichiometric_air};
use crate::physics::equilibrium::GasAmounts;
use crate::physics::error::{PhysicsError, within};
use crate::physics::solve::bracketed;
use uom::si::f64::{Ratio, ThermodynamicTemperature};
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

/// Gas that is hotter burns with the air that reaches it, K: 600 °C. From memory of handbooks carbon monoxide takes fire
/// in air at about 605 °C, hydrogen at 500 to 590 °C.
pub const IGNITION: f64 = 873.15;

/// Air that leaks in over gas is Watch above this: twice the hundredth that is common practice. Our own mark.
pub const WATCH: f64 = 0.02;
/// It is a Stop above this: five times that hundredth, a hole and no leak. Our own mark.
pub const STOP: f64 = 0.05;

/// Coldest and hottest gas looked for, K.
const RANGE: (f64, f64) = (200.0, 4000.0);

/// Gas in which air has burned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Burned {
    /// What one volume of dry gas and its steam have become, in volumes.
    pub amounts: GasAmounts,
    /// Carbon monoxide and hydrogen burned, in volumes.
    pub fuel: f64,
    /// Carbon monoxide and hydrogen in one volume of dry gas before.
    pub fuel_before: f64,
    /// The gas before.
    pub gas_temperature: ThermodynamicTemperature,
    /// The air that leaks in.
    pub air_temperature: ThermodynamicTemperature,
    /// What came of both, nothing lost.
    pub temperature: ThermodynamicTemperature,
    /// Heat in one volume of dry gas before, MJ per normal m³.
    pub heat_before: f64,
    /// Heat in what became of it, MJ.
    pub heat: f64,
    /// Air that one volume of dry gas needed before.
    pub air_before: f64,
    /// Air that what became of it needs.
    pub air: f64,
}

impl Burned {
    /// Dry gas that one volume has become.
    pub fn dry(&self) -> f64 {
        self.amounts.dry_total()
    }

    /// Heat in a cylinder full of gas with just enough air, over that without the leak: the power that an engine keeps.
    pub fn power_kept(&self) -> Ratio {
        let mixture = self.heat / (self.dry() + self.air);
        let before = self.heat_before / (1.0 + self.air_before);
        Ratio::new::<ratio>(mixture / before)
    }
}

/// What gas at `temperature`, 200 to 2000 K, becomes when air leaks in that is `share` of it, 0 to 1; none where the gas is too cold to
/// take fire, where there is no air, or where nothing in the gas burns. `steam` is in volumes per volume of dry gas, 0 to
/// 10.
///
/// Carbon monoxide and hydrogen burn in the proportion in which they are there, methane does not; what oxygen they leave
/// stays in the gas.
///
/// # Errors
/// [`PhysicsError`] for a value out of range, or a gas that is none.
///
/// ```
/// use hearthplan::{physics::equilibrium::GasAmounts, sizing::air_leak::burned};
/// use uom::si::{f64::{Ratio, ThermodynamicTemperature}, ratio::percent, thermodynamic_temperature::degree_celsius};
/// let gas = GasAmounts { carbon_monoxide: 0.2, hydrogen: 0.2, nitrogen: 0.6, ..GasAmounts::default() };
/// let share = Ratio::new::<percent>(1.0);
/// let (hot, air) = (700.0, 20.0);
/// let [hot, air] = [hot, air].map(ThermodynamicTemperature::new::<degree_celsius>);
/// let found = burned(&gas, 0.1, hot, share, air)?.unwrap();
/// assert!((found.fuel - 2.0 * 0.2095 * 0.01).abs() < 1e-12);
/// assert!((found.power_kept().value - 0.99).abs() < 0.003);
/// assert_eq!(burned(&gas, 0.1, air, share, air)?, None);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn burned(
    gas: &GasAmounts,
    steam: f64,
    temperature: ThermodynamicTemperature,
    share: Ratio,
    air_temperature: ThermodynamicTemperature,
) -> Result<Option<Burned>, PhysicsError> {
    let share = within("air that leaks in", "", share.value, 0.0, 1.0)?;
    let steam = within("steam over gas", "", steam, 0.0, 10.0)?;
    let hot = within("gas temperature", "K", temperature.value, RANGE.0, 2000.0)?;
    let cold = within("air temperature", "K", air_temperature.value, 200.0, 400.0)?;
    let dry = gas.dry().fractions();
    let fuel = dry.carbon_monoxide + dry.hydrogen;
    let oxygen = dry.oxygen + OXYGEN_IN_AIR * share;
    let burns = fuel.min(2.0 * oxygen);
    if hot < IGNITION || share == 0.0 || burns <= 0.0 {
        return Ok(None);
    }
    let part = burns / fuel;
    let (monoxide, hydrogen) = (part * dry.carbon_monoxide, part * dry.hydrogen);
    let before = GasAmounts {
        water: steam,
        ..dry
    };
    let air = GasAmounts {
        oxygen: OXYGEN_IN_AIR * share,
        nitrogen: (1.0 - OXYGEN_IN_AIR) * share,
        ..GasAmounts::default()
    };
    let amounts = GasAmounts {
        carbon_monoxide: dry.carbon_monoxide - monoxide,
        carbon_dioxide: dry.carbon_dioxide + monoxide,
        hydrogen: dry.hydrogen - hydrogen,
        water: steam + hydrogen,
        methane: dry.methane,
        nitrogen: dry.nitrogen + air.nitrogen,
        oxygen: (oxygen - 0.5 * burns).max(0.0),
    };
    let brought = before.enthalpy(hot) + air.enthalpy(cold);
    let found = bracketed(RANGE.0, RANGE.1, 1e-9, |at: f64| {
        amounts.enthalpy(at) - brought
    })?;
    Ok(Some(Burned {
        amounts,
        fuel: burns,
        fuel_before: fuel,
        gas_temperature: temperature,
        air_temperature,
        temperature: ThermodynamicTemperature::new::<kelvin>(found.at),
        heat_before: lower_heating_value(&dry),
        heat: lower_heating_value(&amounts),
        air_before: stoichiometric_air(&dry),
        air: stoichiometric_air(&amounts),
    }))
}
