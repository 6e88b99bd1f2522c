//! Which engines does a throat feed?

use super::HearthReview;
use crate::design::Design;
use crate::design::Source::CommonPractice;
use crate::design::inputs::{FlowSource, HearthKind};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Step};
use crate::review::heart::Heart;
use crate::sizing::heart::AtLoads;
use uom::si::f64::{Velocity, Volume};

/// Least displacement that works the throat hard enough at the lowest load, and the most that does not overrun it at full
/// load: an engine draws as much more gas as it is larger, within about 15 %, for the gas changes a little with its flow.
pub(super) fn range(
    design: &Design,
    heart: &Heart,
    load: &AtLoads<Velocity>,
) -> Option<[Volume; 2]> {
    let asked = design.hearth.kind == HearthKind::Constricted
        && design.operation.flow_source == FlowSource::Engine
        && heart.at.full.makes_gas()
        && heart.at.idle.makes_gas();
    let limits = &design.limits;
    let marks = [
        limits.hearth_load_least / load.idle.value,
        limits.hearth_load_most / load.full.value,
    ];
    (asked && marks.iter().all(|mark| mark.is_finite()))
        .then(|| marks.map(|mark| design.engine.displacement * mark))
}

/// What a finding of a hearth that is built says besides: the engines that it feeds.
pub(super) fn with_engines(design: &Design, review: &HearthReview, finding: Finding) -> Finding {
    let Some([least, most]) = review.engines.filter(|_| design.hearth.built) else {
        return finding;
    };
    let volume = |volume: Volume| Measure::new(Q::Displacement, volume.value).into();
    let words = if least <= most {
        "{}. At this speed and lowest load the hearth that is built feeds engines of about {} to {}"
    } else {
        "{}. The hearth that is built feeds no engine over so wide a range of loads: at this speed the lowest load takes one of about {} or more, full load one of about {} at the most"
    };
    Finding {
        compared: Phrase::new(
            words,
            [finding.compared.into(), volume(least), volume(most)],
        ),
        ..finding
    }
}

/// How the least engine is worked out.
pub(super) fn least(design: &Design, review: &HearthReview) -> Option<Step> {
    let [least, _] = review.engines?;
    let load = |si: f64| Measure::new(Q::HearthLoad, si);
    let swept = |si: f64| Measure::new(Q::Displacement, si);
    Some(Step {
        words: "Least displacement that draws enough for this throat at the lowest load",
        formula: "V' = V B_least / B",
        values: vec![
            ("V", "displacement", swept(design.engine.displacement.value)),
            (
                "B_least",
                "least hearth load",
                load(design.limits.hearth_load_least),
            ),
            (
                "B",
                "hearth load at the lowest load",
                load(review.load.idle.value),
            ),
        ],
        result: swept(least.value),
        source: CommonPractice,
        sure: "±15 %; with more gas the fire gets hotter, and the gas a little better",
    })
}
