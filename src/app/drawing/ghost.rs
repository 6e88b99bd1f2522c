//! The outline of another design, laid over the figure on the same scale and the same floor.

use super::ink::{Stroke, View, circle, polygon, rectangle};
use super::notes::tape;
use super::pieces::{self, mm};
use super::plan;
use crate::design::Design;
use crate::design::inputs::Presence;
use crate::design::phrase::Measure;
use crate::design::quantity::{Quantity, System};
use crate::review::Assessment;
use crate::sizing::machine::{Envelope, Piece};
use uom::si::f64::Length;

/// Style class of all its lines.
const CLASS: &str = "ghost";

/// The lines of the other design.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ghost {
    /// Outline of vessel and hopper, parts, feet, throat.
    pub strokes: Vec<Stroke>,
    /// Top of the machine, mm.
    pub top: f64,
}

impl Ghost {
    /// The outline of a design with its assessment.
    pub fn of(design: &Design, assessment: &Assessment, view: View) -> Self {
        let machine = &assessment.standing.machine;
        let vessel = &machine.vessel;
        let axis = mm(match view {
            View::Front => vessel.x,
            View::Side => vessel.y,
        });
        let round = |right: &[(Length, Length)]| {
            let side = |way: f64| {
                right
                    .iter()
                    .map(move |(radius, up)| (axis + way * mm(*radius), mm(*up)))
            };
            let corners: Vec<_> = side(1.0).chain(side(-1.0).rev()).collect();
            polygon(&corners, true)
        };
        let mut lines = vec![round(&[
            (vessel.hearth_outer_radius, vessel.underside),
            (vessel.hearth_outer_radius, vessel.hearth_top),
            (vessel.body_outer_radius, vessel.hearth_top),
            (vessel.body_outer_radius, vessel.lid_top),
        ])];
        if vessel.hopper_top > vessel.lid_top {
            lines.push(round(&[
                (vessel.body_inner_radius, vessel.lid_top),
                (vessel.hopper_outer_radius, vessel.hopper_cone_top),
                (vessel.hopper_outer_radius, vessel.hopper_top),
            ]));
        }
        let parts = machine
            .solids
            .iter()
            .filter(|solid| {
                matches!(solid.piece, Piece::Part(_)) && solid.presence != Presence::WhenFull
            })
            .map(|solid| match (solid.envelope, view) {
                (Envelope::Round(round), _) => {
                    let axis = mm(if view == View::Front {
                        round.x
                    } else {
                        round.y
                    });
                    let (foot, head) = (mm(round.outer_bottom), mm(round.outer_top));
                    let (bottom, top) = (mm(round.bottom), mm(round.top));
                    polygon(
                        &[
                            (axis - foot, bottom),
                            (axis + foot, bottom),
                            (axis + head, top),
                            (axis - head, top),
                        ],
                        true,
                    )
                }
                (Envelope::Box(sides), View::Front) => rectangle(
                    mm(sides.left),
                    mm(sides.right),
                    mm(sides.bottom),
                    mm(sides.top),
                ),
                (Envelope::Box(sides), View::Side) => rectangle(
                    mm(sides.front),
                    mm(sides.back),
                    mm(sides.bottom),
                    mm(sides.top),
                ),
            });
        lines.extend(parts);
        let standing = pieces::contacts(design, &assessment.standing.footprint, view);
        lines.extend(standing.into_iter().map(|stroke| stroke.line));
        let throat = mm(machine.hearth.throat);
        let radius = mm(machine.hearth.throat_radius);
        lines.push(polygon(
            &[(axis - radius, throat), (axis + radius, throat)],
            false,
        ));
        Self {
            strokes: lines.into_iter().map(dashed).collect(),
            top: mm(machine.top),
        }
    }
}

impl Ghost {
    /// The outline of a design from above: vessel, hopper, parts, and what it stands on.
    pub fn from_above(design: &Design, assessment: &Assessment) -> Self {
        let standing = &assessment.standing;
        let vessel = &standing.machine.vessel;
        let widths = [
            vessel.hearth_outer_radius,
            vessel.body_outer_radius,
            vessel.hopper_outer_radius,
        ];
        let round = widths.map(|radius| circle(mm(vessel.x), mm(vessel.y), mm(radius)));
        let parts = (standing.machine.solids.iter())
            .filter(|solid| {
                matches!(solid.piece, Piece::Part(_)) && solid.presence != Presence::WhenFull
            })
            .map(plan::outline);
        let contacts = plan::contacts(design, &standing.footprint, 0.0);
        let lines = (round.into_iter())
            .chain(parts)
            .chain(contacts.into_iter().map(|stroke| stroke.line));
        Self {
            strokes: lines.map(dashed).collect(),
            top: mm(standing.machine.top),
        }
    }

    /// Only the outlines that are not the same here: dashes over equal lines would hide both.
    pub fn without(mut self, own: &Ghost) -> Self {
        self.strokes.retain(|stroke| !own.strokes.contains(stroke));
        self
    }
}

fn dashed(line: String) -> Stroke {
    Stroke {
        line,
        class: CLASS,
        fill: "none",
    }
}

/// The overlay in words: how the other design's big dimensions differ.
pub fn words(
    (design, assessment): (&Design, &Assessment),
    (other, other_assessment): (&Design, &Assessment),
    system: System,
) -> String {
    let big = |design: &Design, assessment: &Assessment| {
        let machine = &assessment.standing.machine;
        [
            ("height", machine.top),
            ("base width", design.base.width),
            ("base depth", design.base.depth),
            ("vessel across", 2.0 * machine.vessel.body_outer_radius),
            (
                "hearth band across",
                2.0 * machine.vessel.hearth_outer_radius,
            ),
            ("throat", 2.0 * machine.hearth.throat_radius),
        ]
    };
    let told: Vec<String> = big(design, assessment)
        .iter()
        .zip(big(other, other_assessment))
        .filter_map(|((name, one), (_, other))| {
            let (one, other) = (mm(*one), mm(other));
            (tape(one, system) != tape(other, system)).then(|| {
                let less = Measure::new(Quantity::Length, (other - one) / 1000.0);
                format!(
                    "{name} {} ({})",
                    tape(other, system),
                    less.show_signed(system)
                )
            })
        })
        .collect();
    let what = if told.is_empty() {
        "the same big dimensions".to_string()
    } else {
        told.join(", ")
    };
    format!(" Dashed over it, “{}”: {what}.", other.about.name)
}
