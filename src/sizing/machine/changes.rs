//! What was weighed by hand takes the place of the computed mass.

use super::Solid;
use crate::design::inputs::{PartChange, Presence};
use crate::design::{Choice as _, Design};
use uom::si::f64::Mass;

/// Gives the solids the masses entered by hand. A piece of several solids, such as the frame, keeps
/// the shares of its solids. Of two entries for one piece the later one counts.
pub(super) fn weigh_in(design: &Design, solids: &mut [Solid]) {
    for change in &design.part_changes {
        if let Some(mass) = change.mass {
            weigh_piece(change, mass, solids);
        }
    }
}

fn weigh_piece(change: &PartChange, mass: Mass, solids: &mut [Solid]) {
    let of_piece = |solid: &Solid| {
        solid.presence != Presence::WhenFull && solid.piece.key() == change.piece.name()
    };
    let (count, computed) = solids
        .iter()
        .filter(|solid| of_piece(solid))
        .fold((0_u32, 0.0), |(count, sum), solid| {
            (count + 1, sum + solid.mass.value)
        });
    for solid in solids.iter_mut().filter(|solid| of_piece(solid)) {
        let share = if computed > 0.0 {
            solid.mass.value / computed
        } else {
            1.0 / f64::from(count)
        };
        solid.mass = mass * share;
    }
}
