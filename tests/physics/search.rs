use hearthplan::physics::solve::{bracketed, smallest_change};
use proptest::prelude::*;

#[test]
fn finds_roots_of_awkward_functions() {
    let flat = bracketed(-1.0, 4.0, 1e-12, |x| (x - 1.0).powi(9)).unwrap();
    assert!((flat.at - 1.0).abs() < 1e-2 && flat.residual.abs() < 1e-12);
    let steep = bracketed(0.0, 1.0, 1e-12, |x| (50.0 * x).exp() - 1e9).unwrap();
    assert!((steep.at - 1e9_f64.ln() / 50.0).abs() < 1e-11);
    let jump = bracketed(0.0, 1.0, 1e-9, |x| if x < 0.3 { -1.0 } else { 2.0 }).unwrap();
    assert!((jump.at - 0.3).abs() < 1e-8);
    assert!(jump.evaluations < 40);
    let smooth = bracketed(0.0, 2.0, 1e-12, |x| x.exp() - 3.0).unwrap();
    assert!(smooth.evaluations < 14, "{}", smooth.evaluations);
}

#[test]
fn refuses_a_search_without_a_sign_change() {
    assert!(bracketed(1.0, 2.0, 1e-9, |x| x).is_err());
    assert!(bracketed(f64::NAN, 2.0, 1e-9, |x| x).is_err());
    assert!(bracketed(-1.0, 2.0, 1e-9, |_| f64::NAN).is_err());
    let holed = |x: f64| {
        if x == -1.0 || x == 2.0 { x } else { f64::NAN }
    };
    assert!(bracketed(-1.0, 2.0, 1e-9, holed).is_err());
}

#[test]
fn smallest_change_passes_and_is_small() {
    let down = smallest_change(10.0, 1.0, 1e-9, 16, |x| x <= 4.0).unwrap();
    assert!(down <= 4.0 && down > 4.0 - 1e-8);
    assert_eq!(smallest_change(1.0, 2.0, 1e-9, 16, |_| false), None);
    assert_eq!(smallest_change(1.0, 2.0, 1e-9, 16, |_| true), Some(1.0));
    assert_eq!(
        smallest_change(1.0, f64::INFINITY, 1e-9, 16, |_| true),
        None
    );
}

proptest! {
    #[test]
    fn any_bounds_and_any_slope_never_panic(low: f64, high: f64, zero: f64, tolerance: f64) {
        if let Ok(root) = bracketed(low, high, tolerance, |x| x - zero) {
            prop_assert!(root.at >= low.min(high) && root.at <= low.max(high));
        }
        let change = smallest_change(low, high, tolerance, 8, |x| x >= zero);
        prop_assert!(change.is_none_or(|x| x >= zero));
    }

    #[test]
    fn root_of_a_line_is_found(zero in -5.0..5.0_f64, slope in 1e-6..1e6_f64) {
        let root = bracketed(-6.0, 7.0, 1e-11, |x| slope * (x - zero)).unwrap();
        prop_assert!((root.at - zero).abs() < 1e-10);
    }
}
