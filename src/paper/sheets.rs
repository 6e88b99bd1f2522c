//! The sheets of paper for the workshop, made from a design and its review.
//!
//! Numbers stand in cells and sentences with their quantity, so that units follow the reader.

mod build_order;
mod buying;
mod cost;
mod entered;
mod gas_train;
mod label_places;
mod leaks;
mod lighting;
mod marking;
mod packing;
mod parts;
mod shell_drawing;
mod sizes;
mod summary;
mod templates;
mod upkeep;
mod wiring;
mod wool;
mod work_time;

use super::sheet::{BOX, Block, Sheet};
use crate::design::Design;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::{Quantity, System};
use crate::review::{Assessment, Table, TableRow, Verdict};

/// A drawing made elsewhere that goes on paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// Name of its file.
    pub name: String,
    /// The SVG element, of our own making: it goes on the page as it is.
    pub svg: String,
    /// What it shows, for those who do not see it.
    pub words: String,
    /// Whether these words stand below it too, since they tell what is not written in it.
    pub is_captioned: bool,
}

/// All sheets in the order they are used: what it is, what it is made of, how it is made and used, what it costs.
/// The system of units is that of the drawings; tables and sentences take theirs when they are shown.
///
/// ```
/// use hearthplan::{design::{Design, quantity::System}, paper::sheets, review};
/// let design = Design::default();
/// let sheets = sheets::all(&design, &review::assess(&design), System::Metric, &[]);
/// assert_eq!(sheets[0].name, "summary");
/// ```
pub fn all(
    design: &Design,
    assessment: &Assessment,
    system: System,
    drawings: &[Drawing],
) -> Vec<Sheet> {
    vec![
        summary::sheet(design, assessment, drawings),
        parts::sheet(design, assessment),
        marking::sheet(design, assessment, system),
        templates::sheet(design, assessment),
        gas_train::sheet(design, assessment, drawings),
        wiring::sheet(design, assessment),
        leaks::sheet(design, assessment),
        build_order::sheet(design, assessment),
        lighting::sheet(design, assessment),
        cost::sheet(design, assessment),
    ]
}

/// A number with its quantity as a cell.
fn cell(quantity: Quantity, si: f64) -> Slot {
    if si.is_finite() {
        Measure::new(quantity, si).into()
    } else {
        UNKNOWN.into()
    }
}

/// A pressure, for whoever works in inches with what a pressure gauge tells beside the water column.
fn pressed(si: f64) -> Slot {
    let measure = cell(Quantity::Pressure, si);
    match Quantity::Pressure.psi(si) {
        Some(psi) => {
            let beside = Phrase::new(" ({})", [psi.into()]);
            Phrase::new("{}{}", [measure, Slot::Only(System::Inch, beside)]).into()
        }
        None => measure,
    }
}

/// What stands where a number cannot be told.
const UNKNOWN: &str = "?";

/// A row without a verdict.
fn row(cells: Vec<Slot>) -> TableRow {
    TableRow {
        verdict: None,
        cells,
    }
}

/// A row with a verdict.
fn judged(verdict: Verdict, cells: Vec<Slot>) -> TableRow {
    TableRow {
        verdict: Some(verdict),
        cells,
    }
}

/// A table as a block; without rows a sentence that says so.
fn table(
    name: &str,
    caption: &str,
    headings: &[&'static str],
    rows: Vec<TableRow>,
    without_rows: &'static str,
) -> Block {
    if rows.is_empty() {
        return Block::Text(without_rows.into());
    }
    Block::Table {
        name: name.to_string(),
        caption: caption.to_string(),
        table: Table {
            headings: headings.to_vec(),
            rows,
        },
    }
}

/// The cautions of the findings of some chapters, each once, as blocks.
fn cautions<'a>(
    assessment: &'a Assessment,
    ids: &'a [&'a str],
) -> impl Iterator<Item = Block> + 'a {
    let mut told: Vec<&str> = Vec::new();
    ids.iter()
        .filter_map(|id| assessment.finding(id)?.caution)
        .filter(move |caution| {
            let new = !told.contains(caution);
            told.push(caution);
            new
        })
        .map(|caution| Block::Caution(caution.to_string()))
}
