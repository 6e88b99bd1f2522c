//! Wiring schedule, battery and its box.

use super::{BOX, cautions, cell, entered, row, table};
use crate::design::inputs::CableSystem;
use crate::design::phrase::{Phrase, Slot};
use crate::design::quantity::{Quantity as Q, System};
use crate::design::{Choice, Design};
use crate::paper::sheet::{Block, Sheet};
use crate::review::{Assessment, Chapter, MAINS, TableRow, WiringRow, of_drive};
use crate::sizing::cooler_drive::CoolerDrive;

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
            "Put each fuse close to the pole, in a sealed holder, outside the space where the battery's gas collects, so that nearly the whole cable is behind it.",
            "Keep cables off hot walls, and away from where gas could leak.",
        ]
        .into_iter()
        .map(Into::into)
        .chain(by_gauge(design, &electrics.wiring))
        .collect(),
    ));
    add(table(
        "wiring-cable",
        "Cable to buy, there and back",
        &["Cable", "Length in all", "For"],
        cable(&electrics.wiring),
        "No cable is to be bought.",
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
    for drive in [CoolerDrive::Fan, CoolerDrive::Pump] {
        if let Some(words) = of_drive(design, drive) {
            add(Block::Text(words.into()));
        }
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
    if assessment.finding("engine.power").is_some() {
        add(Block::Caution(MAINS.to_string()));
    }
    sheet
}

/// What the gauge beside a section means, and where cable is reckoned by gauges throughout.
fn by_gauge(design: &Design, wiring: &[WiringRow]) -> Option<Slot> {
    let by_section = |row: &WiringRow| {
        let run = row.run.as_ref().ok().filter(|_| !row.own_cable);
        run.is_some_and(|run| run.conductor.gauge_no_thinner().is_some())
    };
    let input = design.input("wiring.system")?;
    let words = "The gauge in brackets is the thinnest that is no thinner than the section reckoned with. Choose “{}” under “{}” to reckon with gauges.";
    let slots = [CableSystem::Gauge.label().into(), input.label.into()];
    (wiring.iter().any(by_section)).then(|| Slot::Only(System::Inch, Phrase::new(words, slots)))
}

/// The cables of one size that are still to be bought together, there and back, in the order of their circuits.
fn cable(wiring: &[WiringRow]) -> Vec<TableRow> {
    let mut sizes: Vec<(Slot, f64, Vec<&str>)> = Vec::new();
    for circuit in wiring.iter().filter(|circuit| !circuit.own_cable) {
        let Ok(run) = &circuit.run else { continue };
        let name = circuit.cable_name(run);
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
                name,
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
