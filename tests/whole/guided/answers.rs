//! What is asked is there, stays as it was answered, and carries nothing of somebody else.

use super::{power_wanted, same_length, verdict};
use crate::random_design::random_design;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::guided::{Part, QUESTIONS, complete};
use hearthplan::review::{Verdict, assess};

/// No figure of ours stands for what somebody measured, and whoever has a vessel is told which not to cut.
#[test]
fn what_is_there_is_asked_for_by_its_figures() {
    let mut design = example::to_start_from();
    let figures = |design: &Design, part: Part| {
        let mut parts = QUESTIONS.iter().flat_map(|question| question.once_there);
        parts
            .find(|there| there.part == part)
            .unwrap()
            .figures(design)
    };
    assert_eq!(
        figures(&design, Part::Engine),
        ["engine.displacement", "engine.speed"]
    );
    assert_eq!(figures(&design, Part::Hearth).len(), 7);
    design.real_vessel.measured = true;
    assert_eq!(figures(&design, Part::Shell).len(), 6);
    design.real_vessel.has_top = true;
    assert!(figures(&design, Part::Shell).contains(&"real_vessel.dish"));
    design.real_vessel.has_top = false;
    design.real_vessel.seamless = true;
    assert!(!figures(&design, Part::Shell).contains(&"real_vessel.long_seam"));
    for there in QUESTIONS.iter().flat_map(|question| question.once_there) {
        let warns = there
            .caution
            .is_some_and(|caution| caution.contains("fuel container"));
        assert_eq!(warns, there.part == Part::Shell);
    }
}

#[test]
fn every_question_asks_for_inputs_that_are_there() {
    let design = example::to_start_from();
    for question in QUESTIONS {
        let once = (question.once_there.iter())
            .filter(|there| there.part != Part::Shell)
            .flat_map(|there| there.inputs);
        for path in question.inputs.iter().chain(once) {
            assert!(design.input(path).is_some(), "{path}");
        }
    }
}

#[test]
fn what_was_answered_stays_as_it_was_answered() {
    let mut design = power_wanted(8.0);
    for (path, value) in [
        ("engine.displacement", 0.0012),
        ("hearth.throat_diameter", 0.083),
        ("body_wall.inside_diameter", 0.41),
        ("base.width", 0.91),
        ("hopper.height", 0.51),
        ("fuel.moisture", 0.18),
    ] {
        design.set(path, Value::Number(value)).unwrap();
    }
    let sized = complete(&design, &[Part::Engine, Part::Hearth, Part::Vessel]);
    let asked = QUESTIONS.iter().flat_map(|question| {
        let once = (question.once_there.iter())
            .filter(|there| there.part != Part::Shell)
            .flat_map(|there| there.inputs);
        question.inputs.iter().chain(once)
    });
    // Width and depth are answered over all: of them the frame tube is taken off.
    let over_all = ["base.width", "base.depth"];
    for path in asked.filter(|path| !over_all.contains(path)) {
        assert_eq!(sized.get(path), design.get(path), "{path}");
    }
    let (base, answered) = (&sized.base, &design.base);
    assert!(same_length(
        base.width + base.frame_side,
        answered.width.value * 1000.0
    ));
    assert!(same_length(
        base.depth + base.frame_side,
        answered.depth.value * 1000.0
    ));
}

#[test]
fn any_design_is_completed_within_the_ranges() {
    for seed in 0..20 {
        let sized = complete(&random_design(seed), &[]);
        for path in sized.paths() {
            let (input, value) = (sized.input(&path).unwrap(), sized.get(&path).unwrap());
            assert!(input.takes(&value), "seed {seed}: {path} {value:?}");
        }
    }
}

#[test]
fn an_own_design_carries_no_record_of_somebody_else() {
    let start = example::to_start_from();
    assert_eq!(start.leak_test, Design::default().leak_test);
    assert!(!start.real_vessel.rolled);
    for design in [complete(&power_wanted(5.0), &[]), start] {
        assert!(design.readings.is_empty());
        assert!(!design.real_vessel.measured);
        assert!(!design.workshop.hoist);
        assert_eq!(design.cost, Design::default().cost);
        assert!(design.cost_lines.is_empty() && design.part_changes.is_empty());
        for path in design.paths() {
            let of_somebody = path.ends_with(".note") || path.contains("weighed");
            if !of_somebody || path == "about.note" {
                continue;
            }
            let empty = match design.get(&path) {
                Some(Value::Text(text)) => text.is_empty(),
                Some(Value::Empty) | None => true,
                Some(_) => false,
            };
            assert!(empty, "{path}");
        }
        let assessment = assess(&design);
        let mut ids = assessment.findings.iter().map(|finding| finding.id);
        assert!(!ids.any(|id| id.starts_with("leaks.reading") || id == "cost.budget"));
        // Only the questions are told that there is no vessel.
        let told = if design.real_vessel.rolled {
            Verdict::Good
        } else {
            Verdict::CannotTell
        };
        assert_eq!(verdict(&design, "marking.cut_wrong"), Some(told));
    }
}
