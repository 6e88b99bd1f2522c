//! Density, viscosity, conductivity and heat capacity of a gas mixture from its composition, 0 °C to 1000 °C.
//!
//! Ideal gas. Viscosity by Wilke, Journal of Chemical Physics 18 (1950) 517. Conductivity as the mean of the parallel and
//! the series value: Mathur, Tondon and Saxena, Molecular Physics 12 (1967) 569. Heat capacity from the polynomials of
//! NASA TM-4513 (1993). Held against `cantera` to 1 % in the tests.

use std::sync::LazyLock;

use super::equilibrium::GasAmounts;
use super::error::{PhysicsError, within};
use super::species::{GAS_CONSTANT, Species};
use super::transport_polynomials::{self as data, Transport};

/// Coldest temperature accepted, K.
pub const COLDEST: f64 = 260.0;

/// Hottest temperature accepted, K.
pub const HOTTEST: f64 = 1300.0;

/// Gases of a mixture.
const GASES: usize = 7;

/// In the order of [`GasAmounts::each`].
const TRANSPORT: [&Transport; GASES] = [
    &data::CARBON_MONOXIDE,
    &data::CARBON_DIOXIDE,
    &data::HYDROGEN,
    &data::WATER,
    &data::METHANE,
    &data::NITROGEN,
    &data::OXYGEN,
];

/// What Wilke's rule needs of the molar masses alone.
struct Masses {
    /// Fourth root of each molar mass.
    fourth_root: [f64; GASES],
    /// `1 / sqrt(8 (1 + Mi/Mj))`, one row for each i.
    weight: [[f64; GASES]; GASES],
}

static MASSES: LazyLock<Masses> = LazyLock::new(|| {
    let masses = GasAmounts::default()
        .each()
        .map(|(species, _)| species.molar_mass());
    Masses {
        fourth_root: masses.map(|mass| mass.sqrt().sqrt()),
        weight: masses.map(|one| masses.map(|other| 1.0 / (8.0 * (1.0 + one / other)).sqrt())),
    }
});

/// A gas mixture of known composition.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GasMixture {
    fractions: GasAmounts,
    molar_mass: f64,
}

/// Properties of a gas mixture in one state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GasProperties {
    /// Density, kg/m³.
    pub density: f64,
    /// Dynamic viscosity, Pa·s.
    pub viscosity: f64,
    /// Thermal conductivity, W/(m·K).
    pub conductivity: f64,
    /// Heat capacity at constant pressure, J/(kg·K).
    pub heat_capacity: f64,
}

impl GasProperties {
    /// Prandtl number: heat capacity times viscosity over conductivity.
    pub fn prandtl(&self) -> f64 {
        self.heat_capacity * self.viscosity / self.conductivity
    }
}

impl GasMixture {
    /// Mixture of `amounts` in mol, or in shares; only their ratio counts.
    ///
    /// # Errors
    /// [`PhysicsError`] if an amount is negative or not a number, or all are zero.
    ///
    /// ```
    /// use hearthplan::physics::{equilibrium::GasAmounts, gas_mixture::GasMixture};
    /// let nitrogen = GasMixture::new(&GasAmounts { nitrogen: 2.0, ..GasAmounts::default() })?;
    /// assert!((nitrogen.molar_mass() - 0.028014).abs() < 1e-6);
    /// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
    /// ```
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub fn new(amounts: &GasAmounts) -> Result<GasMixture, PhysicsError> {
        for (_, amount) in amounts.each() {
            within("amount of a gas", "mol", amount, 0.0, 1e12)?;
        }
        if amounts.total() <= 1e-12 {
            return Err(PhysicsError::Impossible {
                quantity: "gas mixture",
                reason: "there is no gas in it",
            });
        }
        let fractions = amounts.fractions();
        let molar_mass = fractions
            .each()
            .iter()
            .map(|(species, share)| share * species.molar_mass())
            .sum();
        Ok(GasMixture {
            fractions,
            molar_mass,
        })
    }

    /// Mole fractions.
    pub fn fractions(&self) -> &GasAmounts {
        &self.fractions
    }

    /// Mean molar mass, kg/mol.
    pub fn molar_mass(&self) -> f64 {
        self.molar_mass
    }

    /// Properties at `temperature` in K, 260 to 1300, and `pressure` in Pa, 1000 to 1e6.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`] outside these ranges.
    ///
    /// ```
    /// use hearthplan::physics::{equilibrium::GasAmounts, gas_mixture::GasMixture};
    /// let nitrogen = GasMixture::new(&GasAmounts { nitrogen: 1.0, ..GasAmounts::default() })?;
    /// let found = nitrogen.at(293.15, 101_325.0)?;
    /// assert!((found.density - 1.1646).abs() < 0.001);
    /// assert!((found.viscosity / 17.77e-6 - 1.0).abs() < 0.01);
    /// # Ok::<(), hearthplan::physics::error::PhysicsError>(())
    /// ```
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub fn at(&self, temperature: f64, pressure: f64) -> Result<GasProperties, PhysicsError> {
        let temperature = within("gas temperature", "K", temperature, COLDEST, HOTTEST)?;
        let pressure = within("gas pressure", "Pa", pressure, 1e3, 1e6)?;
        Ok(self.properties(temperature, pressure))
    }

    /// As [`at`](Self::at), inputs not checked.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn properties(&self, temperature: f64, pressure: f64) -> GasProperties {
        let masses = &*MASSES;
        let logarithm = temperature.ln();
        let root = temperature.sqrt();
        let shares = self.fractions.each().map(|(_, share)| share);
        let viscosity_root = TRANSPORT.map(|gas| polynomial(&gas.viscosity, logarithm));
        let mut reduced = viscosity_root;
        for (place, mass) in reduced.iter_mut().zip(&masses.fourth_root) {
            *place /= mass;
        }
        let inverse = reduced.map(|number| 1.0 / number);
        let (mut viscosity, mut parallel, mut series) = (0.0, 0.0, 0.0);
        let gases = shares.iter().zip(&viscosity_root).zip(&reduced);
        for (((share, own_root), own), (weights, gas)) in
            gases.zip(masses.weight.iter().zip(TRANSPORT))
        {
            if *share <= 0.0 {
                continue;
            }
            let interaction: f64 = shares
                .iter()
                .zip(&inverse)
                .zip(weights)
                .map(|((other_share, other), weight)| {
                    let ratio = 1.0 + own * other;
                    other_share * weight * ratio * ratio
                })
                .sum();
            viscosity += share * own_root * own_root / interaction;
            let conductivity = polynomial(&gas.conductivity, logarithm);
            parallel += share * conductivity;
            series += share / conductivity;
        }
        GasProperties {
            density: pressure * self.molar_mass / (GAS_CONSTANT * temperature),
            viscosity: root * viscosity,
            conductivity: root * 0.5 * (parallel + 1.0 / series),
            heat_capacity: self.fractions.heat_capacity(temperature) / self.molar_mass,
        }
    }
}

/// Mass of a set of gases in kg, for amounts in mol.
///
/// ```
/// use hearthplan::physics::{equilibrium::GasAmounts, gas_mixture::mass};
/// assert!((mass(&GasAmounts { nitrogen: 2.0, ..GasAmounts::default() }) - 0.056028).abs() < 1e-9);
/// ```
pub fn mass(amounts: &GasAmounts) -> f64 {
    amounts
        .each()
        .iter()
        .map(|(species, amount)| amount * Species::molar_mass(*species))
        .sum()
}

/// Sum of `coefficients[i] * x^i` by Horner's rule.
#[cfg_attr(hearthplan_site, optimize(speed))]
fn polynomial(coefficients: &[f64; 5], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}
