//! When are two numbers the same, for all that a sum can tell?

/// Numbers that differ by less than this share of their mark are the same: the last digits of a sum are no measure.
const SAME: f64 = 1e-9;

/// Whether a number is less than its mark, by more than the last digits of the sums before it.
///
/// ```
/// use hearthplan::design::quantity::falls_short;
/// assert!(falls_short(1.4, 1.5));
/// assert!(!falls_short(1.5 - 2e-16, 1.5));
/// ```
pub fn falls_short(value: f64, mark: f64) -> bool {
    let dust = if mark.is_finite() {
        SAME * mark.abs()
    } else {
        0.0
    };
    value < mark - dust
}

/// Whether a number is more than its mark, by more than the last digits of the sums before it.
pub fn exceeds(value: f64, mark: f64) -> bool {
    falls_short(-value, -mark)
}
