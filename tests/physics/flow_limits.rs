//! Flow losses on any input, and radiation past shields.

use hearthplan::physics::air::{Air, pressure_at_altitude};
use hearthplan::physics::convection::{Surface, Surroundings, coefficients};
use hearthplan::physics::friction::{Flow, Pipe, friction_factor, pipe_loss};
use hearthplan::physics::orifice::Nozzles;
use hearthplan::physics::packed_bed::{Bed, BedGas, pressure_loss, velocity_for};
use hearthplan::physics::radiation::{Shield, between_plates};
use proptest::prelude::*;

#[test]
fn each_equal_shield_takes_its_share() {
    let shield = Shield {
        emittance_to_hot: 0.3,
        emittance_to_cold: 0.3,
    };
    let bare = between_plates(900.0, 0.3, 320.0, 0.3, &[]).unwrap();
    for count in 1..5_usize {
        let found = between_plates(900.0, 0.3, 320.0, 0.3, &vec![shield; count]).unwrap();
        assert!((bare.flux / found.flux - (count as f64 + 1.0)).abs() < 1e-9);
        assert_eq!(found.shield_temperatures.len(), count);
        // Equal steps of the fourth power from plate to plate.
        let step = (900.0_f64.powi(4) - 320.0_f64.powi(4)) / (count as f64 + 1.0);
        for (i, temperature) in found.shield_temperatures.iter().enumerate() {
            let wanted = (900.0_f64.powi(4) - step * (i as f64 + 1.0)).powf(0.25);
            assert!((temperature - wanted).abs() < 1e-6);
        }
    }
}

#[test]
fn plate_up_does_not_jump_between_its_laws() {
    let still = Surroundings {
        air_temperature: 293.15,
        pressure: 101_325.0,
        wind_speed: 0.0,
    };
    let mut before = 0.0;
    for tenth in 1..6000 {
        let surface = 293.15 + f64::from(tenth) * 0.1;
        let rise = surface - 293.15;
        let flux =
            coefficients(Surface::FacingUp { side: 0.5 }, surface, &still).governing() * rise;
        assert!(flux > before, "{surface}");
        // A tenth of a kelvin may not add more than a twentieth once the rise is more than a few kelvin.
        assert!(rise < 5.0 || flux < 1.05 * before, "{surface}");
        before = flux;
    }
}

proptest! {
    #[test]
    fn any_numbers_give_a_loss_or_a_reason(n: [f64; 8], count: u32) {
        let flow = Flow { mass_flow: n[0], density: n[1], viscosity: n[2] };
        let pipe = Pipe { diameter: n[3], length: n[4], roughness: n[5], fittings: n[6] };
        prop_assert!(pipe_loss(&flow, &pipe).is_ok_and(|loss| loss.total().is_finite()) || pipe_loss(&flow, &pipe).is_err());
        let bed = Bed { piece_diameter: n[0], voidage: n[1], depth: n[2] };
        let gas = BedGas { density: n[3], viscosity: n[4] };
        for found in [pressure_loss(&bed, &gas, n[5]), velocity_for(&bed, &gas, n[6])].into_iter().flatten() {
            prop_assert!(found.is_finite());
        }
        let nozzles = Nozzles { count, bore: n[0], discharge_coefficient: n[1] };
        for found in [nozzles.passing(n[2], n[3]), nozzles.driven_by(n[4], n[5])].into_iter().flatten() {
            prop_assert!(found.pressure_drop.is_finite() && found.velocity.is_finite());
        }
        let _ = (friction_factor(n[6], n[7]), pressure_at_altitude(n[7]), Air::at(n[6], n[7]).prandtl());
        let around = Surroundings { air_temperature: n[0], pressure: n[1], wind_speed: n[2] };
        let _ = coefficients(Surface::VerticalCylinder { height: n[3], diameter: n[4] }, n[5], &around);
        let _ = coefficients(Surface::FacingDown { side: n[3] }, n[5], &around);
    }

    #[test]
    fn friction_is_finite_and_laminar_at_the_slow_end(reynolds in 0.1..1e8_f64, roughness in 0.0..0.05_f64) {
        let factor = friction_factor(reynolds, roughness);
        prop_assert!(factor.is_finite() && factor > 0.0);
        if reynolds < 1000.0 {
            prop_assert!((factor * reynolds / 64.0 - 1.0).abs() < 1e-2);
        }
    }

    #[test]
    fn pipe_without_flow_costs_nothing(diameter in 0.01..0.5_f64) {
        let flow = Flow { mass_flow: 0.0, density: 1.2, viscosity: 1.8e-5 };
        let pipe = Pipe { diameter, length: 5.0, roughness: 4.5e-5, fittings: 3.0 };
        prop_assert_eq!(pipe_loss(&flow, &pipe).unwrap().total(), 0.0);
    }
}
