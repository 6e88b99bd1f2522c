//! Holes in a wall of another width than the vessel, and a vessel of another width than its wall.

use hearthplan::design::inputs::{HoleUse, Material};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::paper::{html, sheets};
use hearthplan::review::assess;
use hearthplan::sizing::marking::{along_the_shell, mark_out};
use hearthplan::sizing::pattern::wrap_template;
use std::f64::consts::PI;
use uom::si::f64::Length;
use uom::si::length::millimeter;

/// Place of the thermometer in the list of holes of the improved example.
const THERMOMETER: usize = 4;

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

/// The improved example with a body that is 548 mm across outside, while its vessel is 463 mm. Inside its wool there is no
/// other steel.
fn with_a_wide_body() -> Design {
    let mut design = with_a_body_of_two_steels();
    design.body_layers[0].material = Material::DenseCastable;
    design
}

/// The same, with a steel of 445 mm inside the wool.
fn with_a_body_of_two_steels() -> Design {
    let mut design = example::as_improved();
    let layers: Length = design.body_layers.iter().map(|layer| layer.thickness).sum();
    design.body_wall.inside_diameter = mm(548.0) - 2.0 * layers;
    design
}

fn page(design: &Design, name: &str) -> String {
    let all = sheets::all(design, &assess(design), System::Metric, &[]);
    let sheet = all.iter().find(|sheet| sheet.name == name);
    html::blocks(sheet.expect("the sheet"), System::Metric)
}

/// Name, angle, and the distances from front mark and long seam of each row.
fn rows(design: &Design) -> Vec<[String; 4]> {
    let table = assess(design).marking.hole_table();
    let cells = |row: &hearthplan::review::TableRow| {
        [0, 4, 5, 6].map(|place: usize| row.cells[place].text(System::Metric))
    };
    assert_eq!(table.headings[4], "Angle from the front mark");
    table.rows.iter().map(cells).collect()
}

#[test]
fn a_hole_in_a_wider_wall_is_told_round_that_wall_and_by_its_angle() {
    let design = with_a_wide_body();
    let told = rows(&design);
    assert_eq!(told[1], ["Nozzle 2", "72°", "291 mm", "113 mm to its left"]);
    // 200° of the body, 548 mm across outside.
    let around = format!("{:.0} mm", 548.0 * PI * 200.0 / 360.0);
    assert_eq!(told[8], ["Thermometer", "200°", &around, "by its angle"]);
    let assessment = assess(&design);
    let results = assessment.marking.results();
    let wrap = (results.iter()).find(|result| result.name == "marking.hole_9_wrap");
    assert_eq!(wrap.unwrap().measure.show(System::Metric), around);
    let beside = along_the_shell(&design, "holes.4.angle").unwrap();
    assert!((beside.get::<millimeter>() - 548.0 * PI * 200.0 / 360.0).abs() < 0.01);
    let page = page(&design, "marking");
    assert!(
        page.contains("“Thermometer” is drilled in the body wall, not in the vessel: its distance is round the bare steel of that wall, 548 mm across."),
        "{page}"
    );
    // No tape tells on the drawing what it is on the vessel: 808 mm.
    assert!(!page.contains(">808") && page.contains(">200°<"));
}

/// A hole passes the steel that holds the gas and the jacket around its wool: each has its own distance round.
#[test]
fn a_hole_through_two_steels_is_told_round_both() {
    let round = |across: f64| format!("{:.0} mm", across * PI * 200.0 / 360.0);
    let design = with_a_body_of_two_steels();
    let told = rows(&design);
    assert_eq!(
        told[8],
        ["Thermometer", "200°", &round(445.0), "by its angle"]
    );
    let page = page(&design, "marking");
    assert!(page.contains("round the bare steel of that wall, 445 mm across."));
    let also = format!(
        "It passes the steel that is 548 mm across too: round that it is {}.",
        round(548.0)
    );
    assert!(page.contains(&also), "{page}");
}

/// Table and verdict of the first example go by the same steel, and nothing lies more than once around it.
#[test]
fn hole_table_and_verdict_name_the_same_steel() {
    let design = example::as_first_drawn();
    let assessment = assess(&design);
    let verdict = assessment.finding("marking.shell").unwrap();
    let words = verdict.compared.text(System::Metric);
    assert!(
        words.contains("whose steel is 346 mm: mark it there"),
        "{words}"
    );
    let told = rows(&design);
    assert_eq!(told[8][2], format!("{:.0} mm", 346.0 * PI * 200.0 / 360.0));
    let mark = assessment.marking.marking.unwrap();
    for mark in mark.marks.iter().filter(|mark| mark.other_wall.is_some()) {
        let across = mark.other_wall.unwrap().across.unwrap();
        assert!(mark.round_from_front().unwrap() <= PI * across);
    }
}

/// Pipes that all pass one wall bind the vessel to it, however wide it is: they are marked on it, with a warning.
#[test]
fn holes_in_the_wall_that_pipes_bind_are_told_round_the_vessel_whatever_its_width() {
    let mut design = with_a_wide_body();
    design.real_vessel.girth = mm(1950.0);
    let told = rows(&design);
    assert_eq!(told[1][..3], ["Nozzle 2", "72°", "390 mm"]);
    assert_eq!(told[8][2], "956 mm");
    // Through both walls: the one more nearly as wide is the vessel.
    design.holes[THERMOMETER].carries = HoleUse::SetIn;
    assert_eq!(rows(&design)[8][2], "1083 mm");
    assert_eq!(rows(&design)[1][2], format!("{:.0} mm", 463.0 * PI / 5.0));
}

#[test]
fn round_wool_no_distance_is_told() {
    let mut design = with_a_wide_body();
    design.body_layers.pop();
    let told = rows(&design);
    assert_eq!(told[8][1..], ["200°", "by its angle", "by its angle"]);
    assert!(along_the_shell(&design, "holes.4.angle").is_none());
    let page = page(&design, "marking");
    assert!(
        page.contains("carry the front line up to it, and mark it by its angle, 200° to the right")
    );
}

#[test]
fn a_body_as_wide_as_the_vessel_is_the_vessel() {
    let mut design = example::as_improved();
    let through: Length = design.body_layers.iter().map(|layer| layer.thickness).sum();
    design.body_wall.inside_diameter = design.real_vessel.girth / PI - 2.0 * through;
    assert_eq!(rows(&design)[8][2], "808 mm");
    assert!(!page(&design, "marking").contains("not in the vessel"));
}

#[test]
fn the_template_of_the_vessel_has_no_hole_of_another_wall() {
    let mut design = with_a_wide_body();
    let named = |design: &Design| {
        let template = wrap_template(&mark_out(design).unwrap());
        let is_on = (template.labels.iter()).any(|label| label.text.starts_with("Thermometer"));
        (is_on, template.note)
    };
    let (is_on, note) = named(&design);
    assert!(
        !is_on && note.contains("Thermometer at 200.0° on the body wall"),
        "{note}"
    );
    design.holes[THERMOMETER].height = mm(300.0);
    let (is_on, note) = named(&design);
    assert!(is_on && !note.contains("Thermometer"), "{note}");
}

#[test]
fn both_sheets_warn_where_the_vessel_is_not_as_wide_as_its_wall() {
    let mut design = example::as_improved();
    let warned = |design: &Design| {
        ["marking", "templates"]
            .map(|name| page(design, name).contains("Vessel as wide as the design"))
    };
    assert_eq!(warned(&design), [false, false]);
    let wool = (design.hearth_layers.iter_mut()).find(|layer| !layer.material.is_metal());
    wool.unwrap().thickness += mm(20.0);
    for measured in [true, false] {
        design.real_vessel.measured = measured;
        assert_eq!(warned(&design), [true, true]);
        for name in ["marking", "templates"] {
            let page = page(&design, name);
            let stop = page
                .find("Stop: Vessel as wide as the design: the vessel")
                .unwrap();
            assert!(
                page[stop..].contains("whose steel is 503 mm, 39.9 mm apart"),
                "{page}"
            );
        }
    }
}
