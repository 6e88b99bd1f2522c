//! SVG, DXF and print pages: true lengths, whole cover, nothing broken by odd names.

use crate::random_design::random_design;
use hearthplan::design::example;
use hearthplan::paper::tiling::{Paper, Sheet, TilingError, page_count, tiled};
use hearthplan::paper::{dxf, svg};
use hearthplan::sizing::marking::mark_out;
use hearthplan::sizing::pattern::{Bounds, Pattern, Point, Stroke, Use, patterns};
use proptest::prelude::*;

fn all_patterns() -> Vec<Pattern> {
    // The shell that is bought is not cut.
    (patterns(&example::as_improved()).into_iter())
        .filter_map(|entry| entry.pattern.ok())
        .collect()
}

/// The number behind an attribute, `width="12mm"` giving 12.
fn attribute(text: &str, name: &str) -> f64 {
    let start = text.find(&format!(" {name}=\"")).unwrap() + name.len() + 3;
    let rest = &text[start..];
    let value = &rest[..rest.find('"').unwrap()];
    value.trim_end_matches("mm").parse().unwrap()
}

fn view_box(text: &str) -> Vec<f64> {
    let start = text.find("viewBox=\"").unwrap() + 9;
    let rest = &text[start..];
    (rest[..rest.find('"').unwrap()].split(' '))
        .map(|number| number.parse().unwrap())
        .collect()
}

/// A sheet of this paper, as it is printed without further wishes.
fn sheet_of(paper: Paper) -> Sheet<'static> {
    Sheet {
        paper,
        ..Sheet::default()
    }
}

#[test]
fn a_unit_of_the_svg_is_a_millimetre() {
    for pattern in all_patterns() {
        let document = svg::document(&pattern);
        let view = view_box(&document);
        assert!(document.contains("mm\" height=\""));
        assert!((attribute(&document, "width") - view[2]).abs() < 1e-9);
        assert!((attribute(&document, "height") - view[3]).abs() < 1e-9);
        let bounds = pattern.bounds();
        assert!(view[0] <= bounds.left && view[0] + view[2] >= bounds.right);
        assert!(view[1] <= -bounds.high && view[1] + view[3] >= -bounds.low);
        assert!(!document.contains("style="));
    }
}

/// Start, end and radius of each step of an SVG arc, y upwards again.
fn svg_arc_ends(document: &str) -> Vec<(f64, f64)> {
    let from = document.find("<path d=\"M").unwrap() + 10;
    let path = &document[from..];
    let path = &path[..path.find('"').unwrap()];
    path.split('A')
        .map(|step| {
            let numbers: Vec<f64> = step.split(' ').map(|n| n.parse().unwrap()).collect();
            (numbers[numbers.len() - 2], -numbers[numbers.len() - 1])
        })
        .collect()
}

#[test]
fn arcs_keep_radius_and_direction() {
    let mut pattern = all_patterns().remove(0);
    pattern.labels.clear();
    pattern.lines.truncate(1);
    pattern.lines[0].purpose = Use::Mark;
    pattern.lines[0].stroke = Stroke::Arc {
        centre: hearthplan::sizing::pattern::at(10.0, 20.0),
        radius: 50.0,
        start: 30.0,
        end: 230.0,
    };
    let ends = svg_arc_ends(&svg::document(&pattern));
    assert_eq!(ends.len(), 4);
    for ((x, y), wanted) in
        ends.into_iter()
            .zip([30.0, 30.0 + 200.0 / 3.0, 30.0 + 400.0 / 3.0, 230.0_f64])
    {
        let (sine, cosine) = wanted.to_radians().sin_cos();
        assert!((x - 10.0 - 50.0 * cosine).abs() < 1e-3);
        assert!((y - 20.0 - 50.0 * sine).abs() < 1e-3);
    }
    assert!(dxf::drawing(&pattern).contains("50\n30.000000000\n51\n230.000000000\n"));
}

/// The values of a group code in a DXF drawing.
fn values<'a>(drawing: &'a str, code: &str) -> Vec<&'a str> {
    let lines: Vec<&str> = drawing.lines().collect();
    (lines.chunks(2))
        .filter(|pair| pair[0] == code)
        .map(|pair| pair[1])
        .collect()
}

#[test]
fn a_dxf_drawing_is_pairs_with_handles_used_once() {
    for pattern in all_patterns() {
        let drawing = dxf::drawing(&pattern);
        assert_eq!(drawing.lines().count() % 2, 0);
        assert!(drawing.is_ascii());
        assert!(drawing.contains("9\n$INSUNITS\n70\n4\n"));
        let mut handles = values(&drawing, "5");
        let seed = handles.remove(0);
        let count = handles.len();
        handles.sort_unstable();
        handles.dedup();
        assert_eq!(handles.len(), count);
        let number = |handle: &str| u32::from_str_radix(handle, 16).unwrap();
        assert!(handles.iter().all(|handle| number(handle) < number(seed)));
        let layers = values(&drawing, "8");
        assert!(
            layers
                .iter()
                .all(|layer| ["0", "CUT", "MARK", "TEXT"].contains(layer))
        );
    }
}

#[test]
fn odd_names_break_no_file() {
    for seed in 0..60 {
        let mut design = random_design(seed);
        for flange in &mut design.flanges {
            flange.name = "</svg>&\"\n0\nEOF\u{0}木🔥^J\\P".to_string();
        }
        design.flanges.push(hearthplan::design::inputs::Flange {
            name: "<&>\n木🔥".to_string(),
            ..Default::default()
        });
        for pattern in patterns(&design)
            .into_iter()
            .filter_map(|entry| entry.pattern.ok())
        {
            let document = svg::document(&pattern);
            assert_eq!(document.matches("</svg>").count(), 1);
            assert!(!document.contains("NaN") && !document.contains('\u{0}'));
            let drawing = dxf::drawing(&pattern);
            assert!(drawing.is_ascii());
            assert_eq!(drawing.matches("0\nEOF\n").count(), 1);
            assert_eq!(drawing.lines().count() % 2, 0);
        }
    }
}

#[test]
fn every_page_has_its_check_line_and_label() {
    for pattern in all_patterns() {
        for paper in [Paper::A4, Paper::Letter] {
            let tiling = tiled(&pattern, &sheet_of(paper)).unwrap();
            let all = tiling.rows * tiling.columns;
            assert!(tiling.pages.len() <= all);
            assert_eq!(tiling.overview.is_some(), tiling.pages.len() < all);
            assert_eq!(
                page_count(
                    &pattern,
                    &Sheet {
                        paper,
                        ..Sheet::default()
                    }
                ),
                Ok(tiling.sheets().count())
            );
            for page in tiling.sheets() {
                assert_eq!(page.matches("data-check=\"100\"").count(), 1);
            }
            for page in &tiling.pages {
                assert_eq!(page.svg.matches("data-check=\"100\"").count(), 1);
                let start = page.svg.find("data-check").unwrap();
                let path = &page.svg[start..];
                let from = path.find("d=\"M").unwrap() + 4;
                let numbers = path[from..].split(['H', 'M', ' ']).collect::<Vec<_>>();
                let left: f64 = numbers[0].parse().unwrap();
                let right: f64 = numbers[2].parse().unwrap();
                assert!((right - left - 100.0).abs() < 1e-9);
                let label = format!(
                    "row {} of {}, column {} of {}",
                    page.row, tiling.rows, page.column, tiling.columns
                );
                assert!(page.svg.contains(&label), "{label}");
                // Words of 4 mm stand clear of the frame above them.
                let frame = &page.svg[page.svg.find("<rect").unwrap()..];
                let foot = attribute(frame, "y") + attribute(frame, "height");
                for words in page.svg.split("<text").skip(1) {
                    let is_at_the_foot = words.contains(&label) || words.contains("Print at");
                    assert!(
                        !is_at_the_foot || attribute(words, "y") > foot + 4.0,
                        "{words}"
                    );
                }
                assert!((attribute(&page.svg, "width") - tiling.width).abs() < 1e-9);
            }
        }
    }
}

#[test]
fn what_cannot_be_tiled_is_refused() {
    let pattern = all_patterns().remove(0);
    for margin in [-1.0, 50.0, f64::NAN] {
        let refused = tiled(
            &pattern,
            &Sheet {
                margin,
                ..Sheet::default()
            },
        );
        assert!(matches!(refused, Err(TilingError::OutOfRange { .. })));
    }
    let mut huge = pattern;
    huge.lines[0].purpose = Use::Cut;
    huge.lines[0].stroke = Stroke::Line {
        from: hearthplan::sizing::pattern::at(0.0, 0.0),
        to: hearthplan::sizing::pattern::at(1.0e6, 1.0e6),
    };
    assert!(matches!(
        tiled(&huge, &Sheet::default()),
        Err(TilingError::TooManyPages(_))
    ));
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: if cfg!(target_family = "wasm") { 8 } else { 64 },
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    /// Neighbours share exactly the overlap, and a length on paper is the length of the template.
    #[test]
    fn tiles_cover_the_template_exactly(
        width in 1.0..3000.0_f64,
        height in 1.0..2000.0_f64,
        margin in 0.0..25.0_f64,
        overlap in 0.0..25.0_f64,
        letter in any::<bool>(),
    ) {
        let mut pattern = all_patterns().remove(0);
        pattern.labels.clear();
        pattern.lines.truncate(1);
        pattern.lines[0].stroke = Stroke::Line {
            from: hearthplan::sizing::pattern::at(-0.5 * width, 7.0),
            to: hearthplan::sizing::pattern::at(0.5 * width, 7.0 - height),
        };
        let paper = if letter { Paper::Letter } else { Paper::A4 };
        let sheet = Sheet { paper, margin, overlap, design: "" };
        let tiling = tiled(&pattern, &sheet).unwrap();
        for page in &tiling.pages {
            let inner = page.svg[1..].find("<svg").unwrap() + 1;
            let inner = &page.svg[inner..];
            let view = view_box(inner);
            prop_assert!((attribute(inner, "width") - view[2]).abs() < 1e-9);
            prop_assert!((view[0] - page.window.left).abs() < 1e-4);
            prop_assert!((view[2] - page.window.width()).abs() < 1e-4);
            prop_assert!((view[3] - page.window.height()).abs() < 1e-4);
        }
        // Every place of the line is on a page that is printed.
        for point in pattern.lines[0].stroke.points(1.0) {
            prop_assert!(tiling.pages.iter().any(|page| shows(&page.window, point)), "{point:?}");
        }
        let at = |row: usize, column: usize| {
            (tiling.pages.iter()).find(|page| (page.row, page.column) == (row, column))
        };
        for page in &tiling.pages {
            if let Some(right) = at(page.row, page.column + 1) {
                prop_assert!((page.window.right - right.window.left - overlap).abs() < 1e-9);
            }
            if let Some(below) = at(page.row + 1, page.column) {
                prop_assert!((below.window.high - page.window.low - overlap).abs() < 1e-9);
            }
        }
    }
}

/// Whether a point is on this part of the template.
fn shows(window: &Bounds, point: Point) -> bool {
    (window.left - 1e-6..=window.right + 1e-6).contains(&point.x)
        && (window.low - 1e-6..=window.high + 1e-6).contains(&point.y)
}

#[test]
fn only_pages_with_something_to_do_are_printed_and_nothing_is_lost() {
    let mut left_out = 0;
    for design in [example::as_first_drawn(), example::as_improved()] {
        for pattern in patterns(&design)
            .into_iter()
            .filter_map(|entry| entry.pattern.ok())
        {
            let bare = pattern.bare();
            let work: Vec<Point> = (bare.lines.iter())
                .filter(|drawn| drawn.purpose != Use::Aid)
                .flat_map(|drawn| drawn.stroke.points(1.0))
                .collect();
            for paper in [Paper::A4, Paper::Letter] {
                let tiling = tiled(&pattern, &sheet_of(paper)).unwrap();
                let shown =
                    |point: &Point| tiling.pages.iter().any(|page| shows(&page.window, *point));
                assert!(work.iter().all(shown), "{}", pattern.name);
                for page in &tiling.pages {
                    let here = work.iter().any(|point| shows(&page.window, *point));
                    assert!(
                        here,
                        "{}: row {}, column {}",
                        pattern.name, page.row, page.column
                    );
                }
                left_out += tiling.rows * tiling.columns - tiling.pages.len();
            }
        }
    }
    assert!(left_out > 40, "{left_out}");
}

#[test]
fn a_page_of_the_shell_tells_where_its_frame_lies() {
    let design = example::as_improved();
    let pattern = all_patterns().remove(0);
    let front = pattern.upright[0].at;
    let seam = pattern.upright[1].at;
    let around = design.real_vessel.girth.value * 1000.0;
    let turned = design.real_vessel.long_seam.value / std::f64::consts::TAU;
    assert!(((seam - front).rem_euclid(around) - turned * around).abs() < 1e-6);
    let tiling = tiled(&pattern, &Sheet::default()).unwrap();
    assert!(tiling.pages.len() < 12, "{}", tiling.pages.len());
    for page in &tiling.pages {
        let right = page.window.left - front;
        let (across, side) = if right < 0.0 {
            (-right, "left")
        } else {
            (right, "right")
        };
        // Whole millimetres, so that nothing is lost by rounding.
        assert!((across - across.round()).abs() < 1e-6);
        assert!((page.window.low - page.window.low.round()).abs() < 1e-6);
        let words = text_of(&page.svg);
        for told in [
            format!("Its left side: {across:.0} mm ("),
            format!(") {side} of the front line = "),
            " of the long seam. Its lower side: ".to_string(),
            format!(" {:.0} mm (", page.window.low.abs()),
        ] {
            assert!(words.contains(&told), "{told}: {words}");
        }
    }
    let overview = tiling.overview.unwrap();
    for page in &tiling.pages {
        assert!(overview.contains(&format!(">{}/{}<", page.row, page.column)));
    }
    // A hole in a wall of another width is not on it.
    let marking = mark_out(&design).unwrap();
    for mark in (marking.marks.iter()).filter(|mark| mark.other_wall.is_none()) {
        assert!(overview.contains(&format!(">{}<", mark.name)));
        let named = tiling
            .pages
            .iter()
            .any(|page| page.svg.contains(&format!(">{}<", mark.name)));
        assert!(named, "{}", mark.name);
    }
}

/// The words of a page, one after the other.
fn text_of(page: &str) -> String {
    let words = page.split("<text").skip(1);
    let words = words.filter_map(|text| text.split_once('>')?.1.split_once('<'));
    words.map(|(text, _)| text).collect::<Vec<_>>().join(" ")
}

#[test]
fn neighbours_have_crosses_and_others_have_none() {
    let pattern = all_patterns().remove(0);
    let tiling = tiled(&pattern, &Sheet::default()).unwrap();
    let there = |row: usize, column: usize| {
        (tiling.pages.iter()).any(|page| (page.row, page.column) == (row, column))
    };
    for page in &tiling.pages {
        let (row, column) = (page.row, page.column);
        let beside = [
            (row, column - 1),
            (row, column + 1),
            (row - 1, column),
            (row + 1, column),
        ];
        let neighbours = beside
            .into_iter()
            .filter(|(row, column)| there(*row, *column))
            .count();
        let frame = page.svg.split("data-layer=\"PAGE\"").nth(1).unwrap();
        assert_eq!(
            frame.matches("<path").count(),
            3 * neighbours,
            "row {row}, column {column}"
        );
    }
}

#[test]
fn every_page_names_its_design() {
    let pattern = all_patterns().remove(0);
    let sheet = Sheet {
        design: "Pump set <2>",
        ..Sheet::default()
    };
    for page in tiled(&pattern, &sheet).unwrap().pages {
        assert!(page.svg.contains(">Pump set &lt;2&gt;<"), "{}", page.svg);
    }
}

#[test]
fn pages_of_a_vessel_that_is_not_measured_say_so() {
    let mut design = example::as_improved();
    for (measured, wanted) in [(true, false), (false, true)] {
        design.real_vessel.measured = measured;
        let pattern = patterns(&design).remove(0).pattern.unwrap();
        for page in tiled(&pattern, &Sheet::default()).unwrap().pages {
            let told = page.svg.contains("(of the plan: measure your vessel)");
            assert_eq!(told, wanted, "row {}, column {}", page.row, page.column);
        }
    }
}

#[test]
fn no_page_writes_the_name_of_a_line_over_itself() {
    for design in [example::as_first_drawn(), example::as_improved()] {
        let pattern = patterns(&design).remove(0).pattern.unwrap();
        for paper in [Paper::A4, Paper::Letter] {
            let sheet = Sheet {
                paper,
                ..Sheet::default()
            };
            for page in tiled(&pattern, &sheet).unwrap().pages {
                let inner = page.svg.split("</svg>").next().unwrap();
                let words: Vec<(f64, f64, &str)> = (inner.split("<text").skip(1))
                    .map(|word| {
                        let text = word.split(['>', '<']).nth(1).unwrap();
                        (attribute(word, "x"), attribute(word, "y"), text)
                    })
                    .collect();
                for (at, one) in words.iter().enumerate() {
                    for other in &words[at + 1..] {
                        let same = one.2 == other.2 && (one.1 - other.1).abs() < 1.0;
                        assert!(!same || (one.0 - other.0).abs() > 60.0, "{one:?} {other:?}");
                    }
                }
            }
        }
    }
}
