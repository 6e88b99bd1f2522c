//! The gas train: what the gas passes, and what it is like at each point.

use super::{Drawing, cautions, cell, entered, row, table};
use crate::design::Design;
use crate::design::Kind;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::paper::sheet::{Block, Sheet};
use crate::review::{Assessment, TableRow, TrainReview};
use crate::sizing::train::{Detail, GasState, Stage, TrainError, TrainSolution};
use uom::si::f64::Time;

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

/// The caution of whoever opens what gas has passed.
pub(super) const COOL_FIRST: &str = "Let everything cool and air it before you open it. Char dust and filters can glow inside and light up in fresh air. Tar water is poisonous: wear gloves, and never pour it into a drain or on the ground.";

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
        maintenance(train),
        "Nothing fills up.",
    ));
    add(Block::Caution(COOL_FIRST.to_string()));
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

fn name(train: &TrainReview, index: usize) -> String {
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

/// What is due first counts: less gas may be colder gas, which drops more water.
pub(super) fn maintenance(train: &TrainReview) -> Vec<TableRow> {
    let loads = [
        ("full load", &train.full_clean),
        ("usual load", &train.usual),
    ];
    (0..train.stages.len())
        .filter_map(|index| {
            let due = |(load, solved): (&'static str, &Result<TrainSolution, TrainError>)| {
                let outcome = solved.as_ref().ok()?.outcomes.get(index)?;
                let (what, after) = fills(&outcome.detail)?;
                Some((load, what, after))
            };
            let (load, what, after) = (loads.into_iter().filter_map(due))
                .min_by(|(_, _, one), (_, _, other)| one.value.total_cmp(&other.value))?;
            Some(row(vec![
                name(train, index).into(),
                what.into(),
                cell(Q::LongTime, after.value),
                load.into(),
            ]))
        })
        .chain(wet_filters(train))
        .collect()
}

/// Filters out of which water runs, at the load at which it is most.
fn wet_filters(train: &TrainReview) -> impl Iterator<Item = TableRow> + use<'_> {
    let loads = [
        ("full load", &train.full_clean),
        ("usual load", &train.usual),
    ];
    (0..train.stages.len()).filter_map(move |index| {
        let (load, water) = (loads.into_iter())
            .filter_map(|(load, solved)| {
                let outcome = solved.as_ref().ok()?.outcomes.get(index)?;
                let is_filter = matches!(outcome.detail, Detail::Filter(_));
                (is_filter && outcome.water_removed.value > 0.0)
                    .then_some((load, outcome.water_removed))
            })
            .max_by(|(_, one), (_, other)| one.value.total_cmp(&other.value))?;
        Some(row(vec![
            name(train, index).into(),
            Phrase::new(
                "empty the can under its drain: {} run into it",
                [Measure::new(Q::MassFlow, water.value).into()],
            )
            .into(),
            "whenever it is full".into(),
            load.into(),
        ]))
    })
}

/// What is to be done at a stage, and after which time.
fn fills(detail: &Detail) -> Option<(&'static str, Time)> {
    match detail {
        Detail::Trap(trap) => Some(("drain the water", trap.drain_interval?)),
        Detail::Filter(filter) => Some(("change or clean the medium", filter.change_interval?)),
        Detail::Pipe(_)
        | Detail::Cyclone(_)
        | Detail::Cooler(_)
        | Detail::Measured
        | Detail::Blower(_)
        | Detail::Engine(_) => None,
    }
}
