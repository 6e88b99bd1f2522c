//! Another order of the stages as a remedy: the shortest move of one stage that makes a question pass.

use crate::mended::every_remedy_passes;
use hearthplan::design::inputs::StageKind;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, celsius, example};
use hearthplan::review::{Change, Lever, Remedy, Tally, Verdict, assess, best_step, remedies};

/// The example with stages taken to other places, one after the other: of pipe, cyclone, cooler, trap, filter, pipe, trap and
/// blower.
fn ordered(moves: &[(usize, usize)]) -> Design {
    let mut design = example::as_improved();
    for (from, to) in moves {
        design.move_item("train", *from, *to);
    }
    design
}

/// Where the example has its blower.
const BLOWER: usize = 7;

fn place(design: &Design, kind: StageKind) -> usize {
    let mut stages = design.train.iter();
    stages.position(|stage| stage.kind == kind).unwrap()
}

/// The only move that is offered for a question, with where it goes.
fn moved(design: &Design, id: &str) -> Option<(Remedy, usize, usize)> {
    let of = |remedy: Remedy| match (&remedy.lever, &remedy.change) {
        (Lever::Move { .. }, Some(Change::Move { from, to, .. })) => {
            let (from, to) = (*from, *to);
            Some((remedy, from, to))
        }
        _ => None,
    };
    let mut moves: Vec<_> = remedies(design, id).into_iter().filter_map(of).collect();
    assert!(moves.len() < 2, "{id}: {moves:?}");
    moves.pop()
}

fn verdict(design: &Design, id: &str) -> Verdict {
    assess(design).finding(id).unwrap().verdict
}

/// A question that fails in this order: a move is offered, it passes, and none of the stages named passes by less.
fn is_put_in_order(design: &Design, id: &str) -> (StageKind, Design) {
    assert_ne!(verdict(design, id), Verdict::Good, "{id}");
    let (remedy, from, to) = moved(design, id).unwrap_or_else(|| panic!("{id}: no move"));
    let mended = remedy.change.as_ref().unwrap().apply(design).unwrap();
    assert_eq!(verdict(&mended, id), Verdict::Good, "{id}");
    assert_eq!(remedy.after, Some(Tally::of(&assess(&mended).findings)));
    let before = assess(design);
    for lever in &before.finding(id).unwrap().levers {
        let Lever::Move { from: stage, .. } = lever else {
            continue;
        };
        for nearer in 0..design.train.len() {
            if nearer != *stage && nearer.abs_diff(*stage) < from.abs_diff(to) {
                let mut tried = design.clone();
                tried.move_item("train", *stage, nearer);
                let after = assess(&tried);
                let passes = after.finding(id).unwrap().verdict == Verdict::Good;
                let stops = after.count(Verdict::Stop) > before.count(Verdict::Stop);
                assert!(!passes || stops, "{id}: {stage} to {nearer} is less");
            }
        }
    }
    (design.train[from].kind, mended)
}

#[test]
fn a_blower_before_the_filter_goes_behind_it() {
    let early = ordered(&[(BLOWER, 4)]);
    let (_, mended) = is_put_in_order(&early, "breath.blower_place");
    assert!(place(&mended, StageKind::Blower) > place(&mended, StageKind::Filter));
    // Before the cooler the heat would ruin it.
    let hot = ordered(&[(BLOWER, 2)]);
    assert_eq!(verdict(&hot, "breath.blower_place"), Verdict::Stop);
    let (kind, mended) = is_put_in_order(&hot, "breath.blower_place");
    assert_eq!(kind, StageKind::Blower);
    assert!(place(&mended, StageKind::Blower) > place(&mended, StageKind::Filter));
    every_remedy_passes(&hot, "breath.blower_place", 1);
}

#[test]
fn a_cooler_behind_the_filter_goes_before_it() {
    let hot = ordered(&[(2, 4)]);
    for id in ["train.filter_temperature", "train.arrives"] {
        let (_, mended) = is_put_in_order(&hot, id);
        assert!(
            place(&mended, StageKind::Cooler) < place(&mended, StageKind::Filter),
            "{id}"
        );
    }
}

#[test]
fn a_cyclone_behind_the_cooler_goes_first() {
    let wet = ordered(&[(1, 2)]);
    let (_, mended) = is_put_in_order(&wet, "train.dust_settles");
    assert!(place(&mended, StageKind::Cyclone) < place(&mended, StageKind::Cooler));
    every_remedy_passes(&wet, "train.dust_settles", 1);
}

#[test]
fn a_trap_before_the_cooler_goes_behind_it() {
    let mut dry = ordered(&[(3, 1)]);
    // A bed that may get wet would take the water.
    dry.train.retain(|stage| stage.kind != StageKind::Filter);
    let (_, mended) = is_put_in_order(&dry, "train.loose_water");
    assert!(place(&mended, StageKind::Trap) > place(&mended, StageKind::Cooler));
}

#[test]
fn dry_cloth_goes_where_the_gas_is_warm() {
    let mut wet = example::as_improved();
    wet.choose("train.4.medium", "cloth").unwrap();
    let glass = Value::Number(673.15);
    wet.set("train.4.medium_limit", glass).unwrap();
    wet.set("train.4.cloth_area", Value::Number(3.0)).unwrap();
    let (_, mended) = is_put_in_order(&wet, "train.filter_wet");
    assert!(place(&mended, StageKind::Filter) < place(&mended, StageKind::Cooler));
}

#[test]
fn a_good_order_is_left_alone() {
    let good = example::as_improved();
    for finding in &assess(&good).findings {
        assert!(moved(&good, finding.id).is_none(), "{}", finding.id);
    }
}

#[test]
fn a_move_is_among_the_best_steps_and_takes_its_plus_minus_along() {
    let mut hot = ordered(&[(BLOWER, 2)]);
    let best = best_step(&hot);
    let moves = (best.iter()).filter(|step| matches!(step.change, Change::Move { .. }));
    assert_eq!(moves.count(), 1, "{best:?}");
    hot.spreads = vec![hearthplan::design::inputs::Spread {
        input: "train.2.bore".to_string(),
        ..Default::default()
    }];
    let (remedy, _, to) = moved(&hot, "breath.blower_place").unwrap();
    let mended = remedy.change.unwrap().apply(&hot).unwrap();
    assert_eq!(mended.spreads[0].input, format!("train.{to}.bore"));
}

#[test]
fn a_move_that_does_not_fit_is_none() {
    let design = example::as_improved();
    let to = |from, to| Change::Move {
        list: "train",
        from,
        to,
    };
    let count = design.train.len();
    assert!(to(0, count).apply(&design).is_none());
    assert!(to(count, 0).apply(&design).is_none());
    assert!(to(count - 1, 0).apply(&design).is_some());
    let nowhere = Change::Move {
        list: "nothing",
        from: 0,
        to: 0,
    };
    assert!(nowhere.apply(&design).is_none());
}

#[test]
fn a_blower_in_gas_that_cools_behind_its_filter_goes_right_behind_it() {
    let mut design = example::as_improved();
    design
        .set("train.2.tube_length", Value::Number(0.4))
        .unwrap();
    design.set("train.5.length", Value::Number(8.0)).unwrap();
    let finding = assess(&design)
        .finding("breath.blower_place")
        .unwrap()
        .clone();
    // What cools the gas more would only move the place where tar falls out.
    let moves = |lever: &Lever| matches!(lever, Lever::Move { .. });
    assert!(finding.levers.iter().all(moves), "{:?}", finding.levers);
    let (_, mended) = is_put_in_order(&design, "breath.blower_place");
    let filter = place(&mended, StageKind::Filter);
    assert_eq!(mended.train[filter + 1].kind, StageKind::Blower);
    // Where the filter itself is too hot for a blower no place is good.
    design
        .set("train.2.tube_length", Value::Number(0.2))
        .unwrap();
    assert_ne!(verdict(&design, "breath.blower_place"), Verdict::Good);
    assert!(moved(&design, "breath.blower_place").is_none());
}

#[test]
fn cloth_before_the_cooler_is_told_with_what_glass_cloth_bears() {
    let mut wet = example::as_improved();
    wet.choose("train.4.medium", "cloth").unwrap();
    let told = |design: &Design| {
        let assessment = assess(design);
        let finding = assessment.finding("train.filter_wet").unwrap();
        assert_eq!(finding.verdict, Verdict::Stop);
        finding.compared.text(System::Metric)
    };
    let words = told(&wet);
    assert!(
        words.contains("even glass cloth bears no more than 260 °C"),
        "{words}"
    );
    // Gas that leaves the vessel colder may go through it.
    let outlet = Value::Number(celsius(240.0));
    wet.set("raw_gas.temperature", outlet).unwrap();
    let words = told(&wet);
    assert!(words.contains("and glass cloth bears 260 °C"), "{words}");
    // Nothing of it where no cooler stands before the cloth.
    let before = (wet.train.iter()).position(|stage| stage.kind == StageKind::Cooler);
    wet.move_item("train", 4, before.unwrap());
    let assessment = assess(&wet);
    let finding = assessment.finding("train.filter_wet").unwrap();
    let words = finding.compared.text(System::Metric);
    assert!(!words.contains("glass cloth"), "{words}");
}

/// A bed behind a cooler without a trap between them takes all the water and its tar; a trap goes in front of it.
#[test]
fn a_bed_takes_no_water_that_a_trap_could() {
    let mut design = example::as_improved();
    design.train.retain(|stage| stage.kind != StageKind::Trap);
    let filter = (design.train.iter())
        .position(|stage| stage.kind == StageKind::Filter)
        .unwrap();
    let assessment = assess(&design);
    let finding = assessment.finding("train.filter_wet").unwrap();
    assert_eq!(finding.verdict, Verdict::Watch);
    let told = finding.compared.text(System::Metric);
    assert!(told.contains("no trap stands between"), "{told}");
    let offered = remedies(&design, "train.filter_wet");
    let first = offered.first().and_then(|remedy| remedy.change.clone());
    assert!(
        matches!(&first, Some(Change::Insert { list: "train", index, .. }) if *index == filter),
        "{first:?}"
    );
}
