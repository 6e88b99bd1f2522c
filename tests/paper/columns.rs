//! How tables stand on a page.

use hearthplan::design::example;
use hearthplan::design::quantity::System;
use hearthplan::paper::html;
use hearthplan::paper::sheets::all;
use hearthplan::review::assess;
use std::collections::BTreeSet;

/// A column is at one side: that of a value of any kind at the left, that of one kind of number at the right.
#[test]
fn a_column_has_one_alignment() {
    let mut columns = 0;
    for design in [example::as_first_drawn(), example::as_improved()] {
        let sheets = all(&design, &assess(&design), System::Metric, &[]);
        for sheet in &sheets {
            let page = html::blocks(sheet, System::Metric);
            for table in page.split("<table").skip(1) {
                let rows = table.split("<tr>").skip(2);
                let of_row = |row: &str| -> Vec<bool> {
                    let cells = row.split("<td").skip(1);
                    cells
                        .map(|cell| cell.starts_with(" class=\"number"))
                        .collect()
                };
                let rows: BTreeSet<_> = rows.map(of_row).collect();
                assert_eq!(rows.len(), 1, "{}: {table}", sheet.name);
                columns += rows.iter().map(Vec::len).sum::<usize>();
            }
        }
        let marking = sheets.iter().find(|sheet| sheet.name == "marking").unwrap();
        let page = html::blocks(marking, System::Metric);
        assert!(
            page.contains("<table class=\"pairs short\" data-table=\"vessel\">"),
            "{page}"
        );
    }
    assert!(columns > 100);
}
