//! The hearth over the load, for a chart.

use crate::design::Design;
use crate::sizing::heart::HeartModel;
use uom::si::f64::{Ratio, ThermodynamicTemperature, VolumeRate};
use uom::si::ratio::ratio;

/// Ends of the chart, as shares of full load.
const ENDS: (f64, f64) = (0.10, 1.10);

/// The hearth at one load of the chart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeartPoint {
    /// Share of full load.
    pub load: Ratio,
    /// Dry gas, at 0 °C and 101.325 kPa.
    pub gas_flow: VolumeRate,
    /// Temperatures and gas; none where the hearth cannot hold its fire or cannot be computed.
    pub hearth: Option<HearthNumbers>,
}

/// What the hearth is like at one load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HearthNumbers {
    /// Mean temperature at the nozzles.
    pub mean: ThermodynamicTemperature,
    /// Temperature of the wall.
    pub wall: ThermodynamicTemperature,
    /// Heat in the gas, J per normal m³.
    pub gas_heat: f64,
    /// Share of the wood's heat that the shell takes.
    pub loss_share: Ratio,
}

/// Temperatures of middle and wall, and heat in the gas, at `points` loads from 10 % to 110 %, evenly spread. The working range
/// of the engine runs from `operation.idle_load` to 1.
///
/// ```
/// use hearthplan::{design::Design, review::heart_over_load};
/// let points = heart_over_load(&Design::default(), 11);
/// assert_eq!(points.len(), 11);
/// let (low, high) = (points[3].hearth.unwrap(), points[10].hearth.unwrap());
/// assert!(low.gas_heat < high.gas_heat);
/// ```
pub fn heart_over_load(design: &Design, points: u32) -> Vec<HeartPoint> {
    let model = HeartModel::of(design);
    let steps = f64::from(points.max(2) - 1);
    (0..points.max(2))
        .map(|step| {
            let share = ENDS.0 + (ENDS.1 - ENDS.0) * f64::from(step) / steps;
            let at = model.at(Ratio::new::<ratio>(share));
            HeartPoint {
                load: at.load,
                gas_flow: at.supply.gas_flow,
                hearth: at.solved.ok().map(|solution| HearthNumbers {
                    mean: solution.profile.mean,
                    wall: solution.profile.wall,
                    gas_heat: 1e6 * solution.gas.lower_heating_value,
                    loss_share: solution.gas.loss_share,
                }),
            }
        })
        .collect()
}
