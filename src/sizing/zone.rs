//! The four zones of the shell, and where the design says what about each.

use crate::design::Design;
use crate::design::inputs::Layer;
use uom::si::f64::{Ratio, ThermodynamicTemperature};

/// A zone of the shell.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Zone {
    /// The wall around the hearth.
    Hearth,
    /// The wall above the hearth.
    Body,
    /// The top end.
    Lid,
    /// The bottom end.
    Bottom,
}

impl Zone {
    /// All zones, in the order of results.
    pub const ALL: [Zone; 4] = [Zone::Hearth, Zone::Body, Zone::Lid, Zone::Bottom];

    /// Name used in results and findings.
    pub fn name(self) -> &'static str {
        match self {
            Zone::Hearth => "hearth",
            Zone::Body => "body",
            Zone::Lid => "lid",
            Zone::Bottom => "bottom",
        }
    }

    /// What a person calls it.
    pub fn label(self) -> &'static str {
        match self {
            Zone::Hearth => "Hearth wall",
            Zone::Body => "Body wall",
            Zone::Lid => "Lid",
            Zone::Bottom => "Bottom",
        }
    }

    /// Name of its section in the design.
    pub fn section(self) -> &'static str {
        match self {
            Zone::Hearth => "hearth_wall",
            Zone::Body => "body_wall",
            Zone::Lid => "lid",
            Zone::Bottom => "bottom",
        }
    }

    /// Name of its list of layers in the design.
    pub fn layer_list(self) -> &'static str {
        match self {
            Zone::Hearth => "hearth_layers",
            Zone::Body => "body_layers",
            Zone::Lid => "lid_layers",
            Zone::Bottom => "bottom_layers",
        }
    }

    /// Its layers, from the hot side outwards.
    pub fn layers(self, design: &Design) -> &[Layer] {
        match self {
            Zone::Hearth => &design.hearth_layers,
            Zone::Body => &design.body_layers,
            Zone::Lid => &design.lid_layers,
            Zone::Bottom => &design.bottom_layers,
        }
    }

    /// Temperature of its hot face as entered; none for the hearth wall, whose temperature follows from the fire
    /// ([`crate::sizing::heart`]).
    pub fn entered_temperature(self, design: &Design) -> Option<ThermodynamicTemperature> {
        match self {
            Zone::Hearth => None,
            Zone::Body => Some(design.body_wall.inner_temperature),
            Zone::Lid => Some(design.lid.inner_temperature),
            Zone::Bottom => Some(design.bottom.inner_temperature),
        }
    }

    /// Emittance of its outside.
    pub fn outer_emittance(self, design: &Design) -> Ratio {
        match self {
            Zone::Hearth => design.hearth_wall.outer_emittance,
            Zone::Body => design.body_wall.outer_emittance,
            Zone::Lid => design.lid.outer_emittance,
            Zone::Bottom => design.bottom.outer_emittance,
        }
    }

    /// Whether a guard keeps hands off it.
    pub fn guarded(self, design: &Design) -> bool {
        match self {
            Zone::Hearth => design.hearth_wall.guarded,
            Zone::Body => design.body_wall.guarded,
            Zone::Lid => design.lid.guarded,
            Zone::Bottom => design.bottom.guarded,
        }
    }
}
