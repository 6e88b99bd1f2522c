//! Hearth and shell solved together: what leaves through the wall decides how hot the wall is.

use super::error::GasError;
use super::feed::Feed;
use super::radial::RadialProfile;
use super::{GasSolution, Gasifier, HeatLoss, Load, Near, oxidation, solve_feed};
use crate::physics::secant::{NoCrossing, Search, crossing};
use std::fmt::Display;
use uom::si::f64::{
    HeatFluxDensity, Length, MassRate, Power, ThermalConductivity, ThermodynamicTemperature,
    VolumeRate,
};
use uom::si::thermodynamic_temperature::kelvin;

/// The round hearth inside its wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HearthWall {
    /// Inside radius at the nozzle plane, 5 mm to 2 m.
    pub radius: Length,
    /// Effective conductivity of glowing char, usual 0.8 to 3, default 1.5 W/(m·K) (from memory, uncertain).
    pub conductivity: ThermalConductivity,
}

/// What the shell takes at one wall temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShellLoss {
    /// Heat lost at the nozzle plane and above.
    pub at_or_above_nozzle: Power,
    /// Heat lost below the nozzle plane.
    pub below_nozzle: Power,
    /// Heat flux through the inside of the hearth wall at the nozzle plane.
    pub wall_flux: HeatFluxDensity,
}

/// Hearth, gas and shell in agreement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HearthSolution {
    /// Gas, air and zone temperatures.
    pub gas: GasSolution,
    /// Temperature across the hearth; its core is no hotter than any fire gets.
    pub profile: RadialProfile,
    /// What the shell takes.
    pub shell: ShellLoss,
    /// Fuel as fired.
    pub fuel_rate: MassRate,
    /// Dry gas at normal conditions.
    pub gas_rate: VolumeRate,
    /// Air at normal conditions.
    pub air_rate: VolumeRate,
    /// Higher heating value of the fuel burned per time; loss shares count from it.
    pub fuel_power: Power,
    /// How often the shell was asked.
    pub shell_calls: usize,
    /// Where the balances of the gas were closed.
    pub(crate) closed: Near,
}

/// Agreement of the wall temperature, K.
const AGREEMENT: f64 = 0.01;
const COLDEST_WALL: f64 = 250.0;
const HOTTEST_WALL: f64 = 3300.0;
/// Char burns hotter than this in air of any pressure, K: up to here no limit need be worked out.
const SURELY_REACHED: f64 = 2200.0;
/// Where the search for the wall's temperature begins if nothing better is known, K.
pub(crate) const USUAL_WALL: f64 = 1380.0;

/// Finds the wall temperature at which the hearth gives what the shell takes.
///
/// `shell` is asked for its heat at a wall temperature (the inside face of the hearth wall). A wall that takes
/// more heat makes the hearth burn more wood for the same gas; that is in the answer. Agreement to 0.01 K,
/// usually after three to five questions to the shell.
///
/// # Errors
/// [`GasError::NoCommonWall`] or the gas calculation's own reason if the hearth cannot feed this shell at this
/// load; [`GasError::Shell`] if the shell calculation fails.
///
/// ```
/// use hearthplan::sizing::fuel::PRESETS;
/// use hearthplan::sizing::gas::{solve_with_shell, Gasifier, HearthWall, Load, ShellLoss};
/// use std::convert::Infallible;
/// use uom::si::f64::*;
/// use uom::si::{heat_flux_density::watt_per_square_meter, length::millimeter, power::watt};
/// use uom::si::{thermal_conductivity::watt_per_meter_kelvin, thermodynamic_temperature::degree_celsius};
/// use uom::si::volume_rate::cubic_meter_per_hour;
///
/// let wall = HearthWall {
///     radius: Length::new::<millimeter>(60.0),
///     conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(1.5),
/// };
/// let load = Load::Gas(VolumeRate::new::<cubic_meter_per_hour>(30.0));
/// let found = solve_with_shell(&Gasifier::usual(PRESETS[0].fuel()), load, wall, |inside| {
///     // A shell of 2 W/(m²·K) with 0.2 m² at the nozzles and as much below.
///     let flux = 2.0 * (inside.get::<degree_celsius>() - 20.0);
///     Ok::<_, Infallible>(ShellLoss {
///         at_or_above_nozzle: Power::new::<watt>(0.2 * flux),
///         below_nozzle: Power::new::<watt>(0.2 * flux),
///         wall_flux: HeatFluxDensity::new::<watt_per_square_meter>(flux),
///     })
/// })
/// .unwrap();
/// assert!(found.profile.wall < found.profile.core);
/// ```
pub fn solve_with_shell<E: Display>(
    gasifier: &Gasifier,
    load: Load,
    wall: HearthWall,
    shell: impl FnMut(ThermodynamicTemperature) -> Result<ShellLoss, E>,
) -> Result<HearthSolution, GasError> {
    solve_near(gasifier, load, wall, (USUAL_WALL, Near::default()), shell)
}

/// As [`solve_with_shell`], from a wall temperature in K and closed balances that are likely to be near.
pub(crate) fn solve_near<E: Display>(
    gasifier: &Gasifier,
    load: Load,
    wall: HearthWall,
    (near, closed): (f64, Near),
    mut shell: impl FnMut(ThermodynamicTemperature) -> Result<ShellLoss, E>,
) -> Result<HearthSolution, GasError> {
    let feed = Feed::new(gasifier)?;
    // The walls tried last, with where the balances were closed for them.
    let mut tried: [Option<(f64, Near)>; 2] = [None; 2];
    let mut shell_calls = 0;
    let mut refused = None;
    let mut agreed = None;
    let search = Search {
        low: COLDEST_WALL,
        high: HOTTEST_WALL,
        first: near,
        expected_slope: 1.2,
        value_tolerance: AGREEMENT,
        step_tolerance: 1e-6,
    };
    let found = crossing(search, |inside| {
        shell_calls += 1;
        let taken = shell(ThermodynamicTemperature::new::<kelvin>(inside)).map_err(|error| {
            GasError::Shell {
                reason: error.to_string(),
            }
        })?;
        let loss = HeatLoss::Power {
            at_or_above_nozzle: taken.at_or_above_nozzle,
            below_nozzle: taken.below_nozzle,
            load,
        };
        let mut here = match &tried {
            [Some((first, before)), Some((then, last))] => {
                let share = (inside - then) / (then - first);
                last.drawn_out(before, share.clamp(-1.0, 1.0))
            }
            [_, Some((_, last))] => *last,
            _ => closed,
        };
        match solve_feed(&feed, &gasifier.air, &loss, &mut here) {
            Ok(gas) => {
                tried = [tried[1], Some((inside, here))];
                let profile = RadialProfile::from_mean(
                    gas.hearth_temperature,
                    taken.wall_flux,
                    wall.radius,
                    wall.conductivity,
                )?;
                agreed = Some((gas, profile, taken, here));
                Ok(inside - profile.wall.get::<kelvin>())
            }
            // The hearth cannot feed a wall this hot; a colder one takes less.
            Err(
                error @ (GasError::TooMuchHeatLost { .. }
                | GasError::ExitTemperature { side: "below", .. }
                | GasError::OxidationTemperature { side: "below", .. }),
            ) => {
                refused = Some(error);
                Ok(f64::INFINITY)
            }
            Err(other) => Err(other),
        }
    });
    match (found, agreed, refused) {
        (Ok(_), Some((gas, profile, shell, closed)), _) => {
            let profile = if profile.core.get::<kelvin>() > SURELY_REACHED {
                let hottest = oxidation::hottest(&feed, gas.inventory.oxygen_supplied)?;
                profile.held_at(ThermodynamicTemperature::new::<kelvin>(hottest))
            } else {
                profile
            };
            Ok(HearthSolution {
                shell_calls,
                closed,
                ..at_load(gas, profile, shell, load)
            })
        }
        (Err(NoCrossing::Function(error)), _, _) => Err(error),
        (_, None, Some(error)) => Err(error),
        _ => Err(GasError::NoCommonWall),
    }
}

fn at_load(
    gas: GasSolution,
    profile: RadialProfile,
    shell: ShellLoss,
    load: Load,
) -> HearthSolution {
    let fuel_rate: MassRate = match load {
        Load::Fuel(rate) => rate,
        Load::Gas(rate) => rate / gas.gas_per_fuel,
        Load::Mixture(rate) => rate / (gas.gas_per_fuel * (1.0 + gas.stoichiometric_air)),
    };
    HearthSolution {
        gas,
        profile,
        shell,
        fuel_rate,
        gas_rate: fuel_rate * gas.gas_per_fuel,
        air_rate: fuel_rate * gas.air_volume_per_fuel,
        fuel_power: fuel_rate * gas.fuel_energy,
        shell_calls: 0,
        closed: Near::default(),
    }
}
