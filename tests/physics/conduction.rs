use hearthplan::physics::conductivity::{ConductivityCurve, ConductivityPoint};
use proptest::prelude::*;

fn curve(points: &[(f64, f64)]) -> ConductivityCurve {
    let points: Vec<_> = points
        .iter()
        .map(|&(temperature, conductivity)| ConductivityPoint {
            temperature,
            conductivity,
        })
        .collect();
    ConductivityCurve::new(&points).unwrap()
}

/// Ceramic fibre blanket, 128 kg/m³, typical.
fn blanket() -> ConductivityCurve {
    curve(&[
        (473.15, 0.06),
        (673.15, 0.09),
        (873.15, 0.15),
        (1073.15, 0.22),
        (1273.15, 0.30),
    ])
}

#[test]
fn passes_through_its_points_and_stays_level_beyond() {
    let blanket = blanket();
    for point in blanket.points() {
        assert!((blanket.at(point.temperature) - point.conductivity).abs() < 1e-15);
    }
    assert_eq!(blanket.at(100.0), 0.06);
    assert_eq!(blanket.at(1800.0), 0.30);
    assert_eq!(blanket.points().len(), 5);
}

#[test]
fn mean_equals_a_fine_sum() {
    let blanket = blanket();
    for (low, high) in [
        (300.0, 1400.0),
        (700.0, 800.0),
        (480.0, 1270.0),
        (100.0, 200.0),
    ] {
        let steps = 200_000;
        let sum: f64 = (0..steps)
            .map(|i| blanket.at(low + (high - low) * (f64::from(i) + 0.5) / f64::from(steps)))
            .sum();
        let mean = blanket.mean(low, high);
        assert!((mean / (sum / f64::from(steps)) - 1.0).abs() < 1e-8);
        assert!((blanket.mean(high, low) / mean - 1.0).abs() < 1e-12);
    }
}

#[test]
fn refuses_bad_curves() {
    let point = |temperature, conductivity| ConductivityPoint {
        temperature,
        conductivity,
    };
    assert!(ConductivityCurve::new(&[]).is_err());
    assert!(ConductivityCurve::new(&[point(300.0, 0.1); 6]).is_err());
    assert!(ConductivityCurve::new(&[point(400.0, 0.1), point(300.0, 0.2)]).is_err());
    assert!(ConductivityCurve::new(&[point(f64::NAN, 0.1)]).is_err());
    assert!(ConductivityCurve::constant(0.0).is_err());
    assert!(ConductivityCurve::constant(f64::INFINITY).is_err());
}

proptest! {
    #[test]
    fn integral_and_its_inverse_agree(temperature in 20.0..2500.0_f64, other in 20.0..2500.0_f64) {
        for curve in [blanket(), curve(&[(293.15, 50.0), (973.15, 30.0)]), ConductivityCurve::constant(1.3).unwrap()] {
            let back = curve.temperature_of_integral(curve.integral(temperature));
            prop_assert!((back - temperature).abs() < 1e-7);
            let mean = curve.mean(temperature, other);
            prop_assert!((0.0599..50.001).contains(&mean));
        }
    }

    #[test]
    fn any_numbers_never_panic(values: [f64; 10], at: f64) {
        let points: Vec<_> = values
            .chunks(2)
            .map(|pair| ConductivityPoint { temperature: pair[0], conductivity: pair[1] })
            .collect();
        if let Ok(curve) = ConductivityCurve::new(&points) {
            prop_assert!(curve.at(at).is_finite() || !at.is_finite());
        }
        let known = blanket();
        prop_assert!(known.at(at) >= 0.06 - 1e-12 || at.is_nan());
        let _ = (known.mean(at, values[0]), known.temperature_of_integral(at));
    }
}
