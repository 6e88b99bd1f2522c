//! Does dead weight hang where the weight reckons it?

use super::question;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::ballast::{Unheld, has_ballast, underside_of_bars, unheld};
use uom::si::f64::Length;

/// Its question.
pub(in crate::review) const BALLAST_HANGS: &str = "standing.ballast";

/// Ballast under the bars of the base. Only asked where there is any.
pub(super) fn ballast(design: &Design) -> Option<Finding> {
    if !has_ballast(design) {
        return None;
    }
    let mut finding = question(
        design,
        BALLAST_HANGS,
        "Ballast at the bars of the base",
        "Dead weight that makes a machine stand better. Weight and tipping take it where it was placed, at whatever height that is.",
        "What hangs in the air cannot be bolted there: hung elsewhere it holds the machine worse than reckoned, and on the ground it carries nothing.",
    );
    finding.about = "parts";
    let base = &design.base;
    let length = |length: Length| Measure::new(Q::Length, length.value);
    let bars = Measure::new(Q::Length, underside_of_bars(design));
    finding.working = vec![Step {
        words: "Underside of the bars",
        formula: "u = c − s",
        values: vec![
            ("c", "ground clearance", length(base.clearance)),
            ("s", "width of the frame tube", length(base.frame_side)),
        ],
        result: bars,
        source: Source::CommonPractice,
        sure: "as exact as the frame is entered",
    }];
    let Some(found) = unheld(design) else {
        finding.verdict = Verdict::Good;
        finding.margin = Some(0.0);
        finding.compared = Phrase::new(
            "it hangs right under the bars, at {}, or lies on them",
            [bars.into()],
        );
        return Some(finding);
    };
    finding.verdict = match found.is_on_ground() {
        true => Verdict::Stop,
        false => Verdict::Watch,
    };
    finding.margin = Some(-((found.top - found.level) / found.level).value.abs())
        .filter(|margin| margin.is_finite() && *margin < 0.0);
    finding.compared = compared(&found);
    finding.working.push(Step {
        words: "Underside of the ballast if it hung there, under the bars or under what hangs there already",
        formula: "z = v − h",
        values: vec![
            ("v", "underside of what it hangs from", length(found.level)),
            ("h", "its height", length(found.top - found.underside)),
        ],
        result: length(found.level - (found.top - found.underside)),
        source: Source::CommonPractice,
        sure: "as exact as its height is entered",
    });
    if found.fits.is_some() {
        let path = Design::item_input("parts", found.place, "z");
        finding.levers = vec![Lever::input(path)];
    }
    Some(finding)
}

fn compared(found: &Unheld) -> Phrase {
    let length = |length: Length| Measure::new(Q::Length, length.value).into();
    let ends = [length(found.underside), length(found.top)];
    let level = length(found.level);
    match (found.is_on_ground(), found.fits) {
        (true, Some(fits)) => Phrase::new(
            "it reaches from {} to {} and touches the ground; under the bars, at {}, it would hang at a height of {}",
            ends.into_iter().chain([level, length(fits)]),
        ),
        (true, None) => Phrase::new(
            "it reaches from {} to {} and touches the ground; it hangs from {}, where it has no room: make it lower and wider, or lighter",
            ends.into_iter().chain([level]),
        ),
        (false, Some(fits)) => Phrase::new(
            "it reaches from {} to {}, and nothing of the frame holds it there; under the bars, at {}, it would hang at a height of {}. If it is held elsewhere, give it another name",
            ends.into_iter().chain([level, length(fits)]),
        ),
        (false, None) => Phrase::new(
            "it reaches from {} to {}, and nothing of the frame holds it there; under the bars, at {}, it has no room: make it lower and wider, or lighter",
            ends.into_iter().chain([level]),
        ),
    }
}
