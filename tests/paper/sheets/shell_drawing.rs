//! Names, lines and dimensions on the drawing of the shell.

use hearthplan::design::example;
use hearthplan::design::quantity::System;
use hearthplan::paper::sheet::Sheet;
use hearthplan::paper::sheets::all;
use hearthplan::review::assess;
use hearthplan::sizing::pattern::patterns;
use uom::si::f64::Length;
use uom::si::length::millimeter;

/// The drawing of the unrolled shell.
fn unrolled(sheets: &[Sheet]) -> &str {
    let mut drawings = sheets.iter().flat_map(Sheet::drawings);
    let drawing = drawings.find(|(name, _)| *name == "shell-unrolled");
    drawing.unwrap().1
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
            let svg = unrolled(&sheets);
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
            let svg = unrolled(&sheets);
            let (holes, lines) = holes_and_lines(svg);
            let boxes = text_boxes(svg);
            let keys: Vec<_> = (boxes.iter())
                .filter(|(words, _)| words.contains('⌀'))
                .map(|(words, _)| words.split_once(": ").unwrap().0)
                .collect();
            let names: Vec<_> = (keys.iter())
                .filter_map(|key| boxes.iter().find(|(words, _)| words == key))
                .collect();
            assert_eq!(names.len(), holes.len());
            assert_eq!(names.len(), 9);
            let mut led = 0;
            for (&(words, name), own) in names.iter().zip(&holes) {
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
        }
    }
}

#[test]
fn dimensions_of_the_shell_are_in_the_units_of_the_reader() {
    let design = example::as_improved();
    let assessment = assess(&design);
    let drawn = |system| {
        let sheets = all(&design, &assessment, system, &[]);
        text_boxes(unrolled(&sheets))
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
        // Each height and diameter of the hole table stands on the drawing, in the same words: a pipe of 1.327 in does not
        // go through 1 5/16 in.
        let table = assessment.marking.hole_table();
        for row in &table.rows {
            let across = row.cells[1].text(system);
            let named = format!(
                "{} ⌀{}",
                row.cells[0].text(system),
                across.trim_end_matches(unit)
            );
            let named = format!(": {named}");
            assert!(
                words.iter().any(|word| word.ends_with(&named)),
                "{named} in {words:?}"
            );
            let shown = row.cells[2].text(system);
            let (number, side) = shown.split_once(unit).unwrap();
            let plain = if side == " below" {
                format!("−{number}")
            } else {
                number.to_string()
            };
            assert!(words.contains(&plain), "{plain} in {words:?}");
        }
    }
}

/// A pipe of 44.8 mm does not go through 1 3/4 in.
#[test]
fn what_is_bored_is_told_to_a_thousandth_of_an_inch_beside_its_millimetres() {
    let mut design = example::as_improved();
    design.flanges[0].bore = Length::new::<millimeter>(45.0);
    let patterns = patterns(&design);
    let note = |name: &str| {
        let found = patterns.iter().find(|entry| entry.name == name);
        let pattern = found.and_then(|entry| entry.pattern.as_ref().ok());
        pattern
            .map(|pattern| pattern.note.clone())
            .unwrap_or_default()
    };
    let flange = note(&design.flanges[0].name);
    assert!(flange.contains("bore 45.0 mm (1.772 in)"), "{flange}");
    let ring = note("Nozzle ring");
    assert!(ring.contains("13.5 mm (0.531 in) outside"), "{ring}");
}

/// Five nozzles and a lighting port stand closer together than their names are long: each has a letter right beside it,
/// that no line has to lead to, and nothing inside the outline names a seam.
#[test]
fn holes_close_together_have_letters_and_seams_are_named_outside_the_outline() {
    let design = example::as_improved();
    let sheets = all(&design, &assess(&design), System::Metric, &[]);
    let svg = unrolled(&sheets);
    let (_, lines) = holes_and_lines(svg);
    assert!(lines.is_empty(), "{lines:?}");
    let boxes = text_boxes(svg);
    let right = boxes.iter().filter(|(words, _)| words == "seam");
    let right: Vec<f64> = right.map(|(_, place)| place[0]).collect();
    assert_eq!(right.len(), 2);
    let numbers = svg.split("<path d=\"M").nth(1).unwrap();
    let edge = numbers.split_once('H').unwrap().1;
    let edge: f64 = edge.split_once('V').unwrap().0.parse().unwrap();
    assert!(right.iter().all(|left| *left > edge), "{right:?} {edge}");
}
