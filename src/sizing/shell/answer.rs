//! What the heat calculation of the shell answers.

use crate::design::inputs::Material;
use crate::design::materials::MaterialError;
use crate::physics::error::PhysicsError;
use crate::sizing::zone::Zone;
use thiserror::Error;
use uom::si::f64::{
    Area, HeatFluxDensity, HeatTransfer, Length, Power, ThermalConductivity,
    ThermodynamicTemperature,
};

/// Why the heat of a zone could not be found.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum ShellError {
    /// A layer has no usable material.
    #[error("{}, layer {}: {reason}", .zone.label(), .layer + 1)]
    Material {
        /// Which zone.
        zone: Zone,
        /// Place of the layer, counted from zero on the hot side.
        layer: usize,
        /// What is wrong with it.
        reason: MaterialError,
    },
    /// The zone has no layer at this place.
    #[error("{} has no layer {}", .zone.label(), .layer + 1)]
    NoSuchLayer {
        /// Which zone.
        zone: Zone,
        /// Place of the layer, counted from zero on the hot side.
        layer: usize,
    },
    /// The heat flow has no answer for these numbers.
    #[error("{}: {reason}", .zone.label())]
    Physics {
        /// Which zone.
        zone: Zone,
        /// What is wrong.
        reason: PhysicsError,
    },
}

/// One layer in steady state.
#[derive(Debug, Clone, PartialEq)]
pub struct LayerHeat {
    /// What it is made of.
    pub material: Material,
    /// Its thickness.
    pub thickness: Length,
    /// From the hot face of the zone to the hot side of this layer.
    pub depth: Length,
    /// Temperature of its hot side.
    pub hot: ThermodynamicTemperature,
    /// Temperature of its cold side.
    pub cold: ThermodynamicTemperature,
    /// Mean conductivity between its two sides; none for an air gap.
    pub conductivity: Option<ThermalConductivity>,
    /// Highest temperature it bears for long; none for an air gap.
    pub limit: Option<ThermodynamicTemperature>,
    /// Whether it holds heat back.
    pub insulates: bool,
    /// Whether its mean temperature lies above the last conductivity known, so that it insulates less than computed.
    pub beyond_data: bool,
}

impl LayerHeat {
    /// Kelvins in hand before the hot side reaches the limit; negative when it is too hot; none for an air gap.
    pub fn kelvins_in_hand(&self) -> Option<f64> {
        self.limit.map(|limit| limit.value - self.hot.value)
    }
}

/// One zone in steady state.
#[derive(Debug, Clone, PartialEq)]
pub struct ZoneHeat {
    /// Which zone.
    pub zone: Zone,
    /// Heat that leaves through it; negative if the air is hotter than the inside.
    pub loss: Power,
    /// Heat flux at the hot face.
    pub inner_flux: HeatFluxDensity,
    /// Heat flux at the outside surface.
    pub outer_flux: HeatFluxDensity,
    /// Temperature of the hot face, as given.
    pub inner_temperature: ThermodynamicTemperature,
    /// Temperature of the outside surface.
    pub surface_temperature: ThermodynamicTemperature,
    /// Convection at the outside, natural or by wind, whichever is greater.
    pub convection: HeatTransfer,
    /// Radiation at the outside.
    pub radiation: HeatTransfer,
    /// Diameter of the hot face of a wall, or of the disc of an end.
    pub inner_diameter: Length,
    /// Diameter of the outside.
    pub outer_diameter: Length,
    /// Area of the outside.
    pub outer_area: Area,
    /// Layers from the hot side outwards, one for each layer of the design.
    pub layers: Vec<LayerHeat>,
}

impl ZoneHeat {
    /// The layer nearest to its limit, or furthest above it: its place and itself.
    pub fn hardest_pressed(&self) -> Option<(usize, &LayerHeat)> {
        let in_hand = |layer: &LayerHeat| layer.kelvins_in_hand().unwrap_or(f64::INFINITY);
        self.layers
            .iter()
            .enumerate()
            .filter(|(_, layer)| layer.limit.is_some())
            .min_by(|(_, one), (_, other)| in_hand(one).total_cmp(&in_hand(other)))
    }
}
