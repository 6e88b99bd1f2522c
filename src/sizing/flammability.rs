//! Can the gas burn or explode with the air that has leaked in?
//!
//! Limits of a mixture of fuels by Le Chatelier's rule, after Zabetakis, US Bureau of Mines Bulletin 627 (1965). The inert
//! gases take part as thinning: the limits are counted on the whole gas, so more inert gas lifts the lower limit. The upper
//! limit is set by oxygen where inert gas is much: a mixture burns only while it holds the least oxygen that its fuels
//! need. For producer gas Coward and Jones, Bulletin 503 (1952), measured about 17 to 70 vol % (from memory). At room
//! temperature; hot gas has wider limits.

use crate::physics::equilibrium::GasAmounts;
use crate::physics::error::{PhysicsError, within};
use crate::physics::gas_mixture::GasMixture;
use uom::si::f64::Ratio;
use uom::si::ratio::ratio;

/// Oxygen in the gas from which to be careful, for air leaks in somewhere: 2 % (common practice, no source).
pub const OXYGEN_CAUTION: f64 = 0.02;
/// Oxygen in the gas at which to stop, for it may explode in the pipe: 4 % (common practice, no source).
pub const OXYGEN_STOP: f64 = 0.04;
/// Share of oxygen in dry air (US Standard Atmosphere 1976).
pub const OXYGEN_IN_AIR: f64 = 0.2095;
/// Limits in air, mole fractions, from Zabetakis, Bulletin 627: carbon monoxide, hydrogen, methane.
pub const LIMITS: [Limits; 3] = [
    Limits {
        lower: 0.125,
        upper: 0.74,
        least_oxygen: 0.055,
    },
    Limits {
        lower: 0.04,
        upper: 0.75,
        least_oxygen: 0.05,
    },
    Limits {
        lower: 0.05,
        upper: 0.15,
        least_oxygen: 0.12,
    },
];

/// Limits of one fuel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Least share in air that burns.
    pub lower: f64,
    /// Greatest share in air that burns.
    pub upper: f64,
    /// Least oxygen in which it burns when thinned with nitrogen (Bulletin 627, from memory).
    pub least_oxygen: f64,
}

/// How near a gas is to burning on its own or with more air. Mole fractions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flammability {
    /// Least share of this gas in a mixture with air that burns; none if it has no fuel in it.
    pub lower: Option<Ratio>,
    /// Greatest share of this gas in a mixture with air that burns; none if it has no fuel in it.
    pub upper: Option<Ratio>,
    /// Carbon monoxide, hydrogen and methane as shares of all but the air in the gas.
    pub fuels: [f64; 3],
    /// Oxygen in the gas.
    pub oxygen: Ratio,
    /// Least oxygen in which its fuels burn.
    pub least_oxygen: Option<Ratio>,
    /// The gas, as it is, holds enough oxygen to burn without more air.
    pub burns_as_it_is: bool,
    /// Air, as a share of the mixture of gas and air, at which the mixture begins to burn when air leaks in: one less the
    /// upper limit.
    pub air_to_burn: Option<Ratio>,
    /// What to think of the oxygen in the gas.
    pub oxygen_level: OxygenLevel,
}

/// Oxygen in the gas against the marks of the trade.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OxygenLevel {
    /// Below 2 %.
    Low,
    /// From 2 %: look for the leak.
    Caution,
    /// From 4 %: stop.
    Stop,
}

/// Gas with air that leaks in.
///
/// `ingress` is air as a share of the gas flow, both counted at the same state, 0 to 10. The air is dry.
///
/// # Errors
/// [`PhysicsError`] for a share out of range or a gas that is none.
///
/// ```
/// use hearthplan::physics::equilibrium::GasAmounts;
/// use hearthplan::sizing::flammability::with_air;
/// use uom::si::{f64::Ratio, ratio::percent};
/// let gas = GasAmounts { carbon_monoxide: 0.2, nitrogen: 0.8, ..GasAmounts::default() };
/// let leaky = with_air(&gas, Ratio::new::<percent>(10.0))?;
/// assert!((leaky.oxygen - 0.2095 * 0.1 / 1.1).abs() < 1e-12);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn with_air(gas: &GasAmounts, ingress: Ratio) -> Result<GasAmounts, PhysicsError> {
    let share = within("air that leaks in", "", ingress.value, 0.0, 10.0)?;
    let mut mixed = *GasMixture::new(gas)?.fractions();
    mixed.oxygen += share * OXYGEN_IN_AIR;
    mixed.nitrogen += share * (1.0 - OXYGEN_IN_AIR);
    Ok(mixed.fractions())
}

/// Flammability of a gas, dry or wet; oxygen in it is counted as brought by air with its nitrogen.
///
/// The limits are those of the gas without that air. Le Chatelier: `1/L = Σ yᵢ/Lᵢ` over fuels as shares of all but air.
/// The upper limit is never above what leaves the least oxygen that the fuels need.
///
/// # Errors
/// [`PhysicsError`] for a gas that is none.
///
/// ```
/// use hearthplan::physics::equilibrium::GasAmounts;
/// use hearthplan::sizing::flammability::flammability;
/// let gas = GasAmounts {
///     carbon_monoxide: 0.21, hydrogen: 0.17, methane: 0.02, carbon_dioxide: 0.11, nitrogen: 0.49,
///     ..GasAmounts::default()
/// };
/// let found = flammability(&gas)?;
/// assert!((found.lower.unwrap().value - 0.158).abs() < 0.001);
/// assert!(!found.burns_as_it_is);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn flammability(gas: &GasAmounts) -> Result<Flammability, PhysicsError> {
    let gas = *GasMixture::new(gas)?.fractions();
    let air = (gas.oxygen / OXYGEN_IN_AIR).min(1.0);
    let fuels = [gas.carbon_monoxide, gas.hydrogen, gas.methane];
    let fuel: f64 = fuels.iter().sum();
    let oxygen = Ratio::new::<ratio>(gas.oxygen);
    let oxygen_level = if gas.oxygen >= OXYGEN_STOP {
        OxygenLevel::Stop
    } else if gas.oxygen >= OXYGEN_CAUTION {
        OxygenLevel::Caution
    } else {
        OxygenLevel::Low
    };
    // Fuel so thin that no air makes it burn counts as none.
    if fuel < 1e-6 || air > 1.0 - 1e-9 {
        return Ok(Flammability {
            lower: None,
            upper: None,
            fuels: [0.0; 3],
            oxygen,
            least_oxygen: None,
            burns_as_it_is: false,
            air_to_burn: None,
            oxygen_level,
        });
    }
    // The gas without the air that has leaked in.
    let undiluted = fuels.map(|amount| amount / (1.0 - air));
    let over = |limit: fn(&Limits) -> f64| -> f64 {
        undiluted
            .iter()
            .zip(&LIMITS)
            .map(|(share, limits)| share / limit(limits))
            .sum()
    };
    let least_oxygen: f64 = fuels
        .iter()
        .zip(&LIMITS)
        .map(|(share, limits)| share / fuel * limits.least_oxygen)
        .sum();
    let lower = 1.0 / over(|limits| limits.lower);
    let by_fuel = 1.0 / over(|limits| limits.upper);
    let by_oxygen = 1.0 - least_oxygen / OXYGEN_IN_AIR;
    let upper = by_fuel.min(by_oxygen);
    let burns = lower < upper && lower <= 1.0;
    let share_of_gas = 1.0 - air;
    Ok(Flammability {
        lower: burns.then(|| Ratio::new::<ratio>(lower)),
        upper: burns.then(|| Ratio::new::<ratio>(upper)),
        fuels: undiluted,
        oxygen,
        least_oxygen: Some(Ratio::new::<ratio>(least_oxygen)),
        burns_as_it_is: burns && share_of_gas >= lower && share_of_gas <= upper,
        air_to_burn: burns.then(|| Ratio::new::<ratio>(1.0 - upper)),
        oxygen_level,
    })
}
