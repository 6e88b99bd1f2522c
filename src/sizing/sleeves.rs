//! What leads through the lining behind a hole that is cut in the shell alone? A pipe set on the shell ends there, and a door is
//! fitted on it: gas or embers would pass through bare fibre.

use super::also_needed::holds_instrument;
use super::machine;
use super::marking::height_above_bottom;
use crate::design::Design;
use crate::design::inputs::{Hole, HoleUse, Layer};
use uom::si::f64::Length;

/// A short piece of pipe, or of rolled sheet, in a hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sleeve<'a> {
    /// The place of its hole in the list.
    pub place: usize,
    /// The hole, which it just goes into.
    pub hole: &'a Hole,
    /// From the shell to the inside of the lining, along it.
    pub long: Length,
}

/// The sleeves of a design: for each pipe set on the shell and each opening, where the wall behind it is lined. What an
/// instrument fills needs none.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::sizing::sleeves::sleeves;
/// let design = example::as_improved();
/// let names: Vec<&str> = sleeves(&design).map(|one| one.hole.name.as_str()).collect();
/// assert_eq!(names, ["Ash door", "Gas outlet"]);
/// ```
pub fn sleeves(design: &Design) -> impl Iterator<Item = Sleeve<'_>> {
    let through = (design.holes.iter().enumerate())
        .filter(|(_, hole)| hole.carries != HoleUse::SetIn && !holds_instrument(hole));
    through.filter_map(move |(place, hole)| {
        let lining = lining_behind(design, hole)?;
        let thick: Length = lining.iter().map(|layer| layer.thickness).sum();
        let slant = match hole.carries {
            HoleUse::Open => 1.0,
            HoleUse::SetOn | HoleUse::SetIn => hole.lean.value.sin(),
        };
        Some(Sleeve {
            place,
            hole,
            long: thick / slant,
        })
    })
}

/// The layers behind the steel that a hole is cut in, the innermost first; none where there is nothing but steel.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::sizing::sleeves::lining_behind;
/// let design = example::as_improved();
/// let door = design.holes.iter().find(|hole| hole.name == "Ash door").unwrap();
/// assert_eq!(lining_behind(&design, door), Some(&design.hearth_layers[..2]));
/// ```
pub fn lining_behind<'a>(design: &'a Design, hole: &Hole) -> Option<&'a [Layer]> {
    let (vessel, _) = machine::measures(design);
    let above = vessel.underside + height_above_bottom(design, hole);
    let layers = match above < vessel.hearth_top {
        true => &design.hearth_layers,
        false => &design.body_layers,
    };
    let steel = layers.iter().rposition(|layer| layer.material.is_metal())?;
    let lining = layers.get(..steel)?;
    let is_lined = lining.iter().any(|layer| !layer.material.is_metal());
    is_lined.then_some(lining)
}
