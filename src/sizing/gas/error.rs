//! Why there is no gas to give.

use crate::physics::equilibrium::EquilibriumError;
use crate::sizing::fuel::FuelError;

/// Why the gas of a hearth cannot be worked out.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum GasError {
    /// The fuel itself.
    #[error(transparent)]
    Fuel(#[from] FuelError),
    /// A number outside its range.
    #[error("{field} is {value:.4}, it must lie between {low} and {high}")]
    OutOfRange {
        /// What was given, with its unit.
        field: &'static str,
        /// Its value in that unit.
        value: f64,
        /// Lowest value.
        low: f64,
        /// Highest value.
        high: f64,
    },
    /// More char than the fuel's analysis allows.
    #[error("char share is {share:.1} %, but this fuel has {element} for {most:.1} % at most")]
    CharShare {
        /// Share given, % of dry fuel.
        share: f64,
        /// The element that runs out.
        element: &'static str,
        /// Highest share, % of dry fuel.
        most: f64,
    },
    /// So little char that the smoke would have to carry more carbon than any gas can.
    #[error(
        "with {share:.0} % of char its smoke would have to carry more carbon than any gas can: this fuel leaves more; leave “Char from the wood” empty for what is usual"
    )]
    TooLittleChar {
        /// Share given, % of dry fuel.
        share: f64,
    },
    /// Loss and moisture take more heat than the fuel gives.
    #[error(
        "even burning all of the fuel would not hold {temperature:.0} °C where the gas leaves: loss and moisture take more heat than the fuel gives"
    )]
    TooMuchHeatLost {
        /// Exit temperature wanted, °C.
        temperature: f64,
    },
    /// The fuel would reach the exit temperature without air.
    #[error(
        "the fuel would reach {temperature:.0} °C without any air: choose a higher freeze temperature"
    )]
    NoAirNeeded {
        /// Exit temperature wanted, °C.
        temperature: f64,
    },
    /// With the air held, the gas would leave outside the range of the method.
    #[error(
        "with this much air and loss the gas would leave {side} {limit:.0} °C, outside the range of the method"
    )]
    ExitTemperature {
        /// "below" or "above".
        side: &'static str,
        /// Limit, °C.
        limit: f64,
    },
    /// The oxidation zone has no temperature inside the range of the method.
    #[error(
        "the oxidation zone would be {side} {limit:.0} °C, outside the range of the method: check air, moisture and loss"
    )]
    OxidationTemperature {
        /// "below" or "above".
        side: &'static str,
        /// Limit, °C.
        limit: f64,
    },
    /// Hearth and shell found no common wall temperature.
    #[error(
        "hearth and shell find no common wall temperature: the shell takes more heat than the hearth can give at this load"
    )]
    NoCommonWall,
    /// The shell calculation failed.
    #[error("heat through the shell: {reason}")]
    Shell {
        /// What it said.
        reason: String,
    },
    /// The equilibrium itself.
    #[error("gas equilibrium: {0}")]
    Equilibrium(#[from] EquilibriumError),
    /// The steps ran out.
    #[error("the calculation of {what} did not settle")]
    NotSettled {
        /// What was sought.
        what: &'static str,
    },
}

/// The value, if it lies in its range.
pub(super) fn within(
    field: &'static str,
    value: f64,
    low: f64,
    high: f64,
) -> Result<f64, GasError> {
    if value >= low && value <= high {
        Ok(value)
    } else {
        Err(GasError::OutOfRange {
            field,
            value,
            low,
            high,
        })
    }
}
