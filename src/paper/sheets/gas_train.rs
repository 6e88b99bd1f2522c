//! The gas train: what the gas passes, and what it is like at each point.

use super::packing::packings;
use super::{Drawing, cautions, cell, entered, row, table, upkeep};
use crate::design::Design;
use crate::design::Kind;
use crate::design::phrase::Slot;
use crate::design::quantity::Quantity as Q;
use crate::paper::sheet::{Block, Sheet};
use crate::review::{Assessment, TableRow, TrainReview};
use crate::sizing::train::{GasState, Stage, TrainError, TrainSolution};

/// Quantities that a stage is built by; the others are properties of gas, dust and metal.
const SIZES: [Q; 8] = [
    Q::Length,
    Q::Bore,
    Q::Thickness,
    Q::Distance,
    Q::Area,
    Q::Volume,
    Q::Mass,
    Q::Count,
];

/// Name of the sheet, and of the drawing that belongs in it.
pub(super) const NAME: &str = "gas-train";

pub(super) fn sheet(design: &Design, assessment: &Assessment, drawings: &[Drawing]) -> Sheet {
    let train = &assessment.train;
    let mut sheet = Sheet::new(
        NAME,
        "Gas train",
        "What the gas passes between hearth and engine, how large it is, and the gas at each point.",
        &["train", "raw_gas", "blower", "blower_curve"],
    );
    let mut add = |block| sheet.blocks.push(block);
    for drawing in drawings.iter().filter(|drawing| drawing.name == NAME) {
        add(Block::Drawing {
            name: drawing.name.clone(),
            svg: drawing.svg.clone(),
            words: drawing.words.clone(),
        });
    }
    add(table(
        "stages",
        "Stages and their sizes",
        &["Stage", "What", "Size"],
        sizes(design, train),
        "The gas train has no stages.",
    ));
    let packings = packings(design);
    if !packings.is_empty() {
        add(Block::Points(packings));
    }
    for (name, caption, solved) in [
        (
            "gas-full",
            "The gas at full load, filters clean",
            &train.full_clean,
        ),
        (
            "gas-dirty",
            "The gas at full load, filters due",
            &train.full_dirty,
        ),
        (
            "gas-lighting",
            "The gas while lighting, to the flare",
            &train.startup,
        ),
    ] {
        let (found, error) = match solved {
            Ok(found) => (found, None),
            Err(error) => (&*error.reached, Some(error)),
        };
        if let Some(error) = error {
            add(Block::Text(trouble(caption, error).into()));
        }
        add(table(
            name,
            caption,
            &[
                "Behind",
                "Temperature",
                "Against outside",
                "Flow",
                "Dew point",
                "Drops",
            ],
            points(train, found),
            "The gas cannot be followed.",
        ));
    }
    for (index, stage) in train.stages.iter().enumerate() {
        if let Stage::Cyclone(cyclone) = stage {
            add(cyclone_table(train, index, &cyclone.dimensions()));
        }
    }
    add(table(
        "maintenance",
        "What must be emptied or changed, at the load at which that comes soonest",
        &["Stage", "What", "After", "At"],
        upkeep::due(design, assessment),
        "Nothing fills up.",
    ));
    for block in upkeep::heed(assessment) {
        add(block);
    }
    let ids: Vec<&str> = (assessment.findings.iter())
        .filter(|finding| finding.chapter == crate::review::Chapter::Breath)
        .map(|finding| finding.id)
        .collect();
    for block in cautions(assessment, &ids) {
        add(block);
    }
    sheet
}

fn trouble(caption: &str, error: &TrainError) -> String {
    format!("{caption}: {error}.")
}

/// A stage by its number and its name.
pub(super) fn name(train: &TrainReview, index: usize) -> String {
    let label = train.names.get(index).map_or("", |name| &*name.label);
    format!("{} {label}", index + 1)
}

fn sizes(design: &Design, train: &TrainReview) -> Vec<TableRow> {
    let inputs = Design::LISTS
        .iter()
        .find(|list| list.name == "train")
        .map_or(&[][..], |list| list.inputs);
    (0..design.train.len())
        .flat_map(|index| {
            inputs
                .iter()
                .filter_map(move |input| {
                    let size = match input.kind {
                        Kind::Number { quantity, .. } => SIZES.contains(&quantity),
                        Kind::Choice { .. } => true,
                        Kind::Text { .. } | Kind::Flag { .. } => false,
                    };
                    let path = format!("train.{index}.{}", input.name);
                    size.then(|| entered::value(design, &path, input)).flatten()
                })
                .map(move |(label, value)| {
                    row(vec![name(train, index).into(), label.into(), value])
                })
        })
        .collect()
}

fn points(train: &TrainReview, found: &TrainSolution) -> Vec<TableRow> {
    let outside = train.full_load.circumstances.surroundings.pressure;
    (found.points.iter().enumerate())
        .map(|(index, gas)| {
            let behind = match index.checked_sub(1) {
                None => "Hearth".to_string(),
                Some(stage) => name(train, stage),
            };
            row(vec![
                behind.into(),
                cell(Q::Temperature, gas.temperature.value),
                cell(Q::Pressure, (gas.pressure - outside).value),
                cell(Q::Flow, gas.volume_rate().value),
                gas.dew_point()
                    .map_or("dry".into(), |dew| cell(Q::Temperature, dew.value)),
                drops(gas),
            ])
        })
        .collect()
}

fn drops(gas: &GasState) -> Slot {
    if gas.liquid.value > 0.0 {
        cell(Q::MassFlow, gas.liquid.value)
    } else {
        "none".into()
    }
}

fn cyclone_table(
    train: &TrainReview,
    index: usize,
    sizes: &crate::sizing::cyclone::CycloneDimensions,
) -> Block {
    let rows = [
        ("Body, inside diameter", sizes.body_diameter),
        ("Inlet slot, height", sizes.inlet_height),
        ("Inlet slot, width", sizes.inlet_width),
        ("Outlet pipe, inside diameter", sizes.outlet_diameter),
        ("Outlet pipe, depth below the lid", sizes.vortex_finder),
        ("Straight body, height", sizes.body_height),
        ("Cone, height", sizes.cone_height),
        ("Dust outlet, diameter", sizes.dust_outlet),
    ]
    .into_iter()
    .map(|(what, length)| row(vec![what.into(), cell(Q::Length, length.value)]))
    .collect();
    table(
        &format!("cyclone-{}", index + 1),
        &format!("Cyclone: {}", name(train, index)),
        &["Measure", "Length"],
        rows,
        "",
    )
}
