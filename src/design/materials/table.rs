//! Typical properties of the materials on offer, one row each.
//!
//! All values are typical ones written from memory of makers' data sheets and handbooks, not of any one
//! product: density as built in, heat capacity as a mean over the range of use, conductivity against mean
//! temperature, the temperature a layer bears for long, and growth with heat (steels from memory of EN 10095, whose
//! figures rise with the heat). A builder with a data sheet enters an own material.

use crate::design::Source;
use crate::design::inputs::Material;

/// One row: SI units, conductivity points as (°C, W/(m·K)).
pub(super) struct Row {
    /// kg/m³.
    pub density: f64,
    /// J/(kg·K).
    pub heat_capacity: f64,
    /// Emittance of its surface, 0 to 1.
    pub emittance: f64,
    /// Highest temperature for long use, °C.
    pub limit: f64,
    /// Mean temperature in °C and conductivity in W/(m·K), rising temperature.
    pub conductivity: &'static [(f64, f64)],
    /// Growth with heat, mean from 20 °C to about as hot as it is used, 1/(10⁶ K); none where it is soft, shrinks or is
    /// not known.
    pub expansion: Option<f64>,
    /// Where the row comes from.
    pub source: Source,
}

const SHEET: Source = Source::FromMemory("typical of makers' data sheets; use your own data sheet");
const HANDBOOK: Source = Source::FromMemory("typical of heat transfer handbooks");

/// The row of a material; none for the air gap and for own materials.
pub(super) fn row(material: Material) -> Option<Row> {
    let row = match material {
        // The limit is the one for scaling in air; the strength falls well below it too.
        Material::MildSteel => Row {
            density: 7850.0,
            heat_capacity: 560.0,
            emittance: 0.80,
            limit: 550.0,
            conductivity: &[(20.0, 50.0), (700.0, 30.0)],
            expansion: Some(14.0),
            source: HANDBOOK,
        },
        Material::Stainless304 => Row {
            density: 7930.0,
            heat_capacity: 540.0,
            emittance: 0.60,
            limit: 870.0,
            conductivity: &[(20.0, 15.0), (800.0, 25.0)],
            expansion: Some(19.0),
            source: HANDBOOK,
        },
        Material::Stainless310 => Row {
            density: 7900.0,
            heat_capacity: 550.0,
            emittance: 0.70,
            limit: 1100.0,
            conductivity: &[(20.0, 14.0), (800.0, 24.0)],
            expansion: Some(19.0),
            source: HANDBOOK,
        },
        Material::Aluminium => Row {
            density: 2700.0,
            heat_capacity: 930.0,
            emittance: 0.15,
            limit: 200.0,
            conductivity: &[(20.0, 160.0), (200.0, 175.0)],
            expansion: Some(24.0),
            source: HANDBOOK,
        },
        Material::CeramicBlanket1260 => Row {
            density: 128.0,
            heat_capacity: 1100.0,
            emittance: 0.90,
            limit: 1150.0,
            conductivity: &[
                (200.0, 0.06),
                (400.0, 0.09),
                (600.0, 0.15),
                (800.0, 0.22),
                (1000.0, 0.30),
            ],
            expansion: None,
            source: SHEET,
        },
        Material::CeramicBlanket1430 => Row {
            density: 128.0,
            heat_capacity: 1100.0,
            emittance: 0.90,
            limit: 1350.0,
            conductivity: &[
                (200.0, 0.06),
                (400.0, 0.09),
                (600.0, 0.15),
                (800.0, 0.22),
                (1000.0, 0.30),
            ],
            expansion: None,
            source: SHEET,
        },
        Material::RockWool => Row {
            density: 100.0,
            heat_capacity: 840.0,
            emittance: 0.90,
            limit: 650.0,
            conductivity: &[(50.0, 0.045), (150.0, 0.06), (300.0, 0.10), (500.0, 0.16)],
            expansion: None,
            source: SHEET,
        },
        Material::CalciumSilicate => Row {
            density: 240.0,
            heat_capacity: 1000.0,
            emittance: 0.90,
            limit: 1000.0,
            conductivity: &[(200.0, 0.065), (400.0, 0.09), (600.0, 0.11)],
            expansion: None,
            source: SHEET,
        },
        Material::Vermiculite => Row {
            density: 600.0,
            heat_capacity: 950.0,
            emittance: 0.90,
            limit: 1100.0,
            conductivity: &[(200.0, 0.16), (600.0, 0.19)],
            expansion: None,
            source: SHEET,
        },
        Material::InsulatingFirebrick => Row {
            density: 500.0,
            heat_capacity: 1050.0,
            emittance: 0.85,
            limit: 1260.0,
            conductivity: &[(400.0, 0.15), (800.0, 0.19)],
            expansion: Some(6.0),
            source: SHEET,
        },
        Material::DenseCastable => Row {
            density: 2100.0,
            heat_capacity: 1050.0,
            emittance: 0.90,
            limit: 1400.0,
            conductivity: &[(100.0, 1.5), (1000.0, 1.2)],
            expansion: Some(6.0),
            source: SHEET,
        },
        Material::Perlite => Row {
            density: 100.0,
            heat_capacity: 840.0,
            emittance: 0.90,
            limit: 870.0,
            conductivity: &[(20.0, 0.05), (300.0, 0.12)],
            expansion: None,
            source: SHEET,
        },
        // Above its limit ash begins to bake together and shrink.
        Material::WoodAsh => Row {
            density: 500.0,
            heat_capacity: 840.0,
            emittance: 0.90,
            limit: 800.0,
            conductivity: &[(200.0, 0.10)],
            expansion: None,
            source: Source::FromMemory("one rough value; ash differs with wood and packing"),
        },
        Material::AirGap | Material::Own1 | Material::Own2 | Material::Own3 | Material::Own4 => {
            return None;
        }
    };
    Some(row)
}
