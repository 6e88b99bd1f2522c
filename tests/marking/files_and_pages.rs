//! SVG, DXF and print pages: true lengths, whole cover, nothing broken by odd names.

use crate::random_design::random_design;
use hearthplan::design::example;
use hearthplan::paper::tiling::{Paper, Sheet, TilingError, tiled};
use hearthplan::paper::{dxf, svg};
use hearthplan::sizing::pattern::{Pattern, Stroke, Use, patterns};
use proptest::prelude::*;

fn all_patterns() -> Vec<Pattern> {
    (patterns(&example::as_improved()).into_iter())
        .map(|entry| entry.pattern.unwrap())
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
            let tiling = tiled(
                &pattern,
                &Sheet {
                    paper,
                    ..Sheet::default()
                },
            )
            .unwrap();
            assert_eq!(tiling.pages.len(), tiling.rows * tiling.columns);
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

    /// Every place of the template is on some page, neighbours share exactly the overlap, and a
    /// length on paper is the length of the template.
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
        let bounds = pattern.bounds();
        for page in &tiling.pages {
            let inner = page.svg[1..].find("<svg").unwrap() + 1;
            let inner = &page.svg[inner..];
            let view = view_box(inner);
            prop_assert!((attribute(inner, "width") - view[2]).abs() < 1e-9);
            prop_assert!((view[0] - page.window.left).abs() < 1e-4);
            prop_assert!((view[2] - page.window.width()).abs() < 1e-4);
            prop_assert!((view[3] - page.window.height()).abs() < 1e-4);
        }
        let first = &tiling.pages[0].window;
        let last = &tiling.pages[tiling.pages.len() - 1].window;
        prop_assert!((first.left - bounds.left).abs() < 1e-9 && (first.high - bounds.high).abs() < 1e-9);
        prop_assert!(last.right >= bounds.right - 1e-9 && last.low <= bounds.low + 1e-9);
        for pair in tiling.pages.windows(2).filter(|pair| pair[0].row == pair[1].row) {
            prop_assert!((pair[0].window.right - pair[1].window.left - overlap).abs() < 1e-9);
        }
        for pair in tiling.pages.windows(tiling.columns + 1) {
            let (above, below) = (&pair[0].window, &pair[tiling.columns].window);
            prop_assert!((below.high - above.low - overlap).abs() < 1e-9);
        }
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
