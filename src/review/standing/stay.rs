//! Does it stay where it is put, on ground that slopes?

use super::{Standing, question};
use crate::design::inputs::{ContactKind, Stance};
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::design::{Design, Source};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::footprint::ContactPoint;
use crate::sizing::grip::{Grip, on_slope};
use crate::sizing::tipping::StateTipping;

/// Grip that is wanted over the pull of the slope. Our own mark.
const GRIP_RESERVE: f64 = 1.5;
/// Shares that differ by less are the same.
const AGREE: f64 = 1.0e-6;

/// Does it stay where it is put? Asked on sloping ground only.
pub(super) fn stay(design: &Design, standing: &Standing) -> Option<Finding> {
    if standing.footprint.edges.is_empty() {
        return None;
    }
    let base = &design.base;
    let pull = base.slope.value.tan();
    let (tipping, held) = standing
        .states()
        .map(|tipping| {
            let held = on_slope(base, &standing.footprint, &tipping.weight);
            (tipping, held)
        })
        .reduce(|least, next| match next.1.over_load < least.1.over_load {
            true => next,
            false => least,
        })?;
    let grip = held.over_load;
    let points = &standing.footprint.points;
    let is_wheel = |point: &ContactPoint| point.kind == ContactKind::Wheel;
    let rolls = !base.brakes && points.iter().any(is_wheel);
    // Where feet hold no better than wheels roll, it makes no odds what each carries.
    let shared = rolls && !points.iter().all(is_wheel) && held.gripping.is_finite();
    let mut finding = question(
        design,
        "standing.stay",
        "Stays where it is put",
        "On a slope, wheels roll and feet slide unless the ground grips them.",
        "A machine that rolls away drags its pipes and strikes the first thing in its way.",
    );
    finding.verdict = Verdict::at_least(grip, GRIP_RESERVE * pull, pull);
    finding.margin = (pull > 0.0).then(|| grip / (GRIP_RESERVE * pull) - 1.0);
    let angle = |si: f64| Slot::from(Measure::new(Q::Angle, si));
    let [stays, stands, wanted] =
        [grip.atan(), base.slope.value, (GRIP_RESERVE * pull).atan()].map(angle);
    finding.compared = if shared {
        Phrase::new(
            "{}, it stays put up to a slope of {} that falls {}, stands on {}, wanted {}; then {} of it rests on its feet",
            [
                tipping.state.words().into(),
                stays,
                falls(design, &held).into(),
                stands,
                wanted,
                Measure::new(Q::Share, held.gripping).into(),
            ],
        )
    } else {
        Phrase::new(
            "stays put up to a slope of {}, stands on {}, wanted {}",
            [stays, stands, wanted],
        )
    };
    if shared {
        finding
            .working
            .extend(moments(design, standing, tipping, &held));
    }
    finding.working.push(steepest(design, &held, shared));
    finding.caution = Some("Chock the wheels and turn them across the slope before you let go.");
    if finding.verdict != Verdict::Good {
        if rolls {
            finding.levers.push(Lever::input("base.brakes"));
        }
        finding.levers.push(Lever::input("base.slope"));
        if shared && base.stance != Stance::Points {
            finding.levers.push(Lever::input("base.vessel_y"));
        }
    }
    Some(finding)
}

/// The way that ground falls on which it goes first.
fn falls(design: &Design, held: &Grip) -> &'static str {
    match (design.base.on_castors(), held.way.1 > 0.0) {
        (true, _) => "the worst way",
        (false, true) => "towards the back",
        (false, false) => "towards the front",
    }
}

/// What the feet carry, where these stand in one line across and the wheels in another.
fn moments(
    design: &Design,
    standing: &Standing,
    tipping: &StateTipping,
    held: &Grip,
) -> Option<Step> {
    if design.base.stance != Stance::TwoWheels {
        return None;
    }
    let line = |kind: ContactKind| {
        let mut points = standing.footprint.points.iter();
        points.find(|point| point.kind == kind).map(|point| point.y)
    };
    let (wheels, feet) = (line(ContactKind::Wheel)?, line(ContactKind::Foot)?);
    let length = |si: f64| Measure::new(Q::Length, si);
    let centre = &tipping.weight.centre;
    let (before, apart) = ((wheels - centre.y).value, (wheels - feet).value);
    let by_moments = (before - centre.z.value * held.over_load) / apart;
    // Where it tips first there is no such slope.
    let agree = (by_moments - held.gripping).abs() < AGREE;
    agree.then(|| Step {
        words: "Share of the weight on the feet, by moments about the wheels, on ground that falls towards these as steeply as it just stays",
        formula: "φ = (e − h tanβ) / b",
        values: vec![
            (
                "e",
                "centre of gravity in front of the wheels",
                length(before),
            ),
            (
                "h",
                "height of the centre of gravity",
                length(centre.z.value),
            ),
            (
                "β",
                "that slope, with which both sums agree",
                Measure::new(Q::Angle, held.over_load.atan()),
            ),
            ("b", "from feet to wheels", length(apart)),
        ],
        result: Measure::new(Q::Share, held.gripping),
        source: Source::Reckoned("statics of a rigid body"),
        sure: "as good as the sizes and weights entered: weigh what each side carries",
    })
}

fn steepest(design: &Design, held: &Grip, shared: bool) -> Step {
    let base = &design.base;
    let number = |si: f64| Measure::new(Q::Number, si);
    let mut values = vec![
        (
            "μf",
            "friction of feet and braked wheels",
            number(base.friction),
        ),
        (
            "μr",
            "rolling resistance of wheels, no more than friction",
            number(base.rolling_resistance.min(base.friction)),
        ),
    ];
    if shared {
        values.push((
            "φ",
            "share of the weight on the feet then; on more than three points the least that they can carry",
            Measure::new(Q::Share, held.gripping),
        ));
    } else {
        values.insert(
            0,
            ("μ", "grip of all points together", number(held.over_load)),
        );
    }
    Step {
        words: "Steepest slope on which it stays; wheels without brakes count with their rolling resistance, feet with friction, by what each carries",
        formula: if shared {
            "β = atan(μr + (μf − μr) φ)"
        } else {
            "β = atan(μ)"
        },
        values,
        result: Measure::new(Q::Angle, held.over_load.atan()),
        source: Source::CommonPractice,
        sure: "grip varies by half with ground and weather; wanted: half as much again",
    }
}
