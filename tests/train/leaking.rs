//! Air that leaks in: what it burns, what that costs, and from which share on it is told.

use crate::mended::every_remedy_passes;
use hearthplan::design::{Design, Value, example};
use hearthplan::physics::equilibrium::GasAmounts;
use hearthplan::review::{Assessment, Verdict, assess};
use hearthplan::sizing::air_leak::{IGNITION, burned};
use uom::si::f64::{Ratio, ThermodynamicTemperature};
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};

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

fn at(celsius: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(celsius)
}

fn with(changes: &[(&str, f64)]) -> Design {
    let mut design = example::as_improved();
    for (path, value) in changes {
        design.set(path, Value::Number(*value)).unwrap();
    }
    design
}

fn leaking(celsius: f64, share: f64) -> Assessment {
    assess(&with(&[
        ("raw_gas.temperature", celsius + 273.15),
        ("raw_gas.air_leak", share),
    ]))
}

#[test]
fn burning_keeps_atoms_and_heat() {
    let air = at(20.0);
    for share in [0.001, 0.01, 0.1, 0.4, 0.9, 1.0] {
        let steam = 0.1;
        let hot = at(750.0);
        let found = burned(&usual_gas(), steam, hot, Ratio::new::<ratio>(share), air)
            .unwrap()
            .unwrap();
        let (old, new) = (usual_gas(), found.amounts);
        let carbon = |gas: &GasAmounts| gas.carbon_monoxide + gas.carbon_dioxide + gas.methane;
        let hydrogen = |gas: &GasAmounts| gas.hydrogen + gas.water + 2.0 * gas.methane;
        let oxygen = |gas: &GasAmounts| {
            0.5 * (gas.carbon_monoxide + gas.water) + gas.carbon_dioxide + gas.oxygen
        };
        assert!((carbon(&old) - carbon(&new)).abs() < 1e-12);
        assert!((hydrogen(&old) + steam - hydrogen(&new)).abs() < 1e-12);
        let brought = oxygen(&old) + 0.5 * steam + 0.2095 * share;
        assert!((brought - oxygen(&new)).abs() < 1e-12);
        assert!((old.nitrogen + 0.7905 * share - new.nitrogen).abs() < 1e-12);
        let wet = GasAmounts {
            water: steam,
            ..old
        };
        let leaked = GasAmounts {
            oxygen: 0.2095 * share,
            nitrogen: 0.7905 * share,
            ..GasAmounts::default()
        };
        let before = wet.enthalpy(hot.value) + leaked.enthalpy(air.value);
        let after = new.enthalpy(found.temperature.value);
        assert!((before - after).abs() < 1e-3, "{before} {after}");
        // Each part of oxygen takes two of fuel, as long as there is so much.
        assert!((found.fuel - (0.419 * share).min(0.38)).abs() < 1e-12);
        assert!(found.temperature > hot && found.power_kept().value < 1.0);
    }
}

/// By hand: 0.2095 % of oxygen burns 0.419 % of gas worth 11.8 MJ/m³, that is 49 kJ of 5.2 MJ/m³; a cubic metre of gas
/// and steam takes some 1.6 kJ for each kelvin.
#[test]
fn a_hundredth_of_air_takes_a_hundredth_of_the_power() {
    let share = Ratio::new::<ratio>(0.01);
    let found = burned(&usual_gas(), 0.1, at(700.0), share, at(20.0))
        .unwrap()
        .unwrap();
    assert!((1e3 * (found.heat_before - found.heat) - 49.4).abs() < 0.5);
    let lost = 1.0 - found.power_kept().value;
    assert!((0.007..0.011).contains(&lost), "{lost}");
    let hotter = found.temperature.value - at(700.0).value;
    assert!((20.0..35.0).contains(&hotter), "{hotter}");
}

#[test]
fn cold_gas_and_no_air_burn_nothing() {
    let share = Ratio::new::<ratio>(0.05);
    let of = |kelvins: f64, share| {
        let gas = ThermodynamicTemperature::new::<kelvin>(kelvins);
        burned(&usual_gas(), 0.1, gas, share, at(20.0)).unwrap()
    };
    assert!(of(IGNITION, share).is_some());
    assert!(of(IGNITION - 0.1, share).is_none());
    assert!(of(1000.0, Ratio::new::<ratio>(0.0)).is_none());
    let inert = GasAmounts {
        nitrogen: 1.0,
        ..GasAmounts::default()
    };
    assert_eq!(burned(&inert, 0.0, at(800.0), share, at(20.0)), Ok(None));
    for nonsense in [f64::NAN, -0.1, 2.0] {
        let share = Ratio::new::<ratio>(nonsense);
        assert!(burned(&usual_gas(), 0.1, at(700.0), share, at(20.0)).is_err());
    }
}

#[test]
fn air_that_burns_at_the_outlet_costs_power_and_heats_the_train() {
    let electric = |assessment: &Assessment| assessment.train.power_left.unwrap().electric.value;
    let (tight, leaky) = (leaking(650.0, 0.0), leaking(650.0, 0.03));
    let kept = electric(&leaky) / electric(&tight);
    assert!((0.95..0.985).contains(&kept), "{kept}");
    let left = leaky.train.power_left.unwrap();
    assert!(left.by_leak.value < 0.98);
    let product = left.by_suction * left.by_warmth * left.by_steam * left.by_leak;
    assert!((left.left.value / left.whole.value / product.value - 1.0).abs() < 1e-9);
    // What goes into the train is the gas of the outlet and the air, with all of their mass and heat.
    let (start, outlet) = (&leaky.train.full_load.start, &leaky.train.outlet);
    assert!(start.temperature.value > outlet.temperature.value + 50.0);
    let air = 0.03 * outlet.dry_flow.value / 0.022_414 * (0.2095 * 0.031_999 + 0.7905 * 0.028_013);
    let brought = outlet.gas_mass_rate().value + air;
    assert!((start.gas_mass_rate().value / brought - 1.0).abs() < 1e-4);
    let told = (leaky.finding("train.engine_power").unwrap().compared).text(Default::default());
    assert!(told.contains("burns at the outlet"), "{told}");
    // The hearth is asked for what it makes, not for what comes of it.
    let made = leaky.train.at_full.made(start.dry_flow).value;
    assert!((made / outlet.dry_flow.value - 1.0).abs() < 1e-9);
    // What the gas gives off before the outlet is not touched by what happens behind.
    let given =
        |assessment: &Assessment| assessment.finding("train.leaves").unwrap().working[0].result;
    assert_eq!(given(&tight), given(&leaky));
}

/// Air that leaks in behind finds the gas as the hearth makes it: none of its fuel is burned twice, and both questions
/// tell where they take the leak to be.
#[test]
fn oxygen_is_told_of_gas_that_the_leak_has_not_burned() {
    let (cold, hot) = (leaking(350.0, 0.05), leaking(650.0, 0.05));
    let steps = |assessment: &Assessment| {
        let finding = assessment.finding("train.oxygen").unwrap();
        (finding.working.clone(), finding.verdict)
    };
    assert_eq!(steps(&cold), steps(&hot));
    let told = |assessment: &Assessment, id: &str| {
        let finding = assessment.finding(id).unwrap();
        finding.compared.text(Default::default())
    };
    let words = told(&hot, "train.oxygen");
    assert!(
        words.contains("behind the hot part of the train: 1 %"),
        "{words}"
    );
    assert!(
        words.contains("at the outlet burns there and leaves no oxygen"),
        "{words}"
    );
    assert!(told(&hot, "train.air_leak").contains("it burns"));
    assert!(!told(&cold, "train.oxygen").contains("burns there"));
    assert_eq!(hot.train.full_clean.unwrap().points[0].dry.oxygen, 0.0);
}

#[test]
fn air_that_enters_cold_costs_no_power() {
    let (tight, leaky) = (leaking(350.0, 0.0), leaking(350.0, 0.04));
    assert_eq!(tight.train.power_left, leaky.train.power_left);
    assert_eq!(tight.train.full_load, leaky.train.full_load);
    let told = (leaky.finding("train.air_leak").unwrap().compared).text(Default::default());
    assert!(told.contains("too cold to burn"), "{told}");
}

#[test]
fn much_air_is_never_simply_good() {
    for celsius in [350.0, 650.0] {
        let verdict = |share| {
            leaking(celsius, share)
                .finding("train.air_leak")
                .unwrap()
                .verdict
        };
        assert_eq!(verdict(0.01), Verdict::Good);
        assert_eq!(verdict(0.03), Verdict::Watch);
        assert_eq!(verdict(0.06), Verdict::Stop);
    }
    let allowing = |share| with(&[("leak_test.budget", share)]);
    let verdict = |share| {
        assess(&allowing(share))
            .finding("leaks.budget")
            .unwrap()
            .verdict
    };
    assert_eq!(verdict(0.01), Verdict::Good);
    assert_eq!(verdict(0.03), Verdict::Watch);
    assert_eq!(verdict(0.1), Verdict::Stop);
    every_remedy_passes(&allowing(0.1), "leaks.budget", 1);
    // Where the gas is made it is always hot enough to burn.
    let assessment = assess(&allowing(0.05));
    let told = (assessment.finding("leaks.budget").unwrap().compared).text(Default::default());
    assert!(told.contains("of the power lost"), "{told}");
}

#[test]
fn tests_that_pass_more_than_is_reckoned_with_are_told() {
    let of = |budget: f64, reckoned: f64| {
        let design = with(&[("leak_test.budget", budget), ("raw_gas.air_leak", reckoned)]);
        let finding = assess(&design).finding("leaks.budget").unwrap().clone();
        let told = finding.compared.text(Default::default());
        (design, finding.verdict, told)
    };
    let (design, verdict, told) = of(0.015, 0.01);
    assert_eq!(verdict, Verdict::Watch);
    assert!(told.contains("reckoned with 1 %"), "{told}");
    every_remedy_passes(&design, "leaks.budget", 2);
    assert_eq!(of(0.015, 0.015).1, Verdict::Good);
    assert_eq!(of(0.005, 0.01).1, Verdict::Good);
}

#[test]
fn so_much_air_that_no_train_stands_it_is_told_with_its_leak() {
    let assessment = leaking(850.0, 0.4);
    let verdict = |id: &str| assessment.finding(id).unwrap().verdict;
    assert_eq!(verdict("train.passes"), Verdict::CannotTell);
    assert_eq!(verdict("train.air_leak"), Verdict::Stop);
}

/// By hand: 0.2095 × 0.25 / 1.25 is 4.2 % of oxygen, above the Stop of 4 %, whatever the mark for Watch is set to.
#[test]
fn of_two_crossed_marks_for_oxygen_the_stricter_counts() {
    let mut design = example::as_improved();
    design.raw_gas.air_leak = Ratio::new::<ratio>(0.25);
    design.limits.oxygen_watch = Ratio::new::<ratio>(0.20);
    let assessment = assess(&design);
    let told = assessment.finding("train.oxygen").unwrap();
    let words = told.compared.text(Default::default());
    assert_eq!(told.verdict, Verdict::Stop, "{words}");
    assert!(words.contains("wanted at most 4 %"), "{words}");
}

#[test]
fn a_leak_that_is_told_carries_the_caution_of_air_in_gas() {
    let assessment = leaking(350.0, 0.03);
    for id in ["train.air_leak", "leaks.budget", "train.oxygen"] {
        let caution = assessment.finding(id).unwrap().caution.unwrap();
        assert!(caution.contains("explodes from one spark"), "{id}");
    }
}
