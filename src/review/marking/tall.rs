//! Is the vessel that was measured, or the shell that is rolled, as tall as the design?

use super::MarkingReview;
use super::questions::{length, question};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::machine;
use crate::sizing::marking::Vessel;

/// The vessel may be this share taller or shorter than its walls. Our own marks.
const TALL_WATCH: f64 = 0.02;
const TALL_STOP: f64 = 0.10;
/// A liner that stands out of a vessel that is there by more, m, keeps the lid off its flange. Our own mark.
const STANDS_OUT: f64 = 0.003;

/// Hearth wall and body wall must fill the vessel that was bought: weight, tipping and heat are reckoned with them. Not
/// asked of one that is bought before it is measured. A shell that is rolled as planned is cut as long as the plan has it, and
/// must not be another than its walls; the plan is put right on paper, so that this stops nothing.
pub(super) fn as_tall(design: &Design, review: &MarkingReview) -> Option<Finding> {
    let real = &design.real_vessel;
    let (long, [good, stop]) = match (real.measured, real.rolled) {
        (true, _) => (Vessel::bought(real).length, [TALL_WATCH, TALL_STOP]),
        (false, true) => (design.plan_vessel.length, [TALL_WATCH, f64::INFINITY]),
        (false, false) => return None,
    };
    let (vessel, _) = machine::measures(design);
    let walls = vessel.body_top - vessel.underside;
    let more = long - walls;
    let off = (more / walls).value.abs();
    let good = match real.measured && more.value < 0.0 {
        true => (STANDS_OUT / walls.value).min(good),
        false => good,
    };
    let mut finding = question(
        "marking.tall",
        "Vessel as tall as the design",
        "From its bottom end to its top end the vessel holds the bottom, the hearth wall and the body wall.",
        "In a taller vessel lid and hopper sit higher, so that it weighs more and tips sooner than is told; in a shorter one there is no room for all of it.",
        review,
    );
    finding.about = if real.measured {
        "real_vessel"
    } else {
        "plan_vessel"
    };
    finding.verdict = Verdict::at_most(off, good, stop);
    finding.margin = Some(1.0 - off / good).filter(|margin| margin.is_finite());
    let words = match (finding.verdict, more.value > 0.0) {
        (Verdict::Good, _) if !real.measured => {
            "the shell of the plan {}, bottom, hearth wall and body wall take {}"
        }
        _ if !real.measured => {
            "the shell of the plan {}, but the walls that are rolled take {} with the bottom: {} apart; the hole table is of another shell than the parts list"
        }
        (Verdict::Good, _) => {
            "the vessel you measured {}, bottom, hearth wall and body wall take {}"
        }
        (_, true) => {
            "the vessel you measured {}, bottom, hearth wall and body wall take {}: {} more, by which lid and hopper sit higher"
        }
        (_, false) => {
            "the vessel you measured {}, bottom, hearth wall and body wall take {}: {} too little, so that the lining stands out and the lid does not reach its flange"
        }
    };
    let is_long = match real.measured && long < real.length {
        true => "has {} of straight shell",
        false => "is {} long",
    };
    let is_long = Phrase::new(is_long, [length(long)]).into();
    let slots = [walls, more.abs()].map(length);
    finding.compared = Phrase::new(words, [is_long].into_iter().chain(slots));
    let told = |metres: f64| Measure::new(Q::Length, metres);
    finding.working = vec![Step {
        words: "Height that bottom, hearth wall and body wall take",
        formula: "H = b + h + w",
        values: vec![
            (
                "b",
                "layers of the bottom",
                told((vessel.hearth_bottom - vessel.underside).value),
            ),
            ("h", "hearth wall", told(design.hearth_wall.height.value)),
            ("w", "body wall", told(design.body_wall.height.value)),
        ],
        result: told(walls.value),
        source: Source::OwnMark(
            "two in a hundred more are taken up by the ends; a lining that stands out by more than 3 mm (1/8 in) keeps the lid off its flange",
        ),
        sure: "as sure as the layers of the bottom lie inside the vessel",
    }];
    // Of the two the body wall is no part of the fire.
    let walls = ["body_wall.height", "hearth_wall.height"];
    let planned = (!real.measured).then_some("plan_vessel.length");
    finding.levers = (planned.into_iter().chain(walls))
        .map(Lever::input)
        .collect();
    Some(finding)
}
