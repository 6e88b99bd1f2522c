//! Do the flat panels bear the test pressure?

use super::blank::blank;
use super::{Leaks, outside};
use crate::design::Source::{CommonPractice, FromMemory};
use crate::design::phrase::{Measure, Phrase, Slot, lower_first};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice, Design};
use crate::review::finding::{Finding, Lever, Step, Verdict};
use crate::sizing::panel::{FlatSheet, Panel};
use uom::si::f64::{Length, Pressure};

/// Above this a leak test is no gentle one any more, Pa: a pound per square inch. Common practice, no source.
const GENTLE: f64 = 7_000.0;

/// Input of the thickness of the panel that was entered.
const ENTERED: &str = "leak_test.panel_sheet";

/// How far below what a sheet bears a remedy may set the test pressure.
const ROOM: f64 = 1.05;

/// The test pressure, where it may be lowered to what a sheet bears: below what the engine draws, or where that is not
/// known, a test shows less than leaks in service.
fn lower_pressure(leaks: &Leaks, bears: Pressure) -> Option<Lever> {
    let enough = leaks.suction.is_some_and(|suction| bears >= ROOM * suction);
    enough.then(|| Lever::input("leak_test.test_pressure"))
}

/// Do the flat panels bear the test pressure? One rule holds for the panel that was entered and for those that the design
/// knows: it must not bring any of them past the stress allowed, and one that bulges is braced or blanked.
pub(super) fn panel(design: &Design, leaks: &Leaks) -> Finding {
    let mut finding = blank(
        "leaks.panel",
        "Flat panels at the test pressure",
        "A flat sheet bulges and may tear under a pressure that a round shell does not feel.",
        "Even a gentle test pushes on a large lid with the weight of several people.",
    );
    let test = &design.leak_test;
    let pressure = test.test_pressure;
    if let Err(error) = &leaks.panel {
        finding.compared = Phrase::new("{}", [error.to_string().into()]);
        return finding;
    }
    let Some(weakest) = leaks.weakest() else {
        return finding;
    };
    let bulging = leaks.bulging(pressure);
    let told = |pressure: Pressure| Measure::new(Q::Pressure, pressure.value);
    let gentle = (leaks.suction).map_or(GENTLE, |suction| GENTLE.max(suction.value));
    let bears = weakest.limit.by_stress;
    // Of the panels that fail the one that is told: what may give way, or what bulges first.
    let shown = if bears < pressure {
        weakest
    } else {
        bulging.first().copied().unwrap_or(weakest)
    };
    let eased = |panel: &FlatSheet| match test.braced {
        true => panel.limit.by_stress,
        false => panel.limit.at_ease(),
    };
    finding.margin = (leaks.panels())
        .map(|panel| (eased(panel) / pressure).value - 1.0)
        .reduce(f64::min)
        .filter(|margin| margin.is_finite());
    if bears < pressure {
        finding.verdict = Verdict::Stop;
        finding.compared = Phrase::new(
            "the {} bears {} if it is flat and has no ribs; the test is made with {}, and it may give way",
            [
                described(weakest).into(),
                told(bears).into(),
                told(pressure).into(),
            ],
        );
        let failing = leaks
            .panels()
            .filter(|panel| panel.limit.by_stress < pressure);
        // Bars alone do not make it bear more; but what bears a lower pressure may still bulge at it.
        let bars = (!test.braced).then(|| Lever::input("leak_test.braced"));
        finding.levers = (lower_pressure(leaks, bears).into_iter())
            .chain(stiffer(failing))
            .chain(bars)
            .collect();
    } else if let Some(first) = bulging.first().filter(|_| !test.braced) {
        finding.verdict = Verdict::Watch;
        finding.compared = Phrase::new(
            "the {} stays flat up to {} if it has no ribs; the test is made with {}, and it bulges, though it bears {}. Clamp bars across it, or take it off and close its place with a thicker blank{}",
            [
                described(first).into(),
                told(first.limit.by_deflection).into(),
                told(pressure).into(),
                told(first.limit.by_stress).into(),
                others(&bulging).into(),
            ],
        );
        finding.levers = [Lever::input("leak_test.braced")]
            .into_iter()
            .chain(stiffer(bulging.iter().copied()))
            .chain(lower_pressure(leaks, first.limit.by_deflection))
            .collect();
    } else if let (true, Some(why)) = (pressure.value > gentle, leaks.untold_suction()) {
        finding.margin = None;
        finding.compared = Phrase::new(
            "the {} bears {}; the test is made with {}. That is much for a leak test, and whether it takes so much cannot be told while it is not known what the engine draws: {}",
            [
                described(weakest).into(),
                told(bears).into(),
                told(pressure).into(),
                why.into(),
            ],
        );
    } else if pressure.value > gentle {
        finding.verdict = Verdict::Watch;
        finding.margin = Some(gentle / pressure.value - 1.0);
        finding.compared = Phrase::new(
            "the test is made with {}: far more than it takes to find a leak, {} is enough; the more air is pressed in, the harder it strikes if something gives way",
            [
                told(pressure).into(),
                Measure::new(Q::Pressure, gentle).into(),
            ],
        );
        finding.levers = vec![Lever::input("leak_test.test_pressure")];
    } else {
        finding.verdict = Verdict::Good;
        finding.compared = match bulging.first() {
            Some(first) => Phrase::new(
                "the {} would bulge from {} on, and is braced or blanked for the test with {}{}",
                [
                    described(first).into(),
                    told(first.limit.by_deflection).into(),
                    told(pressure).into(),
                    others(&bulging).into(),
                ],
            ),
            None => Phrase::new(
                "the weakest is the {}: it bears {}, and none bulges; the test is made with {}",
                [
                    described(weakest).into(),
                    told(bears).into(),
                    told(pressure).into(),
                ],
            ),
        };
    }
    finding.working = vec![flat(shown), strong(shown)];
    if let Some((energy, volume)) = stored(leaks) {
        finding.working.push(Step {
            words: "Energy stored in the air of the largest sub-assembly at test pressure",
            formula: "E = p V ln(p / pₐ)",
            values: vec![
                (
                    "p",
                    "pressure inside, absolute",
                    told(outside(design) + pressure),
                ),
                ("V", "air inside", Measure::new(Q::Volume, volume)),
                ("pₐ", "pressure of the air", told(outside(design))),
            ],
            result: Measure::new(Q::MechanicalEnergy, energy),
            source: CommonPractice,
            sure: "an upper limit, for slow expansion at one temperature",
        });
    }
    finding
}

/// What a panel is, with its size and what it is taken for.
fn described(panel: &FlatSheet) -> Phrase {
    let length = |length: Length| Slot::from(Measure::new(Q::Length, length.value));
    let across = match panel.outline {
        Panel::Round(diameter) => Phrase::new("{} across", [length(diameter)]),
        Panel::Rectangle(one, other) => Phrase::new("{} by {}", [length(one), length(other)]),
    };
    let metal = Slot::from(lower_first(panel.shell.material.label()));
    Phrase::new(
        match panel.shell.known {
            true => "{}, {} and {} thick, of {},",
            false => {
                "{}, {} and {} thick, taken for {} since the strength of its metal is not known,"
            }
        },
        [
            panel.label.to_string().into(),
            across.into(),
            Measure::new(Q::Thickness, panel.thickness.value).into(),
            metal,
        ],
    )
}

/// The panels that bulge besides the first.
fn others(bulging: &[&FlatSheet]) -> String {
    let rest: Vec<&str> = (bulging.iter().skip(1))
        .map(|panel| panel.label.as_ref())
        .collect();
    if rest.is_empty() {
        String::new()
    } else {
        format!("; so too: {}", rest.join(", "))
    }
}

/// What makes panels stiffer; the one that was entered may also have been measured wrongly.
fn stiffer<'a>(panels: impl Iterator<Item = &'a FlatSheet>) -> Vec<Lever> {
    let mut levers: Vec<Lever> = Vec::new();
    for panel in panels {
        let entered = panel.path == ENTERED;
        let width = entered.then_some("leak_test.panel_width");
        let paths = [Some(panel.path.as_str()), width].into_iter().flatten();
        for lever in paths.map(|path| Lever::input(path.to_string())) {
            if !levers.contains(&lever) {
                levers.push(lever);
            }
        }
    }
    levers
}

/// The greatest energy stored in a sub-assembly, and the air in it.
fn stored(leaks: &Leaks) -> Option<(f64, f64)> {
    (leaks.groups.iter())
        .filter_map(|one| Some((one.plan.as_ref()?.stored_energy.value, one.volume?.value)))
        .max_by(|one, other| one.0.total_cmp(&other.0))
}

/// Sizes and stiffness of a panel, as its workings tell them.
fn sizes(panel: &FlatSheet) -> Vec<(&'static str, &'static str, Measure)> {
    vec![
        (
            "b",
            "its width, or its shorter side",
            Measure::new(Q::Length, panel.outline.narrow().value),
        ),
        (
            "s",
            "its thickness",
            Measure::new(Q::Thickness, panel.thickness.value),
        ),
        (
            "E",
            "its modulus of elasticity in GPa",
            Measure::new(Q::Number, 1e-9 * panel.shell.metal.stiffness.value),
        ),
    ]
}

const PLATES: crate::design::Source =
    FromMemory("Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 1959");
const SURE: &str = "for flat sheet without rust, at room temperature as in the test; held edges make it stronger, dents and bad welds weaker";

/// Up to which pressure a panel counts as flat.
fn flat(panel: &FlatSheet) -> Step {
    let mut values = sizes(panel);
    let factor = Measure::new(Q::Number, panel.limit.deflection_factor);
    values.push(("c", "for the deflection of this shape", factor));
    Step {
        words: "Thin plate with edges free to turn, up to half its thickness of deflection: more is a bulge",
        formula: "p = E s⁴ / (2 c b⁴)",
        values,
        result: Measure::new(Q::Pressure, panel.limit.by_deflection.value),
        source: PLATES,
        sure: SURE,
    }
}

/// Which pressure brings it to the stress allowed.
fn strong(panel: &FlatSheet) -> Step {
    let mut values = sizes(panel);
    values.push((
        "σ",
        "stress allowed in MPa, two fifths of the yield strength of the cold metal",
        Measure::new(Q::Number, 1e-6 * panel.shell.stress().value),
    ));
    let number = |si| Measure::new(Q::Number, si);
    let (words, formula) = match panel.limit.skin {
        Some(load) => {
            let words = "load of a round plate that bulges, at a stress of σ b²/(4 E s²)";
            values.push(("Q", words, number(load)));
            (
                "The same up to the stress allowed; since it bulges it carries like a skin too, and its stress grows more slowly than the pressure",
                "p = 16 Q E s⁴ / b⁴",
            )
        }
        None => {
            values.retain(|(symbol, _, _)| *symbol != "E");
            let words = "for the stress of this shape";
            values.push(("k", words, number(panel.limit.stress_factor)));
            ("The same up to the stress allowed", "p = σ s² / (k b²)")
        }
    };
    Step {
        words,
        formula,
        values,
        result: Measure::new(Q::Pressure, panel.limit.by_stress.value),
        source: match panel.limit.skin {
            Some(_) => FromMemory(
                "von Kármán's equations for an edge free to turn and to slide, as in Timoshenko and Woinowsky-Krieger, 1959; we solved them step by step",
            ),
            None => PLATES,
        },
        sure: SURE,
    }
}
