//! Which inputs of marking out matter.

use super::Rule;
use crate::design::inputs::HoleUse;

/// The rules of vessel bought, holes and their pass marks.
pub(super) const RULES: &[Rule] = &[
    Rule {
        head: "real_vessel",
        names: &[
            "girth",
            "length",
            "lower_seam",
            "upper_seam",
            "has_bottom",
            "has_top",
        ],
        matters: |design, _| design.real_vessel.measured,
    },
    Rule {
        head: "real_vessel",
        names: &["dish"],
        matters: |design, _| {
            let real = &design.real_vessel;
            real.measured && (real.has_bottom || real.has_top)
        },
    },
    Rule {
        head: "real_vessel",
        names: &["rolled"],
        matters: |design, _| !design.real_vessel.measured,
    },
    Rule {
        head: "real_vessel",
        names: &["long_seam"],
        matters: |design, _| !design.real_vessel.seamless,
    },
    Rule {
        head: "holes",
        names: &["pipe", "pipe_wall", "lean", "offset"],
        matters: |design, place| {
            place
                .and_then(|place| design.holes.get(place))
                .is_some_and(|hole| hole.carries != HoleUse::Open)
        },
    },
    Rule {
        head: "limits",
        names: &["hole_off", "hole_to_seam", "hole_to_end", "hole_to_hole"],
        matters: |design, _| !design.holes.is_empty(),
    },
];
