//! What the diagram says: the stages in their order and the gas between them, in words.

use super::words::{Remark, remark};
use crate::design::Design;
use crate::design::inputs::{StageKind, TrainStage};
use crate::design::quantity::{Quantity as Q, System};
use crate::review::{Assessment, Verdict};
use crate::sizing::train::{Detail, GasState, StageOutcome, TrainError, TrainSolution};
use uom::si::f64::Pressure;

/// Gas from here on is drawn as hot, K.
const HOT: f64 = 373.15;
/// Less water than this, kg/s, or heat, W, is not worth a word.
const NO_WATER: f64 = 1.0e-7;
const NO_HEAT: f64 = 10.0;

/// What the train is asked to pass.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Load {
    Lighting,
    Usual,
    Full,
    Dirty,
}

impl Load {
    pub const ALL: [Load; 4] = [Load::Lighting, Load::Usual, Load::Full, Load::Dirty];

    pub fn label(self) -> &'static str {
        match self {
            Load::Lighting => "Lighting",
            Load::Usual => "Usual",
            Load::Full => "Full",
            Load::Dirty => "Full, filter dirty",
        }
    }

    fn solved(self, assessment: &Assessment) -> &Result<TrainSolution, TrainError> {
        let train = &assessment.train;
        match self {
            Load::Lighting => &train.startup,
            Load::Usual => &train.usual,
            Load::Full => &train.full_clean,
            Load::Dirty => &train.full_dirty,
        }
    }
}

/// The gas at a point.
#[derive(Debug, Clone, PartialEq)]
pub struct Point {
    pub temperature: String,
    /// Against the air outside.
    pub pressure: String,
    pub flow: String,
    /// Dew point, or drops.
    pub water: String,
    pub hot: bool,
    pub drops: bool,
}

/// A stage, or the engine at the end.
#[derive(Debug, Clone, PartialEq)]
pub struct Station {
    pub name: String,
    /// The stage as entered; none for the engine.
    pub stage: Option<TrainStage>,
    /// What it does to the gas.
    pub does: String,
    pub remarks: Vec<Remark>,
    /// Why it cannot be computed.
    pub trouble: Option<String>,
    /// The gas behind it.
    pub behind: Option<Point>,
}

impl Station {
    pub fn is_blower(&self) -> bool {
        self.stage
            .as_ref()
            .is_some_and(|stage| stage.kind == StageKind::Blower)
    }

    /// Everything known about it in a sentence or two.
    pub fn words(&self) -> String {
        let mut words = self.name.clone();
        for more in [&self.does, self.trouble.as_ref().unwrap_or(&String::new())] {
            if !more.is_empty() {
                words = format!("{words}, {more}");
            }
        }
        if let Some(point) = &self.behind {
            words = format!("{words}, {} behind it", point.temperature);
        }
        for remark in &self.remarks {
            let word = remark.verdict.map_or("Note", Verdict::word);
            words = format!("{words}. {word}: {}", remark.words);
        }
        words
    }
}

/// The whole train at one load.
#[derive(Debug, Clone, PartialEq)]
pub struct Chain {
    /// The gas as it leaves the hearth.
    pub start: Option<Point>,
    pub stations: Vec<Station>,
    /// Whether the gas leaves through the flare.
    pub to_flare: bool,
    /// Why nothing can be computed.
    pub trouble: Option<String>,
}

impl Chain {
    pub fn of(design: &Design, assessment: &Assessment, load: Load, system: System) -> Chain {
        let outside = assessment
            .train
            .full_load
            .circumstances
            .surroundings
            .pressure;
        let solved = load.solved(assessment);
        let (found, error) = match solved {
            Ok(found) => (found, None),
            Err(error) => (&*error.reached, Some(error)),
        };
        let mut points = found.points.iter().map(|gas| point(gas, outside, system));
        let start = points.next();
        let names = assessment.train.names.iter().enumerate();
        let stations = names
            .map(|(index, name)| {
                let outcome = found.outcomes.get(index);
                let stage = design.train.get(index).cloned();
                Station {
                    name: name.label.to_string(),
                    does: outcome.map_or(String::new(), |outcome| does(outcome, system)),
                    remarks: (outcome.iter())
                        .flat_map(|outcome| &outcome.notes)
                        .map(|note| remark(*note, name.kind, assessment))
                        .collect(),
                    trouble: error
                        .filter(|error| error.number == index + 1)
                        .map(|error| error.reason.to_string()),
                    behind: points.next().filter(|_| stage.is_some()),
                    stage,
                }
            })
            .collect();
        Chain {
            start,
            stations,
            to_flare: load == Load::Lighting,
            trouble: error
                .filter(|error| error.number == 0)
                .map(|error| error.reason.to_string()),
        }
    }

    /// The points with what they lie behind, in order.
    pub fn points(&self) -> impl Iterator<Item = (&str, Option<&Point>)> {
        let first = ("Hearth", self.start.as_ref());
        let rest = self
            .stations
            .iter()
            .filter(|station| station.stage.is_some());
        std::iter::once(first)
            .chain(rest.map(|station| (station.name.as_str(), station.behind.as_ref())))
    }
}

fn point(gas: &GasState, outside: Pressure, system: System) -> Point {
    let drops = gas.liquid.value > NO_WATER;
    Point {
        temperature: Q::Temperature.show(gas.temperature.value, system),
        pressure: Q::Pressure.show((gas.pressure - outside).value, system),
        flow: Q::Flow.show(gas.volume_rate().value, system),
        water: if drops {
            format!("{} drops", Q::MassFlow.show(gas.liquid.value, system))
        } else {
            gas.dew_point().map_or("dry".to_string(), |dew| {
                format!("dew point {}", Q::Temperature.show(dew.value, system))
            })
        },
        hot: gas.temperature.value >= HOT,
        drops,
    }
}

/// What a stage does to the gas, in a few words.
fn does(outcome: &StageOutcome, system: System) -> String {
    let loss = outcome.pressure_loss.value;
    let pressure = Q::Pressure.show(loss.abs(), system);
    let mut words = vec![match &outcome.detail {
        Detail::Engine(engine) => {
            format!(
                "{} below outside",
                Q::Pressure.show(engine.vacuum.value, system)
            )
        }
        _ if loss < 0.0 => format!("lifts {pressure}"),
        _ => format!("loses {pressure}"),
    }];
    let heat = outcome.heat_rejected.value;
    if heat > NO_HEAT {
        words.push(format!("gives off {}", Q::Power.show(heat, system)));
    }
    if outcome.water_removed.value > NO_WATER {
        words.push(format!(
            "drains {}",
            Q::MassFlow.show(outcome.water_removed.value, system)
        ));
    }
    match &outcome.detail {
        Detail::Cyclone(cyclone) => words.push(format!(
            "{} in",
            Q::Velocity.show(cyclone.inlet_velocity.value, system)
        )),
        Detail::Trap(trap) => words.extend(
            (trap.drain_interval)
                .map(|time| format!("full in {}", Q::LongTime.show(time.value, system))),
        ),
        Detail::Filter(filter) => words.extend(
            (filter.change_interval)
                .map(|time| format!("due in {}", Q::LongTime.show(time.value, system))),
        ),
        _ => {}
    }
    words.join(", ")
}
