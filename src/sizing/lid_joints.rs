//! What closes the vessel's top besides the layers of its lid? The neck that carries the hopper, the strip around the rim, and
//! the flanges of lids that are bolted on.
//!
//! Gas is held by one plate of the lid, the first of metal from inside. What lies above it is cladding: wool under thin sheet
//! carries no hopper, and gas from the wood finds its way through wool. A lid that is bolted on is wider than what it closes:
//! gasket and bolts lie around that.
//!
//! Each is told twice: as the machine is in the end, which is weighed, and as far as it is still to be made.

use super::fasteners::nut_height;
use super::joint_length::{Seat, rounds};
use super::machine::VesselShape;
use super::names::words;
use super::parts_list::group_of;
use crate::design::Design;
use crate::design::inputs::{
    Group, Joint, JointKind, JointState, Part, Presence, Shape, StageKind,
};
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
    let place = tight_plate(design)?;
    let plate = design.lid_layers.get(place)?;
    let above: Length = (design.lid_layers.iter().skip(place + 1))
        .map(|layer| layer.thickness)
        .sum();
    (above > Length::default()).then_some([plate.thickness, above])
}

/// The neck of the lid: a ring of sheet as wide inside as the foot of the hopper, from the plate that holds the gas up to the
/// top of the lid. It carries the hopper, and keeps the gas of the wood out of the wool. None without a hopper, where the
/// hopper stands on that plate, and where the lid is there already.
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
    neck(design).filter(|_| !design.real_vessel.lined)
}

/// The neck of the lid, whether it is still to be made or there.
pub(super) fn neck(design: &Design) -> Option<Band> {
    let [thickness, tall] = above_plate(design).filter(|_| design.hopper.fitted)?;
    Some(Band {
        across: 2.0 * VesselShape::of(design).lid_bore_radius,
        thickness,
        tall,
    })
}

/// The strip around the outer rim of what lies on the plate of the lid that holds the gas; none where the lid is there already.
pub fn lid_rim(design: &Design) -> Option<Band> {
    rim(design).filter(|_| !design.real_vessel.lined)
}

/// The strip around the rim of the lid, whether it is still to be made or there.
pub(super) fn rim(design: &Design) -> Option<Band> {
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
    let mut filters = (design.train.iter()).filter(|stage| stage.kind == StageKind::Filter);
    let stage = filters.next().filter(|_| closes_drum(joint))?;
    let size = super::train_mass::drum_size(stage)?;
    filters.next().is_none().then_some([size[0], stage.wall])
}

fn is_bolted(joint: &Joint) -> bool {
    joint.kind == JointKind::Bolted && joint.bolts > 0
}

/// Whether a joint closes the drum of a filter with a lid, by its name.
fn closes_drum(joint: &Joint) -> bool {
    joint.airtight
        && [joint.first, joint.second] == [group_of(StageKind::Filter); 2]
        && has_word(&joint.name, &["lid"])
}

/// Whether one of these words stands in a name.
pub(super) fn has_word(name: &str, wanted: &[&str]) -> bool {
    words(name).any(|word| (wanted.iter()).any(|one| word.eq_ignore_ascii_case(one)))
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
    let there = design.real_vessel.lined;
    let vessel = of_vessel(design, lid_neck(design))
        .filter(move |flange| !there || flange.around != Around::Shell);
    let mut found: Vec<RoundFlange> = vessel.chain(of_drum(design)).collect();
    found.sort_by_key(|flange| flange.place);
    found.into_iter().filter(|flange| {
        (design.joints.get(flange.place)).is_some_and(|joint| joint.state == JointState::Open)
    })
}

/// The flange of the filter's drum, by the stage of the gas train, whether it is made or not.
pub(super) fn of_drum(design: &Design) -> impl Iterator<Item = RoundFlange> {
    let drum = (design.joints.iter().enumerate()).filter_map(|one| {
        let [inside, sheet] = drum_under(design, one.1)?;
        let drum = inside + 2.0 * sheet;
        is_bolted(one.1).then(|| RoundFlange::of(one, Around::Drum, [drum; 2], Some(sheet)))
    });
    unless_entered(design, drum)
}

/// The flanges that are not entered by the person.
fn unless_entered(
    design: &Design,
    flanges: impl Iterator<Item = RoundFlange>,
) -> impl Iterator<Item = RoundFlange> {
    flanges.filter(|found| {
        let same = |bore: Length| (bore - found.bore).abs() < Length::new::<meter>(SAME_BORE);
        !(design.flanges.iter()).any(|flange| flange.bolts == found.bolts && same(flange.bore))
    })
}

/// The flanges around vessel and hopper, whether they are made or not, with this neck between both.
pub(super) fn of_vessel(design: &Design, neck: Option<Band>) -> impl Iterator<Item = RoundFlange> {
    let vessel = VesselShape::of(design);
    let plate = tight_plate(design)
        .and_then(|place| design.lid_layers.get(place))
        .map(|layer| layer.thickness);
    let found = rounds(design).filter_map(move |round| {
        let joint = (design.joints.get(round.place)).filter(|joint| is_bolted(joint))?;
        let one = (round.place, joint);
        match round.seat {
            Seat::Lid => {
                // Wool alone cannot be bolted on.
                let plate = Some(plate?);
                let shell = 2.0 * vessel.body_outer_radius;
                Some(RoundFlange::of(one, Around::Shell, [shell; 2], plate))
            }
            Seat::HopperFoot => {
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
            Seat::Bottom => None,
        }
    });
    unless_entered(design, found)
}

/// The place of the filter's drum among the other parts, with the flange under its lid, whether that is made or not: the only
/// upright drum of its sub-assembly.
pub fn placed_drum(design: &Design) -> Option<(usize, RoundFlange)> {
    let mut drums = (design.parts.iter().enumerate()).filter(|(_, part)| is_drum(part));
    let (place, drum) = drums.next()?;
    if drums.next().is_some() {
        return None;
    }
    flange_around(design, drum).map(|flange| (place, flange))
}

/// Whether a part is an upright drum of the filter.
fn is_drum(part: &Part) -> bool {
    part.group == group_of(StageKind::Filter)
        && part.shape == Shape::Tube
        && part.presence == Presence::Always
}

/// The flange around a part that is the drum of the filter, by its name, whether it is made or not; none around another part.
pub fn flange_around(design: &Design, drum: &Part) -> Option<RoundFlange> {
    let is_filter = is_drum(drum) && drum.count == 1 && has_word(&drum.name, &["filter", "drum"]);
    let mut joints = (design.joints.iter().enumerate())
        .filter(|(_, joint)| is_filter && is_bolted(joint) && closes_drum(joint));
    let one = joints.next()?;
    if joints.next().is_some() {
        return None;
    }
    let (across, sheet) = (drum.diameter, drum.thickness);
    let flange = RoundFlange::of(one, Around::Drum, [across; 2], Some(sheet));
    let mut free = unless_entered(design, std::iter::once(flange));
    free.next()
}

/// Whether a part is the lid of a drum with this flange: by its sub-assembly, its name and its size.
pub(super) fn is_lid_of(part: &Part, flange: &RoundFlange) -> bool {
    let off = (flange.bore - part.diameter).abs();
    part.group == Group::Filter
        && flange.around == Around::Drum
        && off < Length::new::<meter>(SAME_BORE)
        && has_word(&part.name, &["lid"])
}

/// The flange under the lid of the vessel, where that is bolted on, whether it is made or not.
pub fn lid_flange(design: &Design) -> Option<RoundFlange> {
    of_vessel(design, neck(design)).find(|flange| flange.around == Around::Shell)
}

/// The lid of the filter's drum: the flange that it is bolted to, by the stage of the gas train or else by the drum as it is
/// placed, and the thickness of its sheet.
pub fn drum_lid(design: &Design) -> Option<(RoundFlange, Length)> {
    let by_stage = of_drum(design).next().and_then(|flange| {
        let [_, sheet] = drum_under(design, design.joints.get(flange.place)?)?;
        Some((flange, sheet))
    });
    by_stage.or_else(|| {
        let (place, flange) = placed_drum(design)?;
        Some((flange, design.parts.get(place)?.thickness))
    })
}

/// The flange whose lid is this part: the lid of the filter's drum, by its sub-assembly and its name.
pub fn drum_flange(design: &Design, part: usize) -> Option<RoundFlange> {
    let part = (design.parts.get(part)).filter(|part| part.group == Group::Filter)?;
    round_flanges(design).find(|flange| is_lid_of(part, flange))
}
