//! One stage of the chain: how its pressure drop grows with the gas flow.

use super::{Bed, Grate};
use crate::physics::orifice::plate_loss;
use crate::physics::packed_bed;
use crate::sizing::nozzles::NozzleRing;
use std::f64::consts::PI;

/// A stage of the chain.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HearthStage {
    /// Air nozzles.
    Nozzles,
    /// Wood above a straight fire tube.
    Wood,
    /// Glowing char.
    Char,
    /// The grate below it.
    Grate,
}

impl HearthStage {
    /// Label shown to a person.
    pub fn label(self) -> &'static str {
        match self {
            HearthStage::Nozzles => "Air nozzles",
            HearthStage::Wood => "Wood",
            HearthStage::Char => "Char bed",
            HearthStage::Grate => "Grate",
        }
    }

    /// Name in results.
    pub fn name(self) -> &'static str {
        match self {
            HearthStage::Nozzles => "nozzles",
            HearthStage::Wood => "wood",
            HearthStage::Char => "char",
            HearthStage::Grate => "grate",
        }
    }
}

/// A stage with what it needs to answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stage {
    pub kind: HearthStage,
    /// K.
    pub temperature: f64,
    /// kg/m³.
    pub density: f64,
    /// Pa·s.
    pub viscosity: f64,
    /// What flows through it, over the gas flow at 0 °C and 101.325 kPa.
    pub swelling: f64,
    pub resistance: Resistance,
}

/// How a pressure drop grows with gas flow: a part that grows with the flow, Pa·s/m³, and a part that grows with its
/// square, Pa·s²/m⁶. Flows are m³/s at 0 °C and 101.325 kPa.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Resistance {
    linear: f64,
    quadratic: f64,
}

impl Resistance {
    /// Drop at a flow; nothing flows, nothing drops.
    pub fn drop(&self, flow: f64) -> f64 {
        flow * (self.linear + self.quadratic * flow)
    }

    /// Nozzles: `Δp = ρ/2 (v/C)²`. `mass` is kg of air per m³ of gas flow.
    pub fn nozzles(ring: &NozzleRing, density: f64, mass: f64) -> Self {
        Self {
            linear: 0.0,
            quadratic: ring.passing(mass / density, density).pressure_drop,
        }
    }

    /// A grate: `Δp = ζ ρ v²/2`, `v` over the area of the char above it. `mass` is kg of gas per m³ of gas flow.
    pub fn grate(grate: &Grate, density: f64, mass: f64) -> Self {
        let heads = plate_loss(grate.free_share()).unwrap_or(f64::NAN);
        let velocity = mass / density / grate.char.value;
        Self {
            linear: 0.0,
            quadratic: heads * 0.5 * density * velocity * velocity,
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
        Self {
            linear: bed.fouling * viscous * flux * once,
            quadratic: bed.fouling * inertial * flux * flux * twice,
        }
    }
}
