//! How much room does the machine take, with everything that sticks out of its base?
//!
//! From the outermost left to the outermost right, and so from front to back, of all that is laid out: frame, wheels,
//! vessel, hopper and other parts. Pipes and hoses between the parts have no place in a design and are left out.

use super::footprint::contact_points;
use super::machine::{Envelope, Machine, Piece};
use crate::design::Design;
use crate::design::inputs::{ContactKind, Presence};
use uom::si::f64::Length;
use uom::si::length::meter;

/// Breadth of a wheel over its diameter: as broad as its hub in the weights. Our own estimate.
pub const WHEEL_BREADTH: f64 = 0.25;

/// What reaches furthest to a side.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outermost {
    /// A solid of the machine.
    Solid(Piece),
    /// The wheel at the contact point of this number, counted from zero.
    Wheel(usize),
}

impl Outermost {
    /// What it is, as shown to a person.
    pub fn label(self, design: &Design) -> String {
        match self {
            Outermost::Solid(piece) => piece.label(design),
            Outermost::Wheel(_) => "Wheel".to_string(),
        }
    }
}

/// From where to where a machine reaches, from the middle of the base.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Overall {
    /// Outermost to the left, x.
    pub left: Length,
    /// Outermost to the right, x.
    pub right: Length,
    /// Outermost to the front, y.
    pub front: Length,
    /// Outermost to the back, y.
    pub back: Length,
    /// What that is, in the same order; of what reaches as far, the first.
    pub by: [Outermost; 4],
}

impl Overall {
    /// From left to right.
    pub fn width(&self) -> Length {
        self.right - self.left
    }

    /// From front to back.
    pub fn depth(&self) -> Length {
        self.back - self.front
    }

    /// This reaches so far as well, each side in m.
    fn with(known: Option<Self>, (what, sides): (Outermost, [f64; 4])) -> Option<Self> {
        if sides.iter().any(|side| !side.is_finite()) {
            return known;
        }
        let [left, right, front, back] = sides.map(Length::new::<meter>);
        let Some(mut reaches) = known else {
            return Some(Self {
                left,
                right,
                front,
                back,
                by: [what; 4],
            });
        };
        // Outwards is less to the left and to the front, more to the right and to the back.
        let further = |side: &mut Length, by: &mut Outermost, its: Length, outwards: f64| {
            if outwards * (its - *side).value > 0.0 {
                (*side, *by) = (its, what);
            }
        };
        let [by_left, by_right, by_front, by_back] = &mut reaches.by;
        further(&mut reaches.left, by_left, left, -1.0);
        further(&mut reaches.right, by_right, right, 1.0);
        further(&mut reaches.front, by_front, front, -1.0);
        further(&mut reaches.back, by_back, back, 1.0);
        Some(reaches)
    }
}

/// How far a machine reaches that was laid out from this design, as it stands ready to run; none where nothing has a place.
/// Castors count wherever they can swing.
///
/// ```
/// use hearthplan::{design::Design, sizing::{machine::layout, overall::overall}};
/// let design = Design::default();
/// let reaches = overall(&design, &layout(&design)).unwrap();
/// assert!(reaches.width() >= design.base.width + design.base.frame_side);
/// ```
pub fn overall(design: &Design, machine: &Machine) -> Option<Overall> {
    let solids = (machine.solids.iter())
        .filter(|solid| design.hopper.fitted || solid.presence != Presence::WithHopper)
        .map(|solid| (Outermost::Solid(solid.piece), sides(&solid.envelope)));
    let base = &design.base;
    let wheel = base.wheel_diameter.value;
    let [across, along] = if base.on_castors() {
        [base.castor_trail.value + 0.5 * wheel; 2]
    } else {
        [0.5 * WHEEL_BREADTH * wheel, 0.5 * wheel]
    };
    let wheels = contact_points(design)
        .into_iter()
        .filter(|point| point.kind == ContactKind::Wheel)
        .map(|point| {
            let (x, y) = (point.x.value, point.y.value);
            let sides = [x - across, x + across, y - along, y + along];
            (Outermost::Wheel(point.index), sides)
        });
    solids.chain(wheels).fold(None, Overall::with)
}

/// Left, right, front and back of an outline, m.
fn sides(envelope: &Envelope) -> [f64; 4] {
    match envelope {
        Envelope::Round(round) => {
            let (x, y) = (round.x.value, round.y.value);
            let radius = round.outer_bottom.max(round.outer_top).value;
            [x - radius, x + radius, y - radius, y + radius]
        }
        Envelope::Box(sides) => {
            [sides.left, sides.right, sides.front, sides.back].map(|side| side.value)
        }
    }
}
