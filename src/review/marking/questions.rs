//! The questions of this chapter.

use super::{MarkingReview, USED_VESSEL, off_place};
use crate::design::inputs::HearthKind;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::sizing::branch::BranchError;
use crate::sizing::machine;
use crate::sizing::marking::{BlindCut, Mark};
use crate::sizing::nozzle_tube::nozzle_ring;
use uom::si::f64::Length;

pub(super) fn length(length: Length) -> Slot {
    Measure::new(Q::Length, length.value).into()
}

pub(super) fn count(count: usize) -> Slot {
    Measure::new(Q::Count, count as f64).into()
}

pub(super) fn question(
    id: &'static str,
    title: &'static str,
    meaning: &'static str,
    why: &'static str,
    review: &MarkingReview,
) -> Finding {
    let compared = match &review.marking {
        Ok(_) => Phrase::plain("no vessel is measured yet"),
        Err(error) => Phrase::new("{}", [error.to_string().into()]),
    };
    Finding {
        id,
        chapter: Chapter::Marking,
        title,
        meaning,
        verdict: Verdict::CannotTell,
        compared,
        why,
        margin: None,
        working: Vec::new(),
        caution: Some(USED_VESSEL),
        levers: Vec::new(),
        about: if review.marking.is_ok() {
            "holes"
        } else {
            "real_vessel"
        },
    }
}

/// A question that holes answer which are not in the list.
pub(super) fn missing(finding: Finding, compared: &'static str) -> Finding {
    Finding {
        compared: Phrase::plain(compared),
        about: "holes",
        ..finding
    }
}

/// Does every hole and pipe fit the vessel at all?
pub(super) fn fits(design: &Design, review: &MarkingReview) -> Finding {
    let mut finding = question(
        "marking.fits",
        "Holes fit the shell",
        "A pipe can only be set on a shell that is wider than the pipe, and only where it meets the shell.",
        "There is no cut for a pipe that passes beside the vessel.",
        review,
    );
    let Ok(marking) = &review.marking else {
        return finding;
    };
    let Some(first) = marking.refused.first() else {
        let places = 0..marking.marks.len();
        let mut beyond = places.filter_map(|place| Some((place, marking.beyond(place)?)));
        match beyond.next() {
            None => {
                finding.verdict = Verdict::Good;
                finding.compared = Phrase::new(
                    "all {} holes lie on the shell",
                    [count(marking.marks.len())],
                );
            }
            Some((place, (end, by))) => {
                finding.verdict = Verdict::Stop;
                finding.compared = Phrase::new(
                    "{} lies {} beyond {} of the shell, which is {} long: look at its height, and at where heights are counted from",
                    [
                        marking.told(place).as_ref().into(),
                        length(by),
                        marking.name_of(end).as_ref().into(),
                        length(marking.vessel.length),
                    ],
                );
                let hole = marking.marks.get(place).map(|mark| mark.hole);
                finding.levers = (hole.into_iter())
                    .map(|hole| Design::item_input("holes", hole, "height"))
                    .map(Lever::input)
                    .chain([Lever::input("plan_vessel.datum")])
                    .collect();
            }
        }
        return finding;
    };
    finding.verdict = Verdict::Stop;
    finding.compared = Phrase::new(
        "{}: {}",
        [first.name.as_str().into(), first.reason.to_string().into()],
    );
    let place = first.hole;
    let pipe = design
        .holes
        .get(place)
        .is_some_and(|hole| hole.pipe.is_some());
    finding.levers = match first.reason {
        BranchError::BesideVessel { .. } => vec!["offset", "diameter"],
        BranchError::TooFlat { .. } => vec!["lean"],
        BranchError::WiderThanVessel { .. } | BranchError::NoSize if pipe => {
            vec!["pipe", "diameter"]
        }
        BranchError::WiderThanVessel { .. }
        | BranchError::HoleWiderThanVessel { .. }
        | BranchError::NoSize => vec!["diameter"],
    }
    .into_iter()
    .map(|name| Lever::input(format!("holes.{place}.{name}")))
    .collect();
    finding
}

fn blind_steps(design: &Design, mark: &Mark, blind: &BlindCut) -> Vec<Step> {
    let measure = |si: Length| Measure::new(Q::Length, si.value);
    let belongs = mark.above_bottom;
    let girth = design.real_vessel.girth;
    vec![
        Step {
            words: "How much too high the plan would cut it",
            formula: "Δh = h_plan − h",
            values: vec![
                (
                    "h_plan",
                    "above the bottom end, with the plan's figure from the same datum of your vessel",
                    measure(belongs + blind.up),
                ),
                (
                    "h",
                    "above the bottom end, where it belongs",
                    measure(belongs),
                ),
            ],
            result: measure(blind.up),
            source: Source::Reckoned("geometry: difference of two heights"),
            sure: "as sure as the tape",
        },
        Step {
            words: "How much too far to the right the plan would cut it",
            formula: "Δs = φ/360° · (C_plan − C)",
            values: vec![
                (
                    "φ",
                    "from the front mark round to the right",
                    Measure::new(Q::Angle, mark.angle.value),
                ),
                (
                    "C_plan",
                    "circumference of the plan's vessel",
                    measure(design.plan_vessel.girth),
                ),
                ("C", "circumference of your vessel", measure(girth)),
            ],
            result: measure(blind.along),
            source: Source::Reckoned("geometry: share of the circumference"),
            sure: "as sure as the tape",
        },
    ]
}

/// Which holes would the plan have cut wrong?
pub(super) fn cut_wrong(design: &Design, review: &MarkingReview) -> Finding {
    let mut finding = question(
        "marking.cut_wrong",
        "Plan against your vessel",
        "A plan's figures count from a datum, such as a seam. On another vessel that datum sits elsewhere.",
        "Mark out from the hole table of your vessel, not from the plan: vessels that look alike differ by 75 to \
         100 mm (3 to 4 in) between seam and base.",
        review,
    );
    let Ok(marking) = &review.marking else {
        return finding;
    };
    let worst = (marking.marks.iter())
        .filter_map(|mark| Some((mark, mark.blind?)))
        .max_by(|a, b| a.1.distance().value.total_cmp(&b.1.distance().value));
    let Some((mark, blind)) = worst else {
        finding.about = "real_vessel";
        if design.real_vessel.rolled {
            finding.verdict = Verdict::Good;
            finding.compared = Phrase::plain(
                "the shell is rolled as planned; measure it all the same before you mark its holes",
            );
        } else {
            finding.compared = Phrase::plain(
                "no vessel is measured yet; one that is bought is measured first, one that you roll yourself is as planned",
            );
            finding.levers = vec![Lever::input("real_vessel.rolled")];
        }
        return finding;
    };
    let allowed = design.limits.hole_off;
    let distance = blind.distance();
    finding.about = "real_vessel";
    finding.working = blind_steps(design, mark, &blind);
    if allowed.value > 0.0 {
        finding.margin = Some(1.0 - distance.value / allowed.value);
    }
    if review.cut_wrong.is_empty() {
        finding.verdict = Verdict::Good;
        finding.compared = Phrase::new(
            "the plan would be off by at most {}, allowed {}",
            [length(distance), length(allowed)],
        );
        return finding;
    }
    finding.verdict = Verdict::Watch;
    finding.compared = Phrase::new(
        "{} of {} holes would be cut wrong; the worst, {}: {}, allowed {}",
        [
            count(review.cut_wrong.len()),
            count(marking.marks.len()),
            mark.name.as_str().into(),
            off_place::told(&blind),
            length(allowed),
        ],
    );
    finding
}

/// Do the holes of the nozzles sit where this hearth has its nozzles? A straight tube has no nozzles, and wants no holes for
/// them.
pub(super) fn nozzles(design: &Design, review: &MarkingReview) -> Option<Finding> {
    let wanted = design.hearth.nozzle_count;
    let ring = nozzle_ring(design);
    let is_straight = design.hearth.kind == HearthKind::Straight;
    if ring.is_none() && is_straight {
        return None;
    }
    let mut finding = question(
        "marking.nozzles",
        "Nozzle holes where the hearth has them",
        "The nozzle tubes pass straight through the shell to the ring of nozzles, so both must lie at one height.",
        "Holes at another height miss the ring: the vessel is drilled twice, or the hearth is hung wrong.",
        review,
    );
    let Some((place, ring)) = ring else {
        return Some(missing(
            finding,
            "no hole for the nozzles: none of the list is a ring of pipes set through the shell, and without one no air comes in",
        ));
    };
    if is_straight {
        finding.verdict = Verdict::Stop;
        finding.compared = Phrase::new(
            "“{}” would be {} holes through the shell, but a straight fire tube has no nozzles: take them out of the list",
            [
                ring.name.as_str().into(),
                Measure::new(Q::Count, f64::from(ring.count)).into(),
            ],
        );
        finding.why = "Holes that nothing passes through draw air in below the fire: the gas burns where it should be drawn off.";
        return Some(finding);
    }
    let Ok(marking) = &review.marking else {
        return Some(finding);
    };
    let Some(mark) = marking.marks.iter().find(|mark| mark.hole == place) else {
        finding.compared = Phrase::plain("the ring has no place on the shell");
        return Some(finding);
    };
    let (vessel, hearth) = machine::measures(design);
    let plane = hearth.nozzle_plane - vessel.underside;
    let off = (mark.above_bottom - plane).abs();
    let allowed = design.limits.hole_off;
    let as_many = ring.count == wanted;
    let number = |count: u32| Slot::from(Measure::new(Q::Count, f64::from(count)));
    (finding.verdict, finding.compared) = if off.value.is_finite() && !as_many {
        let words = "the plan has {} holes for {} nozzles";
        (
            Verdict::Watch,
            Phrase::new(words, [number(ring.count), number(wanted)]),
        )
    } else {
        let words = "the holes sit {} above the bottom end, the nozzles {} above the vessel's underside: {} apart, allowed {}";
        (
            Verdict::at_most(off.value, allowed.value, f64::INFINITY),
            Phrase::new(words, [mark.above_bottom, plane, off, allowed].map(length)),
        )
    };
    if as_many && allowed.value > 0.0 {
        finding.margin = Some(1.0 - off.value / allowed.value).filter(|margin| margin.is_finite());
    }
    let field = if as_many { "height" } else { "count" };
    finding.levers = vec![Lever::input(format!("holes.{place}.{field}"))];
    finding.working = vec![Step {
        words: "Height of the nozzles in the vessel: the room that the hearth leaves free in its band is shared between \
                fire tube and ash room",
        formula: "h = s + (H − a − b)/2 + a + b",
        values: vec![
            (
                "s",
                "bottom end of the vessel, all layers",
                Measure::new(Q::Length, (vessel.hearth_bottom - vessel.underside).value),
            ),
            (
                "H",
                "height of the hearth band",
                Measure::new(Q::Length, design.hearth_wall.height.value),
            ),
            (
                "a",
                "nozzles above the throat",
                Measure::new(Q::Length, design.hearth.nozzle_height.value),
            ),
            (
                "b",
                "throat above the grate",
                Measure::new(Q::Length, design.hearth.reduction_height.value),
            ),
        ],
        result: Measure::new(Q::Length, plane.value),
        source: Source::Reckoned("the hearth as it is drawn"),
        sure: "as sure as the hearth hangs as drawn; the bottom end of the plan is taken for the vessel's underside",
    }];
    Some(finding)
}
