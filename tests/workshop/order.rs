//! The order of the work over random joints.

use hearthplan::design::inputs::{BuildStep, ClosedBy, Group, Joint, StepKind};
use hearthplan::design::{Choice, Design};
use hearthplan::sizing::build_order::{Fault, Task, check, order, wrong_numbers};
use hearthplan::sizing::leak_test::budgets;
use proptest::prelude::*;
use uom::si::f64::VolumeRate;
use uom::si::volume_rate::cubic_meter_per_second;

fn any_group() -> impl Strategy<Value = Group> {
    (0..Group::OPTIONS.len())
        .prop_map(|place| Group::from_name(Group::OPTIONS[place].name).expect("an option"))
}

fn any_joint(most: u32) -> impl Strategy<Value = Joint> {
    let closed = prop_oneof![
        Just(ClosedBy::Nothing),
        Just(ClosedBy::Joint),
        Just(ClosedBy::Insulation)
    ];
    (
        any_group(),
        any_group(),
        any::<bool>(),
        closed,
        1..=most,
        any_group(),
        0..=most,
    )
        .prop_map(
            |(first, second, airtight, closed_by, closing_joint, closing_group, after)| Joint {
                first,
                second,
                airtight,
                closed_by,
                closing_joint,
                closing_group,
                // Few joints wait for another, or nearly all would end in a ring.
                after: if after % 3 == 0 { after } else { 0 },
                ..Joint::default()
            },
        )
}

fn design_of(joints: Vec<Joint>) -> Design {
    Design {
        joints,
        ..Design::default()
    }
}

fn as_steps(tasks: &[Task]) -> Vec<BuildStep> {
    let step = |task: &Task| match *task {
        Task::Make(joint) => BuildStep {
            kind: StepKind::Make,
            joint: joint as u32 + 1,
            ..BuildStep::default()
        },
        Task::Test(joint) => BuildStep {
            kind: StepKind::Test,
            joint: joint as u32 + 1,
            ..BuildStep::default()
        },
        Task::CloseIn(group) => BuildStep {
            kind: StepKind::CloseIn,
            group,
            ..BuildStep::default()
        },
    };
    tasks.iter().map(step).collect()
}

/// Which joints must be done before which, made without the code under test: a joint that closes
/// another in, or waits for it, comes later.
fn has_ring(joints: &[Joint]) -> bool {
    let count = joints.len();
    let mut later = vec![vec![false; count]; count];
    for (index, joint) in joints.iter().enumerate() {
        if joint.closed_by == ClosedBy::Joint && joint.closing_joint as usize <= count {
            later[index][joint.closing_joint as usize - 1] = true;
        }
        if joint.after > 0 && joint.after as usize <= count {
            later[joint.after as usize - 1][index] = true;
        }
    }
    for through in 0..count {
        for from in 0..count {
            for to in 0..count {
                later[from][to] |= later[from][through] && later[through][to];
            }
        }
    }
    (0..count).any(|index| later[index][index])
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1500))]

    #[test]
    fn no_joint_is_buried_untested_and_a_ring_is_told(joints in prop::collection::vec(any_joint(9), 0..12)) {
        let ring = has_ring(&joints);
        let mut design = design_of(joints);
        match order(&design) {
            Ok(steps) => {
                prop_assert!(!ring);
                let tasks: Vec<Task> = steps.iter().map(|step| step.task).collect();
                let at = |task: Task| tasks.iter().position(|other| *other == task);
                for (index, joint) in design.joints.iter().enumerate() {
                    let made = at(Task::Make(index)).expect("every joint is made");
                    let tested = at(Task::Test(index));
                    prop_assert_eq!(tested.is_some(), joint.airtight);
                    prop_assert!(tested.is_none_or(|tested| made < tested));
                    let closing = match joint.closed_by {
                        ClosedBy::Nothing => None,
                        ClosedBy::Joint => at(Task::Make(joint.closing_joint as usize - 1)),
                        ClosedBy::Insulation => at(Task::CloseIn(joint.closing_group)),
                    };
                    if let Some(closing) = closing {
                        prop_assert!(tested.unwrap_or(made) < closing);
                    }
                    if joint.airtight {
                        let step = steps[tested.expect("a test")];
                        prop_assert_eq!(step.hold, joint.closed_by != ClosedBy::Nothing);
                    }
                }
                // The check of a person's order finds no fault in it either.
                design.build_steps = as_steps(&tasks);
                prop_assert_eq!(check(&design), Vec::new());
            }
            Err(impossible) => {
                prop_assert!(ring);
                // The joints named make a ring among themselves.
                let named: Vec<Joint> = impossible.joints.iter().map(|&index| {
                    let place = |number: u32| {
                        let found = impossible.joints.iter().position(|&other| other as u32 + 1 == number);
                        found.map_or(99, |found| found as u32 + 1)
                    };
                    let joint = &design.joints[index];
                    Joint {
                        closing_joint: place(joint.closing_joint),
                        after: if joint.after > 0 { place(joint.after) } else { 0 },
                        ..joint.clone()
                    }
                }).collect();
                prop_assert!(!named.is_empty());
                prop_assert!(has_ring(&named));
            }
        }
    }

    #[test]
    fn an_order_shuffled_so_that_it_buries_a_joint_is_caught(
        joints in prop::collection::vec(any_joint(9), 2..10),
        seed in any::<u64>(),
    ) {
        let mut design = design_of(joints);
        let Ok(steps) = order(&design) else { return Ok(()) };
        let mut tasks: Vec<Task> = steps.iter().map(|step| step.task).collect();
        let mut dice = crate::random_design::Dice::new(seed);
        for place in (1..tasks.len()).rev() {
            tasks.swap(place, dice.below(place + 1));
        }
        let at = |task: Task| tasks.iter().position(|other| *other == task);
        let buried = design.joints.iter().enumerate().any(|(index, joint)| {
            let done = at(if joint.airtight { Task::Test(index) } else { Task::Make(index) });
            let closing = match joint.closed_by {
                ClosedBy::Nothing => None,
                ClosedBy::Joint => at(Task::Make(joint.closing_joint as usize - 1)),
                ClosedBy::Insulation => at(Task::CloseIn(joint.closing_group)),
            };
            // A test before the joint is made tests nothing.
            let made = at(Task::Make(index));
            closing.is_some_and(|closing| done.is_none_or(|done| done > closing) || made > done)
        });
        design.build_steps = as_steps(&tasks);
        prop_assert_eq!(check(&design).iter().any(|fault| fault.buries()), buried);
    }
}

#[test]
fn the_joints_of_a_ring_are_named() {
    let closed_by = |number: u32| Joint {
        closed_by: ClosedBy::Joint,
        closing_joint: number,
        ..Joint::default()
    };
    let design = design_of(vec![Joint::default(), closed_by(3), closed_by(2)]);
    let mut joints = order(&design).expect_err("a ring").joints;
    joints.sort_unstable();
    assert_eq!(joints, [1, 2]);
    // A joint that closes itself in.
    let design = design_of(vec![closed_by(1)]);
    assert_eq!(order(&design).expect_err("a ring").joints, [0]);
}

#[test]
fn the_order_is_grouped_by_sub_assembly() {
    let tasks: Vec<Task> = order(&Design::default())
        .expect("an order")
        .iter()
        .map(|step| step.task)
        .collect();
    let expected = [
        Task::Make(0),
        Task::Make(1),
        Task::Make(2),
        Task::Make(3),
        Task::Test(0),
        Task::Test(1),
        Task::Test(2),
        Task::Test(3),
        Task::CloseIn(Group::Reactor),
        Task::Make(4),
        Task::Test(4),
    ];
    assert_eq!(tasks[..11], expected);
}

#[test]
fn numbers_that_name_no_joint_are_told() {
    let mut design = Design::default();
    design.joints[2].after = 40;
    assert_eq!(wrong_numbers(&design), [2]);
    design.build_steps = vec![BuildStep {
        joint: 39,
        ..BuildStep::default()
    }];
    assert_eq!(check(&design)[0], Fault::NoSuchJoint { step: 0 });
    assert!(order(&design).is_ok());
}

#[test]
fn a_sub_assembly_is_tested_as_one() {
    let mut design = Design::default();
    let step = |kind, joint, group| BuildStep {
        kind,
        joint,
        group,
        ..BuildStep::default()
    };
    let make = |joint| step(StepKind::Make, joint, Group::Base);
    design.joints.truncate(3);
    design.build_steps = vec![
        make(1),
        make(2),
        make(3),
        step(StepKind::Test, 0, Group::Reactor),
        step(StepKind::CloseIn, 1, Group::Reactor),
    ];
    assert_eq!(check(&design), Vec::new());
    // The last weld is made after the test: it is buried untested.
    design.build_steps.swap(2, 3);
    let fault = Fault::Buried {
        joint: 2,
        step: 4,
        made: true,
    };
    assert_eq!(check(&design)[0], fault);
}

#[test]
fn a_design_without_joints_needs_nothing() {
    let design = design_of(Vec::new());
    assert_eq!(order(&design), Ok(Vec::new()));
    assert!(budgets(&design, VolumeRate::new::<cubic_meter_per_second>(1.0)).is_empty());
}
