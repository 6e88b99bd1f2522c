//! What does each sub-assembly weigh, who can lift it, and which can be taken apart?

use super::machine::{Machine, Point};
use super::parts_list::group_of;
use super::weight::Moments;
use crate::design::inputs::{Group, Joint, JointKind, Presence, StageKind};
use crate::design::quantity::exceeds;
use crate::design::{Choice, Design};
use std::iter;
use uom::si::f64::Mass;

/// A sub-assembly as it is lifted: without wood and water.
#[derive(Debug, Clone, PartialEq)]
pub struct SubAssembly {
    /// Which one.
    pub group: Group,
    /// Its mass.
    pub mass: Mass,
    /// Its centre of gravity, where it stands in the machine.
    pub centre: Point,
    /// Whether it weighs more than the people at hand may lift together.
    pub needs_hoist: bool,
    /// How many people would have to lift it; none where no number of them does.
    pub people: Option<u32>,
}

/// More people than this do not find room and hold around one part: what they lift is no more than these do. Our own mark;
/// teams of more than four are advised against (HSE, Manual handling, L23, from memory).
pub const MOST_AROUND: u32 = 3;

/// What people lift together, over the sum of what each of them may lift: hands hinder each other, and no load lies on all
/// alike. Two bear two thirds, three half (HSE, Manual handling, L23, from memory).
pub fn share_together(lifters: u32) -> f64 {
    match lifters {
        0 | 1 => 1.0,
        2 => 2.0 / 3.0,
        _ => 0.5,
    }
}

/// What so many people lift together, of whom each alone may lift `per_person`.
///
/// ```
/// use hearthplan::sizing::sub_assemblies::lifted_together;
/// use uom::si::{f64::Mass, mass::kilogram};
/// let of = |people| lifted_together(people, Mass::new::<kilogram>(24.0)).get::<kilogram>();
/// assert_eq!([1, 2, 3, 10].map(of), [24.0, 32.0, 36.0, 36.0]);
/// ```
pub fn lifted_together(lifters: u32, per_person: Mass) -> Mass {
    let around = lifters.min(MOST_AROUND);
    per_person * f64::from(around) * share_together(around)
}

/// How many people it takes to lift a mass by hand; none where no number of them does.
pub fn people_for(mass: Mass, per_person: Mass) -> Option<u32> {
    (1..=MOST_AROUND)
        .find(|people| !exceeds(mass.value, lifted_together(*people, per_person).value))
}

/// Sub-assemblies that welds have made into one.
#[derive(Debug, Clone, PartialEq)]
pub struct Lump {
    /// The sub-assemblies, two or more.
    pub groups: Vec<Group>,
    /// The welds between them: places in the list of joints, counted from zero.
    pub welds: Vec<usize>,
}

/// How a machine comes apart.
#[derive(Debug, Clone, PartialEq)]
pub struct TakingApart {
    /// Joints that hold bolts, threads or clamps: places in the list, counted from zero.
    pub opens: Vec<usize>,
    /// Welded joints.
    pub welded: Vec<usize>,
    /// Joints that must come apart for service.
    pub service: Vec<usize>,
    /// Welded joints that would have to come apart for service.
    pub service_welded: Vec<usize>,
    /// Sub-assemblies that no longer come apart.
    pub lumps: Vec<Lump>,
}

/// The sub-assemblies that weigh something, in the order of [`Group::OPTIONS`]. `lifters` people lift
/// together, of whom each alone may lift `per_person`.
///
/// ```
/// use hearthplan::design::Design;
/// use hearthplan::sizing::{machine, sub_assemblies::sub_assemblies};
/// use uom::si::{f64::Mass, mass::kilogram};
/// let machine = machine::layout(&Design::default());
/// let found = sub_assemblies(&machine, 2, Mass::new::<kilogram>(25.0));
/// assert!(found.iter().all(|one| one.needs_hoist == (one.mass.value > 4.0 / 3.0 * 25.0)));
/// ```
pub fn sub_assemblies(machine: &Machine, lifters: u32, per_person: Mass) -> Vec<SubAssembly> {
    Group::OPTIONS
        .iter()
        .filter_map(|option| Group::from_name(option.name))
        .filter_map(|group| {
            let mut moments = Moments::default();
            machine
                .weighing()
                .filter(|solid| solid.group == group && solid.presence != Presence::WhenFull)
                .for_each(|solid| moments.add(solid));
            let weight = moments.weight();
            let most = lifted_together(lifters, per_person);
            (weight.mass.value > 0.0).then(|| SubAssembly {
                group,
                mass: weight.mass,
                centre: weight.centre,
                needs_hoist: exceeds(weight.mass.value, most.value),
                people: people_for(weight.mass, per_person),
            })
        })
        .collect()
}

/// Which joints open, and which sub-assemblies are one lump for ever.
///
/// ```
/// use hearthplan::design::{Design, inputs::JointKind};
/// use hearthplan::sizing::sub_assemblies::taking_apart;
/// let mut design = Design::default();
/// assert!(taking_apart(&design).lumps.is_empty());
/// design.joints.iter_mut().for_each(|joint| joint.kind = JointKind::Welded);
/// assert_eq!(taking_apart(&design).lumps.len(), 1);
/// ```
pub fn taking_apart(design: &Design) -> TakingApart {
    let places = |wanted: fn(&Joint) -> bool| {
        let joints = design.joints.iter().enumerate();
        joints
            .filter(|(_, joint)| wanted(joint))
            .map(|(place, _)| place)
            .collect::<Vec<_>>()
    };
    TakingApart {
        opens: places(|joint| joint.kind != JointKind::Welded),
        welded: places(|joint| joint.kind == JointKind::Welded),
        service: places(|joint| joint.service),
        service_welded: places(|joint| joint.service && joint.kind == JointKind::Welded),
        lumps: lumps(design),
    }
}

fn lumps(design: &Design) -> Vec<Lump> {
    let mut lumps: Vec<Lump> = Vec::new();
    for (place, joint) in design.joints.iter().enumerate() {
        if joint.kind != JointKind::Welded || joint.first == joint.second {
            continue;
        }
        let mut merged = Lump {
            groups: vec![joint.first, joint.second],
            welds: vec![place],
        };
        let touches =
            |lump: &Lump| lump.groups.contains(&joint.first) || lump.groups.contains(&joint.second);
        for lump in lumps.iter().filter(|lump| touches(lump)) {
            merged.groups.extend(&lump.groups);
            merged.welds.extend(&lump.welds);
        }
        lumps.retain(|lump| !touches(lump));
        merged.groups.sort();
        merged.groups.dedup();
        merged.welds.sort_unstable();
        lumps.push(merged);
    }
    lumps
}

/// A sub-assembly that the gas passes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OnTheWay {
    /// Which one.
    pub group: Group,
    /// Its first stage there, by its place in the gas train; none for vessel and engine.
    pub stage: Option<usize>,
}

/// The sub-assemblies in the order that the gas passes them, vessel first, engine last. A pipe belongs to what it
/// leads to, and so does a stage that was only measured.
///
/// ```
/// use hearthplan::design::{Design, inputs::Group};
/// use hearthplan::sizing::sub_assemblies::gas_way;
/// let way = gas_way(&Design::default());
/// assert_eq!(way.first().map(|one| one.group), Some(Group::Reactor));
/// assert_eq!(way.last().map(|one| one.group), Some(Group::Engine));
/// ```
pub fn gas_way(design: &Design) -> Vec<OnTheWay> {
    let at = |group, stage| OnTheWay { group, stage };
    let stages = (design.train.iter().enumerate())
        .filter(|(_, stage)| !matches!(stage.kind, StageKind::Pipe | StageKind::Measured))
        .map(|(place, stage)| at(group_of(stage.kind), Some(place)));
    let mut way: Vec<OnTheWay> = iter::once(at(Group::Reactor, None))
        .chain(stages)
        .chain([at(Group::Engine, None)])
        .collect();
    way.dedup_by_key(|one| one.group);
    way
}

/// Whether gas passes a joint from one sub-assembly to another.
pub fn carries_gas(joint: &Joint) -> bool {
    let passed = |group| !matches!(group, Group::Base | Group::Hopper);
    joint.airtight && joint.first != joint.second && passed(joint.first) && passed(joint.second)
}
