//! Does a bed take the water that a trap before it could?

use super::water::caught;
use super::{Answer, At, Solved, is};
use crate::design::inputs::StageKind;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::Verdict;
use crate::review::train::{levers, new_stage};

/// Drops that come in over the water that a bed drains, below which a trap would take next to nothing. Our own choice.
const FEW_DROPS: f64 = 0.1;

/// A bed that takes all the water of a cooler, tar with it, since no trap stands between them; none where one does or
/// hardly any drops come in.
pub(super) fn without_trap(solved: &Solved, bed: &At) -> Option<Answer> {
    let drops = bed.gas.liquid;
    let before = solved.design.train.get(..bed.place)?;
    let cooler = before
        .iter()
        .rposition(|stage| stage.kind == StageKind::Cooler)?;
    let has_trap = before.iter().skip(cooler).any(is(StageKind::Trap));
    if has_trap || drops.value <= FEW_DROPS * bed.outcome.water_removed.value {
        return None;
    }
    let design = solved.design;
    let named = |place| -> Slot { solved.name(place).into() };
    let mut levers = vec![new_stage::trap(design, bed.place, Some(bed.gas))];
    levers.extend(levers::moved(
        design,
        &[StageKind::Trap],
        bed.place + 1..=usize::MAX,
    ));
    Some(Answer {
        verdict: Verdict::Watch,
        margin: -1.0,
        compared: Phrase::new(
            "{}: {} of drops come in with the gas, tar in them, and no trap stands between it and {}",
            [
                named(bed.place),
                Measure::new(Q::MassFlow, drops.value).into(),
                named(cooler),
            ],
        ),
        working: vec![caught(bed, bed.entry.catches)],
        levers,
    })
}
