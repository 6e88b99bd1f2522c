//! Is the fan of the cooler among the loads?

use crate::design::Source::CommonPractice;
use crate::design::inputs::ElectricLoad;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice as _, Design, Value, example};
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::review::remark::FAN_WITHOUT_LOAD;
use crate::sizing::also_needed::{fan_loads, has_fan};

/// A load that could be entered behind the others, with the power that it is taken to have.
pub(super) fn new_load(design: &Design, load: &ElectricLoad) -> Lever {
    Lever::NewItem {
        list: "loads",
        index: design.loads.len(),
        fields: vec![
            ("name", Value::Text(load.name.clone())),
            ("kind", Value::Choice(load.kind.name().to_string())),
            ("when", Value::Choice(load.when.name().to_string())),
            ("power", Value::Number(load.power.value)),
        ],
        solve_for: "power",
    }
}

/// Whether what cools by a fan has one that draws current; not asked where nothing has.
pub(super) fn finding(design: &Design) -> Option<Finding> {
    if !design.train.iter().any(has_fan) {
        return None;
    }
    let fans = fan_loads(design);
    let (verdict, compared) = match fans {
        0 => (Verdict::Watch, Phrase::plain(FAN_WITHOUT_LOAD)),
        _ => (
            Verdict::Good,
            Phrase::plain("a fan is among the electric loads"),
        ),
    };
    let count = Measure::new(Q::Count, fans as f64);
    Some(Finding {
        id: "electrics.fan",
        chapter: Chapter::Electrics,
        title: "Fan of the cooler",
        meaning: "A cooler that is blown at has a fan, and the fan draws on the battery.",
        verdict,
        compared,
        why: "A radiator fan draws as much as the blower does: without it battery time, cables and fuses look better than they are.",
        margin: None,
        working: vec![Step {
            words: "Electric loads with “fan” in their name",
            formula: "n ≥ 1",
            values: vec![("n", "such loads", count)],
            result: count,
            source: CommonPractice,
            sure: "Only names are looked at: the power is as it was entered.",
        }],
        caution: None,
        levers: vec![new_load(design, &example::cooler_fan())],
        about: "battery",
    })
}
