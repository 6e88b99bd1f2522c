//! Can the tests tell what they are to tell?

use super::blank::blank;
use super::test_made::OTHER_AIR;
use super::{GroupLeak, Leaks, outside};
use crate::design::Source::{FromMemory, OwnMark};
use crate::design::inputs::Group;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice, Design};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::air_inside::{by_sizes, entered, holds_gas};
use crate::sizing::leak_test::TestPlan;
use uom::si::f64::{Pressure, Volume};

/// Below this share of what the engine draws a test shows so little of a leak that it shows nothing. Our own mark.
const TOO_GENTLE: f64 = 0.5;
/// The share of the test pressure that may be lost at the leak allowed: what is left must go on driving the leak. Our
/// own mark.
const LOST: f64 = 0.5;
/// What rounding may add to a number.
const ROUNDING: f64 = 1.0 + 1e-9;

/// What stands in the way of a test, or does not.
struct Answer {
    verdict: Verdict,
    compared: Phrase,
    margin: Option<f64>,
    levers: &'static [&'static str],
}

fn time(seconds: f64) -> Slot {
    Measure::new(Q::Time, seconds).into()
}

fn pressure(value: Pressure) -> Slot {
    Measure::new(Q::Pressure, value.value).into()
}

/// Can the tests tell the leak allowed: with the pressure and the instruments at hand, in the time there is?
pub(super) fn plan(design: &Design, leaks: &Leaks) -> Finding {
    let mut finding = blank(
        "leaks.plan",
        "Leak test possible",
        "Each sub-assembly is closed, pumped up a little and left alone. What it loses tells the leak, if the gauge is fine enough.",
        "One degree of drift looks like a large leak, so a short test with coarse instruments tells nothing.",
    );
    if leaks.groups.is_empty() {
        return finding;
    }
    let gentle = too_gentle(design, leaks).or_else(|| suction_unknown(leaks));
    let slowest = (leaks.groups.iter())
        .filter_map(|one| one.plan.as_ref().map(|plan| (one, plan)))
        .max_by(|a, b| a.1.hold.value.total_cmp(&b.1.hold.value));
    // The air of a hopper follows from its sizes; of one that is not fitted only joints are left.
    let is_left = |group| group == Group::Hopper && !design.hopper.fitted;
    let unknown: Vec<&str> = (leaks.groups.iter())
        .filter(|one| one.plan.is_none())
        .map(|one| one.budget.group)
        .filter(|group| holds_gas(*group) && !is_left(*group))
        .map(|group| group.label())
        .collect();
    let left = (leaks.groups.iter())
        .any(|one| is_left(one.budget.group))
        .then(hopper_left);
    let film = leaks.without_gauge();
    let other = other_air(design, leaks);
    let answers = match slowest {
        Some((slowest, plan)) => [
            gentle,
            too_coarse(design, leaks),
            Some(in_time(design, slowest, plan, [&unknown, &film])),
            left,
            other,
        ],
        None => [gentle, None, nothing_known(&unknown), left, other],
    };
    // Of equal answers the first counts.
    let worst = answers.into_iter().flatten().reduce(|worst, next| {
        if next.verdict > worst.verdict {
            next
        } else {
            worst
        }
    });
    if let Some(worst) = worst {
        finding.verdict = worst.verdict;
        finding.compared = worst.compared;
        finding.margin = worst.margin.filter(|margin| margin.is_finite());
        finding.levers = worst.levers.iter().copied().map(Lever::input).collect();
    }
    if let Some((slowest, plan)) = slowest {
        finding.working = working(design, leaks, slowest, plan);
    }
    if let Some(suction) = leaks.suction {
        finding.working.push(in_service(design, suction));
    }
    finding
}

/// Where the test is made with less pressure than the engine draws.
fn too_gentle(design: &Design, leaks: &Leaks) -> Option<Answer> {
    let suction = leaks.suction?;
    let test = design.leak_test.test_pressure;
    (test < suction).then(|| Answer {
        verdict: Verdict::at_least(
            test.value,
            suction.value,
            TOO_GENTLE * suction.value,
        ),
        compared: Phrase::new(
            "the test is made with {}, and at full load with a dirty filter the engine draws {}: what leaks then leaks less in the test. Test with as much at least",
            [pressure(test), pressure(suction)],
        ),
        margin: Some(test.value / suction.value - 1.0),
        levers: &["leak_test.test_pressure"],
    })
}

/// Where no gas flows, so that nobody knows what the engine draws.
fn suction_unknown(leaks: &Leaks) -> Option<Answer> {
    let why = leaks.untold_suction()?;
    Some(Answer {
        verdict: Verdict::CannotTell,
        compared: Phrase::new(
            "what the engine draws at full load is not known, and with it not how much pressure the test needs: {}",
            [why.into()],
        ),
        margin: None,
        levers: &[],
    })
}

/// Where instruments are so coarse that until they tell the leak allowed most of the pressure is gone.
fn too_coarse(design: &Design, leaks: &Leaks) -> Option<Answer> {
    let test = design.leak_test.test_pressure;
    let plans = leaks
        .groups
        .iter()
        .filter_map(|one| Some((one, one.plan.as_ref()?)));
    let (worst, plan) = plans.max_by(|(_, one), (_, other)| {
        let lost = |plan: &TestPlan| plan.loss_at_budget.value;
        lost(one).total_cmp(&lost(other))
    })?;
    let share = plan.loss_at_budget.value / test.value;
    (share > LOST * ROUNDING).then(|| Answer {
        verdict: Verdict::Watch,
        compared: Phrase::new(
            "until gauge and thermometer tell the leak allowed, {} would lose {} of {}; wanted half at most, so that enough is left to drive it",
            [
                worst.budget.group.label().into(),
                pressure(plan.loss_at_budget),
                pressure(test),
            ],
        ),
        margin: Some(LOST / share - 1.0),
        levers: &[
            "leak_test.gauge_step",
            "leak_test.thermometer_step",
            "leak_test.test_pressure",
        ],
    })
}

/// Whether there is time for the longest test.
fn in_time(
    design: &Design,
    slowest: &GroupLeak,
    plan: &TestPlan,
    [unknown, film]: [&[&str]; 2],
) -> Answer {
    let given = design.leak_test.hold_time.value;
    let needed = plan.hold.value;
    let label: Slot = slowest.budget.group.label().into();
    let margin = Some(given / needed - 1.0);
    if needed > given {
        let words = "{} must be held for {}; there is time for {}";
        Answer {
            verdict: Verdict::Watch,
            compared: Phrase::new(words, [label, time(needed), time(given)]),
            margin,
            levers: &[
                "leak_test.hold_time",
                "leak_test.thermometer_step",
                "leak_test.gauge_step",
            ],
        }
    } else if unknown.is_empty() {
        let words = if film.is_empty() {
            "the longest test, of {}, takes {}; there is time for {}"
        } else {
            "the longest test, of {}, takes {}; there is time for {}. No gauge tells of joints at: {}; soap film shows whether they leak"
        };
        let slots = [label, time(needed), time(given), film.join(", ").into()];
        Answer {
            verdict: Verdict::Good,
            compared: Phrase::new(words, slots),
            margin,
            levers: &[],
        }
    } else {
        // What is not entered yet is no fault that a change could mend.
        let words = "the test of {} takes {}; enter the air inside to plan that of: {}";
        let names = unknown.join(", ").into();
        Answer {
            verdict: Verdict::CannotTell,
            compared: Phrase::new(words, [label, time(needed), names]),
            margin: None,
            levers: &[],
        }
    }
}

/// Where the air that was entered is far from what the stages hold by their sizes; of several that which is furthest off.
fn other_air(design: &Design, leaks: &Leaks) -> Option<Answer> {
    let off = |entered: Volume, sizes: Volume| (entered / sizes).max(sizes / entered).value;
    let (group, entered, sizes) = (leaks.groups.iter())
        .filter_map(|one| {
            let group = one.budget.group;
            Some((group, entered(design, group)?, by_sizes(design, group)?))
        })
        .max_by(|(_, one, its), (_, other, others)| {
            off(*one, *its).total_cmp(&off(*other, *others))
        })?;
    let far = off(entered, sizes);
    let air = |volume: Volume| Slot::from(Measure::new(Q::Volume, volume.value));
    (far > OTHER_AIR).then(|| Answer {
        verdict: Verdict::Watch,
        compared: Phrase::new(
            "the test of {} is planned with {} of air inside, as entered; by their sizes its stages hold {}. Leave the entry empty, and it follows from them",
            [group.label().into(), air(entered), air(sizes)],
        ),
        margin: Some(OTHER_AIR / far - 1.0),
        levers: match group {
            Group::Filter => &["leak_test.filter_volume"],
            Group::Cooler => &["leak_test.cooler_volume"],
            Group::Condensate => &["leak_test.condensate_volume"],
            _ => &[],
        },
    })
}

/// Where a hopper that is not fitted still has joints.
fn hopper_left() -> Answer {
    Answer {
        verdict: Verdict::CannotTell,
        compared: Phrase::plain(
            "no hopper is fitted, but the list of joints still has a tight one of it: take that out, or give it to what it closes now",
        ),
        margin: None,
        levers: &[],
    }
}

/// Where the air inside is known of no sub-assembly.
fn nothing_known(unknown: &[&str]) -> Option<Answer> {
    (!unknown.is_empty()).then(|| Answer {
        verdict: Verdict::CannotTell,
        compared: Phrase::new(
            "enter the air inside, to plan the test: {}",
            [unknown.join(", ").into()],
        ),
        margin: None,
        levers: &[],
    })
}

fn working(design: &Design, leaks: &Leaks, slowest: &GroupLeak, plan: &TestPlan) -> Vec<Step> {
    let test = &design.leak_test;
    let volume = (
        "V",
        "air inside",
        Measure::new(Q::Volume, slowest.volume.map_or(0.0, |volume| volume.value)),
    );
    let leak = (
        "q",
        "leak allowed",
        Measure::new(Q::NormalFlow, slowest.budget.budget.value),
    );
    let warm = (
        "T",
        "its temperature",
        Measure::new(Q::Temperature, design.site.air_temperature.value),
    );
    let shows =
        (leaks.suction).map_or(1.0, |suction| (test.test_pressure / suction).value.min(1.0));
    let mut steps = vec![
        Step {
            words: "Time in which the error of the readings becomes a third of what may leak in the test; a minute at least, or until half of the pressure would be lost where that comes sooner",
            formula: "t = 6 u V T₀ / (p₀ q x), u = √(2/3) √((δp/T)² + (p δT/T²)²)",
            values: vec![
                volume,
                leak,
                (
                    "x",
                    "share of a leak in service that the test shows at least; half where it shows less",
                    Measure::new(Q::Share, shows.max(TOO_GENTLE)),
                ),
                (
                    "p",
                    "air inside at the start",
                    Measure::new(Q::Pressure, (outside(design) + test.test_pressure).value),
                ),
                warm,
                (
                    "δp",
                    "gauge reads to",
                    Measure::new(Q::Pressure, test.gauge_step.value),
                ),
                (
                    "δT",
                    "thermometer reads to",
                    Measure::new(Q::TemperatureDifference, test.thermometer_step.value),
                ),
            ],
            result: Measure::new(Q::Time, plan.hold.value),
            source: FromMemory(
                "JCGM 100:2008, Guide to the expression of uncertainty in measurement",
            ),
            sure: "each reading may be off by one step; u is the root of the sum of their squares",
        },
        Step {
            words: "Pressure lost in that time at the leak allowed if it stayed as large, all of it at most",
            formula: "Δp = min(p, q t p₀ T / (V T₀))",
            values: vec![
                (
                    "p",
                    "test pressure",
                    Measure::new(Q::Pressure, test.test_pressure.value),
                ),
                leak,
                ("t", "time", Measure::new(Q::Time, plan.hold.value)),
                warm,
                volume,
            ],
            result: Measure::new(Q::Pressure, plan.loss_at_budget.value),
            source: OwnMark("ideal gas; Watch where more than half of the test pressure is lost"),
            sure: "more than the test may lose: its leak falls with the pressure, and the readings have an error",
        },
    ];
    let driven = (leaks.suction).map_or(1.0, |suction| (plan.driving / suction).value.min(1.0));
    steps.extend(plan.allowed_loss.map(|loss| Step {
        words: "Pressure that may be lost, so that the readings pass: what is driven in the test, less the error of the readings, in whole steps of the gauge",
        formula: "Δp ≤ p₀ T t (q f − u) / (V T₀)",
        values: vec![
            leak,
            (
                "f",
                "least share of a leak in service that shows, by the mean pressure while it falls",
                Measure::new(Q::Share, driven),
            ),
            (
                "u",
                "error of the readings",
                Measure::new(Q::NormalFlow, plan.uncertainty.value),
            ),
            ("t", "time", Measure::new(Q::Time, plan.hold.value)),
            warm,
            volume,
        ],
        result: Measure::new(Q::Pressure, loss.value),
        source: OwnMark("as readings are judged that are entered: half of the test pressure must be sure to drive them on average"),
        sure: "found by trying, since more loss leaves less to drive it",
    }));
    steps
}

/// How much of a leak the test shows.
fn in_service(design: &Design, suction: Pressure) -> Step {
    let test = design.leak_test.test_pressure;
    Step {
        words: "Least share of a leak in service that the test shows: through a narrow crack it grows with the pressure, through a hole with its root",
        formula: "x = min(1, p / s)",
        values: vec![
            ("p", "test pressure", Measure::new(Q::Pressure, test.value)),
            (
                "s",
                "what the engine draws at full load with a dirty filter",
                Measure::new(Q::Pressure, suction.value),
            ),
        ],
        result: Measure::new(
            Q::Share,
            if suction.value > 0.0 {
                (test.value / suction.value).min(1.0)
            } else {
                1.0
            },
        ),
        source: OwnMark("Watch below the suction of the engine, Stop below half of it"),
        sure: "hardest at the engine: what lies nearer to the hearth is drawn at less",
    }
}
