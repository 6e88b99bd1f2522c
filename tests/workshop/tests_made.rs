//! What readings of a leak test can show, and which of several tests counts.

use hearthplan::design::inputs::{Group, Reading};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, celsius, example};
use hearthplan::review::{Verdict, assess};
use uom::si::f64::{Pressure, ThermodynamicTemperature};
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;

/// A test of the vessel, ten minutes long: date, and Pa at start and end.
fn test(date: &str, pressures: [f64; 2]) -> Reading {
    let [first_pressure, second_pressure] = pressures.map(Pressure::new::<pascal>);
    Reading {
        date: date.to_string(),
        group: Group::Reactor,
        first_pressure,
        second_pressure,
        ..Reading::default()
    }
}

fn design(readings: &[Reading]) -> Design {
    let mut design = example::as_improved();
    design.readings = readings.to_vec();
    design
}

/// Verdict on the vessel's tests, and the words.
fn said(readings: &[Reading]) -> (Verdict, String) {
    let assessment = assess(&design(readings));
    let found = assessment.finding("leaks.reading_reactor");
    let found = found.expect("the question is asked");
    (found.verdict, found.compared.text(System::Metric))
}

#[test]
fn a_tight_vessel_passes() {
    let (verdict, words) = said(&[test("2026-05-14", [3_500.0, 3_400.0])]);
    assert_eq!(verdict, Verdict::Good, "{words}");
}

#[test]
fn pressure_that_is_gone_shows_nothing() {
    // Gone in seconds or in minutes: after ten of them the readings are the same.
    let (verdict, words) = said(&[test("2026-05-14", [3_500.0, 0.0])]);
    assert_eq!(verdict, Verdict::CannotTell, "{words}");
    // (√3500 / 2)² = 875 Pa on average, of 1750 Pa wanted.
    assert!(
        words.contains("or more") && words.contains("875 Pa"),
        "{words}"
    );
    for start in [0.0, 100.0, -3_500.0] {
        let (verdict, words) = said(&[test("2026-05-14", [start, start])]);
        assert_eq!(verdict, Verdict::CannotTell, "from {start} Pa: {words}");
    }
    // What leaks too much in spite of it fails all the same.
    let mut fast = test("2026-05-14", [3_500.0, 0.0]);
    fast.time *= 0.01;
    assert_eq!(said(&[fast]).0, Verdict::Stop);
}

#[test]
fn air_that_comes_from_nowhere_shows_nothing() {
    let (verdict, words) = said(&[test("2026-05-14", [3_500.0, 5_000.0])]);
    assert_eq!(verdict, Verdict::CannotTell, "{words}");
    assert!(words.contains("gain air"), "{words}");
    // The sun on the vessel explains it.
    let mut warmed = test("2026-05-14", [3_500.0, 5_000.0]);
    warmed.second_temperature = ThermodynamicTemperature::new::<kelvin>(celsius(24.2));
    assert_eq!(said(&[warmed]).0, Verdict::Good);
}

#[test]
fn a_test_that_is_only_added_is_none() {
    // Nor does a date alone make it one: nobody knows whether a gauge was looked at.
    for date in ["", "2026-05-14"] {
        let (verdict, words) = said(&[test(date, [3_500.0, 3_500.0])]);
        assert_eq!(verdict, Verdict::CannotTell, "{words}");
        assert!(words.contains("nothing was read yet"), "{words}");
    }
    let assessment = assess(&design(&[test("", [3_500.0, 3_500.0])]));
    let results = assessment.results();
    assert!(
        !results
            .iter()
            .any(|result| result.name == "leaks.leak_reactor")
    );
    // A gauge that did not move at all is told by one smallest step of it, or by how long it was watched.
    let (verdict, words) = said(&[test("", [3_500.0, 3_490.0])]);
    assert_eq!(verdict, Verdict::Good, "{words}");
    let mut watched = test("", [3_500.0, 3_500.0]);
    watched.time *= 1.5;
    assert_eq!(said(&[watched]).0, Verdict::Good);
}

#[test]
fn the_newest_test_counts() {
    let failed = test("2026-05-01", [3_500.0, -500.0]);
    let mut failed = Reading {
        second_pressure: Pressure::new::<pascal>(2_000.0),
        ..failed
    };
    failed.time *= 0.01;
    let passed = test("2026-03-14", [3_500.0, 3_400.0]);
    for order in [
        [failed.clone(), passed.clone()],
        [passed.clone(), failed.clone()],
    ] {
        let (verdict, words) = said(&order);
        assert_eq!(verdict, Verdict::Stop);
        assert!(
            words.ends_with("it has the latest date of its 2 tests"),
            "{words}"
        );
    }
    // Where one has no date nobody can tell which came later: the worse counts, wherever it stands in the list.
    for no_date in ["", "in May", "2026-13-01", "2026-5-1"] {
        let undated = Reading {
            date: no_date.to_string(),
            ..failed.clone()
        };
        for (order, number) in [
            ([undated.clone(), passed.clone()], "number 1 of the list"),
            ([passed.clone(), undated.clone()], "number 2 of the list"),
        ] {
            let (verdict, words) = said(&order);
            assert_eq!(verdict, Verdict::Stop, "{no_date}");
            assert!(words.contains(number), "{words}");
            assert!(words.ends_with("Enter the dates"), "{words}");
        }
        // Nor does a later test with a date hide it, or an older one without.
        let earlier = Reading {
            date: String::new(),
            ..passed.clone()
        };
        let (verdict, _) = said(&[earlier, undated, passed.clone()]);
        assert_eq!(verdict, Verdict::Stop, "{no_date}");
    }
    // A pass without a date does not clear a failure with one.
    let undated_pass = Reading {
        date: String::new(),
        ..passed.clone()
    };
    let (verdict, words) = said(&[failed.clone(), undated_pass.clone()]);
    assert_eq!(verdict, Verdict::Stop);
    assert!(words.contains("number 1 of the list"), "{words}");
    // Where none has a date, the list tells which came later.
    let undated_fail = Reading {
        date: String::new(),
        ..failed.clone()
    };
    let (verdict, words) = said(&[undated_fail.clone(), undated_pass.clone()]);
    assert_eq!(verdict, Verdict::Good);
    assert!(
        words.ends_with("so that the last in the list counts"),
        "{words}"
    );
    assert_eq!(said(&[undated_pass, undated_fail]).0, Verdict::Stop);
    // A test that is not made yet hides none that was.
    let added = test("", [3_500.0, 3_500.0]);
    assert_eq!(said(&[failed, added]).0, Verdict::Stop);
}
