//! Does the wind blow it over? Drag on hopper, vessel and other parts against its weight.
//!
//! Drag = coefficient × ½ × air density × speed² × area seen; for round pieces the coefficient
//! entered for the hopper, for boxes 1.2 (Hoerner, Fluid-Dynamic Drag, from memory). Each piece is
//! taken as standing free: shelter behind another one is left out, which is on the safe side. The
//! frame's thin tubes are left out too. What anchors at its feet hold is added to its weight; guys are not reckoned.

use super::footprint::{ContactPoint, Edge, contact_points};
use super::machine::{Envelope, Machine, Piece, Solid};
use super::tipping::Lever;
use super::weight::{State, Weight};
use crate::design::Design;
use crate::design::inputs::Presence;
use crate::physics::air::{self, Air, GRAVITY};
use uom::si::f64::{Area, Energy, Force, Length, MassDensity, Velocity};

/// Drag coefficient of a box (Hoerner, Fluid-Dynamic Drag, from memory).
const BOX_DRAG: f64 = 1.2;

/// Moment that should hold it, over the moment of the wind. Our own mark.
pub const RESERVE: f64 = 1.5;

/// Wind on the machine, across one edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WindLoad {
    /// Drag at the strongest wind.
    pub force: Force,
    /// Height at which it acts.
    pub height: Length,
    /// Density of the air.
    pub density: MassDensity,
    /// Sum of drag coefficient times area seen.
    pub drag_area: Area,
    /// Level distance of the centre of gravity inside the edge.
    pub distance: Length,
    /// Turning moment about the edge, N·m.
    pub overturning: Energy,
    /// Level distance from the edge to the feet furthest from it, where its anchors hold.
    pub reach: Length,
    /// Moment of weight and anchors about the edge, N·m, on the ground as it slopes; 0 when it falls by itself.
    pub restoring: Energy,
    /// Wind speed that blows it over; none when the machine shows no area to the wind.
    pub tip_speed: Option<Velocity>,
}

/// The strongest wind of the site, blowing across an edge, on the machine in one state with its
/// weight in that state.
///
/// ```
/// use hearthplan::design::Design;
/// use hearthplan::sizing::{footprint, machine, weight, wind};
/// let design = Design::default();
/// let machine = machine::layout(&design);
/// let edge = footprint::footprint(&design).edges[0];
/// let empty = weight::weigh(&machine).empty;
/// let load = wind::wind(&design, &machine, &edge, weight::State::Empty, &empty);
/// assert!(load.overturning.value > 0.0);
/// ```
pub fn wind(
    design: &Design,
    machine: &Machine,
    edge: &Edge,
    state: State,
    weight: &Weight,
) -> WindLoad {
    let distance = edge.distance_inside(weight.centre.x, weight.centre.y);
    let density = Air::at(
        design.site.air_temperature.value,
        air::pressure_at_altitude(design.site.altitude.value),
    )
    .density;
    let speed = design.site.storm_wind.value;
    let outwards = edge.outwards();
    let vessel = &machine.vessel;
    let round = design.hopper.drag;
    // Sums of coefficient × area, and of that × height.
    let mut sail = [0.0, 0.0];
    let mut catch = |drag_area: f64, height: f64| {
        sail[0] += drag_area;
        sail[1] += drag_area * height;
    };
    let bands = [
        (
            vessel.underside,
            vessel.hearth_top,
            vessel.hearth_outer_radius,
        ),
        (vessel.hearth_top, vessel.lid_top, vessel.body_outer_radius),
    ];
    for (bottom, top, radius) in bands {
        let area = 2.0 * radius.value * (top - bottom).value;
        catch(round * area, 0.5 * (bottom + top).value);
    }
    for solid in &machine.solids {
        let caught = match solid.piece {
            Piece::OfSection { section, .. } => section == "hopper",
            Piece::Part(_) => !hidden(machine, solid),
            _ => false,
        };
        if !caught || solid.presence == Presence::WhenFull || !state.counts(solid.presence) {
            continue;
        }
        let (bottom, top) = (solid.envelope.bottom().value, solid.envelope.top().value);
        let area = solid.envelope.width_seen_along(outwards).value * (top - bottom);
        let drag = match solid.envelope {
            Envelope::Round(_) => round,
            Envelope::Box(_) => BOX_DRAG,
        };
        catch(drag * area, 0.5 * (bottom + top));
    }
    let [sail, sail_height] = sail;
    let pressure = 0.5 * density * speed * speed;
    let joule = Energy::new::<uom::si::energy::joule>;
    let lever = Lever {
        distance: distance.value,
        height: weight.centre.z.value,
        weight: weight.mass.value * GRAVITY,
        slope: design.base.slope.value,
    };
    let reach = reach(edge, &contact_points(design));
    let restoring = restoring(lever, design.base.anchors, reach);
    WindLoad {
        force: Force::new::<uom::si::force::newton>(pressure * sail),
        height: Length::new::<uom::si::length::meter>(if sail > 0.0 {
            sail_height / sail
        } else {
            0.0
        }),
        density: MassDensity::new::<uom::si::mass_density::kilogram_per_cubic_meter>(density),
        drag_area: Area::new::<uom::si::area::square_meter>(sail),
        distance,
        overturning: joule(pressure * sail_height),
        reach,
        restoring: joule(restoring),
        tip_speed: (density * sail_height > 0.0).then(|| {
            Velocity::new::<uom::si::velocity::meter_per_second>(
                (2.0 * restoring / (density * sail_height)).sqrt(),
            )
        }),
    }
}

/// How far the feet furthest from an edge stand from it; nothing where none does.
fn reach(edge: &Edge, points: &[ContactPoint]) -> Length {
    (points.iter())
        .map(|point| edge.distance_inside(point.x, point.y))
        .fold(Length::default(), Length::max)
}

/// Moment of the weight about an edge, and of the anchors that hold the feet at the other side down, N·m. What would fall by
/// itself hangs on its anchors: that counts as nothing.
pub(super) fn restoring(lever: Lever, anchors: Force, reach: Length) -> f64 {
    match lever.arm() {
        arm if arm > 0.0 => lever.weight * arm + (anchors * reach).value,
        _ => 0.0,
    }
}

/// Whether a part lies inside the vessel or hopper, out of the wind.
fn hidden(machine: &Machine, solid: &Solid) -> bool {
    let vessel = &machine.vessel;
    let (bottom, top) = (solid.envelope.bottom(), solid.envelope.top());
    let reach = match solid.envelope {
        Envelope::Round(round) => round.outer_bottom.max(round.outer_top),
        Envelope::Box(sides) => 0.5 * (sides.right - sides.left).max(sides.back - sides.front),
    };
    let away = (solid.centre.x - vessel.x)
        .value
        .hypot((solid.centre.y - vessel.y).value);
    let shell = vessel.hearth_outer_radius.min(vessel.body_outer_radius);
    bottom >= vessel.underside && top <= vessel.lid_top && away + reach.value <= shell.value
}
