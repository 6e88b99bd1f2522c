//! What does a part look like flat and at true size? Templates to cut, drill and mark by.
//!
//! A [`Pattern`] is plain data in millimetres, x to the right and y upwards. It knows nothing of
//! paper or files. Each says in its note which edge it is for. Source: plane and solid geometry.

mod drilled;
mod rolled;
mod saddle;
mod sheets;
mod shell;
mod stroke;

pub use drilled::{flange, grate, grate_holes, nozzle_ring};
pub use rolled::{Cone, cone_blank, rolled_plate, rolled_plate_length};
pub use saddle::{ContactEdge, Saddle, saddle, saddle_hole};
pub use shell::wrap_template;
pub use stroke::{Point, Stroke, at};

use super::branch::{Branch, BranchError};
use super::machine::NOZZLES;
use super::marking::{MarkingError, mark_out, pipe_outside};
use super::nozzle_tube;
use crate::design::Design;
use crate::design::inputs::{Hole, HoleUse};
use crate::design::quantity::{Quantity, System};
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
    /// A line that only tells where one is: an edge, a seam, a centre line. Nothing is done at it alone.
    Aid,
    /// Words.
    Text,
}

impl Use {
    /// Name of the layer.
    pub fn layer(self) -> &'static str {
        match self {
            Use::Cut => "CUT",
            Use::Mark | Use::Aid => "MARK",
            Use::Text => "TEXT",
        }
    }
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
    /// The line that it is the name of, by its place among the lines; none where it is of the whole sheet.
    pub of: Option<usize>,
}

impl Label {
    /// Its width, an estimate on the safe side, mm.
    pub fn width(&self) -> f64 {
        LETTER_WIDTH * self.height * self.text.chars().count() as f64
    }
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

/// A line that is found on the work as well as on the template, so that a part of the template can be placed by it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reference {
    /// Its name, as in “the bottom end”.
    pub name: &'static str,
    /// Where it is on the template, across for an upright line and up for a level one, mm.
    pub at: f64,
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
    /// Upright lines to measure from, the best first.
    pub upright: Vec<Reference>,
    /// Level lines to measure from, the best first.
    pub level: Vec<Reference>,
    /// Whether tape, square and compass draw it as well: a plain rectangle or disc.
    pub is_plain: bool,
    /// How many of its lines and words are its own, before check line and corner marks.
    own: [usize; 2],
}

/// The words at the check line of a template.
const CHECK_WORDS: &str = "100 mm: measure it";

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

/// A measure given in millimetres, in words for either rule: a note goes with its template, whoever gets that. From an inch
/// on a tape measures it, and sheet below that is told in decimals.
fn told(mm: f64) -> String {
    let quantity = if mm >= 25.4 {
        Quantity::Length
    } else {
        Quantity::Thickness
    };
    format!("{mm:.1} mm ({})", quantity.show(mm / 1000.0, System::Inch))
}

/// The same of what is bored, or must go through a bore: to a thousandth of an inch, since a sixteenth tells it too small for
/// its pipe.
fn bored(mm: f64) -> String {
    let inches = Quantity::Bore.show(mm / 1000.0, System::Inch);
    format!("{mm:.1} mm ({inches})")
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
            upright: Vec::new(),
            level: Vec::new(),
            is_plain: false,
            own: [usize::MAX; 2],
        }
    }

    /// Says from which lines its parts can be measured.
    fn measured_from(&mut self, upright: (&'static str, f64), level: (&'static str, f64)) {
        let line = |(name, at)| Reference { name, at };
        self.upright.push(line(upright));
        self.level.push(line(level));
    }

    /// The template without check line and corner marks, for paper that has its own.
    pub fn bare(&self) -> Self {
        let mut bare = self.clone();
        bare.lines.truncate(self.own[0]);
        bare.labels.truncate(self.own[1]);
        bare
    }

    /// Adds a line, and gives its place among the lines.
    fn draw(&mut self, purpose: Use, stroke: Stroke) -> usize {
        self.lines.push(Drawn { purpose, stroke });
        self.lines.len() - 1
    }

    fn line(&mut self, purpose: Use, from: Point, to: Point) -> usize {
        self.draw(purpose, Stroke::Line { from, to })
    }

    fn circle(&mut self, purpose: Use, centre: Point, radius: f64) {
        self.draw(purpose, Stroke::Circle { centre, radius });
    }

    fn outline(&mut self, purpose: Use, points: Vec<Point>) -> usize {
        let closed = true;
        self.draw(purpose, Stroke::Polyline { points, closed })
    }

    fn rectangle(&mut self, purpose: Use, low: Point, high: Point) {
        let corners = vec![low, at(high.x, low.y), high, at(low.x, high.y)];
        self.outline(purpose, corners);
    }

    fn cross(&mut self, centre: Point, arm: f64) {
        self.crossed(Use::Mark, centre, arm);
    }

    /// Upright and level centre line.
    fn centre_lines(&mut self, arm: f64) {
        self.crossed(Use::Aid, at(0.0, 0.0), arm);
        self.measured_from(
            ("the upright centre line", 0.0),
            ("the level centre line", 0.0),
        );
    }

    fn crossed(&mut self, purpose: Use, Point { x, y }: Point, arm: f64) {
        self.line(purpose, at(x - arm, y), at(x + arm, y));
        self.line(purpose, at(x, y - arm), at(x, y + arm));
    }

    /// Writes the name of a line, which is given by its place among the lines.
    fn name(&mut self, line: usize, place: Point, height: f64, text: impl Into<String>) {
        self.write(place, height, text);
        if let Some(label) = self.labels.last_mut() {
            label.of = Some(line);
        }
    }

    fn write(&mut self, place: Point, height: f64, text: impl Into<String>) {
        self.labels.push(Label {
            at: place,
            height,
            text: text.into(),
            of: None,
        });
    }

    /// Adds the check line under everything and a registration mark at each corner.
    fn finished(mut self) -> Self {
        self.own = [self.lines.len(), self.labels.len()];
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
        self.write(at(left, foot + 3.0), 3.0, CHECK_WORDS);
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
            take(at(label.at.x + label.width(), label.at.y + label.height));
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

/// Every template of a design: the shell, one saddle for each hole with a pipe, nozzle ring,
/// flanges, grate, and the sheets of walls, ends, hearth and hopper.
///
/// ```
/// use hearthplan::{design::Design, sizing::pattern::patterns};
/// let entries = patterns(&Design::default());
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
        let tube = nozzle_tube::nozzle_ring(design).map(|(_, ring)| pipe_outside(ring));
        add(
            "Nozzle ring".to_string(),
            sheets::unless_there(design, NOZZLES, || nozzle_ring(&design.hearth, tube)),
        );
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
