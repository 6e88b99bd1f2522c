//! Does the weakest flat panel bear the test pressure?

use super::blank::blank;
use super::{Leaks, outside};
use crate::design::Source::{CommonPractice, FromMemory};
use crate::design::inputs::PanelShape;
use crate::design::phrase::{Measure, Phrase, lower_first};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice, Design};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::panel::{FlatSheet, PanelLimit, ShellMetal};
use uom::si::f64::Length;

/// Above this a leak test is no gentle one any more, Pa: a pound per square inch. Common practice, no source.
const GENTLE: f64 = 7_000.0;

/// How far below what a sheet bears a remedy may set the test pressure.
const ROOM: f64 = 1.05;

/// The test pressure, where it may be lowered to what a sheet bears: below what the engine draws, or where that is not
/// known, a test shows less than leaks in service.
fn lower_pressure(leaks: &Leaks, bears: f64) -> Option<Lever> {
    let enough = leaks
        .suction
        .is_some_and(|suction| bears >= ROOM * suction.value);
    enough.then(|| Lever::input("leak_test.test_pressure"))
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
            lower_first(leaks.shell.material.label()).into(),
            told(pressure).into(),
        ],
    );
    let entered = ["leak_test.panel_sheet", "leak_test.panel_width"];
    finding.levers = (lower_pressure(leaks, bears).into_iter())
        .chain(entered.map(Lever::input))
        .collect();
    if finding.verdict == Verdict::Good {
        if let Some(sheet) = &leaks.sheet {
            flat_sheet(&mut finding, leaks, sheet, pressure);
        }
        let gentle = (leaks.suction).map_or(GENTLE, |suction| GENTLE.max(suction.value));
        if finding.verdict != Verdict::Good || pressure <= gentle {
            // It is not more than it takes.
        } else if let Some(why) = leaks.untold_suction() {
            finding.verdict = Verdict::CannotTell;
            finding.margin = None;
            finding.compared = Phrase::new(
                "{}. That is much for a leak test, and whether it takes so much cannot be told while it is not known what the engine draws: {}",
                [finding.compared.into(), why.into()],
            );
            finding.levers = Vec::new();
        } else {
            finding.verdict = Verdict::Watch;
            finding.margin = Some(gentle / pressure - 1.0);
            finding.compared = Phrase::new(
                "the test is made with {}: far more than it takes to find a leak, {} is enough; the more air is pressed in, the harder it strikes if something gives way",
                [told(pressure).into(), told(gentle).into()],
            );
            finding.levers = vec![Lever::input("leak_test.test_pressure")];
        }
    }
    let test = &design.leak_test;
    let narrow = match test.panel_shape {
        PanelShape::Round => test.panel_width,
        PanelShape::Rectangle => test.panel_width.min(test.panel_length),
    };
    let mut entered = thin_plate(limit, [narrow, test.panel_sheet], &leaks.shell);
    if test.panel_shape == PanelShape::Rectangle {
        let long = test.panel_width.max(test.panel_length).value;
        let words = "its longer side";
        (entered.values).push(("a", words, Measure::new(Q::Length, long)));
    }
    finding.working = vec![entered];
    if let Some(sheet) = leaks
        .sheet
        .as_ref()
        .filter(|sheet| sheet.limit.pressure.value < bears)
    {
        let words = "The same for the weakest flat sheet of vessel, hopper and gas train";
        let sizes = [sheet.diameter, sheet.thickness];
        finding.working.push(Step {
            words,
            ..thin_plate(&sheet.limit, sizes, &sheet.shell)
        });
    }
    if let Some((energy, volume)) = stored(leaks) {
        finding.working.push(Step {
            words: "Energy stored in the air of the largest sub-assembly at test pressure",
            formula: "E = p V ln(p / pₐ)",
            values: vec![
                (
                    "p",
                    "pressure inside, absolute",
                    told(outside(design).value + pressure),
                ),
                ("V", "air inside", Measure::new(Q::Volume, volume)),
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
fn flat_sheet(finding: &mut Finding, leaks: &Leaks, sheet: &FlatSheet, pressure: f64) {
    let bears = sheet.limit.pressure.value;
    let panel = leaks.panel.as_ref().map(|panel| panel.pressure.value);
    if panel.is_ok_and(|panel| bears >= panel) {
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
            sheet.label.to_string().into(),
            Measure::new(Q::Length, sheet.diameter.value).into(),
            Measure::new(Q::Thickness, sheet.thickness.value).into(),
            told(bears),
            told(pressure),
        ],
    );
    finding.levers = [Lever::input(sheet.path.clone())]
        .into_iter()
        .chain(lower_pressure(leaks, bears))
        .collect();
}

/// The greatest energy stored in a sub-assembly, and the air in it.
fn stored(leaks: &Leaks) -> Option<(f64, f64)> {
    (leaks.groups.iter())
        .filter_map(|one| Some((one.plan.as_ref()?.stored_energy.value, one.volume?.value)))
        .max_by(|one, other| one.0.total_cmp(&other.0))
}

/// What a panel of the lesser width and the thickness bears.
fn thin_plate(limit: &PanelLimit, [width, sheet]: [Length; 2], shell: &ShellMetal) -> Step {
    let number = |symbol, words, si| (symbol, words, Measure::new(Q::Number, si));
    Step {
        words: "Thin plate with edges free to turn, up to the stress allowed and half its thickness of deflection",
        formula: "p = min(σ s² / (k b²), E s⁴ / (2 c b⁴))",
        values: vec![
            (
                "b",
                "width of the panel",
                Measure::new(Q::Length, width.value),
            ),
            (
                "s",
                "its thickness",
                Measure::new(Q::Thickness, sheet.value),
            ),
            number(
                "σ",
                "stress allowed in MPa, two fifths of the yield strength of the cold metal",
                1e-6 * shell.stress().value,
            ),
            number(
                "E",
                "its modulus of elasticity in GPa",
                1e-9 * shell.metal.stiffness.value,
            ),
            number("k", "for the stress of this shape", limit.stress_factor),
            number(
                "c",
                "for the deflection of this shape",
                limit.deflection_factor,
            ),
        ],
        result: Measure::new(Q::Pressure, limit.pressure.value),
        source: FromMemory("Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 1959"),
        sure: "for flat sheet without rust, at room temperature as in the test; held edges make it stronger, dents and bad welds weaker",
    }
}
