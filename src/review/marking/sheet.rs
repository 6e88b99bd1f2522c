//! Is the sheet of the vessel that was measured the one that the design has for it?

use super::MarkingReview;
use super::questions::question;
use crate::design::inputs::Layer;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::shell_there::is_there;
use uom::si::f64::Length;

/// The id of the question.
pub(in crate::review) const SHEET: &str = "marking.sheet";

/// The sheet measured may be this share thicker or thinner than that of the wall: sheet is rolled no closer. Our own mark.
const OFF: f64 = 0.15;

/// The outermost layer of each wall that is the vessel measured, with what paths of it begin with.
fn of_vessel(design: &Design) -> impl Iterator<Item = (&'static str, &'static str, usize, &Layer)> {
    let (hearth, body) = (&design.hearth_wall, &design.body_wall);
    [
        (
            "hearth",
            "hearth wall",
            hearth.inside_diameter,
            &design.hearth_layers,
        ),
        (
            "body",
            "body wall",
            body.inside_diameter,
            &design.body_layers,
        ),
    ]
    .into_iter()
    .filter(|(_, _, inside, layers): &(_, _, Length, &Vec<Layer>)| {
        is_there(design, *inside, layers)
    })
    .filter_map(|(head, name, _, layers)| {
        let layer = layers.last()?;
        Some((head, name, layers.len() - 1, layer))
    })
}

/// The wall whose sheet is farthest from that of the vessel; none where no wall is the vessel.
pub(super) fn sheet(design: &Design, review: &MarkingReview) -> Option<Finding> {
    let measured = design.real_vessel.sheet.value;
    let off = |layer: &Layer| (layer.thickness.value / measured - 1.0).abs();
    let (_, name, _, worst) =
        of_vessel(design).max_by(|(.., one), (.., other)| off(one).total_cmp(&off(other)))?;
    let thickness = |value| Measure::new(Q::Thickness, value);
    let told = |value| -> Slot { thickness(value).into() };
    let mut finding = question(
        SHEET,
        "Sheet of the vessel as in the design",
        "The vessel that was measured is the outermost layer of the walls: its sheet is as thick as that layer.",
        "In a vessel of thicker sheet the lining has less room than the design gives it, and what is cut to go in does not. Its weight is another, too.",
        review,
    );
    finding.verdict = Verdict::at_most(off(worst), OFF, f64::INFINITY);
    finding.compared = Phrase::new(
        "the sheet of the vessel you measured is {} thick, that of the {} {}",
        [told(measured), name.into(), told(worst.thickness.value)],
    );
    finding.margin = Some(1.0 - off(worst) / OFF).filter(|margin| margin.is_finite());
    finding.working = vec![Step {
        words: "Sheet of the wall over that of the vessel",
        formula: "x = t / s",
        values: vec![
            (
                "t",
                "outermost layer of the wall",
                thickness(worst.thickness.value),
            ),
            ("s", "sheet of the vessel", thickness(measured)),
        ],
        result: Measure::new(Q::Share, worst.thickness.value / measured),
        source: Source::OwnMark(
            "a seventh more or less is Watch: sheet is rolled no closer, and scale and paint are measured with it",
        ),
        sure: "as sure as the gauge",
    }];
    finding.caution = None;
    finding.levers = of_vessel(design)
        .filter(|(.., layer)| off(layer) > OFF)
        .map(|(head, _, place, _)| Lever::input(format!("{head}_layers.{place}.thickness")))
        .collect();
    finding.about = "real_vessel";
    Some(finding)
}
