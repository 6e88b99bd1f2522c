//! The breath chapter of the review.

use crate::mended::every_remedy_passes;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value};
use hearthplan::review::{Assessment, Verdict, assess};

fn with(changes: &[(&str, Value)]) -> Design {
    let mut design = Design::default();
    for (path, value) in changes {
        design.set(path, value.clone()).unwrap();
    }
    design
}

fn number(value: f64) -> Value {
    Value::Number(value)
}

fn choice(name: &str) -> Value {
    Value::Choice(name.to_string())
}

fn verdict(assessment: &Assessment, id: &str) -> Verdict {
    assessment.finding(id).unwrap().verdict
}

#[test]
fn a_new_design_passes_the_chapter_and_every_finding_is_complete() {
    let assessment = assess(&Design::default());
    let findings: Vec<_> = assessment
        .findings
        .iter()
        .filter(|finding| finding.id.starts_with("breath."))
        .collect();
    assert_eq!(findings.len(), 5);
    for finding in findings {
        assert_eq!(finding.verdict, Verdict::Good, "{}", finding.id);
        assert!(finding.margin.unwrap() >= 0.0, "{}", finding.id);
        assert!(
            finding.caution.is_some() && !finding.levers.is_empty(),
            "{}",
            finding.id
        );
        assert!(!finding.working.is_empty(), "{}", finding.id);
        for step in &finding.working {
            assert!(
                !step.formula.is_empty() && !step.sure.is_empty(),
                "{}",
                step.words
            );
        }
        for system in [System::Metric, System::Inch] {
            assert!(
                !finding.compared.text(system).contains("{}"),
                "{}",
                finding.id
            );
        }
    }
}

#[test]
fn levers_name_inputs_that_exist() {
    let design = with(&[("blower.assists", Value::Flag(true))]);
    for finding in assess(&design)
        .findings
        .iter()
        .filter(|f| f.id.starts_with("breath."))
    {
        for lever in &finding.levers {
            let hearthplan::review::Lever::Input(path) = lever else {
                panic!("{lever:?}");
            };
            assert!(design.input(path).is_some(), "{path}");
        }
    }
}

#[test]
fn full_load_adds_up() {
    let breath = assess(&Design::default()).breath;
    let sum: f64 = breath
        .full_dirty
        .stages
        .iter()
        .map(|stage| stage.drop.value)
        .sum();
    assert!((sum - breath.full_dirty.drop.value).abs() < 1e-9);
    let dirt = breath.full_dirty.drop - breath.full_clean.drop;
    assert!((dirt.value - 550.0).abs() < 1e-9);
    let sides = breath.pressure_side + breath.suction_side;
    assert!((sides - breath.startup.drop).value.abs() < 1e-9);
    assert_eq!(breath.engine_vacuum, breath.full_dirty.drop);
}

#[test]
fn at_the_speed_needed_the_blower_just_reaches_the_startup_flow() {
    let blower = assess(&Design::default()).breath.blower.unwrap();
    let speed = blower.startup.speed_needed.unwrap().value;
    let just = assess(&with(&[("blower.startup_speed_share", number(speed))])).breath;
    let reached = just.blower.unwrap().startup.gas_flow.value / just.startup.gas_flow.value;
    assert!((reached - 1.0).abs() < 1e-3, "{reached}");
}

#[test]
fn hot_or_thin_gas_leaves_the_blower_weaker() {
    let flow = |changes: &[(&str, Value)]| {
        assess(&with(changes))
            .breath
            .blower
            .unwrap()
            .startup
            .gas_flow
            .value
    };
    let here = flow(&[]);
    assert!(flow(&[("blower.gas_temperature", number(473.15))]) < 0.8 * here);
    assert!(flow(&[("site.altitude", number(3000.0))]) < 0.95 * here);
}

#[test]
fn a_blower_that_helps_is_asked_for_full_load_and_spares_the_engine() {
    let alone = assess(&Design::default());
    assert!(alone.finding("breath.full_dirty").is_none());
    let helped = assess(&with(&[
        ("blower.assists", Value::Flag(true)),
        ("blower.speed_share", number(1.2)),
    ]));
    assert_ne!(verdict(&helped, "breath.full_dirty"), Verdict::Good);
    assert!(helped.breath.engine_vacuum.value < 0.5 * alone.breath.engine_vacuum.value);
}

#[test]
fn each_place_has_its_verdict_and_its_pressure_side() {
    let at = |place: &str| assess(&with(&[("blower.place", choice(place))]));
    let (clean, cool, hot) = (at("clean"), at("cool"), at("hot"));
    assert_eq!(verdict(&clean, "breath.blower_place"), Verdict::Good);
    assert_eq!(verdict(&cool, "breath.blower_place"), Verdict::Watch);
    assert_eq!(verdict(&hot, "breath.blower_place"), Verdict::Stop);
    assert!(clean.breath.pressure_side < cool.breath.pressure_side);
    assert!(cool.breath.pressure_side < hot.breath.pressure_side);
}

#[test]
fn a_curve_without_points_cannot_be_told() {
    let mut design = Design::default();
    design.blower_curve.clear();
    let assessment = assess(&design);
    for id in ["breath.startup", "breath.stall", "breath.battery"] {
        let finding = assessment.finding(id).unwrap();
        assert_eq!(finding.verdict, Verdict::CannotTell, "{id}");
        assert!(
            finding
                .compared
                .text(System::Metric)
                .contains("at least two points")
        );
    }
    assert_eq!(verdict(&assessment, "breath.suction"), Verdict::Good);
    assert!(!assessment.breath.curves(20).is_empty());
}

#[test]
fn remedies_of_each_breath_question_pass() {
    let helps = ("blower.assists", Value::Flag(true));
    let cases = [
        (
            with(&[("blower.startup_speed_share", number(0.35))]),
            "breath.startup",
            2,
        ),
        (
            with(&[helps, ("blower.speed_share", number(1.0))]),
            "breath.full_dirty",
            2,
        ),
        (
            with(&[("hearth.char_size", number(0.010))]),
            "breath.suction",
            2,
        ),
        (
            with(&[("hearth.char_size", number(0.010))]),
            "breath.stall",
            1,
        ),
        (
            with(&[("battery.capacity", number(5.0 * 3600.0))]),
            "breath.battery",
            1,
        ),
        (
            with(&[("blower.place", choice("hot"))]),
            "breath.blower_place",
            1,
        ),
    ];
    for (design, id, expected) in cases {
        every_remedy_passes(&design, id, expected);
    }
}

#[test]
fn the_chart_shows_the_working_point() {
    let breath = assess(&Design::default()).breath;
    let samples = breath.curves(400);
    assert_eq!(samples.len(), 400);
    let working = breath.blower.as_ref().unwrap().startup.working;
    let crossing = samples
        .iter()
        .find(|sample| {
            sample
                .blower_startup
                .is_some_and(|pressure| pressure < sample.system_startup)
        })
        .unwrap();
    let step = samples[1].flow.value;
    assert!(
        (crossing.flow - working.flow).value.abs() <= step,
        "{crossing:?} {working:?}"
    );
    assert!(
        samples
            .windows(2)
            .all(|pair| pair[1].system_dirty > pair[0].system_dirty)
    );
    assert!(samples.last().unwrap().blower_startup.is_none());
}

#[test]
fn an_open_fire_tube_breathes_through_its_wood() {
    let straight = assess(&with(&[("hearth.kind", choice("straight"))])).breath;
    let names: Vec<_> = straight
        .startup
        .stages
        .iter()
        .map(|stage| stage.kind.name())
        .collect();
    assert_eq!(&names[..2], ["wood", "char"]);
    assert!(straight.full_clean.stages[0].drop.value > 0.0);
    let shut = assess(&Design::default()).breath;
    assert!(
        shut.startup
            .stages
            .iter()
            .all(|stage| stage.kind.name() != "wood")
    );
}
