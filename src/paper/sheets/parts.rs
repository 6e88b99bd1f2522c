//! The parts list by sub-assembly.

use super::buying::buying;
use super::entered;
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
use crate::sizing::also_needed::{Need, also_needed, instruments, ring_around_tube};
use crate::sizing::cooler_drive::CoolerDrive;
use crate::sizing::machine::{CASTOR, Machine, WHEEL_DISC};
use crate::sizing::parts_list::{Counted, PartLine};
use crate::sizing::shell_there::bore;
use crate::sizing::sleeves::sleeves;
use crate::sizing::stock::stock;
use crate::sizing::sub_assemblies::people_for;
use crate::sizing::train_mass::{built, bundle};
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
    let wool = wool::as_sold(design);
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
    add(needed(design));
    add(Block::Points(
        [sizes::MEANING]
            .into_iter()
            .chain(COUNTED)
            .map(Slot::from)
            .chain(wheels(workshop))
            .chain(sides_of_bottom(design, &assessment.standing.machine))
            .chain(discs_in_bore(design, &assessment.standing.machine))
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
    "In the weight: where weight, centre of gravity and tipping take a line from. “At its place” is where the design puts it; “with its sub-assembly” is in the middle of that, as for bolts, gaskets and flanges.",
    "The stages of the gas train have a weight but no place. Other parts that are named for them stand for them on the scales, so that nothing is counted twice. “As” names the part whose name tells of the stage: buy it once; where that part is only weighed, what its stage is cut from is to be bought. “No other part is named for it”: the stage is to be bought, and its weight is missing. Enter it under other parts, by its name and with its place.",
    "“Missing”: nothing tells its place, so it is not in the weight. Enter it under other parts, with its place.",
    "Grate and doors: the grate is the drilled plate of the marking out, as thick as the hearth's steel. What closes an open hole is a disc of its size in the sheet of the shell; the wall, counted without its holes, stands for it. A cover that lies on the outside is cut larger all round by the width of its seal. Hinges, frames and clamps are not known.",
    "Flanges: of the bolted joints only those stand in the list that are entered to be drilled. A joint takes two, or one where a lid is bolted on, and nothing tells the size of the others: buy or cut them as well, and enter them under other parts.",
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

/// What answers rest on, but nothing tells the size or weight of.
fn needed(design: &Design) -> Block {
    let mut rows: Vec<TableRow> = also_needed(design)
        .into_iter()
        .map(|need| {
            row(vec![
                need.name(design).into(),
                cell(Q::Count, f64::from(need.count(design))),
                need.group(design).label().into(),
                reckoned(design, need),
                place(design, &need.from()).into(),
            ])
        })
        .collect();
    rows.extend(instruments(design).map(|(index, hole)| {
        let fills = Phrase::new(
            "it fills and closes its hole of {}, with a seal",
            [cell(Q::Bore, hole.diameter.value)],
        );
        row(vec![
            hole.name.as_str().into(),
            cell(Q::Count, f64::from(hole.count)),
            Group::Reactor.label().into(),
            fills.into(),
            place(design, &Design::item_path("holes", index)).into(),
        ])
    }));
    rows.extend(sleeves(design).map(|sleeve| {
        let leads = Phrase::new(
            "pipe or rolled sheet that just goes into the hole of {}, of a steel that bears the gas there, {} long: it leads from the shell through the lining",
            [
                cell(Q::Bore, sleeve.hole.diameter.value),
                cell(Q::Length, sleeve.long.value),
            ],
        );
        row(vec![
            Phrase::new("Sleeve: {}", [sleeve.hole.name.as_str().into()]).into(),
            cell(Q::Count, f64::from(sleeve.hole.count)),
            Group::Reactor.label().into(),
            leads.into(),
            place(design, &Design::item_path("holes", sleeve.place)).into(),
        ])
    }));
    table(
        "also-needed",
        "Also needed, not weighed",
        &["What", "How many", "For", "Reckoned with", "From"],
        rows,
        "",
    )
}

/// As what it stands in the sums.
fn reckoned(design: &Design, need: Need) -> Slot {
    match need {
        Need::CoolerFan(place) => {
            let stage = design.train.get(place);
            let speed = stage.map_or(f64::NAN, |stage| stage.air_speed.value);
            let tubes = stage.map_or(f64::NAN, |stage| f64::from(stage.tubes));
            let slots = [cell(Q::Velocity, speed), cell(Q::Count, tubes)];
            let words = if CoolerDrive::Fan.has_no_load(design) {
                "air of {} between {} tubes; no electric load is entered for it"
            } else {
                "air of {} between {} tubes"
            };
            Phrase::new(words, slots).into()
        }
        Need::WaterPump(place) => {
            let flow = (design.train.get(place)).map_or(f64::NAN, |stage| stage.water_flow.value);
            let words = if CoolerDrive::Pump.has_no_load(design) {
                "{} of water through the jacket; no electric load is entered for its pump"
            } else {
                "{} of water through the jacket"
            };
            Phrase::new(words, [cell(Q::MassFlow, flow)]).into()
        }
        Need::Guard(_) | Need::StageGuard(_) => {
            "hands are kept off the hot surface: mesh or sheet around all of it".into()
        }
        Need::Shields => Phrase::new(
            "bright sheets of {} by {}, {} apart",
            [
                cell(Q::Length, design.battery_box.width.value),
                cell(Q::Length, design.battery_box.height.value),
                cell(Q::Length, design.battery_box.gap.value),
            ],
        )
        .into(),
        Need::TubeRing => match ring_around_tube(design) {
            Some(ring) => Phrase::new(
                "sheet of {}, {} outside, {} bore: welded round the top of the fire tube and laid on a rope seal, it closes the {} between tube and wall. Through an open gap smoke passes by the fire, and wood falls in",
                [
                    cell(Q::Thickness, ring.thickness.value),
                    cell(Q::Length, ring.outside.value),
                    cell(Q::Length, ring.bore.value),
                    cell(Q::Length, 0.5 * (ring.outside - ring.bore).value),
                ],
            )
            .into(),
            None => "".into(),
        },
        Need::TubePlates(place) => match design.train.get(place) {
            Some(stage) => {
                let bundle = bundle(stage);
                Phrase::new(
                    "plates at least {} across, each drilled for {} tubes of {} outside, {} from middle to middle; over each a box that the gas comes in or leaves by, with a cover for cleaning the tubes",
                    [
                        cell(Q::Length, bundle.across.value),
                        cell(Q::Count, f64::from(stage.tubes)),
                        cell(Q::Bore, (stage.tube_bore + 2.0 * stage.tube_wall).value),
                        cell(Q::Length, bundle.pitch.value),
                    ],
                )
                .into()
            }
            None => "".into(),
        },
        Need::DustBox(place) => match design.train.get(place) {
            Some(stage) => Phrase::new(
                "it closes the dust outlet of {} tightly, for the gas there is below the pressure of the air: what leaks in blows the dust up again, and burns. Emptied when all is cold",
                [cell(Q::Length, built(stage).dimensions().dust_outlet.value)],
            )
            .into(),
            None => "".into(),
        },
        Need::SpareFireTube => "one that the fire wears away is replaced by it".into(),
        Need::SpareNozzles => {
            "cut like the nozzles: those whose tips have burnt back are drawn and replaced".into()
        }
        Need::NozzleCaps => {
            "shut tightly, outside the shell, they end the fire; they close the nozzles for leak tests too".into()
        }
        Need::FlarePipe => Phrase::new(
            "from the branch at the blower to a burner that stands clear of all that burns: together they take {} at full gas flow",
            [cell(Q::Pressure, design.blower.flare_drop.value)],
        )
        .into(),
        Need::FlareValve => {
            "open while the gas burns at the flare, shut tightly while the engine runs and when the fire is to end".into()
        }
        Need::EngineValve => {
            "shut tightly while the gas burns at the flare and when the fire is to end".into()
        }
        Need::Mixer => {
            "just before the engine: it mixes the gas with as much air as its valve lets in, set by hand while the engine runs".into()
        }
    }
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
        sizes::size(line, stock(design, machine, line).as_ref()),
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
    let rows = (design.joints.iter().enumerate())
        .map(|(place, joint)| {
            row(vec![
                format!("{} {}", place + 1, joint.name).into(),
                joint.first.label().into(),
                joint.second.label().into(),
                joint.kind.label().into(),
                cell(Q::Length, joint.length.value),
                cell(Q::Count, f64::from(joint.bolts)),
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
