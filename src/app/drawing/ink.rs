//! Lines and texts of a figure, in millimetres of the machine, before they become SVG.

use crate::app::markup::Node;
use std::fmt::Write as _;

/// Where the machine is looked at from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Look {
    /// Level with it: how tall it is, and what is inside.
    Level(View),
    /// From above: what it stands on.
    Above,
}

impl Look {
    /// How the drawing is shown first.
    pub const FIRST: Self = Self::Level(View::Front);
}

/// Which side the machine is looked at from, level with it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum View {
    /// From the front: left and right, up and down.
    Front,
    /// From the right: front and back, up and down.
    Side,
}

/// One stroke of the figure.
#[derive(Debug, Clone, PartialEq)]
pub struct Stroke {
    /// Path data.
    pub line: String,
    /// Style class.
    pub class: &'static str,
    /// Paint of the inside, `none` for an open line.
    pub fill: &'static str,
}

/// A text of the figure.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// Place, mm to the right and mm up.
    pub at: (f64, f64),
    /// What it says.
    pub text: String,
    /// Style class.
    pub class: &'static str,
    /// `start`, `middle` or `end`.
    pub anchor: &'static str,
    /// Where it is shown, if not everywhere.
    pub only: Only,
    /// What a tap on it opens.
    pub leads: Leads,
}

/// Where one of two ways to write a label is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Only {
    /// Everywhere: it is the only one.
    Everywhere,
    /// Where there is room for it on one line.
    Roomy,
    /// Where there is not: it stands on two.
    Cramped,
}

/// What a tap on a label opens.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Leads {
    /// Nothing.
    Nowhere,
    /// What is known of a piece, by its path.
    Piece(String),
    /// An input, by its path.
    Input(&'static str),
    /// A group of the form.
    Group(&'static str),
    /// A verdict, by its id.
    Verdict(&'static str),
}

impl Leads {
    /// Name of the attribute that carries it.
    pub const ATTRIBUTE: &'static str = "data-leads";

    /// As it stands in the figure: the kind and what it is about.
    fn written(&self) -> String {
        match self {
            Self::Nowhere => String::new(),
            Self::Piece(path) => format!("piece {path}"),
            Self::Input(path) => format!("input {path}"),
            Self::Group(name) => format!("group {name}"),
            Self::Verdict(id) => format!("verdict {id}"),
        }
    }
}

/// Which piece of the machine something is.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct PieceName {
    /// Path of its section or list item in the design.
    pub path: String,
    /// Its name.
    pub label: String,
}

impl PieceName {
    /// What tells it from all other pieces.
    pub fn key(&self) -> String {
        format!("{} {}", self.path, self.label)
    }
}

/// A piece of the machine that can be touched.
#[derive(Debug, Clone, PartialEq)]
pub struct Touchable {
    /// Which one it is.
    pub name: PieceName,
    /// Its lines.
    pub strokes: Vec<Stroke>,
}

/// Path data from corners in mm, up being positive; closed if asked.
pub fn polygon(corners: &[(f64, f64)], closed: bool) -> String {
    let mut line = String::with_capacity(corners.len() * 14);
    for (place, (x, up)) in corners.iter().enumerate() {
        line.push(if place == 0 { 'M' } else { 'L' });
        tenths(&mut line, *x);
        line.push(' ');
        tenths(&mut line, -up);
    }
    if closed {
        line.push('Z');
    }
    line
}

/// Writes a number to one place, by way of a whole number: a drawing has thousands.
fn tenths(line: &mut String, number: f64) {
    let rounded = (10.0 * number).round() as i64;
    let sign = if rounded < 0 { "-" } else { "" };
    let (whole, tenth) = (rounded.unsigned_abs() / 10, rounded.unsigned_abs() % 10);
    // Writing to a string cannot fail.
    let _ = write!(line, "{sign}{whole}.{tenth}");
}

/// Path data of a rectangle.
pub fn rectangle(left: f64, right: f64, bottom: f64, top: f64) -> String {
    polygon(
        &[(left, bottom), (right, bottom), (right, top), (left, top)],
        true,
    )
}

/// Path data of a circle.
pub fn circle(x: f64, up: f64, radius: f64) -> String {
    // Rounded first: were the span of the two arcs rounded by itself, small circles came out oval.
    let radius = (radius * 100.0).round() / 100.0;
    format!(
        "M{:.2} {:.2}a{radius:.2} {radius:.2} 0 1 0 {:.2} 0a{radius:.2} {radius:.2} 0 1 0 {:.2} 0Z",
        x - radius,
        -up,
        2.0 * radius,
        -2.0 * radius
    )
}

/// Strokes as elements.
pub fn paths(strokes: &[Stroke]) -> Vec<Node> {
    let path = |stroke: &Stroke| {
        Node::new("path")
            .with("class", stroke.class)
            .with("d", stroke.line.clone())
            .with("fill", stroke.fill)
    };
    strokes.iter().map(path).collect()
}

/// How far below a line of a text the next one stands, as a share of its own size, however large it is written.
const NEXT_LINE: &str = "1.05em";

/// Labels as elements.
pub fn texts<'a>(labels: impl IntoIterator<Item = &'a Label>) -> Vec<Node> {
    let text = |label: &Label| {
        let (x, up) = label.at;
        let x = format!("{x:.1}");
        let class = match label.only {
            Only::Everywhere => label.class.into(),
            Only::Roomy => format!("{} roomy", label.class),
            Only::Cramped => format!("{} cramped", label.class),
        };
        let (first, rest) = match label.text.split_once('\n') {
            Some((first, rest)) => (format!("{first} "), Some(rest)),
            None => (label.text.clone(), None),
        };
        let mut text = Node::new("text")
            .with("class", class)
            .with("x", x.clone())
            .with("y", format!("{:.1}", -up))
            .with("text-anchor", label.anchor)
            .with(Leads::ATTRIBUTE, label.leads.written())
            .saying(first);
        if let Some(rest) = rest {
            let below = Node::new("tspan").with("x", x).with("dy", NEXT_LINE);
            text.push(below.saying(rest));
        }
        text
    };
    labels.into_iter().map(text).collect()
}
