//! Gas through a nozzle or a hole from still surroundings.
//!
//! Bernoulli with a discharge coefficient: Δp = ρ/2 (v / C)², v the volume flow over the bore area. The gas is taken as
//! incompressible (good to about 5 kPa) and at rest before the hole. Discharge coefficient about 0.61 for a sharp
//! edge, 0.8 to 0.9 for a rounded nozzle (common practice, no source).

use std::f64::consts::PI;

use super::error::{PhysicsError, within};

/// Loss of a plate with sharp-edged holes across a channel, in heads `ρ v²/2` of the velocity `v` before it. `open_share` is
/// the area of its holes over that of the channel, 0.001 to 1. Idelchik, Handbook of Hydraulic Resistance, thin plates at
/// high Reynolds numbers, from memory: `ζ = (1 − f + 0.707 (1 − f)^0.375)² / f²`. Within a fifth of the values
/// that Blevins gives, up to 0.8.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] naming the value at fault.
///
/// ```
/// use hearthplan::physics::orifice::plate_loss;
/// assert_eq!(plate_loss(1.0)?, 0.0);
/// assert!((plate_loss(0.1)? - 249.52).abs() < 0.01);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn plate_loss(open_share: f64) -> Result<f64, PhysicsError> {
    let open = within("open share of the plate", "", open_share, 0.001, 1.0)?;
    let closed = 1.0 - open;
    let heads = (closed + 0.707 * closed.powf(0.375)) / open;
    Ok(heads * heads)
}

/// A number of equal round nozzles side by side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nozzles {
    /// How many, 1 to 1000.
    pub count: u32,
    /// Bore of each, m, 1e-4 to 1.
    pub bore: f64,
    /// Discharge coefficient, 0.3 to 1.
    pub discharge_coefficient: f64,
}

/// State of the flow through nozzles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NozzleFlow {
    /// Volume flow through all of them, m³/s.
    pub volume_flow: f64,
    /// Volume flow over bore area, m/s.
    pub velocity: f64,
    /// Pressure drop, Pa.
    pub pressure_drop: f64,
}

impl Nozzles {
    /// Area of all bores, m².
    pub fn area(&self) -> f64 {
        f64::from(self.count) * 0.25 * PI * self.bore * self.bore
    }

    /// Pressure drop for `volume_flow` in m³/s (0 to 100) of gas of `density` in kg/m³ (0.01 to 100).
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`] naming the value at fault.
    ///
    /// ```
    /// use hearthplan::physics::orifice::Nozzles;
    /// let nozzles = Nozzles { count: 5, bore: 0.012, discharge_coefficient: 0.85 };
    /// let found = nozzles.passing(0.0147, 1.2)?;
    /// assert!((found.velocity - 26.0).abs() < 0.05);
    /// assert!((found.pressure_drop - 561.0).abs() < 2.0);
    /// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
    /// ```
    pub fn passing(&self, volume_flow: f64, density: f64) -> Result<NozzleFlow, PhysicsError> {
        self.check(density)?;
        let volume_flow = within("volume flow", "m³/s", volume_flow, 0.0, 100.0)?;
        let velocity = volume_flow / self.area();
        let ideal = velocity / self.discharge_coefficient;
        Ok(NozzleFlow {
            volume_flow,
            velocity,
            pressure_drop: 0.5 * density * ideal * ideal,
        })
    }

    /// Flow that a `pressure_drop` in Pa (0 to 1e5) drives through. The inverse.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`] naming the value at fault.
    ///
    /// ```
    /// use hearthplan::physics::orifice::Nozzles;
    /// let nozzles = Nozzles { count: 1, bore: 0.01, discharge_coefficient: 0.61 };
    /// let found = nozzles.driven_by(100.0, 1.2)?;
    /// assert!((nozzles.passing(found.volume_flow, 1.2)?.pressure_drop - 100.0).abs() < 1e-9);
    /// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
    /// ```
    pub fn driven_by(&self, pressure_drop: f64, density: f64) -> Result<NozzleFlow, PhysicsError> {
        self.check(density)?;
        let pressure_drop = within("pressure drop", "Pa", pressure_drop, 0.0, 1e5)?;
        let velocity = self.discharge_coefficient * (2.0 * pressure_drop / density).sqrt();
        Ok(NozzleFlow {
            volume_flow: velocity * self.area(),
            velocity,
            pressure_drop,
        })
    }

    fn check(&self, density: f64) -> Result<(), PhysicsError> {
        within("number of nozzles", "", f64::from(self.count), 1.0, 1000.0)?;
        within("bore of a nozzle", "m", self.bore, 1e-4, 1.0)?;
        within(
            "discharge coefficient",
            "",
            self.discharge_coefficient,
            0.3,
            1.0,
        )?;
        within("density", "kg/m³", density, 0.01, 100.0)?;
        Ok(())
    }
}
