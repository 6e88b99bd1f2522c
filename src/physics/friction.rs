//! Pressure lost in pipes and fittings.
//!
//! Darcy-Weisbach with Churchill's friction factor; fittings by loss coefficients on the velocity head. The gas is
//! taken as incompressible, which holds while the loss is a few per cent of the absolute pressure.

use std::f64::consts::PI;

use super::cube_root::cube_root;
use super::error::{PhysicsError, within};

/// Reynolds number below which the friction factor is held: nothing flows there.
const SLOWEST: f64 = 1e-3;

/// Flow of a gas or liquid as a pipe sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flow {
    /// Mass flow, kg/s, 0 to 100.
    pub mass_flow: f64,
    /// Density, kg/m³, 0.01 to 2000.
    pub density: f64,
    /// Dynamic viscosity, Pa·s, 1e-6 to 1.
    pub viscosity: f64,
}

impl Flow {
    pub(crate) fn check(&self) -> Result<(), PhysicsError> {
        within("mass flow", "kg/s", self.mass_flow, 0.0, 100.0)?;
        within("density", "kg/m³", self.density, 0.01, 2000.0)?;
        within("viscosity", "Pa·s", self.viscosity, 1e-6, 1.0)?;
        Ok(())
    }
}

/// One run of round pipe with its fittings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pipe {
    /// Inside diameter, m, 0.001 to 5.
    pub diameter: f64,
    /// Length, m, 0 to 1000.
    pub length: f64,
    /// Roughness of the wall, m, 0 to a twentieth of the diameter. Drawn tube 1.5e-6, steel 4.5e-5, rusted 5e-4.
    pub roughness: f64,
    /// Sum of the loss coefficients of all fittings, 0 to 1000.
    pub fittings: f64,
}

/// What a pipe run costs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PipeLoss {
    /// Mean velocity, m/s.
    pub velocity: f64,
    /// Reynolds number on the diameter.
    pub reynolds: f64,
    /// Darcy friction factor.
    pub friction_factor: f64,
    /// Lost along the straight pipe, Pa.
    pub along: f64,
    /// Lost in the fittings, Pa.
    pub in_fittings: f64,
}

impl PipeLoss {
    /// Both losses together, Pa.
    pub fn total(&self) -> f64 {
        self.along + self.in_fittings
    }
}

/// Darcy friction factor for laminar, turbulent and the flow between.
///
/// Churchill, Chemical Engineering 84 (1977) 91. Any Reynolds number, relative roughness 0 to 0.05; a negative roughness
/// counts as zero. The Fanning factor is a quarter of this.
///
/// ```
/// use hearthplan::physics::friction::friction_factor;
/// assert!((friction_factor(1000.0, 0.0) - 0.064).abs() < 1e-5);
/// assert!((friction_factor(1.0e5, 0.0) - 0.0180).abs() < 2e-4);
/// ```
#[cfg_attr(hearthplan_site, optimize(speed))]
pub fn friction_factor(reynolds: f64, relative_roughness: f64) -> f64 {
    let reynolds = if reynolds < SLOWEST {
        SLOWEST
    } else {
        reynolds
    };
    let roughness = if relative_roughness < 0.0 {
        0.0
    } else {
        relative_roughness
    };
    let logarithm = ((7.0 / reynolds).powf(0.9) + 0.27 * roughness).ln();
    let turbulent = (2.457 * logarithm).powi(16);
    let between = (37_530.0 / reynolds).powi(16);
    let both = turbulent + between;
    let twelfth_power = (8.0 / reynolds).powi(12) + 1.0 / (both * both.sqrt());
    8.0 * cube_root(twelfth_power).sqrt().sqrt()
}

/// Pressure lost by `flow` in `pipe`.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] naming the value at fault.
///
/// ```
/// use hearthplan::physics::friction::{pipe_loss, Flow, Pipe};
/// let air = Flow { mass_flow: 0.01, density: 1.2, viscosity: 1.82e-5 };
/// let pipe = Pipe { diameter: 0.05, length: 3.0, roughness: 4.5e-5, fittings: 2.0 };
/// let loss = pipe_loss(&air, &pipe)?;
/// assert!((loss.velocity - 4.24).abs() < 0.01);
/// assert!((loss.in_fittings - 2.0 * 0.5 * 1.2 * loss.velocity.powi(2)).abs() < 1e-9);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn pipe_loss(flow: &Flow, pipe: &Pipe) -> Result<PipeLoss, PhysicsError> {
    flow.check()?;
    let diameter = within("pipe diameter", "m", pipe.diameter, 0.001, 5.0)?;
    let length = within("pipe length", "m", pipe.length, 0.0, 1000.0)?;
    let roughness = within("pipe roughness", "m", pipe.roughness, 0.0, 0.05 * diameter)?;
    let fittings = within(
        "loss coefficient of the fittings",
        "",
        pipe.fittings,
        0.0,
        1000.0,
    )?;
    let velocity = flow.mass_flow / (flow.density * 0.25 * PI * diameter * diameter);
    let reynolds = flow.density * velocity * diameter / flow.viscosity;
    let friction_factor = friction_factor(reynolds, roughness / diameter);
    let velocity_head = 0.5 * flow.density * velocity * velocity;
    Ok(PipeLoss {
        velocity,
        reynolds,
        friction_factor,
        along: friction_factor * length / diameter * velocity_head,
        in_fittings: fittings * velocity_head,
    })
}
