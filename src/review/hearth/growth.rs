//! Does the hearth still go into its wall when both are hot?

use super::questions::finite;
use crate::design::Design;
use crate::design::Source::{FromMemory, OwnMark};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Step, Verdict};
use crate::review::heart::{Heart, as_far_as_known};
use crate::sizing::hearth_growth::{HotRoom, ROUND, hot_room};
use crate::sizing::machine::HearthShape;
use uom::si::f64::{TemperatureCoefficient, ThermodynamicTemperature};

const MEAN: crate::design::Source = FromMemory(
    "EN 10095 for stainless steel, handbooks and makers' data sheets for the rest: mean from 20 °C to 1000 °C",
);

/// Holds a hearth that goes in cold against what it grows at the hottest load; nobody can tell where the hearth has no
/// solution. Nothing where the innermost layer of the wall is soft, or where it is not known how the hearth grows.
pub(super) fn hot(design: &Design, heart: &Heart, mut finding: Finding) -> Finding {
    // Whether anything can be told of their growth is the same in any heat.
    if hot_room(design, design.limits.tar_temperature).is_none() {
        return finding;
    }
    let rim = heart.hottest_wall();
    if let Some((rim, at)) = rim {
        grown(design, (rim, at), &mut finding);
    }
    match rim.is_none() || heart.is_unsolved() {
        true => as_far_as_known(finding, heart.untold()),
        false => finding,
    }
}

/// With the rim of the fire this hot at a load.
fn grown(
    design: &Design,
    (rim, at): (ThermodynamicTemperature, &'static str),
    finding: &mut Finding,
) {
    let Some(room) = hot_room(design, rim) else {
        return;
    };
    let (outside, inside) = (
        HearthShape::widest(design).value,
        design.hearth_wall.inside_diameter.value,
    );
    let left = room.left.value;
    let length = |value| Measure::new(Q::Length, value);
    let thickness = |value: f64| Measure::new(Q::Thickness, value);
    finding.verdict = Verdict::at_least(left, ROUND, 0.0);
    let start = [
        length(inside).into(),
        length(outside).into(),
        Measure::new(Q::Temperature, rim.value).into(),
        at.into(),
    ];
    let (words, wanted) = match finding.verdict {
        Verdict::Stop => (
            "the hearth wall is {} wide inside, the hearth at its widest {} outside; with the rim of the fire at {} {} it grows to {} more than the wall: it binds",
            None,
        ),
        _ => (
            "the hearth wall is {} wide inside, the hearth at its widest {} outside; with the rim of the fire at {} {} that leaves {} across, wanted {}",
            Some(thickness(ROUND).into()),
        ),
    };
    let slots = start.into_iter().chain([thickness(left.abs()).into()]);
    finding.compared = Phrase::new(words, slots.chain(wanted));
    finding.margin = finite((left - ROUND) / outside);
    finding.working.extend(steps(design, rim, &room));
}

fn steps(design: &Design, rim: ThermodynamicTemperature, room: &HotRoom) -> Vec<Step> {
    let length = |value| Measure::new(Q::Length, value);
    let temperature = |value| Measure::new(Q::Temperature, value);
    let (outside, inside) = (
        HearthShape::widest(design).value,
        design.hearth_wall.inside_diameter.value,
    );
    let warm = [
        ("T", "rim of the fire", temperature(rim.value)),
        (
            "T_a",
            "air, when all is cold",
            temperature(design.site.air_temperature.value),
        ),
    ];
    let by = |coefficient: TemperatureCoefficient| Measure::new(Q::Number, coefficient.value * 1e6);
    let mut steps = vec![Step {
        words: "By how much the hearth grows across",
        formula: "ΔD = α/10⁶ · (T − T_a) D",
        values: [
            (
                "α",
                "what it is made of, millionths for each kelvin",
                by(room.of_tube),
            ),
            ("D", "outside, where it is widest", length(outside)),
        ]
        .into_iter()
        .chain(warm)
        .collect(),
        result: Measure::new(Q::Thickness, room.tube.value),
        source: MEAN,
        sure: "Within a tenth; steel may be some ten degrees colder than the rim.",
    }];
    steps.extend(room.of_wall.map(|of_wall| Step {
        words: "By how much the wall gets wider inside",
        formula: "Δd = β/10⁶ · (T − T_a) d",
        values: [
            (
                "β",
                "its innermost layer, millionths for each kelvin",
                by(of_wall),
            ),
            ("d", "inside of the hearth wall", length(inside)),
        ]
        .into_iter()
        .chain(warm)
        .collect(),
        result: Measure::new(Q::Thickness, room.wall.value),
        source: MEAN,
        sure: "As if it were as hot as the rim; while the fire is lit it is colder, and the room smaller.",
    }));
    let mut values = vec![
        ("d", "inside of the hearth wall", length(inside)),
        ("D", "outside of the hearth", length(outside)),
        (
            "ΔD",
            "by which that grows",
            Measure::new(Q::Thickness, room.tube.value),
        ),
    ];
    values.extend((room.of_wall).map(|_| {
        (
            "Δd",
            "by which the wall gets wider",
            Measure::new(Q::Thickness, room.wall.value),
        )
    }));
    steps.push(Step {
        words: "What is left between them when both are hot",
        formula: match room.of_wall {
            Some(_) => "x = d + Δd − D − ΔD",
            None => "x = d − D − ΔD",
        },
        values,
        result: Measure::new(Q::Thickness, room.left.value),
        source: OwnMark("some room is left: tubes are out of round, and a lining that is still cold is narrower"),
        sure: "Where it is not known how the lining grows it is taken not to grow at all. Bound by the sum is a Stop.",
    });
    steps
}
