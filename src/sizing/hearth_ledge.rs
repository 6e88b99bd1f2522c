//! What lies on top of the hearth wall? The ring that closes the gap around the fire tube, and the plate that carries the
//! steel liner of the body: blanket and wool carry nothing, and fibre must not lie bare under the wood.

use super::machine::HearthShape;
use crate::design::Design;
use crate::design::inputs::{Layer, Material};
use uom::si::f64::Length;
use uom::si::length::millimeter;

/// A gap as narrow as this closes with the seal alone, mm. Our own mark.
const SEALED: f64 = 2.0;
/// The ring lies this far over the top of the wall on each side, mm, where there is room. Our own mark.
const LAP: f64 = 10.0;
/// Room that the ring needs on each side to pass the wall of the body, mm. Our own mark.
const PASSES: f64 = 2.0;
/// Firm layers carry a plate if together they are as thick as this, mm. Our own mark.
const LEAST_BEARING: f64 = 10.0;
/// A plate stands out beyond what carries it by no more than so many times its thickness. Our own mark.
const STANDS_OUT: f64 = 10.0;

/// A flat ring of sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlatRing {
    /// Outside diameter.
    pub outside: Length,
    /// Bore.
    pub bore: Length,
    /// Thickness.
    pub thickness: Length,
}

/// The ring that closes the gap between the top of the fire tube and the hearth wall: through an open one smoke passes by
/// the fire with all its tar, and wood falls in. It lies on the top of the wall, as far as the wall of the body leaves room
/// there. None where the tube is as wide as the wall.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::sizing::hearth_ledge::ring_around_tube;
/// let design = example::as_improved();
/// let ring = ring_around_tube(&design).unwrap();
/// let tube = design.hearth.nozzle_ring_diameter + 2.0 * design.hearth.steel_thickness;
/// assert_eq!(ring.bore, tube);
/// assert!(ring.outside > design.hearth_wall.inside_diameter);
/// assert!(ring.outside < design.body_wall.inside_diameter);
/// ```
pub fn ring_around_tube(design: &Design) -> Option<FlatRing> {
    let gap = gap_around_tube(design);
    let thickness = design.hearth.steel_thickness;
    (gap > Length::new::<millimeter>(SEALED)).then(|| FlatRing {
        outside: design.hearth_wall.inside_diameter + 2.0 * lap(design),
        bore: outside_of_tube(design),
        thickness,
    })
}

/// Between the top of the fire tube and the hearth wall, on each side.
pub fn gap_around_tube(design: &Design) -> Length {
    0.5 * (design.hearth_wall.inside_diameter - outside_of_tube(design))
}

fn outside_of_tube(design: &Design) -> Length {
    let tube = HearthShape::of(design, Length::default()).tube_radius;
    2.0 * (tube + design.hearth.steel_thickness)
}

/// How far the ring lies over the top of the hearth wall; not at all where the fire tube ends below that.
fn lap(design: &Design) -> Length {
    let top = HearthShape::of(design, Length::default()).tube_top;
    if top < design.hearth_wall.height - Length::new::<millimeter>(SEALED) {
        return Length::default();
    }
    let ledge = 0.5 * (design.body_wall.inside_diameter - design.hearth_wall.inside_diameter);
    let room = ledge - Length::new::<millimeter>(PASSES);
    room.min(Length::new::<millimeter>(LAP))
        .max(Length::default())
}

/// What carries the plate under the liner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Carried {
    /// The firm layers of the hearth wall inside: how wide across they are, and how far the plate stands out beyond them.
    ByTheWall {
        /// Outside diameter of the firm layers.
        firm: Length,
        /// How far the plate stands out beyond, on each side.
        stands_out: Length,
    },
    /// Brackets at the shell: nothing firm is near enough.
    ByTheShell,
}

/// The plate that carries the liner of the body.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LinerPlate {
    /// Its sizes: from the inside of the hearth wall to the outside of the liner, or to the shell.
    pub ring: FlatRing,
    /// What carries it.
    pub carried: Carried,
}

/// Whether a layer bears what stands on it. Of a person's own material nobody knows.
fn is_firm(material: Material) -> bool {
    material.is_metal()
        || matches!(
            material,
            Material::CalciumSilicate
                | Material::Vermiculite
                | Material::InsulatingFirebrick
                | Material::DenseCastable
        )
}

/// Each layer of the hearth wall with its diameters inside and outside.
fn around(design: &Design) -> Vec<(Layer, [Length; 2])> {
    let mut inside = design.hearth_wall.inside_diameter;
    (design.hearth_layers.iter())
        .map(|layer| {
            let from = inside;
            inside += 2.0 * layer.thickness;
            (layer.clone(), [from, inside])
        })
        .collect()
}

/// The plate on the hearth wall that carries the steel liner of the body: none where that has no liner inside its insulation,
/// where the liner stands on something firm, and where both are there already.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::sizing::hearth_ledge::{Carried, liner_plate};
/// let mut design = example::as_improved();
/// let plate = liner_plate(&design).unwrap();
/// let liner = design.body_wall.inside_diameter + 2.0 * design.body_layers[0].thickness;
/// assert_eq!([plate.ring.bore, plate.ring.outside], [design.hearth_wall.inside_diameter, liner]);
/// assert!(matches!(plate.carried, Carried::ByTheWall { .. }));
/// // On the castable itself it needs no plate.
/// design.hearth_layers[0].thickness *= 10.0;
/// assert_eq!(liner_plate(&design), None);
/// ```
pub fn liner_plate(design: &Design) -> Option<LinerPlate> {
    under_liner(design).filter(|_| !design.real_vessel.lined)
}

/// The plate under the liner, whether it is still to be made or there.
pub(super) fn under_liner(design: &Design) -> Option<LinerPlate> {
    let liner = (design.body_layers.first())
        .filter(|layer| layer.material.is_metal() && design.body_layers.len() > 1)?;
    let inside = design.body_wall.inside_diameter;
    let outside = inside + 2.0 * liner.thickness;
    let around = around(design);
    let bore = design.hearth_wall.inside_diameter;
    let under = around
        .iter()
        .filter(|(layer, [from, to])| *from < outside && *to > inside && !is_firm(layer.material));
    if inside < bore || under.count() == 0 {
        return None;
    }
    let thickness = design.hearth.steel_thickness;
    let firm = (around.iter())
        .take_while(|(layer, _)| is_firm(layer.material))
        .last()
        .map_or(bore, |(_, [_, to])| *to);
    let stands_out = 0.5 * (outside - firm);
    let bears = 0.5 * (firm - bore) >= Length::new::<millimeter>(LEAST_BEARING);
    let (outside, carried) = if bears && stands_out <= STANDS_OUT * thickness {
        (outside, Carried::ByTheWall { firm, stands_out })
    } else {
        let shell = (around.iter())
            .find(|(layer, [from, _])| layer.material.is_metal() && *from >= outside)
            .map_or(outside, |(_, [from, _])| *from);
        (shell, Carried::ByTheShell)
    };
    Some(LinerPlate {
        ring: FlatRing {
            outside,
            bore,
            thickness,
        },
        carried,
    })
}
