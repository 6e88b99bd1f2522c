//! Holes that lie beyond an end of the shell.

use hearthplan::design::quantity::System;
use hearthplan::design::{Value, example};
use hearthplan::review::{Verdict, assess, remedies};

#[test]
fn a_hole_beyond_an_end_is_off_the_shell() {
    for (height, end) in [(2.0, "beyond the top end"), (-0.5, "beyond the bottom end")] {
        let mut design = example::as_improved();
        design.set("holes.3.height", Value::Number(height)).unwrap();
        let assessment = assess(&design);
        let [fits, clash] =
            ["marking.fits", "marking.clash"].map(|id| assessment.finding(id).unwrap());
        assert_eq!(fits.verdict, Verdict::Stop);
        for finding in [fits, clash] {
            let told = finding.compared.text(System::Metric);
            assert!(told.contains(end), "{told}");
            assert!(!told.contains("cuts into"), "{told}");
        }
        let found = remedies(&design, "marking.fits");
        assert!(found.iter().any(|remedy| remedy.change.is_some()));
    }
}
