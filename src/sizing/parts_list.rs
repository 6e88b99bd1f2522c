//! Which parts does the machine consist of? One line per piece, from the design, with its mass.
//!
//! The masses are those of [`machine::layout`](super::machine::layout), the same that weight and
//! tipping use. What is bought or turned without a size of its own, such as bolts, has a line without
//! a mass: weigh it and enter it under other parts if it matters. Wood, char and water are no parts.

use super::machine::{Machine, Piece, Solid, Substance};
use crate::design::inputs::{CostKind, Group, JointKind, Material, Presence, StageKind};
use crate::design::{Choice, Design};
use std::collections::HashMap;
use uom::si::f64::Mass;

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
    /// Mass of all of them; none when the design does not tell it.
    pub mass: Option<Mass>,
    /// The mass that follows from the design, when another was entered by hand.
    pub computed_mass: Option<Mass>,
    /// Whether it is made from a material or bought whole.
    pub kind: CostKind,
    /// Path of the section or list item it follows from, such as `hopper` or `parts.2`.
    pub from: String,
    /// Name under which its figures can be entered by hand; none when they are inputs already.
    pub key: Option<&'static str>,
    /// Price entered by hand.
    pub price: Option<f64>,
}

impl PartLine {
    /// Whether weight or price were entered by hand.
    pub fn changed(&self) -> bool {
        self.computed_mass.is_some() || self.price.is_some()
    }
}

/// The parts list of a machine: frame first, then from the ground upwards, other parts, gas train,
/// flanges and bolts.
///
/// The masses of the lines add up to the empty weight of the machine; lines without a mass weigh
/// nothing there either.
///
/// ```
/// use hearthplan::design::Design;
/// use hearthplan::sizing::{machine, parts_list, weight};
/// let design = Design::default();
/// let machine = machine::layout(&design);
/// let lines = parts_list::parts_list(&design, &machine);
/// let sum: f64 = lines.iter().filter_map(|line| line.mass).map(|mass| mass.value).sum();
/// assert!((sum - weight::weigh(&machine).empty.mass.value).abs() < 1e-9);
/// ```
pub fn parts_list(design: &Design, machine: &Machine) -> Vec<PartLine> {
    let mut lines = solid_lines(design, machine);
    note_changes(design, &mut lines);
    lines.extend(train_lines(design));
    lines.extend(flange_lines(design));
    lines.extend(fastener_lines(design));
    lines
}

/// One line per piece; the bars of the frame are one piece.
fn solid_lines(design: &Design, machine: &Machine) -> Vec<PartLine> {
    let mut lines: Vec<PartLine> = Vec::with_capacity(machine.solids.len());
    let mut place_of: HashMap<Piece, usize> = HashMap::new();
    let parts = machine
        .solids
        .iter()
        .filter(|solid| solid.presence != Presence::WhenFull);
    for solid in parts {
        let seen = place_of
            .get(&solid.piece)
            .and_then(|&place| lines.get_mut(place));
        match seen {
            Some(line) => line.mass = line.mass.map(|mass| mass + solid.mass),
            None => {
                place_of.insert(solid.piece, lines.len());
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
        Piece::OfSection {
            label: "Nozzles", ..
        } => design.hearth.nozzle_count,
        Piece::Layer { .. } | Piece::OfSection { .. } => 1,
    };
    PartLine {
        name: solid.piece.label(design),
        group: solid.group,
        count,
        material,
        mass: Some(solid.mass),
        computed_mass: None,
        kind: if material.is_some() {
            CostKind::Material
        } else {
            CostKind::Bought
        },
        from: solid.piece.path(),
        key: derived_key(&solid.piece.key()),
        price: None,
    }
}

fn derived_key(key: &str) -> Option<&'static str> {
    crate::design::inputs::DerivedPart::from_name(key).map(Choice::name)
}

/// Marks what was entered by hand, with the mass that the design alone would give.
fn note_changes(design: &Design, lines: &mut [PartLine]) {
    if design.part_changes.is_empty() {
        return;
    }
    let mut unchanged = design.clone();
    unchanged.part_changes.clear();
    let computed = solid_lines(&unchanged, &super::machine::layout(&unchanged));
    for change in &design.part_changes {
        let key = Some(change.piece.name());
        let Some(line) = lines.iter_mut().find(|line| line.key == key) else {
            continue;
        };
        if change.mass.is_some() {
            line.computed_mass = computed
                .iter()
                .find(|line| line.key == key)
                .and_then(|line| line.mass);
        }
        line.price = change.price.or(line.price);
    }
}

fn bought(name: String, group: Group, count: u32, from: String) -> PartLine {
    PartLine {
        name,
        group,
        count,
        material: None,
        mass: None,
        computed_mass: None,
        kind: CostKind::Bought,
        from,
        key: None,
        price: None,
    }
}

/// The stages of the gas train; their weight is entered under other parts.
fn train_lines(design: &Design) -> Vec<PartLine> {
    let line = |(index, stage): (usize, &crate::design::inputs::TrainStage)| {
        let group = match stage.kind {
            StageKind::Trap => Group::Condensate,
            StageKind::Filter | StageKind::Cyclone => Group::Filter,
            StageKind::Blower => Group::Electrics,
            StageKind::Pipe | StageKind::Cooler | StageKind::Measured => Group::Cooler,
        };
        let name = if stage.name.is_empty() {
            stage.kind.label().to_string()
        } else {
            stage.name.clone()
        };
        bought(name, group, 1, format!("train.{index}"))
    };
    design.train.iter().enumerate().map(line).collect()
}

fn flange_lines(design: &Design) -> Vec<PartLine> {
    let line = |(index, flange): (usize, &crate::design::inputs::Flange)| {
        bought(
            flange.name.clone(),
            Group::Reactor,
            1,
            format!("flanges.{index}"),
        )
    };
    design.flanges.iter().enumerate().map(line).collect()
}

/// Bolts and gaskets of each joint.
fn fastener_lines(design: &Design) -> Vec<PartLine> {
    let mut lines = Vec::new();
    for (index, joint) in design.joints.iter().enumerate() {
        let from = format!("joints.{index}");
        if joint.bolts > 0 && joint.kind != JointKind::Welded {
            let name = format!("Bolts of {}", joint.name);
            lines.push(bought(name, joint.first, joint.bolts, from.clone()));
        }
        if joint.airtight && matches!(joint.kind, JointKind::Bolted | JointKind::Clamped) {
            let name = format!("Gasket of {}", joint.name);
            lines.push(PartLine {
                kind: CostKind::Consumable,
                ..bought(name, joint.first, 1, from)
            });
        }
    }
    lines
}
