//! What kills or burns is told before what costs power.

use crate::random_design::random_design;
use hearthplan::design::inputs::Part;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{HARMS, Harm, Verdict, assess, worst_first};
use hearthplan::sizing::as_made::keep_sizes;
use hearthplan::sizing::ballast::BALLAST;
use hearthplan::sizing::build_order::turned;
use std::collections::BTreeSet;

/// Enough for each question to come up that any design asks.
const DESIGNS: u64 = 400;

fn declared() -> Vec<&'static str> {
    HARMS
        .iter()
        .flat_map(|(_, ids)| ids.iter().copied())
        .collect()
}

/// The improved example as it is built, whose ticks keep sizes.
fn all_ticked() -> Design {
    let mut design = example::as_improved();
    for tasks in assess(&design).order.work(&design) {
        let joints = turned(&design, &tasks, true);
        let before = std::mem::replace(&mut design.joints, joints);
        keep_sizes(&mut design, &before);
    }
    design
}

#[test]
fn each_question_stands_once_among_the_harms() {
    let declared = declared();
    let once: BTreeSet<_> = declared.iter().collect();
    assert_eq!(once.len(), declared.len());
    let harms: Vec<Harm> = HARMS.iter().map(|(harm, _)| *harm).collect();
    assert!(harms.is_sorted(), "{harms:?}");
}

/// What is declared is asked, so that a question with another name does not go without its rank.
/// The default with dead weight under it.
fn ballasted() -> Design {
    let mut design = Design::default();
    design.parts.push(Part {
        name: BALLAST.to_string(),
        ..Part::default()
    });
    design
}

#[test]
fn all_that_is_declared_is_asked_of_some_design() {
    let mut left: BTreeSet<_> = declared().into_iter().collect();
    let drawn = [
        Design::default(),
        example::as_first_drawn(),
        example::as_improved(),
        all_ticked(),
        ballasted(),
    ];
    for design in drawn.into_iter().chain((0..DESIGNS).map(random_design)) {
        for finding in &assess(&design).findings {
            assert!(finding.harm().is_some(), "{}", finding.id);
            left.remove(finding.id);
        }
    }
    assert!(left.is_empty(), "{left:?}");
}

#[test]
fn carbon_monoxide_in_the_room_is_told_first_of_all_stops() {
    let assessment = assess(&example::as_first_drawn());
    let told = worst_first(&assessment.findings);
    assert_eq!(told[0].id, "leaks.room");
    assert_eq!(told[0].verdict, Verdict::Stop);
    let bad = |finding: &&hearthplan::review::Finding| finding.verdict != Verdict::Good;
    assert_eq!(told.len(), assessment.findings.iter().filter(bad).count());
    assert!(told.is_sorted_by(|one, other| {
        one.verdict > other.verdict || one.verdict == other.verdict && one.harm() <= other.harm()
    }));
}

#[test]
fn of_equal_harm_the_order_of_the_questions_stays() {
    let mut design = example::as_first_drawn();
    design.set("base.width", Value::Number(0.3)).unwrap();
    let assessment = assess(&design);
    let place = |id: &str| assessment.findings.iter().position(|one| one.id == id);
    let falls: Vec<_> = (worst_first(&assessment.findings).into_iter())
        .filter(|one| one.verdict == Verdict::Stop && one.harm() == Some(Harm::Fall))
        .map(|one| place(one.id))
        .collect();
    assert!(falls.len() > 1 && falls.is_sorted(), "{falls:?}");
}
