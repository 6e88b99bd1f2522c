//! Pass marks that contradict each other are told, and no others.

use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Kind, Value, celsius, example};
use hearthplan::review::{Verdict, assess};

/// Inputs with what is put into them, SI.
type Changes<'a> = &'a [(&'a str, f64)];

fn told(changes: &[(&str, f64)]) -> Option<String> {
    let mut design = example::as_improved();
    for (path, value) in changes {
        design.set(path, Value::Number(*value)).unwrap();
    }
    let assessment = assess(&design);
    let finding = assessment.finding("heart.marks")?;
    assert_eq!(finding.verdict, Verdict::Watch);
    assert_eq!(finding.about, "limits");
    Some(finding.compared.text(System::Metric))
}

#[test]
fn marks_the_wrong_way_round_are_told_with_both() {
    assert_eq!(told(&[]), None);
    // As high as each other they only leave no Watch.
    assert_eq!(told(&[("limits.moisture_watch", 0.30)]), None);
    let wet = told(&[("limits.moisture_watch", 0.32)]).unwrap();
    assert!(
        wet.starts_with("“Moisture, Watch above” is 32 %, but “Moisture, Stop above” is 30 %"),
        "{wet}"
    );
    let weak = told(&[("limits.gas_heat_stop", 4.8e6)]).unwrap();
    assert!(
        weak.contains("“Heat in the gas, Watch below” is 4.5 MJ"),
        "{weak}"
    );
    let narrow = told(&[("limits.nozzle_velocity_least", 40.0)]).unwrap();
    assert!(narrow.contains("no design passes"), "{narrow}");
    for (path, value) in [
        ("limits.tar_temperature", 1400.0),
        ("limits.tar_share_watch", 0.3),
        ("limits.tip_angle_least", 0.4),
        ("limits.touch_temperature", 390.0),
        ("limits.loss_share_stop", 0.05),
        ("limits.hearth_load_least", 2.6),
        ("limits.engine_vacuum_stop", 300.0),
        ("limits.engine_dust_watch", 0.001),
        ("limits.engine_gas_stop", 300.0),
        ("limits.oxygen_stop", 0.01),
    ] {
        let mut changes = vec![(path, value)];
        if path == "limits.touch_temperature" {
            changes.push(("limits.guarded_temperature", 350.0));
        }
        assert!(told(&changes).is_some(), "{path}");
    }
}

/// What is not asked has no say.
#[test]
fn marks_of_what_is_not_asked_are_no_matter() {
    let mut design = Design::default();
    design
        .set("hearth.kind", Value::Choice("straight".to_string()))
        .unwrap();
    design
        .set("limits.nozzle_velocity_least", Value::Number(40.0))
        .unwrap();
    assert!(assess(&design).finding("heart.marks").is_none());
}

/// Each Watch mark with its Stop mark beyond it: where the Stop mark alone is tightened until the value fails it, the verdict is
/// Stop, and words and margin say so too.
#[test]
fn a_stop_mark_that_is_failed_is_a_stop_wherever_the_watch_mark_stands() {
    let rim: Changes = &[
        ("limits.tar_temperature", celsius(1140.0)),
        ("limits.tar_share_watch", 1.0),
    ];
    let pairs: [(&str, f64, &str, Changes); 11] = [
        ("moisture_stop", 0.10, "heart.moisture", &[]),
        ("tar_temperature", celsius(1300.0), "heart.full", &[]),
        ("tar_share_stop", 0.0, "heart.full", rim),
        ("gas_heat_stop", 7.0e6, "heart.usual", &[]),
        ("tip_angle_least", 0.75, "standing.tip_full", &[]),
        ("loss_share_stop", 0.012, "warmth.loss", &[]),
        ("loss_share_stop", 0.012, "warmth.loss_idle", &[]),
        ("engine_vacuum_stop", 250.0, "breath.suction", &[]),
        ("engine_dust_stop", 6.0e-6, "train.arrives", &[]),
        (
            "engine_gas_stop",
            celsius(22.0),
            "train.engine_temperature",
            &[],
        ),
        (
            "oxygen_stop",
            0.002,
            "train.oxygen",
            &[("raw_gas.air_leak", 0.05)],
        ),
    ];
    for (mark, tightened, id, beside) in pairs {
        let path = format!("limits.{mark}");
        let mut design = example::as_improved();
        for (path, value) in beside {
            design.set(path, Value::Number(*value)).unwrap();
        }
        let before = assess(&design).finding(id).unwrap().verdict;
        assert_eq!(before, Verdict::Good, "{id}");
        design.set(&path, Value::Number(tightened)).unwrap();
        let finding = assess(&design).finding(id).unwrap().clone();
        assert_eq!(finding.verdict, Verdict::Stop, "{id}");
        assert!(finding.margin.unwrap() < 0.0, "{id}: {:?}", finding.margin);
        let Kind::Number { quantity, .. } = design.input(&path).unwrap().kind else {
            panic!("{path} is no number");
        };
        let told = finding.compared.text(System::Metric);
        let shown = quantity.show(tightened, System::Metric);
        assert!(told.contains(&shown), "{id}: {told}, without {shown}");
    }
}
