//! Work that no joint stands for: holes and what sits in them, the hearth, the hopper's lid, and what was open while the lining went in.

use super::{OrderStep, Task};
use crate::design::inputs::{ClosedBy, Group, HoleUse, JointKind};
use crate::design::{Choice as _, Design};
use crate::sizing::shell_there::has_own_seams;

/// Work that stands in no step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Besides {
    /// What is done.
    pub work: &'static str,
    /// On what.
    pub on: String,
    /// When it is done, beside the steps.
    pub when: &'static str,
}

/// What is done to seams that no joint stands for.
const SOAP_SEAMS: &str = "Brush with soap film all along, and weld again what shows bubbles: the lining hides it, and no joint of the list stands for it";
const BEFORE_TEST: &str = "before the first leak test of the vessel";
const BEFORE_LID: &str = "when the lining is in, before the vessel is closed";

/// What is to be done besides the steps of an order, in the order it is done.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::sizing::build_order::{besides, order};
/// let design = example::as_improved();
/// let more = besides(&design, &order(&design).unwrap());
/// assert!(more.iter().any(|one| one.on == "Ash door"));
/// ```
pub fn besides(design: &Design, order: &[OrderStep]) -> Vec<Besides> {
    let holes = design.holes.iter().map(|hole| Besides {
        work: match hole.carries {
            HoleUse::Open => "Cut the hole, fit what closes it with its seal",
            HoleUse::SetOn => "Cut the hole, weld its pipe on",
            HoleUse::SetIn => "Cut the holes, set the pipes through and weld them round",
        },
        on: match hole.count {
            0 | 1 => hole.name.clone(),
            count => format!("{}, {count} of them", hole.name),
        },
        when: BEFORE_TEST,
    });
    let seams = has_own_seams(design).then(|| Besides {
        work: SOAP_SEAMS,
        on: "Vessel that is there, its own seams".to_string(),
        when: "in the first leak test of the vessel, before the lining goes in",
    });
    let hearth = ["Fire tube with throat", "Grate"].map(|part| Besides {
        work: "Hang in",
        on: part.to_string(),
        when: BEFORE_LID,
    });
    let lid = design.hopper.fitted.then(|| Besides {
        work: "Fit it with a gasket all round and catches that open without tools. Gas stands in the hopper: open it only out of doors, standing to the side, face away, and let the first gas drift off",
        on: "Hopper lid".to_string(),
        when: "before the first leak test of the hopper",
    });
    let mut more: Vec<Besides> = (holes.chain(seams)).chain(hearth).chain(lid).collect();
    let closed = order.iter().filter_map(|step| match step.task {
        Task::CloseIn(group) => Some(group),
        _ => None,
    });
    for group in closed {
        more.extend(again(design, group));
    }
    more
}

/// What closes a sub-assembly and stays in reach: it was open for the lining, so it is closed and tested once more.
fn again(design: &Design, group: Group) -> impl Iterator<Item = Besides> {
    (design.joints.iter().enumerate())
        .filter(move |(_, joint)| {
            joint.airtight
                && joint.kind != JointKind::Welded
                && joint.closed_by == ClosedBy::Nothing
                && joint.first == group
                && joint.second == group
        })
        .map(move |(place, joint)| Besides {
            work: "Close again if it was opened for the lining, and test again",
            on: format!("{} {} ({})", place + 1, joint.name, group.label()),
            when: "after the insulation or cladding",
        })
}
