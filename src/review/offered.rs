//! The numbers that a remedy is offered in: sizes that are sold, steps that can be said aloud, or what is computed anyway.

use super::Assessment;
use super::electrics::size_that_suits;
use super::finding::{Lever, Verdict};
use super::leaks::{JOINT_LENGTHS, length_that_suits};
use super::marking::SHEET;
use super::standing::BALLAST_HANGS;
use super::workshop::TRAIN_WEIGHT;
use crate::design::inputs::{CableSystem, Group, Material};
use crate::design::quantity::Quantity;
use crate::design::{Choice, Design, Value};
use crate::sizing::ballast::unheld;
use crate::sizing::conductor_table::FUSES;
use crate::sizing::insulation_table::sold;
use crate::sizing::metric_stock_table::{SHEETS, SQUARE_WALLS, pipe_walls};
use crate::sizing::parts_list::parts_for_stages;
use crate::sizing::wiring::{Conductor, SizeSystem};

/// A number without the last digits of a multiplication, which would only lengthen links and files.
pub(super) fn without_dust(value: f64) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    let scale = 10_f64.powi(12 - value.abs().log10().ceil() as i32);
    let rounded = (value * scale).round() / scale;
    if rounded.is_finite() { rounded } else { value }
}

/// What the display of an instrument goes on by, K: thermometers with other steps are hard to come by. Common practice, no
/// source.
const INSTRUMENT_STEPS: [f64; 12] = [
    0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0,
];

/// The sizes that can be bought, where only such make sense, SI and rising.
pub(super) fn sizes_sold(design: &Design, lever: &Lever, quantity: Quantity) -> Vec<f64> {
    match quantity {
        Quantity::WireSection => {
            let system = match design.wiring.system {
                CableSystem::Metric => SizeSystem::Metric,
                CableSystem::Gauge => SizeSystem::Gauge,
            };
            Conductor::all(system)
                .into_iter()
                .map(|conductor| conductor.area.value)
                .collect()
        }
        Quantity::Current => FUSES.to_vec(),
        Quantity::Voltage => vec![6.0, 12.0, 24.0, 36.0, 48.0],
        // The only differences of temperature among the inputs are such steps.
        Quantity::TemperatureDifference => INSTRUMENT_STEPS.to_vec(),
        _ => match (steel(design, lever), insulation(design, lever)) {
            (Some(steel), _) => steel.sizes(),
            (None, Some(material)) => sold(material).to_vec(),
            (None, None) => Vec::new(),
        },
    }
}

/// Steel whose thickness a lever moves.
#[derive(Debug, Clone, Copy)]
enum Steel {
    Sheet,
    FrameTube,
    Pipe,
}

impl Steel {
    /// The thicknesses that are sold, m, rising.
    fn sizes(self) -> Vec<f64> {
        match self {
            Steel::Sheet => SHEETS.to_vec(),
            Steel::FrameTube => SQUARE_WALLS.to_vec(),
            Steel::Pipe => pipe_walls(),
        }
    }
}

/// The steel whose thickness a lever moves; none for what is cast or poured, and for any other number.
fn steel(design: &Design, lever: &Lever) -> Option<Steel> {
    let is_metal = |value: &Value| match value {
        Value::Choice(name) => Material::from_name(name).is_some_and(Material::is_metal),
        _ => false,
    };
    let path = match lever {
        Lever::Input(path) => path,
        Lever::NewItem {
            fields,
            solve_for: "thickness",
            ..
        } => {
            let mut named = fields.iter().filter(|(name, _)| *name == "material");
            return named
                .any(|(_, value)| is_metal(value))
                .then_some(Steel::Sheet);
        }
        Lever::NewItem { .. } | Lever::Move { .. } => return None,
    };
    let made_of = |holder: &str| {
        let material = design.get(&format!("{holder}.material"));
        material.is_some_and(|material| is_metal(&material))
    };
    match path.rsplit_once('.')? {
        ("base", "frame_wall") => Some(Steel::FrameTube),
        ("hopper", "wall_thickness") => Some(Steel::Sheet),
        ("hearth", "steel_thickness") => {
            (design.hearth.material.material().is_metal()).then_some(Steel::Sheet)
        }
        (holder, "thickness") => made_of(holder).then_some(Steel::Sheet),
        (holder, "wall") if holder.starts_with("train.") => Some(Steel::Sheet),
        (_, "tube_wall" | "pipe_wall") => Some(Steel::Pipe),
        _ => None,
    }
}

/// Square tube is sold in steps of this, about, and what is poured is told in them; common practice, no source, m.
const SOLD_STEP: f64 = 0.005;
/// The thinnest insulation that is offered where no thicknesses are known, m: thinner is hardly sold. Common practice, no
/// source.
const THINNEST: f64 = 0.010;

/// The insulation whose thickness a lever moves; none for any other.
fn insulation(design: &Design, lever: &Lever) -> Option<Material> {
    let named = |value: &Value| match value {
        Value::Choice(name) => Material::from_name(name),
        _ => None,
    };
    let material = match lever {
        Lever::Input(path) => {
            let layer = path.strip_suffix(".thickness")?;
            named(&design.get(&format!("{layer}.material"))?)
        }
        Lever::NewItem {
            fields,
            solve_for: "thickness",
            ..
        } => fields.iter().find_map(|(name, value)| match *name {
            "material" => named(value),
            _ => None,
        }),
        Lever::NewItem { .. } | Lever::Move { .. } => None,
    };
    material.filter(|one| design.material(*one).is_ok_and(|one| one.insulates))
}

/// The thinnest that a lever is offered at, where it is insulation.
pub(super) fn thinnest(design: &Design, lever: &Lever) -> Option<f64> {
    let material = insulation(design, lever)?;
    Some(sold(material).first().copied().unwrap_or(THINNEST))
}

/// The step on which a remedy is offered: that of what is sold; else fine enough to be small, coarse enough to be said
/// aloud.
pub(super) fn grid(design: &Design, lever: &Lever, quantity: Quantity, scale: f64) -> f64 {
    let tube = matches!(lever, Lever::Input(path) if path == "base.frame_side");
    if tube || thinnest(design, lever).is_some() {
        return SOLD_STEP;
    }
    match quantity {
        Quantity::Length | Quantity::Bore => 0.001,
        Quantity::Count => 1.0,
        Quantity::Share => 0.01,
        Quantity::Temperature => 1.0,
        Quantity::Angle => std::f64::consts::PI / 180.0 / 10.0,
        _ => 10_f64.powf((scale / 200.0).log10().floor()),
    }
}

/// The number that needs no search: what suits the circuit of a cable or fuse, whatever the
/// others do; a joint is as long as what it goes around; ballast hangs right under its bars; what stands for the stages of the gas train has to weigh what they
/// weigh, though less of it may pass for enough.
pub(super) fn as_computed(
    design: &Design,
    before: &Assessment,
    id: &str,
    lever: &Lever,
) -> Option<f64> {
    if let Lever::Input(path) = lever
        && let Some(size) = size_that_suits(design, &before.electrics.wiring, id, path)
    {
        return Some(size);
    }
    if let Lever::Input(path) = lever
        && id == JOINT_LENGTHS
    {
        return length_that_suits(design, path);
    }
    if id == SHEET {
        return Some(design.real_vessel.sheet.value);
    }
    if id == BALLAST_HANGS {
        return unheld(design)?.fits.map(|fits| without_dust(fits.value));
    }
    if id != TRAIN_WEIGHT {
        return None;
    }
    let (group, mass, count) = match lever {
        Lever::Input(path) => {
            let place = path.strip_prefix("parts.")?.strip_suffix(".mass")?;
            let place = place.parse::<usize>().ok()?;
            let part = design.parts.get(place)?;
            let stands_for = parts_for_stages(design, &before.workshop.parts);
            let group = stands_for.get(place).copied().flatten()?;
            (group, part.mass.value, part.count)
        }
        Lever::NewItem { fields, .. } => {
            let group = fields.iter().find_map(|field| match field {
                ("group", Value::Choice(name)) => Group::from_name(name),
                _ => None,
            });
            (group?, 0.0, 1)
        }
        Lever::Move { .. } => return None,
    };
    let weight = (before.workshop.train_weights.iter()).find(|weight| weight.group == group)?;
    let missing = (weight.computed - weight.placed).value / f64::from(count.max(1));
    (weight.verdict() != Verdict::Good && missing > 0.0)
        .then(|| without_dust((10.0 * (mass + missing)).ceil() / 10.0))
}
