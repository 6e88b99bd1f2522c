//! Does the weakest flat panel bear the test pressure?

use super::questions::blank;
use super::{Leaks, outside};
use crate::design::Source::{CommonPractice, FromMemory};
use crate::design::inputs::PanelShape;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice, Design};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::panel::FlatSheet;

/// Above this a leak test is no gentle one any more, Pa: a pound per square inch. Common practice, no source.
const GENTLE: f64 = 7_000.0;

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
