//! Standing still: centre of gravity over the footprint, tip angle, push.

use super::{Standing, levers, question};
use crate::design::inputs::Limits;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::physics::air::GRAVITY;
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::footprint::{least_clearance, rolls};
use crate::sizing::tipping::{EdgeTipping, GivesWay, StateTipping, needed_push};
use crate::sizing::weight::State;
use uom::si::f64::Angle;

const STATICS: Source = Source::Reckoned("statics of a rigid body");
/// Both pushes are shares of one weight and may be equal but for rounding.
const ROUNDING: f64 = 1.0e-9;
const FROM_SIZES: &str = "as good as the sizes and weights entered: weigh the finished machine";

/// Is the centre of gravity over the footprint?
pub(super) fn hull(design: &Design, standing: &Standing) -> Finding {
    let mut finding = question(
        design,
        "standing.hull",
        "Weight over its feet",
        "The centre of gravity must lie above the area between the outermost contact points.",
        "Outside that area it falls over by itself, on level ground.",
    );
    let nearest = standing
        .states()
        .filter_map(|tipping| {
            let edge = (tipping.edges.iter())
                .min_by(|a, b| a.distance.value.total_cmp(&b.distance.value))?;
            Some((tipping, edge))
        })
        .min_by(|a, b| a.1.distance.value.total_cmp(&b.1.distance.value));
    let Some((tipping, edge)) = nearest else {
        let points = standing.footprint.points.len();
        finding.verdict = Verdict::Stop;
        finding.compared = Phrase::new(
            if points < 3 {
                "on {} contact points it falls over; wanted three that differ and do not lie in one line"
            } else {
                "its {} contact points lie in one line or in one place: it falls over; wanted three that differ and do not lie in one line"
            },
            [Measure::new(Q::Count, points as f64).into()],
        );
        finding.levers = levers::on_a_line(standing);
        return finding;
    };
    let distance = edge.distance.value;
    finding.verdict = Verdict::at_least(distance, f64::MIN_POSITIVE, f64::MIN_POSITIVE);
    let slots: [Slot; 3] = [
        Measure::new(Q::Length, distance.abs()).into(),
        edge.edge.towards.words().into(),
        tipping.state.words().into(),
    ];
    finding.compared = Phrase::new(
        if distance > 0.0 {
            "centre of gravity {} inside the footprint towards {}, {}"
        } else {
            "centre of gravity {} outside the footprint towards {}, {}"
        },
        slots,
    );
    finding.margin = Some(edge.tip_angle.value.tan()).filter(|margin| margin.is_finite());
    finding.working = vec![distance_step(tipping, edge)];
    if finding.verdict != Verdict::Good {
        let failing = (tipping.edges.iter())
            .filter(|answer| answer.distance.value <= 0.0)
            .map(|answer| &answer.edge);
        finding.levers = levers::footing(design, tipping, failing);
        finding.levers.extend(levers::ballast(design));
    }
    finding
}

fn distance_step(tipping: &StateTipping, answer: &EdgeTipping) -> Step {
    let edge = &answer.edge;
    let (right, back) = edge.outwards();
    let middle_to_edge = right * edge.from.x.value + back * edge.from.y.value;
    Step {
        words: "Distance of the centre of gravity inside the edge it tips over; castors swung inwards",
        formula: "d = e − x cosφ − y sinφ − t",
        values: vec![
            (
                "e",
                "from the middle to the edge, square to it",
                Measure::new(Q::Length, middle_to_edge),
            ),
            (
                "φ",
                "way it falls, from the right round to the back",
                Measure::new(Q::Angle, edge.azimuth.value),
            ),
            (
                "x",
                "centre of gravity to the right",
                Measure::new(Q::Length, tipping.weight.centre.x.value),
            ),
            (
                "y",
                "centre of gravity to the back",
                Measure::new(Q::Length, tipping.weight.centre.y.value),
            ),
            (
                "t",
                "castor trail taken off",
                Measure::new(Q::Length, edge.inset.value),
            ),
        ],
        result: Measure::new(Q::Length, answer.distance.value),
        source: STATICS,
        sure: FROM_SIZES,
    }
}

fn height(tipping: &StateTipping) -> (&'static str, &'static str, Measure) {
    let centre = &tipping.weight.centre;
    let words = "height of the centre of gravity";
    ("h", words, Measure::new(Q::Length, centre.z.value))
}

fn weight(tipping: &StateTipping) -> (&'static str, &'static str, Measure) {
    let mass = Measure::new(Q::Mass, tipping.weight.mass.value);
    ("m", "weight in this state", mass)
}

fn distance(answer: &EdgeTipping) -> (&'static str, &'static str, Measure) {
    let inside = Measure::new(Q::Length, answer.distance.value);
    ("d", "distance inside the edge", inside)
}

/// The ground where it stands, if it is not level: for formulas with h and β in them.
pub(super) fn ground(
    design: &Design,
    tipping: &StateTipping,
) -> Vec<(&'static str, &'static str, Measure)> {
    if design.base.slope.value <= 0.0 {
        return Vec::new();
    }
    vec![
        height(tipping),
        (
            "β",
            "slope of the ground, falling towards that edge",
            Measure::new(Q::Angle, design.base.slope.value),
        ),
    ]
}

/// The state of the machine in words, with the ground if it is not level.
pub(super) fn state_and_ground(design: &Design, state: State) -> Slot {
    if design.base.slope.value > 0.0 {
        format!("{}, down the slope of the ground", state.words()).into()
    } else {
        state.words().into()
    }
}

/// What is said of a slope on which it tips over one of its sides.
pub fn tip_verdict(limits: &Limits, angle: Angle) -> Verdict {
    Verdict::at_least(
        angle.value,
        limits.tip_angle_good().value,
        limits.tip_angle_least.value,
    )
}

/// On what slope does it tip in one state?
pub(super) fn tip(design: &Design, standing: &Standing, tipping: &StateTipping) -> Finding {
    let (id, title) = match tipping.state {
        State::Full => ("standing.tip_full", "Tipping, full"),
        State::Empty => ("standing.tip_empty", "Tipping, empty"),
        State::HopperOff => ("standing.tip_hopper_off", "Tipping, hopper off"),
    };
    let mut finding = question(
        design,
        id,
        title,
        "The tip angle is the slope of the ground, falling the worst way, on which it just goes over.",
        "Soft ground, a hole or a knock tilts it; a small tip angle leaves nothing in hand.",
    );
    let Some(weakest) = tipping.weakest() else {
        return finding;
    };
    let limits = &design.limits;
    let (angle, wanted) = (weakest.tip_angle.value, limits.tip_angle_good().value);
    finding.verdict = tip_verdict(limits, weakest.tip_angle);
    finding.compared = if angle > 0.0 {
        Phrase::new(
            "tips at {} towards {}, wanted {}",
            [
                Measure::new(Q::Angle, angle).into(),
                weakest.edge.towards.words().into(),
                Measure::new(Q::Angle, wanted).into(),
            ],
        )
    } else {
        Phrase::new(
            "falls over by itself towards {}, wanted {}",
            [
                weakest.edge.towards.words().into(),
                Measure::new(Q::Angle, wanted).into(),
            ],
        )
    };
    finding.margin = Some(angle / wanted - 1.0).filter(|margin| margin.is_finite());
    let ground = ground(design, tipping);
    finding.working = vec![
        distance_step(tipping, weakest),
        Step {
            words: "Tip angle: the plumb line through the centre of gravity passes the edge",
            formula: "α = atan(d / h)",
            values: vec![distance(weakest), height(tipping)],
            result: Measure::new(Q::Angle, angle),
            source: STATICS,
            sure: FROM_SIZES,
        },
        Step {
            words: "Energy that brings the centre of gravity over the edge",
            formula: if ground.is_empty() {
                "E = m g (√(d² + h²) − h)"
            } else {
                "E = m g (√(d² + h²) − h cosβ − d sinβ), 0 beyond the edge"
            },
            values: [weight(tipping), distance(weakest)]
                .into_iter()
                .chain(ground.is_empty().then(|| height(tipping)))
                .chain(ground)
                .collect(),
            result: Measure::new(Q::MechanicalEnergy, weakest.tip_energy.value),
            source: STATICS,
            sure: FROM_SIZES,
        },
    ];
    if finding.verdict != Verdict::Good {
        let failing = (tipping.edges.iter())
            .filter(|answer| answer.tip_angle.value < wanted)
            .map(|answer| &answer.edge);
        finding.levers = levers::footing(design, tipping, failing);
        finding
            .levers
            .extend(levers::lower(design, standing, tipping));
    }
    finding
}

/// The state and edge with the least reserve against the push it must bear, and that push in N.
fn worst_push<'a>(
    design: &Design,
    standing: &'a Standing,
) -> Option<(&'a StateTipping, &'a EdgeTipping, f64)> {
    let reserve = |found: &(&StateTipping, &EdgeTipping, f64)| found.1.tip_push.value / found.2;
    standing
        .states()
        .filter_map(|tipping| {
            let needed = needed_push(&design.limits, tipping.weight.mass).value;
            Some((tipping, tipping.weakest_to_push()?, needed))
        })
        .min_by(|a, b| reserve(a).total_cmp(&reserve(b)))
}

/// What push tips it, and does it slide or roll away first?
pub(super) fn push(design: &Design, standing: &Standing) -> Finding {
    let mut finding = question(
        design,
        "standing.push",
        "Push at the top",
        "Someone leans on it, or a rope catches: the push along the ground at push height that tips it, feet and wheels held.",
        "A wheel against a stone or a foot in a crack holds, and then a push tips it instead of moving it.",
    );
    let Some((tipping, weakest, needed)) = worst_push(design, standing) else {
        return finding;
    };
    let push = weakest.tip_push.value;
    // Sliding saves it only while nothing catches, so that is a condition: Watch. What would tip first on level ground is
    // not saved by a slope on which it comes near to sliding by itself.
    let by_grip = (weakest.distance / tipping.push_height).value > weakest.grip;
    let slides = weakest.gives_way == GivesWay::Slides && by_grip;
    finding.verdict = match Verdict::at_least(push * (1.0 + ROUNDING), needed, needed) {
        Verdict::Stop if slides && push > 0.0 => Verdict::Watch,
        verdict => verdict,
    };
    // A force as who pushes feels it: as a weight held up.
    let felt = |push: f64| Slot::from(Measure::new(Q::Heft, push / GRAVITY));
    let slots: [Slot; 7] = [
        Measure::new(Q::Force, push).into(),
        felt(push),
        weakest.edge.towards.words().into(),
        state_and_ground(design, tipping.state),
        Measure::new(Q::Force, needed).into(),
        felt(needed),
        Measure::new(Q::Force, weakest.give_push.value).into(),
    ];
    finding.compared = Phrase::new(
        match weakest.gives_way {
            GivesWay::Tips => {
                "a push of {}, about {}, tips it towards {} when {}, wanted {}, about {}; it tips before it slides"
            }
            GivesWay::Slides => {
                "a push of {}, about {}, tips it towards {} when {}, wanted {}, about {}; on this ground it slides first, at {}"
            }
            GivesWay::Rolls => {
                "a push of {}, about {}, tips it towards {} when {}, wanted {}, about {}; unless a wheel is held it rolls first, at {}"
            }
        },
        slots,
    );
    finding.margin = Some(push / needed - 1.0).filter(|margin| margin.is_finite());
    finding.working = push_working(design, tipping, weakest, needed);
    if finding.verdict != Verdict::Good {
        let failing = (tipping.edges.iter())
            .filter(|answer| answer.tip_push.value < needed)
            .map(|answer| &answer.edge);
        finding.levers = levers::footing(design, tipping, failing);
        finding.levers.extend(levers::ballast(design));
    }
    finding
}

/// How the push is worked out that tips it over its weakest edge, the one it must bear, in N, and that at which it moves.
fn push_working(
    design: &Design,
    tipping: &StateTipping,
    weakest: &EdgeTipping,
    needed: f64,
) -> Vec<Step> {
    let ground = ground(design, tipping);
    let level = ground.is_empty();
    vec![
        distance_step(tipping, weakest),
        Step {
            words: "Push that tips it",
            formula: if level {
                "F = m g d / H"
            } else {
                "F = m g (d cosβ − h sinβ) / H, 0 beyond the edge"
            },
            values: [
                weight(tipping),
                distance(weakest),
                (
                    "H",
                    "height of the push",
                    Measure::new(Q::Length, tipping.push_height.value),
                ),
            ]
            .into_iter()
            .chain(ground.iter().copied())
            .collect(),
            result: Measure::new(Q::Force, weakest.tip_push.value),
            source: STATICS,
            sure: FROM_SIZES,
        },
        Step {
            words: "Push it must bear: a share of its weight, but no more than the most asked for",
            formula: "F = min(share × m g, most)",
            values: vec![
                weight(tipping),
                (
                    "share",
                    "share of its weight",
                    Measure::new(Q::Share, design.limits.push_share.value),
                ),
                (
                    "most",
                    "most asked for",
                    Measure::new(Q::Force, design.limits.push_most.value),
                ),
            ],
            result: Measure::new(Q::Force, needed),
            source: Source::CommonPractice,
            sure: "a pass mark: change it if you have a better one",
        },
        Step {
            words: "Push that makes it slide or roll this way",
            formula: if level {
                "F = μ m g"
            } else {
                "F = m g (μ cosβ − sinβ), 0 where it goes by itself"
            },
            values: [
                (
                    "μ",
                    "grip on the ground this way, of feet and wheels by what each carries under that push",
                    Measure::new(Q::Number, weakest.grip),
                ),
                weight(tipping),
            ]
            .into_iter()
            // The height of the weight does not matter to sliding.
            .chain(ground.into_iter().skip(1))
            .collect(),
            result: Measure::new(Q::Force, weakest.give_push.value),
            source: Source::CommonPractice,
            sure: "friction varies by half with ground and weather; wheels without brakes count with their rolling resistance",
        },
    ]
}

/// Is there room under the vessel for what carries it?
pub(super) fn clearance(design: &Design) -> Finding {
    let base = &design.base;
    let mut finding = question(
        design,
        "standing.clearance",
        "Room under the vessel",
        "The frame lies under the vessel, and its wheels under the frame: together they are the least height of the vessel above the ground.",
        "A vessel that is drawn lower than its frame and wheels stands higher when it is built, and tips sooner than is said here.",
    );
    let height = base.clearance.value;
    let frame = base.frame_side.value;
    let rolls = rolls(design);
    let wanted = least_clearance(design).value;
    finding.verdict = Verdict::at_least(height + ROUNDING, wanted, frame);
    finding.margin = Some(height / wanted - 1.0).filter(|margin| margin.is_finite());
    let length = |value| Measure::new(Q::Length, value).into();
    let slots = [length(height), length(frame)].into_iter();
    finding.compared = if rolls {
        let wheels = [length(base.wheel_diameter.value), length(wanted)];
        let words = "the vessel hangs {} above the ground; a frame of {} on wheels of {} takes {}";
        Phrase::new(words, slots.chain(wheels))
    } else {
        let words = "the vessel hangs {} above the ground; a frame of {} must go under it";
        Phrase::new(words, slots)
    };
    let mut values = vec![("s", "frame tube", Measure::new(Q::Length, frame))];
    if rolls {
        let wheel = Measure::new(Q::Length, base.wheel_diameter.value);
        values.push(("D", "wheel diameter", wheel));
    }
    finding.working = vec![Step {
        words: "Least height of the vessel, its frame lying on its wheels",
        formula: if rolls { "h = s + D" } else { "h = s" },
        values,
        result: Measure::new(Q::Length, wanted),
        source: Source::CommonPractice,
        sure: "wheels that stand outside the frame, beside the vessel, need no room under it",
    }];
    finding.about = "base";
    if finding.verdict != Verdict::Good {
        finding.levers = vec![Lever::input("base.clearance")];
        if rolls {
            finding.levers.push(Lever::input("base.wheel_diameter"));
        }
        finding.levers.push(Lever::input("base.frame_side"));
    }
    finding
}
