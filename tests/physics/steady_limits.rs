use std::f64::consts::TAU;

use hearthplan::physics::conductivity::{ConductivityCurve, ConductivityPoint};
use hearthplan::physics::convection::Surroundings;
use hearthplan::physics::layers::{Facing, Layer, Shape, Stack};
use hearthplan::physics::steady::{Outside, SteadyState};
use proptest::prelude::*;

fn solid(thickness: f64, conductivity: f64) -> Layer {
    Layer::Solid {
        thickness,
        conductivity: ConductivityCurve::constant(conductivity).unwrap(),
    }
}

fn blanket(thickness: f64) -> Layer {
    let points = [
        (473.15, 0.06),
        (673.15, 0.09),
        (873.15, 0.15),
        (1073.15, 0.22),
        (1273.15, 0.30),
    ]
    .map(|(temperature, conductivity)| ConductivityPoint {
        temperature,
        conductivity,
    });
    Layer::Solid {
        thickness,
        conductivity: ConductivityCurve::new(&points).unwrap(),
    }
}

fn hearth() -> Stack {
    let gap = Layer::StillAir {
        thickness: 0.006,
        emittance_inside: 0.8,
        emittance_outside: 0.8,
    };
    let shape = Shape::Cylinder {
        inner_radius: 0.1,
        length: 0.4,
    };
    Stack::new(
        shape,
        &[solid(0.003, 25.0), blanket(0.05), gap, solid(0.0015, 45.0)],
    )
    .unwrap()
}

fn check_balance(stack: &Stack, hot_face: f64, outside: &Outside, found: &SteadyState) {
    let air = outside.surroundings.air_temperature;
    let leaving = found.surface_loss.total_coefficient()
        * stack.outer_area()
        * (found.surface_temperature - air);
    assert!((leaving - found.heat_flow).abs() <= 1e-9 * found.heat_flow.abs() + 1e-12);
    assert!((found.interfaces[0] - hot_face).abs() <= 1e-4);
    assert_eq!(found.interfaces.len(), stack.layers().len() + 1);
    assert_eq!(*found.interfaces.last().unwrap(), found.surface_temperature);
}

#[test]
fn flat_wall_of_constant_conductivity_is_a_sum_of_resistances() {
    let stack = Stack::new(
        Shape::disc(0.5, Facing::Up),
        &[solid(0.02, 0.8), solid(0.06, 0.1), solid(0.002, 40.0)],
    )
    .unwrap();
    let outside = Outside::still(293.15, 0.9);
    let found = stack.steady(1173.15, &outside).unwrap();
    check_balance(&stack, 1173.15, &outside, &found);
    let through = 0.02 / 0.8 + 0.06 / 0.1 + 0.002 / 40.0;
    let off = 1.0 / found.surface_loss.total_coefficient();
    let flux = (1173.15 - 293.15) / (through + off);
    assert!((found.inner_flux / flux - 1.0).abs() < 1e-6);
    assert!((found.outer_flux / flux - 1.0).abs() < 1e-6);
}

#[test]
fn cylinder_of_constant_conductivity_is_a_sum_of_logarithms() {
    let shape = Shape::Cylinder {
        inner_radius: 0.08,
        length: 0.6,
    };
    let stack = Stack::new(shape, &[solid(0.004, 30.0), solid(0.05, 0.12)]).unwrap();
    let outside = Outside::still(283.15, 0.3);
    let found = stack.steady(873.15, &outside).unwrap();
    check_balance(&stack, 873.15, &outside, &found);
    let through = ((0.084_f64 / 0.08).ln() / 30.0 + (0.134_f64 / 0.084).ln() / 0.12) / (TAU * 0.6);
    let off = 1.0 / (found.surface_loss.total_coefficient() * TAU * 0.134 * 0.6);
    let flow = (873.15 - 283.15) / (through + off);
    assert!((found.heat_flow / flow - 1.0).abs() < 1e-6);
}

#[test]
fn gap_carries_radiation_and_conduction() {
    // Wide plates, one kelvin of air apart from everything else: compare with the textbook sum at the two faces found.
    let gap = Layer::StillAir {
        thickness: 0.01,
        emittance_inside: 0.7,
        emittance_outside: 0.4,
    };
    let shape = Shape::Flat {
        area: 1.0,
        side: 1.0,
        facing: Facing::Sideways,
    };
    let stack = Stack::new(shape, &[gap, solid(0.05, 0.2)]).unwrap();
    let found = stack.steady(700.0, &Outside::still(293.15, 0.9)).unwrap();
    let cold = found.interfaces[1];
    let air = hearthplan::physics::air::conductivity(0.5 * (700.0 + cold));
    let exchange = 1.0 / (1.0 / 0.7 + 1.0 / 0.4 - 1.0);
    let flow = air * (700.0 - cold) / 0.01
        + 5.670374419e-8 * exchange * (700.0_f64.powi(4) - cold.powi(4));
    assert!(
        (found.heat_flow / flow - 1.0).abs() < 2e-3,
        "{} {flow}",
        found.heat_flow
    );
}

#[test]
fn bare_face_is_as_hot_as_the_hot_face() {
    let stack = Stack::new(Shape::disc(0.3, Facing::Down), &[]).unwrap();
    let found = stack.steady(500.0, &Outside::still(293.15, 0.8)).unwrap();
    assert_eq!(found.surface_temperature, 500.0);
    assert!(found.heat_flow > 0.0);
}

#[test]
fn no_difference_means_no_flow_and_a_cold_face_takes_heat_in() {
    let outside = Outside::still(293.15, 0.9);
    let none = hearth().steady(293.15, &outside).unwrap();
    assert_eq!(none.heat_flow, 0.0);
    let cold = hearth().steady(200.0, &outside).unwrap();
    check_balance(&hearth(), 200.0, &outside, &cold);
    assert!(cold.heat_flow < 0.0 && cold.surface_temperature < 293.15);
}

#[test]
fn inner_flux_is_the_steady_one() {
    let outside = Outside::still(293.15, 0.9);
    let full = hearth().steady(1300.0, &outside).unwrap();
    assert_eq!(
        hearth().inner_flux(1300.0, &outside).unwrap(),
        full.inner_flux
    );
    assert!(full.iterations <= 8, "{}", full.iterations);
}

#[test]
fn thin_pipe_has_a_critical_radius() {
    // Poor insulation on a thin hot pipe first raises the loss: the area grows faster than the resistance.
    let loss = |thickness: f64| {
        let shape = Shape::Cylinder {
            inner_radius: 0.003,
            length: 1.0,
        };
        let stack = Stack::new(shape, &[solid(thickness, 0.2)]).unwrap();
        stack.steady(373.15, &Outside::still(293.15, 0.9)).unwrap()
    };
    let losses: Vec<f64> = (1..400)
        .map(|i| loss(f64::from(i) * 1e-4).heat_flow)
        .collect();
    let most = losses.iter().copied().fold(0.0, f64::max);
    let at = losses.iter().position(|&flow| flow == most).unwrap();
    assert!(most > 1.05 * losses[0]);
    assert!(most > 1.05 * losses[398]);
    // Close to conductivity over coefficient, a little above because the coefficient falls as the surface cools.
    let thickness = (at + 1) as f64 * 1e-4;
    let critical = 0.2 / loss(thickness).surface_loss.total_coefficient();
    let radius = 0.003 + thickness;
    assert!(
        radius > 0.6 * critical && radius < 1.4 * critical,
        "{radius} {critical}"
    );
}

#[test]
fn wind_takes_more_heat_and_cools_the_surface() {
    let still = Outside::still(293.15, 0.9);
    let mut windy = still;
    windy.surroundings.wind_speed = 6.0;
    let calm = hearth().steady(1200.0, &still).unwrap();
    let blown = hearth().steady(1200.0, &windy).unwrap();
    assert!(blown.heat_flow > calm.heat_flow);
    assert!(blown.surface_temperature < calm.surface_temperature - 10.0);
}

#[test]
fn refuses_nonsense_with_a_sentence() {
    let shape = Shape::Cylinder {
        inner_radius: 0.1,
        length: 0.4,
    };
    assert!(Stack::new(shape, &[solid(-0.1, 1.0)]).is_err());
    assert!(Stack::new(shape, &[solid(0.1, 1.0); 17]).is_err());
    assert!(Stack::new(Shape::disc(f64::NAN, Facing::Up), &[]).is_err());
    let hot = hearth()
        .steady(f64::NAN, &Outside::still(293.15, 0.9))
        .unwrap_err()
        .to_string();
    assert!(hot.contains("hot face"), "{hot}");
    assert!(
        hearth()
            .steady(1000.0, &Outside::still(293.15, 1.9))
            .is_err()
    );
}

fn any_layer() -> impl Strategy<Value = Layer> {
    let thickness = 1e-4..0.3_f64;
    prop_oneof![
        (thickness.clone(), 0.02..60.0_f64).prop_map(|(t, k)| solid(t, k)),
        thickness.clone().prop_map(blanket),
        (thickness, 0.0..=1.0_f64, 0.0..=1.0_f64).prop_map(|(thickness, inside, outside)| {
            Layer::StillAir {
                thickness,
                emittance_inside: inside,
                emittance_outside: outside,
            }
        }),
    ]
}

fn any_shape() -> impl Strategy<Value = Shape> {
    prop_oneof![
        (1e-3..1.0_f64, 0.01..3.0_f64).prop_map(|(inner_radius, length)| Shape::Cylinder {
            inner_radius,
            length
        }),
        (0.02..2.0_f64, 0..3_u8).prop_map(|(diameter, facing)| {
            let facing = [Facing::Up, Facing::Down, Facing::Sideways][usize::from(facing)];
            Shape::disc(diameter, facing)
        }),
    ]
}

fn any_outside() -> impl Strategy<Value = Outside> {
    (
        220.0..330.0_f64,
        5e4..1.05e5_f64,
        0.0..30.0_f64,
        0.0..=1.0_f64,
        any::<bool>(),
    )
        .prop_map(
            |(air_temperature, pressure, wind, emittance, still)| Outside {
                surroundings: Surroundings {
                    air_temperature,
                    pressure,
                    wind_speed: if still { 0.0 } else { wind },
                },
                emittance,
            },
        )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4000))]

    #[test]
    fn every_wall_in_range_has_a_steady_state(
        shape in any_shape(),
        mut layers in proptest::collection::vec(any_layer(), 0..7),
        last in 1e-4..0.01_f64,
        outside in any_outside(),
        hot_face in 200.0..1900.0_f64,
    ) {
        layers.push(solid(last, 45.0));
        let stack = Stack::new(shape, &layers).unwrap();
        let found = stack.steady(hot_face, &outside).unwrap();
        check_balance(&stack, hot_face, &outside, &found);
        let air = outside.surroundings.air_temperature;
        for pair in found.interfaces.windows(2) {
            prop_assert!((pair[0] - pair[1]) * (hot_face - air) >= -1e-6);
        }
        prop_assert!(found.iterations < 40, "{}", found.iterations);
    }

    #[test]
    fn more_insulation_never_loses_more_on_a_flat_wall(
        diameter in 0.1..2.0_f64,
        thickness in 0.001..0.2_f64,
        more in 1.0001..3.0_f64,
        conductivity in 0.03..2.0_f64,
        outside in any_outside(),
        hot_face in 350.0..1600.0_f64,
        facing in 0..3_u8,
    ) {
        let facing = [Facing::Up, Facing::Down, Facing::Sideways][usize::from(facing)];
        let flow = |thickness: f64| {
            Stack::new(Shape::disc(diameter, facing), &[solid(thickness, conductivity), solid(0.002, 45.0)])
                .unwrap()
                .steady(hot_face, &outside)
                .unwrap()
                .heat_flow
        };
        prop_assert!(flow(thickness * more) < flow(thickness));
    }

    #[test]
    fn arbitrary_numbers_never_panic(numbers: [f64; 12], facing in 0..3_u8) {
        let [a, b, c, d, e, f, g, h, i, j, k, l] = numbers;
        let gap = Layer::StillAir { thickness: a, emittance_inside: b, emittance_outside: c };
        let facing = [Facing::Up, Facing::Down, Facing::Sideways][usize::from(facing)];
        let outside = Outside {
            surroundings: Surroundings { air_temperature: d, pressure: e, wind_speed: f },
            emittance: g,
        };
        for shape in [
            Shape::Cylinder { inner_radius: h, length: i },
            Shape::Flat { area: h, side: i, facing },
            Shape::disc(0.3, facing),
        ] {
            for layers in [vec![gap, solid(0.01, 1.0)], vec![Layer::Solid {
                thickness: j,
                conductivity: ConductivityCurve::constant(0.5).unwrap(),
            }]] {
                if let Ok(stack) = Stack::new(shape, &layers) {
                    let found = stack.steady(k, &outside);
                    prop_assert!(found.is_err() || found.unwrap().heat_flow.is_finite());
                    let _ = stack.inner_flux(l, &Outside::still(293.15, 0.9));
                }
            }
        }
    }
}
