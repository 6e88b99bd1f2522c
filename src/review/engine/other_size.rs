//! How large an engine suits a hearth, or gives a power? A hearth that is asked for more gas makes another gas: its shell takes
//! a smaller share of the heat. So gas and size are found together.

use crate::design::Design;
use crate::physics::secant::{Search, crossing};
use crate::review::heart::Heart;
use crate::sizing::engine::{EngineError, EngineGas};
use uom::si::f64::{Ratio, Volume};
use uom::si::ratio::ratio;
use uom::si::volume::cubic_meter;

/// Sizes that differ by a smaller share are the same.
const SETTLED: f64 = 1.0e-5;
/// A search that takes shorter steps has come as near as it can, as a share of the size.
const SHORT_STEP: f64 = 1.0e-3;
/// How much more the size must change than what its gas asks for: richer gas leaves less room for itself beside its air.
const USUAL_SLOPE: f64 = 0.9;

/// An engine of another size, all else as entered.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OtherSize {
    /// Swept volume of all cylinders.
    pub displacement: Volume,
    /// The gas that it was worked out with.
    pub gas: EngineGas,
}

/// The engine whose size is just what the gas asks for that this hearth makes for it; `size` tells what a gas asks for. None
/// where the hearth makes no gas for such an engine, or where no size that may be entered does it.
pub(super) fn fitting(
    design: &Design,
    heart: &Heart,
    size: impl Fn(&EngineGas) -> Result<Volume, EngineError>,
) -> Option<OtherSize> {
    let own = design.engine.displacement.value;
    let (least, most) = Design::allowed("engine", "displacement")?;
    let full = heart.at.full.solved.as_ref().ok()?;
    // An engine so many times as large is as many times the load; the search runs over the logarithm.
    let from_own = |volume: f64| (volume / own).ln();
    let search = Search {
        low: from_own(least),
        high: from_own(most),
        first: from_own(size(&EngineGas::dried(&full.gas)).ok()?.value),
        expected_slope: USUAL_SLOPE,
        value_tolerance: SETTLED,
        step_tolerance: SHORT_STEP,
    };
    let (mut near, mut made) = (*full, None);
    let found = crossing(search, |tried| {
        let load = Ratio::new::<ratio>(tried.exp());
        match heart.model.solve_beside(load, Some(&near)) {
            Ok(solution) => {
                near = solution;
                let gas = made.insert(EngineGas::dried(&solution.gas));
                Ok::<f64, EngineError>(tried - from_own(size(gas)?.value))
            }
            // Whatever draws too little to keep the fire hot must be larger.
            Err(error) if error.too_cold() => Ok(f64::NEG_INFINITY),
            Err(_) => Ok(f64::NAN),
        }
    });
    Some(OtherSize {
        displacement: Volume::new::<cubic_meter>(own * found.ok()?.exp()),
        gas: made?,
    })
}
