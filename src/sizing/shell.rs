//! How much heat leaves through the shell, and how hot does each layer and the outside get?
//!
//! Four zones: hearth wall, body wall, lid and bottom. Each is a stack of layers with a given temperature on its hot
//! face and air outside. Walls are upright cylinders; lid and bottom are discs as wide as the room inside the wall they
//! close, with the metal that lines it: this is as hot as the room, all through. What lies further out rests on the wall's
//! own insulation and has no hot face; only a sheet on the hot side of the end carries heat out there, as a fin does. Under
//! a hopper the wood lies in the lid's opening, and is no wall: what is hot of the lid is its ring on the body wall's
//! metal, and that fin. Method as in ASTM C680 and ISO 12241, see [`crate::physics::steady`].

mod answer;

pub use answer::{LayerHeat, ShellError, ZoneHeat};

use super::machine::{HearthShape, VesselShape};
use super::zone::Zone;
use crate::design::Design;
use crate::design::inputs::{HearthKind, Layer, Material};
use crate::design::materials::{MaterialError, MaterialProperties};
use crate::physics::air;
use crate::physics::conductivity::{ConductivityCurve, ConductivityPoint, MOST_POINTS};
use crate::physics::convection::Surroundings;
use crate::physics::error::PhysicsError;
use crate::physics::layers::{self, Facing, Shape, Stack};
use crate::physics::steady::Outside;
use crate::physics::transient::HeatStore;
use crate::physics::tube_flow::{RoundFin, fin_efficiency};
use uom::si::area::square_meter;
use uom::si::f64::{
    Area, HeatFluxDensity, HeatTransfer, Length, Power, Ratio, ThermalConductivity,
    ThermodynamicTemperature,
};
use uom::si::heat_flux_density::watt_per_square_meter;
use uom::si::heat_transfer::watt_per_square_meter_kelvin;
use uom::si::length::meter;
use uom::si::power::watt;
use uom::si::ratio::ratio;
use uom::si::thermal_conductivity::watt_per_meter_kelvin;
use uom::si::thermodynamic_temperature::kelvin;

/// Emittance of what lies behind a gap on the hot side: glowing char, soot, rusty steel (handbook value, from memory).
const HOT_SIDE_EMITTANCE: f64 = 0.9;

/// How far a sheet of an end is reckoned to carry heat out over the wall's insulation, m, however thick that is: as much as
/// insulation often is. Our own mark.
const FIN_REACH: f64 = 0.075;

/// Stands for the air in a gap, whose heat counts for nothing.
const STILL_AIR: HeatStore = HeatStore {
    density: 1.0,
    heat_capacity: 1000.0,
};

/// A zone made ready, for questions that ask many times with other temperatures.
#[derive(Debug, Clone, PartialEq)]
pub struct ZoneShell {
    zone: Zone,
    stack: Stack,
    /// Heat each layer of the stack can hold.
    stores: Vec<HeatStore>,
    outside: Outside,
    layers: Vec<ReadyLayer>,
}

/// What a layer of the design became.
#[derive(Debug, Clone, PartialEq)]
struct ReadyLayer {
    material: Material,
    thickness: Length,
    limit: Option<ThermodynamicTemperature>,
    insulates: bool,
    curve: Option<ConductivityCurve>,
    last_known: Option<ThermodynamicTemperature>,
    /// Number of interfaces of the stack that lie on its hot side, and on its cold side.
    faces: (usize, usize),
}

impl ZoneShell {
    /// Makes a zone of the design ready.
    ///
    /// An air gap on the very outside holds no heat back and is left out. Gaps that touch count as one.
    ///
    /// # Errors
    /// [`ShellError`] when a layer has no usable material or a number is out of range.
    pub fn new(design: &Design, zone: Zone) -> Result<Self, ShellError> {
        Self::with_layers(design, zone, zone.layers(design))
    }

    /// As [`ZoneShell::new`], with one layer made as thick as given.
    ///
    /// # Errors
    /// As [`ZoneShell::new`], and when there is no such layer.
    pub fn with_thickness(
        design: &Design,
        zone: Zone,
        layer: usize,
        thickness: Length,
    ) -> Result<Self, ShellError> {
        let mut layers = zone.layers(design).to_vec();
        match layers.get_mut(layer) {
            Some(changed) => changed.thickness = thickness,
            None => return Err(ShellError::NoSuchLayer { zone, layer }),
        }
        Self::with_layers(design, zone, &layers)
    }

    /// As [`ZoneShell::new`], with other layers in place of the design's.
    ///
    /// # Errors
    /// As [`ZoneShell::new`].
    pub fn with_layers(design: &Design, zone: Zone, given: &[Layer]) -> Result<Self, ShellError> {
        let physics = |reason| ShellError::Physics { zone, reason };
        let solid_until = given
            .iter()
            .rposition(|layer| layer.material != Material::AirGap)
            .map_or(0, |last| last + 1);
        let properties = given
            .iter()
            .enumerate()
            .map(|(index, layer)| match design.material(layer.material) {
                Ok(properties) => Ok(Some(properties)),
                Err(MaterialError::AirGap) => Ok(None),
                Err(reason) => Err(ShellError::Material {
                    zone,
                    layer: index,
                    reason,
                }),
            })
            .collect::<Result<Vec<_>, _>>()?;
        let mut stacked: Vec<layers::Layer> = Vec::with_capacity(given.len());
        let mut stores = Vec::with_capacity(given.len());
        let mut ready = Vec::with_capacity(given.len());
        let mut emittance_inside = HOT_SIDE_EMITTANCE;
        for (index, (layer, solid)) in given.iter().zip(&properties).enumerate() {
            let before = stacked.len();
            let curve = solid.as_ref().map(curve).transpose().map_err(physics)?;
            match solid.as_ref().zip(curve) {
                Some((solid, conductivity)) => {
                    stacked.push(layers::Layer::Solid {
                        thickness: layer.thickness.value,
                        conductivity,
                    });
                    stores.push(HeatStore {
                        density: solid.density.value,
                        heat_capacity: solid.heat_capacity.value,
                    });
                    emittance_inside = solid.emittance.value;
                }
                None if index >= solid_until => {}
                None => match stacked.last_mut() {
                    Some(layers::Layer::StillAir { thickness, .. }) => {
                        *thickness += layer.thickness.value;
                    }
                    _ => {
                        stacked.push(layers::Layer::StillAir {
                            thickness: layer.thickness.value,
                            emittance_inside,
                            emittance_outside: next_emittance(&properties, index),
                        });
                        stores.push(STILL_AIR);
                    }
                },
            }
            ready.push(ReadyLayer {
                material: layer.material,
                thickness: layer.thickness,
                limit: solid.as_ref().map(|solid| solid.limit),
                insulates: solid.as_ref().is_none_or(|solid| solid.insulates),
                curve,
                last_known: solid
                    .as_ref()
                    .and_then(|solid| solid.conductivity.last())
                    .map(|point| point.temperature),
                faces: (before, stacked.len()),
            });
        }
        let outside = outside(design, zone);
        let plain = Stack::new(shape(design, zone), &stacked).map_err(physics)?;
        let metal = (ready.iter().zip(given)).take_while(|(_, layer)| layer.material.is_metal());
        let stack = match fin(design, zone, metal, (&plain, &outside)) {
            Some(with_fin) => Stack::new(with_fin, &stacked).map_err(physics)?,
            None => plain,
        };
        Ok(Self {
            zone,
            stack,
            stores,
            outside,
            layers: ready,
        })
    }

    /// Steady state with the hot face at the given temperature, 150 to 3000 K.
    ///
    /// # Errors
    /// [`ShellError::Physics`] when the temperature is out of range.
    pub fn heat(
        &self,
        inner_temperature: ThermodynamicTemperature,
    ) -> Result<ZoneHeat, ShellError> {
        let state = self
            .stack
            .steady(inner_temperature.value, &self.outside)
            .map_err(|reason| ShellError::Physics {
                zone: self.zone,
                reason,
            })?;
        let at = |face: usize| {
            // The hot face is as hot as given, whatever the last digit of the sums says.
            let solved = state.interfaces.get(face).copied();
            let temperature = match face {
                0 => solved.map(|_| inner_temperature.value),
                _ => solved,
            };
            ThermodynamicTemperature::new::<kelvin>(
                temperature.unwrap_or(state.surface_temperature),
            )
        };
        let mut depth = Length::new::<meter>(0.0);
        let layers = self
            .layers
            .iter()
            .map(|layer| {
                let (hot, cold) = (at(layer.faces.0), at(layer.faces.1));
                let mean = 0.5 * (hot.value + cold.value);
                let here = depth;
                depth += layer.thickness;
                LayerHeat {
                    material: layer.material,
                    thickness: layer.thickness,
                    depth: here,
                    hot,
                    cold,
                    conductivity: layer.curve.map(|curve| {
                        ThermalConductivity::new::<watt_per_meter_kelvin>(
                            curve.mean(hot.value, cold.value),
                        )
                    }),
                    limit: layer.limit,
                    insulates: layer.insulates && layer.limit.is_some(),
                    beyond_data: layer.insulates
                        && layer.last_known.is_some_and(|known| mean > known.value),
                }
            })
            .collect();
        let (inner_diameter, outer_diameter) = self.diameters();
        Ok(ZoneHeat {
            zone: self.zone,
            loss: Power::new::<watt>(state.heat_flow),
            inner_flux: HeatFluxDensity::new::<watt_per_square_meter>(state.inner_flux),
            outer_flux: HeatFluxDensity::new::<watt_per_square_meter>(state.outer_flux),
            inner_temperature,
            surface_temperature: ThermodynamicTemperature::new::<kelvin>(state.surface_temperature),
            convection: HeatTransfer::new::<watt_per_square_meter_kelvin>(
                state.surface_loss.convective_coefficient,
            ),
            radiation: HeatTransfer::new::<watt_per_square_meter_kelvin>(
                state.surface_loss.radiative_coefficient,
            ),
            inner_diameter,
            outer_diameter,
            outer_area: Area::new::<square_meter>(self.stack.outer_area()),
            layers,
        })
    }

    /// The same zone in air that does not move: so its outside gets hottest, however windy the place may be.
    #[must_use]
    pub fn in_still_air(mut self) -> Self {
        self.outside.surroundings.wind_speed = 0.0;
        self
    }

    /// Heat flux into the hot face at the given temperature; cheaper than [`ZoneShell::heat`].
    ///
    /// # Errors
    /// As [`ZoneShell::heat`].
    pub fn inner_flux(
        &self,
        inner_temperature: ThermodynamicTemperature,
    ) -> Result<HeatFluxDensity, ShellError> {
        self.stack
            .inner_flux(inner_temperature.value, &self.outside)
            .map(HeatFluxDensity::new::<watt_per_square_meter>)
            .map_err(|reason| ShellError::Physics {
                zone: self.zone,
                reason,
            })
    }

    /// Heat that leaves through the zone at the given temperature; cheaper than [`ZoneShell::heat`].
    ///
    /// # Errors
    /// As [`ZoneShell::heat`].
    pub fn loss(&self, inner_temperature: ThermodynamicTemperature) -> Result<Power, ShellError> {
        Ok(
            self.inner_flux(inner_temperature)?
                * Area::new::<square_meter>(self.stack.inner_area()),
        )
    }

    /// The layers as the physics room sees them.
    pub(super) fn stack(&self) -> &Stack {
        &self.stack
    }

    /// The heat each of them can hold.
    pub(super) fn stores(&self) -> &[HeatStore] {
        &self.stores
    }

    /// The air outside as the physics room sees it.
    pub(super) fn outside(&self) -> &Outside {
        &self.outside
    }

    fn diameters(&self) -> (Length, Length) {
        let (inner, outer) = match self.stack.shape() {
            Shape::Cylinder { inner_radius, .. } => (
                2.0 * inner_radius,
                2.0 * (inner_radius + self.stack.thickness()),
            ),
            Shape::Flat { side, .. } => (side, side),
        };
        (Length::new::<meter>(inner), Length::new::<meter>(outer))
    }
}

/// Heat through one zone with its hot face at the given temperature.
///
/// ```
/// use hearthplan::{design::Design, sizing::shell, sizing::zone::Zone};
/// let design = Design::default();
/// let heat = shell::zone_heat(&design, Zone::Body, design.body_wall.inner_temperature)?;
/// assert!(heat.surface_temperature < design.body_wall.inner_temperature);
/// assert_eq!(heat.layers.len(), design.body_layers.len());
/// # Ok::<(), shell::ShellError>(())
/// ```
///
/// # Errors
/// [`ShellError`] when a layer has no usable material or a number is out of range.
pub fn zone_heat(
    design: &Design,
    zone: Zone,
    inner_temperature: ThermodynamicTemperature,
) -> Result<ZoneHeat, ShellError> {
    ZoneShell::new(design, zone)?.heat(inner_temperature)
}

/// Share of the hearth wall's loss that leaves from the burning zone and above it, by height.
///
/// Smoke burns from the nozzles down to the throat; below it no air is left and char turns the burned smoke into gas. So
/// the zones part at the throat, where the drawing has it. In a straight fire tube, open at the top, the fire is taken to
/// burn half way up the tube. Both are our own convention.
///
/// ```
/// use hearthplan::{design::Design, sizing::shell};
/// let share = shell::share_of_burning_zone(&Design::default());
/// assert!(share.value > 0.0 && share.value < 1.0);
/// ```
pub fn share_of_burning_zone(design: &Design) -> Ratio {
    // Counted from the foot of the band: how high the machine stands is nothing to the fire.
    let hearth = HearthShape::of(design, Length::new::<meter>(0.0));
    let plane = match design.hearth.kind {
        HearthKind::Constricted => hearth.throat,
        HearthKind::Straight => 0.5 * (hearth.grate + hearth.tube_top),
    };
    let band = design.hearth_wall.height;
    let share = (band - plane) / band;
    Ratio::new::<ratio>(share.value.clamp(0.0, 1.0))
}

fn curve(solid: &MaterialProperties<'_>) -> Result<ConductivityCurve, PhysicsError> {
    let mut points = [ConductivityPoint::default(); MOST_POINTS];
    for (place, point) in points.iter_mut().zip(solid.conductivity.iter()) {
        *place = ConductivityPoint {
            temperature: point.temperature.value,
            conductivity: point.conductivity.value,
        };
    }
    let given = points.get(..solid.conductivity.len());
    ConductivityCurve::new(given.unwrap_or(&points))
}

/// Emittance of the first solid behind the gap at this place.
fn next_emittance(properties: &[Option<MaterialProperties<'_>>], gap: usize) -> f64 {
    properties
        .iter()
        .skip(gap)
        .flatten()
        .next()
        .map_or(HOT_SIDE_EMITTANCE, |solid| solid.emittance.value)
}

/// Across the hot face of an end: the room inside the wall that it closes, and the metal that lines this. So more
/// insulation around the wall makes no end wider that loses heat.
fn across_hot_face(inside: Length, layers: &[Layer]) -> f64 {
    let metal = layers.iter().take_while(|layer| layer.material.is_metal());
    let lining: f64 = metal.map(|layer| layer.thickness.value).sum();
    inside.value + 2.0 * lining
}

/// An end with as much more hot face as what its sheet on the hot side, given by its layers of metal, carries out over the
/// insulation of the wall comes to; none of a wall, and where there is no such sheet or no insulation under it. The other
/// side of the sheet loses nothing: it lies on the insulation.
fn fin<'a>(
    design: &Design,
    zone: Zone,
    metal: impl Iterator<Item = (&'a ReadyLayer, &'a Layer)>,
    (plain, outside): (&Stack, &Outside),
) -> Option<Shape> {
    let Shape::Flat { area, side, facing } = plain.shape() else {
        return None;
    };
    let around = match zone {
        Zone::Lid => &design.body_layers,
        _ => &design.hearth_layers,
    };
    if around.iter().all(|layer| layer.material.is_metal()) {
        return None;
    }
    let hot = zone.entered_temperature(design)?.value;
    let over_air = hot - outside.surroundings.air_temperature;
    let (thickness, carries) = metal.fold((0.0, 0.0), |(thickness, carries), (ready, layer)| {
        let here = layer.thickness.value;
        let conductivity = ready.curve.map_or(0.0, |curve| curve.mean(hot, hot));
        (thickness + here, carries + here * conductivity)
    });
    if over_air <= 1.0 || thickness <= 0.0 {
        return None;
    }
    let coefficient = plain.inner_flux(hot, outside).ok()? / over_air;
    let round = RoundFin {
        tube_diameter: side,
        fin_diameter: side + 2.0 * FIN_REACH,
        thickness,
        conductivity: carries / thickness,
    };
    // The sum for fins takes both sides to lose heat.
    let counts = fin_efficiency(&round, 0.5 * coefficient);
    let ring = Shape::ring(round.fin_diameter, side, facing).area_at(0.0);
    Some(Shape::Flat {
        area: area + counts * ring,
        side,
        facing,
    })
    .filter(|_| counts.is_finite())
}

fn shape(design: &Design, zone: Zone) -> Shape {
    let cylinder = |inside: Length, height: Length| Shape::Cylinder {
        inner_radius: 0.5 * inside.value,
        length: height.value,
    };
    let (hearth, body) = (&design.hearth_wall, &design.body_wall);
    match zone {
        Zone::Hearth => cylinder(hearth.inside_diameter, hearth.height),
        Zone::Body => cylinder(body.inside_diameter, body.height),
        Zone::Lid => Shape::ring(
            across_hot_face(body.inside_diameter, &design.body_layers),
            2.0 * VesselShape::of(design).lid_bore_radius.value,
            Facing::Up,
        ),
        Zone::Bottom => Shape::disc(
            across_hot_face(hearth.inside_diameter, &design.hearth_layers),
            Facing::Down,
        ),
    }
}

fn outside(design: &Design, zone: Zone) -> Outside {
    Outside {
        surroundings: Surroundings {
            air_temperature: design.site.air_temperature.value,
            pressure: air::pressure_at_altitude(design.site.altitude.value),
            wind_speed: design.site.wind_speed.value,
        },
        emittance: zone.outer_emittance(design).value,
    }
}
