//! How warm does the water of a jacket get, and how far does it cool the gas?

use super::march::{March, Sink, Tube, march};
use crate::physics::water;
use crate::sizing::nozzles::Surroundings;
use crate::sizing::train::{GasState, StageError};

/// Where water boils in an open jacket, K.
pub(super) fn boils_at(around: &Surroundings) -> Result<f64, StageError> {
    Ok(water::dew_point(around.pressure.value)?)
}

/// Tubes in water that stands. It has no other way for its heat, so it gets as warm as the gas that comes in, but no warmer than
/// the sink of the tubes is, at which it boils.
pub(super) fn in_standing_water(gas: &GasState, tube: Tube) -> Result<(March, f64), StageError> {
    let Sink::Water {
        temperature,
        coefficient,
    } = tube.sink
    else {
        return Err(StageError::NoJacketTemperature);
    };
    let water = temperature.min(gas.temperature.value);
    let sink = Sink::Water {
        temperature: water,
        coefficient,
    };
    Ok((march(gas, &Tube { sink, ..tube })?, water))
}

/// Tubes in mixed water that is as warm as the heat it takes up makes it. `capacity` is that of the water flow in W/K.
pub(super) fn in_jacket(
    gas: &GasState,
    tube: Tube,
    inlet: f64,
    capacity: f64,
) -> Result<(March, f64), StageError> {
    let Sink::Water { coefficient, .. } = tube.sink else {
        return Err(StageError::NoJacketTemperature);
    };
    let before = gas.enthalpy_rate()?.value;
    let at = |temperature: f64| -> Result<(March, f64), StageError> {
        let sink = Sink::Water {
            temperature,
            coefficient,
        };
        let run = march(gas, &Tube { sink, ..tube })?;
        let after = gas
            .settled(run.outlet, gas.pressure.value)?
            .enthalpy_rate()?;
        Ok((run, inlet + (before - after.value) / capacity))
    };
    // The warmer the water is taken to be, the less heat reaches it: secant steps on a nearly straight, falling line.
    let (mut guess, (mut run, mut found)) = (inlet, at(inlet)?);
    let mut before_last: Option<(f64, f64)> = None;
    for _ in 0..40 {
        let miss = found - guess;
        if miss.abs() < 1e-6 {
            return Ok((run, guess));
        }
        let slope = before_last.map_or(-2.0, |(old, old_miss)| (miss - old_miss) / (guess - old));
        let slope = if slope < -1.0 { slope } else { -1.0 };
        before_last = Some((guess, miss));
        guess -= miss / slope;
        (run, found) = at(guess)?;
    }
    Err(StageError::NoJacketTemperature)
}
