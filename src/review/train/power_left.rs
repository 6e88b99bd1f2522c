//! The power that is left once suction, warm gas, the steam in it and air that burns in it have taken theirs.

use super::TrainReview;
use crate::design::Design;
use crate::sizing::air_leak::Burned;
use uom::si::f64::{Power, Pressure, Ratio, ThermodynamicTemperature};
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

/// What the train leaves of the engine's power at full load with dirty filters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PowerLeft {
    /// Shaft power with gas that comes by itself and is no warmer than the mixture entered.
    pub whole: Power,
    /// Shaft power left.
    pub left: Power,
    /// What a generator makes of it; the wiring to the plug left out.
    pub electric: Power,
    /// Pressure below the air outside that the engine must make.
    pub suction: Pressure,
    /// Gas at the engine.
    pub gas_temperature: ThermodynamicTemperature,
    /// Share of the gas in the mixture.
    pub gas_share: Ratio,
    /// The mixture with gas this warm.
    pub mixture: ThermodynamicTemperature,
    /// Share of the power that suction leaves.
    pub by_suction: Ratio,
    /// Share of the power that warm gas leaves.
    pub by_warmth: Ratio,
    /// Share of the power that the steam in the gas leaves: it takes room in the cylinders.
    pub by_steam: Ratio,
    /// Share of the power that air leaves which leaks in and burns at the outlet; all of it where it does not burn.
    pub by_leak: Ratio,
}

/// None for a test without engine, or where hearth, engine or train cannot be worked out.
pub(super) fn power_left(design: &Design, train: &TrainReview) -> Option<PowerLeft> {
    let run = train.on_gas.as_ref()?;
    let gas = train.full_dirty.as_ref().ok()?.points.last()?;
    let air = train.full_load.circumstances.surroundings.pressure.value;
    let suction = (air - gas.pressure.value).max(0.0);
    let intake = design.engine.intake_temperature.value;
    let gas_share = run.gas_rate / (run.gas_rate + run.air_rate);
    let mixture = intake + gas_share.value * (gas.temperature.value - intake).max(0.0);
    let by_suction = Ratio::new::<ratio>(1.0 - suction / air);
    let by_warmth = Ratio::new::<ratio>(intake / mixture);
    let steam = gas_share.value * gas.steam_per_dry();
    let by_steam = Ratio::new::<ratio>(1.0 / (1.0 + steam));
    let by_leak =
        (train.at_full.burned.as_ref()).map_or(Ratio::new::<ratio>(1.0), Burned::power_kept);
    let left = run.shaft_power * by_suction * by_warmth * by_steam * by_leak;
    Some(PowerLeft {
        whole: run.shaft_power,
        left,
        electric: left * design.engine.generator_efficiency,
        suction: Pressure::new::<pascal>(suction),
        gas_temperature: gas.temperature,
        gas_share,
        mixture: ThermodynamicTemperature::new::<kelvin>(mixture),
        by_suction,
        by_warmth,
        by_steam,
        by_leak,
    })
}
