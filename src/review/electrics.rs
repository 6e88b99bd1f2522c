//! Battery, cables, fuses and the box they stand in.

mod battery;
mod cables;
mod cooler_loads;
mod depth;
mod full_knob;
mod knob;
mod meter;
mod schedule;
mod shelter;

pub use full_knob::FullKnob;
pub use knob::KnobSetting;
pub use meter::Meter;
pub use schedule::WiringRow;
pub(super) use schedule::size_that_suits;
pub use shelter::Shelter;
pub(super) use shelter::zone;

use super::breath::{BlowerReview, Breath, has_blower};
use super::finding::{Finding, NamedResult};
use super::heart::Heart;
use super::table::Table;
use super::warmth::Hottest;
use crate::design::Design;
use crate::design::inputs::LoadTime;
use crate::design::phrase::Measure;
use crate::design::quantity::Quantity as Q;
use crate::sizing::battery::{BatteryBank, left_in_the_cold};
use uom::si::f64::{ElectricCharge, ElectricCurrent, Power, Time};
use uom::si::power::watt;

/// What is drawn from the battery in one state of the machine.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drain {
    /// Power of the blower.
    pub blower: Power,
    /// Mean power of everything, each load by the share of the time it is on.
    pub mean: Power,
    /// Mean current.
    pub current: ElectricCurrent,
    /// How long the battery carries it alone; none when nothing is drawn.
    pub time: Option<Time>,
}

/// Battery, cables, fuses and the box they stand in.
#[derive(Debug, Clone)]
pub struct Electrics {
    /// While lighting, or why the blower's power cannot be told.
    pub lighting: Result<Drain, String>,
    /// While lighting with the knob at the wanted flow; none where the knob does not give it.
    pub throttled: Option<Drain>,
    /// What an ammeter shows then.
    pub meter: Option<Meter>,
    /// While the engine runs, or why the blower's power cannot be told.
    pub running: Result<Drain, String>,
    /// The wiring schedule: the blower first, if there is one, then the loads.
    pub wiring: Vec<WiringRow>,
    /// The blower's knob while lighting, at usual and at full load, or why it cannot be told.
    pub knob: Result<[KnobSetting; 3], String>,
    /// The box behind its sheets, or why it cannot be told.
    pub shelter: Result<Shelter, String>,
}

impl Electrics {
    /// The wiring schedule as a table.
    pub fn schedule(&self) -> Table {
        schedule::table(&self.wiring)
    }

    /// The computed numbers with their stable names.
    pub fn results(&self) -> Vec<NamedResult> {
        let mut results = Vec::with_capacity(32);
        let mut add = |name: String, label: String, quantity, si| {
            results.push(NamedResult::new(
                format!("electrics.{name}"),
                label,
                Measure::new(quantity, si),
            ));
        };
        for (name, label, drain) in [
            ("lighting", "while lighting", &self.lighting),
            ("running", "while running", &self.running),
        ] {
            let Ok(drain) = drain else { continue };
            add(
                format!("load_{name}"),
                format!("Load on the battery {label}"),
                Q::Power,
                drain.mean.value,
            );
            add(
                format!("current_{name}"),
                format!("Current from the battery {label}"),
                Q::Current,
                drain.current.value,
            );
            if let Some(time) = drain.time {
                add(
                    format!("time_{name}"),
                    format!("Battery time {label}"),
                    Q::LongTime,
                    time.value,
                );
            }
        }
        if let Some(drain) = self.throttled {
            add(
                "current_knob".to_string(),
                "Mean current from the battery while lighting, knob at the wanted flow".to_string(),
                Q::Current,
                drain.current.value,
            );
        }
        if let Some(meter) = &self.meter {
            let shown = "Ammeter while lighting, knob at the wanted flow";
            let alone = match &meter.most {
                Some((_, names)) => format!("{shown}, {names} off"),
                None => shown.to_string(),
            };
            add(
                "meter_lighting".to_string(),
                alone,
                Q::Current,
                meter.steady.value,
            );
            if let Some((most, names)) = &meter.most {
                add(
                    "meter_lighting_most".to_string(),
                    format!("{shown}, {names} on"),
                    Q::Current,
                    most.value,
                );
            }
        }
        for setting in self.knob.iter().flatten() {
            let (name, label) = (setting.name, setting.label);
            if let Some(position) = setting.position {
                add(
                    format!("knob_{name}"),
                    format!("Knob for the wanted flow {label}"),
                    Q::Share,
                    position.value,
                );
            }
        }
        for (place, row) in self.wiring.iter().enumerate() {
            let Ok(run) = &row.run else { continue };
            for (name, label, quantity, si) in [
                ("current", "current", Q::Current, run.current.value),
                (
                    "section",
                    "section",
                    Q::WireSection,
                    run.conductor.area.value,
                ),
                ("drop", "voltage lost", Q::Voltage, run.drop.value),
                ("carries", "cable carries", Q::Current, run.carries.value),
            ] {
                add(
                    format!("circuit_{place}_{name}"),
                    format!("{}, {label}", row.name),
                    quantity,
                    si,
                );
            }
            if let Some(fuse) = row.fuse {
                add(
                    format!("circuit_{place}_fuse"),
                    format!("{}, fuse", row.name),
                    Q::Current,
                    fuse.value,
                );
            }
        }
        // A sum that leaves out what is not known is no sum.
        if self.wiring.iter().all(|row| row.run.is_ok()) {
            let all_on: ElectricCurrent = (self.wiring.iter())
                .flat_map(|row| &row.run)
                .map(|run| run.current)
                .sum();
            add(
                "current_all_on".to_string(),
                "Current with everything on".to_string(),
                Q::Current,
                all_on.value,
            );
        }
        if let Ok(shelter) = &self.shelter {
            add(
                "box_temperature".to_string(),
                "Battery box, inside of its wall".to_string(),
                Q::Temperature,
                shelter.found.box_temperature.value,
            );
            add(
                "box_heat".to_string(),
                "Heat that reaches the battery box".to_string(),
                Q::Power,
                shelter.found.heat.value,
            );
            for (place, sheet) in shelter.found.shields.iter().enumerate() {
                add(
                    format!("sheet_{}", place + 1),
                    format!("Heat shield, sheet {}", place + 1),
                    Q::Temperature,
                    sheet.value,
                );
            }
        }
        results
    }
}

/// Puts a design through the questions of this chapter; `wall` is that of [`zone`], at its hottest, and `warm` the time
/// that the hearth takes to get hot.
pub(super) fn examine(
    design: &Design,
    heart: &Heart,
    breath: &Breath,
    wall: &Hottest,
    warm: Option<Time>,
) -> (Electrics, Vec<Finding>) {
    let has_blower = has_blower(design);
    let blower = breath.blower.as_ref().map_err(ToString::to_string);
    let nothing = Power::new::<watt>(0.0);
    let drawn = |power: fn(&BlowerReview) -> Option<Power>| match has_blower {
        true => (blower.clone()).map(|blower| power(blower).unwrap_or(nothing)),
        false => Ok(nothing),
    };
    let lighting = drawn(|blower| Some(blower.startup.power.electric))
        .map(|power| drain(design, power, LoadTime::Lighting));
    let running = drawn(|blower| Some(blower.full_clean.as_ref()?.power.electric))
        .map(|power| drain(design, power, LoadTime::Running));
    let knob = blower
        .clone()
        .map(|blower| knob::settings(design, breath, blower));
    // Beyond full knob nobody gets there.
    let throttled = (blower.as_ref().ok().zip(knob.as_ref().ok()))
        .filter(|(_, [lighting, ..])| lighting.position.is_some())
        .and_then(|(blower, _)| Some(blower.startup.power_needed?.electric));
    let full_knob = blower.map(|blower| FullKnob::of(design, blower));
    let shelter = shelter::shelter(design, &wall.heat);
    let around = shelter::around_cables(design, &shelter);
    let electrics = Electrics {
        lighting,
        throttled: throttled.map(|power| drain(design, power, LoadTime::Lighting)),
        meter: throttled.map(|power| Meter::of(design, power)),
        running,
        wiring: schedule::rows(design, has_blower.then_some(full_knob), around),
        knob,
        shelter,
    };
    let mut findings: Vec<Finding> = [
        battery::finding(design, &electrics, warm),
        depth::depth(design),
    ]
    .into_iter()
    .chain(cooler_loads::fan(design))
    .chain(cooler_loads::pump(design))
    .chain(cables::cables(design, &electrics.wiring))
    .chain(cables::fuses(design, &electrics.wiring))
    .chain(has_blower.then(|| knob::finding(design, &electrics.knob)))
    .chain([shelter::finding(design, heart, wall, &electrics.shelter)])
    .collect();
    breath.offer_nothing_for_want_of_gas(&mut findings);
    (electrics, findings)
}

/// What the battery still gives, as old as entered and as cold as the air in which the fire is lit.
fn charge_left(design: &Design) -> ElectricCharge {
    let cold = left_in_the_cold(design.site.air_temperature);
    design.battery.capacity * design.battery.left_with_age * cold
}

fn bank(design: &Design) -> BatteryBank {
    let battery = &design.battery;
    BatteryBank {
        voltage: battery.voltage,
        capacity: charge_left(design),
        rated_time: battery.rated_time,
        peukert: battery.peukert,
        usable_share: battery.usable_share,
    }
}

fn drain(design: &Design, blower: Power, state: LoadTime) -> Drain {
    let bank = bank(design);
    let others: Power = design
        .loads
        .iter()
        .filter(|load| load.used(state))
        .map(|load| load.power * load.duty)
        .sum();
    let mean = blower + others;
    Drain {
        blower,
        mean,
        current: bank.current(mean),
        time: bank.time(mean),
    }
}
