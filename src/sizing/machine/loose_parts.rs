//! The other parts on the base, as entered.

use super::closures::drill;
use super::{Envelope, Piece, Placing, Solid, Substance, density, shapes};
use crate::design::Design;
use crate::design::inputs::{self, Part, Presence};
use crate::sizing::lid_joints::{RoundFlange, is_lid_of, placed_drum};
use uom::si::f64::Mass;

/// Adds the other parts; what comes with the hopper only when there is one.
pub(super) fn place(design: &Design, solids: &mut Vec<Solid>) {
    let flange = placed_drum(design).map(|(_, flange)| flange);
    for (index, part) in design.parts.iter().enumerate() {
        if design.hopper.fitted || part.presence != Presence::WithHopper {
            let wider = flange.filter(|flange| is_bolted_lid(part, flange));
            solids.push(solid(design, Piece::Part(index), part, wider));
        }
    }
}

/// Whether a part is a flat lid with room for gasket and bolts of this flange.
fn is_bolted_lid(part: &Part, flange: &RoundFlange) -> bool {
    part.shape == inputs::Shape::Ring && is_lid_of(part, flange)
}

fn solid(design: &Design, piece: Piece, part: &Part, bolted_to: Option<RoundFlange>) -> Solid {
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
            outer: bolted_to.map_or(radius, |flange| 0.5 * flange.outside.value),
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
    if let (Some(flange), Substance::Material(material)) = (bolted_to, substance) {
        let density = density(design, material);
        drill(
            &mut solid,
            flange.bolts,
            flange.hole,
            part.thickness,
            density,
        );
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
