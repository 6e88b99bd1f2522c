//! How much of its surroundings the figure shows, so that the machine fills its place: level, on a slope, gone over.

use super::ink::View;
use super::pieces::mm;
use crate::sizing::machine::{Envelope, Machine};
use uom::si::angle::degree;
use uom::si::f64::Angle;

/// Left, right, lowest and highest point shown, mm.
pub type Bounds = (f64, f64, f64, f64);

/// How far a fallen machine is shown turned beyond the slope, degrees.
pub const FALLEN: f64 = 35.0;

/// How many times as high as a text the machine is, and how many times as wide one is that is much wider than high.
const TALL: f64 = 20.5;
const WIDE: f64 = 14.0;
/// How much larger texts are where another outline takes room beside the machine.
const COMPARED: f64 = 1.2;

/// Height of a text beside a machine this high and wide, mm.
pub fn text_size(top: f64, wide: f64, is_compared: bool) -> f64 {
    let size = ((top + 100.0) / TALL).max(wide / WIDE);
    size * if is_compared { COMPARED } else { 1.0 }
}

/// What a machine takes with its texts beside it, and its width below the ground.
pub fn level((left, right): (f64, f64), top: f64, size: f64) -> Bounds {
    let margin = 9.0 * size;
    (left - margin, right + margin, -2.0 * size, top + size)
}

/// What is shown on a slope: as much as on level ground, and from there on so much more, the nearer the slope is to where
/// the machine tips, that nothing of it leaves the figure when it goes over.
pub fn tilted(
    level: Bounds,
    outline: &[(f64, f64)],
    edge: f64,
    tilt: f64,
    tips_at: Option<Angle>,
) -> Bounds {
    let near = tips_at.map_or(0.0, |angle| {
        (tilt.abs() / angle.get::<degree>().max(0.5)).min(1.0)
    });
    let around = |turned: f64| {
        (outline.iter())
            .map(|place| turn(*place, edge, turned))
            .fold(level, holding)
    };
    let (standing, fallen) = (around(tilt), around(tilt + FALLEN * tilt.signum()));
    let between = |from: f64, to: f64| from + near * (to - from);
    (
        between(level.0, fallen.0).min(standing.0),
        between(level.1, fallen.1).max(standing.1),
        between(level.2, fallen.2).min(standing.2),
        between(level.3, fallen.3).max(standing.3),
    )
}

/// How many times as large as another one a figure is.
pub fn growth(from: Bounds, to: Bounds) -> f64 {
    let across = (to.1 - to.0) / (from.1 - from.0);
    let upright = (to.3 - to.2) / (from.3 - from.2);
    across.max(upright)
}

/// The bounds with this place in them.
pub fn holding(bounds: Bounds, (x, up): (f64, f64)) -> Bounds {
    (
        bounds.0.min(x),
        bounds.1.max(x),
        bounds.2.min(up),
        bounds.3.max(up),
    )
}

/// Where a place comes to when it is turned about an edge on the ground by so many degrees, to the right if positive.
pub fn turn((x, up): (f64, f64), edge: f64, degrees: f64) -> (f64, f64) {
    let (sin, cos) = degrees.to_radians().sin_cos();
    let across = x - edge;
    (edge + across * cos + up * sin, up * cos - across * sin)
}

/// Leftmost, rightmost, lowest and highest point of each solid, mm.
fn sides(machine: &Machine, view: View) -> impl Iterator<Item = Bounds> {
    machine
        .solids
        .iter()
        .map(move |solid| match solid.envelope {
            Envelope::Round(round) => {
                let axis = mm(match view {
                    View::Front => round.x,
                    View::Side => round.y,
                });
                let radius = mm(round.outer_bottom).max(mm(round.outer_top));
                let (bottom, top) = (mm(round.bottom), mm(round.top));
                (axis - radius, axis + radius, bottom, top)
            }
            Envelope::Box(sides) => {
                let (left, right) = match view {
                    View::Front => (sides.left, sides.right),
                    View::Side => (sides.front, sides.back),
                };
                (mm(left), mm(right), mm(sides.bottom), mm(sides.top))
            }
        })
}

/// Leftmost and rightmost point of all solids, mm.
pub fn extent(machine: &Machine, view: View) -> (f64, f64) {
    sides(machine, view)
        .map(|(left, right, ..)| (left, right))
        .reduce(|known, more| widest(Some(known), more))
        .unwrap_or((-300.0, 300.0))
}

/// The reach of both, mm.
pub fn widest(other: Option<(f64, f64)>, own: (f64, f64)) -> (f64, f64) {
    other.map_or(own, |other| (own.0.min(other.0), own.1.max(other.1)))
}

/// The corners of all solids with some room around them, and the outsides of wheels this large that stand here, mm.
pub fn outline(
    machine: &Machine,
    view: View,
    stands: Option<(f64, f64)>,
    wheel: f64,
    room: f64,
) -> Vec<(f64, f64)> {
    let corners = sides(machine, view).flat_map(|(left, right, bottom, top)| {
        let (left, right) = (left - room, right + room);
        let (bottom, top) = (bottom - room, top + room);
        [(left, bottom), (right, bottom), (left, top), (right, top)]
    });
    let half = 0.5 * wheel;
    let wheels = stands
        .into_iter()
        .flat_map(|(left, right)| [(left - half, half), (right + half, half)]);
    corners.chain(wheels).collect()
}

/// The hearth with its walls and what hangs on them, without any texts.
pub fn hearth(machine: &Machine, view: View) -> Bounds {
    let vessel = &machine.vessel;
    let axis = mm(match view {
        View::Front => vessel.x,
        View::Side => vessel.y,
    });
    let reach = 1.25 * mm(vessel.hearth_outer_radius);
    let (bottom, top) = (mm(vessel.underside), mm(vessel.hearth_top));
    let more = 0.06 * (top - bottom);
    (axis - reach, axis + reach, bottom - more, top + more)
}
