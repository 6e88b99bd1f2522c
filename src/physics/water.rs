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

/// Saturation pressure at [`COLDEST`] and at [`HOTTEST`], Pa: the line itself, worked out once.
const ENDS: [f64; 2] = [611.212_677_444_344_9, 16_529_164.252_604_477];

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
    let t = where_saturated(temperature)?;
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
    let [low, high] = ENDS;
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
    let t = where_saturated(temperature)?;
    Ok(latent_heat_on_line(t, line(t).slope))
}

/// The saturation line at one temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Saturated {
    /// Pressure, Pa.
    pub pressure: f64,
    /// How much it rises for each kelvin, Pa/K.
    pub slope: f64,
    /// Heat of vaporisation, J/kg.
    pub latent_heat: f64,
}

/// Pressure, its slope and the heat of vaporisation at `temperature` in K, 273.15 to 623.15: what needs them all gets
/// them from one look at the line.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] outside that range.
///
/// ```
/// use hearthplan::physics::water;
/// let saturated = water::saturated(373.15)?;
/// assert_eq!(saturated.pressure, water::saturation_pressure(373.15)?);
/// assert_eq!(saturated.latent_heat, water::latent_heat(373.15)?);
/// assert!((saturated.slope - 3617.0).abs() < 3.0);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn saturated(temperature: f64) -> Result<Saturated, PhysicsError> {
    let t = where_saturated(temperature)?;
    let Line { pressure, slope } = line(t);
    Ok(Saturated {
        pressure,
        slope,
        latent_heat: latent_heat_on_line(t, slope),
    })
}

/// Clausius and Clapeyron.
fn latent_heat_on_line(temperature: f64, slope: f64) -> f64 {
    let Densities { liquid, steam } = saturated_densities(temperature);
    temperature * slope * (1.0 / steam - 1.0 / liquid)
}

/// A temperature at which water can be saturated.
fn where_saturated(temperature: f64) -> Result<f64, PhysicsError> {
    let what = "temperature of saturated water";
    within(what, "K", temperature, COLDEST, HOTTEST)
}

fn pressure_on_line(temperature: f64) -> f64 {
    line(temperature).pressure
}

/// The saturation line, Pa and Pa/K.
struct Line {
    pressure: f64,
    slope: f64,
}

#[cfg_attr(hearthplan_site, optimize(speed))]
fn line(temperature: f64) -> Line {
    let [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = LINE;
    let above = 1.0 / (temperature - n10);
    let theta = temperature + n9 * above;
    let a = theta * theta + n1 * theta + n2;
    let b = n3 * theta * theta + n4 * theta + n5;
    let c = n6 * theta * theta + n7 * theta + n8;
    let discriminant = (b * b - 4.0 * a * c).sqrt();
    let root = 2.0 * c / (-b + discriminant);
    // The root makes a·root² + b·root + c nothing: so does its slope with the slopes of a, b and c.
    let leaning =
        (2.0 * theta + n1) * root * root + (2.0 * n3 * theta + n4) * root + (2.0 * n6 * theta + n7);
    let root_slope = leaning / discriminant * (1.0 - n9 * above * above);
    let cube = root * root * root;
    Line {
        pressure: 1e6 * cube * root,
        slope: 4e6 * cube * root_slope,
    }
}

/// Densities on the saturation line, kg/m³.
struct Densities {
    liquid: f64,
    steam: f64,
}

#[cfg_attr(hearthplan_site, optimize(speed))]
fn saturated_densities(temperature: f64) -> Densities {
    const CRITICAL_TEMPERATURE: f64 = 647.096;
    const CRITICAL_DENSITY: f64 = 322.0;
    let square_root = (1.0 - temperature / CRITICAL_TEMPERATURE).max(0.0).sqrt();
    // The exponents of the equations are sixths: each power is made of those before it.
    let p1 = cube_root(square_root);
    let p2 = p1 * p1;
    let p4 = p2 * p2;
    let p8 = p4 * p4;
    let p16 = p8 * p8;
    let p32 = p16 * p16;
    let p64 = p32 * p32;
    let p86 = p64 * p16 * p4 * p2;
    let liquid = 1.992_740_64 * p2 + 1.099_653_42 * p4
        - 0.510_839_303 * (p8 * p2)
        - 1.754_934_79 * p32
        - 45.517_035_2 * p86
        - 6.746_944_50e5 * (p86 * p64 * p64 * p4 * p2);
    let steam = -2.031_502_40 * p2
        - 2.683_029_40 * p4
        - 5.386_264_92 * p8
        - 17.299_160_5 * (p16 * p2)
        - 44.758_658_1 * (p32 * p4 * p1)
        - 63.920_106_3 * (p64 * p4 * p2 * p1);
    Densities {
        liquid: CRITICAL_DENSITY * (1.0 + liquid),
        steam: CRITICAL_DENSITY * steam.exp(),
    }
}

#[cfg(test)]
mod tests {
    use super::{COLDEST, ENDS, HOTTEST, pressure_on_line};

    #[test]
    fn the_ends_of_the_line_are_on_it() {
        assert_eq!(ENDS, [COLDEST, HOTTEST].map(pressure_on_line));
    }
}
