//! Which size to ask for where steel and bolts are sold in inches?
//!
//! Sheet of mild steel and walls of tube go by the gauges of [`crate::design::quantity`]. Stainless steel and aluminium go
//! by others, so that only plate of a fraction of an inch is told of them. Bolts: coarse series of ASME B1.1, from memory.
//! Fractions of plate, and outsides of tube by steps: common practice, no source.

use super::buying::Form;
use crate::design::inputs::Material;
use crate::design::quantity::{Quantity as Q, SHEET_GAUGES, System, WALL_GAUGES};
use uom::si::f64::Length;
use uom::si::length::inch;

/// What is thinner than this share of the size entered gives way to the next thicker.
const LEAST: f64 = 0.9;
/// What is thicker than this many times the size entered is no longer near it: our own mark. Sheet and walls are sold in
/// wide steps; plate beside metals that are sold by other gauges is only told where it is close.
const MOST: f64 = 1.5;
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

/// The nearest size as it is asked for where it is sold in inches: the next thicker where the nearest is more than a tenth
/// thinner than entered; round tube by its bore. None where nothing near is known, and for what is no metal.
///
/// ```
/// use hearthplan::design::inputs::Material;
/// use hearthplan::sizing::{buying::Form, sold_in_inches::nearest_sold};
/// use uom::si::{f64::Length, length::millimeter};
/// let mm = Length::new::<millimeter>;
/// let sheet = Form::Sheet { thickness: mm(3.0) };
/// let sold = |material, form| nearest_sold(Some(material), form);
/// assert_eq!(sold(Material::MildSteel, sheet).as_deref(), Some("11 ga, 0.1196 in"));
/// assert_eq!(sold(Material::Stainless304, sheet).as_deref(), Some("1/8 in"));
/// assert_eq!(sold(Material::RockWool, sheet), None);
/// let bolt = Form::Bolt { thread: mm(10.0), length: mm(40.0) };
/// assert_eq!(nearest_sold(None, bolt).as_deref(), Some("3/8-16 × 1 3/4 in"));
/// ```
pub fn nearest_sold(material: Option<Material>, form: Form) -> Option<String> {
    let is_mild = material == Some(Material::MildSteel);
    let is_steel = is_mild
        || matches!(
            material,
            Some(Material::Stainless304 | Material::Stainless310)
        );
    let walls = gauges_and(&WALL_GAUGES, &THICK_WALLS);
    match form {
        Form::Sheet { thickness } if is_mild => {
            thick(&gauges_and(&SHEET_GAUGES, &PLATE), thickness, MOST)
        }
        Form::Sheet { thickness } if material.is_some_and(Material::is_metal) => {
            thick(&gauges_and(&[], &PLATE), thickness, MOST_PLATE)
        }
        Form::SquareTube { side, wall } if is_steel => {
            let side = fraction(outside(&SQUARE_STEPS, side)?);
            Some(format!(
                "{side} square, wall {}",
                thick(&walls, wall, MOST)?
            ))
        }
        Form::Tube {
            outside: across,
            wall,
        } if is_steel => {
            // What flows through it goes by its bore.
            let (_, inches) = nearest(&walls, |one| one.1, wall, MOST)?;
            let as_wide = across - 2.0 * wall + 2.0 * Length::new::<inch>(*inches);
            let across = fraction(outside(&ROUND_STEPS, as_wide)?);
            Some(format!("Ø {across}, wall {}", thick(&walls, wall, MOST)?))
        }
        Form::Bolt { thread, length } => {
            let (name, _) = nearest(&THREADS, |thread| thread.1, thread, MOST)?;
            // A length of whole steps must not become the next by rounding.
            let steps = (length.get::<inch>() / BOLT_STEP - 1e-6).ceil().max(1.0);
            Some(format!("{name} × {}", fraction(steps * BOLT_STEP)))
        }
        Form::Sheet { .. }
        | Form::SquareTube { .. }
        | Form::Tube { .. }
        | Form::Fitting { .. }
        | Form::Strip { .. } => None,
    }
}

/// The name of the thickness nearest to a size.
fn thick(sold: &[Thickness], size: Length, most: f64) -> Option<String> {
    let (gauge, inches) = nearest(sold, |one| one.1, size, most)?;
    Some(match gauge {
        Some(gauge) => format!("{gauge} ga, {inches} in"),
        None => fraction(*inches),
    })
}

/// The nearest of what is sold, rising, or the next where that is too thin.
fn nearest<T>(sold: &[T], inches: impl Fn(&T) -> f64, size: Length, most: f64) -> Option<&T> {
    let wanted = size.get::<inch>();
    let off = |one: &T| (inches(one) / wanted).ln().abs();
    let close = (sold.iter()).min_by(|one, other| off(one).total_cmp(&off(other)))?;
    let least = inches(close).max(LEAST * wanted);
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

/// Inches as a tape tells them.
fn fraction(inches: f64) -> String {
    Q::Length.show(Length::new::<inch>(inches).value, System::Inch)
}
