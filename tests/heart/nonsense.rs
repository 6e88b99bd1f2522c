//! Any numbers at all: an answer made of numbers, or an error; never a panic.

use crate::equilibrium::Draw;
use hearthplan::physics::equilibrium::{Constants, Elements};
use hearthplan::sizing::fuel::Fuel;
use hearthplan::sizing::gas::{
    AirClosure, CharBed, Gasifier, HearthWall, HeatLoss, Load, ShellLoss, solve_with_shell,
};
use std::convert::Infallible;
use uom::si::f64::{
    HeatFluxDensity, Length, MassRate, Power, Pressure, Ratio, ThermalConductivity,
    ThermodynamicTemperature, VolumeRate,
};
use uom::si::heat_flux_density::watt_per_square_meter;
use uom::si::length::meter;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::power::watt;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermal_conductivity::watt_per_meter_kelvin;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::volume_rate::cubic_meter_per_second;

/// Mostly a sensible number, now and then anything.
fn perhaps(draw: &mut Draw, low: f64, high: f64) -> f64 {
    const ODD: [f64; 9] = [
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        0.0,
        -1.0,
        1e-300,
        1e300,
        f64::MIN_POSITIVE,
        -1e-12,
    ];
    if draw.next() < 0.04 {
        let chosen = draw.between(0.0, ODD.len() as f64) as usize;
        ODD.get(chosen).copied().unwrap_or(f64::NAN)
    } else {
        draw.between(low, high)
    }
}

#[test]
fn hearths_of_any_numbers() {
    let mut draw = Draw(99);
    let (mut solved, mut refused) = (0, 0);
    for _ in 0..6_000 {
        let mut part = |low, high| Ratio::new::<ratio>(perhaps(&mut draw, low, high));
        let fuel = Fuel {
            carbon: part(0.45, 0.55),
            hydrogen: part(0.05, 0.065),
            oxygen: part(0.38, 0.42),
            nitrogen: part(0.0, 0.01),
            sulphur: part(0.0, 0.003),
            ash: part(0.0, 0.05),
            moisture: part(0.0, 0.6),
            heat: part(0.8, 1.2),
        };
        let char = CharBed {
            share: part(0.1, 0.4),
            drawn: part(0.0, 0.1),
            carbon: part(0.9, 0.94),
            hydrogen: part(0.0, 0.03),
            oxygen: part(0.05, 0.06),
        };
        let equivalence_ratio = part(0.05, 1.0);
        let freeze = perhaps(&mut draw, 750.0, 1450.0);
        let gasifier = Gasifier {
            fuel,
            char,
            air: if draw.next() < 0.5 {
                AirClosure::AirHeld { equivalence_ratio }
            } else {
                AirClosure::CharLimited {
                    freeze_temperature: ThermodynamicTemperature::new::<kelvin>(freeze),
                }
            },
            pressure: Pressure::new::<pascal>(perhaps(&mut draw, 5e4, 2e5)),
        };
        let load = if draw.next() < 0.5 {
            Load::Gas(VolumeRate::new::<cubic_meter_per_second>(perhaps(
                &mut draw, 1e-4, 0.05,
            )))
        } else {
            Load::Fuel(MassRate::new::<kilogram_per_second>(perhaps(
                &mut draw, 1e-5, 0.02,
            )))
        };
        let loss = HeatLoss::Power {
            at_or_above_nozzle: Power::new::<watt>(perhaps(&mut draw, 0.0, 5_000.0)),
            below_nozzle: Power::new::<watt>(perhaps(&mut draw, 0.0, 5_000.0)),
            load,
        };
        let wall = HearthWall {
            radius: Length::new::<meter>(perhaps(&mut draw, 0.02, 0.3)),
            conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(perhaps(
                &mut draw, 0.5, 3.0,
            )),
        };
        let slope = perhaps(&mut draw, 0.0, 20.0);
        let alone = gasifier.solve(loss);
        let together = solve_with_shell(&gasifier, load, wall, |inside| {
            let heat = slope * (inside.get::<kelvin>() - 293.0);
            Ok::<_, Infallible>(ShellLoss {
                at_or_above_nozzle: Power::new::<watt>(0.1 * heat),
                below_nozzle: Power::new::<watt>(0.1 * heat),
                wall_flux: HeatFluxDensity::new::<watt_per_square_meter>(heat),
            })
        });
        for gas in [alone, together.map(|found| found.gas)] {
            match gas {
                Ok(gas) => {
                    solved += 1;
                    let numbers = [
                        gas.lower_heating_value,
                        gas.mixture_heating_value,
                        gas.equivalence_ratio.get::<ratio>(),
                        gas.hearth_temperature.get::<kelvin>(),
                        gas.exit_temperature.get::<kelvin>(),
                        gas.gas_per_fuel.value,
                        gas.dry.total() - 1.0,
                    ];
                    assert!(
                        numbers.iter().all(|number| number.is_finite()),
                        "{gasifier:?}"
                    );
                    assert!(gas.dry.each().iter().all(|(_, part)| *part >= 0.0));
                }
                Err(reason) => {
                    refused += 1;
                    assert!(!reason.to_string().is_empty());
                }
            }
        }
    }
    assert!(solved > 1_000 && refused > 1_000, "{solved} {refused}");
}

#[test]
fn equilibria_of_any_numbers() {
    let mut draw = Draw(5);
    let mut solved = 0;
    for _ in 0..20_000 {
        let mut amount = |high| perhaps(&mut draw, 0.0, high);
        let elements = Elements {
            carbon: amount(3.0),
            hydrogen: amount(6.0),
            oxygen: amount(5.0),
            nitrogen: amount(9.0),
        };
        let temperature = amount(3500.0);
        if let Ok(state) = Constants::at(temperature, 101_325.0)
            .and_then(|constants| constants.with_carbon(&elements))
        {
            solved += 1;
            let whole = state.gas.total() + state.solid_carbon;
            assert!(
                whole.is_finite() && whole > 0.0,
                "{elements:?} {temperature}"
            );
            assert!(state.gas.each().iter().all(|(_, amount)| *amount >= 0.0));
        }
    }
    assert!(solved > 10_000, "{solved}");
}
