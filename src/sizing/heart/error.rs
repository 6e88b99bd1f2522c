//! Why there is no common solution.

use crate::sizing::engine::EngineError;
use crate::sizing::fuel::FuelError;
use crate::sizing::gas::GasError;
use crate::sizing::shell::ShellError;

/// Why hearth, gas, engine and shell find no common solution.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum HeartError {
    /// The fuel.
    #[error(transparent)]
    Fuel(#[from] FuelError),
    /// The engine.
    #[error(transparent)]
    Engine(#[from] EngineError),
    /// The shell.
    #[error(transparent)]
    Shell(#[from] ShellError),
    /// The gas.
    #[error(transparent)]
    Gas(#[from] GasError),
    /// The shell takes so much heat that the hearth burns nearly all of its own gas.
    #[error(
        "the hearth would burn nearly all of its own gas to make up for the heat that the shell takes"
    )]
    NoGas,
}

impl HeartError {
    /// Whether everything entered can be worked with, but the hearth cannot hold its fire at this load.
    ///
    /// ```
    /// use hearthplan::sizing::{gas::GasError, heart::HeartError};
    /// assert!(HeartError::from(GasError::NoCommonWall).too_cold());
    /// ```
    pub fn too_cold(&self) -> bool {
        matches!(
            self,
            HeartError::NoGas
                | HeartError::Gas(
                    GasError::TooMuchHeatLost { .. }
                        | GasError::NoCommonWall
                        | GasError::ExitTemperature { side: "below", .. }
                        | GasError::OxidationTemperature { side: "below", .. }
                )
                | HeartError::Fuel(FuelError::NoHeat { .. })
        )
    }
}
