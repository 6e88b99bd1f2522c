//! Do pass marks that bound one question contradict each other?

use crate::design::Design;
use crate::design::Kind;
use crate::design::Source::YourOwn;
use crate::design::inputs::Limits;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::exceeds;
use crate::review::finding::{Chapter, Finding, Step, Verdict};

/// Two marks of which the first must not lie above the second, by their paths, and both in SI.
type InOrder = (&'static str, &'static str, fn(&Limits) -> [f64; 2]);

/// A Watch mark and the Stop mark beyond it, or least and most.
const IN_ORDER: [InOrder; 13] = [
    ("limits.moisture_watch", "limits.moisture_stop", |marks| {
        [marks.moisture_watch.value, marks.moisture_stop.value]
    }),
    (
        "limits.tar_temperature",
        "limits.hearth_temperature",
        |marks| [marks.tar_temperature.value, marks.hearth_temperature.value],
    ),
    ("limits.tar_share_watch", "limits.tar_share_stop", |marks| {
        [marks.tar_share_watch.value, marks.tar_share_stop.value]
    }),
    ("limits.gas_heat_stop", "limits.gas_heat_watch", |marks| {
        [marks.gas_heat_stop, marks.gas_heat_watch]
    }),
    ("limits.tip_angle_least", "limits.tip_angle", |marks| {
        [marks.tip_angle_least.value, marks.tip_angle.value]
    }),
    (
        "limits.touch_temperature",
        "limits.guarded_temperature",
        |marks| {
            [
                marks.touch_temperature.value,
                marks.guarded_temperature.value,
            ]
        },
    ),
    (
        "limits.loss_share_watch",
        "limits.loss_share_stop",
        |marks| [marks.loss_share_watch.value, marks.loss_share_stop.value],
    ),
    (
        "limits.hearth_load_least",
        "limits.hearth_load_most",
        |marks| [marks.hearth_load_least, marks.hearth_load_most],
    ),
    (
        "limits.nozzle_velocity_least",
        "limits.nozzle_velocity_most",
        |marks| {
            [
                marks.nozzle_velocity_least.value,
                marks.nozzle_velocity_most.value,
            ]
        },
    ),
    (
        "limits.engine_vacuum_watch",
        "limits.engine_vacuum_stop",
        |marks| {
            [
                marks.engine_vacuum_watch.value,
                marks.engine_vacuum_stop.value,
            ]
        },
    ),
    (
        "limits.engine_dust_watch",
        "limits.engine_dust_stop",
        |marks| [marks.engine_dust_watch.value, marks.engine_dust_stop.value],
    ),
    (
        "limits.engine_gas_watch",
        "limits.engine_gas_stop",
        |marks| [marks.engine_gas_watch.value, marks.engine_gas_stop.value],
    ),
    ("limits.oxygen_watch", "limits.oxygen_stop", |marks| {
        [marks.oxygen_watch.value, marks.oxygen_stop.value]
    }),
];

/// Two marks the wrong way round.
struct Reversed {
    labels: [&'static str; 2],
    measures: [Measure; 2],
    are_ends: bool,
}

/// The first two marks that contradict each other; asked only where there are such.
pub(super) fn reversed(design: &Design) -> Option<Finding> {
    let found = IN_ORDER.iter().find_map(|pair| of(design, *pair))?;
    let [low, high] = found.labels;
    let [its, other] = found.measures;
    let words = if found.are_ends {
        "“{}” is {}, but “{}” is {}: nothing lies between them, so that no design passes. Look at both"
    } else {
        "“{}” is {}, but “{}” is {}: the wrong way round, so that one of them says nothing. Look at both"
    };
    Some(Finding {
        id: "heart.marks",
        chapter: Chapter::Heart,
        title: "Pass marks as entered",
        meaning: "Where a question has two marks, one begins where the other ends: least and most, or Watch and Stop.",
        verdict: Verdict::Watch,
        compared: Phrase::new(
            words,
            [Slot::from(low), its.into(), Slot::from(high), other.into()],
        ),
        why: "Verdicts are only as good as the marks that they are measured by.",
        margin: None,
        working: vec![Step {
            words: "The second mark over the first, which must not be above it",
            formula: "b ≥ a",
            values: vec![("a", "first mark", its)],
            result: other,
            source: YourOwn,
            sure: "as entered",
        }],
        caution: None,
        levers: Vec::new(),
        about: "limits",
    })
}

fn of(design: &Design, (low, high, numbers): InOrder) -> Option<Reversed> {
    let [its, other] = numbers(&design.limits);
    if !exceeds(its, other) {
        return None;
    }
    let read = |path, si| {
        let input = design.input(path).filter(|_| design.in_use(path))?;
        match input.kind {
            Kind::Number { quantity, .. } => Some((input.label, Measure::new(quantity, si))),
            _ => None,
        }
    };
    let (low_is, high_is) = (read(low, its)?, read(high, other)?);
    Some(Reversed {
        labels: [low_is.0, high_is.0],
        measures: [low_is.1, high_is.1],
        are_ends: low.ends_with("_least") && high.ends_with("_most"),
    })
}
