//! Flanges, bolts and gaskets: their mass in the middle of the sub-assembly they belong to.

use super::{Envelope, Piece, Solid, Spread, Substance};
use crate::design::Design;
use crate::design::inputs::{Group, Material, Presence};
use crate::sizing::fasteners;
use crate::sizing::weight::{Moments, Weight};
use uom::si::f64::Mass;

/// The group of every flange that a person drills.
const OF_FLANGES: Group = Group::Reactor;

/// What every joint and flange weighs, with the sub-assembly it belongs to: entered by hand, or else
/// computed.
pub(in crate::sizing) fn masses(design: &Design) -> Vec<(Piece, Group, Mass)> {
    let mut masses = Vec::with_capacity(design.flanges.len() + 2 * design.joints.len());
    for (index, flange) in design.flanges.iter().enumerate() {
        let mass = (flange.weighed).unwrap_or_else(|| fasteners::flange(design, flange));
        masses.push((Piece::Flange(index), OF_FLANGES, mass));
    }
    for (index, joint) in design.joints.iter().enumerate() {
        if let Some(computed) = fasteners::bolts(design, joint) {
            let mass = joint.weighed.unwrap_or(computed);
            masses.push((Piece::Bolts(index), joint.first, mass));
        }
        if let Some(mass) = fasteners::gasket(design, joint) {
            masses.push((Piece::Gasket(index), joint.first, mass));
        }
    }
    masses
}

/// Puts them in the middle of their sub-assemblies.
pub(super) fn place(design: &Design, solids: &[Solid]) -> Vec<Solid> {
    let mut middles: Vec<(Group, Weight)> = Vec::new();
    let mut held = Vec::new();
    for (piece, group, mass) in masses(design) {
        let middle = match middles.iter().find(|(known, _)| *known == group) {
            Some((_, middle)) => *middle,
            None => {
                let middle = middle_of(group, solids);
                middles.push((group, middle));
                middle
            }
        };
        if middle.mass.value > 0.0 {
            held.push(solid(design, piece, group, mass, &middle));
        }
    }
    held
}

fn middle_of(group: Group, solids: &[Solid]) -> Weight {
    let mut moments = Moments::default();
    (solids.iter())
        .filter(|solid| solid.group == group && solid.presence != Presence::WhenFull)
        .for_each(|solid| moments.add(solid));
    moments.weight()
}

fn solid(design: &Design, piece: Piece, group: Group, mass: Mass, middle: &Weight) -> Solid {
    let centre = middle.centre;
    let substance = match piece {
        Piece::Flange(index) => (design.flanges.get(index)).map_or(Substance::Unknown, |flange| {
            Substance::Material(flange.material)
        }),
        Piece::Bolts(_) => Substance::Material(Material::MildSteel),
        _ => Substance::Unknown,
    };
    Solid {
        piece,
        group,
        substance,
        presence: match group {
            Group::Hopper => Presence::WithHopper,
            _ => Presence::Always,
        },
        mass,
        centre,
        spread: Spread {
            x: middle.spread_x,
            y: middle.spread_y,
            z: middle.spread_z,
        },
        envelope: Envelope::of_box(
            centre.x.value,
            centre.y.value,
            centre.z.value,
            (0.0, 0.0, 0.0),
        ),
    }
}
