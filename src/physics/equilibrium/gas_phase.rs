//! Equilibrium among the gases alone.

use super::{Constants, Elements, EquilibriumError, GasAmounts};

/// Atoms as the solver wants them: hydrogen and nitrogen in mol of molecules.
#[derive(Clone, Copy)]
struct Supply {
    carbon: f64,
    hydrogen: f64,
    oxygen: f64,
    nitrogen: f64,
    /// Methane that must form because oxygen cannot carry all the carbon.
    least_methane: f64,
    /// Oxygen beyond turning all the carbon to monoxide, once that methane is formed.
    spare_oxygen: f64,
}

/// State of the gas once methane is chosen and the oxygen balance is met.
#[derive(Clone, Copy)]
struct Trial {
    methane: f64,
    /// Ratio of steam to hydrogen.
    steam_ratio: f64,
    oxygen_fraction: f64,
}

#[cfg_attr(hearthplan_site, optimize(speed))]
pub(super) fn solve(
    constants: &Constants,
    elements: &Elements,
) -> Result<GasAmounts, EquilibriumError> {
    let least = (elements.carbon - elements.oxygen).max(0.0);
    let supply = Supply {
        carbon: elements.carbon,
        hydrogen: elements.hydrogen / 2.0,
        oxygen: elements.oxygen,
        nitrogen: elements.nitrogen / 2.0,
        least_methane: least,
        spare_oxygen: (elements.oxygen - elements.carbon).max(0.0),
    };
    let most = supply.carbon.min(supply.hydrogen / 2.0);
    let total = elements.total();
    if supply.carbon > 0.0 && least > 0.0 && least >= most * (1.0 - 1e-9) {
        return Err(EquilibriumError::TooMuchCarbon {
            carbon: supply.carbon,
            most: supply.oxygen + supply.hydrogen / 2.0,
        });
    }
    let trial = if most <= 1e-12 * total {
        trial_at(constants, &supply, 0.0, None)
    } else {
        methane_search(constants, &supply, most, total)?
    };
    Ok(amounts(constants, &supply, &trial))
}

/// Amount of methane at which its affinity is zero: Newton's method on the logarithm, inside a bracket.
fn methane_search(
    constants: &Constants,
    supply: &Supply,
    most: f64,
    total: f64,
) -> Result<Trial, EquilibriumError> {
    const MOST_STEPS: usize = 100;
    let least = supply.least_methane;
    let span = most - least;
    // Methane above the least amount, so that steps on its logarithm never leave the range at that end.
    let mut excess = 0.1 * span;
    let mut near = None;
    if least == 0.0 {
        let without = trial_at(constants, supply, 0.0, None);
        let wanted = methane_wanted(constants, supply, &without);
        near = Some(without.steam_ratio);
        if wanted <= 1e-10 * total {
            return Ok(trial_at(constants, supply, wanted, near));
        }
        excess = wanted.min(0.3 * span);
    }
    let (mut low, mut high) = (0.0, span);
    for _ in 0..MOST_STEPS {
        let trial = trial_at(constants, supply, excess, near);
        near = Some(trial.steam_ratio);
        let wanted = methane_wanted(constants, supply, &trial);
        let affinity = (trial.methane / wanted).ln();
        if affinity.abs() < 1e-11 {
            return Ok(trial);
        }
        if affinity > 0.0 {
            high = excess;
        } else {
            low = excess;
        }
        let slope = excess * (1.0 / trial.methane - log_slope(constants, supply, &trial));
        let next = excess * (-affinity / slope).exp();
        let next = if next > low && next < high {
            next
        } else if low > 0.0 && high / low > 10.0 {
            (low * high).sqrt()
        } else {
            0.5 * (low + high)
        };
        if (next - excess).abs() <= 1e-15 * (least + excess) {
            return Ok(trial_at(constants, supply, next, near));
        }
        excess = next;
    }
    Err(EquilibriumError::NotSettled {
        temperature: constants.temperature,
    })
}

/// Ratio of steam to hydrogen that meets the oxygen balance with `excess` mol of methane above the least; `near` is that
/// of another trial.
#[cfg_attr(hearthplan_site, optimize(speed))]
fn trial_at(constants: &Constants, supply: &Supply, excess: f64, near: Option<f64>) -> Trial {
    let methane = supply.least_methane + excess;
    let oxides = supply.carbon - methane;
    let hydrogen = supply.hydrogen - 2.0 * methane;
    let shift = constants.shift;
    // Not from the difference of large numbers: in carbon-rich gas this is what decides the ratio.
    let spare = supply.spare_oxygen + excess;
    // Without free oxygen the balance is a quadratic.
    let square = shift * (oxides + hydrogen - spare);
    let linear = oxides * shift + hydrogen - spare * (1.0 + shift);
    let root = (linear * linear + 4.0 * square * spare).max(0.0).sqrt();
    let unbounded = if linear > 0.0 {
        2.0 * spare / (linear + root)
    } else {
        (root - linear) / (2.0 * square)
    };
    let base = supply.carbon + supply.hydrogen - 2.0 * methane + supply.nitrogen;
    let potential = constants.oxygen_potential;
    let fraction = |ratio: f64| {
        let root = ratio / potential;
        root * root
    };
    let lean = square > 0.0 && unbounded.is_finite();
    if lean && fraction(unbounded) * base < 1e-15 * supply.oxygen {
        return Trial {
            methane,
            steam_ratio: unbounded.max(0.0),
            oxygen_fraction: 0.0,
        };
    }
    let steam_ratio = with_free_oxygen(
        constants,
        oxides,
        hydrogen,
        spare,
        base,
        lean.then_some(unbounded),
        near,
    );
    Trial {
        methane,
        steam_ratio,
        oxygen_fraction: fraction(steam_ratio),
    }
}

/// The same balance where free oxygen counts: Newton's method inside a bracket.
#[cfg_attr(hearthplan_site, optimize(speed))]
fn with_free_oxygen(
    constants: &Constants,
    oxides: f64,
    hydrogen: f64,
    spare: f64,
    base: f64,
    without_oxygen: Option<f64>,
    near: Option<f64>,
) -> f64 {
    let potential = constants.oxygen_potential;
    let ratio_at = |free: f64| potential * (free / (free + 2.0 * base)).max(0.0).sqrt();
    let mut low = ratio_at(spare - oxides - hydrogen);
    let mut high = ratio_at(spare);
    if let Some(ratio) = without_oxygen {
        high = high.min(ratio);
    }
    let end = if low > 0.0 { low } else { high };
    let mut ratio = near
        .filter(|near| *near > low && *near < high)
        .unwrap_or(end);
    for _ in 0..100 {
        let share = constants.shift * ratio;
        let root = ratio / potential;
        let fraction = root * root;
        let left = 1.0 - fraction;
        let residual = oxides * share / (1.0 + share)
            + hydrogen * ratio / (1.0 + ratio)
            + 2.0 * base * fraction / left
            - spare;
        if residual > 0.0 {
            high = ratio;
        } else {
            low = ratio;
        }
        let slope = oxides * constants.shift / ((1.0 + share) * (1.0 + share))
            + hydrogen / ((1.0 + ratio) * (1.0 + ratio))
            + 4.0 * base * fraction / (ratio * left * left);
        let mut next = ratio - residual / slope;
        // Not a number fails this test too and falls back to halving.
        if !(next >= low && next <= high) {
            next = if low > 0.0 {
                (low * high).sqrt()
            } else {
                0.5 * high
            };
        }
        // Newton's method doubles the digits: what this step left is below the last of them.
        let settled = (next - ratio).abs() <= 1e-9 * ratio;
        ratio = next;
        if settled {
            break;
        }
    }
    ratio
}

/// Methane that would be in equilibrium with the other gases of the trial.
fn methane_wanted(constants: &Constants, supply: &Supply, trial: &Trial) -> f64 {
    let oxides = supply.carbon - trial.methane;
    let free = supply.hydrogen - 2.0 * trial.methane;
    let monoxide = oxides / (1.0 + constants.shift * trial.steam_ratio);
    let hydrogen = free / (1.0 + trial.steam_ratio);
    let total = total_gas(supply, trial);
    constants.methanation * monoxide * hydrogen * hydrogen / (trial.steam_ratio * total * total)
}

fn total_gas(supply: &Supply, trial: &Trial) -> f64 {
    (supply.carbon + supply.hydrogen - 2.0 * trial.methane + supply.nitrogen)
        / (1.0 - trial.oxygen_fraction)
}

/// Derivative of the logarithm of [`methane_wanted`] along the oxygen balance, per mol of methane.
fn log_slope(constants: &Constants, supply: &Supply, trial: &Trial) -> f64 {
    let ratio = trial.steam_ratio;
    let share = constants.shift * ratio;
    let oxides = supply.carbon - trial.methane;
    let free = supply.hydrogen - 2.0 * trial.methane;
    let base = supply.carbon + free + supply.nitrogen;
    let fraction = trial.oxygen_fraction;
    let left = 1.0 - fraction;
    let by_methane =
        -(1.0 + 2.0 * share) / (1.0 + share) - 2.0 * ratio / (1.0 + ratio) - 4.0 * fraction / left;
    let by_ratio = oxides * constants.shift / ((1.0 + share) * (1.0 + share))
        + free / ((1.0 + ratio) * (1.0 + ratio))
        + 4.0 * base * fraction / (ratio * left * left);
    let ratio_slope = -by_methane / by_ratio;
    -1.0 / oxides
        - constants.shift * ratio_slope / (1.0 + share)
        - 4.0 / free
        - 2.0 * ratio_slope / (1.0 + ratio)
        - ratio_slope / ratio
        + 4.0 / base
        - 4.0 * fraction * ratio_slope / (ratio * left)
}

fn amounts(constants: &Constants, supply: &Supply, trial: &Trial) -> GasAmounts {
    let oxides = supply.carbon - trial.methane;
    let free = supply.hydrogen - 2.0 * trial.methane;
    let share = constants.shift * trial.steam_ratio;
    let carbon_monoxide = oxides / (1.0 + share);
    let hydrogen = free / (1.0 + trial.steam_ratio);
    GasAmounts {
        carbon_monoxide,
        carbon_dioxide: carbon_monoxide * share,
        hydrogen,
        water: hydrogen * trial.steam_ratio,
        methane: trial.methane,
        nitrogen: supply.nitrogen,
        oxygen: trial.oxygen_fraction * total_gas(supply, trial),
    }
}
