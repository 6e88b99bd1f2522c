//! The figure in words.

use super::ghost;
use super::ink::View;
use super::scene::edges;
use crate::design::Design;
use crate::design::quantity::{Quantity, System};
use crate::review::{Assessment, Verdict};

/// The figure in words, for those who do not see it, and how another design differs.
pub fn words(
    design: &Design,
    assessment: &Assessment,
    other: Option<(&Design, &Assessment)>,
    system: System,
) -> String {
    let standing = &assessment.standing;
    let show = |quantity: Quantity, si: f64| quantity.show(si, system);
    let stands_on = |view| {
        let (from, to) = edges(assessment, view).unwrap_or_default();
        show(Quantity::Length, (to - from) / 1000.0)
    };
    let mut words = format!(
        "{}: {} high, on a base {} wide and {} deep, {} when full, {} empty.",
        design.about.name,
        show(Quantity::Length, standing.machine.top.value),
        stands_on(View::Front),
        stands_on(View::Side),
        show(Quantity::Mass, standing.full.weight.mass.value),
        show(Quantity::Mass, standing.empty.weight.mass.value),
    );
    if let Some(overall) = &standing.overall {
        words.push_str(&format!(
            " Over all it is {} wide and {} deep, without pipes and hoses.",
            show(Quantity::Length, overall.width().value),
            show(Quantity::Length, overall.depth().value)
        ));
    }
    if let Some(weakest) = standing.full.weakest() {
        words.push_str(&format!(
            " Full, it tips to {} on a slope of {}.",
            weakest.edge.towards.words(),
            show(Quantity::Angle, weakest.tip_angle.value)
        ));
    }
    let failing = assessment
        .findings
        .iter()
        .filter(|finding| finding.verdict != Verdict::Good)
        .map(|finding| format!("{}: {}", finding.verdict.word(), finding.title))
        .collect::<Vec<_>>();
    if !failing.is_empty() {
        words.push_str(&format!(" {}.", failing.join("; ")));
    }
    if let Some(other) = other {
        words.push_str(&ghost::words((design, assessment), other, system));
    }
    words
}
