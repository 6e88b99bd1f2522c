//! A template as a DXF drawing in millimetres.
//!
//! ASCII DXF of the year 2000 (AC1015), the oldest version with both light polylines and a unit in
//! its head (`$INSUNITS` 4: millimetres). The drawing holds the tables, blocks and the root
//! dictionary that the format asks for, and on three layers only lines, light polylines, circles,
//! arcs and texts. Source: the published DXF reference, from memory; checked by reading it back with
//! another library.

mod frame;

use super::number::decimal;
use crate::sizing::pattern::{Pattern, Point, Stroke, Use};
use frame::{FIRST_FREE, MODEL_SPACE};
use std::fmt::Write as _;

/// A drawing under construction: pairs of group code and value, and the next free handle.
struct Drawing {
    text: String,
    handle: u32,
}

impl Drawing {
    /// One pair of group code and value, each on a line of its own.
    fn pair(&mut self, code: u16, value: impl std::fmt::Display) {
        // Writing to a String cannot fail.
        let _ = writeln!(self.text, "{code}\n{value}");
    }

    fn point(&mut self, code: u16, point: Point) {
        self.pair(code, decimal(point.x));
        self.pair(code + 10, decimal(point.y));
        self.pair(code + 20, "0");
    }

    fn entity(&mut self, kind: &str, purpose: Use, class: &str) {
        self.pair(0, kind);
        let handle = self.handle;
        self.handle += 1;
        self.pair(5, format!("{handle:X}"));
        self.pair(330, MODEL_SPACE);
        self.pair(100, "AcDbEntity");
        self.pair(8, purpose.layer());
        self.pair(100, class);
    }

    fn stroke(&mut self, purpose: Use, stroke: &Stroke) {
        match stroke {
            Stroke::Line { from, to } => {
                self.entity("LINE", purpose, "AcDbLine");
                self.point(10, *from);
                self.point(11, *to);
            }
            Stroke::Polyline { points, closed } => {
                self.entity("LWPOLYLINE", purpose, "AcDbPolyline");
                self.pair(90, points.len());
                self.pair(70, u8::from(*closed));
                for point in points {
                    self.pair(10, decimal(point.x));
                    self.pair(20, decimal(point.y));
                }
            }
            Stroke::Circle { centre, radius } => {
                self.entity("CIRCLE", purpose, "AcDbCircle");
                self.point(10, *centre);
                self.pair(40, decimal(*radius));
            }
            Stroke::Arc {
                centre,
                radius,
                start,
                end,
            } if end - start < 360.0 => {
                self.entity("ARC", purpose, "AcDbCircle");
                self.point(10, *centre);
                self.pair(40, decimal(*radius));
                self.pair(100, "AcDbArc");
                self.pair(50, degrees(*start));
                self.pair(51, degrees(*end));
            }
            Stroke::Arc { centre, radius, .. } => self.stroke(
                purpose,
                &Stroke::Circle {
                    centre: *centre,
                    radius: *radius,
                },
            ),
        }
    }
}

/// An angle with more places than a length: far from the centre a small angle is a long way.
fn degrees(value: f64) -> String {
    format!("{:.9}", if value.is_finite() { value } else { 0.0 })
}

/// Text as the format's code page holds it: everything outside ASCII as an escape.
fn plain(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for sign in text.chars() {
        match sign {
            // A caret starts a control sign, a backslash an escape.
            '^' | '\\' | '%' => safe.push('_'),
            sign if sign.is_control() => safe.push(' '),
            sign if sign.is_ascii() => safe.push(sign),
            sign if u32::from(sign) <= 0xffff => {
                let _ = write!(safe, "\\U+{:04X}", u32::from(sign));
            }
            _ => safe.push('?'),
        }
    }
    safe
}

/// A whole DXF drawing at true size, with layers `CUT`, `MARK` and `TEXT`.
///
/// Any template gives a drawing that can be read.
///
/// ```
/// use hearthplan::{design::inputs::Flange, paper::dxf, sizing::pattern::flange};
/// let drawing = dxf::drawing(&flange(&Flange::default()).unwrap());
/// assert!(drawing.contains("$INSUNITS\n70\n4\n"));
/// assert!(drawing.ends_with("EOF\n"));
/// ```
pub fn drawing(pattern: &Pattern) -> String {
    let mut entities = Drawing {
        text: String::new(),
        handle: FIRST_FREE,
    };
    for drawn in &pattern.lines {
        entities.stroke(drawn.purpose, &drawn.stroke);
    }
    for label in &pattern.labels {
        entities.entity("TEXT", Use::Text, "AcDbText");
        entities.point(10, label.at);
        entities.pair(40, decimal(label.height));
        entities.pair(1, plain(&label.text));
        entities.pair(100, "AcDbText");
    }
    let mut drawing = Drawing {
        text: String::with_capacity(entities.text.len() + 6_000),
        handle: entities.handle,
    };
    frame::head(&mut drawing, &pattern.bounds());
    frame::tables(&mut drawing);
    frame::blocks(&mut drawing);
    drawing.pair(0, "SECTION");
    drawing.pair(2, "ENTITIES");
    drawing.text.push_str(&entities.text);
    drawing.pair(0, "ENDSEC");
    frame::objects(&mut drawing);
    drawing.pair(0, "EOF");
    drawing.text
}
