//! What gas the hearth makes: composition, air, heating value and the temperatures of its two zones.
//!
//! Two balances share one fuel and one air. The *exit balance* takes everything: fuel and moisture at 25 °C
//! and air go in, gas in equilibrium, char drawn off and all of the shell's loss come out. The *oxidation
//! balance* takes the nozzle plane: volatiles and moisture burn with all of the air, char is heated along, and
//! only the loss at or above the nozzle plane is taken off.
//!
//! Air: either *char-limited* (the exit temperature is given, the air follows; fuel too dry and rich in carbon for that
//! leaves hotter, with the air that takes all its char) or *air held* (the air is given, the exit temperature follows).
//! Ash and sulphur take no part.
//!
//! Sources: equilibrium with NASA TM-4513 polynomials; heating values of gases from ISO 6976 at 0 °C (from
//! memory). "Normal" volumes are at 0 °C and 101.325 kPa, dry.

mod carriage;
mod closure;
mod error;
mod feed;
mod heating;
mod oxidation;
mod radial;
mod with_shell;

pub use carriage::{molar_mass, viscosity_per_air};
pub use error::GasError;
pub(super) use feed::CHAR_HEAT_CAPACITY;
pub use heating::{
    CARBON_MONOXIDE_HEAT, HYDROGEN_HEAT, METHANE_HEAT, lower_heating_value, stoichiometric_air,
};
pub use radial::RadialProfile;
pub use with_shell::{HearthSolution, HearthWall, ShellLoss, solve_with_shell};
pub(crate) use with_shell::{USUAL_WALL, solve_near};

use super::fuel::Fuel;
use crate::physics::equilibrium::GasAmounts;
use crate::physics::normal_state::MOLAR_VOLUME;
use crate::physics::secant::Crossing;
use crate::physics::species::atomic_mass;
use feed::{Feed, NITROGEN_PER_OXYGEN};
use uom::si::available_energy::joule_per_kilogram;
use uom::si::f64::{
    AvailableEnergy, MassRate, Power, Pressure, Ratio, SpecificVolume, ThermodynamicTemperature,
    VolumeRate,
};
use uom::si::pressure::pascal;
use uom::si::ratio::{percent, ratio};
use uom::si::specific_volume::cubic_meter_per_kilogram;
use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};

/// The char that pyrolysis leaves and the bed holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CharBed {
    /// Char left by pyrolysis, share of dry fuel, 0 to 0.95.
    pub share: Ratio,
    /// Char drawn off at the grate, share of dry fuel, 0 to `share`.
    pub drawn: Ratio,
    /// Carbon in the char, mass share.
    pub carbon: Ratio,
    /// Hydrogen in the char, mass share.
    pub hydrogen: Ratio,
    /// Oxygen in the char, mass share.
    pub oxygen: Ratio,
}

impl Default for CharBed {
    /// 22 % char, 3 % drawn off; 92 % carbon, 2.5 % hydrogen, 5.5 % oxygen (common practice, no source).
    fn default() -> Self {
        let share = Ratio::new::<percent>;
        CharBed {
            share: share(22.0),
            drawn: share(3.0),
            carbon: share(92.0),
            hydrogen: share(2.5),
            oxygen: share(5.5),
        }
    }
}

/// What fixes the air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum AirClosure {
    /// All char but what is drawn off is gasified; the gas leaves in equilibrium at this temperature
    /// (500 to 1150 °C, usual 800 °C), and the air is what the heat balance asks for. Where that air would leave char over,
    /// as with dry charcoal, more is drawn until none is left, and the gas leaves as hot as that makes it.
    CharLimited {
        /// Temperature where the reduction zone freezes.
        freeze_temperature: ThermodynamicTemperature,
    },
    /// The air is known, for example measured; the exit temperature follows.
    AirHeld {
        /// Air over the air of complete combustion, 0.05 to 1.
        equivalence_ratio: Ratio,
    },
}

impl AirClosure {
    /// Char-limited at 800 °C.
    ///
    /// ```
    /// use hearthplan::sizing::gas::AirClosure;
    /// assert!(matches!(AirClosure::usual(), AirClosure::CharLimited { .. }));
    /// ```
    pub fn usual() -> Self {
        AirClosure::CharLimited {
            freeze_temperature: ThermodynamicTemperature::new::<degree_celsius>(800.0),
        }
    }
}

/// Load of the hearth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Load {
    /// Fuel as fired.
    Fuel(MassRate),
    /// Dry gas at normal conditions.
    Gas(VolumeRate),
    /// Dry gas with its stoichiometric air at normal conditions: what an engine draws, however rich the gas.
    Mixture(VolumeRate),
}

/// Heat lost through the shell, in two parts: the nozzle plane and everything above it, and all below.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum HeatLoss {
    /// As shares of the fuel power (higher heating value times dry fuel), each 0 to 0.9.
    Share {
        /// Nozzle plane and above.
        at_or_above_nozzle: Ratio,
        /// Below the nozzle plane.
        below_nozzle: Ratio,
    },
    /// In watts at a known load.
    Power {
        /// Nozzle plane and above.
        at_or_above_nozzle: Power,
        /// Below the nozzle plane.
        below_nozzle: Power,
        /// The load at which they are lost.
        load: Load,
    },
}

/// A hearth and what it burns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gasifier {
    /// Fuel.
    pub fuel: Fuel,
    /// Char.
    pub char: CharBed,
    /// What fixes the air.
    pub air: AirClosure,
    /// Pressure in the hearth, 30 to 300 kPa.
    pub pressure: Pressure,
}

impl Gasifier {
    /// This fuel with the usual char, char-limited at 800 °C, at sea level.
    ///
    /// ```
    /// use hearthplan::sizing::{fuel::PRESETS, gas::Gasifier};
    /// use uom::si::ratio::percent;
    /// assert_eq!(Gasifier::usual(PRESETS[0].fuel()).char.drawn.get::<percent>(), 3.0);
    /// ```
    pub fn usual(fuel: Fuel) -> Self {
        Gasifier {
            fuel,
            char: CharBed::default(),
            air: AirClosure::usual(),
            pressure: Pressure::new::<pascal>(101_325.0),
        }
    }

    /// The gas this hearth makes with `loss` through its shell.
    ///
    /// # Errors
    /// [`GasError`] for inputs outside their range and for hearths that cannot work, with the reason.
    ///
    /// ```
    /// use hearthplan::sizing::fuel::PRESETS;
    /// use hearthplan::sizing::gas::{Gasifier, HeatLoss};
    /// use uom::si::{f64::Ratio, ratio::percent};
    /// let gas = Gasifier::usual(PRESETS[0].fuel())
    ///     .solve(HeatLoss::Share {
    ///         at_or_above_nozzle: Ratio::new::<percent>(3.0),
    ///         below_nozzle: Ratio::new::<percent>(3.0),
    ///     })
    ///     .unwrap();
    /// assert!(gas.lower_heating_value > 4.0 && gas.lower_heating_value < 6.0);
    /// ```
    pub fn solve(&self, loss: HeatLoss) -> Result<GasSolution, GasError> {
        solve_feed(&Feed::new(self)?, &self.air, &loss, &mut Near::default())
    }
}

/// Amounts per kg of dry fuel, for whoever wants to check the balances.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Inventory {
    /// Gas at the exit, mol.
    pub gas: GasAmounts,
    /// Solid carbon left at the exit, mol.
    pub solid_carbon: f64,
    /// Char drawn off, kg.
    pub char_drawn: f64,
    /// Oxygen of the air, mol of O2; 3.76 times as much nitrogen comes with it.
    pub oxygen_supplied: f64,
    /// Heat lost in all, J.
    pub heat_lost: f64,
    /// Gas leaving the oxidation zone, mol.
    pub oxidation_gas: GasAmounts,
    /// Char burned in the oxidation zone, kg; more than nothing only where air is left over.
    pub char_burned: f64,
    /// Heat lost at or above the nozzle plane, J.
    pub heat_lost_above: f64,
}

/// Gas, air and temperatures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GasSolution {
    /// Mole fractions with steam.
    pub wet: GasAmounts,
    /// Mole fractions without steam.
    pub dry: GasAmounts,
    /// Lower heating value, MJ per normal m³ of dry gas.
    pub lower_heating_value: f64,
    /// Air of complete combustion, normal m³ per normal m³ of dry gas.
    pub stoichiometric_air: f64,
    /// Lower heating value of the mixture of gas and its stoichiometric air, MJ per normal m³.
    pub mixture_heating_value: f64,
    /// Dry gas at normal conditions per kg of fuel as fired.
    pub gas_per_fuel: SpecificVolume,
    /// Air at normal conditions per kg of fuel as fired.
    pub air_volume_per_fuel: SpecificVolume,
    /// Air over the air of complete combustion.
    pub equivalence_ratio: Ratio,
    /// Mean temperature at the nozzle plane.
    pub hearth_temperature: ThermodynamicTemperature,
    /// Temperature of the gas where its reactions freeze.
    pub exit_temperature: ThermodynamicTemperature,
    /// Solid carbon that equilibrium leaves at the exit, mass share of dry fuel; not counting char drawn off.
    pub char_left: Ratio,
    /// Loss through the shell over fuel power (higher heating value).
    pub loss_share: Ratio,
    /// The same for the nozzle plane and above.
    pub loss_share_above: Ratio,
    /// Heat of the cold dry gas over the lower heating value of the fuel as fired.
    pub cold_gas_efficiency: Ratio,
    /// Fuel power basis: higher heating value per mass as fired.
    pub fuel_energy: AvailableEnergy,
    /// Amounts per kg of dry fuel.
    pub inventory: Inventory,
}

/// Where the balances were closed for nearly the same loss, so that the next search begins there.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Near {
    exit: Option<Crossing>,
    all_char: Option<Crossing>,
    oxidation: Option<Crossing>,
}

impl Near {
    /// As far from here again as `share` of the way that led here from `before`.
    fn drawn_out(&self, before: &Near, share: f64) -> Near {
        let on = |here: Option<Crossing>, before: Option<Crossing>| {
            let (here, before) = (here?, before?);
            Some(Crossing {
                at: here.at + share * (here.at - before.at),
                ..here
            })
        };
        Near {
            exit: on(self.exit, before.exit),
            all_char: on(self.all_char, before.all_char),
            oxidation: on(self.oxidation, before.oxidation),
        }
    }
}

#[cfg_attr(hearthplan_site, optimize(speed))]
fn solve_feed(
    feed: &Feed,
    air: &AirClosure,
    loss: &HeatLoss,
    near: &mut Near,
) -> Result<GasSolution, GasError> {
    let (above, in_all) = feed.losses(loss)?;
    let exit = match *air {
        AirClosure::CharLimited { freeze_temperature } => {
            let temperature = freeze_temperature.get::<kelvin>();
            let exit = closure::char_limited(feed, &in_all, temperature, &mut near.exit)?;
            if exit.equilibrium.solid_carbon > closure::NO_CARBON {
                closure::all_char(feed, &in_all, &exit, &mut near.all_char)?
            } else {
                exit
            }
        }
        AirClosure::AirHeld { equivalence_ratio } => {
            let equivalence_ratio = equivalence_ratio.get::<ratio>();
            closure::air_held(feed, &in_all, equivalence_ratio, &mut near.exit)?
        }
    };
    let heat_lost = in_all.at(&exit.yields);
    let heat_lost_above = above.at(&exit.yields);
    let hearth = oxidation::oxidation(feed, exit.oxygen, heat_lost_above, &mut near.oxidation)?;
    let gas = exit.equilibrium.gas;
    let dry = gas.dry().fractions();
    let lower_heating_value = heating::lower_heating_value(&dry);
    let stoichiometric_air = heating::stoichiometric_air(&dry);
    let share = Ratio::new::<ratio>;
    let volume = SpecificVolume::new::<cubic_meter_per_kilogram>;
    Ok(GasSolution {
        wet: gas.fractions(),
        dry,
        lower_heating_value,
        stoichiometric_air,
        mixture_heating_value: lower_heating_value / (1.0 + stoichiometric_air),
        gas_per_fuel: volume(exit.yields.gas * feed.dry_share),
        air_volume_per_fuel: volume(
            exit.oxygen * (1.0 + NITROGEN_PER_OXYGEN) * MOLAR_VOLUME * feed.dry_share,
        ),
        equivalence_ratio: share(exit.equivalence_ratio),
        hearth_temperature: ThermodynamicTemperature::new::<kelvin>(hearth.temperature),
        exit_temperature: ThermodynamicTemperature::new::<kelvin>(exit.temperature),
        char_left: share(exit.equilibrium.solid_carbon * atomic_mass::CARBON),
        loss_share: share(heat_lost / feed.higher_heating_value),
        loss_share_above: share(heat_lost_above / feed.higher_heating_value),
        cold_gas_efficiency: share(
            lower_heating_value * 1e6 * exit.yields.gas * feed.dry_share
                / feed.lower_heating_value_as_fired,
        ),
        fuel_energy: AvailableEnergy::new::<joule_per_kilogram>(
            feed.higher_heating_value * feed.dry_share,
        ),
        inventory: Inventory {
            gas,
            solid_carbon: exit.equilibrium.solid_carbon,
            char_drawn: feed.char_drawn,
            oxygen_supplied: exit.oxygen,
            heat_lost,
            oxidation_gas: hearth.gas,
            char_burned: hearth.char_burned,
            heat_lost_above,
        },
    })
}
