//! What can be wrong with a fuel.

/// Why a fuel cannot be worked with.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FuelError {
    /// A share outside its range.
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
    /// The analysis does not add up.
    #[error(
        "carbon, hydrogen, oxygen, nitrogen, sulphur and ash add up to {sum:.1} %, they must add up to 100 % (97 to 103 is accepted)"
    )]
    SumOfShares {
        /// The sum in %.
        sum: f64,
    },
    /// The fuel gives no heat once its water is evaporated.
    #[error("the fuel gives {value:.2} MJ/kg as fired: too wet or too little to burn")]
    NoHeat {
        /// Lower heating value as fired, MJ/kg.
        value: f64,
    },
    /// Two weighings that cannot both be right.
    #[error("{field} {reason}")]
    Weighing {
        /// Which weighing.
        field: &'static str,
        /// What is wrong with it.
        reason: &'static str,
    },
}
