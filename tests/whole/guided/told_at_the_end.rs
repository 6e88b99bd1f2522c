//! What became of answers that could not be taken as they were is told when the questions are over.

use super::power_wanted;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value};
use hearthplan::review::assess;
use hearthplan::review::guided::{Part, QUESTIONS, StillUnmet, Unmet, complete, without_room};

/// What is told of a design from these answers once it is as it is now.
fn told(answered: &Design, sized: &Design, now: &Design) -> Option<StillUnmet> {
    Unmet::of(answered, sized, &assess(sized), None)?.still(now, &assess(now), System::Metric)
}

/// Whoever has blocks of 120 mm must not find out from the note alone that the machine is one for 47 mm.
#[test]
fn smaller_wood_is_told_first_and_as_long_as_it_is_reckoned_with() {
    let mut answered = power_wanted(9.0);
    answered
        .set("fuel.piece_size", Value::Number(0.12))
        .unwrap();
    let sized = complete(&answered, &[]);
    assert!(sized.fuel.piece_size < answered.fuel.piece_size);
    let size = format!("{:.0} mm", sized.fuel.piece_size.value * 1000.0);
    let at_the_end = told(&answered, &sized, &sized).unwrap();
    let lead = &at_the_end.lead;
    assert!(
        lead.starts_with("Complete, but for smaller wood. Wood pieces of 120 mm "),
        "{lead}"
    );
    assert!(
        lead.contains(&format!("reckoned with pieces of {size}")),
        "{lead}"
    );
    let mut own = sized.clone();
    own.set("fuel.piece_size", Value::Number(0.03)).unwrap();
    let later = told(&answered, &sized, &own);
    assert!(
        later.is_none_or(|later| !later.lead.contains("Wood pieces")),
        "an own size is no matter of the questions"
    );
}

#[test]
fn a_raised_lowest_load_is_told() {
    let mut answered = power_wanted(2.0);
    answered
        .set("engine.displacement", Value::Number(0.0002))
        .unwrap();
    let mut sized = complete(&answered, &[Part::Engine]);
    assert!(sized.operation.idle_load > answered.operation.idle_load);
    let all = |told: StillUnmet| [vec![told.lead], told.more].concat().join("\n");
    let at_the_end = all(told(&answered, &sized, &sized).unwrap());
    assert!(at_the_end.contains("Lowest load: all is reckoned with"));
    let before = sized.clone();
    sized.operation.idle_load = answered.operation.idle_load;
    let later = told(&answered, &before, &sized).map_or_else(String::new, all);
    assert!(!later.contains("Lowest load"), "{later}");
}

/// The frame is asked over all, the base counts between the feet: each is called what it is, and what became of it is told.
#[test]
fn the_frame_is_asked_by_its_own_name_and_the_base_is_told() {
    let worded = |path: &str| {
        let mut all = QUESTIONS.iter().flat_map(|question| question.otherwise);
        all.find(|otherwise| otherwise.path == path).unwrap()
    };
    let mut answered = power_wanted(7.5);
    for path in ["base.width", "base.depth"] {
        let input = answered.input(path).unwrap();
        assert!(worded(path).label.starts_with("Frame over all"));
        assert_ne!(worded(path).label, input.label);
        assert!(QUESTIONS.iter().any(|question| {
            question.inputs.contains(&path) && question.otherwise.iter().any(|one| one.path == path)
        }));
        answered.set(path, Value::Number(0.9)).unwrap();
    }
    let mut sized = complete(&answered, &[]);
    let width = (sized.base.width.value * 1000.0).round();
    assert!(width < 900.0);
    let at_the_end = told(&answered, &sized, &sized).unwrap();
    let base = format!("Complete. Base: {width} mm ");
    assert!(at_the_end.lead.starts_with(&base), "{at_the_end:?}");
    assert!(at_the_end.lead.contains("900 mm "), "{at_the_end:?}");
    // Where nobody asked for the frame there is nothing to tell of it.
    let without = without_room(sized.clone());
    assert_eq!(told(&answered, &without, &without), None);
    let before = sized.clone();
    sized.set("base.width", Value::Number(0.8)).unwrap();
    assert_eq!(told(&answered, &before, &sized), None);
}
