//! What becomes of the closed ends of a vessel that was measured?

use super::MarkingReview;
use super::questions::{length, question};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::review::finding::{Finding, Step, Verdict};
use crate::sizing::build_order::closed_top;
use crate::sizing::marking::Vessel;

const DISHED: &str = "A vessel that is closed above is opened there before it is lined. A dished end gives no straight shell to line, and no flat bottom.";

/// A closed top comes off before the vessel is lined, and a dished end gives no straight shell. A flat top takes nothing
/// along: it is told, with its caution, and is no fault. Not asked of open or flat ends below, nor of a vessel that is lined
/// already.
pub(super) fn ends(design: &Design, review: &MarkingReview) -> Option<Finding> {
    let real = &design.real_vessel;
    let (below, above) = (real.below_straight(), real.above_straight());
    let comes_off = closed_top(design);
    let is_dished = below.value > 0.0 && !real.lined;
    if !comes_off && !is_dished {
        return None;
    }
    let straight = Vessel::bought(real).length;
    let top = Phrase::new(
        "its closed top comes off {} above its lowest point, which leaves {} of straight shell",
        [length(real.length - above), length(straight)],
    );
    let bottom = Phrase::new(
        "its dished bottom is no place for flat discs: it is filled level first, {} deep, its layers begin above that, and it reaches as far below them as it is dished outwards",
        [length(below)],
    );
    let rocks = "A lid, a liner and holes made for the whole length of a tank come out too high, and discs that rock in a dish leave hollows for gas and embers.";
    let (verdict, meaning, why) = match (is_dished, above.value > 0.0) {
        (true, _) => (Verdict::Watch, DISHED, rocks),
        (false, true) => (
            Verdict::Watch,
            DISHED,
            "A lid, a liner and holes made for the whole length of a tank come out too high.",
        ),
        (false, false) => (
            Verdict::Good,
            "A vessel that is closed above is opened there before it is lined.",
            "Neither liner nor lid goes in while the top is on. A flat one comes off whole and leaves the shell as long as it was.",
        ),
    };
    let told = |metres: uom::si::f64::Length| Measure::new(Q::Length, metres.value);
    Some(Finding {
        verdict,
        compared: match (comes_off, is_dished) {
            (true, true) => Phrase::new("{}; {}", [top.into(), bottom.into()]),
            (true, false) => top,
            (false, _) => bottom,
        },
        working: vec![Step {
            words: "Straight shell that is left",
            formula: "s = L − d_b − d_t",
            values: vec![
                ("L", "from end to end", told(real.length)),
                ("d_b", "dish of the bottom", told(below)),
                ("d_t", "dish of the top", told(above)),
            ],
            result: told(straight),
            source: Source::CommonPractice,
            sure: "as sure as both ends are dished alike",
        }],
        about: "real_vessel",
        ..question(
            "marking.ends",
            "Closed ends of the vessel",
            meaning,
            why,
            review,
        )
    })
}
