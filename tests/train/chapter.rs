//! The verdicts on the train: each turns when its cause is put in, and its remedies pass.

mod made_gas;
mod no_gas;
mod power_left;
mod stages;

use crate::mended::every_remedy_passes;
use hearthplan::design::inputs::StageKind;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Assessment, Chapter, Verdict, assess};

/// Places in the train of the example.
const OUTLET: usize = 0;
const CYCLONE: usize = 1;
const COOLER: usize = 2;
const FILTER: usize = 4;
const BLOWER: usize = 7;

fn verdict(assessment: &Assessment, id: &str) -> Verdict {
    assessment.finding(id).unwrap().verdict
}

fn number(value: f64) -> Value {
    Value::Number(value)
}

fn choice(name: &str) -> Value {
    Value::Choice(name.to_string())
}

/// The example with these inputs changed.
fn with(changes: &[(&str, Value)]) -> Design {
    let mut design = example::as_improved();
    for (path, value) in changes {
        design.set(path, value.clone()).unwrap();
    }
    design
}

/// The example with one stage at another place.
fn moved(from: usize, to: usize) -> Design {
    let mut design = example::as_improved();
    let stage = design.train.remove(from);
    design.train.insert(to, stage);
    design
}

/// A finding, what makes it fail, how badly, and how many single changes mend it at least.
type Cause = (&'static str, Vec<(&'static str, Value)>, Verdict, usize);

fn causes() -> Vec<Cause> {
    use Verdict::{Stop, Watch};
    vec![
        (
            "train.engine_temperature",
            vec![("train.2.tube_length", number(0.2))],
            Stop,
            1,
        ),
        (
            "train.arrives",
            vec![("train.4.catches", number(0.0))],
            Watch,
            1,
        ),
        (
            "train.cooler_tar",
            vec![("train.2.lie", choice("level"))],
            Watch,
            1,
        ),
        (
            "train.tar_early",
            vec![
                ("train.0.cover", choice("bare")),
                ("train.0.length", number(8.0)),
            ],
            Watch,
            1,
        ),
        (
            "train.tar_early",
            vec![
                ("raw_gas.temperature", number(438.15)),
                ("train.1.cover", choice("bare")),
            ],
            Watch,
            1,
        ),
        (
            "train.cooler_outside",
            vec![
                ("train.2.cooling", choice("water")),
                ("train.2.water_flow", number(0.005)),
            ],
            Stop,
            1,
        ),
        (
            "train.cooler_outside",
            vec![
                ("train.2.cooling", choice("water")),
                (
                    "loads.4.name",
                    Value::Text("Cooling water pump".to_string()),
                ),
                ("loads.4.when", choice("lighting")),
            ],
            Stop,
            1,
        ),
        (
            "train.cooler_outside",
            vec![
                ("train.2.cooling", choice("water")),
                (
                    "loads.4.name",
                    Value::Text("Cooling water pump".to_string()),
                ),
            ],
            Watch,
            1,
        ),
        (
            "train.cooler_outside",
            vec![
                ("train.2.cooling", choice("finned")),
                ("train.2.lie", choice("level")),
                ("train.2.fin_pitch", number(0.003)),
            ],
            Watch,
            1,
        ),
        (
            "train.cooler_outside",
            vec![
                ("train.2.cooling", choice("finned")),
                ("train.2.lie", choice("upright")),
            ],
            Watch,
            1,
        ),
        (
            "train.bores",
            vec![("train.2.tube_bore", number(0.012))],
            Watch,
            1,
        ),
        (
            "train.steps",
            vec![("train.5.bore", number(0.030))],
            Watch,
            1,
        ),
        (
            "train.steps",
            vec![("train.1.body_diameter", number(0.15))],
            Watch,
            1,
        ),
        (
            "train.steps",
            vec![("train.1.body_diameter", number(0.06))],
            Watch,
            1,
        ),
        (
            "train.passes",
            vec![("train.0.bore", number(0.010))],
            Stop,
            1,
        ),
        (
            "train.dust_settles",
            vec![("train.0.bore", number(0.15))],
            Watch,
            2,
        ),
        (
            "train.dust_settles",
            vec![("train.1.body_diameter", number(0.5))],
            Watch,
            2,
        ),
        (
            "train.cyclone",
            vec![("train.1.body_diameter", number(0.2))],
            Stop,
            1,
        ),
        (
            "train.engine_power",
            vec![
                ("train.4.medium", choice("cloth")),
                ("train.4.cloth_area", number(0.2)),
            ],
            Stop,
            1,
        ),
        (
            "train.filter_temperature",
            vec![
                ("train.2.tube_length", number(0.5)),
                ("train.4.medium_limit", number(313.15)),
            ],
            Stop,
            1,
        ),
        (
            "train.filter_wet",
            vec![("train.4.may_be_wet", Value::Flag(false))],
            Stop,
            1,
        ),
        (
            "train.filter_speed",
            vec![("train.4.filter_diameter", number(0.12))],
            Stop,
            1,
        ),
        (
            "train.filter_drum",
            vec![("train.4.medium", choice("cloth"))],
            Watch,
            2,
        ),
        (
            "train.filter_drum",
            vec![
                ("train.4.medium", choice("cloth")),
                ("train.4.cloth_area", number(1.6)),
            ],
            Stop,
            1,
        ),
        (
            "train.filter_bed",
            vec![
                ("train.4.filter_depth", number(0.06)),
                ("train.4.filter_piece", number(0.025)),
            ],
            Watch,
            2,
        ),
        (
            "train.filter_bed",
            vec![
                ("train.4.filter_diameter", number(0.25)),
                ("train.4.filter_piece", number(0.03)),
            ],
            Watch,
            2,
        ),
        (
            "train.filter_interval",
            vec![("train.4.dust_capacity", number(0.01))],
            Stop,
            1,
        ),
        (
            "train.trap_time",
            vec![("train.3.capacity", number(0.000_2))],
            Stop,
            1,
        ),
        (
            "train.loose_water",
            vec![
                ("train.3.separation", number(0.0)),
                ("train.6.separation", number(0.0)),
                ("train.4.may_be_wet", Value::Flag(false)),
            ],
            Stop,
            1,
        ),
        (
            "train.oxygen",
            vec![("raw_gas.air_leak", number(0.3))],
            Stop,
            1,
        ),
        (
            "train.air_leak",
            vec![("raw_gas.air_leak", number(0.03))],
            Watch,
            1,
        ),
        (
            "train.metal",
            vec![
                ("raw_gas.temperature", number(973.15)),
                ("train.1.body_diameter", number(0.11)),
                ("train.0.cover", choice("insulated")),
            ],
            Stop,
            1,
        ),
        (
            "train.metal",
            vec![
                ("raw_gas.temperature", number(973.15)),
                ("train.0.cover", choice("bare")),
                ("train.1.cover", choice("bare")),
            ],
            Watch,
            1,
        ),
        (
            "train.cooler_frost",
            vec![
                ("train.2.cooling", choice("water")),
                ("site.air_temperature", number(273.15)),
            ],
            Watch,
            0,
        ),
        (
            "train.ice",
            vec![("site.air_temperature", number(263.15))],
            Stop,
            1,
        ),
        (
            "train.touch",
            vec![("train.1.guarded", Value::Flag(false))],
            Watch,
            1,
        ),
        (
            "train.touch",
            vec![
                ("train.1.guarded", Value::Flag(false)),
                ("train.2.guarded", Value::Flag(false)),
            ],
            Watch,
            0,
        ),
        (
            "train.touch",
            // The fan keeps the cooler cold while lighting too: behind a warmer cyclone it would be as hot.
            vec![
                ("limits.guarded_temperature", number(423.15)),
                ("loads.4.when", choice("always")),
            ],
            Stop,
            1,
        ),
        // What is hot enough to light chaff is no less so out of reach.
        (
            "train.touch",
            vec![
                ("raw_gas.temperature", number(813.15)),
                ("train.0.cover", choice("bare")),
                ("train.0.guarded", Value::Flag(false)),
            ],
            Stop,
            1,
        ),
        (
            "train.leaves",
            vec![("raw_gas.temperature", number(1163.15))],
            Stop,
            1,
        ),
    ]
}

#[test]
fn the_example_passes_every_question_of_the_train() {
    let assessment = assess(&example::as_improved());
    let of_train: Vec<_> = (assessment.findings.iter())
        .filter(|finding| finding.chapter == Chapter::Train)
        .collect();
    // Each of them has its cause above.
    for finding in of_train {
        assert_eq!(finding.verdict, Verdict::Good, "{}", finding.id);
        assert!(
            causes().iter().any(|cause| cause.0 == finding.id),
            "no cause turns {}",
            finding.id
        );
    }
}

#[test]
fn each_finding_turns_with_its_cause() {
    let missed: Vec<String> = (causes().into_iter())
        .filter_map(|(id, changes, wanted, _)| {
            let assessment = assess(&with(&changes));
            let finding = assessment.finding(id).unwrap();
            // Neither ice nor a way that is shut is a matter of more or less.
            let measured = id != "train.passes";
            assert!(
                !measured || finding.margin.is_some_and(|margin| margin < 0.0),
                "{id}"
            );
            let told = finding.compared.text(Default::default());
            (finding.verdict != wanted).then(|| format!("{id}, {:?}: {told}", finding.verdict))
        })
        .collect();
    assert!(missed.is_empty(), "{missed:#?}");
}

#[test]
fn the_remedies_of_each_finding_pass() {
    for (id, changes, _, at_least) in causes() {
        every_remedy_passes(&with(&changes), id, at_least);
    }
}

#[test]
fn every_stage_of_the_example_has_the_kind_its_place_is_named_after() {
    let design = example::as_improved();
    let kind = |place: usize| design.train[place].kind;
    assert_eq!(kind(OUTLET), StageKind::Pipe);
    assert_eq!(kind(CYCLONE), StageKind::Cyclone);
    assert_eq!(kind(COOLER), StageKind::Cooler);
    assert_eq!(kind(FILTER), StageKind::Filter);
    assert_eq!(kind(BLOWER), StageKind::Blower);
}

#[test]
fn air_that_leaks_and_air_that_burns_are_shares_of_the_same() {
    let of = |leak: f64| {
        let assessment = assess(&with(&[("raw_gas.air_leak", number(leak))]));
        let finding = assessment.finding("train.oxygen").unwrap().clone();
        let told = finding.compared.text(Default::default());
        let least = told.split("burn inside from ").nth(1).unwrap();
        let least: f64 = least.split('%').next().unwrap().trim().parse().unwrap();
        let gas = assessment.train.full_clean.unwrap().points[0].dry;
        let burns = |share: f64| {
            let share = uom::si::f64::Ratio::new::<uom::si::ratio::ratio>(share);
            let mixed = hearthplan::sizing::flammability::with_air(&gas, share).unwrap();
            hearthplan::sizing::flammability::flammability(&mixed)
                .unwrap()
                .burns_as_it_is
        };
        (
            least / 100.0,
            burns(0.99 * least / 100.0),
            burns(1.01 * least / 100.0),
        )
    };
    let (least, just_below, just_above) = of(0.26);
    assert!(least > 0.26, "{least}");
    assert!(!just_below && just_above);
}
