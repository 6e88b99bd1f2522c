//! Does a straight fire tube suit its engine?

use super::HearthReview;
use super::questions::{GREY_SHARE, TAPE, finite, load_step};
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

/// The bore that the table gives to the engine, and the hearth load held against that of the table: the marks for throats
/// say nothing of tubes.
fn by_engine(heart: &Heart, review: &HearthReview, wanted: f64, power: f64) -> Vec<Step> {
    let engine = (
        "P",
        "power of the engine on petrol",
        Measure::new(Q::Power, wanted),
    );
    let mut steps = Vec::with_capacity(3);
    steps.extend(review.sized_bore.map(|bore| Step {
        words: "The bore of the table of fire tubes that feeds this engine, between rows on its power",
        formula: "from the table",
        values: vec![engine],
        result: Measure::new(Q::Length, bore.value),
        source: FIRE_TUBES,
        sure: "Rules from one design, tested on a tractor.",
    }));
    let Some(most) = review.load_most.filter(|_| review.makes_gas.full) else {
        return steps;
    };
    let load = review.load.full.value;
    steps.push(load_step(review, heart.at.full.supply.gas_flow.value, load));
    steps.push(Step {
        words: "Most hearth load of this tube: that of the engine which the table gives to its bore. The marks for throats are no marks for tubes",
        formula: "B_most = B P_table / P",
        values: vec![
            (
                "B",
                "hearth load at full load",
                Measure::new(Q::HearthLoad, load),
            ),
            (
                "P_table",
                "engine of the table",
                Measure::new(Q::Power, power),
            ),
            engine,
        ],
        result: Measure::new(Q::HearthLoad, most.value),
        source: FIRE_TUBES,
        sure: "Rules from one design, tested on a tractor; the table gives engines, not flows of gas.",
    });
    steps
}

pub(super) fn fire_tube(
    design: &Design,
    heart: &Heart,
    review: &HearthReview,
    tube: &TableTube,
) -> Finding {
    let power = tube.engine_power.value;
    let wanted = match heart.petrol_power(design) {
        Ok(wanted) => wanted.value,
        Err(error) => {
            return Finding {
                verdict: Verdict::CannotTell,
                compared: Phrase::new(
                    "a bore of {} feeds an engine of {}; yours cannot be worked out: {}",
                    [
                        Measure::new(Q::Length, design.hearth.tube_diameter.value).into(),
                        Measure::new(Q::Power, power).into(),
                        error.to_string().into(),
                    ],
                ),
                working: vec![tube_step(design, Measure::new(Q::Power, power))],
                ..unanswered()
            };
        }
    };
    let verdict = match Verdict::at_least(power, wanted, wanted * (1.0 - GREY_SHARE)) {
        Verdict::Good if tube.place != TablePlace::Inside => Verdict::Watch,
        other => other,
    };
    let margin = power / wanted - 1.0;
    let mut working = vec![tube_step(design, Measure::new(Q::Power, power))];
    working.extend(by_engine(heart, review, wanted, power));
    Finding {
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
        margin: if tube.place == TablePlace::Inside {
            finite(margin)
        } else {
            finite(margin.min(-f64::EPSILON))
        },
        working,
        levers: vec![Lever::input("hearth.tube_diameter")],
        ..unanswered()
    }
}

fn unanswered() -> Finding {
    Finding {
        id: "hearth.fire_tube",
        chapter: Chapter::Hearth,
        title: "Fire tube bore for the engine",
        meaning: "A straight fire tube needs a bore that suits the engine: too narrow starves it, and gas rushes through before its tar is burnt; too wide stays cold.",
        verdict: Verdict::CannotTell,
        compared: Phrase::plain(""),
        why: "The table of fire tubes alone tells how hard a tube may be worked; the marks for throats do not hold for it. No least load is published for straight tubes: expect tar when the engine idles for long.",
        margin: None,
        working: Vec::new(),
        caution: None,
        levers: Vec::new(),
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

/// Where does a tube without nozzles get its air from? From above, with the wood: only an open top lets it in.
pub(super) fn air_in(design: &Design) -> Finding {
    let bore = Measure::new(Q::Length, design.hearth.tube_diameter.value);
    let lid = match design.hopper.fitted {
        true => "the lid of the hopper",
        false => "the lid of the vessel",
    };
    let open = design.hearth.top_open;
    Finding {
        id: "hearth.air_in",
        chapter: Chapter::Hearth,
        title: "Way in for the air",
        meaning: "A straight fire tube has no nozzles. All air for the fire comes down through the wood, from an open top.",
        verdict: match open {
            true => Verdict::Good,
            false => Verdict::CannotTell,
        },
        compared: Phrase::new(
            if open {
                "the air comes down with the wood into the tube of {}: {} stays open while it runs, and nothing else may shut the way; it is shut once it stops"
            } else {
                "a tube of {} has no nozzles, and nothing says that its top is open: {} must stay open while it runs, else the fire gets no air but through leaks"
            },
            [bore.into(), lid.into()],
        ),
        why: "Shut in, the fire goes out, or the engine draws air through every leak into hot gas, where it burns or explodes.",
        margin: None,
        working: Vec::new(),
        caution: Some(
            "While it runs never shut the open top, nor pile it so full that no air passes. When the draught stops, gas comes out there: carbon monoxide, which has no smell and kills, and flame. Outdoors only; never lean over it. To stop, shut it tight and keep away.",
        ),
        levers: vec![Lever::input("hearth.top_open")],
        about: "hearth",
    }
}
