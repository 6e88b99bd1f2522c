//! How a template is cut into pages, and which of them are printed.

use super::foot::FOOT;
use super::{MOST_PAGES, Sheet, TilingError};
use crate::sizing::pattern::{Bounds, Pattern, Point, Reference, Use};

/// How far apart points are looked at along a line, mm.
const APART: f64 = 2.0;
/// Dust of sums, mm.
const DUST: f64 = 1e-6;

/// Pages of one orientation of the paper, laid over a template.
pub(super) struct Grid {
    /// Width and height of the paper, mm.
    pub paper: [f64; 2],
    /// Width and height of what a page shows, whole mm.
    pub window: [f64; 2],
    /// From page to page, mm.
    step: [f64; 2],
    /// Columns and rows.
    pub counts: [usize; 2],
    /// Upper left corner on the template, whole mm from its first references.
    corner: Point,
    /// Column and row of each page that is printed, row by row.
    pub printed: Vec<[usize; 2]>,
}

impl Grid {
    /// The way round, and the place of the pages, that takes the fewest.
    ///
    /// # Errors
    /// [`TilingError`]
    pub fn of(pattern: &Pattern, sheet: &Sheet) -> Result<Self, TilingError> {
        for (what, given) in [("the margin", sheet.margin), ("the overlap", sheet.overlap)] {
            if !(0.0..=40.0).contains(&given) {
                return Err(TilingError::OutOfRange { what, given });
            }
        }
        let points: Vec<Point> = (pattern.lines.iter())
            .filter(|drawn| drawn.purpose != Use::Aid)
            .flat_map(|drawn| drawn.stroke.points(APART))
            .collect();
        let bounds = around(&points).unwrap_or_else(|| pattern.bounds());
        let size = [bounds.width(), bounds.height()];
        if !size.iter().all(|side| side.is_finite() && *side >= 0.0) || size == [0.0, 0.0] {
            return Err(TilingError::NoSize);
        }
        let [narrow, long] = sheet.paper.upright();
        let ways = [[narrow, long], [long, narrow]]
            .map(|paper| Self::bare(paper, &bounds, pattern, sheet));
        let least = ways.iter().map(|way| way.all()).min().unwrap_or(0);
        if least > MOST_PAGES {
            return Err(TilingError::TooManyPages(least));
        }
        let mut best: Option<Self> = None;
        for way in ways.iter().filter(|way| way.all() <= MOST_PAGES) {
            for shift in way.shifts(&bounds) {
                let shifted = way.shifted(shift, &points);
                let fewer = |best: &Self| shifted.printed.len() < best.printed.len();
                if best.as_ref().is_none_or(fewer) {
                    best = Some(shifted);
                }
            }
        }
        best.ok_or(TilingError::NoSize)
    }

    fn bare(paper: [f64; 2], bounds: &Bounds, pattern: &Pattern, sheet: &Sheet) -> Self {
        let window = [
            (paper[0] - 2.0 * sheet.margin).floor(),
            (paper[1] - 2.0 * sheet.margin - FOOT).floor(),
        ];
        let step = window.map(|side| side - sheet.overlap);
        let first = |lines: &[Reference]| lines.first().map_or(0.0, |line| line.at);
        let [across, up] = [first(&pattern.upright), first(&pattern.level)];
        let corner = Point {
            x: across + (bounds.left - across).floor(),
            y: up + (bounds.high - up).ceil(),
        };
        let count = |size: f64, axis: usize| {
            let beyond = (size - sheet.overlap - DUST) / step[axis];
            (beyond.ceil() as usize).max(1)
        };
        Self {
            paper,
            window,
            step,
            counts: [
                count(bounds.right - corner.x, 0),
                count(corner.y - bounds.low, 1),
            ],
            corner,
            printed: Vec::new(),
        }
    }

    /// Number of pages, those that need not be printed among them.
    fn all(&self) -> usize {
        self.counts[0].saturating_mul(self.counts[1])
    }

    /// How far the pages can be moved to the left and up, and still hold everything: not at all, half, and all of that.
    fn shifts(&self, bounds: &Bounds) -> Vec<[f64; 2]> {
        let over = |axis: usize, needed: f64| {
            let held = (self.counts[axis] - 1) as f64 * self.step[axis] + self.window[axis];
            let spare = (held - needed).floor().max(0.0);
            // A single page begins where the template does.
            let most = if self.counts[axis] > 1 { spare } else { 0.0 };
            [0.0, (0.5 * most).floor(), most]
        };
        let [across, up] = [
            over(0, bounds.right - self.corner.x),
            over(1, self.corner.y - bounds.low),
        ];
        (across.into_iter())
            .flat_map(|left| up.map(|high| [left, high]))
            .collect()
    }

    /// Moved to the left and up by so many mm, with the pages that these points need.
    fn shifted(&self, [left, high]: [f64; 2], points: &[Point]) -> Self {
        let mut shifted = Self {
            corner: Point {
                x: self.corner.x - left,
                y: self.corner.y + high,
            },
            printed: Vec::new(),
            ..*self
        };
        shifted.printed = shifted.needed(points);
        shifted
    }

    /// What a page shows of the template.
    pub fn window_at(&self, [column, row]: [usize; 2]) -> Bounds {
        let left = self.corner.x + column as f64 * self.step[0];
        let high = self.corner.y - row as f64 * self.step[1];
        Bounds {
            left,
            low: high - self.window[1],
            right: left + self.window[0],
            high,
        }
    }

    /// Whether no page is left out.
    pub fn prints_all(&self) -> bool {
        self.printed.len() == self.all()
    }

    /// Whether this page is printed.
    pub fn prints(&self, place: [usize; 2]) -> bool {
        self.printed.contains(&place)
    }

    /// The pages that show all these points between them: those that alone show one, then those that show one best.
    fn needed(&self, points: &[Point]) -> Vec<[usize; 2]> {
        let [columns, rows] = self.counts;
        let mut printed = vec![false; columns * rows];
        let mut shared = Vec::new();
        for point in points {
            let showing = self.showing(*point);
            match showing.as_slice() {
                [] => {}
                [(page, _)] => printed[*page] = true,
                _ => shared.push(showing),
            }
        }
        for showing in shared {
            if !showing.iter().any(|(page, _)| printed[*page]) {
                let deepest = showing.iter().max_by(|a, b| a.1.total_cmp(&b.1));
                if let Some((page, _)) = deepest {
                    printed[*page] = true;
                }
            }
        }
        // A template without anything to do at is printed whole.
        let none = !printed.contains(&true);
        (0..columns * rows)
            .filter(|page| none || printed[*page])
            .map(|page| [page % columns, page / columns])
            .collect()
    }

    /// The pages that show a point, each with how far it is from the nearest edge there.
    fn showing(&self, point: Point) -> Vec<(usize, f64)> {
        let span = |axis: usize, along: f64| {
            let last = self.counts[axis] - 1;
            let of = |place: f64| (place.max(0.0) as usize).min(last);
            let first = of(((along - self.window[axis]) / self.step[axis] - DUST).ceil());
            first..=of((along / self.step[axis] + DUST).floor())
        };
        let mut showing = Vec::new();
        for row in span(1, self.corner.y - point.y) {
            for column in span(0, point.x - self.corner.x) {
                let window = self.window_at([column, row]);
                let sides = [
                    point.x - window.left,
                    window.right - point.x,
                    window.high - point.y,
                    point.y - window.low,
                ];
                let inside = sides.into_iter().fold(f64::INFINITY, f64::min);
                if inside >= -DUST {
                    showing.push((row * self.counts[0] + column, inside));
                }
            }
        }
        showing
    }
}

/// The rectangle around points; none around none.
fn around(points: &[Point]) -> Option<Bounds> {
    let first = points.first()?;
    let start = Bounds {
        left: first.x,
        low: first.y,
        right: first.x,
        high: first.y,
    };
    Some(points.iter().fold(start, |bounds, point| Bounds {
        left: bounds.left.min(point.x),
        low: bounds.low.min(point.y),
        right: bounds.right.max(point.x),
        high: bounds.high.max(point.y),
    }))
}
