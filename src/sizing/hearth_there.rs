//! Does a change of the design leave the hearth that is built as it is?

use crate::design::Design;
use crate::design::inputs::Hearth;

/// Whether throat, fire tube and nozzles stay as they are, where they are built. The grate hangs free under them, and how the
/// char lies is no part of it. True as well where nothing is built, or no longer.
///
/// ```
/// use hearthplan::design::{Value, example};
/// use hearthplan::sizing::hearth_there::keeps_hearth;
/// let mut design = example::as_improved();
/// let mut wider = design.clone();
/// wider.set("hearth.throat_diameter", Value::Number(0.09)).unwrap();
/// assert!(keeps_hearth(&design, &wider));
/// (design.hearth.built, wider.hearth.built) = (true, true);
/// assert!(!keeps_hearth(&design, &wider));
/// ```
pub fn keeps_hearth(before: &Design, after: &Design) -> bool {
    let [then, now] = [before, after].map(|design| &design.hearth);
    !then.built || !now.built || *then == as_built(then, now)
}

/// What is to be, where all of it that is no steel stays as it was.
fn as_built(then: &Hearth, now: &Hearth) -> Hearth {
    Hearth {
        reduction_height: then.reduction_height,
        nozzle_discharge: then.nozzle_discharge,
        char_size: then.char_size,
        char_void_share: then.char_void_share,
        bed_fouling: then.bed_fouling,
        bed_temperature: then.bed_temperature,
        engine_power: then.engine_power,
        top_open: then.top_open,
        ..now.clone()
    }
}
