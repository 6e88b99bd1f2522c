//! The questions asked, their answers, and the levers offered.

use super::{add_weight, choose, set};
use hearthplan::design::inputs::{Contact, Stance};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{
    Change, Chapter, Finding, Lever, Verdict, ask, assess, remedies, tip_verdict,
};
use uom::si::f64::Length;
use uom::si::length::meter;

pub(super) fn asked(design: &Design) -> Vec<Finding> {
    ask(design, Chapter::Standing)
}

pub(super) fn find(design: &Design, id: &str) -> Option<Finding> {
    asked(design).into_iter().find(|finding| finding.id == id)
}

fn verdict(design: &Design, id: &str) -> Verdict {
    find(design, id).unwrap().verdict
}

#[test]
fn each_side_is_judged_by_its_own_slope() {
    let design = example::as_first_drawn();
    let assessment = assess(&design);
    let sides = &assessment.standing.full.edges;
    let judged: Vec<Verdict> = (sides.iter())
        .map(|side| tip_verdict(&design.limits, side.tip_angle))
        .collect();
    for (side, verdict) in sides.iter().zip(&judged) {
        let wanted = design.limits.tip_angle_good();
        assert_eq!(*verdict == Verdict::Good, side.tip_angle >= wanted);
    }
    let failing = judged.iter().filter(|verdict| **verdict != Verdict::Good);
    assert_eq!(failing.count(), 2, "{judged:?}");
    let worst = judged.iter().max().copied();
    assert_eq!(worst, Some(verdict(&design, "standing.tip_full")));
}

#[test]
fn only_what_applies_is_asked() {
    let mut design = Design::default();
    assert!(find(&design, "standing.kerb").is_none());
    assert!(find(&design, "standing.slope").is_none());
    assert!(find(&design, "standing.tip_hopper_off").is_some());
    design.hopper.fitted = false;
    assert!(find(&design, "standing.tip_hopper_off").is_none());
    set(&mut design, "base.slope", 0.05);
    assert!(find(&design, "standing.slope").is_some());
    for stance in ["two_wheels", "four_wheels"] {
        choose(&mut design, "base.stance", stance);
        assert!(find(&design, "standing.kerb").is_some(), "{stance}");
    }
}

#[test]
fn every_answer_is_complete() {
    let mut design = Design::default();
    choose(&mut design, "base.stance", "four_wheels");
    set(&mut design, "base.slope", 0.1);
    let findings = asked(&design);
    assert_eq!(findings.len(), 13);
    for finding in findings {
        let sentence = finding.compared.text(System::Metric);
        assert!(
            !sentence.contains("{}") && !sentence.contains('—'),
            "{sentence}"
        );
        assert!(finding.margin.is_some(), "{}", finding.id);
        assert!(!finding.working.is_empty(), "{}", finding.id);
        assert!(finding.caution.is_some(), "{}", finding.id);
        let passes = finding.margin.unwrap_or_default() >= -1e-9;
        assert_eq!(passes, finding.verdict == Verdict::Good, "{}", finding.id);
        assert_eq!(
            finding.levers.is_empty(),
            finding.verdict == Verdict::Good,
            "{}",
            finding.id
        );
    }
}

#[test]
fn the_sentence_names_the_weakest_side() {
    let mut design = Design::default();
    set(&mut design, "base.width", 0.4);
    set(&mut design, "base.vessel_x", 0.1);
    let sentence = find(&design, "standing.tip_full").unwrap().compared;
    assert!(sentence.text(System::Metric).contains("towards the right"));
}

#[test]
fn weight_outside_the_footprint_is_a_stop() {
    let mut design = Design::default();
    set(&mut design, "base.vessel_x", 0.6);
    for id in [
        "standing.hull",
        "standing.tip_full",
        "standing.push",
        "standing.wind",
    ] {
        assert_eq!(verdict(&design, id), Verdict::Stop, "{id}");
    }
    let offered = remedies(&design, "standing.hull");
    assert!(offered.iter().any(|remedy| remedy.change.is_some()));
}

#[test]
fn on_too_few_points_it_falls_over() {
    let point = |x: f64, y: f64| Contact {
        x: Length::new::<meter>(x),
        y: Length::new::<meter>(y),
        ..Contact::default()
    };
    let mut design = Design::default();
    design.base.stance = Stance::Points;
    for contacts in [
        vec![],
        vec![point(0.0, 0.0)],
        vec![point(-0.3, 0.0), point(0.3, 0.0)],
        vec![point(-0.3, 0.1), point(0.0, 0.1), point(0.3, 0.1)],
        vec![point(0.2, 0.1); 4],
    ] {
        design.contacts = contacts;
        // That it falls over is told once, whatever nobody can tell of it then.
        for (id, told) in [
            ("standing.hull", Verdict::Stop),
            ("standing.tip_full", Verdict::CannotTell),
            ("standing.push", Verdict::CannotTell),
        ] {
            let finding = find(&design, id).unwrap();
            assert_eq!(finding.verdict, told, "{id}");
            assert_eq!(finding.margin, None);
        }
        let stance = &remedies(&design, "standing.hull")[0];
        assert_eq!(stance.value, Some(Value::Choice("feet".to_string())));
    }
}

#[test]
fn points_in_one_line_get_one_more() {
    let mut design = example::as_improved();
    design.base.stance = Stance::Points;
    for point in [2, 3] {
        set(&mut design, &format!("contacts.{point}.y"), -0.4);
    }
    let found = find(&design, "standing.hull").unwrap();
    assert_eq!(found.verdict, Verdict::Stop);
    let told = found.compared.text(System::Metric);
    assert!(
        told.starts_with("its 4 contact points lie in one line"),
        "{told}"
    );
    let offered = remedies(&design, "standing.hull");
    let added = (offered.iter())
        .find(|remedy| matches!(remedy.lever, Lever::NewItem { .. }))
        .and_then(|remedy| remedy.change.as_ref())
        .unwrap();
    let Change::Insert { fields, .. } = added else {
        panic!("{added:?}");
    };
    let place = |name: &str| fields.iter().find(|field| field.0 == name).cloned();
    assert_eq!(place("x"), Some(("x", Value::Number(0.0))));
    let after = added.apply(&design).unwrap();
    assert_eq!(after.contacts.len(), 5);
    for id in ["standing.hull", "standing.frame"] {
        assert_eq!(verdict(&after, id), Verdict::Good, "{id}");
    }
    assert!(after.contacts[4].y.value >= 0.3, "{:?}", after.contacts[4]);
}

/// Designs that fail in different ways.
fn failing() -> Vec<Design> {
    let mut narrow = Design::default();
    set(&mut narrow, "base.width", 0.35);
    let mut wheeled = narrow.clone();
    choose(&mut wheeled, "base.stance", "four_wheels");
    set(&mut wheeled, "base.slope", 0.12);
    add_weight(&mut wheeled, 60.0, (0.0, 0.0, 1.4));
    let mut shallow = Design::default();
    set(&mut shallow, "base.depth", 0.4);
    set(&mut shallow, "base.vessel_y", 0.08);
    set(&mut shallow, "site.storm_wind", 20.0);
    let mut own = Design::default();
    own.base.stance = Stance::Points;
    set(&mut own, "contacts.2.x", 0.1);
    vec![narrow, wheeled, shallow, own]
}

#[test]
fn every_failing_question_has_a_remedy_that_passes() {
    let mut tried = 0;
    for design in failing() {
        for finding in asked(&design) {
            if finding.verdict == Verdict::Good {
                continue;
            }
            let offered = remedies(&design, finding.id);
            assert_eq!(offered.len(), finding.levers.len(), "{}", finding.id);
            let changes: Vec<_> = offered.iter().filter_map(|r| r.change.as_ref()).collect();
            assert!(!changes.is_empty(), "no remedy for {}", finding.id);
            for change in changes {
                let changed = change.apply(&design).unwrap();
                assert_eq!(verdict(&changed, finding.id), Verdict::Good, "{change:?}");
                tried += 1;
            }
        }
    }
    assert!(tried > 20, "only {tried} remedies tried");
}

#[test]
fn a_narrow_base_is_mended_by_its_width() {
    let design = &failing()[0];
    let offered = remedies(design, "standing.tip_full");
    assert_eq!(offered[0].input.name, "width");
    let width = offered[0].value.as_ref().and_then(Value::number).unwrap();
    assert!(width > 0.35 && width < 0.7, "{width}");
}

#[test]
fn an_unbraked_cart_rolls_off_a_slope_until_it_is_braked() {
    let mut design = Design::default();
    choose(&mut design, "base.stance", "four_wheels");
    set(&mut design, "base.slope", 0.1);
    assert_eq!(verdict(&design, "standing.stay"), Verdict::Stop);
    design.base.brakes = true;
    assert_eq!(verdict(&design, "standing.stay"), Verdict::Good);
}

#[test]
fn results_have_unique_names_and_finite_numbers() {
    let results = assess(&failing()[1]).standing.results();
    let mut names: Vec<_> = results.iter().map(|result| &result.name).collect();
    names.sort();
    names.dedup();
    assert_eq!(names.len(), results.len());
    assert!(results.iter().all(|result| result.measure.si.is_finite()));
    assert!(names.iter().all(|name| name.starts_with("standing.")));
}

#[test]
fn a_vessel_does_not_sink_into_its_frame() {
    let mut design = Design::default();
    let verdict = |design: &Design| find(design, "standing.clearance").unwrap().verdict;
    set(&mut design, "base.clearance", 0.045);
    assert_eq!(verdict(&design), Verdict::Good);
    set(&mut design, "base.clearance", 0.015);
    assert_eq!(verdict(&design), Verdict::Stop);
    choose(&mut design, "base.stance", "four_wheels");
    set(&mut design, "base.clearance", 0.200);
    assert_eq!(verdict(&design), Verdict::Watch);
    // No lever lowers the vessel of the first sketch into its frame.
    let first = example::as_first_drawn();
    for remedy in remedies(&first, "standing.tip_full") {
        let Some(change) = remedy.change else {
            continue;
        };
        assert_eq!(verdict(&change.apply(&first).unwrap()), Verdict::Good);
    }
}

#[test]
fn no_remedy_sinks_a_vessel_deeper_that_hangs_too_low() {
    let mut design = example::as_improved();
    choose(&mut design, "base.stance", "four_wheels");
    set(&mut design, "base.clearance", 0.200);
    set(&mut design, "base.width", 0.490);
    let id = "standing.wind";
    let found = find(&design, id).unwrap();
    assert_ne!(found.verdict, Verdict::Good);
    let lever = Lever::input("base.clearance");
    assert!(found.levers.contains(&lever), "lower would stand firmer");
    let offered: Vec<_> = (remedies(&design, id).into_iter())
        .filter_map(|remedy| remedy.change?.apply(&design))
        .collect();
    assert!(!offered.is_empty());
    for changed in offered {
        assert!(changed.base.clearance >= design.base.clearance);
    }
}

#[test]
fn a_vessel_stands_on_its_frame() {
    let mut design = Design::default();
    let radius = assess(&design)
        .standing
        .machine
        .vessel
        .hearth_outer_radius
        .value;
    let verdict = |design: &Design| verdict(design, "standing.frame");
    assert_eq!(verdict(&design), Verdict::Good);
    for (shift, side) in [
        ("base.vessel_x", "base.width"),
        ("base.vessel_y", "base.depth"),
    ] {
        for sign in [-1.0, 1.0] {
            let mut design = design.clone();
            set(&mut design, side, 2.0 * radius + 0.1);
            let half = radius + 0.05;
            for (out, wanted) in [
                (0.05, Verdict::Good),
                (0.05 + 0.2 * radius, Verdict::Good),
                (0.05 + 0.2 * radius + 0.002, Verdict::Watch),
                (half - 0.001, Verdict::Watch),
                (half + 0.001, Verdict::Stop),
            ] {
                set(&mut design, shift, sign * out);
                assert_eq!(verdict(&design), wanted, "{shift} {out}");
            }
            let offered = remedies(&design, "standing.frame");
            assert_eq!(offered.len(), 2);
            for remedy in offered.into_iter().filter_map(|remedy| remedy.change) {
                assert_eq!(verdict(&remedy.apply(&design).unwrap()), Verdict::Good);
            }
        }
    }
    // In the middle of a frame that is narrower than itself it stands as well.
    set(&mut design, "base.width", 1.5 * radius);
    assert_eq!(verdict(&design), Verdict::Good);
    choose(&mut design, "base.stance", "points");
    assert!(find(&design, "standing.frame").is_some());
    design.contacts.truncate(2);
    assert!(find(&design, "standing.frame").is_none());
}

#[test]
fn no_remedy_hangs_a_part_lower_than_the_vessel() {
    let first = example::as_first_drawn();
    let heights: Vec<f64> = (asked(&first).into_iter())
        .flat_map(|finding| remedies(&first, finding.id))
        .filter_map(|remedy| match remedy.change? {
            Change::Set {
                path,
                value: Value::Number(height),
            } if path.starts_with("parts.") => Some(height),
            _ => None,
        })
        .collect();
    assert!(
        heights
            .iter()
            .all(|height| *height >= first.base.clearance.value),
        "{heights:?}"
    );
    let tipped = remedies(&first, "standing.tip_full");
    assert!(
        tipped.iter().any(
            |remedy| matches!(&remedy.lever, Lever::Input(path) if path.starts_with("parts."))
        )
    );
}

#[test]
fn no_remedy_shifts_the_vessel_out_over_its_frame() {
    let shifts = |width: f64| -> Vec<f64> {
        let mut design = Design::default();
        set(&mut design, "base.width", width);
        set(&mut design, "base.depth", 1.2);
        add_weight(&mut design, 20.0, (-0.35, 0.0, 0.8));
        let found = (asked(&design).into_iter())
            .filter(|finding| finding.verdict != Verdict::Good)
            .flat_map(|finding| remedies(&design, finding.id));
        found
            .filter_map(|remedy| match remedy.change? {
                Change::Set {
                    path,
                    value: Value::Number(shift),
                } if path == "base.vessel_x" => Some(shift),
                _ => None,
            })
            .collect()
    };
    let vessel = assess(&Design::default()).standing.machine.vessel;
    let radius = vessel.hearth_outer_radius.value;
    for width in [0.36, 0.40, 0.45, 0.50, 0.55, 0.60] {
        let carried = (0.5 * width - radius).max(0.0) + 0.2 * radius;
        for shift in shifts(width) {
            assert!(shift.abs() <= carried + 1e-6, "{shift} of {carried}");
        }
    }
    assert!(!shifts(0.50).is_empty(), "a little way it may be shifted");
    assert!(
        shifts(0.36).is_empty(),
        "further than the frame carries it may not"
    );
}

#[test]
fn a_push_is_told_as_the_weight_that_it_feels_like() {
    let design = example::as_improved();
    let told = |system| {
        find(&design, "standing.push")
            .unwrap()
            .compared
            .text(system)
    };
    let number = |text: &str, before: &str| -> f64 {
        let text = text.split(before).nth(1).unwrap();
        text.split(' ').next().unwrap().parse().unwrap()
    };
    let metric = told(System::Metric);
    let [push, felt] = ["a push of ", ", about "].map(|before| number(&metric, before));
    assert!((push / 9.81 - felt).abs() < 1.0, "{metric}");
    assert!(metric.contains(" kg, tips it"), "{metric}");
    let inch = told(System::Inch);
    let [push, felt] = ["a push of ", ", about "].map(|before| number(&inch, before));
    assert!((push - felt).abs() < 1.0, "{inch}");
    assert!(
        inch.contains(" lb, tips it") && !inch.contains(" kg"),
        "{inch}"
    );
}

/// By hand: with d/H below the grip it tips before it slides on level ground. On a slope the push that tips it falls by h/H of
/// what the grip falls by, so that it may slide first there; that saves nothing.
#[test]
fn a_steeper_slope_never_betters_the_push() {
    let (mut stops, mut slides) = (0, 0);
    for hopper in [true, false] {
        for width in [0.6, 0.75, 0.9] {
            let mut design = example::as_improved();
            design.hopper.fitted = hopper;
            set(&mut design, "base.width", width);
            let mut before = Verdict::Good;
            for step in 0..=15 {
                set(&mut design, "base.slope", 0.05 * f64::from(step));
                let found = find(&design, "standing.push").unwrap();
                let words = found.compared.text(System::Metric);
                assert!(found.verdict >= before, "{width} m, step {step}: {words}");
                before = found.verdict;
                stops += u32::from(found.verdict == Verdict::Stop);
                slides += u32::from(words.contains("it slides first"));
            }
        }
    }
    assert!(stops > 10 && slides > 0, "{stops}, {slides}");
}
