//! Heat between a tube and the gas inside it, and between a level tube and the air around it.

use super::air::{self, Air};
use super::convection::{self, Surroundings};
use super::cube_root::cube_root;

/// Nusselt number of developed laminar flow at an even wall temperature.
pub const LAMINAR_NUSSELT: f64 = 3.66;

/// Reynolds number up to which the flow is taken as laminar.
pub const LAMINAR_LIMIT: f64 = 2300.0;

/// Reynolds number from which the flow is taken as turbulent.
pub const TURBULENT_LIMIT: f64 = 4000.0;

/// Nusselt number, on the bore, of developed flow in a smooth round tube.
///
/// Laminar 3.66 up to Reynolds number 2300. From 4000 Gnielinski, International Chemical Engineering 16 (1976) 359, with
/// the friction factor of Petukhov, `(0.79 ln Re − 1.64)⁻²`; good to 5e6, Prandtl number 0.5 to 2000. Between the two a
/// straight line in Reynolds number. The start of the tube, where heat passes better, is left out.
///
/// ```
/// use hearthplan::physics::tube_flow::nusselt_inside;
/// assert_eq!(nusselt_inside(1000.0, 0.7), 3.66);
/// assert!((nusselt_inside(1.0e4, 0.7) - 29.7).abs() < 0.5);
/// ```
#[cfg_attr(hearthplan_site, optimize(speed))]
pub fn nusselt_inside(reynolds: f64, prandtl: f64) -> f64 {
    if reynolds <= LAMINAR_LIMIT {
        return LAMINAR_NUSSELT;
    }
    if reynolds >= TURBULENT_LIMIT {
        return gnielinski(reynolds, prandtl);
    }
    let share = (reynolds - LAMINAR_LIMIT) / (TURBULENT_LIMIT - LAMINAR_LIMIT);
    LAMINAR_NUSSELT + share * (gnielinski(TURBULENT_LIMIT, prandtl) - LAMINAR_NUSSELT)
}

fn gnielinski(reynolds: f64, prandtl: f64) -> f64 {
    let root = 0.79 * reynolds.ln() - 1.64;
    let eighth = 0.125 / (root * root);
    let prandtl_root = cube_root(prandtl);
    let heat_layer = 1.0 + 12.7 * eighth.sqrt() * (prandtl_root * prandtl_root - 1.0);
    eighth * (reynolds - 1000.0) * prandtl / heat_layer
}

/// Average Nusselt number, on the diameter, of a level cylinder in still air or liquid.
///
/// Churchill and Chu, International Journal of Heat and Mass Transfer 18 (1975) 1049. Rayleigh number up to 1e12.
///
/// ```
/// use hearthplan::physics::tube_flow::nusselt_level_cylinder;
/// // By hand: (0.60 + 0.387 × 10 / 1.206)².
/// assert!((nusselt_level_cylinder(1.0e6, 0.7) - 14.5).abs() < 0.1);
/// ```
#[cfg_attr(hearthplan_site, optimize(speed))]
pub fn nusselt_level_cylinder(rayleigh: f64, prandtl: f64) -> f64 {
    let term = 0.60 + convection::rising_term(rayleigh, 0.559 / prandtl);
    term * term
}

/// Coefficient in W/(m²·K) from a level cylinder of `diameter` in m at `surface` in K to the air around it: natural
/// convection or wind across it, whichever is greater.
///
/// ```
/// use hearthplan::physics::{convection::Surroundings, tube_flow::level_cylinder_coefficient};
/// let still = Surroundings { air_temperature: 293.15, pressure: 101_325.0, wind_speed: 0.0 };
/// let found = level_cylinder_coefficient(0.05, 400.0, &still);
/// assert!(found > 6.0 && found < 10.0);
/// ```
#[cfg_attr(hearthplan_site, optimize(speed))]
pub fn level_cylinder_coefficient(diameter: f64, surface: f64, around: &Surroundings) -> f64 {
    let film = 0.5 * (surface + around.air_temperature);
    let air = Air::at(film, around.pressure);
    let kinematic = air.kinematic_viscosity();
    let prandtl = air.prandtl();
    let rise = (surface - around.air_temperature).abs();
    let rayleigh = air::GRAVITY * rise / film.max(air::COLDEST) * diameter.powi(3) * prandtl
        / (kinematic * kinematic);
    let natural = nusselt_level_cylinder(rayleigh, prandtl);
    let nusselt = if around.wind_speed > 0.0 {
        let reynolds = around.wind_speed * diameter / kinematic;
        natural.max(convection::nusselt_cylinder_in_wind(reynolds, prandtl))
    } else {
        natural
    };
    nusselt * air.conductivity / diameter
}

/// Share of a round fin's area that counts, 0 to 1: the fin is colder at its rim than at its foot.
///
/// Schmidt, Refrigerating Engineering 57 (1949) 351. `coefficient` in W/(m²·K), `conductivity` of the fin in W/(m·K), the
/// rest in m. A fin without height counts fully.
///
/// ```
/// use hearthplan::physics::tube_flow::{RoundFin, fin_efficiency};
/// let fin = RoundFin { tube_diameter: 0.028, fin_diameter: 0.060, thickness: 0.0005, conductivity: 200.0 };
/// let found = fin_efficiency(&fin, 10.0);
/// assert!(found > 0.95 && found < 1.0);
/// ```
pub fn fin_efficiency(fin: &RoundFin, coefficient: f64) -> f64 {
    let ratio = fin.fin_diameter / fin.tube_diameter;
    let reach = 0.5 * fin.tube_diameter * (ratio - 1.0) * (1.0 + 0.35 * ratio.ln());
    let argument = (2.0 * coefficient / (fin.conductivity * fin.thickness)).sqrt() * reach;
    if argument > 1e-6 {
        argument.tanh() / argument
    } else {
        1.0
    }
}

/// One round fin on a tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoundFin {
    /// Outside diameter of the tube, m.
    pub tube_diameter: f64,
    /// Diameter of the fin, m.
    pub fin_diameter: f64,
    /// Thickness of the fin, m.
    pub thickness: f64,
    /// Conductivity of the fin, W/(m·K).
    pub conductivity: f64,
}
