//! What do the tests say that were made?

use super::blank::blank;
use super::test_made::wanted_pressure;
use super::{LeakTestMade, Leaks, WhyCounted, outside};
use crate::design::Source::CommonPractice;
use crate::design::inputs::{Group, Reading};
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice, Design};
use crate::physics::normal_state::AIR_DENSITY;
use crate::review::finding::{Finding, Step, Verdict};
use crate::sizing::leak_test::{FEW_GAINS, Leak, Tightness, Unfit, least_driving};
use uom::si::f64::{Pressure, VolumeRate};

/// Names of the findings about tests made.
fn reading_id(group: Group) -> &'static str {
    match group {
        Group::Base => "leaks.reading_base",
        Group::Reactor => "leaks.reading_reactor",
        Group::Filter => "leaks.reading_filter",
        Group::Cooler => "leaks.reading_cooler",
        Group::Condensate => "leaks.reading_condensate",
        Group::Hopper => "leaks.reading_hopper",
        Group::Electrics => "leaks.reading_electrics",
        Group::Engine => "leaks.reading_engine",
    }
}

/// What does the test of a sub-assembly that counts say, and why does that one count?
pub(super) fn counted(design: &Design, leaks: &Leaks, test: &LeakTestMade) -> Finding {
    let mut finding = reading(design, leaks, test);
    let why = leaks.counted(test.group).map(|(_, why)| why);
    let words = match why {
        None | Some(WhyCounted::Only) => return finding,
        Some(WhyCounted::LatestDate) => "{}; it has the latest date of its {} tests",
        Some(WhyCounted::LastInList) => {
            "{}; none of its {} tests has a date such as 2026-05-14, so that the last in the list counts"
        }
        Some(WhyCounted::Worse) => {
            "{}; some of its {} tests have no date such as 2026-05-14, so that nobody can tell which is the latest: the worse of the last with a date and the last without counts, number {} of the list. Enter the dates"
        }
    };
    let tests = leaks.tests.iter();
    let made = tests.filter(|other| other.group == test.group && other.read == test.read);
    finding.compared = Phrase::new(
        words,
        [
            finding.compared.into(),
            made.count().to_string().into(),
            (test.place + 1).to_string().into(),
        ],
    );
    finding
}

/// What does a test say of its sub-assembly?
pub(super) fn reading(design: &Design, leaks: &Leaks, test: &LeakTestMade) -> Finding {
    let mut finding = blank(
        reading_id(test.group),
        "Leak test made",
        "The leak that your readings give, with its uncertainty, against what this sub-assembly may leak.",
        "Air that leaks in burns gas and can make an explosive mixture. Gas that leaks out poisons.",
    );
    finding.about = "readings";
    let label: Slot = test.group.label().into();
    if !test.read {
        let words = "{}: nothing was read yet; enter pressures, temperatures and time as they were read. Where the gauge did not move at all, enter one smallest step of it as lost";
        finding.compared = Phrase::new(words, [label]);
        return finding;
    }
    let leak = match &test.leak {
        Ok(leak) => leak,
        Err(error) => {
            finding.compared = Phrase::new("{}: {}", [label, error.to_string().into()]);
            return finding;
        }
    };
    let Some((budget, tightness)) = test.budget.zip(test.tightness) else {
        let words = "{} leaks {} ± {}; it has no tight joint to share the leak allowed";
        let slots = [leak.rate, leak.uncertainty].map(|rate| flow(rate).into());
        finding.compared = Phrase::new(words, [label].into_iter().chain(slots));
        return finding;
    };
    finding.verdict = test.verdict();
    let most = match test.in_service {
        Some(in_service) if tightness == Tightness::Pass => in_service,
        _ => leak.rate + leak.uncertainty,
    };
    finding.margin = (finding.verdict != Verdict::CannotTell)
        .then(|| 1.0 - (most / budget).value)
        // Where a test passes but under a condition, no distance tells how far that is.
        .filter(|margin| {
            margin.is_finite() && (finding.verdict == Verdict::Good) == (*margin >= 0.0)
        });
    let (words, more) = told(design, leaks, test, leak, (tightness, budget), most);
    let slots = [leak.rate, leak.uncertainty, budget].map(|rate| flow(rate).into());
    finding.compared = Phrase::new(words, [label].into_iter().chain(slots).chain(more));
    finding.working =
        (design.readings.get(test.place)).map_or_else(Vec::new, |made| working(design, made, leak));
    finding
}

fn flow(rate: VolumeRate) -> Measure {
    Measure::new(Q::NormalFlow, rate.value)
}

fn pressure(value: Pressure) -> Measure {
    Measure::new(Q::Pressure, value.value)
}

/// The words of a test with a budget, whose slots are sub-assembly, leak, uncertainty and budget, and the slots that come
/// after these.
fn told(
    design: &Design,
    leaks: &Leaks,
    test: &LeakTestMade,
    leak: &Leak,
    (tightness, budget): (Tightness, VolumeRate),
    most: VolumeRate,
) -> (&'static str, Vec<Slot>) {
    let planned = wanted_pressure(design, leaks.suction);
    match (tightness, leak.unfit(budget, planned)) {
        (Tightness::Pass, _) if !test.suction_known => (
            "{} leaks {} ± {}; it may leak {}. But what the engine draws at full load is not known, and with it not whether the test was driven hard enough: {}",
            vec![leaks.untold_suction().unwrap_or_default().into()],
        ),
        (Tightness::Pass, _) if test.leaks_more_in_service() => (
            "{} leaks {} ± {}; it may leak {}. But {} drove it on average, and the engine draws {}: with that it may leak {}. Test again with more pressure",
            vec![
                pressure(leak.driving).into(),
                pressure(leaks.suction.unwrap_or_default()).into(),
                flow(most).into(),
            ],
        ),
        (Tightness::Pass, _) if test.other_air.is_some() => {
            let entered = design.readings.get(test.place).map(|made| made.volume);
            let air = [entered, test.other_air]
                .map(|air| Measure::new(Q::Volume, air.unwrap_or_default().value).into());
            (
                "{} leaks {} ± {}; it may leak {}. But that is reckoned with {} of air inside, and this sub-assembly holds {}: the leak is as large as the air it is reckoned with",
                air.into(),
            )
        }
        (Tightness::Pass, _) if leak.gains() => (
            "{} leaks {} ± {}, that is, it seems to gain a little air; it may leak {}. Less than {} of that is taken as a thermometer that is not as warm as the air inside: our own mark",
            vec![Measure::new(Q::Share, FEW_GAINS).into()],
        ),
        (Tightness::Pass | Tightness::Fail, _) => ("{} leaks {} ± {}; it may leak {}", Vec::new()),
        (Tightness::CannotTell, None) => (
            "{} leaks {} ± {}; it may leak {}: test again with finer instruments, or for longer",
            Vec::new(),
        ),
        (Tightness::CannotTell, Some(Unfit::Gains)) => (
            "{} seems to leak {} ± {}, that is to gain air; it may leak {}: look after thermometer, barometer and the valve of the pump",
            Vec::new(),
        ),
        (Tightness::CannotTell, Some(Unfit::Undriven)) => (
            "{} leaks {} ± {} or more; it may leak {}: only {} is sure to have driven it on average, wanted at least {}. Begin at the test pressure, with a gauge that shows it, and read again while most of it is there",
            vec![
                pressure(leak.surely_driving).into(),
                pressure(least_driving(planned)).into(),
            ],
        ),
    }
}

fn working(design: &Design, made: &Reading, leak: &Leak) -> Vec<Step> {
    let first = [
        ("pₐ", "air outside", pressure(outside(design))),
        (
            "p₁",
            "at the start, above the air",
            pressure(made.first_pressure),
        ),
        (
            "T₁",
            "temperature at the start",
            Measure::new(Q::Temperature, made.first_temperature.value),
        ),
        (
            "T₂",
            "temperature at the end",
            Measure::new(Q::Temperature, made.second_temperature.value),
        ),
    ];
    let others = [
        (
            "p₂",
            "at the end, above the air",
            pressure(made.second_pressure),
        ),
        (
            "b",
            "change of the air outside",
            pressure(made.barometer_change),
        ),
        (
            "V",
            "air inside",
            Measure::new(Q::Volume, made.volume.value),
        ),
        ("t", "time between", Measure::new(Q::Time, made.time.value)),
    ];
    let mut steps = vec![
        Step {
            words: "Leak from the two readings, at 0 °C and 101.325 kPa",
            formula: "q = V T₀ / (p₀ t) · ((pₐ + p₁)/T₁ − (pₐ + b + p₂)/T₂)",
            values: first.into_iter().chain(others).collect(),
            result: flow(leak.rate),
            source: CommonPractice,
            sure: "ideal gas; the uncertainty covers the steps of gauge and thermometer, not a wrong volume",
        },
        Step {
            words: "Change of pressure that the change of temperature alone makes",
            formula: "Δp = (pₐ + p₁) (T₂/T₁ − 1)",
            values: first.to_vec(),
            result: Measure::new(Q::Pressure, leak.thermal_change.value),
            source: CommonPractice,
            sure: "only as good as the thermometer tells the air inside",
        },
    ];
    if let Some(hole) = leak.hole_diameter {
        steps.push(Step {
            words: "One sharp round hole that leaks as much",
            formula: "d = √(4 A / π), A = ρ₀ q / (0.61 √(2 ρ p))",
            values: vec![
                ("q", "leak", flow(leak.rate)),
                (
                    "ρ₀",
                    "density of air at 0 °C (32 °F) and sea level",
                    Measure::new(Q::Density, AIR_DENSITY),
                ),
                (
                    "ρ",
                    "density of the air inside",
                    Measure::new(Q::Density, leak.density.value),
                ),
                ("p", "pressure that drives it", pressure(leak.driving)),
            ],
            result: Measure::new(Q::Hole, hole.value),
            source: CommonPractice,
            sure: "cracks and threads leak like many smaller holes",
        });
    }
    steps
}
