//! A vessel that was bought longer or shorter than the plan's.

use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::review::{Verdict, assess, remedies};
use uom::si::f64::Length;
use uom::si::length::millimeter;

/// A vessel that was bought taller carries lid and hopper higher than was reckoned.
#[test]
fn a_vessel_taller_than_its_walls_is_told() {
    let longer = |millimetres: f64| {
        let mut design = example::as_improved();
        design.real_vessel.length += Length::new::<millimeter>(millimetres);
        design
    };
    let told = |design: &Design| {
        let assessment = assess(design);
        let finding = assessment.finding("marking.tall").unwrap();
        (finding.verdict, finding.compared.text(System::Metric))
    };
    assert_eq!(told(&longer(0.0)).0, Verdict::Good);
    let (verdict, words) = told(&longer(100.0));
    assert_eq!(verdict, Verdict::Stop);
    assert!(words.contains("100 mm more"), "{words}");
    let (verdict, words) = told(&longer(-50.0));
    assert_eq!(verdict, Verdict::Watch);
    assert!(words.contains("50 mm too little"), "{words}");
    let offered = remedies(&longer(100.0), "marking.tall");
    let mended = offered
        .first()
        .and_then(|remedy| remedy.change.as_ref()?.apply(&longer(100.0)));
    assert_eq!(told(&mended.unwrap()).0, Verdict::Good);
    let mut unmeasured = longer(100.0);
    unmeasured.real_vessel.measured = false;
    assert!(assess(&unmeasured).finding("marking.tall").is_none());
}
