//! What is known about a piece of the machine.

use super::ink::PieceName;
use crate::design::phrase::lower_first;
use crate::design::quantity::{Quantity, System};
use crate::design::{Choice as _, Design};
use crate::review::Assessment;
use crate::sizing::machine::Piece;

/// What is known about the piece at this path, in one line.
pub fn about(
    design: &Design,
    assessment: &Assessment,
    name: &PieceName,
    system: System,
) -> Option<String> {
    let show = |quantity: Quantity, si: f64| quantity.show(si, system);
    let solids = || {
        assessment.standing.machine.solids.iter().filter(|solid| {
            solid.piece.path() == name.path && solid.piece.label(design) == name.label
        })
    };
    let first = solids().next()?;
    let mass: f64 = solids().map(|solid| solid.mass.value).sum();
    let mut words = format!("{}: {}", name.label, show(Quantity::Mass, mass));
    if let Piece::Layer { list, index } = first.piece {
        let layer = assessment
            .warmth
            .hottest
            .iter()
            .filter_map(|hottest| hottest.heat.as_ref().ok())
            .find(|heat| heat.zone.layer_list() == list)
            .and_then(|heat| heat.layers.get(index));
        if let Some(layer) = layer {
            words.push_str(&format!(
                ", {} of {}, {} inside, {} outside",
                show(Quantity::Thickness, layer.thickness.value),
                lower_first(layer.material.label()),
                show(Quantity::Temperature, layer.hot.value),
                show(Quantity::Temperature, layer.cold.value),
            ));
            if let Some(limit) = layer.limit {
                words.push_str(&format!(
                    " (limit {})",
                    show(Quantity::Temperature, limit.value)
                ));
            }
        }
    }
    Some(words)
}
