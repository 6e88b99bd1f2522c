//! The order of the work.

mod so_far;

use super::finding::{Chapter, Finding, Lever, NamedResult, Verdict};
use crate::design::Design;
use crate::design::inputs::Group;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice, Value};
use crate::sizing::build_order::{self, Fault, Impossible, OrderStep, Task};
use crate::sizing::sub_assemblies::{carries_gas, gas_way};

/// The order of the work.
#[derive(Debug, Clone, PartialEq)]
pub struct OrderReview {
    /// The computed order, or the joints that make it impossible.
    pub computed: Result<Vec<OrderStep>, Impossible>,
    /// Whether the person's own order is followed.
    pub own: bool,
    /// What is wrong with the person's own order; empty when it is not followed.
    pub faults: Vec<Fault>,
    /// Joints that name a joint which does not exist: places in the list, counted from zero.
    pub wrong_numbers: Vec<usize>,
}

impl OrderReview {
    fn of(design: &Design) -> Self {
        let own = build_order::follows_own(design);
        Self {
            computed: build_order::order(design),
            own,
            faults: if own {
                build_order::check(design)
            } else {
                Vec::new()
            },
            wrong_numbers: build_order::wrong_numbers(design),
        }
    }

    fn hold_points(&self) -> f64 {
        let steps = self.computed.as_deref().unwrap_or_default();
        steps.iter().filter(|step| step.hold).count() as f64
    }

    /// The work of each step of the order that is followed: the person's own or the computed one.
    pub fn work(&self, design: &Design) -> Vec<Vec<Task>> {
        if self.own {
            build_order::own_work(design)
        } else {
            build_order::computed_work(self.computed.as_deref().unwrap_or_default())
        }
    }

    /// Whether the answer of the question names every fault of the person's own order.
    pub fn names_all(&self) -> bool {
        self.faults.len() < FAULTS.len()
    }

    /// What is wrong with a step of the person's own order, in words; the worst first.
    pub fn said(&self, design: &Design, step: usize) -> Option<(Verdict, Phrase)> {
        let of_step = || {
            self.faults
                .iter()
                .filter(|fault| fault.step() == Some(step))
        };
        let fault = of_step()
            .find(|fault| fault.buries())
            .or(of_step().next())?;
        Some(told(*fault, |place| joint_name(design, place)))
    }

    /// The computed numbers with their stable names.
    pub fn results(&self) -> Vec<NamedResult> {
        let steps = self.computed.as_ref().map_or(0, Vec::len);
        [
            ("steps", "Steps of the computed order", steps as f64),
            ("hold_points", "Hold points", self.hold_points()),
        ]
        .into_iter()
        .map(|(name, label, count)| {
            NamedResult::new(
                format!("order.{name}"),
                label,
                Measure::new(Q::Count, count),
            )
        })
        .collect()
    }
}

/// Puts a design through the question of this chapter.
pub(super) fn examine(design: &Design) -> (OrderReview, Vec<Finding>) {
    let order = OrderReview::of(design);
    let findings = [
        Some(buries(design, &order)),
        so_far::follows_order(design, &order),
        follows_gas(design),
    ];
    (order, findings.into_iter().flatten().collect())
}

/// Whether all the work of a step is done at the machine. A step without work never is.
pub fn step_is_done(design: &Design, work: &[Task]) -> bool {
    !work.is_empty() && (work.iter()).all(|task| build_order::is_done(design, *task))
}

fn joint_name(design: &Design, place: usize) -> String {
    let joint = design.joints.get(place);
    joint.map_or_else(String::new, |joint| format!("{} {}", place + 1, joint.name))
}

fn step_number(step: usize) -> Slot {
    Measure::new(Q::Count, step as f64 + 1.0).into()
}

const HIDES_A_LEAK: &str = "Practically every first weld leaks somewhere, and a test finds it while it can still be mended.";

/// Is every joint tested before it is closed in?
fn buries(design: &Design, order: &OrderReview) -> Finding {
    let (verdict, compared) = answer(design, order);
    Finding {
        id: "order.buries",
        chapter: Chapter::Order,
        title: "Every joint tested before it is closed in",
        meaning: "A later part or the insulation hides a joint. A leak behind it is then found only by taking the work apart.",
        verdict,
        compared,
        why: HIDES_A_LEAK,
        margin: None,
        working: Vec::new(),
        caution: Some(
            "Welding fumes of zinc and paint are poisonous: grind them off first, outdoors. Never weld on a vessel under pressure, nor on one that held fuel.",
        ),
        levers: levers(design, order),
        about: if order.own { "build_steps" } else { "joints" },
    }
}

fn answer(design: &Design, order: &OrderReview) -> (Verdict, Phrase) {
    let named = |place: usize| joint_name(design, place);
    if design.joints.is_empty() {
        let words = "no joints are entered yet";
        return (Verdict::CannotTell, Phrase::plain(words));
    }
    if let Some(place) = order.wrong_numbers.first() {
        let words = "joint {} names a joint that is not in the list";
        return (
            Verdict::CannotTell,
            Phrase::new(words, [named(*place).into()]),
        );
    }
    // What buries a joint comes first: it cannot be mended later.
    let (buried, others): (Vec<Fault>, Vec<Fault>) = order
        .faults
        .iter()
        .copied()
        .partition(|fault: &Fault| fault.buries());
    if let Some(answer) = all_told(&[buried, others].concat(), named) {
        return answer;
    }
    match &order.computed {
        _ if order.own => {
            let words = "your own order tests every joint before it is closed in";
            (Verdict::Good, Phrase::plain(words))
        }
        Ok(_) => {
            let words =
                "the computed order tests every joint before it is closed in; hold points: {}";
            let count = Measure::new(Q::Count, order.hold_points()).into();
            (Verdict::Good, Phrase::new(words, [count]))
        }
        Err(impossible) => {
            let names: Vec<String> = (impossible.joints.iter())
                .map(|place| joint_name(design, *place))
                .collect();
            let words = "no order can do it: these joints each wait for another: {}";
            (Verdict::Stop, Phrase::new(words, [names.join(", ").into()]))
        }
    }
}

/// Words for one fault, for two, and so on; the last are for more than are told one by one.
const FAULTS: [&str; 4] = [
    "{}",
    "{}; {}",
    "{}; {}; {}",
    "{}; {}; {}; faults besides: {}",
];

/// The first faults in words, and how many more there are; as grave as the first. None without a fault.
fn all_told(faults: &[Fault], named: impl Fn(usize) -> String) -> Option<(Verdict, Phrase)> {
    let (verdict, _) = told(*faults.first()?, &named);
    let groups = together(faults);
    let in_words = |group: &&[Fault]| told_together(group, &named);
    let told = first_told(&groups, in_words, |group| group.len(), &FAULTS);
    Some((verdict, told))
}

/// So many joints that one step closes in are told in one go.
const MOST_TOGETHER: usize = 4;

/// The faults one by one, but joints that one step closes in too soon together.
fn together(faults: &[Fault]) -> Vec<&[Fault]> {
    let closes = |fault: &Fault| match *fault {
        Fault::Buried { step, made, .. } => Some((step, made)),
        _ => None,
    };
    let alike = |one: &Fault, other: &Fault| closes(one).is_some() && closes(one) == closes(other);
    (faults.chunk_by(alike))
        .flat_map(|group| group.chunks(MOST_TOGETHER))
        .collect()
}

/// What a group of faults means, in words.
fn told_together(group: &[Fault], named: &impl Fn(usize) -> String) -> Phrase {
    let joints = group.iter().filter_map(|fault| match fault {
        Fault::Buried { joint, .. } => Some(named(*joint)),
        _ => None,
    });
    let joints: Vec<String> = joints.collect();
    match (group.first(), joints.split_last()) {
        (Some(Fault::Buried { step, made, .. }), Some((last, others))) if !others.is_empty() => {
            let words = if *made {
                "step {} closes in joints {} and {}, which are not tested yet"
            } else {
                "step {} closes in joints {} and {}, which are not made yet"
            };
            let others = others.join(", ");
            Phrase::new(
                words,
                [step_number(*step), others.into(), last.as_str().into()],
            )
        }
        (Some(fault), _) => told(*fault, named).1,
        (None, _) => Phrase::plain(""),
    }
}

/// The first of some faults in words, and how many there are besides, each as many as it counts for. `words` are those for one, for two, and so on; the
/// last are for more than are told.
pub(super) fn first_told<T>(
    faults: &[T],
    in_words: impl Fn(&T) -> Phrase,
    count: impl Fn(&T) -> usize,
    words: &[&'static str],
) -> Phrase {
    let most = words.len().saturating_sub(1);
    let first = faults.iter().take(most).map(|fault| in_words(fault).into());
    let more: usize = faults.iter().skip(most).map(count).sum();
    let more = (more > 0).then(|| Measure::new(Q::Count, more as f64).into());
    let of_so_many = words.get(faults.len().saturating_sub(1).min(most));
    Phrase::new(of_so_many.copied().unwrap_or_default(), first.chain(more))
}

/// What a fault means, in words.
fn told(fault: Fault, named: impl Fn(usize) -> String) -> (Verdict, Phrase) {
    match fault {
        Fault::Buried { joint, step, made } => {
            let words = if made {
                "step {} closes in joint {}, which is not tested yet"
            } else {
                "step {} closes in joint {}, which is not made yet"
            };
            let slots = [step_number(step), named(joint).into()];
            (Verdict::Stop, Phrase::new(words, slots))
        }
        Fault::TooEarly { joint, step } => {
            let words = "step {} makes joint {} before the joint it waits for";
            let slots = [step_number(step), named(joint).into()];
            (Verdict::Watch, Phrase::new(words, slots))
        }
        Fault::TestedBeforeMade { step } => {
            let words = "step {} tests what is not made yet";
            (Verdict::Watch, Phrase::new(words, [step_number(step)]))
        }
        Fault::NoSuchJoint { step } => {
            let words = "step {} names no joint of the list";
            (Verdict::CannotTell, Phrase::new(words, [step_number(step)]))
        }
        Fault::NeverTested { joint } => {
            let words = "joint {} must be tight and is never tested";
            (Verdict::Watch, Phrase::new(words, [named(joint).into()]))
        }
        Fault::NeverMade { joint } => {
            let words = "joint {} is never made";
            (Verdict::Watch, Phrase::new(words, [named(joint).into()]))
        }
    }
}

fn levers(design: &Design, order: &OrderReview) -> Vec<Lever> {
    if order.own {
        return vec![Lever::input("workshop.own_order")];
    }
    let ring = order.computed.as_ref().err();
    ring.map_or(&[][..], |impossible| &impossible.joints)
        .iter()
        .filter(|place| **place < design.joints.len())
        .take(4)
        .map(|place| Lever::input(format!("joints.{place}.closed_by")))
        .collect()
}

/// Do the joints join what the gas passes one after the other? Not asked without joints that gas passes.
fn follows_gas(design: &Design) -> Option<Finding> {
    let joined: Vec<(usize, [Group; 2])> = (design.joints.iter().enumerate())
        .filter(|(_, joint)| carries_gas(joint))
        .map(|(place, joint)| (place, [joint.first, joint.second]))
        .collect();
    if joined.is_empty() || design.train.is_empty() {
        return None;
    }
    // A blower that no joint names hangs in the pipe.
    let named = |group: Group| joined.iter().any(|(_, sides)| sides.contains(&group));
    let mut way: Vec<Group> = (gas_way(design).iter().map(|one| one.group))
        .filter(|group| *group != Group::Electrics || named(Group::Electrics))
        .collect();
    way.dedup();
    let steps: Vec<[Group; 2]> = (way.windows(2))
        .filter_map(|pair| pair.try_into().ok())
        .collect();
    let same = |one: &[Group; 2], other: &[Group; 2]| {
        let [first, second] = *other;
        *one == [first, second] || *one == [second, first]
    };
    let astray: Vec<usize> = (joined.iter())
        .filter(|(_, sides)| !steps.iter().any(|step| same(step, sides)))
        .map(|(place, _)| *place)
        .collect();
    let mut open: Vec<[Group; 2]> = Vec::new();
    for step in &steps {
        let is_joined = joined.iter().any(|(_, sides)| same(step, sides));
        if !is_joined && !open.iter().any(|other| same(step, other)) {
            open.push(*step);
        }
    }
    let names: Vec<String> = (astray.iter())
        .map(|place| joint_name(design, *place))
        .collect();
    let gaps: Vec<String> = (open.iter())
        .map(|[from, to]| format!("{} to {}", from.label(), to.label().to_lowercase()))
        .collect();
    let (names, gaps): (Slot, Slot) = (names.join(", ").into(), gaps.join(", ").into());
    let (verdict, compared) = match (astray.is_empty(), open.is_empty()) {
        (true, true) => (
            Verdict::Good,
            Phrase::plain("the joints join sub-assemblies as the gas passes them"),
        ),
        (true, false) => (
            Verdict::Watch,
            Phrase::new("no joint is entered where the gas passes from {}", [gaps]),
        ),
        (false, true) => (
            Verdict::Watch,
            Phrase::new(
                "the gas train does not pass through joint {}: take it out of the list, or add the stage it belongs to",
                [names],
            ),
        ),
        (false, false) => (
            Verdict::Watch,
            Phrase::new(
                "the gas train does not pass through joint {}; no joint is entered where it passes from {}",
                [names, gaps],
            ),
        ),
    };
    Some(Finding {
        id: "order.gas_way",
        chapter: Chapter::Order,
        title: "Joints follow the gas train",
        meaning: "Sub-assemblies are joined in the order that the gas passes them, from the vessel to the engine.",
        verdict,
        compared,
        why: "What is plumbed in another order cools, cleans and dries the gas in another order than was computed, and a joint that is not in the list is never tested.",
        margin: None,
        working: Vec::new(),
        caution: None,
        levers: gas_way_levers(design, &astray, &open),
        about: "joints",
    })
}

/// What one change mends: the side of the only joint that gas does not pass, where a joint is missing, or that joint.
fn gas_way_levers(design: &Design, astray: &[usize], open: &[[Group; 2]]) -> Vec<Lever> {
    let choice = |group: Group| Value::Choice(group.name().to_string());
    match (astray, open) {
        ([place], [_]) => ["first", "second"]
            .map(|side| Lever::input(format!("joints.{place}.{side}")))
            .to_vec(),
        ([], [[from, to]]) => vec![Lever::NewItem {
            list: "joints",
            index: design.joints.len(),
            fields: vec![("first", choice(*from)), ("second", choice(*to))],
            solve_for: "length",
        }],
        _ => Vec::new(),
    }
}
