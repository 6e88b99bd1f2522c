//! Rows of numbers for a screen, a sheet of paper or a file, worded in the person's own units only when shown.

use super::finding::Verdict;
use crate::design::phrase::Slot;

/// A row of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct TableRow {
    /// The verdict on the row, where there is one.
    pub verdict: Option<Verdict>,
    /// One cell for each heading; the first names the row.
    pub cells: Vec<Slot>,
}

/// A table.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Table {
    /// One for each column.
    pub headings: Vec<&'static str>,
    /// From top to bottom.
    pub rows: Vec<TableRow>,
}
