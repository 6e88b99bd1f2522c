//! The base frame, in a closed form that any welded base comes near to: a rectangle of square tube
//! through the outermost contact points, its top level with the vessel's underside, two cross-bars
//! under the vessel, and a leg from each contact point up to the rectangle. Legs over wheels are
//! shorter by the wheel. Wheels weigh what a steel disc with its tyre does; feet are the ends of the legs.

use super::{Piece, Placing, Solid, Substance, density};
use crate::design::Design;
use crate::design::inputs::{ContactKind, Group, Material, Presence};
use crate::sizing::footprint::{ContactPoint, Extent};
use crate::sizing::machine::shapes::Shape;
use crate::sizing::overall::WHEEL_BREADTH;
use std::f64::consts::PI;

/// Cross-bars lie this far before and behind the middle, as a share of the depth. Our own assumption, no input tells it.
pub(in crate::sizing) const CROSS_BAR_PLACE: f64 = 1.0 / 6.0;

/// All bars of the base frame.
pub(in crate::sizing) const FRAME: Piece = Piece::OfSection {
    section: "base",
    label: "Base frame",
};

/// Wheels and the forks of castors, at the height of the axles.
pub(in crate::sizing) const WHEELS: Piece = Piece::OfSection {
    section: "base",
    label: "Wheels",
};

/// A wheel weighs as much as a steel disc of its diameter this thick, hub and tyre in it, m. Our own estimate.
pub const WHEEL_DISC: f64 = 0.008;
/// A castor over its wheel: fork, swivel and plate come on top. Our own estimate.
pub const CASTOR: f64 = 1.5;

/// The way a length of tube runs.
#[derive(Clone, Copy)]
enum Run {
    Across,
    Along,
    Up,
}

/// Adds the members of the frame that stands on these points.
pub(in crate::sizing) fn members(
    design: &Design,
    points: &[ContactPoint],
    solids: &mut Vec<Solid>,
) {
    let side = design.base.frame_side.value;
    let Some(extent) = Extent::of(points) else {
        return;
    };
    let [left, right, front, back] =
        [extent.left, extent.right, extent.front, extent.back].map(|edge| edge.value);
    let (width, depth) = (right - left, back - front);
    let (x, y) = (0.5 * (left + right), 0.5 * (front + back));
    let underside = (design.base.clearance.value - side).max(0.0);
    let tube = Tube::of(design);
    solids.extend([
        tube.member(Run::Across, width, (x, front, underside)),
        tube.member(Run::Across, width, (x, back, underside)),
        tube.member(Run::Along, depth, (left, y, underside)),
        tube.member(Run::Along, depth, (right, y, underside)),
        tube.member(
            Run::Across,
            width,
            (x, y - CROSS_BAR_PLACE * depth, underside),
        ),
        tube.member(
            Run::Across,
            width,
            (x, y + CROSS_BAR_PLACE * depth, underside),
        ),
    ]);
    for point in points {
        let foot = match point.kind {
            ContactKind::Foot => 0.0,
            ContactKind::Wheel => design.base.wheel_diameter.value.min(underside),
        };
        let place = (point.x.value, point.y.value, foot);
        solids.push(tube.member(Run::Up, underside - foot, place));
    }
    solids.extend(
        points
            .iter()
            .filter(|point| point.kind == ContactKind::Wheel)
            .map(|point| wheel(design, point)),
    );
}

/// A wheel, with the outline of its hub: its mass is as good as all at the axle.
fn wheel(design: &Design, point: &ContactPoint) -> Solid {
    let base = &design.base;
    let diameter = base.wheel_diameter.value;
    let disc = PI / 4.0 * diameter * diameter * WHEEL_DISC;
    let castor = base.on_castors();
    let (width, depth, height) = (WHEEL_BREADTH * diameter, 0.1 * diameter, 0.1 * diameter);
    let hub = width * depth * height;
    let steel = density(design, Material::MildSteel) * disc * if castor { CASTOR } else { 1.0 };
    Placing {
        piece: WHEELS,
        group: Group::Base,
        substance: Substance::Unknown,
        presence: Presence::Always,
        density: if hub > 0.0 { steel / hub } else { 0.0 },
        x: point.x.value,
        y: point.y.value,
        bottom: 0.5 * (diameter - height),
    }
    .solid(&Shape::Block {
        width,
        depth,
        height,
    })
}

struct Tube {
    side: f64,
    /// Share of the square that is steel.
    steel: f64,
    density: f64,
}

impl Tube {
    fn of(design: &Design) -> Self {
        let side = design.base.frame_side.value;
        let hole = (side - 2.0 * design.base.frame_wall.value).max(0.0);
        Self {
            side,
            steel: if side > 0.0 {
                1.0 - (hole / side).powi(2)
            } else {
                0.0
            },
            density: density(design, Material::MildSteel),
        }
    }

    /// A length of tube whose underside is centred on a place. Its own spread across the tube is
    /// taken as that of a full bar: millimetres, against a base of decimetres.
    fn member(&self, run: Run, length: f64, (x, y, bottom): (f64, f64, f64)) -> Solid {
        let (width, depth, height) = match run {
            Run::Across => (length, self.side, self.side),
            Run::Along => (self.side, length, self.side),
            Run::Up => (self.side, self.side, length),
        };
        Placing {
            piece: FRAME,
            group: Group::Base,
            substance: Substance::Material(Material::MildSteel),
            presence: Presence::Always,
            density: self.density * self.steel,
            x,
            y,
            bottom,
        }
        .solid(&Shape::Block {
            width,
            depth,
            height,
        })
    }
}
