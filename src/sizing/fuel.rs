//! What is in the wood: analysis, moisture and heating values.

mod entered;
mod error;
mod presets;

pub use entered::{Moisture, bulk_density_of, char_drawn_of, char_share_of, fuel_of, moisture_of};
pub use error::FuelError;
pub use presets::{FuelPreset, PRESETS};

use uom::si::available_energy::{joule_per_kilogram, megajoule_per_kilogram};
use uom::si::f64::{AvailableEnergy, Mass, Ratio};
use uom::si::mass::kilogram;
use uom::si::ratio::ratio;

/// Water made per kg of hydrogen burned, kg.
const WATER_PER_HYDROGEN: f64 = 8.936;
/// Heat of evaporation of water at 25 °C, J/kg (as in ISO 18125).
pub const HEAT_OF_EVAPORATION: f64 = 2.442e6;

/// Ultimate analysis as mass shares of dry fuel, and the moisture of the fuel as fired.
///
/// The six shares should add up to 1. [`Fuel::checked`] accepts sums from 0.97 to 1.03, because laboratories
/// find each share on its own, and scales them to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fuel {
    /// Carbon, share of dry mass, 0.2 to 0.98.
    pub carbon: Ratio,
    /// Hydrogen, share of dry mass, 0 to 0.12.
    pub hydrogen: Ratio,
    /// Oxygen, share of dry mass, 0 to 0.55.
    pub oxygen: Ratio,
    /// Nitrogen, share of dry mass, 0 to 0.12.
    pub nitrogen: Ratio,
    /// Sulphur, share of dry mass, 0 to 0.06.
    pub sulphur: Ratio,
    /// Ash, share of dry mass, 0 to 0.5.
    pub ash: Ratio,
    /// Water, share of the mass as fired (wet basis), 0 to 0.7.
    pub moisture: Ratio,
    /// Heat of the dry fuel over the heat that follows from its analysis; 1 where nothing is known.
    pub heat: Ratio,
}

impl Fuel {
    /// The same fuel with its shares checked and scaled to a sum of 1.
    ///
    /// # Errors
    /// [`FuelError`] naming the share that lies outside its range, or the sum that is not near 1.
    ///
    /// ```
    /// use hearthplan::sizing::fuel::PRESETS;
    /// assert!(PRESETS[0].fuel().checked().is_ok());
    /// ```
    pub fn checked(self) -> Result<Fuel, FuelError> {
        let within = |field, value: Ratio, low: f64, high: f64| {
            let value = value.get::<ratio>();
            if value >= low && value <= high {
                Ok(value)
            } else {
                Err(FuelError::OutOfRange {
                    field,
                    value: 100.0 * value,
                    low: 100.0 * low,
                    high: 100.0 * high,
                })
            }
        };
        let sum = within("carbon in % of dry mass", self.carbon, 0.2, 0.98)?
            + within("hydrogen in % of dry mass", self.hydrogen, 0.0, 0.12)?
            + within("oxygen in % of dry mass", self.oxygen, 0.0, 0.55)?
            + within("nitrogen in % of dry mass", self.nitrogen, 0.0, 0.12)?
            + within("sulphur in % of dry mass", self.sulphur, 0.0, 0.06)?
            + within("ash in % of dry mass", self.ash, 0.0, 0.5)?;
        within("moisture in % of wet mass", self.moisture, 0.0, 0.7)?;
        within(
            "heat in % of what follows from the analysis",
            self.heat,
            0.5,
            1.5,
        )?;
        if !(0.97..=1.03).contains(&sum) {
            return Err(FuelError::SumOfShares { sum: 100.0 * sum });
        }
        Ok(Fuel {
            carbon: self.carbon / sum,
            hydrogen: self.hydrogen / sum,
            oxygen: self.oxygen / sum,
            nitrogen: self.nitrogen / sum,
            sulphur: self.sulphur / sum,
            ash: self.ash / sum,
            moisture: self.moisture,
            heat: self.heat,
        })
    }

    /// Heating values of this fuel.
    ///
    /// Higher heating value of dry fuel by Channiwala and Parikh, Fuel 81 (2002), p. 1051; lower values by
    /// taking off the evaporation of the water made from hydrogen and of the moisture, as in ISO 18125.
    ///
    /// # Errors
    /// As [`Fuel::checked`], or [`FuelError::NoHeat`] if the fuel gives no heat.
    ///
    /// ```
    /// use hearthplan::sizing::fuel::PRESETS;
    /// use uom::si::available_energy::megajoule_per_kilogram;
    /// let values = PRESETS[0].fuel().heating_values().unwrap();
    /// let dry = values.higher_dry.get::<megajoule_per_kilogram>();
    /// assert!(dry > 19.0 && dry < 21.0);
    /// ```
    pub fn heating_values(self) -> Result<HeatingValues, FuelError> {
        let fuel = self.checked()?;
        let share = |value: Ratio| value.get::<ratio>();
        let higher = higher_heating_value(&fuel) * share(fuel.heat);
        let lower_dry = higher - WATER_PER_HYDROGEN * share(fuel.hydrogen) * HEAT_OF_EVAPORATION;
        let moisture = share(fuel.moisture);
        let lower_as_fired = lower_dry * (1.0 - moisture) - moisture * HEAT_OF_EVAPORATION;
        if lower_as_fired <= 0.0 {
            return Err(FuelError::NoHeat {
                value: lower_as_fired / 1e6,
            });
        }
        let energy = AvailableEnergy::new::<joule_per_kilogram>;
        Ok(HeatingValues {
            higher_dry: energy(higher),
            lower_dry: energy(lower_dry),
            higher_as_fired: energy(higher * (1.0 - moisture)),
            lower_as_fired: energy(lower_as_fired),
        })
    }
}

/// Heat that burning the fuel gives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeatingValues {
    /// Per kg dry, water condensed.
    pub higher_dry: AvailableEnergy,
    /// Per kg dry, water as vapour.
    pub lower_dry: AvailableEnergy,
    /// Per kg as fired, water condensed.
    pub higher_as_fired: AvailableEnergy,
    /// Per kg as fired, water as vapour: what an engine or a boiler can hope for.
    pub lower_as_fired: AvailableEnergy,
}

/// Higher heating value in J per kg of dry fuel (Channiwala and Parikh 2002); mean error in the paper 1.45 %.
fn higher_heating_value(fuel: &Fuel) -> f64 {
    let percent = |value: Ratio| 100.0 * value.get::<ratio>();
    1e6 * (0.3491 * percent(fuel.carbon)
        + 1.1783 * percent(fuel.hydrogen)
        + 0.1005 * percent(fuel.sulphur)
        - 0.1034 * percent(fuel.oxygen)
        - 0.0151 * percent(fuel.nitrogen)
        - 0.0211 * percent(fuel.ash))
}

/// Moisture found by weighing a sample, drying it in an oven at 105 °C until it stops losing weight, and
/// weighing it again.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MoistureFromWeighing {
    /// Water per mass as fired: what this tool works with.
    pub wet_basis: Ratio,
    /// Water per dry mass: what foresters often quote.
    pub dry_basis: Ratio,
    /// How far the wet-basis figure can be off because the scale reads in steps (both weighings half a step
    /// wrong, the wrong way round).
    pub uncertainty: Ratio,
}

/// Moisture from two weighings of the same sample; `scale_step` is the smallest step the scale shows.
///
/// # Errors
/// [`FuelError`] unless `0 < after <= before` and the step is not negative.
///
/// ```
/// use hearthplan::sizing::fuel::moisture_from_weighing;
/// use uom::si::{f64::Mass, mass::gram, ratio::percent};
/// let grams = Mass::new::<gram>;
/// let found = moisture_from_weighing(grams(250.0), grams(205.0), grams(1.0)).unwrap();
/// assert!((found.wet_basis.get::<percent>() - 18.0).abs() < 1e-9);
/// ```
pub fn moisture_from_weighing(
    before: Mass,
    after: Mass,
    scale_step: Mass,
) -> Result<MoistureFromWeighing, FuelError> {
    let (wet, dry, step) = (
        before.get::<kilogram>(),
        after.get::<kilogram>(),
        scale_step.get::<kilogram>(),
    );
    if !(wet > 0.0 && wet.is_finite()) {
        return Err(FuelError::Weighing {
            field: "weight before drying",
            reason: "must be more than nothing",
        });
    }
    if !(dry > 0.0 && dry <= wet) {
        return Err(FuelError::Weighing {
            field: "weight after drying",
            reason: "must be more than nothing and no more than before drying",
        });
    }
    if !(step >= 0.0 && step.is_finite()) {
        return Err(FuelError::Weighing {
            field: "step of the scale",
            reason: "must not be negative",
        });
    }
    let wet_basis = (wet - dry) / wet;
    let half_step = 0.5 * step;
    Ok(MoistureFromWeighing {
        wet_basis: Ratio::new::<ratio>(wet_basis),
        dry_basis: Ratio::new::<ratio>((wet - dry) / dry),
        uncertainty: Ratio::new::<ratio>(half_step / wet * (1.0 + dry / wet)),
    })
}

/// Dry-basis moisture turned into wet basis.
///
/// # Errors
/// [`FuelError::OutOfRange`] if negative, above 300 %, or not a number.
///
/// ```
/// use hearthplan::sizing::fuel::wet_basis_from_dry_basis;
/// use uom::si::{f64::Ratio, ratio::percent};
/// let wet = wet_basis_from_dry_basis(Ratio::new::<percent>(25.0)).unwrap();
/// assert!((wet.get::<percent>() - 20.0).abs() < 1e-9);
/// ```
pub fn wet_basis_from_dry_basis(dry_basis: Ratio) -> Result<Ratio, FuelError> {
    let value = dry_basis.get::<ratio>();
    if (0.0..=3.0).contains(&value) {
        Ok(Ratio::new::<ratio>(value / (1.0 + value)))
    } else {
        Err(FuelError::OutOfRange {
            field: "moisture in % of dry mass",
            value: 100.0 * value,
            low: 0.0,
            high: 300.0,
        })
    }
}

/// Higher heating value that a bomb calorimeter found, set against the formula: the formula's error for this
/// fuel as a share of the measured value.
///
/// # Errors
/// As [`Fuel::heating_values`], or [`FuelError::OutOfRange`] for a measured value outside 5 to 40 MJ/kg.
///
/// ```
/// use hearthplan::sizing::fuel::{formula_error, PRESETS};
/// use uom::si::{available_energy::megajoule_per_kilogram, f64::AvailableEnergy, ratio::ratio};
/// let measured = AvailableEnergy::new::<megajoule_per_kilogram>(20.0);
/// assert!(formula_error(PRESETS[0].fuel(), measured).unwrap().get::<ratio>().abs() < 0.05);
/// ```
pub fn formula_error(fuel: Fuel, measured: AvailableEnergy) -> Result<Ratio, FuelError> {
    let value = measured.get::<megajoule_per_kilogram>();
    if !(5.0..=40.0).contains(&value) {
        return Err(FuelError::OutOfRange {
            field: "measured heating value in MJ/kg",
            value,
            low: 5.0,
            high: 40.0,
        });
    }
    Ok(fuel.heating_values()?.higher_dry / measured - Ratio::new::<ratio>(1.0))
}
