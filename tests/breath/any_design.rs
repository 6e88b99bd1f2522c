//! Whatever is entered inside the allowed ranges, both chapters answer in finite numbers.

use crate::random_design::random_design;
use hearthplan::design::Design;
use hearthplan::design::quantity::System;
use hearthplan::review::{Assessment, Chapter, ask, assess};

#[test]
fn random_designs_give_finite_numbers() {
    let (mut told, mut agreed) = (0, 0);
    for seed in 0..1500 {
        let assessment = assess(&random_design(seed));
        agreed += check_blower(&assessment, seed);
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
    assert!(agreed > 120, "{agreed}");
}

/// However odd the train, its blower is reckoned with gas that there is, and gives what its own curve gives with it.
fn check_blower(assessment: &Assessment, seed: u64) -> usize {
    let Ok(review) = &assessment.breath.blower else {
        return 0;
    };
    let duties = [Some(review.startup), review.full_clean, review.full_dirty];
    for duty in duties.into_iter().flatten() {
        let (running, working) = (duty.running, duty.working);
        // From 20 kPa at 1000 °C up to 150 kPa at 0 °C.
        let density = running.density.value;
        assert!((0.02..2.5).contains(&density), "seed {seed}: {duty:?}");
        let at = working.flow * (1.0 - 1e-12);
        let made = review.curve.pressure(at, &running).unwrap();
        let apart = (made - working.pressure).abs();
        assert!(made.value >= 0.0, "seed {seed}: {duty:?}");
        assert!(
            apart.value <= 1e-6 * made.value + 1e-6,
            "seed {seed}: {duty:?}"
        );
        assert!(duty.gas_flow.value >= 0.0, "seed {seed}: {duty:?}");
    }
    1
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
