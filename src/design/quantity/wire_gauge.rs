//! American wire gauges: each is thinner than the one before by the 39th root of 92 (ASTM B258).

use std::f64::consts::PI;
use std::ops::RangeInclusive;

/// Diameter of the wire of a gauge, m; 0 and below for 1/0, 2/0 and so on.
///
/// ```
/// use hearthplan::design::quantity::wire_gauge_diameter;
/// assert!((wire_gauge_diameter(10.0) - 2.588e-3).abs() < 1e-6);
/// ```
pub fn wire_gauge_diameter(gauge: f64) -> f64 {
    0.005 * 0.0254 * 92.0_f64.powf((36.0 - gauge) / 39.0)
}

/// Section of a wire named by its gauge, `14 AWG`, `AWG 2/0`, `#14` or `14 ga`, m²; of one of the wires where a cable of
/// several is named, `14/2 AWG`; none where the text names no gauge from 4/0 to 40.
pub(super) fn section(text: &str) -> Option<f64> {
    let folded = text.trim().to_ascii_lowercase().replace(['⁄', '∕'], "/");
    let plain = folded.strip_prefix('#').map(str::trim);
    let ends = ["awg", "gauge", "ga.", "ga"];
    let named = plain.unwrap_or(&folded);
    let number = (ends.iter().find_map(|end| named.strip_suffix(end)))
        .or_else(|| named.strip_prefix("awg"))
        .or(plain)?;
    let wire = || Some(cable(number)?.0);
    gauge(number).or_else(wire).map(section_of)
}

/// Gauge and number of the wires of a cable named by both, `14/2`; none where the text does not.
pub(super) fn cable(text: &str) -> Option<(i32, usize)> {
    let (wire, count) = text.trim().split_once('/')?;
    let count = count
        .trim()
        .parse()
        .ok()
        .filter(|count| WIRES.contains(count))?;
    let wire = gauge(wire).filter(|wire| *wire > 0)?;
    Some((wire, count))
}

/// How many wires a cable has that is named by them.
const WIRES: RangeInclusive<usize> = 2..=9;

/// Whether a text is the bare number of a gauge, `14` or `2/0`, without its name.
pub(crate) fn is_bare_gauge(text: &str) -> bool {
    gauge(text).is_some()
}

/// The number of a gauge from 4/0, which is -3, to 40.
fn gauge(number: &str) -> Option<i32> {
    let number = number.trim();
    let gauge = match number.strip_suffix("/0") {
        Some(noughts) => 1 - noughts.parse::<u8>().ok().map(i32::from)?,
        None => i32::from(number.parse::<u8>().ok()?),
    };
    GAUGES.contains(&gauge).then_some(gauge)
}

/// Gauges from 4/0 to 40.
const GAUGES: RangeInclusive<i32> = -3..=40;

fn section_of(gauge: i32) -> f64 {
    let diameter = wire_gauge_diameter(f64::from(gauge));
    0.25 * PI * diameter * diameter
}

/// How far a section may be off that of a gauge and still be told as that gauge, as a share: what rounding to a hundredth
/// of a square millimetre leaves. Neighbours are a quarter apart.
pub const SAME_SECTION: f64 = 0.01;

/// The gauge with this section, m², as it is written on cable; none where it lies between two.
pub(super) fn wire_gauge_with(section: f64) -> Option<String> {
    let is_it = |gauge: &i32| (section / section_of(*gauge) - 1.0).abs() < SAME_SECTION;
    GAUGES.into_iter().find(is_it).map(wire_gauge_name)
}

/// A gauge as it is written on cable.
///
/// ```
/// use hearthplan::design::quantity::wire_gauge_name;
/// assert_eq!(wire_gauge_name(12), "AWG 12");
/// assert_eq!(wire_gauge_name(-1), "AWG 2/0");
/// ```
pub fn wire_gauge_name(gauge: i32) -> String {
    match gauge {
        1.. => format!("AWG {gauge}"),
        _ => format!("AWG {}/0", 1 - i64::from(gauge)),
    }
}
