//! Equilibrium: balances, laws that must hold, and refusals.

use hearthplan::physics::equilibrium::{Constants, Elements, EquilibriumError};
use hearthplan::physics::species::{GAS_CONSTANT, Species};

/// Numbers between 0 and 1 that are the same in every run (Knuth's linear congruence).
pub struct Draw(pub u64);

impl Draw {
    pub fn next(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.next()
    }
}

const ATMOSPHERE: f64 = 101_325.0;

fn worst_imbalance(found: &Elements, wanted: &Elements) -> f64 {
    [
        found.carbon - wanted.carbon,
        found.hydrogen - wanted.hydrogen,
        found.oxygen - wanted.oxygen,
        found.nitrogen - wanted.nitrogen,
    ]
    .iter()
    .fold(0.0, |worst: f64, gap| worst.max(gap.abs()))
        / wanted.total()
}

#[test]
fn elements_balance_and_affinities_vanish_over_the_whole_range() {
    let mut draw = Draw(7);
    let mut with_solid = 0;
    for _ in 0..20_000 {
        let carbon = draw.between(0.01, 4.0);
        let elements = Elements {
            carbon,
            hydrogen: draw.between(0.0, 6.0),
            oxygen: carbon * draw.between(0.05, 4.0),
            nitrogen: draw.between(0.0, 12.0),
        };
        let temperature = draw.between(450.0, 2600.0);
        let pressure = ATMOSPHERE * draw.between(0.5, 2.0);
        let state = Constants::at(temperature, pressure)
            .unwrap()
            .with_carbon(&elements)
            .unwrap_or_else(|error| panic!("{error}: {elements:?} {temperature}"));
        let solid = Elements {
            carbon: state.solid_carbon,
            ..Elements::default()
        };
        let found = state.gas.elements().plus(1.0, &solid);
        assert!(
            worst_imbalance(&found, &elements) < 1e-9,
            "{elements:?} {temperature}"
        );
        assert!(state.carbon_activity <= 1.0 + 1e-9);
        assert!(state.gas.each().iter().all(|(_, amount)| *amount >= 0.0));
        if state.solid_carbon > 0.0 {
            with_solid += 1;
        }
        // Water-gas shift, straight from Gibbs energies: nothing drives the reaction either way.
        let gas = state.gas;
        if gas.hydrogen > 1e-12 && gas.carbon_monoxide > 1e-12 {
            let quotient = gas.carbon_dioxide * gas.hydrogen / (gas.carbon_monoxide * gas.water);
            let gibbs = Species::CarbonDioxide.gibbs_energy(temperature)
                + Species::Hydrogen.gibbs_energy(temperature)
                - Species::CarbonMonoxide.gibbs_energy(temperature)
                - Species::Water.gibbs_energy(temperature);
            let driving = quotient.ln() + gibbs / (GAS_CONSTANT * temperature);
            assert!(driving.abs() < 1e-7, "{driving} {elements:?} {temperature}");
        }
    }
    assert!((2_000..18_000).contains(&with_solid), "{with_solid}");
}

#[test]
fn solid_carbon_and_gas_meet_where_carbon_just_vanishes() {
    let constants = Constants::at(950.0, ATMOSPHERE).unwrap();
    let rich = Elements {
        carbon: 2.0,
        hydrogen: 2.0,
        oxygen: 1.5,
        nitrogen: 3.0,
    };
    let state = constants.with_carbon(&rich).unwrap();
    assert!(state.solid_carbon > 0.1);
    let without_solid = Elements {
        carbon: rich.carbon - state.solid_carbon,
        ..rich
    };
    let gas_only = constants.gas_only(&without_solid).unwrap();
    assert!((gas_only.carbon_activity - 1.0).abs() < 1e-9);
    assert!((gas_only.gas.methane - state.gas.methane).abs() < 1e-9);
    assert!((gas_only.gas.carbon_monoxide - state.gas.carbon_monoxide).abs() < 1e-9);
}

#[test]
fn charcoal_without_hydrogen_and_hydrogen_without_carbon_are_no_trouble() {
    let constants = Constants::at(1100.0, ATMOSPHERE).unwrap();
    let charcoal = Elements {
        carbon: 1.0,
        oxygen: 1.2,
        nitrogen: 4.0,
        hydrogen: 0.0,
    };
    let gas = constants.gas_only(&charcoal).unwrap().gas;
    assert!((gas.carbon_monoxide - 0.8).abs() < 1e-9);
    assert_eq!(gas.methane, 0.0);
    let hydrogen = Elements {
        carbon: 0.0,
        hydrogen: 4.0,
        oxygen: 1.0,
        nitrogen: 0.0,
    };
    let gas = constants.gas_only(&hydrogen).unwrap().gas;
    assert!((gas.water - 1.0).abs() < 1e-9 && (gas.hydrogen - 1.0).abs() < 1e-9);
}

#[test]
fn what_has_no_equilibrium_is_refused_with_the_reason() {
    let constants = Constants::at(1100.0, ATMOSPHERE).unwrap();
    let soot = Elements {
        carbon: 3.0,
        hydrogen: 1.0,
        oxygen: 1.0,
        nitrogen: 0.0,
    };
    assert!(matches!(
        constants.gas_only(&soot),
        Err(EquilibriumError::TooMuchCarbon { .. })
    ));
    let oxygen_free = Elements {
        oxygen: 0.0,
        ..soot
    };
    assert_eq!(
        constants.with_carbon(&oxygen_free),
        Err(EquilibriumError::NoOxygen)
    );
    for wrong in [f64::NAN, f64::INFINITY, -1.0] {
        let elements = Elements {
            hydrogen: wrong,
            ..soot
        };
        let said = constants.with_carbon(&elements).unwrap_err().to_string();
        assert!(said.contains("hydrogen"), "{said}");
        assert!(Constants::at(wrong, ATMOSPHERE).is_err());
        assert!(Constants::at(1100.0, wrong).is_err());
    }
}
