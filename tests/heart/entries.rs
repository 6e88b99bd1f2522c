//! Engines that cannot be are told, not only unusual numbers.

use crate::mended::every_remedy_passes;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Verdict, assess};

fn with(changes: &[(&str, f64)]) -> Design {
    let mut design = example::as_improved();
    for (path, value) in changes {
        design.set(path, Value::Number(*value)).unwrap();
    }
    design
}

fn said(changes: &[(&str, f64)]) -> (Verdict, String) {
    let assessment = assess(&with(changes));
    let finding = assessment.finding("engine.entries").unwrap();
    assert_eq!(
        finding.margin.is_some_and(|margin| margin < 0.0),
        finding.verdict != Verdict::Good
    );
    (finding.verdict, finding.compared.text(Default::default()))
}

#[test]
fn usual_engines_are_good() {
    for compression in [6.0, 8.5, 12.0, 17.0] {
        assert_eq!(
            said(&[("engine.compression_ratio", compression)]).0,
            Verdict::Good
        );
    }
    assert_eq!(said(&[("engine.brake_efficiency", 0.28)]).0, Verdict::Good);
}

/// By hand: 1 − 4^(−0.4) = 0.426 and 1 − 8.5^(−0.4) = 0.575, of which 0.65 is 0.374.
#[test]
fn no_engine_beats_the_ideal_one() {
    let (verdict, words) = said(&[
        ("engine.compression_ratio", 4.0),
        ("engine.brake_efficiency", 0.43),
    ]);
    assert_eq!(verdict, Verdict::Stop);
    assert!(words.contains("more than an ideal engine"), "{words}");
    for path in ["engine.brake_efficiency", "engine.petrol_efficiency"] {
        let of = |efficiency| said(&[("engine.compression_ratio", 8.5), (path, efficiency)]).0;
        assert_eq!(of(0.37), Verdict::Good);
        assert_eq!(of(0.38), Verdict::Watch);
    }
    let doubtful = with(&[
        ("engine.compression_ratio", 8.5),
        ("engine.brake_efficiency", 0.42),
    ]);
    let finding = assess(&doubtful).finding("engine.entries").unwrap().clone();
    let ideal = finding.working[0].result.si;
    assert!((ideal - 0.5752).abs() < 1e-3, "{ideal}");
    every_remedy_passes(&doubtful, "engine.entries", 1);
}

#[test]
fn compression_ratios_that_no_engine_has_are_told() {
    for compression in [4.5, 18.0] {
        let (verdict, words) = said(&[("engine.compression_ratio", compression)]);
        assert_eq!(verdict, Verdict::Watch, "{compression}");
        assert!(words.contains("spark plugs"), "{words}");
    }
    every_remedy_passes(
        &with(&[("engine.compression_ratio", 19.0)]),
        "engine.entries",
        1,
    );
}

#[test]
fn no_mixture_is_colder_than_the_air_outside() {
    let of = |mixture: f64, air: f64| {
        said(&[
            ("engine.intake_temperature", 273.15 + mixture),
            ("site.air_temperature", 273.15 + air),
        ])
    };
    assert_eq!(of(20.0, 20.0).0, Verdict::Good);
    assert_eq!(of(5.0, 4.0).0, Verdict::Good);
    let (verdict, words) = of(5.0, 20.0);
    assert_eq!(verdict, Verdict::Watch);
    assert!(words.contains("colder than the air outside"), "{words}");
    let cold = with(&[("engine.intake_temperature", 263.15)]);
    every_remedy_passes(&cold, "engine.entries", 1);
    // A test without engine has none.
    let mut tried = example::as_improved();
    (tried.set("operation.flow_source", Value::Choice("entered".into()))).unwrap();
    assert!(assess(&tried).finding("engine.entries").is_none());
}

/// By hand: 0.42 of the ideal at 8.5 is 0.242; over 0.10 that is 2.42, above the mark of 2. The mixture of gas holds two
/// thirds of the heat of one with petrol, so that it would keep 1.6 of the power.
#[test]
fn no_engine_gives_far_more_on_gas_than_on_petrol() {
    let (verdict, words) = said(&[("engine.petrol_efficiency", 0.10)]);
    assert_eq!(verdict, Verdict::Watch);
    assert!(
        words.contains("24.2 %") && words.contains("look at both"),
        "{words}"
    );
    let odd = with(&[("engine.petrol_efficiency", 0.10)]);
    every_remedy_passes(&odd, "engine.entries", 1);
    let told = |design: &Design| {
        let assessment = assess(design);
        let power = assessment.finding("engine.power").unwrap();
        power.compared.text(Default::default())
    };
    let words = told(&odd);
    assert!(words.contains("look at both efficiencies"), "{words}");
    assert!(
        !words.contains("more than it gives even on petrol"),
        "{words}"
    );
    assert!(told(&with(&[])).contains("so gas keeps"));
}
