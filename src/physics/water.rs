//! Water where steam and liquid meet: saturation pressure, dew point, latent heat. 0 °C to 350 °C.
//!
//! Pressure and temperature: IAPWS Industrial Formulation 1997, region 4, which has an exact inverse. Latent heat:
//! Clausius-Clapeyron with the saturated densities of Wagner and Pruss, Journal of Physical and Chemical Reference
//! Data 22 (1993) 783 (IAPWS SR1-86). Coefficients from memory, held against the published check values in the tests.

use super::cube_root::cube_root;
use super::error::{PhysicsError, within};

/// Coldest temperature accepted, K: freezing point. Frost is not covered.
pub const COLDEST: f64 = 273.15;

/// Hottest temperature accepted, K. The critical point is at 647.096 K.
pub const HOTTEST: f64 = 623.15;

/// Coefficients of the saturation line, region 4.
const LINE: [f64; 10] = [
    0.116_705_214_527_67e4,
    -0.724_213_167_032_06e6,
    -0.170_738_469_400_92e2,
    0.120_208_247_024_70e5,
    -0.323_255_503_223_33e7,
    0.149_151_086_135_30e2,
    -0.482_326_573_615_91e4,
    0.405_113_405_420_57e6,
    -0.238_555_575_678_49,
    0.650_175_348_447_98e3,
];

/// Saturation pressure in Pa at `temperature` in K, 273.15 to 623.15.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] outside that range.
///
/// ```
/// let pressure = hearthplan::physics::water::saturation_pressure(300.0)?;
/// assert!((pressure - 3536.58941).abs() < 1e-4);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn saturation_pressure(temperature: f64) -> Result<f64, PhysicsError> {
    let t = within(
        "temperature of saturated water",
        "K",
        temperature,
        COLDEST,
        HOTTEST,
    )?;
    Ok(pressure_on_line(t))
}

/// Dew point in K of steam at `partial_pressure` in Pa: where the first drop forms on cooling.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] if the pressure is below that of freezing water (611 Pa: frost instead of dew) or above
/// 16.5 MPa.
///
/// ```
/// let dew_point = hearthplan::physics::water::dew_point(12_352.0)?;
/// assert!((dew_point - 323.15).abs() < 0.01);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn dew_point(partial_pressure: f64) -> Result<f64, PhysicsError> {
    let low = pressure_on_line(COLDEST);
    let high = pressure_on_line(HOTTEST);
    let pressure = within(
        "partial pressure of steam",
        "Pa",
        partial_pressure,
        low,
        high,
    )?;
    let [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = LINE;
    let beta = (pressure / 1e6).sqrt().sqrt();
    let e = beta * beta + n3 * beta + n6;
    let f = n1 * beta * beta + n4 * beta + n7;
    let g = n2 * beta * beta + n5 * beta + n8;
    let d = 2.0 * g / (-f - (f * f - 4.0 * e * g).sqrt());
    Ok(0.5 * (n10 + d - ((n10 + d) * (n10 + d) - 4.0 * (n9 + n10 * d)).sqrt()))
}

/// Heat of vaporisation in J/kg at `temperature` in K, 273.15 to 623.15.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] outside that range.
///
/// ```
/// let latent = hearthplan::physics::water::latent_heat(373.15)?;
/// assert!((latent / 2.2565e6 - 1.0).abs() < 0.001);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn latent_heat(temperature: f64) -> Result<f64, PhysicsError> {
    let t = within(
        "temperature of saturated water",
        "K",
        temperature,
        COLDEST,
        HOTTEST,
    )?;
    // A small step on both sides; the line is smooth, so the error is far below the equation's own.
    let step = 0.01;
    let slope = (pressure_on_line(t + step) - pressure_on_line(t - step)) / (2.0 * step);
    let Densities { liquid, steam } = saturated_densities(t);
    Ok(t * slope * (1.0 / steam - 1.0 / liquid))
}

#[cfg_attr(hearthplan_site, optimize(speed))]
fn pressure_on_line(temperature: f64) -> f64 {
    let [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = LINE;
    let theta = temperature + n9 / (temperature - n10);
    let a = theta * theta + n1 * theta + n2;
    let b = n3 * theta * theta + n4 * theta + n5;
    let c = n6 * theta * theta + n7 * theta + n8;
    let root = 2.0 * c / (-b + (b * b - 4.0 * a * c).sqrt());
    1e6 * root * root * root * root
}

/// Densities on the saturation line, kg/m³.
struct Densities {
    liquid: f64,
    steam: f64,
}

fn saturated_densities(temperature: f64) -> Densities {
    const CRITICAL_TEMPERATURE: f64 = 647.096;
    const CRITICAL_DENSITY: f64 = 322.0;
    /// Coefficient and exponent in sixths.
    const LIQUID: [(f64, i32); 6] = [
        (1.992_740_64, 2),
        (1.099_653_42, 4),
        (-0.510_839_303, 10),
        (-1.754_934_79, 32),
        (-45.517_035_2, 86),
        (-6.746_944_50e5, 220),
    ];
    const STEAM: [(f64, i32); 6] = [
        (-2.031_502_40, 2),
        (-2.683_029_40, 4),
        (-5.386_264_92, 8),
        (-17.299_160_5, 18),
        (-44.758_658_1, 37),
        (-63.920_106_3, 71),
    ];
    let square_root = (1.0 - temperature / CRITICAL_TEMPERATURE).max(0.0).sqrt();
    let sixth_root = cube_root(square_root);
    let sum = |terms: &[(f64, i32); 6]| -> f64 {
        terms
            .iter()
            .map(|(factor, sixths)| factor * sixth_root.powi(*sixths))
            .sum()
    };
    Densities {
        liquid: CRITICAL_DENSITY * (1.0 + sum(&LIQUID)),
        steam: CRITICAL_DENSITY * sum(&STEAM).exp(),
    }
}
