//! The machine from above: what it stands on, where its weight lies, and over which side it tips at which slope.

use super::frame::{extent, widest};
use super::ghost::Ghost;
use super::ink::{Leads, PieceName, Stroke, Touchable, View, circle, polygon, rectangle};
use super::notes::{Notes, tape};
use super::pieces::mm;
use super::scene::{Scene, tone_of};
use super::told::words;
use crate::design::Design;
use crate::design::inputs::{ContactKind, Presence, Stance};
use crate::design::phrase::Measure;
use crate::design::quantity::{Quantity, System};
use crate::review::{Assessment, tip_verdict};
use crate::sizing::footprint::Footprint;
use crate::sizing::machine::{Envelope, Point, Solid};

/// How many times as high as a text the machine is from above.
const TALL: f64 = 13.0;

/// The figure from above, and over it the outline of another design.
pub fn from_above(
    design: &Design,
    assessment: &Assessment,
    other: Option<(&Design, &Assessment)>,
    system: System,
) -> Scene {
    let standing = &assessment.standing;
    let reach = |view| {
        let points = standing.footprint.points.iter().map(|point| match view {
            View::Side => mm(point.y),
            View::Front => mm(point.x),
        });
        let own = points.fold(extent(&assessment.standing.machine, view), |reach, at| {
            widest(Some((at, at)), reach)
        });
        widest(
            other.map(|(_, other)| extent(&other.standing.machine, view)),
            own,
        )
    };
    let ((left, right), (front, back)) = (reach(View::Front), reach(View::Side));
    let text_size = (back - front + 100.0) / TALL;
    let beyond = beyond(&standing.footprint, design);
    let mut scene = Scene::empty(
        (
            left - 11.2 * text_size,
            right + 5.6 * text_size,
            front - beyond - 4.2 * text_size,
            back + beyond + 2.0 * text_size,
        ),
        text_size,
    );
    scene.touchables = touchables(design, assessment);
    scene.contacts = contacts(design, &standing.footprint, text_size);
    scene.ghost = other.map_or_else(Ghost::default, |(other, its)| {
        Ghost::from_above(other, its).without(&Ghost::from_above(design, assessment))
    });
    scene.words = words(design, assessment, other, system);
    weigh(&mut scene.balance, assessment, text_size);
    annotate(&mut scene.notes, design, assessment, system, text_size);
    scene
}

/// Where a point of the machine lies, seen from above, mm.
fn at(point: &Point) -> (f64, f64) {
    (mm(point.x), mm(point.y))
}

/// The outline of a solid from above.
pub fn outline(solid: &Solid) -> String {
    match solid.envelope {
        Envelope::Round(round) => {
            let radius = mm(round.outer_bottom).max(mm(round.outer_top));
            circle(mm(round.x), mm(round.y), radius)
        }
        Envelope::Box(sides) => rectangle(
            mm(sides.left),
            mm(sides.right),
            mm(sides.front),
            mm(sides.back),
        ),
    }
}

/// All pieces, low ones first: what is above hides what is below.
pub fn touchables(design: &Design, assessment: &Assessment) -> Vec<Touchable> {
    let machine = &assessment.standing.machine;
    let mut solids: Vec<&Solid> = (machine.solids.iter())
        .filter(|solid| solid.presence != Presence::WhenFull)
        .collect();
    solids.sort_by(|one, other| mm(one.envelope.top()).total_cmp(&mm(other.envelope.top())));
    let mut touchables: Vec<Touchable> = Vec::with_capacity(solids.len());
    for solid in solids {
        let name = PieceName {
            path: solid.piece.path(),
            label: solid.piece.label(design),
        };
        let stroke = Stroke {
            line: outline(solid),
            class: "outline",
            fill: "var(--paper)",
        };
        match touchables.iter_mut().find(|known| known.name == name) {
            Some(known) => known.strokes.push(stroke),
            None => touchables.push(Touchable {
                name,
                strokes: vec![stroke],
            }),
        }
    }
    touchables
}

/// Feet and wheels, and the sides between them over which it can tip.
pub fn contacts(design: &Design, footprint: &Footprint, size: f64) -> Vec<Stroke> {
    let wheel = 0.5 * mm(design.base.wheel_diameter);
    let points = footprint.points.iter().map(|point| {
        let (x, y) = (mm(point.x), mm(point.y));
        let line = match point.kind {
            ContactKind::Wheel => {
                rectangle(x - 0.25 * wheel, x + 0.25 * wheel, y - wheel, y + wheel)
            }
            ContactKind::Foot => circle(x, y, 0.3 * size),
        };
        Stroke {
            line,
            class: "contact",
            fill: "var(--paper)",
        }
    });
    let corners: Vec<(f64, f64)> = (footprint.edges.iter())
        .map(|edge| (mm(edge.from.x), mm(edge.from.y)))
        .collect();
    let around = Stroke {
        line: polygon(&corners, true),
        class: "footprint",
        fill: "none",
    };
    std::iter::once(around).chain(points).collect()
}

/// How far wheels reach beyond the points they touch the ground with, mm.
fn beyond(footprint: &Footprint, design: &Design) -> f64 {
    let rolls = (footprint.points.iter()).any(|point| point.kind == ContactKind::Wheel);
    if rolls {
        0.5 * mm(design.base.wheel_diameter)
    } else {
        0.0
    }
}

/// The centres of gravity, and the way from the full one to the side it tips over first.
fn weigh(balance: &mut Notes, assessment: &Assessment, size: f64) {
    let standing = &assessment.standing;
    let full = &standing.full.weight.centre;
    let (x, y) = at(full);
    if let Some(weakest) = standing.full.weakest() {
        let (nx, ny) = weakest.edge.outwards();
        let far = mm(weakest.distance);
        balance.line(&[(x, y), (x + far * nx, y + far * ny)], "to-edge");
    }
    let empty = at(&standing.empty.weight.centre);
    balance.centre(empty, 0.7 * size, "centre centre-empty");
    balance.centre((x, y), size, "centre");
}

/// At which slope it tips over each side, the numbers of own points, and the size of the base.
fn annotate(
    notes: &mut Notes,
    design: &Design,
    assessment: &Assessment,
    system: System,
    size: f64,
) {
    let standing = &assessment.standing;
    let beyond = beyond(&standing.footprint, design);
    for side in &standing.full.edges {
        let (from, to) = (&side.edge.from, &side.edge.to);
        let (nx, ny) = side.edge.outwards();
        let middle = (0.5 * (mm(from.x) + mm(to.x)), 0.5 * (mm(from.y) + mm(to.y)));
        let angle = Measure::new(Quantity::Angle, side.tip_angle.value.max(0.0)).show(system);
        // Each side by itself: what mends the weakest may leave another one that fails.
        let class = tone_of(tip_verdict(&design.limits, side.tip_angle));
        // Between two wheels there is no room for the words: they stand beyond.
        let (aside, anchor, words) = if nx.abs() > 0.5 {
            let anchor = if nx > 0.0 { "start" } else { "end" };
            (
                (0.9 * size * nx, 0.9 * size * ny),
                anchor,
                format!("tips at\n{angle}"),
            )
        } else {
            let gap = if ny > 0.0 { 0.5 * size } else { 1.4 * size };
            let aside = (0.9 * size * nx, (beyond + gap) * ny.signum());
            (aside, "middle", format!("tips at {angle}"))
        };
        let at = (middle.0 + aside.0, middle.1 + aside.1);
        notes.text(at, words, class, anchor);
        notes.leading(Leads::Verdict("standing.tip_full"));
    }
    if design.base.stance == Stance::Points {
        for point in &standing.footprint.points {
            let at = (mm(point.x) + 0.4 * size, mm(point.y) + 0.4 * size);
            notes.text(at, (point.index + 1).to_string(), "label", "start");
        }
    }
    let points = || standing.footprint.points.iter();
    let reach = |values: &mut dyn Iterator<Item = f64>| {
        values
            .map(|at| (at, at))
            .reduce(|known, more| widest(Some(more), known))
    };
    let across = reach(&mut points().map(|point| mm(point.x)));
    let along = reach(&mut points().map(|point| mm(point.y)));
    if let (Some((left, right)), Some((front, back))) = (across, along) {
        let (reach_left, _) = extent(&assessment.standing.machine, View::Front);
        let (reach_front, _) = extent(&assessment.standing.machine, View::Side);
        let below = front.min(reach_front) - beyond - 2.7 * size;
        // Beside the slope at which it tips to the left.
        let beside = left.min(reach_left) - 6.4 * size;
        notes.level_in_line(left, right, below, 0.8 * size, tape(right - left, system));
        notes.leading(Leads::Input("base.width"));
        notes.upright(beside, front, back, 0.8 * size, tape(back - front, system));
        notes.leading(Leads::Input("base.depth"));
    }
}
