//! What the hearth makes at its three loads, in numbers, as plain data.

use super::scale;
use crate::design::Design;
use crate::design::inputs::HearthKind;
use crate::design::phrase::lower_first;
use crate::design::quantity::{Quantity as Q, System};
use crate::review::{
    Assessment, HOTTEST, HeartAt, OnGas, Verdict, judge_each, layer_to_add,
    model_beside_measurement,
};
use crate::sizing::engine::EngineRun;
use crate::sizing::gas::HearthSolution;

/// How sure the mean temperature is, K; the balance of the burning zone says the same of itself.
const SURE_KELVIN: f64 = 60.0;

/// A row of numbers.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// What is said, with its unit.
    pub name: String,
    /// What would be good; empty where there is no mark.
    pub wanted: String,
    /// One for each column.
    pub cells: Vec<Cell>,
}

/// A number of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Cell {
    /// What is written.
    pub text: String,
    /// What is said of it; none where it passes, or nothing is asked of it.
    pub fails: Option<Verdict>,
}

impl Cell {
    fn plain(text: String) -> Self {
        Self { text, fails: None }
    }
}

/// A table of numbers.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// What it is about.
    pub caption: String,
    /// Heads of the columns.
    pub columns: Vec<String>,
    /// The rows.
    pub rows: Vec<Row>,
}

/// All that is told about the hearth.
#[derive(Debug, Clone, PartialEq)]
pub struct Told {
    /// The numbers.
    pub tables: Vec<Table>,
    /// What suits what, and what a reader must know.
    pub sentences: Vec<String>,
    /// What can hurt.
    pub caution: Option<&'static str>,
}

/// What there is to tell about a design.
pub fn told(design: &Design, assessment: &Assessment, system: System) -> Told {
    let tables = [
        Some(loads(design, assessment, system)),
        Some(layers(design, assessment, system)),
        measured(design, system),
    ];
    let on_gas = (assessment.engine.on_gas.as_ref()).and_then(|on_gas| on_gas.as_ref().ok());
    let mut sentences = Vec::new();
    let at = &assessment.heart.at;
    let unsolved = [&at.full, &at.usual, &at.idle]
        .into_iter()
        .find_map(|at| at.solved.as_ref().err());
    sentences.extend(unsolved.map(|error| {
        if error.too_cold() {
            "Where there is a dash, the shell takes so much that no gas burns.".to_string()
        } else {
            format!("Where there is a dash, it can't be told: {error}.")
        }
    }));
    if at.full.solved.is_ok() {
        sentences.extend(on_gas.and_then(|on_gas| engine_for_hearth(on_gas, system)));
        sentences.extend(on_gas.map(|on_gas| hearth_for_engine(design, on_gas, system)));
    }
    // Where nothing can stand beside a measurement there is no table of it.
    let untold = (assessment.finding("heart.measured"))
        .filter(|finding| finding.verdict == Verdict::CannotTell)
        .map(|finding| finding.compared.text(system));
    sentences.extend(untold.map(|told| format!("Model beside measurement: {told}.")));
    sentences.push(format!(
        "How sure: temperature ±{}, heat in the gas ±8 %, flow and wood ±10 %, power ±15 %. The cold share is a guide to compare designs by.",
        Q::TemperatureDifference.show(SURE_KELVIN, system)
    ));
    Told {
        tables: tables.into_iter().flatten().collect(),
        sentences,
        caution: assessment
            .finding("heart.usual")
            .and_then(|finding| finding.caution),
    }
}

fn row<T: ?Sized>(
    (label, quantity, wanted): (&str, Q, String),
    columns: &[Option<&T>],
    system: System,
    number: impl Fn(&T) -> f64,
) -> Row {
    let numbers = columns
        .iter()
        .map(|column| column.map_or(f64::NAN, &number));
    let shown = quantity.show_column(&numbers.collect::<Vec<_>>(), system);
    // All have one unit, which the label tells.
    let units = shown.iter().filter_map(|text| text.rsplit_once(' '));
    let unit = match quantity.unit_symbol(system) {
        "" => "",
        symbol => units.map(|(_, unit)| unit).next().unwrap_or(symbol),
    };
    let cell = |text: &String| Cell::plain(text.trim_end_matches(unit).trim_end().to_string());
    Row {
        name: match unit {
            "" => label.to_string(),
            unit => format!("{label}, {unit}"),
        },
        wanted,
        cells: shown.iter().map(cell).collect(),
    }
}

/// The three numbers that decide whether the gas is clean, those marked that fail.
fn three_numbers(design: &Design, columns: &[Option<&HearthSolution>], system: System) -> Vec<Row> {
    let limits = &design.limits;
    let mark =
        |word: &str, quantity: Q, si| format!("{word} {}", scale::number(quantity, si, system));
    let tar = limits.tar_temperature;
    let mut rows = vec![
        row(
            (
                "Mean temperature in the fire",
                Q::Temperature,
                format!(
                    "{}, {}",
                    mark(
                        "at least",
                        Q::Temperature,
                        limits.hearth_temperature_good().value
                    ),
                    mark("at most", Q::Temperature, HOTTEST),
                ),
            ),
            columns,
            system,
            |hearth| hearth.profile.mean.value,
        ),
        row(
            (
                "Too cold for tar",
                Q::Share,
                mark("at most", Q::Share, limits.tar_share_good().value),
            ),
            columns,
            system,
            |hearth| hearth.profile.share_colder_than(tar).value,
        ),
        row(
            (
                "Heat in the gas",
                Q::EnergyPerVolume,
                mark("at least", Q::EnergyPerVolume, limits.gas_heat_good()),
            ),
            columns,
            system,
            |hearth| 1e6 * hearth.gas.lower_heating_value,
        ),
    ];
    let judged = columns
        .iter()
        .map(|column| column.map(|solution| judge_each(design, solution)));
    for (column, judged) in judged.enumerate() {
        for (row, verdict) in rows.iter_mut().zip(judged.into_iter().flatten()) {
            if let Some(cell) = row.cells.get_mut(column) {
                cell.fails = Some(verdict).filter(|verdict| *verdict != Verdict::Good);
            }
        }
    }
    rows
}

fn solution(at: &HeartAt) -> Option<&HearthSolution> {
    at.solved.as_ref().ok()
}

fn loads(design: &Design, assessment: &Assessment, system: System) -> Table {
    let at = &assessment.heart.at;
    let loads = [
        ("Full", &at.full),
        ("Usual", &at.usual),
        ("Lowest", &at.idle),
    ];
    let solved = loads.map(|(_, at)| solution(at));
    let mut rows = three_numbers(design, &solved, system);
    let none = String::new;
    rows.extend([
        row(
            (
                "Equivalence ratio",
                Q::Number,
                "air over that of full burning".to_string(),
            ),
            &solved,
            system,
            |hearth| hearth.gas.equivalence_ratio.value,
        ),
        row(
            ("Gas flow", Q::NormalFlow, none()),
            &solved,
            system,
            |hearth| hearth.gas_rate.value,
        ),
        row(
            ("Wood burned", Q::MassFlow, none()),
            &solved,
            system,
            |hearth| hearth.fuel_rate.value,
        ),
    ]);
    if let Some(Ok(on_gas)) = &assessment.engine.on_gas {
        let runs = &on_gas.runs;
        // What an engine would give on gas that is not made is no number to show.
        let runs: Vec<_> = [&runs.full, &runs.usual, &runs.idle]
            .into_iter()
            .zip(solved)
            .map(|(run, solved)| solved.map(|_| run))
            .collect();
        rows.extend([
            row(
                (
                    "Shaft power",
                    Q::EnginePower,
                    "before the train".to_string(),
                ),
                &runs,
                system,
                |run: &EngineRun| run.shaft_power.value,
            ),
            row(
                (
                    "Electric power",
                    Q::Power,
                    "before the train, if it drives a generator".to_string(),
                ),
                &runs,
                system,
                |run: &EngineRun| run.electric_power.value,
            ),
        ]);
    }
    Table {
        caption: "At three loads".to_string(),
        columns: loads
            .map(|(name, at)| {
                let load = Q::Share.show(at.load.value, system);
                format!("{name} {}", load.replace(' ', "\u{a0}"))
            })
            .into(),
        rows,
    }
}

/// What the layer is made of that is added. The class of a material is of no use here.
fn material_added(design: &Design) -> String {
    let (_, layer) = layer_to_add(design);
    let material = design.material_name(layer.material);
    let material = material.split_once(", ").map_or(material, |(name, _)| name);
    lower_first(material)
}

fn layers(design: &Design, assessment: &Assessment, system: System) -> Table {
    let heart = &assessment.heart;
    let columns: Vec<_> = [
        ("No insulation".to_string(), heart.without_insulation()),
        ("As it is".to_string(), Some(&heart.at.usual)),
        (
            format!(
                "With {} more",
                Q::Thickness.show(layer_to_add(design).1.thickness.value, system)
            ),
            heart.one_more_layer(),
        ),
    ]
    .into_iter()
    .filter_map(|(name, at)| Some((name, at?)))
    .collect();
    let solved: Vec<_> = columns.iter().map(|(_, at)| solution(at)).collect();
    let more = heart.one_more_layer().map_or_else(String::new, |_| {
        format!("; more: {}", material_added(design))
    });
    Table {
        caption: format!(
            "Insulation of the hearth wall, at the usual load of {}{more}",
            Q::Share.show(heart.at.usual.load.value, system)
        ),
        columns: columns.iter().map(|(name, _)| name.clone()).collect(),
        rows: three_numbers(design, &solved, system),
    }
}

/// Nothing where nothing was measured.
fn measured(design: &Design, system: System) -> Option<Table> {
    let rows: Vec<_> = model_beside_measurement(design)
        .into_iter()
        .map(|row| Row {
            name: row.label.to_string(),
            wanted: String::new(),
            cells: [row.measured, row.computed]
                .map(|measure| Cell::plain(measure.show(system)))
                .into(),
        })
        .collect();
    (!rows.is_empty()).then(|| Table {
        caption: format!(
            "Model beside measurement, at {} of full load",
            Q::Share.show(design.measured.load.value, system)
        ),
        columns: ["Measured", "Computed"].map(str::to_string).into(),
        rows,
    })
}

fn engine_for_hearth(on_gas: &OnGas, system: System) -> Option<String> {
    let most = on_gas.told_for_hearth(system)?;
    Some(format!(
        "What engine suits this hearth: one of up to {most} at the speed entered."
    ))
}

fn hearth_for_engine(design: &Design, on_gas: &OnGas, system: System) -> String {
    let (words, has, bore) = match design.hearth.kind {
        HearthKind::Constricted => (
            "The narrowest throat that carries what this engine draws at full load:",
            "the throat entered is",
            design.hearth.throat_diameter,
        ),
        HearthKind::Straight => (
            "The fire tube that suits this engine, by the table of fire tubes:",
            "the tube entered is",
            design.hearth.tube_diameter,
        ),
    };
    format!(
        "{words} {}; {has} {}.",
        Q::Length.show(on_gas.throat_for_engine.value, system),
        Q::Length.show(bore.value, system)
    )
}
