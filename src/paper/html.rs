//! A sheet as a piece of a page, for the screen, the printer and a file.
//!
//! All words are escaped; drawings are taken as they are, since they are of our own making.

use super::foot;
use super::sheet::{BOX, Block, Sheet};
use super::tiling::Paper;
use crate::design::phrase::Slot;
use crate::design::quantity::System;
use crate::review::{Table, TableRow, Verdict};
use std::borrow::Cow;
use std::fmt::Write as _;

/// Text that means nothing to a page but itself.
///
/// ```
/// assert_eq!(hearthplan::paper::html::escaped("a < b & \"c\""), "a &lt; b &amp; &quot;c&quot;");
/// ```
pub fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            other => safe.push(other),
        }
    }
    safe
}

/// The blocks of a sheet in their order, without its heading, as they stand on paper.
pub fn blocks(sheet: &Sheet, system: System) -> String {
    written(sheet, system, Medium::Paper)
}

/// As [`blocks`], for a screen: a box that can be ticked is a button with `data-act="tick"`, and the place of its row,
/// counted from zero, as `data-of`. What is only there to be filled in by hand is left out.
pub fn blocks_on_screen(sheet: &Sheet, system: System) -> String {
    written(sheet, system, Medium::Screen)
}

/// What a sheet is written for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Medium {
    Paper,
    Screen,
}

fn written(sheet: &Sheet, system: System, medium: Medium) -> String {
    let mut page = String::new();
    for block in &sheet.blocks {
        write_block(&mut page, block, system, medium);
    }
    page
}

/// A whole page with all sheets, to be kept as a file and printed anywhere.
pub fn document(title: &str, sheets: &[Sheet], system: System, paper: Paper) -> String {
    let mut page = format!(
        "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\
         <meta name=\"viewport\" content=\"width=device-width\"><title>{}</title><style>{}{}</style></head><body>\n",
        escaped(title),
        STYLE,
        foot::rules(title, sheets, paper)
    );
    for sheet in sheets {
        // Writing to a string cannot fail.
        let _ = writeln!(
            page,
            "<section id=\"{name}\" data-page=\"{name}\"><h1>{}</h1><p>{}</p>{}</section>",
            escaped(sheet.title),
            escaped(sheet.meaning),
            blocks(sheet, system),
            name = sheet.name
        );
    }
    page.push_str("</body></html>\n");
    page
}

/// Plain look of the file: black on white, a sheet begins on a new page.
const STYLE: &str = "body{font:11pt/1.4 sans-serif;margin:1cm;color:#000;background:#fff}\
section+section{break-before:page}p::first-letter{text-transform:uppercase}table{border-collapse:collapse;width:100%}\
table{margin-top:1em}caption{text-align:left;font-weight:bold}th,td{border-bottom:1px solid #777;padding:2pt 6pt 2pt 0;text-align:left}\
.number{white-space:nowrap;text-align:right}.words,th.number{white-space:normal}.many{font-size:8pt}tr,svg,.short{break-inside:avoid}.short+figure{break-before:avoid}.caution{border-left:4px solid #000;padding-left:8pt}\
h4{font-size:11pt;margin:8pt 0 0;break-after:avoid}h4+p{margin-top:0}.mark{width:1em;height:1em;margin-right:4pt;vertical-align:-.1em}\
.fill-in span{display:inline-block;border-bottom:1px solid #000;min-width:6cm}\
figure{margin:1em 0}svg{max-width:100%;height:auto}\
@media print{body{margin:0}}svg:not(.plan) :is(path,line,circle,polyline,polygon){stroke:#000;fill:none}";

fn write_block(page: &mut String, block: &Block, system: System, medium: Medium) {
    // Writing to a string cannot fail.
    let _ = match block {
        Block::Heading(text) => write!(page, "<h3>{}</h3>", escaped(text)),
        Block::Text(text) => match text.text(system).as_str() {
            // It is for whoever works in other units.
            "" => Ok(()),
            text => write!(page, "<p>{}</p>", escaped(text)),
        },
        Block::Caution(text) => write!(page, "<p class=\"caution\">{}</p>", escaped(text)),
        Block::Answer {
            verdict,
            question,
            words,
        } => write!(
            page,
            "<h4 class=\"{}\">{}{}</h4><p>{}</p>",
            class(*verdict),
            mark(*verdict),
            escaped(question),
            escaped(&words.text(system))
        ),
        Block::Points(points) => {
            page.push_str("<ul>");
            let points = points.iter().map(|point| point.text(system));
            for point in points.filter(|point| !point.is_empty()) {
                let _ = write!(page, "<li>{}</li>", escaped(&point));
            }
            write!(page, "</ul>")
        }
        Block::Table {
            name,
            caption,
            table,
        } => {
            let shown = match medium {
                Medium::Paper => Cow::Borrowed(table),
                Medium::Screen => Cow::Owned(without_blanks(table)),
            };
            if 2 * shown.headings.len() < table.headings.len() {
                // What is left names rows alone, which stand elsewhere too.
                let caption = escaped(caption);
                write!(page, "<p>{caption}: a table of the printed sheet.</p>")
            } else {
                let _ = write!(
                    page,
                    "<table class=\"{}\" data-table=\"{}\"><caption>{}</caption>",
                    classes(&shown),
                    escaped(name),
                    escaped(caption)
                );
                write_rows(page, &shown, system, medium);
                write!(page, "</table>")
            }
        }
        Block::Drawing { svg, words, .. } => write!(
            page,
            "<figure role=\"img\" aria-label=\"{}\" tabindex=\"0\">{svg}</figure>",
            escaped(words)
        ),
        Block::FillIn(_) if medium == Medium::Screen => Ok(()),
        Block::FillIn(lines) => {
            page.push_str("<ul class=\"fill-in\">");
            for line in lines {
                let _ = write!(page, "<li>{} <span></span></li>", escaped(line));
            }
            write!(page, "</ul>")
        }
    };
}

/// Whether there is nothing in a cell but room to write or to tick by hand.
fn is_blank(cell: &Slot) -> bool {
    matches!(cell, Slot::Name(text) if text.is_empty() || text == BOX)
}

/// The table without the columns that are only there to be filled in by hand.
fn without_blanks(table: &Table) -> Table {
    let is_kept = |place: &usize| {
        let mut cells = table.rows.iter().filter_map(|row| row.cells.get(*place));
        *place == 0 || !cells.all(is_blank)
    };
    let kept: Vec<usize> = (0..table.headings.len()).filter(is_kept).collect();
    let rows = table.rows.iter().map(|row| TableRow {
        verdict: row.verdict,
        cells: (kept.iter())
            .filter_map(|place| row.cells.get(*place).cloned())
            .collect(),
    });
    Table {
        headings: (kept.iter())
            .filter_map(|place| table.headings.get(*place).copied())
            .collect(),
        rows: rows.collect(),
    }
}

fn has_verdicts(table: &Table) -> bool {
    table.rows.iter().any(|row| row.verdict.is_some())
}

/// Rows of a table that is kept on one page.
const SHORT: usize = 14;

/// What the stylesheet goes by: name and value share a line on a phone; many headings stand upright where it is narrow;
/// what is short is not torn apart.
fn classes(table: &Table) -> String {
    let width = match table.headings.len() + usize::from(has_verdicts(table)) {
        ..=2 => "pairs",
        3..=7 => "",
        _ => "many",
    };
    let length = if table.rows.len() <= SHORT {
        "short"
    } else {
        ""
    };
    [width, length].join(" ").trim().to_string()
}

fn write_rows(page: &mut String, table: &Table, system: System, medium: Medium) {
    let verdicts = has_verdicts(table);
    page.push_str("<thead><tr>");
    let places = 0..table.headings.len();
    let at_right: Vec<bool> = places.map(|place| at_right(table, place)).collect();
    for (heading, at_right) in table.headings.iter().zip(&at_right) {
        let class = if *at_right { " class=\"number\"" } else { "" };
        let _ = write!(page, "<th{class} scope=\"col\">{}</th>", escaped(heading));
    }
    if verdicts {
        page.push_str("<th scope=\"col\">Verdict</th>");
    }
    page.push_str("</tr></thead><tbody>");
    for (number, row) in table.rows.iter().enumerate() {
        page.push_str("<tr>");
        for (place, (cell, heading)) in row.cells.iter().zip(&table.headings).enumerate() {
            let text = cell.text(system);
            let at_right = at_right.get(place).is_some_and(|at_right| *at_right);
            let class = cell_class(cell, &text, at_right);
            let text = match cell {
                Slot::Tick(ticked) if medium == Medium::Screen => {
                    button_to_tick(row, number, heading, *ticked, system)
                }
                _ => escaped(&text),
            };
            let _ = if place == 0 {
                write!(page, "<th scope=\"row\">{text}</th>")
            } else {
                write!(
                    page,
                    "<td{class} data-label=\"{}\">{text}</td>",
                    escaped(heading)
                )
            };
        }
        if verdicts {
            let (class, word) = row
                .verdict
                .map_or(("", ""), |verdict| (class(verdict), verdict.word()));
            let _ = write!(
                page,
                "<td class=\"verdict {class}\" data-label=\"Verdict\">{word}</td>"
            );
        }
        page.push_str("</tr>");
    }
    page.push_str("</tbody>");
}

/// A box as a button, named by its column and by what stands before it in its row.
fn button_to_tick(
    row: &TableRow,
    number: usize,
    heading: &str,
    ticked: bool,
    system: System,
) -> String {
    let before = (row.cells.iter()).take_while(|cell| !matches!(cell, Slot::Tick(_)));
    let named: Vec<String> = before.take(2).map(|cell| cell.text(system)).collect();
    format!(
        "<button type=\"button\" class=\"box\" data-act=\"tick\" data-of=\"{number}\" aria-pressed=\"{ticked}\" aria-label=\"{}: {}\">{}</button>",
        escaped(heading),
        escaped(&named.join(", ")),
        Slot::Tick(ticked).text(system)
    )
}

/// Whether a column stands at the right, all of it: that of one kind of number, with a word here and there. Values of
/// all kinds are not compared with each other: they stand at the left, near to what they are of.
fn at_right(table: &Table, place: usize) -> bool {
    let cells = || table.rows.iter().filter_map(|row| row.cells.get(place));
    let kinds: Vec<_> = cells()
        .filter_map(|cell| Some(cell.measure()?.quantity))
        .collect();
    let words = cells().count() - kinds.len();
    let Some(first) = kinds.first().filter(|_| place > 0) else {
        return false;
    };
    words <= kinds.len() && kinds.iter().all(|kind| kind == first)
}

/// Signs of a text that takes lines of its own on a phone.
const LONG: usize = 40;

/// How a cell stands: at the right, a number on one line; or as a longer text.
fn cell_class(cell: &Slot, text: &str, at_right: bool) -> &'static str {
    match (cell, at_right) {
        (Slot::Measure(_), true) => " class=\"number\"",
        (_, true) => " class=\"number words\"",
        (Slot::Measure(_), false) => " class=\"value\"",
        _ if text.chars().count() > LONG => " class=\"text\"",
        _ => "",
    }
}

/// The style class of a verdict.
pub fn class(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Good => "good",
        Verdict::Watch => "watch",
        Verdict::CannotTell => "cannot-tell",
        Verdict::Stop => "stop",
    }
}

/// The shape of a verdict, so that it never depends on colour. Circle with a tick, triangle, diamond with a question mark,
/// octagon with a bar: the outline and what is in it, on a sheet of 20 by 20.
pub fn shape(verdict: Verdict) -> (&'static str, &'static str) {
    match verdict {
        Verdict::Good => (
            "M10 2a8 8 0 1 0 0 16a8 8 0 1 0 0-16z",
            "M6 10.5l3 3 5.5-6.5",
        ),
        Verdict::Watch => ("M10 2l9 16H1z", "M10 8v5M10 14.8v.7"),
        Verdict::CannotTell => (
            "M10 1l9 9-9 9-9-9z",
            "M7.8 8a2.2 2.2 0 1 1 2.2 2.6v1.4M10 13.8v.7",
        ),
        Verdict::Stop => ("M6.5 1.5h7l5 5v7l-5 5h-7l-5-5v-7z", "M5.5 10h9"),
    }
}

/// That shape beside words that tell the verdict too.
pub fn mark(verdict: Verdict) -> String {
    let (outline, sign) = shape(verdict);
    format!(
        "<svg class=\"mark\" viewBox=\"0 0 20 20\" width=\"20\" height=\"20\" aria-hidden=\"true\">\
         <path class=\"mark-outline\" d=\"{outline}\"/><path class=\"mark-sign\" d=\"{sign}\"/></svg>"
    )
}
