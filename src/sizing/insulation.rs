//! How thick must a layer be for a cool outside or a small loss?
//!
//! On a flat wall more insulation always loses less. Around a thin pipe it first loses more, because the outside grows
//! faster than the heat is held back, up to the critical radius; the search looks past that hump.

use super::heart::HeartModel;
use super::shell::{ShellError, ZoneHeat, ZoneShell};
use super::zone::Zone;
use crate::design::inputs::Layer;
use crate::design::{Design, Kind};
use crate::physics::solve;
use thiserror::Error;
use uom::si::f64::{Length, Power, Ratio, ThermodynamicTemperature};
use uom::si::length::meter;
use uom::si::ratio::ratio;

/// How near the thickness found is to the thinnest that passes, m.
const TOLERANCE: f64 = 1.0e-5;
/// Places looked at between thinnest and thickest allowed layer.
const LOOKS: u32 = 40;

/// What a layer is to achieve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Wish {
    /// Outside surface no hotter than this.
    Surface(ThermodynamicTemperature),
    /// Loss of the zone no greater than this.
    Loss(Power),
}

impl Wish {
    fn met(self, heat: &ZoneHeat) -> bool {
        match self {
            Wish::Surface(wanted) => heat.surface_temperature <= wanted,
            Wish::Loss(wanted) => heat.loss <= wanted,
        }
    }
}

/// A layer thick enough.
#[derive(Debug, Clone, PartialEq)]
pub struct NeededThickness {
    /// The thinnest that meets the wish.
    pub thickness: Length,
    /// The zone with the layer that thick.
    pub heat: ZoneHeat,
}

/// Why no thickness was found.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum InsulationError {
    /// The zone as entered cannot be computed.
    #[error(transparent)]
    Shell(#[from] ShellError),
    /// Not even the thickest allowed layer is enough.
    #[error("even {} mm of this layer is not enough", (.thickest.value * 1000.0).round())]
    NotEnough {
        /// Thickest layer allowed.
        thickest: Length,
        /// The zone with it.
        heat: Box<ZoneHeat>,
    },
}

/// One point of a chart of loss and surface temperature against thickness.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThicknessPoint {
    /// Thickness of the chosen layer.
    pub thickness: Length,
    /// Loss of the zone.
    pub loss: Power,
    /// Temperature of the outside surface.
    pub surface_temperature: ThermodynamicTemperature,
}

/// The thinnest layer at this place of a zone that meets the wish, within the range a layer may have.
///
/// ```
/// use hearthplan::design::Design;
/// use hearthplan::sizing::insulation::{Wish, needed_thickness};
/// use hearthplan::sizing::zone::Zone;
/// let design = Design::default();
/// let wish = Wish::Surface(design.limits.touch_temperature);
/// let needed = needed_thickness(&design, Zone::Hearth, 1, wish)?;
/// assert!(needed.heat.surface_temperature <= design.limits.touch_temperature);
/// # Ok::<(), hearthplan::sizing::insulation::InsulationError>(())
/// ```
///
/// # Errors
/// [`InsulationError`] when there is no such layer, the zone cannot be computed, or no allowed thickness is enough.
pub fn needed_thickness(
    design: &Design,
    zone: Zone,
    layer: usize,
    wish: Wish,
) -> Result<NeededThickness, InsulationError> {
    let heat = |thickness: f64| heat_with(design, zone, layer, Length::new::<meter>(thickness));
    let (thinnest, thickest) = allowed();
    let thickest_heat = heat(thickest)?;
    let found = solve::smallest_change(thinnest, thickest, TOLERANCE, LOOKS, |thickness| {
        heat(thickness).is_ok_and(|heat| wish.met(&heat))
    });
    match found {
        Some(thickness) => Ok(NeededThickness {
            thickness: Length::new::<meter>(thickness),
            heat: heat(thickness)?,
        }),
        None => Err(InsulationError::NotEnough {
            thickest: Length::new::<meter>(thickest),
            heat: Box::new(thickest_heat),
        }),
    }
}

/// Loss and surface temperature of a zone for evenly spaced thicknesses of one layer, both ends included.
///
/// At least two points are given; thicknesses outside the range a layer may have are held at its ends.
///
/// ```
/// use hearthplan::{design::Design, sizing::insulation::against_thickness, sizing::zone::Zone};
/// use uom::si::{f64::Length, length::millimeter};
/// let (thin, thick) = (Length::new::<millimeter>(10.0), Length::new::<millimeter>(100.0));
/// let points = against_thickness(&Design::default(), Zone::Body, 1, thin, thick, 10)?;
/// assert_eq!(points.len(), 10);
/// assert!(points[9].loss < points[0].loss);
/// # Ok::<(), hearthplan::sizing::shell::ShellError>(())
/// ```
///
/// # Errors
/// [`ShellError`] when there is no such layer or the zone cannot be computed.
pub fn against_thickness(
    design: &Design,
    zone: Zone,
    layer: usize,
    thinnest: Length,
    thickest: Length,
    points: usize,
) -> Result<Vec<ThicknessPoint>, ShellError> {
    let points = points.max(2);
    let (least, most) = allowed();
    (0..points)
        .map(|point| {
            let share = point as f64 / (points - 1) as f64;
            let thickness = thinnest + share * (thickest - thinnest);
            let thickness = Length::new::<meter>(thickness.value.clamp(least, most));
            let heat = heat_with(design, zone, layer, thickness)?;
            Ok(ThicknessPoint {
                thickness,
                loss: heat.loss,
                surface_temperature: heat.surface_temperature,
            })
        })
        .collect()
}

/// Whether a little more of this layer would make the zone lose more: it lies below the critical radius.
///
/// ```
/// use hearthplan::{design::Design, sizing::insulation::below_critical_radius, sizing::zone::Zone};
/// assert!(!below_critical_radius(&Design::default(), Zone::Hearth, 1)?);
/// # Ok::<(), hearthplan::sizing::shell::ShellError>(())
/// ```
///
/// # Errors
/// [`ShellError`] when there is no such layer or the zone cannot be computed.
pub fn below_critical_radius(
    design: &Design,
    zone: Zone,
    layer: usize,
) -> Result<bool, ShellError> {
    let thickness = zone
        .layers(design)
        .get(layer)
        .map(|layer| layer.thickness)
        .ok_or(ShellError::NoSuchLayer { zone, layer })?;
    let now = heat_with(design, zone, layer, thickness)?;
    let thicker = ZoneShell::with_thickness(design, zone, layer, 1.02 * thickness)?
        .heat(now.inner_temperature)?;
    Ok(thicker.loss > now.loss)
}

/// The zone with one layer made as thick as given. Under a better lining the wall of the hearth gets hotter: it is
/// taken as the fire leaves it at full load.
fn heat_with(
    design: &Design,
    zone: Zone,
    layer: usize,
    thickness: Length,
) -> Result<ZoneHeat, ShellError> {
    let mut layers = zone.layers(design).to_vec();
    match layers.get_mut(layer) {
        Some(changed) => changed.thickness = thickness,
        None => return Err(ShellError::NoSuchLayer { zone, layer }),
    }
    let inside = zone.entered_temperature(design).unwrap_or_else(|| {
        HeartModel::with_hearth_layers(design, &layers)
            .at(Ratio::new::<ratio>(1.0))
            .supply
            .wall_temperature
    });
    ZoneShell::with_layers(design, zone, &layers)?.heat(inside)
}

/// Range a layer's thickness may have, m, from the declaration of the input.
fn allowed() -> (f64, f64) {
    Layer::INPUTS
        .iter()
        .find(|input| input.name == "thickness")
        .and_then(|input| match input.kind {
            Kind::Number { allowed, .. } => Some(allowed),
            _ => None,
        })
        .unwrap_or((0.001, 0.5))
}
