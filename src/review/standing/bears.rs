//! Does the frame bear what stands on it?

use super::{Standing, question};
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::strength::MILD_STEEL;
use crate::design::{Design, Source};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::frame_strength::{
    Bars, FrameStrength, IN_HAND, KNOCK, Member, WALL_BUCKLING, WANTED,
};

const BEAMS: Source =
    Source::FromMemory("beam theory of any handbook; EN 10025-2, yield strength of S235");

type Value = (&'static str, &'static str, Measure);

fn number(symbol: &'static str, words: &'static str, si: f64) -> Value {
    (symbol, words, Measure::new(Q::Number, si))
}

fn share(symbol: &'static str, words: &'static str, si: f64) -> Value {
    (symbol, words, Measure::new(Q::Share, si))
}

/// The weakest member of the frame against the weight of the machine, full.
pub(super) fn weight(design: &Design, standing: &Standing) -> Option<Finding> {
    let frame = standing.frame.as_ref()?;
    let (member, bears) = frame.weakest();
    let mut finding = question(
        design,
        "standing.frame_bears",
        "Frame under the weight",
        "The legs carry the side bars, these carry the cross-bars, and on them stands the machine. How many times its weight the weakest of them bears.",
        "Thin tube bends for good, or a slender leg folds, when the machine drops from a kerb or is set down hard.",
    );
    finding.verdict = Verdict::at_least(bears, WANTED, IN_HAND);
    finding.margin = Some(bears / WANTED - 1.0);
    if finding.verdict == Verdict::Stop && frame.at_best() >= IN_HAND {
        finding.verdict = Verdict::CannotTell;
        finding.margin = None;
    }
    finding.compared = match frame.bars {
        Bars::Rectangle { .. } => of_rectangle(frame, member, bears),
        Bars::Unknown { longest, .. } => {
            finding.meaning = UNKNOWN;
            of_own_points(frame, bears, longest.value, finding.verdict)
        }
    };
    finding.working = working(frame);
    finding.about = "base";
    if finding.verdict != Verdict::Good {
        let shorter = (member == Member::Leg).then_some("base.clearance");
        finding.levers = (["base.frame_side", "base.frame_wall"].into_iter())
            .chain(shorter)
            .map(Lever::input)
            .collect();
    }
    Some(finding)
}

/// What is asked where the contact points are no corners of a rectangle.
const UNKNOWN: &str = "How the bars run between such contact points is not entered. No bar that runs from one of them to another is bent more than one between those furthest apart with all of the weight in its middle, and no leg bears more than all.";

fn of_rectangle(frame: &FrameStrength, member: Member, bears: f64) -> Phrase {
    let (members, gives) = match member {
        Member::CrossBar => ("the cross-bars under the vessel", "bend for good"),
        Member::SideBar | Member::Rail => ("the bars from front to back", "bend for good"),
        Member::Leg => ("the legs", "give way"),
    };
    let bear = match bears < 1.0 {
        true => Phrase::new("{}: they bear", [gives.into()]),
        false => Phrase::plain("bear"),
    };
    Phrase::new(
        "{}, tube of {} with a wall of {}, {} {} times the {} of the full machine; wanted {} times",
        [
            members.into(),
            Measure::new(Q::Length, frame.tube.side.value).into(),
            Measure::new(Q::Thickness, frame.tube.wall.value).into(),
            bear.into(),
            Measure::new(Q::Number, bears).into(),
            Measure::new(Q::Mass, frame.mass.value).into(),
            Measure::new(Q::Number, WANTED).into(),
        ],
    )
}

/// What is told of own points: what the frame bears at the least, or at best where that is what stops it.
fn of_own_points(frame: &FrameStrength, bears: f64, longest: f64, verdict: Verdict) -> Phrase {
    let number = |si| Measure::new(Q::Number, si).into();
    let tube = [
        Measure::new(Q::Length, frame.tube.side.value).into(),
        Measure::new(Q::Thickness, frame.tube.wall.value).into(),
    ];
    let mass = Measure::new(Q::Mass, frame.mass.value).into();
    if verdict == Verdict::Stop {
        let rest = [number(frame.at_best()), mass, number(WANTED)];
        return Phrase::new(
            "tube of {} with a wall of {} bears at best {} times the {} of the full machine, with a bar from each contact point straight to the vessel; wanted {} times",
            tube.into_iter().chain(rest),
        );
    }
    let least = Phrase::new(
        "tube of {} with a wall of {} bears at the least {} times the {} of the full machine, with all of it in the middle of a bar of {} or on one leg; wanted {} times",
        tube.into_iter().chain([
            number(bears),
            mass,
            Measure::new(Q::Length, longest).into(),
            number(WANTED),
        ]),
    );
    match verdict {
        Verdict::CannotTell => Phrase::new(
            "{}. With a bar from each contact point straight to the vessel it bears at best {} times: how yours run decides, so have them reckoned",
            [least.into(), number(frame.at_best())],
        ),
        _ => least,
    }
}

fn working(frame: &FrameStrength) -> Vec<Step> {
    let tube = &frame.tube;
    let side = ("a", "frame tube", Measure::new(Q::Length, tube.side.value));
    let wall = ("s", "its wall", Measure::new(Q::Thickness, tube.wall.value));
    let mass = ("m", "full machine", Measure::new(Q::Mass, frame.mass.value));
    let bears = number(
        "σ",
        "stress in MPa that the tube bears",
        1e-6 * tube.bears().value,
    );
    let stiffness = number(
        "E",
        "modulus of elasticity in GPa",
        1e-9 * MILD_STEEL.stiffness.value,
    );
    let folds = (tube.bears() < MILD_STEEL.yield_strength).then(|| Step {
        words: "Stress in MPa at which so thin a wall buckles, before the steel yields",
        formula: "σ = k E (s / (a − 2 s))²",
        values: vec![
            number("k", "long flat wall held at its edges", WALL_BUCKLING),
            stiffness,
            side,
            wall,
        ],
        result: bears.2,
        source: Source::FromMemory("Bryan, Proc. London Math. Soc. 22, 1890"),
        sure: "it bears somewhat more once it is wavy; dents take that away",
    });
    let section = Step {
        words: "Section modulus of the tube, in mm³",
        formula: "W = (a⁴ − (a − 2 s)⁴) / (6 a)",
        values: vec![side, wall],
        result: Measure::new(Q::Number, 1e9 * tube.modulus()),
        source: BEAMS,
        sure: "sharp corners are reckoned with; round ones take off some hundredths",
    };
    let known = matches!(frame.bars, Bars::Rectangle { .. });
    let stands = frame.leg.value > 0.0;
    let mut leg = Step {
        words: "How many times the weight a leg bears: pressed flat, or by Euler, held at its top and free at its foot",
        formula: match stands {
            true => "n = min(σ A, π² E I / (2 l)²) / (r m g); A = a² − (a − 2 s)², I = W a / 2",
            false => "n = σ A / (r m g); A = a² − (a − 2 s)²",
        },
        values: vec![
            bears,
            share(
                "r",
                match known {
                    true => "of the weight on the fullest leg: on uneven ground two carry it",
                    false => "of the weight on one leg: at worst it stands under all of it",
                },
                frame.on_leg,
            ),
            mass,
            side,
            wall,
        ],
        result: Measure::new(Q::Number, frame.reserve(Member::Leg)),
        source: Source::FromMemory("Euler, 1744; EN 10025-2, yield strength of S235"),
        sure: "straight legs; braces between them make them stronger, a push from the side bends them as well",
    };
    if stands {
        leg.values
            .extend([stiffness, length("l", "longest leg", frame.leg.value)]);
    }
    let wanted = Step {
        words: "How many times the weight it should bear",
        formula: "n ≥ k f",
        values: vec![
            number("k", "what a knock or a kerb makes of the weight", KNOCK),
            number("f", "left for welds, rust and heat", IN_HAND),
        ],
        result: Measure::new(Q::Number, WANTED),
        source: Source::OwnMark("half as much again as a knock that doubles the weight"),
        sure: "our own choice; below the lesser of the two it is a Stop",
    };
    (folds.into_iter())
        .chain([section])
        .chain(bent(frame, bears, mass))
        .chain([leg])
        .chain(at_best(frame, bears, mass))
        .chain([wanted])
        .collect()
}

fn length(symbol: &'static str, words: &'static str, metres: f64) -> Value {
    (symbol, words, Measure::new(Q::Length, metres))
}

/// How the bars are bent.
fn bent(frame: &FrameStrength, bears: Value, mass: Value) -> Vec<Step> {
    let times = |member| Measure::new(Q::Number, frame.reserve(member));
    match frame.bars {
        Bars::Rectangle {
            width,
            depth,
            rests,
            on_bar,
            on_side,
        } => {
            let on_bar = share("p", "of it on the fuller cross-bar", on_bar);
            let cross_bar = Step {
                words: "How many times the weight a cross-bar bears, with the vessel in its middle",
                formula: "n = 8 σ W / (p m g (2 L − c))",
                values: vec![
                    bears,
                    on_bar,
                    mass,
                    length("L", "base width", width.value),
                    length("c", "of it under the vessel", rests.value),
                ],
                result: times(Member::CrossBar),
                source: BEAMS,
                sure: "all of the weight is taken as on the vessel; what stands on the frame itself bends the cross-bars less",
            };
            let side_bar = Step {
                words: "How many times the weight a bar from front to back bears, held at its ends, with both cross-bars on it",
                formula: "n = 9 σ W / (q (1 + p) m g D)",
                values: vec![
                    bears,
                    share("q", "of the weight on the fuller side", on_side),
                    on_bar,
                    mass,
                    length("D", "base depth", depth.value),
                ],
                result: times(Member::SideBar),
                source: BEAMS,
                sure: "for cross-bars a sixth of the depth before and behind the middle; corners that are welded stiff make it stronger",
            };
            vec![cross_bar, side_bar]
        }
        Bars::Unknown { longest, .. } => vec![Step {
            words: "How many times the weight any bar from one contact point to another bears at the least, held at its ends",
            formula: "n = 4 σ W / (m g L)",
            values: vec![
                bears,
                mass,
                length("L", "between the points furthest apart", longest.value),
            ],
            result: times(Member::Rail),
            source: BEAMS,
            sure: "a safe bound: several bars share the weight, and it lies spread out on them; a bar that ends in the open bears less",
        }],
    }
}

/// What no bars from the contact points to the vessel would bear, where nobody knows how they run.
fn at_best(frame: &FrameStrength, bears: Value, mass: Value) -> Option<Step> {
    let Bars::Unknown { points, ways, .. } = frame.bars else {
        return None;
    };
    let words = "sum of one over the metres from each contact point to the vessel";
    let legs = ("N", "legs", Measure::new(Q::Count, points as f64));
    Some(Step {
        words: "How many times the weight it bears at best: all legs pressed alike, and a bar from each straight to the vessel, held stiffly at both ends",
        formula: match ways {
            Some(_) => "n = min(N σ A, 2 σ W S) / (m g)",
            None => "n = N σ A / (m g)",
        },
        values: [bears, legs, mass]
            .into_iter()
            .chain(ways.map(|ways| number("S", words, ways)))
            .collect(),
        result: Measure::new(Q::Number, frame.at_best()),
        source: BEAMS,
        sure: "where even this is too little, no way to lay one bar from each point helps",
    })
}
