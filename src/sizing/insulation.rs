//! How thick must a layer be for a cool outside or a small loss?
//!
//! On a flat wall more insulation always loses less. Around a thin pipe it first loses more, because the outside grows
//! faster than the heat is held back, up to the critical radius; the search looks past that hump.

use super::heart::{HeartModel, loads_of};
use super::shell::{ShellError, ZoneHeat, ZoneShell};
use super::zone::Zone;
use crate::design::inputs::Layer;
use crate::design::{Design, Kind};
use crate::physics::solve;
use thiserror::Error;
use uom::si::f64::{Length, Power, Ratio, ThermodynamicTemperature};
use uom::si::length::meter;

/// How near the thickness found is to the thinnest that passes, m.
const TOLERANCE: f64 = 1.0e-5;
/// Places looked at between thinnest and thickest allowed layer.
const LOOKS: u32 = 40;

/// What a layer is to achieve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Wish {
    /// Outside surface no hotter than this in still air, at the load at which the wall is hottest.
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
    /// Loss of the zone at full load, in the wind of the place.
    pub loss: Power,
    /// Temperature of the outside surface in still air, at the load at which the wall is hottest.
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
    let hottest = hottest_load(design, zone);
    let heat = |thickness: f64| {
        let tried = Tried::new(
            design,
            zone,
            layer,
            Length::new::<meter>(thickness),
            hottest,
        )?;
        match wish {
            Wish::Surface(_) => tried.at_its_hottest(),
            Wish::Loss(_) => tried.at_full_load(),
        }
    };
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
    let hottest = hottest_load(design, zone);
    (0..points)
        .map(|point| {
            let share = point as f64 / (points - 1) as f64;
            let thickness = thinnest + share * (thickest - thinnest);
            let thickness = Length::new::<meter>(thickness.value.clamp(least, most));
            let tried = Tried::new(design, zone, layer, thickness, hottest)?;
            Ok(ThicknessPoint {
                thickness,
                loss: tried.at_full_load()?.loss,
                surface_temperature: tried.at_its_hottest()?.surface_temperature,
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
    let full = loads_of(design).full;
    let now = Tried::new(design, zone, layer, thickness, full)?.at_full_load()?;
    let thicker = ZoneShell::with_thickness(design, zone, layer, 1.02 * thickness)?
        .heat(now.inner_temperature)?;
    Ok(thicker.loss > now.loss)
}

/// The load at which the wall of a zone is hottest: full load, but for a hearth wall that follows from the fire.
fn hottest_load(design: &Design, zone: Zone) -> Ratio {
    let loads = loads_of(design);
    if zone.entered_temperature(design).is_some() {
        return loads.full;
    }
    let at = HeartModel::of(design).at_loads(&loads);
    [at.full, at.usual, at.idle]
        .iter()
        .filter(|at| at.has_wall())
        .max_by(|one, other| one.cooler_wall(other))
        .map_or(loads.full, |at| at.load)
}

/// A zone with one layer made as thick as is tried out.
struct Tried {
    shell: ZoneShell,
    /// Temperature of its hot face at full load, and at the load at which that is hottest.
    inside: ThermodynamicTemperature,
    hottest: ThermodynamicTemperature,
}

impl Tried {
    /// Under a better lining the wall of the hearth gets hotter: it is taken as the fire leaves it.
    fn new(
        design: &Design,
        zone: Zone,
        layer: usize,
        thickness: Length,
        hottest: Ratio,
    ) -> Result<Self, ShellError> {
        let mut layers = zone.layers(design).to_vec();
        match layers.get_mut(layer) {
            Some(changed) => changed.thickness = thickness,
            None => return Err(ShellError::NoSuchLayer { zone, layer }),
        }
        let [inside, hottest] = match zone.entered_temperature(design) {
            Some(entered) => [entered; 2],
            None => {
                let model = HeartModel::with_hearth_layers(design, &layers);
                let wall = |load| model.at(load).supply.wall_temperature;
                let full = loads_of(design).full;
                let inside = wall(full);
                match hottest == full {
                    true => [inside; 2],
                    false => [inside, wall(hottest)],
                }
            }
        };
        Ok(Self {
            shell: ZoneShell::with_layers(design, zone, &layers)?,
            inside,
            hottest,
        })
    }

    /// Its heat at full load, in the wind of the place.
    fn at_full_load(&self) -> Result<ZoneHeat, ShellError> {
        self.shell.heat(self.inside)
    }

    /// Its heat in still air, as its outside is hottest.
    fn at_its_hottest(self) -> Result<ZoneHeat, ShellError> {
        self.shell.in_still_air().heat(self.hottest)
    }
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
