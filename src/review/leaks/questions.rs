//! The questions about leaks, with their cautions.

use super::{HOUR, LeakTestMade, Leaks, outside};
use crate::design::Source::{CommonPractice, FromMemory};
use crate::design::inputs::{Group, PanelShape};
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice, Design};
use crate::review::finding::{Chapter, Finding, Lever, Step, Verdict};
use crate::sizing::carbon_monoxide::{CEILING, RECOMMENDED};
use crate::sizing::leak_test::Tightness;
use crate::sizing::panel::FlatSheet;

/// The caution of every pressure test.
const PRESSURE_TEST: &str = "Test with air only, never with oxygen or fuel gas. Fit a relief valve and pump by hand. Stand beside flat panels, never before them. Soap film finds the place.";
/// The caution of carbon monoxide.
const CARBON_MONOXIDE: &str = "Carbon monoxide kills without a smell. Run it outdoors or under an open roof, with an alarm, and never alone.";

fn blank(
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

fn time(seconds: f64) -> Slot {
    Measure::new(Q::Time, seconds).into()
}

/// Can the instruments at hand tell the leak allowed in the time there is?
pub(super) fn plan(design: &Design, leaks: &Leaks) -> Finding {
    let mut finding = blank(
        "leaks.plan",
        "Leak test possible",
        "Each sub-assembly is closed, pumped up a little and left alone. What it loses tells the leak, if the gauge is fine enough.",
        "One kelvin of drift looks like a large leak, so a short test with coarse instruments tells nothing.",
    );
    let given = design.leak_test.hold_time.value;
    let planned = leaks.groups.iter();
    let slowest = planned
        .filter_map(|one| one.plan.as_ref().map(|plan| (one, plan)))
        .max_by(|a, b| a.1.hold.value.total_cmp(&b.1.hold.value));
    let unknown: Vec<&str> = (leaks.groups.iter())
        .filter(|one| one.plan.is_none() && takes_volume(one.budget.group))
        .map(|one| one.budget.group.label())
        .collect();
    let Some((slowest, plan)) = slowest else {
        if !unknown.is_empty() {
            let words = "enter the air inside, to plan the test: {}";
            finding.compared = Phrase::new(words, [unknown.join(", ").into()]);
        }
        return finding;
    };
    let label: Slot = slowest.budget.group.label().into();
    let needed = plan.hold.value;
    (finding.verdict, finding.compared) = if needed > given {
        let words = "{} must be held for {}; there is time for {}";
        (
            Verdict::Watch,
            Phrase::new(words, [label, time(needed), time(given)]),
        )
    } else if unknown.is_empty() {
        let words = "the longest test, of {}, takes {}; there is time for {}";
        (
            Verdict::Good,
            Phrase::new(words, [label, time(needed), time(given)]),
        )
    } else {
        let words = "the test of {} takes {}; enter the air inside to plan that of: {}";
        let names = unknown.join(", ").into();
        (
            Verdict::CannotTell,
            Phrase::new(words, [label, time(needed), names]),
        )
    };
    if finding.verdict != Verdict::CannotTell {
        finding.margin = Some(given / needed - 1.0).filter(|margin| margin.is_finite());
    }
    // What is not entered yet is no fault that a change could mend.
    if finding.verdict == Verdict::Watch {
        finding.levers = vec![
            Lever::input("leak_test.hold_time"),
            Lever::input("leak_test.thermometer_step"),
            Lever::input("leak_test.gauge_step"),
        ];
    }
    finding.working = vec![Step {
        words: "Time in which the error of the readings becomes a third of the leak allowed, and a minute at least",
        formula: "t = 3 · 2 u V T₀ / (p₀ q)",
        values: vec![
            (
                "V",
                "air inside",
                Measure::new(Q::Volume, slowest.volume.map_or(0.0, |volume| volume.value)),
            ),
            (
                "q",
                "leak allowed",
                Measure::new(Q::NormalFlow, slowest.budget.budget.value),
            ),
            (
                "δp",
                "gauge reads to",
                Measure::new(Q::Pressure, design.leak_test.gauge_step.value),
            ),
            (
                "δT",
                "thermometer reads to",
                Measure::new(
                    Q::TemperatureDifference,
                    design.leak_test.thermometer_step.value,
                ),
            ),
        ],
        result: Measure::new(Q::Time, needed),
        source: FromMemory("JCGM 100:2008, Guide to the expression of uncertainty in measurement"),
        sure: "each reading may be off by one step; u is the root of the sum of their squares",
    }];
    finding
}

/// Whether a sub-assembly holds gas of its own. What hangs on an engine is tested with its neighbour.
fn takes_volume(group: Group) -> bool {
    !matches!(group, Group::Base | Group::Electrics | Group::Engine)
}

/// Does the weakest flat panel bear the test pressure?
pub(super) fn panel(design: &Design, leaks: &Leaks) -> Finding {
    let mut finding = blank(
        "leaks.panel",
        "Flat panels at the test pressure",
        "A flat sheet bulges and may tear under a pressure that a round shell does not feel.",
        "Even a gentle test pushes on a large lid with the weight of several people.",
    );
    let pressure = design.leak_test.test_pressure.value;
    let limit = match &leaks.panel {
        Ok(limit) => limit,
        Err(error) => {
            finding.compared = Phrase::new("{}", [error.to_string().into()]);
            return finding;
        }
    };
    let bears = limit.pressure.value;
    finding.verdict = Verdict::at_least(bears, pressure, pressure);
    finding.margin = Some(bears / pressure - 1.0).filter(|margin| margin.is_finite());
    let told = |pascals| Measure::new(Q::Pressure, pascals);
    let words = if leaks.shell.known {
        "the panel bears {} as {}; the test is made with {}"
    } else {
        "the panel bears {}, taken for {} since the strength of its metal is not known; the test is made with {}"
    };
    finding.compared = Phrase::new(
        words,
        [
            told(bears).into(),
            leaks.shell.material.label().to_lowercase().into(),
            told(pressure).into(),
        ],
    );
    finding.levers = vec![
        Lever::input("leak_test.test_pressure"),
        Lever::input("leak_test.panel_sheet"),
        Lever::input("leak_test.panel_width"),
    ];
    if finding.verdict == Verdict::Good {
        if let Some(sheet) = &leaks.sheet {
            flat_sheet(&mut finding, sheet, limit.pressure.value, pressure);
        }
        if finding.verdict == Verdict::Good && pressure > GENTLE {
            finding.verdict = Verdict::Watch;
            finding.margin = Some(GENTLE / pressure - 1.0);
            finding.compared = Phrase::new(
                "the test is made with {}: far more than it takes to find a leak, {} is enough; the more air is pressed in, the harder it strikes if something gives way",
                [told(pressure).into(), told(GENTLE).into()],
            );
            finding.levers.truncate(1);
        }
    }
    let test = &design.leak_test;
    let mut values = vec![
        (
            "b",
            "width of the panel",
            Measure::new(Q::Length, test.panel_width.value),
        ),
        (
            "s",
            "its thickness",
            Measure::new(Q::Thickness, test.panel_sheet.value),
        ),
        (
            "σ",
            "stress allowed in MPa, two fifths of the yield strength of the cold metal",
            Measure::new(Q::Number, 1e-6 * leaks.shell.stress().value),
        ),
        (
            "E",
            "its modulus of elasticity in GPa",
            Measure::new(Q::Number, 1e-9 * leaks.shell.metal.stiffness.value),
        ),
    ];
    if test.panel_shape == PanelShape::Rectangle {
        values.push((
            "a",
            "length of the panel",
            Measure::new(Q::Length, test.panel_length.value),
        ));
    }
    finding.working = vec![Step {
        words: "Thin plate with edges free to turn, up to the stress allowed and half its thickness of deflection",
        formula: "p = min(σ s² / (k b²), E s⁴ / (2 c b⁴))",
        values,
        result: told(bears),
        source: FromMemory("Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 1959"),
        sure: "for flat sheet without rust, at room temperature as in the test; held edges make it stronger, dents and bad welds weaker",
    }];
    if let Some(energy) = stored(leaks) {
        finding.working.push(Step {
            words: "Energy stored in the air of the largest sub-assembly at test pressure",
            formula: "E = p V ln(p / pₐ)",
            values: vec![
                (
                    "p",
                    "pressure inside, absolute",
                    told(outside(design).value + pressure),
                ),
                ("pₐ", "pressure of the air", told(outside(design).value)),
            ],
            result: Measure::new(Q::MechanicalEnergy, energy),
            source: CommonPractice,
            sure: "an upper limit, for slow expansion at one temperature",
        });
    }
    finding
}

/// Above this a leak test is no gentle one any more, Pa: a pound per square inch. Common practice, no source.
const GENTLE: f64 = 7_000.0;

/// Judges the weakest flat sheet of vessel and hopper where the panel that was entered bears the test. That it has no
/// ribs is not known, so that it only stops the test where even yielding would not save it.
fn flat_sheet(finding: &mut Finding, sheet: &FlatSheet, panel: f64, pressure: f64) {
    let bears = sheet.limit.pressure.value;
    if bears >= panel {
        return;
    }
    let told = |pascals| Measure::new(Q::Pressure, pascals).into();
    finding.verdict = Verdict::at_least(bears, pressure, 0.0).max(Verdict::at_least(
        sheet.yields_at.value,
        pressure,
        pressure,
    ));
    finding.margin = Some(bears / pressure - 1.0).filter(|margin| margin.is_finite());
    let words = match finding.verdict {
        Verdict::Good => {
            "the weakest flat sheet is the {}, {} across and {} thick: it bears {}; the test is made with {}"
        }
        Verdict::Stop => {
            "the {}, {} across and {} thick, bears {} if it is flat and has no ribs; the test is made with {}, and it may give way"
        }
        _ => {
            "the {}, {} across and {} thick, bears {} if it is flat and has no ribs; the test is made with {}, and it bulges: brace it, or leave it away and close its place with a thicker blank"
        }
    };
    finding.compared = Phrase::new(
        words,
        [
            sheet.label.into(),
            Measure::new(Q::Length, sheet.diameter.value).into(),
            Measure::new(Q::Thickness, sheet.thickness.value).into(),
            told(bears),
            told(pressure),
        ],
    );
    finding.levers = vec![
        Lever::input(sheet.path.clone()),
        Lever::input("leak_test.test_pressure"),
    ];
}

fn stored(leaks: &Leaks) -> Option<f64> {
    (leaks.groups.iter())
        .filter_map(|one| one.plan.as_ref().map(|plan| plan.stored_energy.value))
        .max_by(f64::total_cmp)
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

/// What does the last test of a sub-assembly say?
pub(super) fn reading(design: &Design, test: &LeakTestMade) -> Finding {
    let mut finding = blank(
        reading_id(test.group),
        "Leak test made",
        "The leak that your readings give, with its uncertainty, against what this sub-assembly may leak.",
        "Air that leaks in burns gas and can make an explosive mixture. Gas that leaks out poisons.",
    );
    finding.about = "readings";
    let label: Slot = test.group.label().into();
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
    finding.verdict = match tightness {
        Tightness::Pass => Verdict::Good,
        Tightness::Fail => Verdict::Stop,
        Tightness::CannotTell => Verdict::CannotTell,
    };
    finding.margin = (tightness != Tightness::CannotTell)
        .then(|| 1.0 - (rate + sure) / budget.value)
        .filter(|margin| margin.is_finite());
    let slots = [
        label,
        flow(rate).into(),
        flow(sure).into(),
        flow(budget.value).into(),
    ];
    finding.compared = Phrase::new(
        if tightness == Tightness::CannotTell {
            "{} leaks {} ± {}; it may leak {}: test again with finer instruments, or for longer"
        } else {
            "{} leaks {} ± {}; it may leak {}"
        },
        slots,
    );
    let Some(made) = design.readings.get(test.place) else {
        return finding;
    };
    finding.working = vec![
        Step {
            words: "Leak from the two readings, at 0 °C and 101.325 kPa",
            formula: "q = V T₀ / (p₀ t) · (p₁/T₁ − p₂/T₂)",
            values: vec![
                (
                    "V",
                    "air inside",
                    Measure::new(Q::Volume, made.volume.value),
                ),
                (
                    "p₁",
                    "at the start, above the air",
                    Measure::new(Q::Pressure, made.first_pressure.value),
                ),
                (
                    "T₁",
                    "temperature at the start",
                    Measure::new(Q::Temperature, made.first_temperature.value),
                ),
                (
                    "p₂",
                    "at the end, above the air",
                    Measure::new(Q::Pressure, made.second_pressure.value),
                ),
                (
                    "T₂",
                    "temperature at the end",
                    Measure::new(Q::Temperature, made.second_temperature.value),
                ),
                ("t", "time between", Measure::new(Q::Time, made.time.value)),
            ],
            result: flow(rate),
            source: CommonPractice,
            sure: "ideal gas; the uncertainty covers the steps of gauge and thermometer, not a wrong volume",
        },
        Step {
            words: "Change of pressure that the change of temperature alone makes",
            formula: "Δp = p₁ (T₂/T₁ − 1)",
            values: Vec::new(),
            result: Measure::new(Q::Pressure, leak.thermal_change.value),
            source: CommonPractice,
            sure: "only as good as the thermometer tells the air inside",
        },
    ];
    if let Some(hole) = leak.hole_diameter {
        finding.working.push(Step {
            words: "One sharp round hole that leaks as much",
            formula: "A = ṁ / (0.61 √(2 ρ Δp))",
            values: vec![(
                "Δp",
                "pressure that drives it",
                Measure::new(Q::Pressure, leak.driving.value),
            )],
            result: Measure::new(Q::Thickness, hole.value),
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
        "A fifth of wood gas is carbon monoxide. A few parts in a thousand of it kill within the hour.",
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
    finding.verdict = Verdict::at_most(share, RECOMMENDED, CEILING);
    finding.margin = Some(1.0 - share / RECOMMENDED).filter(|margin| margin.is_finite());
    let stay: Slot = Measure::new(Q::LongTime, design.shed.stay.value).into();
    finding.compared = Phrase::new(
        "{} ppm after {}; wanted {} ppm at most, and never {} ppm",
        [
            ppm(share).into(),
            stay,
            ppm(RECOMMENDED).into(),
            ppm(CEILING).into(),
        ],
    );
    finding.levers = vec![
        Lever::input("shed.indoors"),
        Lever::input("shed.air_changes"),
        Lever::input("shed.stay"),
    ];
    let leak = &room.leak;
    finding.working = vec![Step {
        words: "Carbon monoxide in well mixed air, from clean air on",
        formula: "C = q x / (n V) · (1 − e^(−n t))",
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
        sure: "beside the leak it is far more; how much air a shed changes is a guess",
    }];
    finding
}
