//! Does the hearth go into its wall, and does it narrow to its throat?

use super::growth;
use super::questions::finite;
use crate::design::Design;
use crate::design::Source::CommonPractice;
use crate::design::inputs::{Hearth, HearthKind};
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::review::heart::Heart;
use crate::sizing::machine::HearthShape;
use uom::si::f64::Length;

pub(super) fn length(value: f64) -> Slot {
    Measure::new(Q::Length, value).into()
}

/// Is the hearth wall wide enough inside for fire tube and cones, cold and hot?
pub(super) fn inside(design: &Design, heart: &Heart) -> Finding {
    let hearth = &design.hearth;
    let sheet = hearth.steel_thickness.value;
    let (path, widest) = match hearth.kind {
        HearthKind::Constricted => {
            let tube = ("hearth.nozzle_ring_diameter", hearth.nozzle_ring_diameter);
            [
                ("hearth.below_throat_diameter", hearth.below_throat_diameter),
                ("hearth.throat_diameter", hearth.throat_diameter),
            ]
            .into_iter()
            .fold(
                tube,
                |widest, other| {
                    if other.1 > widest.1 { other } else { widest }
                },
            )
        }
        HearthKind::Straight => ("hearth.tube_diameter", hearth.tube_diameter),
    };
    let (widest, room) = (widest.value, design.hearth_wall.inside_diameter.value);
    let wanted = HearthShape::widest(design).value;
    let finding = Finding {
        id: "hearth.inside",
        chapter: Chapter::Hearth,
        title: "Fire tube inside the hearth wall",
        meaning: "Fire tube and cones hang inside the hearth wall, so its innermost layer must be wider than they are outside, and by more than they grow in the fire.",
        verdict: Verdict::at_least(room, wanted, wanted),
        compared: Phrase::new(
            "the hearth wall is {} wide inside, the hearth at its widest {} outside",
            [length(room), length(wanted)],
        ),
        why: "A hearth that does not go into its vessel is found out when both are welded. One that binds when it is hot buckles, and breaks its lining.",
        margin: finite(room / wanted - 1.0),
        working: vec![Step {
            words: "Outside of the hearth where it is widest",
            formula: "D = d + 2 s",
            values: vec![
                (
                    "d",
                    "inside, where it is widest",
                    Measure::new(Q::Length, widest),
                ),
                ("s", "hearth steel", Measure::new(Q::Thickness, sheet)),
            ],
            result: Measure::new(Q::Length, wanted),
            source: CommonPractice,
            sure: "The arithmetic is exact; rolled steel is out of round by some millimetres.",
        }],
        caution: None,
        levers: vec![
            Lever::input("hearth_wall.inside_diameter"),
            Lever::input(path),
        ],
        about: "hearth_wall",
    };
    match finding.verdict {
        Verdict::Good => growth::hot(design, heart, finding),
        _ => finding,
    }
}

/// Is the throat the narrowest place of the hearth, with a cone above it? Load, table and templates take it for that.
pub(super) fn throat(design: &Design) -> Finding {
    let hearth = &design.hearth;
    let throat = hearth.throat_diameter.value;
    let (tube, foot) = (
        hearth.nozzle_ring_diameter.value,
        hearth.below_throat_diameter.value,
    );
    let above = (tube, "fire tube above it", "hearth.nozzle_ring_diameter");
    let below = (
        foot,
        "foot of the cone below it",
        "hearth.below_throat_diameter",
    );
    let (verdict, words, (beside, called, path)) = match (throat < tube, throat <= foot) {
        (true, true) => (
            Verdict::Good,
            "the throat is {} wide, the fire tube above it {}",
            above,
        ),
        (false, _) => (
            Verdict::Stop,
            "the throat is {} wide, the fire tube above it {}: that is no throat, and nothing draws the gas together",
            above,
        ),
        (true, false) => (
            Verdict::Stop,
            "the throat is {} wide, the foot of the cone below it {}: the gas must pass what is narrower still, and all that is said of the load of the throat does not hold",
            below,
        ),
    };
    let finding = Finding {
        id: "hearth.throat",
        chapter: Chapter::Hearth,
        title: "Throat is the narrowest place",
        meaning: "Fire tube and cones narrow to the throat, where all gas passes the hottest char, and widen below it.",
        verdict,
        compared: Phrase::new(words, [length(throat), length(beside)]),
        why: "Gas that passes beside the hottest char keeps its tar. Hearth load, table and templates take the throat for the narrowest place.",
        margin: finite((tube / throat).min(foot / throat) - 1.0),
        working: vec![Step {
            words: "Area of the throat over that of what it must be narrower than",
            formula: "x = (d / D)²",
            values: vec![
                ("d", "throat", Measure::new(Q::Length, throat)),
                ("D", called, Measure::new(Q::Length, beside)),
            ],
            result: Measure::new(Q::Share, (throat / beside).powi(2)),
            source: CommonPractice,
            sure: "The arithmetic is exact; how narrow a throat should be is told by the table of hearths.",
        }],
        caution: None,
        levers: vec![Lever::input("hearth.throat_diameter"), Lever::input(path)],
        about: "hearth",
    };
    let [_, cone] = HearthShape::below_nozzles(hearth);
    match verdict {
        Verdict::Good if cone <= Length::default() => without_cone(hearth, finding),
        _ => finding,
    }
}

/// What is said of a throat that is narrow enough, where the fire tube goes straight on as far down as that or farther.
fn without_cone(hearth: &Hearth, finding: Finding) -> Finding {
    let (straight, height) = (
        hearth.straight_below_nozzles.value,
        hearth.nozzle_height.value,
    );
    Finding {
        verdict: Verdict::Stop,
        compared: Phrase::new(
            "the fire tube goes {} straight on below the nozzles, the throat lies {} below them: no cone is left between tube and throat",
            [length(straight), length(height)],
        ),
        margin: finite(1.0 - straight / height),
        working: vec![Step {
            words: "Height that is left for the cone above the throat",
            formula: "c = h − s",
            values: vec![
                ("h", "nozzles above throat", Measure::new(Q::Length, height)),
                (
                    "s",
                    "fire tube straight on below the nozzles",
                    Measure::new(Q::Length, straight),
                ),
            ],
            result: Measure::new(Q::Length, height - straight),
            source: CommonPractice,
            sure: "The arithmetic is exact; weight, drawing and char are reckoned as if the tube ended at the throat.",
        }],
        levers: ["hearth.straight_below_nozzles", "hearth.nozzle_height"]
            .map(Lever::input)
            .into(),
        ..finding
    }
}
