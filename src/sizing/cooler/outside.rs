//! Heat from the outside of a tube to the air, with or without fins.

use super::Orientation;
use super::block::Room;
use crate::physics::convection::{self, Surface, Surroundings};
use crate::physics::radiation::to_surroundings;
use crate::physics::tube_flow::{RoundFin, fin_efficiency, level_cylinder_coefficient};
use std::f64::consts::PI;

/// Round fins, SI numbers.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Fins {
    pub diameter: f64,
    pub thickness: f64,
    /// From fin to fin, m.
    pub pitch: f64,
    pub conductivity: f64,
}

/// Heat given off, W per metre of tube, by a surface at `surface` in K. `form` is how the tube lies, its outside
/// diameter and its length in m.
///
/// Convection on the tube's own diameter, its coefficient held over the fins as well and lessened by their efficiency;
/// radiation from the envelope, as far as it sees more than other tubes. An upright tube in wind is treated as one across
/// the wind.
pub(crate) fn air_flux(
    surface: f64,
    form: (Orientation, f64, f64),
    emittance: f64,
    fins: Option<&Fins>,
    room: &Room,
    around: &Surroundings,
) -> f64 {
    let (orientation, diameter, length) = form;
    let coefficient = match orientation {
        Orientation::Level => level_cylinder_coefficient(diameter, surface, around),
        Orientation::Upright => {
            let height = length.max(0.01);
            let form = Surface::VerticalCylinder { height, diameter };
            convection::coefficient_in_block(form, surface, around, &room.rising)
        }
    };
    let (area, envelope) = match fins {
        None => (PI * diameter, PI * diameter),
        Some(fins) => {
            let fin = RoundFin {
                tube_diameter: diameter,
                fin_diameter: fins.diameter,
                thickness: fins.thickness,
                conductivity: fins.conductivity,
            };
            let faces = 0.5 * PI * (fins.diameter * fins.diameter - diameter * diameter)
                + PI * fins.diameter * fins.thickness;
            let bare = PI * diameter * (1.0 - fins.thickness / fins.pitch);
            let efficiency = fin_efficiency(&fin, coefficient);
            (bare + efficiency * faces / fins.pitch, PI * fins.diameter)
        }
    };
    coefficient * area * (surface - around.air_temperature)
        + room.seen * envelope * to_surroundings(emittance, surface, around.air_temperature)
}
