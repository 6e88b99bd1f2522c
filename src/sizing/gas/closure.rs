//! The air that closes the balance, or the exit temperature that does.

use super::error::{GasError, within};
use super::feed::{Feed, LossTerms, Yields};
use super::heating::stoichiometric_air;
use crate::physics::equilibrium::{Constants, Equilibrium};
use crate::physics::normal_state::MOLAR_VOLUME;
use crate::physics::secant::{Crossing, NoCrossing, Search, crossing, crossing_with_slope};
use crate::physics::species::Species;

/// Gas at the exit, per kg of dry fuel.
pub(super) struct Exit {
    pub equilibrium: Equilibrium,
    /// K.
    pub temperature: f64,
    pub equivalence_ratio: f64,
    /// Oxygen of the air, mol of O2.
    pub oxygen: f64,
    pub yields: Yields,
}

const LEAST_EQUIVALENCE_RATIO: f64 = 0.02;
const COLDEST_EXIT: f64 = 500.0;
const HOTTEST_EXIT: f64 = 3000.0;
/// Energy balance closed to this share of the higher heating value.
const CLOSED: f64 = 3e-11;
/// The same where the air that takes all char is searched as well, and is itself only so near.
const CLOSED_ALL_CHAR: f64 = 3e-10;

fn celsius(kelvin: f64) -> f64 {
    kelvin - 273.15
}

fn exit_at(
    feed: &Feed,
    constants: &Constants,
    temperature: f64,
    equivalence_ratio: f64,
) -> Result<Exit, GasError> {
    let oxygen = equivalence_ratio * feed.stoichiometric_oxygen;
    let equilibrium = constants.with_carbon(&feed.charge(feed.char_drawn, oxygen))?;
    let gas = equilibrium.gas.dry_total();
    Ok(Exit {
        yields: Yields {
            gas: gas * MOLAR_VOLUME,
            mixture: (gas + stoichiometric_air(&equilibrium.gas)) * MOLAR_VOLUME,
        },
        equilibrium,
        temperature,
        equivalence_ratio,
        oxygen,
    })
}

/// Molar enthalpies at one temperature, so that a search at fixed temperature works them out once.
struct Enthalpies([f64; 8]);

impl Enthalpies {
    fn at(temperature: f64) -> Self {
        Enthalpies(Species::ALL.map(|species| species.enthalpy(temperature)))
    }

    fn of(&self, state: &Equilibrium) -> f64 {
        let gas = &state.gas;
        let amounts = [
            gas.carbon_monoxide,
            gas.carbon_dioxide,
            gas.hydrogen,
            gas.water,
            gas.methane,
            gas.nitrogen,
            gas.oxygen,
            state.solid_carbon,
        ];
        amounts
            .iter()
            .zip(self.0)
            .map(|(amount, each)| amount * each)
            .sum()
    }
}

/// Char-limited: the exit temperature is given, the equivalence ratio follows. `near` is where the balance was closed
/// for nearly the same loss, and becomes where it is closed now.
pub(super) fn char_limited(
    feed: &Feed,
    loss: &LossTerms,
    freeze_temperature: f64,
    near: &mut Option<Crossing>,
) -> Result<Exit, GasError> {
    let temperature = within(
        "freeze temperature in °C",
        celsius(freeze_temperature),
        500.0,
        1150.0,
    )? + 273.15;
    let constants = Constants::at(temperature, feed.pressure)?;
    let enthalpies = Enthalpies::at(temperature);
    let drawn = feed.char_drawn * feed.char.enthalpy_at(temperature);
    let higher = feed.higher_heating_value;
    // Start near the answer for dry wood, plus what loss and evaporation usually add.
    let evaporation = 8e4 * feed.water / higher;
    let start = near.unwrap_or(Crossing {
        at: (0.3 + 1.1 * (loss.at(&Yields::USUAL) / higher + evaporation)).clamp(0.1, 0.9),
        slope: 0.9 * higher,
    });
    let search = Search {
        low: LEAST_EQUIVALENCE_RATIO,
        // Beyond this the gas is burned out and more air only cools it.
        high: 1.0 - feed.char_drawn * feed.char.stoichiometric_oxygen / feed.stoichiometric_oxygen,
        first: start.at,
        expected_slope: start.slope,
        value_tolerance: CLOSED * higher,
        step_tolerance: 0.0,
    };
    let mut last = None;
    let found = crossing_with_slope(search, |ratio| {
        let exit = exit_at(feed, &constants, temperature, ratio)?;
        let surplus =
            feed.enthalpy - loss.at(&exit.yields) - drawn - enthalpies.of(&exit.equilibrium);
        last = Some(exit);
        Ok(surplus)
    });
    let found = found.map(|found| near.insert(found).at);
    match (found, last) {
        (Ok(ratio), Some(exit)) if exit.equivalence_ratio == ratio => Ok(exit),
        (Ok(ratio), _) => exit_at(feed, &constants, temperature, ratio),
        (Err(NoCrossing::AboveRange), _) => Err(GasError::TooMuchHeatLost {
            temperature: celsius(temperature),
        }),
        (Err(NoCrossing::BelowRange), _) => Err(GasError::NoAirNeeded {
            temperature: celsius(temperature),
        }),
        (Err(NoCrossing::NotSettled(_)), _) => Err(GasError::NotSettled {
            what: "the air for the freeze temperature",
        }),
        (Err(NoCrossing::Function(error)), _) => Err(error),
    }
}

/// Solid carbon that is none, mol per kg of dry fuel.
pub(super) const NO_CARBON: f64 = 1e-8;

/// Equilibrium at this temperature with just the air that leaves no solid carbon; `first` is a ratio likely to be near.
fn without_carbon(feed: &Feed, temperature: f64, first: f64) -> Result<Exit, GasError> {
    let constants = Constants::at(temperature, feed.pressure)?;
    // A mol of oxygen takes between one and two mol of carbon away.
    let per_ratio = 1.5 * feed.stoichiometric_oxygen;
    let search = Search {
        low: 0.0,
        high: 1.0,
        first,
        expected_slope: per_ratio,
        value_tolerance: NO_CARBON,
        step_tolerance: 0.0,
    };
    let found = crossing(search, |ratio| {
        let state = exit_at(feed, &constants, temperature, ratio)?.equilibrium;
        Ok(match state.solid_carbon > 0.0 {
            true => -state.solid_carbon,
            false => -per_ratio * state.carbon_activity.ln(),
        })
    });
    match found {
        Ok(ratio) => exit_at(feed, &constants, temperature, ratio),
        Err(NoCrossing::Function(error)) => Err(error),
        Err(_) => Err(GasError::NotSettled {
            what: "the air that takes all char",
        }),
    }
}

/// All char used up where `cold`, the balance at the freeze temperature, leaves some: char that stays over fills the
/// hearth up to the air and burns, until as much air is drawn as takes all of it and the gas leaves as hot as that makes
/// it. `near` is as for [`char_limited`].
pub(super) fn all_char(
    feed: &Feed,
    loss: &LossTerms,
    cold: &Exit,
    near: &mut Option<Crossing>,
) -> Result<Exit, GasError> {
    let higher = feed.higher_heating_value;
    let start = near.unwrap_or(Crossing {
        at: cold.temperature + 100.0,
        slope: 1e-3 * higher,
    });
    let search = Search {
        low: cold.temperature,
        high: HOTTEST_EXIT,
        first: start.at,
        expected_slope: start.slope,
        value_tolerance: CLOSED_ALL_CHAR * higher,
        step_tolerance: 0.0,
    };
    let mut ratio = cold.equivalence_ratio;
    let mut last = None;
    let found = crossing_with_slope(search, |temperature| {
        let exit = without_carbon(feed, temperature, ratio)?;
        let wanting = exit.equilibrium.enthalpy(temperature)
            + feed.char_drawn * feed.char.enthalpy_at(temperature)
            + loss.at(&exit.yields)
            - feed.enthalpy;
        ratio = exit.equivalence_ratio;
        last = Some(exit);
        Ok(wanting)
    });
    let found = found.map(|found| near.insert(found).at);
    match (found, last) {
        (Ok(temperature), Some(exit)) if exit.temperature == temperature => Ok(exit),
        (Ok(temperature), _) => without_carbon(feed, temperature, ratio),
        (Err(NoCrossing::Function(error)), _) => Err(error),
        (Err(NoCrossing::AboveRange), _) => Err(GasError::ExitTemperature {
            side: "above",
            limit: celsius(HOTTEST_EXIT),
        }),
        (Err(_), _) => Err(GasError::NotSettled {
            what: "the air that takes all char",
        }),
    }
}

/// Air held: the equivalence ratio is given, the exit temperature follows. `near` is as for [`char_limited`].
pub(super) fn air_held(
    feed: &Feed,
    loss: &LossTerms,
    equivalence_ratio: f64,
    near: &mut Option<Crossing>,
) -> Result<Exit, GasError> {
    let equivalence_ratio = within("equivalence ratio", equivalence_ratio, 0.05, 1.0)?;
    let higher = feed.higher_heating_value;
    let start = near.unwrap_or(Crossing {
        at: 1050.0,
        slope: 1e-3 * higher,
    });
    let search = Search {
        low: COLDEST_EXIT,
        high: HOTTEST_EXIT,
        first: start.at,
        expected_slope: start.slope,
        value_tolerance: CLOSED * higher,
        step_tolerance: 0.0,
    };
    let mut last = None;
    let found = crossing_with_slope(search, |temperature| {
        let constants = Constants::at(temperature, feed.pressure)?;
        let exit = exit_at(feed, &constants, temperature, equivalence_ratio)?;
        let surplus = exit.equilibrium.enthalpy(temperature)
            + feed.char_drawn * feed.char.enthalpy_at(temperature)
            + loss.at(&exit.yields)
            - feed.enthalpy;
        last = Some(exit);
        Ok(surplus)
    });
    let found = found.map(|found| near.insert(found).at);
    match (found, last) {
        (Ok(temperature), Some(exit)) if exit.temperature == temperature => Ok(exit),
        (Ok(temperature), _) => {
            let constants = Constants::at(temperature, feed.pressure)?;
            exit_at(feed, &constants, temperature, equivalence_ratio)
        }
        (Err(NoCrossing::BelowRange), _) => Err(GasError::ExitTemperature {
            side: "below",
            limit: celsius(COLDEST_EXIT),
        }),
        (Err(NoCrossing::AboveRange), _) => Err(GasError::ExitTemperature {
            side: "above",
            limit: celsius(HOTTEST_EXIT),
        }),
        (Err(NoCrossing::NotSettled(_)), _) => Err(GasError::NotSettled {
            what: "the exit temperature",
        }),
        (Err(NoCrossing::Function(error)), _) => Err(error),
    }
}
