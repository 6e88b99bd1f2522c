//! What can be wrong with a question put to the physics room.

use thiserror::Error;

/// Why a calculation gave no number.
///
/// ```
/// use hearthplan::physics::error::{within, PhysicsError};
/// let refused = within("wind speed", "m/s", 80.0, 0.0, 60.0).unwrap_err();
/// assert_eq!(refused.to_string(), "wind speed is 80 m/s; it must lie between 0 and 60 m/s");
/// let refused = within("hot wall", "K", 1257.663_008_1, 253.15, 1173.15).unwrap_err();
/// assert_eq!(refused.to_string(), "hot wall is 984.5 °C; it must lie between -20 and 900 °C");
/// ```
#[derive(Debug, Clone, PartialEq, Error)]
pub enum PhysicsError {
    /// An input lies outside the range the method is good for, or is not a number.
    #[error("{quantity} is {}", told(*.value, .unit, [*.low, *.high]))]
    OutOfRange {
        /// What was given, in words.
        quantity: &'static str,
        /// Unit of the three numbers: "K" for a temperature, "kelvin" for a difference of two.
        unit: &'static str,
        /// The number given; may be NaN.
        value: f64,
        /// Least value accepted.
        low: f64,
        /// Greatest value accepted.
        high: f64,
    },
    /// The inputs are numbers, but they describe something that cannot be.
    #[error("{quantity}: {reason}")]
    Impossible {
        /// What was given, in words.
        quantity: &'static str,
        /// What is wrong with it.
        reason: &'static str,
    },
    /// An iteration ended without an answer.
    #[error("{quantity} was not found: after {iterations} steps the error was still {residual}")]
    NotConverged {
        /// What was looked for, in words.
        quantity: &'static str,
        /// Steps taken.
        iterations: u32,
        /// What was left over, in the unit of the equation solved.
        residual: f64,
    },
}

/// Most digits that tell anything of a number.
const ALL_DIGITS: usize = 17;

/// The unit that a person reads a number in, with what makes it one of that unit.
fn read_in(unit: &'static str, longest: f64) -> (&'static str, fn(f64) -> f64) {
    match unit {
        "K" => ("°C", |kelvin| kelvin - 273.15),
        // Longer things are pipes, cables and rooms.
        "m" if longest <= 5.0 => ("mm", |metres| 1e3 * metres),
        _ => (unit, |number| number),
    }
}

/// The number rounded to so many significant digits, as it is written.
fn rounded(number: f64, digits: usize) -> String {
    match format!("{number:.*e}", digits - 1).parse::<f64>() {
        Ok(number) if number.is_finite() => number.to_string(),
        _ => "not a number".to_string(),
    }
}

/// A range as a person reads it, with its unit.
///
/// ```
/// use hearthplan::physics::error::range;
/// assert_eq!(range("K", [253.15, 1173.15]), "between -20 and 900 °C");
/// ```
pub fn range(unit: &'static str, [low, high]: [f64; 2]) -> String {
    let (unit, number) = read_in(unit, high);
    let [low, high] = [low, high].map(|end| rounded(number(end), 4));
    format!("between {low} and {high} {unit}")
        .trim_end()
        .to_string()
}

/// A value out of its range as a person reads both: with four digits, or as many as tell it from the end it lies beyond.
fn told(value: f64, unit: &'static str, [low, high]: [f64; 2]) -> String {
    let (read, number) = read_in(unit, high);
    let ends = [low, high].map(|end| rounded(number(end), 4));
    let value = (4..=ALL_DIGITS)
        .map(|digits| rounded(number(value), digits))
        .find(|value| !ends.contains(value))
        .unwrap_or_else(|| number(value).to_string());
    let value = format!("{value} {read}");
    format!(
        "{}; it must lie {}",
        value.trim_end(),
        range(unit, [low, high])
    )
}

/// Gives `value` back if it is a number between `low` and `high`, both included.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] otherwise; NaN is never in range.
pub fn within(
    quantity: &'static str,
    unit: &'static str,
    value: f64,
    low: f64,
    high: f64,
) -> Result<f64, PhysicsError> {
    if value >= low && value <= high {
        Ok(value)
    } else {
        Err(PhysicsError::OutOfRange {
            quantity,
            unit,
            value,
            low,
            high,
        })
    }
}
