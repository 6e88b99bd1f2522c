//! The outlines of all solids of the machine, cut through the vessel's axis.

use super::hatch;
use super::ink::{PieceName, Stroke, Touchable, View, circle, polygon, rectangle};
use crate::design::Design;
use crate::design::inputs::{ContactKind, HearthKind, Presence};
use crate::sizing::footprint::Footprint;
use crate::sizing::machine::{Envelope, Machine, Piece, Solid};
use uom::si::f64::Length;

/// Style class of what fills the machine.
pub const FILL: &str = "fill";

/// Millimetres of a length.
pub fn mm(length: Length) -> f64 {
    length.value * 1000.0
}

/// A hollow round solid, cut: two walls; a full one: one area.
fn cut(solid: &Solid, view: View) -> Vec<Stroke> {
    let fill = hatch::fill(solid.substance);
    let class = match solid.presence {
        Presence::WhenFull => FILL,
        _ => "cut",
    };
    match solid.envelope {
        Envelope::Round(round) => {
            let axis = mm(match view {
                View::Front => round.x,
                View::Side => round.y,
            });
            let (bottom, top) = (mm(round.bottom), mm(round.top));
            let wall = |side: f64| {
                polygon(
                    &[
                        (axis + side * mm(round.inner_bottom), bottom),
                        (axis + side * mm(round.outer_bottom), bottom),
                        (axis + side * mm(round.outer_top), top),
                        (axis + side * mm(round.inner_top), top),
                    ],
                    true,
                )
            };
            [-1.0, 1.0]
                .map(|side| Stroke {
                    line: wall(side),
                    class,
                    fill,
                })
                .to_vec()
        }
        Envelope::Box(sides) => {
            let (left, right) = match view {
                View::Front => (sides.left, sides.right),
                View::Side => (sides.front, sides.back),
            };
            let line = rectangle(mm(left), mm(right), mm(sides.bottom), mm(sides.top));
            vec![Stroke {
                line,
                class: "outline",
                fill,
            }]
        }
    }
}

/// All pieces that can be touched, far ones first. Solids of the same piece are one touchable.
pub fn touchables(design: &Design, machine: &Machine, view: View) -> Vec<Touchable> {
    let mut touchables: Vec<Touchable> = Vec::with_capacity(machine.solids.len());
    // Parts are drawn first, as outlines behind the cut vessel; then what fills it, so that it covers no thin lid.
    let (parts, vessel): (Vec<&Solid>, Vec<&Solid>) = machine
        .solids
        .iter()
        .partition(|solid| matches!(solid.piece, Piece::Part(_)));
    let (fills, steel): (Vec<&Solid>, Vec<&Solid>) =
        (vessel.into_iter()).partition(|solid| solid.presence == Presence::WhenFull);
    for solid in parts.into_iter().chain(fills).chain(steel) {
        let name = PieceName {
            path: solid.piece.path(),
            label: solid.piece.label(design),
        };
        let strokes = cut(solid, view);
        match touchables.iter_mut().find(|known| known.name == name) {
            Some(known) => known.strokes.extend(strokes),
            None => touchables.push(Touchable { name, strokes }),
        }
    }
    touchables
}

/// Feet and wheels where the machine touches the ground.
pub fn contacts(design: &Design, footprint: &Footprint, view: View) -> Vec<Stroke> {
    let wheel = 0.5 * mm(design.base.wheel_diameter);
    let foot = mm(design.base.frame_side);
    let mut drawn: Vec<Stroke> = footprint
        .points
        .iter()
        .map(|point| {
            let at = mm(match view {
                View::Front => point.x,
                View::Side => point.y,
            });
            let line = match point.kind {
                ContactKind::Wheel => circle(at, wheel, wheel),
                ContactKind::Foot => polygon(
                    &[(at - 0.5 * foot, 0.0), (at + 0.5 * foot, 0.0), (at, foot)],
                    true,
                ),
            };
            Stroke {
                line,
                class: "contact",
                fill: "var(--paper)",
            }
        })
        .collect();
    drawn.dedup();
    drawn
}

/// The hot heart of the figure: nozzle jets, and the throat's waist.
pub fn fire(design: &Design, machine: &Machine, view: View) -> Vec<Stroke> {
    let axis = mm(match view {
        View::Front => machine.vessel.x,
        View::Side => machine.vessel.y,
    });
    let hearth = &machine.hearth;
    let mut strokes = Vec::new();
    if design.hearth.kind == HearthKind::Constricted {
        let plane = mm(hearth.nozzle_plane);
        let wall = mm(machine.vessel.hearth_outer_radius) * 1.15;
        let tip = mm(hearth.tube_radius) * 0.6;
        for side in [-1.0, 1.0] {
            strokes.push(Stroke {
                line: polygon(
                    &[(axis + side * wall, plane), (axis + side * tip, plane)],
                    false,
                ),
                class: "air-jet",
                fill: "none",
            });
        }
    }
    let throat = mm(hearth.throat);
    let radius = mm(hearth.throat_radius);
    strokes.push(Stroke {
        line: polygon(&[(axis - radius, throat), (axis + radius, throat)], false),
        class: "throat",
        fill: "none",
    });
    strokes.push(Stroke {
        line: polygon(
            &[
                (axis - mm(hearth.foot_radius), mm(hearth.grate)),
                (axis + mm(hearth.foot_radius), mm(hearth.grate)),
            ],
            false,
        ),
        class: "grate",
        fill: "none",
    });
    strokes
}
