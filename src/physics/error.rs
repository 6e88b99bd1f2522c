//! What can be wrong with a question put to the physics room.

use thiserror::Error;

/// Why a calculation gave no number.
///
/// ```
/// use hearthplan::physics::error::{within, PhysicsError};
/// let refused = within("wind speed", "m/s", 80.0, 0.0, 60.0).unwrap_err();
/// assert_eq!(refused.to_string(), "wind speed is 80 m/s; it must lie between 0 and 60 m/s");
/// ```
#[derive(Debug, Clone, PartialEq, Error)]
pub enum PhysicsError {
    /// An input lies outside the range the method is good for, or is not a number.
    #[error("{quantity} is {value} {unit}; it must lie between {low} and {high} {unit}")]
    OutOfRange {
        /// What was given, in words.
        quantity: &'static str,
        /// Unit of the three numbers.
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
