//! American wire gauges: each is thinner than the one before by the 39th root of 92 (ASTM B258).

use std::f64::consts::PI;

/// Diameter of the wire of a gauge, m; 0 and below for 1/0, 2/0 and so on.
///
/// ```
/// use hearthplan::design::quantity::wire_gauge_diameter;
/// assert!((wire_gauge_diameter(10.0) - 2.588e-3).abs() < 1e-6);
/// ```
pub fn wire_gauge_diameter(gauge: f64) -> f64 {
    0.005 * 0.0254 * 92.0_f64.powf((36.0 - gauge) / 39.0)
}

/// Section of a wire named by its gauge, `14 AWG` or `AWG 2/0`, m²; none where the text names no gauge from 4/0 to 40.
pub(super) fn section(text: &str) -> Option<f64> {
    let folded = text.trim().to_ascii_lowercase();
    let number = (folded.strip_suffix("awg"))
        .or_else(|| folded.strip_prefix("awg"))?
        .trim();
    let gauge = match number.strip_suffix("/0") {
        Some(noughts) => 1 - noughts.parse::<u8>().ok().map(i32::from)?,
        None => i32::from(number.parse::<u8>().ok()?),
    };
    let diameter = wire_gauge_diameter(f64::from(gauge));
    (-3..=40)
        .contains(&gauge)
        .then_some(0.25 * PI * diameter * diameter)
}
