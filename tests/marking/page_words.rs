//! The words on the pages of a template: whoever holds a page alone lays it on the work by them.

use hearthplan::design::{Design, example};
use hearthplan::paper::tiling::{Page, Paper, Sheet, tiled};
use hearthplan::sizing::marking::mark_out;
use hearthplan::sizing::pattern::{Bounds, Pattern, Point, Stroke, patterns, wrap_template};
use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};
use uom::si::length::{inch, millimeter};

/// A word of a page and the place that it takes.
struct Word {
    text: String,
    place: Bounds,
}

/// The words inside the frame of a page, on a safe side as wide as a template reckons them.
fn words(page: &Page) -> Vec<Word> {
    let inner = page.svg.split("</svg>").next().unwrap();
    let number = |word: &str, name: &str| -> f64 {
        let (_, rest) = word.split_once(&format!("{name}=\"")).unwrap();
        rest.split('"').next().unwrap().parse().unwrap()
    };
    (inner.split("<text").skip(1))
        .map(|word| {
            let text = word.split(['>', '<']).nth(1).unwrap().to_string();
            let (left, low) = (number(word, " x"), -number(word, " y"));
            let height = 0.7 * number(word, "font-size");
            Word {
                place: Bounds {
                    left,
                    low,
                    right: left + 0.9 * height * text.chars().count() as f64,
                    high: low + height,
                },
                text,
            }
        })
        .collect()
}

/// A tank 610 mm across with its seams here above its bottom end and its long seam there, as it is found.
fn tank(lower: Length, upper: Length, long_seam: f64) -> Design {
    let mut design = example::as_improved();
    let real = &mut design.real_vessel;
    real.measured = true;
    real.seamless = false;
    real.girth = Length::new::<inch>(75.5);
    real.length = Length::new::<inch>(36.1875);
    real.lower_seam = lower;
    real.upper_seam = upper;
    real.long_seam = Angle::new::<degree>(long_seam);
    design
}

/// Shells whose lines and holes lie at ever other places of their pages, of metric and inch papers.
fn shells() -> Vec<(Pattern, Paper, String)> {
    let mut all = Vec::new();
    for step in 0..12 {
        let by = f64::from(step);
        let lower = Length::new::<millimeter>(60.0 + 11.0 * by);
        let upper = Length::new::<millimeter>(700.0 + 14.0 * by);
        let mut design = tank(lower, upper, 30.0 * by + 20.0);
        // One that was not measured has longer words.
        design.real_vessel.measured = step % 4 != 3;
        let template = wrap_template(&mark_out(&design).unwrap());
        for paper in [Paper::A4, Paper::Letter] {
            all.push((template.clone(), paper, format!("{paper:?}, case {step}")));
        }
    }
    for design in [example::as_first_drawn(), example::as_improved()] {
        let template = patterns(&design).remove(0).pattern.unwrap();
        for paper in [Paper::A4, Paper::Letter] {
            all.push((template.clone(), paper, format!("{paper:?}, example")));
        }
    }
    all
}

fn pages(template: &Pattern, paper: Paper) -> Vec<Page> {
    let sheet = Sheet {
        paper,
        ..Sheet::default()
    };
    tiled(template, &sheet).unwrap().pages
}

fn is_in(window: &Bounds, point: &Point) -> bool {
    (window.left - 1e-6..=window.right + 1e-6).contains(&point.x)
        && (window.low - 1e-6..=window.high + 1e-6).contains(&point.y)
}

/// Each name with the stroke that it is of.
fn named(template: &Pattern) -> Vec<(String, Stroke)> {
    let mut named: Vec<(String, Stroke)> = Vec::new();
    for label in &template.bare().labels {
        let stroke = template.lines[label.of.unwrap()].stroke.clone();
        if !named.contains(&(label.text.clone(), stroke.clone())) {
            named.push((label.text.clone(), stroke));
        }
    }
    named
}

#[test]
fn the_name_of_a_line_or_hole_is_on_the_pages_that_show_it_and_on_no_other() {
    let (mut with, mut without) = (0, 0);
    for (template, paper, case) in shells() {
        let named = named(&template);
        assert!(named.len() > 6, "{case}");
        for page in pages(&template, paper) {
            let words = words(&page);
            for (name, stroke) in &named {
                let points = stroke.points(0.5);
                let is_shown = points.iter().any(|point| is_in(&page.window, point));
                let told = words.iter().filter(|word| word.text == *name).count();
                let place = format!("{case}, row {}, column {}: {name}", page.row, page.column);
                assert_eq!(told, usize::from(is_shown), "{place}");
                with += told;
                without += 1 - told;
            }
        }
    }
    assert!(with > 300 && without > 300, "{with} {without}");
}

#[test]
fn a_name_stands_beside_its_line_or_hole() {
    for (template, paper, case) in shells() {
        let named = named(&template);
        for page in pages(&template, paper) {
            for word in words(&page) {
                let (_, stroke) = named.iter().find(|(name, _)| *name == word.text).unwrap();
                let away = |point: &Point| {
                    let across = (word.place.left - point.x).max(point.x - word.place.right);
                    let up = (word.place.low - point.y).max(point.y - word.place.high);
                    across.max(0.0).hypot(up.max(0.0))
                };
                let points = stroke.points(0.5);
                let nearest = points.iter().map(away).fold(f64::INFINITY, f64::min);
                let place = format!("{case}, row {}, column {}", page.row, page.column);
                assert!(
                    nearest < 20.0,
                    "{place}: {} is {nearest} mm away",
                    word.text
                );
            }
        }
    }
}

#[test]
fn no_word_stands_over_another_or_over_its_own_hole_or_beyond_the_frame() {
    for (template, paper, case) in shells() {
        let named = named(&template);
        for page in pages(&template, paper) {
            let words = words(&page);
            let place = format!("{case}, row {}, column {}", page.row, page.column);
            for (at, word) in words.iter().enumerate() {
                for other in &words[at + 1..] {
                    let apart = word.place.left >= other.place.right
                        || other.place.left >= word.place.right
                        || word.place.low >= other.place.high
                        || other.place.low >= word.place.high;
                    assert!(apart, "{place}: {} over {}", word.text, other.text);
                }
                let corners = [
                    (word.place.left, word.place.low),
                    (word.place.right, word.place.high),
                ];
                for (x, y) in corners {
                    assert!(
                        is_in(&page.window, &Point { x, y }),
                        "{place}: {}",
                        word.text
                    );
                }
                let (_, stroke) = named.iter().find(|(name, _)| *name == word.text).unwrap();
                let points = stroke.points(0.5);
                let across = points.iter().any(|point| is_in(&word.place, point));
                assert!(!across, "{place}: {} is written across itself", word.text);
                if let Stroke::Polyline { points, .. } = stroke {
                    let count = points.len() as f64;
                    let middle = |of: fn(&Point) -> f64| points.iter().map(of).sum::<f64>() / count;
                    let [x, y] = [middle(|point| point.x), middle(|point| point.y)];
                    let inside = points.iter().fold(f64::INFINITY, |least, point| {
                        least.min((point.x - x).hypot(point.y - y))
                    });
                    let nearest = [
                        x.clamp(word.place.left, word.place.right) - x,
                        y.clamp(word.place.low, word.place.high) - y,
                    ];
                    let away = nearest[0].hypot(nearest[1]);
                    assert!(away >= inside, "{place}: {} stands in its hole", word.text);
                }
            }
        }
    }
}

/// On the pages of a pipe end a quarter is told at its mark.
#[test]
fn a_quarter_of_a_pipe_end_is_named_where_its_mark_is() {
    let design = example::as_improved();
    let entries = patterns(&design);
    let entry = entries
        .iter()
        .find(|entry| entry.name.ends_with("pipe end"));
    let template = entry.unwrap().pattern.clone().unwrap();
    let pages = pages(&template, Paper::A4);
    for (name, stroke) in named(&template) {
        let shown = (pages.iter()).filter(|page| {
            stroke
                .points(0.5)
                .iter()
                .any(|point| is_in(&page.window, point))
        });
        let told = (pages.iter()).filter(|page| words(page).iter().any(|word| word.text == name));
        assert_eq!(shown.count(), told.count(), "{name}");
    }
}
