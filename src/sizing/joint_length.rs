//! How long is a joint that goes once around the vessel?
//!
//! Nobody enters where a joint lies. Between vessel and hopper it can only be at the hopper's foot; inside the vessel its
//! name tells, as that of a flange tells its pipe.

use super::machine::VesselShape;
use super::names::words;
use crate::design::Design;
use crate::design::inputs::{Group, Joint, JointKind};
use std::f64::consts::PI;
use uom::si::f64::Length;

/// Where the vessel is closed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seat {
    /// The lid on the body.
    Lid,
    /// The bottom in the hearth's shell.
    Bottom,
    /// The hopper's foot on the lid.
    HopperFoot,
}

/// A joint that goes once around, and where.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Round {
    /// Place in the list of joints, counted from zero.
    pub place: usize,
    /// Where it lies.
    pub seat: Seat,
    /// What meets there is as wide.
    pub across: Length,
    /// Width of the gasket where it lies outside of that.
    pub gasket: Length,
    /// Once around.
    pub length: Length,
}

/// Where a joint inside of the vessel lies by its name: the lid of the vessel, or what begins with the bottom. A door has a
/// lid as well.
fn by_name(name: &str) -> Option<Seat> {
    let words = words(name);
    let has = |wanted: &str| words.clone().any(|word| word.eq_ignore_ascii_case(wanted));
    let begins =
        |wanted: &str| (words.clone().next()).is_some_and(|word| word.eq_ignore_ascii_case(wanted));
    if begins("bottom") {
        Some(Seat::Bottom)
    } else if has("lid") && (has("vessel") || words.clone().count() == 1) {
        Some(Seat::Lid)
    } else {
        None
    }
}

/// Whether a joint closes the bottom of the vessel.
pub fn closes_bottom(joint: &Joint) -> bool {
    [joint.first, joint.second] == [Group::Reactor; 2] && by_name(&joint.name) == Some(Seat::Bottom)
}

fn seat(design: &Design, joint: &Joint) -> Option<Seat> {
    const INSIDE: [Group; 2] = [Group::Reactor; 2];
    let sides = [joint.first, joint.second];
    let of_hopper =
        |joint: &Joint| joint.airtight && joint.is_of(Group::Reactor) && joint.is_of(Group::Hopper);
    // Of two one may be a pipe between both.
    let alone = || design.joints.iter().filter(|one| of_hopper(one)).count() == 1;
    match joint.airtight {
        true if sides == INSIDE => by_name(&joint.name),
        true if of_hopper(joint) && design.hopper.fitted && alone() => Some(Seat::HopperFoot),
        _ => None,
    }
}

/// The tight joints of which it is known where they go around.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::sizing::joint_length::{Seat, rounds};
/// let design = example::as_improved();
/// let lid = rounds(&design).find(|round| round.seat == Seat::Lid).unwrap();
/// assert_eq!(lid.length, std::f64::consts::PI * (lid.across + lid.gasket));
/// ```
pub fn rounds(design: &Design) -> impl Iterator<Item = Round> {
    let vessel = VesselShape::of(design);
    (design.joints.iter().enumerate()).filter_map(move |(place, joint)| {
        let seat = seat(design, joint)?;
        let across = match seat {
            Seat::Lid => 2.0 * vessel.body_outer_radius,
            Seat::Bottom => 2.0 * vessel.bottom_radius,
            Seat::HopperFoot => 2.0 * vessel.body_inner_radius,
        };
        // Wood slides through the foot, so that a gasket lies around it; that of a lid lies on the flange around the shell.
        let gasket = match (seat, joint.kind) {
            (Seat::HopperFoot | Seat::Lid, JointKind::Bolted) => joint.gasket_width,
            _ => Length::default(),
        };
        Some(Round {
            place,
            seat,
            across,
            gasket,
            length: PI * (across + gasket),
        })
    })
}
