//! Coolers of every kind against an integration of the same model by `scipy`.

use super::{celsius, metres, result};
use crate::reference::{close, document, number, numbers, rows};
use hearthplan::physics::equilibrium::GasAmounts;
use hearthplan::sizing::cooler::{Cooler, CoolerKind, Orientation, TubeFins};
use hearthplan::sizing::nozzles::Surroundings;
use hearthplan::sizing::train::{Dust, GasState, Stage, StageOutcome, Tar, example};
use serde_json::Value;
use uom::si::f64::{
    HeatTransfer, Length, MassRate, Pressure, Ratio, ThermalConductivity, Velocity, VolumeRate,
};
use uom::si::heat_transfer::watt_per_square_meter_kelvin;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermal_conductivity::watt_per_meter_kelvin;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::velocity::meter_per_second;
use uom::si::volume_rate::cubic_meter_per_second;

/// Gas of the reference file's composition at a mass flow, dry.
fn reference_gas(row: &Value) -> GasState {
    let head = document("cooler_tube.json");
    let share = |name| number(&head, name);
    let dry = GasAmounts {
        carbon_monoxide: share("mole_fraction_co"),
        carbon_dioxide: share("mole_fraction_co2"),
        hydrogen: share("mole_fraction_h2"),
        water: 0.0,
        methane: share("mole_fraction_ch4"),
        nitrogen: share("mole_fraction_n2"),
        oxygen: 0.0,
    };
    let one = GasState {
        dry,
        dry_flow: VolumeRate::new::<cubic_meter_per_second>(1.0),
        vapour: MassRate::default(),
        liquid: MassRate::default(),
        temperature: celsius(number(row, "inlet_c")),
        pressure: Pressure::new::<pascal>(101_325.0),
        dust: Dust::NONE,
        tar: Tar::NONE,
    };
    let wanted = MassRate::new::<kilogram_per_second>(number(row, "mass_flow_kg_per_s"));
    GasState {
        dry_flow: one.dry_flow * (wanted / one.gas_mass_rate()),
        ..one
    }
}

fn reference_cooler(row: &Value) -> Cooler {
    let bore = number(row, "inside_diameter_m");
    Cooler {
        tubes: 1,
        length: metres(number(row, "length_m")),
        bore: metres(bore),
        wall: metres(0.5 * (number(row, "outside_diameter_m") - bore)),
        wall_conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(number(
            row,
            "wall_conductivity_w_per_m_k",
        )),
        roughness: Length::default(),
        emittance: Ratio::new::<ratio>(number(row, "emissivity")),
        orientation: if row["orientation"] == "horizontal" {
            Orientation::Level
        } else {
            Orientation::Upright
        },
        block: None,
        header_loss: 0.0,
        kind: CoolerKind::Bare,
    }
}

fn pass(cooler: Cooler, gas: &GasState, air: f64) -> StageOutcome {
    let mut circumstances = example::full_load().circumstances;
    circumstances.surroundings = Surroundings {
        temperature: celsius(air),
        pressure: Pressure::new::<pascal>(101_325.0),
    };
    Stage::Cooler(cooler).pass(gas, &circumstances).unwrap()
}

#[test]
fn bare_tubes_agree_with_the_integration() {
    for row in rows("cooler_tube.json", "rows") {
        let (whole, gas) = (reference_cooler(&row), reference_gas(&row));
        let air = number(&row, "ambient_c");
        let outcome = pass(whole, &gas, air);
        let (inlet, outlet) = (number(&row, "inlet_c"), number(&row, "outlet_c"));
        let found = outcome.out.temperature.get::<degree_celsius>();
        let allowed = 0.01 * (inlet - outlet);
        assert!((found - outlet).abs() < allowed, "found {found}: {row}");
        close(
            outcome.heat_rejected.value,
            number(&row, "heat_w"),
            0.01,
            &row,
        );
        if row["orientation"] == "horizontal" {
            for (quarter, wanted) in numbers(&row, "gas_at_quarters_c").iter().enumerate() {
                let cut = Cooler {
                    length: whole.length * (0.25 * (quarter as f64 + 1.0)),
                    ..whole
                };
                let found = pass(cut, &gas, air).out.temperature;
                assert!(
                    (found.get::<degree_celsius>() - wanted).abs() < allowed,
                    "{quarter}: {row}"
                );
            }
        }
        let found = result(&outcome);
        let first = found.hottest_surface.get::<degree_celsius>();
        // The wall of a bare steel tube is as warm inside as outside.
        let last = found.coldest_wall.get::<degree_celsius>();
        assert!(
            (first - number(&row, "surface_at_inlet_c")).abs() < 1.5,
            "{first}: {row}"
        );
        assert!(
            (last - number(&row, "surface_at_outlet_c")).abs() < 1.5,
            "{last}: {row}"
        );
        close(found.reynolds, number(&row, "reynolds_inlet"), 0.01, &row);
    }
}

/// Fins, fan and jacket of a row of the second file; bare if it has none of them.
fn reference_kind(row: &Value) -> CoolerKind {
    let metres_of = |field| metres(number(row, field));
    let fins = row["fin_diameter_m"].is_number().then(|| TubeFins {
        diameter: metres_of("fin_diameter_m"),
        thickness: metres_of("fin_thickness_m"),
        pitch: metres_of("fin_pitch_m"),
        conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(number(
            row,
            "fin_conductivity_w_per_m_k",
        )),
    });
    match (row["kind"].as_str().unwrap(), fins) {
        ("bare", None) => CoolerKind::Bare,
        ("finned", Some(fins)) => CoolerKind::Finned(fins),
        ("fan", None) | ("fan and fins", Some(_)) => CoolerKind::FanBlown {
            air_speed: Velocity::new::<meter_per_second>(number(row, "air_speed_m_per_s")),
            fins,
        },
        ("jacket", None) => CoolerKind::WaterJacket {
            inlet: celsius(number(row, "water_inlet_c")),
            flow: MassRate::new::<kilogram_per_second>(number(row, "water_kg_per_s")),
            coefficient: HeatTransfer::new::<watt_per_square_meter_kelvin>(number(
                row,
                "water_coefficient_w_per_m2_k",
            )),
        },
        (other, _) => panic!("{other}"),
    }
}

/// Fins, fan and jacket, dry and with water that condenses, within 1 % of the temperature drop and of the heat.
#[test]
fn every_kind_agrees_with_the_integration() {
    let dry = reference_gas(&rows("cooler_tube.json", "rows")[0]);
    for row in rows("cooler_kinds.json", "rows") {
        let gas = GasState {
            dry_flow: VolumeRate::new::<cubic_meter_per_second>(number(&row, "dry_flow_nm3_per_s")),
            vapour: MassRate::new::<kilogram_per_second>(number(&row, "steam_kg_per_s")),
            temperature: celsius(number(&row, "inlet_c")),
            ..dry
        };
        let cooler = Cooler {
            tubes: 1,
            length: metres(number(&row, "length_m")),
            bore: metres(number(&row, "inside_diameter_m")),
            wall: metres(
                0.5 * (number(&row, "outside_diameter_m") - number(&row, "inside_diameter_m")),
            ),
            wall_conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(number(
                &row,
                "wall_conductivity_w_per_m_k",
            )),
            roughness: Length::default(),
            emittance: Ratio::new::<ratio>(number(&row, "emissivity")),
            orientation: Orientation::Level,
            block: None,
            header_loss: 0.0,
            kind: reference_kind(&row),
        };
        let outcome = pass(cooler, &gas, number(&row, "ambient_c"));
        let (inlet, outlet) = (number(&row, "inlet_c"), number(&row, "outlet_c"));
        let found = outcome.out.temperature.get::<degree_celsius>();
        assert!(
            (found - outlet).abs() < 0.01 * (inlet - outlet),
            "found {found}: {row}"
        );
        close(
            outcome.heat_rejected.value,
            number(&row, "heat_w"),
            0.01,
            &row,
        );
        let condensed = number(&row, "condensate_kg_per_s");
        let steam = gas.vapour.value;
        let miss = (outcome.condensate.value - condensed).abs();
        assert!(
            miss <= 0.01 * steam,
            "condensed {}: {row}",
            outcome.condensate.value
        );
        if let Some(water) = result(&outcome).water {
            let wanted = number(&row, "water_outlet_c");
            let rise = wanted - number(&row, "water_inlet_c");
            assert!(
                (water.get::<degree_celsius>() - wanted).abs() < 0.01 * rise,
                "{water:?}: {row}"
            );
        }
    }
}
