//! From a computed number to the working that comes to it.

use crate::random_design::random_design;
use hearthplan::design::example;
use hearthplan::design::phrase::Measure;
use hearthplan::design::quantity::Quantity;
use hearthplan::review::{NamedResult, assess};

#[test]
fn numbers_lead_to_the_working_that_comes_to_them() {
    let design = example::as_improved();
    let assessment = assess(&design);
    let results = assessment.results();
    for (name, id) in [
        ("standing.tip_angle_full", "standing.tip_full"),
        ("hearth.load_full", "hearth.load_full"),
        ("warmth.loss_share_full", "warmth.loss"),
        ("engine.shaft_power_full", "engine.power"),
        ("breath.drop_startup", "breath.startup"),
        // What another chapter reckons.
        ("train.full_dirty.5_filter.loss", "breath.suction"),
        ("cost.first_build", "cost.budget"),
    ] {
        let result = results.iter().find(|result| result.name == name).unwrap();
        let finding = assessment.reckoned_in(&design, result);
        assert_eq!(finding.map(|finding| finding.id), Some(id), "{name}");
    }
    let led = (results.iter())
        .filter(|result| assessment.reckoned_in(&design, result).is_some())
        .count();
    assert!(5 * led > results.len(), "{led} of {}", results.len());
}

#[test]
fn no_number_leads_to_a_working_without_it() {
    for seed in 0..30 {
        let design = random_design(seed);
        let assessment = assess(&design);
        for result in assessment.results() {
            if let Some(finding) = assessment.reckoned_in(&design, &result) {
                let working = assessment.working(&design, finding);
                assert!(
                    working.iter().any(|step| step.result == result.measure),
                    "seed {seed}: {} in {}",
                    result.name,
                    finding.id
                );
            }
        }
    }
}

/// Two holes, or nothing at all, are found in many a working.
#[test]
fn whole_numbers_lead_nowhere() {
    let design = example::as_improved();
    let assessment = assess(&design);
    let working = assessment.findings.iter().flat_map(|it| &it.working);
    let whole = working
        .map(|step| step.result)
        .filter(|number| number.si.fract() == 0.0)
        .chain([0.0, f64::NAN].map(|si| Measure::new(Quantity::Number, si)));
    for number in whole {
        let result = NamedResult::new("standing.any", "Any", number);
        assert_eq!(assessment.reckoned_in(&design, &result), None, "{number:?}");
    }
}
