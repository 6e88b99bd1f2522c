//! Engine demand and power.

use hearthplan::design::{Design, Kind};
use hearthplan::sizing::engine::{Cycle, Engine, EngineGas, Intake, usual_brake_efficiency};
use uom::si::angular_velocity::revolution_per_minute;
use uom::si::f64::{
    AngularVelocity, Length, Power, Ratio, SpecificVolume, ThermodynamicTemperature, Volume,
};
use uom::si::length::meter;
use uom::si::mass_rate::kilogram_per_hour;
use uom::si::power::kilowatt;
use uom::si::ratio::ratio;
use uom::si::specific_volume::cubic_meter_per_kilogram;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::volume::{cubic_centimeter, liter};
use uom::si::volume_rate::cubic_meter_per_hour;

fn part(value: f64) -> Ratio {
    Ratio::new::<ratio>(value)
}

fn engine() -> Engine {
    Engine {
        cycle: Cycle::FourStroke,
        displacement: Volume::new::<cubic_centimeter>(400.0),
        speed: AngularVelocity::new::<revolution_per_minute>(3000.0),
        volumetric_efficiency: part(0.8),
        brake_efficiency: part(0.22),
        petrol_efficiency: part(0.25),
        generator_efficiency: part(0.85),
        load: part(1.0),
    }
}

fn gas() -> EngineGas {
    EngineGas {
        lower_heating_value: 5.0,
        stoichiometric_air: 1.05,
        air_ratio: part(1.0),
        water_per_gas: part(0.0),
        gas_per_fuel: SpecificVolume::new::<cubic_meter_per_kilogram>(2.2),
    }
}

fn intake(altitude: f64, temperature: f64) -> Intake {
    Intake {
        altitude: Length::new::<meter>(altitude),
        temperature: ThermodynamicTemperature::new::<degree_celsius>(temperature),
    }
}

fn near(found: f64, expected: f64) {
    assert!(
        (found / expected - 1.0).abs() < 5e-4,
        "{found} for {expected}"
    );
}

#[test]
fn worked_by_hand() {
    // 400 cm³, four-stroke, 3000 turns per minute = 50 per second, 25 fillings per second:
    //   0.0004 m³ x 25 /s x 0.80            = 0.0080 m³/s = 28.8 m³/h of mixture at the intake
    // Sea level, 25 °C: x 273.15 / 298.15   = 26.385 Nm³/h
    // Gas 5.0 MJ/Nm³ with 1.05 of air:      / 2.05 = 12.871 Nm³/h of gas, 13.514 of air
    // Heat 12.871 x 5.0 / 3.6               = 17.876 kW, x 0.22 = 3.9328 kW shaft, x 0.85 = 3.3429 kW electric
    // Petrol: 43.5 / (14.7/1.293 + 22.414/105) = 43.5 / 11.5823 = 3.7557 MJ/Nm³
    //   26.385 x 3.7557 / 3.6 x 0.25        = 6.8815 kW, so 0.5715 of the petrol power is kept
    // Wood 12.871 / 2.2                     = 5.8504 kg/h, 1.4876 kg per shaft kWh, 1.7501 per electric kWh
    let run = engine().run(&gas(), &intake(0.0, 25.0)).unwrap();
    near(run.mixture_rate.get::<cubic_meter_per_hour>(), 28.8);
    near(run.gas_rate.get::<cubic_meter_per_hour>(), 12.871);
    near(run.air_rate.get::<cubic_meter_per_hour>(), 13.514);
    near(run.gas_power.get::<kilowatt>(), 17.876);
    near(run.shaft_power.get::<kilowatt>(), 3.9328);
    near(run.electric_power.get::<kilowatt>(), 3.3429);
    near(run.petrol_power.get::<kilowatt>(), 6.8815);
    near(run.power_kept.get::<ratio>(), 0.5715);
    near(run.fuel_rate.get::<kilogram_per_hour>(), 5.8504);
    near(run.fuel_per_shaft_kilowatt_hour, 1.4876);
    near(run.fuel_per_electric_kilowatt_hour, 1.7501);
}

#[test]
fn two_strokes_draw_twice_and_thin_warm_air_draws_less() {
    let sea = engine().run(&gas(), &intake(0.0, 15.0)).unwrap();
    near(sea.thin_air_factor.get::<ratio>(), 1.0);
    let two_stroke = Engine {
        cycle: Cycle::TwoStroke,
        ..engine()
    };
    let two = two_stroke.run(&gas(), &intake(0.0, 15.0)).unwrap();
    near((two.gas_rate / sea.gas_rate).get::<ratio>(), 2.0);
    // Standard atmosphere: 84 556 Pa at 1500 m.
    let high = engine().run(&gas(), &intake(1500.0, 15.0)).unwrap();
    near(
        (high.shaft_power / sea.shaft_power).get::<ratio>(),
        84_556.0 / 101_325.0,
    );
    let warm = engine().run(&gas(), &intake(0.0, 60.0)).unwrap();
    near(
        (warm.shaft_power / sea.shaft_power).get::<ratio>(),
        288.15 / 333.15,
    );
    // The hearth sees less gas, but a kWh takes as much wood as before.
    near(
        high.fuel_per_shaft_kilowatt_hour,
        sea.fuel_per_shaft_kilowatt_hour,
    );
}

#[test]
fn both_ways_round_agree() {
    let place = intake(800.0, 40.0);
    let wanted = Power::new::<kilowatt>(5.0);
    let size = engine()
        .displacement_for_power(wanted, &gas(), &place)
        .unwrap();
    let sized = Engine {
        displacement: size,
        ..engine()
    };
    let run = sized.run(&gas(), &place).unwrap();
    near(run.shaft_power.get::<kilowatt>(), 5.0);
    let back = engine()
        .displacement_for_gas(run.gas_rate, &gas(), &place)
        .unwrap();
    near(back.get::<liter>(), size.get::<liter>());
}

#[test]
fn air_and_water_in_the_mixture_cost_power() {
    let place = intake(0.0, 25.0);
    let best = engine().run(&gas(), &place).unwrap().shaft_power;
    for worse in [
        EngineGas {
            air_ratio: part(1.2),
            ..gas()
        },
        EngineGas {
            air_ratio: part(0.85),
            ..gas()
        },
        EngineGas {
            water_per_gas: part(0.08),
            ..gas()
        },
        EngineGas {
            lower_heating_value: 4.0,
            ..gas()
        },
    ] {
        assert!(engine().run(&worse, &place).unwrap().shaft_power < best);
    }
}

#[test]
fn nonsense_is_refused_by_name() {
    let place = intake(0.0, 25.0);
    for (broken, word) in [
        (
            Engine {
                speed: AngularVelocity::new::<revolution_per_minute>(f64::NAN),
                ..engine()
            },
            "speed",
        ),
        (
            Engine {
                displacement: Volume::new::<liter>(-1.0),
                ..engine()
            },
            "displacement",
        ),
        (
            Engine {
                load: part(0.0),
                ..engine()
            },
            "load",
        ),
    ] {
        let said = broken.run(&gas(), &place).unwrap_err().to_string();
        assert!(said.contains(word), "{said}");
    }
    assert!(engine().run(&gas(), &intake(f64::NAN, 25.0)).is_err());
    assert!(engine().run(&gas(), &intake(0.0, 900.0)).is_err());
    let nothing = Power::new::<kilowatt>(0.0);
    assert!(
        engine()
            .displacement_for_power(nothing, &gas(), &place)
            .is_err()
    );
    assert!(usual_brake_efficiency(part(2.0)).is_err());
}

#[test]
fn usual_brake_efficiency_lies_where_the_trade_puts_it() {
    for compression in [6.0, 8.0, 10.0, 12.0] {
        let efficiency = usual_brake_efficiency(part(compression))
            .unwrap()
            .get::<ratio>();
        assert!((0.20..0.28).contains(&efficiency), "{efficiency}");
    }
}

/// The help of the empty field tells what is reckoned at both ends of the range.
#[test]
fn the_help_of_an_empty_efficiency_tells_what_is_taken() {
    let design = Design::default();
    let ratios = design.input("engine.compression_ratio").unwrap();
    let Kind::Number {
        allowed: (least, most),
        ..
    } = ratios.kind
    else {
        panic!("{ratios:?}");
    };
    let at = |compression: f64| {
        let found = usual_brake_efficiency(Ratio::new::<ratio>(compression)).unwrap();
        format!("{:.0} % at {compression}", 100.0 * found.value)
    };
    let told = format!("{} to {}", at(least), at(most));
    let help = design.input("engine.brake_efficiency").unwrap().meaning;
    assert!(help.contains(&told), "{told}: {help}");
}
