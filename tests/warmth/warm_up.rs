//! Warming up of the hearth wall.

use crate::random_design::random_design;
use hearthplan::design::inputs::{Layer, Material, OwnMaterial};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::physics::transient::Fineness;
use hearthplan::review::{assess, guided::complete};
use hearthplan::sizing::machine::{Piece, Substance, layout};
use hearthplan::sizing::shell::{ShellError, zone_heat};
use hearthplan::sizing::warm_up::{self, FIRE_BUILDS_UP, LightingFire, SHARE_OF_FIRE, WarmUp};
use hearthplan::sizing::zone::Zone;
use proptest::prelude::*;
use uom::si::available_energy::megajoule_per_kilogram;
use uom::si::f64::{AvailableEnergy, Length, Power, ThermodynamicTemperature};
use uom::si::length::millimeter;
use uom::si::power::kilowatt;
use uom::si::thermodynamic_temperature::degree_celsius;

/// Temperature inside the hearth wall when it is warm.
fn inside() -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(900.0)
}

fn fire(kilowatts: f64) -> LightingFire {
    LightingFire {
        wood_heat: AvailableEnergy::new::<megajoule_per_kilogram>(16.0),
        power: Power::new::<kilowatt>(kilowatts),
        spare: Power::new::<kilowatt>(2.0),
    }
}

/// With a fire that never makes it wait.
fn warm_up(design: &Design) -> Result<WarmUp, ShellError> {
    warm_up::warm_up(design, inside(), fire(1e5))
}

fn with_fineness(design: &Design, fineness: Fineness) -> Result<WarmUp, ShellError> {
    warm_up::with_fineness(design, inside(), fire(1e5), fineness)
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
fn the_quick_answer_is_near_the_fine_one() {
    for design in usual_walls() {
        let quick = warm_up(&design).unwrap();
        let fine = with_fineness(&design, Fineness::FINE).unwrap();
        let off = |quick: f64, fine: f64| (quick / fine - 1.0).abs();
        assert!(
            off(quick.time.value, fine.time.value) < 0.10,
            "{quick:?} {fine:?}"
        );
        assert!(
            off(quick.energy.value, fine.energy.value) < 0.06,
            "{quick:?} {fine:?}"
        );
        assert!(
            off(quick.stored.value, fine.stored.value) < 0.02,
            "{quick:?} {fine:?}"
        );
    }
}

/// Long steps late in the course make the flow into the wall swing about the steady one, here by more than the tenth that
/// it may be above it. The wall was warm long before.
#[test]
fn a_wall_that_is_warm_stays_warm() {
    let mut start = example::to_start_from();
    start.choose("fuel.kind", "charcoal").unwrap();
    for (path, value) in [("engine.wanted_power", 6000.0), ("fuel.piece_size", 0.02)] {
        start.set(path, Value::Number(value)).unwrap();
    }
    let mut design = complete(&start, &[]);
    for doubt in [1.0, 2.19, 2.325, 2.46] {
        let doubt = Value::Number(doubt);
        design
            .set("doubt.insulation_conductivity", doubt.clone())
            .unwrap();
        let assessment = assess(&design);
        let supply = &assessment.heart.at.full.supply;
        let fire = LightingFire {
            power: design.operation.startup_share * supply.fuel_power,
            spare: design.limits.loss_share_watch * supply.fuel_power,
            ..fire(1.0)
        };
        let fine =
            warm_up::with_fineness(&design, supply.wall_temperature, fire, Fineness::FINE).unwrap();
        let quick = assessment.warmth.warm_up.unwrap();
        let off = quick.through_wall.value / fine.through_wall.value - 1.0;
        assert!(off.abs() < 0.2, "{doubt:?}: {quick:?} {fine:?}");
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
}

#[test]
fn a_bare_sheet_is_as_quick_as_the_fire() {
    let bare = warm_up(&lined(&[(Material::MildSteel, 2.0)])).unwrap();
    assert!(
        (bare.time.value / FIRE_BUILDS_UP - 1.0).abs() < 0.05,
        "{bare:?}"
    );
}

#[test]
fn a_thick_blanket_is_hot_on_its_inside_long_before_it_is_filled() {
    let blanket =
        |thickness| warm_up(&lined(&[(Material::CeramicBlanket1260, thickness)])).unwrap();
    let (thin, thick) = (blanket(50.0), blanket(150.0));
    assert!(thick.stored > 2.0 * thin.stored);
    assert!(thick.time < 1.3 * thin.time, "{thin:?} {thick:?}");
    // By hand, for a thick wall under a step: q = A e ΔT / √(π t), with e = √(k ρ c) of blanket at about 0.16 W/(m·K).
    let refractory = warm_up(&lined(&[(Material::DenseCastable, 150.0)])).unwrap();
    let design = Design::default();
    let area = std::f64::consts::PI
        * design.hearth_wall.inside_diameter.value
        * design.hearth_wall.height.value;
    let castable = design.material(Material::DenseCastable).unwrap();
    let effusivity = (1.35 * castable.density.value * castable.heat_capacity.value).sqrt();
    let flow = area * effusivity * 880.0 / (std::f64::consts::PI * refractory.time.value).sqrt();
    assert!(
        refractory.spared.value / flow > 0.7 && refractory.spared.value / flow < 1.5,
        "{flow} {refractory:?}"
    );
}

#[test]
fn a_larger_fire_never_takes_longer() {
    for design in usual_walls() {
        let mut before = f64::INFINITY;
        for kilowatts in [0.5, 2.0, 8.0, 30.0, 100.0, 1e4] {
            let warm = warm_up::warm_up(&design, inside(), fire(kilowatts)).unwrap();
            assert!(warm.time.value <= before, "{kilowatts} kW: {warm:?}");
            before = warm.time.value;
            // The heat is the same for any fire, and no more of it than the share is used.
            assert!(warm.energy.value <= 1.000_001 * SHARE_OF_FIRE * 1e3 * kilowatts * before);
        }
        assert_eq!(before, warm_up(&design).unwrap().through_wall.value);
    }
}

#[test]
fn the_heat_of_the_hearth_is_that_of_its_parts() {
    // By hand: steel 560 J/(kg·K) and char 1600, from 20 °C, the default's air, to 900 °C.
    let design = Design::default();
    let machine = layout(&design);
    let mut heat = 0.0;
    for solid in &machine.solids {
        let is_inside = matches!(solid.piece, Piece::OfSection { .. });
        if is_inside && ["hearth", "grate"].contains(&solid.piece.path().as_str()) {
            heat += match solid.substance {
                Substance::Char => 1600.0,
                Substance::Material(_) => 560.0,
                _ => 0.0,
            } * solid.mass.value;
        }
    }
    heat *= inside().value - design.site.air_temperature.value;
    let found = warm_up(&design).unwrap();
    assert!(
        heat > 1e6 && (found.hearth.value / heat - 1.0).abs() < 1e-9,
        "{heat} {found:?}"
    );
}

#[test]
fn the_example_waits_for_its_fire() {
    // By hand: the heat taken in, over a quarter of the heat in the wood at the lighting flow.
    let design = example::as_improved();
    let assessment = assess(&design);
    let warm = assessment.warmth.warm_up.as_ref().unwrap();
    let fire =
        assessment.heart.at.full.supply.fuel_power.value * design.operation.startup_share.value;
    assert!((warm.by_fire.value * 0.25 * fire / warm.energy.value - 1.0).abs() < 1e-9);
    assert!(warm.waits_for_fire() && warm.time == warm.by_fire);
    let finding = assessment.finding("warmth.warm_up").unwrap();
    let words = finding.compared.text(System::Metric);
    assert!(
        words.contains("at the lighting flow the fire gives"),
        "{words}"
    );
    // More of it at the start is offered, and warms sooner.
    let mut more = design.clone();
    more.operation.startup_share *= 1.2;
    let sooner = assess(&more).warmth.warm_up.unwrap();
    assert!(sooner.time < warm.time);
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
