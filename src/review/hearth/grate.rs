//! Does the grate go in, hold the char and let the gas through?

use super::fits::length;
use super::questions::{TAPE, finite};
use crate::design::Design;
use crate::design::Source::OwnMark;
use crate::design::inputs::HearthKind;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::review::train::levers::NO_HOLE;
use crate::sizing::grate::{UnderChar, under_char};
use crate::sizing::pattern::PatternError;
use std::f64::consts::PI;

/// Open area of the grate under the char, over that of the throat; under a straight tube, over that of the tube. Our own
/// marks: ash closes part of it, and a drilled plate cannot be all holes.
const OPEN_PER_THROAT: f64 = 1.0;
const OPEN_PER_TUBE: f64 = 0.25;
/// A grate narrower than the char above it by less than this share is Watch. Our own mark.
const MOSTLY_UNDER: f64 = 0.9;
/// Holes wider than the char by this are no grate for it: it is a Stop. Our own mark.
const FALLS_THROUGH: f64 = 1.5;
/// Below this share of the open area wanted it is a Stop. Our own mark.
const THROTTLED: f64 = 0.25;

/// Does the grate go into the vessel, reach under all of the char, hold it, and let the gas through?
pub(super) fn grate(design: &Design) -> Finding {
    let mut finding = Finding {
        id: "hearth.grate",
        chapter: Chapter::Hearth,
        title: "Grate under the char",
        meaning: "The char rests on the grate. Ash must fall through it and gas pass, but no char.",
        verdict: Verdict::CannotTell,
        compared: Phrase::plain(""),
        why: "Char that falls through is wood wasted, and the bed sinks from under the fire. A grate that is too closed takes the engine's breath.",
        margin: None,
        working: Vec::new(),
        caution: None,
        levers: Vec::new(),
        about: "grate",
    };
    let under = match under_char(design) {
        Ok(under) => under,
        Err(error) => {
            finding.compared = Phrase::new("{}", [error.to_string().into()]);
            if error == PatternError::NoHole {
                finding.verdict = Verdict::Stop;
                finding.margin = Some(-1.0);
                finding.levers = NO_HOLE.map(Lever::input).into();
            }
            return finding;
        }
    };
    // What is worst is told; all four must be right.
    let worst = demands(design, &under).into_iter().min_by(|one, other| {
        (other.verdict.cmp(&one.verdict)).then(one.ratio.total_cmp(&other.ratio))
    });
    let Some(worst) = worst else {
        return finding;
    };
    (finding.verdict, finding.margin) = (worst.verdict, finite(worst.ratio - 1.0));
    if worst.verdict == Verdict::Good {
        finding.compared = all_right(design, &under);
    } else {
        finding.compared = worst.compared;
        finding.levers = worst.levers.iter().copied().map(Lever::input).collect();
    }
    finding.working = vec![open_area(design, &under)];
    finding
}

/// What a grate must do, and how far it does.
struct Demand {
    verdict: Verdict,
    /// What there is over what is wanted.
    ratio: f64,
    compared: Phrase,
    levers: &'static [&'static str],
}

fn thin(value: f64) -> Slot {
    Measure::new(Q::Thickness, value).into()
}

fn area(value: f64) -> Measure {
    Measure::new(Q::Area, value)
}

/// Open area that is wanted under the char, m².
fn wanted_open(design: &Design) -> f64 {
    let hearth = &design.hearth;
    let (narrowest, share) = match hearth.kind {
        HearthKind::Constricted => (hearth.throat_diameter.value, OPEN_PER_THROAT),
        HearthKind::Straight => (hearth.tube_diameter.value, OPEN_PER_TUBE),
    };
    share * 0.25 * PI * narrowest * narrowest
}

fn demands(design: &Design, under: &UnderChar) -> [Demand; 4] {
    let (diameter, hole) = (design.grate.diameter.value, design.grate.hole.value);
    let char = design.hearth.char_size.value;
    let room = design.hearth_wall.inside_diameter.value;
    let (foot, open, wanted) = (under.foot.value, under.open.value, wanted_open(design));
    [
        Demand {
            verdict: Verdict::at_least(room, diameter, diameter),
            ratio: room / diameter,
            compared: Phrase::new(
                "the grate is {} across, the hearth wall {} inside: it does not go in",
                [length(diameter), length(room)],
            ),
            levers: &["grate.diameter", "hearth_wall.inside_diameter"],
        },
        Demand {
            verdict: Verdict::at_least(diameter + TAPE, foot, MOSTLY_UNDER * foot),
            ratio: diameter / foot,
            compared: Phrase::new(
                "the grate is {} across, the char above it {}: char falls past its edge",
                [length(diameter), length(foot)],
            ),
            levers: &["grate.diameter"],
        },
        Demand {
            verdict: Verdict::at_most(hole, char, FALLS_THROUGH * char),
            ratio: char / hole,
            compared: Phrase::new(
                "its holes are {}, the char pieces {}: char falls through",
                [thin(hole), thin(char)],
            ),
            levers: &["grate.hole", "grate.pitch"],
        },
        Demand {
            verdict: Verdict::at_least(open, wanted, THROTTLED * wanted),
            ratio: open / wanted,
            compared: Phrase::new(
                "{} of its area under the char is open, wanted {}",
                [area(open).into(), area(wanted).into()],
            ),
            levers: &["grate.diameter", "grate.hole", "grate.pitch"],
        },
    ]
}

fn all_right(design: &Design, under: &UnderChar) -> Phrase {
    Phrase::new(
        "{} across under char of {}, holes of {} for char pieces of {}; {} of its area is open, wanted {}",
        [
            length(design.grate.diameter.value),
            length(under.foot.value),
            thin(design.grate.hole.value),
            thin(design.hearth.char_size.value),
            area(under.open.value).into(),
            area(wanted_open(design)).into(),
        ],
    )
}

fn open_area(design: &Design, under: &UnderChar) -> Step {
    Step {
        words: "Open area of the holes under the char",
        formula: "A = n π/4 · d²",
        values: vec![
            (
                "n",
                "holes under the char",
                Measure::new(Q::Count, under.holes),
            ),
            (
                "d",
                "hole",
                Measure::new(Q::Thickness, design.grate.hole.value),
            ),
        ],
        result: area(under.open.value),
        source: OwnMark(
            "as much as the throat, or a quarter of a straight tube: ash and char cover part of it",
        ),
        sure: "The holes are counted; how much of them char covers is not known.",
    }
}
