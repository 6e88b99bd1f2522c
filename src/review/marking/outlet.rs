//! Is the gas outlet of the vessel as wide as what the gas train begins with?

use super::MarkingReview;
use super::fit::{Fit, across};
use super::pipes::fit_of;
use super::questions::{missing, question};
use crate::design::inputs::{Hole, HoleUse};
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice as _, Design, Source};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::review::train::levers;
use crate::sizing::hole_purpose::gas_outlet;
use crate::sizing::stage_bores::{ALIKE, inlet};

/// What is compared: the pipe with what is behind it, or the hole with the pipe that stands on it.
#[derive(Clone, Copy)]
enum Worst {
    Behind,
    Hole,
}

/// The narrower of two bores over the wider, or what a hole leaves of the pipe on it.
fn worst_of(hole: &Hole, fit: Fit, behind: f64) -> (Worst, f64) {
    let (inside, cut) = (fit.inside(), fit.hole / fit.inside());
    let alike = inside.min(behind) / inside.max(behind);
    match hole.carries == HoleUse::SetOn && inside > 0.0 && cut < alike {
        true => (Worst::Hole, cut),
        false => (Worst::Behind, alike),
    }
}

/// Compares the outlet with the first stage. Not asked where the train begins with a wide vessel, whose connections no input
/// tells.
pub(super) fn outlet(design: &Design, review: &MarkingReview) -> Option<Finding> {
    let Some((place, hole)) = gas_outlet(design) else {
        return Some(missing(
            asked(review),
            "no hole is called after the gas outlet: by which the gas leaves the vessel is not told",
        ));
    };
    let first = design.train.first()?;
    let behind = inlet(first)?.value;
    let stage = match first.name.trim() {
        "" => first.kind.label(),
        name => name,
    };
    let mut finding = asked(review);
    finding.about = "holes";
    let [name, stage] = [hole.name.as_str(), stage].map(Slot::from);
    let of = |name: &str| Lever::input(format!("holes.{place}.{name}"));
    if hole.carries == HoleUse::Open {
        finding.verdict = Verdict::CannotTell;
        finding.compared = Phrase::new(
            "{}: no pipe is entered that sits in it; behind it {} is {} wide",
            [name, stage, across(behind).into()],
        );
        return Some(finding);
    }
    let fit = fit_of(hole);
    let (worst, share) = worst_of(hole, fit, behind);
    finding.verdict = Verdict::at_least(share, ALIKE, f64::MIN_POSITIVE);
    finding.margin = Some(share / ALIKE - 1.0).filter(|margin| margin.is_finite());
    let inside = Slot::from(across(fit.inside().max(0.0)));
    let sizes = match worst {
        Worst::Behind => [name, inside, stage, across(behind).into()],
        Worst::Hole => [
            name,
            across(fit.hole).into(),
            "the pipe on it".into(),
            inside,
        ],
    };
    let words = match (worst, finding.verdict) {
        (_, Verdict::Stop) => {
            "{} is {} wide, {} behind it {}: its pipe is all wall, and no gas passes"
        }
        (Worst::Behind, Verdict::Good) => {
            "{} is {} wide, {} behind it {}: the narrower has {} of the width of the wider, wanted {}"
        }
        (Worst::Behind, _) => {
            "{} is {} wide, {} behind it {}: that takes a reducer; the narrower has {} of the width of the wider, wanted {}"
        }
        (Worst::Hole, Verdict::Good) => {
            "least alike: the hole of {} is {} wide, {} {} inside: the hole has {} of its width, wanted {}"
        }
        (Worst::Hole, _) => {
            "the hole of {} is {} wide, {} {} inside: it throttles the gas; the hole has {} of the width of the pipe, wanted {}"
        }
    };
    let shares = [share, ALIKE].map(|share| Measure::new(Q::Share, share).into());
    finding.compared = Phrase::new(words, sizes.into_iter().chain(shares));
    finding.levers = match worst {
        Worst::Hole => vec![of("diameter"), of("pipe")],
        Worst::Behind => vec![of("pipe"), of("pipe_wall"), levers::width(0, first.kind)],
    };
    finding.working = working(fit, worst, behind);
    Some(finding)
}

fn asked(review: &MarkingReview) -> Finding {
    question(
        "marking.outlet",
        "Gas outlet as wide as its pipe",
        "The pipe of the gas outlet is marked out with the vessel; behind it the gas train begins. Each is entered for itself, and they must fit.",
        "An outlet that is wider or narrower than the pipe behind it takes a reducer, costs pressure, and collects dust at the step.",
        review,
    )
}

fn working(fit: Fit, worst: Worst, behind: f64) -> Vec<Step> {
    let other = match worst {
        Worst::Behind => behind,
        Worst::Hole => fit.hole,
    };
    let (narrow, wide) = (fit.inside().min(other), fit.inside().max(other));
    let inside = Step {
        words: "Inside of the outlet's pipe",
        formula: "i = d − 2 s",
        values: vec![
            ("d", "pipe outside", across(fit.outside)),
            ("s", "pipe wall", across(fit.wall)),
        ],
        result: across(fit.inside()),
        source: Source::CommonPractice,
        sure: "The arithmetic is exact.",
    };
    let alike = Step {
        words: "The narrower over the wider",
        formula: "x = b/D",
        values: vec![
            ("b", "narrower", across(narrow)),
            ("D", "wider", across(wide)),
        ],
        result: Measure::new(Q::Share, narrow / wide),
        source: Source::CommonPractice,
        sure: "Within a tenth walls of pipes differ too, and they are joined as they are.",
    };
    vec![inside, alike]
}
