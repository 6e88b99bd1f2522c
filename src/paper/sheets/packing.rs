//! What is poured into a packed filter, and what holds it.

use super::cell;
use crate::design::Design;
use crate::design::inputs::{FilterMedium, StageKind, TrainStage};
use crate::design::phrase::{Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::sizing::parts_list::stage_name;
use std::f64::consts::PI;

/// Charcoal and wood chips weigh less than this as poured, kg/m³. Common practice, no source.
const LIGHT: f64 = 350.0;
/// An opening of a grid over the size of a piece, so that none falls through. Common practice, no source.
const OPENING: f64 = 0.5;

/// The packing of each packed filter of the gas train, in the order of that.
pub(super) fn packings(design: &Design) -> Vec<Slot> {
    (design.train.iter())
        .filter(|stage| stage.kind == StageKind::Filter && stage.medium == FilterMedium::Packed)
        .map(packing)
        .collect()
}

fn packing(stage: &TrainStage) -> Slot {
    let area = 0.25 * PI * stage.filter_diameter * stage.filter_diameter;
    let bed = area * stage.filter_depth;
    let medium = match stage.bed_density.value < LIGHT {
        true => "charcoal or wood chips",
        false => "rings or broken stone that the gas does not eat",
    };
    Phrase::new(
        "Packing of the {}: {} of {}, sieved to pieces of about {}, {} deep and as wide as the drum, {} in all. It is reckoned with {} of gaps and a stuff that stands {}: sieve the dust out, and weigh a bucket of yours. It lies between two grids across the drum, {} wide, of steel with openings of at most {}: the lower one, on a ring of brackets, carries it with the dust and water it takes up; the upper one is clamped down, so that no gas gets past a bed that has settled. Top it up when it sinks. Used packing holds tar, and may glow: let it cool shut off from air, and keep it out of doors in a steel bucket with a lid (common practice, no source)",
        [
            stage_name(stage).into(),
            cell(Q::Volume, bed.value),
            medium.into(),
            cell(Q::Thickness, stage.filter_piece.value),
            cell(Q::Length, stage.filter_depth.value),
            cell(Q::Mass, (stage.bed_density * bed).value),
            cell(Q::Share, stage.filter_voids.value),
            cell(Q::Temperature, stage.medium_limit.value),
            cell(Q::Length, stage.filter_diameter.value),
            cell(Q::Thickness, OPENING * stage.filter_piece.value),
        ],
    )
    .into()
}
