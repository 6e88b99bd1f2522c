//! Sheets of the examples and of any design.

use crate::random_design::random_design;
use hearthplan::design::phrase::Slot;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::paper::sheet::{Block, Sheet};
use hearthplan::paper::sheets::{Drawing, all};
use hearthplan::paper::tiling::Paper;
use hearthplan::paper::{csv, html};
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
    assert!(inch.contains(" for each 1.8 °F"), "{inch}");
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

#[test]
fn masses_on_the_parts_list_add_up_to_the_weight() {
    for design in &examples() {
        let (assessment, sheets) = made(design);
        let parts = sheets.iter().find(|sheet| sheet.name == "parts").unwrap();
        let mut sum = 0.0;
        for (name, _, table) in parts.tables() {
            let Some(column) = table
                .headings
                .iter()
                .position(|heading| *heading == "Mass")
                .filter(|_| name.starts_with("parts-"))
            else {
                continue;
            };
            for row in &table.rows {
                let counted = row.cells[column + 1].text(System::Metric);
                let weighs = match counted.as_str() {
                    "at its place" | "with its sub-assembly" => true,
                    "as other parts" | "as other parts: buy it once" | "missing" => false,
                    other => panic!("counted {other}"),
                };
                if let Slot::Measure(mass) = &row.cells[column]
                    && weighs
                {
                    sum += mass.si;
                }
            }
        }
        let results = assessment.results();
        let empty = results
            .iter()
            .find(|result| result.name == "standing.mass_empty")
            .unwrap();
        assert!(
            (sum - empty.measure.si).abs() < 1e-6,
            "{sum} against {}",
            empty.measure.si
        );
    }
}

/// Reads comma-separated values back (RFC 4180).
fn parsed(text: &str) -> Vec<Vec<String>> {
    let mut rows = Vec::new();
    let mut row = vec![String::new()];
    let mut quoted = false;
    let mut signs = text.chars().peekable();
    while let Some(sign) = signs.next() {
        match sign {
            '"' if quoted && signs.peek() == Some(&'"') => {
                signs.next();
                row.last_mut().unwrap().push('"');
            }
            '"' => quoted = !quoted,
            ',' if !quoted => row.push(String::new()),
            '\n' if !quoted => rows.push(std::mem::replace(&mut row, vec![String::new()])),
            '\r' if !quoted => {}
            other => row.last_mut().unwrap().push(other),
        }
    }
    assert!(!quoted, "a quote stays open");
    assert_eq!(row, [""], "the last line has no end");
    rows
}

#[test]
fn tables_read_back_as_they_were_written() {
    for seed in 0..DESIGNS / 5 {
        let (_, sheets) = made(&random_design(seed));
        for (name, _, table) in sheets.iter().flat_map(|sheet| sheet.tables()) {
            let rows = parsed(&csv::csv(table, System::Metric));
            assert_eq!(rows.len(), table.rows.len() + 1, "seed {seed}: {name}");
            let verdicts = table.rows.iter().any(|row| row.verdict.is_some());
            for (read, written) in rows.iter().skip(1).zip(&table.rows) {
                assert_eq!(read.len(), written.cells.len() + usize::from(verdicts));
                for (text, cell) in read.iter().zip(&written.cells) {
                    if let Slot::Name(name) = cell {
                        // A name that a spreadsheet could take for a formula has an apostrophe before it.
                        assert_eq!(text.trim_start_matches('\''), name.trim_start_matches('\''));
                    }
                }
            }
        }
    }
}

#[test]
fn hold_points_and_boxes_stand_in_the_build_order() {
    let mut design = example::as_improved();
    design.workshop.own_order = false;
    let (assessment, sheets) = made(&design);
    let sheet = sheets
        .iter()
        .find(|sheet| sheet.name == "build-order")
        .unwrap();
    let (_, _, table) = sheet.tables().next().unwrap();
    let steps = assessment.order.computed.unwrap();
    assert_eq!(table.rows.len(), steps.len());
    let held = table
        .rows
        .iter()
        .filter(|row| row.cells[3] == Slot::from("HOLD"))
        .count();
    assert_eq!(held, steps.iter().filter(|step| step.hold).count());
    assert!(held > 0);
    let cautions = sheet
        .blocks
        .iter()
        .filter(|block| matches!(block, Block::Caution(_)))
        .count();
    assert!(cautions >= 2, "hot work and lifting");
}

/// A text of a drawing with the box it takes: left, top, right, bottom in mm. Signs count as wide as those
/// of the widest common sans-serif font.
fn text_boxes(svg: &str) -> Vec<(String, [f64; 4])> {
    const SIZE: f64 = 3.2;
    let mut boxes = Vec::new();
    for element in svg.split("<text ").skip(1) {
        let (tag, rest) = element.split_once('>').unwrap();
        let words = rest.split_once('<').unwrap().0.to_string();
        let of = |name: &str| {
            let value = tag.split_once(&format!("{name}=\"")).unwrap().1;
            value.split_once('"').unwrap().0
        };
        let [x, y] = ["x", "y"].map(|name| of(name).parse::<f64>().unwrap());
        let width = 0.64 * SIZE * words.chars().count() as f64;
        let before = match of("text-anchor") {
            "end" => width,
            "middle" => 0.5 * width,
            _ => 0.0,
        };
        // Signs stand about three quarters of the size above the line, and a quarter below it.
        let (above, below) = (0.75 * SIZE, 0.25 * SIZE);
        boxes.push(if tag.contains("rotate(-90") {
            let bottom = y + before;
            (words, [x - above, bottom - width, x + below, bottom])
        } else {
            let left = x - before;
            (words, [left, y - above, left + width, y + below])
        });
    }
    boxes
}

#[test]
fn names_and_dimensions_of_the_shell_do_not_overlap() {
    for design in [example::as_first_drawn(), example::as_improved()] {
        let assessment = assess(&design);
        for system in [System::Metric, System::Inch] {
            let sheets = all(&design, &assessment, system, &[]);
            let drawings = sheets.iter().flat_map(Sheet::drawings);
            let (_, svg) = { drawings }
                .find(|(name, _)| *name == "shell-unrolled")
                .unwrap();
            let boxes = text_boxes(svg);
            assert!(boxes.len() > 20, "{}", boxes.len());
            for (place, (words, one)) in boxes.iter().enumerate() {
                assert!(one[0] >= 0.0, "{words} runs off the paper");
                for (other_words, other) in &boxes[place + 1..] {
                    let apart = one[2] <= other[0] + 1e-9
                        || other[2] <= one[0] + 1e-9
                        || one[3] <= other[1] + 1e-9
                        || other[3] <= one[1] + 1e-9;
                    assert!(apart, "“{words}” {one:?} and “{other_words}” {other:?}");
                }
            }
        }
    }
}

/// Numbers of a path, in order.
fn path_numbers(way: &str) -> Vec<f64> {
    let numbers = way.split(|sign: char| sign.is_ascii_alphabetic() || sign == ' ');
    numbers.filter_map(|text| text.parse().ok()).collect()
}

/// Left, top, right and bottom of the outlines of the holes, and the lines from names to holes: of each the ends of the
/// line under the name, its height, and where it meets the hole.
fn holes_and_lines(svg: &str) -> (Vec<[f64; 4]>, Vec<Vec<f64>>) {
    let ways = svg
        .split("<path d=\"")
        .skip(1)
        .map(|rest| rest.split_once('"').unwrap().0);
    let (mut holes, mut lines) = (Vec::new(), Vec::new());
    for way in ways {
        let numbers = path_numbers(way);
        if way.matches('L').count() > 20 {
            let on = |axis: usize| numbers.iter().skip(axis).step_by(2).copied();
            let least = |axis| on(axis).fold(f64::INFINITY, f64::min);
            let most = |axis| on(axis).fold(f64::NEG_INFINITY, f64::max);
            holes.push([least(0), least(1), most(0), most(1)]);
        } else if way.matches('M').count() == 2 && way.contains('L') {
            lines.push(numbers);
        }
    }
    (holes, lines)
}

#[test]
fn a_name_stands_by_its_own_hole_and_its_line_begins_at_it() {
    let gap = |one: &[f64; 4], other: &[f64; 4]| {
        let apart = |low: usize, high: usize| {
            (one[low] - other[high])
                .max(other[low] - one[high])
                .max(0.0)
        };
        apart(0, 2).hypot(apart(1, 3))
    };
    for design in [example::as_first_drawn(), example::as_improved()] {
        let assessment = assess(&design);
        for system in [System::Metric, System::Inch] {
            let sheets = all(&design, &assessment, system, &[]);
            let drawings = sheets.iter().flat_map(Sheet::drawings);
            let (_, svg) = { drawings }
                .find(|(name, _)| *name == "shell-unrolled")
                .unwrap();
            let (holes, lines) = holes_and_lines(svg);
            let names: Vec<_> = (text_boxes(svg).into_iter())
                .filter(|(words, _)| words.contains('⌀'))
                .collect();
            assert_eq!(names.len(), holes.len());
            assert_eq!(names.len(), 9);
            let mut led = 0;
            for ((words, name), own) in names.iter().zip(&holes) {
                let other = |hole: &&[f64; 4]| *hole != own;
                let nearest = (holes.iter().filter(other))
                    .map(|hole| gap(name, hole))
                    .fold(f64::INFINITY, f64::min);
                // A cross may be larger than its hole.
                assert!(gap(name, own) < nearest + 2.5, "{words}: {nearest}");
                let [x, y] = [0.5 * (own[0] + own[2]), 0.5 * (own[1] + own[3])];
                let led_here = lines.iter().find(|line| {
                    let [.., to_x, to_y] = line[..] else {
                        return false;
                    };
                    (to_x - x).hypot(to_y - y) < 0.5
                });
                match led_here {
                    Some(line) => {
                        led += 1;
                        // Under the name or over it, no further than its letters are from each other.
                        let away = (name[1] - line[1]).max(line[1] - name[3]);
                        assert!(away < 1.0, "{words}: {away}");
                        assert!(line[0] >= name[0] - 0.01 && line[2] <= name[2], "{words}");
                        assert!(line[3] >= line[0] && line[3] <= line[2], "{words}");
                    }
                    None => assert!(
                        gap(name, own) + 2.0 < nearest && gap(name, own) < 4.0,
                        "{words}"
                    ),
                }
            }
            assert_eq!(led, lines.len());
            assert!(led > 0);
        }
    }
}

#[test]
fn dimensions_of_the_shell_are_in_the_units_of_the_reader() {
    let design = example::as_improved();
    let assessment = assess(&design);
    let drawn = |system| {
        let sheets = all(&design, &assessment, system, &[]);
        let drawings = sheets.iter().flat_map(Sheet::drawings);
        let (_, svg) = { drawings }
            .find(|(name, _)| *name == "shell-unrolled")
            .unwrap();
        text_boxes(svg)
            .into_iter()
            .map(|(words, _)| words)
            .collect::<Vec<_>>()
    };
    for (system, note, unit) in [
        (System::Metric, "Dimensions in millimetres", " mm"),
        (System::Inch, "Dimensions in inches", " in"),
    ] {
        let words = drawn(system);
        assert!(words.iter().any(|line| line.contains(note)));
        // Each height of the hole table stands on the drawing, in the same words.
        let table = assessment.marking.hole_table();
        for row in &table.rows {
            let shown = row.cells[2].text(system);
            let plain = shown.strip_suffix(unit).unwrap();
            assert!(
                words.iter().any(|word| word == plain),
                "{plain} in {words:?}"
            );
        }
    }
}

#[test]
fn what_must_be_emptied_is_told_at_the_load_at_which_it_comes_soonest() {
    use hearthplan::sizing::train::Detail;
    let design = example::as_improved();
    let (assessment, sheets) = made(&design);
    let train = &assessment.train;
    let time = |solved: &hearthplan::sizing::train::TrainSolution| {
        let traps = solved
            .outcomes
            .iter()
            .filter_map(|outcome| match &outcome.detail {
                Detail::Trap(trap) => trap.drain_interval,
                _ => None,
            });
        traps.map(|time| time.value).fold(f64::INFINITY, f64::min)
    };
    let [full, usual] =
        [&train.full_clean, &train.usual].map(|solved| time(solved.as_ref().unwrap()));
    assert!(
        usual < full,
        "the example no longer shows it: {usual} {full}"
    );
    let sheet = sheets
        .iter()
        .find(|sheet| sheet.name == "gas-train")
        .unwrap();
    let rows = sheet.blocks.iter().find_map(|block| match block {
        Block::Table { name, table, .. } if name == "maintenance" => Some(&table.rows),
        _ => None,
    });
    let trap = rows.unwrap().iter().find(|row| {
        matches!(&row.cells[2], Slot::Measure(measure) if (measure.si - usual).abs() < 1e-6 * usual)
    });
    let Slot::Name(load) = &trap.unwrap().cells[3] else {
        panic!("no load");
    };
    assert_eq!(&**load, "usual load");
}
