//! Finding where a function crosses zero, and the smallest change that makes something pass.

use super::error::PhysicsError;

/// Steps after which a search gives up. Halving alone would settle any pair of f64 numbers in about this many.
const MOST_STEPS: u32 = 120;

/// A zero found between two bounds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Root {
    /// Where the function is zero.
    pub at: f64,
    /// Value of the function there.
    pub residual: f64,
    /// Times the function was asked.
    pub evaluations: u32,
}

/// Finds a zero of `function` between `low` and `high` to within `tolerance` in the unit of the argument.
///
/// Chandrupatla's method (Advances in Engineering Software 28, 1997, 145): inverse quadratic steps where they are
/// safe, halving where not. It needs no derivative and never leaves the bracket.
///
/// # Errors
/// [`PhysicsError::Impossible`] if the bounds are not finite, or the function has the same sign at both or is not a
/// number there; [`PhysicsError::NotConverged`] if the function stops being a number on the way.
///
/// ```
/// let root = hearthplan::physics::solve::bracketed(0.0, 2.0, 1e-12, |x| x * x - 2.0)?;
/// assert!((root.at - 2.0_f64.sqrt()).abs() < 1e-11);
/// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
/// ```
pub fn bracketed(
    low: f64,
    high: f64,
    tolerance: f64,
    mut function: impl FnMut(f64) -> f64,
) -> Result<Root, PhysicsError> {
    if !(low.is_finite() && high.is_finite()) {
        return Err(PhysicsError::Impossible {
            quantity: "search bounds",
            reason: "both must be finite numbers",
        });
    }
    let tolerance = tolerance.max(0.0);
    let (mut newest, mut opposite) = (high, low);
    let (mut f_newest, mut f_opposite) = (function(newest), function(opposite));
    let mut evaluations = 2;
    for (at, residual) in [(newest, f_newest), (opposite, f_opposite)] {
        if residual == 0.0 {
            return Ok(Root {
                at,
                residual,
                evaluations,
            });
        }
    }
    if f_newest.is_nan() || f_opposite.is_nan() || (f_newest > 0.0) == (f_opposite > 0.0) {
        return Err(PhysicsError::Impossible {
            quantity: "search bounds",
            reason: "the function does not change sign between them",
        });
    }
    let (mut previous, mut f_previous);
    let mut fraction = 0.5;
    while evaluations < MOST_STEPS {
        // Rounding may put a step a hair outside a bracket whose ends differ by many powers of ten.
        let trial = (newest + fraction * (opposite - newest))
            .max(newest.min(opposite))
            .min(newest.max(opposite));
        let f_trial = function(trial);
        evaluations += 1;
        if f_trial.is_nan() {
            break;
        }
        if (f_trial > 0.0) == (f_newest > 0.0) {
            (previous, f_previous) = (newest, f_newest);
        } else {
            (previous, f_previous) = (opposite, f_opposite);
            (opposite, f_opposite) = (newest, f_newest);
        }
        (newest, f_newest) = (trial, f_trial);
        let (at, residual) = if f_newest.abs() < f_opposite.abs() {
            (newest, f_newest)
        } else {
            (opposite, f_opposite)
        };
        let width = (opposite - newest).abs();
        let least_step = 0.5 * tolerance + 2.0 * f64::EPSILON * at.abs();
        if residual == 0.0 || width <= 2.0 * least_step || width < f64::MIN_POSITIVE {
            return Ok(Root {
                at,
                residual,
                evaluations,
            });
        }
        let shape = (newest - opposite) / (previous - opposite);
        let rise = (f_newest - f_opposite) / (f_previous - f_opposite);
        let quadratic_is_safe = rise * rise < shape && (1.0 - rise) * (1.0 - rise) < 1.0 - shape;
        fraction = if quadratic_is_safe {
            f_newest / (f_opposite - f_newest) * f_previous / (f_opposite - f_previous)
                + (previous - newest) / (opposite - newest) * f_newest / (f_previous - f_newest)
                    * f_opposite
                    / (f_previous - f_opposite)
        } else {
            0.5
        };
        let edge = (least_step / width).min(0.5);
        // A step that is not a number (two equal function values) falls back to halving.
        fraction = if fraction.is_nan() {
            0.5
        } else {
            fraction.clamp(edge, 1.0 - edge)
        };
    }
    Err(PhysicsError::NotConverged {
        quantity: "zero of the function",
        iterations: evaluations,
        residual: f_newest,
    })
}

/// The value nearest to `start`, on the way to `limit`, for which `passes` says yes, to within `tolerance`.
///
/// Looks at `looks` places between the two, closer together near the start (quadratic spacing), then halves the gap
/// between the last failure and the first pass. The value returned has itself been seen to pass. A pass narrower
/// than the spacing can be missed. `None` if nothing on the way passes or a bound is not finite.
///
/// ```
/// use hearthplan::physics::solve::smallest_change;
/// let width = smallest_change(0.40, 1.20, 1e-6, 24, |width| width >= 0.66).unwrap();
/// assert!(width >= 0.66 && width < 0.66 + 1e-5);
/// ```
pub fn smallest_change(
    start: f64,
    limit: f64,
    tolerance: f64,
    looks: u32,
    mut passes: impl FnMut(f64) -> bool,
) -> Option<f64> {
    if !(start.is_finite() && limit.is_finite()) {
        return None;
    }
    if passes(start) {
        return Some(start);
    }
    let looks = looks.max(1);
    let mut fails = start;
    for look in 1..=looks {
        let share = f64::from(look) / f64::from(looks);
        let candidate = if look == looks {
            limit
        } else {
            start + (limit - start) * share * share
        };
        if passes(candidate) {
            return Some(halve(fails, candidate, tolerance, passes));
        }
        fails = candidate;
    }
    None
}

/// Narrows a failing and a passing value until they are `tolerance` apart; returns the passing one.
fn halve(
    mut fails: f64,
    mut good: f64,
    tolerance: f64,
    mut passes: impl FnMut(f64) -> bool,
) -> f64 {
    for _ in 0..MOST_STEPS {
        if (good - fails).abs() <= tolerance.max(0.0) {
            break;
        }
        let middle = fails + 0.5 * (good - fails);
        if middle == fails || middle == good {
            break;
        }
        if passes(middle) {
            good = middle;
        } else {
            fails = middle;
        }
    }
    good
}
