//! Mean temperature of the oxidation zone by its own balance.

use super::error::GasError;
use super::feed::{Feed, air};
use crate::physics::equilibrium::{Constants, EquilibriumError, GasAmounts};
use crate::physics::secant::{Crossing, NoCrossing, Search, crossing, crossing_with_slope};

/// The zone at the nozzle plane, per kg of dry fuel.
pub(super) struct Oxidation {
    /// K.
    pub temperature: f64,
    /// Gas leaving the zone, mol.
    pub gas: GasAmounts,
    /// Char burned in the zone, kg: only where air is left over when the volatiles are burned.
    pub char_burned: f64,
}

const COLDEST: f64 = 450.0;
const HOTTEST: f64 = 3300.0;

/// Volatiles and moisture burn with all of the air; char is heated and waits. `loss` is the heat lost at or
/// above the nozzle plane in J per kg of dry fuel, `oxygen` the air's in mol of O2 per kg.
///
/// Oxygen beyond what the volatiles can burn finds glowing char and burns it to carbon dioxide. `near` is where the
/// balance was closed for nearly the same loss, and becomes where it is closed now.
pub(super) fn oxidation(
    feed: &Feed,
    oxygen: f64,
    loss: f64,
    near: &mut Option<Crossing>,
) -> Result<Oxidation, GasError> {
    let char = &feed.char;
    let for_volatiles = feed.stoichiometric_oxygen - feed.char_share * char.stoichiometric_oxygen;
    let char_burned = ((oxygen - for_volatiles) / char.stoichiometric_oxygen)
        .max(0.0)
        .min(feed.char_share);
    let waiting = feed.char_share - char_burned;
    let charge = feed.charge(waiting, oxygen);
    let higher = feed.higher_heating_value;
    let start = near.unwrap_or(Crossing {
        at: 1420.0,
        slope: 2.9e-4 * higher,
    });
    let search = Search {
        low: COLDEST,
        high: HOTTEST,
        first: start.at,
        expected_slope: start.slope,
        value_tolerance: 3e-11 * higher,
        step_tolerance: 0.0,
    };
    let mut gas = GasAmounts::default();
    let found = crossing_with_slope(search, |temperature| {
        let constants = Constants::at(temperature, feed.pressure)?;
        gas = match constants.gas_only(&charge) {
            Ok(zone) => zone.gas,
            // All carbon but that of the char leaves as smoke.
            Err(EquilibriumError::TooMuchCarbon { .. }) => {
                return Err(GasError::TooLittleChar {
                    share: 100.0 * feed.char_share,
                });
            }
            Err(why) => return Err(why.into()),
        };
        Ok(
            gas.enthalpy(temperature) + waiting * char.enthalpy_at(temperature) + loss
                - feed.enthalpy,
        )
    });
    match found {
        Ok(found) => Ok(Oxidation {
            temperature: near.insert(found).at,
            gas,
            char_burned,
        }),
        Err(NoCrossing::BelowRange) => Err(GasError::OxidationTemperature {
            side: "below",
            limit: COLDEST - 273.15,
        }),
        Err(NoCrossing::AboveRange) => Err(GasError::OxidationTemperature {
            side: "above",
            limit: HOTTEST - 273.15,
        }),
        Err(NoCrossing::NotSettled(_)) => Err(GasError::NotSettled {
            what: "the oxidation temperature",
        }),
        Err(NoCrossing::Function(error)) => Err(error),
    }
}

/// The hottest that any fire in this hearth gets, K: char that burns with just the air it needs, or the zone at the
/// nozzle plane with its own air, where that is hotter; nothing is lost.
///
/// Seven species stand for the burned gas. What breaks up further at such heat is left out, so that this lies a little
/// above what a fire reaches.
pub(super) fn hottest(feed: &Feed, oxygen: f64) -> Result<f64, GasError> {
    let char = &feed.char;
    let charge = char.elements.plus(1.0, &air(char.stoichiometric_oxygen));
    let search = Search {
        low: COLDEST,
        high: HOTTEST,
        first: 2400.0,
        expected_slope: 3e4,
        value_tolerance: 1e3,
        step_tolerance: 0.0,
    };
    let of_char = crossing(search, |temperature| {
        let burned = Constants::at(temperature, feed.pressure)?.gas_only(&charge)?;
        Ok(burned.gas.enthalpy(temperature) - char.enthalpy)
    })
    .map_err(|why| match why {
        NoCrossing::Function(error) => error,
        _ => GasError::NotSettled {
            what: "the hottest fire of char",
        },
    })?;
    let lossless = oxidation(feed, oxygen, 0.0, &mut None);
    Ok(lossless.map_or(of_char, |zone| of_char.max(zone.temperature)))
}
