//! Do pass marks that bound one question contradict each other?

use crate::design::Design;
use crate::design::Kind;
use crate::design::Source::YourOwn;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::exceeds;
use crate::review::finding::{Chapter, Finding, Step, Verdict};

/// Marks of which the first must not lie above the second: a Watch mark and the Stop mark beyond it, or least and most.
const IN_ORDER: [(&str, &str); 13] = [
    ("limits.moisture_watch", "limits.moisture_stop"),
    ("limits.tar_temperature", "limits.hearth_temperature"),
    ("limits.tar_share_watch", "limits.tar_share_stop"),
    ("limits.gas_heat_stop", "limits.gas_heat_watch"),
    ("limits.tip_angle_least", "limits.tip_angle"),
    ("limits.touch_temperature", "limits.guarded_temperature"),
    ("limits.loss_share_watch", "limits.loss_share_stop"),
    ("limits.hearth_load_least", "limits.hearth_load_most"),
    (
        "limits.nozzle_velocity_least",
        "limits.nozzle_velocity_most",
    ),
    ("limits.engine_vacuum_watch", "limits.engine_vacuum_stop"),
    ("limits.engine_dust_watch", "limits.engine_dust_stop"),
    ("limits.engine_gas_watch", "limits.engine_gas_stop"),
    ("limits.oxygen_watch", "limits.oxygen_stop"),
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

fn of(design: &Design, (low, high): (&str, &str)) -> Option<Reversed> {
    let number = |path| design.get(path)?.number();
    if !exceeds(number(low)?, number(high)?) {
        return None;
    }
    let read = |path| {
        let input = design.input(path).filter(|_| design.in_use(path))?;
        match input.kind {
            Kind::Number { quantity, .. } => {
                Some((input.label, Measure::new(quantity, number(path)?)))
            }
            _ => None,
        }
    };
    let (low_is, high_is) = (read(low)?, read(high)?);
    Some(Reversed {
        labels: [low_is.0, high_is.0],
        measures: [low_is.1, high_is.1],
        are_ends: low.ends_with("_least") && high.ends_with("_most"),
    })
}
