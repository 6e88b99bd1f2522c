//! What stands in the tables of the sheets agrees with the answers, and reads back.

use super::{DESIGNS, examples, made};
use crate::random_design::random_design;
use hearthplan::design::example;
use hearthplan::design::phrase::Slot;
use hearthplan::design::quantity::System;
use hearthplan::paper::csv;
use hearthplan::paper::sheet::Block;

#[test]
fn masses_on_the_parts_list_add_up_to_the_weight() {
    for design in &examples() {
        let (assessment, sheets) = made(design);
        let parts = sheets.iter().find(|sheet| sheet.name == "parts").unwrap();
        let mut sum = 0.0;
        for (name, _, table) in parts.tables() {
            let Some(column) = table
                .headings
                .iter()
                .position(|heading| *heading == "Mass")
                .filter(|_| name.starts_with("parts-"))
            else {
                continue;
            };
            for row in &table.rows {
                let counted = row.cells[column + 1].text(System::Metric);
                let weighs = match counted.as_str() {
                    "at its place" | "with its sub-assembly" => true,
                    "as other parts" | "missing" => false,
                    "missing, no other part is named for it: buy it" => false,
                    named if named.starts_with("as “") => false,
                    other => panic!("counted {other}"),
                };
                if let Slot::Measure(mass) = &row.cells[column]
                    && weighs
                {
                    sum += mass.si;
                }
            }
        }
        let results = assessment.results();
        let empty = results
            .iter()
            .find(|result| result.name == "standing.mass_empty")
            .unwrap();
        assert!(
            (sum - empty.measure.si).abs() < 1e-6,
            "{sum} against {}",
            empty.measure.si
        );
    }
}

/// Reads comma-separated values back (RFC 4180).
fn parsed(text: &str) -> Vec<Vec<String>> {
    let mut rows = Vec::new();
    let mut row = vec![String::new()];
    let mut quoted = false;
    let mut signs = text.chars().peekable();
    while let Some(sign) = signs.next() {
        match sign {
            '"' if quoted && signs.peek() == Some(&'"') => {
                signs.next();
                row.last_mut().unwrap().push('"');
            }
            '"' => quoted = !quoted,
            ',' if !quoted => row.push(String::new()),
            '\n' if !quoted => rows.push(std::mem::replace(&mut row, vec![String::new()])),
            '\r' if !quoted => {}
            other => row.last_mut().unwrap().push(other),
        }
    }
    assert!(!quoted, "a quote stays open");
    assert_eq!(row, [""], "the last line has no end");
    rows
}

#[test]
fn tables_read_back_as_they_were_written() {
    for seed in 0..DESIGNS / 5 {
        let (_, sheets) = made(&random_design(seed));
        for (name, _, table) in sheets.iter().flat_map(|sheet| sheet.tables()) {
            let rows = parsed(&csv::csv(table, System::Metric));
            assert_eq!(rows.len(), table.rows.len() + 1, "seed {seed}: {name}");
            let verdicts = table.rows.iter().any(|row| row.verdict.is_some());
            for (read, written) in rows.iter().skip(1).zip(&table.rows) {
                assert_eq!(read.len(), written.cells.len() + usize::from(verdicts));
                for (text, cell) in read.iter().zip(&written.cells) {
                    if let Slot::Name(name) = cell {
                        // A name that a spreadsheet could take for a formula has an apostrophe before it.
                        assert_eq!(text.trim_start_matches('\''), name.trim_start_matches('\''));
                    }
                }
            }
        }
    }
}

#[test]
fn hold_points_and_boxes_stand_in_the_build_order() {
    let mut design = example::as_improved();
    design.workshop.own_order = false;
    let (assessment, sheets) = made(&design);
    let sheet = sheets
        .iter()
        .find(|sheet| sheet.name == "build-order")
        .unwrap();
    let (_, _, table) = sheet.tables().next().unwrap();
    let steps = assessment.order.computed.unwrap();
    assert_eq!(table.rows.len(), steps.len());
    let held = table
        .rows
        .iter()
        .filter(|row| row.cells[2] == Slot::from("HOLD"))
        .count();
    assert_eq!(held, steps.iter().filter(|step| step.hold).count());
    assert!(held > 0);
    let cautions = sheet
        .blocks
        .iter()
        .filter(|block| matches!(block, Block::Caution(_)))
        .count();
    assert!(cautions >= 2, "hot work and lifting");
}

#[test]
fn what_must_be_emptied_is_told_at_the_load_at_which_it_comes_soonest() {
    use hearthplan::sizing::train::Detail;
    let design = example::as_improved();
    let (assessment, sheets) = made(&design);
    let train = &assessment.train;
    let time = |solved: &hearthplan::sizing::train::TrainSolution| {
        let traps = solved
            .outcomes
            .iter()
            .filter_map(|outcome| match &outcome.detail {
                Detail::Trap(trap) => trap.drain_interval,
                _ => None,
            });
        traps.map(|time| time.value).fold(f64::INFINITY, f64::min)
    };
    let [full, usual] =
        [&train.full_clean, &train.usual].map(|solved| time(solved.as_ref().unwrap()));
    assert!(
        usual < full,
        "the example no longer shows it: {usual} {full}"
    );
    let sheet = sheets
        .iter()
        .find(|sheet| sheet.name == "gas-train")
        .unwrap();
    let rows = sheet.blocks.iter().find_map(|block| match block {
        Block::Table { name, table, .. } if name == "maintenance" => Some(&table.rows),
        _ => None,
    });
    let trap = rows.unwrap().iter().find(|row| {
        matches!(&row.cells[2], Slot::Measure(measure) if (measure.si - usual).abs() < 1e-6 * usual)
    });
    let Slot::Name(load) = &trap.unwrap().cells[3] else {
        panic!("no load");
    };
    assert_eq!(&**load, "usual load");
}
