//! Heating value and combustion air of a dry gas.

use crate::physics::equilibrium::GasAmounts;

/// Lower heating value of CO, MJ per normal m³ (ISO 6976 data at 0 °C, from memory).
pub const CARBON_MONOXIDE_HEAT: f64 = 12.63;
/// Lower heating value of H2, MJ per normal m³ (ISO 6976 data at 0 °C, from memory).
pub const HYDROGEN_HEAT: f64 = 10.78;
/// Lower heating value of CH4, MJ per normal m³ (ISO 6976 data at 0 °C, from memory).
pub const METHANE_HEAT: f64 = 35.8;

/// Lower heating value in MJ per normal m³ of the gas whose mole fractions are given.
///
/// ```
/// use hearthplan::{physics::equilibrium::GasAmounts, sizing::gas::lower_heating_value};
/// let dry = GasAmounts { carbon_monoxide: 0.2, hydrogen: 0.2, nitrogen: 0.6, ..GasAmounts::default() };
/// assert!((lower_heating_value(&dry) - 4.682).abs() < 1e-9);
/// ```
pub fn lower_heating_value(fractions: &GasAmounts) -> f64 {
    CARBON_MONOXIDE_HEAT * fractions.carbon_monoxide
        + HYDROGEN_HEAT * fractions.hydrogen
        + METHANE_HEAT * fractions.methane
}

/// Air of complete combustion in volumes per volume of the gas whose mole fractions are given; free oxygen in
/// the gas counts against it, never below zero.
///
/// ```
/// use hearthplan::{physics::equilibrium::GasAmounts, sizing::gas::stoichiometric_air};
/// let dry = GasAmounts { carbon_monoxide: 0.2, hydrogen: 0.2, nitrogen: 0.6, ..GasAmounts::default() };
/// assert!((stoichiometric_air(&dry) - 0.952).abs() < 1e-9);
/// ```
pub fn stoichiometric_air(fractions: &GasAmounts) -> f64 {
    (2.38 * (fractions.carbon_monoxide + fractions.hydrogen) + 9.52 * fractions.methane
        - 4.76 * fractions.oxygen)
        .max(0.0)
}
