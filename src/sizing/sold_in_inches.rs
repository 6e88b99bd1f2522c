//! Which size to ask for where steel and bolts are sold in inches?
//!
//! Sheet of mild steel and walls of tube go by the gauges of [`crate::design::quantity`]. Stainless steel and aluminium go
//! by others, so that only plate of a fraction of an inch is told of them. Bolts: coarse series of ASME B1.1, from memory.
//! Fractions of plate, and outsides of tube by steps: common practice, no source.

use super::buying::Form;
use super::frame_strength::SquareTube;
use super::loads::Loads;
use crate::design::inputs::Material;
use crate::design::quantity::{Quantity as Q, SHEET_GAUGES, System, WALL_GAUGES};
use uom::si::f64::Length;
use uom::si::length::inch;

/// What is thinner than this share of the size entered gives way to the next thicker: our own mark.
pub(super) const LEAST: f64 = 0.9;
/// What is thicker than this many times the size entered is no longer near it: our own mark. Sheet and walls are sold in
/// wide steps; plate beside metals that are sold by other gauges is only told where it is close.
pub(super) const MOST: f64 = 1.5;
const MOST_PLATE: f64 = 1.15;

/// A thickness that is sold: its gauge, or none for a fraction of an inch, and inches.
type Thickness = (Option<u8>, f64);

/// Plate by fractions of an inch, rising.
const PLATE: [f64; 11] = [
    0.0625, 0.125, 0.1875, 0.25, 0.3125, 0.375, 0.5, 0.625, 0.75, 0.875, 1.0,
];
/// Walls of tube that no gauge tells, inches, rising.
const THICK_WALLS: [f64; 4] = [0.1875, 0.25, 0.375, 0.5];

/// Gauges and the fractions of an inch above them.
fn gauges_and(gauges: &[(u8, f64)], fractions: &[f64]) -> Vec<Thickness> {
    let thickest = gauges.iter().map(|(_, inches)| *inches).fold(0.0, f64::max);
    let above = fractions.iter().filter(|inches| **inches > thickest);
    (gauges.iter().map(|(gauge, inches)| (Some(*gauge), *inches)))
        .chain(above.map(|inches| (None, *inches)))
        .collect()
}

/// Coarse threads, with their outside diameter in inches, rising.
const THREADS: [(&str, f64); 10] = [
    ("#10-24", 0.19),
    ("1/4-20", 0.25),
    ("5/16-18", 0.3125),
    ("3/8-16", 0.375),
    ("7/16-14", 0.4375),
    ("1/2-13", 0.5),
    ("5/8-11", 0.625),
    ("3/4-10", 0.75),
    ("7/8-9", 0.875),
    ("1-8", 1.0),
];
/// Bolts are longer by steps of this, inches.
const BOLT_STEP: f64 = 0.25;
/// Steps of the outside of square and of round tube, inches, up to so many inches; the last holds beyond.
const SQUARE_STEPS: [(f64, f64); 2] = [(0.25, 2.0), (0.5, f64::INFINITY)];
const ROUND_STEPS: [(f64, f64); 3] = [(0.0625, 0.625), (0.125, 3.0), (0.25, f64::INFINITY)];

/// Bores that differ by less than this share are as near: then the tube that goes through its hole is taken. Our own mark.
pub const BORE_NEAR: f64 = 0.03;

/// A round tube as it is sold.
#[derive(Debug, Clone, PartialEq)]
pub struct SoldTube {
    /// What it is asked for by: outside and wall.
    pub name: String,
    /// Its outside.
    pub outside: Length,
    /// Its bore.
    pub bore: Length,
}

/// The tube sold whose bore is nearest to that of a tube of this outside and wall, since gas or air flows through it; of two
/// that are as near the one that goes through the hole, where there is one. Its wall is no more than a tenth thinner. None
/// where nothing near is known, and for what is no steel.
///
/// ```
/// use hearthplan::design::inputs::Material;
/// use hearthplan::sizing::sold_in_inches::nearest_tube;
/// use uom::si::{f64::Length, length::millimeter};
/// let mm = Length::new::<millimeter>;
/// let sold = nearest_tube(Some(Material::MildSteel), [mm(12.0), mm(3.0)], None).unwrap();
/// assert_eq!(sold.name, "Ø 1/2 in, wall 10 ga, 0.134 in");
/// assert!((sold.bore / mm(6.0)).value > 0.97);
/// ```
pub fn nearest_tube(
    material: Option<Material>,
    [across, wall]: [Length; 2],
    hole: Option<Length>,
) -> Option<SoldTube> {
    if !is_steel(material) {
        return None;
    }
    let [across, wall] = [across, wall].map(|size| size.get::<inch>());
    let bore = across - 2.0 * wall;
    let hole = hole.map_or(f64::INFINITY, |hole| hole.get::<inch>());
    let off = |tube: &(Thickness, f64)| ((tube.1 - 2.0 * tube.0.1) / bore).ln().abs();
    let walls = gauges_and(&WALL_GAUGES, &THICK_WALLS);
    let near = |sold: f64, entered: f64| (LEAST * entered..=MOST * entered).contains(&sold);
    let tubes = (walls.into_iter())
        .filter(|sold| near(sold.1, wall))
        .flat_map(|sold| {
            let around = beside(&ROUND_STEPS, bore + 2.0 * sold.1);
            around
                .into_iter()
                .flatten()
                .map(move |outside| (sold, outside))
        })
        .filter(|(sold, outside)| *outside > 2.0 * sold.1 && near(*outside, across));
    let tubes: Vec<(Thickness, f64)> = tubes.filter(|tube| off(tube).is_finite()).collect();
    let least = tubes.iter().map(off).fold(f64::INFINITY, f64::min);
    let too_wide = |tube: &(Thickness, f64)| tube.1 > hole * (1.0 + 1e-9);
    let (sold, outside) = (tubes.iter())
        .filter(|tube| off(tube) <= least.max(BORE_NEAR))
        .min_by(|one, other| {
            let wide = too_wide(one).cmp(&too_wide(other));
            wide.then(off(one).total_cmp(&off(other)))
        })?;
    let inches = Length::new::<inch>;
    Some(SoldTube {
        name: format!("Ø {}, wall {}", fraction(*outside), told(sold)),
        outside: inches(*outside),
        bore: inches(outside - 2.0 * sold.1),
    })
}

/// Whether tube of this material is sold by the sizes known here.
pub(super) fn is_steel(material: Option<Material>) -> bool {
    use Material::{MildSteel, Stainless304, Stainless310};
    matches!(material, Some(MildSteel | Stainless304 | Stainless310))
}

/// The nearest size as it is asked for where it is sold in inches: the next thicker where the nearest is more than a tenth
/// thinner than entered, or does not bear its load; round tube by its bore. None where nothing near is known, and for what
/// is no metal.
///
/// ```
/// use hearthplan::design::inputs::Material;
/// use hearthplan::sizing::{buying::Form, loads::Loads, sold_in_inches::nearest_sold};
/// use uom::si::{f64::Length, length::millimeter};
/// let mm = Length::new::<millimeter>;
/// let sheet = Form::Sheet { thickness: mm(3.0) };
/// let loads = Loads::default();
/// let sold = |material, form| nearest_sold(Some(material), form, &loads);
/// assert_eq!(sold(Material::MildSteel, sheet).as_deref(), Some("11 ga, 0.1196 in"));
/// assert_eq!(sold(Material::Stainless304, sheet).as_deref(), Some("1/8 in"));
/// assert_eq!(sold(Material::RockWool, sheet), None);
/// let bolt = Form::Bolt { thread: mm(10.0), length: mm(40.0) };
/// assert_eq!(nearest_sold(None, bolt, &loads).as_deref(), Some("3/8-16 × 1 3/4 in"));
/// ```
pub fn nearest_sold(material: Option<Material>, form: Form, loads: &Loads) -> Option<String> {
    match form {
        Form::Sheet { thickness } => {
            let material = material.filter(|material| material.is_metal())?;
            let (sold, most) = match material {
                Material::MildSteel => (gauges_and(&SHEET_GAUGES, &PLATE), MOST),
                _ => (gauges_and(&[], &PLATE), MOST_PLATE),
            };
            let least = loads.share_needed(material, thickness).max(LEAST);
            nearest(&sold, |one| one.1, thickness, [least, most]).map(told)
        }
        Form::SquareTube { side, wall } if is_steel(material) => {
            square_tube(SquareTube { side, wall }, loads)
        }
        Form::Tube { outside, wall } => {
            nearest_tube(material, [outside, wall], None).map(|tube| tube.name)
        }
        Form::Bolt { thread, length } => {
            let (name, _) = nearest(&THREADS, |thread| thread.1, thread, [LEAST, MOST])?;
            // A length of whole steps must not become the next by rounding.
            let steps = (length.get::<inch>() / BOLT_STEP - 1e-6).ceil().max(1.0);
            Some(format!("{name} × {}", fraction(steps * BOLT_STEP)))
        }
        Form::SquareTube { .. } | Form::Fitting { .. } | Form::Strip { .. } => None,
    }
}

/// The square tube nearest to one that was entered: where a frame of it bears too little, one of a thicker wall, or else the
/// next wider.
fn square_tube(entered: SquareTube, loads: &Loads) -> Option<String> {
    let inches = Length::new::<inch>;
    let side = outside(&SQUARE_STEPS, entered.side)?;
    let walls = gauges_and(&WALL_GAUGES, &THICK_WALLS);
    let near = nearest(&walls, |one| one.1, entered.wall, [LEAST, MOST])?.1;
    let most = MOST * entered.wall.get::<inch>();
    let walls = || (walls.iter()).filter(|wall| (near..=most).contains(&wall.1));
    let bears = |side: f64, wall: &Thickness| {
        let sold = SquareTube {
            side: inches(side),
            wall: inches(wall.1),
        };
        loads.frame_bears(entered, sold)
    };
    let step = SQUARE_STEPS.iter().find(|(_, up_to)| side < *up_to)?.0;
    let tubes = [side, side + step];
    let (side, wall) = (tubes.into_iter())
        .flat_map(|side| walls().map(move |wall| (side, wall)))
        .find(|(side, wall)| bears(*side, wall))?;
    Some(format!("{} square, wall {}", fraction(side), told(wall)))
}

/// What a thickness is asked for by.
fn told((gauge, inches): &Thickness) -> String {
    match gauge {
        Some(gauge) => format!("{gauge} ga, {inches} in"),
        None => fraction(*inches),
    }
}

/// What is thinner than needed by less than this share is not: sizes in millimetres are rounded.
const ROUNDING: f64 = 0.001;

/// The nearest of what is sold, rising, or the next where that is too thin, by the least and the most share of the size.
fn nearest<T>(
    sold: &[T],
    inches: impl Fn(&T) -> f64,
    size: Length,
    [least, most]: [f64; 2],
) -> Option<&T> {
    let wanted = size.get::<inch>();
    let off = |one: &T| (inches(one) / wanted).ln().abs();
    let close = (sold.iter()).min_by(|one, other| off(one).total_cmp(&off(other)))?;
    let least = inches(close).max(least * (1.0 - ROUNDING) * wanted);
    (sold.iter())
        .find(|one| inches(one) >= least)
        .filter(|one| wanted > 0.0 && inches(one) <= most * wanted)
}

/// The step of the outside of a tube that is nearest to a size, or the next where that is too small, inches.
fn outside(steps: &[(f64, f64)], size: Length) -> Option<f64> {
    let wanted = size.get::<inch>();
    let (step, _) = steps.iter().find(|(_, up_to)| wanted < *up_to)?;
    let close = (wanted / step).round() * step;
    let sold = if close < LEAST * wanted {
        close + step
    } else {
        close
    };
    (wanted > 0.0 && sold <= MOST * wanted).then_some(sold)
}

/// The steps of the outside of a tube below and above a size, inches.
fn beside(steps: &[(f64, f64)], inches: f64) -> Option<[f64; 2]> {
    let (step, _) = steps.iter().find(|(_, up_to)| inches < *up_to)?;
    Some([f64::floor, f64::ceil].map(|round| round(inches / step) * step))
}

/// Inches as a tape tells them.
fn fraction(inches: f64) -> String {
    Q::Length.show(Length::new::<inch>(inches).value, System::Inch)
}
