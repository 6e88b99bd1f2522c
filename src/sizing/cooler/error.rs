//! Why no length of tube was found.

use super::needed_length::LONGEST;
use crate::sizing::train::StageError;
use thiserror::Error;

/// Why no length was found.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum CoolerError {
    /// The cooler cannot be computed.
    #[error(transparent)]
    Stage(#[from] StageError),
    /// No length cools so far.
    #[error(
        "even {LONGEST} m of tube do not cool the gas that far: use more tubes, fins, a fan or water"
    )]
    NotReached,
    /// What cools is no colder than the gas should become.
    #[error("gas gets no colder than what cools it: no length of tube does it")]
    TooWarmAround,
}
