//! In which order is it built, so that no joint is closed in before it has been tested?
//!
//! Work is made of three kinds of task: make a joint, test it, insulate a sub-assembly. A joint is made
//! before it is tested, and after the joint it waits for; it is tested before what closes it in. What is
//! inside a sub-assembly comes before what joins two.

use crate::design::Design;
use crate::design::inputs::{ClosedBy, Group, Joint};
use crate::sizing::joint_length::closes_bottom;
use std::collections::{BTreeMap, BTreeSet};

mod besides;
mod own;
mod progress;
pub use besides::{Besides, besides, closed_top};
pub use own::{Fault, as_own, check};
pub use progress::{
    HiddenBy, TooSoon, computed_work, follows_own, is_begun, is_done, own_work, too_soon, turned,
};

/// A piece of work.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Task {
    /// Make a joint: its place in the list, counted from zero.
    Make(usize),
    /// Test a joint.
    Test(usize),
    /// Insulate or clad a sub-assembly.
    CloseIn(Group),
}

/// A step of the order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OrderStep {
    /// What is done.
    pub task: Task,
    /// A hold point: the test must pass before the work goes on, since a later step hides the joint.
    pub hold: bool,
}

/// Whether a task is work that a vessel which is there does not need any more: what the lining hides of one that is built and
/// lined is made, and the lining is in; the weld of a bottom that a vessel has of its own is made.
///
/// ```
/// use hearthplan::design::{Design, inputs::Group};
/// use hearthplan::sizing::build_order::{Task, is_there, order};
/// let mut design = Design::default();
/// design.real_vessel.lined = true;
/// assert!(is_there(&design, Task::Make(0)) && is_there(&design, Task::CloseIn(Group::Reactor)));
/// assert!(order(&design).unwrap().iter().all(|step| !is_there(&design, step.task)));
/// ```
pub fn is_there(design: &Design, task: Task) -> bool {
    let vessel = &design.real_vessel;
    match task {
        Task::CloseIn(group) => vessel.lined && group == Group::Reactor,
        Task::Make(place) => (design.joints.get(place)).is_some_and(|joint| {
            let inside = [joint.first, joint.second] == [Group::Reactor; 2];
            let own_bottom = vessel.measured && vessel.has_bottom && closes_bottom(joint);
            inside && (own_bottom || vessel.lined && joint.is_hidden_in(Group::Reactor))
        }),
        Task::Test(_) => false,
    }
}

/// Why there is no order that tests every joint before it is closed in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Impossible {
    /// The joints that wait for each other in a ring, as places in the list counted from zero.
    pub joints: Vec<usize>,
}

/// Puts the work in order: the same design gives the same order.
///
/// Joint numbers that name no joint are left out of account; see [`wrong_numbers`].
///
/// # Errors
/// [`Impossible`] when joints wait for each other in a ring.
///
/// ```
/// use hearthplan::design::Design;
/// use hearthplan::sizing::build_order::{self, Task};
/// let design = Design::default();
/// let order = build_order::order(&design).unwrap();
/// let place = |task| order.iter().position(|step| step.task == task);
/// assert!(place(Task::Make(0)) < place(Task::Test(0)));
/// ```
pub fn order(design: &Design) -> Result<Vec<OrderStep>, Impossible> {
    let mut waits = waits_for(design);
    let mut ready: BTreeSet<Node> = free(&waits).collect();
    let mut steps = Vec::with_capacity(waits.len());
    while let Some(node) = ready.pop_first() {
        steps.push(OrderStep {
            task: node.task(),
            hold: holds(design, node),
        });
        waits.remove(&node);
        for (other, before) in &mut waits {
            if before.remove(&node) && before.is_empty() {
                ready.insert(*other);
            }
        }
    }
    if waits.is_empty() {
        Ok(steps)
    } else {
        Err(Impossible {
            joints: ring(&waits),
        })
    }
}

/// Joints whose “closed in by” or “made after” names no joint: places in the list, counted from zero.
pub fn wrong_numbers(design: &Design) -> Vec<usize> {
    let count = design.joints.len();
    let wrong = |joint: &Joint| {
        let closing =
            joint.closed_by == ClosedBy::Joint && place(joint.closing_joint, count).is_none();
        let after = joint.after > 0 && place(joint.after, count).is_none();
        closing || after
    };
    let joints = design.joints.iter().enumerate();
    joints
        .filter(|(_, joint)| wrong(joint))
        .map(|(place, _)| place)
        .collect()
}

/// Place, counted from zero, of a number as a person counts.
fn place(number: u32, count: usize) -> Option<usize> {
    let place = usize::try_from(number).ok()?.checked_sub(1)?;
    (place < count).then_some(place)
}

/// A task with all that decides which of several ready tasks comes first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Node {
    /// Joins two sub-assemblies.
    joins: bool,
    /// The sub-assembly: the first of the two it joins.
    group: Group,
    /// Make, test, close in.
    kind: Kind,
    /// Place of the joint in the list.
    joint: usize,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Kind {
    Make,
    Test,
    CloseIn(Group),
}

impl Node {
    fn of_joint(kind: Kind, place: usize, joint: &Joint) -> Self {
        Self {
            joins: joint.first != joint.second,
            group: joint.first.min(joint.second),
            kind,
            joint: place,
        }
    }

    fn close_in(group: Group) -> Self {
        Self {
            joins: false,
            group,
            kind: Kind::CloseIn(group),
            joint: 0,
        }
    }

    fn task(self) -> Task {
        match self.kind {
            Kind::Make => Task::Make(self.joint),
            Kind::Test => Task::Test(self.joint),
            Kind::CloseIn(group) => Task::CloseIn(group),
        }
    }
}

/// All tasks, each with those it waits for.
fn waits_for(design: &Design) -> BTreeMap<Node, BTreeSet<Node>> {
    let joints = &design.joints;
    let make = |place: usize| {
        joints
            .get(place)
            .map(|joint| Node::of_joint(Kind::Make, place, joint))
    };
    let mut waits_for: BTreeMap<Node, BTreeSet<Node>> = BTreeMap::new();
    for (index, joint) in joints.iter().enumerate() {
        let made = Node::of_joint(Kind::Make, index, joint);
        let before = waits_for.entry(made).or_default();
        before.extend(place(joint.after, joints.len()).and_then(make));
        let done = if joint.airtight {
            let tested = Node::of_joint(Kind::Test, index, joint);
            waits_for.entry(tested).or_default().insert(made);
            tested
        } else {
            made
        };
        let closing = match joint.closed_by {
            ClosedBy::Nothing => None,
            ClosedBy::Joint => place(joint.closing_joint, joints.len()).and_then(make),
            ClosedBy::Insulation => Some(Node::close_in(joint.closing_group)),
        };
        if let Some(closing) = closing {
            waits_for.entry(closing).or_default().insert(done);
        }
    }
    let is_work = |node: &Node| !is_there(design, node.task());
    waits_for.retain(|node, _| is_work(node));
    for before in waits_for.values_mut() {
        before.retain(is_work);
    }
    waits_for
}

/// Whether a test must pass before the work goes on.
fn holds(design: &Design, node: Node) -> bool {
    let joint = (design.joints.get(node.joint)).filter(|_| node.kind == Kind::Test);
    joint.is_some_and(|joint| joint.closed_by != ClosedBy::Nothing && !is_hidden(design, joint))
}

/// Whether the lining of a vessel that is built hides a joint already, so that no soap film reaches it.
pub fn is_hidden(design: &Design, joint: &Joint) -> bool {
    joint.closed_by == ClosedBy::Insulation && is_there(design, Task::CloseIn(joint.closing_group))
}

fn free(waits: &BTreeMap<Node, BTreeSet<Node>>) -> impl Iterator<Item = Node> {
    waits
        .iter()
        .filter(|(_, before)| before.is_empty())
        .map(|(node, _)| *node)
}

/// Joints of a ring among tasks that all wait for another: follows one of them until it comes back.
fn ring(waits: &BTreeMap<Node, BTreeSet<Node>>) -> Vec<usize> {
    let mut walked: Vec<Node> = Vec::new();
    let mut next = waits.keys().next().copied();
    while let Some(node) = next {
        if let Some(start) = walked.iter().position(|seen| *seen == node) {
            let mut joints: Vec<usize> = Vec::new();
            for node in walked.iter().skip(start).rev() {
                let of_joint = matches!(node.kind, Kind::Make | Kind::Test);
                if of_joint && !joints.contains(&node.joint) {
                    joints.push(node.joint);
                }
            }
            return joints;
        }
        walked.push(node);
        next = waits.get(&node).and_then(|before| before.first().copied());
    }
    Vec::new()
}
