//! Is the battery emptied further than its kind bears for long?

use crate::design::Design;
use crate::design::Source::CommonPractice;
use crate::design::inputs::Chemistry;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};

/// Share of a lead-acid battery that may be used: half is the habit (common practice, no source), a tenth above
/// it our own mark.
const LEAD_ACID: f64 = 0.6;
/// The same of lithium iron phosphate: below a tenth its voltage drops fast, and its guard cuts it off (common practice,
/// no source).
const LITHIUM: f64 = 0.9;

/// The usable share entered against what the battery's kind bears for many rounds.
pub(super) fn depth(design: &Design) -> Finding {
    let used = design.battery.usable_share.value;
    let (most, words) = match design.battery_box.chemistry {
        Chemistry::LeadAcid => (
            LEAD_ACID,
            "emptied by {}; a lead-acid battery bears about half, at most {}",
        ),
        Chemistry::Lithium => (
            LITHIUM,
            "emptied by {}; a lithium iron phosphate battery bears at most {}",
        ),
    };
    let share = |value| Measure::new(Q::Share, value);
    Finding {
        id: "electrics.depth",
        chapter: Chapter::Electrics,
        title: "How far the battery is emptied",
        meaning: "The share of its charge that you count on before you charge it again.",
        verdict: Verdict::at_most(used, most, f64::INFINITY),
        compared: Phrase::new(words, [share(used).into(), share(most).into()]),
        why: "A battery that is emptied further each time is worn out after a season, and before that it no longer holds the hours told here. An empty lead-acid battery also freezes.",
        margin: Some(1.0 - used / most).filter(|margin| margin.is_finite()),
        working: vec![Step {
            words: "Share of the charge that is used",
            formula: "u ≤ u_max",
            values: vec![("u_max", "what its kind bears for many rounds", share(most))],
            result: share(used),
            source: CommonPractice,
            sure: "The maker's sheet says how many rounds it bears at which depth; go by that. Half is the habit for lead-acid; the tenth above it is our own mark.",
        }],
        caution: None,
        levers: ["battery.usable_share", "battery_box.chemistry"]
            .map(Lever::input)
            .into(),
        about: "battery",
    }
}
