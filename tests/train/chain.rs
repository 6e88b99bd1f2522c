//! The whole train: balances, any order of stages, refusals, time.

use super::balance::assert_balanced;
use hearthplan::sizing::cooler::{Cooler, CoolerKind};
use hearthplan::sizing::pressure_chain::{End, Filter as Condition};
use hearthplan::sizing::train::{
    Cover, Detail, Note, PipeRun, Stage, StageError, StageOutcome, SystemCurve, Train, TrainLoad,
    WithEngine, example, needed,
};
use proptest::prelude::*;
use uom::si::f64::{Length, Pressure, Ratio, ThermodynamicTemperature, Velocity, VolumeRate};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::velocity::meter_per_second;

#[test]
fn example_train_is_balanced_and_cools_the_gas() {
    for load in example::three_loads() {
        let found = Train::solve(&example::stages(), &load).unwrap();
        assert_balanced(&load, &found);
        let end = found.points.last().unwrap();
        assert!(end.temperature.get::<degree_celsius>() < 60.0);
        assert!(end.dust.total() < load.start.dust.total() * 0.05);
        assert!(found.condensate.value > 0.0);
        if load.circumstances.end == End::Flare {
            assert_eq!(found.points.len(), 8);
            let Detail::Blower(blower) = &found.outcomes.last().unwrap().detail else {
                panic!()
            };
            assert!(blower.speed.unwrap().value > 0.1 && blower.needed.value > 0.0);
            let air = load.circumstances.surroundings.pressure;
            assert!((end.pressure - air - blower.flare_loss).value.abs() < 1e-6);
        } else {
            let Detail::Engine(engine) = &found.outcomes.last().unwrap().detail else {
                panic!()
            };
            let air = load.circumstances.surroundings.pressure;
            assert!((air - end.pressure - engine.vacuum).value.abs() < 1e-6);
        }
    }
}

/// Stages without heat loss give off no heat, and the gas keeps its temperature.
#[test]
fn tight_stages_keep_the_heat() {
    let load = example::full_load();
    let pipe = PipeRun {
        cover: Cover::NoLoss,
        ..example::pipe()
    };
    let found = Train::solve(&[Stage::Pipe(pipe)], &load).unwrap();
    assert!(found.heat_rejected.value.abs() < 1e-6);
    assert!((found.points[1].temperature.value - load.start.temperature.value).abs() < 1e-9);
}

/// Drops dry up where they meet warmer pressure and heat of the blower; the blower's work is in the gas.
#[test]
fn blower_work_warms_the_gas() {
    let load = example::full_load();
    let mut blower = example::blower().unwrap();
    blower.with_engine = WithEngine::Running(Ratio::new::<ratio>(1.0));
    // 30 Nm³/h of hot gas is beyond the curve; a cooler comes first.
    let stages = [Stage::Cooler(example::cooler()), Stage::Blower(blower)];
    let found = Train::solve(&stages, &load).unwrap();
    assert_balanced(&load, &found);
    assert!(found.work_added.value > 1.0 && found.total_rise.value > 100.0);
    assert!(found.points[2].temperature > found.points[1].temperature);
}

#[test]
fn a_dirty_filter_costs_more() {
    let clean = example::full_load();
    let mut dirty = clean;
    dirty.circumstances.filter = Condition::Dirty;
    let loss = |load| Train::solve(&example::stages(), &load).unwrap().total_loss;
    assert!(loss(dirty) > loss(clean));
}

/// The same cyclone loses less pressure behind the cooler: the gas is denser and slower there.
#[test]
fn order_matters_through_density() {
    let load = example::full_load();
    let (cyclone, cooler) = (
        Stage::Cyclone(example::cyclone()),
        Stage::Cooler(example::cooler()),
    );
    let before = Train::solve(&[cyclone.clone(), cooler.clone()], &load).unwrap();
    let behind = Train::solve(&[cooler, cyclone], &load).unwrap();
    assert!(behind.outcomes[1].pressure_loss < before.outcomes[0].pressure_loss);
    assert!(behind.outcomes[1].density > before.outcomes[0].density);
}

#[test]
fn orders_without_sense_are_refused() {
    let load = example::full_load();
    let reason = |stages: &[Stage], load: &TrainLoad| Train::solve(stages, load).unwrap_err();
    assert_eq!(reason(&[], &load).reason, StageError::NoStages);
    let behind = reason(&[Stage::Engine, Stage::Pipe(example::pipe())], &load);
    assert_eq!(
        (behind.number, behind.reason),
        (2, StageError::BehindEngine)
    );
    let mut start_up = load;
    start_up.circumstances.end = End::Flare;
    let unlit = reason(&[Stage::Pipe(example::pipe()), Stage::Engine], &start_up);
    assert_eq!(unlit.reason, StageError::NoFlare);
    let narrow = PipeRun {
        bore: Length::new::<meter>(0.006),
        ..example::pipe()
    };
    let choked = reason(&[Stage::Engine, Stage::Pipe(narrow.clone())], &load);
    assert_eq!(choked.number, 2);
    assert_eq!(
        choked.reached.outcomes.len(),
        1,
        "the stage before is known"
    );
    let choked = reason(&[Stage::Pipe(narrow)], &load);
    assert_eq!(choked.reason, StageError::NoPressureLeft);
    assert!(
        choked
            .to_string()
            .starts_with("stage 1, Pipe: so much pressure")
    );
}

#[test]
fn gas_that_would_freeze_is_held_at_freezing() {
    let mut load = example::full_load();
    load.circumstances.surroundings.temperature =
        ThermodynamicTemperature::new::<degree_celsius>(-20.0);
    let cooler = Cooler {
        length: Length::new::<meter>(30.0),
        ..example::cooler()
    };
    let pipe = PipeRun {
        length: Length::new::<meter>(20.0),
        cover: Cover::Bare {
            emittance: Ratio::new::<ratio>(0.9),
        },
        ..example::pipe()
    };
    let stages = [
        Stage::Cooler(cooler),
        Stage::CondensateTrap(example::trap()),
        Stage::Pipe(pipe),
    ];
    let found = Train::solve(&stages, &load).unwrap();
    for (outcome, gas) in found.outcomes.iter().zip(&found.points[1..]) {
        assert!(outcome.notes.contains(&Note::Frost), "{:?}", outcome.detail);
        assert_eq!(gas.temperature.value, 273.15);
    }
    // It gives off what it has, and no more.
    assert_balanced(&load, &found);
    load.circumstances.surroundings.temperature =
        ThermodynamicTemperature::new::<degree_celsius>(1.0);
    let found = Train::solve(&stages, &load).unwrap();
    let frozen = |outcome: &StageOutcome| outcome.notes.contains(&Note::Frost);
    assert!(!found.outcomes.iter().any(frozen));
}

#[test]
fn a_fan_at_rest_leaves_the_tubes_to_still_air() {
    let mut load = example::full_load();
    let bare = example::cooler();
    let blown = Cooler {
        kind: CoolerKind::FanBlown {
            air_speed: Velocity::new::<meter_per_second>(5.0),
            fins: None,
        },
        ..bare
    };
    let of = |cooler: Cooler, load: &TrainLoad| {
        let found = Train::solve(&[Stage::Cooler(cooler)], load).unwrap();
        found.points[1].temperature
    };
    let still = Cooler {
        kind: CoolerKind::Bare,
        ..bare
    };
    assert!(of(blown, &load) < of(still, &load));
    load.circumstances.fans = false;
    assert_eq!(of(blown, &load), of(still, &load));
}

#[test]
fn notes_follow_the_order() {
    let mut load = example::full_load();
    load.start.vapour *= 2.0;
    let notes = |stages: &[Stage]| -> Vec<Vec<Note>> {
        Train::solve(stages, &load)
            .unwrap()
            .outcomes
            .into_iter()
            .map(|o| o.notes)
            .collect()
    };
    let blower = || Stage::Blower(example::blower().unwrap());
    assert!(notes(&[blower()])[0].contains(&Note::BlowerHot));
    let cooled = notes(&[Stage::Cooler(example::cooler()), blower(), Stage::Engine]);
    assert!(cooled[0].contains(&Note::TarCondenses));
    assert!(cooled[1].contains(&Note::TarMistArrives));
    assert!(cooled[2].contains(&Note::DropsArrive));
    let clean = notes(&[
        Stage::Cooler(example::cooler()),
        Stage::CondensateTrap(example::trap()),
        Stage::Filter(example::filter()),
        blower(),
    ]);
    assert!(!clean[3].contains(&Note::TarMistArrives));
    assert!(notes(&[Stage::Engine])[0].contains(&Note::EngineGasTooHot));
}

#[test]
fn slow_cyclone_says_so() {
    let slow = Train::solve(
        &[Stage::Cyclone(example::cyclone())],
        &example::full_load().at_share(0.15),
    )
    .unwrap();
    assert!(slow.outcomes[0].notes.contains(&Note::BelowHalfFlow));
}

/// Sets every number of a stage from a list of numbers of any size.
fn any_stage(kind: usize, n: &[f64; 6]) -> Stage {
    match kind % 8 {
        0 => Stage::Cyclone(hearthplan::sizing::cyclone::Cyclone {
            body_diameter: Length::new::<meter>(n[0]),
            ..example::cyclone()
        }),
        1 => Stage::Cooler(Cooler {
            length: Length::new::<meter>(n[0]),
            bore: Length::new::<meter>(n[1]),
            emittance: Ratio::new::<ratio>(n[2]),
            roughness: Length::new::<meter>(n[3]),
            ..example::cooler()
        }),
        2 => {
            let mut trap = example::trap();
            trap.bore = Length::new::<meter>(n[0]);
            trap.loss_coefficient = n[1];
            trap.separation = Ratio::new::<ratio>(n[2]);
            Stage::CondensateTrap(trap)
        }
        3 => {
            let mut filter = example::filter();
            filter.area = uom::si::f64::Area::new::<uom::si::area::square_meter>(n[0]);
            filter.efficiency = Ratio::new::<ratio>(n[1]);
            Stage::Filter(filter)
        }
        4 => {
            let mut pipe = example::pipe();
            pipe.bore = Length::new::<meter>(n[0]);
            pipe.length = Length::new::<meter>(n[1]);
            pipe.wall = Length::new::<meter>(n[2]);
            Stage::Pipe(pipe)
        }
        5 => {
            let mut blower = example::blower().unwrap();
            blower.with_engine = WithEngine::Running(Ratio::new::<ratio>(n[0]));
            blower.bore = Length::new::<meter>(n[1]);
            blower.efficiency = Ratio::new::<ratio>(n[2]);
            Stage::Blower(blower)
        }
        6 => Stage::Engine,
        _ => Stage::HearthOutlet(PipeRun {
            cover: Cover::NoLoss,
            ..example::pipe()
        }),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Any order of sound stages, any number of them, any load: balanced, or a reason.
    #[test]
    fn any_order_is_balanced_or_refused(
        order in prop::collection::vec(0..9_usize, 0..10),
        share in 0.05..1.5_f64,
        steam in 0.0..8.0_f64,
        hot in 20.0..850.0_f64,
        air in -20.0..45.0_f64,
        flare: bool,
        dirty: bool,
    ) {
        let stages: Vec<Stage> = order.iter().map(|kind| match kind {
            0 => Stage::HearthOutlet(example::pipe()),
            1 => Stage::Cyclone(example::cyclone()),
            2 => Stage::Cooler(example::cooler()),
            3 => Stage::CondensateTrap(example::trap()),
            4 => Stage::Filter(example::filter()),
            5 => Stage::Pipe(PipeRun { cover: Cover::NoLoss, ..example::pipe() }),
            6 => Stage::Blower(example::blower().unwrap()),
            7 => Stage::Cooler(Cooler { kind: CoolerKind::FanBlown {
                air_speed: uom::si::f64::Velocity::new::<uom::si::velocity::meter_per_second>(4.0), fins: None,
            }, ..example::cooler() }),
            _ => Stage::Engine,
        }).collect();
        let mut load = example::full_load();
        load.start.vapour *= steam;
        load.start.temperature = ThermodynamicTemperature::new::<degree_celsius>(hot);
        load.circumstances.surroundings.temperature = ThermodynamicTemperature::new::<degree_celsius>(air);
        load.circumstances.end = if flare { End::Flare } else { End::Engine };
        load.circumstances.filter = if dirty { Condition::Dirty } else { Condition::Clean };
        let load = load.at_share(share);
        match Train::solve(&stages, &load) {
            Ok(found) => assert_balanced(&load, &found),
            Err(why) => prop_assert!(why.to_string().len() > 20),
        }
    }

    /// Any numbers in any stage: a result of finite numbers, or a reason.
    #[test]
    fn any_numbers_are_answered(
        kinds in prop::collection::vec((0..8_usize, prop::array::uniform6(prop_oneof![
            any::<f64>(), 0.0..1.0_f64, 0.001..10.0_f64,
        ])), 1..5),
        temperature in prop_oneof![any::<f64>(), 280.0..1200.0_f64],
        pressure in prop_oneof![any::<f64>(), 5e4..1.2e5_f64],
        steam in prop_oneof![any::<f64>(), 0.0..5.0_f64],
    ) {
        let stages: Vec<Stage> = kinds.iter().map(|(kind, numbers)| any_stage(*kind, numbers)).collect();
        let mut load = example::full_load();
        load.start.temperature.value = temperature;
        load.start.pressure = Pressure::new::<pascal>(pressure);
        load.start.vapour *= steam;
        if let Ok(found) = Train::solve(&stages, &load) {
            for point in &found.points {
                prop_assert!(point.temperature.value.is_finite() && point.pressure.value.is_finite());
                prop_assert!(point.vapour.value >= 0.0 && point.liquid.value >= -1e-15);
                prop_assert!(point.mass_rate().value.is_finite());
            }
            prop_assert!(found.heat_rejected.value.is_finite());
        }
    }
}

/// Gas that comes in with drops, and with more steam than it can hold, leaves the trap saturated.
#[test]
fn drops_that_come_in_are_caught_by_a_trap() {
    let mut load = example::full_load();
    load.start.temperature = ThermodynamicTemperature::new::<degree_celsius>(30.0);
    load.start.liquid = load.start.vapour;
    let found = Train::solve(&[Stage::CondensateTrap(example::trap())], &load).unwrap();
    assert_balanced(&load, &found);
    let out = found.points[1];
    // What condenses gives its heat to the gas.
    assert!(out.temperature > load.start.temperature);
    assert!((out.dew_point().unwrap().value - out.temperature.value).abs() < 1e-6);
    assert!(found.water_removed > load.start.liquid && out.vapour < load.start.vapour);
}

/// At the working point the blower makes just what hearth, train and flare take; a dirty filter takes flow away.
fn hearth(flow: VolumeRate) -> Pressure {
    let share = (flow / example::full_load().start.dry_flow).value;
    Pressure::new::<pascal>(300.0 * share + 1500.0 * share * share)
}

/// The load at a share of its flow, the hearth's loss taken off.
fn behind_hearth(load: &TrainLoad, share: f64) -> TrainLoad {
    let mut load = load.at_share(share);
    load.start.pressure = load.circumstances.surroundings.pressure - hearth(load.start.dry_flow);
    load
}

#[test]
fn between_its_nodes_the_system_curve_is_what_the_train_itself_says() {
    let stages = example::stages();
    for (end, filter) in [
        (End::Flare, Condition::Clean),
        (End::Engine, Condition::Clean),
        (End::Engine, Condition::Dirty),
    ] {
        let mut load = example::full_load();
        load.circumstances.end = end;
        load.circumstances.filter = filter;
        let curve = SystemCurve::around(&stages, &load, hearth, None).unwrap();
        for share in [0.3, 0.7, 0.9, 1.0, 1.25, 2.0] {
            let load = behind_hearth(&load, share);
            let solved = Train::solve(&stages, &load).unwrap();
            let (needed, blower) = needed(&stages, &load, &solved).unwrap();
            let found = curve.needed(blower.volume_rate());
            let error = (found / needed).value - 1.0;
            assert!(error.abs() < 0.03, "{share}: {found:?} for {needed:?}");
        }
    }
}

#[test]
fn blower_and_train_agree_at_the_flare() {
    let stages = example::stages();
    let mut load = example::full_load();
    load.circumstances.end = End::Flare;
    let blower = example::blower().unwrap();
    let agreed = |load: &TrainLoad, speed: f64| {
        SystemCurve::around(&stages, load, hearth, None)
            .unwrap()
            .agreement(&blower.curve, Ratio::new::<ratio>(speed))
    };
    let clean = agreed(&load, 1.0);
    let share = (clean.dry_flow / load.start.dry_flow).value;
    let there = behind_hearth(&load, share);
    let solved = Train::solve(&stages, &there).unwrap();
    let error = (solved.total_rise / clean.working.pressure).value - 1.0;
    assert!(error.abs() < 0.03, "{error}");
    let mut dirty = load;
    dirty.circumstances.filter = Condition::Dirty;
    assert!(agreed(&dirty, 1.0).dry_flow < clean.dry_flow);
    assert!(agreed(&load, 0.6).dry_flow < clean.dry_flow);
    let without = [Stage::Pipe(example::pipe())];
    assert!(SystemCurve::around(&without, &load, hearth, None).is_none());
}
