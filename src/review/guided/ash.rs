//! Room under the grate for the ash of a large fire.

use crate::design::Design;
use crate::review::assess;
use crate::review::finding::Verdict;
use crate::sizing::machine::HearthShape;
use uom::si::f64::Length;
use uom::si::length::meter;

/// The ash has this share more room than it needs, since wood and walls change a little yet. Our own choice.
const ASH_RESERVE: f64 = 0.05;
/// The hearth wall grows by steps of this for its ash, and by no more than the second, m. Our own choice.
const ASH_STEP: f64 = 0.005;
const ASH_MOST: f64 = 0.2;

/// A larger fire leaves more ash: the wall around the hearth grows until the room under the grate holds it as long as wanted.
pub(super) fn leave_room(design: &mut Design) {
    let assessment = assess(design);
    let Some(finding) = assessment.finding("hearth.ash_room") else {
        return;
    };
    let Some(margin) = finding.margin.filter(|_| finding.verdict != Verdict::Good) else {
        return;
    };
    // Half of what the hearth leaves free of its wall lies under the grate.
    let lacks = HearthShape::ash_room(design).value * ((1.0 + ASH_RESERVE) / (1.0 + margin) - 1.0);
    let grows = (2.0 * lacks / ASH_STEP).ceil() * ASH_STEP;
    if grows.is_finite() {
        design.hearth_wall.height += Length::new::<meter>(grows.clamp(0.0, ASH_MOST));
    }
}
