//! What the train leaves of the power, and which verdict counts in the end.

use super::{choice, number, verdict, with};
use hearthplan::design::Value;
use hearthplan::review::{Lever, Verdict, assess};

#[test]
fn suction_and_warm_gas_come_off_the_power() {
    let left = |changes: &[(&str, Value)]| {
        let assessment = assess(&with(changes));
        let whole = assessment.train.on_gas.unwrap().shaft_power.value;
        let vacuum = assessment.breath.engine_vacuum.unwrap().value / 101_325.0;
        let finding = assessment.finding("train.engine_power").unwrap().clone();
        let by_steam = assessment.train.power_left.unwrap().by_steam.value;
        (
            finding.working.last().unwrap().result.si / whole / by_steam,
            vacuum,
            finding.verdict,
        )
    };
    let (kept, vacuum, verdict) = left(&[]);
    assert_eq!(verdict, Verdict::Good);
    assert!((kept - (1.0 - vacuum)).abs() < 1e-9, "{kept} {vacuum}");
    let (kept, vacuum, verdict) = left(&[
        ("train.4.medium", choice("cloth")),
        ("train.4.cloth_area", number(0.2)),
    ]);
    let at_most = 1.0 - vacuum + 1e-9;
    assert!(vacuum > 0.2 && kept <= at_most, "{kept} {vacuum}");
    assert_eq!(verdict, Verdict::Stop);
    // Gas some 40 °C too warm is a little less than half of the mixture.
    let (kept, vacuum, _) = left(&[("train.2.tube_length", number(0.2))]);
    let by_warmth = kept / (1.0 - vacuum);
    assert!((0.8..0.97).contains(&by_warmth), "{by_warmth}");
    let mut tried = with(&[]);
    (tried.set("operation.flow_source", choice("entered"))).unwrap();
    assert!(assess(&tried).finding("train.engine_power").is_none());
}

#[test]
fn power_before_and_behind_the_train_do_not_contradict() {
    let behind_cloth = assess(&with(&[
        ("train.4.medium", choice("cloth")),
        ("train.4.cloth_area", number(0.2)),
    ]));
    assert_eq!(verdict(&behind_cloth, "engine.power"), Verdict::Good);
    assert_eq!(verdict(&behind_cloth, "train.engine_power"), Verdict::Stop);
    // What is told before the train says so, and names the verdict that counts in the end.
    let before = behind_cloth.finding("engine.power").unwrap();
    let behind = behind_cloth.finding("train.engine_power").unwrap();
    assert!(before.title.ends_with("before the train"));
    assert!(before.why.contains(behind.title), "{}", before.why);
    assert!(behind.why.contains(before.title), "{}", behind.why);
    let told = before.compared.text(Default::default());
    assert!(told.contains("before the train takes its share"), "{told}");
    let shown = |name: &str| {
        let results = behind_cloth.results();
        let result = results.into_iter().find(|result| result.name == name);
        result.unwrap().measure.si
    };
    assert!(shown("train.engine_power") < 0.9 * shown("engine.shaft_power_full"));
}

/// The power that is left stops as soon as it is too little and stays so, the more is wanted of the same engine. Where the
/// engine is too small by itself the train has no blame and no lever.
#[test]
fn what_is_left_never_gets_milder_the_smaller_the_engine_is() {
    let wanting = |watts: f64| {
        let mut design = with(&[]);
        design.set("engine.wanted_power", number(watts)).unwrap();
        assess(&design)
    };
    let mut last = Verdict::Good;
    let (mut by_train, mut by_engine) = (0, 0);
    for step in 0..60 {
        let assessment = wanting(4e3 * 1.02_f64.powi(step));
        let finding = assessment.finding("train.engine_power").unwrap();
        assert!(finding.verdict >= last, "step {step}");
        last = finding.verdict;
        if last != Verdict::Stop {
            continue;
        }
        let told = finding.compared.text(Default::default());
        let is_short = verdict(&assessment, "engine.power") == Verdict::Stop;
        assert_eq!(told.contains("too small by itself"), is_short, "{told}");
        let of_train = |lever: &Lever| format!("{lever:?}").contains("train");
        assert_eq!(!finding.levers.iter().any(of_train), is_short, "{step}");
        by_train += usize::from(!is_short);
        by_engine += usize::from(is_short);
    }
    assert!(by_train > 0 && by_engine > 0, "{by_train} {by_engine}");
}
