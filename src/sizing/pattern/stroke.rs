//! The lines that templates are drawn with.

use std::f64::consts::PI;

/// Most points along one straight or round piece.
const MOST_POINTS: f64 = 50_000.0;

/// A point of a template, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Upwards.
    pub y: f64,
}

impl Point {
    /// Whether it lies no farther than `reach` in mm from the middle of the sheet.
    pub fn is_within(&self, reach: f64) -> bool {
        self.x * self.x + self.y * self.y <= reach * reach
    }
}

/// A point of a template, mm.
pub const fn at(x: f64, y: f64) -> Point {
    Point { x, y }
}

/// One line of a template, mm.
#[derive(Debug, Clone, PartialEq)]
pub enum Stroke {
    /// From point to point.
    Line {
        /// Start.
        from: Point,
        /// End.
        to: Point,
    },
    /// Through all points; closed ones go back to the first.
    Polyline {
        /// The points.
        points: Vec<Point>,
        /// Whether it goes back to the first.
        closed: bool,
    },
    /// A whole circle.
    Circle {
        /// Middle.
        centre: Point,
        /// Radius.
        radius: f64,
    },
    /// Part of a circle, anticlockwise from start to end; angles in degrees from the right.
    Arc {
        /// Middle.
        centre: Point,
        /// Radius.
        radius: f64,
        /// Where it starts, degrees.
        start: f64,
        /// Where it ends, degrees, above `start` by at most 360.
        end: f64,
    },
}

impl Stroke {
    /// Points along it, its ends among them, at most so many mm apart; all corners of a polyline.
    ///
    /// ```
    /// use hearthplan::sizing::pattern::{Stroke, at};
    /// let line = Stroke::Line { from: at(0.0, 0.0), to: at(10.0, 0.0) };
    /// assert_eq!(line.points(3.0).len(), 5);
    /// ```
    pub fn points(&self, apart: f64) -> Vec<Point> {
        let steps = |length: f64| (length / apart).ceil().clamp(1.0, MOST_POINTS) as u32;
        let share = |step: u32, steps: u32| f64::from(step) / f64::from(steps);
        let between = |from: Point, to: Point| {
            let steps = steps((to.x - from.x).hypot(to.y - from.y));
            (0..=steps).map(move |step| {
                let share = share(step, steps);
                at(
                    from.x + share * (to.x - from.x),
                    from.y + share * (to.y - from.y),
                )
            })
        };
        let around = |centre: Point, radius: f64, start: f64, end: f64| {
            let steps = steps((end - start).to_radians().abs() * radius).max(8);
            (0..=steps)
                .map(|step| {
                    let turned = start + share(step, steps) * (end - start);
                    let (sine, cosine) = turned.to_radians().sin_cos();
                    at(centre.x + radius * cosine, centre.y + radius * sine)
                })
                .collect()
        };
        match self {
            Stroke::Line { from, to } => between(*from, *to).collect(),
            Stroke::Polyline { points, closed } => {
                let first = points.first().filter(|_| *closed);
                let next = points.iter().skip(1).chain(first);
                (points.iter().zip(next))
                    .flat_map(|(from, to)| between(*from, *to))
                    .collect()
            }
            Stroke::Circle { centre, radius } => around(*centre, *radius, 0.0, 360.0),
            Stroke::Arc {
                centre,
                radius,
                start,
                end,
            } => around(*centre, *radius, *start, *end),
        }
    }

    /// Points whose surrounding rectangle holds the whole stroke.
    pub(super) fn corners(&self) -> Vec<Point> {
        match self {
            Stroke::Line { from, to } => vec![*from, *to],
            Stroke::Polyline { points, .. } => points.clone(),
            Stroke::Circle { centre, radius } => vec![
                at(centre.x - radius, centre.y - radius),
                at(centre.x + radius, centre.y + radius),
            ],
            Stroke::Arc {
                centre,
                radius,
                start,
                end,
            } => {
                let on = |degrees: f64| {
                    let (sine, cosine) = degrees.to_radians().sin_cos();
                    at(centre.x + radius * cosine, centre.y + radius * sine)
                };
                let first = (start / 90.0).ceil();
                let quarters = (0..4_u8)
                    .map(|step| 90.0 * (first + f64::from(step)))
                    .filter(|quarter| quarter <= end);
                [*start, *end].into_iter().chain(quarters).map(on).collect()
            }
        }
    }

    /// Its length, mm.
    pub fn length(&self) -> f64 {
        let apart = |a: &Point, b: &Point| (b.x - a.x).hypot(b.y - a.y);
        match self {
            Stroke::Line { from, to } => apart(from, to),
            Stroke::Polyline { points, closed } => {
                let next = points.iter().cycle().skip(1);
                let sides = points.len() - usize::from(!closed && !points.is_empty());
                (points.iter().zip(next).take(sides))
                    .map(|(a, b)| apart(a, b))
                    .sum()
            }
            Stroke::Circle { radius, .. } => 2.0 * PI * radius,
            Stroke::Arc {
                radius, start, end, ..
            } => (end - start).to_radians() * radius,
        }
    }
}
