//! Does what the hearth is made of bear the fire?

use super::questions::finite;
use crate::design::Design;
use crate::design::Source::CommonPractice;
use crate::design::inputs::HearthMaterial;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::review::heart::Heart;

/// Cast walls thinner than this crack, m. Common practice, no source.
const THINNEST_CAST: f64 = 0.020;

/// The rim of the fire at its hottest load against what fire tube and throat bear.
pub(super) fn lasts(design: &Design, heart: &Heart) -> Finding {
    let hearth = &design.hearth;
    let hottest = (heart.walls()).reduce(|hottest, next| match next.0 > hottest.0 {
        true => next,
        false => hottest,
    });
    let (rim, at) = hottest.map_or((f64::NAN, ""), |(wall, at)| (wall.value, at));
    let material = hearth.material.material();
    let (name, limit) =
        (design.material(material)).map_or(("", f64::NAN), |found| (found.name, found.limit.value));
    let cast = hearth.material == HearthMaterial::DenseCastable;
    let thin = cast && hearth.steel_thickness.value < THINNEST_CAST;
    let temperature = |value| Measure::new(Q::Temperature, value);
    let thickness = |value| Measure::new(Q::Thickness, value);
    let slots = [
        name.into(),
        temperature(limit).into(),
        temperature(rim).into(),
        at.into(),
    ];
    let bears = Verdict::at_most(rim, limit, f64::INFINITY);
    let (verdict, words) = match bears {
        Verdict::Watch if hearth.comes_out => (
            Verdict::Good,
            "{} bears {}, the rim of the fire is at {} {}: it wears away, but it comes out; keep another",
        ),
        Verdict::Watch => (
            bears,
            "{} bears {}, the rim of the fire is at {} {}: it wears away, so make it so that it comes out, and keep another",
        ),
        _ => (bears, "{} bears {}, the rim of the fire is at {} {}"),
    };
    Finding {
        id: "hearth.lasts",
        chapter: Chapter::Hearth,
        title: "Fire tube and throat against the heat",
        meaning: "They stand in the fire: steel scales away there, and a throat that has grown wide makes tar.",
        verdict: match thin {
            true => verdict.max(Verdict::Watch),
            false => verdict,
        },
        compared: match (rim.is_finite(), thin) {
            (false, _) => Phrase::plain("cannot be told while the hearth makes no gas that burns"),
            (_, true) => Phrase::new(
                "cast walls of {} crack; wanted {}",
                [
                    thickness(hearth.steel_thickness.value).into(),
                    thickness(THINNEST_CAST).into(),
                ],
            ),
            _ => Phrase::new(words, slots),
        },
        why: "A throat that is welded in for good ends the life of the machine with its own.",
        margin: finite((limit - rim) / (limit - 273.15)).filter(|_| verdict == bears && !thin),
        working: (rim.is_finite())
            .then(|| Step {
                words: "Rim of the fire, where it meets what is around it",
                formula: "T ≤ T_max",
                values: vec![(
                    "T_max",
                    "what the material bears for long",
                    temperature(limit),
                )],
                result: temperature(rim),
                source: CommonPractice,
                sure: "The steel may be some ten degrees colder than the rim. In the lean gas below the nozzles it scales more slowly than in air.",
            })
            .into_iter()
            .collect(),
        caution: None,
        levers: ["hearth.comes_out", "hearth.material", "hearth.steel_thickness"]
            .map(Lever::input)
            .into(),
        about: "hearth",
    }
}
