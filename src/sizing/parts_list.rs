//! Which parts does the machine consist of? One line per piece, from the design, with its mass.
//!
//! The masses of vessel, frame and other parts are those of [`machine::layout`](super::machine::layout),
//! the same that weight and tipping use. Rings, plates and flanges that close the vessel have their place there.
//! Flanges of pipes, bolts and gaskets are counted there too, in the middle of their sub-assembly. Stages of the
//! gas train have a mass but no place: on the scales they stand under
//! other parts that are named for them, where a person puts them, so that nothing is weighed twice. What closes an open hole is
//! weighed with the wall, which counts without its holes. Wood, char and water are no parts.

use super::also_needed::holds_instrument;
use super::footprint::contact_points;
use super::lid_joints::of_drum;
use super::machine::{
    Closure, Machine, NOZZLES, Piece, Solid, Substance, WHEELS, density, held_masses,
};
use super::standing_in::{stand_ins, stood_for};
use super::{fasteners, train_mass};
use crate::design::inputs::{
    ContactKind, CostKind, DerivedPart, Flange, Group, Hole, HoleUse, Material, Presence,
    StageKind, TrainStage,
};
use crate::design::phrase::lower_first;
use crate::design::{Choice, Design};
use std::f64::consts::PI;
use uom::si::f64::Mass;
use uom::si::mass::kilogram;

/// Where the mass of a line is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Counted {
    /// In the weight, at its own place.
    Here,
    /// In the weight, in the middle of its sub-assembly.
    InTheMiddle,
    /// Not by this line: another part stands for it, where that was placed, or the wall that it closes.
    AsOtherParts,
    /// Nowhere: nothing tells its place.
    Nowhere,
}

/// One line of the parts list.
#[derive(Debug, Clone, PartialEq)]
pub struct PartLine {
    /// What it is.
    pub name: String,
    /// Sub-assembly.
    pub group: Group,
    /// How many.
    pub count: u32,
    /// What it is made of; none for what is bought whole.
    pub material: Option<Material>,
    /// Mass of all of them.
    pub mass: Mass,
    /// Where that mass is counted.
    pub counted: Counted,
    /// The mass that follows from the design, when another was entered by hand.
    pub computed_mass: Option<Mass>,
    /// Whether it is made from a material or bought whole.
    pub kind: CostKind,
    /// The piece of the machine; none for a stage of the gas train, and for what closes a hole.
    pub piece: Option<Piece>,
    /// Path of the section or list item it follows from, such as `hopper` or `parts.2`.
    pub from: String,
    /// Name under which its figures can be entered by hand; none when they are inputs already.
    pub key: Option<&'static str>,
    /// Price entered by hand.
    pub price: Option<f64>,
    /// Of a stage of the gas train, the place of the other part that stands for it; none where no name tells.
    pub stand_in: Option<usize>,
}

impl PartLine {
    /// The stage of the gas train that it is, or the wool around it; none for another part.
    pub fn stage<'a>(&self, design: &'a Design) -> Option<&'a TrainStage> {
        let place = self.from.strip_prefix("train.")?.parse::<usize>().ok()?;
        design.train.get(place)
    }

    /// Whether weight or price were entered by hand.
    pub fn changed(&self) -> bool {
        self.computed_mass.is_some() || self.price.is_some()
    }

    /// Whether weight and tipping count it.
    pub fn weighs(&self) -> bool {
        matches!(self.counted, Counted::Here | Counted::InTheMiddle)
    }
}

/// The parts list of a machine: frame first, then from the ground upwards, other parts, doors, gas
/// train, flanges, bolts and gaskets.
///
/// The masses of the lines that weigh add up to the empty weight of the machine.
///
/// ```
/// use hearthplan::design::Design;
/// use hearthplan::sizing::{machine, parts_list, weight};
/// let design = Design::default();
/// let machine = machine::layout(&design);
/// let lines = parts_list::parts_list(&design, &machine);
/// let sum: f64 = lines.iter().filter(|line| line.weighs()).map(|line| line.mass.value).sum();
/// assert!((sum - weight::weigh(&machine).empty.mass.value).abs() < 1e-9);
/// ```
pub fn parts_list(design: &Design, machine: &Machine) -> Vec<PartLine> {
    let mut lines = solid_lines(design, machine);
    note_changes(design, machine, &mut lines);
    lines.extend(drum_lines(design, machine));
    lines.extend(door_lines(design));
    lines.extend(train_lines(design));
    lines.extend(held_lines(design, machine));
    lines
}

/// One line per piece; the bars of the frame are one piece.
fn solid_lines(design: &Design, machine: &Machine) -> Vec<PartLine> {
    let mut lines: Vec<PartLine> = Vec::with_capacity(machine.solids.len());
    let mut pieces: Vec<Piece> = Vec::with_capacity(machine.solids.len());
    let parts = machine
        .solids
        .iter()
        .filter(|solid| solid.presence != Presence::WhenFull);
    for solid in parts {
        // Solids of one piece mostly stand side by side.
        let place = pieces.iter().rposition(|piece| *piece == solid.piece);
        let seen = place.and_then(|place| lines.get_mut(place));
        match seen {
            Some(line) => line.mass += solid.mass,
            None => {
                pieces.push(solid.piece);
                lines.push(solid_line(design, solid));
            }
        }
    }
    lines
}

fn solid_line(design: &Design, solid: &Solid) -> PartLine {
    let material = match solid.substance {
        Substance::Material(material) => Some(material),
        Substance::Wood | Substance::Char | Substance::Fill | Substance::Unknown => None,
    };
    let count = match solid.piece {
        Piece::Part(index) => design.parts.get(index).map_or(1, |part| part.count),
        NOZZLES => design.hearth.nozzle_count,
        WHEELS => contact_points(design)
            .iter()
            .map(|point| u32::from(point.kind == ContactKind::Wheel))
            .sum(),
        _ => 1,
    };
    PartLine {
        name: solid.piece.label(design),
        group: solid.group,
        count,
        material,
        mass: solid.mass,
        counted: Counted::Here,
        computed_mass: None,
        kind: if material.is_some() {
            CostKind::Material
        } else {
            CostKind::Bought
        },
        piece: Some(solid.piece),
        from: solid.piece.path(),
        key: derived_key(solid.piece),
        price: None,
        stand_in: None,
    }
}

fn derived_key(piece: Piece) -> Option<&'static str> {
    let mut names = DerivedPart::OPTIONS.iter().map(|option| option.name);
    names.find(|name| piece.has_key(name))
}

/// Marks what was entered by hand, with the mass that the design alone would give.
fn note_changes(design: &Design, machine: &Machine, lines: &mut [PartLine]) {
    for change in &design.part_changes {
        let key = change.piece.name();
        let Some(line) = lines.iter_mut().find(|line| line.key == Some(key)) else {
            continue;
        };
        if change.mass.is_some() {
            line.computed_mass = machine.computed_mass(key);
        }
        line.price = change.price.or(line.price);
    }
}

/// The flange around the drum of the filter, where no drum among the other parts tells its place.
fn drum_lines(design: &Design, machine: &Machine) -> Option<PartLine> {
    let flange = of_drum(design).next()?;
    let closure = Closure::DrumFlange(flange.place);
    let piece = Piece::Closure(closure);
    let is_placed = machine.solids.iter().any(|solid| solid.piece == piece);
    if is_placed || closure.is_entered(design) {
        return None;
    }
    let material = Material::MildSteel;
    Some(PartLine {
        name: piece.label(design),
        group: Group::Filter,
        count: 1,
        material: Some(material),
        mass: fasteners::flange(
            design,
            &Flange {
                outside: flange.outside,
                bore: flange.bore,
                bolts: flange.bolts,
                bolt_hole: flange.hole,
                thickness: flange.thickness,
                material,
                ..Flange::default()
            },
        ),
        counted: Counted::Nowhere,
        computed_mass: None,
        kind: CostKind::Material,
        piece: Some(piece),
        from: piece.path(),
        key: None,
        price: None,
        stand_in: None,
    })
}

/// What closes the holes that nothing sits in, no instrument either: for each a disc of its size, as thick as the shell.
fn door_lines(design: &Design) -> Vec<PartLine> {
    let sheet = design.real_vessel.sheet;
    let line = |(index, hole): (usize, &Hole)| PartLine {
        name: [&hole.name, ", what closes it"].concat(),
        group: Group::Reactor,
        count: hole.count,
        material: Some(Material::MildSteel),
        mass: Mass::new::<kilogram>(
            0.25 * PI
                * hole.diameter.value
                * hole.diameter.value
                * sheet.value
                * f64::from(hole.count)
                * density(design, Material::MildSteel),
        ),
        counted: Counted::AsOtherParts,
        computed_mass: None,
        kind: CostKind::Material,
        piece: None,
        from: Design::item_path("holes", index),
        key: None,
        price: None,
        stand_in: None,
    };
    let open =
        |(_, hole): &(usize, &Hole)| hole.carries == HoleUse::Open && !holds_instrument(hole);
    design
        .holes
        .iter()
        .enumerate()
        .filter(open)
        .map(line)
        .collect()
}

/// The sub-assembly of a stage of the gas train.
pub fn group_of(kind: StageKind) -> Group {
    match kind {
        StageKind::Trap => Group::Condensate,
        StageKind::Filter | StageKind::Cyclone => Group::Filter,
        StageKind::Blower => Group::Electrics,
        StageKind::Pipe | StageKind::Cooler | StageKind::Measured => Group::Cooler,
    }
}

/// The stages of the gas train, and the wool around each that is insulated.
fn train_lines(design: &Design) -> Vec<PartLine> {
    let stages = design.train.iter().zip(stand_ins(design)).enumerate();
    let lines = stages.flat_map(|(index, (stage, stand_in))| {
        let group = group_of(stage.kind);
        let name = stage_name(stage);
        let computed = train_mass::computed_mass(design, stage);
        let by_hand = match stage.kind {
            StageKind::Blower | StageKind::Measured => None,
            _ => stage.weighed,
        };
        // The scales tell both together.
        let whole = by_hand.unwrap_or(computed);
        let wool = train_mass::wool_mass(design, stage);
        let of_wool = wool.min(whole);
        let line = PartLine {
            name: name.to_string(),
            group,
            count: 1,
            material: train_mass::material(stage),
            mass: whole - of_wool,
            counted: if stand_in.is_some() {
                Counted::AsOtherParts
            } else {
                Counted::Nowhere
            },
            computed_mass: by_hand.map(|_| computed - wool),
            kind: CostKind::Bought,
            piece: None,
            from: Design::item_path("train", index),
            key: None,
            price: None,
            stand_in,
        };
        let around = (wool > Mass::default()).then(|| PartLine {
            name: ["Insulation of ", &lower_first(name)].concat(),
            material: Some(train_mass::WOOL),
            mass: of_wool,
            computed_mass: None,
            kind: CostKind::Material,
            ..line.clone()
        });
        [Some(line), around].into_iter().flatten()
    });
    lines.collect()
}

/// What a stage of the gas train is called.
pub fn stage_name(stage: &TrainStage) -> &str {
    match stage.name.trim() {
        "" => stage.kind.label(),
        name => name,
    }
}

/// Flanges, and bolts and gasket of each joint.
fn held_lines(design: &Design, machine: &Machine) -> Vec<PartLine> {
    let mut lines = Vec::new();
    for (piece, group, mass) in held_masses(design) {
        let flange = match piece {
            Piece::Flange(index) => design.flanges.get(index),
            _ => None,
        };
        let joint = match piece {
            Piece::Bolts(index) => design.joints.get(index),
            _ => None,
        };
        let computed_mass = match (flange, joint) {
            (Some(flange), _) => flange.weighed.map(|_| fasteners::flange(design, flange)),
            (_, Some(joint)) => (joint.weighed).and_then(|_| fasteners::bolts(design, joint)),
            _ => None,
        };
        lines.push(PartLine {
            name: piece.label(design),
            group,
            count: joint.map_or(1, |joint| joint.bolts),
            material: (flange.map(|flange| flange.material)).or(joint.map(|_| Material::MildSteel)),
            mass,
            counted: if machine.held.iter().any(|solid| solid.piece == piece) {
                Counted::InTheMiddle
            } else {
                Counted::Nowhere
            },
            computed_mass,
            kind: match piece {
                Piece::Flange(_) => CostKind::Material,
                Piece::Bolts(_) => CostKind::Bought,
                _ => CostKind::Consumable,
            },
            piece: Some(piece),
            from: piece.path(),
            key: None,
            price: None,
            stand_in: None,
        });
    }
    lines
}

/// For each other part the sub-assembly whose stages it stands for on the scales, by the lines of a parts list.
pub fn parts_for_stages(design: &Design, lines: &[PartLine]) -> Vec<Option<Group>> {
    let stages = lines.iter().filter(|line| line.from.starts_with("train."));
    stood_for(design, stages.map(|line| (line.group, line.stand_in)))
}
