//! The end of a branch pipe that sits on a round shell, and the hole under it.

use super::{Pattern, PatternError, Stroke, Use, at, mm, told, within};
use crate::sizing::branch::Branch;
use crate::sizing::pipe_way::{is_straight, outer_end, side};
use std::f64::consts::PI;
use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};

/// Points along a curve: on a pipe of 200 mm a side is off by less than 0.01 mm.
const STEPS: u32 = 180;
/// Plain pipe between the curve's highest point and the template's straight edge, mm.
const STRAIGHT: f64 = 40.0;

/// Which edge of the pipe's wall a curve is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ContactEdge {
    /// The outside of the pipe touches the shell.
    Outside,
    /// The inside of the pipe touches the shell.
    Inside,
    /// Whichever touches first all the way round: a cut square to the pipe's wall then seats.
    FirstToTouch,
}

/// A pipe set on the outside of a round shell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Saddle {
    /// Outside radius of the shell.
    pub shell_radius: Length,
    /// Outside diameter of the pipe.
    pub pipe_outside: Length,
    /// Thickness of the pipe's wall; less than half the outside diameter.
    pub pipe_wall: Length,
    /// Angle between the axes: 90° straight out, less leans upwards; 10 to 170°.
    pub lean: Angle,
    /// How far the pipe's axis passes beside the shell's, to the right seen from outside.
    pub offset: Length,
    /// The edge that the curve is for.
    pub edge: ContactEdge,
}

/// The template to wrap around the pipe, along its outside circumference. The curve is the cut; the
/// straight edge lies at a right angle to the pipe. It starts and ends at the pipe's top: the side
/// that leans towards the vessel's upper end. Printed side out and curve towards the vessel, it runs
/// from there over the pipe's left, seen from outside, to its right.
///
/// ```
/// use hearthplan::sizing::pattern::{saddle, ContactEdge, Saddle};
/// use uom::si::{angle::degree, f64::{Angle, Length}, length::millimeter};
/// let mm = |value| Length::new::<millimeter>(value);
/// let pipe = Saddle {
///     shell_radius: mm(175.0),
///     pipe_outside: mm(60.3),
///     pipe_wall: mm(2.6),
///     lean: Angle::new::<degree>(60.0),
///     offset: mm(0.0),
///     edge: ContactEdge::FirstToTouch,
/// };
/// let template = saddle("Gas outlet", &pipe).unwrap();
/// assert!((template.bounds().width() - std::f64::consts::PI * 60.3) < 20.0);
/// ```
///
/// # Errors
/// [`PatternError`]: the pipe is wider than the shell, passes beside it, lies too flat, or is all wall.
pub fn saddle(name: &str, pipe: &Saddle) -> Result<Pattern, PatternError> {
    let outside = 0.5 * mm(pipe.pipe_outside);
    let wall = within("the pipe's wall", pipe.pipe_wall, 0.0, 0.99 * outside)?;
    let outer = branch(pipe, 0.5 * pipe.pipe_outside)?;
    let inner = branch(pipe, 0.5 * pipe.pipe_outside - pipe.pipe_wall)?;
    let width = 2.0 * PI * outside;
    let mut cuts = Vec::with_capacity(STEPS as usize + 1);
    let mut widest = 0.0_f64;
    for step in 0..=STEPS {
        let turn = f64::from(step) / f64::from(STEPS);
        let around = Angle::new::<degree>(360.0 * turn);
        let (of_outside, of_inside) = (mm(outer.cut(around)), mm(inner.cut(around)));
        widest = widest.max((of_outside - of_inside).abs());
        let cut = match pipe.edge {
            ContactEdge::Outside => of_outside,
            ContactEdge::Inside => of_inside,
            ContactEdge::FirstToTouch => of_outside.max(of_inside),
        };
        // The angle counts from the top to the right. The sheet, printed side out and the curve
        // towards the vessel, runs to the left.
        cuts.push(at(width * (1.0 - turn), cut));
    }
    let edge = match pipe.edge {
        ContactEdge::Outside => "The curve is for the outside edge of the pipe",
        ContactEdge::Inside => "The curve is for the inside edge of the pipe",
        ContactEdge::FirstToTouch => {
            "The curve is for the edge that touches first. Cut square to the pipe's wall"
        }
    };
    let mut pattern = Pattern::new(
        format!("{name}: pipe end"),
        format!(
            "Wrap it around the outside of the pipe, printed side out, curve towards the vessel, \
             ends at the pipe's top. Left and right are as seen from outside. {edge}; the wall of {} leaves up to {} at its other edge.",
            told(wall),
            told(widest)
        ),
    );
    cuts.reverse();
    let top = cuts.iter().map(|cut| cut.y).fold(0.0, f64::max) + STRAIGHT;
    let ends = [cuts.first().copied(), cuts.last().copied()];
    for (end, x) in ends.into_iter().flatten().zip([0.0, width]) {
        pattern.line(Use::Mark, end, at(x, top));
    }
    pattern.draw(
        Use::Cut,
        Stroke::Polyline {
            points: cuts,
            closed: false,
        },
    );
    pattern.line(Use::Mark, at(0.0, top), at(width, top));
    pattern.measured_from(("the left end", 0.0), ("the straight edge", top));
    for (quarter, word) in ["top", "left", "bottom", "right"].into_iter().enumerate() {
        let x = width * quarter as f64 / 4.0;
        let mark = pattern.line(Use::Mark, at(x, top - 0.5 * STRAIGHT), at(x, top));
        pattern.name(mark, at(x + 1.0, top - 6.0), 3.0, word);
    }
    Ok(pattern.finished())
}

fn branch(pipe: &Saddle, radius: Length) -> Result<Branch, PatternError> {
    Ok(Branch::new(
        pipe.shell_radius,
        radius,
        pipe.lean,
        pipe.offset,
    )?)
}

/// The hole for a branch on the unrolled shell, for the shell's outside. The cross is where the
/// branch's axis meets the shell.
///
/// ```
/// use hearthplan::sizing::{branch::Branch, pattern::saddle_hole};
/// use uom::si::{f64::Length, length::millimeter};
/// let mm = |value| Length::new::<millimeter>(value);
/// let cut = Branch::straight(mm(175.0), mm(27.0)).unwrap();
/// assert!(!saddle_hole("Gas outlet", &cut).lines.is_empty());
/// ```
pub fn saddle_hole(name: &str, cut: &Branch) -> Pattern {
    let mut pattern = Pattern::new(
        format!("{name}: hole"),
        "Lay it on the outside of the shell, cross on the mark, arrow upwards. The outline is for the \
         outside of the shell and runs along the branch's axis: cut in that direction.",
    );
    let points = hole_points(cut, 0.0, 0.0);
    let right = points.iter().map(|point| point.x).fold(0.0, f64::max);
    let hole = pattern.outline(Use::Cut, points);
    // By its outline alone nobody tells up from down.
    for (line, words) in leads(cut).into_iter().enumerate() {
        let beside = at(right + 2.0, -LINE * line as f64);
        pattern.name(hole, beside, SMALL, words);
    }
    pattern.cross(at(0.0, 0.0), 5.0);
    pattern.measured_from(
        ("the middle of the cross", 0.0),
        ("the middle of the cross", 0.0),
    );
    let arrow = 0.5 * mm(cut.radius());
    pattern.line(Use::Mark, at(0.0, 0.0), at(0.0, arrow));
    for side in [-2.0, 2.0] {
        pattern.line(Use::Mark, at(side, arrow - 3.0), at(0.0, arrow));
    }
    pattern.finished()
}

/// Height of the words beside a hole, and from line to line of them, mm.
const SMALL: f64 = 2.5;
const LINE: f64 = 4.0;

/// How the pipe leads away from its hole, a line each; nothing of one that is set like any other, straight out.
fn leads(cut: &Branch) -> Vec<String> {
    let off =
        side(cut.offset()).map(|side| format!("set off {} {side}", told(mm(cut.offset()).abs())));
    let words = format!(
        "{:.1}°, {}",
        cut.lean().get::<degree>(),
        outer_end(cut.lean())
    );
    let angle = (off.is_some() || !is_straight(cut.lean())).then_some(words);
    angle.into_iter().chain(off).collect()
}

/// The outline of a hole around its middle on the unrolled shell, mm.
pub(super) fn hole_points(cut: &Branch, along: f64, up: f64) -> Vec<super::Point> {
    (0..STEPS)
        .map(|step| {
            let around = Angle::new::<degree>(360.0 * f64::from(step) / f64::from(STEPS));
            let point = cut.outline(around);
            at(along + mm(point.along), up + mm(point.up))
        })
        .collect()
}
