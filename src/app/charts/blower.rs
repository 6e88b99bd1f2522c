//! Blower curve against system curve.

use super::chart::{Answer, Axis, Chart, Dash, Ink, Line, Mark, NONE, Pane, Question, Upright};
use crate::design::Design;
use crate::design::quantity::{Quantity as Q, System};
use crate::review::{Assessment, BlowerDuty, Breath, CurveSample, Duty};
use uom::si::f64::{Pressure, VolumeRate};

/// What the chart is about.
pub const QUESTION: Question = Question {
    name: "blower",
    title: "Blower against hearth and train",
    meaning: "Hearth and gas train ask for more pressure the more gas flows; the blower gives less. They settle where the lines cross.",
};

const SAMPLES: u32 = 61;

/// The chart of a design.
pub fn answer(design: &Design, assessment: &Assessment, system: System) -> Answer {
    let breath = &assessment.breath;
    let samples = breath.curves(design, &assessment.train, SAMPLES);
    let whole = samples
        .iter()
        .all(|sample| sample.flow.value.is_finite() && sample.system_clean.is_some());
    if samples.len() < 2 || !whole {
        return Err(
            "The flow through the train cannot be computed from these numbers.".to_string(),
        );
    }
    let curve = |label, ink, dash, pressure: fn(&CurveSample) -> Option<Pressure>| Line {
        label,
        ink,
        dash,
        values: (samples.iter())
            .map(|sample| pressure(sample).map_or(f64::NAN, |pressure| pressure.value))
            .collect(),
    };
    let chain = |label, dash, pressure| curve(label, Ink::Gas, dash, pressure);
    let blower = |label, dash, pressure| curve(label, Ink::Heat, dash, pressure);
    let mut lines = vec![
        chain("train, lighting", Dash::Short, |sample| {
            sample.system_startup
        }),
        chain("train, filter clean", Dash::Solid, |sample| {
            sample.system_clean
        }),
        chain("train, filter dirty", Dash::LongShort, |sample| {
            sample.system_dirty
        }),
    ];
    let mut marks = Vec::new();
    if let Ok(review) = &breath.blower {
        lines.push(blower("blower, lighting", Dash::Dots, |sample| {
            sample.blower_startup
        }));
        if review.full_clean.is_some() {
            lines.push(blower("blower, running", Dash::Long, |sample| {
                sample.blower_running
            }));
        }
        let mark = |duty: &BlowerDuty, label: &str| Mark {
            x: duty.working.flow.value,
            y: duty.working.pressure.value,
            label: label.to_string(),
        };
        let running = [(&review.full_clean, "B"), (&review.full_dirty, "C")];
        marks = [mark(&review.startup, "A")]
            .into_iter()
            .chain(
                running
                    .into_iter()
                    .filter_map(|(duty, label)| Some(mark(duty.as_ref()?, label))),
            )
            .collect();
    }
    let duties: Vec<&Duty> = [&breath.full_dirty, &breath.startup]
        .into_iter()
        .flatten()
        .collect();
    let wanted = [
        (&breath.startup, "wanted, lighting"),
        (&breath.full_clean, "wanted, full"),
    ];
    // Beyond what blower and duties reach, the chain's curve only squeezes the rest together.
    let reached = (lines.iter().skip(3))
        .flat_map(|line| line.values.iter().copied())
        .chain(duties.iter().map(|duty| duty.drop.value))
        .filter(|pressure| pressure.is_finite())
        .fold(0.0, f64::max);
    Ok(Chart {
        x: Axis {
            quantity: Q::Flow,
            label: "Flow at the blower",
        },
        at: samples.iter().map(|sample| sample.flow.value).collect(),
        panes: vec![Pane {
            axis: Axis {
                quantity: Q::Pressure,
                label: "Pressure",
            },
            range: (0.0, if reached > 0.0 { 1.12 * reached } else { 1.0 }),
            lines,
            bands: Vec::new(),
            marks,
        }],
        uprights: wanted
            .into_iter()
            .filter_map(|(duty, label)| {
                Some(Upright {
                    x: duty.as_ref().ok()?.flow_at_blower.value,
                    label: label.to_string(),
                })
            })
            .collect(),
        words: words(breath, system),
        noted: Vec::new(),
        none: NONE,
        stretch: None,
        lever: None,
    })
}

fn words(breath: &Breath, system: System) -> String {
    let review = match &breath.blower {
        Ok(review) => review,
        Err(error) => {
            return format!("Only hearth and train are drawn, because {error}.");
        }
    };
    let flow = |flow: VolumeRate| Q::Flow.show(flow.value, system);
    let start = &review.startup;
    let lighting = format!(
        "While lighting (A) the blower moves {}, wanted {}.",
        flow(start.working.flow),
        flow(start.flow_needed),
    );
    match (&review.full_clean, &review.full_dirty) {
        (Some(clean), Some(dirty)) => format!(
            "{lighting} At full load it moves {} with a clean filter (B) and {} with a dirty one (C), wanted {}.",
            flow(clean.working.flow),
            flow(dirty.working.flow),
            flow(clean.flow_needed),
        ),
        _ => format!("{lighting} It stands still while the engine runs."),
    }
}
