//! A template cut up over sheets of paper, to be printed at true size and stuck together.

use super::number::decimal;
use super::svg;
use crate::design::quantity::System;
use crate::sizing::pattern::{Bounds, CHECK_LINE, Pattern};
use std::fmt::Write as _;
use thiserror::Error;

/// Foot of each page for its label and check line, mm.
const FOOT: f64 = 18.0;
/// Most characters of the design's name at the foot.
const LONGEST: usize = 80;
/// Most pages for one template.
const MOST_PAGES: usize = 400;
/// Half the width of a registration cross, mm.
const ARM: f64 = 3.0;

/// Size of the paper in the printer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Paper {
    /// 210 by 297 mm (ISO 216).
    #[default]
    A4,
    /// 8.5 by 11 in.
    Letter,
}

impl Paper {
    /// The paper usual where the units are.
    pub fn usual(system: System) -> Self {
        match system {
            System::Metric => Paper::A4,
            System::Inch => Paper::Letter,
        }
    }

    /// Width and height held upright, mm.
    pub(super) fn upright(self) -> [f64; 2] {
        match self {
            Paper::A4 => [210.0, 297.0],
            Paper::Letter => [215.9, 279.4],
        }
    }
}

/// How a template is cut up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sheet<'a> {
    /// Paper in the printer.
    pub paper: Paper,
    /// Edge that the printer leaves white, 0 to 40 mm.
    pub margin: f64,
    /// Width that neighbouring pages share, 0 to 40 mm.
    pub overlap: f64,
    /// Name of the design, for the foot of each page; empty for none.
    pub design: &'a str,
}

impl Default for Sheet<'_> {
    /// A4, with what most printers can do.
    fn default() -> Self {
        Self {
            paper: Paper::A4,
            margin: 10.0,
            overlap: 10.0,
            design: "",
        }
    }
}

/// Why a template cannot be cut up.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum TilingError {
    /// Margin or overlap leave no room.
    #[error("{what} is {given:.1} mm; it must lie between 0 and 40 mm")]
    OutOfRange {
        /// What was given, in words.
        what: &'static str,
        /// The measure, mm.
        given: f64,
    },
    /// It would take too many pages.
    #[error("it would take {0} pages; at most 400 are made: use the file instead")]
    TooManyPages(usize),
    /// The template has no size.
    #[error("the template has no size")]
    NoSize,
}

/// One sheet of paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// Row from the top, from 1.
    pub row: usize,
    /// Column from the left, from 1.
    pub column: usize,
    /// The part of the template on it, mm of the template.
    pub window: Bounds,
    /// The page as an SVG element, width and height in millimetres.
    pub svg: String,
}

/// All sheets of a template, row by row from the top left.
#[derive(Debug, Clone, PartialEq)]
pub struct Tiling {
    /// Width of the paper as it lies, mm.
    pub width: f64,
    /// Height of the paper as it lies, mm.
    pub height: f64,
    /// Number of rows.
    pub rows: usize,
    /// Number of columns.
    pub columns: usize,
    /// The pages.
    pub pages: Vec<Page>,
}

/// How the windows lie on one orientation of the paper.
struct Grid {
    paper: [f64; 2],
    window: [f64; 2],
    step: [f64; 2],
    counts: [usize; 2],
}

impl Grid {
    fn of(paper: [f64; 2], size: [f64; 2], sheet: &Sheet) -> Self {
        let [width, height] = paper;
        let window = [
            width - 2.0 * sheet.margin,
            height - 2.0 * sheet.margin - FOOT,
        ];
        let step = window.map(|side| side - sheet.overlap);
        let count = |size: f64, step: f64| (((size - sheet.overlap) / step).ceil() as usize).max(1);
        let counts = [count(size[0], step[0]), count(size[1], step[1])];
        Self {
            paper,
            window,
            step,
            counts,
        }
    }

    fn pages(&self) -> usize {
        self.counts[0].saturating_mul(self.counts[1])
    }
}

/// How many pages a template takes, without making them.
///
/// # Errors
/// [`TilingError`], but for too many pages.
pub fn page_count(pattern: &Pattern, sheet: &Sheet) -> Result<usize, TilingError> {
    grid(pattern, sheet).map(|grid| grid.pages())
}

/// The way round of the paper that takes fewer pages.
fn grid(pattern: &Pattern, sheet: &Sheet) -> Result<Grid, TilingError> {
    for (what, given) in [("the margin", sheet.margin), ("the overlap", sheet.overlap)] {
        if !(0.0..=40.0).contains(&given) {
            return Err(TilingError::OutOfRange { what, given });
        }
    }
    let bounds = pattern.bounds();
    let size = [bounds.width(), bounds.height()];
    if !size.iter().all(|side| side.is_finite() && *side >= 0.0) || size == [0.0, 0.0] {
        return Err(TilingError::NoSize);
    }
    let [narrow, long] = sheet.paper.upright();
    let upright = Grid::of([narrow, long], size, sheet);
    let lying = Grid::of([long, narrow], size, sheet);
    Ok(if lying.pages() < upright.pages() {
        lying
    } else {
        upright
    })
}

/// Cuts a template up over as few pages as its better way round takes. Neighbouring pages share
/// exactly the overlap; crosses in it come to lie on each other. Each page has its own label and its
/// own check line of 100 mm.
///
/// ```
/// use hearthplan::design::inputs::Flange;
/// use hearthplan::paper::tiling::{Sheet, tiled};
/// use hearthplan::sizing::pattern::flange;
/// let tiling = tiled(&flange(&Flange::default()).unwrap(), &Sheet::default()).unwrap();
/// assert_eq!((tiling.rows, tiling.columns), (1, 1));
/// assert!(tiling.pages[0].svg.contains("width=\"210mm\""));
/// ```
///
/// # Errors
/// [`TilingError`]: margin or overlap out of range, more than 400 pages, or a template without size.
pub fn tiled(pattern: &Pattern, sheet: &Sheet) -> Result<Tiling, TilingError> {
    let grid = grid(pattern, sheet)?;
    if grid.pages() > MOST_PAGES {
        return Err(TilingError::TooManyPages(grid.pages()));
    }
    let bounds = pattern.bounds();
    let [columns, rows] = grid.counts;
    let mut pages = Vec::with_capacity(grid.pages());
    for row in 0..rows {
        for column in 0..columns {
            let left = bounds.left + column as f64 * grid.step[0];
            let high = bounds.high - row as f64 * grid.step[1];
            let window = Bounds {
                left,
                low: high - grid.window[1],
                right: left + grid.window[0],
                high,
            };
            let svg = page(pattern, sheet, &grid, &window, [column, row]);
            pages.push(Page {
                row: row + 1,
                column: column + 1,
                window,
                svg,
            });
        }
    }
    Ok(Tiling {
        width: grid.paper[0],
        height: grid.paper[1],
        rows,
        columns,
        pages,
    })
}

fn page(
    pattern: &Pattern,
    sheet: &Sheet,
    grid: &Grid,
    window: &Bounds,
    [column, row]: [usize; 2],
) -> String {
    let [width, height] = grid.paper.map(decimal);
    let margin = sheet.margin;
    let mut page = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" \
         viewBox=\"0 0 {width} {height}\">"
    );
    page.push_str(&svg::window(pattern, window, margin, margin));
    let _ = write!(
        page,
        "<g data-layer=\"PAGE\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.15\"><rect x=\"{m}\" y=\"{m}\" \
         width=\"{w}\" height=\"{h}\" stroke-dasharray=\"2 2\"/>",
        m = decimal(margin),
        w = decimal(grid.window[0]),
        h = decimal(grid.window[1]),
    );
    for (x, y) in crosses(sheet, grid, [column, row]) {
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
    let right = grid.paper[0] - margin - 5.0;
    let line = grid.paper[1] - margin - 4.0;
    let left = right - CHECK_LINE;
    let _ = write!(
        page,
        "<path data-check=\"100\" d=\"M{l} {y}H{r}M{l} {up}V{down}M{r} {up}V{down}\"/></g>",
        l = decimal(left),
        r = decimal(right),
        y = decimal(line),
        up = decimal(line - 2.0),
        down = decimal(line + 2.0),
    );
    let [columns, rows] = grid.counts;
    let words = [
        (
            margin,
            line - 9.0,
            sheet.design.chars().take(LONGEST).collect(),
        ),
        (
            margin,
            line - 4.5,
            format!(
                "{}: row {} of {rows}, column {} of {columns}",
                pattern.name,
                row + 1,
                column + 1
            ),
        ),
        (
            left,
            line - 2.5,
            "Must measure 100 mm (3 15/16 in)".to_string(),
        ),
        (margin, line, "Print at 100 %, not fitted".to_string()),
    ];
    page.push_str(
        "<g data-layer=\"PAGE\" fill=\"#000\" font-family=\"sans-serif\" font-size=\"4\">",
    );
    for (x, y, text) in words {
        let _ = write!(
            page,
            "<text x=\"{}\" y=\"{}\">{}</text>",
            decimal(x),
            decimal(y),
            svg::escaped(&text)
        );
    }
    page.push_str("</g></svg>");
    page
}

/// Registration crosses of a page, from the window's upper left corner, mm: three in the middle of
/// each strip that it shares with a neighbour.
fn crosses(sheet: &Sheet, grid: &Grid, at: [usize; 2]) -> Vec<(f64, f64)> {
    let strips = |axis: usize| {
        let before = (at[axis] > 0).then_some(0.5 * sheet.overlap);
        let after =
            (at[axis] + 1 < grid.counts[axis]).then_some(grid.window[axis] - 0.5 * sheet.overlap);
        before.into_iter().chain(after)
    };
    let along = |axis: usize| [0.25, 0.5, 0.75].map(|share| share * grid.window[axis]);
    let upright = strips(0).flat_map(|x| along(1).map(|y| (x, y)));
    let lying = strips(1).flat_map(|y| along(0).map(|x| (x, y)));
    upright.chain(lying).collect()
}
