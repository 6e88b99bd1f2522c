//! The table of units: which exist for each quantity, and which one each system prefers.

use super::{Quantity, System};

/// A unit: SI value = entered value × factor + offset.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// How it is written when shown.
    pub symbol: &'static str,
    /// SI value of one.
    pub factor: f64,
    /// SI value of zero.
    pub offset: f64,
}

impl Unit {
    /// The number in this unit for an SI value.
    pub fn from_si(&self, si: f64) -> f64 {
        (si - self.offset) / self.factor
    }
}

const fn unit(symbol: &'static str, factor: f64) -> Unit {
    Unit {
        symbol,
        factor,
        offset: 0.0,
    }
}

/// The unit a system shows a quantity in.
pub(super) fn preferred(quantity: Quantity, system: System) -> Unit {
    match (quantity, system) {
        (Quantity::Length | Quantity::Thickness, System::Metric) => unit("mm", 0.001),
        (Quantity::Length | Quantity::Thickness, System::Inch) => unit("in", 0.0254),
        _ => unit("SI", 1.0),
    }
}

/// A number with at most three significant decimals.
pub(super) fn digits(number: f64) -> String {
    format!("{number:.1}")
        .trim_end_matches('0')
        .trim_end_matches('.')
        .to_string()
}
