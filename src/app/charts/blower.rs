//! Blower curve against system curve.

use super::chart::{Answer, Axis, Chart, Dash, Ink, Line, Mark, Pane, Question, Upright};
use crate::design::Design;
use crate::design::quantity::{Quantity as Q, System};
use crate::review::{Assessment, BlowerDuty, Breath, CurveSample};
use uom::si::f64::{Pressure, VolumeRate};

/// What the chart is about.
pub const QUESTION: Question = Question {
    name: "blower",
    title: "Blower against chain",
    meaning: "The chain of bed, cooler, filter and pipes asks for more pressure the more gas flows; the blower gives less. They settle where the lines cross.",
};

const SAMPLES: u32 = 61;

/// The chart of a design.
pub fn answer(_design: &Design, assessment: &Assessment, system: System) -> Answer {
    let breath = &assessment.breath;
    let samples = breath.curves(SAMPLES);
    let whole = samples.iter().all(|sample| sample.flow.value.is_finite());
    if samples.len() < 2 || !whole {
        return Err(
            "The flow through the chain cannot be computed from these numbers.".to_string(),
        );
    }
    let chain = |label, dash, pressure: fn(&CurveSample) -> Pressure| Line {
        label,
        ink: Ink::Gas,
        dash,
        values: (samples.iter())
            .map(|sample| pressure(sample).value)
            .collect(),
    };
    let blower = |label, dash, pressure: fn(&CurveSample) -> Option<Pressure>| Line {
        label,
        ink: Ink::Heat,
        dash,
        values: (samples.iter())
            .map(|sample| pressure(sample).map_or(f64::NAN, |pressure| pressure.value))
            .collect(),
    };
    let mut lines = vec![
        chain("chain, lighting", Dash::Short, |sample| {
            sample.system_startup
        }),
        chain("chain, filter clean", Dash::Solid, |sample| {
            sample.system_clean
        }),
        chain("chain, filter dirty", Dash::LongShort, |sample| {
            sample.system_dirty
        }),
    ];
    let mut marks = Vec::new();
    if let Ok(review) = &breath.blower {
        let same = review.startup.running.speed_share == review.full_clean.running.speed_share;
        lines.push(blower(
            if same { "blower" } else { "blower, running" },
            Dash::Long,
            |sample| sample.blower_running,
        ));
        if !same {
            lines.push(blower("blower, lighting", Dash::Dots, |sample| {
                sample.blower_startup
            }));
        }
        let mark = |duty: &BlowerDuty, label: &str| Mark {
            x: duty.working.flow.value,
            y: duty.working.pressure.value,
            label: label.to_string(),
        };
        marks = vec![
            mark(&review.startup, "A"),
            mark(&review.full_clean, "B"),
            mark(&review.full_dirty, "C"),
        ];
    }
    let wanted = [
        (&breath.startup, "wanted, lighting"),
        (&breath.full_clean, "wanted, full"),
    ];
    // Beyond what blower and duties reach, the chain's curve only squeezes the rest together.
    let reached = (lines.iter().skip(3))
        .flat_map(|line| line.values.iter().copied())
        .chain([breath.full_dirty.drop.value, breath.startup.drop.value])
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
            .map(|(duty, label)| Upright {
                x: (duty.gas_flow * breath.expansion).value,
                label: label.to_string(),
            })
            .into(),
        words: words(breath, system),
        stretch: None,
        lever: None,
    })
}

fn words(breath: &Breath, system: System) -> String {
    let review = match &breath.blower {
        Ok(review) => review,
        Err(error) => {
            return format!("Only the chain is drawn, because {error}.");
        }
    };
    let flow = |flow: VolumeRate| Q::Flow.show(flow.value, system);
    let (start, clean, dirty) = (&review.startup, &review.full_clean, &review.full_dirty);
    format!(
        "Lighting (A) the blower moves {}, wanted {}. At full load it moves {} with a clean filter (B) and {} with a dirty one (C), wanted {}.",
        flow(start.working.flow),
        flow(start.flow_needed),
        flow(clean.working.flow),
        flow(dirty.working.flow),
        flow(clean.flow_needed),
    )
}
