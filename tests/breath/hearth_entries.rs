//! Nozzles that leave a side of the hearth cold, and char that no such wood makes.

use crate::mended::every_remedy_passes;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Verdict, assess, guided, remedies};

fn with(changes: &[(&str, f64)]) -> Design {
    let mut design = example::as_improved();
    for (path, value) in changes {
        design.set(path, Value::Number(*value)).unwrap();
    }
    design
}

fn said(design: &Design, id: &str) -> (Verdict, String) {
    let assessment = assess(design);
    let finding = assessment.finding(id).unwrap();
    (finding.verdict, finding.compared.text(Default::default()))
}

#[test]
fn one_or_two_nozzles_leave_a_side_cold() {
    let of = |count: f64| {
        said(
            &with(&[("hearth.nozzle_count", count)]),
            "hearth.nozzles_around",
        )
    };
    for count in [1.0, 2.0] {
        let (verdict, words) = of(count);
        assert_eq!(verdict, Verdict::Watch, "{count}");
        assert!(words.contains("5 or 7"), "{words}");
    }
    // Three of them 281 mm apart leave the char between them cold, four no more.
    let (verdict, words) = of(3.0);
    assert_eq!(verdict, Verdict::Watch);
    assert!(words.contains("between them stays cold"), "{words}");
    let (verdict, words) = of(4.0);
    assert_eq!(verdict, Verdict::Good);
    assert!(words.contains("head-on"), "{words}");
    let (verdict, words) = of(5.0);
    assert_eq!(verdict, Verdict::Good);
    assert!(!words.contains("head-on"), "{words}");
    // A ring half as wide is reached by three.
    let narrow = with(&[
        ("hearth.nozzle_count", 3.0),
        ("hearth.nozzle_ring_diameter", 0.134),
    ]);
    assert_eq!(said(&narrow, "hearth.nozzles_around").0, Verdict::Good);
    every_remedy_passes(
        &with(&[("hearth.nozzle_count", 1.0)]),
        "hearth.nozzles_around",
        1,
    );
    let mut straight = example::as_improved();
    (straight.set("hearth.kind", Value::Choice("straight".into()))).unwrap();
    assert!(assess(&straight).finding("hearth.nozzles_around").is_none());
}

#[test]
fn char_is_never_larger_than_its_wood() {
    let of = |char: f64, wood: f64| with(&[("hearth.char_size", char), ("fuel.piece_size", wood)]);
    assert_eq!(said(&of(0.02, 0.03), "hearth.char_pieces").0, Verdict::Good);
    let (verdict, words) = said(&of(0.025, 0.03), "hearth.char_pieces");
    assert_eq!(verdict, Verdict::Watch);
    assert!(words.contains("about half as large"), "{words}");
    let (verdict, words) = said(&of(0.05, 0.03), "hearth.char_pieces");
    assert_eq!(verdict, Verdict::Watch);
    assert!(words.contains("cannot come from wood"), "{words}");
    every_remedy_passes(&of(0.03, 0.03), "hearth.char_pieces", 2);
}

#[test]
fn small_pieces_are_given_small_char_and_a_grate_that_holds_it() {
    let mut asked = example::to_start_from();
    asked.set("fuel.piece_size", Value::Number(0.010)).unwrap();
    let sized = guided::complete(&asked, &[]);
    assert!(sized.hearth.char_size <= sized.fuel.piece_size);
    assert_eq!(said(&sized, "hearth.char_pieces").0, Verdict::Good);
    assert_eq!(said(&sized, "hearth.grate").0, Verdict::Good);
}

#[test]
fn a_grate_that_is_nearly_shut_takes_the_breath() {
    let drop = |design: &Design| {
        let assessment = assess(design);
        let duty = assessment.breath.full_clean.unwrap();
        let grate = (duty.stages.iter()).find(|stage| &*stage.name == "grate");
        (grate.map(|stage| stage.drop.value), duty.drop.value)
    };
    // Of a good design it takes next to nothing.
    let (open, whole) = drop(&with(&[]));
    assert!(
        open.unwrap() > 0.0 && open.unwrap() < 0.03 * whole,
        "{open:?} {whole}"
    );
    let closed = with(&[("grate.hole", 0.006), ("grate.pitch", 0.04)]);
    let (shut, _) = drop(&closed);
    assert!(shut.unwrap() > 50.0 * open.unwrap(), "{shut:?} {open:?}");
    let assessment = assess(&closed);
    let suction = assessment.finding("breath.suction").unwrap();
    let levers: Vec<_> = (suction.levers.iter())
        .filter_map(|lever| match lever {
            hearthplan::review::Lever::Input(path) => Some(path.as_ref()),
            _ => None,
        })
        .collect();
    assert!(levers.contains(&"grate.pitch"), "{levers:?}");
    // Nothing is reckoned as if a grate that cannot be drawn were not there.
    let undrawn = with(&[("grate.hole", 0.02), ("grate.pitch", 0.018)]);
    assert!(assess(&undrawn).breath.full_clean.is_err());
    // Beside a grate that is too narrow the gas goes past.
    let narrow = with(&[("grate.diameter", 0.06)]);
    assert!(drop(&narrow).0.unwrap() < 10.0 * open.unwrap());
}

/// A straight tube has no nozzles: unless its top is open, nothing tells where its air comes from.
#[test]
fn a_straight_tube_draws_its_air_from_an_open_top() {
    let mut design = example::as_improved();
    assert!(assess(&design).finding("hearth.air_in").is_none());
    (design.set("hearth.kind", Value::Choice("straight".into()))).unwrap();
    let shut = assess(&design);
    let found = shut.finding("hearth.air_in").unwrap();
    assert_eq!(found.verdict, Verdict::CannotTell);
    let told = found.compared.text(System::Metric);
    assert!(
        told.contains("the lid of the hopper must stay open"),
        "{told}"
    );
    let offered = remedies(&design, "hearth.air_in");
    let open = offered[0].change.as_ref().unwrap().apply(&design).unwrap();
    assert!(open.hearth.top_open);
    let open = assess(&open);
    let found = open.finding("hearth.air_in").unwrap();
    assert_eq!(found.verdict, Verdict::Good);
    assert!(found.caution.unwrap().contains("never shut the open top"));
}
