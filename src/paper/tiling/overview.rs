//! A page that shows the whole template small, with the frames of the pages that are printed.

use super::Sheet;
use super::foot::foot;
use super::grid::Grid;
use super::page::{box_at, head, written};
use crate::paper::svg;
use crate::sizing::pattern::{Bounds, Label, Pattern};

/// Height of its capitals, mm.
const LETTERS: f64 = 2.2;
/// Room left around the template, for words at its edge, as a share of its longer side.
const AROUND: f64 = 0.02;
/// Room for the words above it, mm.
const ABOVE: f64 = 12.0;

/// The overview of a template.
pub(super) fn page(pattern: &Pattern, sheet: &Sheet, grid: &Grid) -> String {
    let margin = sheet.margin;
    let [columns, rows] = grid.counts;
    let (first, last) = (
        grid.window_at([0, 0]),
        grid.window_at([columns - 1, rows - 1]),
    );
    let mut shape = pattern.bounds();
    let around = AROUND * shape.width().max(shape.height());
    shape.left -= around;
    shape.low -= around;
    shape.right += around;
    shape.high += around;
    let whole = Bounds {
        left: first.left.min(shape.left),
        low: last.low.min(shape.low),
        right: last.right.max(shape.right),
        high: first.high.max(shape.high),
    };
    let room = [grid.window[0], grid.window[1] - ABOVE];
    let scale = (room[0] / whole.width()).min(room[1] / whole.height());
    let mut page = head(grid.paper);
    let corner = [margin, margin + ABOVE];
    page.push_str(&svg::scaled(
        pattern,
        &whole,
        corner,
        scale,
        &names(pattern, scale),
    ));
    page.push_str("<g data-layer=\"PAGE\">");
    for place in &grid.printed {
        let window = grid.window_at(*place);
        let at = [
            corner[0] + scale * (window.left - whole.left),
            corner[1] + scale * (whole.high - window.high),
        ];
        page.push_str(&box_at(at, grid.window.map(|side| scale * side), "none"));
        let name = format!("{}/{}", place[1] + 1, place[0] + 1);
        page.push_str(&written([at[0] + 1.0, at[1] + 4.0], 3.4, &name));
    }
    let all = columns * rows;
    let left_out = all - grid.printed.len();
    let have = if left_out == 1 { "has" } else { "have" };
    let told = format!(
        "The pages that are printed, each with its row / column. {left_out} of {all} {have} nothing to cut, drill or mark on {}.",
        if left_out == 1 { "it" } else { "them" }
    );
    page.push_str(&written([margin, margin + 4.0], 4.0, &told));
    page.push_str(&written(
        [margin, margin + 9.0],
        4.0,
        "Neighbours are joined cross on cross. What has no neighbour is placed by the distances at its foot.",
    ));
    page.push_str(&foot(pattern, sheet, grid, None));
    page.push_str("</g></svg>");
    page
}

/// Each word of the template once, to be read at this scale.
fn names(pattern: &Pattern, scale: f64) -> Vec<Label> {
    let mut names: Vec<Label> = Vec::new();
    for label in &pattern.labels {
        if !names.iter().any(|name| name.text == label.text) {
            names.push(Label {
                height: LETTERS / scale,
                ..label.clone()
            });
        }
    }
    names
}
