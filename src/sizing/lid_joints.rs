//! What closes the vessel's top besides the layers of its lid? The neck that carries the hopper, the strip around the rim, and
//! the flanges of lids that are bolted on.
//!
//! Gas is held by one plate of the lid, the first of metal from inside. What lies above it is cladding: wool under thin sheet
//! carries no hopper, and gas from the wood finds its way through wool. A lid that is bolted on is wider than what it closes:
//! gasket and bolts lie around that.

use super::fasteners::nut_height;
use super::joint_length::{Seat, rounds};
use super::machine::{Piece, VesselShape};
use super::names::words;
use super::parts_list::group_of;
use super::there_already::is_there_already;
use super::zone::Zone;
use crate::design::Design;
use crate::design::inputs::{Group, Joint, JointKind, JointState, StageKind};
use std::f64::consts::PI;
use uom::si::f64::Length;
use uom::si::length::{meter, millimeter};

/// A bolt hole over the thread that goes through it (medium holes of ISO 273 for M6 to M16, from memory).
const HOLE: f64 = 1.1;
/// From the middle of a bolt hole to the edge of the flange, over the hole. Common practice, no source.
const TO_EDGE: f64 = 1.5;
/// From what the flange sits around to the middle of a bolt, over the thread: room for nut and weld. Common practice, no
/// source.
const TO_BOLT: f64 = 1.5;
/// Thickness of a flange over the thread of its bolts, so that it is not bent between them. Common practice, no source.
const PLATE: f64 = 0.6;
/// What a bolt sticks out of its nut, over the thread: two turns of a coarse thread. Common practice, no source.
const STICKS_OUT: f64 = 0.3;

/// The plate of the lid that holds the gas, by its place among the layers; none where none of them is metal.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::sizing::lid_joints::tight_plate;
/// assert_eq!(tight_plate(&example::as_improved()), Some(0));
/// ```
pub fn tight_plate(design: &Design) -> Option<usize> {
    (design.lid_layers.iter()).position(|layer| layer.material.is_metal())
}

/// Whether the lid is there already, so that nothing of it is to be made.
fn is_there(design: &Design) -> bool {
    let (list, index) = (Zone::Lid.layer_list(), 0);
    is_there_already(design, Piece::Layer { list, index })
}

/// A band of sheet around the axis of the vessel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// Across, where it meets what it goes around or lets through: the bore of the neck, the outside of the lid's rim.
    pub across: Length,
    /// Thickness of its sheet.
    pub thickness: Length,
    /// Height above the plate that holds the gas.
    pub tall: Length,
}

impl Band {
    /// Once around.
    pub fn around(&self) -> Length {
        PI * self.across
    }
}

/// What lies above the plate that holds the gas: thickness of that, and of all above it; none where nothing does.
fn above_plate(design: &Design) -> Option<[Length; 2]> {
    let place = tight_plate(design).filter(|_| !is_there(design))?;
    let plate = design.lid_layers.get(place)?;
    let above: Length = (design.lid_layers.iter().skip(place + 1))
        .map(|layer| layer.thickness)
        .sum();
    (above > Length::default()).then_some([plate.thickness, above])
}

/// The neck of the lid: a ring of sheet as wide inside as the foot of the hopper, from the plate that holds the gas up to the
/// top of the lid. It carries the hopper, and keeps the gas of the wood out of the wool. None without a hopper, and where the
/// hopper stands on that plate.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::sizing::lid_joints::lid_neck;
/// let mut design = example::as_improved();
/// let neck = lid_neck(&design).unwrap();
/// assert_eq!(neck.across, design.body_wall.inside_diameter);
/// assert_eq!(neck.tall, design.lid_layers[1].thickness + design.lid_layers[2].thickness);
/// design.lid_layers.truncate(1);
/// assert_eq!(lid_neck(&design), None);
/// ```
pub fn lid_neck(design: &Design) -> Option<Band> {
    let [thickness, tall] = above_plate(design).filter(|_| design.hopper.fitted)?;
    Some(Band {
        across: 2.0 * VesselShape::of(design).lid_bore_radius,
        thickness,
        tall,
    })
}

/// The strip around the outer rim of what lies on the plate of the lid that holds the gas.
pub fn lid_rim(design: &Design) -> Option<Band> {
    let [plate, tall] = above_plate(design)?;
    let cladding = (design.lid_layers.last()).filter(|layer| layer.material.is_metal());
    Some(Band {
        across: 2.0 * VesselShape::of(design).body_outer_radius,
        thickness: cladding.map_or(plate, |layer| layer.thickness),
        tall,
    })
}

/// Where a bolted joint goes once around.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Around {
    /// Around the shell, under the lid of the vessel.
    Shell,
    /// Around the hopper's foot, on the neck of the lid.
    Neck,
    /// Around the hopper's foot, which is bolted to the plate of the lid.
    Foot,
    /// Around the drum of a filter, under its lid.
    Drum,
}

/// The flange of a bolted joint that goes once around.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoundFlange {
    /// Place of the joint in the list of joints, counted from zero.
    pub place: usize,
    /// Where it lies.
    pub around: Around,
    /// Outside diameter of what it is welded around, which is its bore.
    pub bore: Length,
    /// Diameter of the circle through the middles of the bolt holes.
    pub circle: Length,
    /// Outside diameter, of the lid as well.
    pub outside: Length,
    /// Diameter of a bolt hole.
    pub hole: Length,
    /// How many bolts.
    pub bolts: u32,
    /// Thickness of its plate.
    pub thickness: Length,
    /// What the bolts clamp: two plates and the gasket.
    pub clamps: Length,
    /// The shortest bolts that do.
    pub bolt_length: Length,
}

impl RoundFlange {
    /// How many such rings: one under a lid, two where neither side is a lid.
    pub fn count(&self) -> u32 {
        if self.around == Around::Neck { 2 } else { 1 }
    }

    /// Straight across from the middle of a bolt hole to that of the next.
    pub fn apart(&self) -> Length {
        self.circle * (PI / f64::from(self.bolts.max(1))).sin()
    }

    /// How much wider across a lid is cut than what it closes.
    pub fn wider(&self) -> Length {
        self.outside - self.bore
    }

    /// The flange around this, with the middle of its gasket half a gasket outside of `seals`; the other plate is as thick as
    /// `other`, or a flange like this one.
    fn of(
        (place, joint): (usize, &Joint),
        around: Around,
        [bore, seals]: [Length; 2],
        other: Option<Length>,
    ) -> Self {
        let bolt = joint.bolt;
        let up =
            |length: Length| Length::new::<millimeter>((length.get::<millimeter>() - 1e-6).ceil());
        let hole = HOLE * bolt;
        let beside_gasket = seals + 2.0 * joint.gasket_width + hole;
        let circle = beside_gasket.max(bore + 2.0 * TO_BOLT * bolt);
        let thickness = up(PLATE * bolt);
        let clamps = thickness + other.unwrap_or(thickness) + joint.gasket_thickness;
        Self {
            place,
            around,
            bore,
            circle,
            outside: circle + 2.0 * TO_EDGE * hole,
            hole,
            bolts: joint.bolts,
            thickness,
            clamps,
            bolt_length: up(clamps + nut_height(bolt) + STICKS_OUT * bolt),
        }
    }
}

/// The drum whose lid a joint closes, by its name, with its diameter inside and the thickness of its sheet: the only filter.
fn drum_under(design: &Design, joint: &Joint) -> Option<[Length; 2]> {
    let is_lid = words(&joint.name).any(|word| word.eq_ignore_ascii_case("lid"));
    let inside = [joint.first, joint.second] == [group_of(StageKind::Filter); 2];
    let mut filters = (design.train.iter()).filter(|stage| stage.kind == StageKind::Filter);
    let stage = filters.next().filter(|_| is_lid && inside)?;
    let size = super::train_mass::drum_size(stage)?;
    (filters.next().is_none() && joint.airtight).then_some([size[0], stage.wall])
}

/// Whether a joint is still to be made, with bolts.
fn is_bolted(joint: &Joint) -> bool {
    joint.kind == JointKind::Bolted && joint.bolts > 0 && joint.state == JointState::Open
}

/// A bore within so much of what a flange goes around is that of this one, m. Our own mark.
const SAME_BORE: f64 = 0.02;

/// The flanges of the bolted joints that go once around vessel, hopper or filter, and are neither made nor entered.
///
/// ```
/// use hearthplan::design::{Design, example};
/// use hearthplan::sizing::lid_joints::{Around, round_flanges};
/// let design = example::as_improved();
/// let lid = round_flanges(&design).find(|flange| flange.around == Around::Shell).unwrap();
/// let joint = &design.joints[lid.place];
/// // Shell, gasket, half a hole, and once and a half a hole to the edge: 20 + 5.5 + 16.5 mm on each side for M10.
/// let side = joint.gasket_width + 0.5 * lid.hole + 1.5 * lid.hole;
/// assert!((lid.outside - lid.bore - 2.0 * side).value.abs() < 1e-9);
/// assert!(lid.bolt_length <= joint.bolt_length);
/// ```
pub fn round_flanges(design: &Design) -> impl Iterator<Item = RoundFlange> {
    let vessel = VesselShape::of(design);
    let plate = tight_plate(design)
        .and_then(|place| design.lid_layers.get(place))
        .map(|layer| layer.thickness);
    let neck = lid_neck(design);
    let there = is_there(design);
    let seats: Vec<(usize, Seat)> = rounds(design)
        .map(|round| (round.place, round.seat))
        .collect();
    (design.joints.iter().enumerate())
        .filter(|(_, joint)| is_bolted(joint))
        .filter_map(move |(place, joint)| {
            let seat = seats.iter().find(|(other, _)| *other == place);
            let one = (place, joint);
            match seat.map(|(_, seat)| *seat) {
                Some(Seat::Lid) if !there => {
                    let shell = 2.0 * vessel.body_outer_radius;
                    Some(RoundFlange::of(one, Around::Shell, [shell; 2], plate))
                }
                Some(Seat::HopperFoot) => {
                    let foot = 2.0 * vessel.body_inner_radius;
                    let sheet = design.hopper.wall_thickness;
                    Some(match neck {
                        Some(neck) => {
                            let bore = foot + 2.0 * neck.thickness.max(sheet);
                            RoundFlange::of(one, Around::Neck, [bore, foot], None)
                        }
                        None => {
                            let bore = foot + 2.0 * sheet;
                            RoundFlange::of(one, Around::Foot, [bore, foot], plate)
                        }
                    })
                }
                Some(Seat::Lid | Seat::Bottom) => None,
                None => {
                    let [inside, sheet] = drum_under(design, joint)?;
                    let drum = inside + 2.0 * sheet;
                    Some(RoundFlange::of(one, Around::Drum, [drum; 2], Some(sheet)))
                }
            }
        })
        .filter(|found| {
            let same = |bore: Length| (bore - found.bore).abs() < Length::new::<meter>(SAME_BORE);
            !(design.flanges.iter()).any(|flange| flange.bolts == found.bolts && same(flange.bore))
        })
}

/// The flange under the lid of the vessel, where that is bolted on.
pub fn lid_flange(design: &Design) -> Option<RoundFlange> {
    round_flanges(design).find(|flange| flange.around == Around::Shell)
}

/// The flange whose lid is this part: the lid of the filter's drum, by its sub-assembly and its name.
pub fn drum_flange(design: &Design, part: usize) -> Option<RoundFlange> {
    let part = (design.parts.get(part)).filter(|part| part.group == Group::Filter)?;
    words(&part.name).find(|word| word.eq_ignore_ascii_case("lid"))?;
    round_flanges(design).find(|flange| {
        let off = (flange.bore - part.diameter).abs();
        flange.around == Around::Drum && off < Length::new::<meter>(SAME_BORE)
    })
}
