//! How much plain sheet is left around a hole?

use super::{Vessel, metres};
use crate::sizing::branch::Branch;
use std::f64::consts::PI;
use uom::si::angle::radian;
use uom::si::f64::{Angle, Length};

/// Corners that stand for a round outline. Between corners a hole of 100 mm is off by 0.1 mm.
const CORNERS: u32 = 48;
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
    /// To the long seam.
    pub long_seam: Length,
    /// To the lower round seam.
    pub lower_seam: Length,
    /// To the upper round seam.
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

/// The outline of a hole around its middle, and where that middle is.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Outline {
    middle: Point,
    corners: Vec<Point>,
    left: f64,
    right: f64,
    low: f64,
    high: f64,
    reach: f64,
}

impl Outline {
    pub fn of(cut: &Branch, along: f64, up: f64) -> Self {
        let corners: Vec<Point> = (0..CORNERS)
            .map(|corner| {
                let around = 2.0 * PI * f64::from(corner) / f64::from(CORNERS);
                let point = cut.outline(Angle::new::<radian>(around));
                Point {
                    x: point.along.value,
                    y: point.up.value,
                }
            })
            .collect();
        let least = |of: fn(&Point) -> f64| corners.iter().map(of).fold(0.0, f64::min);
        let most = |of: fn(&Point) -> f64| corners.iter().map(of).fold(0.0, f64::max);
        Self {
            middle: Point { x: along, y: up },
            left: least(|point| point.x),
            right: most(|point| point.x),
            low: up + least(|point| point.y),
            high: up + most(|point| point.y),
            reach: most(|point| point.x.hypot(point.y)),
            corners,
        }
    }

    /// Edges of the outline around its middle.
    fn edges(&self) -> impl Iterator<Item = (&Point, &Point)> {
        let next = self.corners.iter().cycle().skip(1);
        self.corners.iter().zip(next)
    }

    /// Its corners as seen from a middle that is so far away.
    fn seen_from(&self, along: f64, up: f64) -> impl Iterator<Item = Point> + Clone {
        self.corners.iter().map(move |corner| Point {
            x: corner.x - along,
            y: corner.y - up,
        })
    }
}

/// Distance of a line across a range: negative inside, by how far the range would have to move.
fn beside(line: f64, low: f64, high: f64) -> f64 {
    (low - line).max(line - high)
}

/// Clearances of every outline to seams, ends and the others. `seam` is the long seam along the wrap, m.
pub(super) fn around(outlines: &[Outline], vessel: &Vessel, seam: f64) -> Vec<Clearances> {
    let mut gaps = Gaps {
        outlines,
        girth: vessel.girth.value,
        known: vec![None; outlines.len() * outlines.len()],
    };
    (outlines.iter().enumerate())
        .map(|(place, own)| of_one(own, gaps.neighbours(place, own), vessel, seam))
        .collect()
}

fn of_one(own: &Outline, holes: Vec<Neighbour>, vessel: &Vessel, seam: f64) -> Clearances {
    let girth = vessel.girth.value;
    let to_seam = copies(seam - own.middle.x, girth)
        .map(|line| beside(line, own.left, own.right))
        .into_iter()
        .fold(f64::INFINITY, f64::min);
    let round = |height: Length| metres(beside(height.value, own.low, own.high));
    Clearances {
        long_seam: metres(to_seam),
        lower_seam: round(vessel.lower_seam),
        upper_seam: round(vessel.upper_seam),
        bottom_end: metres(own.low),
        top_end: metres(vessel.length.value - own.high),
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
    outlines: &'a [Outline],
    girth: f64,
    known: Vec<Option<f64>>,
}

impl Gaps<'_> {
    fn neighbours(&mut self, place: usize, own: &Outline) -> Vec<Neighbour> {
        // Circles around both outlines say which are near enough to be measured.
        let mut others: Vec<(usize, f64)> = (self.outlines.iter().enumerate())
            .filter(|(other, _)| *other != place)
            .map(|(other, outline)| {
                let [along, ..] = copies(outline.middle.x - own.middle.x, self.girth);
                let apart = along.hypot(outline.middle.y - own.middle.y);
                (other, apart - own.reach - outline.reach)
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
    let up = other.middle.y - own.middle.y;
    let [nearest, back, forth] = copies(other.middle.x - own.middle.x, girth);
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
fn gap(own: &Outline, other: &Outline, along: f64, up: f64) -> f64 {
    let from_own = nearest_of(own.seen_from(along, up), other);
    let from_other = nearest_of(other.seen_from(-along, -up), own);
    let nearest = from_own.min(from_other);
    if nearest < 0.0 {
        nearest.min(overlap(own, other, along, up))
    } else {
        nearest
    }
}

/// Least distance of these points, as seen from its middle, from an outline; negative inside. No point is nearer than
/// the circle around the outline, so most need not be measured.
#[cfg_attr(hearthplan_site, optimize(speed))]
fn nearest_of(points: impl Iterator<Item = Point> + Clone, outline: &Outline) -> f64 {
    let square = |point: &Point| point.x * point.x + point.y * point.y;
    let first = (points.clone()).min_by(|one, other| square(one).total_cmp(&square(other)));
    let mut nearest = first.map_or(f64::INFINITY, |point| to_polygon(&point, outline));
    for point in points {
        let within = outline.reach + nearest;
        if within > 0.0 && square(&point) < within * within {
            nearest = nearest.min(to_polygon(&point, outline));
        }
    }
    nearest
}

/// How far two outlines that overlap would have to move apart along the line through their middles,
/// as a negative length.
fn overlap(own: &Outline, other: &Outline, along: f64, up: f64) -> f64 {
    let apart = along.hypot(up);
    let (x, y) = if apart > 0.0 {
        (along / apart, up / apart)
    } else {
        (1.0, 0.0)
    };
    let towards = |outline: &Outline, sign: f64| {
        (outline.corners.iter())
            .map(|point| sign * (point.x * x + point.y * y))
            .fold(0.0, f64::max)
    };
    apart - towards(own, 1.0) - towards(other, -1.0)
}

/// Distance of a point, as seen from its middle, from an outline's edge; negative inside.
#[cfg_attr(hearthplan_site, optimize(speed))]
fn to_polygon(point: &Point, outline: &Outline) -> f64 {
    let mut nearest = f64::INFINITY;
    let mut inside = false;
    for (from, to) in outline.edges() {
        let (dx, dy) = (to.x - from.x, to.y - from.y);
        let square = dx * dx + dy * dy;
        let share = if square > 0.0 {
            (((point.x - from.x) * dx + (point.y - from.y) * dy) / square).clamp(0.0, 1.0)
        } else {
            0.0
        };
        let (x, y) = (from.x + share * dx - point.x, from.y + share * dy - point.y);
        nearest = nearest.min(x * x + y * y);
        if (from.y > point.y) != (to.y > point.y) && point.x < from.x + (point.y - from.y) / dy * dx
        {
            inside = !inside;
        }
    }
    let nearest = nearest.sqrt();
    if inside { -nearest } else { nearest }
}
