//! Loss coefficients of pipe fittings, for the velocity in the pipe.
//!
//! Source: the 2-K method of Hooper, Chemical Engineering, 24 August 1981, page 97, with his constants as the library
//! `fluids` holds them (`fluids.fittings.Hooper`, compared in `tests/reference/`). Elbows and tees are screwed ones, as
//! bought for water pipe. A ball valve is narrower inside than its pipe, by a tenth, as cheap ones are. Where a pipe
//! begins, ends or changes its width the coefficient is that of a sharp edge (Crane TP-410; Borda and Carnot).

use crate::design::inputs::FittingKind;
use uom::si::f64::Length;

/// An inch, m: the bore at which a fitting costs twice what it costs in a very wide pipe.
const INCH: f64 = 0.0254;

/// Reynolds number below which the coefficient is held: nothing flows there.
const SLOWEST: f64 = 1e-3;

/// How the loss coefficient of a fitting is found.
enum Law {
    /// The same at any flow and bore.
    Fixed(f64),
    /// `K₁/Re + K∞ (1 + 1 inch/bore)`, with `K₁` and `K∞`.
    TwoK(f64, f64),
}

fn law(kind: FittingKind) -> Law {
    match kind {
        FittingKind::Elbow90 => Law::TwoK(800.0, 0.4),
        FittingKind::LongElbow90 => Law::TwoK(800.0, 0.2),
        FittingKind::Elbow45 => Law::TwoK(500.0, 0.2),
        FittingKind::TeeStraight => Law::TwoK(200.0, 0.1),
        FittingKind::TeeBranch => Law::TwoK(500.0, 0.7),
        FittingKind::GateValve => Law::TwoK(300.0, 0.1),
        FittingKind::BallValve => Law::TwoK(500.0, 0.15),
        FittingKind::Butterfly => Law::TwoK(800.0, 0.25),
        // The worst case of each: into a pipe from a wide room, and out of a pipe into one.
        FittingKind::Entrance | FittingKind::Contraction => Law::Fixed(0.5),
        FittingKind::Exit | FittingKind::Enlargement => Law::Fixed(1.0),
    }
}

/// Loss coefficient `K` in `Δp = K ρ v²/2`, without unit, at a Reynolds number on the bore, in a pipe of this bore.
///
/// Any Reynolds number; bores from 5 mm to 1 m. Measured fittings scatter by about a quarter, rough cheap ones lie above.
///
/// ```
/// use hearthplan::{design::inputs::FittingKind, sizing::fitting_table::loss_coefficient};
/// use uom::si::{f64::Length, length::inch};
/// let bore = Length::new::<inch>(2.0);
/// let sharp = loss_coefficient(FittingKind::Elbow90, 20_000.0, bore);
/// assert!((sharp - (800.0 / 20_000.0 + 0.4 * 1.5)).abs() < 1e-12);
/// assert!(loss_coefficient(FittingKind::LongElbow90, 20_000.0, bore) < sharp);
/// ```
pub fn loss_coefficient(kind: FittingKind, reynolds: f64, bore: Length) -> f64 {
    match law(kind) {
        Law::Fixed(coefficient) => coefficient,
        Law::TwoK(slow, fast) => slow / reynolds.max(SLOWEST) + fast * (1.0 + INCH / bore.value),
    }
}
