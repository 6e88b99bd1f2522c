//! Which words stand on which page, and where.
//!
//! Whoever holds a page alone goes by its words. So the name of a line or hole stands on every page that shows something
//! of it and on no other, beside it, and over no other name.

use crate::sizing::pattern::{Bounds, Drawn, Label, Pattern, Point, Stroke, Use};

/// How far apart points are looked at along a line, mm: less than a word is high.
const APART: f64 = 1.0;
/// Room between a word and its line, mm: the least that does is taken, and the second only where the first has none.
const BESIDE: [&[f64]; 2] = [&[1.5, 5.0], &[10.0, 15.0, 25.0, 40.0]];
/// Room between a word and everything else, mm.
const CLEAR: f64 = 0.5;
/// How large a word is written where there is no room for it as it is, as a share of its size.
const SMALLER: [f64; 3] = [1.0, 0.75, 0.5];
/// How far letters reach below their foot line, as a share of the height of capitals.
const BELOW: f64 = 0.3;

/// The words of each page.
pub(super) fn spread(pattern: &Pattern, windows: &[Bounds]) -> Vec<Vec<Label>> {
    let lines: Vec<Line> = pattern.lines.iter().map(Line::of).collect();
    let mut named: Vec<(&Label, usize)> = Vec::new();
    for label in &pattern.labels {
        if let Some(line) = label.of
            && named.iter().all(|(_, other)| *other != line)
        {
            named.push((label, line));
        }
    }
    // A line has its whole length for its name, a hole only its edge.
    named.sort_by_key(|(_, line)| lines.get(*line).is_none_or(|line| !line.is_closed));
    (windows.iter())
        .map(|window| {
            let mut page = Page::of(*window, &lines);
            let whole = (pattern.labels.iter()).filter(|label| label.of.is_none());
            page.words = whole
                .filter(|label| page.holds(&taken(label)))
                .cloned()
                .collect();
            for (label, line) in &named {
                if let Some(word) = (lines.get(*line)).and_then(|line| page.named(label, line)) {
                    page.words.push(word);
                }
            }
            page.words
        })
        .collect()
}

/// A line of a template, looked at point by point.
struct Line {
    points: Vec<Point>,
    is_closed: bool,
    is_cut: bool,
}

impl Line {
    fn of(drawn: &Drawn) -> Self {
        Self {
            points: drawn.stroke.points(APART),
            is_closed: matches!(
                drawn.stroke,
                Stroke::Circle { .. } | Stroke::Polyline { closed: true, .. }
            ),
            is_cut: drawn.purpose == Use::Cut,
        }
    }

    /// Whether a point lies inside of it: a ray to the right crosses it an odd number of times.
    fn is_around(&self, point: Point) -> bool {
        let next = self.points.iter().cycle().skip(1);
        let crossed = self.points.iter().zip(next).filter(|(from, to)| {
            let share = (point.y - from.y) / (to.y - from.y);
            (from.y > point.y) != (to.y > point.y) && from.x + share * (to.x - from.x) > point.x
        });
        self.is_closed && crossed.count() % 2 == 1
    }
}

/// What a page shows, and the words on it.
struct Page<'a> {
    window: Bounds,
    /// Points of all lines on it.
    shown: Vec<Point>,
    /// Holes, on it or not.
    holes: Vec<&'a Line>,
    words: Vec<Label>,
}

impl<'a> Page<'a> {
    fn of(window: Bounds, lines: &'a [Line]) -> Self {
        let points = lines.iter().flat_map(|line| &line.points);
        Self {
            window,
            shown: points
                .copied()
                .filter(|point| is_in(&window, *point))
                .collect(),
            holes: (lines.iter())
                .filter(|line| line.is_closed && line.is_cut)
                .collect(),
            words: Vec::new(),
        }
    }

    /// The name of a line at a place of this page; none where nothing of the line is on it.
    fn named(&self, label: &Label, line: &Line) -> Option<Label> {
        let seen: Vec<Point> = (line.points.iter())
            .copied()
            .filter(|point| is_in(&self.window, *point))
            .collect();
        let middle = *seen.get(seen.len() / 2)?;
        let mut places = seen;
        if line.is_closed {
            // At its right, where there is room.
            places.sort_by(|a, b| b.x.total_cmp(&a.x));
        } else {
            let away = |point: &Point| (point.x - middle.x).abs() + (point.y - middle.y).abs();
            places.sort_by(|a, b| away(a).total_cmp(&away(b)));
        }
        let fitting = (self.window.width() - 2.0 * CLEAR) / label.width();
        SMALLER.into_iter().find_map(|share| {
            let word = Label {
                height: label.height * share.min(fitting),
                ..label.clone()
            };
            BESIDE.into_iter().find_map(|rooms| {
                // Words that stand across another line are harder to read, but not wrong.
                [true, false].into_iter().find_map(|across_none| {
                    (rooms.iter())
                        .flat_map(|room| places.iter().map(move |place| (place, room)))
                        .flat_map(|(place, room)| self.beside(&word, *place, *room))
                        .find(|word| self.takes(word, line, across_none))
                })
            })
        })
    }

    /// A word to the right of a point, above, below and to the left of it, moved along so that it stands on the page.
    fn beside(&self, word: &Label, point: Point, room: f64) -> [Label; 4] {
        let (width, height, below) = (word.width(), word.height, BELOW * word.height);
        let window = &self.window;
        let within = |low: f64, from: f64, to: f64| low.min(to).max(from);
        let across = within(
            point.x - 0.5 * width,
            window.left + CLEAR,
            window.right - CLEAR - width,
        );
        let up = within(
            point.y - 0.5 * height,
            window.low + CLEAR + below,
            window.high - CLEAR - height,
        );
        [
            [point.x + room, up],
            [across, point.y + room + below],
            [across, point.y - room - height],
            [point.x - room - width, up],
        ]
        .map(|[x, y]| Label {
            at: Point { x, y },
            ..word.clone()
        })
    }

    /// Whether the name of a line may stand there; if wished, only where it stands across no line at all.
    fn takes(&self, word: &Label, line: &Line, across_none: bool) -> bool {
        let place = taken(word);
        let around = Bounds {
            left: place.left - CLEAR,
            low: place.low - CLEAR,
            right: place.right + CLEAR,
            high: place.high + CLEAR,
        };
        let middle = Point {
            x: 0.5 * (place.left + place.right),
            y: 0.5 * (place.low + place.high),
        };
        let is_across = |points: &[Point]| points.iter().any(|point| is_in(&around, *point));
        let meets = |other: &Label| {
            let other = taken(other);
            let apart = other.left > around.right
                || other.right < around.left
                || other.low > around.high
                || other.high < around.low;
            !apart
        };
        self.holds(&place)
            && !self.words.iter().any(meets)
            && !is_across(&line.points)
            && !line.is_around(middle)
            && !(across_none
                && (is_across(&self.shown) || self.holes.iter().any(|hole| hole.is_around(middle))))
    }

    fn holds(&self, place: &Bounds) -> bool {
        let corner = |x, y| is_in(&self.window, Point { x, y });
        corner(place.left, place.low) && corner(place.right, place.high)
    }
}

/// Dust of sums, mm.
const DUST: f64 = 1e-6;

fn is_in(bounds: &Bounds, point: Point) -> bool {
    (bounds.left - DUST..=bounds.right + DUST).contains(&point.x)
        && (bounds.low - DUST..=bounds.high + DUST).contains(&point.y)
}

/// What a word takes of the page.
fn taken(word: &Label) -> Bounds {
    Bounds {
        left: word.at.x,
        low: word.at.y - BELOW * word.height,
        right: word.at.x + word.width(),
        high: word.at.y + word.height,
    }
}
