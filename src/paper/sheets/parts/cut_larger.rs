//! What is larger than what it closes: lids that are bolted on, and that of the hopper.

use crate::design::Design;
use crate::design::phrase::{Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::paper::sheets::cell;
use crate::sizing::lid_joints::{RoundFlange, drum_flange, lid_flange, tight_plate};
use crate::sizing::machine::Piece;
use crate::sizing::parts_list::PartLine;
use crate::sizing::zone::Zone;

/// The size of a line, and by how much it is larger than what it closes.
pub(super) fn cut_larger(design: &Design, line: &PartLine, size: Slot) -> Slot {
    const HOPPER_LID: Piece = Piece::OfSection {
        section: "hopper",
        label: "Hopper lid",
    };
    let flange = match line.piece {
        Some(Piece::Layer { list, index }) if list == Zone::Lid.layer_list() => {
            lid_flange(design).filter(|_| tight_plate(design) == Some(index))
        }
        Some(Piece::Part(place)) => drum_flange(design, place),
        Some(HOPPER_LID) => {
            let words = "{}; it only covers the hopper: cut it larger all round by the width of its gasket and by what its catches take";
            return Phrase::new(words, [size]).into();
        }
        _ => None,
    };
    match flange {
        Some(flange) => bolted(size, &flange),
        None => size,
    }
}

fn bolted(size: Slot, flange: &RoundFlange) -> Slot {
    Phrase::new(
        "{}; that is {} wider across than what it closes, for gasket and bolts, with {} holes of {} on a circle of {}",
        [
            size,
            cell(Q::Length, flange.wider().value),
            cell(Q::Count, f64::from(flange.bolts)),
            cell(Q::Bore, flange.hole.value),
            cell(Q::Length, flange.circle.value),
        ],
    )
    .into()
}
