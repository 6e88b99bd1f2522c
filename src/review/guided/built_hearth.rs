//! A hearth that is there already, and an engine that is yet to be found for it.

use super::in_both;
use crate::design::Design;
use crate::design::quantity::Quantity as Q;
use crate::review::{Assessment, OtherSize, assess};
use uom::si::f64::Volume;

/// The least engine that draws enough through a throat that is built; none for a throat that is yet to be sized.
pub(super) fn least_engine(design: &Design, assessment: &Assessment) -> Volume {
    let engines = assessment.hearth.engines.filter(|_| design.hearth.built);
    engines.map_or(Volume::default(), |[least, _]| least)
}

/// That an engine is as large as the hearth that is built makes it, in words for the note; nothing where the power does.
pub(super) fn told(design: &Design) -> String {
    let assessment = assess(design);
    let (Some(Ok(on_gas)), Some([least, _])) =
        (&assessment.engine.on_gas, assessment.hearth.engines)
    else {
        return String::new();
    };
    let is_open = design.hearth.built && !design.engine.at_hand;
    let by_power = |power: OtherSize| least <= power.displacement;
    if !is_open || on_gas.for_power().is_some_and(by_power) {
        return String::new();
    }
    let show = |volume: Volume| in_both(Q::Displacement, volume.value);
    format!(
        " Engine: {}, more than the power alone takes. Through the throat that is built one of less than {} draws too little gas at the lowest load.",
        show(design.engine.displacement),
        show(least)
    )
}
