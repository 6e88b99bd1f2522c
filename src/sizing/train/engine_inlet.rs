//! In what state does the gas reach the engine, and what does the suction cost?

use super::gas_state::GasState;
use super::stage::{Circumstances, Detail, Note, Passage, StageError, StageOutcome};
use uom::si::f64::{Power, Pressure, Ratio};
use uom::si::power::watt;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;

/// Gas warmer than this costs power, K: 40 °C (common practice, no source).
pub const WARM: f64 = 313.15;
/// Gas warmer than this is refused, K: 65 °C (common practice, no source).
pub const TOO_HOT: f64 = 338.15;

/// What the engine is given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EngineResult {
    /// How far the gas is below the pressure of the air; zero if above.
    pub vacuum: Pressure,
    /// Share of the charge that is lost because gas at lower pressure is thinner.
    pub charge_lost: Ratio,
    /// Work the engine spends on drawing the gas in against the vacuum: vacuum times flow.
    pub pumping_power: Power,
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
            charge_lost: Ratio::new::<ratio>(vacuum / air),
            pumping_power: Power::new::<watt>(vacuum * gas.volume_rate().value),
        }),
        notes,
    }
    .outcome(gas)
}
