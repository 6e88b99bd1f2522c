//! The numbers of this chapter with their names.

use super::{StageName, TrainReview};
use crate::design::phrase::Measure;
use crate::design::quantity::Quantity as Q;
use crate::review::finding::NamedResult;
use crate::sizing::train::Detail;

impl TrainReview {
    /// The computed numbers with their stable names: at each load what is behind each stage.
    pub fn results(&self) -> Vec<NamedResult> {
        let mut results = Vec::with_capacity(160);
        let mut add = |name: String, label: String, quantity, si| {
            results.push(NamedResult::new(
                format!("train.{name}"),
                label,
                Measure::new(quantity, si),
            ));
        };
        for (load, words, solved) in [
            ("startup", "while lighting", &self.startup),
            ("usual", "at usual load", &self.usual),
            ("full_clean", "at full load, filter clean", &self.full_clean),
            ("full_dirty", "at full load, filter dirty", &self.full_dirty),
        ] {
            let Ok(solved) = solved else { continue };
            for (name, outcome) in self.names.iter().zip(&solved.outcomes) {
                let StageName { name, told, .. } = name;
                let mut stage = |what: &str, number: &str, quantity, si| {
                    add(
                        format!("{load}.{name}.{what}"),
                        format!("{told}: {number}, {words}"),
                        quantity,
                        si,
                    );
                };
                let place = match outcome.detail {
                    Detail::Engine(_) => "gas that comes to it",
                    _ => "gas behind it",
                };
                stage(
                    "temperature",
                    place,
                    Q::Temperature,
                    outcome.out.temperature.value,
                );
                stage(
                    "loss",
                    "pressure lost",
                    Q::Pressure,
                    outcome.pressure_loss.value,
                );
                if outcome.water_removed.value > 0.0 {
                    stage(
                        "water",
                        "water drained",
                        Q::MassFlow,
                        outcome.water_removed.value,
                    );
                }
                match &outcome.detail {
                    Detail::Trap(trap) => {
                        if let Some(time) = trap.drain_interval {
                            stage("drain_time", "full after", Q::LongTime, time.value);
                        }
                    }
                    Detail::Filter(filter) => {
                        stage(
                            "face_velocity",
                            "speed through it",
                            Q::Velocity,
                            filter.face_velocity.value,
                        );
                        if let Some(time) = filter.change_interval {
                            stage("change_time", "due after", Q::LongTime, time.value);
                        }
                    }
                    Detail::Cyclone(cyclone) => {
                        stage(
                            "inlet_velocity",
                            "inlet velocity",
                            Q::Velocity,
                            cyclone.inlet_velocity.value,
                        );
                        stage(
                            "cut",
                            "grain of which half is caught",
                            Q::Thickness,
                            cyclone.cut_diameter.value,
                        );
                    }
                    Detail::Cooler(cooler) => {
                        stage(
                            "heat",
                            "heat given off",
                            Q::Power,
                            outcome.heat_rejected.value,
                        );
                        stage(
                            "hottest_surface",
                            "hottest outside",
                            Q::Temperature,
                            cooler.hottest_surface.value,
                        );
                    }
                    _ => {}
                }
            }
            add(
                format!("{load}.condensate"),
                format!("Water that falls out, {words}"),
                Q::MassFlow,
                solved.condensate.value,
            );
            add(
                format!("{load}.drops_left"),
                format!("Water that leaves the train as drops, {words}"),
                Q::MassFlow,
                solved.drops_left.value,
            );
            add(
                format!("{load}.heat"),
                format!("Heat given off by the train, {words}"),
                Q::Power,
                solved.heat_rejected.value,
            );
        }
        if let Some(power) = &self.power_left {
            add(
                "engine_power".to_string(),
                "Shaft power left at the end of the train, filter dirty".to_string(),
                Q::EnginePower,
                power.left.value,
            );
            add(
                "electric_power".to_string(),
                "Electric power left at the end of the train, filter dirty".to_string(),
                Q::Power,
                power.electric.value,
            );
        }
        if let Some(Ok(length)) = &self.cooler_length {
            add(
                "cooler_length".to_string(),
                "Length of each cooler tube for the temperature wanted at the engine".to_string(),
                Q::Distance,
                length.value,
            );
        }
        results
    }
}
