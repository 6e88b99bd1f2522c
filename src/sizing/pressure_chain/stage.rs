//! One stage of the chain: how its pressure drop grows with the gas flow.

use super::{Bed, PipeRun};
use crate::physics::{friction, packed_bed};
use crate::sizing::nozzles::NozzleRing;
use std::f64::consts::PI;

/// A stage of the chain.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StageKind {
    /// Air nozzles.
    Nozzles,
    /// Wood above a straight fire tube.
    Wood,
    /// Glowing char.
    Char,
    /// Pipes and fittings.
    Pipes,
    /// Cooler.
    Cooler,
    /// Filter, clean.
    CleanFilter,
    /// Filter, dirty.
    DirtyFilter,
    /// Flare.
    Flare,
}

impl StageKind {
    /// Label shown to a person.
    pub fn label(self) -> &'static str {
        match self {
            StageKind::Nozzles => "Air nozzles",
            StageKind::Wood => "Wood",
            StageKind::Char => "Char bed",
            StageKind::Pipes => "Pipes and fittings",
            StageKind::Cooler => "Cooler",
            StageKind::CleanFilter => "Clean filter",
            StageKind::DirtyFilter => "Dirty filter",
            StageKind::Flare => "Flare",
        }
    }

    /// Name in results.
    pub fn name(self) -> &'static str {
        match self {
            StageKind::Nozzles => "nozzles",
            StageKind::Wood => "wood",
            StageKind::Char => "char",
            StageKind::Pipes => "pipes",
            StageKind::Cooler => "cooler",
            StageKind::CleanFilter => "clean_filter",
            StageKind::DirtyFilter => "dirty_filter",
            StageKind::Flare => "flare",
        }
    }
}

/// A stage with what it needs to answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stage {
    pub kind: StageKind,
    /// K.
    pub temperature: f64,
    /// kg/m³.
    pub density: f64,
    pub resistance: Resistance,
}

/// How a pressure drop grows with gas flow. Flows are m³/s at 0 °C and 101.325 kPa, drops Pa.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Resistance {
    /// A part that grows with the flow and a part that grows with its square.
    Polynomial { linear: f64, quadratic: f64 },
    /// Wall friction and fittings of a round pipe.
    Pipe {
        /// Reynolds number per flow, s/m³.
        reynolds: f64,
        /// Dynamic pressure per squared flow, Pa·s²/m⁶.
        dynamic: f64,
        /// Length over bore.
        slenderness: f64,
        /// Roughness over bore.
        roughness: f64,
        /// Sum of loss coefficients.
        losses: f64,
    },
}

impl Resistance {
    /// Drop at a flow; nothing flows, nothing drops.
    pub fn drop(&self, flow: f64) -> f64 {
        match *self {
            Resistance::Polynomial { linear, quadratic } => flow * (linear + quadratic * flow),
            Resistance::Pipe {
                reynolds,
                dynamic,
                slenderness,
                roughness,
                losses,
            } => {
                if flow > 0.0 {
                    let factor = friction::friction_factor(reynolds * flow, roughness);
                    (factor * slenderness + losses) * dynamic * flow * flow
                } else {
                    0.0
                }
            }
        }
    }

    /// An entered drop at full flow that grows with the square of the flow.
    pub fn square(drop: f64, full_flow: f64) -> Self {
        Resistance::Polynomial {
            linear: 0.0,
            quadratic: drop / (full_flow * full_flow),
        }
    }

    /// An entered drop at full flow that grows in step with the flow.
    pub fn straight(drop: f64, full_flow: f64) -> Self {
        Resistance::Polynomial {
            linear: drop / full_flow,
            quadratic: 0.0,
        }
    }

    /// Nozzles: `Δp = ρ/2 (v/C)²`. `mass` is kg of air per m³ of gas flow.
    pub fn nozzles(ring: &NozzleRing, density: f64, mass: f64) -> Self {
        Resistance::Polynomial {
            linear: 0.0,
            quadratic: ring.passing(mass / density, density).pressure_drop,
        }
    }

    /// A bed in a cone, by the Ergun equation integrated along the axis.
    ///
    /// With a diameter that changes evenly from `D₀` to `D₁` over the length `L`, the superficial velocity is
    /// `v = 4 V / (π D²)`, and `∫ dx/D² = L / (D₀ D₁)`, `∫ dx/D⁴ = L (D₀² + D₀ D₁ + D₁²) / (3 D₀³ D₁³)`.
    pub fn bed(bed: &Bed, density: f64, viscosity: f64, mass: f64) -> Self {
        let (entry, exit) = (bed.entry_diameter.value, bed.exit_diameter.value);
        let length = bed.length.value;
        let metre = packed_bed::Bed {
            piece_diameter: bed.piece_size.value,
            voidage: bed.void_share.value,
            depth: 1.0,
        };
        let fluid = packed_bed::BedGas { density, viscosity };
        // A bed that makes no sense has no number, and the review then says that it cannot tell.
        let gradient =
            |velocity| packed_bed::pressure_loss(&metre, &fluid, velocity).unwrap_or(f64::NAN);
        // Ergun is a term in v and a term in v²; two looks tell them apart.
        let (slow, fast) = (gradient(1.0), gradient(2.0));
        let inertial = 0.5 * fast - slow;
        let viscous = slow - inertial;
        let flux = mass / density * 4.0 / PI;
        let product = entry * exit;
        let once = length / product;
        let twice = length * (entry * entry + product + exit * exit) / (3.0 * product.powi(3));
        Resistance::Polynomial {
            linear: bed.fouling * viscous * flux * once,
            quadratic: bed.fouling * inertial * flux * flux * twice,
        }
    }

    /// Pipes with fittings. `mass` is kg of gas per m³ of gas flow.
    pub fn pipes(pipes: &PipeRun, density: f64, viscosity: f64, mass: f64) -> Self {
        let bore = pipes.bore.value;
        let velocity = mass / (density * PI / 4.0 * bore * bore);
        Resistance::Pipe {
            reynolds: density * velocity * bore / viscosity,
            dynamic: 0.5 * density * velocity * velocity,
            slenderness: pipes.length.value / bore,
            roughness: pipes.roughness.value / bore,
            losses: pipes.loss_coefficients,
        }
    }
}
