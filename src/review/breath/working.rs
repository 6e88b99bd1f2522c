//! The working shown behind the numbers of this chapter.

use super::{BlowerDuty, Duty};
use crate::design::Design;
use crate::design::Source::{CommonPractice, FromMemory};
use crate::design::phrase::Measure;
use crate::design::quantity::Quantity as Q;
use crate::review::finding::Step;
use crate::sizing::blower::CURVE_DENSITY;
use crate::sizing::pressure_chain::StageKind;

/// The drops of all stages and their sum, with the method of each.
pub(super) fn chain(design: &Design, duty: &Duty) -> Vec<Step> {
    let flow = (
        "Q",
        "gas flow",
        Measure::new(Q::NormalFlow, duty.gas_flow.value),
    );
    let mut steps: Vec<Step> = duty
        .stages
        .iter()
        .map(|stage| {
            let mut step = Step {
                words: stage.kind.label(),
                formula: "",
                values: vec![
                    flow,
                    (
                        "T",
                        "temperature",
                        Measure::new(Q::Temperature, stage.temperature.value),
                    ),
                    (
                        "ρ",
                        "density",
                        Measure::new(Q::Density, stage.density.value),
                    ),
                ],
                result: Measure::new(Q::Pressure, stage.drop.value),
                source: CommonPractice,
                sure: "",
            };
            describe(&mut step, design, stage.kind);
            step
        })
        .collect();
    steps.push(Step {
        words: "The whole chain is the sum of its stages.",
        formula: "Δp = Σ Δpᵢ",
        values: vec![flow],
        result: Measure::new(Q::Pressure, duty.drop.value),
        source: CommonPractice,
        sure: "As sure as its largest stage, usually the char: within a factor of two until you measure it.",
    });
    steps
}

fn describe(step: &mut Step, design: &Design, kind: StageKind) {
    let hearth = &design.hearth;
    match kind {
        StageKind::Nozzles => {
            step.formula = "Δp = ρ/2 · (w / C)²";
            step.values.push((
                "C",
                "discharge coefficient",
                Measure::new(Q::Number, hearth.nozzle_discharge.value),
            ));
            step.sure = "As sure as the discharge coefficient: about 15 %.";
        }
        StageKind::Wood => {
            step.formula = "Δp/L = 150 μ v (1−ε)²/(ε³ d²) + 1.75 ρ v² (1−ε)/(ε³ d)";
            step.values.push((
                "d",
                "piece size",
                Measure::new(Q::Length, design.fuel.piece_size.value),
            ));
            step.values.push((
                "ε",
                "gaps",
                Measure::new(Q::Share, design.fuel.void_share.value),
            ));
            step.source = FromMemory("Ergun, Chemical Engineering Progress 48, 1952");
            step.sure = "Within a half for pieces of one size; fines and long chips resist more.";
        }
        StageKind::Char => {
            step.formula = "Δp = F ∫ (150 μ v (1−ε)²/(ε³ d²) + 1.75 ρ v² (1−ε)/(ε³ d)) dx";
            step.values
                .push(("F", "fouling", Measure::new(Q::Number, hearth.bed_fouling)));
            step.values.push((
                "d",
                "char size",
                Measure::new(Q::Length, hearth.char_size.value),
            ));
            step.values.push((
                "ε",
                "gaps",
                Measure::new(Q::Share, hearth.char_void_share.value),
            ));
            step.source = FromMemory("Ergun, Chemical Engineering Progress 48, 1952");
            step.sure = "Char breaks and ash builds up: within a factor of two. Fit a gauge and enter what it says.";
        }
        StageKind::Pipes => {
            step.formula = "Δp = (f L/d + Σ K) ρ v²/2";
            step.values.push((
                "d",
                "pipe bore",
                Measure::new(Q::Length, design.pipes.bore.value),
            ));
            step.values.push((
                "L",
                "pipe length",
                Measure::new(Q::Distance, design.pipes.length.value),
            ));
            step.source = FromMemory(
                "Darcy-Weisbach; Churchill, Chemical Engineering 84, 1977; fittings from Perry's Chemical Engineers' Handbook",
            );
            step.sure = "Within a fifth for clean pipe.";
        }
        StageKind::Cooler | StageKind::Flare => {
            step.formula = "Δp = Δp₁ (Q/Q₁)²";
            step.sure = "As sure as the entered loss.";
        }
        StageKind::CleanFilter | StageKind::DirtyFilter => {
            step.formula = "Δp = Δp₁ Q/Q₁";
            step.sure = "As sure as the entered loss; fine cloth and fine beds resist in step with the flow.";
        }
    }
}

/// Pressure of the blower at its working point.
pub(super) fn working_point(duty: &BlowerDuty) -> Step {
    Step {
        words: "Blower and chain agree where their curves cross.",
        formula: "Δp(V) = s² · ρ/ρ₁ · Δp₁(V/s)",
        values: vec![
            (
                "s",
                "speed",
                Measure::new(Q::Share, duty.running.speed_share.value),
            ),
            (
                "ρ",
                "gas density at the blower",
                Measure::new(Q::Density, duty.running.density.value),
            ),
            (
                "ρ₁",
                "density of the curve",
                Measure::new(Q::Density, CURVE_DENSITY),
            ),
            (
                "V",
                "flow at the blower",
                Measure::new(Q::Flow, duty.working.flow.value),
            ),
        ],
        result: Measure::new(Q::Pressure, duty.working.pressure.value),
        source: FromMemory("affinity laws, as in ISO 5801"),
        sure: "As sure as the entered curve and the chain; the crossing itself is exact.",
    }
}
