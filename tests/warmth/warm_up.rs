//! Warming up of the hearth wall.

use crate::random_design::random_design;
use hearthplan::design::Design;
use hearthplan::design::inputs::{Layer, Material, OwnMaterial};
use hearthplan::physics::transient::Fineness;
use hearthplan::sizing::shell::{ShellError, zone_heat};
use hearthplan::sizing::warm_up::{self, FIRE_BUILDS_UP, WarmUp};
use hearthplan::sizing::zone::Zone;
use proptest::prelude::*;
use uom::si::available_energy::megajoule_per_kilogram;
use uom::si::f64::{AvailableEnergy, Length, ThermodynamicTemperature};
use uom::si::length::millimeter;
use uom::si::thermodynamic_temperature::degree_celsius;

/// Temperature inside the hearth wall when it is warm.
fn inside() -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(900.0)
}

fn wood_heat() -> AvailableEnergy {
    AvailableEnergy::new::<megajoule_per_kilogram>(16.0)
}

fn warm_up(design: &Design) -> Result<WarmUp, ShellError> {
    warm_up::warm_up(design, inside(), wood_heat())
}

fn with_fineness(design: &Design, fineness: Fineness) -> Result<WarmUp, ShellError> {
    warm_up::with_fineness(design, inside(), wood_heat(), fineness)
}

fn lined(layers: &[(Material, f64)]) -> Design {
    Design {
        hearth_layers: layers
            .iter()
            .map(|&(material, thickness)| Layer {
                material,
                thickness: Length::new::<millimeter>(thickness),
            })
            .collect(),
        ..Design::default()
    }
}

fn usual_walls() -> [Design; 5] {
    [
        Design::default(),
        lined(&[(Material::MildSteel, 4.0)]),
        lined(&[
            (Material::Stainless310, 5.0),
            (Material::AirGap, 10.0),
            (Material::MildSteel, 2.0),
        ]),
        lined(&[
            (Material::DenseCastable, 60.0),
            (Material::CeramicBlanket1260, 50.0),
            (Material::MildSteel, 1.5),
        ]),
        lined(&[
            (Material::InsulatingFirebrick, 114.0),
            (Material::RockWool, 50.0),
            (Material::Aluminium, 1.0),
        ]),
    ]
}

#[test]
fn the_quick_answer_is_within_five_percent_of_the_fine_one() {
    for design in usual_walls() {
        let quick = warm_up(&design).unwrap();
        let fine = with_fineness(&design, Fineness::FINE).unwrap();
        let off = |quick: f64, fine: f64| (quick / fine - 1.0).abs();
        assert!(
            off(quick.time.value, fine.time.value) < 0.05,
            "{quick:?} {fine:?}"
        );
        assert!(
            off(quick.energy.value, fine.energy.value) < 0.05,
            "{quick:?} {fine:?}"
        );
        assert!(
            off(quick.stored.value, fine.stored.value) < 0.02,
            "{quick:?} {fine:?}"
        );
    }
}

#[test]
fn the_heat_stored_is_that_of_the_steady_layers() {
    // One thick layer of constant conductivity: the steady profile is logarithmic, so its stored heat has a closed form.
    let mut own = OwnMaterial::default();
    own.conductivity_1.value = 0.5;
    let mut design = lined(&[(Material::Own1, 80.0)]);
    design.own_materials = vec![own.clone()];
    let steady = zone_heat(&design, Zone::Hearth, inside()).unwrap();
    let (inner, outer) = (
        0.5 * steady.inner_diameter.value,
        0.5 * steady.outer_diameter.value,
    );
    let air = design.site.air_temperature.value;
    let hot = steady.inner_temperature.value - air;
    let cold = steady.surface_temperature.value - air;
    // ∫ 2πr (hot − (hot − cold) ln(r/inner) / ln(outer/inner)) dr
    let squares = outer * outer - inner * inner;
    let log = (outer / inner).ln();
    let mean =
        hot * squares / 2.0 - (hot - cold) / log * (outer * outer / 2.0 * log - squares / 4.0);
    let expected = std::f64::consts::TAU
        * mean
        * design.hearth_wall.height.value
        * own.density.value
        * own.heat_capacity.value;
    let stored = with_fineness(&design, Fineness::FINE).unwrap().stored.value;
    assert!(
        (stored / expected - 1.0).abs() < 0.01,
        "{stored} {expected}"
    );
}

#[test]
fn a_heavier_wall_takes_longer_and_more_wood() {
    let light = warm_up(&lined(&[
        (Material::DenseCastable, 40.0),
        (Material::RockWool, 50.0),
    ]))
    .unwrap();
    let heavy = warm_up(&lined(&[
        (Material::DenseCastable, 120.0),
        (Material::RockWool, 50.0),
    ]))
    .unwrap();
    assert!(heavy.time > 1.5 * light.time);
    assert!(heavy.wood > 1.5 * light.wood);
    assert!(heavy.energy > 0.9 * heavy.stored);
}

#[test]
fn a_bare_sheet_is_as_quick_as_the_fire() {
    let bare = warm_up(&lined(&[(Material::MildSteel, 2.0)])).unwrap();
    assert!(
        (bare.time.value / (0.9 * FIRE_BUILDS_UP) - 1.0).abs() < 0.05,
        "{bare:?}"
    );
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_wall_warms_in_a_finite_time_or_says_why_not(seed in any::<u64>()) {
        match warm_up(&random_design(seed)) {
            Ok(warm) => {
                prop_assert!(warm.time.value.is_finite() && warm.time.value >= 0.0);
                prop_assert!(warm.energy.value.is_finite() && warm.wood.value.is_finite());
            }
            Err(ShellError::Material { .. }) => {}
            Err(error) => prop_assert!(error.to_string().contains("solid layer"), "{}", error),
        }
    }
}
