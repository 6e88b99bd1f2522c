//! Does the vessel stand on its frame?

use super::{Standing, question};
use crate::design::inputs::Stance;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::footprint::{ContactPoint, Extent, Footprint, footprint};
use crate::sizing::machine;
use uom::si::f64::Length;

/// How far a shifted vessel may hang out over its frame, as a share of its diameter. Our own mark.
const CARRIED: f64 = 0.1;

/// Shifts that differ by less are the same, m.
const ROUNDING: f64 = 1e-6;

/// The shift of a vessel on its frame to one side, m.
struct Shift {
    /// Out of the frame's middle.
    of_axis: f64,
    /// Half of the frame.
    half: f64,
    /// As far as the frame carries the vessel.
    carried: f64,
    /// Inputs that bring the vessel back onto the frame.
    levers: Vec<Lever>,
}

impl Shift {
    fn beyond(&self) -> f64 {
        self.of_axis - self.carried
    }
}

/// One of both ways in which a vessel may be shifted, across or along.
struct Way {
    /// Where its axis is.
    vessel: (Length, &'static str),
    /// The ends of the frame, and what it is called from one to the other.
    ends: [Length; 2],
    size: &'static str,
    /// Where a contact point is on this way.
    place: fn(&ContactPoint) -> Length,
    axis: &'static str,
}

impl Way {
    fn shift(&self, own: bool, points: &[ContactPoint], radius: f64) -> Shift {
        let [from, to] = self.ends;
        let off = self.vessel.0 - 0.5 * (from + to);
        let half = 0.5 * (to - from).value;
        // A frame that is narrower than the vessel carries it in its middle.
        let carried = (half - radius).max(0.0) + 2.0 * CARRIED * radius;
        let end = if off.value < 0.0 { from } else { to };
        let wider = if own {
            (points.iter())
                .filter(|point| ((self.place)(point) - end).value.abs() <= ROUNDING)
                .map(|point| Lever::input(format!("contacts.{}.{}", point.index, self.axis)))
                .collect()
        } else {
            vec![Lever::input(self.size)]
        };
        Shift {
            of_axis: off.value.abs(),
            half,
            carried: carried.min(half),
            levers: [Lever::input(self.vessel.1)]
                .into_iter()
                .chain(wider)
                .collect(),
        }
    }
}

/// The shift to the side where the vessel hangs out furthest over the frame, which goes through the outermost contact points;
/// none where the machine falls over for want of these.
fn worst(design: &Design, footprint: &Footprint, radius: Length) -> Option<Shift> {
    if footprint.edges.is_empty() {
        return None;
    }
    let base = &design.base;
    let extent = Extent::of(&footprint.points)?;
    let [across, along] = [
        Way {
            vessel: (base.vessel_x, "base.vessel_x"),
            ends: [extent.left, extent.right],
            size: "base.width",
            place: |point| point.x,
            axis: "x",
        },
        Way {
            vessel: (base.vessel_y, "base.vessel_y"),
            ends: [extent.front, extent.back],
            size: "base.depth",
            place: |point| point.y,
            axis: "y",
        },
    ]
    .map(|way| {
        way.shift(
            base.stance == Stance::Points,
            &footprint.points,
            radius.value,
        )
    });
    Some(if across.beyond() >= along.beyond() {
        across
    } else {
        along
    })
}

/// How far the vessel is shifted out over the edge of its frame, beyond what the frame carries all the same, m. To shift it
/// there would balance the machine in the figures, and leave the vessel standing on nothing.
pub(in crate::review) fn overhang(design: &Design) -> f64 {
    let radius = machine::measures(design).0.hearth_outer_radius;
    worst(design, &footprint(design), radius).map_or(0.0, |shift| shift.beyond().max(0.0))
}

/// Does the frame carry the vessel where it stands?
pub(super) fn carried(design: &Design, standing: &Standing) -> Option<Finding> {
    let radius = standing.machine.vessel.hearth_outer_radius;
    let shift = worst(design, &standing.footprint, radius)?;
    let length = |value| Measure::new(Q::Length, value);
    let mut finding = question(
        design,
        "standing.frame",
        "Vessel on its frame",
        "The vessel stands on the frame. Shifted to one side it hangs out over the edge, and beyond some way nothing carries it.",
        "A vessel beside its frame drops or tears off what holds it, however well the weights balance.",
    );
    finding.verdict = Verdict::at_most(shift.of_axis, shift.carried + ROUNDING, shift.half);
    finding.margin =
        Some(1.0 - shift.of_axis / (shift.carried + ROUNDING)).filter(|margin| margin.is_finite());
    let slots = [
        length(shift.of_axis).into(),
        length(shift.carried).into(),
        length(shift.half).into(),
    ];
    finding.compared = if shift.of_axis > shift.half {
        Phrase::new(
            "the vessel's axis is {} out of the frame's middle, at most {} wanted; the frame ends at {}, so its middle stands on nothing",
            slots,
        )
    } else {
        Phrase::new(
            "the vessel's axis is {} out of the frame's middle, at most {} wanted; the frame ends at {}",
            slots,
        )
    };
    finding.working = vec![Step {
        words: "Farthest shift at which the frame still carries the vessel",
        formula: "s = max(b / 2 − r, 0) + c · 2 r, at most b / 2",
        values: vec![
            ("b", "frame, from edge to edge", length(2.0 * shift.half)),
            ("r", "outside radius of the vessel", length(radius.value)),
            (
                "c",
                "share of its diameter that may hang out",
                Measure::new(Q::Share, CARRIED),
            ),
        ],
        result: length(shift.carried),
        source: Source::OwnMark(
            "a tenth of the diameter, which the rim of the vessel's bottom bridges",
        ),
        sure: "a frame with an arm under the vessel carries it further out; none is reckoned with here",
    }];
    finding.about = "base";
    if finding.verdict != Verdict::Good {
        finding.levers = shift.levers;
    }
    Some(finding)
}
