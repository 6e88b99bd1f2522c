//! Does the ash door open into the ash room?

use super::MarkingReview;
use super::questions::{length, missing, question};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::hole_purpose::is_ash_door;
use crate::sizing::machine;
use crate::sizing::marking::Mark;
use uom::si::f64::Length;
use uom::si::length::meter;

/// How much of the door should lie between the floor of the ash room and the grate, m: enough for a flat scraper. Common
/// practice, no source.
const FOR_A_SCRAPER: f64 = 0.010;
/// And how much of the height between floor and grate: through a slit at the top of a deep room the ash below is not
/// reached. Our own mark.
const OF_THE_ROOM: f64 = 0.25;
/// Less than this is no opening, m. Our own mark.
const NOTHING: f64 = 0.001;

/// An ash door beside the room under the grate, heights above the bottom end.
struct Door<'a> {
    mark: &'a Mark,
    foot: Length,
    top: Length,
    /// What of it lies between floor and grate; negative where it misses the ash room by so much.
    open: Length,
}

impl<'a> Door<'a> {
    fn new(mark: &'a Mark, floor: Length, grate: Length) -> Self {
        let (foot, top) = (
            mark.above_bottom - 0.5 * mark.diameter,
            mark.above_bottom + 0.5 * mark.diameter,
        );
        Self {
            mark,
            foot,
            top,
            open: top.min(grate) - foot.max(floor),
        }
    }
}

/// Does every ash door reach the ash, which lies between the floor of the hearth's band and the grate?
pub(super) fn ash_door(design: &Design, review: &MarkingReview) -> Finding {
    let mut finding = question(
        "marking.ash_door",
        "Ash door reaches the ash",
        "Ash falls through the grate into the ash room under it. The ash door must open there, below the grate.",
        "A door above the grate opens on glowing char: the ash cannot be taken out, and what falls out burns.",
        review,
    );
    if !design.holes.iter().any(is_ash_door) {
        return missing(
            finding,
            "no opening is called after the ash: by which it is taken out is not told",
        );
    }
    let Ok(marking) = &review.marking else {
        return finding;
    };
    let (vessel, hearth) = machine::measures(design);
    let floor = vessel.hearth_bottom - vessel.underside;
    let grate = hearth.grate - vessel.underside;
    let worst = (marking.marks.iter())
        .filter(|mark| design.holes.get(mark.hole).is_some_and(is_ash_door))
        .map(|mark| Door::new(mark, floor, grate))
        .min_by(|one, other| one.open.value.total_cmp(&other.open.value));
    let Some(door) = worst else {
        finding.compared = Phrase::plain("the ash door has no place on the shell");
        return finding;
    };
    let wanted = Length::new::<meter>(FOR_A_SCRAPER).max(OF_THE_ROOM * (grate - floor));
    finding.verdict = Verdict::at_least(door.open.value, wanted.value, NOTHING);
    let stops = finding.verdict == Verdict::Stop;
    let edges = [door.mark.name.as_str().into()]
        .into_iter()
        .chain([door.foot, door.top].map(length));
    finding.compared = if stops && door.foot >= grate {
        let words = "{} opens from {} to {} above the bottom end, over the grate at {}: ash cannot be taken out";
        Phrase::new(words, edges.chain([length(grate)]))
    } else if stops && door.top <= floor {
        let words = "{} opens from {} to {} above the bottom end, under the floor of the ash room at {}: ash cannot be taken out";
        Phrase::new(words, edges.chain([length(floor)]))
    } else {
        let words = "{} opens from {} to {} above the bottom end, the floor of the ash room is at {}, the grate at {}: {} of it opens on the ash, wanted {}";
        let room = [floor, grate, door.open.max(Length::default()), wanted];
        Phrase::new(words, edges.chain(room.map(length)))
    };
    finding.margin = Some((door.open / wanted).value - 1.0).filter(|margin| margin.is_finite());
    finding.levers = vec![
        Lever::input(format!("holes.{}.height", door.mark.hole)),
        Lever::input("hearth_wall.height"),
    ];
    finding.working = vec![working(&door, floor, grate)];
    finding
}

fn working(door: &Door, floor: Length, grate: Length) -> Step {
    let measure = |length: Length| Measure::new(Q::Length, length.value);
    Step {
        words: "What of the door opens between the floor of the ash room and the grate",
        formula: "x = min(t, g) − max(u, f)",
        values: vec![
            (
                "t",
                "top of the door above the bottom end",
                measure(door.top),
            ),
            (
                "g",
                "grate: the room that the hearth leaves free in its band is shared between fire tube and ash room",
                measure(grate),
            ),
            ("u", "foot of the door", measure(door.foot)),
            (
                "f",
                "floor of the ash room: all layers of the bottom end",
                measure(floor),
            ),
        ],
        result: measure(door.open),
        source: Source::CommonPractice,
        sure: "that a door begins below the grate is common practice; a quarter of the room's height, and 10 mm (3/8 in) for a flat scraper, are our own marks, and more is better",
    }
}
