//! Outline of the ground a machine stands on: the convex hull of its contact points.
//!
//! Andrew's monotone chain (Information Processing Letters 9, 1979, 216), with a tolerance so that points doubled,
//! nearly doubled or nearly on a line do not make edges of their own.

use thiserror::Error;

/// Points closer than this share of the whole extent, to each other or to an edge, count as the same.
const TOLERANCE: f64 = 1e-9;

/// Greatest coordinate accepted, m; keeps every product finite.
const FARTHEST: f64 = 1e6;

/// Point on the ground, m.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// To the right, m.
    pub x: f64,
    /// To the back, m.
    pub y: f64,
}

/// Why points make no footprint.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum HullError {
    /// A coordinate is not a number or farther than 1e6 m.
    #[error("contact point {0} has a coordinate that is not a usable number")]
    BadPoint(usize),
    /// Fewer than three points that differ.
    #[error("a footprint needs at least three contact points in different places")]
    TooFewPoints,
    /// All points on one line.
    #[error("the contact points lie on one line, so they cannot carry the machine")]
    OnOneLine,
}

/// Convex outline, counter-clockwise seen from above.
#[derive(Debug, Clone, PartialEq)]
pub struct Hull {
    corners: Vec<Point>,
}

/// One edge of a hull with a point's distance from it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EdgeDistance {
    /// Where the edge starts.
    pub from: Point,
    /// Where it ends, counter-clockwise.
    pub to: Point,
    /// Distance of the point from the edge's line, m; positive inside the hull.
    pub distance: f64,
    /// Outward direction square to the edge, a unit vector.
    pub outward: Point,
}

impl Hull {
    /// Hull of any number of contact points, in any order.
    ///
    /// # Errors
    /// [`HullError`] if a point is unusable (numbered from zero) or the points span no area.
    ///
    /// ```
    /// use hearthplan::physics::hull::{Hull, Point};
    /// let feet = [(0.0, 0.0), (0.6, 0.0), (0.3, 0.2), (0.6, 0.5), (0.0, 0.5)].map(|(x, y)| Point { x, y });
    /// let hull = Hull::new(&feet)?;
    /// assert_eq!(hull.corners().len(), 4);
    /// assert!((hull.area() - 0.3).abs() < 1e-12);
    /// # Ok::<(), hearthplan::physics::hull::HullError>(())
    /// ```
    pub fn new(points: &[Point]) -> Result<Hull, HullError> {
        let usable = |value: f64| value.abs() <= FARTHEST;
        if let Some(bad) = points.iter().position(|p| !(usable(p.x) && usable(p.y))) {
            return Err(HullError::BadPoint(bad));
        }
        let mut sorted = points.to_vec();
        sorted.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
        let extent = extent_of(&sorted);
        let near = TOLERANCE * extent;
        if extent <= 0.0 {
            return Err(HullError::TooFewPoints);
        }
        let lower = chain(sorted.iter().copied());
        let upper = chain(sorted.iter().rev().copied());
        // Each chain ends where the other begins.
        let mut corners: Vec<Point> = Vec::with_capacity(lower.len() + upper.len());
        for half in [lower, upper] {
            let without_last = half.len().saturating_sub(1);
            corners.extend(half.into_iter().take(without_last));
        }
        drop_flat_corners(&mut corners, near);
        let hull = Hull { corners };
        if hull.corners.len() >= 3 && hull.area() > near * extent {
            return Ok(hull);
        }
        sorted.dedup_by(|a, b| distance_between(*a, *b) <= near);
        Err(if sorted.len() < 3 {
            HullError::TooFewPoints
        } else {
            HullError::OnOneLine
        })
    }

    /// Corners, counter-clockwise, at least three.
    pub fn corners(&self) -> &[Point] {
        &self.corners
    }

    /// Area, m².
    pub fn area(&self) -> f64 {
        // Measured from the first corner so that a hull far from the origin keeps its digits.
        let origin = self.corners.first().copied().unwrap_or_default();
        let twice: f64 = self.edges().map(|(from, to)| cross(origin, from, to)).sum();
        0.5 * twice
    }

    /// Distance of `point` from every edge, in the order of the corners. NaN in, NaN out.
    ///
    /// ```
    /// use hearthplan::physics::hull::{Hull, Point};
    /// let corners = [(0.0, 0.0), (1.0, 0.0), (0.0, 1.0)].map(|(x, y)| Point { x, y });
    /// let hull = Hull::new(&corners)?;
    /// let edges = hull.edge_distances(Point { x: 0.25, y: 0.25 });
    /// assert!((edges[0].distance - 0.25).abs() < 1e-12);
    /// assert!((edges[1].distance - 0.5_f64.sqrt() / 2.0).abs() < 1e-12);
    /// # Ok::<(), hearthplan::physics::hull::HullError>(())
    /// ```
    pub fn edge_distances(&self, point: Point) -> Vec<EdgeDistance> {
        self.edges()
            .map(|(from, to)| {
                let length = distance_between(from, to);
                EdgeDistance {
                    from,
                    to,
                    distance: cross(from, to, point) / length,
                    outward: Point {
                        x: (to.y - from.y) / length,
                        y: (from.x - to.x) / length,
                    },
                }
            })
            .collect()
    }

    /// Least distance of `point` from any edge, m: positive inside the hull, negative outside (there it is the distance
    /// from the line of the edge, which is what tipping asks for).
    pub fn margin(&self, point: Point) -> f64 {
        self.edge_distances(point)
            .iter()
            .map(|edge| edge.distance)
            .fold(f64::INFINITY, |least, distance| {
                if distance.is_nan() {
                    distance
                } else {
                    least.min(distance)
                }
            })
    }

    fn edges(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        let next = self.corners.iter().cycle().skip(1);
        self.corners.iter().copied().zip(next.copied())
    }
}

/// Lower chain of points sorted along x, or the upper one if they come in reverse.
fn chain(points: impl Iterator<Item = Point>) -> Vec<Point> {
    let mut chain: Vec<Point> = Vec::new();
    for point in points {
        while let [.., before, last] = chain.as_slice() {
            if height_over(*before, *last, point) > 0.0 {
                break;
            }
            chain.pop();
        }
        chain.push(point);
    }
    chain
}

/// Removes corners that are doubled or stick out by less than `near`, until none is left.
fn drop_flat_corners(corners: &mut Vec<Point>, near: f64) {
    while corners.len() >= 3 {
        let count = corners.len();
        let corner = |i: usize| corners.get(i % count).copied().unwrap_or_default();
        let flat = (0..count).find(|&i| {
            let (before, here, after) = (corner(i + count - 1), corner(i), corner(i + 1));
            distance_between(before, here) <= near || height_over(before, after, here) >= -near
        });
        match flat {
            Some(i) => {
                corners.remove(i);
            }
            None => break,
        }
    }
}

/// Twice the signed area of a triangle; positive when it turns left.
fn cross(from: Point, to: Point, point: Point) -> f64 {
    (to.x - from.x) * (point.y - from.y) - (to.y - from.y) * (point.x - from.x)
}

/// How far `point` lies to the left of the line from one point to the other, m; zero if they coincide.
fn height_over(from: Point, to: Point, point: Point) -> f64 {
    let length = distance_between(from, to);
    if length > 0.0 {
        cross(from, to, point) / length
    } else {
        0.0
    }
}

fn distance_between(a: Point, b: Point) -> f64 {
    (a.x - b.x).hypot(a.y - b.y)
}

/// Diagonal of the box round the points.
fn extent_of(points: &[Point]) -> f64 {
    let mut low = Point {
        x: f64::INFINITY,
        y: f64::INFINITY,
    };
    let mut high = Point {
        x: f64::NEG_INFINITY,
        y: f64::NEG_INFINITY,
    };
    for point in points {
        low = Point {
            x: low.x.min(point.x),
            y: low.y.min(point.y),
        };
        high = Point {
            x: high.x.max(point.x),
            y: high.y.max(point.y),
        };
    }
    // No points at all give a negative extent.
    if points.is_empty() {
        -1.0
    } else {
        distance_between(low, high)
    }
}
