//! Gauges of steel, from memory: sheet of mild steel by the Manufacturers' Standard Gage, walls of tube by the Birmingham
//! gauge. One number is another thickness in each.

use super::Quantity;

/// Thickness of sheet of mild steel by its gauge, inches, rising.
pub const SHEET_GAUGES: [(u8, f64); 10] = [
    (26, 0.0179),
    (24, 0.0239),
    (22, 0.0299),
    (20, 0.0359),
    (18, 0.0478),
    (16, 0.0598),
    (14, 0.0747),
    (12, 0.1046),
    (11, 0.1196),
    (10, 0.1345),
];
/// Walls of steel tube by their gauge, inches, rising.
pub const WALL_GAUGES: [(u8, f64); 7] = [
    (20, 0.035),
    (18, 0.049),
    (16, 0.065),
    (14, 0.083),
    (12, 0.109),
    (11, 0.12),
    (10, 0.134),
];

/// What a text may mean that is a gauge where a thickness is wanted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GaugeOfSteel {
    /// Sheet of mild steel, inches; none where no sheet of this gauge is known here.
    pub sheet: Option<f64>,
    /// Wall of tube, inches; the same.
    pub wall: Option<f64>,
}

/// The gauge of steel that a text names, `16 ga` or `16 gauge`; none where it names none, or is asked for what is no
/// thickness.
pub(super) fn gauge_of_steel(quantity: Quantity, text: &str) -> Option<GaugeOfSteel> {
    if quantity != Quantity::Thickness {
        return None;
    }
    let folded = text.trim().to_ascii_lowercase();
    let ends = ["gauge", "gage", "ga.", "ga"];
    let number = ends.iter().find_map(|end| folded.strip_suffix(end))?;
    let number: u8 = number.trim().trim_start_matches('#').parse().ok()?;
    let of = |gauges: &[(u8, f64)]| {
        let known = gauges.iter().find(|(gauge, _)| *gauge == number);
        known.map(|(_, inches)| *inches)
    };
    Some(GaugeOfSteel {
        sheet: of(&SHEET_GAUGES),
        wall: of(&WALL_GAUGES),
    })
}
