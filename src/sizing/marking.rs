//! Where do the holes go on the vessel that was bought, and what would the plan have cut wrong?
//!
//! Vessels that should be equal differ by 75 to 100 mm between a seam and the base (common practice,
//! no source). So each hole keeps its distance from what it belongs to, and is then measured from
//! the place that a tape reaches. Clearances are taken on the unrolled shell, edge to edge, round
//! the wrap. Source: plane geometry.

mod clearance;
mod vessel;
mod wall;

pub use clearance::{Clearances, Neighbour};
pub use vessel::Vessel;
use vessel::above_bottom;
use wall::Walls;
pub(crate) use wall::nearest_metal;
pub use wall::{AS_WIDE, OtherWall, along_the_shell, nearest_steel};

use super::branch::{Branch, BranchError};
use crate::design::Design;
use crate::design::inputs::{Datum, Hole, HoleUse, StaysWith};
use crate::design::quantity::exceeds;
use clearance::{Outline, Shape};
use std::borrow::Cow;
use std::f64::consts::PI;
use std::iter;
use thiserror::Error;
use uom::si::angle::radian;
use uom::si::f64::{Angle, Length};
use uom::si::length::meter;

/// Why a vessel cannot be marked out.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum MarkingError {
    /// A measure is not a number, or the vessel has no size.
    #[error("circumference and length of {which} must be above zero")]
    NoSize {
        /// Which vessel, in words.
        which: &'static str,
    },
    /// A seam lies outside the shell.
    #[error("the {seam} of {which} must lie between its ends")]
    SeamOutside {
        /// Which seam, in words.
        seam: &'static str,
        /// Which vessel, in words.
        which: &'static str,
    },
    /// The upper seam is not above the lower one.
    #[error("the upper seam of {which} must lie above the lower one")]
    SeamsCrossed {
        /// Which vessel, in words.
        which: &'static str,
    },
}

/// How far off its place a hole is cut when the plan's figures are measured on the real vessel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BlindCut {
    /// Too high; too low is negative.
    pub up: Length,
    /// Too far to the right, seen from outside; too far to the left is negative.
    pub along: Length,
}

impl BlindCut {
    /// Straight distance from where it belongs.
    pub fn distance(&self) -> Length {
        metres(self.up.value.hypot(self.along.value))
    }
}

/// One hole on the real vessel: a row of the hole table.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Its place in the list of holes.
    pub hole: usize,
    /// Its name; holes of a ring are numbered from 1.
    pub name: String,
    /// Diameter of the cut.
    pub diameter: Length,
    /// The cut, for its outline on the unrolled shell.
    pub cut: Branch,
    /// Middle above the bottom end.
    pub above_bottom: Length,
    /// Middle from the place that the tape reaches; below it is negative.
    pub from_tape_datum: Length,
    /// How far `from_tape_datum` may be off, either way.
    pub height_uncertainty: Length,
    /// From the front mark round to the right, 0 to 360°.
    pub angle: Angle,
    /// The same along the outside of the vessel.
    pub wrap_from_front: Length,
    /// What it is drilled in where that is not the vessel.
    pub other_wall: Option<OtherWall>,
    /// From the long seam, or the back of a vessel without one, to the right along the outside of the shell.
    pub wrap_from_long_seam: Length,
    /// How far the distances along the wrap may be off, either way.
    pub wrap_uncertainty: Length,
    /// Plain sheet to everything near.
    pub clearances: Clearances,
    /// How the plan would have cut it; none when the vessel is not yet measured.
    pub blind: Option<BlindCut>,
}

impl Mark {
    /// Its angle along the steel of the wall that it is drilled in; none where that has no steel to lay a tape round.
    pub fn round_from_front(&self) -> Option<Length> {
        match self.other_wall {
            None => Some(self.wrap_from_front),
            Some(wall) => Some(0.5 * wall.across? * self.angle.value),
        }
    }
}

/// A hole that cannot be cut in this vessel.
#[derive(Debug, Clone, PartialEq)]
pub struct Refused {
    /// Its place in the list of holes.
    pub hole: usize,
    /// Its name.
    pub name: String,
    /// Why.
    pub reason: BranchError,
}

/// The vessel with all its holes.
#[derive(Debug, Clone, PartialEq)]
pub struct Marking {
    /// The vessel that is marked out: the real one, or the plan's while none is measured.
    pub vessel: Vessel,
    /// Whether that vessel was measured.
    pub measured: bool,
    /// The place that the tape reaches.
    pub tape_datum: Datum,
    /// Long seam, from the front mark round to the right, 0 to 360°; the back of a vessel without one.
    pub long_seam: Angle,
    /// Whether there is no weld along it.
    pub seamless: bool,
    /// The hole table.
    pub marks: Vec<Mark>,
    /// Holes that cannot be cut.
    pub refused: Vec<Refused>,
}

/// What a hole comes too near to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Obstacle {
    /// The long seam.
    LongSeam,
    /// The lower round seam.
    LowerSeam,
    /// The upper round seam.
    UpperSeam,
    /// The bottom end.
    BottomEnd,
    /// The top end.
    TopEnd,
    /// Another hole, by its place in the hole table.
    Hole(usize),
}

/// Least widths of plain sheet around a hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KeepFree {
    /// To a seam.
    pub seam: Length,
    /// To an end of the shell.
    pub end: Length,
    /// To another hole.
    pub hole: Length,
}

/// What lies between a hole and something near it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// The hole, by its place in the hole table.
    pub mark: usize,
    /// What is near it.
    pub with: Obstacle,
    /// Plain sheet between them; negative where they overlap.
    pub clearance: Length,
    /// What is wanted.
    pub wanted: Length,
}

impl Gap {
    /// How much there is beyond what is wanted; negative where the two are too near.
    pub fn to_spare(&self) -> Length {
        self.clearance - self.wanted
    }
}

fn metres(value: f64) -> Length {
    Length::new::<meter>(value)
}

/// An angle as the same direction between 0 and one turn, rad; what is no number gives 0.
fn one_turn(angle: f64) -> f64 {
    let turned = angle.rem_euclid(2.0 * PI);
    if turned < 2.0 * PI { turned } else { 0.0 }
}

/// The hole table of a design.
///
/// Holes that have no place on the shell, such as one wider than the vessel, stand in
/// [`Marking::refused`] and are left out of the table.
///
/// ```
/// use hearthplan::design::example;
/// use hearthplan::sizing::marking::mark_out;
/// let marking = mark_out(&example::as_first_drawn()).unwrap();
/// let door = marking.marks.iter().find(|mark| mark.name == "Ash door").unwrap();
/// // The lower seam of the vessel bought sits 90 mm higher, so the plan cuts 90 mm too high.
/// assert!((door.blind.unwrap().up.value - 0.090).abs() < 1e-9);
/// assert!((door.from_tape_datum.value - (0.110 - 0.725)).abs() < 1e-9);
/// ```
///
/// # Errors
/// [`MarkingError`]: a vessel without size, or with seams that lie outside it.
pub fn mark_out(design: &Design) -> Result<Marking, MarkingError> {
    let plan = Vessel::planned(&design.plan_vessel);
    plan.check("the plan's vessel")?;
    let bought = &design.real_vessel;
    let vessel = Vessel::marked_out(design);
    vessel.check("your vessel")?;
    let walls = Walls::of(design, &plan, &vessel);
    let long_seam = if bought.seamless {
        PI
    } else {
        one_turn(bought.long_seam.value)
    };
    let tape_datum = vessel.own(bought.tape_datum);
    let mut marks = Vec::new();
    let mut shapes = Vec::new();
    let mut refused = Vec::new();
    let corners = clearance::corner_places();
    for (place, hole) in design.holes.iter().enumerate() {
        let (cut, covered) = match cuts(hole, &vessel) {
            Ok(cuts) => cuts,
            Err(reason) => {
                refused.push(Refused {
                    hole: place,
                    name: hole.name.clone(),
                    reason,
                });
                continue;
            }
        };
        let setting = Setting {
            design,
            plan: &plan,
            vessel: &vessel,
            walls: &walls,
            long_seam,
            tape_datum,
        };
        let members = hole.count.max(1);
        marks.extend((0..members).map(|member| setting.mark(place, hole, cut, member)));
        shapes.push((Shape::of(&covered, &corners), members as usize));
    }
    // All holes of a ring have the same outline.
    let shapes = (shapes.iter()).flat_map(|(shape, members)| iter::repeat_n(shape, *members));
    let outlines: Vec<Outline> = shapes
        .zip(&marks)
        .map(|(shape, mark)| Outline {
            shape,
            along: mark.wrap_from_front.value,
            up: mark.above_bottom.value,
        })
        .collect();
    let seam = (!bought.seamless).then(|| long_seam * vessel.radius().value);
    for (mark, clearances) in (marks.iter_mut()).zip(clearance::around(&outlines, &vessel, seam)) {
        mark.clearances = clearances;
    }
    Ok(Marking {
        vessel,
        measured: bought.measured,
        tape_datum,
        long_seam: Angle::new::<radian>(long_seam),
        seamless: bought.seamless,
        marks,
        refused,
    })
}

/// The cut of a hole, and the outline of what covers the shell: the wider of cut and pipe.
fn cuts(hole: &Hole, vessel: &Vessel) -> Result<(Branch, Branch), BranchError> {
    let shell = vessel.radius();
    let of = |diameter: Length| {
        if hole.carries == HoleUse::Open {
            Branch::straight(shell, 0.5 * diameter)
        } else {
            Branch::new(shell, 0.5 * diameter, hole.lean, hole.offset)
        }
    };
    let cut = of(hole.diameter)?;
    let pipe = pipe_outside(hole);
    let covered = if hole.carries != HoleUse::Open && pipe > hole.diameter {
        of(pipe)?
    } else {
        cut
    };
    Ok((cut, covered))
}

/// Outside diameter of the pipe in a hole: as entered, or that of the hole.
pub fn pipe_outside(hole: &Hole) -> Length {
    hole.pipe.unwrap_or(hole.diameter)
}

/// Middle of a hole above the bottom end of the vessel that is marked out.
pub fn height_above_bottom(design: &Design, hole: &Hole) -> Length {
    let vessels = [
        &Vessel::planned(&design.plan_vessel),
        &Vessel::marked_out(design),
    ];
    metres(above_bottom(hole, design.plan_vessel.datum, vessels))
}

/// What all holes of a design share.
struct Setting<'a> {
    design: &'a Design,
    plan: &'a Vessel,
    vessel: &'a Vessel,
    walls: &'a Walls,
    long_seam: f64,
    tape_datum: Datum,
}

impl Setting<'_> {
    /// The row of one hole of a ring, still without its clearances.
    fn mark(&self, place: usize, hole: &Hole, cut: Branch, member: u32) -> Mark {
        let (plan, vessel) = (self.plan, self.vessel);
        let bought = &self.design.real_vessel;
        let plan_datum = self.design.plan_vessel.datum;
        let as_measured = vessel.height_of(plan_datum) + hole.height.value;
        let above_bottom = above_bottom(hole, plan_datum, [plan, vessel]);
        let held_by = match hole.stays_with {
            StaysWith::BottomEnd => Datum::BottomEnd,
            StaysWith::TopEnd => Datum::TopEnd,
            StaysWith::PlanDatum => plan_datum,
        };
        let of_ring = f64::from(member) / f64::from(hole.count.max(1));
        let angle = one_turn(hole.angle.value + 2.0 * PI * of_ring);
        let share = angle / (2.0 * PI);
        let tape = bought.tape_reading.value;
        let readings = f64::from(1 + further_readings(vessel.own(held_by), self.tape_datum));
        let radius = vessel.radius().value;
        Mark {
            hole: place,
            name: if hole.count > 1 {
                format!("{} {}", hole.name, member + 1)
            } else {
                hole.name.clone()
            },
            diameter: hole.diameter,
            cut,
            above_bottom: metres(above_bottom),
            from_tape_datum: metres(above_bottom - vessel.height_of(self.tape_datum)),
            height_uncertainty: metres(tape * readings.sqrt()),
            angle: Angle::new::<radian>(angle),
            wrap_from_front: metres(angle * radius),
            other_wall: self.walls.other_at(above_bottom),
            wrap_from_long_seam: metres(one_turn(angle - self.long_seam) * radius),
            wrap_uncertainty: metres(tape * (1.0 + share * share).sqrt()),
            clearances: Clearances::default(),
            blind: bought.measured.then(|| BlindCut {
                up: metres(as_measured - above_bottom),
                along: metres(share * (plan.girth.value - vessel.girth.value)),
            }),
        }
    }
}

/// Readings on the vessel that go into a height, besides marking it: one for each of the two places
/// that is not the bottom end, none where both are the same.
fn further_readings(held_by: Datum, tape: Datum) -> u8 {
    if held_by == tape {
        0
    } else {
        u8::from(held_by != Datum::BottomEnd) + u8::from(tape != Datum::BottomEnd)
    }
}

impl Marking {
    /// Height of the place that the tape reaches above the bottom end.
    pub fn tape_height(&self) -> Length {
        metres(self.vessel.height_of(self.tape_datum))
    }

    /// Holes that the plan would have cut further from their place than `tolerance`, by their place
    /// in the hole table. Empty while the vessel is not measured.
    pub fn cut_wrong(&self, tolerance: Length) -> Vec<usize> {
        let off = |blind: BlindCut| exceeds(blind.distance().value, tolerance.value);
        let wrong = |mark: &Mark| mark.blind.is_some_and(off);
        (self.marks.iter().enumerate())
            .filter(|(_, mark)| wrong(mark))
            .map(|(place, _)| place)
            .collect()
    }

    /// Every hole with what is near it, what has least to spare first. Two holes are told once.
    pub fn gaps(&self, keep_free: &KeepFree) -> Vec<Gap> {
        let mut gaps: Vec<Gap> = (self.marks.iter().enumerate())
            .flat_map(|(place, mark)| self.gaps_of(place, mark, keep_free))
            .filter(|gap| gap.to_spare().value.is_finite())
            .collect();
        gaps.sort_by(|a, b| a.to_spare().value.total_cmp(&b.to_spare().value));
        gaps
    }

    fn gaps_of(
        &self,
        place: usize,
        mark: &Mark,
        keep_free: &KeepFree,
    ) -> impl Iterator<Item = Gap> {
        let near = &mark.clearances;
        let fixed = [
            (Obstacle::LongSeam, near.long_seam, keep_free.seam),
            (Obstacle::LowerSeam, near.lower_seam, keep_free.seam),
            (Obstacle::UpperSeam, near.upper_seam, keep_free.seam),
            (Obstacle::BottomEnd, near.bottom_end, keep_free.end),
            (Obstacle::TopEnd, near.top_end, keep_free.end),
        ];
        let told = move |other: usize| {
            let other = self.marks.get(other);
            other.is_some_and(|other| {
                (other.clearances.holes.iter()).any(|neighbour| neighbour.mark == place)
            })
        };
        let holes = (near.holes.iter())
            .filter(move |other| other.mark > place || !told(other.mark))
            .map(|other| (Obstacle::Hole(other.mark), other.clearance, keep_free.hole));
        let near = fixed.into_iter().chain(holes);
        near.map(move |(with, clearance, wanted)| Gap {
            mark: place,
            with,
            clearance,
            wanted,
        })
    }

    /// The end of the shell that the middle of a mark, by its place in the hole table, lies beyond, and how far; none where
    /// it lies on the shell, or is drilled in something else.
    pub fn beyond(&self, place: usize) -> Option<(Obstacle, Length)> {
        let mark = (self.marks.get(place)).filter(|mark| mark.other_wall.is_none())?;
        let above = mark.above_bottom - self.vessel.length;
        if mark.above_bottom.value < 0.0 {
            Some((Obstacle::BottomEnd, -mark.above_bottom))
        } else if above.value > 0.0 {
            Some((Obstacle::TopEnd, above))
        } else {
            None
        }
    }

    /// The name of what is near a hole.
    pub fn name_of(&self, obstacle: Obstacle) -> Cow<'_, str> {
        Cow::Borrowed(match obstacle {
            Obstacle::LongSeam => "the long seam",
            Obstacle::LowerSeam => "the lower round seam",
            Obstacle::UpperSeam => "the upper round seam",
            Obstacle::BottomEnd => "the bottom end",
            Obstacle::TopEnd => "the top end",
            Obstacle::Hole(place) => return self.told(place),
        })
    }

    /// What a mark is called; with its hole's place in the list where another hole is called the same.
    pub fn told(&self, place: usize) -> Cow<'_, str> {
        let Some(mark) = self.marks.get(place) else {
            return Cow::Borrowed("a hole");
        };
        let name = mark.name.as_str();
        let alone = (self.marks.iter()).all(|other| other.hole == mark.hole || other.name != name);
        match alone {
            true => Cow::Borrowed(name),
            false => Cow::Owned(format!("{name} (hole {})", mark.hole + 1)),
        }
    }
}
