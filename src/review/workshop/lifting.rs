//! Can the people at hand lift what is bolted together?

use super::{WorkshopReview, mass};
use crate::design::Choice as _;
use crate::design::Design;
use crate::design::Source::FromMemory;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::sizing::sub_assemblies::{MOST_AROUND, lifted_together, share_together};

/// Can the people at hand lift each sub-assembly?
pub(super) fn lifting(design: &Design, workshop: &WorkshopReview) -> Finding {
    let (lifters, each) = (design.workshop.lifters, design.limits.lift_mass);
    let most = lifted_together(lifters, each).value;
    let around = lifters.min(MOST_AROUND);
    let who = match lifters > around {
        true => "three people, as many as find room around it,",
        false => "the people at hand",
    };
    let mut finding = Finding {
        id: "workshop.lift",
        chapter: Chapter::Workshop,
        title: "Lifting the sub-assemblies",
        meaning: "What people at hand may lift together, against the weight of each sub-assembly without wood and water. Two lift less than twice what one does: they hinder each other, and no load lies on both alike.",
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
        who.into(),
        mass(most).into(),
    ];
    (finding.verdict, finding.compared) = if hoisted.is_empty() {
        let words = "the heaviest is {} with {}; {} lift {}";
        (Verdict::Good, Phrase::new(words, measures))
    } else if design.workshop.hoist {
        finding.margin = Some(0.0);
        let words = "the heaviest is {} with {}; {} lift {}, the hoist lifts {}";
        let names = [hoisted.join(", ").into()];
        (
            Verdict::Good,
            Phrase::new(words, measures.into_iter().chain(names)),
        )
    } else {
        let words = "the heaviest is {} with {}; {} lift {}, a hoist is needed for {}";
        let names = [hoisted.join(", ").into()];
        (
            Verdict::Watch,
            Phrase::new(words, measures.into_iter().chain(names)),
        )
    };
    finding.working = vec![Step {
        words: "What people lift together",
        formula: "M = f n m",
        values: vec![
            (
                "f",
                "of the sum of what each may lift: of two people two thirds, of three half",
                Measure::new(Q::Share, share_together(around)),
            ),
            (
                "n",
                "people who lift, no more than find room around one part",
                Measure::new(Q::Count, f64::from(around)),
            ),
            ("m", "lift by one person", mass(each.value)),
        ],
        result: mass(most),
        source: FromMemory("HSE, Manual handling, L23: teams"),
        sure: "a mark for healthy adults who grip well; a hot, dirty or awkward part is harder. That no more than three find room is our own mark",
    }];
    finding
}
