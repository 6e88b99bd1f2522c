//! Wiring schedule, battery and its box.

use super::{cautions, cell, entered, row, table};
use crate::design::Design;
use crate::design::quantity::Quantity as Q;
use crate::paper::sheet::{Block, Sheet};
use crate::review::{Assessment, Chapter, FAN_WITHOUT_LOAD, PUMP_WITHOUT_LOAD, TableRow};
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
