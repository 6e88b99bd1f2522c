//! Whoever builds a straight fire tube is told nothing of nozzles, which it has none of.

use crate::random_design::random_design;
use hearthplan::design::inputs::HearthKind;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::paper::{html, sheets};
use hearthplan::review::{Assessment, assess};

const DESIGNS: u64 = if cfg!(target_family = "wasm") { 5 } else { 60 };

/// What may be said all the same: that there are none, and what goes for those hearths alone that have some.
const ALLOWED: [&str; 2] = ["no nozzles", "where there are any"];

/// This question tells to take out the holes of nozzles that were left in.
const TAKE_OUT: &str = "marking.nozzles";

fn speaks_of_nozzles(text: &str) -> bool {
    let text = text.to_lowercase();
    text.contains("nozzle") && !ALLOWED.iter().any(|words| text.contains(words))
}

/// A straight tube of an example, or any one, without a hole that somebody named after a nozzle.
fn straight(mut design: Design) -> Design {
    design.hearth.kind = HearthKind::Straight;
    design
        .holes
        .retain(|hole| !hole.name.to_lowercase().contains("nozzle"));
    design
}

/// Everything that the review tells.
fn told(design: &Design, assessment: &Assessment) -> Vec<String> {
    let mut told = Vec::new();
    let others = assessment.findings.iter().filter(|one| one.id != TAKE_OUT);
    for finding in others {
        let mut tell = |text: &str| told.push(format!("{}: {text}", finding.id));
        tell(finding.title);
        tell(finding.meaning);
        tell(finding.why);
        tell(finding.caution.unwrap_or_default());
        tell(&finding.compared.text(System::Metric));
        for step in assessment.working(design, finding) {
            tell(step.words);
            tell(step.sure);
            tell(&step.source.sentence());
            for (_, words, _) in &step.values {
                tell(words);
            }
        }
    }
    told.extend(
        assessment
            .results()
            .into_iter()
            .map(|result| format!("{}: {}", result.name, result.label)),
    );
    told
}

fn heard(design: &Design) -> Vec<String> {
    let assessment = assess(design);
    let mut heard = told(design, &assessment);
    heard.retain(|text| speaks_of_nozzles(text));
    heard
}

#[test]
fn verdicts_numbers_and_workings_of_a_straight_tube_name_no_nozzle() {
    let mut cold = straight(example::as_improved());
    cold.set("fuel.moisture", Value::Number(0.5))
        .expect("in range");
    let mut shut = straight(example::as_improved());
    shut.grate.hole = 0.1 * shut.grate.hole;
    let some = [straight(example::as_improved()), cold, shut];
    for design in (some.into_iter()).chain((0..DESIGNS).map(|seed| straight(random_design(seed)))) {
        assert_eq!(heard(&design), Vec::<String>::new());
    }
    assert!(!heard(&example::as_improved()).is_empty());
}

#[test]
fn sheets_of_a_straight_tube_name_no_nozzle() {
    let design = straight(example::as_improved());
    for sheet in sheets::all(&design, &assess(&design), System::Metric, &[]) {
        let text = html::blocks(&sheet, System::Metric).to_lowercase();
        for (at, _) in text.match_indices("nozzle") {
            let around: String = text[..at].chars().rev().take(40).collect();
            let around: String = around.chars().rev().collect();
            assert!(around.ends_with("no "), "{}: {around}", sheet.name);
        }
    }
}
