//! Which templates there are, how large they are, and which cannot be made.

use super::marking::as_wide;
use super::{cell, judged, row, table};
use crate::design::Design;
use crate::design::quantity::Quantity as Q;
use crate::paper::sheet::{Block, Sheet};
use crate::paper::tiling::{self, page_count};
use crate::review::{Assessment, TableRow, Verdict};
use crate::sizing::pattern::{Entry, Pattern, patterns};

pub(super) fn sheet(design: &Design, assessment: &Assessment) -> Sheet {
    let entries = patterns(design);
    let mut sheet = Sheet::new(
        "templates",
        "List of templates",
        "Which patterns there are, and how many pages each takes at true size, to be stuck on the work or sent to a cutter. The patterns are printed apart from this list.",
        &["holes", "flanges", "grate", "hearth"],
    );
    let mut add = |block| sheet.blocks.push(block);
    if let Some(warning) = as_wide(assessment) {
        add(warning);
        add(Block::Text("“Shell, unrolled” and the holes follow that vessel, sheets and plates the layers entered: cut none of them until both agree.".into()));
    }
    let made = (entries.iter())
        .filter_map(|entry| Some(size(entry.pattern.as_ref().ok()?)))
        .collect();
    add(table(
        "templates",
        "Templates and their pages at true size",
        &[
            "Template",
            "Width of all",
            "Height of all",
            "Pages A4",
            "Pages Letter",
            "Use",
        ],
        made,
        "No template can be made from what is entered.",
    ));
    let refused: Vec<TableRow> = entries.iter().filter_map(reason).collect();
    if !refused.is_empty() {
        add(table(
            "refused-templates",
            "Templates that cannot be made",
            &["Template", "Why"],
            refused,
            "",
        ));
    }
    add(Block::Points(
        [
            "Pages with nothing to cut, drill or mark on them are not printed. A template of several pages begins with an overview: where each page lies, by row and column. SVG and DXF hold the whole template.",
            "Printed in one go, small templates share a page: cut it up along their frames.",
            "Print at 100 %, not fitted to the page.",
            "Measure the check line of each page: it must be 100 mm (3 15/16 in) long. If not, do not use the page.",
            "Lay the crosses of neighbouring pages on each other, and stick the pages together.",
            "A page without a neighbour is placed by the distances at its foot: from a line of the work to its dashed frame. Mark both lower corners of the frame on the work first, so that it does not lie askew.",
            "Plain rectangles and discs are drawn as well with tape, square and compass, by the measures under “Use”: a rectangle is square once both diagonals are alike.",
            "Thick paper around a pipe comes out a little short: line up the edges, not one corner.",
        ]
        .map(Into::into)
        .to_vec(),
    ));
    sheet
}

fn size(pattern: &Pattern) -> TableRow {
    let bounds = pattern.bounds();
    let pages = |paper| {
        let sheet = tiling::Sheet {
            paper,
            ..tiling::Sheet::default()
        };
        match page_count(pattern, &sheet) {
            Ok(pages) => cell(Q::Count, pages as f64),
            Err(error) => error.to_string().into(),
        }
    };
    row(vec![
        pattern.name.as_str().into(),
        cell(Q::Length, bounds.width() / 1000.0),
        cell(Q::Length, bounds.height() / 1000.0),
        pages(tiling::Paper::A4),
        pages(tiling::Paper::Letter),
        pattern.note.as_str().into(),
    ])
}

fn reason(entry: &Entry) -> Option<TableRow> {
    let why = entry.pattern.as_ref().err()?;
    Some(judged(
        Verdict::CannotTell,
        vec![entry.name.as_str().into(), why.to_string().into()],
    ))
}
