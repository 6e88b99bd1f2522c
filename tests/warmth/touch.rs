//! What is said of a wall that a hand may brush.

use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::review::{Chapter, ask};
use uom::si::f64::ThermodynamicTemperature;
use uom::si::thermodynamic_temperature::degree_celsius;

fn said(design: &Design) -> String {
    let findings = ask(design, Chapter::Warmth).into_iter();
    let mut touch = findings.filter(|finding| finding.id == "warmth.touch_body");
    touch
        .next()
        .map_or_else(String::new, |finding| finding.compared.text(System::Metric))
}

#[test]
fn what_burns_says_so_before_it_says_what_is_safe() {
    let degrees = ThermodynamicTemperature::new::<degree_celsius>;
    let mut design = example::as_first_drawn();
    design.body_wall.guarded = false;
    design.limits.touch_temperature = degrees(25.0);
    let words = said(&design);
    assert!(
        words.contains("burns the hand. Safe to touch: up to 25 °C; fit a guard"),
        "{words}"
    );
    design.limits.touch_temperature = degrees(150.0);
    let words = said(&design);
    assert!(
        words.ends_with("in still air. Safe to touch: up to 150 °C"),
        "{words}"
    );
}

/// Burn thresholds of ISO 13732-1 for hot smooth metal, from memory: 51, 48 and 43 °C.
#[test]
fn what_is_held_for_long_must_be_cooler_than_what_is_brushed() {
    let mut design = example::as_first_drawn();
    design.body_wall.guarded = false;
    let findings = ask(&design, Chapter::Warmth);
    let touch = (findings.iter()).find(|finding| finding.id == "warmth.touch_body");
    let why = touch.unwrap().why;
    assert!(why.contains("ISO 13732-1, from memory"), "{why}");
    for degrees in ["51 °C", "48 °C", "43 °C"] {
        assert!(why.contains(degrees), "{why}");
    }
}
