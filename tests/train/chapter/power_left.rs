//! What the train leaves of the power, and which verdict counts in the end.

use super::{choice, number, verdict, with};
use hearthplan::design::Value;
use hearthplan::review::{Verdict, assess};

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

#[test]
fn an_engine_too_small_by_itself_is_one_stop() {
    let wanting = |watts: f64, more: &[(&str, Value)]| {
        let mut design = with(more);
        design.set("engine.wanted_power", number(watts)).unwrap();
        let assessment = assess(&design);
        ["engine.power", "train.engine_power"].map(|id| verdict(&assessment, id))
    };
    assert_eq!(wanting(30e3, &[]), [Verdict::Stop, Verdict::Watch]);
    // A train that takes much by itself is a Stop of its own.
    let tight = [
        ("train.4.medium", choice("cloth")),
        ("train.4.cloth_area", number(0.2)),
    ];
    assert_eq!(wanting(30e3, &tight), [Verdict::Stop, Verdict::Stop]);
}
