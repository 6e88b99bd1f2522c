//! The port that the fire is lit through, and holes that are missing.

use hearthplan::design::inputs::{HearthKind, Hole, HoleUse};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::paper::html;
use hearthplan::paper::sheets::all;
use hearthplan::review::{Chapter, Verdict, ask, assess, remedies};
use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};
use uom::si::length::millimeter;

pub const PORT: &str = "marking.lighting_port";

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

pub fn said(design: &Design, id: &str) -> Option<(Verdict, String)> {
    let findings = ask(design, Chapter::Marking);
    let finding = findings.iter().find(|finding| finding.id == id)?;
    Some((finding.verdict, finding.compared.text(System::Metric)))
}

fn verdict(design: &Design, id: &str) -> Option<Verdict> {
    said(design, id).map(|(verdict, _)| verdict)
}

fn without(name: &str) -> Design {
    let mut design = example::as_improved();
    design.holes.retain(|hole| hole.name != name);
    design
}

pub fn sheet(design: &Design, id: &str) -> String {
    let sheets = all(design, &assess(design), System::Metric, &[]);
    let sheet = sheets.iter().find(|sheet| sheet.name == id).unwrap();
    html::blocks(sheet, System::Metric)
}

/// Whatever goes by the margin must not take a Stop for Good.
#[test]
fn the_margin_of_a_port_is_against_what_stops_it() {
    let mut design = example::as_improved();
    for height in [355, 381, 383, 384, 386, 396, 400, 413, 415, 420] {
        design.holes[3].height = mm(f64::from(height));
        let findings = ask(&design, Chapter::Marking);
        let port = findings.iter().find(|finding| finding.id == PORT).unwrap();
        let margin = port.margin.unwrap();
        assert_eq!(
            port.verdict == Verdict::Good,
            margin >= 0.0,
            "{height}: {margin}"
        );
    }
    // 14 mm below, where the tube ends 12 mm below.
    design.holes[3].height = mm(383.0);
    let findings = ask(&design, Chapter::Marking);
    let port = findings.iter().find(|finding| finding.id == PORT).unwrap();
    assert!((port.margin.unwrap() - (1.0 - 14.0 / 12.0)).abs() < 1e-6);
}

/// The nozzles of the example lie 397 mm above the datum, its fire tube ends 12 mm below them, and the port is 34 mm wide.
#[test]
fn a_port_must_meet_the_fire_tube_at_the_nozzles() {
    for (height, wanted, words) in [
        (407.0, Verdict::Good, "10 mm off the height of the nozzles"),
        (420.0, Verdict::Watch, "23 mm above the nozzles"),
        (397.0, Verdict::Good, "0 mm off"),
        (385.0, Verdict::Good, "12 mm off"),
        (
            384.0,
            Verdict::Stop,
            "13 mm below the nozzles, but the fire tube ends 12 mm below them",
        ),
        (355.0, Verdict::Stop, "42 mm below the nozzles"),
        (300.0, Verdict::Stop, "it opens on the cone or beside it"),
    ] {
        let mut design = example::as_improved();
        design.holes[3].height = mm(height);
        let (verdict, told) = said(&design, PORT).unwrap();
        assert_eq!(verdict, wanted, "{height}: {told}");
        assert!(told.contains(words), "{height}: {told}");
        let lighting = sheet(&design, "lighting");
        let told_off = lighting.contains("Hold no flame to the lighting port");
        assert_eq!(told_off, wanted == Verdict::Stop, "{height}");
        assert_eq!(
            lighting.contains("bring a flame near"),
            !told_off,
            "{height}"
        );
        if wanted != Verdict::Good {
            let offered = remedies(&design, PORT);
            let mended = offered
                .iter()
                .find_map(|remedy| remedy.change.as_ref()?.apply(&design));
            assert_eq!(
                said(&mended.unwrap(), PORT).unwrap().0,
                Verdict::Good,
                "{height}"
            );
        }
    }
}

/// Longer straight on, the tube is met lower down, where no air is.
#[test]
fn a_port_far_below_the_nozzles_lights_nothing() {
    let mut design = example::as_improved();
    design.hearth.straight_below_nozzles = mm(40.0);
    design.holes[3].height = mm(370.0);
    let (verdict, told) = said(&design, PORT).unwrap();
    assert_eq!(verdict, Verdict::Watch, "{told}");
    assert!(
        told.contains("27 mm below the nozzles, where a flame finds no air"),
        "{told}"
    );
}

#[test]
fn a_port_without_a_pipe_or_that_leans_or_passes_by_is_told() {
    let port = |change: fn(&mut Hole)| {
        let mut design = example::as_improved();
        change(&mut design.holes[3]);
        said(&design, PORT).unwrap()
    };
    let (verdict, told) = port(|hole| hole.carries = HoleUse::Open);
    assert_eq!(verdict, Verdict::Stop, "{told}");
    assert!(
        told.contains("no pipe leads from it into the fire tube"),
        "{told}"
    );
    let (verdict, _) = port(|hole| hole.carries = HoleUse::SetOn);
    assert_eq!(verdict, Verdict::Stop);
    let (verdict, told) = port(|hole| hole.offset = mm(150.0));
    assert_eq!(verdict, Verdict::Stop, "{told}");
    assert!(told.contains("passes beside the fire tube"), "{told}");
    // Through about 100 mm of wall and gap it falls as far.
    let (verdict, told) = port(|hole| hole.lean = Angle::new::<degree>(45.0));
    assert_eq!(verdict, Verdict::Stop, "{told}");
}

#[test]
fn a_straight_tube_wants_no_port() {
    let mut design = without("Nozzle");
    design.hearth.kind = HearthKind::Straight;
    let (verdict, told) = said(&design, PORT).unwrap();
    assert_eq!(verdict, Verdict::Stop);
    assert!(
        told.contains("“Lighting port” opens beside a straight fire tube, which is lit from above"),
        "{told}"
    );
    design.holes.retain(|hole| hole.name != "Lighting port");
    // Neither is asked of a tube that has none.
    assert_eq!(
        [PORT, "marking.nozzles"].map(|id| said(&design, id)),
        [const { None }; 2]
    );
}

/// A pipe set in beside the nozzles is the port, whatever it is called.
#[test]
fn the_sheet_names_the_hole_that_the_fire_is_lit_through() {
    let mut design = example::as_improved();
    design.holes[3].name = "Side pipe".to_string();
    assert_eq!(verdict(&design, PORT), Some(Verdict::Good));
    assert!(sheet(&design, "lighting").contains("bring a flame near, to “Side pipe”"));
    let design = without("Lighting port");
    let told = sheet(&design, "lighting");
    assert!(
        told.contains("No lighting port is among the holes"),
        "{told}"
    );
    assert!(
        told.contains("and shut gas outlet and every other opening tightly"),
        "{told}"
    );
    assert!(!told.contains("bring a flame near"), "{told}");
    // What is not marked out has one, as far as is known.
    let mut design = design;
    design.holes.clear();
    assert!(sheet(&design, "lighting").contains("bring a flame near, to the lighting port"));
}

#[test]
fn a_hole_that_is_missing_beside_others_is_told() {
    for (name, id, words) in [
        ("Nozzle", "marking.nozzles", "no hole for the nozzles"),
        ("Lighting port", PORT, "no hole is called a lighting port"),
        (
            "Ash door",
            "marking.ash_door",
            "no opening is called after the ash",
        ),
        (
            "Gas outlet",
            "marking.outlet",
            "no hole is called after the gas outlet",
        ),
    ] {
        let design = without(name);
        let (verdict, told) = said(&design, id).unwrap();
        assert_eq!(verdict, Verdict::CannotTell, "{name}: {told}");
        assert!(told.contains(words), "{name}: {told}");
        assert!(sheet(&design, "marking").contains(words), "{name}");
        let findings = assess(&design).findings;
        let open = findings.iter().filter(|finding| {
            finding.chapter == Chapter::Marking && finding.verdict != Verdict::Good
        });
        assert_eq!(
            open.map(|finding| finding.id).collect::<Vec<_>>(),
            [id],
            "{name}"
        );
    }
    let mut none = example::as_improved();
    none.holes.clear();
    for id in [
        "marking.nozzles",
        PORT,
        "marking.ash_door",
        "marking.outlet",
    ] {
        assert_eq!(said(&none, id), None, "{id}");
    }
}
