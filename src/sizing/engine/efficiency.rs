//! Shaft work over heat of the gas.

use super::{EngineError, within};
use uom::si::f64::Ratio;
use uom::si::ratio::ratio;

/// Brake efficiency on wood gas from the compression ratio (4 to 20): 0.42 of the air-standard Otto cycle with
/// an exponent of 1.4, which gives 0.21 at 6, 0.24 at 8 and 0.26 at 12 (common practice, no source: 0.20 to 0.28).
///
/// # Errors
/// [`EngineError::OutOfRange`] for a compression ratio outside 4 to 20.
///
/// ```
/// use hearthplan::sizing::engine::usual_brake_efficiency;
/// use uom::si::{f64::Ratio, ratio::ratio};
/// let efficiency = usual_brake_efficiency(Ratio::new::<ratio>(8.0)).unwrap();
/// assert!((efficiency.get::<ratio>() - 0.237).abs() < 0.001);
/// ```
pub fn usual_brake_efficiency(compression: Ratio) -> Result<Ratio, EngineError> {
    const SHARE_OF_OTTO: f64 = 0.42;
    let compression = compression.get::<ratio>();
    within("compression ratio", compression, 4.0, 20.0)?;
    Ok(Ratio::new::<ratio>(
        SHARE_OF_OTTO * (1.0 - compression.powf(-0.4)),
    ))
}

/// Brake efficiency at part load over that at full load: friction and throttling take about a fifth of the full power
/// at any load (common practice, no source). Held at 0.2, where the engine does little more than turn itself.
///
/// ```
/// use hearthplan::sizing::engine::part_load_factor;
/// use uom::si::{f64::Ratio, ratio::percent};
/// assert!((part_load_factor(Ratio::new::<percent>(50.0)).value - 0.75).abs() < 1e-12);
/// ```
pub fn part_load_factor(load: Ratio) -> Ratio {
    const FRICTION: f64 = 0.2;
    const LEAST: f64 = 0.2;
    let load = load.get::<ratio>();
    let factor = (load - FRICTION) / (1.0 - FRICTION) / load;
    Ratio::new::<ratio>(factor.clamp(LEAST, 1.0))
}
