//! Was the work at the machine done in an order that hides no untested joint, and what comes next?

use super::{HIDES_A_LEAK, OrderReview, first_told, joint_name, step_is_done};
use crate::design::inputs::Group;
use crate::design::phrase::{Measure, Phrase, Slot, lower_first};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice, Design};
use crate::review::finding::{Chapter, Finding, Verdict};
use crate::sizing::build_order::{self, HiddenBy, Task, TooSoon};

/// Not asked before any of the work is done.
pub(super) fn follows_order(design: &Design, order: &OrderReview) -> Option<Finding> {
    if !build_order::is_begun(design) {
        return None;
    }
    let too_soon = build_order::too_soon(design);
    let (verdict, compared) = match too_soon.as_slice() {
        [] => (Verdict::Good, how_far(design, &order.work(design))?),
        [first, ..] => (how_grave(*first), told(design, &too_soon)),
    };
    Some(Finding {
        id: "order.so_far",
        chapter: Chapter::Order,
        title: "Work so far follows the order",
        meaning: "What is ticked off in the build order. No joint may go out of reach before it has passed its test.",
        verdict,
        compared,
        why: HIDES_A_LEAK,
        margin: None,
        working: Vec::new(),
        caution: None,
        levers: Vec::new(),
        about: "joints",
    })
}

fn how_grave(fault: TooSoon) -> Verdict {
    match fault {
        TooSoon::Hidden { .. } => Verdict::Stop,
        TooSoon::Made { .. } => Verdict::Watch,
    }
}

fn told(design: &Design, too_soon: &[TooSoon]) -> Phrase {
    let words = ["{}", "{}; {}", "{}; {}; joints besides: {}"];
    first_told(too_soon, |fault| in_words(design, *fault), |_| 1, &words)
}

fn in_words(design: &Design, fault: TooSoon) -> Phrase {
    let named = |place: usize| -> Slot { joint_name(design, place).into() };
    match fault {
        TooSoon::Hidden { joint, by, made } => {
            let by: Slot = match by {
                HiddenBy::Joint(closing) => {
                    Phrase::new("joint {}", [joint_name(design, closing).into()]).into()
                }
                HiddenBy::Insulation(group) => {
                    let group = lower_first(group.label());
                    Phrase::new("the insulation of the {}", [group.into()]).into()
                }
            };
            let words = if made {
                "{} hides joint {}, which has not passed a test: test what is shut there as one, and open it again if it does not hold"
            } else {
                "{} hides joint {}, which is not made"
            };
            Phrase::new(words, [by, named(joint)])
        }
        TooSoon::Made { joint, waits_for } => Phrase::new(
            "joint {} is made before joint {}, which it waits for",
            [named(joint), named(waits_for)],
        ),
    }
}

/// How many steps are done, and the first that is not; none without an order to follow.
fn how_far(design: &Design, work: &[Vec<Task>]) -> Option<Phrase> {
    let count = |steps: usize| -> Slot { Measure::new(Q::Count, steps as f64).into() };
    let next = (work.iter()).find(|tasks| !step_is_done(design, tasks));
    let done = work
        .iter()
        .filter(|tasks| step_is_done(design, tasks))
        .count();
    match next.map(Vec::as_slice) {
        _ if work.is_empty() => None,
        None => Some(Phrase::new("all {} steps are done", [count(done)])),
        Some([]) => Some(Phrase::new(
            "{} of {} steps are done",
            [count(done), count(work.len())],
        )),
        Some([task, ..]) => Some(Phrase::new(
            "{} of {} steps are done; next: {}",
            [
                count(done),
                count(work.len()),
                task_in_words(design, *task).into(),
            ],
        )),
    }
}

fn task_in_words(design: &Design, task: Task) -> Phrase {
    let named = |place: usize| -> Slot { joint_name(design, place).into() };
    let group = |group: Group| -> Slot { lower_first(group.label()).into() };
    match task {
        Task::Make(place) => Phrase::new("make joint {}", [named(place)]),
        Task::Test(place) => Phrase::new("test joint {}", [named(place)]),
        Task::CloseIn(of) => Phrase::new("insulate or clad the {}", [group(of)]),
    }
}
