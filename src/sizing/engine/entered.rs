//! The engine as a design has it.

use super::{Cycle, Engine, EngineError, Intake, usual_brake_efficiency};
use crate::design::Design;
use crate::design::inputs::Strokes;
use uom::si::angular_velocity::revolution_per_minute;
use uom::si::f64::{AngularVelocity, Ratio};
use uom::si::ratio::ratio;

/// The engine of a design at full throttle; its efficiency from the compression ratio when none was entered.
///
/// # Errors
/// [`EngineError::OutOfRange`] for a compression ratio out of range.
///
/// ```
/// use hearthplan::{design::Design, sizing::engine::engine_of};
/// let engine = engine_of(&Design::default()).unwrap();
/// assert!((engine.brake_efficiency.value - 0.24).abs() < 0.01);
/// ```
pub fn engine_of(design: &Design) -> Result<Engine, EngineError> {
    let entered = &design.engine;
    let brake_efficiency = match entered.brake_efficiency {
        Some(efficiency) => efficiency,
        None => usual_brake_efficiency(Ratio::new::<ratio>(entered.compression_ratio))?,
    };
    Ok(Engine {
        cycle: cycle_of(entered.strokes),
        displacement: entered.displacement,
        speed: AngularVelocity::new::<revolution_per_minute>(60.0 * entered.speed.value),
        volumetric_efficiency: entered.volumetric_efficiency,
        brake_efficiency,
        petrol_efficiency: entered.petrol_efficiency,
        generator_efficiency: entered.generator_efficiency,
        load: Ratio::new::<ratio>(1.0),
    })
}

/// How often the cylinders of an engine of so many strokes fill.
pub(crate) fn cycle_of(strokes: Strokes) -> Cycle {
    match strokes {
        Strokes::Four => Cycle::FourStroke,
        Strokes::Two => Cycle::TwoStroke,
    }
}

/// Where the engine of a design stands.
///
/// ```
/// use hearthplan::{design::Design, sizing::engine::intake_of};
/// assert_eq!(intake_of(&Design::default()).altitude.value, 0.0);
/// ```
pub fn intake_of(design: &Design) -> Intake {
    Intake {
        altitude: design.site.altitude,
        temperature: design.engine.intake_temperature,
    }
}
