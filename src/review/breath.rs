//! Pressure chain and blower.

mod chain;
mod questions;
mod working;

use super::finding::{Finding, NamedResult};
use super::heart::Heart;
use super::hearth::surroundings;
use crate::design::Design;
use crate::design::inputs::BlowerPlace;
use crate::design::phrase::Measure;
use crate::design::quantity::Quantity as Q;
use crate::physics::air::STANDARD_PRESSURE;
use crate::sizing::blower::{
    BlowerCurve, BlowerError, BlowerPoint, BlowerPower, Running, WorkingPoint, blower_power,
};
use crate::sizing::gas::{molar_mass, viscosity_per_air};
use crate::sizing::pressure_chain::{End, Filter, Gas, PressureChain, StageDrop, StageKind};
use uom::si::f64::{Pressure, Ratio, Velocity, VolumeRate};
use uom::si::pressure::pascal;

/// The chain at one gas flow.
#[derive(Debug, Clone, PartialEq)]
pub struct Duty {
    /// Gas flow wanted, at 0 °C and 101.325 kPa.
    pub gas_flow: VolumeRate,
    /// State of the filter.
    pub filter: Filter,
    /// Where the gas goes.
    pub end: End,
    /// Drop of each stage.
    pub stages: Vec<StageDrop>,
    /// Drop of the whole chain.
    pub drop: Pressure,
}

/// The blower on one duty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BlowerDuty {
    /// Speed and gas density.
    pub running: Running,
    /// Flow wanted, at the blower's temperature and pressure.
    pub flow_needed: VolumeRate,
    /// Pressure the blower makes at the flow wanted; none when its curve ends before.
    pub available: Option<Pressure>,
    /// Where blower and chain agree.
    pub working: WorkingPoint,
    /// Gas flow at the working point, at 0 °C and 101.325 kPa.
    pub gas_flow: VolumeRate,
    /// Speed that gives the flow wanted, as a share of rated speed; none when no speed does.
    pub speed_needed: Option<Ratio>,
    /// Power at the working point.
    pub power: BlowerPower,
}

/// The blower on every duty it can be asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct BlowerReview {
    /// The curve at rated speed.
    pub curve: BlowerCurve,
    /// Lighting, through the flare, filter clean.
    pub startup: BlowerDuty,
    /// Full gas flow, filter clean, without the engine's help.
    pub full_clean: BlowerDuty,
    /// Full gas flow, filter dirty, without the engine's help.
    pub full_dirty: BlowerDuty,
}

/// Pressure chain and blower.
#[derive(Debug, Clone)]
pub struct Breath {
    /// The gas the chain is computed for.
    pub gas: Gas,
    /// The chain, to be asked at any flow.
    pub chain: PressureChain,
    /// Lighting: start-up flow through the flare, filter clean.
    pub startup: Duty,
    /// Usual load into the engine, filter clean.
    pub usual: Duty,
    /// Full load into the engine, filter clean.
    pub full_clean: Duty,
    /// Full load into the engine, filter dirty.
    pub full_dirty: Duty,
    /// The blower, or why its curve cannot be used.
    pub blower: Result<BlowerReview, BlowerError>,
    /// Volume at the blower of one normal cubic metre of gas.
    pub expansion: f64,
    /// While lighting, pressure above the air outside just after the blower.
    pub pressure_side: Pressure,
    /// While lighting, pressure below the air outside just before the blower.
    pub suction_side: Pressure,
    /// Suction the engine must make at full load with a dirty filter.
    pub engine_vacuum: Pressure,
    /// Mean velocity in the pipes at full load.
    pub pipe_velocity: Velocity,
}

/// A sample of the chart of blower and system curves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CurveSample {
    /// Flow at the blower's temperature and pressure.
    pub flow: VolumeRate,
    /// Pressure the chain needs while lighting: flare, filter clean.
    pub system_startup: Pressure,
    /// Pressure the chain needs into the engine, filter clean.
    pub system_clean: Pressure,
    /// Pressure the chain needs into the engine, filter dirty.
    pub system_dirty: Pressure,
    /// Pressure of the blower at its lighting speed; none past the end of its curve.
    pub blower_startup: Option<Pressure>,
    /// Pressure of the blower at its running speed; none past the end of its curve.
    pub blower_running: Option<Pressure>,
}

impl Breath {
    /// Blower and system curves at `points` flows, from nothing to beyond blower and full load.
    pub fn curves(&self, points: u32) -> Vec<CurveSample> {
        let full = self.full_clean.gas_flow * self.expansion;
        let blower = self.blower.as_ref().ok();
        let longest = blower.map_or(full, |blower| {
            let running = [&blower.startup.running, &blower.full_clean.running];
            running
                .into_iter()
                .map(|running| blower.curve.largest_flow(running))
                .fold(
                    full,
                    |longest, flow| if flow > longest { flow } else { longest },
                )
        });
        let steps = f64::from(points.max(2) - 1);
        (0..points.max(2))
            .map(|step| {
                let flow = longest * (f64::from(step) / steps);
                let gas = flow / self.expansion;
                let pressure = |duty: fn(&BlowerReview) -> &BlowerDuty| {
                    blower.and_then(|blower| blower.curve.pressure(flow, &duty(blower).running))
                };
                CurveSample {
                    flow,
                    system_startup: self.chain.drop(gas, Filter::Clean, End::Flare),
                    system_clean: self.chain.drop(gas, Filter::Clean, End::Engine),
                    system_dirty: self.chain.drop(gas, Filter::Dirty, End::Engine),
                    blower_startup: pressure(|blower| &blower.startup),
                    blower_running: pressure(|blower| &blower.full_clean),
                }
            })
            .collect()
    }

    /// The computed numbers with their stable names.
    pub fn results(&self) -> Vec<NamedResult> {
        let mut results = Vec::with_capacity(48);
        let mut add = |name: String, label: String, quantity, si| {
            results.push(NamedResult::new(
                format!("breath.{name}"),
                label,
                Measure::new(quantity, si),
            ));
        };
        for (name, label, duty) in [
            ("startup", "while lighting", &self.startup),
            ("usual", "at usual load", &self.usual),
            ("full_clean", "at full load, filter clean", &self.full_clean),
            ("full_dirty", "at full load, filter dirty", &self.full_dirty),
        ] {
            add(
                format!("drop_{name}"),
                format!("Chain {label}"),
                Q::Pressure,
                duty.drop.value,
            );
            for stage in &duty.stages {
                add(
                    format!("drop_{name}_{}", stage.kind.name()),
                    format!("{} {label}", stage.kind.label()),
                    Q::Pressure,
                    stage.drop.value,
                );
            }
        }
        let plain = |text: &str| text.to_string();
        add(
            plain("engine_vacuum"),
            plain("Suction at the engine"),
            Q::Pressure,
            self.engine_vacuum.value,
        );
        add(
            plain("pipe_velocity"),
            plain("Gas velocity in the pipes at full load"),
            Q::Velocity,
            self.pipe_velocity.value,
        );
        add(
            plain("pressure_side"),
            plain("Pressure just after the blower"),
            Q::Pressure,
            self.pressure_side.value,
        );
        add(
            plain("suction_side"),
            plain("Suction just before the blower"),
            Q::Pressure,
            self.suction_side.value,
        );
        if let Ok(blower) = &self.blower {
            for (name, label, duty) in [
                ("startup", "while lighting", &blower.startup),
                (
                    "full_clean",
                    "at full load, filter clean",
                    &blower.full_clean,
                ),
                (
                    "full_dirty",
                    "at full load, filter dirty",
                    &blower.full_dirty,
                ),
            ] {
                add(
                    format!("blower_gas_{name}"),
                    format!("Gas the blower pulls {label}"),
                    Q::NormalFlow,
                    duty.gas_flow.value,
                );
                add(
                    format!("blower_flow_{name}"),
                    format!("Flow at the blower {label}"),
                    Q::Flow,
                    duty.working.flow.value,
                );
                add(
                    format!("blower_pressure_{name}"),
                    format!("Blower pressure {label}"),
                    Q::Pressure,
                    duty.working.pressure.value,
                );
                add(
                    format!("blower_power_{name}"),
                    format!("Blower electric power {label}"),
                    Q::Power,
                    duty.power.electric.value,
                );
                if let Some(speed) = duty.speed_needed {
                    add(
                        format!("blower_speed_{name}"),
                        format!("Speed needed {label}"),
                        Q::Share,
                        speed.value,
                    );
                }
                if let Some(margin) = duty.working.stall_margin {
                    add(
                        format!("stall_margin_{name}"),
                        format!("Distance from stall {label}"),
                        Q::Share,
                        margin,
                    );
                }
            }
        }
        results
    }
}

/// Puts a design through the questions of this chapter.
pub(super) fn examine(design: &Design, heart: &Heart) -> (Breath, Vec<Finding>) {
    let breath = compute(design, heart);
    let findings = questions::ask(design, &breath);
    (breath, findings)
}

fn compute(design: &Design, heart: &Heart) -> Breath {
    let supply = &heart.at.full.supply;
    let gas = Gas {
        molar_mass: molar_mass(&supply.gas),
        viscosity_per_air: viscosity_per_air(&supply.gas),
    };
    let chain = PressureChain::new(&chain::inputs(design, supply, gas));
    let full = supply.gas_flow;
    let duty = |gas_flow, filter, end| Duty {
        gas_flow,
        filter,
        end,
        stages: chain.stages(gas_flow, filter, end),
        drop: chain.drop(gas_flow, filter, end),
    };
    let startup = duty(
        full * design.operation.startup_share,
        Filter::Clean,
        End::Flare,
    );
    let usual = duty(heart.at.usual.supply.gas_flow, Filter::Clean, End::Engine);
    let full_clean = duty(full, Filter::Clean, End::Engine);
    let full_dirty = duty(full, Filter::Dirty, End::Engine);

    let pressure = surroundings(design).pressure;
    let temperature = design.blower.gas_temperature;
    let expansion = temperature.value / 273.15 * STANDARD_PRESSURE / pressure.value;
    let density = gas.density(temperature, pressure);
    let run = |curve: &BlowerCurve, duty: &Duty, speed_share| {
        let running = Running {
            speed_share,
            density,
        };
        let flow_needed = duty.gas_flow * expansion;
        let working = curve.working_point(&running, |flow| {
            chain.drop(flow / expansion, duty.filter, duty.end)
        });
        BlowerDuty {
            running,
            flow_needed,
            available: curve.pressure(flow_needed, &running),
            working,
            gas_flow: working.flow / expansion,
            speed_needed: curve.speed_needed(density, flow_needed, duty.drop),
            power: blower_power(
                working.flow,
                working.pressure,
                design.blower.efficiency,
                design.blower.motor_efficiency,
            ),
        }
    };
    let points = design.blower_curve.iter().map(|point| BlowerPoint {
        flow: point.flow,
        pressure: point.pressure,
    });
    let blower = BlowerCurve::new(points).map(|curve| BlowerReview {
        startup: run(&curve, &startup, design.blower.startup_speed_share),
        full_clean: run(&curve, &full_clean, design.blower.speed_share),
        full_dirty: run(&curve, &full_dirty, design.blower.speed_share),
        curve,
    });

    let helps = design.blower.assists;
    let help = blower
        .as_ref()
        .ok()
        .filter(|_| helps)
        .and_then(|blower| blower.full_dirty.available)
        .map_or(0.0, |pressure| pressure.value);
    let pressure_side = pressure_side(design.blower.place, &startup);
    Breath {
        gas,
        suction_side: startup.drop - pressure_side,
        pressure_side,
        engine_vacuum: Pressure::new::<pascal>((full_dirty.drop.value - help).max(0.0)),
        pipe_velocity: chain.pipe_velocity(full, &gas),
        chain,
        startup,
        usual,
        full_clean,
        full_dirty,
        blower,
        expansion,
    }
}

/// What the stages after the blower take while lighting: there gas leaks out, before the blower air leaks in.
fn pressure_side(place: BlowerPlace, startup: &Duty) -> Pressure {
    startup
        .stages
        .iter()
        .filter(|stage| match stage.kind {
            StageKind::Flare => true,
            StageKind::CleanFilter | StageKind::DirtyFilter => place != BlowerPlace::Clean,
            // The pipes are one run; they count to the side where most of them lie.
            StageKind::Cooler | StageKind::Pipes => place == BlowerPlace::Hot,
            StageKind::Nozzles | StageKind::Wood | StageKind::Char => false,
        })
        .map(|stage| stage.drop)
        .sum()
}
