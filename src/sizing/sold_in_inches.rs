//! Which size to ask for where steel and bolts are sold in inches?
//!
//! Sheet of mild steel: Manufacturers' Standard Gage for sheet steel, from memory. Stainless steel and aluminium go by other
//! gauges, so that only plate of a fraction of an inch is told of them. Walls of tube: Birmingham gauge, from memory. Bolts:
//! coarse series of ASME B1.1, from memory. Fractions of plate, and outsides of tube by steps: common practice, no source.

use super::buying::Form;
use crate::design::inputs::Material;
use crate::design::quantity::{Quantity as Q, System};
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
const PLATE: [Thickness; 11] = [
    (None, 0.0625),
    (None, 0.125),
    (None, 0.1875),
    (None, 0.25),
    (None, 0.3125),
    (None, 0.375),
    (None, 0.5),
    (None, 0.625),
    (None, 0.75),
    (None, 0.875),
    (None, 1.0),
];
/// Sheet and plate of mild steel, rising.
const STEEL: [Thickness; 19] = [
    (Some(26), 0.0179),
    (Some(24), 0.0239),
    (Some(22), 0.0299),
    (Some(20), 0.0359),
    (Some(18), 0.0478),
    (Some(16), 0.0598),
    (Some(14), 0.0747),
    (Some(12), 0.1046),
    (Some(11), 0.1196),
    (Some(10), 0.1345),
    (None, 0.1875),
    (None, 0.25),
    (None, 0.3125),
    (None, 0.375),
    (None, 0.5),
    (None, 0.625),
    (None, 0.75),
    (None, 0.875),
    (None, 1.0),
];
/// Walls of steel tube, rising.
const WALLS: [Thickness; 11] = [
    (Some(20), 0.035),
    (Some(18), 0.049),
    (Some(16), 0.065),
    (Some(14), 0.083),
    (Some(12), 0.109),
    (Some(11), 0.12),
    (Some(10), 0.134),
    (None, 0.1875),
    (None, 0.25),
    (None, 0.375),
    (None, 0.5),
];
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
    match form {
        Form::Sheet { thickness } if is_mild => thick(&STEEL, thickness, MOST),
        Form::Sheet { thickness } if material.is_some_and(Material::is_metal) => {
            thick(&PLATE, thickness, MOST_PLATE)
        }
        Form::SquareTube { side, wall } if is_steel => {
            let side = fraction(outside(&SQUARE_STEPS, side)?);
            Some(format!(
                "{side} square, wall {}",
                thick(&WALLS, wall, MOST)?
            ))
        }
        Form::Tube {
            outside: across,
            wall,
        } if is_steel => {
            // What flows through it goes by its bore.
            let (_, inches) = nearest(&WALLS, |one| one.1, wall, MOST)?;
            let as_wide = across - 2.0 * wall + 2.0 * Length::new::<inch>(*inches);
            let across = fraction(outside(&ROUND_STEPS, as_wide)?);
            Some(format!("Ø {across}, wall {}", thick(&WALLS, wall, MOST)?))
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
