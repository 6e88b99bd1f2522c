//! How far is the work at the machine, and did it keep to an order that hides no untested joint?

use super::{OrderStep, Task, is_there, place};
use crate::design::Design;
use crate::design::inputs::{BuildStep, ClosedBy, Group, Joint, JointState, StepKind};

/// What hides a joint at the machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HiddenBy {
    /// A later joint that is made: its place in the list, counted from zero.
    Joint(usize),
    /// Insulation or cladding that is on.
    Insulation(Group),
}

/// Work that was done before what had to come first; places of joints are counted from zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TooSoon {
    /// A joint is out of reach that has not passed a test, or is not even made.
    Hidden {
        /// The joint.
        joint: usize,
        /// What hides it.
        by: HiddenBy,
        /// Whether it is made.
        made: bool,
    },
    /// A joint is made before the joint it waits for.
    Made {
        /// The joint.
        joint: usize,
        /// The joint it waits for.
        waits_for: usize,
    },
}

/// Whether any work on the joints is done.
pub fn is_begun(design: &Design) -> bool {
    (design.joints.iter()).any(|joint| joint.state != JointState::Open || joint.insulation_is_on())
}

/// Whether a task is done at the machine: ticked off, or of a vessel that is there.
///
/// ```
/// use hearthplan::design::{Design, inputs::JointState};
/// use hearthplan::sizing::build_order::{Task, is_done};
/// let mut design = Design::default();
/// design.joints[0].state = JointState::Made;
/// assert!(is_done(&design, Task::Make(0)));
/// assert!(!is_done(&design, Task::Test(0)));
/// ```
pub fn is_done(design: &Design, task: Task) -> bool {
    let state = |place: usize| design.joints.get(place).map(|joint| joint.state);
    match task {
        _ if is_there(design, task) => true,
        Task::Make(place) => state(place).is_some_and(|state| state != JointState::Open),
        Task::Test(place) => state(place) == Some(JointState::Tested),
        Task::CloseIn(group) => {
            let mut hidden = (design.joints.iter())
                .filter(|joint| joint.is_hidden_in(group))
                .peekable();
            hidden.peek().is_some() && hidden.all(|joint| joint.closed_in)
        }
    }
}

/// The joints of the design once these tasks are done, or undone. What cannot be without them goes along: a joint that
/// is tested is made, and one that is not made is neither tested nor closed in.
///
/// ```
/// use hearthplan::design::{Design, inputs::JointState};
/// use hearthplan::sizing::build_order::{Task, turned};
/// let design = Design::default();
/// assert_eq!(turned(&design, &[Task::Test(0)], true)[0].state, JointState::Tested);
/// ```
pub fn turned(design: &Design, tasks: &[Task], done: bool) -> Vec<Joint> {
    let mut joints = design.joints.clone();
    for task in tasks {
        match *task {
            Task::Make(place) => {
                if let Some(joint) = joints.get_mut(place) {
                    joint.state = match joint.state {
                        JointState::Open if done => JointState::Made,
                        state if done => state,
                        _ => JointState::Open,
                    };
                    joint.closed_in &= done;
                }
            }
            Task::Test(place) => {
                if let Some(joint) = joints.get_mut(place) {
                    joint.state = match joint.state {
                        _ if done => JointState::Tested,
                        JointState::Tested => JointState::Made,
                        state => state,
                    };
                }
            }
            Task::CloseIn(group) => {
                let hidden = joints.iter_mut().filter(|joint| joint.is_hidden_in(group));
                hidden.for_each(|joint| joint.closed_in = done);
            }
        }
    }
    joints
}

/// The computed order as the work of each step.
pub fn computed_work(order: &[OrderStep]) -> Vec<Vec<Task>> {
    order.iter().map(|step| vec![step.task]).collect()
}

/// Whether the person's own order is followed: it is wanted, and has steps.
pub fn follows_own(design: &Design) -> bool {
    design.workshop.own_order && !design.build_steps.is_empty()
}

/// The person's own steps as the work of each: none where a step names no joint, several where a sub-assembly is
/// tested as one. Such a test is of the joints that the steps before it made.
///
/// ```
/// use hearthplan::design::{Design, inputs::{BuildStep, StepKind}};
/// use hearthplan::sizing::build_order::{Task, own_work};
/// let mut design = Design::default();
/// design.build_steps = vec![
///     BuildStep { joint: 1, ..BuildStep::default() },
///     BuildStep { kind: StepKind::Test, joint: 0, ..BuildStep::default() },
/// ];
/// assert_eq!(own_work(&design), [[Task::Make(0)], [Task::Test(0)]]);
/// ```
pub fn own_work(design: &Design) -> Vec<Vec<Task>> {
    let mut made = vec![false; design.joints.len()];
    let mut of_step = |step: &BuildStep| match (step.kind, place(step.joint, made.len())) {
        (StepKind::Make, Some(joint)) => {
            if let Some(made) = made.get_mut(joint) {
                *made = true;
            }
            vec![Task::Make(joint)]
        }
        (StepKind::Test, Some(joint)) => vec![Task::Test(joint)],
        (StepKind::Test, None) if step.joint == 0 => (design.joints.iter().zip(&made).enumerate())
            .filter(|(_, (joint, made))| **made && joint.is_of(step.group))
            .map(|(place, _)| Task::Test(place))
            .collect(),
        (StepKind::CloseIn, _) => vec![Task::CloseIn(step.group)],
        (StepKind::Make | StepKind::Test, None) => Vec::new(),
    };
    design.build_steps.iter().map(&mut of_step).collect()
}

/// What was done too soon: hidden joints first.
pub fn too_soon(design: &Design) -> Vec<TooSoon> {
    let count = design.joints.len();
    let is_made = |place: usize| is_done(design, Task::Make(place));
    let hidden = design
        .joints
        .iter()
        .enumerate()
        .filter_map(|(place_of, joint)| {
            let by = match joint.closed_by {
                ClosedBy::Joint => place(joint.closing_joint, count)
                    .filter(|closing| is_made(*closing))
                    .map(HiddenBy::Joint),
                ClosedBy::Insulation | ClosedBy::Nothing => {
                    (joint.insulation_is_on()).then_some(HiddenBy::Insulation(joint.closing_group))
                }
            }?;
            (!joint.may_be_hidden()).then_some(TooSoon::Hidden {
                joint: place_of,
                by,
                made: joint.state != JointState::Open,
            })
        });
    let early = design
        .joints
        .iter()
        .enumerate()
        .filter_map(|(joint, entered)| {
            let waits_for = place(entered.after, count).filter(|before| !is_made(*before))?;
            // What was there before had nothing to wait for.
            let was_work = is_made(joint) && !is_there(design, Task::Make(joint));
            was_work.then_some(TooSoon::Made { joint, waits_for })
        });
    hidden.chain(early).collect()
}
