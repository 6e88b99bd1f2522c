//! Power, wood use and filling.

mod entries;
mod hopper;
mod other_size;
mod questions;

pub use other_size::OtherSize;
pub use questions::MAINS;
pub(super) use questions::{GREY_POWER, caution_of_power, other_sizes};

use super::Depth;
use super::finding::{Finding, NamedResult};
use super::heart::{self, Heart};
use crate::design::Design;
use crate::design::inputs::{FlowSource, HearthKind};
use crate::design::phrase::Measure;
use crate::design::quantity::{Quantity as Q, System};
use crate::sizing::engine::{EngineError, EngineRun};
use crate::sizing::fuel::bulk_density_of;
use crate::sizing::heart::{AtLoads, HeartAt};
use crate::sizing::hearth_load::{gas_carried, size_throat, tube_for_engine};
use crate::sizing::hopper::room;
use other_size::OtherSizes;
use std::f64::consts::PI;
use uom::si::f64::{Length, Mass, Time, Velocity, Volume, VolumeRate};
use uom::si::velocity::meter_per_second;
use uom::si::volume::cubic_meter;

/// The engine on this hearth's gas.
#[derive(Debug, Clone)]
pub struct OnGas {
    /// What it draws and gives at the three loads.
    pub runs: AtLoads<EngineRun>,
    /// Narrowest throat for this engine, at the most the hearth may be loaded; the straight tube that suits it by the table.
    pub throat_for_engine: Length,
    /// What other engines would do; none in a quick look at the verdicts.
    other_sizes: Option<OtherSizes>,
}

impl OnGas {
    /// The engine that gives the power wanted; none where no size does, and in a quick look at the verdicts.
    pub fn for_power(&self) -> Option<OtherSize> {
        self.other_sizes.as_ref()?.for_power()
    }

    /// The engine that draws the most gas the hearth may make, or the one that the table feeds with a straight tube: what
    /// engine suits this hearth. None where no size does, and in a quick look at the verdicts.
    pub fn for_hearth(&self) -> Option<OtherSize> {
        self.other_sizes.as_ref()?.for_hearth()
    }

    /// The least engine that gives the power wanted, so that whoever enters what is told has it.
    pub fn told_for_power(&self, system: System) -> Option<String> {
        let least = self.for_power()?.displacement.value;
        Some(Measure::new(Q::Displacement, least).show_at_least(system))
    }

    /// The largest engine that suits this hearth, so that whoever enters what is told does not overrun it.
    pub fn told_for_hearth(&self, system: System) -> Option<String> {
        let most = self.for_hearth()?.displacement.value;
        let [_, told] = Q::Displacement.show_range([0.5 * most, most], system);
        Some(told)
    }
}

/// Power, wood use and filling.
#[derive(Debug, Clone)]
pub struct EngineReview {
    /// The engine, or why it cannot be worked out; none when the gas flow is entered for a test without engine.
    pub on_gas: Option<Result<OnGas, EngineError>>,
    /// Wood in one filling.
    pub filling: Mass,
    /// How long it lasts at the usual load.
    pub lasts: Time,
    /// Whether there is gas that burns; where not, the numbers of that load only stand in for an answer.
    pub makes_gas: AtLoads<bool>,
    /// Most gas the hearth may make: by its hearth load, or what the engine draws that the table feeds with a straight
    /// tube; none where that engine gives no answer.
    pub hearth_most: Option<VolumeRate>,
}

impl EngineReview {
    /// The computed numbers with their stable names.
    pub fn results(&self) -> Vec<NamedResult> {
        let result = |name: String, label: String, quantity, si: f64| {
            NamedResult::new(format!("engine.{name}"), label, Measure::new(quantity, si))
        };
        let plain = |name: &str, label: &str, quantity, si| {
            result(name.to_string(), label.to_string(), quantity, si)
        };
        let gas = &self.makes_gas;
        let mut results = vec![plain(
            "filling",
            "Wood in one filling",
            Q::Mass,
            self.filling.value,
        )];
        if gas.usual {
            results.push(plain(
                "lasts",
                "One filling lasts",
                Q::LongTime,
                self.lasts.value,
            ));
        }
        results.extend(self.hearth_most.map(|most| {
            let label = "Most gas the hearth may make";
            plain("hearth_most", label, Q::NormalFlow, most.value)
        }));
        let Some(Ok(on_gas)) = &self.on_gas else {
            return results;
        };
        let runs = &on_gas.runs;
        for (case, when, run, known) in [
            ("full", "at full load", &runs.full, gas.full),
            ("usual", "at the usual load", &runs.usual, gas.usual),
            ("idle", "at the lowest load", &runs.idle, gas.idle),
        ] {
            if !known {
                continue;
            }
            for (name, label, quantity, si) in [
                (
                    "shaft_power",
                    "Shaft power before the train",
                    Q::EnginePower,
                    run.shaft_power.value,
                ),
                (
                    "electric_power",
                    "Electric power before the train",
                    Q::Power,
                    run.electric_power.value,
                ),
                (
                    "petrol_power",
                    "Shaft power on petrol",
                    Q::EnginePower,
                    run.petrol_power.value,
                ),
                (
                    "wood_per_shaft_energy",
                    "Wood per kilowatt-hour at the shaft",
                    Q::MassPerEnergy,
                    run.fuel_per_shaft_kilowatt_hour / 3.6e6,
                ),
                (
                    "wood_per_electric_energy",
                    "Wood per kilowatt-hour of electricity",
                    Q::MassPerEnergy,
                    run.fuel_per_electric_kilowatt_hour / 3.6e6,
                ),
            ] {
                results.push(result(
                    format!("{name}_{case}"),
                    format!("{label} {when}"),
                    quantity,
                    si,
                ));
            }
        }
        if !gas.full {
            return results;
        }
        let sizes = [
            (
                "displacement_for_power",
                "Displacement for the power wanted",
                on_gas.for_power(),
            ),
            (
                "displacement_for_hearth",
                "Displacement that suits this hearth",
                on_gas.for_hearth(),
            ),
        ];
        results.extend(sizes.into_iter().filter_map(|(name, label, size)| {
            let displacement = size?.displacement.value;
            Some(plain(name, label, Q::Displacement, displacement))
        }));
        results.extend([
            plain(
                "power_kept",
                "Share of the petrol power kept on gas",
                Q::Share,
                runs.full.power_kept.value,
            ),
            plain(
                "thin_air",
                "Power over that at sea level and 15 °C (59 °F)",
                Q::Share,
                runs.full.thin_air_factor.value,
            ),
            plain(
                "throat_for_engine",
                "Narrowest bore for this engine",
                Q::Length,
                on_gas.throat_for_engine.value,
            ),
        ]);
        results
    }
}

/// Puts a design through the questions of this chapter.
pub(super) fn examine(
    design: &Design,
    heart: &Heart,
    depth: Depth,
) -> (EngineReview, Vec<Finding>) {
    let review = compute(design, heart, depth);
    let findings = questions::ask(design, heart, &review);
    (review, findings)
}

/// The wood of one filling.
pub(super) fn filling(design: &Design) -> Mass {
    wood_volume(design) * bulk_density_of(design)
}

fn compute(design: &Design, heart: &Heart, depth: Depth) -> EngineReview {
    let most = Velocity::new::<meter_per_second>(design.limits.hearth_load_most);
    let hearth_most = match design.hearth.kind {
        HearthKind::Constricted => Some(gas_carried(design.hearth.throat_diameter, most)),
        HearthKind::Straight => heart
            .load_of_tube(design, design.hearth.tube_diameter)
            .map(|load| heart.at.full.supply.gas_flow * load),
    };
    let filling = filling(design);
    EngineReview {
        on_gas: (design.operation.flow_source == FlowSource::Engine)
            .then(|| on_gas(design, heart, most, depth)),
        filling,
        lasts: filling / heart.at.usual.supply.fuel_rate,
        makes_gas: heart.at.map(HeartAt::makes_gas),
        hearth_most,
    }
}

fn on_gas(
    design: &Design,
    heart: &Heart,
    most: Velocity,
    depth: Depth,
) -> Result<OnGas, EngineError> {
    let at = &heart.at;
    let runs = AtLoads {
        full: heart::run(design, &at.full)?,
        usual: heart::run(design, &at.usual)?,
        idle: heart::run(design, &at.idle)?,
    };
    Ok(OnGas {
        other_sizes: match depth {
            Depth::Whole => Some(OtherSizes::of(design, heart, most, &runs.full)?),
            // No verdict hangs on another size.
            Depth::Verdicts | Depth::ChangedVerdicts => None,
        },
        throat_for_engine: match design.hearth.kind {
            HearthKind::Constricted => size_throat(runs.full.gas_rate, most),
            HearthKind::Straight => tube_for_engine(runs.full.petrol_power),
        },
        runs,
    })
}

/// Room for wood that may burn down before it must be filled again: hopper and its cone, or without a hopper the vessel
/// above the hearth.
fn wood_volume(design: &Design) -> Volume {
    let hopper = &design.hopper;
    if hopper.fitted {
        let room = room(design);
        (room.straight + room.cone) * hopper.fill_share
    } else {
        let body = &design.body_wall;
        let wide = body.inside_diameter.value;
        Volume::new::<cubic_meter>(PI / 4.0 * wide * wide * body.height.value)
    }
}
