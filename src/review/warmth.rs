//! Heat through the shell, surfaces and warm-up.

mod layers;
pub(super) mod levers;
mod loss;
mod steps;
mod touch;
mod warm_up;

use super::finding::{Finding, NamedResult};
use super::heart::{FULL_UNTOLD, Heart, as_far_as_known, untold};
use crate::design::Design;
use crate::design::phrase::Measure;
use crate::design::quantity::Quantity as Q;
use crate::sizing;
use crate::sizing::shell::{self, ShellError, ZoneHeat, ZoneShell};
use crate::sizing::warm_up::{LightingFire, WarmUp};
use crate::sizing::zone::Zone;
use uom::si::f64::{Power, Ratio, ThermodynamicTemperature, Time};

/// A wall hotter by less at another load than at full load is as hot, K. Our own mark.
const AS_HOT: f64 = 1.0;

/// Dust of the usual insulation harms the lungs.
pub const FIBRE_CAUTION: &str = "Insulation sheds dust that harms the lungs, ceramic fibre and rock wool most of all. Wear a fitting fine-dust mask, gloves and long sleeves, damp it before cutting, and follow your local rules.";
/// Hot metal does not look hot.
pub(super) const BURN_CAUTION: &str = "Hot steel looks like cold steel. Keep children and dry leaves away, wear gloves, and let it cool before you open it.";

/// Heat through the shell, surfaces and warm-up.
#[derive(Debug, Clone)]
pub struct Warmth {
    /// Each zone in the order of [`Zone::ALL`], in the wind of the place and at full load, or why it could not be computed.
    pub zones: [Result<ZoneHeat, ShellError>; 4],
    /// Each zone as its outside is hottest, in the same order.
    pub hottest: [Hottest; 4],
    /// Heat that leaves through all zones at full load; none when one of them could not be computed, or no gas is made.
    pub loss: Option<Power>,
    /// The same at the lowest load, where the hearth's wall has another temperature.
    pub loss_idle: Option<Power>,
    /// Power in the wood burnt at full load.
    pub fuel_power_full: Power,
    /// Power in the wood burnt at the lowest load.
    pub fuel_power_idle: Power,
    /// Share of the hearth wall's loss that leaves from the burning zone and above it.
    pub share_of_burning_zone: Ratio,
    /// Warming up of the hearth wall, or why it could not be computed.
    pub warm_up: Result<WarmUp, ShellError>,
}

impl Warmth {
    pub(super) fn of(design: &Design, heart: &Heart) -> Self {
        let [hearth, body, lid, bottom] = Zone::ALL.map(|zone| zone_heats(design, heart, zone));
        let zones = [hearth.0, body.0, lid.0, bottom.0];
        let loss = zones
            .iter()
            .map(|zone| zone.as_ref().ok().map(|heat| heat.loss))
            .sum::<Option<Power>>()
            .filter(|_| heart.at.full.makes_gas());
        Self {
            zones,
            hottest: [hearth.1, body.1, lid.1, bottom.1],
            loss,
            loss_idle: (heart.at.idle.supply.loss).filter(|_| heart.at.idle.makes_gas()),
            fuel_power_full: heart.at.full.supply.fuel_power,
            fuel_power_idle: heart.at.idle.supply.fuel_power,
            share_of_burning_zone: shell::share_of_burning_zone(design),
            warm_up: sizing::warm_up::warm_up(
                design,
                inside(design, heart, Zone::Hearth),
                LightingFire {
                    wood_heat: heart.wood_heat(),
                    power: heart.at.full.supply.fuel_power * design.operation.startup_share,
                    spare: heart.at.full.supply.fuel_power * design.limits.loss_share_watch,
                },
            ),
        }
    }

    /// The heat of one zone, if it could be computed.
    pub fn zone(&self, zone: Zone) -> Option<&ZoneHeat> {
        self.zones.iter().flatten().find(|heat| heat.zone == zone)
    }

    /// The heat of one zone, or why it could not be computed.
    pub(super) fn wall(&self, zone: Zone) -> &Result<ZoneHeat, ShellError> {
        of_zone(&self.zones, zone)
    }

    /// A zone as its outside is hottest.
    pub fn hottest(&self, zone: Zone) -> &Hottest {
        of_zone(&self.hottest, zone)
    }

    /// The outside of a zone at its hottest, if it could be computed.
    pub fn hottest_outside(&self, zone: Zone) -> Option<ThermodynamicTemperature> {
        let heat = self.hottest(zone).heat.as_ref().ok()?;
        Some(heat.surface_temperature)
    }

    /// How long it takes from lighting until the hearth is hot; none where that, or the fire, is not known.
    pub fn time_to_light(&self) -> Option<Time> {
        let warm = self.warm_up.as_ref().ok()?;
        self.loss.map(|_| warm.time)
    }

    /// Why a zone, the first of several, could not be computed.
    pub fn trouble(&self) -> Option<&ShellError> {
        self.zones.iter().find_map(|zone| zone.as_ref().err())
    }

    /// The loss as a share of the power in the wood burnt at full load.
    pub fn loss_share_full(&self) -> Option<Ratio> {
        self.loss.map(|loss| loss / self.fuel_power_full)
    }

    /// The loss as a share of the power in the wood burnt at the lowest load.
    pub fn loss_share_idle(&self) -> Option<Ratio> {
        self.loss_idle.map(|loss| loss / self.fuel_power_idle)
    }

    /// The computed numbers with their stable names.
    pub fn results(&self) -> Vec<NamedResult> {
        let mut results = Vec::new();
        let mut say = |name: &str, label: &str, quantity, si| {
            results.push(NamedResult::new(
                format!("warmth.{name}"),
                label,
                Measure::new(quantity, si),
            ));
        };
        // Without an answer the wood is that of a hearth that loses nothing.
        if self.loss.is_some() {
            say(
                "fuel_power_full",
                "Heat in the wood at full load",
                Q::Power,
                self.fuel_power_full.value,
            );
        }
        if self.loss_idle.is_some() {
            say(
                "fuel_power_idle",
                "Heat in the wood at lowest load",
                Q::Power,
                self.fuel_power_idle.value,
            );
        }
        say(
            "share_of_burning_zone",
            "Share of the hearth wall's loss in the burning zone and above it",
            Q::Share,
            self.share_of_burning_zone.value,
        );
        if let Some(loss) = self.loss {
            say(
                "loss",
                "Heat loss of the shell at full load",
                Q::Power,
                loss.value,
            );
        }
        if let Some(full) = self.loss_share_full() {
            say(
                "loss_share_full",
                "Heat loss at full load",
                Q::Share,
                full.value,
            );
        }
        if let Some(idle) = self.loss_share_idle() {
            say(
                "loss_share_idle",
                "Heat loss at lowest load",
                Q::Share,
                idle.value,
            );
        }
        if let Ok(warm) = &self.warm_up {
            say(
                "warm_up_time",
                "Time to warm up at the lighting flow",
                Q::Time,
                warm.time.value,
            );
            say(
                "warm_up_wall",
                "Time until the hearth wall spares the fire",
                Q::Time,
                warm.through_wall.value,
            );
            say(
                "warm_up_energy",
                "Heat to warm up",
                Q::HeatEnergy,
                warm.energy.value,
            );
            say(
                "warm_up_wood",
                "Wood to warm up, at least",
                Q::Mass,
                warm.wood.value,
            );
        }
        for heat in self.zones.iter().flatten() {
            let (name, zone) = (heat.zone.name(), heat.zone.label());
            say(
                &format!("loss_{name}"),
                &format!("{zone}, heat loss"),
                Q::Power,
                heat.loss.value,
            );
            say(
                &format!("loss_share_{name}"),
                &format!("{zone}, share of the wood's heat at full load"),
                Q::Share,
                (heat.loss / self.fuel_power_full).value,
            );
            say(
                &format!("flux_{name}"),
                &format!("{zone}, heat flux inside"),
                Q::HeatFlux,
                heat.inner_flux.value,
            );
            if let Ok(hottest) = &self.hottest(heat.zone).heat {
                say(
                    &format!("surface_{name}"),
                    &format!("{zone}, outside at its hottest, in still air"),
                    Q::Temperature,
                    hottest.surface_temperature.value,
                );
            }
            for (index, layer) in heat.layers.iter().enumerate() {
                let number = index + 1;
                say(
                    &format!("layer_{name}_{number}"),
                    &format!("{zone}, hot side of layer {number} at full load"),
                    Q::Temperature,
                    layer.hot.value,
                );
            }
        }
        results
    }
}

/// Temperature of the hot face of a zone: entered, or for the hearth wall as the fire leaves it at full load.
fn inside(design: &Design, heart: &Heart, zone: Zone) -> ThermodynamicTemperature {
    zone.entered_temperature(design)
        .unwrap_or(heart.at.full.supply.wall_temperature)
}

/// A zone as its outside is hottest: in still air, since no wind blows on the lee side or on a calm day, and at the load
/// at which its wall is hottest.
#[derive(Debug, Clone)]
pub struct Hottest {
    /// Its heat there, or why it could not be computed.
    pub heat: Result<ZoneHeat, ShellError>,
    /// That load in words that follow others; empty for full load.
    pub at: String,
}

/// One zone in the wind of the place at full load, and as its outside is hottest: only the hearth wall has another load for
/// that.
fn zone_heats(
    design: &Design,
    heart: &Heart,
    zone: Zone,
) -> (Result<ZoneHeat, ShellError>, Hottest) {
    let shell = ZoneShell::new(design, zone);
    let at_full_load = inside(design, heart, zone);
    let hotter = (zone == Zone::Hearth).then(|| hotter_wall(design, heart));
    let (at_hottest, at) = hotter.flatten().unwrap_or((at_full_load, String::new()));
    let in_wind = match &shell {
        Ok(shell) => shell.heat(at_full_load),
        Err(error) => Err(error.clone()),
    };
    let heat = shell.and_then(|shell| shell.in_still_air().heat(at_hottest));
    (in_wind, Hottest { heat, at })
}

/// The hearth wall at the load at which it is hottest, inside; none where that is full load.
fn hotter_wall(design: &Design, heart: &Heart) -> Option<(ThermodynamicTemperature, String)> {
    let full = heart.at.full.supply.wall_temperature;
    let (at, words) = (heart.walls())
        .filter(|(at, _)| at.supply.wall_temperature.value > full.value + AS_HOT)
        .max_by(|(one, _), (other, _)| one.cooler_wall(other))?;
    let by_fire = Zone::Hearth.entered_temperature(design).is_none();
    by_fire.then(|| (at.supply.wall_temperature, format!(" {words}")))
}

/// What belongs to a zone, of what stands in the order of [`Zone::ALL`].
fn of_zone<T>([hearth, body, lid, bottom]: &[T; 4], zone: Zone) -> &T {
    match zone {
        Zone::Hearth => hearth,
        Zone::Body => body,
        Zone::Lid => lid,
        Zone::Bottom => bottom,
    }
}

/// Puts a design through the questions of this chapter.
pub(super) fn examine(design: &Design, heart: &Heart) -> (Warmth, Vec<Finding>) {
    let warmth = Warmth::of(design, heart);
    let mut findings = Vec::with_capacity(11);
    findings.extend(loss::findings(design, heart, &warmth));
    // The heat of the wall follows from the fire.
    let with_fire = |finding| match heart.at.full.makes_gas() {
        true => finding,
        false => untold(finding, FULL_UNTOLD),
    };
    let at_every_load = |zone, finding| match zone {
        Zone::Hearth => as_far_as_known(finding, heart.untold()),
        _ => finding,
    };
    for (zone, hottest) in Zone::ALL.into_iter().zip(&warmth.hottest) {
        let finding = at_every_load(zone, touch::finding(design, zone, hottest));
        findings.push(match zone {
            Zone::Hearth => with_fire(finding),
            _ => finding,
        });
    }
    for (zone, Hottest { heat, at, .. }) in Zone::ALL.into_iter().zip(&warmth.hottest) {
        findings.push(at_every_load(zone, layers::finding(design, zone, heat, at)));
    }
    findings.push(with_fire(warm_up::finding(design, heart, &warmth)));
    (warmth, findings)
}
