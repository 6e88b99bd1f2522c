//! The train as a design holds it: balances at every load, and any stages in any order.

use super::balance::assert_balanced;
use crate::random_design::{Dice, random_design};
use hearthplan::design::inputs::{StageKind, TrainStage};
use hearthplan::design::{Choice as _, Design, Kind, Value, example};
use hearthplan::review::{Assessment, TrainReview, Verdict, assess};
use hearthplan::sizing::train::{TrainError, TrainLoad, TrainSolution};

/// Designs that have to be solved. WebAssembly checks its own mathematics on fewer.
const SOLVED: usize = if cfg!(target_family = "wasm") {
    100
} else {
    2_000
};
/// Trains of stages drawn by lot.
const DRAWN: u64 = if cfg!(target_family = "wasm") {
    100
} else {
    1_000
};

type Solved<'a> = (&'a TrainLoad, &'a Result<TrainSolution, TrainError>);

fn loads(train: &TrainReview) -> [Solved<'_>; 4] {
    [
        (&train.startup_load, &train.startup),
        (&train.usual_load, &train.usual),
        (&train.full_load, &train.full_clean),
        (&train.dirty_load, &train.full_dirty),
    ]
}

/// Holds every load that was solved to its balances; says how many there were.
fn balanced(train: &TrainReview) -> usize {
    loads(train)
        .into_iter()
        .filter_map(|(load, found)| Some((load, found.as_ref().ok()?)))
        .map(|(load, found)| assert_balanced(load, found))
        .count()
}

#[test]
fn both_examples_are_balanced_at_every_load() {
    for design in [example::as_first_drawn(), example::as_improved()] {
        assert_eq!(balanced(&assess(&design).train), 4);
    }
}

/// The example with every number of gas, air, filters and stages drawn from its usual range.
fn usual_design(seed: u64) -> Design {
    let mut dice = Dice::new(seed);
    let mut design = example::as_improved();
    for path in design.paths() {
        let drawn = ["raw_gas.", "train.", "site.", "operation.", "hearth."]
            .iter()
            .any(|head| path.starts_with(head));
        let Some(Kind::Number { usual, .. }) = design.input(&path).map(|input| input.kind) else {
            continue;
        };
        if drawn {
            let value = Value::Number(dice.between(usual));
            // Two inputs of a hearth may not fit each other: then the old one stays.
            let _ = design.set(&path, value);
        }
    }
    design
}

#[test]
fn random_designs_that_solve_are_balanced() {
    let (mut wild, mut usual) = (0, 0);
    for seed in 0.. {
        wild += usize::from(balanced(&assess(&random_design(seed)).train) > 0);
        usual += usize::from(balanced(&assess(&usual_design(seed)).train) == 4);
        if wild + usual >= SOLVED {
            break;
        }
        assert!(seed < 10 * SOLVED as u64, "{wild} wild, {usual} usual");
    }
    assert!(wild > SOLVED / 20 && usual > SOLVED / 4, "{wild} {usual}");
}

/// The example with so many stages of any kind in any order, their numbers as a new stage has them.
fn drawn_train(seed: u64) -> Design {
    let mut dice = Dice::new(seed);
    let mut design = example::as_improved();
    design.train = (0..dice.below(10))
        .map(|_| {
            let kind = dice.pick(StageKind::OPTIONS).name;
            TrainStage {
                kind: StageKind::from_name(kind).unwrap(),
                ..TrainStage::default()
            }
        })
        .collect();
    design
}

fn told_about_the_train(assessment: &Assessment) -> usize {
    let mut told = 0;
    for finding in &assessment.findings {
        let id = finding.id;
        if !(id.starts_with("train.") || id.starts_with("breath.")) {
            continue;
        }
        told += 1;
        let words = finding.compared.text(Default::default());
        assert!(words.len() > 10, "{id}: {words}");
        assert!(finding.margin.is_none_or(f64::is_finite), "{id}: {words}");
        // What cannot be told names its reason; everything else has numbers that are.
        assert!(
            !words.contains("NaN") && !words.contains("inf "),
            "{id}: {words}"
        );
    }
    told
}

#[test]
fn any_stages_in_any_order_are_answered_or_refused() {
    let (mut solved, mut refused) = (0, 0);
    for seed in 0..DRAWN {
        let design = drawn_train(seed);
        let assessment = assess(&design);
        assert!(told_about_the_train(&assessment) > 3, "seed {seed}");
        let train = &assessment.train;
        balanced(train);
        for (_, found) in loads(train) {
            if let Err(why) = found {
                let told = why.to_string();
                // What is wrong with the train as a whole has no stage.
                assert_eq!(told.starts_with("stage "), why.number > 0, "{told}");
                assert!(told.len() > 25, "{told}");
            }
        }
        // Without a way to the flare the engine may still run; with a blower everything must be told.
        let all = [&train.usual, &train.full_clean, &train.full_dirty];
        if all.iter().all(|found| found.is_ok()) {
            solved += 1;
            assert_eq!(
                assessment.finding("train.passes").unwrap().verdict,
                Verdict::Good
            );
            assert!(assessment.finding("train.engine_temperature").is_some());
        } else {
            refused += 1;
            let passes = assessment.finding("train.passes").unwrap();
            let frozen = passes.compared.text(Default::default()).contains("ice");
            let expected = if frozen {
                Verdict::Stop
            } else {
                Verdict::CannotTell
            };
            assert_eq!(passes.verdict, expected);
        }
    }
    assert!(solved > DRAWN / 4, "{solved} solved, {refused} refused");
}
