//! Does what the hearth is made of bear the fire?

use super::questions::finite;
use crate::design::Source::OwnMark;
use crate::design::inputs::HearthMaterial;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, celsius};
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::review::heart::{Heart, as_far_as_known};
use crate::sizing::also_needed::has_nozzles;

/// Cast walls thinner than this crack, m. Common practice, no source.
const THINNEST_CAST: f64 = 0.020;
/// Up to this share above its limit, in degrees Celsius, what comes out wears so slowly that changing it is enough. Our
/// own mark.
const WEARS: f64 = 0.10;
/// From this share above its limit on it is gone within hours, whether it comes out or not. Our own mark.
const BURNS_AWAY: f64 = 0.25;

/// What a part in the heat bears.
#[derive(Debug, Clone, Copy)]
pub(super) struct Endurance {
    /// For long, K.
    pub limit: f64,
    /// Whether it comes out without a cut or a weld.
    pub comes_out: bool,
}

impl Endurance {
    /// So far above its limit, as a share of that in degrees Celsius, K.
    fn above(self, share: f64) -> f64 {
        self.limit + share * (self.limit - celsius(0.0))
    }

    /// The hottest that is Good, K.
    pub(super) fn good(self) -> f64 {
        self.above(if self.comes_out { WEARS } else { 0.0 })
    }

    /// From here on it burns away, K.
    pub(super) fn burns_away(self) -> f64 {
        self.above(BURNS_AWAY)
    }

    /// How far a temperature is from what is Good, as a share of the limit in degrees Celsius.
    pub(super) fn margin(self, temperature: f64) -> f64 {
        (self.good() - temperature) / (self.limit - celsius(0.0))
    }
}

/// What is said of the fire tube: a straight one has no throat.
pub(super) struct TubeWords {
    /// What it is called.
    pub label: &'static str,
    title: &'static str,
    meaning: &'static str,
    why: &'static str,
    /// When it is changed.
    pub upkeep: &'static str,
    rim: &'static str,
    sure: &'static str,
    caution: &'static str,
}

const WITH_THROAT: TubeWords = TubeWords {
    label: "Fire tube and throat",
    title: "Fire tube and throat against the heat",
    meaning: "They stand in the fire: steel scales away there, and a throat that has grown wide makes tar.",
    why: "A throat that is welded in for good ends the life of the machine with its own.",
    upkeep: "change it once a wall is half gone or the throat has grown wide",
    rim: "Rim of the fire at the height of the nozzles, where it meets what is around it",
    sure: "The steel may be some ten degrees colder than the rim. The throat is not reckoned by itself: its edge reaches nearer to the hot middle, but lies below the nozzles, where making gas has begun to cool the fire. It may be hotter or colder than the rim, so look at it first. In the lean gas there it scales more slowly than in air.",
    caution: "A fire tube that burns through lets the fire at the wall and tar into the gas. Look at tube and throat often, and only when the machine is cold and has been aired: carbon monoxide stays in it.",
};
const STRAIGHT: TubeWords = TubeWords {
    label: "Fire tube",
    title: "Fire tube against the heat",
    meaning: "It stands in the fire: steel scales away there.",
    why: "A fire tube that is welded in for good ends the life of the machine with its own.",
    upkeep: "change it once a wall is half gone",
    rim: "Rim of the fire, where it meets what is around it",
    sure: "The steel may be some ten degrees colder than the rim.",
    caution: "A fire tube that burns through lets the fire at the wall and tar into the gas. Look at it often, and only when the machine is cold and has been aired: carbon monoxide stays in it.",
};

impl TubeWords {
    /// Those of this hearth.
    pub(super) fn of(design: &Design) -> &'static Self {
        if has_nozzles(design) {
            &WITH_THROAT
        } else {
            &STRAIGHT
        }
    }
}

/// The rim of the fire at its hottest load against what fire tube and throat bear.
pub(super) fn lasts(design: &Design, heart: &Heart) -> Finding {
    let hearth = &design.hearth;
    let tube = TubeWords::of(design);
    let (rim, at) = heart
        .hottest_wall()
        .map_or((f64::NAN, ""), |(wall, at)| (wall.value, at));
    let material = hearth.material.material();
    let (name, limit) =
        (design.material(material)).map_or(("", f64::NAN), |found| (found.name, found.limit.value));
    let cast = hearth.material == HearthMaterial::DenseCastable;
    let thin = cast && hearth.steel_thickness.value < THINNEST_CAST;
    let temperature = |value| Measure::new(Q::Temperature, value);
    let thickness = |value| Measure::new(Q::Thickness, value);
    let above_limit = Measure::new(Q::TemperatureDifference, rim - limit);
    let slots = [
        name.into(),
        temperature(limit).into(),
        temperature(rim).into(),
        at.into(),
        above_limit.into(),
        tube.upkeep.into(),
    ];
    let endurance = Endurance {
        limit,
        comes_out: hearth.comes_out,
    };
    let bears = Verdict::at_most(rim, endurance.good(), endurance.burns_away());
    let words = match bears {
        Verdict::Good if rim > limit => {
            "{} bears {} in lasting use, the rim of the fire is at {} {}, {} above it: it wears away and is a spare part, since it comes out. Keep another; take it out to look at it, and {}"
        }
        Verdict::Watch if hearth.comes_out => {
            "{} bears {} in lasting use, the rim of the fire is at {} {}, {} above it: it wears away fast. It comes out, but look at it often and keep another; {}"
        }
        Verdict::Watch => {
            "{} bears {} in lasting use, the rim of the fire is at {} {}, {} above it: it wears away, so make it so that it comes out, and keep another"
        }
        Verdict::Stop => {
            "{} bears {} in lasting use, the rim of the fire is at {} {}, {} above it: it burns away, and changing it does not keep up with that"
        }
        _ => "{} bears {} in lasting use, the rim of the fire is at {} {}",
    };
    // Of two faults the worse is told.
    let thin = thin && bears <= Verdict::Watch;
    let finding = Finding {
        id: "hearth.lasts",
        chapter: Chapter::Hearth,
        title: tube.title,
        meaning: tube.meaning,
        verdict: match thin {
            true => bears.max(Verdict::Watch),
            false => bears,
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
        why: tube.why,
        margin: finite(endurance.margin(rim)).filter(|_| !thin),
        working: (rim.is_finite())
            .then(|| Step {
                words: tube.rim,
                formula: "T ≤ T_max",
                values: vec![(
                    "T_max",
                    "what the material bears for long",
                    temperature(limit),
                )],
                result: temperature(rim),
                source: OwnMark(
                    "the limit is that of the table of materials; a tenth above it, in °C, is Good for what comes out, and from a quarter above it is Stop; a part that is half worn is changed",
                ),
                sure: tube.sure,
            })
            .into_iter()
            .collect(),
        caution: (rim > limit).then_some(tube.caution),
        levers: ["hearth.material", "hearth.comes_out", "hearth.steel_thickness"]
            .map(Lever::input)
            .into(),
        about: "hearth",
    };
    as_far_as_known(finding, heart.untold())
}
