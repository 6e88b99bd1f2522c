//! The hole table as rows of words and numbers.

use super::{MarkingReview, off_place};
use crate::design::inputs::Datum;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::Verdict;
use crate::review::table::{Table, TableRow};
use crate::sizing::marking::{BlindCut, Mark, Marking, Obstacle};
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

fn height_heading(datum: Datum) -> &'static str {
    match datum {
        Datum::BottomEnd => "Above the bottom end",
        Datum::LowerSeam => "Above the lower seam",
        Datum::UpperSeam => "Above the upper seam",
        Datum::TopEnd => "Above the top end",
    }
}

fn length(length: Length) -> Slot {
    Measure::new(Q::Length, length.value).into()
}

fn across(length: Length) -> Slot {
    Measure::new(Q::Bore, length.value).into()
}

pub(super) fn table(marking: &Marking, review: &MarkingReview) -> Table {
    let rows = (marking.marks.iter().enumerate())
        .map(|(place, mark)| {
            let near = &mark.clearances;
            let seam = (near.long_seam.value)
                .min(near.lower_seam.value)
                .min(near.upper_seam.value);
            let hole = (near.holes.first())
                .map_or_else(|| Slot::from("none"), |other| length(other.clearance));
            let blind = |of: Option<Length>| of.map_or_else(|| Slot::from("not measured"), length);
            let passes = !review.cut_wrong.contains(&place);
            let off = |of: Option<BlindCut>, told: fn(&BlindCut, bool) -> Slot| {
                (of.as_ref())
                    .map_or_else(|| Slot::from("not measured"), |blind| told(blind, passes))
            };
            TableRow {
                verdict: Some(verdict(review, place, mark.blind.is_some())),
                cells: vec![
                    mark.name.as_str().into(),
                    across(mark.diameter),
                    length(mark.from_tape_datum),
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
                    off(mark.blind, off_place::in_height),
                    off(mark.blind, off_place::along),
                ],
            }
        })
        .collect();
    Table {
        headings: vec![
            "Hole",
            "Diameter",
            height_heading(marking.tape_datum),
            "Tape may be off by",
            "Angle from the front mark",
            "Round from the front mark",
            "Round from the long seam",
            "Clear of seams",
            "Clear of holes",
            "Plan is off in height",
            "Plan is off along the wrap",
        ],
        rows,
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
