//! Are the fan and the pump of a cooler among the electric loads?

use crate::design::Source::CommonPractice;
use crate::design::inputs::{ElectricLoad, LoadKind, LoadTime};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice as _, Design, Value, example};
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::review::remark::of_drive;
use crate::review::train::{SCALDS, levers};
use crate::sizing::also_needed::has_jacket;
use crate::sizing::cooler_drive::{CoolerDrive, pump_power};
use uom::si::f64::MassRate;

/// Whether what cools by a fan has one that draws current and is on at work; not asked where nothing has.
pub(super) fn fan(design: &Design) -> Option<Finding> {
    CoolerDrive::Fan.is_needed(design).then(|| {
        Drawn {
            id: "electrics.fan",
            title: "Fan of the cooler",
            meaning: "A cooler that is blown at has a fan, and the fan draws on the battery.",
            why: "A radiator fan draws as much as the blower does: without it battery time, cables and fuses look better than they are.",
            drive: CoolerDrive::Fan,
            there: if CoolerDrive::Fan.runs(design, LoadTime::Lighting) {
                "a fan is among the electric loads, also while lighting"
            } else {
                "a fan is among the electric loads; while lighting it rests, and still air cools the tubes"
            },
            counted: "Electric loads with “fan” in their name that are on while the engine runs",
            sure: "Only names are looked at: the power is as it was entered.",
            caution: None,
            new: |_| example::cooler_fan(),
        }
        .finding(design)
    })
}

/// Whether what cools by water has a pump that draws current and is on at work; not asked where nothing does.
pub(super) fn pump(design: &Design) -> Option<Finding> {
    CoolerDrive::Pump.is_needed(design).then(|| {
        Drawn {
            id: "electrics.pump",
            title: "Pump of the water jacket",
            meaning: "Water must flow through the jacket of a cooler, and the pump that moves it draws on the battery.",
            why: "Without the pump among the loads battery time, cables and fuses look better than they are; without its water the jacket boils.",
            drive: CoolerDrive::Pump,
            there: if CoolerDrive::Pump.runs(design, LoadTime::Lighting) {
                "a pump is among the electric loads, also while lighting"
            } else {
                "a pump is among the electric loads; while lighting it rests, and the water stands in the jacket"
            },
            counted: "Electric loads with “pump” in their name that are on while the engine runs",
            sure: "Only names are looked at: the power is as it was entered. One that is added here is reckoned for a lift of 3 m (10 ft) at 15 %: put in what the plate of yours tells.",
            caution: Some(SCALDS),
            new: new_pump,
        }
        .finding(design)
    })
}

/// The pump of all jackets, until its own plate is at hand. It runs from lighting on: the jacket gets hot as soon as there
/// is gas.
fn new_pump(design: &Design) -> ElectricLoad {
    let jackets = design.train.iter().filter(|stage| has_jacket(stage));
    let flow: MassRate = jackets.map(|stage| stage.water_flow).sum();
    ElectricLoad {
        name: "Cooling water pump".to_string(),
        kind: LoadKind::Motor,
        when: LoadTime::Always,
        power: pump_power(flow),
        ..ElectricLoad::default()
    }
}

/// What a cooler cannot do without and the battery feeds.
struct Drawn {
    id: &'static str,
    title: &'static str,
    meaning: &'static str,
    why: &'static str,
    drive: CoolerDrive,
    /// What is said where it is on at work.
    there: &'static str,
    counted: &'static str,
    sure: &'static str,
    /// What stands where it fails.
    caution: Option<&'static str>,
    /// What would be entered where there is none.
    new: fn(&Design) -> ElectricLoad,
}

impl Drawn {
    fn finding(self, design: &Design) -> Finding {
        let on = self.drive.loads_on(design, LoadTime::Running).len();
        let (verdict, compared) = match of_drive(design, self.drive) {
            Some(words) if self.drive.has_no_load(design) => (Verdict::Watch, words),
            Some(words) => (Verdict::Stop, words),
            None => (Verdict::Good, self.there),
        };
        let count = Measure::new(Q::Count, on as f64);
        let mut levers = Vec::new();
        if verdict > Verdict::Good {
            levers = levers::switched_on(design, self.drive, LoadTime::Running);
            levers.push(new_load(design, &(self.new)(design)));
        }
        Finding {
            id: self.id,
            chapter: Chapter::Electrics,
            title: self.title,
            meaning: self.meaning,
            verdict,
            compared: Phrase::plain(compared),
            why: self.why,
            margin: None,
            working: vec![Step {
                words: self.counted,
                formula: "n ≥ 1",
                values: vec![("n", "such loads", count)],
                result: count,
                source: CommonPractice,
                sure: self.sure,
            }],
            caution: self.caution.filter(|_| verdict > Verdict::Good),
            levers,
            about: "loads",
        }
    }
}

/// A load that could be entered behind the others, with the power that it is taken to have.
fn new_load(design: &Design, load: &ElectricLoad) -> Lever {
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
