//! Temperature across the hearth, from the glowing core to the wall.

use super::error::{GasError, within};
use uom::si::f64::{
    HeatFluxDensity, Length, Ratio, TemperatureInterval, ThermalConductivity,
    ThermodynamicTemperature,
};
use uom::si::heat_flux_density::watt_per_square_meter;
use uom::si::length::meter;
use uom::si::ratio::ratio;
use uom::si::temperature_interval::kelvin as kelvin_difference;
use uom::si::thermal_conductivity::watt_per_meter_kelvin;
use uom::si::thermodynamic_temperature::kelvin;

/// Temperature over the radius r of a round hearth of radius R: `core - drop (r/R)²`.
///
/// Heat is set free evenly over the cross-section and flows to the wall through glowing char of one effective
/// conductivity, radiation included; then `drop = q″ R / (2 k)` and the mean lies half a drop below the core
/// (conduction in a cylinder with an even source: Carslaw and Jaeger, Conduction of Heat in Solids, chapter 7).
/// The conductivity, usual 0.8 to 3 W/(m·K), is the weakest number in it (from memory, uncertain).
///
/// Behind a wall that takes much heat this asks for a core that no fire reaches: char conducts better the hotter it
/// glows, so that the core is flatter and the rim steeper. A profile [held](Self::held_at) to a hottest core keeps its
/// mean and its wall, which the balances gave, and falls with a higher power of r (our own estimate).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RadialProfile {
    /// In the middle.
    pub core: ThermodynamicTemperature,
    /// Over the cross-section.
    pub mean: ThermodynamicTemperature,
    /// At the wall.
    pub wall: ThermodynamicTemperature,
    /// From core to wall; negative if the wall heats the hearth.
    pub drop: TemperatureInterval,
    /// Power of r with which the temperature falls: 2, and more where the core is held.
    power: f64,
}

impl RadialProfile {
    /// Profile with the mean temperature given; `wall_flux` is the heat leaving through the hearth wall.
    ///
    /// # Errors
    /// [`GasError::OutOfRange`] for a radius outside 5 mm to 2 m, a conductivity outside 0.05 to 50 W/(m·K), a
    /// flux beyond 1 MW/m², or a temperature outside 0 to 4000 K.
    ///
    /// ```
    /// use hearthplan::sizing::gas::RadialProfile;
    /// use uom::si::f64::{HeatFluxDensity, Length, ThermalConductivity, ThermodynamicTemperature};
    /// use uom::si::{heat_flux_density::kilowatt_per_square_meter, length::millimeter};
    /// use uom::si::temperature_interval::kelvin as kelvin_difference;
    /// use uom::si::thermal_conductivity::watt_per_meter_kelvin;
    /// use uom::si::thermodynamic_temperature::degree_celsius;
    /// let profile = RadialProfile::from_mean(
    ///     ThermodynamicTemperature::new::<degree_celsius>(1150.0),
    ///     HeatFluxDensity::new::<kilowatt_per_square_meter>(15.0),
    ///     Length::new::<millimeter>(60.0),
    ///     ThermalConductivity::new::<watt_per_meter_kelvin>(1.5),
    /// )
    /// .unwrap();
    /// assert!((profile.drop.get::<kelvin_difference>() - 300.0).abs() < 1e-9);
    /// ```
    pub fn from_mean(
        mean: ThermodynamicTemperature,
        wall_flux: HeatFluxDensity,
        radius: Length,
        conductivity: ThermalConductivity,
    ) -> Result<Self, GasError> {
        let drop = drop(wall_flux, radius, conductivity)?;
        let mean = checked(mean)?;
        Ok(Self::of(mean + 0.5 * drop, drop))
    }

    /// Profile with the core temperature given.
    ///
    /// # Errors
    /// As [`RadialProfile::from_mean`].
    ///
    /// ```
    /// use hearthplan::sizing::gas::RadialProfile;
    /// use uom::si::f64::{HeatFluxDensity, Length, ThermalConductivity, ThermodynamicTemperature};
    /// use uom::si::{heat_flux_density::kilowatt_per_square_meter, length::millimeter};
    /// use uom::si::thermal_conductivity::watt_per_meter_kelvin;
    /// use uom::si::thermodynamic_temperature::degree_celsius;
    /// let profile = RadialProfile::from_core(
    ///     ThermodynamicTemperature::new::<degree_celsius>(1300.0),
    ///     HeatFluxDensity::new::<kilowatt_per_square_meter>(15.0),
    ///     Length::new::<millimeter>(60.0),
    ///     ThermalConductivity::new::<watt_per_meter_kelvin>(1.5),
    /// )
    /// .unwrap();
    /// assert!((profile.wall.get::<degree_celsius>() - 1000.0).abs() < 1e-6);
    /// ```
    pub fn from_core(
        core: ThermodynamicTemperature,
        wall_flux: HeatFluxDensity,
        radius: Length,
        conductivity: ThermalConductivity,
    ) -> Result<Self, GasError> {
        let drop = drop(wall_flux, radius, conductivity)?;
        Ok(Self::of(checked(core)?, drop))
    }

    fn of(core: f64, drop: f64) -> Self {
        let temperature = ThermodynamicTemperature::new::<kelvin>;
        RadialProfile {
            core: temperature(core),
            mean: temperature(core - 0.5 * drop),
            wall: temperature(core - drop),
            drop: TemperatureInterval::new::<kelvin_difference>(drop),
            power: 2.0,
        }
    }

    /// The profile with the same mean and wall whose core is no hotter than `hottest`, nor colder than its mean.
    ///
    /// ```
    /// use hearthplan::sizing::gas::RadialProfile;
    /// use uom::si::f64::{HeatFluxDensity, Length, ThermalConductivity, ThermodynamicTemperature};
    /// use uom::si::{heat_flux_density::kilowatt_per_square_meter, length::millimeter};
    /// use uom::si::thermal_conductivity::watt_per_meter_kelvin;
    /// use uom::si::thermodynamic_temperature::degree_celsius;
    /// let asked = RadialProfile::from_mean(
    ///     ThermodynamicTemperature::new::<degree_celsius>(1500.0),
    ///     HeatFluxDensity::new::<kilowatt_per_square_meter>(40.0),
    ///     Length::new::<millimeter>(135.0),
    ///     ThermalConductivity::new::<watt_per_meter_kelvin>(1.5),
    /// )
    /// .unwrap();
    /// let hottest = ThermodynamicTemperature::new::<degree_celsius>(2000.0);
    /// let held = asked.held_at(hottest);
    /// assert!(asked.core > hottest && held.is_held());
    /// assert_eq!((held.core, held.mean, held.wall), (hottest, asked.mean, asked.wall));
    /// ```
    pub fn held_at(&self, hottest: ThermodynamicTemperature) -> Self {
        let core = hottest.get::<kelvin>().max(self.mean.get::<kelvin>());
        let drop = core - self.wall.get::<kelvin>();
        if core >= self.core.get::<kelvin>() || drop.is_nan() {
            return *self;
        }
        RadialProfile {
            core: ThermodynamicTemperature::new::<kelvin>(core),
            drop: TemperatureInterval::new::<kelvin_difference>(drop),
            // The mean over the cross-section lies 2 / (power + 2) of the drop below the core.
            power: (2.0 * drop / (core - self.mean.get::<kelvin>()) - 2.0).min(STEEPEST),
            ..*self
        }
    }

    /// Whether the core is held at the hottest that a fire reaches.
    ///
    /// ```
    /// # use hearthplan::sizing::gas::RadialProfile;
    /// # use uom::si::f64::*;
    /// # use uom::si::{heat_flux_density::kilowatt_per_square_meter, length::millimeter};
    /// # use uom::si::{thermal_conductivity::watt_per_meter_kelvin, thermodynamic_temperature::degree_celsius};
    /// # let profile = RadialProfile::from_core(
    /// #     ThermodynamicTemperature::new::<degree_celsius>(1300.0),
    /// #     HeatFluxDensity::new::<kilowatt_per_square_meter>(15.0),
    /// #     Length::new::<millimeter>(60.0),
    /// #     ThermalConductivity::new::<watt_per_meter_kelvin>(1.5),
    /// # ).unwrap();
    /// assert!(!profile.is_held());
    /// ```
    pub fn is_held(&self) -> bool {
        self.power > 2.0
    }

    /// Power of the distance from the middle with which the temperature falls; 2 where the core is not held.
    pub(crate) fn power(&self) -> f64 {
        self.power
    }

    /// Temperature at `position`, the distance from the middle over the radius; held to 0 to 1.
    ///
    /// ```
    /// # use hearthplan::sizing::gas::RadialProfile;
    /// # use uom::si::f64::*;
    /// # use uom::si::{heat_flux_density::kilowatt_per_square_meter, length::millimeter, ratio::ratio};
    /// # use uom::si::{thermal_conductivity::watt_per_meter_kelvin, thermodynamic_temperature::degree_celsius};
    /// # let profile = RadialProfile::from_core(
    /// #     ThermodynamicTemperature::new::<degree_celsius>(1300.0),
    /// #     HeatFluxDensity::new::<kilowatt_per_square_meter>(15.0),
    /// #     Length::new::<millimeter>(60.0),
    /// #     ThermalConductivity::new::<watt_per_meter_kelvin>(1.5),
    /// # ).unwrap();
    /// let halfway = profile.at(Ratio::new::<ratio>(0.5));
    /// assert!((halfway.get::<degree_celsius>() - 1225.0).abs() < 1e-6);
    /// ```
    pub fn at(&self, position: Ratio) -> ThermodynamicTemperature {
        let position = position.get::<ratio>().clamp(0.0, 1.0);
        let core = self.core.get::<kelvin>();
        let drop = self.drop.get::<kelvin_difference>();
        ThermodynamicTemperature::new::<kelvin>(
            core - drop * (position * position).powf(0.5 * self.power),
        )
    }

    /// Share of the cross-section colder than `limit`: with 1000 °C, the share through which tar slips.
    ///
    /// ```
    /// # use hearthplan::sizing::gas::RadialProfile;
    /// # use uom::si::f64::*;
    /// # use uom::si::{heat_flux_density::kilowatt_per_square_meter, length::millimeter, ratio::ratio};
    /// # use uom::si::{thermal_conductivity::watt_per_meter_kelvin, thermodynamic_temperature::degree_celsius};
    /// # let profile = RadialProfile::from_core(
    /// #     ThermodynamicTemperature::new::<degree_celsius>(1225.0),
    /// #     HeatFluxDensity::new::<kilowatt_per_square_meter>(15.0),
    /// #     Length::new::<millimeter>(60.0),
    /// #     ThermalConductivity::new::<watt_per_meter_kelvin>(1.5),
    /// # ).unwrap();
    /// let slip = profile.share_colder_than(ThermodynamicTemperature::new::<degree_celsius>(1000.0));
    /// assert!((slip.get::<ratio>() - 0.25).abs() < 1e-9);
    /// ```
    pub fn share_colder_than(&self, limit: ThermodynamicTemperature) -> Ratio {
        let drop = self.drop.get::<kelvin_difference>();
        let to_spare = self.core.get::<kelvin>() - limit.get::<kelvin>();
        // (r/R)² is the share of the area inside r.
        let share = if drop > 0.0 {
            1.0 - (to_spare / drop).clamp(0.0, 1.0).powf(2.0 / self.power)
        } else if drop < 0.0 {
            to_spare / drop
        } else if to_spare < 0.0 {
            1.0
        } else {
            0.0
        };
        Ratio::new::<ratio>(share.clamp(0.0, 1.0))
    }
}

/// Greatest power of r: beyond, the hearth is as hot as its core but for a skin at the wall.
const STEEPEST: f64 = 1e4;

fn checked(temperature: ThermodynamicTemperature) -> Result<f64, GasError> {
    within(
        "hearth temperature in K",
        temperature.get::<kelvin>(),
        0.0,
        4000.0,
    )
}

/// Temperature drop from core to wall, K.
fn drop(
    wall_flux: HeatFluxDensity,
    radius: Length,
    conductivity: ThermalConductivity,
) -> Result<f64, GasError> {
    let flux = within(
        "heat through the hearth wall in W/m²",
        wall_flux.get::<watt_per_square_meter>(),
        -1e6,
        1e6,
    )?;
    let radius = within("hearth radius in m", radius.get::<meter>(), 0.005, 2.0)?;
    let conductivity = within(
        "conductivity of glowing char in W/(m·K)",
        conductivity.get::<watt_per_meter_kelvin>(),
        0.05,
        50.0,
    )?;
    Ok(flux * radius / (2.0 * conductivity))
}
