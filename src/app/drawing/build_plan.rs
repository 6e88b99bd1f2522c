//! The machine from above as it is built: base and over all, and where each part stands.

use super::frame::{extent, widest};
use super::ink::View;
use super::notes::{Notes, tape, width};
use super::paper::{LETTERS, Sheet, paper_width, text_size};
use super::pieces::mm;
use super::plan;
use super::scene::edges;
use crate::design::Design;
use crate::design::inputs::Presence;
use crate::design::quantity::System;
use crate::review::Assessment;
use crate::sizing::machine::{Envelope, Piece, Solid};

/// What the figure may take on paper, across and upright, without the list below it, mm.
const ROOM: (f64, f64) = (182.0, 95.0);
/// Room at the left and below for two dimension lines each, and at the other sides, as multiples of the text size.
const LEFT: f64 = 18.0;
const BELOW: f64 = 8.0;
const AROUND: f64 = 2.0;
/// From line to line of the list.
const LINE: f64 = 1.3;
/// Between two columns of the list.
const GAP: f64 = 1.5;

/// What stands on the base: where its middle is, mm, and how it is told.
struct Placed {
    name: String,
    middle: (f64, f64),
    underside: f64,
}

/// The drawing of a design with its assessment.
pub(super) fn sheet(design: &Design, assessment: &Assessment, system: System) -> Sheet {
    let standing = &assessment.standing;
    let over_all = (standing.overall.as_ref())
        .map(|overall| [overall.left, overall.right, overall.front, overall.back].map(mm));
    let reach = |view, over_all| {
        let own = widest(
            edges(assessment, view),
            extent(&assessment.standing.machine, view),
        );
        widest(over_all, own)
    };
    let (left, right) = reach(View::Front, over_all.map(|[from, to, ..]| (from, to)));
    let (front, back) = reach(View::Side, over_all.map(|[.., near, far]| (near, far)));
    let placed = placed(design, assessment);
    let columns = list(&placed, system);
    let wides = columns.each_ref().map(|column| {
        let wide = |cell: &String| LETTERS * width(cell);
        column.iter().map(wide).fold(0.0, f64::max)
    });
    let size = text_size(
        ROOM,
        (right - left, LEFT + AROUND),
        (back - front, BELOW + AROUND),
    );

    let mut notes = Notes::default();
    for piece in plan::touchables(design, assessment) {
        notes.strokes.extend(piece.strokes);
    }
    (notes.strokes).extend(plan::contacts(design, &standing.footprint, size));
    let reach = 0.8 * AROUND * size;
    notes.line(&[(left - reach, 0.0), (right + reach, 0.0)], "plumb");
    notes.line(&[(0.0, front - reach), (0.0, back + reach)], "plumb");
    number(&mut notes, &placed, size);

    let told = |name: &str, from: f64, to: f64| format!("{name} {}", tape(to - from, system));
    let (below, beside) = (front - 2.0 * size, left - 2.0 * size);
    if let (Some((from, to)), Some((near, far))) = (
        edges(assessment, View::Front),
        edges(assessment, View::Side),
    ) {
        notes.level(from, to, below, size, told("base", from, to));
        notes.upright(beside, near, far, size, told("base", near, far));
    }
    if let Some([from, to, near, far]) = over_all {
        let (lower, further) = (below - 3.2 * size, beside - 7.5 * size);
        notes.level(from, to, lower, size, told("over all", from, to));
        notes.upright(further, near, far, size, told("over all", near, far));
    }

    // As wide as the paper, so that the texts come out as large as they are meant.
    let list = wides.iter().map(|wide| wide + GAP).sum::<f64>() * size;
    let (begins, ends) = (left - LEFT * size, right + AROUND * size);
    let spare = (paper_width(ROOM.0, size).max(list) - (ends - begins)).max(0.0);
    let (begins, ends) = (begins - 0.5 * spare, ends + 0.5 * spare);
    let mut at = 0.5 * (begins + ends - list);
    let head = front - (BELOW + 1.0) * size;
    for (column, wide) in columns.into_iter().zip(wides) {
        let mut up = head;
        for cell in column {
            notes.text((at, up), cell, "label", "start");
            up -= LINE * size;
        }
        at += (wide + GAP) * size;
    }
    Sheet {
        bounds: (
            begins,
            ends,
            head - LINE * size * (placed.len() as f64 + 0.5),
            back + AROUND * size,
        ),
        text_size: size,
        notes,
        words: "The front is below. Feet, wheels and parts are told at their middles, from the axes through the middle of the base. The base is told between its outermost feet or wheels. Pipes and hoses are not drawn.".to_string(),
    }
}

/// The vessel, then all other parts that are there without their fill.
fn placed(design: &Design, assessment: &Assessment) -> Vec<Placed> {
    let machine = &assessment.standing.machine;
    let vessel = Placed {
        name: "Vessel".to_string(),
        middle: (mm(machine.vessel.x), mm(machine.vessel.y)),
        underside: mm(machine.vessel.underside),
    };
    let parts = machine.solids.iter().filter(|solid| {
        matches!(solid.piece, Piece::Part(_)) && solid.presence != Presence::WhenFull
    });
    let part = |solid: &Solid| Placed {
        name: solid.piece.label(design),
        middle: middle(&solid.envelope),
        underside: mm(solid.envelope.bottom()),
    };
    std::iter::once(vessel).chain(parts.map(part)).collect()
}

fn middle(envelope: &Envelope) -> (f64, f64) {
    match envelope {
        Envelope::Round(round) => (mm(round.x), mm(round.y)),
        Envelope::Box(sides) => (
            0.5 * (mm(sides.left) + mm(sides.right)),
            0.5 * (mm(sides.front) + mm(sides.back)),
        ),
    }
}

/// The columns of the list below the figure, each with its heading.
fn list(placed: &[Placed], system: System) -> [Vec<String>; 4] {
    let heads = ["Part", "Left or right", "Front or back", "Underside at"];
    let mut columns = heads.map(|head| vec![head.to_string()]);
    for (place, part) in placed.iter().enumerate() {
        let (x, y) = part.middle;
        let cells = [
            format!("{} {}", place + 1, part.name),
            aside(x, ["left", "right"], system),
            aside(y, ["front", "back"], system),
            tape(part.underside, system),
        ];
        for (column, cell) in columns.iter_mut().zip(cells) {
            column.push(cell);
        }
    }
    columns
}

/// How far from an axis, and to which side.
fn aside(at: f64, [less, more]: [&str; 2], system: System) -> String {
    let far = tape(at.abs(), system);
    if far == tape(0.0, system) {
        far
    } else {
        format!("{far} {}", if at < 0.0 { less } else { more })
    }
}

/// A cross at the middle of each part, and its number beside it, clear of all others.
fn number(notes: &mut Notes, placed: &[Placed], size: f64) {
    let mut taken: Vec<(f64, f64)> = Vec::with_capacity(placed.len());
    let (wide, tall) = (1.4 * size, 0.95 * size);
    for (place, part) in placed.iter().enumerate() {
        let (x, y) = part.middle;
        let arm = 0.35 * size;
        notes.line(&[(x - arm, y), (x + arm, y)], "dimension-end");
        notes.line(&[(x, y - arm), (x, y + arm)], "dimension-end");
        let is_clear = |at: &(f64, f64), of: &(f64, f64), wide: f64, tall: f64| {
            (at.0 - of.0).abs() >= wide || (at.1 - of.1).abs() >= tall
        };
        let is_free = |at: &(f64, f64)| {
            let of_texts = taken.iter().all(|other| is_clear(at, other, wide, tall));
            // Beside the cross of another part it would be taken for that one's.
            let mut others = (placed.iter().map(|other| &other.middle))
                .filter(|other| (other.0 - x).hypot(other.1 - y) > arm);
            of_texts && others.all(|other| is_clear(at, other, 1.2 * size, 1.1 * size))
        };
        let candidates = (1..=8).flat_map(|ring| {
            let out = f64::from(ring);
            [(1.0, 1.0), (-1.0, 1.0), (1.0, -1.0), (-1.0, -1.0)].map(|(right, up)| {
                (
                    x + right * (0.2 + 0.8 * out) * size,
                    y + up * (0.7 * out) * size,
                )
            })
        });
        let candidates: Vec<_> = candidates.collect();
        let at = (candidates
            .iter()
            .find(|at| is_free(at))
            .or(candidates.first()))
        .copied();
        let Some(at) = at else { continue };
        if (at.0 - x).hypot(at.1 - y) > 2.0 * size {
            notes.line(&[(x, y), at], "leader");
        }
        taken.push(at);
        notes.text(
            (at.0, at.1 - 0.3 * size),
            (place + 1).to_string(),
            "label",
            "middle",
        );
    }
}
