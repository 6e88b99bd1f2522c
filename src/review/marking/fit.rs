//! How a pipe sits in a hole, or a plate on a pipe.

use crate::design::Source;
use crate::design::phrase::Measure;
use crate::design::quantity::Quantity;
use crate::design::quantity::{exceeds, falls_short};
use crate::review::finding::{Step, Verdict};
use crate::sizing::stage_bores::ALIKE;

/// Least that a hole is wider than a pipe that goes through it, m. Our own mark: pipe is out of round by as much.
pub(super) const PLAY: f64 = 0.000_2;
/// Widest gap all round that is welded as it is, and that is welded at all, m.
pub(super) const CLOSE: f64 = 0.002;
pub(super) const WIDEST: f64 = 0.005;
/// Where the two come from.
const GAPS: Source = Source::FromMemory("AWS D1.1, gaps under fillet welds");

pub(super) fn across(metres: f64) -> Measure {
    Measure::new(Quantity::Bore, metres)
}

/// A hole or bore and a pipe, m.
#[derive(Debug, Clone, Copy)]
pub(super) struct Fit {
    pub hole: f64,
    pub outside: f64,
    pub wall: f64,
}

/// How the two meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sits {
    /// The hole is so much narrower than the pipe inside that the gas passes a step.
    Narrow,
    /// The end of the pipe rests on the edge of the hole.
    OnEdge,
    /// The pipe does not go through, and is too narrow to rest on the edge.
    Between,
    /// The pipe goes through with nothing to spare.
    Tight,
    /// The pipe goes through.
    Through,
    /// It goes through with a gap that is filled by a wide weld.
    Gap,
    /// It goes through with a gap that no weld fills.
    TooWide,
}

impl Fit {
    pub fn inside(&self) -> f64 {
        self.outside - 2.0 * self.wall
    }

    /// Gap all round a pipe that goes through.
    pub fn gap(&self) -> f64 {
        0.5 * (self.hole - self.outside)
    }

    /// Narrowest and widest hole that a pipe goes through and is welded in as it is.
    fn through(&self) -> [f64; 2] {
        [self.outside + PLAY, self.outside + 2.0 * CLOSE]
    }

    /// Widest hole that the end of the pipe rests on with half of its wall.
    pub fn widest_edge(&self) -> f64 {
        self.outside - self.wall
    }

    pub fn sits(&self) -> Sits {
        let [least, most] = self.through();
        match self.hole {
            hole if falls_short(hole, ALIKE * self.inside()) => Sits::Narrow,
            hole if !exceeds(hole, self.widest_edge()) => Sits::OnEdge,
            hole if falls_short(hole, self.outside) => Sits::Between,
            hole if falls_short(hole, least) => Sits::Tight,
            hole if !exceeds(hole, most) => Sits::Through,
            hole if !exceeds(hole, self.outside + 2.0 * WIDEST) => Sits::Gap,
            _ => Sits::TooWide,
        }
    }

    /// How far the hole lies inside what a pipe goes through, as a share of the pipe; negative outside of it.
    pub fn margin_through(&self) -> f64 {
        self.inside_of(self.through())
    }

    /// The same for a pipe whose end rests on the edge.
    pub fn margin_on_edge(&self) -> f64 {
        (self.widest_edge() - self.hole) / self.outside
    }

    /// The same where either is right, and nothing narrower than the pipe.
    pub fn margin_either(&self) -> f64 {
        let on_edge = self.inside_of([ALIKE * self.inside(), self.widest_edge()]);
        on_edge.max(self.margin_through())
    }

    /// How the widest hole is found that the end of the pipe rests on.
    pub fn edge_step(&self, words: &'static str, sure: &'static str) -> Step {
        Step {
            words,
            formula: "D = d − s",
            values: vec![
                ("d", "pipe outside", across(self.outside)),
                ("s", "pipe wall", across(self.wall)),
            ],
            result: across(self.widest_edge()),
            source: Source::CommonPractice,
            sure,
        }
    }

    /// How the gap all round is found; `hole` says what the pipe goes through.
    pub fn gap_step(&self, words: &'static str, hole: &'static str, sure: &'static str) -> Step {
        Step {
            words,
            formula: "s = (D − d)/2",
            values: vec![
                ("D", hole, across(self.hole)),
                ("d", "pipe outside", across(self.outside)),
            ],
            result: across(self.gap()),
            source: GAPS,
            sure,
        }
    }

    fn inside_of(&self, [least, most]: [f64; 2]) -> f64 {
        (self.hole - least).min(most - self.hole) / self.outside
    }
}

impl Sits {
    /// The verdict on a pipe that is set through.
    pub fn set_through(self) -> Verdict {
        match self {
            Sits::Through => Verdict::Good,
            Sits::Tight | Sits::Gap => Verdict::Watch,
            Sits::Narrow | Sits::OnEdge | Sits::Between | Sits::TooWide => Verdict::Stop,
        }
    }

    /// The verdict on a pipe that is set on.
    pub fn set_on(self) -> Verdict {
        match self {
            Sits::Narrow | Sits::OnEdge => Verdict::Good,
            Sits::Between | Sits::Tight | Sits::Through | Sits::Gap => Verdict::Watch,
            Sits::TooWide => Verdict::Stop,
        }
    }

    /// The verdict on a plate that is pushed over a pipe or welded on its end.
    pub fn either(self) -> Verdict {
        match self {
            Sits::OnEdge | Sits::Through => Verdict::Good,
            Sits::Narrow | Sits::Between | Sits::Tight | Sits::Gap => Verdict::Watch,
            Sits::TooWide => Verdict::Stop,
        }
    }
}
