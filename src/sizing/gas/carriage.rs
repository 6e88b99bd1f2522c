//! What pipes and beds must know of a gas: its weight and how thick it flows.

use crate::physics::equilibrium::GasAmounts;
use uom::si::f64::{MolarMass, Ratio};
use uom::si::molar_mass::gram_per_mole;
use uom::si::ratio::ratio;

/// Molar mass in g/mol and viscosity at 0 °C in µPa·s, in the order of [`parts`] (from memory of handbook tables).
const PARTS: [(f64, f64); 6] = [
    (28.010, 16.6),
    (44.010, 13.7),
    (2.016, 8.4),
    (16.043, 10.3),
    (28.013, 16.6),
    (31.998, 19.2),
];
/// Viscosity of air at 0 °C, µPa·s (from memory of handbook tables).
const AIR_VISCOSITY: f64 = 17.2;

fn parts(gas: &GasAmounts) -> [f64; 6] {
    [
        gas.carbon_monoxide,
        gas.carbon_dioxide,
        gas.hydrogen,
        gas.methane,
        gas.nitrogen,
        gas.oxygen,
    ]
}

/// Mass of a mole of the dry gas whose amounts are given.
///
/// ```
/// use hearthplan::{physics::equilibrium::GasAmounts, sizing::gas::molar_mass};
/// use uom::si::molar_mass::gram_per_mole;
/// let dry = GasAmounts { carbon_monoxide: 0.2, hydrogen: 0.2, nitrogen: 0.6, ..GasAmounts::default() };
/// assert!((molar_mass(&dry).get::<gram_per_mole>() - 22.813).abs() < 0.001);
/// ```
pub fn molar_mass(gas: &GasAmounts) -> MolarMass {
    let amounts = parts(gas);
    let whole: f64 = amounts.iter().sum();
    let mass: f64 = amounts
        .iter()
        .zip(PARTS)
        .map(|(amount, (mass, _))| amount * mass)
        .sum();
    MolarMass::new::<gram_per_mole>(mass / whole)
}

/// Viscosity of the dry gas over that of air, both at 0 °C; the ratio changes little with temperature.
///
/// Mixing rule of Wilke, Journal of Chemical Physics 18, 1950.
///
/// ```
/// use hearthplan::{physics::equilibrium::GasAmounts, sizing::gas::viscosity_per_air};
/// let dry = GasAmounts { carbon_monoxide: 0.2, hydrogen: 0.2, nitrogen: 0.6, ..GasAmounts::default() };
/// let nitrogen = GasAmounts { nitrogen: 1.0, ..GasAmounts::default() };
/// assert!((viscosity_per_air(&nitrogen).value - 16.6 / 17.2).abs() < 1e-12);
/// assert!(viscosity_per_air(&dry) < viscosity_per_air(&nitrogen));
/// ```
pub fn viscosity_per_air(gas: &GasAmounts) -> Ratio {
    let amounts = parts(gas);
    let viscosity: f64 = amounts
        .iter()
        .zip(PARTS)
        .map(|(amount, one)| {
            let weighted: f64 = amounts
                .iter()
                .zip(PARTS)
                .map(|(other_amount, other)| other_amount * interaction(one, other))
                .sum();
            amount * one.1 / weighted
        })
        .sum();
    Ratio::new::<ratio>(viscosity / AIR_VISCOSITY)
}

/// Wilke's weight of one part against another.
fn interaction(one: (f64, f64), other: (f64, f64)) -> f64 {
    let root = 1.0 + (one.1 / other.1).sqrt() * (other.0 / one.0).powf(0.25);
    root * root / (8.0 * (1.0 + one.0 / other.0)).sqrt()
}
