//! The outline of a solid, for drawing it and for the wind.

use super::metres;
use uom::si::f64::Length;

/// A round outline on an upright axis; a cone when the radii differ between bottom and top.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoundEnvelope {
    /// The axis, to the right of the middle of the base.
    pub x: Length,
    /// The axis, behind the middle of the base.
    pub y: Length,
    /// Underside above ground.
    pub bottom: Length,
    /// Top above ground.
    pub top: Length,
    /// Inside radius at the underside; 0 for a full solid.
    pub inner_bottom: Length,
    /// Outside radius at the underside.
    pub outer_bottom: Length,
    /// Inside radius at the top; 0 for a full solid.
    pub inner_top: Length,
    /// Outside radius at the top.
    pub outer_top: Length,
}

/// A box outline with sides along the axes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoxEnvelope {
    /// Left side.
    pub left: Length,
    /// Right side.
    pub right: Length,
    /// Front side.
    pub front: Length,
    /// Back side.
    pub back: Length,
    /// Underside above ground.
    pub bottom: Length,
    /// Top above ground.
    pub top: Length,
}

/// The outline of a solid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Envelope {
    /// Round on an upright axis.
    Round(RoundEnvelope),
    /// A box.
    Box(BoxEnvelope),
}

impl Envelope {
    /// A box of the given width, depth and height in m, its underside centred on a place.
    pub(crate) fn of_box(x: f64, y: f64, bottom: f64, size: (f64, f64, f64)) -> Self {
        let (width, depth, height) = size;
        Envelope::Box(BoxEnvelope {
            left: metres(x - 0.5 * width),
            right: metres(x + 0.5 * width),
            front: metres(y - 0.5 * depth),
            back: metres(y + 0.5 * depth),
            bottom: metres(bottom),
            top: metres(bottom + height),
        })
    }

    /// Its underside above ground.
    pub fn bottom(&self) -> Length {
        match self {
            Envelope::Round(round) => round.bottom,
            Envelope::Box(sides) => sides.bottom,
        }
    }

    /// Its top above ground.
    pub fn top(&self) -> Length {
        match self {
            Envelope::Round(round) => round.top,
            Envelope::Box(sides) => sides.top,
        }
    }

    /// Its mean width seen along a horizontal direction, given by a unit vector.
    pub fn width_seen_along(&self, (nx, ny): (f64, f64)) -> Length {
        match self {
            Envelope::Round(round) => round.outer_bottom + round.outer_top,
            Envelope::Box(sides) => {
                (sides.right - sides.left) * ny.abs() + (sides.back - sides.front) * nx.abs()
            }
        }
    }
}
