//! How wide is each stage of the gas train where the gas comes in and where it leaves, and what does a step between two
//! bores cost?

use super::train_mass::built;
use crate::design::inputs::{StageKind, TrainStage};
use std::f64::consts::PI;
use uom::si::f64::Length;

/// Bores that differ by less than this share of the wider are joined without a reducer: walls of pipes differ by as much.
/// Common practice, no source.
pub const ALIKE: f64 = 0.9;

/// Diameter of the round bore where the gas comes in; of a cyclone, of the round bore with the area of its slot. None where
/// the gas comes into a wide vessel or box, whose connections no input tells.
///
/// ```
/// use hearthplan::design::inputs::{StageKind, TrainStage};
/// use hearthplan::sizing::stage_bores::inlet;
/// // A slot of 50 mm by 25 mm: 2 √(1250/π).
/// let cyclone = TrainStage { kind: StageKind::Cyclone, ..TrainStage::default() };
/// assert!((inlet(&cyclone).unwrap().value - 0.039_894).abs() < 1e-6);
/// ```
pub fn inlet(stage: &TrainStage) -> Option<Length> {
    match stage.kind {
        StageKind::Cyclone => {
            let sizes = built(stage).dimensions();
            Some(2.0 * (sizes.inlet_height * sizes.inlet_width / PI).sqrt())
        }
        _ => outlet(stage),
    }
}

/// Diameter of the round bore where the gas leaves. None where it leaves a wide vessel or box, whose connections no input
/// tells.
///
/// ```
/// use hearthplan::design::inputs::{StageKind, TrainStage};
/// use hearthplan::sizing::stage_bores::outlet;
/// let pipe = TrainStage::default();
/// assert_eq!(outlet(&pipe), Some(pipe.bore));
/// let filter = TrainStage { kind: StageKind::Filter, ..TrainStage::default() };
/// assert_eq!(outlet(&filter), None);
/// ```
pub fn outlet(stage: &TrainStage) -> Option<Length> {
    match stage.kind {
        StageKind::Cyclone => Some(built(stage).dimensions().outlet_diameter),
        _ => stage.has_bore().then_some(stage.bore),
    }
}

/// Loss coefficient of a sudden step, on the velocity in the narrower bore: half of the area that is lost where it narrows,
/// the square of it where it widens.
///
/// Source: Borda and Carnot for the widening; Idelchik, Handbook of Hydraulic Resistance, for the narrowing, from memory.
/// Others measured up to 0.12 more where it narrows.
///
/// ```
/// use hearthplan::sizing::stage_bores::step_loss;
/// use uom::si::{f64::Length, length::millimeter};
/// let [narrow, wide] = [25.0, 50.0].map(Length::new::<millimeter>);
/// // Half as wide is a quarter of the area.
/// assert!((step_loss(wide, narrow) - 0.375).abs() < 1e-12);
/// assert!((step_loss(narrow, wide) - 0.5625).abs() < 1e-12);
/// assert_eq!(step_loss(wide, wide), 0.0);
/// ```
pub fn step_loss(before: Length, behind: Length) -> f64 {
    let area = (before.min(behind) / before.max(behind)).value.powi(2);
    match behind < before {
        true => 0.5 * (1.0 - area),
        false => (1.0 - area).powi(2),
    }
}
