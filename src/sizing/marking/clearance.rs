//! How much plain sheet is left around a hole?

use super::{Vessel, metres};
use crate::sizing::branch::Branch;
use std::f64::consts::PI;
use uom::si::f64::Length;

/// Corners that stand for a round outline. Between corners a hole of 100 mm is off by 0.1 mm.
const CORNERS: usize = 48;
/// Room for the edges of an outline that face another one.
const USUALLY_FACING: usize = 8;
/// Other holes told for each hole, nearest first.
const NEIGHBOURS: usize = 4;

/// Another hole nearby.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Neighbour {
    /// Its place in the hole table.
    pub mark: usize,
    /// Plain sheet between both edges; negative where they overlap.
    pub clearance: Length,
}

/// Plain sheet between the edge of a hole, or of its pipe if that is wider, and what is near;
/// negative where they overlap.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Clearances {
    /// To the long seam; infinite where there is none.
    pub long_seam: Length,
    /// To the lower round seam; infinite where there is none.
    pub lower_seam: Length,
    /// To the upper round seam; infinite where there is none.
    pub upper_seam: Length,
    /// To the bottom end.
    pub bottom_end: Length,
    /// To the top end.
    pub top_end: Length,
    /// To the nearest other holes, nearest first, at most four.
    pub holes: Vec<Neighbour>,
}

/// A point of the unrolled shell, m: along the wrap and up.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Point {
    x: f64,
    y: f64,
}

/// From one corner of an outline to the next.
type Edge = (Point, Point);

/// The outline of a hole around its middle.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Shape {
    corners: [Point; CORNERS],
    left: f64,
    right: f64,
    low: f64,
    high: f64,
    reach: f64,
}

/// Sine and cosine of the places round a branch that become corners.
pub(super) fn corner_places() -> [(f64, f64); CORNERS] {
    std::array::from_fn(|corner| (2.0 * PI * corner as f64 / CORNERS as f64).sin_cos())
}

impl Shape {
    /// The outline of a cut, with its corners at these places.
    pub fn of(cut: &Branch, places: &[(f64, f64); CORNERS]) -> Self {
        let rim = cut.rim();
        let corners = places.map(|place| {
            let (x, y) = rim.outline(place);
            Point { x, y }
        });
        let furthest = corners.iter().map(Point::square).fold(0.0, f64::max);
        let far = |point: &&Point| point.square() >= (1.0 - 1e-12) * furthest;
        let least = |of: fn(&Point) -> f64| corners.iter().map(of).fold(0.0, f64::min);
        let most = |of: fn(&Point) -> f64| corners.iter().map(of).fold(0.0, f64::max);
        Self {
            left: least(|point| point.x),
            right: most(|point| point.x),
            low: least(|point| point.y),
            high: most(|point| point.y),
            reach: (corners.iter().filter(far))
                .map(|point| point.x.hypot(point.y))
                .fold(0.0, f64::max),
            corners,
        }
    }

    /// Its corners as seen from a middle that is so far away.
    fn seen_from(&self, along: f64, up: f64) -> impl Iterator<Item = Point> + Clone {
        self.corners
            .iter()
            .map(move |corner| corner.seen_from(along, up))
    }
}

impl Point {
    fn square(&self) -> f64 {
        self.x * self.x + self.y * self.y
    }

    fn square_to(&self, other: &Point) -> f64 {
        other.seen_from(self.x, self.y).square()
    }

    fn seen_from(&self, along: f64, up: f64) -> Point {
        Point {
            x: self.x - along,
            y: self.y - up,
        }
    }
}

/// Edges between these corners, all round.
fn edges(corners: &[Point]) -> impl Iterator<Item = (&Point, &Point)> {
    let next = corners.iter().skip(1).chain(corners.first());
    corners.iter().zip(next)
}

/// A hole on the shell: its outline, and where its middle is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Outline<'a> {
    pub shape: &'a Shape,
    /// Along the wrap, m.
    pub along: f64,
    /// Above the bottom end, m.
    pub up: f64,
}

/// Distance of a line across a range: negative inside, by how far the range would have to move.
fn beside(line: f64, low: f64, high: f64) -> f64 {
    (low - line).max(line - high)
}

/// Clearances of every outline to seams, ends and the others. `seam` is the long seam along the wrap, m, where there is one.
pub(super) fn around(outlines: &[Outline], vessel: &Vessel, seam: Option<f64>) -> Vec<Clearances> {
    let mut gaps = Gaps {
        outlines,
        girth: vessel.girth.value,
        known: vec![None; outlines.len() * outlines.len()],
    };
    (outlines.iter().enumerate())
        .map(|(place, own)| of_one(own, gaps.neighbours(place, own), vessel, seam))
        .collect()
}

fn of_one(own: &Outline, holes: Vec<Neighbour>, vessel: &Vessel, seam: Option<f64>) -> Clearances {
    let (girth, shape) = (vessel.girth.value, own.shape);
    let to_seam = (seam.iter())
        .flat_map(|seam| copies(seam - own.along, girth))
        .map(|line| beside(line, shape.left, shape.right))
        .fold(f64::INFINITY, f64::min);
    let (low, high) = (own.up + shape.low, own.up + shape.high);
    let round = |height: Length, there: bool| {
        let away = beside(height.value, low, high);
        metres(if there { away } else { f64::INFINITY })
    };
    Clearances {
        long_seam: metres(to_seam),
        lower_seam: round(vessel.lower_seam, vessel.has_lower_seam()),
        upper_seam: round(vessel.upper_seam, vessel.has_upper_seam()),
        bottom_end: metres(low),
        top_end: metres(vessel.length.value - high),
        holes,
    }
}

/// A distance along the wrap as it is met going either way round, the shortest first.
fn copies(distance: f64, girth: f64) -> [f64; 3] {
    let nearest = distance - girth * (distance / girth).round();
    [nearest, nearest - girth, nearest + girth]
}

/// Gaps between outlines, each measured once.
struct Gaps<'a> {
    outlines: &'a [Outline<'a>],
    girth: f64,
    known: Vec<Option<f64>>,
}

impl Gaps<'_> {
    fn neighbours(&mut self, place: usize, own: &Outline) -> Vec<Neighbour> {
        // Circles around both outlines say which are near enough to be measured.
        let mut others: Vec<(usize, f64)> = (self.outlines.iter().enumerate())
            .filter(|(other, _)| *other != place)
            .map(|(other, outline)| {
                let [along, ..] = copies(outline.along - own.along, self.girth);
                let apart = along.hypot(outline.up - own.up);
                (other, apart - own.shape.reach - outline.shape.reach)
            })
            .collect();
        others.sort_by(|a, b| a.1.total_cmp(&b.1));
        let mut found: Vec<Neighbour> = others
            .into_iter()
            .take(NEIGHBOURS)
            .map(|(mark, _)| Neighbour {
                mark,
                clearance: metres(self.gap(place, mark)),
            })
            .collect();
        found.sort_by(|a, b| a.clearance.value.total_cmp(&b.clearance.value));
        found
    }

    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn gap(&mut self, one: usize, other: usize) -> f64 {
        let (low, high) = (one.min(other), one.max(other));
        let (Some(low_outline), Some(high_outline), Some(known)) = (
            self.outlines.get(low),
            self.outlines.get(high),
            self.known.get_mut(low * self.outlines.len() + high),
        ) else {
            return f64::NAN;
        };
        *known.get_or_insert_with(|| gap_round(low_outline, high_outline, self.girth))
    }
}

/// Least gap between two outlines, either way round the wrap, m.
fn gap_round(own: &Outline, other: &Outline, girth: f64) -> f64 {
    let up = other.up - own.up;
    let [nearest, back, forth] = copies(other.along - own.along, girth);
    let (own, other) = (own.shape, other.shape);
    // The far way round matters only where the two together reach half round the shell.
    if own.reach + other.reach < 0.25 * girth {
        gap(own, other, nearest, up)
    } else {
        [nearest, back, forth]
            .map(|along| gap(own, other, along, up))
            .into_iter()
            .fold(f64::INFINITY, f64::min)
    }
}

/// Gap between two outlines whose middles are so far apart; negative where one reaches into the other.
#[cfg_attr(hearthplan_site, optimize(speed))]
fn gap(own: &Shape, other: &Shape, along: f64, up: f64) -> f64 {
    if along.hypot(up) > own.reach + other.reach {
        return gap_apart(own, other, along, up);
    }
    let from_own = nearest_of(own.seen_from(along, up), other);
    let from_other = nearest_of(other.seen_from(-along, -up), own);
    let nearest = from_own.min(from_other);
    if nearest < 0.0 {
        nearest.min(overlap(own, other, along, up))
    } else {
        nearest
    }
}

/// Gap between two outlines when the circles around them do not meet. Only what faces the other one is measured: along
/// the line through the middles nothing may be further apart than the two corners that reach furthest towards each
/// other.
#[cfg_attr(hearthplan_site, optimize(speed))]
fn gap_apart(own: &Shape, other: &Shape, along: f64, up: f64) -> f64 {
    let apart = along.hypot(up);
    let (x, y) = (along / apart, up / apart);
    let from_own = Facing::new(own, &Point { x, y });
    let from_other = Facing::new(other, &Point { x: -x, y: -y });
    let bound = from_own
        .foremost
        .square_to(&from_other.foremost.seen_from(-along, -up));
    // A hair more for rounding.
    let room = apart - (1.0 + 1e-9) * bound.sqrt() - 1e-12;
    let own_edges = from_own.edges_beyond(room - from_other.reach);
    let other_edges = from_other.edges_beyond(room - from_own.reach);
    let to_other = least_square(&own_edges, &other_edges, (along, up));
    let to_own = least_square(&other_edges, &own_edges, (-along, -up));
    to_other.min(to_own).sqrt()
}

/// Least squared distance of the ends of these edges from the others, whose middle is so far away, m².
#[cfg_attr(hearthplan_site, optimize(speed))]
fn least_square(ends: &[Edge], edges: &[Edge], (along, up): (f64, f64)) -> f64 {
    let mut least = f64::INFINITY;
    for (_, end) in ends {
        let point = end.seen_from(along, up);
        for (from, to) in edges {
            least = least.min(square_to_edge(&point, from, to));
        }
    }
    least
}

/// An outline in the direction of another one.
struct Facing<'a> {
    shape: &'a Shape,
    /// How far each corner reaches in that direction from its middle, m.
    reaches: [f64; CORNERS],
    /// How far the foremost one does, and that corner.
    reach: f64,
    foremost: Point,
}

impl<'a> Facing<'a> {
    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn new(shape: &'a Shape, direction: &Point) -> Self {
        let towards = |corner: Point| corner.x * direction.x + corner.y * direction.y;
        let reaches = shape.corners.map(towards);
        let (mut reach, mut foremost) = (f64::NEG_INFINITY, shape.corners[0]);
        for (corner, far) in shape.corners.iter().zip(&reaches) {
            if *far > reach {
                (reach, foremost) = (*far, *corner);
            }
        }
        Self {
            shape,
            reaches,
            reach,
            foremost,
        }
    }

    /// The edges of which one end reaches so far.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn edges_beyond(&self, least: f64) -> Vec<Edge> {
        let mut edges = Vec::with_capacity(USUALLY_FACING);
        let mut before = (self.shape.corners[CORNERS - 1], self.reaches[CORNERS - 1]);
        for (corner, reach) in self.shape.corners.iter().zip(self.reaches) {
            let (from, from_reach) = before;
            if from_reach.max(reach) >= least {
                edges.push((from, *corner));
            }
            before = (*corner, reach);
        }
        edges
    }
}

/// Least distance of these points, as seen from its middle, from an outline; negative inside. No point is nearer than
/// the circle around the outline, so most need not be measured.
#[cfg_attr(hearthplan_site, optimize(speed))]
fn nearest_of(points: impl Iterator<Item = Point> + Clone, outline: &Shape) -> f64 {
    let first = (points.clone()).min_by(|one, other| one.square().total_cmp(&other.square()));
    let mut nearest = first.map_or(f64::INFINITY, |point| to_polygon(&point, outline));
    for point in points {
        let within = outline.reach + nearest;
        if within > 0.0 && point.square() < within * within {
            nearest = nearest.min(to_polygon(&point, outline));
        }
    }
    nearest
}

/// How far two outlines that overlap would have to move apart along the line through their middles,
/// as a negative length.
fn overlap(own: &Shape, other: &Shape, along: f64, up: f64) -> f64 {
    let apart = along.hypot(up);
    let (x, y) = if apart > 0.0 {
        (along / apart, up / apart)
    } else {
        (1.0, 0.0)
    };
    let towards = |outline: &Shape, sign: f64| {
        (outline.corners.iter())
            .map(|point| sign * (point.x * x + point.y * y))
            .fold(0.0, f64::max)
    };
    apart - towards(own, 1.0) - towards(other, -1.0)
}

/// Distance of a point, as seen from its middle, from an outline's edge; negative inside.
#[cfg_attr(hearthplan_site, optimize(speed))]
fn to_polygon(point: &Point, outline: &Shape) -> f64 {
    let mut nearest = f64::INFINITY;
    let mut inside = false;
    for (from, to) in edges(&outline.corners) {
        nearest = nearest.min(square_to_edge(point, from, to));
        if (from.y > point.y) != (to.y > point.y)
            && point.x < from.x + (point.y - from.y) / (to.y - from.y) * (to.x - from.x)
        {
            inside = !inside;
        }
    }
    let nearest = nearest.sqrt();
    if inside { -nearest } else { nearest }
}

/// Squared distance of a point from an edge, m².
#[cfg_attr(hearthplan_site, optimize(speed))]
fn square_to_edge(point: &Point, from: &Point, to: &Point) -> f64 {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let square = dx * dx + dy * dy;
    let share = if square > 0.0 {
        (((point.x - from.x) * dx + (point.y - from.y) * dy) / square).clamp(0.0, 1.0)
    } else {
        0.0
    };
    let (x, y) = (from.x + share * dx - point.x, from.y + share * dy - point.y);
    x * x + y * y
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::angle::{degree, radian};
    use uom::si::f64::Angle;

    #[test]
    fn a_gap_is_the_least_of_all_corners_from_all_edges() {
        let shapes: Vec<Shape> = [(0.03, 90.0, 0.0), (0.06, 35.0, 0.05), (0.11, 140.0, -0.03)]
            .into_iter()
            .filter_map(|(radius, lean, offset)| {
                let lean = Angle::new::<degree>(lean);
                let cut = Branch::new(metres(0.3), metres(radius), lean, metres(offset)).ok()?;
                Some(Shape::of(&cut, &corner_places()))
            })
            .collect();
        assert_eq!(shapes.len(), 3);
        for (own, other) in shapes
            .iter()
            .flat_map(|own| shapes.iter().map(move |other| (own, other)))
        {
            for step in 0..40 {
                let (sine, cosine) = Angle::new::<radian>(0.7 * f64::from(step)).value.sin_cos();
                let apart = (own.reach + other.reach) * (1.001 + 0.08 * f64::from(step));
                let (along, up) = (apart * cosine, apart * sine);
                let of_all = |one: &Shape, other: &Shape, along, up| {
                    (one.seen_from(along, up))
                        .map(|point| to_polygon(&point, other))
                        .fold(f64::INFINITY, f64::min)
                };
                let expected = of_all(own, other, along, up).min(of_all(other, own, -along, -up));
                assert_eq!(gap(own, other, along, up), expected);
            }
        }
    }
}
