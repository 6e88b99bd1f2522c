//! Hearth temperature and heat in the gas over the load.

use super::chart::{
    Answer, Axis, Band, Chart, Dash, Ink, Line, Mark, Pane, Question, Tone, Upright, range_of,
};
use super::scale;
use crate::design::Design;
use crate::design::inputs::Limits;
use crate::design::quantity::{Quantity as Q, System};
use crate::review::{
    Assessment, HOTTEST, HeartAt, HeartPoint, HearthNumbers, LoadRange, heart_over_load,
};
use crate::sizing::gas::HearthSolution;

/// What the chart is about.
pub const QUESTION: Question = Question {
    name: "load",
    title: "Hearth temperature and gas heating value over load",
    meaning: "The shell takes about the same heat at any load, so at low load it takes more of the fire. Where more air per wood makes up for that, the middle gets hotter, and the gas weaker; where the air stays as it is, the middle gets colder. The engine works in the grey stretch.",
};

/// One for each twentieth of full load.
const PLACES: u32 = 21;

/// The chart of a design.
pub fn answer(design: &Design, assessment: &Assessment, system: System) -> Answer {
    let points = heart_over_load(design, PLACES);
    if points.iter().all(|point| point.hearth.is_none()) {
        return Err(match &assessment.heart.at.full.solved {
            Err(error) if !error.too_cold() => error.to_string(),
            _ => "at no load does this hearth make gas that burns.".to_string(),
        });
    }
    let at = &assessment.heart.at;
    let upright = |name: &str, at: &HeartAt| Upright {
        x: at.load.value,
        label: format!("{name} {}", Q::Share.show(at.load.value, system)),
    };
    let mut uprights = vec![upright("usual", &at.usual)];
    if at.idle.load < at.usual.load {
        uprights.push(upright("lowest", &at.idle));
    }
    if at.usual.load < at.full.load {
        uprights.push(upright("full", &at.full));
    }
    Ok(Chart {
        x: Axis {
            quantity: Q::Share,
            label: "Share of full load",
        },
        panes: vec![
            temperature_pane(&design.limits, &points, &at.usual, system),
            heat_pane(&design.limits, &points, &at.usual, system),
        ],
        uprights,
        noted: Vec::new(),
        none: "no gas that burns",
        stretch: Some((at.idle.load.value, at.full.load.value)),
        words: words(design, assessment, &points, system),
        at: points.iter().map(|point| point.load.value).collect(),
        lever: None,
    })
}

fn line(
    points: &[HeartPoint],
    (label, ink, dash): (&'static str, Ink, Dash),
    number: fn(&HearthNumbers) -> f64,
) -> Line {
    Line {
        label,
        ink,
        dash,
        values: points
            .iter()
            .map(|point| point.hearth.as_ref().map_or(f64::NAN, number))
            .collect(),
    }
}

/// From the lowest to the highest of lines and limits, with some air on both sides.
fn range_with(lines: &[Line], limits: [f64; 2]) -> (f64, f64) {
    let reached = lines.iter().flat_map(|line| line.values.iter().copied());
    let (low, high) = range_of(reached.chain(limits));
    (low - 0.06 * (high - low), high)
}

/// Watch under the first limit, Stop under the second.
fn bands(what: &str, (watch, stop): (f64, f64), quantity: Q, system: System) -> Vec<Band> {
    let band = |from, to, tone, word| Band {
        from,
        to,
        tone,
        label: format!(
            "{word}, {what}under {}",
            scale::number(quantity, to, system)
        ),
    };
    vec![
        band(stop, watch, Tone::Watch, "Watch"),
        band(f64::NEG_INFINITY, stop, Tone::Stop, "Stop"),
    ]
}

fn temperature_pane(
    limits: &Limits,
    points: &[HeartPoint],
    usual: &HeartAt,
    system: System,
) -> Pane {
    let marks = (
        limits.hearth_temperature_good().value,
        limits.tar_temperature.value,
    );
    let lines = vec![
        line(points, ("mean", Ink::Heat, Dash::Solid), |hearth| {
            hearth.mean.value
        }),
        line(points, ("at the wall", Ink::Heat, Dash::Long), |hearth| {
            hearth.wall.value
        }),
    ];
    let range = range_with(&lines, marks.into());
    let mut bands = bands("mean ", marks, Q::Temperature, system);
    if range.1 > HOTTEST {
        bands.push(Band {
            from: HOTTEST,
            to: f64::INFINITY,
            tone: Tone::Watch,
            label: "Watch: ash melts".to_string(),
        });
    }
    Pane {
        axis: Axis {
            quantity: Q::Temperature,
            label: "Temperature in the fire",
        },
        range,
        lines,
        bands,
        marks: mark(usual, Q::Temperature, system, mean),
    }
}

fn heat_pane(limits: &Limits, points: &[HeartPoint], usual: &HeartAt, system: System) -> Pane {
    let marks = (limits.gas_heat_good(), limits.gas_heat_stop);
    let lines = vec![line(
        points,
        ("heat in the gas", Ink::Gas, Dash::Solid),
        |hearth| hearth.gas_heat,
    )];
    Pane {
        axis: Axis {
            quantity: Q::EnergyPerVolume,
            label: "Heat in the gas",
        },
        range: (0.0, range_with(&lines, marks.into()).1),
        lines,
        bands: bands("", marks, Q::EnergyPerVolume, system),
        marks: mark(usual, Q::EnergyPerVolume, system, gas_heat),
    }
}

fn mean(hearth: &HearthSolution) -> f64 {
    hearth.profile.mean.value
}

fn gas_heat(hearth: &HearthSolution) -> f64 {
    1e6 * hearth.gas.lower_heating_value
}

/// The usual load as it is; nothing where there is no gas that burns.
fn mark(
    at: &HeartAt,
    quantity: Q,
    system: System,
    number: fn(&HearthSolution) -> f64,
) -> Vec<Mark> {
    let y = at.solved.as_ref().ok().map(number);
    y.map(|y| Mark {
        x: at.load.value,
        y,
        label: scale::number(quantity, y, system),
    })
    .into_iter()
    .collect()
}

fn words(
    design: &Design,
    assessment: &Assessment,
    points: &[HeartPoint],
    system: System,
) -> String {
    let heart = &assessment.heart;
    let limits = &design.limits;
    let share = |load: f64| Q::Share.show(load, system);
    let at_load = |name: &str, at: &HeartAt| {
        let load = share(at.load.value);
        match &at.solved {
            Ok(hearth) => format!(
                "At the {name} load of {load} the mean temperature in the fire is {}, and the gas holds {}.",
                Q::Temperature.show(mean(hearth), system),
                Q::EnergyPerVolume.show(gas_heat(hearth), system),
            ),
            Err(_) => format!("At the {name} load of {load} no gas burns."),
        }
    };
    let mut said = vec![at_load("usual", &heart.at.usual)];
    if heart.at.idle.load < heart.at.usual.load {
        said.push(at_load("lowest", &heart.at.idle));
    }
    said.push(format!(
        "Wanted is a mean of {} to {}, and gas with at least {}.",
        Q::Temperature.show(limits.hearth_temperature_good().value, system),
        Q::Temperature.show(HOTTEST, system),
        Q::EnergyPerVolume.show(limits.gas_heat_good(), system),
    ));
    let ends = |range: &LoadRange| Some((range.lowest()?, range.highest()?));
    said.extend(heart.range.as_ref().map(|range| match ends(range) {
        Some((lowest, highest)) if !range.is_empty() => format!(
            "Everything together, the cold rim too, holds from {} to {}.",
            share(lowest.value),
            share(highest.value),
        ),
        _ => "No load passes everything together, the cold rim included.".to_string(),
    }));
    said.extend(left_out(points, &share));
    said.join(" ")
}

/// Which loads have no place on the lines.
fn left_out(points: &[HeartPoint], share: &dyn Fn(f64) -> String) -> Option<String> {
    let mut out = (points.iter())
        .filter(|point| point.hearth.is_none())
        .map(|point| share(point.load.value));
    let first = out.next()?;
    let loads = match out.next_back() {
        Some(last) => format!("from {first} to {last}"),
        None => format!("at {first}"),
    };
    Some(format!("No gas burns {loads}: nothing is drawn there."))
}
