//! Properties of gas mixtures against `cantera`, 20 °C to 900 °C.

use crate::reference::{close, number, rows};
use hearthplan::physics::equilibrium::GasAmounts;
use hearthplan::physics::gas_mixture::GasMixture;
use hearthplan::physics::tube_flow::{nusselt_inside, nusselt_level_cylinder};
use proptest::prelude::*;
use serde_json::Value;

/// Allowed difference from the reference.
const SHARE: f64 = 0.01;

fn compare(gas: &GasAmounts, row: &Value) {
    let mixture = GasMixture::new(gas).unwrap();
    let found = mixture.at(number(row, "temperature_k"), 101_325.0).unwrap();
    close(found.density, number(row, "density_kg_per_m3"), SHARE, row);
    close(found.viscosity, number(row, "viscosity_pa_s"), SHARE, row);
    close(
        found.conductivity,
        number(row, "conductivity_w_per_m_k"),
        SHARE,
        row,
    );
    close(
        found.heat_capacity,
        number(row, "heat_capacity_j_per_kg_k"),
        SHARE,
        row,
    );
}

#[test]
fn mixtures_agree_with_the_reference() {
    for row in rows("gas_mixture.json", "mixtures") {
        let gas = GasAmounts {
            carbon_monoxide: number(&row, "mole_fraction_co"),
            carbon_dioxide: number(&row, "mole_fraction_co2"),
            hydrogen: number(&row, "mole_fraction_h2"),
            water: number(&row, "mole_fraction_h2o"),
            methane: number(&row, "mole_fraction_ch4"),
            nitrogen: number(&row, "mole_fraction_n2"),
            oxygen: number(&row, "mole_fraction_o2"),
        };
        compare(&gas, &row);
    }
}

#[test]
fn pure_gases_agree_with_the_reference() {
    for row in rows("gas_mixture.json", "pure") {
        let mut gas = GasAmounts::default();
        match row["species"].as_str().unwrap() {
            "CO" => gas.carbon_monoxide = 1.0,
            "CO2" => gas.carbon_dioxide = 1.0,
            "H2" => gas.hydrogen = 1.0,
            "H2O" => gas.water = 1.0,
            "CH4" => gas.methane = 1.0,
            "N2" => gas.nitrogen = 1.0,
            "O2" => gas.oxygen = 1.0,
            other => panic!("unknown gas {other}"),
        }
        compare(&gas, &row);
    }
}

#[test]
fn heat_transfer_in_a_tube_has_no_jump() {
    let mut before = nusselt_inside(2000.0, 0.7);
    for step in 0..400 {
        let now = nusselt_inside(2000.0 + 10.0 * f64::from(step), 0.7);
        assert!(now >= before && now - before < 0.2, "{step}");
        before = now;
    }
}

#[test]
fn level_cylinder_at_rest_conducts_only() {
    assert!((nusselt_level_cylinder(0.0, 0.7) - 0.36).abs() < 1e-12);
}

proptest! {
    #[test]
    fn any_numbers_give_properties_or_a_reason(n: [f64; 7], temperature: f64, pressure: f64) {
        let gas = GasAmounts {
            carbon_monoxide: n[0], carbon_dioxide: n[1], hydrogen: n[2], water: n[3], methane: n[4], nitrogen: n[5],
            oxygen: n[6],
        };
        if let Ok(found) = GasMixture::new(&gas).and_then(|gas| gas.at(temperature, pressure)) {
            prop_assert!(found.density > 0.0 && found.viscosity > 0.0 && found.conductivity > 0.0);
            prop_assert!(found.prandtl().is_finite());
        }
    }

    #[test]
    fn adding_nothing_changes_nothing(share in 0.0..1.0_f64, temperature in 270.0..1200.0_f64) {
        let gas = GasAmounts { hydrogen: share, nitrogen: 1.0 - share, ..GasAmounts::default() };
        let once = GasMixture::new(&gas).unwrap().at(temperature, 1e5).unwrap();
        let scaled = GasMixture::new(&gas.scaled(7.0)).unwrap().at(temperature, 1e5).unwrap();
        prop_assert!((once.viscosity / scaled.viscosity - 1.0).abs() < 1e-12);
        prop_assert!((once.conductivity / scaled.conductivity - 1.0).abs() < 1e-12);
    }
}
