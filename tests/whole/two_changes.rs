//! Two changes that are offered together work together, and neither does alone.

use crate::random_design::{Dice, random_design};
use crate::remedies_pass::a_likely_design;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{
    Assessment, Change, FACTS, Lever, Pair, Verdict, assess, best_step, best_steps_or_pairs,
    easing, two_changes,
};

/// Designs tried per test; one finding of each.
const DESIGNS: usize = if cfg!(target_family = "wasm") { 3 } else { 200 };

/// Of likely designs, which are searched longer, since more of their questions can be told.
const LIKELY: usize = if cfg!(target_family = "wasm") { 3 } else { 60 };

/// Whether the question passes and the whole review finds the change worth it.
fn is_enough(id: &str, before: &Assessment, after: &Assessment) -> bool {
    let of = |one: &Assessment, id: &str| {
        let finding = one.finding(id);
        finding.map_or(Verdict::Good, |finding| finding.verdict)
    };
    let worse: Vec<_> = (after.findings.iter())
        .filter(|now| now.verdict > of(before, now.id))
        .collect();
    let ground = [
        "hearth.band",
        "standing.clearance",
        "standing.frame",
        "standing.room",
    ];
    // What could not be told before may have been a Stop all the time.
    let stops = (worse.iter())
        .any(|now| now.verdict == Verdict::Stop && of(before, now.id) != Verdict::CannotTell);
    // The vessel does not hang out further over its frame than it did.
    let room = |one: &Assessment| {
        let frame = one.finding("standing.frame");
        frame
            .and_then(|frame| frame.margin)
            .map_or(0.0, |margin| margin.min(0.0))
    };
    room(after) >= room(before) - 1e-4
        && of(after, id) == Verdict::Good
        && worse.iter().all(|now| !ground.contains(&now.id))
        && (!stops || after.count(Verdict::Stop) < before.count(Verdict::Stop))
}

/// The second change as it is made without the first; none where the first adds an item to its list.
fn second_alone(pair: &Pair, design: &Design) -> Option<Design> {
    let [first, second] = pair.changes.each_ref().map(|one| one.change.as_ref());
    match (first?, second?) {
        (Change::Insert { list, .. }, Change::Set { path, .. }) if path.starts_with(list) => None,
        (Change::Insert { list, .. }, Change::Move { list: its, .. }) if its == list => None,
        (_, second) => second.apply(design),
    }
}

fn check_pair(design: &Design, before: &Assessment, id: &str, pair: &Pair) {
    let [first, second] = pair.changes.each_ref().map(|one| one.change.as_ref());
    let both = assess(&pair.apply(design).expect("fits the design"));
    assert!(is_enough(id, before, &both), "{id}: {first:?}, {second:?}");
    assert_eq!(pair.after.stops, both.count(Verdict::Stop), "{id}");
    for (worse, then, now) in &pair.worsens {
        let margin = |one: &Assessment| one.finding(worse).and_then(|one| one.margin);
        let deeper = *then == Verdict::Stop && margin(&both) < margin(before);
        assert!(now > then || deeper, "{id}: {worse} is not worse");
        let told = both.finding(worse).map(|finding| finding.verdict);
        assert_eq!(told, Some(*now), "{id}: {worse}");
    }
    let one = assess(&pair.between(design).expect("fits the design"));
    assert!(!is_enough(id, before, &one), "{id}: {first:?} is enough");
    if let Some(other) = second_alone(pair, design) {
        let other = assess(&other);
        assert!(!is_enough(id, before, &other), "{id}: {second:?} is enough");
    }
    for remedy in &pair.changes {
        if let Lever::Input(path) = &remedy.lever {
            let goals = ["limits.", "doubt.", "engine.wanted_power"];
            assert!(!FACTS.contains(&path.as_ref()), "{id}: {path}");
            assert!(!goals.iter().any(|goal| path.starts_with(goal)), "{id}");
        }
    }
    assert!(pair.size.is_finite() && pair.size > 0.0);
}

/// Checks all pairs that are offered for a finding; gives how many.
fn check(design: &Design, before: &Assessment, id: &str) -> usize {
    let pairs = two_changes(design, id);
    assert!(pairs.len() <= 3);
    for (place, pair) in pairs.iter().enumerate() {
        check_pair(design, before, id, pair);
        let levers = |pair: &Pair| pair.changes.each_ref().map(|one| one.lever.clone());
        let [first, second] = levers(pair);
        for other in pairs.iter().skip(place + 1) {
            assert_ne!(levers(other), [first.clone(), second.clone()], "{id}");
            assert_ne!(levers(other), [second.clone(), first.clone()], "{id}");
            let rank = |pair: &Pair| (!pair.is_plain(), pair.size);
            assert!(rank(pair) <= rank(other), "{id}");
        }
    }
    pairs.len()
}

/// Checks one failing finding of a design, chosen by dice.
fn check_one(design: &Design, dice: &mut Dice) -> usize {
    let before = assess(design);
    let failing: Vec<_> = (before.findings.iter())
        .filter(|finding| finding.verdict != Verdict::Good && finding.levers.len() > 1)
        .map(|finding| finding.id)
        .collect();
    if failing.is_empty() {
        return 0;
    }
    let id: &str = dice.pick::<&str>(&failing);
    check(design, &before, id)
}

#[test]
fn pairs_of_the_examples_pass() {
    let mut found = 0;
    for design in [example::as_first_drawn(), example::as_improved()] {
        let before = assess(&design);
        for finding in &before.findings {
            found += check(&design, &before, finding.id);
        }
    }
    assert!(found >= 4, "{found} pairs");
}

#[test]
fn pairs_of_random_designs_pass() {
    let mut dice = Dice::new(13);
    let designs = (815_000..).take(DESIGNS).map(random_design);
    let found: usize = designs.map(|design| check_one(&design, &mut dice)).sum();
    assert!(found >= DESIGNS / 30, "{found} pairs");
}

#[test]
fn pairs_of_likely_designs_pass() {
    let mut dice = Dice::new(17);
    let mut found = 0;
    for _ in 0..LIKELY {
        let design = a_likely_design(&mut dice);
        found += check_one(&design, &mut dice);
    }
    assert!(found >= LIKELY / 20, "{found} pairs");
}

/// A blower in hot gas behind too short a cooler: neither a longer one nor another place is enough alone.
#[test]
fn a_stage_is_moved_together_with_another_change() {
    let mut design = example::as_first_drawn();
    let blower = design.train.remove(6);
    design.train.insert(3, blower);
    (design.set("fuel.moisture", Value::Number(0.3))).expect("allowed");
    let before = assess(&design);
    assert!(check(&design, &before, "breath.blower_place") > 0);
    let moved = |pair: &Pair| {
        (pair.changes.iter())
            .any(|one| matches!(one.change, Some(Change::Move { list: "train", .. })))
    };
    let pairs = two_changes(&design, "breath.blower_place");
    assert!(pairs.iter().any(moved), "{pairs:?}");
}

#[test]
fn a_question_that_one_change_mends_gets_no_pair() {
    let design = example::as_first_drawn();
    assert!(two_changes(&design, "standing.push").is_empty());
    assert!(two_changes(&design, "no such question").is_empty());
}

#[test]
fn what_eases_a_stop_leaves_none_in_its_place() {
    let first = example::as_first_drawn();
    let step = best_step(&first).swap_remove(0);
    let design = step.change.apply(&first).expect("fits the design");
    let before = assess(&design);
    let stops = before
        .findings
        .iter()
        .filter(|one| one.verdict == Verdict::Stop);
    let mut eased = 0;
    for finding in stops {
        for lever in &finding.levers {
            let Some(change) = easing(&design, &before, finding, lever).and_then(|it| it.change)
            else {
                continue;
            };
            let after = assess(&change.apply(&design).expect("fits the design"));
            let verdict = after.finding(finding.id).map(|now| now.verdict);
            assert!(
                verdict <= Some(Verdict::Watch),
                "{}: {change:?}",
                finding.id
            );
            // What could not be told before may have been a Stop all the time.
            let untold = |id| {
                let then = before.finding(id).map(|one| one.verdict);
                then == Some(Verdict::CannotTell)
            };
            let left = (after.findings.iter())
                .filter(|one| one.verdict == Verdict::Stop && !untold(one.id));
            assert!(left.count() < before.count(Verdict::Stop), "{change:?}");
            eased += 1;
        }
    }
    assert!(eased > 0);
}

/// Takes the best step or the best pair until none is left.
#[test]
fn the_best_steps_lead_out_of_every_stop() {
    let mut design = example::as_first_drawn();
    let mut taken = 0;
    loop {
        let advice = best_steps_or_pairs(&design);
        let stops = assess(&design).count(Verdict::Stop);
        let changed = match (advice.pairs.first(), advice.steps.first()) {
            (Some(pair), _) => {
                assert!(pair.after.stops < stops);
                pair.apply(&design)
            }
            (None, Some(step)) => step.change.apply(&design),
            (None, None) => break,
        };
        design = changed.expect("fits the design");
        assert!(assess(&design).count(Verdict::Stop) <= stops);
        taken += 1;
        assert!(taken < 60, "the steps go round in a circle");
    }
    let left = assess(&design);
    let stops = left
        .findings
        .iter()
        .filter(|finding| finding.verdict == Verdict::Stop);
    let stops: Vec<_> = stops.map(|finding| finding.id).collect();
    assert!(stops.is_empty(), "{stops:?} after {taken} steps");
}
