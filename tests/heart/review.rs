//! The heart and engine chapters of the review, and what the example shows.

#[path = "review/fuel.rs"]
mod fuel;
#[path = "review/heat.rs"]
mod heat;
#[path = "review/loads.rs"]
mod loads;
#[path = "review/matched.rs"]
mod matched;
#[path = "review/measured.rs"]
mod measured;

use crate::mended::every_remedy_passes;
use crate::random_design::random_design;
use hearthplan::design::inputs::AirRule;
use hearthplan::design::quantity::{Quantity, System};
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{
    Assessment, Chapter, Lever, Verdict, ask, assess, heart_over_load, model_beside_measurement,
};
use hearthplan::sizing::heart::{Basis, HeartModel};
use hearthplan::sizing::hearth_load::hearth_load;
use uom::si::f64::{Length, Ratio, ThermodynamicTemperature};
use uom::si::length::millimeter;
use uom::si::ratio::{percent, ratio};
use uom::si::thermodynamic_temperature::degree_celsius;

fn with(mut design: Design, changes: &[(&str, f64)]) -> Design {
    for (path, value) in changes {
        design.set(path, Value::Number(*value)).unwrap();
    }
    design
}

fn choose(mut design: Design, path: &str, option: &str) -> Design {
    design.set(path, Value::Choice(option.to_string())).unwrap();
    design
}

fn verdict(assessment: &Assessment, id: &str) -> Verdict {
    assessment.finding(id).unwrap().verdict
}

fn share(value: f64) -> Ratio {
    Ratio::new::<percent>(value)
}

#[test]
fn the_improved_example_is_good() {
    let assessment = assess(&example::as_improved());
    for finding in &assessment.findings {
        // Under a condition that no input tells: ribs on the lid.
        let expected = match finding.id {
            "leaks.panel" => Verdict::Watch,
            _ => Verdict::Good,
        };
        assert_eq!(
            finding.verdict,
            expected,
            "{}: {}",
            finding.id,
            finding.compared.text(System::Metric)
        );
    }
    let power = assessment.engine.on_gas.unwrap().unwrap().runs.full;
    assert!((9_500.0..11_000.0).contains(&power.shaft_power.value));
    assert!((0.5..0.67).contains(&power.power_kept.value));
    // Pound for pound the wood does less at part load, where friction takes a larger share.
    let usual = assess(&example::as_improved())
        .engine
        .on_gas
        .unwrap()
        .unwrap()
        .runs
        .usual;
    assert!(usual.fuel_per_shaft_kilowatt_hour > 1.05 * power.fuel_per_shaft_kilowatt_hour);
    assert!(usual.shaft_power.value < 0.7 * power.shaft_power.value);
}

#[test]
fn the_first_example_shows_what_is_wrong() {
    let assessment = assess(&example::as_first_drawn());
    let of_heart = ["heart.full", "heart.usual", "heart.idle", "heart.turndown"];
    let of_warmth = ["warmth.loss", "warmth.touch_hearth"];
    let others = ["engine.power", "standing.push"];
    for id in of_heart.into_iter().chain(of_warmth).chain(others) {
        assert_eq!(verdict(&assessment, id), Verdict::Stop, "{id}");
    }
    // What a generator would make of the power stands beside it.
    let power = assessment.finding("engine.power").unwrap();
    let told = power.compared.text(System::Metric);
    let electric = assessment.engine.on_gas.as_ref().unwrap().as_ref().unwrap();
    let electric = Quantity::Power.show(electric.runs.full.electric_power.value, System::Metric);
    assert!(
        told.contains(&format!("a generator on that shaft gives {electric}")),
        "{told}"
    );
    // The throat entered and the one that the gas takes are told apart.
    let load = assessment.finding("hearth.load_full").unwrap();
    let told = load.compared.text(System::Metric);
    assert!(told.contains("through the throat of 100 mm"), "{told}");
    assert!(told.contains("this much gas takes a throat of 7"), "{told}");
    // No load is told of gas that is not made.
    let idle = assessment.finding("hearth.load_idle").unwrap();
    assert_eq!(idle.verdict, Verdict::CannotTell);
    assert!(idle.levers.is_empty());
    let nozzles = assessment.finding("hearth.nozzle_velocity").unwrap();
    let told = nozzles.compared.text(System::Metric);
    assert!(!told.contains("lowest load"), "{told}");
    // What flow the throat needs follows from a load at which gas burns, not from one at which none does.
    let at = &assessment.heart.at;
    let range = assessment.heart.range.unwrap();
    let flow = hearth_load(
        at.usual.supply.gas_flow,
        example::as_first_drawn().hearth.throat_diameter,
    );
    let wanted =
        at.usual.load.value * example::as_first_drawn().limits.hearth_load_least / flow.value;
    assert!((range.lowest_by_hearth_load.unwrap().value / wanted - 1.0).abs() < 1e-12);
    // Room, order of the work and gas train have theirs too.
    let stops = assessment.count(Verdict::Stop);
    assert!((11..=20).contains(&stops), "{stops}");
    // Weak gas and a cold rim.
    let usual = assessment.heart.at.usual.solved.as_ref().unwrap();
    let limit = ThermodynamicTemperature::new::<degree_celsius>(1000.0);
    assert!(usual.gas.lower_heating_value < 3.0);
    assert!(usual.profile.share_colder_than(limit) > share(10.0));
}

#[test]
fn every_remedy_offered_passes() {
    let improved = example::as_improved();
    let cases = [
        (
            with(improved.clone(), &[("fuel.moisture", 0.25)]),
            "heart.moisture",
            1,
        ),
        (
            with(improved.clone(), &[("operation.usual_load", 0.30)]),
            "heart.usual",
            1,
        ),
        (
            with(improved.clone(), &[("operation.idle_load", 0.35)]),
            "heart.idle",
            2,
        ),
        (
            with(improved.clone(), &[("operation.idle_load", 0.35)]),
            "heart.turndown",
            1,
        ),
        (
            with(improved.clone(), &[("fuel.piece_size", 0.050)]),
            "heart.pieces",
            2,
        ),
        (
            with(improved.clone(), &[("engine.wanted_power", 11_000.0)]),
            "engine.power",
            3,
        ),
        (
            with(improved.clone(), &[("hopper.height", 0.10)]),
            "engine.refuel",
            2,
        ),
    ];
    for (design, id, expected) in cases {
        every_remedy_passes(&design, id, expected);
    }
}

#[test]
fn findings_are_complete_and_levers_exist() {
    for design in [
        Design::default(),
        example::as_first_drawn(),
        choose(Design::default(), "hearth.kind", "straight"),
    ] {
        let assessment = assess(&design);
        let mine: Vec<_> = assessment
            .findings
            .iter()
            .filter(|finding| matches!(finding.chapter, Chapter::Heart | Chapter::Engine))
            .collect();
        assert_eq!(mine.len(), 10);
        for finding in mine {
            for system in [System::Metric, System::Inch] {
                let text = finding.compared.text(system);
                assert!(!text.is_empty() && !text.contains("{}"), "{}", finding.id);
            }
            assert!(!finding.working.is_empty(), "{}", finding.id);
            assert!(finding.margin.is_some_and(f64::is_finite), "{}", finding.id);
            for lever in &finding.levers {
                if let Lever::Input(path) = lever {
                    assert!(design.in_use(path), "{}: {path}", finding.id);
                }
            }
        }
        assert_eq!(
            assessment.findings.iter().map(|f| f.chapter).next(),
            Some(Chapter::Heart)
        );
    }
}

#[test]
fn a_missing_material_cannot_be_told() {
    let design = choose(Design::default(), "hearth_layers.1.material", "own_2");
    let assessment = assess(&design);
    for id in [
        "heart.full",
        "heart.usual",
        "heart.idle",
        "heart.turndown",
        "engine.power",
    ] {
        assert_eq!(verdict(&assessment, id), Verdict::CannotTell, "{id}");
    }
    assert_eq!(assessment.heart.at.full.supply.basis, Basis::WithoutLoss);
}

/// Gas of the model, thinned with air as a leak does, is what the model computes.
#[test]
fn leaked_air_is_taken_into_account_beside_a_measurement() {
    let mut design = example::as_improved();
    let solved = HeartModel::of(&design).solve(design.measured.load).unwrap();
    let dry = &solved.gas.dry;
    let air = 0.039 / 0.2095;
    let thinned = |part: f64| Some(Ratio::new::<ratio>(part * (1.0 - air)));
    design.measured.carbon_monoxide = thinned(dry.carbon_monoxide);
    design.measured.hydrogen = thinned(dry.hydrogen);
    design.measured.methane = thinned(dry.methane);
    design.measured.oxygen = Some(share(3.9));
    for row in model_beside_measurement(&design) {
        if row.name != "oxygen" {
            let off = row.measured.si / row.computed.si - 1.0;
            assert!(off.abs() < 0.01, "{}: {off}", row.name);
        }
    }
    let assessment = assess(&design);
    let finding = assessment.finding("heart.measured").unwrap();
    assert_eq!(finding.verdict, Verdict::Good);
    let told = finding.compared.text(System::Metric);
    assert!(told.contains("with the 18.6 % of leaked air"), "{told}");
    let oxygen = assessment.finding("heart.oxygen").unwrap();
    let told = oxygen.compared.text(System::Metric);
    assert!(
        told.contains("18.6 % of what was measured is air. Draw clean air"),
        "{told}"
    );
    // Without the oxygen the same reading is too weak.
    design.measured.oxygen = None;
    assert_eq!(verdict(&assess(&design), "heart.measured"), Verdict::Watch);
}

#[test]
fn measured_oxygen_is_held_to_the_pass_marks() {
    let mut design = example::as_improved();
    design.measured.oxygen = Some(share(3.5));
    let found = |design: &Design| {
        let assessment = assess(design);
        assessment.finding("heart.oxygen").unwrap().clone()
    };
    let usual = found(&design);
    assert_eq!(usual.verdict, Verdict::Watch);
    assert!(usual.caution.unwrap().contains("explodes"));
    assert!(usual.caution.unwrap().contains("carbon monoxide"));
    design.limits.oxygen_watch = share(1.0);
    design.limits.oxygen_stop = share(3.0);
    let strict = found(&design);
    assert_eq!(strict.verdict, Verdict::Stop);
    let told = strict.compared.text(System::Metric);
    assert!(told.contains("warning above 1 %, stop above 3 %"), "{told}");
    // Of two marks that cross the stricter counts, as for the oxygen that is computed.
    design.limits.oxygen_watch = share(5.0);
    assert_eq!(found(&design).verdict, Verdict::Stop);
    design.measured.oxygen = Some(share(2.0));
    assert_eq!(found(&design).verdict, Verdict::Good);
    let assessment = assess(&design);
    let computed = assessment.finding("train.oxygen").unwrap();
    assert_ne!(computed.title, strict.title);
}

#[test]
fn measurements_stand_beside_the_model() {
    let mut design = example::as_improved();
    design.measured.hearth_temperature =
        Some(ThermodynamicTemperature::new::<degree_celsius>(1150.0));
    design.measured.carbon_monoxide = Some(share(20.0));
    design.measured.hydrogen = Some(share(17.0));
    design.measured.methane = Some(share(2.0));
    design.measured.oxygen = Some(share(3.0));
    let rows = model_beside_measurement(&design);
    let row = |name: &str| rows.iter().find(|row| row.name == name).unwrap();
    assert_eq!(rows.len(), 6);
    assert!(
        (row("hearth_temperature").computed.si - row("hearth_temperature").measured.si).abs()
            < 150.0
    );
    // 12.63 × 0.20 + 10.78 × 0.17 + 35.8 × 0.02
    assert!((row("gas_heat").measured.si - 5.0746e6).abs() < 1.0);
    let assessment = assess(&design);
    assert_eq!(verdict(&assessment, "heart.oxygen"), Verdict::Watch);
    let finding = assessment.finding("heart.measured").unwrap();
    assert_eq!(finding.verdict, Verdict::Watch);
    let told = finding.compared.text(System::Metric);
    assert!(
        told.contains("Heat in the gas, measured 5.07 MJ/Nm³"),
        "{told}"
    );
    // A fire far colder than computed points at the rule that sets the air, unless that is the other one.
    design.measured.hearth_temperature =
        Some(ThermodynamicTemperature::new::<degree_celsius>(820.0));
    let points_at_air = |design: &Design| {
        let assessment = assess(design);
        let finding = assessment.finding("heart.measured").unwrap();
        let told = finding.compared.text(System::Metric);
        told.contains("“The air is known”")
    };
    assert!(points_at_air(&design));
    design.gas_making.air_rule = AirRule::AirHeld;
    assert!(!points_at_air(&design));
    assert!(
        assess(&example::as_improved())
            .finding("heart.measured")
            .is_none()
    );
}

#[test]
fn random_designs_are_answered_in_finite_numbers() {
    for seed in 0..1500 {
        let design = random_design(seed);
        let assessment = assess(&design);
        for result in assessment
            .heart
            .results()
            .into_iter()
            .chain(assessment.engine.results())
        {
            assert!(result.measure.si.is_finite(), "seed {seed}: {result:?}");
        }
        for chapter in [Chapter::Heart, Chapter::Engine] {
            for finding in ask(&design, chapter) {
                assert!(
                    finding.margin.is_none_or(f64::is_finite),
                    "seed {seed}: {finding:?}"
                );
                assert!(!finding.compared.text(System::Inch).contains("{}"));
            }
        }
    }
}

#[test]
fn numbers_that_are_none_do_not_panic() {
    let mut design = Design::default();
    design.engine.displacement.value = f64::NAN;
    design.fuel.moisture.value = f64::NAN;
    design.hearth.nozzle_ring_diameter = Length::new::<millimeter>(f64::NAN);
    design.body_wall.inner_temperature.value = f64::NAN;
    let assessment = assess(&design);
    assert_eq!(verdict(&assessment, "heart.full"), Verdict::CannotTell);
    assert!(!heart_over_load(&design, 5).is_empty());
}
