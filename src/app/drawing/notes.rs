//! What the drawing says in numbers: dimension lines, centre of gravity, temperatures, throat.

use super::ink::{Label, Stroke, View, circle, polygon};
use super::pieces::mm;
use crate::design::phrase::Measure;
use crate::design::quantity::{Quantity, System};
use crate::sizing::machine::Point;

/// As many characters stand beside a figure whose texts are as large as they get.
const LONGEST_LINE: usize = 12;
/// How far below a line of text the next one stands, as a share of its size.
const BELOW: f64 = 1.15;

/// A remark that points at a place of the machine.
#[derive(Debug, Clone, PartialEq)]
pub struct Remark {
    /// The place, mm.
    pub from: (f64, f64),
    /// What it says; where the line breaks, it goes on below.
    pub text: String,
    /// Style class.
    pub class: &'static str,
}

/// The remarks to the left and to the right of the machine.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Beside {
    /// Remarks on the left.
    pub left: Vec<Remark>,
    /// Remarks on the right.
    pub right: Vec<Remark>,
}

/// Lines and texts that annotate the figure.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Notes {
    /// Lines.
    pub strokes: Vec<Stroke>,
    /// Texts.
    pub labels: Vec<Label>,
}

impl Notes {
    /// A line.
    pub fn line(&mut self, corners: &[(f64, f64)], class: &'static str) {
        self.strokes.push(Stroke {
            line: polygon(corners, false),
            class,
            fill: "none",
        });
    }

    /// A text.
    pub fn text(
        &mut self,
        at: (f64, f64),
        text: String,
        class: &'static str,
        anchor: &'static str,
    ) {
        self.labels.push(Label {
            at,
            text,
            class,
            anchor,
        });
    }

    /// A level dimension line with slashes at its ends, the number below it.
    pub fn level(&mut self, from: f64, to: f64, up: f64, size: f64, text: String) {
        self.line(&[(from, up), (to, up)], "dimension");
        for end in [from, to] {
            self.line(
                &[(end, up - 0.6 * size), (end, up + 0.9 * size)],
                "dimension",
            );
            self.line(
                &[
                    (end - 0.3 * size, up - 0.3 * size),
                    (end + 0.3 * size, up + 0.3 * size),
                ],
                "dimension-end",
            );
        }
        self.text(
            (0.5 * (from + to), up - 1.1 * size),
            text,
            "label",
            "middle",
        );
    }

    /// An upright dimension line with slashes at its ends, the number beside its middle.
    pub fn upright(&mut self, at: f64, bottom: f64, top: f64, size: f64, text: String) {
        self.upright_told_at(at, (bottom, top), 0.5 * (bottom + top), size, text);
    }

    /// The same with the number at this height.
    pub fn upright_told_at(
        &mut self,
        at: f64,
        (bottom, top): (f64, f64),
        told_at: f64,
        size: f64,
        text: String,
    ) {
        self.line(&[(at, bottom), (at, top)], "dimension");
        for end in [bottom, top] {
            self.line(
                &[(at - 0.6 * size, end), (at + 0.9 * size, end)],
                "dimension",
            );
            self.line(
                &[
                    (at - 0.3 * size, end - 0.3 * size),
                    (at + 0.3 * size, end + 0.3 * size),
                ],
                "dimension-end",
            );
        }
        self.text((at - 0.4 * size, told_at), text, "label", "end");
    }

    /// A leader line from a place of the machine to a text beside it.
    pub fn leader(
        &mut self,
        from: (f64, f64),
        to: (f64, f64),
        size: f64,
        text: String,
        class: &'static str,
    ) {
        self.line(&[from, to], "leader");
        self.strokes.push(Stroke {
            line: circle(from.0, from.1, 0.15 * size),
            class: "leader-dot",
            fill: "currentColor",
        });
        let (anchor, gap) = if to.0 >= from.0 {
            ("start", 0.3)
        } else {
            ("end", -0.3)
        };
        for (line, text) in text.lines().enumerate() {
            let up = to.1 - (0.35 + BELOW * line as f64) * size;
            self.text((to.0 + gap * size, up), text.to_string(), class, anchor);
        }
    }

    /// Remarks in two columns, pushed apart so that no two lie on each other.
    pub fn beside(&mut self, beside: Beside, (left, right): (f64, f64), size: f64) {
        let apart = 1.35 * size;
        for (mut remarks, column) in [(beside.left, left), (beside.right, right)] {
            remarks.sort_by(|first, second| first.from.1.total_cmp(&second.from.1));
            let mut free_from = f64::NEG_INFINITY;
            for remark in remarks {
                let below = BELOW * remark.text.lines().skip(1).count() as f64 * size;
                let up = (remark.from.1 + 0.2 * size).max(free_from + below);
                free_from = up + apart;
                self.leader(remark.from, (column, up), size, remark.text, remark.class);
            }
        }
    }

    /// The quartered circle of a centre of gravity.
    pub fn centre(&mut self, (x, up): (f64, f64), size: f64, class: &'static str) {
        let radius = 0.55 * size;
        self.strokes.push(Stroke {
            line: circle(x, up, radius),
            class,
            fill: "var(--paper)",
        });
        self.strokes.push(Stroke {
            line: format!(
                "M{x:.1} {:.1}v{:.1}a{radius:.1} {radius:.1} 0 0 1 {radius:.1} {radius:.1}zM{x:.1} {:.1}v{radius:.1}a{radius:.1} {radius:.1} 0 0 1 {:.1} {:.1}z",
                -up, -radius, -up, -radius, -radius
            ),
            class,
            fill: "currentColor",
        });
    }
}

/// Where a point of the machine lies in the figure, mm.
pub fn place(point: &Point, view: View) -> (f64, f64) {
    let across = match view {
        View::Front => point.x,
        View::Side => point.y,
    };
    (mm(across), mm(point.z))
}

/// A length as a tape shows it.
pub fn tape(millimetres: f64, system: System) -> String {
    Measure::new(Quantity::Length, millimetres / 1000.0).show(system)
}

/// A name with its value, on two lines where one would not fit beside a small figure.
pub fn named(name: &str, value: &str) -> String {
    let line = format!("{name} {value}");
    if line.chars().count() <= LONGEST_LINE {
        return line;
    }
    match line.split_once(" at ") {
        Some((first, rest)) => format!("{first}\nat {rest}"),
        None => format!("{name}\n{value}"),
    }
}
