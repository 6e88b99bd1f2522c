//! Does the wood slide out of the hopper?

use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::sizing::hopper::fall_of_cone;

/// On a cone flatter than this wood stays lying, rad. Our own mark: blocks slide on steel from about 35° on, bark and
/// splinters need more.
const SLIDES: f64 = std::f64::consts::FRAC_PI_4;

/// Whether the cone below the store is steep enough; not asked where nothing narrows.
pub(super) fn slides(design: &Design) -> Option<Finding> {
    let fall = fall_of_cone(design)?.value;
    let hopper = &design.hopper;
    let angle = |si| Measure::new(Q::Angle, si);
    let length = |si| Measure::new(Q::Length, si);
    Some(Finding {
        id: "engine.hopper_cone",
        chapter: Chapter::Engine,
        title: "Fall of the hopper's cone",
        meaning: "Wood slides down a steep cone by itself and stays lying on a flat one.",
        verdict: Verdict::at_least(fall, SLIDES, 0.0),
        compared: Phrase::new(
            "falls at {} from level, wanted at least {}",
            [angle(fall).into(), angle(SLIDES).into()],
        ),
        why: "What stays lying in the corners is counted as wood and never burns: the hearth runs empty sooner than told, and gas gathers above it.",
        margin: Some(fall / SLIDES - 1.0),
        working: vec![Step {
            words: "Angle of the cone from level",
            formula: "α = atan(2 h / (D − d))",
            values: vec![
                ("h", "height of the cone", length(hopper.cone_height.value)),
                ("D", "inside of the hopper", length(hopper.diameter.value)),
                (
                    "d",
                    "inside of the body wall below",
                    length(design.body_wall.inside_diameter.value),
                ),
            ],
            result: angle(fall),
            source: Source::CommonPractice,
            sure: "the mark is our own; clean blocks slide on less, bark and splinters need more",
        }],
        caution: Some(
            "Never poke wood loose from above while the fire is hot: gas and flame shoot out.",
        ),
        levers: vec![
            Lever::input("hopper.cone_height"),
            Lever::input("hopper.diameter"),
        ],
        about: "hopper",
    })
}
