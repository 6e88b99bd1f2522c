//! The shell unrolled, with its holes, seams and dimensions, small enough for a sheet of paper.
//!
//! Dimension lines run from one origin with a value at each arrow, so that errors do not add up
//! (running dimensioning, ISO 129-1). Line widths as in ISO 128: outlines wide, dimensions narrow.

mod lettered;

use crate::design::Choice as _;
use crate::design::inputs::Datum;
use crate::design::phrase::lower_first;
use crate::design::quantity::{Quantity, System};
use crate::paper::number::decimal;
use crate::paper::svg::escaped;
use crate::sizing::marking::{Mark, Marking};
use lettered::Key;
use std::fmt::Write as _;
use uom::si::angle::radian;
use uom::si::f64::Angle;

/// Width of the whole drawing, mm.
const WIDTH: f64 = 180.0;
/// Left of the shell: heights and their line.
const LEFT: f64 = 29.0;
/// Right of the shell: the names of the seams, a word on each line.
const RIGHT: f64 = 13.0;
/// Above the shell: front mark and seam are named.
const ABOVE: f64 = 8.0;
/// Below the shell: distances along the wrap, written upright.
const BELOW: f64 = 38.0;
/// Tallest shell on paper, so that all of it stays on one sheet.
const TALLEST: f64 = 190.0;
/// Height of the words.
const TEXT: f64 = 3.2;
/// Width of a sign over the height of the words: that of the wider common fonts.
const SIGN: f64 = 0.64;
/// Least distance between two values.
const APART: f64 = 4.2;
/// Corners of an outline.
const STEPS: u32 = 48;

/// How the shell lies on the paper, and in whose units its dimensions are written.
struct Frame {
    system: System,
    scale: f64,
    girth: f64,
    length: f64,
    bottom: f64,
}

impl Frame {
    fn of(marking: &Marking, system: System, key: &Key) -> Self {
        let girth = marking.vessel.girth.value * 1000.0;
        let length = marking.vessel.length.value * 1000.0;
        let scale = ((WIDTH - LEFT - RIGHT) / girth)
            .min((TALLEST - key.height()).max(0.5 * TALLEST) / length);
        Self {
            system,
            scale,
            girth,
            length,
            bottom: ABOVE + scale * length,
        }
    }

    /// From the long seam, mm.
    fn x(&self, along: f64) -> f64 {
        LEFT + self.scale * along
    }

    /// A length given in mm, as tables show it, without its unit.
    fn dimension(&self, millimetres: f64) -> String {
        without_unit(Quantity::Length, millimetres, self.system)
    }

    /// Above the bottom end, mm.
    fn y(&self, up: f64) -> f64 {
        self.bottom - self.scale * up
    }
}

fn without_unit(quantity: Quantity, millimetres: f64, system: System) -> String {
    let shown = quantity.show(millimetres / 1000.0, system);
    let unit = quantity.unit_symbol(system);
    shown
        .strip_suffix(unit)
        .unwrap_or(&shown)
        .trim_end()
        .to_string()
}

/// What it shows, for those who do not see it.
pub(super) fn words(marking: &Marking) -> String {
    format!(
        "The shell unrolled, seen from outside, cut open {}, with {} holes, each with a letter and a key to these. The hole table has the same figures.",
        cut_open(marking),
        marking.marks.len()
    )
}

/// Where the paper cuts the shell open.
fn cut_open(marking: &Marking) -> &'static str {
    if marking.seamless {
        "at the back, opposite the front mark"
    } else {
        "at the long seam"
    }
}

/// The drawing as an SVG element, 180 mm wide.
pub(super) fn draw(marking: &Marking, system: System) -> String {
    let key = Key::of(marking, system);
    let frame = Frame::of(marking, system, &key);
    let below = frame.bottom + BELOW;
    let height = below + key.height();
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"plan\" width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\" \
         fill=\"none\" stroke=\"#000\" font-family=\"sans-serif\" font-size=\"{TEXT}\">",
        w = decimal(WIDTH),
        h = decimal(height)
    );
    outline(&mut svg, marking, &frame);
    for mark in &marking.marks {
        hole(&mut svg, mark, &frame);
    }
    lettered::letters(&mut svg, marking, &frame);
    lettered::seam_names(&mut svg, marking, &frame);
    heights(&mut svg, marking, &frame);
    wraps(&mut svg, marking, &frame);
    let unit = match system {
        System::Metric => "millimetres",
        System::Inch => "inches",
    };
    let seen = format!(
        "Seen from outside, cut open {}. Dimensions in {unit}:",
        cut_open(marking)
    );
    let counted = format!(
        "heights from the {}{}; round from the front mark to the right.",
        lower_first(marking.tape_datum.label()),
        match marking.tape_datum {
            Datum::BottomEnd => "",
            _ => ", lower is negative",
        }
    );
    for (line, words) in [(6.5, seen), (1.5, counted)] {
        write(&mut svg, LEFT, below - line, "start", &words);
    }
    key.write(&mut svg, below);
    svg.push_str("</svg>");
    svg
}

/// A line of a width, as a path.
fn path(svg: &mut String, width: f64, dash: &str, way: &str) {
    // Writing to a string cannot fail.
    let _ = write!(svg, "<path d=\"{way}\" stroke-width=\"{}\"", decimal(width));
    if !dash.is_empty() {
        let _ = write!(svg, " stroke-dasharray=\"{dash}\"");
    }
    svg.push_str("/>");
}

fn write(svg: &mut String, x: f64, y: f64, anchor: &str, words: &str) {
    let _ = write!(
        svg,
        "<text x=\"{}\" y=\"{}\" text-anchor=\"{anchor}\" fill=\"#000\" stroke=\"none\">{}</text>",
        decimal(x),
        decimal(y),
        escaped(words)
    );
}

/// The shell with its seams and the front mark.
fn outline(svg: &mut String, marking: &Marking, frame: &Frame) {
    let (left, right) = (decimal(frame.x(0.0)), decimal(frame.x(frame.girth)));
    let (top, bottom) = (decimal(frame.y(frame.length)), decimal(frame.y(0.0)));
    path(
        svg,
        0.5,
        "",
        &format!("M{left} {top}H{right}V{bottom}H{left}Z"),
    );
    for (seam, _) in marking.vessel.round_seams() {
        let y = frame.y(seam.value * 1000.0);
        path(
            svg,
            0.25,
            "6 1.5",
            &format!("M{left} {}H{right}", decimal(y)),
        );
    }
    let front = front(marking, frame);
    path(
        svg,
        0.25,
        "8 1.5 1 1.5",
        &format!("M{} {}V{bottom}", decimal(front), decimal(ABOVE - 3.0)),
    );
    write(svg, front, ABOVE - 4.0, "middle", "front mark");
    let edge = if marking.seamless {
        "back"
    } else {
        "long seam"
    };
    write(svg, frame.x(0.0), ABOVE - 4.0, "middle", edge);
}

/// The front mark on the paper.
fn front(marking: &Marking, frame: &Frame) -> f64 {
    let turn = std::f64::consts::TAU;
    let along = (turn - marking.long_seam.value).rem_euclid(turn) / turn;
    frame.x(along * frame.girth)
}

fn hole(svg: &mut String, mark: &Mark, frame: &Frame) {
    let (along, up) = middle(mark);
    let mut way = String::new();
    for step in 0..STEPS {
        let around = f64::from(step) / f64::from(STEPS) * std::f64::consts::TAU;
        let point = mark.cut.outline(Angle::new::<radian>(around));
        let _ = write!(
            way,
            "{}{} {}",
            if step == 0 { 'M' } else { 'L' },
            decimal(frame.x(along + point.along.value * 1000.0)),
            decimal(frame.y(up + point.up.value * 1000.0))
        );
    }
    path(svg, 0.5, "", &(way + "Z"));
    let cross = format!(
        "M{} {}h5M{} {}v5",
        decimal(frame.x(along) - 2.5),
        decimal(frame.y(up)),
        decimal(frame.x(along)),
        decimal(frame.y(up) - 2.5)
    );
    path(svg, 0.18, "", &cross);
}

/// Middle of a hole: from the long seam and above the bottom end, mm.
fn middle(mark: &Mark) -> (f64, f64) {
    (
        mark.wrap_from_long_seam.value * 1000.0,
        mark.above_bottom.value * 1000.0,
    )
}

/// A value with its place on the paper, and where it is written.
struct Value {
    at: f64,
    written: f64,
    words: String,
}

/// Values in order of their place, each once, spread so that they can be read.
fn spread(mut values: Vec<(f64, String)>) -> Vec<Value> {
    values.sort_by(|a, b| a.0.total_cmp(&b.0));
    values.dedup_by(|a, b| (a.0 - b.0).abs() < 0.05 && a.1 == b.1);
    let mut spread: Vec<Value> = Vec::with_capacity(values.len());
    for (at, words) in values {
        let least = spread
            .last()
            .map_or(f64::NEG_INFINITY, |last| last.written + APART);
        spread.push(Value {
            at,
            written: at.max(least),
            words,
        });
    }
    spread
}

/// Heights from the datum, on a line left of the shell.
fn heights(svg: &mut String, marking: &Marking, frame: &Frame) {
    let offset = marking.marks.first().map_or(0.0, |mark| {
        (mark.above_bottom - mark.from_tape_datum).value * 1000.0
    });
    let value = |up: f64, from_datum: f64| (frame.y(up), frame.dimension(from_datum));
    let mut values = vec![value(offset, 0.0)];
    for height in [
        0.0,
        marking.vessel.lower_seam.value * 1000.0,
        marking.vessel.upper_seam.value * 1000.0,
        frame.length,
    ] {
        values.push(value(height, height - offset));
    }
    values.extend(marking.marks.iter().map(|mark| {
        value(
            mark.above_bottom.value * 1000.0,
            mark.from_tape_datum.value * 1000.0,
        )
    }));
    let line = LEFT - 6.0;
    let origin = frame.y(offset);
    for value in spread(values) {
        path(
            svg,
            0.18,
            "",
            &format!(
                "M{} {y}H{}L{} {}",
                decimal(LEFT - 1.0),
                decimal(line - 2.0),
                decimal(line - 4.0),
                decimal(value.written),
                y = decimal(value.at),
            ),
        );
        write(svg, line - 4.5, value.written + 1.2, "end", &value.words);
        arrow(svg, [line, value.at], value.at - origin, true);
    }
    path(
        svg,
        0.18,
        "",
        &format!(
            "M{x} {}V{}",
            decimal(frame.y(0.0)),
            decimal(frame.y(frame.length)),
            x = decimal(line)
        ),
    );
    circle(svg, line, origin);
}

/// Distances from the front mark to the right, on a line below the shell.
fn wraps(svg: &mut String, marking: &Marking, frame: &Frame) {
    let front = front(marking, frame);
    let mut values = vec![(front, frame.dimension(0.0))];
    values.extend(marking.marks.iter().map(|mark| {
        let along = match mark.other_wall {
            None => frame.dimension(mark.wrap_from_front.value * 1000.0),
            // On paper it lies where its angle is on the vessel, and no tape tells that.
            Some(_) => Quantity::Angle.show(mark.angle.value, frame.system),
        };
        (frame.x(mark.wrap_from_long_seam.value * 1000.0), along)
    }));
    let line = frame.bottom + 6.0;
    for value in spread(values) {
        path(
            svg,
            0.18,
            "",
            &format!(
                "M{x} {}V{}L{} {}",
                decimal(frame.bottom + 1.0),
                decimal(line + 2.0),
                decimal(value.written),
                decimal(line + 4.0),
                x = decimal(value.at),
            ),
        );
        let (x, y) = (decimal(value.written + 1.2), decimal(line + 4.5));
        let _ = write!(
            svg,
            "<text x=\"{x}\" y=\"{y}\" text-anchor=\"end\" transform=\"rotate(-90 {x} {y})\" fill=\"#000\" stroke=\"none\">{}</text>",
            value.words
        );
        // To the right, and round the back from the left edge on.
        arrow(svg, [value.at, line], (value.at - front).abs(), false);
    }
    path(
        svg,
        0.18,
        "",
        &format!(
            "M{} {y}H{}",
            decimal(frame.x(0.0)),
            decimal(frame.x(frame.girth)),
            y = decimal(line)
        ),
    );
    circle(svg, front, line);
}

/// The tip of a dimension line at a place, pointing the way of the sign along its axis.
fn arrow(svg: &mut String, [x, y]: [f64; 2], way: f64, upright: bool) {
    if way.abs() < 0.05 {
        return;
    }
    let back = -2.5 * way.signum();
    let legs = if upright {
        format!("l-0.5 {b}h1Z", b = decimal(back))
    } else {
        format!("l{b} -0.5v1Z", b = decimal(back))
    };
    let _ = write!(
        svg,
        "<path d=\"M{} {}{legs}\" fill=\"#000\" stroke=\"none\"/>",
        decimal(x),
        decimal(y)
    );
}

/// The origin of a running dimension.
fn circle(svg: &mut String, x: f64, y: f64) {
    let _ = write!(
        svg,
        "<circle cx=\"{}\" cy=\"{}\" r=\"1.5\" stroke-width=\"0.18\"/>",
        decimal(x),
        decimal(y)
    );
}
