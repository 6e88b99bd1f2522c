//! What a chart says, as plain data: built from a design, drawn elsewhere.

use crate::design::quantity::Quantity;
use crate::review::Lever;

/// What a chart is about. It stands there even when the chart itself cannot be computed.
#[derive(Debug, Clone, Copy)]
pub struct Question {
    /// Name, also used for ids.
    pub name: &'static str,
    /// Heading.
    pub title: &'static str,
    /// What it means, in one line.
    pub meaning: &'static str,
}

/// A chart, or why there is none, as a sentence.
pub type Answer = Result<Chart, String>;

/// What runs along an axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Axis {
    /// What is measured.
    pub quantity: Quantity,
    /// What it is called.
    pub label: &'static str,
}

/// The ink of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ink {
    /// The usual ink.
    Plain,
    /// What has to do with heat, fire and the blower's work.
    Heat,
    /// What has to do with gas.
    Gas,
}

/// The pattern of a line, so that lines are told apart without colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dash {
    /// Unbroken.
    Solid,
    /// Long dashes.
    Long,
    /// Short dashes.
    Short,
    /// Long and short in turn.
    LongShort,
    /// Dots.
    Dots,
}

/// Said of a place of a chart where no line has a value, unless there is more to say.
pub const NONE: &str = "nothing that can be reckoned";

/// A line over the places of its chart.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Written beside it.
    pub label: &'static str,
    /// Its ink.
    pub ink: Ink,
    /// Its pattern.
    pub dash: Dash,
    /// One value for each of [`Chart::at`], SI; not a number where there is none.
    pub values: Vec<f64>,
}

/// The tone of a band.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// Passes narrowly.
    Watch,
    /// Fails.
    Stop,
}

/// A level band that says how far is good; it may reach past the pane on one side.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// Lower end, SI.
    pub from: f64,
    /// Upper end, SI.
    pub to: f64,
    /// How it is tinted.
    pub tone: Tone,
    /// Written inside.
    pub label: String,
}

/// A marked point.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Place on the axis across, SI.
    pub x: f64,
    /// Place on the upright axis, SI.
    pub y: f64,
    /// Written beside it; may be empty.
    pub label: String,
}

/// An upright line through all panes.
#[derive(Debug, Clone, PartialEq)]
pub struct Upright {
    /// Place on the axis across, SI.
    pub x: f64,
    /// Written at its top.
    pub label: String,
}

/// One field of lines with an upright axis of its own. Panes of a chart stand above each other and
/// share the axis across: two scales on one field are easily misread.
#[derive(Debug, Clone, PartialEq)]
pub struct Pane {
    /// The upright axis.
    pub axis: Axis,
    /// Lowest and highest value shown, SI; what lies outside is cut off.
    pub range: (f64, f64),
    /// The lines.
    pub lines: Vec<Line>,
    /// The limits.
    pub bands: Vec<Band>,
    /// The marked points.
    pub marks: Vec<Mark>,
}

/// A chart.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// The axis across.
    pub x: Axis,
    /// Places the lines have values for, SI, rising; at least two.
    pub at: Vec<f64>,
    /// The fields, from top to bottom.
    pub panes: Vec<Pane>,
    /// The design as it is, and other places worth a line.
    pub uprights: Vec<Upright>,
    /// Where the machine works on the axis across, SI; tinted, and said in the chart's meaning.
    pub stretch: Option<(f64, f64)>,
    /// Places of [`Chart::at`] that get a row of their own in the table, and what is said of them; so does what stands upright.
    pub noted: Vec<(f64, &'static str)>,
    /// What is said of a place where no line has a value.
    pub none: &'static str,
    /// What the chart shows, in words.
    pub words: String,
    /// The input that runs across, if a place on the chart can be put into the design.
    pub lever: Option<Lever>,
}

impl Chart {
    /// The first and the last place.
    pub fn span(&self) -> (f64, f64) {
        let first = self.at.first().copied().unwrap_or(0.0);
        let last = self.at.last().copied().unwrap_or(1.0);
        (first, if last > first { last } else { first + 1.0 })
    }

    /// Which of the places is nearest to a value.
    pub fn nearest(&self, x: f64) -> usize {
        let distance = |place: &f64| (place - x).abs();
        self.at
            .iter()
            .enumerate()
            .min_by(|one, other| distance(one.1).total_cmp(&distance(other.1)))
            .map_or(0, |(index, _)| index)
    }
}

/// A range from the lowest to the highest of these values, with some air above; numbers only.
pub fn range_of(values: impl IntoIterator<Item = f64>) -> (f64, f64) {
    let (low, high) = values
        .into_iter()
        .filter(|value| value.is_finite())
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (low.min(value), high.max(value))
        });
    if low < high {
        (low, high + 0.06 * (high - low))
    } else if low.is_finite() {
        (low, low + low.abs().max(1.0))
    } else {
        (0.0, 1.0)
    }
}
