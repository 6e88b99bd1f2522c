//! Do the holes in the fire tube keep clear of the weld between fire tube and cone?

use super::MarkingReview;
use super::fit::across;
use super::questions::question;
use crate::design::Design;
use crate::design::Source::{OwnMark, Reckoned};
use crate::design::inputs::{Hearth, HearthKind};
use crate::design::phrase::{Phrase, Slot};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::machine::HearthShape;
use crate::sizing::marking::pipe_outside;
use crate::sizing::nozzle_tube::nozzle_tube;
use crate::sizing::tube_pipes::beside_nozzles;
use uom::si::f64::Length;
use uom::si::length::meter;

/// Least steel between a hole and the end of the fire tube, m; at least the thickness of the wall, so that the
/// weld of its pipe does not melt into that of the cone. Our own mark.
const LEAST: f64 = 0.005;

/// Steel that is wanted between a hole and the end of the fire tube.
fn wanted(hearth: &Hearth) -> Length {
    hearth.steel_thickness.max(Length::new::<meter>(LEAST))
}

/// How far the fire tube has to go straight on below the middle of a hole of this width, so that it keeps clear of the weld.
pub(in crate::review) fn straight_wanted(hearth: &Hearth, hole: Length) -> Length {
    0.5 * hole + wanted(hearth)
}

/// Holes in the fire tube, m.
struct Drilled<'a> {
    /// The place in the list of holes, and the name, of what is no nozzle.
    other: Option<(usize, &'a str)>,
    /// How wide it is.
    across: f64,
    /// How far its middle lies above the end of the fire tube.
    above: f64,
    /// How far it should.
    needed: f64,
}

impl Drilled<'_> {
    fn spare(&self) -> f64 {
        self.above - self.needed
    }
}

/// The holes of the nozzles, and of every other pipe that meets the fire tube or the weld at its end.
fn drilled(design: &Design) -> impl Iterator<Item = Drilled<'_>> {
    let hearth = &design.hearth;
    let [straight, _] = HearthShape::below_nozzles(hearth);
    let hole = move |other, across: Length, above: Length| Drilled {
        other,
        across: across.value,
        above: above.value,
        needed: straight_wanted(hearth, across).value,
    };
    let nozzles = hole(None, nozzle_tube(design).outside, straight);
    let others = beside_nozzles(design).filter_map(move |(place, pipe, beside)| {
        let across = pipe_outside(pipe);
        let above = straight + beside.above;
        let meets = !beside.passes_by && (above + 0.5 * across).value > 0.0;
        meets.then(|| hole(Some((place, pipe.name.as_str())), across, above))
    });
    std::iter::once(nozzles).chain(others)
}

/// The end of the fire tube against the edge of the holes in it; the one that lies nearest counts. None for a straight tube,
/// and for what is cast in one piece.
pub(super) fn cone_weld(design: &Design, review: &MarkingReview) -> Option<Finding> {
    let hearth = &design.hearth;
    let welded = hearth.material.material().is_metal();
    if hearth.kind != HearthKind::Constricted || !welded {
        return None;
    }
    let worst = drilled(design).min_by(|one, other| one.spare().total_cmp(&other.spare()))?;
    let Drilled {
        across: hole,
        above,
        needed,
        ..
    } = worst;
    let (clear, wanted) = (above - 0.5 * hole, wanted(hearth).value);
    let verdict = Verdict::at_least(clear, wanted, f64::NEG_INFINITY);
    let sizes = |metres: &[f64]| -> Vec<Slot> {
        (metres.iter())
            .map(|metres| Slot::from(across(*metres)))
            .collect()
    };
    let name = worst.other.map(|(_, name)| Slot::from(name));
    let compared = match (name, verdict) {
        (None, Verdict::Good) => Phrase::new(
            "the fire tube ends {} below the middle of the nozzle holes of {}, wanted at least {}: they keep clear of its weld to the cone",
            sizes(&[above, hole, needed]),
        ),
        (None, _) if clear > 0.0 => Phrase::new(
            "the fire tube ends {} below the middle of the nozzle holes of {}, wanted at least {}: they lie close to its weld to the cone",
            sizes(&[above, hole, needed]),
        ),
        (None, _) if above > 0.0 => Phrase::new(
            "the fire tube ends {} below the middle of the nozzle holes of {}, wanted at least {}: they lie in its weld to the cone, and are drilled once that is welded",
            sizes(&[above, hole, needed]),
        ),
        (None, _) => Phrase::new(
            "the fire tube ends at the middle of the nozzle holes of {}, wanted at least {} below it: they lie in its weld to the cone, and are drilled once that is welded",
            sizes(&[hole, needed]),
        ),
        (Some(name), Verdict::Good) => Phrase::new(
            "least to spare: the middle of “{}”, {} wide, lies {} above the end of the fire tube, wanted at least {}: it keeps clear of the weld to the cone",
            [name].into_iter().chain(sizes(&[hole, above, needed])),
        ),
        (Some(name), _) if clear > 0.0 => Phrase::new(
            "the middle of “{}”, {} wide, lies {} above the end of the fire tube, wanted at least {}: it lies close to the weld to the cone",
            [name].into_iter().chain(sizes(&[hole, above, needed])),
        ),
        (Some(name), _) if above >= 0.0 => Phrase::new(
            "the middle of “{}”, {} wide, lies {} above the end of the fire tube, wanted at least {}: it cuts the weld to the cone",
            [name].into_iter().chain(sizes(&[hole, above, needed])),
        ),
        (Some(name), _) => Phrase::new(
            "the middle of “{}”, {} wide, lies {} below the end of the fire tube, wanted at least {} above it: it cuts the weld to the cone",
            [name].into_iter().chain(sizes(&[hole, -above, needed])),
        ),
    };
    let higher = (worst.other).map(|(place, _)| Lever::input(format!("holes.{place}.height")));
    let longer = Lever::input("hearth.straight_below_nozzles");
    Some(Finding {
        verdict,
        compared,
        margin: Some(above / needed - 1.0).filter(|margin| margin.is_finite()),
        working: vec![
            Step {
                words: "Steel between the edge of the hole and the end of the fire tube",
                formula: "a = s − d/2",
                values: vec![
                    (
                        "s",
                        "middle of the hole above the end of the fire tube",
                        across(above),
                    ),
                    ("d", "its pipe outside", across(hole)),
                ],
                result: across(clear),
                source: Reckoned("geometry: the hole is taken to be as wide as its pipe"),
                sure: "The arithmetic is exact; where no nozzle tube is entered, one of 3 mm (1/8 in) wall around the bore is taken.",
            },
            Step {
                words: "How far the middle of the hole should lie above the end of the fire tube",
                formula: "s_least = d/2 + max(t, w)",
                values: vec![
                    ("d", "its pipe outside", across(hole)),
                    ("t", "fire tube wall", across(hearth.steel_thickness.value)),
                    ("w", "least beside a weld", across(LEAST)),
                ],
                result: across(needed),
                source: OwnMark(
                    "one wall thickness, and at least five millimetres, between hole and weld",
                ),
                sure: "A habit of the workshop, not a limit: a hole in the weld can be drilled too.",
            },
        ],
        caution: None,
        levers: higher.into_iter().chain([longer]).collect(),
        about: "hearth",
        ..question(
            "marking.cone_weld",
            "Holes in the fire tube clear of the cone",
            "The cone above the throat is welded to the end of the fire tube. The holes of the nozzles, and of a lighting port beside them, want sound steel all round, some way above that weld.",
            "A drill runs off in a weld. Where the weld of a pipe lies on that of the cone both are hot and stressed at one place, and cracks begin there.",
            review,
        )
    })
}
