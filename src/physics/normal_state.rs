//! The normal state that amounts of gas are counted in: 0 °C and 101.325 kPa (DIN 1343, from memory).

use super::air;
use super::species::GAS_CONSTANT;

/// Temperature, K.
pub const TEMPERATURE: f64 = 273.15;

/// Pressure, Pa.
pub const PRESSURE: f64 = air::STANDARD_PRESSURE;

/// Volume of a mole of any ideal gas, m³/mol.
///
/// ```
/// use hearthplan::physics::normal_state::MOLAR_VOLUME;
/// // CODATA 2018: 22.413 969 54 L/mol.
/// assert!((MOLAR_VOLUME - 22.413_969_54e-3).abs() < 1e-11);
/// ```
pub const MOLAR_VOLUME: f64 = GAS_CONSTANT * TEMPERATURE / PRESSURE;

/// Density of dry air as an ideal gas, kg/m³. As a real gas it is 1.293, a twentieth of a per cent more.
pub const AIR_DENSITY: f64 = PRESSURE / (air::GAS_CONSTANT * TEMPERATURE);
