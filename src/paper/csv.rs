//! A table as comma-separated values (RFC 4180), for a spreadsheet.
//!
//! Where all numbers of a column measure the same, the unit stands in the heading and the cells are plain decimal
//! numbers; elsewhere a cell is what a person would read.

use crate::design::phrase::Slot;
use crate::design::quantity::{Quantity, System, Unit};
use crate::review::Table;

/// The table, numbers in the units of the given system.
pub fn csv(table: &Table, system: System) -> String {
    let units: Vec<Option<Unit>> = (0..table.headings.len())
        .map(|column| quantity_of(table, column).map(|quantity| quantity.field_unit(system)))
        .collect();
    let verdicts = table.rows.iter().any(|row| row.verdict.is_some());
    let headings = table
        .headings
        .iter()
        .zip(&units)
        .map(|(heading, unit)| match unit {
            Some(unit) if !unit.symbol.is_empty() => format!("{heading} ({})", unit.symbol),
            _ => (*heading).to_string(),
        });
    let mut text = line(headings.chain(verdicts.then(|| "Verdict".to_string())));
    for row in &table.rows {
        let cells = row
            .cells
            .iter()
            .zip(&units)
            .map(|(cell, unit)| match (cell.measure(), unit) {
                (Some(measure), Some(unit)) => decimal(unit.from_si(measure.si)),
                _ => cell.text(system),
            });
        let verdict = verdicts.then(|| {
            row.verdict
                .map_or_else(String::new, |verdict| verdict.word().to_string())
        });
        text.push_str(&line(cells.chain(verdict)));
    }
    text
}

/// What the numbers of a column measure; none when they differ or there are none.
fn quantity_of(table: &Table, column: usize) -> Option<Quantity> {
    let mut found = None;
    for row in &table.rows {
        if let Some(measure) = row.cells.get(column).and_then(Slot::measure) {
            match found {
                None => found = Some(measure.quantity),
                Some(quantity) if quantity == measure.quantity => {}
                Some(_) => return None,
            }
        }
    }
    found
}

/// Six significant digits, no exponent; nothing for what is not finite.
fn decimal(number: f64) -> String {
    if !number.is_finite() {
        return String::new();
    }
    let whole_digits = if number == 0.0 {
        1.0
    } else {
        number.abs().log10().floor() + 1.0
    };
    // Between 0 and 12 by the clamp.
    let decimals = (6.0 - whole_digits).clamp(0.0, 12.0) as usize;
    let text = format!("{number:.decimals$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_string()
    } else {
        text
    }
}

fn line(cells: impl Iterator<Item = String>) -> String {
    let cells: Vec<String> = cells.map(|cell| quoted(&cell)).collect();
    cells.join(",") + "\r\n"
}

/// Quoted where needed. A leading `=`, `+`, `-` or `@` of words would be taken for a formula by a spreadsheet, so such
/// words get an apostrophe in front.
fn quoted(cell: &str) -> String {
    let formula = cell.starts_with(['=', '+', '-', '@']) && cell.parse::<f64>().is_err();
    let cell = if formula {
        format!("'{cell}")
    } else {
        cell.to_string()
    };
    if cell.contains([',', '"', '\r', '\n']) {
        format!("\"{}\"", cell.replace('"', "\"\""))
    } else {
        cell
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::phrase::Measure;
    use crate::review::{TableRow, Verdict};

    #[test]
    fn numbers_of_one_kind_are_plain_and_the_rest_is_words() {
        let row = |name: &str, si, verdict| TableRow {
            verdict,
            cells: vec![name.into(), Measure::new(Quantity::Length, si).into()],
        };
        let table = Table {
            headings: vec!["Hole", "Height"],
            rows: vec![
                row("Gas, outlet", 0.381, Some(Verdict::Good)),
                row("=1+1", -1.0 / 3.0, None),
            ],
        };
        assert_eq!(
            csv(&table, System::Metric),
            "Hole,Height (mm),Verdict\r\n\"Gas, outlet\",381,Good\r\n'=1+1,-333.333,\r\n"
        );
        assert!(csv(&table, System::Inch).contains("\"Gas, outlet\",15,Good"));
        assert_eq!(decimal(f64::NAN), "");
    }
}
