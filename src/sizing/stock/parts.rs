//! The sizes of the other parts.

use super::Stock;
use crate::design::inputs::{Part, Shape};
use crate::sizing::machine::{Envelope, Solid};
use uom::si::f64::Length;

/// Another part, as it was entered; a round plate as wide as it stands in the machine, where that is wider.
pub(super) fn part(part: &Part, placed: Option<&Solid>) -> Option<Stock> {
    let across = match placed.map(|solid| &solid.envelope) {
        Some(Envelope::Round(outline)) => part.diameter.max(2.0 * outline.outer_bottom),
        _ => part.diameter,
    };
    let (width, depth, height) = (part.width, part.depth, part.height);
    Some(match part.shape {
        Shape::Tube => Stock::Tube {
            outside: part.diameter,
            wall: part.thickness,
            length: height,
        },
        Shape::Plate => Stock::Plate {
            width,
            depth,
            thickness: part.thickness,
        },
        Shape::Ring if part.second_diameter == Length::default() => Stock::Disc {
            diameter: across,
            thickness: part.thickness,
        },
        Shape::Ring => Stock::Ring {
            outside: across,
            bore: part.second_diameter,
            thickness: part.thickness,
        },
        Shape::DishedEnd => Stock::Dish {
            diameter: part.diameter,
            height,
            sheet: part.thickness,
        },
        Shape::Box => Stock::Case {
            width,
            depth,
            height,
            sheet: part.thickness,
        },
        Shape::Block | Shape::Weighed => Stock::Block {
            width,
            depth,
            height,
        },
        Shape::Cone => Stock::Cone {
            foot: part.diameter,
            top: part.second_diameter,
            height,
            sheet: part.thickness,
        },
        Shape::BulkFill => return None,
    })
}
