//! Loss coefficients of pipe fittings, for the velocity in the pipe.
//!
//! Source: Perry's Chemical Engineers' Handbook, table of additional friction losses for turbulent flow through
//! fittings and valves, from memory; ball valve from Crane TP-410, from memory. Rough, cheap fittings lose up to a
//! half more.

use crate::design::inputs::FittingKind;

/// Loss coefficient `K` in `Δp = K ρ v²/2`, without unit.
///
/// ```
/// use hearthplan::{design::inputs::FittingKind, sizing::fitting_table::loss_coefficient};
/// assert!(loss_coefficient(FittingKind::LongElbow90) < loss_coefficient(FittingKind::Elbow90));
/// ```
pub fn loss_coefficient(kind: FittingKind) -> f64 {
    match kind {
        FittingKind::Entrance => 0.5,
        FittingKind::Exit => 1.0,
        FittingKind::Elbow90 => 0.75,
        FittingKind::LongElbow90 => 0.45,
        FittingKind::Elbow45 => 0.35,
        FittingKind::TeeStraight => 0.4,
        FittingKind::TeeBranch => 1.0,
        FittingKind::GateValve => 0.17,
        FittingKind::BallValve => 0.06,
        FittingKind::Butterfly => 0.24,
        // The worst case of each: into a pipe from a wide room, and out of a pipe into one.
        FittingKind::Contraction => 0.5,
        FittingKind::Enlargement => 1.0,
    }
}
