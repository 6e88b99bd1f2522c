//! Which line pays for a part that is bought?
//!
//! A person writes a line such as "Bolts and gaskets" for what the parts list has as many lines. A line pays for a part
//! where one name holds all the words of the other. What a part is counts beside what it is called: a stage of the gas
//! train by its kind, what a joint is closed with as bolts or as gasket. A line of the very name goes before one that
//! only tells of it, and that before one for things of its kind.

use crate::design::inputs::StageKind;
use crate::design::{Choice, Design};
use crate::sizing::machine::Piece;
use crate::sizing::names::{Shared, Words};
use crate::sizing::parts_list::PartLine;
use std::cell::LazyCell;

/// A line that may pay for parts: its name, and the words of it.
pub(super) struct Payer<'a> {
    pub(super) name: &'a str,
    pub(super) words: Words,
}

impl<'a> Payer<'a> {
    pub(super) fn of(name: &'a str) -> Self {
        Self {
            name,
            words: Words::of(name),
        }
    }
}

/// The name of the line that pays for a part too, of several the first of those that tell most closely of it; none where
/// none of them does.
pub(super) fn paid_by<'a>(
    design: &Design,
    part: &PartLine,
    payers: impl Iterator<Item = &'a Payer<'a>>,
) -> Option<String> {
    let of_stage = || stage_kind(design, part).filter(|kind| *kind != StageKind::Measured);
    let [one, other] = match part.piece {
        Some(Piece::Bolts(_)) => ["bolt", "fastener"],
        Some(Piece::Gasket(_)) => ["gasket", "seal"],
        _ => [
            part.name.as_str(),
            of_stage().map_or("", |kind| kind.name()),
        ],
    };
    paid_for([one, other], payers)
}

/// The name of the line that tells most closely of a thing by what it is called, or else by the word for its kind.
pub(super) fn paid_for<'a>(
    [name, kind]: [&str; 2],
    payers: impl Iterator<Item = &'a Payer<'a>>,
) -> Option<String> {
    let name = Words::of(name);
    // Its kind is only asked for while no line is found by its name.
    let kind = LazyCell::new(|| Words::of(kind));
    let mut closest: Option<(u8, &Payer)> = None;
    for payer in payers {
        let close = match payer.words.shared_with(&name) {
            Shared::All => 3,
            Shared::OfOne => 2,
            Shared::NotAll if closest.is_some() => continue,
            Shared::NotAll if payer.words.tell_of(&kind) => 1,
            Shared::NotAll => continue,
        };
        if closest.is_none_or(|(closer, _)| close > closer) {
            closest = Some((close, payer));
        }
    }
    closest.map(|(_, payer)| payer.name.to_string())
}

/// The kind of a stage of the gas train; none for another part.
fn stage_kind(design: &Design, part: &PartLine) -> Option<StageKind> {
    part.stage(design).map(|stage| stage.kind)
}
