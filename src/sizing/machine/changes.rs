//! What was weighed by hand takes the place of the computed mass.

use super::Solid;
use crate::design::inputs::Presence;
use crate::design::{Choice as _, Design};
use uom::si::f64::Mass;
use uom::si::mass::kilogram;

/// Gives the solids the masses entered by hand. A piece of several solids, such as the frame, keeps
/// the shares of its solids. Of two entries for one piece the later one counts.
///
/// Gives back the names of these pieces with the masses that the design alone would give them.
pub(super) fn weigh_in(design: &Design, solids: &mut [Solid]) -> Vec<(&'static str, Mass)> {
    let mut computed: Vec<(&'static str, Mass)> = Vec::new();
    for change in &design.part_changes {
        let name = change.piece.name();
        if let Some(mass) = change.mass
            && let Some(before) = weigh_piece(name, mass, solids)
            && computed.iter().all(|(known, _)| *known != name)
        {
            computed.push((name, before));
        }
    }
    computed
}

/// Gives the solids of a piece a mass; says what they weighed before. None if there are none.
fn weigh_piece(name: &str, mass: Mass, solids: &mut [Solid]) -> Option<Mass> {
    let of_piece =
        |solid: &Solid| solid.presence != Presence::WhenFull && solid.piece.has_key(name);
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
    (count > 0).then(|| Mass::new::<kilogram>(computed))
}
