//! What was measured where there is nothing to compare with, and what cannot have been measured.

use super::{share, verdict};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::review::{Verdict, assess, model_beside_measurement};
use uom::si::f64::ThermodynamicTemperature;
use uom::si::thermodynamic_temperature::degree_celsius;

fn told(design: &Design) -> String {
    let assessment = assess(design);
    let finding = assessment.finding("heart.measured").unwrap();
    finding.compared.text(System::Metric)
}

#[test]
fn a_fire_that_burns_where_the_model_has_none_is_told() {
    let mut design = example::as_improved();
    design.measured.load = share(5.0);
    assert!(assess(&design).finding("heart.measured").is_none());
    design.measured.hearth_temperature =
        Some(ThermodynamicTemperature::new::<degree_celsius>(900.0));
    design.measured.carbon_monoxide = Some(share(20.0));
    assert!(model_beside_measurement(&design).is_empty());
    assert_eq!(
        verdict(&assess(&design), "heart.measured"),
        Verdict::CannotTell
    );
    let words = told(&design);
    assert!(words.contains("at 5 % of full load"), "{words}");
    assert!(words.contains("makes no gas that burns"), "{words}");
    // Oxygen tells of a leak, whatever the fire does.
    design.measured.hearth_temperature = None;
    design.measured.carbon_monoxide = None;
    design.measured.oxygen = Some(share(3.0));
    let assessment = assess(&design);
    assert!(assessment.finding("heart.measured").is_none());
    assert_eq!(verdict(&assessment, "heart.oxygen"), Verdict::Watch);
}

#[test]
fn gases_that_are_more_than_all_of_the_gas_are_told() {
    let mut design = example::as_improved();
    design.measured.carbon_monoxide = Some(share(50.0));
    design.measured.hydrogen = Some(share(50.0));
    assert!(!told(&design).contains("together"));
    design.measured.carbon_dioxide = Some(share(40.0));
    let words = told(&design);
    assert!(words.contains("come to 140 % together"), "{words}");
    let finding = assess(&design).finding("heart.measured").unwrap().clone();
    assert_eq!(finding.verdict, Verdict::Watch);
    assert!(finding.margin.unwrap() <= -0.4 + 1e-9);
    // Where there is nothing to compare with as well.
    design.measured.load = share(5.0);
    assert!(told(&design).contains("come to 140 % together"));
}
