//! What the heat calculation of the shell answers.

use crate::design::inputs::Material;
use crate::design::materials::MaterialError;
use crate::physics::error::PhysicsError;
use crate::sizing::zone::Zone;
use std::f64::consts::PI;
use thiserror::Error;
use uom::si::f64::{
    Area, HeatFluxDensity, HeatTransfer, Length, Power, ThermalConductivity,
    ThermodynamicTemperature,
};
use uom::si::thermal_conductivity::watt_per_meter_kelvin;

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
    /// Diameter of the hot face.
    pub inner_diameter: Length,
    /// Diameter of the outside of a wall; of an end that of its hot face.
    pub outer_diameter: Length,
    /// Area of the outside of a wall; of an end that of its hot face, with what its sheet carries further out as so much
    /// more of it.
    pub outer_area: Area,
    /// Layers from the hot side outwards, one for each layer of the design.
    pub layers: Vec<LayerHeat>,
}

impl ZoneHeat {
    /// Height of a wall.
    pub fn height(&self) -> Length {
        self.outer_area / (PI * self.outer_diameter)
    }

    /// Radius of a wall on the hot side of a layer, and on its cold side.
    pub fn radii(&self, layer: &LayerHeat) -> [Length; 2] {
        let hot = 0.5 * self.inner_diameter + layer.depth;
        [hot, hot + layer.thickness]
    }

    /// Mean conductivity of a layer; that of an air gap counts its radiation too, and there is none where it holds no
    /// heat back.
    pub fn conductivity(&self, layer: &LayerHeat) -> Option<ThermalConductivity> {
        let fall = layer.hot.value - layer.cold.value;
        let [hot, cold] = self.radii(layer);
        let way = match self.zone {
            Zone::Hearth | Zone::Body => (cold / hot).value.ln() / (2.0 * PI * self.height().value),
            Zone::Lid | Zone::Bottom => layer.thickness.value / self.outer_area.value,
        };
        let of_gap = self.loss.value * way / fall;
        layer.conductivity.or(of_gap
            .is_finite()
            .then(|| ThermalConductivity::new::<watt_per_meter_kelvin>(of_gap)))
    }

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
