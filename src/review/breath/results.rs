//! The numbers of this chapter with their names.

use super::Breath;
use crate::design::phrase::Measure;
use crate::design::quantity::Quantity as Q;
use crate::review::finding::NamedResult;

impl Breath {
    /// The computed numbers with their stable names.
    pub fn results(&self) -> Vec<NamedResult> {
        let mut results = Vec::with_capacity(64);
        let mut add = |name: String, label: String, quantity, si| {
            results.push(NamedResult::new(
                format!("breath.{name}"),
                label,
                Measure::new(quantity, si),
            ));
        };
        for (name, label, duty) in [
            ("startup", "while lighting", &self.startup),
            ("usual", "at usual load", &self.usual),
            ("full_clean", "at full load, filter clean", &self.full_clean),
            ("full_dirty", "at full load, filter dirty", &self.full_dirty),
        ] {
            let Ok(duty) = duty else { continue };
            add(
                format!("drop_{name}"),
                format!(
                    "Air inlet to {} {label}",
                    if name == "startup" { "flare" } else { "engine" }
                ),
                Q::Pressure,
                duty.drop.value,
            );
            for stage in &duty.stages {
                add(
                    format!("drop_{name}_{}", stage.name),
                    format!("{} {label}", stage.label),
                    Q::Pressure,
                    stage.drop.value,
                );
            }
        }
        let pressures = [
            (
                "vacuum_clean",
                "Suction at the engine, filter clean",
                self.vacuum_clean,
            ),
            (
                "engine_vacuum",
                "Suction at the engine, filter dirty",
                self.engine_vacuum,
            ),
            (
                "pressure_side",
                "Pressure just after the blower while lighting",
                self.pressure_side,
            ),
            (
                "suction_side",
                "Suction just before the blower while lighting",
                self.suction_side,
            ),
        ];
        for (name, label, pressure) in pressures {
            if let Some(pressure) = pressure {
                add(
                    name.to_string(),
                    label.to_string(),
                    Q::Pressure,
                    pressure.value,
                );
            }
        }
        if let Some(velocity) = self.pipe_velocity {
            add(
                "pipe_velocity".to_string(),
                "Fastest gas in a pipe at full load".to_string(),
                Q::Velocity,
                velocity.value,
            );
        }
        let Ok(blower) = &self.blower else {
            return results;
        };
        add(
            "flow_wanted".to_string(),
            "Wanted flow at the blower while lighting".to_string(),
            Q::Flow,
            blower.startup.flow_needed.value,
        );
        for (name, label, duty) in [
            ("startup", "while lighting", Some(&blower.startup)),
            (
                "full_clean",
                "at full load, filter clean",
                blower.full_clean.as_ref(),
            ),
            (
                "full_dirty",
                "at full load, filter dirty",
                blower.full_dirty.as_ref(),
            ),
        ] {
            let Some(duty) = duty else { continue };
            let working = &duty.working;
            let told = [
                (
                    "gas",
                    "Gas the blower pulls",
                    Q::NormalFlow,
                    Some(duty.gas_flow.value),
                ),
                (
                    "flow",
                    "Flow at the blower",
                    Q::Flow,
                    Some(working.flow.value),
                ),
                (
                    "pressure",
                    "Blower pressure",
                    Q::Pressure,
                    Some(working.pressure.value),
                ),
                (
                    "power",
                    "Blower electric power",
                    Q::Power,
                    Some(duty.power.electric.value),
                ),
                (
                    "speed",
                    "Speed needed",
                    Q::Share,
                    duty.speed_needed.map(|speed| speed.value),
                ),
            ];
            for (what, words, quantity, value) in told {
                if let Some(value) = value {
                    add(
                        format!("blower_{what}_{name}"),
                        format!("{words} {label}"),
                        quantity,
                        value,
                    );
                }
            }
            if let Some(margin) = working.stall_margin {
                add(
                    format!("stall_margin_{name}"),
                    format!("Distance from stall {label}"),
                    Q::Share,
                    margin,
                );
            }
        }
        results
    }
}
