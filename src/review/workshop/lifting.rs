//! Can the people at hand lift what is bolted together?

use super::{WorkshopReview, mass};
use crate::design::Choice as _;
use crate::design::Design;
use crate::design::Source::CommonPractice;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};

/// Can the people at hand lift each sub-assembly?
pub(super) fn lifting(design: &Design, workshop: &WorkshopReview) -> Finding {
    let (lifters, each) = (design.workshop.lifters, design.limits.lift_mass.value);
    let most = f64::from(lifters) * each;
    let mut finding = Finding {
        id: "workshop.lift",
        chapter: Chapter::Workshop,
        title: "Lifting the sub-assemblies",
        meaning: "What people at hand may lift together, against the weight of each sub-assembly without wood and water.",
        verdict: Verdict::CannotTell,
        compared: Phrase::plain("nothing weighs anything yet"),
        why: "A back that is hurt once stays hurt, and what slips out of hands falls on feet.",
        margin: None,
        working: Vec::new(),
        caution: Some(
            "Never stand or reach under a load that hangs. Use slings and eyes rated for the weight, and lift above the centre of gravity.",
        ),
        levers: vec![
            Lever::input("workshop.hoist"),
            Lever::input("workshop.lifters"),
        ],
        about: "workshop",
    };
    let heaviest =
        (workshop.sub_assemblies.iter()).max_by(|a, b| a.mass.value.total_cmp(&b.mass.value));
    let Some(heaviest) = heaviest else {
        return finding;
    };
    let hoisted: Vec<&str> = (workshop.sub_assemblies.iter())
        .filter(|one| one.needs_hoist)
        .map(|one| one.group.label())
        .collect();
    finding.margin = Some(most / heaviest.mass.value - 1.0).filter(|margin| margin.is_finite());
    let measures = [
        heaviest.group.label().into(),
        mass(heaviest.mass.value).into(),
        mass(most).into(),
    ];
    (finding.verdict, finding.compared) = if hoisted.is_empty() {
        let words = "the heaviest is {} with {}; the people at hand lift {}";
        (Verdict::Good, Phrase::new(words, measures))
    } else if design.workshop.hoist {
        finding.margin = Some(0.0);
        let words =
            "the heaviest is {} with {}, above the {} of the people at hand; the hoist lifts {}";
        let names = [hoisted.join(", ").into()];
        (
            Verdict::Good,
            Phrase::new(words, measures.into_iter().chain(names)),
        )
    } else {
        let words = "the heaviest is {} with {}, above the {} of the people at hand; a hoist is needed for {}";
        let names = [hoisted.join(", ").into()];
        (
            Verdict::Watch,
            Phrase::new(words, measures.into_iter().chain(names)),
        )
    };
    finding.working = vec![Step {
        words: "What people lift together",
        formula: "M = n m",
        values: vec![
            (
                "n",
                "people who lift",
                Measure::new(Q::Count, f64::from(lifters)),
            ),
            ("m", "lift by one person", mass(each)),
        ],
        result: mass(most),
        source: CommonPractice,
        sure: "a mark for healthy adults who grip well; a hot, dirty or awkward part is harder",
    }];
    finding
}
