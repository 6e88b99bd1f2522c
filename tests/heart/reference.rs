//! Against values computed with `cantera`; how they were made stands beside them in `tests/reference`.

use crate::gas::{celsius, loss, share, with_air_held};
use hearthplan::physics::equilibrium::{Constants, Elements, Equilibrium, EquilibriumError};
use hearthplan::physics::species::Species;
use hearthplan::sizing::fuel::Fuel;
use hearthplan::sizing::gas::{AirClosure, CharBed, GasSolution, Gasifier};
use serde_json::Value;
use uom::si::f64::Ratio;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::degree_celsius;

fn rows(text: &str, list: &str) -> Vec<Value> {
    let file: Value = serde_json::from_str(text).unwrap_or_default();
    file[list].as_array().cloned().unwrap_or_default()
}

fn number(row: &Value, field: &str) -> f64 {
    row[field].as_f64().unwrap_or(f64::NAN)
}

fn elements(row: &Value) -> Elements {
    Elements {
        carbon: number(row, "c_mol"),
        hydrogen: number(row, "h_mol"),
        oxygen: number(row, "o_mol"),
        nitrogen: number(row, "n_mol"),
    }
}

/// Largest gap in mole fractions, in vol %.
fn gap(found: &hearthplan::physics::equilibrium::GasAmounts, row: &Value) -> f64 {
    [
        (found.carbon_monoxide, "mole_fraction_co"),
        (found.carbon_dioxide, "mole_fraction_co2"),
        (found.hydrogen, "mole_fraction_h2"),
        (found.water, "mole_fraction_h2o"),
        (found.methane, "mole_fraction_ch4"),
        (found.nitrogen, "mole_fraction_n2"),
    ]
    .iter()
    .map(|(fraction, field)| 100.0 * (fraction - number(row, field)).abs())
    .fold(0.0, |worst, gap| if gap <= worst { worst } else { gap })
}

fn constants(row: &Value) -> Result<Constants, EquilibriumError> {
    Constants::at(number(row, "temperature_k"), number(row, "pressure_pa"))
}

#[test]
fn enthalpy_entropy_and_heat_capacity_of_each_species() {
    let rows = rows(include_str!("../reference/data/species.json"), "rows");
    assert!(rows.len() >= 200, "{}", rows.len());
    for row in rows {
        let name = row["species"].as_str().unwrap();
        let species = Species::ALL
            .into_iter()
            .find(|species| species.formula() == name.trim_end_matches("(gr)"))
            .unwrap();
        let temperature = number(&row, "temperature_k");
        // The elements have no enthalpy at 298.15 K, so a share of it says nothing there: 1 J/mol besides.
        let enthalpy = number(&row, "enthalpy_j_per_mol");
        let off = (species.enthalpy(temperature) - enthalpy).abs();
        assert!(
            off <= 5e-4 * enthalpy.abs() + 1.0,
            "{name} {temperature}: {off} J/mol"
        );
        let entropy = number(&row, "entropy_j_per_mol_k");
        assert!((species.entropy(temperature) / entropy - 1.0).abs() < 5e-4);
        let heat_capacity = number(&row, "heat_capacity_j_per_mol_k");
        assert!((species.heat_capacity(temperature) / heat_capacity - 1.0).abs() < 5e-4);
    }
}

#[test]
fn gas_alone_within_a_hundredth_of_a_percent() {
    let rows = rows(include_str!("../reference/data/equilibrium.json"), "rows");
    assert!(rows.len() >= 300, "{}", rows.len());
    for row in rows {
        let state = constants(&row).unwrap().gas_only(&elements(&row)).unwrap();
        let gap = gap(&state.gas.fractions(), &row);
        assert!(gap < 1e-3, "{gap} vol %: {row}");
        let activity = number(&row, "carbon_activity");
        if activity > 1e-6 && activity < 900.0 {
            assert!(
                (state.carbon_activity / activity - 1.0).abs() < 1e-3,
                "{row}"
            );
        }
    }
}

#[test]
fn gas_over_solid_carbon_within_a_hundredth_of_a_percent() {
    let rows = rows(
        include_str!("../reference/data/equilibrium_carbon.json"),
        "rows",
    );
    assert!(rows.len() >= 50, "{}", rows.len());
    for row in rows {
        let state: Equilibrium = constants(&row)
            .unwrap()
            .with_carbon(&elements(&row))
            .unwrap();
        let gap = gap(&state.gas.fractions(), &row);
        assert!(gap < 1e-3, "{gap} vol %: {row}");
        let solid = number(&row, "carbon_mol");
        assert!((state.solid_carbon - solid).abs() < 1e-5, "{row}");
    }
}

fn hearth(row: &Value) -> Gasifier {
    let part = |field| share(number(row, field));
    let fuel = Fuel {
        carbon: part("dry_mass_percent_c"),
        hydrogen: part("dry_mass_percent_h"),
        oxygen: part("dry_mass_percent_o"),
        nitrogen: part("dry_mass_percent_n"),
        sulphur: share(0.0),
        ash: share(0.0),
        moisture: Ratio::new::<ratio>(number(row, "moisture_wet")),
        heat: Ratio::new::<ratio>(1.0),
    };
    Gasifier {
        char: CharBed {
            share: Ratio::new::<ratio>(number(row, "char_waiting_kg_per_kg_dry")),
            drawn: Ratio::new::<ratio>(number(row, "char_drawn_kg_per_kg_dry")),
            ..CharBed::default()
        },
        ..Gasifier::usual(fuel)
    }
}

fn same_hearth(gas: &GasSolution, row: &Value) {
    // The reference lets oxygen that the volatiles cannot burn pass the glowing char unburned; here it burns
    // char, so only hearths without such oxygen are the same.
    if gas.inventory.char_burned == 0.0 {
        let hearth = gas.hearth_temperature.get::<degree_celsius>();
        assert!(
            (hearth - number(row, "hearth_c")).abs() < 0.5,
            "{hearth}: {row}"
        );
    }
}

fn same_gas(gas: &GasSolution, row: &Value) {
    assert!(gap(&gas.wet, row) < 5e-3, "{row}");
    let heating_value = number(row, "lower_heating_value_mj_per_nm3");
    assert!(
        (gas.lower_heating_value - heating_value).abs() < 2e-3,
        "{row}"
    );
    let amount = number(row, "gas_mol_per_kg_dry");
    assert!(
        (gas.inventory.gas.total() / amount - 1.0).abs() < 1e-3,
        "{row}"
    );
}

#[test]
fn char_limited_hearths() {
    let rows = rows(
        include_str!("../reference/data/hearth_energy.json"),
        "char_limited",
    );
    assert!(rows.len() >= 60, "{}", rows.len());
    let mut compared = 0;
    for row in rows {
        let lost = 100.0 * number(&row, "loss_share_of_higher_heating_value");
        let above = lost * number(&row, "loss_share_at_or_above_nozzles");
        let solution = Gasifier {
            air: AirClosure::CharLimited {
                freeze_temperature: celsius(number(&row, "freeze_c")),
            },
            ..hearth(&row)
        }
        .solve(loss(above, lost - above));
        if row["solved"] == Value::Bool(false) {
            // The reference brackets its search past the point where the gas is burned out, so it misses the
            // last sliver before that point: nothing that an engine could run on.
            let runs_an_engine = solution.is_ok_and(|gas| gas.lower_heating_value > 0.5);
            assert!(!runs_an_engine, "{row}");
            continue;
        }
        // The reference keeps more carbon in the gas than is stable there; here it burns, and the gas leaves hotter.
        if number(&row, "carbon_activity") > 1.0 {
            let gas = solution.unwrap();
            let exit = gas.exit_temperature.get::<degree_celsius>();
            assert!(exit > number(&row, "freeze_c"), "{exit}: {row}");
            assert!(gas.char_left.get::<ratio>() < 1e-8, "{row}");
            continue;
        }
        let gas = solution.unwrap();
        let off = gas.equivalence_ratio.get::<ratio>() - number(&row, "equivalence_ratio");
        assert!(off.abs() < 3e-4, "{off}: {row}");
        same_gas(&gas, &row);
        same_hearth(&gas, &row);
        compared += 1;
    }
    assert!(compared >= 50, "{compared}");
}

#[test]
fn hearths_with_air_held() {
    let rows = rows(
        include_str!("../reference/data/hearth_energy.json"),
        "air_held",
    );
    assert!(rows.len() >= 60, "{}", rows.len());
    let mut compared = 0;
    for row in rows {
        let lost = 100.0 * number(&row, "loss_share_of_higher_heating_value");
        let solution =
            with_air_held(hearth(&row), number(&row, "equivalence_ratio")).solve(loss(lost, 0.0));
        if row["solved"] == Value::Bool(false) || row["hearth_c"].is_null() {
            assert!(solution.is_err(), "{row}");
            continue;
        }
        let gas = solution.unwrap();
        let off = gas.exit_temperature.get::<degree_celsius>() - number(&row, "exit_c");
        assert!(off.abs() < 0.5, "{off}: {row}");
        let carbon = number(&row, "carbon_left_mol_per_kg_dry");
        assert!((gas.inventory.solid_carbon - carbon).abs() < 0.02, "{row}");
        same_gas(&gas, &row);
        same_hearth(&gas, &row);
        compared += 1;
    }
    assert!(compared >= 50, "{compared}");
}
