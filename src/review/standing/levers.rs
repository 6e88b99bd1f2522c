//! What could be changed so that a machine stands better.

use super::Standing;
use crate::design::inputs::{ContactKind, Stance};
use crate::design::{Choice as _, Design, Value};
use crate::review::finding::Lever;
use crate::sizing::ballast::{BALLAST, fields, hanger};
use crate::sizing::footprint::{Edge, Extent};
use crate::sizing::machine::{Piece, layout};
use crate::sizing::tipping::StateTipping;
use crate::sizing::weight::{State, weigh};
use uom::si::f64::Length;

/// An offset of the centre of gravity smaller than this is no cause worth naming, m. Our own mark.
const OFFSET: f64 = 0.005;

/// The section or list that says what the machine stands on.
pub(super) fn where_it_stands(design: &Design) -> &'static str {
    if design.base.stance == Stance::Points {
        "contacts"
    } else {
        "base"
    }
}

/// Levers that widen the footprint across the failing edges, or move the weight away from them.
pub(super) fn footing<'a>(
    design: &Design,
    tipping: &StateTipping,
    failing: impl Iterator<Item = &'a Edge>,
) -> Vec<Lever> {
    let mut levers = Vec::with_capacity(12);
    let (mut sideways, mut lengthways) = (false, false);
    let own = design.base.stance == Stance::Points;
    for edge in failing {
        let (nx, ny) = edge.outwards();
        let across = nx.abs() > ny.abs();
        sideways |= across;
        lengthways |= !across;
        if own {
            let axis = if across { "x" } else { "y" };
            for point in [edge.from, edge.to] {
                let lever = Lever::input(format!("contacts.{}.{axis}", point.index));
                if !levers.contains(&lever) {
                    levers.push(lever);
                }
            }
        }
    }
    let offset = |value: f64| value.abs() > OFFSET;
    let centre = &tipping.weight.centre;
    let offered = [
        (sideways && !own, "base.width"),
        (lengthways && !own, "base.depth"),
        (sideways && offset(centre.x.value), "base.vessel_x"),
        (lengthways && offset(centre.y.value), "base.vessel_y"),
        (
            design.base.swivel && design.base.stance == Stance::FourWheels,
            "base.swivel",
        ),
    ];
    levers.extend(
        (offered.into_iter())
            .filter(|(fits, _)| *fits)
            .map(|(_, path)| Lever::input(path)),
    );
    levers
}

/// What a machine may stand on whose contact points lie in one line, or are too few: a plain base, or one point more, as far
/// beyond the weight as the line is before it.
pub(super) fn on_a_line(standing: &Standing) -> Vec<Lever> {
    let stance = Lever::input("base.stance");
    let Some(extent) = Extent::of(&standing.footprint.points) else {
        return vec![stance];
    };
    let centre = &standing.full.weight.centre;
    let (x, y) = extent.middle();
    let beyond = |centre: Length, line: Length| Value::Number((2.0 * centre - line).value);
    let across = extent.width() >= extent.depth();
    let (solve_for, along, place) = if across {
        ("y", ("x", Value::Number(x.value)), beyond(centre.y, y))
    } else {
        ("x", ("y", Value::Number(y.value)), beyond(centre.x, x))
    };
    let foot = ("kind", Value::Choice(ContactKind::Foot.name().to_string()));
    let point = Lever::NewItem {
        list: "contacts",
        index: standing.footprint.points.len(),
        fields: vec![foot, along, (solve_for, place)],
        solve_for,
    };
    vec![stance, point]
}

/// Levers that lower the centre of gravity in a state.
pub(super) fn lower(design: &Design, standing: &Standing, tipping: &StateTipping) -> Vec<Lever> {
    let mut levers = Vec::with_capacity(6);
    if design.base.clearance.value > 0.0 {
        levers.push(Lever::input("base.clearance"));
    }
    if design.hopper.fitted && tipping.state != State::HopperOff {
        levers.push(Lever::input("hopper.height"));
        if tipping.state == State::Full {
            levers.push(Lever::input("hopper.fill_share"));
        }
    }
    levers.extend(heaviest_high_part(standing, tipping));
    levers.extend(ballast(design));
    levers
}

/// Moves the heaviest part that stands above the centre of gravity.
fn heaviest_high_part(standing: &Standing, tipping: &StateTipping) -> Option<Lever> {
    (standing.machine.solids.iter())
        .filter(|solid| tipping.state.counts(solid.presence))
        .filter(|solid| solid.centre.z > tipping.weight.centre.z)
        .filter_map(|solid| match solid.piece {
            Piece::Part(index) => Some((index, solid.mass.value)),
            _ => None,
        })
        .max_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(index, _)| Lever::input(format!("parts.{index}.z")))
}

/// Dead weight is offered up to this share of the machine without it: whoever bolts on more builds another base for less.
/// Our own mark.
const MOST_BALLAST: f64 = 1.0 / 3.0;

/// The heaviest dead weight that is offered beside what of it is there, kg; none for a lever that adds something else.
pub(in crate::review) fn most_ballast(design: &Design, lever: &Lever) -> Option<f64> {
    let Lever::NewItem {
        list: "parts",
        fields: its,
        solve_for: "mass",
        ..
    } = lever
    else {
        return None;
    };
    if !its.contains(&("name", Value::Text(BALLAST.to_string()))) {
        return None;
    }
    let ballast = design.parts.iter().filter(|part| part.name == BALLAST);
    let there: f64 = ballast
        .map(|part| part.mass.value * f64::from(part.count))
        .sum();
    let machine = weigh(&layout(design)).in_state(State::Empty).mass.value;
    let has_room = hanger(design)?.most();
    Some((MOST_BALLAST * (machine - there) - there).clamp(0.0, has_room))
        .filter(|most| most.is_finite())
}

/// Dead weight that hangs under the bars of the base, where there is room for it.
pub(super) fn ballast(design: &Design) -> Option<Lever> {
    Some(Lever::NewItem {
        list: "parts",
        index: design.parts.len(),
        fields: fields(&hanger(design)?),
        solve_for: "mass",
    })
}
