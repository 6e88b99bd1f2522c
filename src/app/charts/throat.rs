//! Hearth load against throat.

use super::chart::{
    Answer, Axis, Band, Chart, Dash, Ink, Line, Mark, NONE, Pane, Question, Tone, Upright,
};
use super::scale;
use crate::design::inputs::HearthKind;
use crate::design::quantity::{Quantity as Q, System};
use crate::design::{Design, Kind};
use crate::review::{Assessment, AtLoads, Lever, LoadPoint, load_against_throat};
use crate::sizing::hearth_load::size_throat;
use uom::si::f64::{Length, Velocity};
use uom::si::length::meter;
use uom::si::velocity::meter_per_second;

/// What the chart is about.
pub const QUESTION: Question = Question {
    name: "throat",
    title: "Hearth load against throat",
    meaning: "Hearth load is the gas flow over the area of the narrowest bore. Too much tears char away, too little lets tar pass.",
};

/// The chart of a design.
pub fn answer(design: &Design, assessment: &Assessment, system: System) -> Answer {
    let hearth = &assessment.hearth;
    if !hearth.makes_gas.full {
        return Err("at full load this hearth makes no gas that burns.".to_string());
    }
    let straight = hearth.kind == HearthKind::Straight;
    let path = if straight {
        "hearth.tube_diameter"
    } else {
        "hearth.throat_diameter"
    };
    let allowed = match design.input(path).map(|input| input.kind) {
        Some(Kind::Number { allowed, .. }) => allowed,
        _ => (0.02, 0.6),
    };
    let least = design.limits.hearth_load_least;
    let most = hearth.load_most.map(|most| most.value);
    let now = hearth.bore.value;
    let sized = hearth.sized_bore.map_or(now, |bore| bore.value);
    let widest_idle = size_throat(
        assessment.heart.at.idle.supply.gas_flow,
        Velocity::new::<meter_per_second>(least),
    )
    .value;
    let round = scale::places(
        Q::Length,
        system,
        (0.6 * now.min(sized), 1.5 * now.max(sized)),
        allowed,
        110,
    );
    let (Some(first), Some(last)) = (round.first(), round.last()) else {
        return Err("The wanted gas flow needs a bore outside the allowed range.".to_string());
    };
    let points = load_against_throat(
        design,
        Length::new::<meter>(*first),
        Length::new::<meter>(*last),
        round.len() as u32,
    );
    // Nothing where no gas burns: its flow would only stand in for an answer.
    let line = |label, dash, load: fn(&AtLoads<Option<Velocity>>) -> Option<Velocity>| {
        let values: Option<Vec<f64>> = points
            .iter()
            .map(|point: &LoadPoint| load(&point.load).map(|load| load.value))
            .collect();
        values.map(|values| Line {
            label,
            ink: Ink::Gas,
            dash,
            values,
        })
    };
    let mut lines: Vec<Line> = [
        line("full load", Dash::Solid, |load| load.full),
        line("usual load", Dash::Long, |load| load.usual),
        line("lowest load", Dash::Dots, |load| load.idle),
    ]
    .into_iter()
    .flatten()
    .collect();
    let full = hearth.load.full.value;
    let range = (0.0, (1.6 * most.unwrap_or(full)).max(1.25 * full));
    let bare = |load: f64| scale::number(Q::HearthLoad, load, system);
    let show = |load: f64| Q::HearthLoad.show(load, system);
    let length = |bore: f64| Q::Length.show(bore, system);
    let mut bands = Vec::with_capacity(2);
    let mark = |load: Velocity, label| Mark {
        x: now,
        y: load.value,
        label,
    };
    let mut marks = vec![mark(hearth.load.full, bare(full))];
    let name = if straight { "bore" } else { "throat" };
    let mut words = format!(
        "With a {name} of {} the hearth load is {} at full load; ",
        length(now),
        show(full),
    );
    words.push_str(&match most {
        Some(most) if straight => format!(
            "the table of fire tubes gives it {} at most. By that table {} suits this engine.",
            bare(most),
            length(sized),
        ),
        Some(most) => format!(
            "wanted at most {}, which takes a throat of {} or wider.",
            bare(most),
            length(sized)
        ),
        None => "the engine gives no answer to hold it against.".to_string(),
    });
    // A straight tube burns from an open top: both published marks are for a throat under nozzles, and the most that its
    // own table gives changes with its bore.
    if straight {
        lines.push(Line {
            label: "most by the table",
            ink: Ink::Plain,
            dash: Dash::Short,
            values: points
                .iter()
                .map(|point| point.most.map_or(f64::NAN, |most| most.value))
                .collect(),
        });
    } else {
        bands.extend(most.map(|most| Band {
            from: most,
            to: range.1,
            tone: Tone::Stop,
            label: format!("over {}: char torn away", bare(most)),
        }));
        bands.push(Band {
            from: range.0,
            to: least,
            tone: Tone::Watch,
            label: format!("under {}: tar passes", bare(least)),
        });
        if hearth.makes_gas.idle {
            marks.push(mark(hearth.load.idle, bare(hearth.load.idle.value)));
            words.push_str(&format!(
                " At the lowest load it is {}; wanted at least {}, which takes a throat of {} or narrower.",
                bare(hearth.load.idle.value),
                bare(least),
                length(widest_idle),
            ));
        } else {
            words.push_str(" At the lowest load no gas burns: nothing is drawn for it.");
        }
    }
    Ok(Chart {
        x: Axis {
            quantity: Q::Length,
            label: if straight { "Fire tube bore" } else { "Throat" },
        },
        at: points.iter().map(|point| point.bore.value).collect(),
        panes: vec![Pane {
            axis: Axis {
                quantity: Q::HearthLoad,
                label: "Hearth load",
            },
            range,
            lines,
            bands,
            marks,
        }],
        uprights: vec![Upright {
            x: now,
            label: format!("now {}", length(now)),
        }],
        words,
        noted: Vec::new(),
        none: NONE,
        stretch: None,
        lever: Some(Lever::input(path)),
    })
}
