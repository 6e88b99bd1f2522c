//! Are the welds of a shell that is rolled as planned where its walls end?

use super::MarkingReview;
use super::questions::{length, question};
use crate::design::Design;
use crate::design::Source::OwnMark;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::machine;
use uom::si::f64::Length;

/// A round seam of the plan beside the end of a wall, both above the bottom end.
struct Seam {
    name: &'static str,
    path: &'static str,
    planned: Length,
    /// Where the shell has its weld.
    weld: Length,
}

impl Seam {
    fn off(&self) -> Length {
        (self.planned - self.weld).abs()
    }
}

/// A shell that is rolled is welded where bottom, hearth wall and body wall meet, and its holes are marked out by the seams
/// of the plan. Not asked of a vessel that is bought or measured: that has the seams it has. A seam that the plan leaves out
/// is one that the shell does without.
pub(super) fn seams(design: &Design, review: &MarkingReview) -> Option<Finding> {
    let (real, plan) = (&design.real_vessel, &design.plan_vessel);
    if real.measured || !real.rolled {
        return None;
    }
    let (vessel, _) = machine::measures(design);
    let seams = [
        Seam {
            name: "lower round seam",
            path: "plan_vessel.lower_seam",
            planned: plan.lower_seam,
            weld: vessel.hearth_bottom - vessel.underside,
        },
        Seam {
            name: "upper round seam",
            path: "plan_vessel.upper_seam",
            planned: plan.upper_seam,
            weld: vessel.hearth_top - vessel.underside,
        },
    ];
    let worst = (seams.into_iter())
        .filter(|seam| seam.planned.value > 0.0)
        .max_by(|one, other| one.off().value.total_cmp(&other.off().value))?;
    let (off, allowed) = (worst.off(), design.limits.hole_off);
    let verdict = Verdict::at_most(off.value, allowed.value, f64::INFINITY);
    let words = match verdict {
        Verdict::Good => {
            "the {} of the plan lies {} above the bottom end, the weld between the walls {}: {} apart, allowed {}"
        }
        _ => {
            "the {} of the plan lies {} above the bottom end, but the walls that are rolled are welded at {}: {} apart, allowed {}; holes are kept clear of a weld that is not there"
        }
    };
    let sizes = [worst.planned, worst.weld, off, allowed].map(length);
    let measure = |length: Length| Measure::new(Q::Length, length.value);
    let walls = (worst.path.ends_with("upper_seam")).then(|| Lever::input("hearth_wall.height"));
    Some(Finding {
        verdict,
        compared: Phrase::new(words, [worst.name.into()].into_iter().chain(sizes)),
        margin: Some(1.0 - (off / allowed).value).filter(|margin| margin.is_finite()),
        levers: [Lever::input(worst.path)]
            .into_iter()
            .chain(walls)
            .collect(),
        working: vec![Step {
            words: "How far the seam of the plan lies from the weld",
            formula: "Δh = |h_plan − h|",
            values: vec![
                (
                    "h_plan",
                    "seam of the plan above the bottom end",
                    measure(worst.planned),
                ),
                (
                    "h",
                    "where the layers of the bottom, or these and the hearth wall, end",
                    measure(worst.weld),
                ),
            ],
            result: measure(off),
            source: OwnMark("as far as a hole may be off"),
            sure: "The arithmetic is exact.",
        }],
        about: "plan_vessel",
        ..question(
            "marking.seams",
            "Seams of the plan where the walls end",
            "A shell that you roll is welded where the bottom ends, and where hearth wall and body wall meet. The plan has its round seams there.",
            "When a wall is made taller and the plan is not, a hole is cut into a weld, and shell and parts list are of two machines.",
            review,
        )
    })
}
