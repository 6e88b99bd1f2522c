//! How fast does a fire turn mild steel into scale?
//!
//! In air scale grows with the square root of time, and faster the hotter it is: Païdassi, Acta Metallurgica 6, 1958, for
//! iron at 700 to 1250 °C, from memory: oxygen taken up, in g/cm², is √(k t) with k = 6.1 g²/(cm⁴ s) · e^(−20 330 K / T).
//! Scale that flakes off, or ash that fluxes it, makes it faster; lean gas makes it slower. Within a factor of three.

use crate::design::celsius;
use uom::si::f64::{Length, ThermodynamicTemperature, Time};
use uom::si::time::second;

/// Growth of the scale, kg²/(m⁴ s).
pub const GROWTH: f64 = 610.0;
/// How it grows with temperature, K: activation energy over the gas constant.
pub const ACTIVATION: f64 = 20_330.0;
/// Oxygen that a kilogram of iron binds: scale is nearly all FeO.
pub const OXYGEN: f64 = 0.2865;
/// Density of mild steel, kg/m³.
pub const STEEL: f64 = 7850.0;

/// Time in which air of this temperature turns this much mild steel into scale. None outside of 700 to 1250 °C.
///
/// ```
/// use hearthplan::sizing::scaling::time_to_scale;
/// use uom::si::f64::{Length, ThermodynamicTemperature};
/// use uom::si::{length::millimeter, thermodynamic_temperature::degree_celsius, time::hour};
/// let hot = ThermodynamicTemperature::new::<degree_celsius>(1000.0);
/// // 0.2865 · 7850 kg/m³ · 0.5 mm = 1.1245 kg/m²; k = 610 · e^(−15.968) = 7.08e-5 kg²/(m⁴ s).
/// let half_a_millimetre = time_to_scale(Length::new::<millimeter>(0.5), hot).unwrap();
/// assert!((half_a_millimetre.get::<hour>() - 4.96).abs() < 0.03);
/// ```
pub fn time_to_scale(steel: Length, temperature: ThermodynamicTemperature) -> Option<Time> {
    if !(celsius(700.0)..=celsius(1250.0)).contains(&temperature.value) {
        return None;
    }
    let taken_up = OXYGEN * STEEL * steel.value;
    let growth = GROWTH * (-ACTIVATION / temperature.value).exp();
    Some(Time::new::<second>(taken_up * taken_up / growth))
}
