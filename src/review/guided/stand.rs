//! The base within the room that was answered, and a frame that bears what stands on it.

use super::{Assessment, Tally, Verdict, assess, in_both, mend, places, whole};
use crate::design::Design;
use crate::design::inputs::{StageKind, Stance};
use crate::design::quantity::Quantity as Q;
use crate::sizing::footprint::least_clearance;
use crate::sizing::metric_stock_table::SHEETS;
use uom::si::f64::{Length, Pressure};
use uom::si::length::meter;
use uom::si::pressure::pascal;

/// Frame tubes are so much wider than the next narrower one, m. Common practice, no source.
const SIDE_STEP: f64 = 0.01;
/// The widest frame tube that is taken, m. Our own choice.
const WIDEST: f64 = 0.08;

/// The room for the machine, from left to right and from front to back.
#[derive(Clone, Copy)]
pub(super) struct Room {
    sides: [Option<Length>; 2],
    /// Whether it was answered just now, for the frame: parts that find no place inside may stick out.
    is_answered: bool,
}

/// Makes the base as much smaller as the frame tube is wide: the answers count over all, the base between the feet. A base
/// that was made so before, and was not answered anew, stays. The room that there is goes out of the design until all of it
/// has its place.
pub(super) fn within_room(design: &mut Design) -> Room {
    let own_points = design.base.stance == Stance::Points;
    let is_answered = !own_points && !design.about.note.contains(&told(design));
    let base = &mut design.base;
    let entered = [base.room_width.take(), base.room_depth.take()];
    let sides = match is_answered {
        true => [Some(base.width), Some(base.depth)],
        false => entered,
    };
    if is_answered {
        narrow(design, design.base.frame_side);
    }
    Room { sides, is_answered }
}

/// What the machine takes over all is told as its room by whole such steps, m.
const ROOM_STEP: f64 = 0.001;

/// Whether a size is larger than another by more than its sums are off.
fn is_beyond(size: Length, other: Length) -> bool {
    (size - other).value > ROUNDING * ROOM_STEP.max(other.value)
}

/// Writes down the room that was answered, so that no later change takes more. It was answered for the frame: where not all
/// parts find a place inside, it is what the machine takes.
pub(super) fn keep_room(design: &mut Design, room: Room) {
    let takes = assess(design).standing.overall;
    let takes = takes.map(|overall| [overall.width(), overall.depth()]);
    let with_parts = |side: Option<Length>, place: usize| {
        let taken = takes.filter(|_| room.is_answered)?[place];
        let whole = (taken.value / ROOM_STEP - ROUNDING).ceil() * ROOM_STEP;
        // What is all inside takes what was answered, and no whole step more.
        side.map(|side| match is_beyond(taken, side) {
            true => Length::new::<meter>(whole),
            false => side,
        })
    };
    let [width, depth] = room.sides;
    design.base.room_width = with_parts(width, 0).or(width);
    design.base.room_depth = with_parts(depth, 1).or(depth);
}

/// What the machine takes beyond the room that was answered for its frame, in words for the note; nothing where all of it is
/// inside.
pub(super) fn told_of_room(design: &Design) -> String {
    let base = &design.base;
    let (Some(width), Some(depth)) = (base.room_width, base.room_depth) else {
        return String::new();
    };
    let frame = [base.width + base.frame_side, base.depth + base.frame_side];
    if base.stance == Stance::Points || !(is_beyond(width, frame[0]) || is_beyond(depth, frame[1]))
    {
        return String::new();
    }
    let show = |length: Length| in_both(Q::Length, length.value);
    format!(
        " Room: {} wide and {} deep, since not all parts find a place inside the frame. No change that is offered takes more.",
        show(width),
        show(depth)
    )
}

/// Heights under a vessel are chosen in such steps, m. Our own choice.
const CLEARANCE_STEP: f64 = 0.01;
/// A height that is above a step by less than this share of it lies on it.
const ROUNDING: f64 = 1e-6;

/// Raises the vessel to where frame and wheels have room under it, whatever that does to its stand: lower it cannot be
/// built.
pub(super) fn high_enough(design: &mut Design) {
    let needed = least_clearance(design);
    if design.base.clearance < needed {
        let steps = (needed.value / CLEARANCE_STEP - ROUNDING).ceil();
        design.base.clearance = whole(Length::new::<meter>(steps * CLEARANCE_STEP));
    }
}

fn narrow(design: &mut Design, by: Length) {
    let base = &mut design.base;
    base.width -= by;
    base.depth -= by;
}

/// A frame of thicker or, where that is not enough, wider tube where it bears too little; as wide and deep outside as before.
pub(super) fn strengthen(design: &mut Design, start: &Design) {
    mend(design, "standing.frame_bears", ".frame_wall", |wall| wall);
    let before = assess(design);
    let bears = |found: &Assessment| {
        (found.finding("standing.frame_bears"))
            .is_none_or(|finding| finding.verdict == Verdict::Good)
    };
    if bears(&before) || design.base.stance == Stance::Points {
        return;
    }
    let mut wider = design.clone();
    let step = Length::new::<meter>(SIDE_STEP);
    while wider.base.frame_side.value + SIDE_STEP <= WIDEST + 1e-9 {
        wider.base.frame_side = whole(wider.base.frame_side + step);
        narrow(&mut wider, step);
        let mut placed = wider.clone();
        places::place(&mut placed, start);
        let found = assess(&placed);
        if bears(&found) {
            if Tally::of(&found.findings) < Tally::of(&before.findings) {
                *design = placed;
            }
            return;
        }
    }
}

/// Test pressures are chosen in such steps, and no higher than usual, Pa. Our own choice.
const TEST_PRESSURE_STEP: f64 = 500.0;
const MOST_PRESSURE: f64 = 7_000.0;
/// The sheet of filter drums is made thicker by so many sizes that are sold at most. Our own choice.
const SHEET_STEPS: usize = 4;

/// A leak test takes as much as the engine draws. Where the wide flat end of a filter would tear at that, its drum is made
/// of thicker sheet.
pub(super) fn test_as_hard_as_it_sucks(design: &mut Design) {
    let before = assess(design);
    let Some(suction) = before.leaks.suction else {
        return;
    };
    let pressure = (suction.value / TEST_PRESSURE_STEP).ceil() * TEST_PRESSURE_STEP;
    if design.leak_test.test_pressure >= suction || pressure > MOST_PRESSURE {
        return;
    }
    let was = Tally::of(&before.findings);
    for step in 0..=SHEET_STEPS {
        let mut tried = design.clone();
        tried.leak_test.test_pressure = Pressure::new::<pascal>(pressure);
        for stage in (tried.train.iter_mut()).filter(|stage| stage.kind == StageKind::Filter) {
            let mut thicker = (SHEETS.iter()).filter(|size| **size > stage.wall.value + 1e-9);
            if let Some(size) = step.checked_sub(1).and_then(|past| thicker.nth(past)) {
                stage.wall = Length::new::<meter>(*size);
            }
        }
        if Tally::of(&assess(&tried).findings) < was {
            *design = tried;
            return;
        }
    }
}

/// What became of the answers about the room, in words for the note of the design; nothing for points of one's own.
pub(super) fn told(design: &Design) -> String {
    told_in(design, |length| in_both(Q::Length, length.value))
}

/// The same with lengths shown otherwise.
pub(super) fn told_in(design: &Design, show: impl Fn(Length) -> String) -> String {
    let base = &design.base;
    if base.stance == Stance::Points {
        return String::new();
    }
    format!(
        " Base: {} wide and {} deep between the feet, so that its frame is {} wide and {} deep outside.",
        show(base.width),
        show(base.depth),
        show(base.width + base.frame_side),
        show(base.depth + base.frame_side)
    )
}
