//! Sheets of the examples and of any design.

#[path = "sheets/shell_drawing.rs"]
mod shell_drawing;
#[path = "sheets/tables.rs"]
mod tables;

use crate::random_design::random_design;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::paper::html;
use hearthplan::paper::sheet::Sheet;
use hearthplan::paper::sheets::{Drawing, all};
use hearthplan::paper::tiling::Paper;
use hearthplan::review::{Assessment, Verdict, assess};
use std::collections::BTreeSet;

/// WebAssembly checks that its own mathematics holds too, on fewer designs.
const DESIGNS: u64 = if cfg!(target_family = "wasm") { 6 } else { 40 };

fn examples() -> [Design; 3] {
    [
        example::as_first_drawn(),
        example::as_improved(),
        Design::default(),
    ]
}

fn made(design: &Design) -> (Assessment, Vec<Sheet>) {
    let assessment = assess(design);
    let sheets = all(design, &assessment, System::Metric, &[]);
    (assessment, sheets)
}

/// The words between the tags of a page.
fn words(page: &str) -> String {
    let mut words = String::new();
    let mut inside = false;
    for sign in page.chars() {
        match sign {
            '<' => inside = true,
            '>' => {
                inside = false;
                words.push(' ');
            }
            _ if !inside => words.push(sign),
            _ => {}
        }
    }
    words
}

/// Neither numbers that are none, nor sentences with a gap.
fn assert_whole(text: &str, of: &str) {
    for word in text.split(|sign: char| !sign.is_alphanumeric()) {
        assert!(
            !matches!(word, "NaN" | "inf" | "infinity"),
            "{of}: “{word}” in …{}",
            &text[text.find(word).unwrap_or(0)..]
                .chars()
                .take(80)
                .collect::<String>()
        );
    }
    assert!(!text.contains("{}"), "{of}");
}

fn check_shape(sheets: &[Sheet], of: &str) {
    let mut names = BTreeSet::new();
    for sheet in sheets {
        assert!(names.insert(sheet.name.to_string()), "{of}: {}", sheet.name);
        for about in sheet.about {
            assert!(
                Design::SECTIONS
                    .iter()
                    .any(|section| section.name == *about)
                    || Design::LISTS.iter().any(|list| list.name == *about),
                "{of}: {} is about “{about}”",
                sheet.name
            );
        }
    }
    let mut names = BTreeSet::new();
    for (name, caption, table) in sheets.iter().flat_map(|sheet| sheet.tables()) {
        assert!(names.insert(name.to_string()), "{of}: two tables {name}");
        assert!(
            !caption.is_empty() && !table.headings.is_empty(),
            "{of}: {name}"
        );
        assert!(!table.rows.is_empty(), "{of}: {name} is empty");
        for row in &table.rows {
            assert_eq!(row.cells.len(), table.headings.len(), "{of}: {name}");
        }
    }
}

#[test]
fn every_sheet_of_any_design_is_whole() {
    for seed in 0..DESIGNS {
        let design = random_design(seed);
        let (_, sheets) = made(&design);
        let of = format!("seed {seed}");
        check_shape(&sheets, &of);
        for system in [System::Metric, System::Inch] {
            for sheet in &sheets {
                assert_whole(&words(&html::blocks(sheet, system)), &of);
            }
        }
        for (name, svg) in sheets.iter().flat_map(|sheet| sheet.drawings()) {
            assert!(!svg.contains("NaN") && !svg.contains("inf"), "{of}: {name}");
            assert_eq!(
                svg.matches('<').count(),
                svg.matches('>').count(),
                "{of}: {name}"
            );
        }
    }
}

#[test]
fn the_examples_fill_every_sheet() {
    for design in &examples() {
        let (assessment, sheets) = made(design);
        let of = &design.about.name;
        check_shape(&sheets, of);
        let names: Vec<&str> = sheets.iter().map(|sheet| sheet.name).collect();
        assert_eq!(
            names,
            [
                "summary",
                "parts",
                "marking",
                "templates",
                "gas-train",
                "wiring",
                "leak-tests",
                "build-order",
                "lighting",
                "cost"
            ]
        );
        let with_tables = sheets
            .iter()
            .filter(|sheet| sheet.name != "marking" || !design.holes.is_empty());
        for sheet in with_tables {
            assert!(sheet.tables().next().is_some(), "{of}: {}", sheet.name);
        }
        let summary = words(&html::blocks(&sheets[0], System::Metric));
        // Where to run it is said in the words of the questions.
        let run = "un it outdoors or under an open roof";
        let caution = assessment
            .finding("leaks.room")
            .and_then(|room| room.caution);
        assert!(
            caution.unwrap().contains(run) && summary.contains(run),
            "{of}"
        );
        for finding in &assessment.findings {
            if finding.verdict != Verdict::Good {
                let why = html::escaped(finding.why);
                assert!(summary.contains(&why), "{of}: {}", finding.id);
            }
        }
    }
}

/// Who bought a vessel is warned on the first page, once.
#[test]
fn the_summary_warns_of_used_containers_where_a_vessel_was_bought() {
    let warned = |design: &Design| {
        let (_, sheets) = made(design);
        words(&html::blocks(&sheets[0], System::Metric))
            .matches("A used fuel container can explode")
            .count()
    };
    let mut design = example::as_improved();
    design.real_vessel.measured = true;
    assert_eq!(warned(&design), 1);
    design.real_vessel.girth *= 1.1;
    assert_eq!(warned(&design), 1);
    assert_eq!(warned(&example::as_first_drawn()), 1);
}

#[test]
fn the_pump_set_as_first_drawn_shows_what_would_be_cut_wrong() {
    let (_, sheets) = made(&example::as_first_drawn());
    let marking = sheets.iter().find(|sheet| sheet.name == "marking").unwrap();
    let page = words(&html::blocks(marking, System::Metric));
    assert!(page.contains("What the plan would have cut wrong"));
    assert!(page.contains("Ash door: 90 mm too high"), "{page}");
    assert_eq!(page.matches("never held fuel").count(), 1);
    assert_eq!(marking.drawings().count(), 1);
}

#[test]
fn what_a_person_typed_cannot_become_a_tag() {
    let nasty = "<script>alert(1)</script>\"&";
    let mut design = example::as_improved();
    design.about.name = nasty.to_string();
    design.about.note = nasty.to_string();
    design.cost.currency = "<i>".to_string();
    for joint in &mut design.joints {
        joint.name = nasty.to_string();
    }
    for hole in &mut design.holes {
        hole.name = nasty.to_string();
    }
    for part in &mut design.parts {
        part.name = nasty.to_string();
    }
    for stage in &mut design.train {
        stage.name = nasty.to_string();
    }
    for reading in &mut design.readings {
        reading.note = nasty.to_string();
    }
    let assessment = assess(&design);
    let drawing = Drawing {
        name: "machine".to_string(),
        svg: "<svg></svg>".to_string(),
        words: nasty.to_string(),
        is_captioned: true,
    };
    let page = html::document(
        nasty,
        &all(&design, &assessment, System::Metric, &[drawing]),
        System::Metric,
        Paper::A4,
    );
    assert!(page.contains("&lt;script&gt;"));
    assert!(!page.contains("<script"));
    assert!(!page.contains("<i>"));
    // What escaping leaves: as many tags opened as closed.
    assert_eq!(page.matches("<td").count(), page.matches("</td>").count());
}

#[test]
fn metric_bolts_have_their_metric_name_in_both_systems() {
    let mut design = example::as_improved();
    let (_, sheets) = made(&design);
    let parts = |sheets: &[Sheet], system| {
        let sheet = sheets.iter().find(|sheet| sheet.name == "parts").unwrap();
        words(&html::blocks(sheet, system))
    };
    for system in [System::Metric, System::Inch] {
        let told = parts(&sheets, system);
        assert!(told.contains("M10 × 40"), "{told}");
        assert!(!told.contains("thread "), "{told}");
    }
    let bolted = design.joints.iter_mut().find(|joint| joint.bolts > 0);
    bolted.unwrap().bolt = uom::si::f64::Length::new::<uom::si::length::inch>(0.375);
    let (_, sheets) = made(&design);
    assert!(parts(&sheets, System::Inch).contains("thread 0.375 in × "));
}

/// What a change of temperature looks like is told for a degree of the units shown, and holes in one unit.
#[test]
fn the_leak_sheet_keeps_to_the_units_shown() {
    let design = example::as_improved();
    let (_, sheets) = made(&design);
    let sheet = (sheets.iter())
        .find(|sheet| sheet.name == "leak-tests")
        .unwrap();
    let inch = words(&html::blocks(sheet, System::Inch));
    assert!(inch.contains(" for each 1 °F"), "{inch}");
    assert!(!inch.contains("°C") && !inch.contains("µm"), "{inch}");
    let metric = words(&html::blocks(sheet, System::Metric));
    assert!(metric.contains(" for each 1 K"), "{metric}");
    assert!(!metric.contains("µm"), "{metric}");
}

#[test]
fn no_sheet_has_a_power_of_ten() {
    for design in examples() {
        let (_, sheets) = made(&design);
        for system in [System::Metric, System::Inch] {
            for sheet in &sheets {
                let told = words(&html::blocks(sheet, system));
                let figures = told.as_bytes().windows(3);
                let power = told.contains("e−")
                    || figures.filter(|three| three[1] == b'e').any(|three| {
                        three[0].is_ascii_digit() && (three[2].is_ascii_digit() || three[2] == b'-')
                    });
                assert!(!power, "{}: {told}", sheet.name);
            }
        }
    }
}
