//! Where does water fall out of the gas, how much, and how often must the trap be drained?
//!
//! Steam and gas mix as ideal gases; the gas carries at most the saturation pressure of water (IAPWS-IF97). No water is
//! held by tar, and frost is not covered. Condensate of wood gas is acid and tarry: gloves, and not onto the ground.

use crate::physics::error::{PhysicsError, within};
use crate::physics::species::Species;
use crate::physics::water::{self, Saturated};
use uom::si::f64::{MassRate, Pressure, Ratio, ThermodynamicTemperature, Time, Volume};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::time::second;

/// Density of condensate, kg/m³: that of water, rounded (common practice, no source).
pub const CONDENSATE_DENSITY: f64 = 1000.0;

/// Saturation is asked for up to this temperature, K; hotter gas is never wet at the pressures of a gas train.
const HOTTEST_WET: f64 = 420.0;

/// Greatest amount of steam beside one mole of dry gas at `temperature` in K and `pressure` in Pa; none where water
/// boils, so that any amount stays steam. Below freezing the value at freezing is given.
pub(crate) fn saturation_ratio(temperature: f64, pressure: f64) -> Option<f64> {
    if temperature > HOTTEST_WET {
        return None;
    }
    let saturated = water::saturation_pressure(temperature.max(water::COLDEST)).ok()?;
    (saturated < pressure).then(|| saturated / (pressure - saturated))
}

/// By how much that amount rises for each kelvin, where water at that temperature is `saturated`; none where it boils.
pub(crate) fn saturation_ratio_slope(saturated: &Saturated, pressure: f64) -> Option<f64> {
    let gas = pressure - saturated.pressure;
    (gas > 0.0).then(|| saturated.slope * pressure / (gas * gas))
}

/// Dew point of gas with `steam_share` of steam (mole fraction of the wet gas) at `pressure`.
///
/// None if the steam would turn to frost first (partial pressure below 611 Pa), or for numbers out of range.
///
/// ```
/// use hearthplan::sizing::condensate::dew_point;
/// use uom::si::{f64::*, pressure::pascal, ratio::percent, thermodynamic_temperature::degree_celsius};
/// let found = dew_point(Ratio::new::<percent>(10.0), Pressure::new::<pascal>(101_325.0)).unwrap();
/// assert!((found.get::<degree_celsius>() - 46.1).abs() < 0.1);
/// ```
pub fn dew_point(steam_share: Ratio, pressure: Pressure) -> Option<ThermodynamicTemperature> {
    let partial = steam_share.value * pressure.value;
    let found = water::dew_point(partial).ok()?;
    Some(ThermodynamicTemperature::new::<kelvin>(found))
}

/// Water that leaves the gas as liquid, kg per mole of dry gas, when gas with `steam_share` of steam is cooled to
/// `outlet`.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] for a share not between 0 and 0.95, a pressure not between 10 and 500 kPa, or an outlet
/// below freezing or above 350 °C.
///
/// ```
/// use hearthplan::sizing::condensate::condensate_per_mole;
/// use uom::si::{f64::*, pressure::pascal, ratio::percent, thermodynamic_temperature::degree_celsius};
/// let found = condensate_per_mole(
///     Ratio::new::<percent>(10.0),
///     ThermodynamicTemperature::new::<degree_celsius>(30.0),
///     Pressure::new::<pascal>(101_325.0),
/// )?;
/// assert!((found - 0.00121).abs() < 0.00001);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn condensate_per_mole(
    steam_share: Ratio,
    outlet: ThermodynamicTemperature,
    pressure: Pressure,
) -> Result<f64, PhysicsError> {
    let share = within("share of steam", "", steam_share.value, 0.0, 0.95)?;
    let pressure = within("gas pressure", "Pa", pressure.value, 1e4, 5e5)?;
    let outlet = within(
        "gas temperature",
        "K",
        outlet.value,
        water::COLDEST,
        water::HOTTEST,
    )?;
    let brought = share / (1.0 - share);
    let kept = saturation_ratio(outlet, pressure).map_or(brought, |most| brought.min(most));
    Ok((brought - kept) * Species::Water.molar_mass())
}

/// Time until a trap is full; none if nothing runs into it.
///
/// ```
/// use hearthplan::sizing::condensate::drain_interval;
/// use uom::si::{f64::*, mass_rate::kilogram_per_hour, time::hour, volume::liter};
/// let found = drain_interval(Volume::new::<liter>(3.0), MassRate::new::<kilogram_per_hour>(1.5)).unwrap();
/// assert!((found.get::<hour>() - 2.0).abs() < 1e-9);
/// ```
pub fn drain_interval(capacity: Volume, inflow: MassRate) -> Option<Time> {
    if !(inflow.value > 0.0 && capacity.value >= 0.0) {
        return None;
    }
    let time = capacity.value * CONDENSATE_DENSITY / inflow.value;
    time.is_finite().then(|| Time::new::<second>(time))
}

/// Volume a trap must hold to go `interval` without draining.
///
/// ```
/// use hearthplan::sizing::condensate::trap_volume;
/// use uom::si::{f64::*, mass_rate::kilogram_per_hour, time::hour, volume::liter};
/// let found = trap_volume(Time::new::<hour>(4.0), MassRate::new::<kilogram_per_hour>(1.5));
/// assert!((found.get::<liter>() - 6.0).abs() < 1e-9);
/// ```
pub fn trap_volume(interval: Time, inflow: MassRate) -> Volume {
    use uom::si::volume::cubic_meter;
    Volume::new::<cubic_meter>(interval.value * inflow.value / CONDENSATE_DENSITY)
}

/// Mass flow of `moles` of water per second.
pub(crate) fn water_rate(moles: f64) -> MassRate {
    MassRate::new::<kilogram_per_second>(moles * Species::Water.molar_mass())
}

/// Moles of water per second in a mass flow.
pub(crate) fn water_moles(rate: MassRate) -> f64 {
    rate.value / Species::Water.molar_mass()
}

/// Enthalpy of liquid water in J/mol on the scale of the gas enthalpies, at `temperature` in K: steam less the heat of
/// vaporisation.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] below freezing or above 350 °C.
pub(crate) fn liquid_enthalpy(temperature: f64) -> Result<f64, PhysicsError> {
    let latent = water::latent_heat(temperature)?;
    Ok(liquid_enthalpy_below(temperature, latent))
}

/// The same where the latent heat is known, J/kg.
pub(crate) fn liquid_enthalpy_below(temperature: f64, latent: f64) -> f64 {
    Species::Water.enthalpy(temperature) - latent * Species::Water.molar_mass()
}
