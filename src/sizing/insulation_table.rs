//! Thicknesses in which insulation is sold, or comes to in layers. Common practice, no source.
//!
//! Blankets and boards go by the inch and its half, told in whole millimetres: 13, 25, 38 and 50 mm, and layers of these one
//! over the other. Bricks are 64 or 76 mm flat, 114 mm on edge, and split to 32 mm. What is poured or tamped is as thick as
//! the room that it is given.

use crate::design::inputs::Material;

/// One sheet of blanket or wool, where whole ones are laid, m.
pub const SHEET: f64 = 0.025;

/// What wool may be pressed or fluffed up by without another thickness being entered, as a share of it: our own mark.
pub const SOFT: f64 = 0.05;

/// Layers of blanket or board, m.
const SHEETS: [f64; 16] = [
    0.013, 0.025, 0.038, 0.050, 0.063, 0.075, 0.088, 0.100, 0.113, 0.125, 0.138, 0.150, 0.175,
    0.200, 0.250, 0.300,
];

/// Rows of brick, m.
const BRICKS: [f64; 11] = [
    0.032, 0.064, 0.076, 0.096, 0.114, 0.128, 0.152, 0.178, 0.192, 0.228, 0.304,
];

/// The thicknesses that this comes in, m, rising; none for what is poured, and for what nobody knows of.
///
/// ```
/// use hearthplan::design::inputs::Material;
/// use hearthplan::sizing::insulation_table::sold;
/// assert_eq!(sold(Material::CeramicBlanket1260)[..2], [0.013, 0.025]);
/// // Wool is not sold so thin.
/// assert_eq!(sold(Material::RockWool)[0], 0.025);
/// assert!(sold(Material::Perlite).is_empty());
/// ```
pub fn sold(material: Material) -> &'static [f64] {
    match material {
        Material::CeramicBlanket1260
        | Material::CeramicBlanket1430
        | Material::CalciumSilicate
        | Material::Vermiculite => &SHEETS,
        Material::RockWool => SHEETS.split_first().map_or(&[], |(_, thicker)| thicker),
        Material::InsulatingFirebrick => &BRICKS,
        _ => &[],
    }
}
