//! The questions about leaks, with their cautions.

use super::{HOUR, LeakTestMade, Leaks, WhyCounted, outside, wanted_pressure};
use crate::design::Source::{CommonPractice, FromMemory};
use crate::design::inputs::Group;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice, Design};
use crate::physics::normal_state::AIR_DENSITY;
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::sizing::carbon_monoxide::{CEILING, RECOMMENDED};
use crate::sizing::leak_test::{Tightness, Unfit, least_driving};
use uom::si::f64::Pressure;

/// The caution of every pressure test.
const PRESSURE_TEST: &str = "Test with air only, never with oxygen or fuel gas. Fit a relief valve and pump by hand. Stand beside flat panels, never before them. Soap film finds the place.";
/// The caution of carbon monoxide.
pub(super) const CARBON_MONOXIDE: &str = "Carbon monoxide kills without a smell. Run it outdoors or under an open roof, with an alarm, and never alone.";

pub(super) fn blank(
    id: &'static str,
    title: &'static str,
    meaning: &'static str,
    why: &'static str,
) -> Finding {
    Finding {
        id,
        chapter: Chapter::Leaks,
        title,
        meaning,
        verdict: Verdict::CannotTell,
        compared: Phrase::plain("no tight joints are entered yet"),
        why,
        margin: None,
        working: Vec::new(),
        caution: Some(PRESSURE_TEST),
        levers: Vec::new(),
        about: "leak_test",
    }
}

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
    let flow = |value: f64| Measure::new(Q::NormalFlow, value);
    let (rate, sure) = (leak.rate.value, leak.uncertainty.value);
    let Some((budget, tightness)) = test.budget.zip(test.tightness) else {
        let words = "{} leaks {} ± {}; it has no tight joint to share the leak allowed";
        finding.compared = Phrase::new(words, [label, flow(rate).into(), flow(sure).into()]);
        return finding;
    };
    finding.verdict = test.verdict();
    let most = match test.in_service {
        Some(in_service) if tightness == Tightness::Pass => in_service.value,
        _ => rate + sure,
    };
    finding.margin = (finding.verdict != Verdict::CannotTell)
        .then(|| 1.0 - most / budget.value)
        // Where a test passes but under a condition, no distance tells how far that is.
        .filter(|margin| {
            margin.is_finite() && (finding.verdict == Verdict::Good) == (*margin >= 0.0)
        });
    let mut slots = vec![
        label,
        flow(rate).into(),
        flow(sure).into(),
        flow(budget.value).into(),
    ];
    let pressure = |value: Pressure| Measure::new(Q::Pressure, value.value);
    let planned = wanted_pressure(design, leaks.suction);
    let words = match (tightness, leak.unfit(planned)) {
        (Tightness::Pass, _) if !test.suction_known => {
            slots.push(leaks.untold_suction().unwrap_or_default().into());
            "{} leaks {} ± {}; it may leak {}. But what the engine draws at full load is not known, and with it not whether the test was driven hard enough: {}"
        }
        (Tightness::Pass, _) if test.leaks_more_in_service() => {
            let suction = leaks.suction.unwrap_or_default();
            slots.extend([pressure(leak.driving).into(), pressure(suction).into()]);
            slots.push(flow(most).into());
            "{} leaks {} ± {}; it may leak {}. But {} drove it on average, and the engine draws {}: with that it may leak {}. Test again with more pressure"
        }
        (Tightness::Pass, _) if test.other_air.is_some() => {
            let air = |volume: f64| Measure::new(Q::Volume, volume).into();
            let entered = (design.readings.get(test.place)).map_or(0.0, |made| made.volume.value);
            slots.push(air(entered));
            slots.push(air(test.other_air.map_or(0.0, |own| own.value)));
            "{} leaks {} ± {}; it may leak {}. But that is reckoned with {} of air inside, and this sub-assembly holds {}: the leak is as large as the air it is reckoned with"
        }
        (Tightness::Pass | Tightness::Fail, _) => "{} leaks {} ± {}; it may leak {}",
        (Tightness::CannotTell, None) => {
            "{} leaks {} ± {}; it may leak {}: test again with finer instruments, or for longer"
        }
        (Tightness::CannotTell, Some(Unfit::Gains)) => {
            "{} seems to leak {} ± {}, that is to gain air; it may leak {}: look after thermometer, barometer and the valve of the pump"
        }
        (Tightness::CannotTell, Some(Unfit::Undriven)) => {
            let least = least_driving(planned);
            slots.extend([pressure(leak.surely_driving).into(), pressure(least).into()]);
            "{} leaks {} ± {} or more; it may leak {}: only {} is sure to have driven it on average, wanted at least {}. Begin at the test pressure, with a gauge that shows it, and read again while most of it is there"
        }
    };
    finding.compared = Phrase::new(words, slots);
    let Some(made) = design.readings.get(test.place) else {
        return finding;
    };
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
    finding.working = vec![
        Step {
            words: "Leak from the two readings, at 0 °C and 101.325 kPa",
            formula: "q = V T₀ / (p₀ t) · ((pₐ + p₁)/T₁ − (pₐ + b + p₂)/T₂)",
            values: first.into_iter().chain(others).collect(),
            result: flow(rate),
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
        finding.working.push(Step {
            words: "One sharp round hole that leaks as much",
            formula: "d = √(4 A / π), A = ρ₀ q / (0.61 √(2 ρ p))",
            values: vec![
                ("q", "leak", flow(rate)),
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
    finding
}

/// Does carbon monoxide gather in the room?
pub(super) fn room(design: &Design, leaks: &Leaks) -> Finding {
    let mut finding = blank(
        "leaks.room",
        "Carbon monoxide in the room",
        "If all the leak allowed came out as gas, carbon monoxide would gather in a closed room.",
        "A fifth of wood gas is carbon monoxide, of gas from charcoal a third. A few parts in a thousand of it kill within the hour.",
    );
    finding.caution = Some(CARBON_MONOXIDE);
    finding.about = "shed";
    if !design.shed.indoors {
        finding.verdict = Verdict::Good;
        finding.compared = Phrase::plain("it stands outdoors or under an open roof");
        return finding;
    }
    let Some(room) = &leaks.room else {
        finding.compared = Phrase::plain("the leak or the room is out of range");
        return finding;
    };
    let share = room.after_stay.value;
    let ppm = |share: f64| Measure::new(Q::Number, 1e6 * share);
    // The sum takes the air as well mixed and the leak as no larger than allowed, and knows nothing of refuelling, of
    // lighting and of a fan that stops. So no room, however large or airy, makes it Good.
    finding.verdict = Verdict::at_most(share, RECOMMENDED, CEILING).max(Verdict::Watch);
    finding.margin = Some(1.0 - share / RECOMMENDED).filter(|margin| *margin < 0.0);
    let stay: Slot = Measure::new(Q::LongTime, design.shed.stay.value).into();
    finding.compared = Phrase::new(
        "{} ppm after {}; wanted {} ppm at most, and never {} ppm. Refuelling, lighting and a fan that stops are left out, so that indoors is never good",
        [
            ppm(share).into(),
            stay,
            ppm(RECOMMENDED).into(),
            ppm(CEILING).into(),
        ],
    );
    finding.levers = vec![Lever::input("shed.indoors")];
    let leak = &room.leak;
    finding.working = vec![Step {
        words: "Carbon monoxide in well mixed air, from clean air on",
        formula: if leak.air_changes.value > 0.0 {
            "C = q x / (n V) · (1 − e^(−n t))"
        } else {
            "C = q x t / V"
        },
        values: vec![
            (
                "q",
                "gas that leaks out",
                Measure::new(Q::Flow, leak.leak.value),
            ),
            (
                "x",
                "carbon monoxide in it",
                Measure::new(Q::Share, leak.share.value),
            ),
            (
                "n",
                "air changes per hour",
                Measure::new(Q::Number, leak.air_changes.value * HOUR),
            ),
            (
                "V",
                "air in the room",
                Measure::new(Q::RoomVolume, leak.room.value),
            ),
            (
                "t",
                "longest stay",
                Measure::new(Q::LongTime, design.shed.stay.value),
            ),
        ],
        result: ppm(share),
        source: FromMemory(
            "NIOSH Pocket Guide: 35 ppm mean, 200 ppm ceiling, 1200 ppm dangerous to life",
        ),
        sure: "the air is taken as well mixed and the leak as no larger than allowed; beside the leak it is far more, and how much air a shed changes is a guess",
    }];
    finding
}
