//! Water against the check values printed with the equations (from memory) and steam tables.

use hearthplan::physics::water::{dew_point, latent_heat, saturation_pressure};
use proptest::prelude::*;

#[test]
fn saturation_line_gives_its_printed_check_values() {
    for (temperature, pressure) in [
        (300.0, 3536.58941),
        (500.0, 2.638_897_76e6),
        (600.0, 12.344_314_6e6),
    ] {
        let found = saturation_pressure(temperature).unwrap();
        assert!((found / pressure - 1.0).abs() < 1e-8, "{found}");
    }
    for (pressure, temperature) in [(1e5, 372.755919), (1e6, 453.035632), (1e7, 584.149488)] {
        let found = dew_point(pressure).unwrap();
        assert!((found - temperature).abs() < 1e-6, "{found}");
    }
}

#[test]
fn latent_heat_follows_the_steam_tables() {
    for (celsius, latent) in [
        (0.01, 2500.9),
        (25.0, 2441.7),
        (50.0, 2382.0),
        (100.0, 2256.4),
        (200.0, 1939.8),
        (300.0, 1404.6),
    ] {
        let found = latent_heat(celsius + 273.15).unwrap() / 1e3;
        assert!(
            (found / latent - 1.0_f64).abs() < 1.5e-3,
            "{celsius}: {found}"
        );
    }
}

#[test]
fn frost_and_the_critical_point_are_refused() {
    assert!(saturation_pressure(270.0).is_err());
    assert!(dew_point(500.0).is_err());
    assert!(latent_heat(640.0).is_err());
    assert!(dew_point(f64::NAN).is_err());
}

proptest! {
    #[test]
    fn dew_point_is_the_inverse(temperature in 273.15..623.1_f64) {
        let back = dew_point(saturation_pressure(temperature).unwrap()).unwrap();
        prop_assert!((back - temperature).abs() < 1e-7);
    }

    #[test]
    fn any_number_gives_a_number_or_a_reason(value: f64) {
        for found in [saturation_pressure(value), dew_point(value), latent_heat(value)].into_iter().flatten() {
            prop_assert!(found.is_finite() && found > 0.0);
        }
    }
}
