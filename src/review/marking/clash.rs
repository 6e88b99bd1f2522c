//! Is any hole too near to a seam, an end or another hole?

use super::MarkingReview;
use super::questions::{count, length, question};
use crate::design::inputs::HoleUse;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::review::reach::SMALLEST_DOOR;
use crate::sizing::marking::{Gap, Marking, Obstacle};
use uom::si::f64::Length;
use uom::si::length::meter;

const GEOMETRY: Source =
    Source::Reckoned("geometry: distances on the outside of the shell, rolled out flat");

pub(super) fn question_of(design: &Design, review: &MarkingReview) -> Finding {
    let mut finding = question(
        "marking.clash",
        "Holes clear of seams and each other",
        "Plain sheet that is left between the edge of a hole and a weld, an end or the next hole.",
        "A cut into a weld opens it, and two welds side by side pull the sheet until it leaks.",
        review,
    );
    let Ok(marking) = &review.marking else {
        return finding;
    };
    let Some(tightest) = &review.tightest else {
        finding.verdict = Verdict::Good;
        finding.compared = Phrase::plain("no hole lies on the shell");
        return finding;
    };
    let name = marking.told(tightest.mark);
    let name = name.as_ref();
    let with = marking.name_of(tightest.with);
    let with = with.as_ref();
    finding.working = working(marking, tightest);
    if tightest.wanted.value > 0.0 {
        finding.margin = Some((tightest.to_spare() / tightest.wanted).value);
    }
    if review.clashes.is_empty() {
        finding.verdict = Verdict::Good;
        finding.compared = Phrase::new(
            "least to spare: {} is {} from {}, {} wanted",
            [
                name.into(),
                length(tightest.clearance),
                with.into(),
                length(tightest.wanted),
            ],
        );
        return finding;
    }
    finding.verdict = Verdict::Stop;
    let too_near = count(review.clashes.len());
    let is_beyond = (marking.beyond(tightest.mark)).is_some_and(|(end, _)| end == tightest.with);
    finding.compared = if is_beyond {
        // Nothing is cut by what lies off the sheet.
        Phrase::new(
            "{} lies beyond {}; places that are too near: {}",
            [name.into(), with.into(), too_near],
        )
    } else if tightest.clearance.value < 0.0 {
        Phrase::new(
            "{} cuts into {} by {}; {} clear wanted; places that are too near: {}",
            [
                name.into(),
                with.into(),
                length(tightest.clearance.abs()),
                length(tightest.wanted),
                too_near,
            ],
        )
    } else {
        Phrase::new(
            "{} is {} from {}, {} wanted; places that are too near: {}",
            [
                name.into(),
                length(tightest.clearance),
                with.into(),
                length(tightest.wanted),
                too_near,
            ],
        )
    };
    finding.levers = levers(design, marking, tightest);
    finding
}

/// The inputs that move a hole away from what it is too near to: the hole by itself, or all holes round the shell where the
/// front line is marked elsewhere. A door may also be made smaller; what sits in any other hole has its size.
fn levers(design: &Design, marking: &Marking, clash: &Gap) -> Vec<Lever> {
    let of = |place: usize, name: &str| {
        let hole = marking.marks.get(place)?.hole;
        Some(Lever::input(format!("holes.{hole}.{name}")))
    };
    let mut levers: Vec<Lever> = match clash.with {
        Obstacle::LongSeam => vec![
            of(clash.mark, "angle"),
            Some(Lever::input("real_vessel.long_seam")),
        ],
        Obstacle::Hole(other) => vec![
            of(clash.mark, "angle"),
            of(clash.mark, "height"),
            of(other, "angle"),
            of(other, "height"),
        ],
        _ => vec![of(clash.mark, "height")],
    }
    .into_iter()
    .flatten()
    .collect();
    let other = match clash.with {
        Obstacle::Hole(other) => Some(other),
        _ => None,
    };
    let is_door = |place: &usize| {
        let hole = (marking.marks.get(*place)).and_then(|mark| design.holes.get(mark.hole));
        hole.is_some_and(|hole| {
            hole.carries == HoleUse::Open && hole.diameter.value > SMALLEST_DOOR
        })
    };
    let near = [Some(clash.mark), other].into_iter().flatten();
    levers.extend(
        near.filter(is_door)
            .filter_map(|place| of(place, "diameter")),
    );
    levers.dedup();
    levers
}

/// From the middle of the cut to what is near, and what the cut takes of that.
fn working(marking: &Marking, gap: &Gap) -> Vec<Step> {
    let Some(mark) = marking.marks.get(gap.mark) else {
        return Vec::new();
    };
    let measure = |si: Length| Measure::new(Q::Length, si.value);
    let none = Length::default();
    let sure = if marking.measured {
        "as sure as the tape"
    } else {
        "no surer than the plan: measure the vessel that you bought"
    };
    let step = |words, formula, values, result: Length| Step {
        words,
        formula,
        values,
        result: measure(result),
        source: GEOMETRY,
        sure,
    };
    let vessel = &marking.vessel;
    let round = |one: Length, other: Length| {
        let apart = (one - other).abs();
        apart.min(vessel.girth - apart)
    };
    let up_to = |height: Length| (mark.above_bottom - height).abs();
    let (along, up) = match gap.with {
        Obstacle::LongSeam => (round(mark.wrap_from_long_seam, none), none),
        Obstacle::LowerSeam => (none, up_to(vessel.lower_seam)),
        Obstacle::UpperSeam => (none, up_to(vessel.upper_seam)),
        Obstacle::BottomEnd => (none, up_to(none)),
        Obstacle::TopEnd => (none, up_to(vessel.length)),
        Obstacle::Hole(other) => match marking.marks.get(other) {
            Some(other) => (
                round(mark.wrap_from_front, other.wrap_from_front),
                up_to(other.above_bottom),
            ),
            None => return Vec::new(),
        },
    };
    let apart = Length::new::<meter>(along.value.hypot(up.value));
    vec![
        step(
            "From the middle of the cut to the line, or to the middle of the other cut",
            "d = √(Δu² + Δh²)",
            vec![
                (
                    "Δu",
                    "along the wrap, the shorter way round",
                    measure(along),
                ),
                ("Δh", "up or down", measure(up)),
            ],
            apart,
        ),
        step(
            "Plain sheet that is left",
            "s = d − r",
            vec![
                ("d", "that distance", measure(apart)),
                (
                    "r",
                    "what the cut, or both cuts, take of it",
                    measure(apart - gap.clearance),
                ),
            ],
            gap.clearance,
        ),
    ]
}
