//! Does a straight fire tube suit its engine?

use super::HearthReview;
use super::questions::{GREY_SHARE, TAPE, finite};
use crate::design::Design;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::review::heart::{FIRE_TUBES, Heart};
use crate::sizing::hearth_load::{TablePlace, TableTube};

fn tube_step(design: &Design, result: Measure) -> Step {
    Step {
        words: "Read from the table of fire tubes, between rows on the bore",
        formula: "from the table",
        values: vec![(
            "d",
            "bore",
            Measure::new(Q::Length, design.hearth.tube_diameter.value),
        )],
        result,
        source: FIRE_TUBES,
        sure: "Rules from one design, tested on a tractor; no least load is published for straight tubes.",
    }
}

/// The bore that the table gives to the engine.
pub(super) fn tube_for_engine_step(design: &Design, heart: &Heart, review: &HearthReview) -> Step {
    Step {
        words: "The bore of the table of fire tubes that feeds this engine, between rows on its power",
        formula: "from the table",
        values: vec![(
            "P",
            "power of the engine on petrol",
            Measure::new(Q::Power, heart.petrol_power(design).value),
        )],
        result: Measure::new(Q::Length, review.sized_bore.value),
        source: FIRE_TUBES,
        sure: "Rules from one design, tested on a tractor.",
    }
}

pub(super) fn fire_tube(design: &Design, heart: &Heart, tube: &TableTube) -> Finding {
    let wanted = heart.petrol_power(design).value;
    let power = tube.engine_power.value;
    let verdict = match Verdict::at_least(power, wanted, wanted * (1.0 - GREY_SHARE)) {
        Verdict::Good if tube.place != TablePlace::Inside => Verdict::Watch,
        other => other,
    };
    let margin = power / wanted - 1.0;
    Finding {
        id: "hearth.fire_tube",
        chapter: Chapter::Hearth,
        title: "Fire tube bore for the engine",
        meaning: "A straight fire tube needs a bore that suits the engine: too narrow starves it, too wide stays cold.",
        verdict,
        compared: Phrase::new(
            match tube.place {
                TablePlace::Inside => "a bore of {} feeds an engine of {}, yours has {}",
                TablePlace::Below => {
                    "a bore of {}, smaller than any in the table, would feed an engine of {}, yours has {}"
                }
                TablePlace::Above => {
                    "a bore of {}, larger than any in the table, would feed an engine of {}, yours has {}"
                }
            },
            [
                Measure::new(Q::Length, design.hearth.tube_diameter.value).into(),
                Measure::new(Q::Power, power).into(),
                Measure::new(Q::Power, wanted).into(),
            ],
        ),
        why: "No least load is published for straight tubes: expect tar when the engine idles for long.",
        margin: if tube.place == TablePlace::Inside {
            finite(margin)
        } else {
            finite(margin.min(-f64::EPSILON))
        },
        working: vec![tube_step(design, Measure::new(Q::Power, power))],
        caution: None,
        levers: vec![Lever::input("hearth.tube_diameter")],
        about: "hearth",
    }
}

pub(super) fn fire_tube_length(design: &Design, tube: &TableTube) -> Finding {
    let (length, least) = (design.hearth.tube_length.value, tube.least_length.value);
    Finding {
        id: "hearth.fire_tube_length",
        chapter: Chapter::Hearth,
        title: "Fire tube length",
        meaning: "The gas must stay long enough among glowing char to burn its tar.",
        verdict: Verdict::at_least(length + TAPE, least, least * (1.0 - GREY_SHARE)),
        compared: Phrase::new(
            "{} long, wanted at least {} for this bore",
            [
                Measure::new(Q::Length, length).into(),
                Measure::new(Q::Length, least).into(),
            ],
        ),
        why: "In a short tube tar passes before it is burnt.",
        margin: finite((length + TAPE) / least - 1.0),
        working: vec![tube_step(design, Measure::new(Q::Length, least))],
        caution: None,
        levers: vec![
            Lever::input("hearth.tube_length"),
            Lever::input("hearth.tube_diameter"),
        ],
        about: "hearth",
    }
}
