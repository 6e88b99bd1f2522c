//! Does the gas outlet open above the grate, once it has passed the lining?

use super::MarkingReview;
use super::questions::{length, question};
use crate::design::inputs::HoleUse;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::hole_purpose::gas_outlet;
use crate::sizing::machine;
use crate::sizing::marking::pipe_outside;
use crate::sizing::tube_pipes::falls_inwards;
use uom::si::f64::Length;

/// A pipe that leans upwards outside falls on its way in through the lining, and its mouth lies lower than its hole in the
/// shell. Not asked without a hole of that name that has a pipe, or of a hole without a place on the shell.
pub(super) fn mouth(design: &Design, review: &MarkingReview) -> Option<Finding> {
    let (place, hole) = gas_outlet(design)?;
    let marking = review.marking.as_ref().ok()?;
    let mark = marking.marks.iter().find(|mark| mark.hole == place)?;
    if hole.carries == HoleUse::Open {
        return None;
    }
    let (vessel, hearth) = machine::measures(design);
    let above = |height: Length| height - vessel.underside;
    let (floor, grate) = (above(vessel.hearth_bottom), above(hearth.grate));
    let inside = match mark.above_bottom < above(vessel.hearth_top) {
        true => vessel.hearth_inner_radius,
        false => vessel.body_inner_radius,
    };
    let wall = (marking.vessel.radius() - inside).max(Length::default());
    let fall = falls_inwards(hole, wall);
    let middle = mark.above_bottom - fall;
    let bore = pipe_outside(hole) - 2.0 * hole.pipe_wall;
    let half = 0.5 * bore.max(Length::default()) / hole.lean.value.sin();
    let (foot, top) = (middle - half, middle + half);
    let clear = foot - grate;
    // What opens under the floor opens on insulation.
    let verdict = match top <= floor {
        true => Verdict::Stop,
        false => Verdict::at_least(clear.value, 0.0, f64::NEG_INFINITY),
    };
    let words = match verdict {
        Verdict::Stop => {
            "inside the lining {} opens from {} to {} above the bottom end, the grate is at {}: it ends under the floor of the ash room, and no gas passes"
        }
        Verdict::Good => {
            "inside the lining {} opens from {} to {} above the bottom end, above the grate at {}"
        }
        _ => {
            "inside the lining {} opens from {} to {} above the bottom end, the grate is at {}: it draws from the ash room, and takes ash along"
        }
    };
    let heights = [foot, top, grate].map(length);
    let measure = |length: Length| Measure::new(Q::Length, length.value);
    let lean = Measure::new(Q::Angle, hole.lean.value);
    Some(Finding {
        verdict,
        compared: Phrase::new(
            words,
            [hole.name.as_str().into()].into_iter().chain(heights),
        ),
        margin: Some((clear / grate).value).filter(|margin| margin.is_finite()),
        caution: None,
        levers: ["height", "lean"]
            .map(|name| Lever::input(format!("holes.{place}.{name}")))
            .to_vec(),
        working: vec![
            Step {
                words: "What a leaning pipe falls on its way through the wall",
                formula: "f = t / tan β",
                values: vec![
                    ("t", "shell and lining, straight through", measure(wall)),
                    ("β", "angle to the axis", lean),
                ],
                result: measure(fall),
                source: Source::Reckoned("geometry"),
                sure: "as sure as the thicknesses of the layers; a pipe that passes beside the axis has further to go",
            },
            Step {
                words: "Lower edge of its mouth inside the lining, above the bottom end",
                formula: "u = h − f − i/(2 sin β)",
                values: vec![
                    (
                        "h",
                        "middle of its hole in the shell",
                        measure(mark.above_bottom),
                    ),
                    ("f", "what it falls", measure(fall)),
                    ("i", "bore of the pipe", measure(bore)),
                    ("β", "angle to the axis", lean),
                ],
                result: measure(foot),
                source: Source::OwnMark(
                    "geometry; that it should lie above the grate is common practice, no source",
                ),
                sure: "as sure as the hearth hangs as drawn",
            },
        ],
        about: "holes",
        ..question(
            "marking.outlet_mouth",
            "Gas outlet opens above the grate",
            "The gas passes the grate and rises around the fire tube to the outlet. What leans upwards outside lies lower inside the lining than its hole in the shell.",
            "An outlet that opens under the grate draws from the ash: it fills cyclone and filter, and ash that has risen to its mouth shuts it.",
            review,
        )
    })
}
