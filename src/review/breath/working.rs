//! The working shown behind the numbers of this chapter.

use super::{BlowerDuty, Duty, Part};
use crate::design::Source::{CommonPractice, FromMemory, Published};
use crate::design::inputs::StageKind;
use crate::design::phrase::Measure;
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice as _, Design};
use crate::review::finding::Step;
use crate::sizing::blower::CURVE_DENSITY;
use crate::sizing::pressure_chain::HearthStage;
use crate::sizing::train::TrainError;

/// The drops of all stages and their sum, with the method of each.
pub(super) fn chain(design: &Design, duty: &Result<Duty, TrainError>) -> Vec<Step> {
    let Ok(duty) = duty else {
        return Vec::new();
    };
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
                words: words(stage.part),
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
            describe(&mut step, design, stage.part);
            step
        })
        .collect();
    steps.push(Step {
        words: "The whole chain is the sum of its stages",
        formula: "Δp = Σ Δpᵢ",
        values: vec![flow],
        result: Measure::new(Q::Pressure, duty.drop.value),
        source: CommonPractice,
        sure: "As sure as its largest stage, usually the char: within a factor of two until you measure it.",
    });
    steps
}

fn words(part: Part) -> &'static str {
    match part {
        Part::Hearth(stage) => stage.label(),
        Part::Stage(kind) => kind.label(),
        Part::Flare => "Flare",
    }
}

const ERGUN: &str = "Ergun, Chemical Engineering Progress 48, 1952";

fn describe(step: &mut Step, design: &Design, part: Part) {
    let hearth = &design.hearth;
    let (formula, source, sure) = match part {
        Part::Hearth(HearthStage::Nozzles) => {
            step.values.push((
                "C",
                "discharge coefficient",
                Measure::new(Q::Number, hearth.nozzle_discharge.value),
            ));
            (
                "Δp = ρ/2 · (w / C)²",
                CommonPractice,
                "As sure as the discharge coefficient: about 15 %.",
            )
        }
        Part::Hearth(HearthStage::Wood) => {
            step.values.extend([
                (
                    "d",
                    "piece size",
                    Measure::new(Q::Length, design.fuel.piece_size.value),
                ),
                (
                    "ε",
                    "gaps",
                    Measure::new(Q::Share, design.fuel.void_share.value),
                ),
            ]);
            (
                "Δp/L = 150 μ v (1−ε)²/(ε³ d²) + 1.75 ρ v² (1−ε)/(ε³ d)",
                FromMemory(ERGUN),
                "Within a half for pieces of one size; fines and long chips resist more.",
            )
        }
        Part::Hearth(HearthStage::Char) => {
            step.values.extend([
                ("F", "fouling", Measure::new(Q::Number, hearth.bed_fouling)),
                (
                    "d",
                    "char size",
                    Measure::new(Q::Length, hearth.char_size.value),
                ),
                (
                    "ε",
                    "gaps",
                    Measure::new(Q::Share, hearth.char_void_share.value),
                ),
            ]);
            (
                "Δp = F ∫ (150 μ v (1−ε)²/(ε³ d²) + 1.75 ρ v² (1−ε)/(ε³ d)) dx",
                FromMemory(ERGUN),
                "Char breaks and ash builds up: within a factor of two. Fit a gauge and enter what it says.",
            )
        }
        Part::Stage(StageKind::Pipe) => (
            "Δp = (f L/d + Σ K) ρ v²/2; fittings K = K₁/Re + K∞ (1 + 25.4 mm/d)",
            Published(
                "Darcy-Weisbach; Churchill, Chemical Engineering 84, 1977; fittings by the 2-K method of Hooper, Chemical Engineering, 24 August 1981",
            ),
            "Within a fifth for clean pipe, within a quarter for fittings.",
        ),
        Part::Stage(StageKind::Cooler) => (
            "Δp = ∫ f ρ v²/(2d) dx + K ρ₁ v₁²/2",
            FromMemory("Darcy-Weisbach; Churchill, Chemical Engineering 84, 1977"),
            "Within a fifth for clean tubes; tar and soot make them narrower.",
        ),
        Part::Stage(StageKind::Cyclone) => (
            "Δp = K (H W / D_e²) ρ v²/2, K = 16",
            FromMemory("Cooper and Alley, Air Pollution Control"),
            "Within a quarter: cyclones of one shape differ by that much.",
        ),
        Part::Stage(StageKind::Filter) => (
            "Δp/L by Ergun for a bed; Δp = μ v (R + α w) for cloth",
            FromMemory("Ergun, Chemical Engineering Progress 48, 1952; Darcy"),
            "Clean within a half; dirty it is what you let it come to.",
        ),
        Part::Stage(StageKind::Trap | StageKind::Blower) => (
            "Δp = K ρ v²/2",
            CommonPractice,
            "As sure as the loss coefficient entered.",
        ),
        Part::Stage(StageKind::Measured) => (
            "Δp = Δp₁ (Q/Q₁)ⁿ, n = 1 or 2",
            CommonPractice,
            "As sure as the measured loss.",
        ),
        Part::Flare => (
            "Δp = Δp₁ (Q/Q₁)²",
            CommonPractice,
            "As sure as the entered loss.",
        ),
    };
    (step.formula, step.source, step.sure) = (formula, source, sure);
}

/// Pressure of the blower at its working point.
pub(super) fn working_point(duty: &BlowerDuty) -> Step {
    Step {
        words: "Blower and chain agree where their curves cross",
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
