//! The gas as the hearth makes it, from load to load and hotter than any train bears.

use super::{choice, number, with};
use hearthplan::review::{Assessment, Verdict, assess};

fn result(assessment: &Assessment, name: &str) -> f64 {
    let results = assessment.results();
    let found = results.iter().find(|result| result.name == name);
    found.expect(name).measure.si
}

#[test]
fn nozzles_lose_as_much_in_the_train_as_in_the_hearth() {
    for share in [0.4, 0.65, 0.7, 1.0] {
        let assessment = assess(&with(&[("operation.usual_load", number(share))]));
        for load in ["usual", "full"] {
            let in_hearth = result(&assessment, &format!("hearth.nozzle_drop_{load}"));
            let name = match load {
                "full" => "breath.drop_full_clean_nozzles",
                _ => "breath.drop_usual_nozzles",
            };
            let in_train = result(&assessment, name);
            assert!(
                (in_train / in_hearth - 1.0).abs() < 1e-9,
                "{load} at {share}: {in_train} Pa and {in_hearth} Pa"
            );
        }
    }
}

/// Held at much air, the hearth makes gas hotter than the train is reckoned for: what leaves the vessel is asked all the
/// same. By hand: gas with its steam takes some 1.45 kJ/(kg·K) between 350 °C and 1100 °C.
#[test]
fn gas_that_is_made_far_too_hot_is_still_asked_for_at_the_outlet() {
    let mut before = 0.0;
    for ratio in [0.35, 0.45, 0.6] {
        let assessment = assess(&with(&[
            ("gas_making.air_rule", choice("air_held")),
            ("gas_making.equivalence_ratio", number(ratio)),
        ]));
        let solved = assessment.heart.at.full.solved.as_ref().unwrap();
        let made = solved.gas.exit_temperature.value;
        let finding = assessment.finding("train.leaves").expect("asked");
        let told = finding.compared.text(Default::default());
        let given = finding.working[0].result.si;
        let flow = assessment.train.outlet.gas_mass_rate().value;
        let capacity = given / flow / (made - 623.15);
        assert!((1300.0..1600.0).contains(&capacity), "{ratio}: {capacity}");
        assert!(given > before, "{told}");
        before = given;
        assert_eq!(made > 1273.15, ratio > 0.4);
        if ratio > 0.5 {
            assert_eq!(finding.verdict, Verdict::Watch, "{told}");
            assert!(told.contains("would have to give off"), "{told}");
        }
    }
}

/// The battery does without the fan while lighting, and so does the cooler.
#[test]
fn the_cooler_is_blown_at_while_lighting_only_by_a_fan_that_runs_then() {
    use hearthplan::design::inputs::LoadTime;
    let outlet = |assessment: &Assessment| {
        let solved = assessment.train.startup.as_ref().unwrap();
        solved.points[3].temperature.value
    };
    let running = |assessment: &Assessment| {
        let solved = assessment.train.full_clean.as_ref().unwrap();
        solved.points[3].temperature.value
    };
    let design = with(&[]);
    let resting = assess(&design);
    let mut on = design.clone();
    let fan = (on.loads.iter_mut()).find(|load| load.name == "Cooler fan");
    fan.unwrap().when = LoadTime::Always;
    let blown = assess(&on);
    assert!(outlet(&resting) > outlet(&blown) + 5.0);
    assert_eq!(running(&resting), running(&blown));
    assert!(
        result(&blown, "electrics.load_lighting") > result(&resting, "electrics.load_lighting")
    );
    let bare = assess(&with(&[("train.2.cooling", choice("bare"))]));
    assert_eq!(outlet(&bare), outlet(&resting));
    let told = |assessment: &Assessment| {
        let fan = assessment.finding("electrics.fan").unwrap();
        fan.compared.text(Default::default())
    };
    assert!(told(&resting).contains("while lighting it rests"));
    assert!(told(&blown).contains("also while lighting"));
}
