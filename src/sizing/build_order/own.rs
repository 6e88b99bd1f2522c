//! Does a person's own order of the work bury a joint that has not been tested?

use super::{OrderStep, Task, is_there, own_work, place};
use crate::design::inputs::{BuildStep, ClosedBy, Joint, StepKind};
use crate::design::{Choice as _, Design};

/// What is wrong with an order; places of steps and joints are counted from zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fault {
    /// A step closes in a joint that has not passed a test.
    Buried {
        /// The joint that is hidden.
        joint: usize,
        /// The step that hides it.
        step: usize,
        /// Whether the joint had been made at all.
        made: bool,
    },
    /// A joint is made before the joint it waits for.
    TooEarly {
        /// The joint.
        joint: usize,
        /// The step that makes it.
        step: usize,
    },
    /// A step tests what has not been made.
    TestedBeforeMade {
        /// The step.
        step: usize,
    },
    /// A step names no joint of the list.
    NoSuchJoint {
        /// The step.
        step: usize,
    },
    /// A joint that must be tight is never tested.
    NeverTested {
        /// The joint.
        joint: usize,
    },
    /// A joint is never made.
    NeverMade {
        /// The joint.
        joint: usize,
    },
}

impl Fault {
    /// The step at fault; none where a step is missing.
    pub fn step(self) -> Option<usize> {
        match self {
            Fault::Buried { step, .. }
            | Fault::TooEarly { step, .. }
            | Fault::TestedBeforeMade { step }
            | Fault::NoSuchJoint { step } => Some(step),
            Fault::NeverTested { .. } | Fault::NeverMade { .. } => None,
        }
    }

    /// Whether it hides an untested joint for good.
    pub fn buries(self) -> bool {
        matches!(self, Fault::Buried { .. })
    }
}

/// All faults of the steps entered: those of the order first, as they happen, then what is left out.
/// Empty for an order that is sound, and for no order at all.
///
/// A test of a joint that is made again later does not count.
///
/// ```
/// use hearthplan::design::{Design, inputs::{BuildStep, StepKind}};
/// use hearthplan::sizing::build_order::{Fault, check};
/// let mut design = Design::default();
/// design.build_steps = vec![
///     BuildStep { joint: 1, ..BuildStep::default() },
///     BuildStep { kind: StepKind::CloseIn, ..BuildStep::default() },
/// ];
/// assert_eq!(check(&design).first(), Some(&Fault::Buried { joint: 0, step: 1, made: true }));
/// ```
pub fn check(design: &Design) -> Vec<Fault> {
    if design.build_steps.is_empty() {
        return Vec::new();
    }
    let mut walk = Walk {
        design,
        joints: &design.joints,
        states: (0..design.joints.len())
            .map(|place| match is_there(design, Task::Make(place)) {
                true => State::Made,
                false => State::Open,
            })
            .collect(),
        faults: Vec::new(),
    };
    for (index, (step, work)) in design.build_steps.iter().zip(own_work(design)).enumerate() {
        walk.take(index, step, &work);
    }
    walk.end();
    walk.faults
}

/// An order as steps that a person can put in an order of their own. What follows from joints that are
/// not there is left out.
///
/// ```
/// use hearthplan::{design::Design, sizing::build_order::{as_own, check, order}};
/// let mut design = Design::default();
/// design.build_steps = as_own(&design, &order(&design).unwrap());
/// assert!(check(&design).is_empty());
/// ```
pub fn as_own(design: &Design, order: &[OrderStep]) -> Vec<BuildStep> {
    let of_joint = |place: usize, kind: StepKind, work: &str| {
        let joint = design.joints.get(place)?;
        Some(BuildStep {
            name: named(work, &joint.name),
            kind,
            joint: u32::try_from(place).ok()?.checked_add(1)?,
            group: joint.first,
        })
    };
    (order.iter())
        .filter_map(|step| match step.task {
            Task::Make(place) => of_joint(place, StepKind::Make, "Make"),
            Task::Test(place) if step.hold => of_joint(place, StepKind::Test, "Hold: test"),
            Task::Test(place) => of_joint(place, StepKind::Test, "Test"),
            Task::CloseIn(group) => Some(BuildStep {
                name: named("Close in", group.label()),
                kind: StepKind::CloseIn,
                joint: 0,
                group,
            }),
        })
        .collect()
}

/// Longest name of a step, in characters.
const LONGEST: usize = 60;

fn named(work: &str, what: &str) -> String {
    format!("{work} {what}").chars().take(LONGEST).collect()
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum State {
    Open,
    Made,
    Tested,
}

struct Walk<'a> {
    design: &'a Design,
    joints: &'a [Joint],
    states: Vec<State>,
    faults: Vec<Fault>,
}

impl Walk<'_> {
    fn take(&mut self, index: usize, step: &BuildStep, work: &[Task]) {
        match work {
            [] if step.kind == StepKind::Test && step.joint == 0 => {
                self.faults.push(Fault::TestedBeforeMade { step: index });
            }
            [] => self.faults.push(Fault::NoSuchJoint { step: index }),
            work => work.iter().for_each(|task| match *task {
                Task::Make(joint) => self.make(index, joint),
                Task::Test(joint) => self.test(index, joint),
                // A lining that is in hides nothing anew.
                Task::CloseIn(_) if is_there(self.design, *task) => {}
                Task::CloseIn(group) => self.bury(index, |joint| joint.is_hidden_in(group)),
            }),
        }
    }

    fn state(&self, joint: usize) -> State {
        self.states.get(joint).copied().unwrap_or(State::Open)
    }

    fn set(&mut self, joint: usize, state: State) {
        if let Some(place) = self.states.get_mut(joint) {
            *place = state;
        }
    }

    fn make(&mut self, step: usize, joint: usize) {
        let count = self.joints.len();
        let waits = (self.joints.get(joint)).and_then(|joint| place(joint.after, count));
        if waits.is_some_and(|before| self.state(before) == State::Open) {
            self.faults.push(Fault::TooEarly { joint, step });
        }
        self.bury(step, |hidden| {
            hidden.closed_by == ClosedBy::Joint && place(hidden.closing_joint, count) == Some(joint)
        });
        self.set(joint, State::Made);
    }

    /// Notes the joints that a step hides before they are done.
    fn bury(&mut self, step: usize, hides: impl Fn(&Joint) -> bool) {
        for (index, joint) in self.joints.iter().enumerate() {
            let state = self.state(index);
            let done = match state {
                State::Open => false,
                State::Made => !joint.airtight,
                State::Tested => true,
            };
            if hides(joint) && !done {
                self.faults.push(Fault::Buried {
                    joint: index,
                    step,
                    made: state != State::Open,
                });
            }
        }
    }

    fn test(&mut self, step: usize, joint: usize) {
        if self.state(joint) == State::Open {
            self.faults.push(Fault::TestedBeforeMade { step });
        } else {
            self.set(joint, State::Tested);
        }
    }

    fn end(&mut self) {
        for (index, joint) in self.joints.iter().enumerate() {
            match self.state(index) {
                State::Open => self.faults.push(Fault::NeverMade { joint: index }),
                State::Made if joint.airtight => {
                    self.faults.push(Fault::NeverTested { joint: index });
                }
                State::Made | State::Tested => {}
            }
        }
    }
}
