//! Cyclones, filters and water against reference data.

use crate::reference::{close, document, number, rows};
use hearthplan::sizing::condensate::{condensate_per_mole, dew_point};
use hearthplan::sizing::cyclone::{Cyclone, CycloneGas, CycloneResult, Proportions};
use hearthplan::sizing::filter::{Filter, FilterResult, Medium};
use hearthplan::sizing::pressure_chain::Filter as Condition;
use hearthplan::sizing::train::{
    Detail, Dust, GasState, Note, Stage, StageOutcome, TrainLoad, example,
};
use serde_json::Value;
use uom::si::area::square_meter;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{
    Area, DynamicViscosity, Length, MassDensity, MassRate, Pressure, Ratio, ThermalConductance,
    ThermodynamicTemperature, VolumeRate,
};
use uom::si::length::{meter, micrometer};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::mass_rate::gram_per_second;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};
use uom::si::volume_rate::cubic_meter_per_second;

#[test]
fn dew_points_agree_with_the_water_tables() {
    for row in rows("dew_point.json", "dew_points") {
        let share = Ratio::new::<ratio>(number(&row, "mole_fraction_h2o"));
        let pressure = Pressure::new::<pascal>(number(&row, "pressure_pa"));
        let found = dew_point(share, pressure).unwrap().value;
        assert!(
            (found - number(&row, "dew_point_k")).abs() < 0.1,
            "{found}: {row}"
        );
    }
}

#[test]
fn condensate_agrees_with_the_water_tables() {
    for row in rows("dew_point.json", "condensates") {
        let share = Ratio::new::<ratio>(number(&row, "mole_fraction_h2o_inlet"));
        let pressure = Pressure::new::<pascal>(number(&row, "pressure_pa"));
        let outlet = ThermodynamicTemperature::new::<kelvin>(number(&row, "outlet_k"));
        let found = condensate_per_mole(share, outlet, pressure).unwrap();
        let wanted = number(&row, "condensate_kg_per_mol_dry_gas");
        assert!(
            (found - wanted).abs() < 1e-3 * wanted + 1e-9,
            "{found}: {row}"
        );
    }
}

fn separate(row: &Value) -> CycloneResult {
    let cyclone = Cyclone {
        proportions: if row["kind"] == "Lapple" {
            Proportions::Lapple
        } else {
            Proportions::Stairmand
        },
        body_diameter: Length::new::<meter>(number(row, "body_diameter_m")),
        particle_density: MassDensity::new::<kilogram_per_cubic_meter>(number(
            row,
            "particle_density_kg_per_m3",
        )),
        wall_conductance: ThermalConductance::default(),
    };
    let gas = CycloneGas {
        flow: VolumeRate::new::<cubic_meter_per_second>(number(row, "flow_m3_per_s")),
        density: MassDensity::new::<kilogram_per_cubic_meter>(number(row, "density_kg_per_m3")),
        viscosity: DynamicViscosity::new::<pascal_second>(number(row, "viscosity_pa_s")),
    };
    cyclone.separate(&gas).unwrap()
}

#[test]
fn cyclones_agree_with_the_reference() {
    for row in rows("cyclone.json", "rows") {
        let found = separate(&row);
        close(
            found.inlet_velocity.value,
            number(&row, "inlet_velocity_m_per_s"),
            1e-9,
            &row,
        );
        close(found.turns, number(&row, "turns"), 1e-9, &row);
        close(
            found.cut_diameter.value,
            number(&row, "cut_diameter_m"),
            1e-8,
            &row,
        );
        close(
            found.velocity_heads,
            number(&row, "velocity_heads_lost"),
            1e-9,
            &row,
        );
        close(
            found.pressure_loss.value,
            number(&row, "pressure_drop_pa"),
            1e-8,
            &row,
        );
    }
}

/// The example of the textbook: a body of one metre cuts at about 6.3 µm.
#[test]
fn cyclone_of_the_worked_example() {
    let row = document("cyclone.json")["worked_example_from_memory"].clone();
    let found = separate(&row);
    close(
        found.cut_diameter.value,
        number(&row, "cut_diameter_remembered_m"),
        0.02,
        &row,
    );
    assert!((found.caught(found.cut_diameter) - 0.5).abs() < 1e-12);
    assert!(found.caught(Length::new::<micrometer>(60.0)) > 0.98);
}

#[test]
fn dust_keeps_its_mass_and_a_second_cyclone_catches_less() {
    let rate = MassRate::new::<gram_per_second>(0.02);
    for median in [0.2, 1.0, 20.0, 150.0, 900.0] {
        for spread in [1.1, 2.5, 9.0] {
            let median = Length::new::<micrometer>(median);
            let dust = Dust::log_normal(rate, median, Ratio::new::<ratio>(spread)).unwrap();
            assert!((dust.total() / rate - Ratio::new::<ratio>(1.0)).value.abs() < 1e-12);
        }
    }
    let load = example::full_load();
    let cyclone = Stage::Cyclone(example::cyclone());
    let first = cyclone.pass(&load.start, &load.circumstances).unwrap();
    let second = cyclone.pass(&first.out, &load.circumstances).unwrap();
    let share =
        |outcome: &StageOutcome, gas: &GasState| (outcome.dust_caught / gas.dust.total()).value;
    assert!(share(&first, &load.start) > 0.9);
    assert!(share(&second, &first.out) < share(&first, &load.start));
}

fn filtered(filter: Filter, load: &TrainLoad) -> (StageOutcome, FilterResult) {
    let outcome = Stage::Filter(filter)
        .pass(&load.start, &load.circumstances)
        .unwrap();
    match outcome.detail.clone() {
        Detail::Filter(result) => (outcome, result),
        other => panic!("{other:?}"),
    }
}

fn warm_load() -> TrainLoad {
    let mut load = example::full_load();
    load.start.temperature = ThermodynamicTemperature::new::<degree_celsius>(180.0);
    load
}

/// Cloth of 3 m² with resistances of round numbers, checked by hand.
#[test]
fn cloth_loses_in_step_with_velocity_and_cake() {
    let cloth = Filter {
        medium: Medium::Cloth {
            resistance: 2e8,
            cake_resistance: 1e10,
        },
        area: Area::new::<square_meter>(3.0),
        may_be_wet: false,
        wall_conductance: ThermalConductance::default(),
        ..example::filter()
    };
    let load = warm_load();
    let (outcome, result) = filtered(cloth, &load);
    let properties = load.start.properties().unwrap();
    let velocity = load.start.volume_rate().value / 3.0;
    let clean = properties.viscosity * velocity * 2e8;
    let dirty = properties.viscosity * velocity * (2e8 + 1e10 / 3.0);
    assert!((result.clean_loss.value / clean - 1.0).abs() < 1e-12);
    assert!((result.dirty_loss.value / dirty - 1.0).abs() < 1e-12);
    assert!((outcome.pressure_loss.value / clean - 1.0).abs() < 1e-6);
    // 1 kg at 95 % of 0.06 kg/h.
    let hours = result.change_interval.unwrap().value / 3600.0;
    assert!((hours - 1.0 / (0.95 * 0.06)).abs() < 1e-6);
    assert!(outcome.notes.is_empty(), "{:?}", outcome.notes);
    let mut dirty_load = load;
    dirty_load.circumstances.filter = Condition::Dirty;
    assert!((filtered(cloth, &dirty_load).0.pressure_loss.value / dirty - 1.0).abs() < 1e-6);
}

#[test]
fn filter_says_hot_wet_and_fast() {
    let dry = Filter {
        may_be_wet: false,
        ..example::filter()
    };
    let hot = example::full_load();
    assert!(filtered(dry, &hot).0.notes.contains(&Note::MediumTooHot));
    let mut cold = example::full_load();
    cold.start.temperature = ThermodynamicTemperature::new::<degree_celsius>(50.0);
    assert!(filtered(dry, &cold).0.notes.contains(&Note::MediumWet));
    assert!(
        !filtered(example::filter(), &cold)
            .0
            .notes
            .contains(&Note::MediumWet)
    );
    let small = Filter {
        area: Area::new::<square_meter>(0.02),
        ..dry
    };
    assert!(
        filtered(small, &warm_load())
            .0
            .notes
            .contains(&Note::TooFast)
    );
}

/// A drained bed takes drops out, one that must stay dry does not.
#[test]
fn drained_bed_catches_drops() {
    let mut load = example::full_load();
    load.start.temperature = ThermodynamicTemperature::new::<degree_celsius>(35.0);
    load.start.liquid = load.start.vapour * 0.2;
    let (drained, _) = filtered(example::filter(), &load);
    assert!(drained.water_removed.value > 0.0 && drained.out.liquid < drained.water_removed);
    let (kept, _) = filtered(
        Filter {
            may_be_wet: false,
            ..example::filter()
        },
        &load,
    );
    assert_eq!(kept.water_removed, MassRate::default());
}
