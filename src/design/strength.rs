//! How strong are metals when cold? Yield strength and stiffness, one row each.
//!
//! Least yield strength (0.2 % proof stress) of sheet as delivered, at room temperature, and modulus of
//! elasticity, written from memory of the standards named at each row. Welding softens hard aluminium, so
//! the row holds for soft sheet.

use super::inputs::Material;
use super::source::Source;
use uom::si::f64::Pressure;

/// A metal that bears load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Metal {
    /// Least yield strength, cold.
    pub yield_strength: Pressure,
    /// Modulus of elasticity, cold.
    pub stiffness: Pressure,
    /// Where the values come from.
    pub source: Source,
}

const fn pascals(value: f64) -> Pressure {
    Pressure {
        dimension: std::marker::PhantomData,
        units: std::marker::PhantomData,
        value,
    }
}

const fn row(yield_strength: f64, stiffness: f64, source: &'static str) -> Metal {
    Metal {
        yield_strength: pascals(yield_strength),
        stiffness: pascals(stiffness),
        source: Source::FromMemory(source),
    }
}

/// Plain structural steel S235.
pub const MILD_STEEL: Metal = row(2.35e8, 2.05e11, "EN 10025-2, S235 up to 16 mm");
const STAINLESS_304: Metal = row(2.1e8, 2.0e11, "EN 10088-2, 1.4301");
const STAINLESS_310: Metal = row(2.1e8, 2.0e11, "EN 10095, 1.4845");
const ALUMINIUM: Metal = row(8.0e7, 7.0e10, "EN 485-2, 5754 soft sheet");

/// The strength of a material; none for what is no metal, and for own materials.
///
/// ```
/// use hearthplan::design::{inputs::Material, strength::metal};
/// assert_eq!(metal(Material::MildSteel).unwrap().yield_strength.value, 2.35e8);
/// assert!(metal(Material::RockWool).is_none());
/// ```
pub fn metal(material: Material) -> Option<Metal> {
    match material {
        Material::MildSteel => Some(MILD_STEEL),
        Material::Stainless304 => Some(STAINLESS_304),
        Material::Stainless310 => Some(STAINLESS_310),
        Material::Aluminium => Some(ALUMINIUM),
        _ => None,
    }
}
