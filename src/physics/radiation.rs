//! Heat radiated between grey surfaces.
//!
//! Exchange between parallel plates, concentric cylinders and rows of shields, all diffuse and grey: Howell, Mengüç and
//! Siegel, Thermal Radiation Heat Transfer, enclosure method. Emittances run from 0 to 1. An emittance of 0 gives no
//! exchange; NaN stays NaN.

use super::error::{PhysicsError, within};

/// Stefan-Boltzmann constant, W/(m²·K⁴) (CODATA 2018, exact).
pub const STEFAN_BOLTZMANN: f64 = 5.670_374_419e-8;

/// Net heat flux in W/m² from a surface to wide surroundings, both in K.
///
/// ```
/// use hearthplan::physics::radiation::to_surroundings;
/// assert!((to_surroundings(0.9, 400.0, 300.0) - 893.1).abs() < 0.1);
/// ```
pub fn to_surroundings(emittance: f64, surface: f64, surroundings: f64) -> f64 {
    emittance * STEFAN_BOLTZMANN * (fourth_power(surface) - fourth_power(surroundings))
}

/// The same as a coefficient in W/(m²·K), to be multiplied by the temperature difference; good at equal temperatures too.
///
/// ```
/// use hearthplan::physics::radiation::coefficient;
/// assert!((coefficient(1.0, 300.0, 300.0) - 6.124).abs() < 0.001);
/// ```
pub fn coefficient(emittance: f64, surface: f64, surroundings: f64) -> f64 {
    emittance
        * STEFAN_BOLTZMANN
        * (surface * surface + surroundings * surroundings)
        * (surface + surroundings)
}

/// Share of black-body exchange between two wide parallel plates: 1 / (1/ε₁ + 1/ε₂ − 1).
///
/// ```
/// use hearthplan::physics::radiation::parallel_plates;
/// assert!((parallel_plates(0.8, 0.8) - 2.0 / 3.0).abs() < 1e-12);
/// ```
pub fn parallel_plates(first_emittance: f64, second_emittance: f64) -> f64 {
    concentric_cylinders(first_emittance, second_emittance, 1.0)
}

/// Share of black-body exchange between long concentric cylinders, on the inner one's area.
///
/// `radius_ratio` is inner over outer radius, 0 to 1: 1 / (1/ε₁ + (r₁/r₂)(1/ε₂ − 1)).
///
/// ```
/// use hearthplan::physics::radiation::concentric_cylinders;
/// // A small wire in a wide tube does not see what the tube is made of.
/// assert!((concentric_cylinders(0.5, 0.1, 1e-9) - 0.5).abs() < 1e-6);
/// ```
pub fn concentric_cylinders(inner_emittance: f64, outer_emittance: f64, radius_ratio: f64) -> f64 {
    if inner_emittance <= 0.0 || outer_emittance <= 0.0 {
        return 0.0;
    }
    1.0 / (1.0 / inner_emittance + radius_ratio * (1.0 / outer_emittance - 1.0))
}

/// One thin sheet between two plates.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shield {
    /// Emittance of the face towards the hot plate, 0.01 to 1.
    pub emittance_to_hot: f64,
    /// Emittance of the face towards the cold plate, 0.01 to 1.
    pub emittance_to_cold: f64,
}

/// Radiation past a row of shields.
#[derive(Debug, Clone, PartialEq)]
pub struct ShieldedExchange {
    /// Heat flux from hot to cold plate, W/m².
    pub flux: f64,
    /// Temperature of each shield, hot side first, K.
    pub shield_temperatures: Vec<f64>,
}

/// Radiation from a hot to a cold parallel plate past any number of thin shields in between, without air.
///
/// Temperatures in K, 0 to 3000; emittances 0.01 to 1.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] naming the value at fault.
///
/// ```
/// use hearthplan::physics::radiation::{between_plates, Shield};
/// let shield = Shield { emittance_to_hot: 0.8, emittance_to_cold: 0.8 };
/// let bare = between_plates(800.0, 0.8, 300.0, 0.8, &[])?;
/// let shielded = between_plates(800.0, 0.8, 300.0, 0.8, &[shield])?;
/// assert!((bare.flux / shielded.flux - 2.0).abs() < 1e-12);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn between_plates(
    hot: f64,
    hot_emittance: f64,
    cold: f64,
    cold_emittance: f64,
    shields: &[Shield],
) -> Result<ShieldedExchange, PhysicsError> {
    within("hot plate temperature", "K", hot, 0.0, 3000.0)?;
    within("cold plate temperature", "K", cold, 0.0, 3000.0)?;
    within("emittance of the hot plate", "", hot_emittance, 0.01, 1.0)?;
    within("emittance of the cold plate", "", cold_emittance, 0.01, 1.0)?;
    let mut facing = hot_emittance;
    let mut total = 0.0;
    let mut resistance_to_shield = Vec::with_capacity(shields.len());
    for shield in shields {
        within(
            "emittance of a shield",
            "",
            shield.emittance_to_hot,
            0.01,
            1.0,
        )?;
        within(
            "emittance of a shield",
            "",
            shield.emittance_to_cold,
            0.01,
            1.0,
        )?;
        total += 1.0 / parallel_plates(facing, shield.emittance_to_hot);
        resistance_to_shield.push(total);
        facing = shield.emittance_to_cold;
    }
    total += 1.0 / parallel_plates(facing, cold_emittance);
    let emissive_power = STEFAN_BOLTZMANN * (fourth_power(hot) - fourth_power(cold));
    let flux = emissive_power / total;
    let shield_temperatures = resistance_to_shield
        .iter()
        .map(|resistance| {
            let fourth = fourth_power(hot) - flux * resistance / STEFAN_BOLTZMANN;
            fourth.max(0.0).sqrt().sqrt()
        })
        .collect();
    Ok(ShieldedExchange {
        flux,
        shield_temperatures,
    })
}

/// `temperature` to the fourth power, keeping the sign so that it always rises with temperature.
pub(crate) fn fourth_power(temperature: f64) -> f64 {
    temperature * temperature * temperature * temperature.abs()
}
