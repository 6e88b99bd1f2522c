//! Which size to ask for where steel and bolts are sold in millimetres?
//!
//! The sizes and where they are from stand in [`super::metric_stock_table`].

use super::buying::Form;
use super::frame_strength::SquareTube;
use super::loads::Loads;
use super::metric_stock_table::{
    BOLT_LENGTHS, ROUND_BARS, ROUND_TUBES, SHEETS, SQUARE_SIDES, SQUARE_WALLS, THICKEST_SQUARE,
    THREADS,
};
use super::sold_in_inches::{BORE_NEAR, LEAST, MOST, SoldTube, is_steel};
use crate::design::inputs::Material;
use uom::si::f64::Length;
use uom::si::length::meter;

/// Sizes that differ by less are the same, m.
const ALIKE: f64 = 1e-6;
/// Sizes that are compared with a share of another are rounded.
const ROUNDING: f64 = 1e-9;

/// The size as it is asked for where it is sold in millimetres, where that is another than was entered: the nearest, or the
/// next thicker where that is more than a tenth thinner, or does not bear its load; round tube by its bore. None where nothing
/// near is known, and for what is no metal.
///
/// ```
/// use hearthplan::design::inputs::Material;
/// use hearthplan::sizing::{buying::Form, loads::Loads, sold_in_millimetres::nearest_sold};
/// use uom::si::{f64::Length, length::millimeter};
/// let mm = Length::new::<millimeter>;
/// let loads = Loads::default();
/// let sold = |form| nearest_sold(Some(Material::MildSteel), form, &loads);
/// assert_eq!(sold(Form::Sheet { thickness: mm(1.9) }).as_deref(), Some("2 mm"));
/// assert_eq!(sold(Form::Sheet { thickness: mm(3.0) }), None);
/// let square = Form::SquareTube { side: mm(40.0), wall: mm(3.1) };
/// assert_eq!(sold(square).as_deref(), Some("40 mm square, wall 3 mm"));
/// ```
pub fn nearest_sold(material: Option<Material>, form: Form, loads: &Loads) -> Option<String> {
    match form {
        Form::Sheet { thickness } => {
            let material = material.filter(|material| material.is_metal())?;
            let least = loads.share_needed(material, thickness).max(LEAST);
            let sold = nearest(&SHEETS, thickness.value, [least, MOST])?;
            differs(&[(sold, thickness)]).then(|| told(sold))
        }
        Form::SquareTube { side, wall } if is_steel(material) => {
            square_tube(SquareTube { side, wall }, loads)
        }
        Form::Tube { outside, wall } => {
            nearest_tube(material, [outside, wall], None).map(|tube| tube.name)
        }
        Form::Bolt { thread, length } => {
            let across = nearest(&THREADS, thread.value, [LEAST, MOST])?;
            let long = |sold: &&f64| **sold >= length.value - ALIKE;
            let sold = BOLT_LENGTHS.iter().find(long).copied()?;
            differs(&[(across, thread), (sold, length)])
                .then(|| format!("M{} × {}", told_bare(across), told(sold)))
        }
        Form::SquareTube { .. } | Form::Fitting { .. } | Form::Strip { .. } => None,
    }
}

/// The tube sold whose bore is that of a tube of this outside and wall, or nearest to it; of several that are as near one that
/// goes through the hole, where there is one, and of these the one with the nearest wall. None where that is what was entered,
/// where nothing near is known, and for what is no steel.
///
/// ```
/// use hearthplan::design::inputs::Material;
/// use hearthplan::sizing::sold_in_millimetres::nearest_tube;
/// use uom::si::{f64::Length, length::millimeter};
/// let mm = Length::new::<millimeter>;
/// let steel = Some(Material::MildSteel);
/// let sold = |outside, wall| nearest_tube(steel, [mm(outside), mm(wall)], None);
/// assert_eq!(sold(27.0, 2.0).unwrap().name, "Ø 26.9 mm, wall 2 mm");
/// assert_eq!(sold(26.9, 2.0), None);
/// ```
pub fn nearest_tube(
    material: Option<Material>,
    [across, wall]: [Length; 2],
    hole: Option<Length>,
) -> Option<SoldTube> {
    if !is_steel(material) {
        return None;
    }
    let bore = (across - 2.0 * wall).value;
    let off = |[outside, thick]: &[f64; 2]| ((outside - 2.0 * thick) / bore).ln().abs();
    let tubes: Vec<[f64; 2]> = (ROUND_TUBES.iter())
        .flat_map(|tubes| {
            let [thinnest, thickest] = tubes.shares;
            (tubes.outsides.iter()).flat_map(move |outside| {
                (tubes.walls.iter())
                    .filter(move |thick| {
                        let share = **thick / outside;
                        share >= thinnest - ROUNDING && share <= thickest + ROUNDING
                    })
                    .map(move |thick| [*outside, *thick])
            })
        })
        .filter(|[outside, thick]| is_near(*outside, across.value) && is_near(*thick, wall.value))
        .filter(|tube| off(tube).is_finite())
        .collect();
    let least = tubes.iter().map(off).fold(f64::INFINITY, f64::min);
    let hole = hole.map_or(f64::INFINITY, |hole| hole.value);
    let too_wide = |tube: &[f64; 2]| tube[0] > hole + ALIKE;
    let other_wall = |tube: &[f64; 2]| (tube[1] / wall.value).ln().abs();
    let [outside, thick] = (tubes.iter())
        .filter(|tube| off(tube) <= least.max(BORE_NEAR))
        .min_by(|one, other| {
            let wide = too_wide(one).cmp(&too_wide(other));
            wide.then(other_wall(one).total_cmp(&other_wall(other)))
                .then(off(one).total_cmp(&off(other)))
        })
        .copied()?;
    let sold = SoldTube {
        name: format!("Ø {}, wall {}", told(outside), told(thick)),
        outside: Length::new::<meter>(outside),
        bore: Length::new::<meter>(outside - 2.0 * thick),
    };
    differs(&[(outside, across), (thick, wall)]).then_some(sold)
}

/// The round bar that comes nearest to the outside of a tube that is no shop's, to be bored: through the hole, where there is
/// one. None where no such bar is known.
///
/// ```
/// use hearthplan::sizing::sold_in_millimetres::bar_to_bore;
/// use uom::si::{f64::Length, length::millimeter};
/// let mm = Length::new::<millimeter>;
/// assert_eq!(bar_to_bore(mm(9.6), None).as_deref(), Some("10 mm"));
/// assert_eq!(bar_to_bore(mm(9.6), Some(mm(9.6))), None);
/// ```
pub fn bar_to_bore(outside: Length, hole: Option<Length>) -> Option<String> {
    let bar = nearest(&ROUND_BARS, outside.value, [LEAST, MOST])?;
    hole.is_none_or(|hole| bar <= hole.value + ALIKE)
        .then(|| told(bar))
}

/// The square tube nearest to one that was entered: where a frame of it bears too little, one of a thicker wall, or else the
/// next wider.
fn square_tube(entered: SquareTube, loads: &Loads) -> Option<String> {
    let metres = Length::new::<meter>;
    let nearest_side = nearest(&SQUARE_SIDES, entered.side.value, [LEAST, MOST])?;
    let nearest_wall = nearest(&SQUARE_WALLS, entered.wall.value, [LEAST, MOST])?;
    let bears = |side: f64, wall: f64| {
        let sold = SquareTube {
            side: metres(side),
            wall: metres(wall),
        };
        wall <= THICKEST_SQUARE * side + ROUNDING && loads.frame_bears(entered, sold)
    };
    let sides = SQUARE_SIDES.iter().filter(|side| **side >= nearest_side);
    let (side, wall) = (sides.take(2).copied())
        .flat_map(|side| SQUARE_WALLS.iter().map(move |wall| (side, *wall)))
        .filter(|(_, wall)| *wall >= nearest_wall && is_near(*wall, entered.wall.value))
        .find(|(side, wall)| bears(*side, *wall))?;
    differs(&[(side, entered.side), (wall, entered.wall)])
        .then(|| format!("{} square, wall {}", told(side), told(wall)))
}

/// Whether a size that is sold is near to one that was entered.
fn is_near(sold: f64, entered: f64) -> bool {
    (LEAST * entered - ROUNDING..=MOST * entered + ROUNDING).contains(&sold)
}

/// Whether anything that is sold is not as entered.
fn differs(sizes: &[(f64, Length)]) -> bool {
    (sizes.iter()).any(|(sold, entered)| (sold - entered.value).abs() > ALIKE)
}

/// The nearest of what is sold, rising, or the next where that is too thin, by the least and the most share of the size.
fn nearest(sold: &[f64], wanted: f64, [least, most]: [f64; 2]) -> Option<f64> {
    let off = |one: &f64| (one / wanted).ln().abs();
    let close = (sold.iter().copied()).min_by(|one, other| off(one).total_cmp(&off(other)))?;
    let least = close.max(least * wanted - ROUNDING);
    (sold.iter().copied())
        .find(|one| *one >= least)
        .filter(|one| wanted > 0.0 && *one <= most * wanted)
}

/// Metres as they are told in millimetres, with as many digits as what is sold has.
fn told(size: f64) -> String {
    format!("{} mm", told_bare(size))
}

fn told_bare(size: f64) -> f64 {
    (1e5 * size).round() / 100.0
}
