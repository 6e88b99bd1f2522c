//! The working shown behind the numbers of this chapter.

use super::{BlowerDuty, Duty, Part};
use crate::design::Source::{self, CommonPractice, FromMemory, Published};
use crate::design::inputs::{FilterMedium, HearthKind, StageKind, TrainStage};
use crate::design::phrase::Measure;
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice as _, Design};
use crate::review::finding::Step;
use crate::review::train::{CAKE, CLOTH_VELOCITY, COOL_VISCOSITY, TrainReview, grate};
use crate::sizing::blower::CURVE_DENSITY;
use crate::sizing::machine::HearthShape;
use crate::sizing::pressure_chain::{End, Filter, HearthStage, StageDrop};
use crate::sizing::train::{Detail, GasState, Stage, StageOutcome, TrainError, TrainSolution};

type Shown = (&'static str, &'static str, Measure);

fn shown(symbol: &'static str, words: &'static str, quantity: Q, si: f64) -> Shown {
    (symbol, words, Measure::new(quantity, si))
}

/// Viscosity has no unit that a builder types; it is told in µPa·s.
fn viscosity(pascal_seconds: f64) -> Shown {
    shown("μ", "viscosity in µPa·s", Q::Number, 1e6 * pascal_seconds)
}

/// The drops of all stages and their sum at full load or while lighting, with the method of each.
pub(super) fn chain(
    design: &Design,
    train: &TrainReview,
    solved: &Result<TrainSolution, TrainError>,
    duty: &Result<Duty, TrainError>,
) -> Vec<Step> {
    let (Ok(solved), Ok(duty)) = (solved, duty) else {
        return Vec::new();
    };
    let way = Way {
        design,
        train,
        solved,
        duty,
    };
    let given = &train.at_full;
    let made = given.made(duty.gas_flow);
    let hearth = given.hearth.stages(made);
    let gas_flow = |value| shown("Q", "gas flow", Q::NormalFlow, value);
    let flow = gas_flow(duty.gas_flow.value);
    let mut steps: Vec<Step> = duty
        .stages
        .iter()
        .enumerate()
        .filter_map(|(place, loss)| {
            let (words, method) = match loss.part {
                Part::Hearth(stage) => (stage.label(), way.through_hearth(hearth.get(place))),
                Part::Stage(kind) => (
                    kind.label(),
                    way.through_stage(kind, place.checked_sub(hearth.len())?)?,
                ),
                Part::Flare => (
                    "Flare",
                    way.as_entered(
                        design.blower.flare_drop.value,
                        2.0,
                        "As sure as the entered loss.",
                    ),
                ),
            };
            let mut values = vec![
                match loss.part {
                    Part::Hearth(_) => gas_flow(made.value),
                    Part::Stage(_) | Part::Flare => flow,
                },
                shown("T", "temperature", Q::Temperature, loss.temperature.value),
                shown("ρ", "density", Q::Density, loss.density.value),
            ];
            values.extend(method.values);
            Some(Step {
                words,
                formula: method.formula,
                values,
                result: Measure::new(Q::Pressure, loss.drop.value),
                source: method.source,
                sure: method.sure,
            })
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

const ERGUN: &str = "Ergun, Chemical Engineering Progress 48, 1952";
const BED: &str = "Δp = F L (150 μ v (1−ε)²/(ε³ d²) + 1.75 ρ v² (1−ε)/(ε³ d))";

/// How the drop of a stage is found, and what goes into it beside flow, temperature and density.
struct Method {
    formula: &'static str,
    values: Vec<Shown>,
    source: Source,
    sure: &'static str,
}

/// The way of the gas at one load.
struct Way<'a> {
    design: &'a Design,
    train: &'a TrainReview,
    solved: &'a TrainSolution,
    duty: &'a Duty,
}

impl Way<'_> {
    fn through_hearth(&self, stage: Option<&StageDrop>) -> Method {
        let (design, hearth) = (self.design, &self.design.hearth);
        let mut values: Vec<Shown> = Vec::with_capacity(12);
        values.extend(stage.map(|stage| shown("V", "flow as it is", Q::Flow, stage.flow.value)));
        let length = |symbol, words, si| shown(symbol, words, Q::Length, si);
        let kind = stage.map_or(HearthStage::Char, |stage| stage.kind);
        if kind == HearthStage::Nozzles {
            values.extend([
                shown("n", "nozzles", Q::Count, f64::from(hearth.nozzle_count)),
                shown("b", "nozzle bore", Q::Thickness, hearth.nozzle_bore.value),
                shown(
                    "C",
                    "discharge coefficient",
                    Q::Number,
                    hearth.nozzle_discharge.value,
                ),
            ]);
            return Method {
                formula: "Δp = ρ/2 · (w / C)², w = V / (n π/4 b²)",
                values,
                source: CommonPractice,
                sure: "As sure as the discharge coefficient: about 15 %.",
            };
        }
        if kind == HearthStage::Grate {
            values.extend(grate(design).into_iter().flat_map(|grate| {
                [
                    shown("A", "area of the char above it", Q::Area, grate.char.value),
                    shown("a", "its holes under the char", Q::Area, grate.open.value),
                    shown(
                        "ε",
                        "gaps in the char: as much of the holes is free",
                        Q::Share,
                        grate.void_share.value,
                    ),
                ]
            }));
            return Method {
                formula: "Δp = ζ ρ v²/2, v = V/A, f = ε a/A, ζ = ((1 − f + 0.707 (1 − f)^0.375)/f)²",
                values,
                source: FromMemory(
                    "Idelchik, Handbook of Hydraulic Resistance, thin perforated plates",
                ),
                sure: "How much of the holes char closes is a guess, and ash that was not shaken out closes more: within a factor of three.",
            };
        }
        values.extend(stage.map(|stage| viscosity(stage.viscosity.value)));
        if kind == HearthStage::Wood {
            let hopper = &design.hopper;
            values.extend([
                length("D", "width of the hopper", hopper.diameter.value),
                length(
                    "L",
                    "height of the wood",
                    (hopper.height * hopper.fill_share).value,
                ),
                length("d", "piece size", design.fuel.piece_size.value),
                shown("ε", "gaps", Q::Share, design.fuel.void_share.value),
            ]);
            return Method {
                formula: "Δp = L (150 μ v (1−ε)²/(ε³ d²) + 1.75 ρ v² (1−ε)/(ε³ d)), v = 4 V/(π D²)",
                values,
                source: FromMemory(ERGUN),
                sure: "Within a half for pieces of one size; fines and long chips resist more.",
            };
        }
        match hearth.kind {
            HearthKind::Constricted => {
                values.extend([
                    length("D", "at the nozzles", hearth.nozzle_ring_diameter.value),
                    length("D", "throat", hearth.throat_diameter.value),
                    length("D", "at the grate", hearth.below_throat_diameter.value),
                ]);
                let [straight, cone] = HearthShape::below_nozzles(hearth).map(|part| part.value);
                if straight > 0.0 {
                    values.extend([
                        length("x", "straight on below the nozzles", straight),
                        length("x", "from there to the throat", cone),
                    ]);
                } else {
                    values.push(length("x", "from nozzles to throat", cone));
                }
                values.push(length(
                    "x",
                    "from throat to grate",
                    hearth.reduction_height.value,
                ));
            }
            HearthKind::Straight => values.extend([
                length("D", "fire tube", hearth.tube_diameter.value),
                length("x", "its length", hearth.tube_length.value),
            ]),
        }
        values.extend([
            shown("F", "fouling", Q::Number, hearth.bed_fouling),
            length("d", "char size", hearth.char_size.value),
            shown("ε", "gaps", Q::Share, hearth.char_void_share.value),
        ]);
        Method {
            formula: "Δp = F ∫ (150 μ v (1−ε)²/(ε³ d²) + 1.75 ρ v² (1−ε)/(ε³ d)) dx, v = 4 V/(π D²)",
            values,
            source: FromMemory(ERGUN),
            sure: "Char breaks and ash builds up: within a factor of two. Fit a gauge and enter what it says.",
        }
    }

    fn through_stage(&self, kind: StageKind, place: usize) -> Option<Method> {
        let stage = self.train.stages.get(place)?;
        let entry = self.design.train.get(place)?;
        let outcome = self.solved.outcomes.get(place)?;
        let gas = self.solved.points.get(place)?;
        let velocity = outcome.velocity.value;
        let speed = |words| shown("v", words, Q::Velocity, velocity);
        Some(match (kind, stage) {
            (StageKind::Filter, _) => self.through_filter(entry, outcome, gas),
            (StageKind::Measured, Stage::Measured(measured)) => {
                let known = match self.duty.filter {
                    Filter::Clean => measured.clean,
                    Filter::Dirty => measured.dirty,
                };
                let power = if known.linear { 1.0 } else { 2.0 };
                self.as_entered(known.at_flow.value, power, "As sure as the measured loss.")
            }
            (StageKind::Cyclone, _) => {
                let mut values = vec![speed("velocity in its inlet")];
                if let Detail::Cyclone(cyclone) = &outcome.detail {
                    let sizes = &cyclone.dimensions;
                    values.extend([
                        shown(
                            "H",
                            "height of the inlet",
                            Q::Length,
                            sizes.inlet_height.value,
                        ),
                        shown(
                            "W",
                            "width of the inlet",
                            Q::Length,
                            sizes.inlet_width.value,
                        ),
                        shown(
                            "D_e",
                            "bore of the outlet",
                            Q::Length,
                            sizes.outlet_diameter.value,
                        ),
                    ]);
                }
                Method {
                    formula: "Δp = K (H W / D_e²) ρ v²/2, K = 16",
                    values,
                    source: FromMemory("Cooper and Alley, Air Pollution Control"),
                    sure: "Within a quarter: cyclones of one shape differ by that much.",
                }
            }
            (StageKind::Trap | StageKind::Blower, _) => {
                let turns = kind == StageKind::Blower
                    && (self.duty.end == End::Flare || self.design.blower.assists);
                let coefficient = match stage {
                    Stage::CondensateTrap(trap) => trap.loss_coefficient,
                    _ => entry.other_loss,
                };
                let resting = [
                    speed("velocity in its bore"),
                    shown("K", "loss coefficient", Q::Number, coefficient),
                ];
                Method {
                    formula: if turns {
                        "Δp = 0 while it turns and lifts the pressure"
                    } else {
                        "Δp = K ρ v²/2"
                    },
                    values: resting.into_iter().filter(|_| !turns).collect(),
                    source: CommonPractice,
                    sure: "As sure as the loss coefficient entered.",
                }
            }
            _ => tubes(stage, outcome),
        })
    }

    fn through_filter(&self, entry: &TrainStage, outcome: &StageOutcome, gas: &GasState) -> Method {
        let dirty = self.duty.filter == Filter::Dirty;
        let mut values = vec![shown(
            "v",
            "gas through its area",
            Q::Velocity,
            outcome.velocity.value,
        )];
        values.extend(gas.properties().map(|found| viscosity(found.viscosity)));
        let formula = match (entry.medium, dirty) {
            (FilterMedium::Packed, _) => {
                let clogging = if dirty { entry.dirty_factor } else { 1.0 };
                values.extend([
                    shown("F", "clogging", Q::Number, clogging),
                    shown("L", "depth", Q::Length, entry.filter_depth.value),
                    shown("d", "piece size", Q::Length, entry.filter_piece.value),
                    shown("ε", "gaps", Q::Share, entry.filter_voids.value),
                ]);
                BED
            }
            (FilterMedium::Cloth, _) => {
                values.extend([
                    shown(
                        "μ₀",
                        "viscosity for which the loss is entered",
                        Q::Number,
                        1e6 * COOL_VISCOSITY,
                    ),
                    shown(
                        "v₀",
                        "velocity for which it is entered",
                        Q::Velocity,
                        CLOTH_VELOCITY,
                    ),
                    shown(
                        "p",
                        "loss of clean cloth, as entered",
                        Q::Pressure,
                        entry.cloth_loss.value,
                    ),
                ]);
                if dirty {
                    let on_cloth = entry.dust_capacity.value / entry.cloth_area.value;
                    values.extend([
                        shown(
                            "p₀",
                            "loss of the cake, as entered",
                            Q::Pressure,
                            entry.cake_loss.value,
                        ),
                        shown("m", "dust on the cloth in kg/m²", Q::Number, on_cloth),
                        shown("m₀", "dust for which it is entered", Q::Number, CAKE),
                    ]);
                    "Δp = (μ v)/(μ₀ v₀) · (p + p₀ m/m₀)"
                } else {
                    "Δp = (μ v)/(μ₀ v₀) · p"
                }
            }
        };
        Method {
            formula,
            values,
            source: FromMemory("Ergun, Chemical Engineering Progress 48, 1952; Darcy"),
            sure: "Clean within a half; dirty it is what you let it come to.",
        }
    }

    /// A loss that was entered for full flow, and grows with a power of the flow.
    fn as_entered(&self, at_full: f64, power: f64, sure: &'static str) -> Method {
        let full = self.train.full_load.start.dry_flow.value;
        Method {
            formula: "Δp = Δp₁ (Q/Q₁)ⁿ",
            values: vec![
                shown("Δp₁", "as entered for full flow", Q::Pressure, at_full),
                shown("Q₁", "full flow", Q::NormalFlow, full),
                shown("n", "grows with this power of the flow", Q::Count, power),
            ],
            source: CommonPractice,
            sure,
        }
    }
}

/// Pipes and the tubes of a cooler.
fn tubes(stage: &Stage, outcome: &StageOutcome) -> Method {
    let (length, bore, coefficients) = match (stage, &outcome.detail) {
        (Stage::HearthOutlet(run) | Stage::Pipe(run), Detail::Pipe(pipe)) => {
            (run.length, run.bore, run.loss_coefficients(pipe.reynolds))
        }
        (Stage::Cooler(cooler), _) => (cooler.length, cooler.bore, cooler.header_loss),
        _ => Default::default(),
    };
    let velocity = outcome.velocity.value;
    let mut values = vec![
        shown("v", "velocity where it enters", Q::Velocity, velocity),
        shown("Σ K", "fittings and ends", Q::Number, coefficients),
    ];
    // The gas gets denser and slower on its way, so that the friction factor is one for the whole length.
    let heads = outcome.pressure_loss.value / (0.5 * outcome.density.value * velocity * velocity);
    let friction = (heads - coefficients) * (bore / length).value;
    let long = friction.is_finite();
    if long {
        values.extend([
            shown(
                "f",
                "friction factor, mean of its length",
                Q::Number,
                friction,
            ),
            shown("L", "length", Q::Distance, length.value),
            shown("d", "bore", Q::Bore, bore.value),
        ]);
    }
    Method {
        formula: if long {
            "Δp = (f L/d + Σ K) ρ v²/2"
        } else {
            "Δp = Σ K ρ v²/2"
        },
        values,
        source: Published(
            "Darcy-Weisbach; Churchill, Chemical Engineering 84, 1977; fittings by the 2-K method of Hooper, Chemical Engineering, 24 August 1981",
        ),
        sure: "Within a fifth for clean tubes, within a quarter for fittings; tar and soot make them narrower.",
    }
}

/// Pressure of the blower at its working point.
pub(super) fn working_point(duty: &BlowerDuty) -> Step {
    let (speed, density) = (duty.running.speed_share.value, duty.running.density.value);
    let pressure = duty.working.pressure.value;
    Step {
        words: "Blower and chain agree where their curves cross",
        formula: "Δp = s² · ρ/ρ₁ · Δp₁, Δp₁ from the curve at V/s",
        values: vec![
            shown("s", "speed", Q::Share, speed),
            shown("ρ", "gas density at the blower", Q::Density, density),
            shown("ρ₁", "density of the curve", Q::Density, CURVE_DENSITY),
            shown("V", "flow at the blower", Q::Flow, duty.working.flow.value),
            shown(
                "Δp₁",
                "pressure of the curve there",
                Q::Pressure,
                pressure / (speed * speed * density / CURVE_DENSITY),
            ),
        ],
        result: Measure::new(Q::Pressure, pressure),
        source: FromMemory("affinity laws, as in ISO 5801"),
        sure: "As sure as the entered curve and the chain; the crossing itself is exact.",
    }
}
