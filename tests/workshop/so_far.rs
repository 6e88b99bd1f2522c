//! What is done at the machine: ticked off along the order, and told where it was done too soon.

use hearthplan::design::inputs::{BuildStep, ClosedBy, Group, Joint, JointState, StepKind};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::paper::html::{blocks, blocks_on_screen};
use hearthplan::paper::sheet::Sheet;
use hearthplan::paper::sheets;
use hearthplan::review::{Assessment, Verdict, assess, step_is_done};
use hearthplan::sizing::build_order::{Task, is_begun, is_done, own_work, too_soon, turned};

/// What the question tells; none where it is not asked.
fn told(design: &Design) -> Option<(Verdict, String)> {
    let assessment = assess(design);
    let finding = assessment.finding("order.so_far")?;
    Some((finding.verdict, finding.compared.text(System::Metric)))
}

fn sheet(design: &Design, assessment: &Assessment) -> Sheet {
    let all = sheets::all(design, assessment, System::Metric, &[]);
    let found = all.into_iter().find(|sheet| sheet.name == "build-order");
    found.expect("there is a sheet of the order")
}

#[test]
fn nothing_is_asked_before_the_first_weld() {
    for design in [example::as_first_drawn(), example::as_improved()] {
        assert!(!is_begun(&design));
        assert_eq!(told(&design), None);
    }
}

#[test]
fn whoever_follows_the_computed_order_hides_nothing() {
    let mut design = example::as_improved();
    let work = assess(&design).order.work(&design);
    let steps = work.len();
    for (done, tasks) in work.iter().enumerate() {
        assert!(!step_is_done(&design, tasks), "step {done}");
        design.joints = turned(&design, tasks, true);
        assert!(step_is_done(&design, tasks), "step {done}");
        assert_eq!(too_soon(&design), [], "after step {done}");
        let (verdict, words) = told(&design).expect("work is begun");
        assert_eq!(verdict, Verdict::Good);
        let expected = if done + 1 == steps {
            format!("all {steps} steps are done")
        } else {
            format!("{} of {steps} steps are done; next: ", done + 1)
        };
        assert!(words.starts_with(&expected), "{words}");
    }
    // Backwards it is all taken off again.
    for tasks in work.iter().rev() {
        design.joints = turned(&design, tasks, false);
        assert!(!step_is_done(&design, tasks));
    }
    assert_eq!(design.joints, example::as_improved().joints);
}

#[test]
fn what_is_hidden_before_its_test_stops_until_it_has_passed_one() {
    let mut design = example::as_improved();
    let hidden = (design.joints.iter())
        .position(|joint| joint.closed_by == ClosedBy::Insulation && joint.airtight)
        .expect("the lining hides welds");
    let group = design.joints[hidden].closing_group;
    design.joints = turned(&design, &[Task::Make(hidden)], true);
    let (verdict, words) = told(&design).expect("work is begun");
    assert_eq!(verdict, Verdict::Good);
    assert!(words.contains("1 of"), "{words}");
    design.joints = turned(&design, &[Task::CloseIn(group)], true);
    assert!(is_done(&design, Task::CloseIn(group)));
    let (verdict, words) = told(&design).expect("work is begun");
    assert_eq!(verdict, Verdict::Stop);
    let name = &design.joints[hidden].name;
    let expected = format!("hides joint {} {name}, which", hidden + 1);
    assert!(words.contains(&expected), "{words}");
    let all: Vec<Task> = (0..design.joints.len()).map(Task::Test).collect();
    design.joints = turned(&design, &all, true);
    assert_eq!(
        told(&design).map(|(verdict, _)| verdict),
        Some(Verdict::Good)
    );
}

#[test]
fn a_joint_made_before_the_one_it_waits_for_is_told() {
    let joint = |after: u32, state: JointState| Joint {
        after,
        state,
        ..Joint::default()
    };
    let design = Design {
        joints: vec![joint(0, JointState::Open), joint(1, JointState::Made)],
        ..Design::default()
    };
    let (verdict, words) = told(&design).expect("work is begun");
    assert_eq!(verdict, Verdict::Watch);
    assert!(words.contains("before joint 1"), "{words}");
    // A later joint that is made hides one that is not.
    let mut design = design;
    design.joints[0].closed_by = ClosedBy::Joint;
    design.joints[0].closing_joint = 2;
    let (verdict, words) = told(&design).expect("work is begun");
    assert_eq!(verdict, Verdict::Stop);
    assert!(
        words.starts_with("joint 2 Joint hides joint 1 Joint, which is not made"),
        "{words}"
    );
}

#[test]
fn a_test_of_a_sub_assembly_ticks_what_was_made_before_it() {
    let mut design = example::as_improved();
    let group = Group::Reactor;
    let of_group: Vec<u32> = (1..)
        .zip(&design.joints)
        .filter(|(_, joint)| joint.is_of(group))
        .map(|(number, _)| number)
        .collect();
    let make = |joint: u32| BuildStep {
        joint,
        ..BuildStep::default()
    };
    let whole = BuildStep {
        kind: StepKind::Test,
        joint: 0,
        group,
        ..BuildStep::default()
    };
    let (last, first) = of_group.split_last().expect("the vessel has joints");
    design.build_steps = first.iter().map(|number| make(*number)).collect();
    design.build_steps.push(whole);
    design.build_steps.push(make(*last));
    design.build_steps.push(BuildStep {
        joint: 40,
        ..BuildStep::default()
    });
    let work = own_work(&design);
    assert_eq!(work[first.len()].len(), first.len());
    assert_eq!(
        work.last().map(Vec::len),
        Some(0),
        "a step that names no joint has no work"
    );
    design.joints = turned(&design, &work[first.len()], true);
    let tested = |number: &u32| design.joints[*number as usize - 1].state == JointState::Tested;
    assert!(first.iter().all(tested));
    assert!(!tested(last));
    let assessment = assess(&design);
    let screen = blocks_on_screen(&sheet(&design, &assessment), System::Metric);
    assert_eq!(
        screen.matches("aria-pressed=\"true\"").count(),
        first.len() + 1
    );
}

#[test]
fn the_sheet_shows_what_is_done_and_who_signed() {
    let mut design = example::as_improved();
    let order = assess(&design).order.work(&design);
    let tested = (order
        .iter()
        .position(|tasks| matches!(tasks[..], [Task::Test(_)])))
    .expect("a test");
    let Task::Test(place) = order[tested][0] else {
        unreachable!("just found");
    };
    design.joints = turned(&design, &order[tested], true);
    design.joints[place].signed = "2026-05-14 <A. & B.>".to_string();
    let assessment = assess(&design);
    let sheet = sheet(&design, &assessment);
    let paper = blocks(&sheet, System::Metric);
    // Made and tested: two steps.
    assert_eq!(paper.matches('☑').count(), 2);
    assert_eq!(paper.matches("2026-05-14 &lt;A. &amp; B.&gt;").count(), 1);
    assert!(!paper.contains("<button"));
    let screen = blocks_on_screen(&sheet, System::Metric);
    assert_eq!(screen.matches("data-act=\"tick\"").count(), order.len());
    assert_eq!(screen.matches("aria-pressed=\"true\"").count(), 2);
    let name = format!("aria-label=\"Done: {} ", tested + 1);
    assert!(screen.contains(&name), "{name}");
    // The date of a test that is taken back is no longer told.
    design.joints = turned(&design, &order[tested], false);
    let assessment = assess(&design);
    let all = sheets::all(&design, &assessment, System::Metric, &[]);
    let again = all
        .iter()
        .find(|sheet| sheet.name == "build-order")
        .expect("there is one");
    assert!(!blocks(again, System::Metric).contains("2026-05-14"));
}

#[test]
fn once_work_is_begun_the_sheet_tells_what_a_change_does_to_it() {
    let mut design = example::as_improved();
    let page = |design: &Design| blocks(&sheet(design, &assess(design)), System::Metric);
    let told = "The tick of a joint keeps the sizes";
    assert!(!page(&design).contains(told));
    let work = assess(&design).order.work(&design);
    design.joints = turned(&design, &work[0], true);
    assert!(page(&design).contains(told));
}
