//! Flammability, wiring and heat shields.

use crate::reference::{close, number, numbers, rows};
use hearthplan::physics::equilibrium::GasAmounts;
use hearthplan::sizing::flammability::{OxygenLevel, flammability, with_air};
use hearthplan::sizing::heat_shield::{MOST_SHIELDS, ShieldSheet, ShieldedBox};
use hearthplan::sizing::nozzles::Surroundings;
use hearthplan::sizing::wiring::{
    Circuit, Conductor, ConductorName, SizeSystem, WiringError, copper_resistance, gauge_diameter,
    load_sum,
};
use proptest::prelude::*;
use serde_json::Value;
use uom::si::area::square_meter;
use uom::si::electric_potential::volt;
use uom::si::f64::{
    Area, ElectricPotential, Length, Power, Pressure, Ratio, ThermalConductivity,
    ThermodynamicTemperature,
};
use uom::si::length::meter;
use uom::si::power::watt;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermal_conductivity::watt_per_meter_kelvin;
use uom::si::thermodynamic_temperature::degree_celsius;

fn share(number: f64) -> Ratio {
    Ratio::new::<ratio>(number)
}

fn celsius(temperature: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(temperature)
}

fn usual_gas() -> GasAmounts {
    GasAmounts {
        carbon_monoxide: 0.21,
        carbon_dioxide: 0.11,
        hydrogen: 0.17,
        methane: 0.02,
        nitrogen: 0.49,
        ..GasAmounts::default()
    }
}

/// Pure fuels have the limits of the table: 12.5 to 74, 4 to 75, 5 to 15 vol %.
#[test]
fn pure_fuels_have_their_own_limits() {
    let pure = [
        (
            GasAmounts {
                carbon_monoxide: 1.0,
                ..GasAmounts::default()
            },
            0.125,
            0.74,
        ),
        (
            GasAmounts {
                hydrogen: 1.0,
                ..GasAmounts::default()
            },
            0.04,
            0.75,
        ),
        (
            GasAmounts {
                methane: 1.0,
                ..GasAmounts::default()
            },
            0.05,
            0.15,
        ),
    ];
    for (gas, lower, upper) in pure {
        let found = flammability(&gas).unwrap();
        assert!((found.lower.unwrap().value - lower).abs() < 1e-12);
        // The oxygen rule may come first by a hair.
        assert!(
            (found.upper.unwrap().value - upper).abs() < 0.011,
            "{found:?}"
        );
        assert!(!found.burns_as_it_is);
    }
}

/// By hand: 1 / (0.21/0.125 + 0.17/0.04 + 0.02/0.05) = 0.158. Measured for producer gas: about 17 to 70 vol %.
#[test]
fn usual_gas_burns_between_a_sixth_and_seven_tenths() {
    let found = flammability(&usual_gas()).unwrap();
    assert!((found.lower.unwrap().value - 1.0 / 6.33).abs() < 1e-6);
    assert!((found.lower.unwrap().value - 0.17).abs() < 0.02);
    assert!((found.upper.unwrap().value - 0.70).abs() < 0.05);
    assert_eq!(found.oxygen_level, OxygenLevel::Low);
}

#[test]
fn air_that_leaks_in_is_seen() {
    let leaky = |percent: f64| {
        flammability(&with_air(&usual_gas(), share(percent / 100.0)).unwrap()).unwrap()
    };
    assert_eq!(leaky(1.0).oxygen_level, OxygenLevel::Low);
    assert_eq!(leaky(12.0).oxygen_level, OxygenLevel::Caution);
    assert_eq!(leaky(30.0).oxygen_level, OxygenLevel::Stop);
    assert!(!leaky(12.0).burns_as_it_is);
    assert!(leaky(60.0).burns_as_it_is && leaky(300.0).burns_as_it_is);
    assert!(!leaky(900.0).burns_as_it_is);
    // The limits are those of the gas itself, however much air is in it.
    assert!((leaky(30.0).lower.unwrap().value - leaky(0.0).lower.unwrap().value).abs() < 1e-9);
}

#[test]
fn inert_gas_and_air_do_not_burn() {
    let nitrogen = GasAmounts {
        nitrogen: 1.0,
        ..GasAmounts::default()
    };
    assert_eq!(flammability(&nitrogen).unwrap().lower, None);
    let weak = GasAmounts {
        carbon_monoxide: 0.05,
        nitrogen: 0.95,
        ..GasAmounts::default()
    };
    assert_eq!(flammability(&weak).unwrap().lower, None);
    assert!(
        !flammability(&with_air(&nitrogen, share(1.0)).unwrap())
            .unwrap()
            .burns_as_it_is
    );
}

proptest! {
    #[test]
    fn any_gas_has_limits_or_a_reason(n: [f64; 7], small in prop::array::uniform7(0.0..1.0_f64), ingress: f64) {
        for n in [n, small] {
            let gas = GasAmounts {
                carbon_monoxide: n[0], carbon_dioxide: n[1], hydrogen: n[2], water: n[3], methane: n[4], nitrogen: n[5],
                oxygen: n[6],
            };
            if let Ok(found) = flammability(&gas) {
                prop_assert!(found.oxygen.value >= 0.0);
                if let (Some(lower), Some(upper)) = (found.lower, found.upper) {
                    prop_assert!(lower.value > 0.0 && lower < upper && upper.value <= 1.0);
                }
            }
            if let Ok(mixed) = with_air(&gas, share(ingress)) {
                prop_assert!((mixed.total() - 1.0).abs() < 1e-9);
            }
        }
    }
}

#[test]
fn gauges_agree_with_their_standard() {
    for row in rows("cable.json", "gauges") {
        let gauge = number(&row, "gauge_awg") as i32;
        let diameter = gauge_diameter(gauge).unwrap().value;
        close(diameter, number(&row, "diameter_m"), 1e-9, &row);
        let area = Area::new::<square_meter>(number(&row, "area_m2"));
        let one = copper_resistance(area, Length::new::<meter>(1.0), celsius(20.0)).unwrap();
        close(one.value, number(&row, "resistance_ohm_per_m"), 1e-8, &row);
    }
}

#[test]
fn metric_conductors_agree_with_their_standard() {
    let all = Conductor::all(SizeSystem::Metric);
    let mut seen = 0;
    for row in rows("cable.json", "metric") {
        let area = number(&row, "area_m2");
        let found = all
            .iter()
            .find(|one| (one.area.value / area - 1.0).abs() < 1e-9);
        let flexible = row["conductor_class"] == "5";
        if let Some(conductor) = found.filter(|_| flexible) {
            let metre = Length::new::<meter>(1.0);
            let one = conductor.resistance(metre, celsius(20.0)).unwrap();
            let wanted = number(&row, "greatest_resistance_ohm_per_m");
            close(one.value, wanted, 1e-9, &row);
            seen += 1;
        }
    }
    assert_eq!(seen, all.len());
}

#[test]
fn drops_agree_with_the_reference() {
    for row in rows("cable.json", "drops") {
        let out_and_back = Length::new::<meter>(2.0 * number(&row, "run_m"));
        let area = Area::new::<square_meter>(number(&row, "area_m2"));
        let found =
            copper_resistance(area, out_and_back, celsius(number(&row, "conductor_c"))).unwrap();
        close(
            found.value * number(&row, "current_a"),
            number(&row, "drop_v"),
            1e-9,
            &row,
        );
    }
}

fn circuit(power: f64, length: f64) -> Circuit {
    Circuit {
        power: Power::new::<watt>(power),
        duty: share(0.5),
        voltage: ElectricPotential::new::<volt>(12.0),
        length: Length::new::<meter>(length),
        greatest_drop: share(0.03),
        around: celsius(40.0),
    }
}

#[test]
fn cable_grows_with_load_and_length() {
    for system in [SizeSystem::Metric, SizeSystem::Gauge] {
        let area = |power, length| {
            circuit(power, length)
                .thinnest(system)
                .unwrap()
                .conductor
                .area
        };
        assert!(area(60.0, 2.0) <= area(120.0, 2.0) && area(120.0, 2.0) < area(120.0, 8.0));
        assert_eq!(
            circuit(4000.0, 3.0).thinnest(system),
            Err(WiringError::NoCable)
        );
    }
    let sum = load_sum(&[circuit(60.0, 2.0), circuit(120.0, 3.0)]);
    assert!((sum.mean.value - 90.0).abs() < 1e-12 && (sum.greatest.value - 180.0).abs() < 1e-12);
    let hot = Circuit {
        around: celsius(60.0),
        ..circuit(180.0, 1.0)
    };
    assert!(hot.thinnest(SizeSystem::Metric).unwrap().conductor.area > area_at(40.0));
}

fn area_at(around: f64) -> Area {
    let circuit = Circuit {
        around: celsius(around),
        ..circuit(180.0, 1.0)
    };
    circuit.thinnest(SizeSystem::Metric).unwrap().conductor.area
}

proptest! {
    /// Whatever is chosen is safe: load below fuse below cable, loss within the limit.
    #[test]
    fn chosen_cables_are_safe(power: f64, length: f64, sound in 1.0..800.0_f64, metres in 0.1..20.0_f64, heat in -20.0..60.0_f64) {
        for (power, length) in [(power, length), (sound, metres)] {
            let circuit = Circuit { around: celsius(heat), ..circuit(power, length) };
            for system in [SizeSystem::Metric, SizeSystem::Gauge] {
                if let Ok(found) = circuit.thinnest(system) {
                    let fuse = found.fuse.unwrap();
                    prop_assert!(found.current <= fuse * 0.8001 && fuse <= found.carries);
                    prop_assert!(found.drop_share <= circuit.greatest_drop);
                    let named = matches!(found.conductor.name, ConductorName::Gauge(_));
                    prop_assert_eq!(named, system == SizeSystem::Gauge);
                }
            }
        }
    }
}

/// Box of the reference file: 0.8 mm steel, gaps of 15 mm, 0.3 m high.
fn reference_box(row: &Value) -> ShieldedBox {
    let layers = row["layers"].as_array().unwrap();
    let sheets = number(row, "shields") as usize;
    let gap = |index: usize| &layers[2 * index];
    let height = number(row, "height_m");
    let metres = |length| Length::new::<meter>(length);
    ShieldedBox {
        hot_wall: celsius(number(row, "hot_face_c")),
        hot_emittance: share(number(gap(0), "emissivity_inner")),
        shields: (0..sheets)
            .map(|index| ShieldSheet {
                thickness: metres(number(&layers[2 * index + 1], "thickness_m")),
                emittance: share(number(gap(index), "emissivity_outer")),
            })
            .collect(),
        gap: metres(number(gap(0), "thickness_m")),
        box_wall: metres(number(&layers[2 * sheets + 1], "thickness_m")),
        box_conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(45.0),
        box_emittance: share(number(row, "emissivity")),
        height: metres(height),
        width: metres(number(row, "area_m2") / height),
    }
}

fn around(row: &Value) -> Surroundings {
    Surroundings {
        temperature: celsius(number(row, "ambient_c")),
        pressure: Pressure::new::<pascal>(101_325.0),
    }
}

#[test]
fn shielded_boxes_agree_with_the_reference() {
    for row in rows("heat_shield.json", "rows") {
        let found = reference_box(&row).solve(&around(&row)).unwrap();
        close(found.heat.value, number(&row, "heat_flow_w"), 5e-3, &row);
        let surface = found.box_temperature.get::<degree_celsius>();
        assert!(
            (surface - number(&row, "surface_c")).abs() < 0.5,
            "{surface}: {row}"
        );
        let faces = numbers(&row, "face_temperatures_c");
        for (index, sheet) in found.shields.iter().enumerate() {
            let wanted = faces[2 * index + 2];
            assert!(
                (sheet.get::<degree_celsius>() - wanted).abs() < 1.0,
                "{index}: {row}"
            );
        }
        let face = found.box_face.get::<degree_celsius>();
        assert!((face - faces[faces.len() - 2]).abs() < 0.5, "{face}: {row}");
        assert!(
            (found.last_gap - number(&row, "last_gap")).abs() < 0.02,
            "{row}"
        );
    }
}

#[test]
fn fewest_shields_are_found() {
    let row = rows("heat_shield.json", "rows")
        .into_iter()
        .find(|row| number(row, "hot_face_c") > 400.0)
        .unwrap();
    let (case, around) = (reference_box(&row), around(&row));
    let sheet = ShieldSheet {
        thickness: Length::new::<meter>(0.0008),
        emittance: share(0.1),
    };
    let count = case
        .shields_needed(sheet, celsius(60.0), &around)
        .unwrap()
        .unwrap();
    let with = |count| {
        ShieldedBox {
            shields: vec![sheet; count],
            ..case.clone()
        }
        .solve(&around)
        .unwrap()
        .box_temperature
    };
    assert!(count >= 1 && with(count) <= celsius(60.0) && with(count - 1) > celsius(60.0));
    assert_eq!(case.shields_needed(sheet, celsius(30.0), &around), Ok(None));
    let crowd = ShieldedBox {
        shields: vec![sheet; MOST_SHIELDS + 1],
        ..case
    };
    assert!(crowd.solve(&around).is_err());
}
