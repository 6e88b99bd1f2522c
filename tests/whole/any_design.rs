//! Any design inside the allowed ranges is answered in finite numbers and whole sentences.

use crate::random_design::random_design;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Kind};
use hearthplan::review::{Assessment, Finding, Lever, assess};
use std::collections::BTreeSet;

/// Designs per test; there are four tests, so that a machine with several cores shares the work.
/// WebAssembly checks that its own mathematics holds too, on fewer designs.
const DESIGNS: u64 = if cfg!(target_family = "wasm") {
    250
} else {
    5_000
};

/// What cannot be a part of a sentence with numbers.
const BROKEN: [&str; 4] = ["NaN", "inf", "—", "{}"];

/// Words that the broken pieces are also a part of.
const WHOLE_WORDS: [&str; 3] = ["information", "reinforc", "infra"];

fn is_broken(text: &str) -> bool {
    let mut text = text.to_string();
    for word in WHOLE_WORDS {
        text = text.replace(word, "");
    }
    BROKEN.iter().any(|piece| text.contains(piece))
}

fn check(design: &Design, seed: u64) {
    let assessment = assess(design);
    check_results(&assessment, seed);
    let mut ids = BTreeSet::new();
    for finding in &assessment.findings {
        assert!(ids.insert(finding.id), "seed {seed}: two {}", finding.id);
        check_numbers(finding, seed);
        assert!(
            finding.harm().is_some(),
            "seed {seed}: nothing says what comes of {}",
            finding.id
        );
        for lever in &finding.levers {
            check_lever(lever, design, finding, seed);
        }
        assert!(
            Design::SECTIONS
                .iter()
                .any(|section| section.name == finding.about)
                || Design::LISTS.iter().any(|list| list.name == finding.about),
            "seed {seed}: {} is about “{}”, which no part of the form holds",
            finding.id,
            finding.about
        );
    }
}

fn check_results(assessment: &Assessment, seed: u64) {
    let mut names = BTreeSet::new();
    let results = assessment.results();
    assert!(!results.is_empty(), "seed {seed}");
    for result in results {
        assert!(result.measure.si.is_finite(), "seed {seed}: {result:?}");
        assert!(
            names.insert(result.name.clone()),
            "seed {seed}: two results {}",
            result.name
        );
    }
}

fn check_numbers(finding: &Finding, seed: u64) {
    assert!(
        finding.margin.is_none_or(f64::is_finite),
        "seed {seed}: {finding:?}"
    );
    for system in [System::Metric, System::Inch] {
        let text = finding.compared.text(system);
        assert!(!is_broken(&text), "seed {seed}: {}: {text}", finding.id);
        assert!(!text.trim().is_empty(), "seed {seed}: {}", finding.id);
    }
    for step in &finding.working {
        assert!(step.result.si.is_finite(), "seed {seed}: {step:?}");
        for (symbol, meaning, measure) in &step.values {
            assert!(
                measure.si.is_finite(),
                "seed {seed}: {}: {symbol}, {meaning}: {measure:?}",
                finding.id
            );
        }
    }
}

fn check_lever(lever: &Lever, design: &Design, finding: &Finding, seed: u64) {
    match lever {
        Lever::Input(path) => assert!(
            design.get(path).is_some() && design.input(path).is_some(),
            "seed {seed}: {} names {path}, which is not there",
            finding.id
        ),
        Lever::NewItem {
            list,
            index,
            fields,
            solve_for,
        } => {
            let info = Design::LISTS.iter().find(|info| info.name == *list);
            let info = info.unwrap_or_else(|| panic!("seed {seed}: no list {list}"));
            let count = design.list(list).map_or(0, |items| items.count());
            assert!(*index <= count, "seed {seed}: {} in {list}", finding.id);
            let declared = |name: &str| info.inputs.iter().find(|input| input.name == name);
            for (field, _) in fields {
                assert!(declared(field).is_some(), "seed {seed}: {list}.{field}");
            }
            assert!(
                declared(solve_for).is_some_and(|input| matches!(input.kind, Kind::Number { .. })),
                "seed {seed}: {list}.{solve_for} cannot be searched"
            );
        }
        Lever::Move { list, from } => {
            let count = design.list(list).map_or(0, |items| items.count());
            assert!(*from < count, "seed {seed}: {} in {list}", finding.id);
        }
    }
}

fn check_share(share: u64) {
    for seed in share * 100_000..share * 100_000 + DESIGNS {
        check(&random_design(seed), seed);
    }
}

#[test]
fn first_quarter_is_finite() {
    check_share(1);
}

#[test]
fn second_quarter_is_finite() {
    check_share(2);
}

#[test]
fn third_quarter_is_finite() {
    check_share(3);
}

#[test]
fn last_quarter_is_finite() {
    check_share(4);
}

#[test]
fn broken_sentences_are_noticed() {
    assert!(is_broken("tips at NaN°, wanted 15°"));
    assert!(is_broken("loses —"));
    assert!(is_broken("inf W"));
    assert!(!is_broken("reinforced with 3 mm"));
}
