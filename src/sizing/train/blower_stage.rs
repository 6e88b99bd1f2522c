//! What must the blower do at the flare, and what does it mean for the gas when the engine draws?

use super::entered_loss::EnteredLoss;
use super::gas_state::GasState;
use super::stage::{Circumstances, Detail, Note, Passage, StageError, StageOutcome};
use crate::physics::error::within;
use crate::sizing::blower::{BlowerCurve, BlowerPower, Running, blower_power};
use crate::sizing::pressure_chain::End;
use uom::si::f64::{Length, MassDensity, Power, Pressure, Ratio, ThermodynamicTemperature};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;

/// What the blower does while the engine draws.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum WithEngine {
    /// It stands still and the gas is drawn through it.
    Stopped,
    /// It helps the engine, at this share of its rated speed, 0.05 to 3.
    Running(Ratio),
}

/// A blower with a branch to the flare.
#[derive(Debug, Clone, PartialEq)]
pub struct BlowerStage {
    /// Pressure against flow at rated speed.
    pub curve: BlowerCurve,
    /// Fastest speed as a share of the rated speed, 0.1 to 3.
    pub fastest: Ratio,
    /// Bore of its ports, 5 mm to 1 m.
    pub bore: Length,
    /// Loss coefficient on the velocity in the ports when gas is drawn through the blower at rest, 0 to 1000.
    pub resting_loss: f64,
    /// Efficiency of the wheel, 0.01 to 1.
    pub efficiency: Ratio,
    /// Efficiency of the motor, 0.01 to 1.
    pub motor_efficiency: Ratio,
    /// Hottest gas it stands.
    pub limit: ThermodynamicTemperature,
    /// What it does while the engine draws.
    pub with_engine: WithEngine,
    /// Loss of the pipe to the flare and of the flare itself.
    pub flare: EnteredLoss,
}

/// What the blower does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BlowerResult {
    /// Pressure it must make.
    pub needed: Pressure,
    /// Pressure it can make at this flow at its fastest; none past the end of its curve.
    pub available: Option<Pressure>,
    /// Speed it runs at, as a share of its rated speed; none if no speed is enough.
    pub speed: Option<Ratio>,
    /// Flow over the flow of highest pressure, less one; none if the curve only falls or the blower rests.
    pub stall_margin: Option<f64>,
    /// Power drawn.
    pub power: BlowerPower,
    /// Pressure lost in the branch to the flare.
    pub flare_loss: Pressure,
    /// Temperature of the gas that comes in.
    pub gas_temperature: ThermodynamicTemperature,
}

/// What the blower adds to the gas, and how fast it must turn for it.
struct Duty {
    /// Pressure it makes, Pa.
    rise: f64,
    /// Pressure lost in the branch to the flare, Pa.
    flare_loss: f64,
    /// Share of the rated speed; none if no speed is enough.
    speed: Option<Ratio>,
    /// Whether it makes less than it should at this flow.
    too_weak: bool,
}

impl BlowerStage {
    pub(super) fn pass(
        &self,
        gas: &GasState,
        circumstances: &Circumstances,
    ) -> Result<StageOutcome, StageError> {
        self.check()?;
        let density = gas.properties()?.density;
        let velocity = gas.velocity_in(self.bore.value);
        let duty = self.duty(gas, circumstances, density)?;
        let rise = Pressure::new::<pascal>(duty.rise);
        let power = blower_power(
            gas.volume_rate(),
            rise,
            self.efficiency,
            self.motor_efficiency,
        );
        let rests = self.rests(circumstances.end);
        let stall_margin = duty.speed.filter(|_| !rests).and_then(|speed| {
            let stall = self.curve.stall_flow(&self.running(speed, density)).value;
            (stall > 0.0).then(|| gas.volume_rate().value / stall - 1.0)
        });
        let outlet = if rests {
            gas.pressure.value - self.resting_loss * 0.5 * density * velocity * velocity
        } else {
            gas.pressure.value + duty.rise
        };
        let mut notes = self.gas_notes(gas);
        if duty.too_weak {
            notes.push(Note::BlowerTooWeak);
        }
        if stall_margin.is_some_and(|margin| margin < 0.0) {
            notes.push(Note::BlowerStalls);
        }
        if outlet > circumstances.surroundings.pressure.value {
            notes.push(Note::UnderPressure);
        }
        let (out, frost) = gas.after_heat(-power.shaft.value, outlet)?;
        let mut outcome = Passage {
            out,
            velocity,
            density,
            detail: Detail::Blower(BlowerResult {
                needed: rise,
                available: self
                    .curve
                    .pressure(gas.volume_rate(), &self.running(self.fastest, density)),
                speed: duty.speed,
                stall_margin,
                power,
                flare_loss: Pressure::new::<pascal>(duty.flare_loss),
                gas_temperature: gas.temperature,
            }),
            notes,
        }
        .outcome(gas)?;
        outcome.work_added = power.shaft;
        // Drops that dry up in gas at freezing are given their heat.
        outcome.heat_rejected = match frost {
            true => outcome.heat_rejected + power.shaft,
            false => Power::default(),
        };
        Ok(outcome)
    }

    fn check(&self) -> Result<(), StageError> {
        for (what, unit, number, least, most) in [
            ("bore of the blower", "m", self.bore.value, 0.005, 1.0),
            (
                "loss of the resting blower",
                "",
                self.resting_loss,
                0.0,
                1000.0,
            ),
            (
                "fastest speed of the blower",
                "",
                self.fastest.value,
                0.1,
                3.0,
            ),
            (
                "efficiency of the blower",
                "",
                self.efficiency.value,
                0.01,
                1.0,
            ),
            (
                "efficiency of the motor",
                "",
                self.motor_efficiency.value,
                0.01,
                1.0,
            ),
            ("limit of the blower", "K", self.limit.value, 250.0, 1500.0),
        ] {
            within(what, unit, number, least, most)?;
        }
        Ok(())
    }

    /// Whether the gas is drawn through it while it stands still.
    fn rests(&self, end: End) -> bool {
        matches!((end, self.with_engine), (End::Engine, WithEngine::Stopped))
    }

    fn duty(
        &self,
        gas: &GasState,
        circumstances: &Circumstances,
        density: f64,
    ) -> Result<Duty, StageError> {
        let at_rest = Duty {
            rise: 0.0,
            flare_loss: 0.0,
            speed: Some(Ratio::default()),
            too_weak: false,
        };
        match (circumstances.end, self.with_engine) {
            (End::Flare, _) => {
                let flare_loss = self.flare.at(gas.dry_flow)?.value;
                let air = circumstances.surroundings.pressure.value;
                let rise = (air + flare_loss - gas.pressure.value).max(0.0);
                let needed = self.curve.speed_needed(
                    MassDensity::new::<kilogram_per_cubic_meter>(density),
                    gas.volume_rate(),
                    Pressure::new::<pascal>(rise),
                );
                let speed = needed.filter(|speed| *speed <= self.fastest);
                Ok(Duty {
                    rise,
                    flare_loss,
                    speed,
                    too_weak: speed.is_none(),
                })
            }
            (End::Engine, WithEngine::Stopped) => Ok(at_rest),
            (End::Engine, WithEngine::Running(speed)) => {
                within("speed of the blower", "", speed.value, 0.05, 3.0)?;
                let running = self.running(speed, density);
                let rise = self.curve.pressure(gas.volume_rate(), &running);
                Ok(Duty {
                    rise: rise.map_or(0.0, |rise| rise.value),
                    speed: Some(speed),
                    too_weak: rise.is_none(),
                    ..at_rest
                })
            }
        }
    }

    fn running(&self, speed: Ratio, density: f64) -> Running {
        Running {
            speed_share: speed,
            density: MassDensity::new::<kilogram_per_cubic_meter>(density),
        }
    }

    fn gas_notes(&self, gas: &GasState) -> Vec<Note> {
        let mut notes = Vec::new();
        if gas.temperature > self.limit {
            notes.push(Note::BlowerHot);
        }
        if gas.tar.mist {
            notes.push(Note::TarMistArrives);
        }
        if gas.liquid.value > 0.0 {
            notes.push(Note::DropsArrive);
        }
        notes
    }
}
