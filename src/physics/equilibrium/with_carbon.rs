//! Equilibrium of the gases over solid carbon.

use super::{Constants, Elements, Equilibrium, EquilibriumError, GasAmounts};

/// Mole fractions over carbon for one ratio of steam to hydrogen, and how far nitrogen is from fitting in.
struct Trial {
    gas: GasAmounts,
    /// Sum of mole fractions less one; rises with the ratio.
    surplus: f64,
    slope: f64,
    /// Gas in mol.
    total: f64,
}

pub(super) fn solve(
    constants: &Constants,
    elements: &Elements,
) -> Result<Equilibrium, EquilibriumError> {
    const MOST_STEPS: usize = 100;
    // Carbon oxides alone would fill the gas at this ratio.
    let filled =
        2.0 / (constants.boudouard + (constants.boudouard * (constants.boudouard + 4.0)).sqrt());
    let (mut low, mut high) = (0.0, filled / constants.shift);
    let mut ratio = high;
    for _ in 0..MOST_STEPS {
        let trial = trial_at(constants, elements, ratio);
        if trial.surplus > 0.0 {
            high = ratio;
        } else {
            low = ratio;
        }
        let next = ratio - trial.surplus / trial.slope;
        if trial.surplus.abs() <= 1e-14 || (next - ratio).abs() <= 1e-15 * ratio {
            return finish(constants, elements, &trial);
        }
        ratio = if next > low && next < high {
            next
        } else {
            0.5 * (low + high)
        };
    }
    Err(EquilibriumError::NotSettled {
        temperature: constants.temperature,
    })
}

fn trial_at(constants: &Constants, elements: &Elements, ratio: f64) -> Trial {
    let hydrogen_supply = elements.hydrogen / 2.0;
    let oxygen_supply = elements.oxygen;
    let nitrogen_supply = elements.nitrogen / 2.0;
    let share = constants.shift * ratio;
    let carbon_monoxide = constants.boudouard * share;
    let carbon_dioxide = carbon_monoxide * share;
    // Methane per square of hydrogen.
    let methane_factor = constants.methanation * constants.boudouard * constants.shift;
    let in_oxides = carbon_monoxide + 2.0 * carbon_dioxide;
    let in_oxides_slope = constants.boudouard * constants.shift * (1.0 + 4.0 * share);
    // Hydrogen and oxygen must stand in the ratio supplied: a quadratic for the hydrogen fraction.
    let square = 2.0 * oxygen_supply * methane_factor;
    let linear = oxygen_supply * (1.0 + ratio) - hydrogen_supply * ratio;
    let constant = hydrogen_supply * in_oxides;
    let root = (linear * linear + 4.0 * square * constant).sqrt();
    let hydrogen = if linear > 0.0 {
        2.0 * constant / (linear + root)
    } else {
        (root - linear) / (2.0 * square)
    };
    let hydrogen_slope = (hydrogen_supply * in_oxides_slope
        - (oxygen_supply - hydrogen_supply) * hydrogen)
        / (2.0 * square * hydrogen + linear);
    let water = ratio * hydrogen;
    let water_slope = hydrogen + ratio * hydrogen_slope;
    let methane = methane_factor * hydrogen * hydrogen;
    let oxygen_carried = in_oxides + water;
    let nitrogen = nitrogen_supply / oxygen_supply * oxygen_carried;
    let surplus = carbon_monoxide + carbon_dioxide + hydrogen + water + methane + nitrogen - 1.0;
    let slope = constants.boudouard * constants.shift * (1.0 + 2.0 * share)
        + hydrogen_slope * (1.0 + 2.0 * methane_factor * hydrogen)
        + water_slope
        + nitrogen_supply / oxygen_supply * (in_oxides_slope + water_slope);
    Trial {
        gas: GasAmounts {
            carbon_monoxide,
            carbon_dioxide,
            hydrogen,
            water,
            methane,
            nitrogen,
            oxygen: 0.0,
        },
        surplus,
        slope,
        total: oxygen_supply / oxygen_carried,
    }
}

fn finish(
    constants: &Constants,
    elements: &Elements,
    trial: &Trial,
) -> Result<Equilibrium, EquilibriumError> {
    let gas = trial.gas.scaled(trial.total);
    let solid_carbon = elements.carbon - gas.elements().carbon;
    if solid_carbon.is_finite() && solid_carbon >= -1e-10 * elements.total() {
        Ok(Equilibrium {
            gas,
            solid_carbon: solid_carbon.max(0.0),
            carbon_activity: 1.0,
        })
    } else {
        Err(EquilibriumError::NotSettled {
            temperature: constants.temperature,
        })
    }
}
