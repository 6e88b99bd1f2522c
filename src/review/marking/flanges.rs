//! Does each flange fit the pipe that it is welded on?

use super::MarkingReview;
use super::fit::{CLOSE, Fit, Sits, WIDEST, across};
use super::questions::question;
use crate::design::inputs::{Flange, HoleUse, StageKind};
use crate::design::phrase::{Phrase, Slot};
use crate::design::{Choice as _, Design};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::marking::pipe_outside;

/// A flange so many times as wide as the widest pipe is one of a lid or a door. Our own mark.
const OF_A_LID: f64 = 2.0;

/// A pipe that is entered, m.
#[derive(Clone, Copy)]
struct Pipe<'a> {
    /// The name it was given; may be empty.
    name: &'a str,
    told: &'a str,
    outside: f64,
    wall: f64,
}

/// The pipes in the holes, then those of the gas train.
fn pipes(design: &Design) -> impl Iterator<Item = Pipe<'_>> {
    let in_holes = (design.holes.iter())
        .filter(|hole| hole.carries != HoleUse::Open)
        .map(|hole| Pipe {
            name: &hole.name,
            told: &hole.name,
            outside: pipe_outside(hole).value,
            wall: hole.pipe_wall.value,
        });
    let of_train = (design.train.iter())
        .filter(|stage| stage.kind == StageKind::Pipe)
        .map(|stage| Pipe {
            name: stage.name.trim(),
            told: match stage.name.trim() {
                "" => stage.kind.label(),
                name => name,
            },
            outside: (stage.bore + 2.0 * stage.wall).value,
            wall: stage.wall.value,
        });
    in_holes.chain(of_train)
}

/// Shortest name of a pipe that a flange is named after, bytes: a letter or two stands in any name.
const TELLING: usize = 3;

/// Whether a name holds another, small letters or large.
fn holds(name: &str, other: &str) -> bool {
    let (name, other) = (name.as_bytes(), other.as_bytes());
    other.len() >= TELLING
        && (name.windows(other.len())).any(|part| part.eq_ignore_ascii_case(other))
}

/// A flange with the pipe it goes on; none where none is named and none fits.
struct Case<'a> {
    place: usize,
    flange: &'a Flange,
    on: Option<(Pipe<'a>, Fit)>,
    verdict: Verdict,
    margin: f64,
}

fn fit(flange: &Flange, pipe: Pipe) -> Fit {
    Fit {
        hole: flange.bore.value,
        outside: pipe.outside,
        wall: pipe.wall,
    }
}

/// The pipe whose name the flange has, else the first that fits.
fn case<'a>(design: &'a Design, place: usize, flange: &'a Flange) -> Case<'a> {
    let named = pipes(design).find(|pipe| holds(&flange.name, pipe.name));
    let on = (named.map(|pipe| (pipe, fit(flange, pipe)))).or_else(|| {
        (pipes(design).map(|pipe| (pipe, fit(flange, pipe))))
            .find(|(_, fit)| fit.sits().either() == Verdict::Good)
    });
    let margin = on.map_or(f64::NAN, |(_, fit)| fit.margin_either());
    Case {
        place,
        flange,
        on,
        verdict: (on.filter(|_| margin.is_finite()))
            .map_or(Verdict::CannotTell, |(_, fit)| fit.sits().either()),
        margin,
    }
}

/// Name and outside of the pipe that a flange goes on, m; none where none is named and none fits.
pub(super) fn pipe_of<'a>(design: &'a Design, flange: &'a Flange) -> Option<(&'a str, f64)> {
    let (pipe, _) = case(design, 0, flange).on?;
    Some((pipe.told, pipe.outside))
}

/// The flange that fits its pipe worst. Blind flanges and those of lids and doors have no pipe, and are not asked about.
pub(super) fn flanges(design: &Design, review: &MarkingReview) -> Option<Finding> {
    if design.flanges.is_empty() {
        return None;
    }
    let widest = pipes(design).map(|pipe| pipe.outside).fold(0.0, f64::max);
    let of_pipe = |flange: &Flange| {
        let bore = flange.bore.value;
        bore > 0.0 && (widest == 0.0 || bore <= OF_A_LID * widest)
    };
    let worst = (design.flanges.iter().enumerate())
        .filter(|(_, flange)| of_pipe(flange))
        .map(|(place, flange)| case(design, place, flange))
        .min_by(|one, other| {
            (other.verdict.cmp(&one.verdict)).then(one.margin.total_cmp(&other.margin))
        })?;
    let mut finding = question(
        "marking.flanges",
        "Flanges fit their pipes",
        "A flange is pushed over its pipe, or welded on the pipe's end. The name of a flange tells which pipe it is for.",
        "A bore that is too wide leaves a gap that no weld fills, one that is too narrow does not go over the pipe, or stands in the way of the gas.",
        review,
    );
    finding.about = "flanges";
    // Nothing is cut into the vessel for them.
    finding.caution = None;
    finding.verdict = worst.verdict;
    finding.margin = Some(worst.margin).filter(|margin| margin.is_finite());
    let (name, bore) = (
        Slot::from(worst.flange.name.as_str()),
        Slot::from(across(worst.flange.bore.value)),
    );
    let Some((pipe, fit)) = worst.on else {
        finding.compared = Phrase::new(
            "{}: a bore of {} fits no pipe that is entered; give it the name of its pipe",
            [name, bore],
        );
        return Some(finding);
    };
    let slot = |metres| Slot::from(across(metres));
    let (words, last) = match fit.sits() {
        Sits::OnEdge => (
            "{}: with a bore of {} it is welded on the end of “{}”, {} outside and {} inside",
            fit.inside(),
        ),
        Sits::Through => (
            "{}: with a bore of {} it goes over “{}”, {} outside, with a gap of {} all round",
            fit.gap(),
        ),
        Sits::Narrow => (
            "{}: its bore of {} stands in the way of the gas in “{}”, {} outside and {} inside",
            fit.inside(),
        ),
        Sits::Between | Sits::Tight => (
            "{}: its bore of {} does not go over “{}”, {} outside, and is too wide for its end: there it may be {}",
            fit.widest_edge(),
        ),
        Sits::Gap => (
            "{}: its bore of {} leaves a gap round “{}”, {} outside, that takes a wide weld; {} all round is welded as it is",
            CLOSE,
        ),
        Sits::TooWide => (
            "{}: its bore of {} is too wide for “{}”, {} outside: no weld fills more than {} all round",
            WIDEST,
        ),
    };
    finding.compared = Phrase::new(
        words,
        [name, bore, pipe.told.into(), slot(pipe.outside), slot(last)],
    );
    finding.levers = vec![Lever::input(Design::item_input(
        "flanges",
        worst.place,
        "bore",
    ))];
    finding.working = vec![working(fit)];
    Some(finding)
}

fn working(fit: Fit) -> Step {
    match fit.sits() {
        Sits::Narrow | Sits::OnEdge | Sits::Between => fit.edge_step(
            "Widest bore that is welded on the end: half of the pipe's wall stands on the flange",
            "The arithmetic is exact; that the bore is no narrower than nine tenths of the pipe inside is common practice, no source.",
        ),
        Sits::Tight | Sits::Through | Sits::Gap | Sits::TooWide => fit.gap_step(
            "Gap all round between flange and pipe",
            "bore of the flange",
            "2 mm (1/16 in) is welded as it is and 5 mm (3/16 in) the most there is; a thin wall bears less. That a bore is 0.2 mm (0.008 in) wider than its pipe is our own mark.",
        ),
    }
}
