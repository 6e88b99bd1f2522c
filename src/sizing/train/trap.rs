//! How much water does a condensate trap take out, and when must it be drained?

use super::gas_state::GasState;
use super::stage::{Circumstances, Detail, Note, Passage, StageError, StageOutcome};
use super::vessel_wall::wall_heat;
use crate::physics::error::within;
use crate::sizing::condensate::drain_interval;
use uom::si::f64::{Length, Ratio, ThermalConductance, Time, Volume};

/// A vessel in which drops fall out of the gas.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trap {
    /// Bore of its inlet, 5 mm to 1 m.
    pub bore: Length,
    /// Loss coefficient on the velocity in the inlet, 0 to 100; 1.5 for a turn in a wide vessel (common practice, no
    /// source).
    pub loss_coefficient: f64,
    /// Share of the drops it catches, 0 to 1.
    pub separation: Ratio,
    /// Water it holds until it must be drained, 0 to 1 m³.
    pub capacity: Volume,
    /// Heat lost through its wall, 0 to 1000 W/K.
    pub wall_conductance: ThermalConductance,
}

/// What a trap does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrapResult {
    /// Time until it is full; none if nothing runs into it.
    pub drain_interval: Option<Time>,
}

impl Trap {
    pub(super) fn pass(
        &self,
        gas: &GasState,
        circumstances: &Circumstances,
    ) -> Result<StageOutcome, StageError> {
        let bore = within("bore of the trap's inlet", "m", self.bore.value, 0.005, 1.0)?;
        let loss = within(
            "loss coefficient of the trap",
            "",
            self.loss_coefficient,
            0.0,
            100.0,
        )?;
        let separation = within("share of drops caught", "", self.separation.value, 0.0, 1.0)?;
        within(
            "water held by the trap",
            "m³",
            self.capacity.value,
            0.0,
            1.0,
        )?;
        let conductance = within(
            "heat lost through the trap's wall",
            "W/K",
            self.wall_conductance.value,
            0.0,
            1000.0,
        )?;
        let density = gas.properties()?.density;
        let velocity = gas.velocity_in(bore);
        let pressure = gas.pressure.value - loss * 0.5 * density * velocity * velocity;
        let heat = wall_heat(
            gas,
            conductance,
            circumstances.surroundings.temperature.value,
        )?;
        let (wet, frost) = gas.after_heat(heat, pressure)?;
        let removed = wet.liquid * separation;
        Passage {
            out: wet,
            velocity,
            density,
            detail: Detail::Trap(TrapResult {
                drain_interval: drain_interval(self.capacity, removed),
            }),
            notes: frost.then_some(Note::Frost).into_iter().collect(),
        }
        .outcome(gas)?
        .drained(separation)
    }
}
