//! What the drawing says in numbers: dimension lines, centre of gravity, temperatures, throat.

use super::ink::{Label, Leads, Only, Stroke, View, circle, polygon};
use super::pieces::mm;
use crate::design::phrase::Measure;
use crate::design::quantity::{Quantity, System};
use crate::sizing::machine::Point;

/// How wide a text may be beside a figure that fills its place from side to side, as a multiple of its size.
const BESIDE: f64 = 7.6;
/// How large texts are on a phone, as a multiple of the figure's text size, and how many times as wide as high the place of
/// the figure is there at the least.
const ON_PHONE: (f64, f64) = (1.25, 1.6);
/// How much larger yet they are on a very low one.
const AT_MOST: f64 = 1.5;
/// Room that the second line of a text takes, as a multiple of the figure's text size.
const BELOW: f64 = 1.5;

/// A remark that points at a place of the machine.
#[derive(Debug, Clone, PartialEq)]
pub struct Remark {
    /// The place, mm.
    pub from: (f64, f64),
    /// What its number is called.
    pub name: String,
    /// The number.
    pub value: String,
    /// Style class.
    pub class: &'static str,
    /// What a tap on it opens.
    pub leads: Leads,
}

impl Remark {
    /// Whether it must stand on two lines where there is little room: `room` for its text, as a multiple of the size.
    fn is_cramped(&self, room: f64) -> bool {
        let bold = if self.class == "label" || self.class == "label gas" {
            1.0
        } else {
            1.12
        };
        bold * width(&format!("{} {}", self.name, self.value)) > room
    }
}

/// How wide a text is about, as a multiple of its size, in a broad typeface.
pub fn width(text: &str) -> f64 {
    let letter = |letter| match letter {
        'i' | 'j' | 'l' | '.' | ',' | ' ' | '\'' => 0.32,
        'f' | 'r' | 't' | '/' | '³' => 0.41,
        'm' | 'w' | 'M' | 'W' => 0.97,
        _ => 0.64,
    };
    text.chars().map(letter).sum()
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
            only: Only::Everywhere,
            leads: Leads::Nowhere,
        });
    }

    /// Says what a tap on the text written last opens.
    pub fn leading(&mut self, leads: Leads) {
        if let Some(label) = self.labels.last_mut() {
            label.leads = leads;
        }
    }

    /// A level dimension line with slashes at its ends.
    fn level_line(&mut self, [from, to]: [f64; 2], up: f64, size: f64) {
        self.line(&[(from, up), (to, up)], "dimension");
        for end in [from, to] {
            self.line(
                &[(end, up - 0.6 * size), (end, up + 0.9 * size)],
                "dimension",
            );
            self.slash(end, up, size);
        }
    }

    /// A level dimension line with slashes at its ends, the number below it; below the slashes too where it is wider than
    /// the line.
    pub fn level(&mut self, from: f64, to: f64, up: f64, size: f64, text: String) {
        self.level_line([from, to], up, size);
        let below = if AT_MOST * width(&text) * size > to - from - 0.8 * size {
            1.8
        } else {
            1.1
        };
        let at = (0.5 * (from + to), up - below * size);
        self.text(at, text, "label", "middle");
    }

    /// The same with the number in the line, or to the left of it where that is shorter: it takes less height.
    pub fn level_in_line(&mut self, from: f64, to: f64, up: f64, size: f64, text: String) {
        self.level_line([from, to], up, size);
        let baseline = up - 0.6 * size;
        if AT_MOST * width(&text) * size > to - from - 0.8 * size {
            self.text((from - 0.7 * size, baseline), text, "label", "end");
        } else {
            let at = (0.5 * (from + to), baseline + 0.15 * size);
            self.text(at, text, "label", "middle");
        }
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
            self.tick(at, end, size);
        }
        self.text((at - 0.4 * size, told_at), text, "label", "end");
    }

    /// An end of an upright dimension line, or where two of a chain meet.
    pub fn tick(&mut self, at: f64, up: f64, size: f64) {
        self.line(&[(at - 0.6 * size, up), (at + 0.9 * size, up)], "dimension");
        self.slash(at, up, size);
    }

    fn slash(&mut self, at: f64, up: f64, size: f64) {
        self.line(
            &[
                (at - 0.3 * size, up - 0.3 * size),
                (at + 0.3 * size, up + 0.3 * size),
            ],
            "dimension-end",
        );
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
        let (at, anchor) = self.lead_out(from, to, size);
        self.text(at, text, class, anchor);
    }

    /// A leader line without its text: the place of that, and the end it begins with.
    fn lead_out(
        &mut self,
        from: (f64, f64),
        to: (f64, f64),
        size: f64,
    ) -> ((f64, f64), &'static str) {
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
        ((to.0 + gap * size, to.1 - 0.35 * size), anchor)
    }

    /// Remarks in two columns, pushed apart so that no two lie on each other. What is too long for a small screen is
    /// written there on two lines.
    pub fn beside(
        &mut self,
        beside: Beside,
        (left, right): (f64, f64),
        bounds: (f64, f64, f64, f64),
        size: f64,
    ) {
        for (remarks, column) in [(beside.left, left), (beside.right, right)] {
            self.column(remarks, column, room_beside(column, bounds, size), size);
        }
    }

    /// Remarks in one column, pushed apart; on two lines too where the room for a text is less than it takes.
    pub fn column(&mut self, mut remarks: Vec<Remark>, column: f64, room: f64, size: f64) {
        let apart = 1.35 * size;
        remarks.sort_by(|first, second| first.from.1.total_cmp(&second.from.1));
        let mut free_from = f64::NEG_INFINITY;
        for remark in remarks {
            let is_cramped = remark.is_cramped(room);
            let below = if is_cramped { BELOW * size } else { 0.0 };
            let up = (remark.from.1 + 0.2 * size).max(free_from + below);
            free_from = up + apart;
            let (at, anchor) = self.lead_out(remark.from, (column, up), size);
            self.remark(remark, at, anchor, is_cramped);
        }
    }

    fn remark(&mut self, remark: Remark, at: (f64, f64), anchor: &'static str, is_cramped: bool) {
        let Remark {
            name,
            value,
            class,
            leads,
            ..
        } = remark;
        let line = format!("{name} {value}");
        let ways = if is_cramped {
            // Of a gas the temperature at which it is told goes below, since that is long.
            let lines = match line.split_once(" at ") {
                Some((first, rest)) if value.contains(" at ") => format!("{first}\nat {rest}"),
                _ => format!("{name}\n{value}"),
            };
            vec![(line, Only::Roomy), (lines, Only::Cramped)]
        } else {
            vec![(line, Only::Everywhere)]
        };
        for (text, only) in ways {
            self.labels.push(Label {
                at,
                text,
                class,
                anchor,
                only,
                leads: leads.clone(),
            });
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

/// The least room for texts beside a figure with these bounds on small screens, as a multiple of their size: where the
/// figure fills its place from side to side, and on a phone, whose place is wider than most figures.
fn room_beside(column: f64, (left, right, bottom, top): (f64, f64, f64, f64), size: f64) -> f64 {
    let (larger, wide) = ON_PHONE;
    let half = 0.5 * (wide * (top - bottom)).max(right - left);
    let beside = half - (column - 0.5 * (left + right)).abs() - 0.3 * size;
    BESIDE.min(beside / (larger * size))
}
