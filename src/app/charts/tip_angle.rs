//! Tip angle against base width.

use super::chart::{
    Answer, Axis, Band, Chart, Dash, Ink, Line, Mark, NONE, Pane, Question, Tone, Upright, range_of,
};
use super::scale;
use crate::design::Design;
use crate::design::quantity::{Quantity as Q, System};
use crate::review::{Assessment, Lever};
use crate::sizing::base_width::{WidthAngles, WidthStudy};
use uom::si::f64::Length;
use uom::si::length::meter;

/// What the chart is about.
pub const QUESTION: Question = Question {
    name: "tip-angle",
    title: "Tip angle against base width",
    meaning: "The tip angle is the slope on which it just goes over, the worst way. A wider base helps until the depth is the weak side.",
};

/// Allowed base widths, m.
const ALLOWED: (f64, f64) = (0.1, 3.0);
/// A base is cut to the millimetre.
const STEP: f64 = 0.001;

/// The lowest tip angle of the states the machine can be in.
fn weakest(design: &Design, angles: &WidthAngles) -> f64 {
    let standing = angles.full.value.min(angles.empty.value);
    if design.hopper.fitted {
        standing.min(angles.hopper_off.value)
    } else {
        standing
    }
}

/// The narrowest base that stands on the wanted slope in every state; none when no allowed one does.
fn narrowest(design: &Design, study: &mut WidthStudy) -> Option<f64> {
    let wanted = design.limits.tip_angle_good().value;
    let mut stands =
        |width: f64| weakest(design, &study.tip_angles(Length::new::<meter>(width))) >= wanted;
    let (mut failing, mut passing) = ALLOWED;
    if !stands(passing) {
        return None;
    }
    if stands(failing) {
        return Some(failing);
    }
    while passing - failing > STEP {
        let middle = 0.5 * (passing + failing);
        if stands(middle) {
            passing = middle;
        } else {
            failing = middle;
        }
    }
    Some((passing / STEP).ceil() * STEP)
}

/// The chart of a design.
pub fn answer(design: &Design, assessment: &Assessment, system: System) -> Answer {
    let Some(mut study) = WidthStudy::new(design, &assessment.standing.machine) else {
        return Err(
            "It stands on its own contact points, which have no one width. Choose feet or wheels under Base to see this chart."
                .to_string(),
        );
    };
    let now = design.base.width.value;
    let needed = narrowest(design, &mut study);
    let widest = now.max(needed.unwrap_or(now));
    let mut at = scale::places(
        Q::Length,
        system,
        (0.5 * now.min(needed.unwrap_or(now)), 1.4 * widest),
        ALLOWED,
        110,
    );
    // The design as it is and the width that is enough are places of their own, though seldom round ones.
    for own in [Some(now), needed].into_iter().flatten() {
        at.retain(|place| (place - own).abs() >= 0.5 * STEP);
        at.push(own);
    }
    at.sort_by(f64::total_cmp);
    let angles: Vec<_> = at
        .iter()
        .map(|width| study.tip_angles(Length::new::<meter>(*width)))
        .collect();
    let here = study.tip_angles(design.base.width);
    let line = |label, dash, angle: fn(&WidthAngles) -> f64| Line {
        label,
        ink: Ink::Plain,
        dash,
        values: angles.iter().map(angle).collect(),
    };
    let mut lines = vec![
        line("full", Dash::Solid, |angles| angles.full.value),
        line("empty", Dash::Long, |angles| angles.empty.value),
    ];
    if design.hopper.fitted {
        lines.push(line("hopper off", Dash::Dots, |angles| {
            angles.hopper_off.value
        }));
    }
    let limits = &design.limits;
    let wanted = limits.tip_angle_good().value;
    let least = limits.tip_angle_least.value;
    let (_, top) = range_of(lines.iter().flat_map(|line| line.values.iter().copied()));
    let lowest = weakest(design, &here);
    let show = |angle: f64| Q::Angle.show(angle, system);
    let width = |width: f64| Q::Length.show(width, system);
    let range = (0.0, top.max(1.25 * wanted));
    Ok(Chart {
        x: Axis {
            quantity: Q::Length,
            label: "Base width",
        },
        panes: vec![Pane {
            axis: Axis {
                quantity: Q::Angle,
                label: "Tip angle",
            },
            range,
            lines,
            bands: vec![
                Band {
                    from: least,
                    to: wanted,
                    tone: Tone::Watch,
                    label: format!("Watch, under {}", show(wanted)),
                },
                Band {
                    from: range.0,
                    to: least,
                    tone: Tone::Stop,
                    label: format!("Stop, under {}", show(least)),
                },
            ],
            marks: vec![Mark {
                x: now,
                y: lowest,
                label: show(lowest),
            }],
        }],
        at,
        uprights: vec![Upright {
            x: now,
            label: format!("now {}", width(now)),
        }],
        words: words(lowest, wanted, needed, now, &show, &width),
        noted: needed
            .map(|needed| (needed, "stands from here"))
            .into_iter()
            .collect(),
        none: NONE,
        stretch: None,
        lever: Some(Lever::input("base.width")),
    })
}

fn words(
    lowest: f64,
    wanted: f64,
    needed: Option<f64>,
    now: f64,
    show: &dyn Fn(f64) -> String,
    width: &dyn Fn(f64) -> String,
) -> String {
    let state = if lowest > 0.0 {
        format!("At {} it tips at {}", width(now), show(lowest))
    } else {
        format!("At {} it falls over by itself", width(now))
    };
    let wish = match needed {
        Some(needed) => format!("wanted {}, reached from {}", show(wanted), width(needed)),
        None => format!(
            "wanted {}, which no base width reaches: the depth or the height is the weak side",
            show(wanted)
        ),
    };
    format!("{state}; {wish}.")
}
