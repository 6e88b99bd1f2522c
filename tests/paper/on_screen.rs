//! A sheet on the screen has nothing that only a pen could fill in.

use hearthplan::design::example;
use hearthplan::design::quantity::System;
use hearthplan::paper::html::{blocks, blocks_on_screen};
use hearthplan::paper::sheets::all;
use hearthplan::review::assess;

#[test]
fn boxes_and_lines_for_a_pen_stand_on_paper_alone() {
    let design = example::as_improved();
    let sheets = all(&design, &assess(&design), System::Metric, &[]);
    let (mut boxes, mut lines) = (0, 0);
    for sheet in &sheets {
        let paper = blocks(sheet, System::Metric);
        let screen = blocks_on_screen(sheet, System::Metric);
        boxes += paper.matches('☐').count();
        lines += paper.matches("class=\"fill-in\"").count();
        // What is left is a button.
        let buttons = screen.matches("data-act=\"tick\"").count();
        assert_eq!(screen.matches('☐').count(), buttons, "{}", sheet.name);
        assert!(!screen.contains("fill-in"), "{}", sheet.name);
        for heading in [
            "Read at first",
            "Read later",
            "Measured",
            "Pressure at the end",
        ] {
            let label = format!("data-label=\"{heading}\"");
            assert!(!screen.contains(&label), "{}: {heading}", sheet.name);
        }
        // As many headings as a row has cells.
        for table in screen.split("<table").skip(1) {
            let headings = table.matches("scope=\"col\"").count();
            for row in table.split("<tr>").skip(2) {
                let cells = row.matches("<td").count() + row.matches("scope=\"row\"").count();
                assert_eq!(cells, headings, "{}: {row}", sheet.name);
            }
        }
    }
    assert!(boxes > 40 && lines > 0, "{boxes} {lines}");
}

/// On a phone the first cell of a row is its heading.
#[test]
fn a_step_of_the_work_is_headed_by_what_is_done() {
    for own in [false, true] {
        let mut design = example::as_improved();
        design.workshop.own_order = own;
        let sheets = all(&design, &assess(&design), System::Metric, &[]);
        let order = sheets.iter().find(|sheet| sheet.name == "build-order");
        let (.., table) = order
            .unwrap()
            .tables()
            .find(|(name, ..)| *name == "build-order")
            .unwrap();
        for (place, row) in table.rows.iter().enumerate() {
            let heading = row.cells[0].text(System::Metric);
            let words = heading.strip_prefix(&format!("{} ", place + 1));
            assert!(words.is_some_and(|words| words.len() > 5), "{heading}");
        }
    }
}
