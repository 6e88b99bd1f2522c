//! A question about leaks before it is answered, and the cautions.

use crate::design::phrase::Phrase;
use crate::review::finding::{Chapter, Finding, Verdict};

/// The caution of every pressure test.
const PRESSURE_TEST: &str = "Test with air only, never with oxygen or fuel gas. Fit a relief valve and pump by hand. Stand beside flat panels, never before them. Soap film finds the place.";
/// The caution of carbon monoxide.
pub(super) const CARBON_MONOXIDE: &str = "Carbon monoxide kills without a smell. Run it outdoors or under an open roof, with an alarm, and never alone.";

pub(super) fn blank(
    id: &'static str,
    title: &'static str,
    meaning: &'static str,
    why: &'static str,
) -> Finding {
    Finding {
        id,
        chapter: Chapter::Leaks,
        title,
        meaning,
        verdict: Verdict::CannotTell,
        compared: Phrase::plain("no tight joints are entered yet"),
        why,
        margin: None,
        working: Vec::new(),
        caution: Some(PRESSURE_TEST),
        levers: Vec::new(),
        about: "leak_test",
    }
}
