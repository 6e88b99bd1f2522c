//! Losses that were measured or read from a sheet, and stages known by nothing else.

use super::gas_state::GasState;
use super::stage::{Circumstances, Detail, Passage, StageError, StageOutcome};
use crate::physics::error::within;
use crate::sizing::pressure_chain::Filter as Condition;
use uom::si::f64::{Pressure, ThermodynamicTemperature, VolumeRate};
use uom::si::pressure::pascal;

/// A loss that is known at one flow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EnteredLoss {
    /// Loss at that flow, 0 to 50 kPa.
    pub at_flow: Pressure,
    /// The flow, dry gas counted at 0 °C and 101.325 kPa: 1e-6 to 10 m³/s.
    pub flow: VolumeRate,
    /// It grows in step with the flow, as in cloth and fine beds; if not, with the square of the flow.
    pub linear: bool,
}

impl EnteredLoss {
    /// The loss at another flow.
    ///
    /// # Errors
    /// [`StageError`] for a number out of range.
    ///
    /// ```
    /// use hearthplan::sizing::train::EnteredLoss;
    /// use uom::si::{f64::*, pressure::pascal, volume_rate::cubic_meter_per_hour};
    /// let flow = |value| VolumeRate::new::<cubic_meter_per_hour>(value);
    /// let loss = EnteredLoss { at_flow: Pressure::new::<pascal>(400.0), flow: flow(30.0), linear: false };
    /// assert!((loss.at(flow(15.0))?.value - 100.0).abs() < 1e-9);
    /// # Ok::<(), hearthplan::sizing::train::StageError>(())
    /// ```
    pub fn at(&self, flow: VolumeRate) -> Result<Pressure, StageError> {
        let loss = within("measured loss", "Pa", self.at_flow.value, 0.0, 5e4)?;
        let full = within(
            "flow of the measured loss",
            "Nm³/s",
            self.flow.value,
            1e-6,
            10.0,
        )?;
        let share = flow.value / full;
        let grown = if self.linear { share } else { share * share };
        Ok(Pressure::new::<pascal>(loss * grown))
    }
}

/// Share of the dust that a measured stage catches if it clogs (our own estimate).
const CAUGHT: f64 = 0.95;

/// A stage of which loss and outlet temperature were measured. One that clogs is a filter: it catches dust and tar mist.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    /// Loss just cleaned.
    pub clean: EnteredLoss,
    /// Loss when it is due.
    pub dirty: EnteredLoss,
    /// Temperature of the gas behind it; gas that comes in colder stays as it is.
    pub leaves_at: ThermodynamicTemperature,
}

impl Measured {
    pub(super) fn pass(
        &self,
        gas: &GasState,
        circumstances: &Circumstances,
    ) -> Result<StageOutcome, StageError> {
        let loss = match circumstances.filter {
            Condition::Clean => self.clean,
            Condition::Dirty => self.dirty,
        };
        let pressure = gas.pressure - loss.at(gas.dry_flow)?;
        let temperature = gas.temperature.value.min(self.leaves_at.value);
        let mut out = gas.settled(temperature, pressure.value)?;
        if self.dirty.at_flow > self.clean.at_flow {
            out.dust = gas.dust.less(|_| CAUGHT);
            out.tar = out.tar.filtered(out.temperature.value);
        }
        Passage {
            out,
            velocity: 0.0,
            density: gas.properties()?.density,
            detail: Detail::Measured,
            notes: Vec::new(),
        }
        .outcome(gas)
    }
}
