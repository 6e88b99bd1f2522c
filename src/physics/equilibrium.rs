//! Chemical equilibrium of wood gas: CO, CO2, H2, H2O, CH4, N2, O2, with solid carbon where it is stable.
//!
//! Method: mass-action constants from Gibbs energies (NASA TM-4513, 1993). Carbon and hydrogen share one
//! oxygen potential, written as the ratio of steam to hydrogen; methane is the second unknown. For a given
//! amount of methane the oxygen balance rises with that ratio, and the methane affinity rises with the amount
//! of methane (Gibbs energy is convex), so both are found with a bracket and cannot run away. With solid
//! carbon the ratio alone fixes the gas. Ideal gas; all in SI.

mod gas_phase;
mod with_carbon;

use super::species::{STANDARD_PRESSURE, Species};

/// Amounts of the chemical elements, in mol of atoms.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Elements {
    /// Carbon.
    pub carbon: f64,
    /// Hydrogen.
    pub hydrogen: f64,
    /// Oxygen.
    pub oxygen: f64,
    /// Nitrogen.
    pub nitrogen: f64,
}

impl Elements {
    /// Sum of atoms in mol.
    ///
    /// ```
    /// use hearthplan::physics::equilibrium::Elements;
    /// let water = Elements { hydrogen: 2.0, oxygen: 1.0, ..Elements::default() };
    /// assert_eq!(water.total(), 3.0);
    /// ```
    pub fn total(&self) -> f64 {
        self.carbon + self.hydrogen + self.oxygen + self.nitrogen
    }

    /// This plus `share` times `other`.
    ///
    /// ```
    /// use hearthplan::physics::equilibrium::Elements;
    /// let carbon = Elements { carbon: 1.0, ..Elements::default() };
    /// assert_eq!(carbon.plus(-1.0, &carbon), Elements::default());
    /// ```
    pub fn plus(&self, share: f64, other: &Elements) -> Elements {
        Elements {
            carbon: self.carbon + share * other.carbon,
            hydrogen: self.hydrogen + share * other.hydrogen,
            oxygen: self.oxygen + share * other.oxygen,
            nitrogen: self.nitrogen + share * other.nitrogen,
        }
    }
}

/// Amounts of the gases, in mol, or mole fractions where a doc line says so.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct GasAmounts {
    /// CO.
    pub carbon_monoxide: f64,
    /// CO2.
    pub carbon_dioxide: f64,
    /// H2.
    pub hydrogen: f64,
    /// H2O vapour.
    pub water: f64,
    /// CH4.
    pub methane: f64,
    /// N2.
    pub nitrogen: f64,
    /// O2.
    pub oxygen: f64,
}

impl GasAmounts {
    /// Sum of all gases.
    ///
    /// ```
    /// use hearthplan::physics::equilibrium::GasAmounts;
    /// let gas = GasAmounts { hydrogen: 1.0, water: 2.0, ..GasAmounts::default() };
    /// assert_eq!(gas.total(), 3.0);
    /// ```
    pub fn total(&self) -> f64 {
        self.dry_total() + self.water
    }

    /// Sum of all gases but steam.
    ///
    /// ```
    /// use hearthplan::physics::equilibrium::GasAmounts;
    /// let gas = GasAmounts { hydrogen: 1.0, water: 2.0, ..GasAmounts::default() };
    /// assert_eq!(gas.dry_total(), 1.0);
    /// ```
    pub fn dry_total(&self) -> f64 {
        self.carbon_monoxide
            + self.carbon_dioxide
            + self.hydrogen
            + self.methane
            + self.nitrogen
            + self.oxygen
    }

    /// The gases with steam taken out.
    ///
    /// ```
    /// use hearthplan::physics::equilibrium::GasAmounts;
    /// let gas = GasAmounts { hydrogen: 1.0, water: 2.0, ..GasAmounts::default() };
    /// assert_eq!(gas.dry().total(), 1.0);
    /// ```
    pub fn dry(&self) -> GasAmounts {
        GasAmounts {
            water: 0.0,
            ..*self
        }
    }

    /// Mole fractions; all zero if there is no gas.
    ///
    /// ```
    /// use hearthplan::physics::equilibrium::GasAmounts;
    /// let gas = GasAmounts { hydrogen: 1.0, water: 3.0, ..GasAmounts::default() };
    /// assert_eq!(gas.fractions().hydrogen, 0.25);
    /// ```
    pub fn fractions(&self) -> GasAmounts {
        let total = self.total();
        if total > 0.0 {
            self.scaled(1.0 / total)
        } else {
            GasAmounts::default()
        }
    }

    /// Every amount times `factor`.
    ///
    /// ```
    /// use hearthplan::physics::equilibrium::GasAmounts;
    /// let gas = GasAmounts { methane: 1.5, ..GasAmounts::default() };
    /// assert_eq!(gas.scaled(2.0).methane, 3.0);
    /// ```
    pub fn scaled(&self, factor: f64) -> GasAmounts {
        GasAmounts {
            carbon_monoxide: self.carbon_monoxide * factor,
            carbon_dioxide: self.carbon_dioxide * factor,
            hydrogen: self.hydrogen * factor,
            water: self.water * factor,
            methane: self.methane * factor,
            nitrogen: self.nitrogen * factor,
            oxygen: self.oxygen * factor,
        }
    }

    /// Atoms bound in the gases.
    ///
    /// ```
    /// use hearthplan::physics::equilibrium::GasAmounts;
    /// let gas = GasAmounts { methane: 1.0, ..GasAmounts::default() };
    /// assert_eq!(gas.elements().hydrogen, 4.0);
    /// ```
    pub fn elements(&self) -> Elements {
        Elements {
            carbon: self.carbon_monoxide + self.carbon_dioxide + self.methane,
            hydrogen: 2.0 * (self.hydrogen + self.water) + 4.0 * self.methane,
            oxygen: self.carbon_monoxide + 2.0 * (self.carbon_dioxide + self.oxygen) + self.water,
            nitrogen: 2.0 * self.nitrogen,
        }
    }

    /// Each gas with its amount.
    ///
    /// ```
    /// use hearthplan::physics::equilibrium::GasAmounts;
    /// assert_eq!(GasAmounts::default().each().len(), 7);
    /// ```
    pub fn each(&self) -> [(Species, f64); 7] {
        [
            (Species::CarbonMonoxide, self.carbon_monoxide),
            (Species::CarbonDioxide, self.carbon_dioxide),
            (Species::Hydrogen, self.hydrogen),
            (Species::Water, self.water),
            (Species::Methane, self.methane),
            (Species::Nitrogen, self.nitrogen),
            (Species::Oxygen, self.oxygen),
        ]
    }

    /// Enthalpy in J, heats of formation included, at `temperature` in K (200 to 5000 K).
    ///
    /// ```
    /// use hearthplan::physics::equilibrium::GasAmounts;
    /// let gas = GasAmounts { nitrogen: 2.0, ..GasAmounts::default() };
    /// assert!(gas.enthalpy(298.15).abs() < 10.0);
    /// ```
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub fn enthalpy(&self, temperature: f64) -> f64 {
        self.each()
            .iter()
            .map(|(species, amount)| amount * species.enthalpy(temperature))
            .sum()
    }

    /// Heat capacity in J/K at fixed composition and `temperature` in K (200 to 5000 K).
    ///
    /// ```
    /// use hearthplan::physics::equilibrium::GasAmounts;
    /// let gas = GasAmounts { nitrogen: 1.0, ..GasAmounts::default() };
    /// assert!((gas.heat_capacity(298.15) - 29.1).abs() < 0.1);
    /// ```
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub fn heat_capacity(&self, temperature: f64) -> f64 {
        self.each()
            .iter()
            .map(|(species, amount)| amount * species.heat_capacity(temperature))
            .sum()
    }
}

/// Gas in equilibrium and the solid carbon beside it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Equilibrium {
    /// The gases, mol.
    pub gas: GasAmounts,
    /// Solid carbon, mol; zero where the gas can hold all of it.
    pub solid_carbon: f64,
    /// Activity of carbon: below 1 no soot or char forms, 1 where solid carbon is present.
    pub carbon_activity: f64,
}

impl Equilibrium {
    /// Enthalpy of gas and solid carbon in J at `temperature` in K.
    ///
    /// ```
    /// use hearthplan::physics::equilibrium::{Equilibrium, GasAmounts};
    /// let state = Equilibrium { gas: GasAmounts::default(), solid_carbon: 1.0, carbon_activity: 1.0 };
    /// assert!(state.enthalpy(298.15).abs() < 20.0);
    /// ```
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub fn enthalpy(&self, temperature: f64) -> f64 {
        let gas = self.gas.enthalpy(temperature);
        if self.solid_carbon > 0.0 {
            gas + self.solid_carbon * Species::Graphite.enthalpy(temperature)
        } else {
            gas
        }
    }
}

/// Why there is no equilibrium to give.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum EquilibriumError {
    /// A number outside what the method covers.
    #[error("{field} is {value}, it must lie between {low} and {high}")]
    OutOfRange {
        /// What was given.
        field: &'static str,
        /// Its value in the unit of the field.
        value: f64,
        /// Lowest value.
        low: f64,
        /// Highest value.
        high: f64,
    },
    /// No oxygen at all: carbon and hydrogen alone make no wood gas.
    #[error("there is no oxygen, so there is no wood gas to speak of")]
    NoOxygen,
    /// More carbon than oxygen and hydrogen can carry as gas.
    #[error(
        "carbon is {carbon} mol, but oxygen and hydrogen can carry less than {most} mol of it as gas: solid carbon must stay"
    )]
    TooMuchCarbon {
        /// Carbon given, mol.
        carbon: f64,
        /// Limit, mol.
        most: f64,
    },
    /// The steps ran out.
    #[error("the equilibrium did not settle at {temperature} K")]
    NotSettled {
        /// Temperature in K.
        temperature: f64,
    },
}

/// Mass-action constants at one temperature and pressure, on mole fractions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Constants {
    temperature: f64,
    /// CO + H2O = CO2 + H2.
    shift: f64,
    /// CO + 3 H2 = CH4 + H2O.
    methanation: f64,
    /// Ratio of steam to hydrogen per square root of the oxygen fraction.
    oxygen_potential: f64,
    /// C + CO2 = 2 CO.
    boudouard: f64,
}

impl Constants {
    /// Lowest temperature in K.
    pub const LOWEST_TEMPERATURE: f64 = 400.0;
    /// Highest temperature in K; dissociation to radicals, which is left out, matters above about 2500 K.
    pub const HIGHEST_TEMPERATURE: f64 = 3400.0;

    /// Constants at `temperature` in K (400 to 3400 K) and `pressure` in Pa (1 kPa to 10 MPa).
    ///
    /// # Errors
    /// [`EquilibriumError::OutOfRange`] outside those ranges or for a value that is not a number.
    ///
    /// ```
    /// use hearthplan::physics::equilibrium::Constants;
    /// assert!(Constants::at(1073.15, 101_325.0).is_ok());
    /// assert!(Constants::at(f64::NAN, 101_325.0).is_err());
    /// ```
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub fn at(temperature: f64, pressure: f64) -> Result<Self, EquilibriumError> {
        let in_range = |field, value: f64, low, high| {
            if value >= low && value <= high {
                Ok(())
            } else {
                Err(EquilibriumError::OutOfRange {
                    field,
                    value,
                    low,
                    high,
                })
            }
        };
        in_range(
            "temperature in K",
            temperature,
            Self::LOWEST_TEMPERATURE,
            Self::HIGHEST_TEMPERATURE,
        )?;
        in_range("pressure in Pa", pressure, 1e3, 1e7)?;
        let ln_temperature = temperature.ln();
        let gibbs = |species: Species| species.gibbs_ratio(temperature, ln_temperature);
        let carbon_monoxide = gibbs(Species::CarbonMonoxide);
        let carbon_dioxide = gibbs(Species::CarbonDioxide);
        let hydrogen = gibbs(Species::Hydrogen);
        let water = gibbs(Species::Water);
        let methane = gibbs(Species::Methane);
        let oxygen = gibbs(Species::Oxygen);
        let carbon = gibbs(Species::Graphite);
        let relative_pressure = pressure / STANDARD_PRESSURE;
        Ok(Constants {
            temperature,
            shift: (carbon_monoxide + water - carbon_dioxide - hydrogen).exp(),
            methanation: (carbon_monoxide + 3.0 * hydrogen - methane - water).exp()
                * relative_pressure
                * relative_pressure,
            oxygen_potential: (hydrogen + 0.5 * oxygen - water).exp() * relative_pressure.sqrt(),
            boudouard: (carbon + carbon_dioxide - 2.0 * carbon_monoxide).exp() / relative_pressure,
        })
    }

    /// Activity of carbon over a gas; 0 for a gas without carbon oxides.
    fn carbon_activity(&self, gas: &GasAmounts) -> f64 {
        let weighed = self.boudouard * gas.carbon_dioxide * gas.total();
        if gas.carbon_monoxide > 0.0 {
            gas.carbon_monoxide * gas.carbon_monoxide / weighed
        } else {
            0.0
        }
    }

    /// Equilibrium among the gases alone, as if solid carbon could not form.
    ///
    /// Oxygen beyond complete combustion stays as O2.
    ///
    /// # Errors
    /// [`EquilibriumError`] for negative or non-finite amounts, no oxygen, or more carbon than the gases can
    /// hold.
    ///
    /// ```
    /// use hearthplan::physics::equilibrium::{Constants, Elements};
    /// let elements = Elements { carbon: 1.0, hydrogen: 2.0, oxygen: 1.6, nitrogen: 2.0 };
    /// let state = Constants::at(1073.15, 101_325.0).unwrap().gas_only(&elements).unwrap();
    /// assert!((state.gas.elements().carbon - 1.0).abs() < 1e-12);
    /// assert!(state.gas.carbon_monoxide > state.gas.carbon_dioxide);
    /// ```
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub fn gas_only(&self, elements: &Elements) -> Result<Equilibrium, EquilibriumError> {
        check(elements)?;
        let gas = gas_phase::solve(self, elements)?;
        Ok(Equilibrium {
            gas,
            solid_carbon: 0.0,
            carbon_activity: self.carbon_activity(&gas),
        })
    }

    /// Equilibrium with solid carbon (as graphite) where it is stable.
    ///
    /// # Errors
    /// As [`Self::gas_only`], but never for too much carbon.
    ///
    /// ```
    /// use hearthplan::physics::equilibrium::{Constants, Elements};
    /// let elements = Elements { carbon: 2.0, hydrogen: 2.0, oxygen: 1.0, nitrogen: 0.0 };
    /// let state = Constants::at(1073.15, 101_325.0).unwrap().with_carbon(&elements).unwrap();
    /// assert!(state.solid_carbon > 0.9);
    /// ```
    pub fn with_carbon(&self, elements: &Elements) -> Result<Equilibrium, EquilibriumError> {
        match self.gas_only(elements) {
            Ok(state) if state.carbon_activity <= 1.0 => Ok(state),
            Ok(_) | Err(EquilibriumError::TooMuchCarbon { .. }) => {
                with_carbon::solve(self, elements)
            }
            Err(other) => Err(other),
        }
    }
}

fn check(elements: &Elements) -> Result<(), EquilibriumError> {
    let each = [
        ("carbon in mol", elements.carbon),
        ("hydrogen in mol", elements.hydrogen),
        ("oxygen in mol", elements.oxygen),
        ("nitrogen in mol", elements.nitrogen),
    ];
    const MOST: f64 = 1e9;
    for (field, value) in each {
        if !(0.0..=MOST).contains(&value) {
            return Err(EquilibriumError::OutOfRange {
                field,
                value,
                low: 0.0,
                high: MOST,
            });
        }
    }
    if elements.oxygen <= 1e-9 * elements.total() {
        return Err(EquilibriumError::NoOxygen);
    }
    Ok(())
}
