//! A template cut up over sheets of paper, to be printed at true size and stuck together.

mod foot;
mod grid;
mod labels;
mod overview;
mod page;
mod shared;

pub use shared::{SharedPage, shared};

use crate::design::quantity::System;
use crate::sizing::pattern::{Bounds, Pattern};
use grid::Grid;
use thiserror::Error;

/// Most pages for one template, those that need not be printed among them.
const MOST_PAGES: usize = 400;

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

/// The sheets of a template that are printed, row by row from the top left: those without anything to cut, drill or mark are
/// left out.
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
    /// Which pages there are, and where they lie on the template, as a page of its own; none where none is left out.
    pub overview: Option<String>,
}

impl Tiling {
    /// Everything that comes out of the printer, the overview first.
    pub fn sheets(&self) -> impl Iterator<Item = &str> {
        let overview = self.overview.as_deref();
        (overview.into_iter()).chain(self.pages.iter().map(|page| page.svg.as_str()))
    }

    /// Whether the paper lies on its long side.
    pub fn is_lying(&self) -> bool {
        self.width > self.height
    }
}

/// How many sheets of paper a template takes, without making them.
///
/// # Errors
/// [`TilingError`], as [`tiled`].
pub fn page_count(pattern: &Pattern, sheet: &Sheet) -> Result<usize, TilingError> {
    let grid = Grid::of(&pattern.bare(), sheet)?;
    Ok(grid.printed.len() + usize::from(!grid.prints_all()))
}

/// Cuts a template up over as few pages as its better way round takes. Neighbouring pages share
/// exactly the overlap; crosses in it come to lie on each other. Each page has its own label, its
/// own check line of 100 mm, and tells where its frame lies, so that it can be placed alone.
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
    let pattern = &pattern.bare();
    let grid = Grid::of(pattern, sheet)?;
    let windows: Vec<Bounds> = (grid.printed.iter())
        .map(|place| grid.window_at(*place))
        .collect();
    let words = labels::spread(pattern, &windows);
    let pages: Vec<Page> = (grid.printed.iter().zip(windows).zip(words))
        .map(|((place, window), words)| Page {
            row: place[1] + 1,
            column: place[0] + 1,
            window,
            svg: page::page(pattern, sheet, &grid, *place, &words),
        })
        .collect();
    Ok(Tiling {
        width: grid.paper[0],
        height: grid.paper[1],
        rows: grid.counts[1],
        columns: grid.counts[0],
        overview: (!grid.prints_all()).then(|| overview::page(pattern, sheet, &grid)),
        pages,
    })
}
