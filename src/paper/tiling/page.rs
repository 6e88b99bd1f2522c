//! One page as an SVG element at true size.

use super::Sheet;
use super::foot::foot;
use super::grid::Grid;
use crate::paper::number::decimal;
use crate::paper::svg;
use crate::sizing::pattern::{Label, Pattern};
use std::fmt::Write as _;

/// Half the width of a registration cross, mm.
pub(super) const ARM: f64 = 3.0;

/// Column and row of a page, from 0.
pub(super) type Place = [usize; 2];

/// The page at a place, with its words.
pub(super) fn page(
    pattern: &Pattern,
    sheet: &Sheet,
    grid: &Grid,
    place: Place,
    words: &[Label],
) -> String {
    let margin = sheet.margin;
    let mut page = head(grid.paper);
    page.push_str(&svg::window(
        pattern,
        &grid.window_at(place),
        [margin, margin],
        words,
    ));
    let _ = write!(
        page,
        "<g data-layer=\"PAGE\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.15\"><rect x=\"{m}\" y=\"{m}\" \
         width=\"{w}\" height=\"{h}\" stroke-dasharray=\"2 2\"/>",
        m = decimal(margin),
        w = decimal(grid.window[0]),
        h = decimal(grid.window[1]),
    );
    for (x, y) in crosses(sheet, grid, place) {
        let (x, y) = (margin + x, margin + y);
        let _ = write!(
            page,
            "<path d=\"M{} {}H{}M{} {}V{}\"/>",
            decimal(x - ARM),
            decimal(y),
            decimal(x + ARM),
            decimal(x),
            decimal(y - ARM),
            decimal(y + ARM)
        );
    }
    page.push_str("</g><g data-layer=\"PAGE\">");
    page.push_str(&foot(pattern, sheet, grid, Some(place)));
    page.push_str("</g></svg>");
    page
}

/// The beginning of a page.
pub(super) fn head(paper: [f64; 2]) -> String {
    let [width, height] = paper.map(decimal);
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" \
         viewBox=\"0 0 {width} {height}\">"
    )
}

/// A rectangle with its upper left corner here.
pub(super) fn box_at([x, y]: [f64; 2], [width, height]: [f64; 2], fill: &str) -> String {
    format!(
        "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"{fill}\" stroke=\"#000\" stroke-width=\"0.2\"/>",
        decimal(x),
        decimal(y),
        decimal(width),
        decimal(height)
    )
}

/// Words that begin here, on a line of this size.
pub(super) fn written([x, y]: [f64; 2], size: f64, text: &str) -> String {
    format!(
        "<text x=\"{}\" y=\"{}\" fill=\"#000\" font-family=\"sans-serif\" font-size=\"{}\">{}</text>",
        decimal(x),
        decimal(y),
        decimal(size),
        svg::escaped(text)
    )
}

/// Registration crosses of a page, from the window's upper left corner, mm: three in the middle of
/// each strip that it shares with a neighbour that is printed.
fn crosses(sheet: &Sheet, grid: &Grid, [column, row]: Place) -> Vec<(f64, f64)> {
    let strip = |axis: usize, before: Option<Place>, after: Place| {
        let before = before
            .filter(|place| grid.prints(*place))
            .map(|_| 0.5 * sheet.overlap);
        let after = (grid.prints(after)).then_some(grid.window[axis] - 0.5 * sheet.overlap);
        before.into_iter().chain(after)
    };
    let along = |axis: usize| [0.25, 0.5, 0.75].map(|share| share * grid.window[axis]);
    let left = column.checked_sub(1).map(|left| [left, row]);
    let above = row.checked_sub(1).map(|above| [column, above]);
    let upright = strip(0, left, [column + 1, row]).flat_map(|x| along(1).map(|y| (x, y)));
    let lying = strip(1, above, [column, row + 1]).flat_map(|y| along(0).map(|x| (x, y)));
    upright.chain(lying).collect()
}
