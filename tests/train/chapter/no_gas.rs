//! Where no gas is made, or none comes through, nothing is told that would rest on it.

use super::{number, verdict, with};
use crate::mended::every_remedy_passes;
use hearthplan::design::inputs::LoadTime;
use hearthplan::design::{Value, example};
use hearthplan::review::{Assessment, Chapter, Lever, Verdict, assess};

/// Names of the computed numbers that begin so.
fn told(assessment: &Assessment, begin: &str) -> Vec<String> {
    let names = assessment.results().into_iter().map(|result| result.name);
    names.filter(|name| name.starts_with(begin)).collect()
}

#[test]
fn a_usual_load_without_gas_has_no_train() {
    let mut design = example::as_first_drawn();
    design.operation.usual_load = design.operation.idle_load;
    let assessment = assess(&design);
    assert!(!assessment.heart.at.usual.makes_gas() && assessment.heart.at.full.makes_gas());
    let of_train: Vec<_> = assessment.answers(Chapter::Train).collect();
    // Bores meet or do not, whatever passes them.
    let [passes, steps] = of_train[..] else {
        panic!("what rests on the gas is asked: {of_train:?}");
    };
    assert_eq!(
        (passes.id, passes.verdict),
        ("train.passes", Verdict::CannotTell)
    );
    assert_eq!((steps.id, steps.verdict), ("train.steps", Verdict::Good));
    let words = passes.compared.text(Default::default());
    let title = assessment.finding("heart.usual").unwrap().title;
    assert!(words.contains(title), "{words}");
    for begin in ["train.usual", "breath.drop_usual", "electrics.knob_usual"] {
        assert_eq!(told(&assessment, begin), Vec::<String>::new(), "{begin}");
    }
    // Full load, with gas, keeps its numbers.
    for begin in [
        "train.full_clean",
        "breath.drop_full_clean",
        "breath.engine_vacuum",
    ] {
        assert!(!told(&assessment, begin).is_empty(), "{begin}");
    }
    let knob = assessment.electrics.knob.as_ref().unwrap();
    assert_eq!(knob.map(|setting| setting.known), [true, false, true]);
}

#[test]
fn a_full_load_without_gas_has_no_train_no_breath_and_no_current() {
    let mut design = example::as_first_drawn();
    design.engine.displacement *= 0.3;
    let assessment = assess(&design);
    assert!(!assessment.heart.at.full.makes_gas());
    for begin in [
        "train.",
        "breath.",
        "electrics.load_",
        "electrics.current_",
        "electrics.time_",
        "electrics.knob_",
    ] {
        assert_eq!(told(&assessment, begin), Vec::<String>::new(), "{begin}");
    }
    for id in [
        "train.passes",
        "breath.startup",
        "breath.stall",
        "breath.suction",
        "breath.battery",
        "electrics.knob",
    ] {
        let finding = assessment.finding(id).unwrap();
        assert_eq!(finding.verdict, Verdict::CannotTell, "{id}");
        let words = finding.compared.text(Default::default());
        assert!(words.contains("makes no gas that burns"), "{id}: {words}");
        assert!(finding.levers.is_empty(), "{id}");
    }
    let curves = assessment.breath.curves(&design, &assessment.train, 3);
    assert!(curves.iter().all(|sample| sample.system_clean.is_none()));
}

#[test]
fn frost_is_told_where_it_blocks_the_train() {
    let at = |celsius: f64| assess(&with(&[("site.air_temperature", number(273.15 + celsius))]));
    assert!(at(0.5).finding("train.ice").is_none());
    assert_eq!(verdict(&at(-1.0), "train.ice"), Verdict::Good);
    // With its fan at rest the cooler leaves the gas warmer while lighting than while the engine runs.
    let mut blown = with(&[("site.air_temperature", number(270.15))]);
    for load in &mut blown.loads {
        load.when = LoadTime::Always;
    }
    let blown = assess(&blown);
    let ice = blown.finding("train.ice").unwrap();
    assert_eq!(ice.verdict, Verdict::Watch);
    let told = ice.compared.text(Default::default());
    assert!(told.starts_with("Tube cooler"), "{told}");
    assert!(
        told.contains("while lighting") && told.contains("stays at 0 °C"),
        "{told}"
    );
    // In hard frost even the engine's own draught freezes.
    let hard = at(-20.0);
    let ice = hard.finding("train.ice").unwrap();
    assert_eq!(ice.verdict, Verdict::Stop);
    let told = ice.compared.text(Default::default());
    assert!(told.contains("at usual load"), "{told}");
    // All else is answered as for a train that is covered.
    let usual = assess(&example::as_improved());
    for frost in [&blown, &hard] {
        for finding in &usual.findings {
            let found = frost.finding(finding.id).unwrap();
            assert_ne!(found.verdict, Verdict::CannotTell, "{}", finding.id);
        }
        assert_eq!(frost.electrics.wiring.len(), usual.electrics.wiring.len());
        assert!(frost.electrics.wiring.iter().all(|row| row.run.is_ok()));
        let coldest = (frost.train.startup.iter().chain(&frost.train.usual))
            .flat_map(|solved| &solved.points)
            .map(|gas| gas.temperature.value)
            .fold(f64::INFINITY, f64::min);
        assert_eq!(coldest, 273.15);
    }
}

#[test]
fn what_no_gas_can_pass_is_said_by_its_stage() {
    let design = with(&[
        ("train.0.bore", number(0.01)),
        ("train.0.length", number(60.0)),
    ]);
    let assessment = assess(&design);
    let finding = assessment.finding("train.passes").unwrap();
    assert_eq!(finding.verdict, Verdict::Stop);
    let told = finding.compared.text(Default::default());
    assert!(
        told.starts_with("at the usual load, stage 1, Pipe: "),
        "{told}"
    );
    assert!(assessment.finding("train.engine_temperature").is_none());
}

/// Verdict and words of a finding.
fn said(assessment: &Assessment, id: &str) -> (Verdict, String) {
    let finding = assessment.finding(id).unwrap();
    (finding.verdict, finding.compared.text(Default::default()))
}

#[test]
fn a_train_through_which_no_gas_flows_stops() {
    let narrow = |bore: f64| assess(&with(&[("train.0.bore", number(bore))]));
    let thin = narrow(0.010);
    for id in ["train.passes", "breath.suction"] {
        let (verdict, words) = said(&thin, id);
        assert_eq!(verdict, Verdict::Stop, "{id}: {words}");
        assert!(words.contains("stage 1, Pipe"), "{id}: {words}");
        let first = &thin.finding(id).unwrap().levers[0];
        assert_eq!(*first, Lever::input("train.0.bore"), "{id}");
    }
    // Where not even the gas of the lighting comes through, no blower helps.
    let longer = assess(&with(&[
        ("train.0.bore", number(0.010)),
        ("train.0.length", number(60.0)),
    ]));
    let (verdict, words) = said(&longer, "breath.startup");
    assert_eq!(verdict, Verdict::Stop, "{words}");
    assert!(words.contains("while lighting"), "{words}");
    let large = assess(&with(&[("engine.displacement", number(0.010))]));
    assert_eq!(said(&large, "train.passes").0, Verdict::Stop);
    // What an engine draws through it is not known, and no leak test is planned by it.
    let (verdict, words) = said(&thin, "leaks.plan");
    assert_eq!(verdict, Verdict::CannotTell, "{words}");
    let title = thin.finding("train.passes").unwrap().title;
    assert!(words.contains(title), "{words}");
    let panel = thin.finding("leaks.panel").unwrap();
    let pressure = Lever::input("leak_test.test_pressure");
    assert!(!panel.levers.contains(&pressure), "{:?}", panel.levers);
    // Far more than a test takes, or just enough: nobody knows.
    let mut pressed = with(&[
        ("train.0.bore", number(0.010)),
        ("leak_test.test_pressure", number(8_000.0)),
        ("hopper.fitted", Value::Flag(false)),
        ("leak_test.panel_sheet", number(0.02)),
    ]);
    for stage in &mut pressed.train {
        stage.wall *= 3.0;
    }
    let (verdict, words) = said(&assess(&pressed), "leaks.panel");
    assert_eq!(verdict, Verdict::CannotTell, "{words}");
    pressed.set("train.0.bore", number(0.05)).unwrap();
    let (verdict, words) = said(&assess(&pressed), "leaks.panel");
    assert_eq!(verdict, Verdict::Watch, "{words}");
}

#[test]
fn a_grate_without_a_hole_lets_no_gas_through() {
    let shut = assess(&with(&[("grate.rim", number(0.1))]));
    for id in ["hearth.grate", "train.passes", "breath.suction"] {
        let (verdict, words) = said(&shut, id);
        assert_eq!(verdict, Verdict::Stop, "{id}: {words}");
        assert!(words.contains("no room for a grate hole"), "{id}: {words}");
        every_remedy_passes(&with(&[("grate.rim", number(0.1))]), id, 1);
    }
    // A rim wider than the plate leaves no more room.
    let wider = assess(&with(&[("grate.rim", number(0.3))]));
    assert_eq!(verdict(&wider, "hearth.grate"), Verdict::Stop);
    // Nothing is reckoned as if there were no grate.
    assert_eq!(verdict(&shut, "breath.startup"), Verdict::Stop);
    assert_eq!(verdict(&shut, "leaks.plan"), Verdict::CannotTell);
    assert_eq!(told(&shut, "breath."), Vec::<String>::new());
    let curves = shut
        .breath
        .curves(&with(&[("grate.rim", number(0.1))]), &shut.train, 3);
    assert!(curves.iter().all(|sample| sample.system_clean.is_none()));
    // Holes that run into each other are refused.
    let torn = assess(&with(&[
        ("grate.hole", number(0.02)),
        ("grate.pitch", number(0.018)),
    ]));
    let (verdict, words) = said(&torn, "train.passes");
    assert_eq!(verdict, Verdict::CannotTell, "{words}");
    let title = torn.finding("hearth.grate").unwrap().title;
    assert!(words.contains(title), "{words}");
}
