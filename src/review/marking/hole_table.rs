//! The hole table as rows of words and numbers.

use super::{MarkingReview, off_place};
use crate::design::inputs::Datum;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::Verdict;
use crate::review::table::{Table, TableRow};
use crate::sizing::marking::{Mark, Marking, Obstacle};
use uom::si::f64::Length;

/// A datum inside a sentence.
pub(super) fn datum_words(datum: Datum) -> &'static str {
    match datum {
        Datum::BottomEnd => "bottom end",
        Datum::LowerSeam => "lower round seam",
        Datum::UpperSeam => "upper round seam",
        Datum::TopEnd => "top end",
    }
}

/// Where the holes lie from the datum: of a tape nobody reads less than nothing, so each height is told without a sign.
#[derive(Clone, Copy, PartialEq)]
enum Side {
    Above,
    Below,
    Both,
}

impl Side {
    fn of(marking: &Marking) -> Self {
        let mut heights = marking.marks.iter().map(|mark| mark.from_tape_datum.value);
        if heights.clone().all(|height| height >= 0.0) {
            Self::Above
        } else if heights.all(|height| height <= 0.0) {
            Self::Below
        } else {
            Self::Both
        }
    }

    fn heading(self, datum: Datum) -> &'static str {
        match (self, datum) {
            (Self::Above, Datum::BottomEnd) => "Above the bottom end",
            (Self::Above, Datum::LowerSeam) => "Above the lower seam",
            (Self::Above, Datum::UpperSeam) => "Above the upper seam",
            (Self::Above, Datum::TopEnd) => "Above the top end",
            (Self::Below, Datum::BottomEnd) => "Below the bottom end",
            (Self::Below, Datum::LowerSeam) => "Below the lower seam",
            (Self::Below, Datum::UpperSeam) => "Below the upper seam",
            (Self::Below, Datum::TopEnd) => "Below the top end",
            (Self::Both, Datum::BottomEnd) => "From the bottom end",
            (Self::Both, Datum::LowerSeam) => "From the lower seam",
            (Self::Both, Datum::UpperSeam) => "From the upper seam",
            (Self::Both, Datum::TopEnd) => "From the top end",
        }
    }

    fn told(self, height: Length) -> Slot {
        let shown = length(height.abs());
        match self {
            Self::Both if height.value < 0.0 => Phrase::new("{} below", [shown]).into(),
            Self::Both => Phrase::new("{} above", [shown]).into(),
            Self::Above | Self::Below => shown,
        }
    }
}

fn length(length: Length) -> Slot {
    Measure::new(Q::Length, length.value).into()
}

fn across(length: Length) -> Slot {
    Measure::new(Q::Bore, length.value).into()
}

pub(super) fn table(marking: &Marking, review: &MarkingReview) -> Table {
    let side = Side::of(marking);
    let rows = (marking.marks.iter().enumerate())
        .map(|(place, mark)| {
            let near = &mark.clearances;
            let seam = (near.long_seam.value)
                .min(near.lower_seam.value)
                .min(near.upper_seam.value);
            let hole = (near.holes.first())
                .map_or_else(|| Slot::from("none"), |other| length(other.clearance));
            let blind = |of: Option<Length>| of.map_or_else(|| Slot::from("not measured"), length);
            TableRow {
                verdict: Some(verdict(review, place, mark.blind.is_some())),
                cells: vec![
                    mark.name.as_str().into(),
                    across(mark.diameter),
                    side.told(mark.from_tape_datum),
                    blind(mark.blind.map(|_| mark.height_uncertainty)),
                    Measure::new(Q::Angle, mark.angle.value).into(),
                    mark.round_from_front().map_or_else(by_angle, length),
                    from_long_seam(marking, mark),
                    if seam.is_finite() {
                        Measure::new(Q::Length, seam).into()
                    } else {
                        "no seam".into()
                    },
                    hole,
                ],
            }
        })
        .collect();
    Table {
        headings: vec![
            "Hole",
            "Diameter",
            side.heading(marking.tape_datum),
            "Tape may be off by",
            "Angle from the front mark",
            "Round from the front mark",
            "Round from the long seam",
            "Clear of seams",
            "Clear of holes",
        ],
        rows,
    }
}

/// How far off its place the plan would have put each hole; no rows while nobody measured the vessel.
pub(super) fn off_the_plan(marking: &Marking, review: &MarkingReview) -> Table {
    let told = |(place, mark): (usize, &Mark)| {
        let passes = !review.cut_wrong.contains(&place);
        mark.blind.as_ref().map(|blind| TableRow {
            verdict: Some(verdict(review, place, true)),
            cells: vec![
                mark.name.as_str().into(),
                off_place::in_height(blind, passes),
                off_place::along(blind, passes),
            ],
        })
    };
    Table {
        headings: vec!["Hole", "In height", "Along the wrap"],
        rows: marking.marks.iter().enumerate().filter_map(told).collect(),
    }
}

/// What stands where a distance round would be that of another wall.
fn by_angle() -> Slot {
    "by its angle".into()
}

/// How far a hole is from the long seam the shorter way round, and to which side of it, seen from outside.
fn from_long_seam(marking: &Marking, mark: &Mark) -> Slot {
    let right = mark.wrap_from_long_seam;
    let left = marking.vessel.girth - right;
    if mark.other_wall.is_some() {
        // The seam is one of the vessel.
        by_angle()
    } else if marking.seamless {
        "no seam".into()
    } else if right <= left {
        Phrase::new("{} to its right", [length(right)]).into()
    } else {
        Phrase::new("{} to its left", [length(left)]).into()
    }
}

/// Stop for a hole that clashes, Watch for one that the plan would have cut wrong; while nobody measured the vessel, no
/// hole can be called Good.
fn verdict(review: &MarkingReview, place: usize, measured: bool) -> Verdict {
    let clashes = (review.clashes.iter())
        .any(|clash| clash.mark == place || clash.with == Obstacle::Hole(place));
    if clashes {
        Verdict::Stop
    } else if review.cut_wrong.contains(&place) {
        Verdict::Watch
    } else if measured {
        Verdict::Good
    } else {
        Verdict::CannotTell
    }
}
