//! Is the pump of a water jacket among the loads?

use super::fan::new_load;
use crate::design::Design;
use crate::design::Source::CommonPractice;
use crate::design::inputs::{ElectricLoad, LoadKind, LoadTime};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Step, Verdict};
use crate::review::remark::PUMP_WITHOUT_LOAD;
use crate::sizing::also_needed::{has_jacket, pump_loads, pump_power};
use uom::si::f64::MassRate;

/// The pump of all jackets, until its own plate is at hand.
fn pump(design: &Design) -> ElectricLoad {
    let jackets = design.train.iter().filter(|stage| has_jacket(stage));
    let flow: MassRate = jackets.map(|stage| stage.water_flow).sum();
    ElectricLoad {
        name: "Cooling water pump".to_string(),
        kind: LoadKind::Motor,
        when: LoadTime::Running,
        power: pump_power(flow),
        ..ElectricLoad::default()
    }
}

/// Whether what cools by water has a pump that draws current; not asked where nothing does.
pub(super) fn finding(design: &Design) -> Option<Finding> {
    if !design.train.iter().any(has_jacket) {
        return None;
    }
    let pumps = pump_loads(design);
    let (verdict, compared) = match pumps {
        0 => (Verdict::Watch, Phrase::plain(PUMP_WITHOUT_LOAD)),
        _ => (
            Verdict::Good,
            Phrase::plain("a pump is among the electric loads"),
        ),
    };
    let count = Measure::new(Q::Count, pumps as f64);
    Some(Finding {
        id: "electrics.pump",
        chapter: Chapter::Electrics,
        title: "Pump of the water jacket",
        meaning: "Water must flow through the jacket of a cooler, and the pump that moves it draws on the battery.",
        verdict,
        compared,
        why: "Without the pump among the loads battery time, cables and fuses look better than they are; without its water the jacket boils.",
        margin: None,
        working: vec![Step {
            words: "Electric loads with “pump” in their name",
            formula: "n ≥ 1",
            values: vec![("n", "such loads", count)],
            result: count,
            source: CommonPractice,
            sure: "Only names are looked at: the power is as it was entered. One that is added here is reckoned for a lift of 3 m (10 ft) at 15 %: put in what the plate of yours tells.",
        }],
        caution: None,
        levers: vec![new_load(design, &pump(design))],
        about: "loads",
    })
}
