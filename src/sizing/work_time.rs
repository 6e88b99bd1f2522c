//! How long does the building take?
//!
//! Work is counted from the design: parts of metal, metres of tight weld, bolts, holes, lining, bought things and leak tests.
//! Each takes the person's own time for one of it; to the sum comes a share for mending and doing again. How fast people
//! work differs by far more than the counts are off: the lowest answer takes [`QUICK`] of the likely time (our own mark),
//! the highest twice as long, as first builds do (common practice, no source).

use super::also_needed::has_tube_plates;
use super::build_order::{Task, follows_own, is_done, is_there, own_work};
use super::buying::sheet_area;
use super::cost::FIRST_BUILD;
use super::long_seams::long_seams;
use super::machine::{Closure, Machine, Piece};
use super::parts_list::{PartLine, group_of, parts_for_stages};
use super::stock::{Stock, stock};
use super::there_already::is_there_already;
use crate::design::Design;
use crate::design::inputs::{
    CostKind, Group, HoleUse, Joint, JointKind, Material, StageKind, TrainStage,
};
use crate::design::quantity::Quantity as Q;
use std::f64::consts::PI;
use uom::si::f64::{Length, Ratio, Time};
use uom::si::ratio::ratio;

/// Share of the likely time that a quick and practised builder takes. Our own mark.
pub const QUICK: f64 = 0.7;
/// What each further one of several alike parts takes, as a share of the first. Our own mark.
const ALIKE: f64 = 0.3;
/// A joint that no bolts hold, clamped or threaded, takes as long as so many bolts. Our own mark.
const WITHOUT_BOLTS: f64 = 2.0;

/// A kind of work.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Work {
    /// Parts of metal: marking, cutting, bending, cleaning.
    Parts,
    /// Welds that must be tight.
    Welds,
    /// Bolts, with their holes.
    Bolts,
    /// Holes in the vessel.
    Holes,
    /// Insulation and lining.
    Lining,
    /// Bought things: fetching, fitting, connecting.
    Fittings,
    /// Leak tests.
    Tests,
}

impl Work {
    /// All kinds, in the order of the work.
    pub const ALL: [Work; 7] = [
        Work::Parts,
        Work::Welds,
        Work::Bolts,
        Work::Holes,
        Work::Lining,
        Work::Fittings,
        Work::Tests,
    ];

    /// What it is called.
    pub fn label(self) -> &'static str {
        match self {
            Work::Parts => "Parts of metal, of several alike the further ones as 0.3 of the first",
            Work::Welds => "Tight welds, with the long seams of what is rolled",
            Work::Bolts => "Bolts, with their holes and the gasket",
            Work::Holes => "Holes in the vessel",
            Work::Lining => "Insulation and lining, each layer",
            Work::Fittings => "Bought things, and cables",
            Work::Tests => "Leak tests",
        }
    }

    /// Name used in results.
    pub fn name(self) -> &'static str {
        match self {
            Work::Parts => "parts",
            Work::Welds => "welds",
            Work::Bolts => "bolts",
            Work::Holes => "holes",
            Work::Lining => "lining",
            Work::Fittings => "fittings",
            Work::Tests => "tests",
        }
    }

    /// What it is counted in, SI.
    pub fn quantity(self) -> Q {
        match self {
            Work::Welds => Q::Distance,
            Work::Lining => Q::Area,
            _ => Q::Number,
        }
    }

    /// What one of it takes: one part, a metre, a square metre.
    pub fn takes(self, design: &Design) -> Time {
        let pace = &design.pace;
        match self {
            Work::Parts => pace.part,
            Work::Welds => pace.weld,
            Work::Bolts => pace.bolt,
            Work::Holes => pace.hole,
            Work::Lining => pace.lining,
            Work::Fittings => pace.fitting,
            Work::Tests => pace.test,
        }
    }
}

/// How much there is of one kind of work.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WorkLine {
    /// The kind.
    pub work: Work,
    /// How much of it in all: pieces, m or m².
    pub amount: f64,
    /// How much of that is done, as far as joints tell that are ticked off.
    pub done: f64,
    /// What one of it takes.
    pub each: Time,
}

impl WorkLine {
    /// What all of it takes, without doing anything again.
    pub fn time(&self) -> Time {
        self.amount * self.each
    }
}

/// How long the building takes.
#[derive(Debug, Clone, PartialEq)]
pub struct WorkTime {
    /// One line for each kind of work there is.
    pub lines: Vec<WorkLine>,
    /// All of it, with what is done again.
    pub likely: Time,
    /// What is left of that, as far as joints tell that are ticked off.
    pub left: Time,
    /// Time a week.
    pub weekly: Time,
}

impl WorkTime {
    /// All of it, if nothing had to be done again.
    pub fn once(&self) -> Time {
        self.lines.iter().map(WorkLine::time).sum()
    }

    /// Weeks for what is left: quick, likely, and as first builds come out.
    ///
    /// ```
    /// use hearthplan::{design::Design, sizing::{machine::layout, parts_list::parts_list, work_time::work_time}};
    /// let design = Design::default();
    /// let machine = layout(&design);
    /// let time = work_time(&design, &machine, &parts_list(&design, &machine));
    /// let [quick, likely, slow] = time.weeks_left();
    /// assert!(0.0 < quick && quick < likely && likely < slow);
    /// ```
    pub fn weeks_left(&self) -> [f64; 3] {
        let likely = (self.left / self.weekly).get::<ratio>();
        [QUICK * likely, likely, FIRST_BUILD * likely]
    }
}

/// A number of weeks as exactly as it is meant: whole ones, of a few weeks halves; begun ones count.
///
/// ```
/// use hearthplan::sizing::work_time::begun_weeks;
/// assert_eq!(begun_weeks(12.4), 13.0);
/// assert_eq!(begun_weeks(2.1), 2.5);
/// ```
pub fn begun_weeks(weeks: f64) -> f64 {
    let step = if weeks < 5.0 { 0.5 } else { 1.0 };
    (weeks / step).ceil() * step
}

/// How much is there of a kind of work, and how much of it is done?
#[derive(Clone, Copy, Default)]
struct Amount {
    all: f64,
    done: f64,
}

impl Amount {
    fn add(&mut self, amount: f64, is_done: bool) {
        self.all += amount;
        self.done += if is_done { amount } else { 0.0 };
    }
}

/// How long building the design takes, from its parts list.
///
/// What is there already is no work, but a vessel that is built may lack holes. What stands for a stage of the gas train is
/// not counted beside the stage.
pub fn work_time(design: &Design, machine: &Machine, parts: &[PartLine]) -> WorkTime {
    let counting = Counting {
        design,
        machine,
        parts,
        stands_for: parts_for_stages(design, parts),
    };
    let lines: Vec<WorkLine> = Work::ALL
        .into_iter()
        .map(|work| {
            let Amount { all, done } = counting.amount(work);
            WorkLine {
                work,
                amount: all,
                done,
                each: work.takes(design),
            }
        })
        .filter(|line| line.amount > 0.0)
        .collect();
    let with_again = Ratio::new::<ratio>(1.0) + design.pace.again;
    let zero = Time::default();
    let once: Time = lines.iter().map(WorkLine::time).sum();
    let done: Time = lines.iter().map(|line| line.done * line.each).sum();
    WorkTime {
        lines,
        likely: once * with_again,
        left: (once - done).max(zero) * with_again,
        weekly: design.pace.weekly,
    }
}

/// So many alike, counted by the time of the first.
fn alike(count: u32) -> f64 {
    match count {
        0 => 0.0,
        count => 1.0 + ALIKE * (f64::from(count) - 1.0),
    }
}

/// Whether a stage of the gas train is a vessel or tubes that are cut and welded.
pub(super) fn is_made(stage: &TrainStage) -> bool {
    matches!(
        stage.kind,
        StageKind::Cyclone | StageKind::Cooler | StageKind::Filter | StageKind::Trap
    )
}

/// Tubes of a cooler that are welded in one by one; none of a single tube, and none that are bought with their fins.
fn tubes(stage: &TrainStage) -> u32 {
    match has_tube_plates(stage) {
        true => stage.tubes,
        false => 0,
    }
}

/// What the work is counted from.
struct Counting<'a> {
    design: &'a Design,
    machine: &'a Machine,
    parts: &'a [PartLine],
    /// For each other part the sub-assembly whose stages it stands for.
    stands_for: Vec<Option<Group>>,
}

impl Counting<'_> {
    fn amount(&self, work: Work) -> Amount {
        match work {
            Work::Parts => self.metal(),
            Work::Welds => self.welds(),
            Work::Bolts => self.bolts(),
            Work::Holes => self.holes(),
            Work::Lining => self.lining(),
            Work::Fittings => self.fittings(),
            Work::Tests => self.tests(),
        }
    }

    fn joints(&self) -> impl Iterator<Item = (&Joint, bool)> {
        let joints = self.design.joints.iter().enumerate();
        joints.map(|(place, joint)| (joint, is_done(self.design, Task::Make(place))))
    }

    /// Whether all joints inside a sub-assembly are made: then its parts and what is fitted to it are there too.
    fn is_built(&self, group: Group) -> bool {
        let mut inside = (self.joints())
            .filter(|(joint, _)| joint.first == group && joint.second == group)
            .map(|(_, is_made)| is_made)
            .peekable();
        inside.peek().is_some() && inside.all(|is_made| is_made)
    }

    fn stands_for_a_stage(&self, line: &PartLine) -> bool {
        match line.piece {
            Some(Piece::Part(place)) => self.stands_for.get(place).is_some_and(Option::is_some),
            _ => false,
        }
    }

    fn metal(&self) -> Amount {
        let mut amount = Amount::default();
        for line in self.parts {
            let is_metal = line.material.is_some_and(Material::is_metal);
            let there = || (line.piece).is_some_and(|piece| is_there_already(self.design, piece));
            let stage = line.stage(self.design);
            let is_cut = is_metal
                && match stage {
                    Some(stage) => is_made(stage),
                    None => {
                        line.kind == CostKind::Material
                            && !self.stands_for_a_stage(line)
                            && !there()
                    }
                };
            if is_cut {
                let count = alike(line.count) + alike(stage.map_or(0, tubes));
                amount.add(count, self.is_built(line.group));
            }
        }
        amount
    }

    /// Joints, long seams of what is rolled, pipes in the vessel, flanges on what they sit around, neck and ring around the
    /// fire tube, and both ends of each tube of a cooler.
    fn welds(&self) -> Amount {
        let mut amount = Amount::default();
        for (place, (joint, is_made)) in self.joints().enumerate() {
            if joint.kind == JointKind::Welded && !is_there(self.design, Task::Make(place)) {
                amount.add(joint.length.value, is_made);
            }
        }
        for seam in long_seams(self.design, self.machine, self.parts) {
            amount.add(seam.length.value, self.is_built(seam.group));
        }
        for hole in &self.design.holes {
            if hole.carries != HoleUse::Open {
                let across = hole.pipe.unwrap_or(hole.diameter).value;
                let around = PI * across * f64::from(hole.count);
                amount.add(around, self.is_built(Group::Reactor));
            }
        }
        for line in self.parts {
            let flange = match line.piece {
                Some(Piece::Flange(place)) => self.design.flanges.get(place),
                _ => None,
            };
            if let Some(flange) = flange {
                amount.add(PI * flange.bore.value, self.is_built(line.group));
            }
            if let Some(around) = self.around_closure(line) {
                amount.add(around.value, self.is_built(line.group));
            }
        }
        for stage in &self.design.train {
            let ends = 2.0 * PI * stage.tube_bore.value * f64::from(tubes(stage));
            amount.add(ends, self.is_built(group_of(stage.kind)));
        }
        amount
    }

    /// The weld once around what closes the vessel; none where it is there already, bedded or riveted.
    fn around_closure(&self, line: &PartLine) -> Option<Length> {
        let piece = line
            .piece
            .filter(|piece| !is_there_already(self.design, *piece))?;
        match (piece, stock(self.design, self.machine, line)?) {
            (Piece::Closure(Closure::LinerPlate | Closure::LidRim), _) => None,
            (Piece::Closure(_), Stock::Ring { bore, .. }) => Some(PI * bore),
            (Piece::Closure(_), Stock::Tube { outside, .. }) => Some(PI * outside),
            _ => None,
        }
    }

    fn bolts(&self) -> Amount {
        let mut amount = Amount::default();
        for (joint, is_made) in self.joints() {
            if joint.kind != JointKind::Welded {
                let bolts = match joint.bolts {
                    0 => WITHOUT_BOLTS,
                    bolts => f64::from(bolts),
                };
                amount.add(bolts, is_made);
            }
        }
        amount
    }

    fn holes(&self) -> Amount {
        let mut amount = Amount::default();
        for hole in &self.design.holes {
            amount.add(f64::from(hole.count), self.is_built(Group::Reactor));
        }
        amount
    }

    /// What is bought of each layer that is no metal, and of the wool around stages.
    fn lining(&self) -> Amount {
        let design = self.design;
        let mut amount = Amount::default();
        for line in self.parts {
            let is_soft = line.kind == CostKind::Material
                && line.material.is_some_and(|material| !material.is_metal());
            let is_laid = match line.piece {
                Some(piece @ Piece::Layer { .. }) => !is_there_already(design, piece),
                Some(_) => false,
                None => line.stage(design).is_some(),
            };
            if !(is_soft && is_laid) {
                continue;
            }
            if let Some(area) = sheet_area(design, self.machine, line) {
                amount.add(area.value, is_done(design, Task::CloseIn(line.group)));
            }
        }
        amount
    }

    fn fittings(&self) -> Amount {
        let mut amount = Amount::default();
        for line in self.parts {
            let is_fitted = match line.stage(self.design) {
                // The wool around a stage is a line of its own, and counts by its area.
                Some(stage) => !is_made(stage) && line.kind != CostKind::Material,
                None => {
                    line.kind == CostKind::Bought
                        && !self.stands_for_a_stage(line)
                        && !matches!(line.piece, Some(Piece::Bolts(_)))
                }
            };
            if is_fitted {
                amount.add(alike(line.count), self.is_built(line.group));
            }
        }
        let stages = self.design.train.iter();
        let blowers = stages.filter(|stage| stage.kind == StageKind::Blower);
        let cables = self.design.loads.len() + blowers.count();
        amount.add(cables as f64, self.is_built(Group::Electrics));
        amount
    }

    /// Each step of a person's own order that tests something; without one, each joint that must be tight.
    fn tests(&self) -> Amount {
        let design = self.design;
        let steps = if follows_own(design) {
            own_work(design)
        } else {
            (design.joints.iter().enumerate())
                .filter(|(_, joint)| joint.airtight)
                .map(|(place, _)| vec![Task::Test(place)])
                .collect()
        };
        let mut amount = Amount::default();
        for tasks in &steps {
            if matches!(tasks.first(), Some(Task::Test(_))) {
                amount.add(1.0, tasks.iter().all(|task| is_done(design, *task)));
            }
        }
        amount
    }
}
