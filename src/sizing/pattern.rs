//! What does a part look like flat and at true size? Templates to cut, drill and mark by.
//!
//! A [`Pattern`] is plain data in millimetres, x to the right and y upwards. It knows nothing of
//! paper or files. Each says in its note which edge it is for. Source: plane and solid geometry.

mod drilled;
mod rolled;
mod saddle;
mod sheets;
mod shell;

pub use drilled::{flange, grate, grate_holes, nozzle_ring};
pub use rolled::{Cone, cone_blank, rolled_plate, rolled_plate_length};
pub use saddle::{ContactEdge, Saddle, saddle, saddle_hole};
pub use shell::wrap_template;

use super::branch::{Branch, BranchError};
use super::marking::{MarkingError, mark_out};
use crate::design::Design;
use crate::design::inputs::{Hole, HoleUse};
use std::f64::consts::PI;
use thiserror::Error;
use uom::si::f64::Length;
use uom::si::length::millimeter;

/// Length of the check line on every template, mm.
pub const CHECK_LINE: f64 = 100.0;

/// What a tape measure cannot tell, mm.
pub(crate) const TAPE: f64 = 0.5;

/// Width of a letter over the height of capitals, on the safe side.
const LETTER_WIDTH: f64 = 0.9;

/// Why there is no template.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum PatternError {
    /// Two cylinders do not meet.
    #[error(transparent)]
    Branch(#[from] BranchError),
    /// The vessel cannot be marked out.
    #[error(transparent)]
    Marking(#[from] MarkingError),
    /// A measure is not a number, or out of proportion.
    #[error("{what} is {given:.1} mm; it must lie between {low:.1} and {high:.1} mm")]
    OutOfRange {
        /// What was given, in words.
        what: &'static str,
        /// The measure, mm.
        given: f64,
        /// Least possible, mm.
        low: f64,
        /// Greatest possible, mm.
        high: f64,
    },
    /// No hole has room on the grate.
    #[error("the plain rim leaves no room for a grate hole")]
    NoHole,
    /// The parts of it do not fit each other.
    #[error("{0}")]
    DoesNotFit(&'static str),
}

/// What a line is for; also the name of its layer in a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Use {
    /// Cut along it.
    Cut,
    /// A line to mark or to line up by.
    Mark,
    /// Words.
    Text,
}

impl Use {
    /// Name of the layer.
    pub fn layer(self) -> &'static str {
        match self {
            Use::Cut => "CUT",
            Use::Mark => "MARK",
            Use::Text => "TEXT",
        }
    }
}

/// A point of a template, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Upwards.
    pub y: f64,
}

impl Point {
    /// Whether it lies no farther than `reach` in mm from the middle of the sheet.
    pub fn is_within(&self, reach: f64) -> bool {
        self.x * self.x + self.y * self.y <= reach * reach
    }
}

/// A point of a template, mm.
pub const fn at(x: f64, y: f64) -> Point {
    Point { x, y }
}

/// One line of a template, mm.
#[derive(Debug, Clone, PartialEq)]
pub enum Stroke {
    /// From point to point.
    Line {
        /// Start.
        from: Point,
        /// End.
        to: Point,
    },
    /// Through all points; closed ones go back to the first.
    Polyline {
        /// The points.
        points: Vec<Point>,
        /// Whether it goes back to the first.
        closed: bool,
    },
    /// A whole circle.
    Circle {
        /// Middle.
        centre: Point,
        /// Radius.
        radius: f64,
    },
    /// Part of a circle, anticlockwise from start to end; angles in degrees from the right.
    Arc {
        /// Middle.
        centre: Point,
        /// Radius.
        radius: f64,
        /// Where it starts, degrees.
        start: f64,
        /// Where it ends, degrees, above `start` by at most 360.
        end: f64,
    },
}

/// A line with what it is for.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// What it is for.
    pub purpose: Use,
    /// The line.
    pub stroke: Stroke,
}

/// A word on a template.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// Left end of its foot line.
    pub at: Point,
    /// Height of its capitals, mm.
    pub height: f64,
    /// The word.
    pub text: String,
}

/// An upright rectangle, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Left edge.
    pub left: f64,
    /// Lower edge.
    pub low: f64,
    /// Right edge.
    pub right: f64,
    /// Upper edge.
    pub high: f64,
}

impl Bounds {
    /// Width, mm.
    pub fn width(&self) -> f64 {
        self.right - self.left
    }

    /// Height, mm.
    pub fn height(&self) -> f64 {
        self.high - self.low
    }
}

/// A template at true size.
#[derive(Debug, Clone, PartialEq)]
pub struct Pattern {
    /// What it is of.
    pub name: String,
    /// How to use it, and which edge it is for.
    pub note: String,
    /// Its lines.
    pub lines: Vec<Drawn>,
    /// Its words.
    pub labels: Vec<Label>,
}

/// A template, or why there is none.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// What it is of.
    pub name: String,
    /// The template.
    pub pattern: Result<Pattern, PatternError>,
}

fn mm(length: Length) -> f64 {
    length.get::<millimeter>()
}

/// A measure given in millimetres, in words for either rule: a note goes with its template, whoever gets that.
fn told(mm: f64) -> String {
    format!("{mm:.1} mm ({:.2} in)", mm / 25.4)
}

/// The measure in millimetres, if it lies in a range of millimetres.
fn within(what: &'static str, length: Length, low: f64, high: f64) -> Result<f64, PatternError> {
    let given = mm(length);
    if given >= low && given <= high {
        Ok(given)
    } else {
        Err(PatternError::OutOfRange {
            what,
            given,
            low,
            high,
        })
    }
}

impl Pattern {
    fn new(name: impl Into<String>, note: impl Into<String>) -> Self {
        Self {
            name: name.into(),
            note: note.into(),
            lines: Vec::new(),
            labels: Vec::new(),
        }
    }

    fn draw(&mut self, purpose: Use, stroke: Stroke) {
        self.lines.push(Drawn { purpose, stroke });
    }

    fn line(&mut self, purpose: Use, from: Point, to: Point) {
        self.draw(purpose, Stroke::Line { from, to });
    }

    fn circle(&mut self, purpose: Use, centre: Point, radius: f64) {
        self.draw(purpose, Stroke::Circle { centre, radius });
    }

    fn outline(&mut self, purpose: Use, points: Vec<Point>) {
        let closed = true;
        self.draw(purpose, Stroke::Polyline { points, closed });
    }

    fn rectangle(&mut self, purpose: Use, low: Point, high: Point) {
        let corners = vec![low, at(high.x, low.y), high, at(low.x, high.y)];
        self.outline(purpose, corners);
    }

    fn cross(&mut self, centre: Point, arm: f64) {
        let Point { x, y } = centre;
        self.line(Use::Mark, at(x - arm, y), at(x + arm, y));
        self.line(Use::Mark, at(x, y - arm), at(x, y + arm));
    }

    fn write(&mut self, place: Point, height: f64, text: impl Into<String>) {
        self.labels.push(Label {
            at: place,
            height,
            text: text.into(),
        });
    }

    /// Adds the check line under everything and a registration mark at each corner.
    fn finished(mut self) -> Self {
        let bounds = self.bounds();
        for (x, y) in [
            (bounds.left, bounds.low),
            (bounds.right, bounds.low),
            (bounds.right, bounds.high),
            (bounds.left, bounds.high),
        ] {
            self.cross(at(x, y), 4.0);
        }
        let (left, foot) = (bounds.left, bounds.low - 15.0);
        let right = left + CHECK_LINE;
        self.line(Use::Mark, at(left, foot), at(right, foot));
        for x in [left, right] {
            self.line(Use::Mark, at(x, foot - 2.0), at(x, foot + 2.0));
        }
        self.write(at(left, foot + 3.0), 3.0, "100 mm: measure it");
        self.write(at(left, foot - 7.0), 4.0, self.name.clone());
        self
    }

    /// The rectangle around all lines and words; a point at the origin when there are none. The
    /// width of words is an estimate.
    pub fn bounds(&self) -> Bounds {
        let mut bounds = Bounds {
            left: f64::INFINITY,
            low: f64::INFINITY,
            right: f64::NEG_INFINITY,
            high: f64::NEG_INFINITY,
        };
        let mut take = |point: Point| {
            bounds.left = bounds.left.min(point.x);
            bounds.low = bounds.low.min(point.y);
            bounds.right = bounds.right.max(point.x);
            bounds.high = bounds.high.max(point.y);
        };
        for drawn in &self.lines {
            drawn.stroke.corners().into_iter().for_each(&mut take);
        }
        for label in &self.labels {
            take(label.at);
            let width = LETTER_WIDTH * label.height * label.text.chars().count() as f64;
            take(at(label.at.x + width, label.at.y + label.height));
        }
        if bounds.left <= bounds.right {
            bounds
        } else {
            Bounds {
                left: 0.0,
                low: 0.0,
                right: 0.0,
                high: 0.0,
            }
        }
    }
}

impl Stroke {
    /// Points whose surrounding rectangle holds the whole stroke.
    fn corners(&self) -> Vec<Point> {
        match self {
            Stroke::Line { from, to } => vec![*from, *to],
            Stroke::Polyline { points, .. } => points.clone(),
            Stroke::Circle { centre, radius } => vec![
                at(centre.x - radius, centre.y - radius),
                at(centre.x + radius, centre.y + radius),
            ],
            Stroke::Arc {
                centre,
                radius,
                start,
                end,
            } => {
                let on = |degrees: f64| {
                    let (sine, cosine) = degrees.to_radians().sin_cos();
                    at(centre.x + radius * cosine, centre.y + radius * sine)
                };
                let first = (start / 90.0).ceil();
                let quarters = (0..4_u8)
                    .map(|step| 90.0 * (first + f64::from(step)))
                    .filter(|quarter| quarter <= end);
                [*start, *end].into_iter().chain(quarters).map(on).collect()
            }
        }
    }

    /// Its length, mm.
    pub fn length(&self) -> f64 {
        let apart = |a: &Point, b: &Point| (b.x - a.x).hypot(b.y - a.y);
        match self {
            Stroke::Line { from, to } => apart(from, to),
            Stroke::Polyline { points, closed } => {
                let next = points.iter().cycle().skip(1);
                let sides = points.len() - usize::from(!closed && !points.is_empty());
                (points.iter().zip(next).take(sides))
                    .map(|(a, b)| apart(a, b))
                    .sum()
            }
            Stroke::Circle { radius, .. } => 2.0 * PI * radius,
            Stroke::Arc {
                radius, start, end, ..
            } => (end - start).to_radians() * radius,
        }
    }
}

/// Every template of a design: the shell, one saddle for each hole with a pipe, nozzle ring,
/// flanges, grate, and the sheets of walls, ends, hearth and hopper.
///
/// ```
/// use hearthplan::{design::example, sizing::pattern::patterns};
/// let entries = patterns(&example::as_improved());
/// assert!(entries.iter().all(|entry| entry.pattern.is_ok()));
/// ```
pub fn patterns(design: &Design) -> Vec<Entry> {
    let mut entries = Vec::new();
    let mut add = |name: String, pattern: Result<Pattern, PatternError>| {
        entries.push(Entry { name, pattern });
    };
    if !design.holes.is_empty() {
        let marking = mark_out(design).map_err(PatternError::from);
        add(
            "Shell, unrolled".to_string(),
            marking.clone().map(|marking| wrap_template(&marking)),
        );
        if let Ok(marking) = marking {
            for hole in design
                .holes
                .iter()
                .filter(|hole| hole.carries == HoleUse::SetOn)
            {
                add(
                    format!("{}: pipe end", hole.name),
                    saddle(&hole.name, &saddle_of(hole, marking.vessel.radius())),
                );
            }
            for hole in design
                .holes
                .iter()
                .filter(|hole| hole.carries != HoleUse::Open)
            {
                let shell = marking.vessel.radius();
                let cut = Branch::new(shell, 0.5 * hole.diameter, hole.lean, hole.offset);
                add(
                    format!("{}: hole", hole.name),
                    cut.map(|cut| saddle_hole(&hole.name, &cut))
                        .map_err(PatternError::from),
                );
            }
        }
    }
    if design.in_use("hearth.nozzle_count") {
        add("Nozzle ring".to_string(), nozzle_ring(&design.hearth));
    }
    for each in &design.flanges {
        add(each.name.clone(), flange(each));
    }
    let room = design.hearth_wall.inside_diameter;
    add(
        "Grate".to_string(),
        match mm(design.grate.diameter) > mm(room) + TAPE {
            true => Err(PatternError::DoesNotFit(
                "the grate is wider than the hearth wall inside: it does not go in",
            )),
            false => grate(&design.grate),
        },
    );
    sheets::sheets(design, &mut add);
    entries
}

/// The pipe end of a hole with a pipe set on a shell of this outside radius.
pub fn saddle_of(hole: &Hole, shell_radius: Length) -> Saddle {
    Saddle {
        shell_radius,
        pipe_outside: super::marking::pipe_outside(hole),
        pipe_wall: hole.pipe_wall,
        lean: hole.lean,
        offset: hole.offset,
        edge: ContactEdge::FirstToTouch,
    }
}
