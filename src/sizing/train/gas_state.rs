//! Gas at one point of the train: what flows, how much, how warm, at what pressure, with what water, dust and tar.

use super::dust::Dust;
use super::stage::StageError;
use crate::physics::equilibrium::GasAmounts;
use crate::physics::error::{PhysicsError, within};
use crate::physics::gas_mixture::{GasMixture, GasProperties, mass};
use crate::physics::normal_state::MOLAR_VOLUME;
use crate::physics::species::{GAS_CONSTANT, Species};
use crate::physics::water::{self, Saturated};
use crate::sizing::condensate::{
    dew_point, liquid_enthalpy, liquid_enthalpy_below, saturation_ratio, saturation_ratio_slope,
    water_moles, water_rate,
};
use std::f64::consts::PI;
use uom::si::f64::{MassRate, Power, Pressure, Ratio, ThermodynamicTemperature, VolumeRate};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::power::watt;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::volume_rate::cubic_meter_per_second;

/// Coldest gas, K: water freezes.
pub(crate) const COLDEST: f64 = water::COLDEST;
/// Hottest gas, K.
pub(crate) const HOTTEST: f64 = 1273.15;
/// Lowest pressure, Pa. Below this no engine draws.
pub(crate) const LOWEST_PRESSURE: f64 = 2.0e4;
/// Highest pressure, Pa.
pub(crate) const HIGHEST_PRESSURE: f64 = 1.5e5;

/// Tar in the gas.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tar {
    /// Temperature at which it begins to condense; none for gas without tar.
    pub dew_point: Option<ThermodynamicTemperature>,
    /// Droplets of tar float in the gas: it has been colder than the tar's dew point, and no filter has caught them.
    pub mist: bool,
}

impl Tar {
    /// Gas without tar.
    pub const NONE: Tar = Tar {
        dew_point: None,
        mist: false,
    };

    /// The tar left behind a filter in which the gas is this warm, in K: no droplets, and only what was vapour there.
    pub(crate) fn filtered(self, temperature: f64) -> Tar {
        let there = ThermodynamicTemperature::new::<kelvin>(temperature);
        Tar {
            dew_point: self
                .dew_point
                .map(|dew| if dew > there { there } else { dew }),
            mist: false,
        }
    }

    /// Whether tar falls out of gas, or on a wall, of a temperature in K.
    pub(crate) fn condenses_at(&self, temperature: f64) -> bool {
        self.dew_point
            .is_some_and(|dew| temperature < dew.value - UNDERCOOLING)
    }
}

/// How far below its dew point tar must be before it counts as condensing, K. Without it gas that has just been
/// filtered would be called tarry again for every tenth of a degree (our own mark).
const UNDERCOOLING: f64 = 10.0;

/// Gas at one point of the train.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GasState {
    /// Composition of the dry gas; only the ratio counts, water in it is ignored.
    pub dry: GasAmounts,
    /// Flow of the dry gas, counted at 0 °C and 101.325 kPa: 1e-6 to 10 m³/s.
    pub dry_flow: VolumeRate,
    /// Steam, 0 to 10 kg/s.
    pub vapour: MassRate,
    /// Water carried along as drops, 0 to 10 kg/s.
    pub liquid: MassRate,
    /// Temperature, 0 to 1000 °C.
    pub temperature: ThermodynamicTemperature,
    /// Absolute pressure, 20 to 150 kPa.
    pub pressure: Pressure,
    /// Dust.
    pub dust: Dust,
    /// Tar.
    pub tar: Tar,
}

impl GasState {
    /// Says whether the state is one that can be computed.
    ///
    /// # Errors
    /// [`StageError`] naming what is out of range.
    pub fn check(&self) -> Result<(), StageError> {
        within("dry gas flow", "Nm³/s", self.dry_flow.value, 1e-6, 10.0)?;
        within("steam in the gas", "kg/s", self.vapour.value, 0.0, 10.0)?;
        within("water in the gas", "kg/s", self.liquid.value, 0.0, 10.0)?;
        within(
            "gas temperature",
            "K",
            self.temperature.value,
            COLDEST,
            HOTTEST,
        )?;
        check_pressure(self.pressure.value)?;
        self.dust.check()?;
        if let Some(tar) = self.tar.dew_point {
            within("dew point of the tar", "K", tar.value, 200.0, 1500.0)?;
        }
        GasMixture::new(&self.dry.dry())?;
        Ok(())
    }

    /// Mean velocity in a round bore of this diameter in m, m/s.
    pub(crate) fn velocity_in(&self, bore: f64) -> f64 {
        self.volume_rate().value / (0.25 * PI * bore * bore)
    }

    /// Dust in the dry gas, kg per normal m³.
    pub fn dust_load(&self) -> f64 {
        self.dust.total().value / self.dry_flow.value
    }

    /// Dry gas, mol/s.
    pub(crate) fn dry_moles(&self) -> f64 {
        self.dry_flow.value / MOLAR_VOLUME
    }

    /// All gases, mol/s, steam included.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub(crate) fn flowing(&self) -> GasAmounts {
        let total = self.dry.dry_total();
        let dry = self.dry.dry().scaled(self.dry_moles() / total);
        GasAmounts {
            water: water_moles(self.vapour),
            ..dry
        }
    }

    /// All water, mol/s, steam and drops.
    pub(crate) fn water_moles(&self) -> f64 {
        water_moles(self.vapour) + water_moles(self.liquid)
    }

    /// Steam, as a share of the dry gas by volume.
    pub fn steam_per_dry(&self) -> f64 {
        water_moles(self.vapour) / self.dry_moles()
    }

    /// Mass flow of gas and steam, without drops and dust.
    pub fn gas_mass_rate(&self) -> MassRate {
        MassRate::new::<kilogram_per_second>(mass(&self.flowing()))
    }

    /// Mass flow of everything: gas, steam, drops, dust.
    pub fn mass_rate(&self) -> MassRate {
        self.gas_mass_rate() + self.liquid + self.dust.total()
    }

    /// Mole fraction of steam in the wet gas.
    pub fn steam_share(&self) -> Ratio {
        let steam = water_moles(self.vapour);
        Ratio::new::<ratio>(steam / (steam + self.dry_moles()))
    }

    /// Dew point of the water at this point's pressure; none if the gas is so dry that frost would come first.
    pub fn dew_point(&self) -> Option<ThermodynamicTemperature> {
        dew_point(self.steam_share(), self.pressure)
    }

    /// Where the first drop would form if all water were steam, K; none where that would be frost.
    pub(crate) fn dew_point_of_all_water(&self) -> Option<f64> {
        let water = self.water_moles();
        let share = water / (water + self.dry_moles());
        water::dew_point(share * self.pressure.value).ok()
    }

    /// Properties of the wet gas, SI numbers.
    ///
    /// # Errors
    /// [`PhysicsError`] naming what is out of range.
    pub fn properties(&self) -> Result<GasProperties, PhysicsError> {
        GasMixture::new(&self.flowing())?.at(self.temperature.value, self.pressure.value)
    }

    /// Flow of the wet gas as it is: at its own temperature and pressure.
    pub fn volume_rate(&self) -> VolumeRate {
        let moles = self.dry_moles() + water_moles(self.vapour);
        VolumeRate::new::<cubic_meter_per_second>(
            moles * GAS_CONSTANT * self.temperature.value / self.pressure.value,
        )
    }

    /// Enthalpy flow of gas, steam and drops, heats of formation included; dust is left out.
    ///
    /// # Errors
    /// [`PhysicsError`] if there are drops at a temperature where water has none.
    pub fn enthalpy_rate(&self) -> Result<Power, PhysicsError> {
        let gas = self.flowing().enthalpy(self.temperature.value);
        let drops = water_moles(self.liquid);
        let liquid = if drops > 0.0 {
            drops * liquid_enthalpy(self.temperature.value)?
        } else {
            0.0
        };
        Ok(Power::new::<watt>(gas + liquid))
    }

    /// The same gas at another temperature in K and pressure in Pa, its water shared out between steam and drops.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub(crate) fn settled(&self, temperature: f64, pressure: f64) -> Result<GasState, StageError> {
        check_pressure(pressure)?;
        within("gas temperature", "K", temperature, COLDEST, HOTTEST)?;
        let water = self.water_moles();
        let most = saturation_ratio(temperature, pressure).map(|each| each * self.dry_moles());
        let steam = most.map_or(water, |most| water.min(most));
        let tar = if self.tar.condenses_at(temperature) {
            Tar {
                dew_point: Some(ThermodynamicTemperature::new::<kelvin>(temperature)),
                mist: true,
            }
        } else {
            self.tar
        };
        Ok(GasState {
            vapour: water_rate(steam),
            liquid: water_rate(water - steam),
            temperature: ThermodynamicTemperature::new::<kelvin>(temperature),
            pressure: Pressure::new::<pascal>(pressure),
            tar,
            ..*self
        })
    }

    /// The same gas at `pressure` in Pa after it has given off `heat` in W (negative: taken up), and whether that would
    /// have cooled it below freezing: it is held there.
    ///
    /// The temperature is the one at which the enthalpies agree, water shared out anew.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub(crate) fn after_heat(
        &self,
        heat: f64,
        pressure: f64,
    ) -> Result<(GasState, bool), StageError> {
        let wanted = self.enthalpy_rate()?.value - heat;
        let dry_path = self.liquid.value <= 0.0 && heat == 0.0;
        if dry_path {
            let same = self.settled(self.temperature.value, pressure)?;
            if same.liquid.value <= 0.0 {
                return Ok((same, false));
            }
        }
        // Only a blower warms the gas.
        if heat < 0.0 && self.settled(HOTTEST, pressure)?.enthalpy_rate()?.value < wanted {
            return Err(StageError::TooHot);
        }
        let (mut low, mut high) = (COLDEST, HOTTEST);
        let mut may_freeze = true;
        let mut temperature = self.temperature.value;
        let mut state = self.settled(temperature, pressure)?;
        for _ in 0..80 {
            let (enthalpy, capacity) = state.enthalpy_and_capacity()?;
            let excess = enthalpy - wanted;
            if excess > 0.0 {
                high = temperature;
            } else {
                low = temperature;
            }
            let step = temperature - excess / capacity;
            let next = if step > low && step < high {
                step
            } else {
                if may_freeze && step <= COLDEST {
                    let coldest = self.settled(COLDEST, pressure)?;
                    if coldest.enthalpy_rate()?.value > wanted {
                        return Ok((coldest, true));
                    }
                    may_freeze = false;
                }
                0.5 * (low + high)
            };
            // The capacity is right to a part in a thousand, so each step leaves that much of its length.
            let done = (next - temperature).abs() <= 1e-11 * temperature;
            temperature = next;
            state = self.settled(temperature, pressure)?;
            if done {
                return Ok((state, false));
            }
        }
        if high - low < 1e-6 {
            return Ok((state, false));
        }
        Err(StageError::TooHot)
    }

    /// [Enthalpy flow](Self::enthalpy_rate), W, and heat capacity flow, W/K, where water dries up its latent heat
    /// included: what both need is worked out once.
    fn enthalpy_and_capacity(&self) -> Result<(f64, f64), PhysicsError> {
        let temperature = self.temperature.value;
        let gas = self.flowing();
        let drops = water_moles(self.liquid);
        let sensible = gas.heat_capacity(temperature) + drops * LIQUID_WATER_HEAT_CAPACITY;
        let enthalpy = gas.enthalpy(temperature);
        if drops > 0.0 {
            let saturated = water::saturated(temperature)?;
            let liquid = drops * liquid_enthalpy_below(temperature, saturated.latent_heat);
            let latent = self.latent_capacity(&saturated);
            Ok((enthalpy + liquid, sensible + latent))
        } else {
            Ok((enthalpy, sensible))
        }
    }

    /// Heat it takes to warm gas, steam and drops by one kelvin while no water dries up, W/K.
    pub(crate) fn sensible_capacity_rate(&self) -> f64 {
        self.flowing().heat_capacity(self.temperature.value)
            + water_moles(self.liquid) * LIQUID_WATER_HEAT_CAPACITY
    }

    /// Heat it takes to warm gas that is saturated by one kelvin, the latent heat of its water included, W/K. Where the
    /// first drop forms none may be there yet.
    pub(crate) fn saturated_capacity_rate(&self) -> f64 {
        let saturated = water::saturated(self.temperature.value.max(COLDEST));
        self.sensible_capacity_rate()
            + saturated.map_or(0.0, |saturated| self.latent_capacity(&saturated))
    }

    /// Latent part of it.
    fn latent_capacity(&self, saturated: &Saturated) -> f64 {
        let more = saturation_ratio_slope(saturated, self.pressure.value);
        more.map_or(0.0, |more| {
            more * self.dry_moles() * saturated.latent_heat * Species::Water.molar_mass()
        })
    }
}

/// Heat capacity of liquid water, J/(mol·K): 4.19 kJ/(kg·K).
const LIQUID_WATER_HEAT_CAPACITY: f64 = 75.5;

/// Refuses a pressure that no train holds.
fn check_pressure(pressure: f64) -> Result<(), StageError> {
    if pressure < LOWEST_PRESSURE {
        return Err(StageError::NoPressureLeft);
    }
    within(
        "gas pressure",
        "Pa",
        pressure,
        LOWEST_PRESSURE,
        HIGHEST_PRESSURE,
    )?;
    Ok(())
}
