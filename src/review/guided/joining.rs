//! The joints of the machine that was sized, in the order of its gas train.

use super::marking::outlet_outside;
use super::whole;
use crate::design::Design;
use crate::design::inputs::{
    ClosedBy, Group, Joint, JointKind, LONGEST_JOINT_NAME, StageKind, TrainStage,
};
use crate::sizing::joint_length::{Round, rounds};
use crate::sizing::sub_assemblies::{carries_gas, gas_way};
use std::f64::consts::PI;
use uom::si::f64::Length;
use uom::si::length::millimeter;

/// The middle of a gasket lies on a circle so much wider than the bore, mm: the width of the gasket. Our own choice.
const GASKET: f64 = 20.0;

/// Joins what the gas passes, stage by stage, and leaves the other joints of the example. An order of the work by
/// other joints is dropped: the computed one follows from these.
///
/// A vessel that is there has its welds: they are no work, and tested with the vessel. Only one without a bottom, such as a
/// pipe, gets that.
pub(super) fn join(design: &mut Design, start: &Design, bought: bool) {
    let mut joints: Vec<Joint> = (start.joints.iter())
        .filter(|joint| !carries_gas(joint))
        .cloned()
        .collect();
    let drum = (design.train.iter())
        .find(|stage| stage.kind == StageKind::Filter)
        .map(|stage| PI * stage.filter_diameter);
    let girth = design.plan_vessel.girth;
    let lengths = [
        Some(girth),
        Some(girth),
        Some(PI * outlet_outside(design)),
        Some(girth),
        drum,
        None,
    ];
    for (joint, length) in joints.iter_mut().zip(lengths) {
        joint.length = length.map_or(joint.length, whole);
    }
    if bought {
        leave_welds_of_vessel(&mut joints, design.real_vessel.has_bottom);
    }
    let way = gas_way(design);
    let most = Design::list_info("joints").map_or(0, |info| info.longest);
    let mut last = 0;
    for (before, after) in way.iter().zip(way.iter().skip(1)) {
        if joints.len() >= most {
            break;
        }
        let stage = |place: Option<usize>| place.and_then(|place| design.train.get(place));
        let (from, to) = (stage(before.stage), stage(after.stage));
        let bore = from.map_or(outlet_outside(design), |stage| stage.bore);
        joints.push(Joint {
            after: last,
            ..joint(
                [before.group, after.group],
                [from.map_or("Gas outlet", name), to.map_or("Engine", name)],
                bore,
            )
        });
        last = joints.len() as u32;
    }
    design.joints = joints;
    let around: Vec<Round> = rounds(design).collect();
    for round in around {
        if let Some(joint) = design.joints.get_mut(round.place) {
            joint.length = whole(round.length);
        }
    }
    design.build_steps.clear();
}

/// What a stage is called in the name of a joint.
fn name(stage: &TrainStage) -> &str {
    match stage.kind {
        _ if !stage.name.is_empty() => &stage.name,
        StageKind::Pipe => "Pipe",
        StageKind::Cyclone => "Cyclone",
        StageKind::Cooler => "Cooler",
        StageKind::Trap => "Trap",
        StageKind::Filter => "Filter",
        StageKind::Blower => "Blower",
        StageKind::Measured => "Measured stage",
    }
}

/// A flange, or at the engine a hose with clamps.
fn joint(sides: [Group; 2], [from, to]: [&str; 2], bore: Length) -> Joint {
    let [first, second] = sides;
    let hose = second == Group::Engine;
    let (kind, bolts, face) = if hose {
        (JointKind::Clamped, 2, 0.0)
    } else {
        (JointKind::Bolted, 4, GASKET)
    };
    let name = format!("{from} to {}", to.to_lowercase());
    Joint {
        name: name.chars().take(LONGEST_JOINT_NAME).collect(),
        kind,
        first,
        second,
        length: whole(PI * (bore + Length::new::<millimeter>(face))),
        bolts,
        service: true,
        ..Joint::default()
    }
}

/// Drops the weld between hearth and body, and the one of the bottom where the vessel has its own.
fn leave_welds_of_vessel(joints: &mut Vec<Joint>, has_bottom: bool) {
    let is_round = |joint: &Joint| {
        joint.kind == JointKind::Welded
            && [joint.first, joint.second] == [Group::Reactor; 2]
            && joint.closed_by == ClosedBy::Insulation
    };
    // The first two of the example go once round the shell; no other joint of it waits for them.
    let round = |joints: &[Joint], place: usize| joints.get(place).is_some_and(is_round);
    if round(joints, 1) {
        joints.remove(1);
    }
    if has_bottom && round(joints, 0) {
        joints.remove(0);
    } else if let Some(bottom) = joints.first_mut() {
        bottom.name = "Bottom to the vessel".to_string();
    }
}
