//! Heat that gas gives off through the wall of a vessel. SI numbers inside.
//!
//! The wall lets through the same heat for each kelvin between gas and air. So gas falls towards the air exponentially as
//! long as its heat capacity stays the same: that is so above its dew point. Below it the steam that falls out gives off
//! its heat too, less and less of it the colder the gas gets.

use super::gas_state::{COLDEST, GasState};
use super::stage::StageError;
use crate::physics::secant::{NoCrossing, Search, crossing};
use crate::sizing::cooler::block::Room;
use crate::sizing::cooler::outside::air_flux;
use crate::sizing::cooler::{Orientation, outside_air};
use crate::sizing::nozzles::Surroundings;
use std::convert::Infallible;
use std::f64::consts::PI;

/// Pieces into which the wall that wet gas passes is cut: with two the heat is right to a hundredth.
const PIECES: u32 = 2;
/// A hair, K: gas this near to its dew point, such as a drained stage leaves, is at it.
const HAIR: f64 = 1e-9;

/// Heat in W that gas gives off through a vessel wall of `conductance` in W/K to air at `air` in K; negative where the air
/// is warmer.
pub(crate) fn wall_heat(gas: &GasState, conductance: f64, air: f64) -> Result<f64, StageError> {
    let start = gas.temperature.value;
    let capacity = gas.sensible_capacity_rate();
    let Some(dew) = gas.dew_point_of_all_water() else {
        return Ok(dry_heat(capacity, conductance, start - air));
    };
    let wet = WetGas { gas, air, dew };
    if air < start {
        // Gas that is cooled is dry down to its dew point.
        let to_dew = capacity * fall(start, dew.min(start), air);
        if conductance <= to_dew {
            return Ok(dry_heat(capacity, conductance, start - air));
        }
        let from = start.min(dew);
        let before = capacity * (start - from);
        Ok(before + wet.heat(from, wet.after(from, conductance - to_dew)?)?)
    } else if start < dew - HAIR {
        // Gas that is warmed is wet up to it.
        let to_dew = wet.conductance_to_dew(start)?;
        if conductance <= to_dew {
            return wet.heat(start, wet.after(start, conductance)?);
        }
        let dried = gas.settled(dew, gas.pressure.value)?;
        let capacity = dried.sensible_capacity_rate();
        Ok(wet.heat(start, dew)? + dry_heat(capacity, conductance - to_dew, dew - air))
    } else {
        Ok(dry_heat(capacity, conductance, start - air))
    }
}

/// Emittance of the outside of pipes and vessels: rusty or painted steel, cladding that is no longer bright (handbook value,
/// from memory).
pub(crate) const OUTSIDE_EMITTANCE: f64 = 0.9;

/// How hot the outside of an upright vessel must be to give off `flux` in W/m² to still air, K; no hotter than the gas, `hottest`
/// in K. `size` is its diameter and height outside, m.
pub(crate) fn surface_giving_off(
    flux: f64,
    size: [f64; 2],
    hottest: f64,
    around: &Surroundings,
) -> f64 {
    let [diameter, height] = size;
    let air = outside_air(around, 0.0);
    let form = (Orientation::Upright, diameter, height);
    let wanted = flux * PI * diameter;
    let usual = USUAL_COEFFICIENT * PI * diameter;
    let search = Search {
        low: air.air_temperature.min(hottest),
        high: air.air_temperature.max(hottest),
        first: air.air_temperature + wanted / usual,
        expected_slope: usual,
        value_tolerance: SETTLED * usual,
        step_tolerance: SETTLED,
    };
    let given = |outside| air_flux(outside, form, OUTSIDE_EMITTANCE, None, &Room::FREE, &air);
    match crossing(search, |outside| {
        Ok::<f64, Infallible>(given(outside) - wanted)
    }) {
        Ok(outside) | Err(NoCrossing::NotSettled(outside)) => outside,
        Err(NoCrossing::BelowRange) => search.low,
        Err(NoCrossing::AboveRange) => search.high,
        Err(NoCrossing::Function(never)) => match never {},
    }
}

/// Outsides that differ by less are the same, K.
const SETTLED: f64 = 1.0e-3;
/// What the outside of a warm vessel usually gives off to still air and to what is around it, W/(m²·K): where a search begins.
const USUAL_COEFFICIENT: f64 = 12.0;

/// Heat in W that gas of this heat capacity flow in W/K gives off, `above` in K warmer than the air where it comes in.
fn dry_heat(capacity: f64, conductance: f64, above: f64) -> f64 {
    -capacity * (-conductance / capacity).exp_m1() * above
}

/// Conductance over heat capacity flow that it takes from one temperature to another, K; infinite if that does not lie
/// before the air's.
fn fall(from: f64, to: f64, air: f64) -> f64 {
    let left = (to - air) / (from - air);
    if left > 0.0 {
        -left.ln()
    } else {
        f64::INFINITY
    }
}

/// Gas at its dew point or below.
struct WetGas<'a> {
    gas: &'a GasState,
    /// Air around, K.
    air: f64,
    /// Where the first drop forms, K.
    dew: f64,
}

impl WetGas<'_> {
    fn at(&self, temperature: f64) -> Result<GasState, StageError> {
        self.gas.settled(temperature, self.gas.pressure.value)
    }

    /// Heat capacity flow where it has this temperature, or as near to it as it is wet, W/K.
    fn capacity(&self, temperature: f64) -> Result<f64, StageError> {
        let wet = temperature.min(self.dew).max(COLDEST);
        Ok(self.at(wet)?.saturated_capacity_rate())
    }

    /// Heat given off between two temperatures in K, W. Below freezing so much is asked for each kelvin as at freezing:
    /// gas is never so cold, but who takes that heat from it learns that it would be.
    fn heat(&self, from: f64, to: f64) -> Result<f64, StageError> {
        let below = (COLDEST - to).max(0.0);
        let [from, to] = [
            self.at(from)?.enthalpy_rate()?,
            self.at(to.max(COLDEST))?.enthalpy_rate()?,
        ];
        let beyond = match below > 0.0 {
            true => below * self.capacity(COLDEST)?,
            false => 0.0,
        };
        Ok((from - to).value + beyond)
    }

    /// Temperature behind a wall of this conductance in W/K, by a Runge-Kutta rule of the third order (Kutta, 1901).
    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn after(&self, from: f64, conductance: f64) -> Result<f64, StageError> {
        let above = from - self.air;
        let part = conductance / f64::from(PIECES);
        let mut units = 0.0_f64;
        let per_conductance = |units: f64| {
            let temperature = self.air + above * (-units.max(0.0)).exp();
            self.capacity(temperature).map(f64::recip)
        };
        for _ in 0..PIECES {
            let start = per_conductance(units)?;
            let middle = per_conductance(units + 0.5 * part * start)?;
            let end = per_conductance(units + part * (2.0 * middle - start))?;
            units += part / 6.0 * (start + 4.0 * middle + end);
        }
        Ok(self.air + above * (-units).exp())
    }

    /// Conductance that warms it up to its dew point, by Simpson's rule, W/K.
    fn conductance_to_dew(&self, from: f64) -> Result<f64, StageError> {
        let units = fall(from, self.dew, self.air);
        if units.is_infinite() {
            return Ok(units);
        }
        let middle = self.air + (from - self.air) * (-0.5 * units).exp();
        let [start, middle, end] = [
            self.capacity(from)?,
            self.capacity(middle)?,
            self.capacity(self.dew)?,
        ];
        Ok(units / 6.0 * (start + 4.0 * middle + end))
    }
}
