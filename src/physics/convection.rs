//! Heat carried off a surface by air: natural convection and wind.
//!
//! Rayleigh number: g β (Ts − Ta) L³ / (ν α), with β = 1 / film temperature. Air properties are taken at the film
//! temperature, the mean of surface and air. A Nusselt number is h L / k. Negative inputs count as zero, NaN stays
//! NaN, nothing panics.

use super::air::{self, Air};
use super::cube_root::cube_root;

/// Rayleigh number where the flow over a plate facing up is taken to turn turbulent.
const FACING_UP_TURBULENT: f64 = 1.0e7;

/// Coefficient by wind, W/(m²·K), from which it is worth asking whether buoyancy can matter at all.
const STRONG_WIND: f64 = 12.0;

/// Outside surface as the air sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Surface {
    /// Upright cylinder.
    VerticalCylinder {
        /// Height, m.
        height: f64,
        /// Outside diameter, m.
        diameter: f64,
    },
    /// Upright flat wall.
    VerticalPlate {
        /// Height, m; also the length along the wind.
        height: f64,
    },
    /// Flat disc or square seen from above: a lid.
    FacingUp {
        /// Diameter or side, m.
        side: f64,
    },
    /// Flat disc or square seen from below: a bottom.
    FacingDown {
        /// Diameter or side, m.
        side: f64,
    },
}

/// Air around a surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surroundings {
    /// Air temperature, K.
    pub air_temperature: f64,
    /// Air pressure, Pa.
    pub pressure: f64,
    /// Wind speed, m/s.
    pub wind_speed: f64,
}

/// Convection coefficients in W/(m²·K).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coefficients {
    /// By buoyancy alone.
    pub natural: f64,
    /// By wind alone.
    pub forced: f64,
}

impl Coefficients {
    /// The greater of the two, as ASTM C680 suggests when both act.
    pub fn governing(&self) -> f64 {
        self.natural.max(self.forced)
    }
}

/// Average Nusselt number of an isothermal vertical plate, on its height.
///
/// Churchill and Chu, International Journal of Heat and Mass Transfer 18 (1975) 1323, equation for all flow.
/// Range: Rayleigh number 0.1 to 1e12, any Prandtl number.
///
/// ```
/// let nusselt = hearthplan::physics::convection::nusselt_vertical_plate(0.69 * 2.63e9, 0.69);
/// assert!((nusselt - 147.16).abs() < 0.01);
/// ```
#[cfg_attr(hearthplan_site, optimize(speed))]
pub fn nusselt_vertical_plate(rayleigh: f64, prandtl: f64) -> f64 {
    let term = 0.825 + rising_term(rayleigh, 0.492 / prandtl);
    term * term
}

/// What Churchill and Chu's laws for plate and level cylinder share: `0.387 Ra^(1/6) / (1 + ratio^(9/16))^(8/27)`,
/// `ratio` being a number over Prandtl's. One logarithm in place of three powers, since it is asked for all the time: both
/// powers are those of a 54th root.
#[cfg_attr(hearthplan_site, optimize(speed))]
pub(super) fn rising_term(rayleigh: f64, ratio: f64) -> f64 {
    let root = ratio.sqrt();
    let sixteenth = root.sqrt().sqrt().sqrt();
    let cubed = |number: f64| number * number * number;
    let squared = |number: f64| number * number;
    let shape = squared(squared(squared(squared(1.0 + root * sixteenth))));
    0.387 * ((cubed(cubed(not_negative(rayleigh))) / shape).ln() / 54.0).exp()
}

/// Nusselt number of the air in a closed upright gap, on its width: 1 while it stands still.
///
/// ElSherbiny, Raithby and Hollands, Journal of Heat Transfer 104 (1982) 96 (from memory). `aspect` is height over width,
/// 5 to 110; a lower one counts as 5. Range: Rayleigh number, on the width, up to 2e7.
///
/// ```
/// use hearthplan::physics::convection::nusselt_upright_gap;
/// assert!((nusselt_upright_gap(500.0, 20.0) - 1.0).abs() < 0.01);
/// assert!((nusselt_upright_gap(1e6, 20.0) - 6.05).abs() < 0.01);
/// ```
pub fn nusselt_upright_gap(rayleigh: f64, aspect: f64) -> f64 {
    let rayleigh = not_negative(rayleigh).max(1.0);
    let turbulent = 0.0605 * rayleigh.cbrt();
    let between = 0.104 * rayleigh.powf(0.293) / (1.0 + (6310.0 / rayleigh).powf(1.36));
    let laminar = 0.242 * (rayleigh / aspect.max(5.0)).powf(0.272);
    turbulent.max((1.0 + between.powi(3)).cbrt()).max(laminar)
}

/// Average Nusselt number of an isothermal upright cylinder, on its height.
///
/// The plate value times the correction for slender cylinders of Popiel, Wojtkowiak and Bober, Experimental Thermal and
/// Fluid Science 32 (2007) 607, fitted to Cebeci's solutions. Made for laminar flow (Rayleigh number up to 1e9,
/// Prandtl 0.01 to 100); above that the correction is small and is kept. A Grashof number below 1 counts as 1 in the
/// correction, which would otherwise grow without bound.
///
/// ```
/// let nusselt = hearthplan::physics::convection::nusselt_vertical_cylinder(0.7e10, 0.7, 2.5, 1.0);
/// assert!((nusselt - 228.898).abs() < 0.001);
/// ```
#[cfg_attr(hearthplan_site, optimize(speed))]
pub fn nusselt_vertical_cylinder(rayleigh: f64, prandtl: f64, height: f64, diameter: f64) -> f64 {
    let grashof = at_least_one(rayleigh / prandtl);
    let logarithm = prandtl.ln();
    let b = 0.057_132_2 + 0.203_05 * (-0.43 * logarithm).exp();
    let c = 0.9165 - 0.0043 * prandtl.sqrt() + 0.013_33 * logarithm + 0.000_480_9 / prandtl;
    let slenderness = 32.0_f64.sqrt() / grashof.sqrt().sqrt() * (height / diameter);
    let power = (c * not_negative(slenderness).ln()).exp();
    nusselt_vertical_plate(rayleigh, prandtl) * (1.0 + b * power)
}

/// Average Nusselt number of a warm plate facing up (or a cool one facing down), on area over perimeter.
///
/// McAdams, Heat Transmission, 3rd edition, 1954. Rayleigh number 1e5 to 1e7: 0.54 Ra^(1/4); above, to 3e10:
/// 0.15 Ra^(1/3). The two differ by 6 % at 1e7; from 0.95e7 to 1.05e7 one is led over into the other, so that a
/// small change of temperature never makes the heat flow jump.
///
/// ```
/// let nusselt = hearthplan::physics::convection::nusselt_plate_facing_up(1.0e6);
/// assert!((nusselt - 17.076).abs() < 0.001);
/// ```
pub fn nusselt_plate_facing_up(rayleigh: f64) -> f64 {
    let rayleigh = not_negative(rayleigh);
    let turbulent_share = ((rayleigh / FACING_UP_TURBULENT - 0.95) / 0.1).clamp(0.0, 1.0);
    if turbulent_share <= 0.0 {
        0.54 * rayleigh.sqrt().sqrt()
    } else {
        let laminar = 0.54 * rayleigh.sqrt().sqrt();
        let turbulent = 0.15 * cube_root(rayleigh);
        laminar + turbulent_share * (turbulent - laminar)
    }
}

/// Average Nusselt number of a warm plate facing down (or a cool one facing up), on area over perimeter.
///
/// McAdams, Heat Transmission, 3rd edition, 1954: 0.27 Ra^(1/4), Rayleigh number 3e5 to 3e10.
///
/// ```
/// let nusselt = hearthplan::physics::convection::nusselt_plate_facing_down(1.0e8);
/// assert!((nusselt - 27.0).abs() < 1e-9);
/// ```
pub fn nusselt_plate_facing_down(rayleigh: f64) -> f64 {
    0.27 * not_negative(rayleigh).sqrt().sqrt()
}

/// Average Nusselt number of a cylinder across the wind, on its diameter.
///
/// Churchill and Bernstein, Journal of Heat Transfer 99 (1977) 300. Range: Reynolds times Prandtl number above 0.2,
/// Reynolds number up to 1e7.
///
/// ```
/// let nusselt = hearthplan::physics::convection::nusselt_cylinder_in_wind(6071.0, 0.7);
/// assert!((nusselt - 40.637).abs() < 0.001);
/// ```
#[cfg_attr(hearthplan_site, optimize(speed))]
pub fn nusselt_cylinder_in_wind(reynolds: f64, prandtl: f64) -> f64 {
    const CUBE_ROOT_OF_TWO_FIFTHS: f64 = 0.736_806_299_728_077_3;
    let reynolds = not_negative(reynolds);
    let prandtl_root = cube_root(prandtl);
    // (0.4 / Pr)^(2/3)
    let shape = (CUBE_ROOT_OF_TWO_FIFTHS / prandtl_root).powi(2);
    let laminar = 0.62 * reynolds.sqrt() * prandtl_root / (1.0 + shape).sqrt().sqrt();
    let root = (reynolds / 282_000.0).sqrt();
    let power_five_eighths = root * root.sqrt().sqrt();
    // (1 + …)^(4/5), which is dear as a power.
    0.3 + laminar * (0.8 * power_five_eighths.ln_1p()).exp()
}

/// Average Nusselt number of a flat plate along the wind, on its length.
///
/// Gnielinski, in VDI Heat Atlas, section G4: the root of the squares of the laminar value (Pohlhausen) and the turbulent
/// one (Petukhov and Popov). Reynolds number 10 to 1e7, Prandtl number 0.6 to 2000. Chosen because wind is turbulent
/// before it arrives, and because a law that jumps at a Reynolds number can make a hotter surface lose less heat.
///
/// ```
/// let nusselt = hearthplan::physics::convection::nusselt_plate_in_wind(1.0e5, 0.7);
/// assert!((nusselt - 361.42).abs() < 0.01);
/// ```
pub fn nusselt_plate_in_wind(reynolds: f64, prandtl: f64) -> f64 {
    let reynolds = not_negative(reynolds);
    // The turbulent form would divide by zero at rest.
    if reynolds == 0.0 {
        return 0.0;
    }
    let prandtl_root = cube_root(prandtl);
    let laminar = 0.664 * reynolds.sqrt() * prandtl_root;
    let logarithm = reynolds.ln();
    let heat_layer = 1.0 + 2.443 * (-0.1 * logarithm).exp() * (prandtl_root * prandtl_root - 1.0);
    let turbulent = 0.037 * (0.8 * logarithm).exp() * prandtl / heat_layer;
    // Far below its range the turbulent form turns negative; there it has no say.
    laminar.hypot(not_negative(turbulent))
}

/// Rayleigh number of a surface of the given `length` in m at `surface_temperature` in still air.
///
/// Temperatures in K; the sign of the difference does not matter.
///
/// ```
/// use hearthplan::physics::convection::{rayleigh, Surroundings};
/// let still = Surroundings { air_temperature: 293.15, pressure: 101_325.0, wind_speed: 0.0 };
/// let rayleigh = rayleigh(0.5, 333.15, &still);
/// assert!((rayleigh / 3.80e8 - 1.0).abs() < 0.01);
/// ```
pub fn rayleigh(length: f64, surface_temperature: f64, surroundings: &Surroundings) -> f64 {
    let film = Film::new(surface_temperature, surroundings);
    film.rayleigh(length)
}

/// Convection coefficients, W/(m²·K), of `surface` at `surface_temperature` in K.
///
/// Wind along the lid or bottom takes the plate's side as its length; wind across a cylinder its diameter. A surface
/// colder than the air swaps the two horizontal cases.
///
/// ```
/// use hearthplan::physics::convection::{coefficients, Surface, Surroundings};
/// let surface = Surface::VerticalCylinder { height: 0.9, diameter: 0.5 };
/// let breeze = Surroundings { air_temperature: 293.15, pressure: 101_325.0, wind_speed: 3.0 };
/// let found = coefficients(surface, 333.15, &breeze);
/// assert!(found.natural > 4.0 && found.natural < 6.0);
/// assert!(found.governing() == found.forced);
/// ```
#[cfg_attr(hearthplan_site, optimize(speed))]
pub fn coefficients(
    surface: Surface,
    surface_temperature: f64,
    surroundings: &Surroundings,
) -> Coefficients {
    let film = Film::new(surface_temperature, surroundings);
    let warm = surface_temperature >= surroundings.air_temperature;
    Coefficients {
        natural: film.natural(surface, warm),
        forced: film.forced(surface, surroundings.wind_speed),
    }
}

/// The [governing](Coefficients::governing) one of the [`coefficients`]. Quicker, since buoyancy is not looked at where
/// the wind is certain to carry off more.
///
/// ```
/// use hearthplan::physics::convection::{coefficients, governing_coefficient, Surface, Surroundings};
/// let surface = Surface::VerticalCylinder { height: 0.9, diameter: 0.03 };
/// let gale = Surroundings { air_temperature: 293.15, pressure: 101_325.0, wind_speed: 12.0 };
/// let both = coefficients(surface, 333.15, &gale);
/// assert_eq!(governing_coefficient(surface, 333.15, &gale), both.governing());
/// ```
#[cfg_attr(hearthplan_site, optimize(speed))]
pub fn governing_coefficient(
    surface: Surface,
    surface_temperature: f64,
    surroundings: &Surroundings,
) -> f64 {
    let warm = surface_temperature >= surroundings.air_temperature;
    Film::new(surface_temperature, surroundings).governing(surface, surroundings.wind_speed, warm)
}

/// Air that rises between upright cylinders which stand close together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rising {
    /// Share of the cylinders that have others on all sides.
    pub share: f64,
    /// Permeability along them times the free section over the wetted girth of it, m³.
    pub passage: f64,
}

/// The mean [`governing_coefficient`] of upright cylinders in a block. What is open to a side has that of one alone; between
/// the others still air warms up as it rises, and the two limits are joined as A. Bar-Cohen and W. M. Rohsenow did for
/// plates (Journal of Heat Transfer 106, 1984, 116; from memory). Wind is taken to reach them all.
///
/// ```
/// use hearthplan::physics::convection::{coefficient_in_block, governing_coefficient, Rising, Surface, Surroundings};
/// let surface = Surface::VerticalCylinder { height: 1.2, diameter: 0.02 };
/// let still = Surroundings { air_temperature: 293.15, pressure: 101_325.0, wind_speed: 0.0 };
/// let alone = governing_coefficient(surface, 373.15, &still);
/// let held_up = |passage| coefficient_in_block(surface, 373.15, &still, &Rising { share: 0.5, passage });
/// assert_eq!(held_up(f64::INFINITY), alone);
/// assert!((held_up(0.0) - 0.5 * alone).abs() < 1e-12);
/// ```
pub fn coefficient_in_block(
    surface: Surface,
    surface_temperature: f64,
    surroundings: &Surroundings,
    rising: &Rising,
) -> f64 {
    let film = Film::new(surface_temperature, surroundings);
    let warm = surface_temperature >= surroundings.air_temperature;
    let alone = film.governing(surface, surroundings.wind_speed, warm);
    let Surface::VerticalCylinder { height, .. } = surface else {
        return alone;
    };
    if surroundings.wind_speed > 0.0 || rising.share <= 0.0 || alone <= 0.0 {
        return alone;
    }
    // All of the air that rises leaves as warm as the surface.
    let slowed = film.conductivity * film.rayleigh_per_volume * rising.passage / height;
    let between = alone * slowed / alone.hypot(slowed);
    let between = if slowed.is_finite() { between } else { alone };
    alone + rising.share * (between - alone)
}

/// Air beside the surface, worked out once for all lengths.
struct Film {
    /// Rayleigh number per cubed metre.
    rayleigh_per_volume: f64,
    kinematic_viscosity: f64,
    conductivity: f64,
    prandtl: f64,
}

impl Film {
    fn governing(&self, surface: Surface, wind_speed: f64, warm: bool) -> f64 {
        let forced = self.forced(surface, wind_speed);
        if forced > STRONG_WIND && forced > self.most_natural(surface) {
            return forced;
        }
        self.natural(surface, warm).max(forced)
    }

    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn new(surface_temperature: f64, surroundings: &Surroundings) -> Film {
        let temperature = 0.5 * (surface_temperature + surroundings.air_temperature);
        let air = Air::at(temperature, surroundings.pressure);
        let kinematic_viscosity = air.kinematic_viscosity();
        let prandtl = air.prandtl();
        let difference = (surface_temperature - surroundings.air_temperature).abs();
        let expansion = 1.0 / temperature.max(air::COLDEST);
        Film {
            rayleigh_per_volume: air::GRAVITY * expansion * difference * prandtl
                / (kinematic_viscosity * kinematic_viscosity),
            kinematic_viscosity,
            conductivity: air.conductivity,
            prandtl,
        }
    }

    fn rayleigh(&self, length: f64) -> f64 {
        self.rayleigh_per_volume * length * length * length
    }

    /// Coefficient by buoyancy alone, W/(m²·K).
    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn natural(&self, surface: Surface, warm: bool) -> f64 {
        let prandtl = self.prandtl;
        let (length, nusselt) = match surface {
            Surface::VerticalCylinder { height, diameter } => {
                let rayleigh = self.rayleigh(height);
                let nusselt = nusselt_vertical_cylinder(rayleigh, prandtl, height, diameter);
                (height, nusselt)
            }
            Surface::VerticalPlate { height } => {
                let nusselt = nusselt_vertical_plate(self.rayleigh(height), prandtl);
                (height, nusselt)
            }
            Surface::FacingUp { side } | Surface::FacingDown { side } => {
                // Area over perimeter is a quarter of the side for a disc and a square alike.
                let length = 0.25 * side;
                let rayleigh = self.rayleigh(length);
                let rises_freely = matches!(surface, Surface::FacingUp { .. }) == warm;
                let nusselt = if rises_freely {
                    nusselt_plate_facing_up(rayleigh)
                } else {
                    nusselt_plate_facing_down(rayleigh)
                };
                (length, nusselt)
            }
        };
        nusselt * self.conductivity / length
    }

    /// More than [`natural`](Self::natural) ever gives, W/(m²·K): its law with the factors that depend on the Prandtl
    /// number at their greatest for any number from 0.5 to 1, while that of air is near 0.7.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn most_natural(&self, surface: Surface) -> f64 {
        let Surface::VerticalCylinder { height, diameter } = surface else {
            return f64::INFINITY;
        };
        let rayleigh = self.rayleigh(height);
        let root = 0.825 + 0.387 * cube_root(rayleigh.sqrt());
        let grashof = at_least_one(rayleigh / self.prandtl);
        let slenderness = 32.0_f64.sqrt() / grashof.sqrt().sqrt() * (height / diameter);
        root * root * (1.0 + 0.34 * at_least_one(slenderness)) * self.conductivity / height
    }

    /// Coefficient by wind alone, W/(m²·K).
    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn forced(&self, surface: Surface, wind_speed: f64) -> f64 {
        let windy = wind_speed > 0.0;
        if !windy {
            return 0.0;
        }
        let length = match surface {
            Surface::VerticalCylinder { diameter, .. } => diameter,
            Surface::VerticalPlate { height } => height,
            Surface::FacingUp { side } | Surface::FacingDown { side } => side,
        };
        let reynolds = wind_speed * length / self.kinematic_viscosity;
        let nusselt = match surface {
            Surface::VerticalCylinder { .. } => nusselt_cylinder_in_wind(reynolds, self.prandtl),
            _ => nusselt_plate_in_wind(reynolds, self.prandtl),
        };
        nusselt * self.conductivity / length
    }
}

/// Zero for negative numbers; NaN stays NaN so that a bad input shows.
fn not_negative(number: f64) -> f64 {
    if number < 0.0 { 0.0 } else { number }
}

/// One for numbers below one; NaN stays NaN.
fn at_least_one(number: f64) -> f64 {
    if number < 1.0 { 1.0 } else { number }
}
