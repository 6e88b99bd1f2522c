//! Hearth temperature and heat in the gas over the load.

use super::chart::{
    Answer, Axis, Band, Chart, Dash, Ink, Line, Mark, Pane, Question, Tone, Upright, range_of,
};
use super::scale;
use crate::design::Design;
use crate::design::quantity::{Quantity as Q, System};
use crate::review::{Assessment, HeartPoint, HearthNumbers, heart_over_load};

/// What the chart is about.
pub const QUESTION: Question = Question {
    name: "load",
    title: "Hearth temperature and gas over the load",
    meaning: "The shell takes nearly the same heat at any load, so at low load it takes a larger share, and the gas gets weak.",
};

/// Loads computed; the curves are smooth.
const POINTS: u32 = 26;

/// The chart of a design.
pub fn answer(design: &Design, assessment: &Assessment, system: System) -> Answer {
    let points = heart_over_load(design, POINTS);
    if points.iter().all(|point| point.hearth.is_none()) {
        return Err("At no load does this hearth make gas that burns.".to_string());
    }
    let limits = &design.limits;
    let (idle, usual) = (
        design.operation.idle_load.value,
        design.operation.usual_load.value,
    );
    let values = |number: fn(&HearthNumbers) -> f64| -> Vec<f64> {
        points
            .iter()
            .map(|point: &HeartPoint| point.hearth.as_ref().map_or(f64::NAN, number))
            .collect()
    };
    let (mean, wall, gas) = (
        values(|hearth| hearth.mean.value),
        values(|hearth| hearth.wall.value),
        values(|hearth| hearth.gas_heat),
    );
    let share = |load: f64| Q::Share.show(load, system);
    let wanted = limits.hearth_temperature.value;
    let temperatures = range_of(
        mean.iter()
            .chain(&wall)
            .copied()
            .chain([wanted, limits.tar_temperature.value]),
    );
    let heats = (
        0.0,
        range_of(gas.iter().copied().chain([limits.gas_heat_watch])).1,
    );

    let at_usual = assessment.heart.at.usual.solved.as_ref().ok();
    let mark = |y: Option<f64>, quantity: Q| {
        y.map(|y| Mark {
            x: usual,
            y,
            label: quantity.show(y, system),
        })
        .into_iter()
        .collect::<Vec<_>>()
    };
    let lowest = assessment
        .heart
        .range
        .as_ref()
        .and_then(|range| range.lowest());
    let mut words = match at_usual {
        Some(solution) => format!(
            "At the usual load of {} the hearth is at {} on average and the gas holds {}.",
            share(usual),
            Q::Temperature.show(solution.profile.mean.value, system),
            Q::EnergyPerVolume.show(solution.gas.lower_heating_value * 1.0e6, system),
        ),
        None => format!(
            "At the usual load of {} there is no gas that burns.",
            share(usual)
        ),
    };
    words.push_str(&match lowest {
        Some(lowest) => format!(
            " It holds down to {} of full load; your lowest is {}.",
            share(lowest.value),
            share(idle)
        ),
        None => " It holds at no load.".to_string(),
    });
    Ok(Chart {
        x: Axis {
            quantity: Q::Share,
            label: "Load",
        },
        at: points.iter().map(|point| point.load.value).collect(),
        panes: vec![
            Pane {
                axis: Axis {
                    quantity: Q::Temperature,
                    label: "Hearth temperature",
                },
                range: temperatures,
                lines: vec![
                    Line {
                        label: "mean",
                        ink: Ink::Heat,
                        dash: Dash::Solid,
                        values: mean,
                    },
                    Line {
                        label: "wall",
                        ink: Ink::Heat,
                        dash: Dash::Long,
                        values: wall,
                    },
                ],
                bands: vec![Band {
                    from: temperatures.0,
                    to: wanted,
                    tone: Tone::Watch,
                    label: format!(
                        "mean wanted above {}",
                        scale::number(Q::Temperature, wanted, system)
                    ),
                }],
                marks: mark(
                    at_usual.map(|solution| solution.profile.mean.value),
                    Q::Temperature,
                ),
            },
            Pane {
                axis: Axis {
                    quantity: Q::EnergyPerVolume,
                    label: "Heat in the gas",
                },
                range: heats,
                lines: vec![Line {
                    label: "gas",
                    ink: Ink::Gas,
                    dash: Dash::Solid,
                    values: gas,
                }],
                bands: vec![
                    Band {
                        from: 0.0,
                        to: limits.gas_heat_stop,
                        tone: Tone::Stop,
                        label: "engines run poorly".to_string(),
                    },
                    Band {
                        from: limits.gas_heat_stop,
                        to: limits.gas_heat_watch,
                        tone: Tone::Watch,
                        label: String::new(),
                    },
                ],
                marks: mark(
                    at_usual.map(|solution| solution.gas.lower_heating_value * 1.0e6),
                    Q::EnergyPerVolume,
                ),
            },
        ],
        uprights: vec![
            Upright {
                x: idle,
                label: format!("lowest {}", share(idle)),
            },
            Upright {
                x: usual,
                label: format!("usual {}", share(usual)),
            },
        ],
        words,
        lever: None,
    })
}
