//! The other parts as large as the stages they stand for, each where it stands clear of vessel, frame and the others.

use super::{mend, whole};
use crate::design::inputs::{
    Cover, FilterMedium, Group, HotWall, Part, Shape, StageKind, TrainStage,
};
use crate::design::{Choice as _, Design};
use crate::review::{Assessment, Tally, Verdict, assess};
use crate::sizing::cooler::TubeBlock;
use crate::sizing::lid_joints::flange_around;
use crate::sizing::machine::{self, Envelope};
use crate::sizing::standing_in::stand_ins;
use crate::sizing::train_mass::{computed_mass, drum_mass, drum_size, jacket, outside_size};
use std::f64::consts::PI;
use uom::si::f64::{Length, Mass};
use uom::si::length::meter;
use uom::si::mass::kilogram;

/// Air between a part and the vessel, m: room for the sheets that shield a battery.
const FROM_VESSEL: f64 = 0.05;
/// Air between a part and the frame or another part, m.
const FROM_OTHERS: f64 = 0.01;
/// Places are tried this far apart, and this far outside the base, m.
const STEP: f64 = 0.01;
const OUTSIDE: f64 = 0.5;
/// A part that reaches out of the frame is so many times worse than one that is moved as far: it does so only where there is
/// no room inside.
const OVERHANG: f64 = 100.0;
/// What the example calls its battery and its blower.
const BATTERY: &str = "Battery";
const BLOWER: &str = "Blower with motor";
/// The highest that a run of pipe is taken to stand, m. Our own choice.
const LONGEST_RUN: f64 = 1.5;

/// A box of air that a part takes, m.
#[derive(Clone, Copy)]
struct Room {
    x: f64,
    y: f64,
    width: f64,
    depth: f64,
    bottom: f64,
    top: f64,
}

impl Room {
    fn of(part: &Part) -> Self {
        let (width, depth) = match part.shape {
            Shape::Tube | Shape::Ring | Shape::DishedEnd | Shape::Cone | Shape::BulkFill => {
                (part.diameter, part.diameter)
            }
            Shape::Plate | Shape::Box | Shape::Block | Shape::Weighed => (part.width, part.depth),
        };
        Self {
            x: part.x.value,
            y: part.y.value,
            width: width.value,
            depth: depth.value,
            bottom: part.z.value,
            top: (part.z + part.height).value,
        }
    }

    /// Whether a solid comes nearer than it may.
    fn meets(&self, other: &Envelope) -> bool {
        if other.bottom().value >= self.top || other.top().value <= self.bottom {
            return false;
        }
        let (half_width, half_depth) = (0.5 * self.width, 0.5 * self.depth);
        match other {
            Envelope::Round(round) => {
                let beside = ((self.x - round.x.value).abs() - half_width).max(0.0);
                let behind = ((self.y - round.y.value).abs() - half_depth).max(0.0);
                let radius = round.outer_bottom.max(round.outer_top).value;
                beside.hypot(behind) < radius + FROM_VESSEL
            }
            Envelope::Box(sides) => {
                let gap = FROM_OTHERS;
                self.x + half_width + gap > sides.left.value
                    && self.x - half_width - gap < sides.right.value
                    && self.y + half_depth + gap > sides.front.value
                    && self.y - half_depth - gap < sides.back.value
            }
        }
    }

    fn envelope(&self) -> Envelope {
        Envelope::of_box(
            self.x,
            self.y,
            self.bottom,
            (self.width, self.depth, self.top - self.bottom),
        )
    }
}

/// Sizes and places the example's parts for a design, with the battery on the frame.
pub(super) fn place(design: &mut Design, start: &Design) {
    let frame = design.base.clearance;
    place_with(design, start, frame);
}

/// Lifts the battery beside the body, which is cooler than the hearth, where its box gets too warm on the frame and the
/// whole review is better for it.
pub(super) fn raise_battery(design: &mut Design, start: &Design) {
    let before = assess(design);
    let warm = |found: &Assessment| {
        (found.finding("electrics.box")).is_some_and(|finding| finding.verdict != Verdict::Good)
    };
    if !warm(&before) {
        return;
    }
    let above_hearth = machine::measures(design).0.hearth_top;
    let mut raised = design.clone();
    place_with(&mut raised, start, whole(above_hearth));
    mend(&mut raised, "electrics.box", ".sheets", f64::ceil);
    if Tally::of(&assess(&raised).findings) < Tally::of(&before.findings) {
        *design = raised;
    }
}

/// Sizes and places the parts with the battery at this height, and puts its box beside the wall there.
fn place_with(design: &mut Design, start: &Design, battery_at: Length) {
    let parts = sized(design, start, battery_at);
    design.parts.clear();
    let machine = machine::layout(design);
    let mut taken: Vec<Envelope> = (machine.solids.iter())
        .map(|solid| solid.envelope)
        .collect();
    let wide = (design.base.width / start.base.width).value;
    let deep = (design.base.depth / start.base.depth).value;
    let mut holder: Option<(&Part, Room)> = None;
    for (mut part, first) in parts {
        // What fills a drum goes where that goes.
        let inside = holder
            .filter(|(of, room)| of.x == first.x && of.y == first.y && room.top > part.z.value);
        let room = inside.map_or_else(
            || {
                let own = Room::of(&part);
                let flange =
                    flange_around(design, &part).map_or(0.0, |flange| flange.outside.value);
                let wished = Room {
                    x: first.x.value * wide,
                    y: first.y.value * deep,
                    width: own.width.max(flange),
                    depth: own.depth.max(flange),
                    ..own
                };
                let room = nearest(design, &taken, wished);
                taken.push(room.envelope());
                holder = (part.shape == Shape::Tube).then_some((first, room));
                room
            },
            |(_, room)| room,
        );
        part.x = whole(Length::new::<meter>(room.x));
        part.y = whole(Length::new::<meter>(room.y));
        design.parts.push(part);
    }
    if let Some(battery) = design.parts.iter().find(|part| part.name == BATTERY) {
        let middle = battery.z + 0.5 * battery.height;
        design.battery_box.beside = if middle < machine.vessel.hearth_top {
            HotWall::Hearth
        } else {
            HotWall::Body
        };
    }
}

/// The place nearest to what was wished that is clear of all others; as wished where there is none.
fn nearest(design: &Design, taken: &[Envelope], wished: Room) -> Room {
    let beside: Vec<&Envelope> = (taken.iter())
        .filter(|other| other.bottom().value < wished.top && other.top().value > wished.bottom)
        .collect();
    let base = &design.base;
    let half = [base.width, base.depth].map(|between| 0.5 * (between + base.frame_side).value);
    let steps = half.map(|half| ((half + OUTSIDE) / STEP).floor() as i32);
    let [across, along] = steps;
    let mut best: Option<(f64, Room)> = None;
    for x in -across..=across {
        for y in -along..=along {
            let room = Room {
                x: f64::from(x) * STEP,
                y: f64::from(y) * STEP,
                ..wished
            };
            let [half_width, half_depth] = half;
            let overhang = (room.x.abs() + 0.5 * room.width - half_width).max(0.0)
                + (room.y.abs() + 0.5 * room.depth - half_depth).max(0.0);
            let cost = (room.x - wished.x).hypot(room.y - wished.y) + OVERHANG * overhang;
            let better = best.is_none_or(|(least, _)| cost < least);
            if better && !beside.iter().any(|other| room.meets(other)) {
                best = Some((cost, room));
            }
        }
    }
    best.map_or(wished, |(_, room)| room)
}

/// The example's parts, as large and heavy as the stages of a design that they stand for, each with the part of the
/// example that it comes from.
fn sized<'a>(design: &Design, start: &'a Design, battery_at: Length) -> Vec<(Part, &'a Part)> {
    let of_kind = |kind: StageKind| design.train.iter().filter(move |stage| stage.kind == kind);
    let mut filters = of_kind(StageKind::Filter);
    let mut traps = of_kind(StageKind::Trap);
    let mut sized = Vec::new();
    // The drum before, of which what fills it follows.
    let mut drum: Option<Drum> = None;
    let stands_for: Vec<Option<usize>> = stand_ins(start);
    let on_the_way = |place: usize| {
        (start.train.iter().zip(&stands_for))
            .any(|(stage, part)| is_on_the_way(stage.kind) && *part == Some(place))
    };
    for (place, first) in start.parts.iter().enumerate() {
        if on_the_way(place) {
            continue;
        }
        let mut part = first.clone();
        if first.shape == Shape::Tube {
            let stage = match first.group {
                Group::Filter => filters.next(),
                Group::Condensate => traps.next(),
                _ => None,
            };
            drum = stage.and_then(|stage| Drum::of(stage, first));
        }
        let inside = drum.as_ref().filter(|drum| drum.first.group == first.group);
        match (first.group, first.shape, inside) {
            (Group::Filter | Group::Condensate, Shape::Tube, Some(drum)) => {
                sized.push((drum.shell(), first));
                sized.extend(drum.ends().map(|end| (end, first)));
                continue;
            }
            // Each drum brings its own ends.
            (Group::Filter | Group::Condensate, Shape::Ring, _) => continue,
            (Group::Filter, Shape::Weighed, Some(drum)) => drum.pack(design, &mut part),
            (Group::Condensate, Shape::BulkFill, Some(drum)) => drum.fill(&mut part),
            (Group::Cooler, _, _) => {
                if let Some(cooler) = of_kind(StageKind::Cooler).next_back() {
                    bundle(design, cooler, &mut part);
                }
            }
            _ => {}
        }
        if part.name == BLOWER
            && let Some(blower) = of_kind(StageKind::Blower).next()
        {
            part.mass = blower.own_weight;
        }
        if part.name == BATTERY {
            part.z = battery_at;
        }
        sized.push((part, first));
    }
    let most_parts = Design::list_info("parts").map_or(0, |info| info.longest);
    // As many as the train has, each where the example has one of its kind.
    for kind in [StageKind::Cyclone, StageKind::Pipe] {
        let mut firsts = (start.train.iter().zip(&stands_for))
            .filter(|(stage, _)| stage.kind == kind)
            .filter_map(|(_, place)| start.parts.get((*place)?));
        let mut last = None;
        for stage in of_kind(kind) {
            last = firsts.next().or(last);
            if let Some(first) = last.filter(|_| sized.len() < most_parts) {
                sized.push((between(design, stage, first), first));
            }
        }
    }
    sized
}

/// Whether the gas only passes a stage of this kind on its way between the others.
fn is_on_the_way(kind: StageKind) -> bool {
    matches!(kind, StageKind::Pipe | StageKind::Cyclone)
}

/// A stage that the gas passes on its way, as one weight: a cyclone upright, of a pipe one of the runs between its bends.
fn between(design: &Design, stage: &TrainStage, first: &Part) -> Part {
    let wool = match stage.cover {
        Cover::Bare => Length::default(),
        Cover::Insulated => stage.insulation,
    };
    let runs = f64::from(stage.elbows) + f64::from(stage.bends) + 1.0;
    let [across, high] = outside_size(stage).map_or(
        [stage.bore + 2.0 * stage.wall, stage.length / runs],
        |size| size.map(Length::new::<meter>),
    );
    let across = whole(across + 2.0 * wool);
    Part {
        name: match stage.name.is_empty() {
            true => stage.kind.label().to_string(),
            false => stage.name.clone(),
        },
        mass: weight(design, stage),
        width: across,
        depth: across,
        height: whole(high.min(Length::new::<meter>(LONGEST_RUN)).max(stage.bore)),
        ..first.clone()
    }
}

/// What a stage weighs, by hand where it was weighed.
fn weight(design: &Design, stage: &TrainStage) -> Mass {
    let mass = stage
        .weighed
        .unwrap_or_else(|| computed_mass(design, stage));
    enterable(mass)
}

/// No heavier than a part may be entered.
fn enterable(mass: Mass) -> Mass {
    Mass::new::<kilogram>(Design::nearest_allowed("parts", "mass", mass.value))
}

/// The drum of a trap or a filter, where a drum of the example stood.
struct Drum<'a> {
    stage: &'a TrainStage,
    first: &'a Part,
    bore: Length,
    height: Length,
}

impl<'a> Drum<'a> {
    fn of(stage: &'a TrainStage, first: &'a Part) -> Option<Self> {
        let [bore, height] = drum_size(stage)?;
        Some(Self {
            stage,
            first,
            bore,
            height,
        })
    }

    fn shell(&self) -> Part {
        Part {
            diameter: self.bore + 2.0 * self.stage.wall,
            height: self.height,
            thickness: self.stage.wall,
            ..self.first.clone()
        }
    }

    /// Bottom and lid, discs of the same sheet.
    fn ends(&self) -> [Part; 2] {
        let top = self.first.z + self.height - self.stage.wall;
        [("bottom", self.first.z), ("lid", top)].map(|(end, z)| Part {
            name: format!("{}, {end}", self.first.name),
            shape: Shape::Ring,
            second_diameter: Length::default(),
            z,
            ..self.shell()
        })
    }

    /// What is in and around a filter besides its drum: the bed in the middle, with all that weighs.
    fn pack(&self, design: &Design, part: &mut Part) {
        let stage = self.stage;
        part.mass = (weight(design, stage) - drum_mass(design, stage)).max(Mass::default());
        part.width = whole(self.bore);
        part.depth = whole(self.bore);
        part.height = match stage.medium {
            FilterMedium::Packed => stage.filter_depth,
            FilterMedium::Cloth => self.height * (part.height / self.first.height),
        };
        part.z = whole(self.first.z + 0.5 * (self.height - part.height));
    }

    /// The water that the trap holds, as high as that stands in it.
    fn fill(&self, part: &mut Part) {
        part.diameter = self.bore;
        let area = 0.25 * PI * self.bore * self.bore;
        let high: Length = self.stage.capacity / (area * part.fill_share);
        part.height = high.min(self.height);
        part.z = whole(self.first.z + self.stage.wall);
    }
}

/// The tubes of a cooler as they stand.
fn bundle(design: &Design, cooler: &TrainStage, part: &mut Part) {
    let [width, depth] = TubeBlock::of(cooler).size(cooler.tubes);
    part.width = whole(Length::new::<meter>(width));
    part.depth = whole(Length::new::<meter>(depth));
    part.height = cooler.tube_length;
    // A jacket is never without its water.
    let water = jacket(cooler).map_or(Mass::default(), |jacket| jacket.water);
    part.mass = enterable(weight(design, cooler) + water);
}
