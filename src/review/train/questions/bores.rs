//! Are pipes and tubes wide enough for the soot and tar that settle in them?

use super::{Answer, At, Question, Solved};
use crate::design::Source::OwnMark;
use crate::design::inputs::StageKind;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Step, Verdict};
use crate::review::train::levers;

/// Soot and tar on the wall between two cleanings, m. Our own mark.
const LAYER: f64 = 0.002;
/// Least share of a bore that this should leave open. Our own mark.
const OPEN: f64 = 0.5;
/// Where it leaves less than this, the next flake closes the bore. Our own mark.
const NEARLY_CLOSED: f64 = 0.25;

/// The input that holds the bore of a stage, and the bore in m. None where the gas passes something else.
fn bore(at: &At) -> Option<(&'static str, f64)> {
    match at.entry.kind {
        StageKind::Cooler => Some(("tube_bore", at.entry.tube_bore.value)),
        _ => (at.entry.has_bore()).then_some(("bore", at.entry.bore.value)),
    }
}

/// The narrowest bore that the gas passes before a filter has cleaned it. None where there is none.
pub(super) fn ask(solved: &Solved) -> Option<Finding> {
    let filter = (solved.design.train.iter()).rposition(|stage| stage.kind == StageKind::Filter);
    let (at, (path, bore)) = solved
        .stages(solved.clean, |_| true)
        .filter(|at| filter.is_none_or(|filter| at.place < filter))
        .filter_map(|at| Some((at, bore(&at)?)))
        .min_by(|(_, one), (_, other)| one.1.total_cmp(&other.1))?;
    let open = ((bore - 2.0 * LAYER).max(0.0) / bore).powi(2);
    let verdict = Verdict::at_least(open, OPEN, NEARLY_CLOSED);
    let across = |metres| Measure::new(Q::Bore, metres);
    let layer = Measure::new(Q::Thickness, LAYER);
    let share = |value| Measure::new(Q::Share, value);
    let cooler = at.entry.kind == StageKind::Cooler;
    Some(
        Question {
            id: "train.bores",
            title: "Bores against soot and tar",
            meaning: "Before a filter has cleaned it the gas leaves soot and tar on every wall it passes. The narrowest bore closes first.",
            why: "A closed tube cools nothing and lets no gas through. The pressure loss that is reckoned here is that of clean tubes.",
            caution: (verdict != Verdict::Good).then_some("Tar and soot from the tubes irritate the skin and may cause cancer: gloves, long sleeves, no bare hands. Open them only when they are cold and aired: the gas in them poisons."),
        }
        .answered(Answer {
            verdict,
            margin: open / OPEN - 1.0,
            compared: Phrase::new(
                match cooler {
                    true => "{}: tubes of {} bore; {} of soot and tar on the wall leave {} of them open, wanted {}",
                    false => "{}: a bore of {}; {} of soot and tar on the wall leave {} of it open, wanted {}",
                },
                [
                    solved.name(at.place).into(),
                    across(bore).into(),
                    layer.into(),
                    share(open).into(),
                    share(OPEN).into(),
                ],
            ),
            working: vec![Step {
                words: "Share of the bore that a layer on its wall leaves open",
                formula: "x = max(1 − 2 s / d, 0)²",
                values: vec![
                    ("s", "soot and tar on the wall between two cleanings", layer),
                    ("d", "bore", across(bore)),
                ],
                result: share(open),
                source: OwnMark("two millimetres between two cleanings, and half of the bore left"),
                sure: "A clean hearth leaves less, a cold one more: look into the tubes after the first hours.",
            }],
            levers: vec![levers::at(at.place, path)],
        }),
    )
}
