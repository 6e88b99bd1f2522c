//! Does each pipe fit its hole, and do the nozzles have a wall around their bore?

use super::MarkingReview;
use super::fit::{CLOSE, Fit, PLAY, Sits, WIDEST, across};
use super::questions::question;
use crate::design::inputs::{Hole, HoleUse};
use crate::design::phrase::{Phrase, Slot};
use crate::design::{Design, Source};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::marking::pipe_outside;
use crate::sizing::nozzle_tube::{nozzle_ring, nozzle_tube};
use crate::sizing::stage_bores::ALIKE;

/// Least wall around the bore of a nozzle, m. Our own mark: what is thinner burns away and is hard to weld.
const NOZZLE_WALL: f64 = 0.002;

/// Hole and pipe.
pub(super) fn fit_of(hole: &Hole) -> Fit {
    Fit {
        hole: hole.diameter.value,
        outside: pipe_outside(hole).value,
        wall: hole.pipe_wall.value,
    }
}

/// What is asked of a hole with a pipe.
#[derive(Clone, Copy)]
enum Asked {
    /// The pipe in its hole.
    Fits(Fit, Sits),
    /// The pipe is not entered.
    Unknown,
    /// The wall that the bore of the nozzle leaves of its tube: bore and outside.
    Wall(f64, f64),
    /// The tube inside, against the bore of the nozzle: bore and inside.
    Inside(f64, f64),
}

struct Case<'a> {
    place: usize,
    hole: &'a Hole,
    asked: Asked,
    verdict: Verdict,
    margin: f64,
}

fn case(place: usize, hole: &Hole, asked: Asked) -> Case<'_> {
    let (verdict, margin) = match asked {
        Asked::Unknown => (Verdict::CannotTell, f64::NAN),
        Asked::Fits(fit, sits) if hole.carries == HoleUse::SetOn => {
            (sits.set_on(), fit.margin_on_edge())
        }
        Asked::Fits(fit, sits) => (sits.set_through(), fit.margin_through()),
        Asked::Wall(bore, outside) => {
            let wall = 0.5 * (outside - bore);
            // A bore as wide as its tube leaves nothing of it.
            let least = f64::MIN_POSITIVE;
            (
                Verdict::at_least(wall, NOZZLE_WALL, least),
                wall / NOZZLE_WALL - 1.0,
            )
        }
        Asked::Inside(bore, inside) => {
            let share = inside / bore;
            (
                Verdict::at_least(share, ALIKE, f64::NEG_INFINITY),
                share / ALIKE - 1.0,
            )
        }
    };
    let known = margin.is_finite();
    Case {
        place,
        hole,
        asked,
        verdict: if known { verdict } else { Verdict::CannotTell },
        margin,
    }
}

/// Every pipe in its hole, and the bore of the nozzles in their tube; the worst is told. None where no hole has a pipe.
pub(super) fn pipes(design: &Design, review: &MarkingReview) -> Option<Finding> {
    let fits = (design.holes.iter().enumerate())
        .filter(|(_, hole)| hole.carries != HoleUse::Open)
        .map(|(place, hole)| {
            let fit = fit_of(hole);
            let asked = match hole.pipe {
                Some(_) => Asked::Fits(fit, fit.sits()),
                None => Asked::Unknown,
            };
            case(place, hole, asked)
        });
    let nozzles = nozzle_ring(design).filter(|_| design.in_use("hearth.nozzle_bore"));
    let nozzles = nozzles.into_iter().flat_map(|(place, ring)| {
        let (tube, bore) = (nozzle_tube(design), design.hearth.nozzle_bore.value);
        [
            Asked::Wall(bore, tube.outside.value),
            Asked::Inside(bore, tube.inside().value),
        ]
        .map(|asked| case(place, ring, asked))
    });
    let worst = fits.chain(nozzles).min_by(|one, other| {
        (other.verdict.cmp(&one.verdict)).then(one.margin.total_cmp(&other.margin))
    })?;
    let mut finding = question(
        "marking.pipes",
        "Pipes fit their holes",
        "A pipe that is set through the shell needs a hole a little wider than it is. One that is set on the shell needs an edge to stand on.",
        "A pipe that does not go in is found out with the vessel on the bench. A gap that is too wide cannot be welded tight.",
        review,
    );
    finding.about = "holes";
    finding.verdict = worst.verdict;
    finding.margin = Some(worst.margin).filter(|margin| margin.is_finite());
    finding.compared = told(&worst);
    finding.levers = levers(&worst);
    finding.working = working(&worst).into_iter().collect();
    Some(finding)
}

fn told(worst: &Case) -> Phrase {
    let name = Slot::from(worst.hole.name.as_str());
    let slot = |metres| Slot::from(across(metres));
    match worst.asked {
        Asked::Unknown => Phrase::new(
            match worst.hole.carries {
                HoleUse::SetOn => {
                    "{}: how wide the pipe is outside is not entered, and as wide as its hole of {} it has no edge to stand on"
                }
                _ => {
                    "{}: how wide the pipe is outside is not entered, and as wide as its hole of {} it does not go in"
                }
            },
            [name, slot(worst.hole.diameter.value)],
        ),
        Asked::Fits(fit, sits) => {
            let sizes = [name, slot(fit.hole), slot(fit.outside)];
            let on = worst.hole.carries == HoleUse::SetOn;
            let (words, last) = match (sits, on) {
                (Sits::Narrow | Sits::OnEdge, true) => (
                    "least to spare: {}: the hole is {} wide, the pipe that stands on it {} outside; the hole may be {}",
                    fit.widest_edge(),
                ),
                (Sits::Through, false) => (
                    "least to spare: {}: the hole is {} wide, the pipe {} outside; up to {} all round is welded as it is",
                    CLOSE,
                ),
                (Sits::Narrow | Sits::OnEdge | Sits::Between, false) => (
                    "{}: the hole is {} wide, the pipe {} outside: it does not go in; it wants {} more than its own width",
                    PLAY,
                ),
                (Sits::Tight, false) => (
                    "{}: the hole is {} wide, the pipe {} outside: it wants {} more than its own width, or it has to be driven in",
                    PLAY,
                ),
                (Sits::Between | Sits::Tight | Sits::Through, true) => (
                    "{}: the hole is {} wide, the pipe that is to stand on it {} outside: it slips in; the hole may be {}",
                    fit.widest_edge(),
                ),
                (Sits::Gap, _) => (
                    "{}: the hole is {} wide, the pipe {} outside: a gap that takes a wide weld; {} all round is welded as it is",
                    CLOSE,
                ),
                (Sits::TooWide, _) => (
                    "{}: the hole is {} wide, the pipe {} outside: no weld fills more than {} all round",
                    WIDEST,
                ),
            };
            Phrase::new(words, sizes.into_iter().chain([slot(last)]))
        }
        Asked::Wall(bore, outside) => Phrase::new(
            match worst.verdict {
                Verdict::Stop => {
                    "{}: the bore of the nozzle is {}, its tube {} outside: no wall is left, wanted {}"
                }
                Verdict::Good => {
                    "least to spare: {}: the bore of the nozzle is {}, its tube {} outside; a wall of {} is wanted"
                }
                _ => {
                    "{}: the bore of the nozzle is {}, its tube {} outside: that leaves less than a wall of {}"
                }
            },
            [name, slot(bore), slot(outside), slot(NOZZLE_WALL)],
        ),
        Asked::Inside(bore, inside) => Phrase::new(
            match worst.verdict {
                Verdict::Good => {
                    "least to spare: {}: its tube is {} wide inside, the bore of the nozzle {}"
                }
                _ => {
                    "{}: its tube is {} wide inside, the bore of the nozzle {}: drill the tube open, or the air is throttled before the nozzle"
                }
            },
            [name, slot(inside), slot(bore)],
        ),
    }
}

fn levers(worst: &Case) -> Vec<Lever> {
    let of = |name: &str| Lever::input(format!("holes.{}.{name}", worst.place));
    match worst.asked {
        Asked::Unknown => vec![of("pipe")],
        Asked::Fits(..) => vec![of("diameter"), of("pipe")],
        // The hole goes with the pipe.
        Asked::Wall(..) => vec![of("pipe"), Lever::input("hearth.nozzle_bore")],
        Asked::Inside(..) => vec![
            of("pipe_wall"),
            of("pipe"),
            Lever::input("hearth.nozzle_bore"),
        ],
    }
}

fn working(worst: &Case) -> Option<Step> {
    let on = worst.hole.carries == HoleUse::SetOn;
    Some(match worst.asked {
        Asked::Unknown => return None,
        Asked::Fits(fit, Sits::Narrow | Sits::OnEdge | Sits::Between) if on => fit.edge_step(
            "Widest hole on which half of the pipe's wall still stands",
            "The arithmetic is exact; on a narrow shell the edge of a wide pipe stands a little further out.",
        ),
        Asked::Fits(fit, _) => fit.gap_step(
            "Gap all round between hole and pipe",
            "hole",
            "2 mm (1/16 in) is welded as it is and 5 mm (3/16 in) the most there is; a thin wall bears less. That a hole is 0.2 mm (0.008 in) wider than its pipe is our own mark.",
        ),
        Asked::Wall(bore, outside) => Step {
            words: "Wall around the bore of the nozzle",
            formula: "s = (d − b)/2",
            values: vec![
                ("d", "tube outside", across(outside)),
                ("b", "bore of the nozzle", across(bore)),
            ],
            result: across(0.5 * (outside - bore)),
            source: Source::OwnMark(
                "two millimetres: what is thinner burns away and is hard to weld",
            ),
            sure: "The arithmetic is exact; how fast a nozzle burns away is not known.",
        },
        Asked::Inside(_, inside) => {
            let fit = fit_of(worst.hole);
            Step {
                words: "Inside of the tube that the nozzle sits in",
                formula: "i = d − 2 s",
                values: vec![
                    ("d", "tube outside", across(fit.outside)),
                    ("s", "tube wall", across(fit.wall)),
                ],
                result: across(inside),
                source: Source::CommonPractice,
                sure: "The arithmetic is exact. A tube that is wider than the bore takes a tip or a turned end.",
            }
        }
    })
}
