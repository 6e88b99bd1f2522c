//! Round places on an axis, in the units the person works in.

use crate::design::quantity::{Quantity, System};

/// Parts of an inch a tape is divided in.
const TAPE: [f64; 4] = [1.0 / 16.0, 1.0 / 8.0, 1.0 / 4.0, 1.0 / 2.0];

/// A tick of an axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Tick {
    /// Where, SI.
    pub at: f64,
    /// The number, without its unit.
    pub text: String,
}

/// The least round step that is not smaller than `least`, in the unit of the field.
fn round_step(quantity: Quantity, system: System, least: f64) -> f64 {
    if !(least.is_finite() && least > 0.0) {
        return 1.0;
    }
    if quantity == Quantity::Length && system == System::Inch && least < 1.0 {
        return TAPE
            .into_iter()
            .find(|step| *step >= least * (1.0 - 1.0e-9))
            .unwrap_or(1.0);
    }
    let power = 10.0_f64.powf(least.log10().floor());
    [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|step| step * power)
        .find(|step| *step >= least * (1.0 - 1.0e-9))
        .unwrap_or(10.0 * power)
}

/// Evenly spread round places between two SI values, about `about` of them, held inside `allowed`.
/// At least two, rising; empty when the numbers leave no room.
pub fn places(
    quantity: Quantity,
    system: System,
    (from, to): (f64, f64),
    allowed: (f64, f64),
    about: u32,
) -> Vec<f64> {
    let unit = quantity.field_unit(system);
    let (low, high) = (
        unit.from_si(from.max(allowed.0)),
        unit.from_si(to.min(allowed.1)),
    );
    if !(low.is_finite() && high.is_finite() && high > low) {
        return Vec::new();
    }
    let step = round_step(quantity, system, (high - low) / f64::from(about.max(2)));
    // Rounding dust must not push the ends of the allowed range off the grid.
    let first = (low / step - 1.0e-6).ceil();
    let last = (high / step + 1.0e-6).floor();
    (0..=(last - first).clamp(0.0, 1000.0) as u32)
        .map(|count| {
            let number = (first + f64::from(count)) * step;
            unit.to_si(number).clamp(allowed.0, allowed.1)
        })
        .collect()
}

/// At most `most` round ticks between two SI values.
pub fn ticks(quantity: Quantity, system: System, range: (f64, f64), most: u32) -> Vec<Tick> {
    let unit = quantity.field_unit(system);
    let anywhere = (f64::NEG_INFINITY, f64::INFINITY);
    places(quantity, system, range, anywhere, most)
        .into_iter()
        .map(|at| {
            // Zero degrees of a scale with an offset must not read as dust.
            let at = if unit.from_si(at).abs() < 1.0e-9 {
                unit.to_si(0.0)
            } else {
                at
            };
            Tick {
                at,
                text: quantity.write(at, system).replace('-', "−"),
            }
        })
        .collect()
}

/// The name of an axis with the unit of its ticks.
pub fn title(label: &str, quantity: Quantity, system: System) -> String {
    match quantity.unit_symbol(system) {
        "" => label.to_string(),
        symbol => format!("{label}, {symbol}"),
    }
}

/// A number as it is shown, without the unit where the axis already names it.
pub fn number(quantity: Quantity, si: f64, system: System) -> String {
    let text = quantity.show(si, system);
    match quantity.unit_symbol(system) {
        "" => text,
        symbol => text.trim_end_matches(symbol).trim_end().to_string(),
    }
}
