//! What stands at the foot of a page: its name, its check line, and where it belongs.

use super::Sheet;
use super::grid::Grid;
use super::page::{Place, box_at, written};
use crate::design::quantity::{Quantity, System};
use crate::paper::number::decimal;
use crate::sizing::pattern::{CHECK_LINE, Pattern, Reference};
use std::fmt::Write as _;

/// Height of it, mm.
pub(super) const FOOT: f64 = 32.0;
/// Most characters of the design's name.
const LONGEST: usize = 80;
/// Size of small words and from line to line, mm.
pub(super) const SMALL: f64 = 2.9;
pub(super) const LINE: f64 = 3.6;
/// Most lines of small words: more would reach the name below them.
const MOST_LINES: usize = 4;
/// Width of a small letter, on the safe side, mm.
pub(super) const LETTER: f64 = 1.5;
/// Room for the map, mm.
const MAP: [f64; 2] = [55.0, 13.0];

/// The foot of a page; the overview has no place.
pub(super) fn foot(pattern: &Pattern, sheet: &Sheet, grid: &Grid, place: Option<Place>) -> String {
    let margin = sheet.margin;
    let [right, line] = corner(sheet, grid.paper);
    let [columns, rows] = grid.counts;
    let name = match place {
        Some([column, row]) => format!(
            "{}: row {} of {rows}, column {} of {columns}",
            pattern.name,
            row + 1,
            column + 1
        ),
        None => format!("{}: overview, not to scale", pattern.name),
    };
    let mut foot = ground(sheet, grid.paper, &name);
    let is_alone = grid.printed.len() == 1;
    let (words, room) = match place {
        Some(place) if !is_alone => {
            foot.push_str(&map(grid, place, [right + 5.0, line - 25.0]));
            (
                position(pattern, grid, place),
                grid.window[0] - MAP[0] - 5.0,
            )
        }
        _ => (pattern.note.clone(), grid.window[0]),
    };
    let mut lines = wrapped(&words, (room / LETTER) as usize);
    if lines.len() > MOST_LINES {
        lines.truncate(MOST_LINES);
        if let Some(last) = lines.last_mut() {
            last.push_str(" …");
        }
    }
    for (at, text) in lines.iter().enumerate() {
        let y = line - 24.0 + LINE * at as f64;
        foot.push_str(&written([margin, y], SMALL, text));
    }
    foot
}

/// Right end of the check line.
fn corner(sheet: &Sheet, paper: [f64; 2]) -> [f64; 2] {
    [paper[0] - sheet.margin - 5.0, paper[1] - sheet.margin - 4.0]
}

/// What stands at the foot of any page: the name of the design, its own, and its check line.
pub(super) fn ground(sheet: &Sheet, paper: [f64; 2], name: &str) -> String {
    let mut ground = String::new();
    let margin = sheet.margin;
    let [right, line] = corner(sheet, paper);
    let left = right - CHECK_LINE;
    // Writing to a String cannot fail.
    let _ = write!(
        ground,
        "<path data-check=\"100\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.15\" \
         d=\"M{l} {y}H{r}M{l} {up}V{down}M{r} {up}V{down}\"/>",
        l = decimal(left),
        r = decimal(right),
        y = decimal(line),
        up = decimal(line - 2.0),
        down = decimal(line + 2.0),
    );
    let design: String = sheet.design.chars().take(LONGEST).collect();
    for (x, y, text) in [
        (margin, line - 9.0, design.as_str()),
        (margin, line - 4.5, name),
        (left, line - 2.5, "Must measure 100 mm (3 15/16 in)"),
        (margin, line, "Print at 100 %, not fitted"),
    ] {
        ground.push_str(&written([x, y], 4.0, text));
    }
    ground
}

/// Where the frame of a page lies, measured from lines that are found on the work.
pub(super) fn position(pattern: &Pattern, grid: &Grid, place: Place) -> String {
    let window = grid.window_at(place);
    let told = |lines: &[Reference], side: f64, [before, after]: [&str; 2]| {
        let from = lines.iter().map(|line| {
            let away = side - line.at;
            match away {
                away if away < 0.0 => format!("{} {before} {}", both(-away), line.name),
                _ => format!("{} {after} {}", both(away), line.name),
            }
        });
        from.collect::<Vec<_>>().join(" = ")
    };
    format!(
        "To place it alone, measure to the dashed frame. Its left side: {}. Its lower side: {}.",
        told(&pattern.upright, window.left, ["left of", "right of"]),
        told(&pattern.level, window.low, ["below", "above"])
    )
}

/// A length of so many mm for either rule.
fn both(mm: f64) -> String {
    let [metric, inch] =
        [System::Metric, System::Inch].map(|system| Quantity::Length.show(mm / 1000.0, system));
    format!("{metric} ({inch})")
}

/// Which pages are printed, and which of them this is: its upper right corner stands here.
fn map(grid: &Grid, [column, row]: Place, [right, top]: [f64; 2]) -> String {
    let [columns, rows] = grid.counts.map(|count| count as f64);
    let side = (MAP[0] / columns).min(MAP[1] / rows).min(4.0);
    let left = right - side * columns;
    let mut map = String::new();
    for place in &grid.printed {
        let at = [left + side * place[0] as f64, top + side * place[1] as f64];
        let fill = if *place == [column, row] {
            "#000"
        } else {
            "none"
        };
        map.push_str(&box_at(at, [side, side], fill));
    }
    map
}

/// Words in lines of so many letters.
pub(super) fn wrapped(words: &str, most: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= most => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_string()),
        }
    }
    lines
}
