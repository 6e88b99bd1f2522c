//! The parts list by sub-assembly.

mod cut_larger;
mod needed;

use super::buying::buying;
use super::entered;
use super::packing::packings;
use super::sizes;
use super::wool;
use super::{cautions, cell, judged, row, table};
use crate::design::inputs::{DerivedPart, Group};
use crate::design::phrase::{Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice, Design};
use crate::paper::archive::file_name;
use crate::paper::sheet::{Block, Sheet};
use crate::review::{Assessment, TableRow, WorkshopReview};
use crate::sizing::lid_joints::{RoundFlange, round_flanges};
use crate::sizing::machine::{CASTOR, Machine, WHEEL_DISC};
use crate::sizing::parts_list::{Counted, PartLine};
use crate::sizing::shell_there::bore;
use crate::sizing::stock::stock;
use crate::sizing::sub_assemblies::people_for;
use cut_larger::cut_larger;
use needed::{closing, needed};
use std::f64::consts::PI;
use uom::si::f64::Mass;

pub(super) fn sheet(design: &Design, assessment: &Assessment) -> Sheet {
    let workshop = &assessment.workshop;
    let mut sheet = Sheet::new(
        "parts",
        "Parts list",
        "What it is made of, by sub-assembly, and what each sub-assembly weighs.",
        &[
            "parts",
            "part_changes",
            "joints",
            "workshop",
            "grate",
            "holes",
            "battery_box",
        ],
    );
    let mut add = |block| sheet.blocks.push(block);
    add(sub_assemblies(design, workshop));
    add(buying(design, assessment));
    for meaning in super::buying::meaning() {
        add(Block::Text(meaning));
    }
    let wool = wool::as_sold(design, assessment);
    if !wool.is_empty() {
        add(Block::Heading(
            "Blanket and wool as they are sold".to_string(),
        ));
        add(Block::Text("Sold about an inch thick and in multiples of it (common practice, no source): ask what your shop has before you fix the thickness of a layer.".into()));
        add(Block::Points(wool));
    }
    if let Some(caution) = wool::caution(design) {
        add(caution);
    }
    for block in cautions(assessment, &["workshop.lift", "workshop.one_lump"]) {
        add(block);
    }
    for option in Group::OPTIONS {
        let lines: Vec<&PartLine> = (workshop.parts.iter())
            .filter(|line| line.group.name() == option.name)
            .collect();
        if !lines.is_empty() {
            add(table(
                &format!("parts-{}", file_name(option.label)),
                &format!("Parts: {}", option.label),
                &[
                    "Part",
                    "How many",
                    "Material",
                    "Size",
                    "Mass",
                    "In the weight",
                    "From",
                    "By hand",
                ],
                (lines.iter())
                    .map(|line| part(design, &assessment.standing.machine, line))
                    .collect(),
                "",
            ));
        }
    }
    add(closing(design));
    add(needed(design));
    add(Block::Points(
        [sizes::MEANING]
            .into_iter()
            .chain(COUNTED)
            .map(Slot::from)
            .chain(wheels(workshop))
            .chain(sides_of_bottom(design, &assessment.standing.machine))
            .chain(discs_in_bore(design, &assessment.standing.machine))
            .chain(in_a_dish(design))
            .chain(packings(design))
            .collect(),
    ));
    add(table(
        "hearth",
        "The hearth, as entered",
        &["Measure", "Value"],
        entered::section(design, "hearth")
            .into_iter()
            .chain(entered::named_section(design, "hearth_wall"))
            .chain(entered::named_section(design, "body_wall"))
            .collect(),
        "",
    ));
    add(train(workshop));
    add(joints(design));
    sheet
}

/// What the column of that name means.
const COUNTED: [&str; 5] = [
    "In the weight: where weight, centre of gravity and tipping take a line from. “At its place” is where the design puts it; “with its sub-assembly” is in the middle of that, as for bolts, gaskets and flanges that are entered.",
    "The stages of the gas train have a weight but no place. Other parts that are named for them stand for them on the scales, so that nothing is counted twice. “As” names the part whose name tells of the stage: buy it once; where that part is only weighed, what its stage is cut from is to be bought. “No other part is named for it”: the stage is to be bought, and its weight is missing. Enter it under other parts, by its name and with its place.",
    "“Missing”: nothing tells its place, so it is not in the weight. Enter it under other parts, with its place.",
    "Grate and doors: the grate is the drilled plate of the marking out, as thick as the hearth's steel. What closes an open hole is a disc of its size in the sheet of the shell; the wall, counted without its holes, stands for it. A cover that lies on the outside is cut larger all round by the width of its seal. Hinges, frames and clamps are not known.",
    "Flanges: of the bolted joints only those stand in the list that are entered to be drilled. A joint takes two, or one where a lid is bolted on. Those around vessel, hopper and filter are in the list too, each at its place; how they are made stands under “Rings, plates and flanges that close it”. An other part whose name tells of one of them, such as “Flange of the lid” or “Neck of the hopper”, stands for it, so that nothing is counted twice. Nothing tells the size of the other flanges: buy or cut them as well, and enter them under other parts.",
];

/// What closes the sides of the bottom's insulation, where no vessel goes down around it.
fn sides_of_bottom(design: &Design, machine: &Machine) -> Option<Slot> {
    let vessel = &machine.vessel;
    let is_open = bore(design).is_none()
        && !design.real_vessel.lined
        && (design.bottom_layers.iter())
            .any(|layer| !layer.material.is_metal() && layer.thickness.value > 0.0);
    is_open.then(|| {
        Phrase::new(
            "Sides of the bottom: its layers stand under the shell, as wide as that, and no part of this list closes their sides. Weld a strip of the shell's sheet around them, {} tall and {} long; it is not in the weight.",
            [
                cell(Q::Length, (vessel.hearth_bottom - vessel.underside).value),
                cell(Q::Length, 2.0 * PI * vessel.bottom_radius.value),
            ],
        )
        .into()
    })
}

/// How much narrower than the bore of a vessel that is there the discs of the bottom are.
fn discs_in_bore(design: &Design, machine: &Machine) -> Option<Slot> {
    let vessel = &design.real_vessel;
    let bore = bore(design).filter(|_| !vessel.lined)?;
    let disc = 2.0 * machine.vessel.bottom_radius;
    let slots = [
        cell(Q::Bore, bore.value),
        cell(Q::Thickness, (bore - disc).value),
    ];
    let words = if vessel.has_bottom {
        "Bottom: the outermost of its layers is that of the vessel itself. The others are discs that go into the vessel that you measured, whose bore is {} by tape and gauge. They are {} narrower across, so that they go in (common practice, no source). Measure the bore both ways before you cut. What must be tight is the vessel's own bottom."
    } else {
        "Bottom: its discs go into the vessel that you measured, whose bore is {} by tape and gauge. They are {} narrower across, so that they go in and the weld closes the gap (common practice, no source). Measure the bore both ways before you cut."
    };
    let discs = design.bottom_layers.len() > usize::from(vessel.has_bottom);
    discs.then(|| Phrase::new(words, slots).into())
}

/// What lies under the discs of the bottom where that is dished.
fn in_a_dish(design: &Design) -> Option<Slot> {
    let vessel = &design.real_vessel;
    let deep = vessel.below_straight();
    (deep.value > 0.0 && !vessel.lined).then(|| {
        Phrase::new(
            "Bottom: flat discs do not lie in a dished end. Fill the dish level first, {} deep, with loose insulation that bears the heat there, and leave no hollow: its layers begin above that. The fill is in no line of this list.",
            [cell(Q::Length, deep.value)],
        )
        .into()
    })
}

/// What wheels are taken to weigh, where there are any.
fn wheels(workshop: &WorkshopReview) -> Option<Slot> {
    let rolls = workshop
        .parts
        .iter()
        .any(|line| line.key == Some(DerivedPart::Wheels.name()));
    rolls.then(|| {
        Phrase::new(
            "Wheels: our own estimate is a steel disc of their diameter and {} thick, tyre and hub in it; fork and plate of a castor add {}. Weigh yours, and change the line.",
            [
                cell(Q::Thickness, WHEEL_DISC),
                cell(Q::Share, CASTOR - 1.0),
            ],
        )
        .into()
    })
}

fn counted(design: &Design, line: &PartLine) -> String {
    let of_train = line.from.starts_with("train.");
    let stand_in = line.stand_in.and_then(|index| design.parts.get(index));
    match (line.counted, stand_in) {
        (Counted::AsOtherParts, Some(part)) => format!("as “{}”: buy it once", part.name),
        (Counted::AsOtherParts, None) => "as other parts".into(),
        (Counted::Here, _) => "at its place".into(),
        (Counted::InTheMiddle, _) => "with its sub-assembly".into(),
        (Counted::Nowhere, _) if of_train => {
            "missing, no other part is named for it: buy it".into()
        }
        (Counted::Nowhere, _) => "missing".into(),
    }
}

/// The stages of the gas train against what stands for them.
fn train(workshop: &WorkshopReview) -> Block {
    let rows = (workshop.train_weights.iter())
        .map(|one| {
            let cells = vec![
                one.group.label().into(),
                cell(Q::Mass, one.computed.value),
                cell(Q::Mass, one.placed.value),
            ];
            judged(one.verdict(), cells)
        })
        .collect();
    table(
        "train-weight",
        "Gas train, computed and as placed",
        &[
            "Sub-assembly",
            "Its stages weigh, jacket water in",
            "Parts that stand for them",
        ],
        rows,
        "The gas train has no stages.",
    )
}

fn part(design: &Design, machine: &Machine, line: &PartLine) -> TableRow {
    let by_hand: Slot = match (line.computed_mass, line.price) {
        (Some(mass), _) => Phrase::new("changed; computed {}", [cell(Q::Mass, mass.value)]).into(),
        (None, Some(_)) => "price".into(),
        (None, None) => "no".into(),
    };
    row(vec![
        line.name.as_str().into(),
        cell(Q::Count, f64::from(line.count)),
        line.material
            .map_or("bought", |material| design.material_name(material))
            .into(),
        cut_larger(
            design,
            line,
            sizes::size(line, stock(design, machine, line).as_ref()),
        ),
        cell(Q::Mass, line.mass.value),
        counted(design, line).into(),
        place(design, &line.from).into(),
        by_hand,
    ])
}

/// Where a line comes from, as the form calls it.
fn place(design: &Design, path: &str) -> String {
    let (name, index) = match path.split_once('.') {
        Some((name, index)) => (name, index.parse::<usize>().ok()),
        None => (path, None),
    };
    let section = Design::SECTIONS
        .iter()
        .find(|section| section.name == name)
        .map(|section| section.label);
    let list = Design::LISTS.iter().find(|list| list.name == name);
    match (section, list, index) {
        (Some(label), _, _) => label.to_string(),
        (None, Some(list), Some(index)) if design.list(name).is_some() => {
            format!("{} {}", list.label, index.saturating_add(1))
        }
        (None, Some(list), _) => list.label.to_string(),
        (None, None, _) => path.to_string(),
    }
}

fn sub_assemblies(design: &Design, workshop: &WorkshopReview) -> Block {
    let people = |count: Option<u32>| match count {
        Some(count) => cell(Q::Count, f64::from(count)),
        None => "too heavy for hands".into(),
    };
    let mut rows: Vec<TableRow> = (workshop.sub_assemblies.iter())
        .map(|one| {
            let lifted = if one.needs_hoist { "hoist" } else { "by hand" };
            row(vec![
                one.group.label().into(),
                cell(Q::Mass, one.mass.value),
                people(one.people),
                lifted.into(),
                joined(design, one.group).into(),
            ])
        })
        .collect();
    let whole: Mass = workshop.sub_assemblies.iter().map(|one| one.mass).sum();
    if !rows.is_empty() {
        rows.push(row(vec![
            "Whole machine, empty".into(),
            cell(Q::Mass, whole.value),
            people(people_for(whole, design.limits.lift_mass)),
            "in parts".into(),
            "".into(),
        ]));
    }
    table(
        "sub-assemblies",
        "Sub-assemblies, without wood and water",
        &[
            "Sub-assembly",
            "Mass",
            "People to lift",
            "Lift",
            "Joined to",
        ],
        rows,
        "Nothing weighs anything yet.",
    )
}

/// To which other sub-assemblies it is joined, and how.
fn joined(design: &Design, group: Group) -> String {
    let others = design.joints.iter().filter_map(|joint| {
        let other = match (joint.first == group, joint.second == group) {
            (true, false) => joint.second,
            (false, true) => joint.first,
            _ => return None,
        };
        Some(format!(
            "{} ({})",
            other.label(),
            joint.kind.label().to_lowercase()
        ))
    });
    let mut words: Vec<String> = others.collect();
    words.dedup();
    words.join(", ")
}

/// Every joint: what is bolted, what is welded, what comes apart.
fn joints(design: &Design) -> Block {
    let flanges: Vec<RoundFlange> = round_flanges(design).collect();
    let rows = (design.joints.iter().enumerate())
        .map(|(place, joint)| {
            let bolts = cell(Q::Count, f64::from(joint.bolts));
            let flange = flanges.iter().find(|flange| flange.place == place);
            row(vec![
                format!("{} {}", place + 1, joint.name).into(),
                joint.first.label().into(),
                joint.second.label().into(),
                joint.kind.label().into(),
                cell(Q::Length, joint.length.value),
                match flange {
                    Some(flange) => Phrase::new(
                        "{}, at least {} long",
                        [bolts, cell(Q::Length, flange.bolt_length.value)],
                    )
                    .into(),
                    None => bolts,
                },
                yes(joint.airtight),
                yes(joint.service),
            ])
        })
        .collect();
    table(
        "joints",
        "Joints",
        &[
            "Joint",
            "Joins",
            "With",
            "Made as",
            "Length",
            "Bolts",
            "Must be tight",
            "Comes apart for service",
        ],
        rows,
        "No joints are entered yet.",
    )
}

fn yes(yes: bool) -> Slot {
    if yes { "yes" } else { "no" }.into()
}
