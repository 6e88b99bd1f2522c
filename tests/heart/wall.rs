//! The wall: temperature across the hearth, and hearth and shell solved together.

use crate::gas::{celsius, reference_hearth, reference_wood};
use hearthplan::sizing::gas::{
    GasError, Gasifier, HearthSolution, HearthWall, Load, RadialProfile, ShellLoss,
    solve_with_shell,
};
use std::convert::Infallible;
use uom::si::f64::{
    HeatFluxDensity, Length, Power, Ratio, TemperatureInterval, ThermalConductivity, VolumeRate,
};
use uom::si::heat_flux_density::watt_per_square_meter;
use uom::si::length::millimeter;
use uom::si::power::watt;
use uom::si::ratio::ratio;
use uom::si::temperature_interval::kelvin as kelvin_difference;
use uom::si::thermal_conductivity::watt_per_meter_kelvin;
use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};
use uom::si::volume_rate::cubic_meter_per_hour;

fn wall() -> HearthWall {
    HearthWall {
        radius: Length::new::<millimeter>(60.0),
        conductivity: ThermalConductivity::new::<watt_per_meter_kelvin>(1.5),
    }
}

fn flux(value: f64) -> HeatFluxDensity {
    HeatFluxDensity::new::<watt_per_square_meter>(value)
}

#[test]
fn bare_steel_and_insulated_wall_of_the_notes() {
    // Radius 60 mm, 1.5 W/(m·K): 15 kW/m² gives 300 K from core to wall, 1.5 kW/m² gives 30 K.
    for (heat, drop) in [(15_000.0, 300.0), (1_500.0, 30.0)] {
        let profile = RadialProfile::from_mean(
            celsius(1150.0),
            flux(heat),
            wall().radius,
            wall().conductivity,
        )
        .unwrap();
        let found: TemperatureInterval = profile.drop;
        assert!((found.get::<kelvin_difference>() - drop).abs() < 1e-9);
        let core = profile.core.get::<degree_celsius>();
        assert!((core - 1150.0 - drop / 2.0).abs() < 1e-9);
        assert!((profile.wall.get::<degree_celsius>() - core + drop).abs() < 1e-9);
    }
}

#[test]
fn cold_share_is_the_share_found_by_counting_rings() {
    let from_mean = |mean, heat| {
        let wall = wall();
        RadialProfile::from_mean(celsius(mean), flux(heat), wall.radius, wall.conductivity).unwrap()
    };
    counted(from_mean(1080.0, 14_000.0));
    let held = from_mean(1500.0, 80_000.0).held_at(celsius(2000.0));
    assert!(held.is_held());
    assert_eq!(held.core, celsius(2000.0));
    counted(held);
    // Just held is hardly another than not held.
    let asked = from_mean(1500.0, 40_000.0);
    let just = asked.held_at(asked.core - TemperatureInterval::new::<kelvin_difference>(1e-6));
    let limit = celsius(1200.0);
    let apart = just.share_colder_than(limit) - asked.share_colder_than(limit);
    assert!(just.is_held() && apart.value.abs() < 1e-8);
    assert_eq!(asked.held_at(asked.core), asked);
    // Colder than its mean no core is held.
    let flat = asked.held_at(celsius(1400.0));
    assert_eq!(
        (flat.core, flat.mean, flat.wall),
        (asked.mean, asked.mean, asked.wall)
    );
    assert!(flat.share_colder_than(limit).value < 1e-3);
}

/// Mean and cold share of a profile are those of its rings.
fn counted(profile: RadialProfile) {
    let limit = celsius(1000.0);
    const RINGS: usize = 20_000;
    let (mut cold, mut sum) = (0.0, 0.0);
    for ring in 0..RINGS {
        let position = (ring as f64 + 0.5) / RINGS as f64;
        let area = 2.0 * position / RINGS as f64;
        let temperature = profile.at(Ratio::new::<ratio>(position));
        sum += area * temperature.get::<kelvin>();
        if temperature < limit {
            cold += area;
        }
    }
    let closed_form = profile.share_colder_than(limit).get::<ratio>();
    assert!(closed_form > 0.1 && (closed_form - cold).abs() < 1e-3);
    assert!((profile.mean.get::<kelvin>() - sum).abs() < 0.01);
}

#[test]
fn more_heat_through_the_wall_never_means_less_tar_slip() {
    // At the same core always; at the same mean, core held or not, as long as the mean itself cracks tar.
    let slip = |profile: Result<RadialProfile, GasError>| {
        profile
            .unwrap()
            .share_colder_than(celsius(1000.0))
            .get::<ratio>()
    };
    for temperature in [950.0, 1000.0, 1050.0, 1150.0, 1300.0] {
        let (mut by_core, mut by_mean, mut by_held) = (0.0, 0.0, 0.0);
        for step in 0..200 {
            let heat = flux(200.0 * f64::from(step));
            let (radius, conductivity) = (wall().radius, wall().conductivity);
            let at = celsius(temperature);
            let core = slip(RadialProfile::from_core(at, heat, radius, conductivity));
            assert!(core >= by_core - 1e-12);
            by_core = core;
            if temperature >= 1000.0 {
                let profile = RadialProfile::from_mean(at, heat, radius, conductivity);
                let held = slip(
                    profile
                        .clone()
                        .map(|profile| profile.held_at(celsius(1700.0))),
                );
                let mean = slip(profile);
                assert!(mean >= by_mean - 1e-12 && held >= by_held - 1e-12);
                (by_mean, by_held) = (mean, held);
            }
        }
        assert!(by_core > 0.5);
    }
}

#[test]
fn a_wall_that_heats_the_hearth_is_cold_in_the_middle() {
    let profile = RadialProfile::from_core(
        celsius(950.0),
        flux(-5_000.0),
        wall().radius,
        wall().conductivity,
    )
    .unwrap();
    assert!(profile.wall > profile.core);
    let cold = profile.share_colder_than(celsius(1000.0)).get::<ratio>();
    assert!((cold - 0.5).abs() < 1e-9, "{cold}");
    let even = RadialProfile::from_core(
        celsius(950.0),
        flux(0.0),
        wall().radius,
        wall().conductivity,
    )
    .unwrap();
    assert_eq!(even.share_colder_than(celsius(1000.0)).get::<ratio>(), 1.0);
    assert_eq!(even.share_colder_than(celsius(900.0)).get::<ratio>(), 0.0);
}

/// Hearth at `gas` Nm³/h in a shell that passes `coefficient` W/(m²·K) to air at 20 °C over 0.2 m², of which
/// `above` m² at the nozzles and above.
fn in_shell(
    hearth: &Gasifier,
    gas: f64,
    coefficient: f64,
    above: f64,
) -> Result<HearthSolution, GasError> {
    let load = Load::Gas(VolumeRate::new::<cubic_meter_per_hour>(gas));
    solve_with_shell(hearth, load, wall(), |inside| {
        let heat = coefficient * (inside.get::<degree_celsius>() - 20.0);
        Ok::<_, Infallible>(ShellLoss {
            at_or_above_nozzle: Power::new::<watt>(above * heat),
            below_nozzle: Power::new::<watt>((0.2 - above) * heat),
            wall_flux: flux(heat),
        })
    })
}

#[test]
fn hearth_and_shell_agree() {
    let hearth = reference_hearth(15.0);
    for coefficient in [0.0, 0.5, 2.0, 8.0, 15.0] {
        let found = in_shell(&hearth, 30.0, coefficient, 0.1).unwrap();
        let wall = found.profile.wall.get::<degree_celsius>();
        // What the shell was told is what the hearth has at the wall.
        let heat = found.shell.wall_flux.get::<watt_per_square_meter>();
        assert!((heat - coefficient * (wall - 20.0)).abs() <= 0.011 * coefficient);
        // The loss share is the shell's watts over the power of the wood burned at this load.
        let lost = found.shell.at_or_above_nozzle + found.shell.below_nozzle;
        let share = (lost / found.fuel_power).get::<ratio>();
        assert!((share - found.gas.loss_share.get::<ratio>()).abs() < 1e-9);
        let gas = found.gas_rate.get::<cubic_meter_per_hour>();
        assert!((gas - 30.0).abs() < 1e-9);
        assert!(found.shell_calls <= 7, "{}", found.shell_calls);
    }
}

#[test]
fn more_load_is_never_a_larger_loss_share_and_insulation_never_a_weaker_gas() {
    let hearth = Gasifier::usual(reference_wood(15.0));
    let mut last_share = f64::INFINITY;
    for gas in [8.0, 12.0, 18.0, 25.0, 40.0, 60.0, 90.0] {
        let found = in_shell(&hearth, gas, 6.0, 0.1).unwrap();
        let share = found.gas.loss_share.get::<ratio>();
        assert!(share < last_share, "{gas}");
        last_share = share;
    }
    let mut last_heating_value = f64::INFINITY;
    let mut last_slip = 0.0;
    for coefficient in [0.2, 1.0, 3.0, 6.0, 10.0, 15.0, 20.0, 25.0] {
        let found = in_shell(&hearth, 25.0, coefficient, 0.2).unwrap();
        let slip = found.profile.share_colder_than(celsius(1000.0));
        assert!(found.gas.lower_heating_value < last_heating_value);
        assert!(slip.get::<ratio>() >= last_slip, "{coefficient}");
        last_heating_value = found.gas.lower_heating_value;
        last_slip = slip.get::<ratio>();
    }
    assert!(last_slip > 0.2, "{last_slip}");
}

#[test]
fn a_shell_that_takes_too_much_or_fails_is_named() {
    let hearth = reference_hearth(40.0);
    let load = Load::Gas(VolumeRate::new::<cubic_meter_per_hour>(5.0));
    let drained = solve_with_shell(&hearth, load, wall(), |_| {
        Ok::<_, Infallible>(ShellLoss {
            at_or_above_nozzle: Power::new::<watt>(50_000.0),
            below_nozzle: Power::new::<watt>(0.0),
            wall_flux: flux(10_000.0),
        })
    });
    assert!(matches!(drained, Err(GasError::TooMuchHeatLost { .. })));
    let failing = solve_with_shell(&hearth, load, wall(), |_| Err::<ShellLoss, _>("no layers"));
    assert!(matches!(failing, Err(GasError::Shell { .. })));
    let confused = solve_with_shell(&hearth, load, wall(), |_| {
        Ok::<_, Infallible>(ShellLoss {
            at_or_above_nozzle: Power::new::<watt>(f64::NAN),
            below_nozzle: Power::new::<watt>(0.0),
            wall_flux: flux(0.0),
        })
    });
    assert!(matches!(confused, Err(GasError::OutOfRange { .. })));
}
