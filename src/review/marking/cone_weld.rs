//! Do the nozzle holes keep clear of the weld between fire tube and cone?

use super::MarkingReview;
use super::fit::across;
use super::questions::question;
use crate::design::Design;
use crate::design::Source::OwnMark;
use crate::design::inputs::{Hearth, HearthKind};
use crate::design::phrase::{Phrase, Slot};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::machine::HearthShape;
use crate::sizing::nozzle_tube::nozzle_tube;
use uom::si::f64::Length;
use uom::si::length::meter;

/// Least steel between a nozzle hole and the end of the fire tube, m; at least the thickness of the wall, so that the
/// weld of the nozzle does not melt into that of the cone. Our own mark.
const LEAST: f64 = 0.005;

/// Steel that is wanted between a nozzle hole and the end of the fire tube.
fn wanted(hearth: &Hearth) -> Length {
    hearth.steel_thickness.max(Length::new::<meter>(LEAST))
}

/// How far the fire tube has to go straight on below the nozzle plane, so that holes of this width keep clear of the weld.
pub(in crate::review) fn straight_wanted(hearth: &Hearth, hole: Length) -> Length {
    0.5 * hole + wanted(hearth)
}

/// The end of the fire tube against the edge of the nozzle holes. None for a straight tube, and for what is cast in one
/// piece.
pub(super) fn cone_weld(design: &Design, review: &MarkingReview) -> Option<Finding> {
    let hearth = &design.hearth;
    let welded = hearth.material.material().is_metal();
    if hearth.kind != HearthKind::Constricted || !welded {
        return None;
    }
    let [straight, _] = HearthShape::below_nozzles(hearth).map(|part| part.value);
    let hole = nozzle_tube(design).outside.value;
    let (clear, wanted) = (straight - 0.5 * hole, wanted(hearth).value);
    let needed = 0.5 * hole + wanted;
    let verdict = Verdict::at_least(clear, wanted, f64::NEG_INFINITY);
    let sizes = [straight, hole, needed].map(|metres| Slot::from(across(metres)));
    let compared = match verdict {
        Verdict::Good => Phrase::new(
            "the fire tube ends {} below the middle of the nozzle holes of {}, wanted at least {}: they keep clear of its weld to the cone",
            sizes,
        ),
        _ if clear > 0.0 => Phrase::new(
            "the fire tube ends {} below the middle of the nozzle holes of {}, wanted at least {}: they lie close to its weld to the cone",
            sizes,
        ),
        _ if straight > 0.0 => Phrase::new(
            "the fire tube ends {} below the middle of the nozzle holes of {}, wanted at least {}: they lie in its weld to the cone, and are drilled once that is welded",
            sizes,
        ),
        _ => Phrase::new(
            "the fire tube ends at the middle of the nozzle holes of {}, wanted at least {} below it: they lie in its weld to the cone, and are drilled once that is welded",
            sizes.into_iter().skip(1),
        ),
    };
    Some(Finding {
        verdict,
        compared,
        margin: Some(straight / needed - 1.0).filter(|margin| margin.is_finite()),
        working: vec![
            Step {
                words: "Steel between the edge of a nozzle hole and the end of the fire tube",
                formula: "a = s − d/2",
                values: vec![
                    (
                        "s",
                        "fire tube straight on below the nozzles",
                        across(straight),
                    ),
                    ("d", "nozzle tube outside", across(hole)),
                ],
                result: across(clear),
                source: OwnMark("geometry: the hole is taken to be as wide as its tube"),
                sure: "The arithmetic is exact; where no tube is entered, one of 3 mm (1/8 in) wall around the bore is taken.",
            },
            Step {
                words: "How far the fire tube should go on below the nozzles",
                formula: "s_least = d/2 + max(t, w)",
                values: vec![
                    ("d", "nozzle tube outside", across(hole)),
                    ("t", "fire tube wall", across(hearth.steel_thickness.value)),
                    ("w", "least beside a weld", across(LEAST)),
                ],
                result: across(needed),
                source: OwnMark(
                    "one wall thickness, and at least five millimetres, between hole and weld",
                ),
                sure: "A habit of the workshop, not a limit: a hole in the weld can be drilled too.",
            },
        ],
        caution: None,
        levers: vec![Lever::input("hearth.straight_below_nozzles")],
        about: "hearth",
        ..question(
            "marking.cone_weld",
            "Nozzle holes clear of the cone",
            "The cone above the throat is welded to the end of the fire tube. The nozzle holes want sound steel all round, some way above that weld.",
            "A drill runs off in a weld. Where the weld of a nozzle lies on that of the cone both are hot and stressed at one place, and cracks begin there.",
            review,
        )
    })
}
