//! What readings of a leak test can show, and which of several tests counts.

use hearthplan::design::inputs::{Group, Reading, StageKind};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, celsius, example};
use hearthplan::review::{Finding, Lever, Verdict, assess, remedies};
use hearthplan::sizing::air_inside::{add_test, air_inside, follow};
use uom::si::f64::{Length, Pressure, TemperatureInterval, ThermodynamicTemperature, Time, Volume};
use uom::si::length::millimeter;
use uom::si::pressure::pascal;
use uom::si::temperature_interval::kelvin as interval;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::time::second;
use uom::si::volume::liter;

/// A test of the vessel, ten minutes long: date, and Pa at start and end.
fn test(date: &str, pressures: [f64; 2]) -> Reading {
    let [first_pressure, second_pressure] = pressures.map(Pressure::new::<pascal>);
    Reading {
        date: date.to_string(),
        group: Group::Reactor,
        volume: Volume::new::<liter>(129.0),
        first_pressure,
        second_pressure,
        ..Reading::default()
    }
}

fn design(readings: &[Reading]) -> Design {
    let mut design = example::as_improved();
    design.readings = readings.to_vec();
    design
}

/// Verdict on the vessel's tests, and the words.
fn said(readings: &[Reading]) -> (Verdict, String) {
    let assessment = assess(&design(readings));
    let found = assessment.finding("leaks.reading_reactor");
    let found = found.expect("the question is asked");
    (found.verdict, found.compared.text(System::Metric))
}

#[test]
fn a_tight_vessel_passes() {
    let (verdict, words) = said(&[test("2026-05-14", [3_500.0, 3_400.0])]);
    assert_eq!(verdict, Verdict::Good, "{words}");
}

#[test]
fn pressure_that_is_gone_shows_nothing() {
    // Gone in seconds or in minutes: after ten of them the readings are the same.
    let (verdict, words) = said(&[test("2026-05-14", [3_500.0, 0.0])]);
    assert_eq!(verdict, Verdict::CannotTell, "{words}");
    // (√3490 / 2)² = 872.5 Pa on average for a gauge read to 10 Pa, of 1750 Pa wanted.
    assert!(
        words.contains("or more") && words.contains("only 873 Pa"),
        "{words}"
    );
    for start in [0.0, 100.0, -3_500.0] {
        let (verdict, words) = said(&[test("2026-05-14", [start, start])]);
        assert_eq!(verdict, Verdict::CannotTell, "from {start} Pa: {words}");
    }
    // What leaks too much in spite of it fails all the same.
    let mut fast = test("2026-05-14", [3_500.0, 0.0]);
    fast.time *= 0.01;
    assert_eq!(said(&[fast]).0, Verdict::Stop);
}

#[test]
fn air_that_comes_from_nowhere_shows_nothing() {
    let (verdict, words) = said(&[test("2026-05-14", [3_500.0, 5_000.0])]);
    assert_eq!(verdict, Verdict::CannotTell, "{words}");
    assert!(words.contains("gain air"), "{words}");
    // The sun on the vessel explains it.
    let mut warmed = test("2026-05-14", [3_500.0, 5_000.0]);
    warmed.second_temperature = ThermodynamicTemperature::new::<kelvin>(celsius(24.2));
    assert_eq!(said(&[warmed]).0, Verdict::Good);
}

/// The thermometer hangs beside the vessel: some tenths of a kelvin say nothing of one that is as good as tight.
#[test]
fn a_gain_that_is_next_to_nothing_passes_and_is_told() {
    for (kelvins, wanted) in [
        (0.1, Verdict::Good),
        (0.5, Verdict::Good),
        (1.0, Verdict::Good),
        (3.0, Verdict::CannotTell),
    ] {
        let mut cooled = test("2026-05-14", [3_500.0, 3_500.0]);
        cooled.second_temperature.value -= kelvins;
        let (verdict, words) = said(&[cooled]);
        assert_eq!(verdict, wanted, "{kelvins} K: {words}");
        let told = words.contains("gain a little air") && words.contains("our own mark");
        assert_eq!(
            told,
            kelvins == 0.5 || kelvins == 1.0,
            "{kelvins} K: {words}"
        );
    }
}

#[test]
fn a_test_that_is_only_added_is_none() {
    // Nor does a date alone make it one: nobody knows whether a gauge was looked at.
    for date in ["", "2026-05-14"] {
        let (verdict, words) = said(&[test(date, [3_500.0, 3_500.0])]);
        assert_eq!(verdict, Verdict::CannotTell, "{words}");
        assert!(words.contains("nothing was read yet"), "{words}");
    }
    let assessment = assess(&design(&[test("", [3_500.0, 3_500.0])]));
    let results = assessment.results();
    assert!(
        !results
            .iter()
            .any(|result| result.name == "leaks.leak_reactor")
    );
    // A gauge that did not move at all is told by one smallest step of it, or by how long it was watched.
    let (verdict, words) = said(&[test("", [3_500.0, 3_490.0])]);
    assert_eq!(verdict, Verdict::Good, "{words}");
    let mut watched = test("", [3_500.0, 3_500.0]);
    watched.time *= 1.5;
    assert_eq!(said(&[watched]).0, Verdict::Good);
}

#[test]
fn the_newest_test_counts() {
    let failed = test("2026-05-01", [3_500.0, -500.0]);
    let mut failed = Reading {
        second_pressure: Pressure::new::<pascal>(2_000.0),
        ..failed
    };
    failed.time *= 0.01;
    let passed = test("2026-03-14", [3_500.0, 3_400.0]);
    for order in [
        [failed.clone(), passed.clone()],
        [passed.clone(), failed.clone()],
    ] {
        let (verdict, words) = said(&order);
        assert_eq!(verdict, Verdict::Stop);
        assert!(
            words.ends_with("it has the latest date of its 2 tests"),
            "{words}"
        );
    }
    // Where one has no date nobody can tell which came later: the worse counts, wherever it stands in the list.
    for no_date in ["", "in May", "2026-13-01", "2026-5-1"] {
        let undated = Reading {
            date: no_date.to_string(),
            ..failed.clone()
        };
        for (order, number) in [
            ([undated.clone(), passed.clone()], "number 1 of the list"),
            ([passed.clone(), undated.clone()], "number 2 of the list"),
        ] {
            let (verdict, words) = said(&order);
            assert_eq!(verdict, Verdict::Stop, "{no_date}");
            assert!(words.contains(number), "{words}");
            assert!(words.ends_with("Enter the dates"), "{words}");
        }
        // Nor does a later test with a date hide it, or an older one without.
        let earlier = Reading {
            date: String::new(),
            ..passed.clone()
        };
        let (verdict, _) = said(&[earlier, undated, passed.clone()]);
        assert_eq!(verdict, Verdict::Stop, "{no_date}");
    }
    // A pass without a date does not clear a failure with one.
    let undated_pass = Reading {
        date: String::new(),
        ..passed.clone()
    };
    let (verdict, words) = said(&[failed.clone(), undated_pass.clone()]);
    assert_eq!(verdict, Verdict::Stop);
    assert!(words.contains("number 1 of the list"), "{words}");
    // Where none has a date, the list tells which came later.
    let undated_fail = Reading {
        date: String::new(),
        ..failed.clone()
    };
    let (verdict, words) = said(&[undated_fail.clone(), undated_pass.clone()]);
    assert_eq!(verdict, Verdict::Good);
    assert!(
        words.ends_with("so that the last in the list counts"),
        "{words}"
    );
    assert_eq!(said(&[undated_pass, undated_fail]).0, Verdict::Stop);
    // A test that is not made yet hides none that was.
    let added = test("", [3_500.0, 3_500.0]);
    assert_eq!(said(&[failed, added]).0, Verdict::Stop);
}

fn finding(design: &Design, id: &str) -> Finding {
    let assessment = assess(design);
    assessment
        .finding(id)
        .expect("the question is asked")
        .clone()
}

fn pa(value: f64) -> Pressure {
    Pressure::new::<pascal>(value)
}

/// What the engine draws, Pa.
fn suction(design: &Design) -> f64 {
    let drawn = assess(design).leaks.suction;
    drawn.expect("the train is worked out").value
}

#[test]
fn a_test_gentler_than_the_engine_draws_is_told() {
    let mut design = example::as_improved();
    let drawn = suction(&design);
    assert_eq!(assess(&design).breath.engine_vacuum, Some(pa(drawn)));
    for (pressure, verdict) in [
        (3_500.0, Verdict::Good),
        (0.99 * drawn, Verdict::Watch),
        (0.55 * drawn, Verdict::Watch),
        (0.45 * drawn, Verdict::Stop),
        (300.0, Verdict::Stop),
        (100.0, Verdict::Stop),
    ] {
        design.leak_test.test_pressure = pa(pressure);
        let plan = finding(&design, "leaks.plan");
        assert_eq!(plan.verdict, verdict, "{pressure} Pa");
        if verdict == Verdict::Good {
            continue;
        }
        assert_eq!(plan.levers, [Lever::input("leak_test.test_pressure")]);
        let found = remedies(&design, "leaks.plan");
        let Some(Value::Number(enough)) = found[0].value else {
            panic!("{found:?}");
        };
        assert!((drawn..1.1 * drawn).contains(&enough), "{enough}");
    }
}

#[test]
fn a_reading_at_less_pressure_than_in_service_is_no_pass() {
    // Planned with as little, and begun with it: what leaks at 300 Pa leaks up to ten times as much at 3100 Pa.
    let mut gentle = design(&[test("2026-05-14", [300.0, 290.0])]);
    gentle.leak_test.test_pressure = pa(300.0);
    let found = finding(&gentle, "leaks.reading_reactor");
    let words = found.compared.text(System::Metric);
    assert_eq!(found.verdict, Verdict::CannotTell, "{words}");
    assert!(words.contains("wanted at least 17"), "{words}");

    // With most of the pressure it counts by what it may be in service.
    let fine = |pressures| Reading {
        time: Time::new::<second>(2.4),
        gauge_step: pa(0.1),
        thermometer_step: TemperatureInterval::new::<interval>(0.001),
        ..test("2026-05-14", pressures)
    };
    let (verdict, words) = said(&[fine([3_500.0, 3_400.0])]);
    assert_eq!(verdict, Verdict::Good, "{words}");
    let (verdict, words) = said(&[fine([2_000.0, 1_900.0])]);
    assert_eq!(verdict, Verdict::Watch, "{words}");
    assert!(words.contains("the engine draws"), "{words}");
    let (verdict, words) = said(&[fine([2_000.0, 1_950.0])]);
    assert_eq!(verdict, Verdict::Good, "{words}");
}

#[test]
fn a_panel_is_not_spared_by_a_test_that_shows_too_little() {
    let mut design = example::as_improved();
    let pressure = Lever::input("leak_test.test_pressure");
    let lid = finding(&design, "leaks.panel");
    assert_eq!(lid.levers[0], Lever::input("leak_test.braced"));
    assert_eq!(lid.levers[1], Lever::input("hopper.wall_thickness"));
    assert!(!lid.levers.contains(&pressure), "{:?}", lid.levers);
    let drawn = suction(&design);
    for path in ["hopper.wall_thickness", "bottom_layers.0.thickness"] {
        design.set(path, Value::Number(0.010)).expect("in range");
    }
    for stage in &mut design.train {
        stage.wall *= 10.0;
    }
    design.leak_test.test_pressure = pa(20_000.0);
    let (mut lowered, mut not) = (0, 0);
    for sheet in [0.5, 1.0, 1.5, 2.0, 2.5] {
        design.leak_test.panel_sheet = Length::new::<millimeter>(sheet);
        let found = remedies(&design, "leaks.panel");
        let value = (found.iter())
            .find(|remedy| remedy.lever == pressure)
            .and_then(|remedy| remedy.value.clone());
        match value {
            // It would still bulge, or give way.
            None => not += 1,
            Some(Value::Number(lower)) => {
                assert!(lower >= drawn, "{lower}");
                lowered += 1;
            }
            Some(other) => panic!("{other:?}"),
        }
    }
    assert!(lowered > 0 && not > 0, "{lowered} {not}");
}

#[test]
fn a_gauge_too_coarse_for_the_test_is_told() {
    let mut design = example::as_improved();
    design.leak_test.gauge_step = pa(900.0);
    design.leak_test.hold_time = Time::new::<second>(100_000.0);
    let plan = finding(&design, "leaks.plan");
    let words = plan.compared.text(System::Metric);
    assert_eq!(plan.verdict, Verdict::Watch, "{words}");
    assert!(words.contains("would lose 3500 Pa of 3500 Pa"), "{words}");
    let found = remedies(&design, "leaks.plan");
    let finer = Lever::input("leak_test.gauge_step");
    let finer = found.iter().find(|remedy| remedy.lever == finer);
    assert!(finer.is_some_and(|remedy| remedy.change.is_some()));
    // 6 u T = 6 · √(2/3) · 350 Pa = 1715 Pa, which is just less than half.
    design.leak_test.thermometer_step = TemperatureInterval::new::<interval>(0.001);
    for (step, verdict) in [(350.0, Verdict::Good), (365.0, Verdict::Watch)] {
        design.leak_test.gauge_step = pa(step);
        assert_eq!(finding(&design, "leaks.plan").verdict, verdict, "{step} Pa");
    }
}

#[test]
fn a_gauge_that_shows_nothing_proves_no_pressure() {
    let read_to = |step| Reading {
        gauge_step: pa(step),
        time: Time::new::<second>(100_000.0),
        ..test("2026-05-14", [3_500.0, 3_400.0])
    };
    assert_eq!(said(&[read_to(10.0)]).0, Verdict::Good);
    let (verdict, words) = said(&[read_to(5_000.0)]);
    assert_eq!(verdict, Verdict::CannotTell, "{words}");
    assert!(
        words.contains("only 0 Pa is sure to have driven it"),
        "{words}"
    );
}

#[test]
fn a_test_is_reckoned_with_the_air_of_its_sub_assembly() {
    let mut design = design(&[]);
    design.leak_test.gauge_step = Pressure::new::<pascal>(25.0);
    design.leak_test.thermometer_step = TemperatureInterval::new::<interval>(0.5);
    add_test(&mut design, 0);
    // It is read with the instruments that tests are planned with.
    assert_eq!(design.readings[0].gauge_step, design.leak_test.gauge_step);
    assert_eq!(
        design.readings[0].thermometer_step,
        design.leak_test.thermometer_step
    );
    let holds = |design: &Design, group| air_inside(design, group).expect("known").get::<liter>();
    let entered = |design: &Design| design.readings[0].volume.get::<liter>();
    assert!((entered(&design) - holds(&design, Group::Reactor)).abs() <= 0.05);
    let choose = |design: &mut Design, group: &str| {
        let before = design.clone();
        design.choose("readings.0.group", group).expect("an option");
        follow(design, &before, "readings.0.group");
    };
    choose(&mut design, "filter");
    assert!((entered(&design) - holds(&design, Group::Filter)).abs() <= 0.05);
    choose(&mut design, "hopper");
    assert!((entered(&design) - holds(&design, Group::Hopper)).abs() <= 0.05);
    // What a person measured stays, and so does what there is where nothing is known.
    let kept = entered(&design);
    choose(&mut design, "engine");
    assert_eq!(entered(&design), kept);
    design.readings[0].volume = Volume::new::<liter>(31.0);
    choose(&mut design, "filter");
    assert_eq!(entered(&design), 31.0);
}

#[test]
fn air_far_from_what_a_sub_assembly_holds_is_told() {
    let own = air_inside(&design(&[]), Group::Reactor).expect("known");
    for (share, verdict) in [
        (1.25, Verdict::Good),
        (0.8, Verdict::Good),
        (1.35, Verdict::Watch),
        (0.7, Verdict::Watch),
    ] {
        let readings = [Reading {
            volume: own * share,
            ..test("2026-05-14", [3_500.0, 3_400.0])
        }];
        let (found, words) = said(&readings);
        assert_eq!(found, verdict, "{share}: {words}");
        let margin = finding(&design(&readings), "leaks.reading_reactor").margin;
        assert_eq!(margin.is_some(), verdict == Verdict::Good, "{share}");
        assert_eq!(
            words.contains("this sub-assembly holds"),
            verdict == Verdict::Watch
        );
    }
}

#[test]
fn a_test_passes_nothing_while_no_gas_flows() {
    let mut shut = design(&[test("2026-05-14", [3_500.0, 3_400.0])]);
    shut.set("train.0.bore", Value::Number(0.010)).unwrap();
    let found = finding(&shut, "leaks.reading_reactor");
    let words = found.compared.text(System::Metric);
    assert_eq!(found.verdict, Verdict::CannotTell, "{words}");
    assert!(words.contains("Gas gets through the train"), "{words}");
    assert!(found.margin.is_none());
    // What leaks too much leaks too much whatever the engine draws.
    let mut failed = test("2026-05-14", [3_500.0, 2_000.0]);
    failed.time *= 0.01;
    shut.readings = vec![failed];
    let found = finding(&shut, "leaks.reading_reactor");
    assert_eq!(found.verdict, Verdict::Stop);
}

#[test]
fn the_ends_of_a_thin_drum_are_flat_sheets_too() {
    let mut design = example::as_improved();
    design.hopper.wall_thickness = Length::new::<millimeter>(4.0);
    let place = (design.train.iter())
        .position(|stage| stage.kind == StageKind::Filter)
        .unwrap();
    design.train[place].filter_diameter = Length::new::<millimeter>(500.0);
    design.train[place].wall = Length::new::<millimeter>(0.8);
    let found = finding(&design, "leaks.panel");
    let words = found.compared.text(System::Metric);
    assert!(words.contains("flat end of"), "{words}");
    // With a stress of 94 MPa · (r/s)² / E = 44.8 it carries a load of about 138 E (s/r)⁴ = 2.97 kPa, less than the test.
    assert_eq!(found.verdict, Verdict::Stop, "{words}");
    let wall = Lever::input(format!("train.{place}.wall"));
    assert!(found.levers.contains(&wall), "{:?}", found.levers);
}

/// A vessel is tested before its lining goes in, and holds then what lies inside its steel; with fibre in it hardly less.
#[test]
fn the_air_of_a_vessel_is_that_inside_its_steel() {
    let mut design = example::as_improved();
    // A jacket wider than the vessel is none of it.
    design.body_layers[1].thickness *= 2.0;
    let room = |across: Length, high: Length| 0.25 * std::f64::consts::PI * across * across * high;
    let (hearth, body) = (&design.hearth_wall, &design.body_wall);
    let lining = design.hearth_layers[0].thickness + design.hearth_layers[1].thickness;
    let bare = room(hearth.inside_diameter + 2.0 * lining, hearth.height)
        + room(body.inside_diameter, body.height);
    let holds = air_inside(&design, Group::Reactor).expect("known");
    let share = (holds / bare).value;
    assert!((0.9..1.0).contains(&share), "{share}");
    // Steel holds no air; and behind the first steel of a wall that is no vessel bought, nothing counts.
    let mut plain = design.clone();
    plain.hearth_layers.drain(..2);
    plain.real_vessel.measured = false;
    let room =
        room(hearth.inside_diameter, hearth.height) + room(body.inside_diameter, body.height);
    let holds = air_inside(&plain, Group::Reactor).expect("known");
    assert!((holds / room).value - 1.0 < 1e-12);
    // A body whose outer steel is the vessel holds the air of its wool as well.
    let mut bought = design;
    let through: Length = bought.body_layers.iter().map(|layer| layer.thickness).sum();
    bought.real_vessel.girth =
        std::f64::consts::PI * (bought.body_wall.inside_diameter + 2.0 * through);
    assert!(air_inside(&bought, Group::Reactor).expect("known") > 1.3 * bare);
}
