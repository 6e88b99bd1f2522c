//! In what state does the gas reach the engine?

use super::gas_state::GasState;
use super::stage::{Circumstances, Detail, Note, Passage, StageError, StageOutcome};
use uom::si::f64::Pressure;
use uom::si::pressure::pascal;

/// Gas warmer than this costs power, K: 40 °C (common practice, no source).
pub const WARM: f64 = 313.15;
/// Gas warmer than this is refused, K: 65 °C (common practice, no source).
pub const TOO_HOT: f64 = 338.15;

/// What the engine is given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EngineResult {
    /// How far the gas is below the pressure of the air; zero if above.
    pub vacuum: Pressure,
}

pub(super) fn arrive(
    gas: &GasState,
    circumstances: &Circumstances,
) -> Result<StageOutcome, StageError> {
    let air = circumstances.surroundings.pressure.value;
    let vacuum = (air - gas.pressure.value).max(0.0);
    let mut notes = Vec::new();
    if gas.temperature.value > TOO_HOT {
        notes.push(Note::EngineGasTooHot);
    } else if gas.temperature.value > WARM {
        notes.push(Note::EngineGasHot);
    }
    if gas.liquid.value > 0.0 {
        notes.push(Note::DropsArrive);
    }
    if gas.tar.mist {
        notes.push(Note::TarMistArrives);
    }
    if gas.pressure.value > air {
        notes.push(Note::UnderPressure);
    }
    Passage {
        out: *gas,
        velocity: 0.0,
        density: gas.properties()?.density,
        detail: Detail::Engine(EngineResult {
            vacuum: Pressure::new::<pascal>(vacuum),
        }),
        notes,
    }
    .outcome(gas)
}
