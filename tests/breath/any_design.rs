//! Whatever is entered inside the allowed ranges, both chapters answer in finite numbers.

use crate::random_design::random_design;
use hearthplan::design::Design;
use hearthplan::design::quantity::System;
use hearthplan::review::{Chapter, ask, assess};

#[test]
fn random_designs_give_finite_numbers() {
    let mut told = 0;
    for seed in 0..1500 {
        let assessment = assess(&random_design(seed));
        for result in assessment
            .hearth
            .results()
            .into_iter()
            .chain(assessment.breath.results())
        {
            assert!(result.measure.si.is_finite(), "seed {seed}: {result:?}");
            told += 1;
        }
    }
    assert!(told > 1500 * 10, "{told}");
}

#[test]
fn chapters_answer_for_many_more_designs() {
    for seed in 10_000..13_000 {
        let design = random_design(seed);
        for chapter in [Chapter::Hearth, Chapter::Breath] {
            for finding in ask(&design, chapter) {
                assert!(
                    finding.margin.is_none_or(f64::is_finite),
                    "seed {seed}: {finding:?}"
                );
                assert!(!finding.compared.text(System::Inch).contains("{}"));
            }
        }
    }
}

#[test]
fn names_of_results_are_unique() {
    let assessment = assess(&Design::default());
    let mut names: Vec<_> = assessment
        .hearth
        .results()
        .into_iter()
        .chain(assessment.breath.results())
        .map(|result| result.name)
        .collect();
    let count = names.len();
    names.sort();
    names.dedup();
    assert_eq!(names.len(), count);
}

#[test]
fn numbers_that_are_none_do_not_panic() {
    let mut design = Design::default();
    design.operation.full_gas_flow.value = f64::NAN;
    design.hearth.throat_diameter.value = f64::NAN;
    design.hearth.char_size.value = 0.0;
    design.hearth.nozzle_count = 0;
    design.train[0].bore.value = -1.0;
    design.blower.speed_share.value = f64::INFINITY;
    design.battery.voltage.value = 0.0;
    let findings = assess(&design).findings;
    assert!(
        findings
            .iter()
            .any(|finding| finding.id == "breath.startup")
    );
    assert!(
        findings
            .iter()
            .any(|finding| finding.id == "hearth.load_full")
    );
}
