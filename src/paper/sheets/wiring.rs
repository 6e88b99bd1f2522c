//! Wiring schedule, battery and its box.

use super::leaks::BOX;
use super::{cautions, cell, entered, row, table};
use crate::design::Design;
use crate::design::quantity::Quantity as Q;
use crate::paper::sheet::{Block, Sheet};
use crate::review::{
    Assessment, Chapter, FAN_WITHOUT_LOAD, PUMP_WITHOUT_LOAD, TableRow, WiringRow,
};
use crate::sizing::also_needed::{fan_without_load, pump_without_load};

pub(super) fn sheet(design: &Design, assessment: &Assessment) -> Sheet {
    let electrics = &assessment.electrics;
    let mut sheet = Sheet::new(
        "wiring",
        "Wiring",
        "Cable and fuse of each circuit, the battery and the box it stands in.",
        &["wiring", "loads", "battery", "battery_box"],
    );
    let schedule = electrics.schedule();
    let mut add = |block| sheet.blocks.push(block);
    add(table(
        "wiring",
        "Wiring schedule",
        &schedule.headings,
        schedule.rows,
        "There is nothing to wire.",
    ));
    add(Block::Points(
        [
            "Length is one way; the cable runs there and back.",
            "Put each fuse at the battery, so that the whole cable is behind it.",
            "Keep cables off hot walls, and away from where gas could leak.",
        ]
        .map(Into::into)
        .to_vec(),
    ));
    add(table(
        "wiring-cable",
        "Cable to buy, there and back",
        &["Cable", "Length in all", "For"],
        cable(&electrics.wiring),
        "",
    ));
    add(table(
        "wiring-check",
        "Check of each circuit, before the first fire",
        &[
            "Circuit",
            "Fuse",
            "At the load, at least",
            "Measured",
            "Done",
            "Date and sign",
        ],
        checks(design, &electrics.wiring),
        "",
    ));
    add(Block::Points(
        [
            "Check with the battery charged and the load running at its highest: measure at the battery's poles too, and take off what those lack of the battery voltage entered.",
            "Look for the poles before you connect: red to plus. Pull each fuse once, and see that its circuit is dead.",
        ]
        .map(Into::into)
        .to_vec(),
    ));
    if fan_without_load(design) {
        add(Block::Text(FAN_WITHOUT_LOAD.into()));
    }
    if pump_without_load(design) {
        add(Block::Text(PUMP_WITHOUT_LOAD.into()));
    }
    for (section, caption) in [("battery", "Battery"), ("battery_box", "Battery box")] {
        add(table(
            section.replace('_', "-").as_str(),
            caption,
            &["What", "Value"],
            entered::section(design, section),
            "Nothing is entered.",
        ));
    }
    add(table(
        "drain",
        "What is drawn from the battery",
        &["State", "Power", "Current", "Lasts"],
        drains(assessment),
        "The blower's power cannot be told.",
    ));
    let ids: Vec<&str> = (assessment.findings.iter())
        .filter(|finding| finding.chapter == Chapter::Electrics)
        .map(|finding| finding.id)
        .collect();
    for block in cautions(assessment, &ids) {
        add(block);
    }
    sheet
}

/// The cables of one size together, there and back, thinnest first as they come.
fn cable(wiring: &[WiringRow]) -> Vec<TableRow> {
    let mut sizes: Vec<(String, f64, Vec<&str>)> = Vec::new();
    for circuit in wiring {
        let Ok(run) = &circuit.run else { continue };
        let name = run.conductor.name.label();
        let both_ways = 2.0 * circuit.circuit.length.value;
        match sizes.iter_mut().find(|(size, ..)| *size == name) {
            Some((_, length, names)) => {
                *length += both_ways;
                names.push(&circuit.name);
            }
            None => sizes.push((name, both_ways, vec![&circuit.name])),
        }
    }
    (sizes.into_iter())
        .map(|(name, length, names)| {
            row(vec![
                name.into(),
                cell(Q::Distance, length),
                names.join(", ").into(),
            ])
        })
        .collect()
}

/// What a meter should show at each load.
fn checks(design: &Design, wiring: &[WiringRow]) -> Vec<TableRow> {
    (wiring.iter())
        .filter_map(|circuit| {
            let run = circuit.run.as_ref().ok()?;
            let left = (design.battery.voltage - run.drop).value;
            let fuse = match circuit.fuse {
                Some(fuse) => format!("{} A", fuse.value),
                None => "none fits".to_string(),
            };
            Some(row(vec![
                circuit.name.as_str().into(),
                fuse.into(),
                cell(Q::Voltage, left),
                "".into(),
                BOX.into(),
                "".into(),
            ]))
        })
        .collect()
}

fn drains(assessment: &Assessment) -> Vec<TableRow> {
    let electrics = &assessment.electrics;
    [
        ("Lighting", &electrics.lighting),
        ("Running", &electrics.running),
    ]
    .into_iter()
    .filter_map(|(state, drain)| {
        let drain = drain.as_ref().ok()?;
        Some(row(vec![
            state.into(),
            cell(Q::Power, drain.mean.value),
            cell(Q::Current, drain.current.value),
            drain.time.map_or("nothing is drawn".into(), |time| {
                cell(Q::LongTime, time.value)
            }),
        ]))
    })
    .collect()
}
