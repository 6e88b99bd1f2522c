//! How is it filled?

use super::{Standing, question};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::review::finding::{Finding, Lever, Step, Verdict};

/// Up to this height of its rim a person fills it standing on the ground, m. Common practice, no source.
const FROM_THE_GROUND: f64 = 1.5;
/// A platform ends so far below the rim, m: there the wood goes in without leaning over. Common practice, no source.
const BELOW_THE_RIM: f64 = 1.1;

/// From a platform above this height a fall does grave harm, m. Our own mark.
const HIGH_PLATFORM: f64 = 1.0;

const NEVER_OVER_IT: &str = "Opening the lid lets out carbon monoxide, which has no smell and kills, and can flash. Never lean over the open lid or look in: stand upwind and to the side, let the first gas drift off, put the wood in, shut it at once.";

/// An open top is the way of the air: what is done at a lid would choke the fire.
const NEVER_COVER_IT: &str = "While it runs the open top is its way in for the air: never shut or cover it, the wood goes in a little at a time. Carbon monoxide, which has no smell and kills, comes out of it as soon as the blower or the engine stands still, and flames can. Stand upwind and to the side, never lean over it or look in.";

/// Where wood goes in, and from where a person reaches it. No input says what stands beside it: the height alone is judged.
pub(super) fn filling(design: &Design, standing: &Standing) -> Finding {
    let vessel = &standing.machine.vessel;
    let (what, rim) = if design.hopper.fitted {
        ("hopper", vessel.hopper_top)
    } else {
        ("vessel", vessel.lid_top)
    };
    let open = design.hearth.draws_from_top();
    let length = |si: f64| Measure::new(Q::Length, si);
    let rim = rim.value;
    let platform = rim - BELOW_THE_RIM;
    let clearance = design.base.clearance.value;
    let is_high = rim > FROM_THE_GROUND;
    let mut finding = question(
        design,
        "standing.filling",
        "Where it is filled",
        "Wood goes in at the top while the fire below goes on.",
        if open {
            "Whoever reaches up to an open top leans over it, and stands in what comes out; on a ladder both hands are wanted elsewhere."
        } else {
            "Whoever reaches up to a lid leans over it, and stands in what comes out; on a ladder both hands are wanted elsewhere."
        },
    );
    finding.verdict = Verdict::at_most(platform, HIGH_PLATFORM, f64::INFINITY);
    finding.margin = Some(1.0 - platform / HIGH_PLATFORM).filter(|margin| margin.is_finite());
    finding.compared = if is_high {
        Phrase::new(
            "the rim of the {} is {} above the ground, more than the {} that a person reaches standing there: it is filled from a firm platform beside it about {} high, wanted at most {}, with a rail and not from a ladder, and nobody leans over the open {}",
            [
                what.into(),
                length(rim).into(),
                length(FROM_THE_GROUND).into(),
                length(platform).into(),
                length(HIGH_PLATFORM).into(),
                if open { "top" } else { "lid" }.into(),
            ],
        )
    } else {
        Phrase::new(
            "the rim of the {} is {} above the ground, where a person reaches it: up to {}",
            [
                what.into(),
                length(rim).into(),
                length(FROM_THE_GROUND).into(),
            ],
        )
    };
    finding.working = vec![Step {
        words: "Rim above the ground",
        formula: "H = c + z",
        values: vec![
            ("c", "vessel above ground", length(clearance)),
            (
                "z",
                "from its underside to the lid",
                length(rim - clearance),
            ),
        ],
        result: length(rim),
        source: Source::Reckoned("the machine as it is drawn"),
        sure: "The arithmetic is exact.",
    }];
    if is_high {
        finding.working.push(Step {
            words: "Platform from which the rim is at the height of the chest",
            formula: "p = H − a",
            values: vec![("a", "rim above the platform", length(BELOW_THE_RIM))],
            result: length(platform),
            source: Source::CommonPractice,
            sure: "for a person of middle height; a little higher does no harm, as long as nobody leans over",
        });
    }
    finding.caution = Some(match open {
        true => NEVER_COVER_IT,
        false => NEVER_OVER_IT,
    });
    if finding.verdict != Verdict::Good {
        let hopper = design.hopper.fitted.then_some("hopper.height");
        let levers = hopper.into_iter().chain(["base.clearance"]);
        finding.levers = levers.map(Lever::input).collect();
    }
    finding.about = if design.hopper.fitted {
        "hopper"
    } else {
        "base"
    };
    finding
}
