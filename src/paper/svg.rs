//! A template as an SVG picture whose unit is the millimetre.
//!
//! Source: W3C, Scalable Vector Graphics 1.1. Only attributes, no style sheets, so that it may also
//! stand in a page that forbids inline style.

use super::number::decimal;
use crate::sizing::pattern::{Bounds, Label, Pattern, Point, Stroke, Use};
use std::fmt::Write as _;

/// Plain paper around a template, mm.
const BORDER: f64 = 5.0;

/// Text made safe to stand in XML; what XML cannot hold is left out.
pub(super) fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for sign in text.chars() {
        match sign {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\n' | '\t' | '\r' => safe.push(' '),
            '\u{fffe}' | '\u{ffff}' => {}
            sign if sign.is_control() => {}
            sign => safe.push(sign),
        }
    }
    safe
}

/// A whole SVG document at true size: width, height and view box are in millimetres. Lines for
/// cutting are black, lines for marking grey; each group carries the name of its layer.
///
/// Any template gives a well-formed document.
///
/// ```
/// use hearthplan::{design::inputs::Flange, paper::svg, sizing::pattern::flange};
/// let document = svg::document(&flange(&Flange::default()).unwrap());
/// assert!(document.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"1"));
/// ```
pub fn document(pattern: &Pattern) -> String {
    let bounds = pattern.bounds();
    let (width, height) = (
        bounds.width() + 2.0 * BORDER,
        bounds.height() + 2.0 * BORDER,
    );
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}mm\" height=\"{h}mm\" viewBox=\"{x} {y} {w} {h}\">\
         <title>{title}</title><desc>{note}</desc>{body}</svg>\n",
        w = decimal(width),
        h = decimal(height),
        x = decimal(bounds.left - BORDER),
        y = decimal(-bounds.high - BORDER),
        title = escaped(&pattern.name),
        note = escaped(&pattern.note),
        body = body(pattern),
    )
}

/// A window of the template as an SVG element at a place of a page, both in millimetres, with these words; nothing is
/// seen beyond the window.
pub(super) fn window(
    pattern: &Pattern,
    window: &Bounds,
    [x, y]: [f64; 2],
    labels: &[Label],
) -> String {
    scaled(pattern, window, [x, y], 1.0, labels)
}

/// As [`window`], so many times as large.
pub(super) fn scaled(
    pattern: &Pattern,
    window: &Bounds,
    [x, y]: [f64; 2],
    scale: f64,
    labels: &[Label],
) -> String {
    let (width, height) = (window.width(), window.height());
    format!(
        "<svg x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" viewBox=\"{} {} {} {}\" \
         overflow=\"hidden\">{}{}</svg>",
        decimal(x),
        decimal(y),
        decimal(scale * width),
        decimal(scale * height),
        decimal(window.left),
        decimal(-window.high),
        decimal(width),
        decimal(height),
        strokes(pattern, scale),
        words(labels)
    )
}

/// Lines and words, with downwards positive as SVG wants it.
fn body(pattern: &Pattern) -> String {
    strokes(pattern, 1.0) + &words(&pattern.labels)
}

/// The lines, as thick on paper whatever the scale.
fn strokes(pattern: &Pattern, scale: f64) -> String {
    let mut body = String::new();
    for (layer, colour, width) in [
        (Use::Mark.layer(), "#777", 0.2),
        (Use::Cut.layer(), "#000", 0.3),
    ] {
        // Writing to a String cannot fail.
        let _ = write!(
            body,
            "<g data-layer=\"{layer}\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"{}\">",
            decimal(width / scale)
        );
        for drawn in pattern
            .lines
            .iter()
            .filter(|drawn| drawn.purpose.layer() == layer)
        {
            body.push_str(&element(&drawn.stroke));
        }
        body.push_str("</g>");
    }
    body
}

fn words(labels: &[Label]) -> String {
    let mut body = format!(
        "<g data-layer=\"{}\" fill=\"#000\" font-family=\"sans-serif\">",
        Use::Text.layer()
    );
    for label in labels {
        let _ = write!(
            body,
            "<text x=\"{}\" y=\"{}\" font-size=\"{}\">{}</text>",
            decimal(label.at.x),
            decimal(-label.at.y),
            // Capitals stand about seven tenths of the font size high.
            decimal(label.height / 0.7),
            escaped(&label.text)
        );
    }
    body.push_str("</g>");
    body
}

fn place(point: Point) -> String {
    format!("{} {}", decimal(point.x), decimal(-point.y))
}

fn element(stroke: &Stroke) -> String {
    match stroke {
        Stroke::Circle { centre, radius } => format!(
            "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"/>",
            decimal(centre.x),
            decimal(-centre.y),
            decimal(*radius)
        ),
        Stroke::Line { from, to } => format!("<path d=\"M{}L{}\"/>", place(*from), place(*to)),
        Stroke::Polyline { points, closed } => {
            let steps: Vec<String> = points.iter().map(|point| place(*point)).collect();
            let end = if *closed { "Z" } else { "" };
            format!("<path d=\"M{}{end}\"/>", steps.join("L"))
        }
        Stroke::Arc {
            centre,
            radius,
            start,
            end,
        } => arc(*centre, *radius, *start, *end),
    }
}

/// An arc in pieces of at most a quarter turn, which no reader can take the wrong way round.
fn arc(centre: Point, radius: f64, start: f64, end: f64) -> String {
    let pieces = ((end - start) / 90.0).ceil().clamp(1.0, 4.0);
    let on = |degrees: f64| {
        let (sine, cosine) = degrees.to_radians().sin_cos();
        place(Point {
            x: centre.x + radius * cosine,
            y: centre.y + radius * sine,
        })
    };
    let mut path = format!("<path d=\"M{}", on(start));
    let mut piece = 1.0;
    while piece <= pieces {
        let to = start + (end - start) * piece / pieces;
        let radius = decimal(radius);
        let _ = write!(path, "A{radius} {radius} 0 0 0 {}", on(to));
        piece += 1.0;
    }
    path.push_str("\"/>");
    path
}
