//! The computed numbers of this chapter with their stable names.

use super::Heart;
use crate::design::phrase::Measure;
use crate::design::quantity::Quantity as Q;
use crate::review::finding::NamedResult;
use crate::sizing::heart::HeartAt;
use uom::si::f64::Ratio;

impl Heart {
    /// The computed numbers with their stable names.
    pub fn results(&self) -> Vec<NamedResult> {
        let mut results = Vec::with_capacity(80);
        let mut say = |name: String, label: String, quantity, si: f64| {
            results.push(NamedResult::new(
                format!("heart.{name}"),
                label,
                Measure::new(quantity, si),
            ));
        };
        if let Ok(moisture) = &self.moisture {
            say(
                "moisture".to_string(),
                "Moisture worked with".to_string(),
                Q::Share,
                moisture.wet_basis.value,
            );
        }
        if let Ok(heating) = &self.heating {
            for (name, label, value) in [
                (
                    "wood_heat_higher",
                    "Higher heating value of the dry wood",
                    heating.higher_dry,
                ),
                (
                    "wood_heat",
                    "Heat in the wood as loaded",
                    heating.lower_as_fired,
                ),
            ] {
                say(
                    name.to_string(),
                    label.to_string(),
                    Q::EnergyPerMass,
                    value.value,
                );
            }
        }
        let at = &self.at;
        let cases = [
            ("full", "at full load", Some(&at.full)),
            ("usual", "at the usual load", Some(&at.usual)),
            ("idle", "at the lowest load", Some(&at.idle)),
            (
                "bare",
                "at the usual load without insulation",
                self.without_insulation(),
            ),
            (
                "more",
                "at the usual load with one more layer",
                self.one_more_layer(),
            ),
        ];
        for (case, when, at) in cases {
            for (name, label, quantity, si) in at.into_iter().flat_map(numbers) {
                say(
                    format!("{name}_{case}"),
                    format!("{label} {when}"),
                    quantity,
                    si,
                );
            }
        }
        if let Some(range) = &self.range {
            // A lowest load above full load is no load.
            let held = |load: Option<Ratio>| load.filter(|load| load.value <= 1.0);
            for (name, label, load) in [
                (
                    "lowest_by_heat",
                    "Lowest load hot enough",
                    held(range.lowest_by_heat),
                ),
                (
                    "lowest_by_hearth_load",
                    "Lowest load by hearth load",
                    held(range.lowest_by_hearth_load),
                ),
                ("lowest", "Lowest load that holds", held(range.lowest())),
                (
                    "highest_by_bore",
                    "Highest load by the narrowest bore",
                    range.highest_by_bore,
                ),
                (
                    "highest_by_nozzles",
                    "Highest load by the nozzles",
                    range.highest_by_nozzles,
                ),
                ("highest", "Highest load that holds", range.highest()),
            ] {
                if let Some(load) = load {
                    say(name.to_string(), label.to_string(), Q::Share, load.value);
                }
            }
        }
        results
    }
}

/// What is said of the hearth at one load.
fn numbers(at: &HeartAt) -> Vec<(&'static str, &'static str, Q, f64)> {
    if !at.makes_gas() {
        return Vec::new();
    }
    let supply = &at.supply;
    let mut numbers = vec![
        ("gas_flow", "Gas flow", Q::NormalFlow, supply.gas_flow.value),
        ("wood", "Wood burned", Q::MassFlow, supply.fuel_rate.value),
    ];
    let Ok(solution) = &at.solved else {
        return numbers;
    };
    let (gas, profile) = (&solution.gas, &solution.profile);
    numbers.push((
        "mean",
        "Mean temperature in the fire",
        Q::Temperature,
        profile.mean.value,
    ));
    // A limit is no answer.
    if !profile.is_held() {
        numbers.push((
            "core",
            "Temperature in the middle",
            Q::Temperature,
            profile.core.value,
        ));
    }
    numbers.extend([
        (
            "wall",
            "Temperature of the hearth's wall",
            Q::Temperature,
            profile.wall.value,
        ),
        (
            "gas_heat",
            "Heat in the gas",
            Q::EnergyPerVolume,
            1e6 * gas.lower_heating_value,
        ),
        (
            "air_to_burn",
            "Volumes of air that burn one of gas",
            Q::Number,
            gas.stoichiometric_air,
        ),
        (
            "mixture_heat",
            "Heat in the mixture with air",
            Q::EnergyPerVolume,
            1e6 * gas.mixture_heating_value,
        ),
        (
            "loss_share",
            "Heat lost through the shell",
            Q::Share,
            gas.loss_share.value,
        ),
        (
            "equivalence_ratio",
            "Air over that of full burning",
            Q::Number,
            gas.equivalence_ratio.value,
        ),
        (
            "exit_temperature",
            "Temperature where the gas stops changing",
            Q::Temperature,
            gas.exit_temperature.value,
        ),
        (
            "gas_per_wood",
            "Gas from wood, by its weight",
            Q::VolumePerMass,
            supply.gas_per_fuel,
        ),
        (
            "gas_per_air",
            "Volumes of gas from one of air",
            Q::Number,
            supply.gas_per_air,
        ),
        (
            "cold_gas_efficiency",
            "Share of the wood's heat that is in the gas",
            Q::Share,
            gas.cold_gas_efficiency.value,
        ),
        (
            "char_left",
            "Char left over, of dry wood",
            Q::Share,
            gas.char_left.value,
        ),
        (
            "carbon_monoxide",
            "Carbon monoxide",
            Q::Share,
            gas.dry.carbon_monoxide,
        ),
        ("hydrogen", "Hydrogen", Q::Share, gas.dry.hydrogen),
        ("methane", "Methane", Q::Share, gas.dry.methane),
        (
            "carbon_dioxide",
            "Carbon dioxide",
            Q::Share,
            gas.dry.carbon_dioxide,
        ),
        ("nitrogen", "Nitrogen", Q::Share, gas.dry.nitrogen),
        ("steam", "Steam in the hot gas", Q::Share, gas.wet.water),
    ]);
    numbers
}
