//! What comes from outside: a kerb, the wind, sloping ground.

use super::stance::{ground, state_and_ground};
use super::{Standing, TIP_OVER, levers, question};
use crate::design::inputs::Base;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::kerb::{AxleAfter, KerbStrike};
use crate::sizing::tipping::StateTipping;
use crate::sizing::weight::State;
use crate::sizing::{kerb, wind};

/// Nobody pushes a machine faster than this, m/s. Our own mark: a person who runs.
const FASTEST_PUSHED: f64 = 6.0;

fn tipping_in(standing: &Standing, state: State) -> &StateTipping {
    match (state, &standing.hopper_off) {
        (State::Full, _) => &standing.full,
        (State::HopperOff, Some(hopper_off)) => hopper_off,
        _ => &standing.empty,
    }
}

/// Does it go over when its wheels strike a step? Not asked when nothing rolls.
pub(super) fn kerb(design: &Design, standing: &Standing) -> Option<Finding> {
    let answer = standing.kerb.as_ref()?;
    let strike = &answer.strike;
    let base = &design.base;
    let mut finding = question(
        design,
        "standing.kerb",
        "Wheel against a step",
        "Pushed along, its wheels strike a kerb or a stone: the machine goes on and turns over them.",
        "Most machines that fall do so while they are moved.",
    );
    let step = Measure::new(Q::Length, base.kerb_height.value);
    let tipping = tipping_in(standing, answer.state);
    let wanted = kerb::wanted_speed(base).value;
    match strike.tip_speed {
        Some(speed) if speed.value > FASTEST_PUSHED.max(wanted) => {
            finding.verdict = Verdict::Good;
            finding.compared = Phrase::new(
                "no pace at which a machine is pushed tips it over a step of {}",
                [step.into()],
            );
        }
        Some(speed) => {
            finding.verdict = Verdict::at_least(speed.value, wanted, wanted / kerb::RESERVE);
            finding.margin = Some(speed.value / wanted - 1.0).filter(|margin| margin.is_finite());
            finding.compared = Phrase::new(
                "a step of {} tips it towards {} from {} on, {}; wanted {}",
                [
                    step.into(),
                    strike.edge.towards.words().into(),
                    Measure::new(Q::Velocity, speed.value).into(),
                    answer.state.words().into(),
                    Measure::new(Q::Velocity, wanted).into(),
                ],
            );
        }
        None => {
            finding.verdict = Verdict::Good;
            finding.compared = Phrase::new(
                "its wheels ride up a step of {} without tipping it",
                [step.into()],
            );
        }
    }
    finding.working = kerb_steps(base, strike, tipping.weight.mass.value);
    finding.caution = Some(
        "Move it slowly, cold and empty, two people, pushing low down. Never stand on the side it would fall to.",
    );
    if finding.verdict != Verdict::Good {
        finding.levers = levers::footing(design, tipping, std::iter::once(&strike.edge));
        finding.levers.push(Lever::input("base.wheel_diameter"));
        finding.levers.push(Lever::input("base.walking_speed"));
        finding
            .levers
            .extend(levers::lower(design, standing, tipping));
    }
    Some(finding)
}

fn kerb_steps(base: &Base, strike: &KerbStrike, mass: f64) -> Vec<Step> {
    let length = |symbol, words, si| (symbol, words, Measure::new(Q::Length, si));
    let weight = ("m", "weight in this state", Measure::new(Q::Mass, mass));
    let level = length(
        "d",
        "centre of gravity behind the axle",
        strike.distance.value,
    );
    let above = length(
        "h",
        "centre of gravity above the axle",
        strike.above_axle.value,
    );
    let lean = [
        length("k", "height of the step", base.kerb_height.value),
        length("D", "wheel diameter", base.wheel_diameter.value),
    ];
    let rolling = Measure::new(Q::Velocity, base.walking_speed.value);
    let mut steps = vec![
        Step {
            words: "Energy of turning about the axle after the blow; the blow acts from the step's edge through the axle",
            formula: match strike.axle {
                AxleAfter::Climbs => {
                    "E = ½ m (i² + d² + h²) ω², ω = v sinθ a / (i² + a²), a = h sinθ − d cosθ, cosθ = max(1 − 2 k / D, 0)"
                }
                AxleAfter::Stops => "E = ½ m (v h)² / (i² + d² + h²), since the axle stops",
                AxleAfter::RidesUp => "E = 0, since the blow turns it back onto its wheels",
            },
            values: [
                weight,
                ("v", "rolling speed", rolling),
                level,
                above,
                length(
                    "i",
                    "radius of gyration about its centre of gravity",
                    strike.gyration.value,
                ),
            ]
            .into_iter()
            .chain(lean)
            .collect(),
            result: Measure::new(Q::MechanicalEnergy, strike.turning_energy.value),
            source: Source::Reckoned("momentum of a rigid machine, the wheels stay on the step"),
            sure: "a rough guide: soft tyres and frames are kinder, a hand that goes on pushing is not",
        },
        Step {
            words: "Energy that brings the centre of gravity over the axle",
            formula: "E = m g (√(d² + h²) − h cosβ − d sinβ)",
            values: vec![
                weight,
                level,
                above,
                (
                    "β",
                    "slope of the ground, falling towards the step",
                    Measure::new(Q::Angle, base.slope.value),
                ),
            ],
            result: Measure::new(Q::MechanicalEnergy, strike.tip_energy.value),
            source: Source::Reckoned("statics of a rigid body"),
            sure: "as good as the sizes and weights entered",
        },
    ];
    steps.extend(strike.climb_push.map(|push| {
        Step {
            words: "Level push at the axles that climbs the step from rest",
            formula: "F = W tanθ, cosθ = 1 − 2 k / D",
            values: [(
                "W",
                "load on these wheels",
                Measure::new(Q::Force, strike.wheel_load.value),
            )]
            .into_iter()
            .chain(lean)
            .collect(),
            result: Measure::new(Q::Force, push.value),
            source: Source::Reckoned("statics of a wheel on an edge"),
            sure: "hard wheels; soft tyres climb more easily",
        }
    }));
    steps
}

/// What is told where anchors are offered or counted.
const ANCHORED: &str = "A falling machine crushes, and spills glowing char and poisonous gas. Never climb on it. \
     Tie it down or prop it before you work on it. Anchors count as long as all of them hold, on every side: try each \
     by pulling, and again after frost and rain; the feet and their welds must bear the same pull. Guys are not reckoned \
     here: they pull at an angle, and press on the frame too. Where such a machine must be fixed by local code, a licensed \
     person says how.";

/// Does the strongest wind blow it over, empty with the hopper on?
pub(super) fn wind(design: &Design, standing: &Standing) -> Option<Finding> {
    let answer = standing.wind.as_ref()?;
    let load = &answer.load;
    let storm = design.site.storm_wind.value;
    let mut finding = question(
        design,
        "standing.wind",
        "Strongest wind",
        "Wind grips hopper and vessel high up. An empty machine is light and goes over first.",
        "A gust that blows it over comes when nobody is there to hold it.",
    );
    let weight = standing.empty.weight.mass.value;
    match load.tip_speed {
        Some(speed) => {
            let state = state_and_ground(design, standing.empty.state);
            let wanted = storm * wind::RESERVE.sqrt();
            finding.verdict = Verdict::at_least(speed.value, wanted, storm);
            finding.margin = (storm > 0.0).then(|| speed.value / wanted - 1.0);
            let anchors = design.base.anchors.value;
            let held = match anchors > 0.0 {
                true => Phrase::new(
                    " though anchors hold {} on the other side",
                    [Measure::new(Q::Force, anchors).into()],
                ),
                false => Phrase::plain(""),
            };
            let elsewhere = match finding.verdict {
                Verdict::Good => "",
                _ => {
                    "; where a wall keeps the wind off, enter what still comes there, and anchors that are tried count too"
                }
            };
            finding.compared = Phrase::new(
                "{}, a wind of {} blows it over towards {}{}; the strongest here is {}, and it should bear {}{}",
                [
                    state,
                    Measure::new(Q::Wind, speed.value).into(),
                    answer.edge.towards.words().into(),
                    held.into(),
                    Measure::new(Q::Wind, storm).into(),
                    Measure::new(Q::Wind, wanted).into(),
                    elsewhere.into(),
                ],
            );
        }
        None => {
            finding.verdict = Verdict::Good;
            finding.compared = Phrase::plain("the wind finds nothing to push at");
        }
    }
    let force = Measure::new(Q::Force, load.force.value);
    let height = Measure::new(Q::Length, load.height.value);
    let mut values = vec![
        ("v", "strongest wind", Measure::new(Q::Velocity, storm)),
        (
            "Σ c A",
            "areas seen, each times its drag coefficient",
            Measure::new(Q::Area, load.drag_area.value),
        ),
        (
            "ρ",
            "density of the air",
            Measure::new(Q::Density, load.density.value),
        ),
        (
            "c",
            "drag coefficient of round pieces",
            Measure::new(Q::Number, design.hopper.drag),
        ),
    ];
    finding.working.push(Step {
        words: "Drag of the wind on hopper, vessel and parts",
        formula: "F = ½ ρ v² Σ c A",
        values: values.clone(),
        result: force,
        source: Source::FromMemory("Hoerner, Fluid-Dynamic Drag"),
        sure: "drag coefficients within about a third; shelter of one piece by another is left out",
    });
    if let Some(speed) = load.tip_speed {
        values.truncate(1);
        values.extend([
            ("F", "drag", force),
            ("z", "height at which it acts", height),
            ("m", "weight, empty", Measure::new(Q::Mass, weight)),
            (
                "d",
                "distance inside the edge",
                Measure::new(Q::Length, load.distance.value),
            ),
        ]);
        let ground = ground(design, &standing.empty);
        values.extend(&ground);
        let anchored = design.base.anchors.value > 0.0;
        if anchored {
            values.extend([
                (
                    "H",
                    "what the anchors of one side hold",
                    Measure::new(Q::Force, design.base.anchors.value),
                ),
                (
                    "a",
                    "from the edge to the feet furthest from it",
                    Measure::new(Q::Length, load.reach.value),
                ),
            ]);
        }
        finding.working.push(Step {
            words: if anchored {
                "Wind that blows it over: drag times height equals weight and anchors, each times its distance from the edge"
            } else {
                "Wind that blows it over: drag times height equals weight times distance from the edge"
            },
            formula: match (ground.is_empty(), anchored) {
                (true, false) => "v₀ = v √(m g d / (F z))",
                (true, true) => "v₀ = v √((m g d + H a) / (F z)), 0 beyond the edge",
                (false, false) => "v₀ = v √(m g (d cosβ − h sinβ) / (F z)), 0 beyond the edge",
                (false, true) => {
                    "v₀ = v √((m g (d cosβ − h sinβ) + H a) / (F z)), 0 beyond the edge"
                }
            },
            values,
            result: Measure::new(Q::Velocity, speed.value),
            source: Source::OwnMark("statics of a rigid body; wanted: half as much again in moment"),
            sure: "gusts near buildings are stronger than the forecast says",
        });
    }
    finding.caution = Some(TIP_OVER);
    if finding.verdict != Verdict::Good {
        finding.levers = levers::footing(design, &standing.empty, std::iter::once(&answer.edge));
        finding.levers.extend(levers::ballast(design));
        if design.hopper.fitted {
            finding.levers.push(Lever::input("hopper.height"));
            finding.levers.push(Lever::input("hopper.diameter"));
        }
        if design.base.clearance.value > 0.0 {
            finding.levers.push(Lever::input("base.clearance"));
        }
        finding.levers.push(Lever::input("base.anchors"));
    }
    if finding.verdict != Verdict::Good || design.base.anchors.value > 0.0 {
        finding.caution = Some(ANCHORED);
    }
    Some(finding)
}

/// How much slope is left in hand where it stands? Asked on sloping ground only.
pub(super) fn slope(design: &Design, standing: &Standing) -> Option<Finding> {
    let tipping = standing
        .states()
        .filter(|tipping| tipping.weakest().is_some())
        .min_by(|a, b| {
            let angle =
                |tipping: &StateTipping| tipping.weakest().map_or(0.0, |edge| edge.tip_angle.value);
            angle(a).total_cmp(&angle(b))
        })?;
    let weakest = tipping.weakest()?;
    let slope = design.base.slope;
    let margin = tipping.margin_on_slope(slope)?;
    let wanted = design.limits.tip_angle_least.value;
    let mut finding = question(
        design,
        "standing.slope",
        "On its sloping ground",
        "What is left of the tip angle when the ground slopes towards the weakest side.",
        "The slope uses up tip angle before anyone has touched the machine.",
    );
    finding.verdict = Verdict::at_least(margin.value, wanted, 0.5 * wanted);
    finding.margin = Some(margin.value / wanted - 1.0).filter(|margin| margin.is_finite());
    let slots: [Slot; 5] = [
        Measure::new(Q::Angle, slope.value).into(),
        Measure::new(Q::Angle, weakest.tip_angle.value).into(),
        weakest.edge.towards.words().into(),
        Measure::new(Q::Angle, margin.value).into(),
        Measure::new(Q::Angle, wanted).into(),
    ];
    finding.compared = Phrase::new(
        "stands on {}, tips at {} towards {}: {} in hand, wanted {}",
        slots,
    );
    finding.working = vec![Step {
        words: "Slope still in hand, the ground falling the worst way",
        formula: "γ = α − β",
        values: vec![
            (
                "α",
                "tip angle",
                Measure::new(Q::Angle, weakest.tip_angle.value),
            ),
            (
                "β",
                "slope of the ground",
                Measure::new(Q::Angle, slope.value),
            ),
        ],
        result: Measure::new(Q::Angle, margin.value),
        source: Source::OwnMark(
            "wanted: the angle below which a machine on level ground is a Stop",
        ),
        sure: "as good as the sizes and weights entered",
    }];
    if finding.verdict != Verdict::Good {
        let failing = (tipping.edges.iter())
            .filter(|answer| answer.tip_angle.value - slope.value < wanted)
            .map(|answer| &answer.edge);
        finding.levers = vec![Lever::input("base.slope")];
        finding
            .levers
            .extend(levers::footing(design, tipping, failing));
        finding
            .levers
            .extend(levers::lower(design, standing, tipping));
    }
    Some(finding)
}
