//! All steps to as few Stops as there is a way to.

use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Change, Tally, Verdict, Way, assess, best_step, whole_way};
use std::sync::Arc;

/// What no plain change mends in the first drawing: the vessel that was bought is the wall of the fire, and the room is shut.
const LEFT: [&str; 2] = ["warmth.layers_hearth", "leaks.room"];

fn stops(design: &Design) -> Vec<&'static str> {
    (assess(design).findings.iter())
        .filter(|finding| finding.verdict == Verdict::Stop)
        .map(|finding| finding.title)
        .collect()
}

fn changed(design: &Design, change: &Option<Change>) -> Design {
    let change = change.as_ref().expect("a step of a way is a change");
    change.apply(design).expect("a step fits its design")
}

/// Holds a way to what it says of itself, each step by a review of its own.
fn holds(start: &Design, way: &Way) {
    assert!(way.is_whole());
    assert_eq!(way.stops_before(), stops(start).len());
    let mut design = start.clone();
    for step in way.steps() {
        assert_eq!(step.before, design);
        assert!(step.remedy.is_plain(), "{:?}", step.remedy.lever);
        design = changed(&design, &step.remedy.change);
        assert_eq!(step.after, Tally::of(&assess(&design).findings));
    }
    assert_eq!(*way.end().0, design);
    assert_eq!(way.left(), stops(&design));
    assert!(way.left().len() <= way.stops_before());
}

#[test]
fn the_first_drawing_comes_down_to_few_stops() {
    let first = example::as_first_drawn();
    let way = whole_way(&first);
    holds(&first, &way);
    let left = way.open_questions();
    let ids: Vec<_> = left.iter().map(|question| question.finding.id).collect();
    assert_eq!(ids, LEFT);
    // To run it in the open is for a person to say, and is told.
    let room = left
        .iter()
        .find(|question| question.finding.id == "leaks.room");
    let decision = room
        .and_then(|room| room.decision)
        .expect("a change for a person to decide");
    assert!(!decision.is_plain());
    assert!(
        !stops(&changed(way.end().0, &decision.change)).contains(&"Carbon monoxide in the room")
    );
    assert!(
        best_step(way.end().0)
            .iter()
            .all(|step| { !step.remedy.is_plain() || step.stops.1 == way.left().len() })
    );
}

/// Half the power in the same hearth: the insulation that it needs brings to light what no gas had hidden.
#[test]
fn a_smaller_wish_leads_as_far() {
    let mut design = example::as_first_drawn();
    (design.set("engine.wanted_power", Value::Number(5000.0))).expect("allowed");
    let way = whole_way(&design);
    holds(&design, &way);
    let left = way.open_questions();
    assert!(
        (left.iter()).all(|question| LEFT.contains(&question.finding.id)),
        "{:?}",
        way.left()
    );
}

/// The ash door cuts into a seam. A smaller one alone still does where it sits: it is as many Stops, but the next step, which
/// moves it, removes that one.
#[test]
fn a_step_that_removes_no_stop_is_taken_where_it_leads_on() {
    let first = example::as_first_drawn();
    let way = whole_way(&first);
    let of_door = |step: &hearthplan::review::WayStep| matches!(&step.remedy.change, Some(Change::Set { path, .. }) if path == "holes.1.diameter");
    let place = way
        .steps()
        .iter()
        .position(of_door)
        .expect("a smaller ash door");
    let after = |place: usize| way.steps()[place].after.stops;
    assert!(after(place) >= after(place - 1));
    assert!(after(place + 1) < after(place - 1));
}

/// Where no change helps, nothing is proposed to decide, and the question is told as it stands.
#[test]
fn what_no_change_mends_is_left_open() {
    let mut design = example::as_improved();
    for (path, value) in [("cost.budget", 500.0), ("base.width", 0.4)] {
        design.set(path, Value::Number(value)).expect("allowed");
    }
    let way = whole_way(&design);
    holds(&design, &way);
    let left = way.open_questions();
    let [budget] = &left[..] else {
        panic!("{:?}", way.left());
    };
    assert_eq!(budget.finding.id, "cost.budget");
    assert!(budget.decision.is_none());
}

/// The order in which a way is found out is its own, so that page and workers tell the same.
#[test]
fn a_way_is_found_again_alike() {
    let first = example::as_first_drawn();
    let [one, other] = [whole_way(&first), whole_way(&first)];
    assert_eq!(one.steps(), other.steps());
}

#[test]
fn no_step_of_a_way_is_needless() {
    let first = example::as_first_drawn();
    let way = whole_way(&first);
    let steps = way.steps();
    assert!(steps.len() > 3, "only {} steps", steps.len());
    // Changes of single inputs outside of lists can be left out without moving what the others are about.
    let mut tried = 0;
    for (place, step) in steps.iter().enumerate() {
        let alone = matches!(&step.remedy.change, Some(Change::Set { path, .. }) if path.matches('.').count() == 1);
        if !alone {
            continue;
        }
        tried += 1;
        let others = (steps.iter().enumerate()).filter(|(other, _)| *other != place);
        let made = others.fold(first.clone(), |design, (_, step)| {
            changed(&design, &step.remedy.change)
        });
        let more = stops(&made);
        assert!(
            more.iter().any(|title| !way.left().contains(title)),
            "{:?} is needless",
            step.remedy.lever
        );
    }
    assert!(tried > 2, "only {tried} steps tried");
}

#[test]
fn what_is_added_comes_at_once_as_thick_as_it_is_wanted_in_the_end() {
    let first = example::as_first_drawn();
    let way = whole_way(&first);
    let mut added = 0;
    for (place, step) in way.steps().iter().enumerate() {
        if let Some(Change::Insert { list, index, .. }) = &step.remedy.change {
            added += 1;
            let thickness = Design::item_input(list, *index, step.remedy.input.name);
            for later in &way.steps()[place + 1..] {
                let again = matches!(&later.remedy.change, Some(Change::Set { path, .. }) if *path == thickness);
                assert!(!again, "{thickness} is set twice");
            }
        }
    }
    assert!(added > 0, "nothing was added");
}

#[test]
fn a_design_without_stops_needs_no_way() {
    let improved = example::as_improved();
    let way = whole_way(&improved);
    holds(&improved, &way);
    assert!(way.steps().is_empty());
    assert_eq!(*way.end().0, improved);
    let begun = Way::from(improved.clone(), Arc::new(assess(&improved)));
    assert!(begun.is_whole());
}

#[test]
fn a_narrow_base_and_wet_wood_are_led_out_of_every_stop() {
    let mut design = example::as_improved();
    for (path, value) in [("base.width", 0.4), ("fuel.moisture", 0.3)] {
        design.set(path, Value::Number(value)).expect("allowed");
    }
    assert!(stops(&design).len() > 3);
    let way = whole_way(&design);
    holds(&design, &way);
    assert!(way.left().is_empty(), "{:?}", way.left());
}

#[test]
fn what_a_design_begins_with_is_led_out_of_every_stop() {
    let design = Design::default();
    assert!(!stops(&design).is_empty());
    let way = whole_way(&design);
    holds(&design, &way);
    assert!(way.left().is_empty(), "{:?}", way.left());
}

#[test]
fn a_stage_in_a_wrong_place_is_moved_on_the_way() {
    let mut design = example::as_improved();
    design.train.swap(1, 4);
    design
        .set("fuel.moisture", Value::Number(0.3))
        .expect("allowed");
    let way = whole_way(&design);
    holds(&design, &way);
    let moves =
        |remedy: &Option<Change>| matches!(remedy, Some(Change::Move { list: "train", .. }));
    assert!(way.steps().iter().any(|step| moves(&step.remedy.change)));
}

/// The steps of a way that give up a part of what was asked for.
fn wishes(way: &Way) -> Vec<(String, f64)> {
    let steps = way.steps().iter();
    steps
        .filter_map(|step| match &step.remedy.change {
            Some(Change::Set { path, value }) if path == "operation.idle_load" => {
                Some((path.clone(), value.number()?))
            }
            _ => None,
        })
        .collect()
}

#[test]
fn no_more_of_a_wish_is_given_up_than_the_other_changes_need() {
    let mut given_up = 0;
    for load in [0.1, 0.15, 0.25] {
        let mut design = Design::default();
        (design.set("operation.idle_load", Value::Number(load))).expect("allowed");
        let way = whole_way(&design);
        holds(&design, &way);
        for (path, value) in wishes(&way) {
            given_up += 1;
            let end = way.end().0;
            let mut nearer = end.clone();
            (nearer.set(&path, Value::Number(value - 0.01))).expect("allowed");
            let (now, then) = (assess(end), assess(&nearer));
            let worse = then.findings.iter().any(|finding| {
                let was = now.finding(finding.id);
                finding.verdict > was.map_or(Verdict::Good, |was| was.verdict)
            });
            assert!(worse, "from {load}: {value} is more than is needed");
            let step = (way.steps().iter())
                .find(|step| matches!(&step.remedy.change, Some(Change::Set { path: its, .. }) if *its == path))
                .expect("the step");
            let told = step.remedy.reservations(System::Metric).join("; ");
            assert!(
                told.contains("gives up a part of what you asked for"),
                "{told}"
            );
        }
    }
    assert!(given_up > 0, "nothing was given up");
}
