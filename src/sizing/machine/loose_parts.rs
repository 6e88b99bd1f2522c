//! The other parts on the base, as entered.

use super::{Envelope, Piece, Placing, Solid, Substance, density, shapes};
use crate::design::Design;
use crate::design::inputs::{self, Part, Presence};
use uom::si::f64::Mass;

/// Adds the other parts; what comes with the hopper only when there is one.
pub(super) fn place(design: &Design, solids: &mut Vec<Solid>) {
    for (index, part) in design.parts.iter().enumerate() {
        if design.hopper.fitted || part.presence != Presence::WithHopper {
            solids.push(solid(design, Piece::Part(index), part));
        }
    }
}

fn solid(design: &Design, piece: Piece, part: &Part) -> Solid {
    let (width, depth, height) = (part.width.value, part.depth.value, part.height.value);
    let (radius, second) = (0.5 * part.diameter.value, 0.5 * part.second_diameter.value);
    let sheet = part.thickness.value;
    let shape = match part.shape {
        inputs::Shape::Tube => shapes::Shape::Cylinder {
            inner: (radius - sheet).max(0.0),
            outer: radius,
            height,
        },
        inputs::Shape::Plate => shapes::Shape::Block {
            width,
            depth,
            height: sheet,
        },
        inputs::Shape::Ring => shapes::Shape::Cylinder {
            inner: second.min(radius),
            outer: radius,
            height: sheet,
        },
        inputs::Shape::DishedEnd => shapes::Shape::Dish {
            rim: radius,
            height,
            sheet,
        },
        inputs::Shape::Box => shapes::Shape::BoxSheet {
            width,
            depth,
            height,
            sheet,
        },
        inputs::Shape::Block | inputs::Shape::Weighed => shapes::Shape::Block {
            width,
            depth,
            height,
        },
        inputs::Shape::Cone => shapes::Shape::ConeSheet {
            foot: (radius - sheet).max(0.0),
            top: (second - sheet).max(0.0),
            height,
            sheet,
        },
        inputs::Shape::BulkFill => shapes::Shape::Cylinder {
            inner: 0.0,
            outer: radius,
            height: height * part.fill_share.value,
        },
    };
    let substance = match part.shape {
        inputs::Shape::BulkFill => Substance::Fill,
        inputs::Shape::Weighed => Substance::Unknown,
        _ => Substance::Material(part.material),
    };
    let mut solid = Placing {
        piece,
        group: part.group,
        substance,
        presence: part.presence,
        density: match substance {
            Substance::Material(material) => density(design, material),
            _ => part.density.value,
        },
        x: part.x.value,
        y: part.y.value,
        bottom: part.z.value,
    }
    .solid(&shape);
    if part.shape == inputs::Shape::Weighed {
        solid.mass = part.mass;
    }
    if part.shape == inputs::Shape::BulkFill {
        // The drawing shows the store, the mass is what lies in it.
        if let Envelope::Round(round) = &mut solid.envelope {
            round.top = round.bottom + part.height;
        }
    }
    let count: Mass = solid.mass * f64::from(part.count);
    solid.mass = count;
    solid
}
