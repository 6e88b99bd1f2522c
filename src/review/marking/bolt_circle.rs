//! Does the circle of bolts lie on the flange, clear of its pipe and of its rim?

use super::MarkingReview;
use super::fit::across;
use super::flanges::pipe_of;
use super::questions::question;
use crate::design::inputs::Flange;
use crate::design::phrase::{Phrase, Slot};
use crate::design::quantity::falls_short;
use crate::design::{Design, Source};
use crate::review::finding::{Finding, Lever, Step, Verdict};

/// Least from the middle of a bolt hole to the rim, in holes.
const TO_RIM: f64 = 1.2;
/// Where that comes from.
const RIM: Source = Source::FromMemory("EN 1993-1-8, table 3.3: least edge distance");
/// Nearer than this to the rim, in holes, less than half a hole of metal is left: it tears out. Our own mark.
const TEARS_OUT: f64 = 1.0;
/// Width of a washer over that of its hole: an M10 has 20 mm over 11 mm, other sizes about the same.
const WASHER: f64 = 20.0 / 11.0;
/// The same of a hexagon nut across its flats: an M10 has 16 mm.
const NUT: f64 = 16.0 / 11.0;
/// Where both come from.
const BOLTS: Source =
    Source::FromMemory("ISO 273, holes for bolts; ISO 7089, washers; ISO 4032, nuts");

/// One side of a bolt circle, m.
struct Side {
    is_rim: bool,
    /// From the middles of the bolt holes to the rim, or to what is inside.
    room: f64,
    wanted: f64,
    least: f64,
}

impl Side {
    fn margin(&self) -> f64 {
        self.room / self.wanted - 1.0
    }

    fn verdict(&self) -> Verdict {
        Verdict::at_least(self.room, self.wanted, self.least)
    }
}

/// What lies inside a bolt circle.
#[derive(Clone, Copy, PartialEq)]
enum Inside<'a> {
    /// A pipe, as it is called.
    Pipe(&'a str),
    /// The bore of a flange without a pipe.
    Bore,
}

struct Case<'a> {
    place: usize,
    flange: &'a Flange,
    side: Side,
    /// None at the rim, and of a blind flange.
    inside: Option<(Inside<'a>, f64)>,
}

/// Both sides of a flange; a blind one has nothing inside.
fn sides<'a>(design: &'a Design, place: usize, flange: &'a Flange) -> Vec<Case<'a>> {
    let (hole, circle) = (flange.bolt_hole.value, flange.bolt_circle.value);
    let rim = Case {
        place,
        flange,
        side: Side {
            is_rim: true,
            room: 0.5 * (flange.outside.value - circle),
            wanted: TO_RIM * hole,
            least: TEARS_OUT * hole,
        },
        inside: None,
    };
    let bore = flange.bore.value;
    let inside = (bore > 0.0).then(|| match pipe_of(design, flange) {
        Some((name, outside)) => (Inside::Pipe(name), outside.max(bore)),
        None => (Inside::Bore, bore),
    });
    let inside = inside.map(|(what, width)| Case {
        place,
        flange,
        side: Side {
            is_rim: false,
            room: 0.5 * (circle - width),
            wanted: 0.5 * WASHER * hole,
            // A nut that meets the pipe does not turn; a hole that meets the bore lets gas out.
            least: 0.5 * hole * if what == Inside::Bore { 1.0 } else { NUT },
        },
        inside: Some((what, width)),
    });
    [Some(rim), inside].into_iter().flatten().collect()
}

/// The flange whose bolts have least room, to the rim or to what is inside.
pub(super) fn bolt_circles(design: &Design, review: &MarkingReview) -> Option<Finding> {
    let worst = (design.flanges.iter().enumerate())
        .flat_map(|(place, flange)| sides(design, place, flange))
        .min_by(|one, other| {
            let grave = other.side.verdict().cmp(&one.side.verdict());
            grave.then(one.side.margin().total_cmp(&other.side.margin()))
        })?;
    let mut finding = question(
        "marking.bolt_circle",
        "Bolts on their flanges",
        "The bolt circle runs through the middles of the bolt holes. It leaves room for nut and washer beside the pipe, and for metal to the rim.",
        "A nut that meets the pipe does not turn, and a hole too near to the rim tears out: the flange cannot be pulled tight, and leaks.",
        review,
    );
    finding.about = "flanges";
    // Nothing is cut into the vessel for them.
    finding.caution = None;
    finding.verdict = worst.side.verdict();
    finding.margin = Some(worst.side.margin()).filter(|margin| margin.is_finite());
    finding.compared = told(&worst);
    finding.working = vec![working(&worst)];
    if finding.verdict != Verdict::Good {
        let fields: &[&str] = match worst.side.is_rim {
            true => &["outside", "bolt_circle", "bolt_hole"],
            false => &["bolt_circle", "bolt_hole"],
        };
        finding.levers = (fields.iter())
            .map(|field| Lever::input(Design::item_input("flanges", worst.place, field)))
            .collect();
    }
    Some(finding)
}

fn told(case: &Case) -> Phrase {
    let flange = case.flange;
    let slot = |metres: f64| Slot::from(across(metres));
    let side = &case.side;
    let (name, circle) = (
        Slot::from(flange.name.as_str()),
        slot(flange.bolt_circle.value),
    );
    let (room, wanted) = (slot(side.room.abs()), slot(side.wanted));
    let beyond = side.room < 0.0;
    match case.inside {
        None if beyond => Phrase::new(
            "{}: its bolt circle of {} lies outside its rim, {} across",
            [name, circle, slot(flange.outside.value)],
        ),
        None => Phrase::new(
            "{}: from the bolt circle of {} it is {} to the rim, wanted {} for holes of {}",
            [name, circle, room, wanted, slot(flange.bolt_hole.value)],
        ),
        Some((Inside::Bore, width)) if beyond => Phrase::new(
            "{}: its bolt circle of {} lies inside its bore, {} across",
            [name, circle, slot(width)],
        ),
        Some((Inside::Bore, _)) => Phrase::new(
            "{}: from the bolt circle of {} it is {} to the bore; a washer takes {}",
            [name, circle, room, wanted],
        ),
        Some((Inside::Pipe(pipe), _)) if beyond => Phrase::new(
            "{}: its bolt circle of {} lies inside “{}”",
            [name, circle, pipe.into()],
        ),
        Some((Inside::Pipe(pipe), _)) => {
            let turns = !falls_short(side.room, side.least);
            Phrase::new(
                if turns {
                    "{}: from the bolt circle of {} it is {} to “{}”; a washer takes {}"
                } else {
                    "{}: from the bolt circle of {} it is {} to “{}”, too little for a nut; a washer takes {}"
                },
                [name, circle, room, pipe.into(), wanted],
            )
        }
    }
}

fn working(case: &Case) -> Step {
    let flange = case.flange;
    let circle = ("C", "bolt circle", across(flange.bolt_circle.value));
    let hole = ("d", "bolt hole", across(flange.bolt_hole.value));
    match case.inside {
        None => Step {
            words: "From the middle of a bolt hole to the rim, at least 1.2 d",
            formula: "e = (D − C)/2, e ≥ 1.2 d",
            values: vec![
                ("D", "outside of the flange", across(flange.outside.value)),
                circle,
                hole,
            ],
            result: across(case.side.room),
            source: RIM,
            sure: "the arithmetic is exact; 1.5 d is common practice and leaves something for a hole that ran off; below d is a Stop by our own mark",
        },
        Some((_, width)) => Step {
            words: "From the middle of a bolt hole to what is inside, at least half a washer",
            formula: "e = (C − D)/2, e ≥ 0.91 d",
            values: vec![
                circle,
                ("D", "pipe outside, or bore without a pipe", across(width)),
                hole,
            ],
            result: across(case.side.room),
            source: BOLTS,
            sure: "The washer is taken from the hole: a bolt that is thinner than its hole allows has a smaller one. The weld around the pipe takes a little more",
        },
    }
}
