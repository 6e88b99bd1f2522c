//! Dry air: density, viscosity, conductivity and heat capacity from 200 to 1700 K, and pressure at altitude.
//!
//! Viscosity and conductivity are polynomials fitted to the zero-density equations of Lemmon and Jacobsen,
//! "Viscosity and thermal conductivity equations for nitrogen, oxygen, argon, and air", International Journal of
//! Thermophysics 25 (2004) 21. Heat capacity is fitted to the ideal-gas equation of Lemmon, Jacobsen, Penoncello and
//! Friend, Journal of Physical and Chemical Reference Data 29 (2000) 331. The fits stay within 0.05 % of the
//! equations. Polynomials because the heat-flow solver asks for these values thousands of times per review.
//!
//! Temperatures outside 200 to 1700 K are held at the nearer end.

/// Gas constant of dry air, J/(kg·K): 8.314463 / 0.0289647 (US Standard Atmosphere 1976 molar mass).
pub const GAS_CONSTANT: f64 = 287.055;

/// Pressure of the standard atmosphere at sea level, Pa.
pub const STANDARD_PRESSURE: f64 = 101_325.0;

/// Standard gravity, m/s².
pub const GRAVITY: f64 = 9.80665;

/// Lowest temperature of the fits, K.
pub const COLDEST: f64 = 200.0;

/// Highest temperature of the fits, K.
pub const HOTTEST: f64 = 1700.0;

/// Coefficients of the viscosity, Pa·s, in rising powers of T / 1000 K.
const VISCOSITY: [f64; 7] = [
    -1.929185041e-07,
    8.162219689e-05,
    -8.506228672e-05,
    8.403807093e-05,
    -5.306299728e-05,
    1.871143506e-05,
    -2.775391224e-06,
];

/// Coefficients of the conductivity, W/(m·K), in rising powers of T / 1000 K.
const CONDUCTIVITY: [f64; 7] = [
    -1.075919886e-03,
    1.145902977e-01,
    -1.024478629e-01,
    1.012824084e-01,
    -6.383465458e-02,
    2.249702575e-02,
    -3.338277228e-03,
];

/// Coefficients of the heat capacity at constant pressure, J/(kg·K), in rising powers of T / 1000 K.
const HEAT_CAPACITY: [f64; 8] = [
    9.910125841e+02,
    2.476333946e+02,
    -1.787967208e+03,
    5.527658672e+03,
    -7.391399432e+03,
    5.076469824e+03,
    -1.772097330e+03,
    2.499596152e+02,
];

/// State of dry air at one temperature and pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    /// Density, kg/m³.
    pub density: f64,
    /// Dynamic viscosity, Pa·s.
    pub viscosity: f64,
    /// Thermal conductivity, W/(m·K).
    pub conductivity: f64,
    /// Heat capacity at constant pressure, J/(kg·K).
    pub heat_capacity: f64,
}

impl Air {
    /// Dry air at `temperature` in K (200 to 1700, held at the ends) and `pressure` in Pa, by the ideal gas law.
    ///
    /// ```
    /// let air = hearthplan::physics::air::Air::at(300.0, 101_325.0);
    /// assert!((air.density - 1.1766).abs() < 0.001);
    /// assert!((air.prandtl() - 0.706).abs() < 0.002);
    /// ```
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub fn at(temperature: f64, pressure: f64) -> Air {
        let held = temperature.clamp(COLDEST, HOTTEST);
        Air {
            density: pressure.max(0.0) / (GAS_CONSTANT * held),
            viscosity: viscosity(held),
            conductivity: conductivity(held),
            heat_capacity: heat_capacity(held),
        }
    }

    /// Prandtl number: heat capacity times viscosity over conductivity.
    pub fn prandtl(&self) -> f64 {
        self.heat_capacity * self.viscosity / self.conductivity
    }

    /// Kinematic viscosity, m²/s. Infinite in a vacuum.
    pub fn kinematic_viscosity(&self) -> f64 {
        self.viscosity / self.density
    }
}

/// Dynamic viscosity of dry air in Pa·s at `temperature` in K.
///
/// ```
/// let viscosity = hearthplan::physics::air::viscosity(300.0);
/// assert!((viscosity - 18.52e-6).abs() < 0.02e-6);
/// ```
#[cfg_attr(hearthplan_site, optimize(speed))]
pub fn viscosity(temperature: f64) -> f64 {
    polynomial(&VISCOSITY, temperature.clamp(COLDEST, HOTTEST) / 1000.0)
}

/// Thermal conductivity of dry air in W/(m·K) at `temperature` in K.
///
/// ```
/// let conductivity = hearthplan::physics::air::conductivity(300.0);
/// assert!((conductivity - 0.02635).abs() < 0.00003);
/// ```
#[cfg_attr(hearthplan_site, optimize(speed))]
pub fn conductivity(temperature: f64) -> f64 {
    polynomial(&CONDUCTIVITY, temperature.clamp(COLDEST, HOTTEST) / 1000.0)
}

/// Conductivity of dry air integrated over temperature from 0 to `temperature` in K, W/m.
///
/// Only differences mean anything: heat conducted through a still gap is a difference of two of these times a shape
/// factor. Beyond the ends of the fit the conductivity stays constant and the integral grows in a straight line.
///
/// ```
/// use hearthplan::physics::air::{conductivity, conductivity_integral};
/// let mean = (conductivity_integral(301.0) - conductivity_integral(299.0)) / 2.0;
/// assert!((mean - conductivity(300.0)).abs() < 1e-7);
/// ```
pub fn conductivity_integral(temperature: f64) -> f64 {
    let held = temperature.clamp(COLDEST, HOTTEST);
    let x = held / 1000.0;
    let mut divisor = CONDUCTIVITY.len() as f64 + 1.0;
    let sum = CONDUCTIVITY.iter().rev().fold(0.0, |sum, c| {
        divisor -= 1.0;
        sum * x + c / divisor
    });
    held * sum + polynomial(&CONDUCTIVITY, x) * (temperature - held)
}

/// Heat capacity of dry air at constant pressure in J/(kg·K) at `temperature` in K.
///
/// ```
/// let heat_capacity = hearthplan::physics::air::heat_capacity(300.0);
/// assert!((heat_capacity - 1005.0).abs() < 1.0);
/// ```
#[cfg_attr(hearthplan_site, optimize(speed))]
pub fn heat_capacity(temperature: f64) -> f64 {
    polynomial(&HEAT_CAPACITY, temperature.clamp(COLDEST, HOTTEST) / 1000.0)
}

/// Pressure in Pa at `altitude` in m above sea level, −1000 to 11 000 m, held at the ends.
///
/// US Standard Atmosphere 1976, lowest layer: 288.15 K at sea level, falling 6.5 K per km of geopotential height.
///
/// ```
/// let pressure = hearthplan::physics::air::pressure_at_altitude(1500.0);
/// assert!((pressure - 84_556.0).abs() < 10.0);
/// ```
pub fn pressure_at_altitude(altitude: f64) -> f64 {
    const EARTH_RADIUS: f64 = 6_356_766.0;
    const SEA_LEVEL_TEMPERATURE: f64 = 288.15;
    const LAPSE_RATE: f64 = 0.0065;
    /// Gravity times molar mass over gas constant times lapse rate, with the constants of the 1976 document.
    const EXPONENT: f64 = 5.255_876;
    let altitude = altitude.clamp(-1000.0, 11_000.0);
    let geopotential = EARTH_RADIUS * altitude / (EARTH_RADIUS + altitude);
    let ratio = 1.0 - LAPSE_RATE * geopotential / SEA_LEVEL_TEMPERATURE;
    STANDARD_PRESSURE * ratio.powf(EXPONENT)
}

/// Sum of `coefficients[i] * x^i` by Horner's rule.
#[cfg_attr(hearthplan_site, optimize(speed))]
fn polynomial(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}
