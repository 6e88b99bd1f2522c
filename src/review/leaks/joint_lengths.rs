//! Are the joints as long as what they go around?

use super::blank::blank;
use crate::design::Design;
use crate::design::Source::OwnMark;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::joint_length::{Round, Seat, rounds};

/// The name of the question.
pub(in crate::review) const JOINT_LENGTHS: &str = "leaks.joint_lengths";
/// A joint so much longer or shorter than once around is that of another vessel. Our own mark: a gasket lies a little
/// inside of the edge, or outside of it.
const OFF: f64 = 0.10;

/// A joint with its entered length beside once around.
struct Case<'a> {
    round: Round,
    name: &'a str,
    entered: f64,
    off: f64,
}

/// The joint whose length is farthest from once around. Nothing where no joint tells where it lies.
pub(super) fn joint_lengths(design: &Design) -> Option<Finding> {
    let cases: Vec<Case> = rounds(design)
        .filter_map(|round| {
            let joint = design.joints.get(round.place)?;
            let entered = joint.length.value;
            Some(Case {
                round,
                name: joint.name.trim(),
                entered,
                off: (entered / round.length.value - 1.0).abs(),
            })
        })
        .collect();
    let worst = (cases.iter()).max_by(|one, other| one.off.total_cmp(&other.off))?;
    let others = cases.iter().filter(|case| case.off > OFF).count().max(1) - 1;
    let mut finding = blank(
        JOINT_LENGTHS,
        "Length of the joints around the vessel",
        "A joint around the vessel is as long as the vessel is round there: 3.14 times as long as that is wide.",
        "Gaskets, sealing cord and welds are bought and cut by these lengths, and each joint gets its share of the leak allowed by them.",
    );
    finding.verdict = Verdict::at_most(worst.off, OFF, f64::INFINITY);
    finding.compared = told(worst, others);
    finding.margin = Some(1.0 - worst.off / OFF).filter(|margin| margin.is_finite());
    finding.working = cases.iter().map(step).collect();
    finding.caution = None;
    finding.levers = (cases.iter())
        .filter(|case| case.off > OFF)
        .map(|case| Lever::input(format!("joints.{}.length", case.round.place)))
        .collect();
    finding.about = "joints";
    Some(finding)
}

fn told(worst: &Case, others: usize) -> Phrase {
    let length = |value| -> Slot { Measure::new(Q::Length, value).into() };
    let where_it_lies = match worst.round.seat {
        Seat::Lid if worst.round.gasket.value > 0.0 => "the gasket under the lid",
        Seat::Lid => "the lid",
        Seat::Bottom => "the bottom",
        Seat::HopperFoot if worst.round.gasket.value > 0.0 => "the gasket at the hopper's foot",
        Seat::HopperFoot => "the hopper's foot",
    };
    let mut slots = vec![
        worst.name.into(),
        length(worst.entered),
        where_it_lies.into(),
        length((worst.round.across + worst.round.gasket).value),
        length(worst.round.length.value),
    ];
    let words = match (worst.off > OFF, others) {
        (false, _) => "“{}” is {} long; {} is {} wide, once around {}: none is farther off",
        (true, 0) => "“{}” is {} long, but {} is {} wide: once around it takes {}",
        (true, _) => {
            slots.push(others.to_string().into());
            "“{}” is {} long, but {} is {} wide: once around it takes {}; so it is with {} more"
        }
    };
    Phrase::new(words, slots)
}

fn step(case: &Case) -> Step {
    let length = |value| Measure::new(Q::Length, value);
    let round = &case.round;
    let mut values = vec![(
        "D",
        match round.seat {
            Seat::Lid => "the shell under the lid, outside",
            Seat::Bottom => "the bottom, outside",
            Seat::HopperFoot => "the hopper's foot, inside",
        },
        length(round.across.value),
    )];
    let beside = round.gasket.value > 0.0;
    if beside {
        values.push((
            "w",
            "gasket around it",
            Measure::new(Q::Thickness, round.gasket.value),
        ));
    }
    Step {
        words: match round.seat {
            Seat::Lid if beside => {
                "Once around the shell under the lid, along the middle of the gasket"
            }
            Seat::Lid => "Once around the lid",
            Seat::Bottom => "Once around the bottom",
            Seat::HopperFoot => "Once around the hopper's foot, along the middle of the gasket",
        },
        formula: match beside {
            true => "L = π (D + w)",
            false => "L = π D",
        },
        values,
        result: length(round.length.value),
        source: OwnMark("a tenth longer or shorter still counts: no gasket lies on the very edge"),
        sure: "The arithmetic is exact; where in its flange a gasket lies is not entered.",
    }
}

/// The length that suits a joint of this path; none where it is not known where that lies.
pub(in crate::review) fn length_that_suits(design: &Design, path: &str) -> Option<f64> {
    let place = path.strip_prefix("joints.")?.strip_suffix(".length")?;
    let place = place.parse::<usize>().ok()?;
    let round = rounds(design).find(|round| round.place == place)?;
    Some((round.length.value * 1000.0).round() / 1000.0)
}
