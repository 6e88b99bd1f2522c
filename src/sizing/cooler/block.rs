//! What do tubes that stand close together take from each other?
//!
//! A tube in the middle of a block sees other tubes as warm as itself, so that heat is radiated off by the outside of
//! the block alone. Air that rises between upright tubes is held up by them: in the cell of each, an annulus whose outer
//! edge lets it slip, it flows as J. Happel found (AIChE Journal 5, 1959, 174; from memory).

use crate::design::inputs::{CoolerType, TrainStage};
use crate::physics::convection::Rising;
use crate::physics::error::{PhysicsError, within};
use std::f64::consts::PI;
use uom::si::f64::{Length, Ratio};
use uom::si::ratio::ratio;

/// How tubes stand to each other: in rows as long as they need to be, square across.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TubeBlock {
    /// Rows one behind the other, 1 to 200; 1 for tubes side by side in one plane.
    pub rows: u32,
    /// From middle to middle, up to 2 m. Tubes that have no room at that are taken to touch.
    pub spacing: Length,
}

/// How far apart tubes stand where nothing is entered, in outside diameters. Common practice, no source.
const USUAL_SPACING: f64 = 1.5;

/// What a block leaves to its tubes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Room {
    /// Share of the outsides that faces the surroundings rather than other tubes.
    pub seen: f64,
    /// Air between the tubes that have others on all sides.
    pub rising: Rising,
}

impl Room {
    /// A tube that stands alone.
    pub const FREE: Room = Room {
        seen: 1.0,
        rising: Rising {
            share: 0.0,
            passage: f64::INFINITY,
        },
    };
}

impl TubeBlock {
    /// How the tubes of a cooler stand.
    ///
    /// ```
    /// use hearthplan::design::inputs::TrainStage;
    /// use hearthplan::sizing::cooler::TubeBlock;
    /// let stage = TrainStage::default();
    /// assert_eq!(TubeBlock::of(&stage).spacing, 1.5 * (stage.tube_bore + 2.0 * stage.tube_wall));
    /// ```
    pub fn of(stage: &TrainStage) -> Self {
        Self {
            rows: stage.tube_rows,
            spacing: (stage.tube_spacing).unwrap_or(USUAL_SPACING * across(stage)),
        }
    }

    /// Air between two tubes, or their fins; negative where they do not fit.
    pub fn gap(&self, stage: &TrainStage) -> Length {
        self.spacing - across(stage)
    }

    /// Width and depth of so many tubes that stand so, in m.
    pub(crate) fn size(&self, tubes: u32) -> [f64; 2] {
        let columns = tubes.div_ceil(self.rows.max(1));
        [columns, self.rows.min(tubes)].map(|count| self.spacing.value * f64::from(count))
    }

    /// The room of `tubes` of this outside diameter in m, that of the fins where there are any.
    pub(crate) fn room(&self, tubes: f64, diameter: f64) -> Result<Room, PhysicsError> {
        if tubes < 2.0 {
            return Ok(Room::FREE);
        }
        let rows = within("rows of cooler tubes", "", f64::from(self.rows), 1.0, 200.0)?.min(tubes);
        let spacing = self.spacing.value;
        let spacing = within("spacing of the cooler tubes", "m", spacing, 0.0, 2.0)?.max(diameter);
        let columns = tubes / rows;
        let girth = 2.0 * (rows + columns) * spacing;
        let inner = (rows - 2.0).max(0.0) * (columns - 2.0).max(0.0);
        Ok(Room {
            seen: (girth / (tubes * PI * diameter)).min(1.0),
            rising: Rising {
                share: inner / tubes,
                passage: passage(0.5 * diameter, spacing / PI.sqrt()),
            },
        })
    }
}

/// The share of the outsides of a cooler's tubes that faces the surroundings, in place of other tubes; none for rows and
/// spacings out of range.
///
/// ```
/// use hearthplan::design::inputs::TrainStage;
/// use hearthplan::sizing::cooler::share_in_sight;
/// let block = TrainStage { tubes: 64, tube_rows: 8, ..TrainStage::default() };
/// // Girth of the block over that of all tubes.
/// let share = 4.0 * 8.0 * 1.5 / (64.0 * std::f64::consts::PI);
/// assert!((share_in_sight(&block).unwrap().value - share).abs() < 1e-12);
/// ```
pub fn share_in_sight(stage: &TrainStage) -> Option<Ratio> {
    let block = TubeBlock::of(stage);
    let room = block
        .room(f64::from(stage.tubes), across(stage).value)
        .ok()?;
    Some(Ratio::new::<ratio>(room.seen))
}

/// Outside diameter of a tube, or of its fins.
fn across(stage: &TrainStage) -> Length {
    match stage.cooling {
        CoolerType::Finned | CoolerType::FinnedFan => stage.fin_diameter,
        CoolerType::Bare | CoolerType::Fan | CoolerType::Water => {
            stage.tube_bore + 2.0 * stage.tube_wall
        }
    }
}

/// How easily air rises along a cylinder of radius `a` in a cell of radius `b`: permeability times free section over
/// wetted girth, m³.
fn passage(a: f64, b: f64) -> f64 {
    let (a2, b2) = (a * a, b * b);
    let free = b2 - a2;
    let flow = 2.0 * b2 * b2 * (b / a).ln() - b2 * free - 0.5 * free * free;
    (flow / (8.0 * a)).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::passage;

    /// Far from a flat wall of the same girth the cell is a slot, in which half of the gap cubed over three flows.
    #[test]
    fn a_narrow_cell_is_a_slot() {
        let (a, gap) = (1.0, 1e-3);
        let slot = gap * gap * gap / 3.0;
        assert!((passage(a, a + gap) / slot - 1.0).abs() < 2e-3);
    }
}
