//! The table of materials and the person's own.

use hearthplan::design::inputs::{Material, OwnMaterial};
use hearthplan::design::materials::MaterialError;
use hearthplan::design::{Choice, Design, celsius};
use uom::si::f64::{ThermalConductivity, ThermodynamicTemperature};
use uom::si::thermal_conductivity::watt_per_meter_kelvin;
use uom::si::thermodynamic_temperature::degree_celsius;

fn options() -> impl Iterator<Item = Material> {
    Material::OPTIONS
        .iter()
        .filter_map(|option| Material::from_name(option.name))
}

#[test]
fn every_row_is_sensible_and_in_order() {
    let design = Design::default();
    let rows: Vec<_> = options()
        .filter_map(|material| design.material(material).ok())
        .collect();
    assert_eq!(rows.len(), 13);
    for row in rows {
        assert!((50.0..9000.0).contains(&row.density.value), "{}", row.name);
        assert!(
            (400.0..1500.0).contains(&row.heat_capacity.value),
            "{}",
            row.name
        );
        assert!((0.02..=1.0).contains(&row.emittance.value), "{}", row.name);
        assert!(row.limit.value > celsius(150.0), "{}", row.name);
        assert!((1..=5).contains(&row.conductivity.len()), "{}", row.name);
        let rising = row
            .conductivity
            .windows(2)
            .all(|pair| pair[0].temperature < pair[1].temperature);
        assert!(rising, "{}", row.name);
    }
}

#[test]
fn insulation_is_told_from_structure() {
    let design = Design::default();
    let insulates = |material| design.material(material).unwrap().insulates;
    for material in [
        Material::CeramicBlanket1260,
        Material::CeramicBlanket1430,
        Material::RockWool,
        Material::CalciumSilicate,
        Material::Vermiculite,
        Material::InsulatingFirebrick,
        Material::Perlite,
        Material::WoodAsh,
    ] {
        assert!(insulates(material), "{}", material.label());
    }
    for material in [
        Material::MildSteel,
        Material::Stainless304,
        Material::Stainless310,
        Material::Aluminium,
        Material::DenseCastable,
    ] {
        assert!(!insulates(material), "{}", material.label());
    }
}

#[test]
fn own_materials_take_what_was_entered_sorted_by_temperature() {
    let own = OwnMaterial::default();
    let mut hotter_first = own.clone();
    hotter_first.temperature_2 = Some(own.temperature_1);
    hotter_first.conductivity_2 = Some(own.conductivity_1);
    hotter_first.temperature_1.value = celsius(500.0);
    hotter_first.conductivity_1.value = 0.15;
    let mut twice = own.clone();
    twice.temperature_3 = Some(own.temperature_1);
    twice.conductivity_3 = Some(own.conductivity_1);
    let mut mistyped = own.clone();
    mistyped.temperature_2 = Some(ThermodynamicTemperature::new::<degree_celsius>(400.0));
    mistyped.conductivity_2 = Some(ThermalConductivity::new::<watt_per_meter_kelvin>(12.0));
    let design = Design {
        own_materials: vec![own, hotter_first, twice, mistyped],
        ..Design::default()
    };
    let one = design.material(Material::Own1).unwrap();
    assert_eq!(one.conductivity.len(), 1);
    assert!(one.insulates);
    let two = design.material(Material::Own2).unwrap();
    assert_eq!(two.conductivity[0].temperature.value, celsius(200.0));
    assert_eq!(two.conductivity[1].conductivity.value, 0.15);
    assert_eq!(
        design.material(Material::Own3),
        Err(MaterialError::SameTemperature { number: 3 })
    );
    assert_eq!(
        design.material(Material::Own4),
        Err(MaterialError::Spread { number: 4 })
    );
    assert_eq!(
        Design::default().material(Material::Own4),
        Err(MaterialError::NoOwnMaterial { number: 4 })
    );
    assert_eq!(
        design.material(Material::AirGap),
        Err(MaterialError::AirGap)
    );
}
