//! The numbers that a remedy is offered in: sizes that are sold, or steps that can be said aloud.

use crate::design::Design;
use crate::design::inputs::CableSystem;
use crate::design::quantity::Quantity;
use crate::sizing::conductor_table::FUSES;
use crate::sizing::wiring::{Conductor, SizeSystem};

/// A number without the last digits of a multiplication, which would only lengthen links and files.
pub(super) fn without_dust(value: f64) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    let scale = 10_f64.powi(12 - value.abs().log10().ceil() as i32);
    let rounded = (value * scale).round() / scale;
    if rounded.is_finite() { rounded } else { value }
}

/// The sizes that can be bought, where only such make sense, SI and rising.
pub(super) fn sizes_sold(design: &Design, quantity: Quantity) -> Vec<f64> {
    match quantity {
        Quantity::WireSection => {
            let system = match design.wiring.system {
                CableSystem::Metric => SizeSystem::Metric,
                CableSystem::Gauge => SizeSystem::Gauge,
            };
            Conductor::all(system)
                .into_iter()
                .map(|conductor| conductor.area.value)
                .collect()
        }
        Quantity::Current => FUSES.to_vec(),
        Quantity::Voltage => vec![6.0, 12.0, 24.0, 36.0, 48.0],
        _ => Vec::new(),
    }
}

/// The step on which a remedy is offered: fine enough to be small, coarse enough to be said aloud.
pub(super) fn grid(quantity: Quantity, scale: f64) -> f64 {
    match quantity {
        Quantity::Length => 0.001,
        Quantity::Count => 1.0,
        Quantity::Share => 0.01,
        Quantity::Temperature | Quantity::TemperatureDifference => 1.0,
        Quantity::Angle => std::f64::consts::PI / 180.0 / 10.0,
        _ => 10_f64.powf((scale / 200.0).log10().floor()),
    }
}
