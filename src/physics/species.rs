//! Heat capacity, enthalpy, entropy and Gibbs energy of the gases of a wood-gas hearth and of graphite.
//!
//! Source: McBride, Gordon and Reno, NASA TM-4513, 1993. Enthalpy counts from the elements at 298.15 K, so
//! heats of reaction come out as plain differences.

use super::nasa_polynomials::{self as data, Nasa7};

/// Molar gas constant in J/(mol·K) (CODATA 2018, exact).
pub const GAS_CONSTANT: f64 = 8.314_462_618_153_24;
/// Temperature from which heats of formation count, K.
pub const REFERENCE_TEMPERATURE: f64 = 298.15;
/// Pressure that the entropies are taken to count at, Pa, as the reference values do.
pub const STANDARD_PRESSURE: f64 = super::air::STANDARD_PRESSURE;
/// Enthalpy of liquid water at 298.15 K, J/mol (CODATA key values for thermodynamics, 1989).
pub const LIQUID_WATER_ENTHALPY: f64 = -285_830.0;

/// Atomic masses in kg/mol (IUPAC, abridged).
pub mod atomic_mass {
    /// Carbon.
    pub const CARBON: f64 = 12.011e-3;
    /// Hydrogen.
    pub const HYDROGEN: f64 = 1.008e-3;
    /// Oxygen.
    pub const OXYGEN: f64 = 15.999e-3;
    /// Nitrogen.
    pub const NITROGEN: f64 = 14.007e-3;
}

/// A substance the hearth calculation knows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Species {
    /// CO.
    CarbonMonoxide,
    /// CO2.
    CarbonDioxide,
    /// H2.
    Hydrogen,
    /// H2O, as vapour.
    Water,
    /// CH4.
    Methane,
    /// N2.
    Nitrogen,
    /// O2.
    Oxygen,
    /// Solid carbon.
    Graphite,
}

impl Species {
    /// All of them.
    pub const ALL: [Species; 8] = [
        Species::CarbonMonoxide,
        Species::CarbonDioxide,
        Species::Hydrogen,
        Species::Water,
        Species::Methane,
        Species::Nitrogen,
        Species::Oxygen,
        Species::Graphite,
    ];

    /// Chemical formula.
    ///
    /// ```
    /// use hearthplan::physics::species::Species;
    /// assert_eq!(Species::Methane.formula(), "CH4");
    /// ```
    pub fn formula(self) -> &'static str {
        match self {
            Species::CarbonMonoxide => "CO",
            Species::CarbonDioxide => "CO2",
            Species::Hydrogen => "H2",
            Species::Water => "H2O",
            Species::Methane => "CH4",
            Species::Nitrogen => "N2",
            Species::Oxygen => "O2",
            Species::Graphite => "C",
        }
    }

    /// Molar mass in kg/mol.
    ///
    /// ```
    /// use hearthplan::physics::species::Species;
    /// assert!((Species::Water.molar_mass() - 0.018015).abs() < 1e-6);
    /// ```
    pub fn molar_mass(self) -> f64 {
        use atomic_mass::{CARBON, HYDROGEN, NITROGEN, OXYGEN};
        match self {
            Species::CarbonMonoxide => CARBON + OXYGEN,
            Species::CarbonDioxide => CARBON + 2.0 * OXYGEN,
            Species::Hydrogen => 2.0 * HYDROGEN,
            Species::Water => 2.0 * HYDROGEN + OXYGEN,
            Species::Methane => CARBON + 4.0 * HYDROGEN,
            Species::Nitrogen => 2.0 * NITROGEN,
            Species::Oxygen => 2.0 * OXYGEN,
            Species::Graphite => CARBON,
        }
    }

    fn polynomials(self) -> &'static Nasa7 {
        match self {
            Species::CarbonMonoxide => &data::CARBON_MONOXIDE,
            Species::CarbonDioxide => &data::CARBON_DIOXIDE,
            Species::Hydrogen => &data::HYDROGEN,
            Species::Water => &data::WATER,
            Species::Methane => &data::METHANE,
            Species::Nitrogen => &data::NITROGEN,
            Species::Oxygen => &data::OXYGEN,
            Species::Graphite => &data::GRAPHITE,
        }
    }

    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn coefficients(self, temperature: f64) -> &'static [f64; 7] {
        let both = self.polynomials();
        if temperature < 1000.0 {
            &both.low
        } else {
            &both.high
        }
    }

    /// Heat capacity at constant pressure in J/(mol·K) at `temperature` in K; valid 200 to 6000 K
    /// (graphite to 5000 K), the same polynomial goes on outside.
    ///
    /// ```
    /// use hearthplan::physics::species::Species;
    /// assert!((Species::Nitrogen.heat_capacity(298.15) - 29.1).abs() < 0.1);
    /// ```
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub fn heat_capacity(self, temperature: f64) -> f64 {
        let [a1, a2, a3, a4, a5, _, _] = *self.coefficients(temperature);
        let t = temperature;
        GAS_CONSTANT * (a1 + t * (a2 + t * (a3 + t * (a4 + t * a5))))
    }

    /// Enthalpy, heat of formation included, in J/mol at `temperature` in K; valid as [`Self::heat_capacity`].
    ///
    /// ```
    /// use hearthplan::physics::species::Species;
    /// // Heat of formation of carbon dioxide.
    /// assert!((Species::CarbonDioxide.enthalpy(298.15) + 393_510.0).abs() < 50.0);
    /// ```
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub fn enthalpy(self, temperature: f64) -> f64 {
        let [a1, a2, a3, a4, a5, a6, _] = *self.coefficients(temperature);
        let t = temperature;
        GAS_CONSTANT
            * (a6 + t * (a1 + t * (a2 / 2.0 + t * (a3 / 3.0 + t * (a4 / 4.0 + t * a5 / 5.0)))))
    }

    /// Entropy at standard pressure in J/(mol·K) at `temperature` in K; valid as [`Self::heat_capacity`].
    ///
    /// ```
    /// use hearthplan::physics::species::Species;
    /// assert!((Species::Hydrogen.entropy(298.15) - 130.7).abs() < 0.1);
    /// ```
    pub fn entropy(self, temperature: f64) -> f64 {
        let [a1, a2, a3, a4, a5, _, a7] = *self.coefficients(temperature);
        let t = temperature;
        GAS_CONSTANT
            * (a7 + a1 * t.ln() + t * (a2 + t * (a3 / 2.0 + t * (a4 / 3.0 + t * a5 / 4.0))))
    }

    /// Gibbs energy at standard pressure in J/mol at `temperature` in K; valid as [`Self::heat_capacity`].
    ///
    /// ```
    /// use hearthplan::physics::species::Species;
    /// let water = Species::Water;
    /// let expected = water.enthalpy(900.0) - 900.0 * water.entropy(900.0);
    /// assert!((water.gibbs_energy(900.0) - expected).abs() < 1e-6);
    /// ```
    pub fn gibbs_energy(self, temperature: f64) -> f64 {
        GAS_CONSTANT * temperature * self.gibbs_ratio(temperature, temperature.ln())
    }

    /// Gibbs energy over RT; the logarithm is handed in so that a set of species shares it.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub(super) fn gibbs_ratio(self, temperature: f64, ln_temperature: f64) -> f64 {
        let [a1, a2, a3, a4, a5, a6, a7] = *self.coefficients(temperature);
        let t = temperature;
        a6 / t - a7 + a1 * (1.0 - ln_temperature)
            - t * (a2 / 2.0 + t * (a3 / 6.0 + t * (a4 / 12.0 + t * a5 / 20.0)))
    }
}
