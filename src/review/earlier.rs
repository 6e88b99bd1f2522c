//! A packed bed that is changed earlier or later: the loss at which it is due and the dust that is in it by then go together.

use super::offered::without_dust;
use crate::design::inputs::{FilterMedium, StageKind};
use crate::design::{Design, Kind, Value};

/// Input that tells at how many times its clean loss a packed bed is due.
const DUE_BY_LOSS: &str = "dirty_factor";

/// What belongs to another loss at which a packed bed is due: the dust that is in it then, with its path. What the dust adds
/// to the loss of the clean bed grows as the dust (our own assumption). None for any other input.
pub(super) fn dust_along(design: &Design, path: &str, value: &Value) -> Option<(String, Value)> {
    let (list, place, name) = Design::split(path)?;
    let (place, &Value::Number(due)) = (place?, value) else {
        return None;
    };
    let bed = design.train.get(place)?;
    let packed = bed.kind == StageKind::Filter && bed.medium == FilterMedium::Packed;
    let added = bed.dirty_factor - 1.0;
    if list != "train" || name != DUE_BY_LOSS || !packed || added <= 0.0 {
        return None;
    }
    let held = Design::item_input(list, place, "dust_capacity");
    let Kind::Number { allowed, .. } = design.input(&held)?.kind else {
        return None;
    };
    let dust = bed.dust_capacity.value * (due - 1.0) / added;
    let whole_grams = without_dust((dust * 1000.0).floor() / 1000.0);
    let dust = Value::Number(whole_grams.clamp(allowed.0, allowed.1));
    Some((held, dust))
}
