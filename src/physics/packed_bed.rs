//! Pressure lost through a bed of pieces: fuel, char, filter packing.
//!
//! Ergun, "Fluid flow through packed columns", Chemical Engineering Progress 48 (1952) 89. Made for spheres of one
//! size; for other pieces use the diameter of the sphere with the same surface per volume.

use super::error::{PhysicsError, within};

/// Bed of pieces.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bed {
    /// Diameter of the pieces, m, 1e-5 to 0.5.
    pub piece_diameter: f64,
    /// Share of the volume that is empty, 0.05 to 0.99.
    pub voidage: f64,
    /// Depth along the flow, m, 0 to 50.
    pub depth: f64,
}

/// Gas between the pieces.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BedGas {
    /// Density, kg/m³, 0.01 to 2000.
    pub density: f64,
    /// Dynamic viscosity, Pa·s, 1e-6 to 1.
    pub viscosity: f64,
}

/// Loss = `viscous` × velocity + `inertial` × velocity².
struct Resistance {
    viscous: f64,
    inertial: f64,
}

/// Pressure lost, Pa, at `velocity` in m/s through the empty cross-section, 0 to 100.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] naming the value at fault.
///
/// ```
/// use hearthplan::physics::packed_bed::{pressure_loss, Bed, BedGas};
/// let bed = Bed { piece_diameter: 0.003, voidage: 0.38, depth: 0.1 };
/// let air = BedGas { density: 1.204575182, viscosity: 1.820567518e-5 };
/// assert!((pressure_loss(&bed, &air, 0.1)? - 29.1958).abs() < 0.001);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn pressure_loss(bed: &Bed, gas: &BedGas, velocity: f64) -> Result<f64, PhysicsError> {
    let resistance = resistance(bed, gas)?;
    let velocity = within("velocity in the empty bed", "m/s", velocity, 0.0, 100.0)?;
    Ok(velocity * (resistance.viscous + velocity * resistance.inertial))
}

/// Velocity, m/s, through the empty cross-section that `loss` in Pa drives, 0 to 1e6. The inverse, exact.
///
/// # Errors
/// [`PhysicsError`] for a value out of range, or a bed of no depth.
///
/// ```
/// use hearthplan::physics::packed_bed::{velocity_for, Bed, BedGas};
/// let bed = Bed { piece_diameter: 0.003, voidage: 0.38, depth: 0.1 };
/// let air = BedGas { density: 1.204575182, viscosity: 1.820567518e-5 };
/// assert!((velocity_for(&bed, &air, 29.1958)? - 0.1).abs() < 1e-5);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn velocity_for(bed: &Bed, gas: &BedGas, loss: f64) -> Result<f64, PhysicsError> {
    let resistance = resistance(bed, gas)?;
    let loss = within("pressure loss", "Pa", loss, 0.0, 1e6)?;
    if resistance.viscous <= 0.0 {
        return Err(PhysicsError::Impossible {
            quantity: "velocity in the empty bed",
            reason: "a bed of no depth does not limit it",
        });
    }
    let root = (resistance.viscous * resistance.viscous + 4.0 * resistance.inertial * loss).sqrt();
    Ok(2.0 * loss / (resistance.viscous + root))
}

fn resistance(bed: &Bed, gas: &BedGas) -> Result<Resistance, PhysicsError> {
    let diameter = within("diameter of the pieces", "m", bed.piece_diameter, 1e-5, 0.5)?;
    let voidage = within("voidage of the bed", "", bed.voidage, 0.05, 0.99)?;
    let depth = within("depth of the bed", "m", bed.depth, 0.0, 50.0)?;
    let density = within("density", "kg/m³", gas.density, 0.01, 2000.0)?;
    let viscosity = within("viscosity", "Pa·s", gas.viscosity, 1e-6, 1.0)?;
    let solid = 1.0 - voidage;
    let open = voidage * voidage * voidage;
    Ok(Resistance {
        viscous: 150.0 * viscosity * solid * solid / (open * diameter * diameter) * depth,
        inertial: 1.75 * density * solid / (open * diameter) * depth,
    })
}
