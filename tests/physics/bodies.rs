use std::f64::consts::PI;

use hearthplan::physics::solids::{
    Body, Mass, Place, block, box_shell, bulk_fill, combined, cone, cone_shell, dished_end, ring,
    tube,
};
use proptest::prelude::*;

/// Volume and centroid by slicing a body of revolution: `outer` and `inner` radius at each height.
fn sliced(height: f64, outer: impl Fn(f64) -> f64, inner: impl Fn(f64) -> f64) -> Body {
    let slices = 200_000;
    let step = height / f64::from(slices);
    let (mut volume, mut moment) = (0.0, 0.0);
    for i in 0..slices {
        let z = (f64::from(i) + 0.5) * step;
        let slice = PI * (outer(z).powi(2) - inner(z).powi(2)) * step;
        volume += slice;
        moment += slice * z;
    }
    Body {
        volume,
        centroid_height: moment / volume,
    }
}

fn agree(found: Body, wanted: Body) {
    assert!(
        (found.volume / wanted.volume - 1.0).abs() < 1e-5,
        "{found:?} {wanted:?}"
    );
    assert!(
        (found.centroid_height - wanted.centroid_height).abs() < 1e-5,
        "{found:?} {wanted:?}"
    );
}

#[test]
fn tubes_rings_and_blocks() {
    agree(
        tube(0.3, 0.01, 0.8).unwrap(),
        sliced(0.8, |_| 0.15, |_| 0.14),
    );
    agree(
        tube(0.3, 0.15, 0.8).unwrap(),
        sliced(0.8, |_| 0.15, |_| 0.0),
    );
    agree(
        ring(0.3, 0.2, 0.01).unwrap(),
        sliced(0.01, |_| 0.15, |_| 0.1),
    );
    let shell = box_shell(0.4, 0.3, 0.2, 0.002).unwrap();
    assert!((shell.volume - (0.4 * 0.3 * 0.2 - 0.396 * 0.296 * 0.196)).abs() < 1e-15);
    assert_eq!(shell.centroid_height, 0.1);
    assert_eq!(block(1.0, 2.0, 3.0).unwrap().volume, 6.0);
}

#[test]
fn cones_and_their_shells() {
    let radius = |z: f64| 0.1 + (0.3 - 0.1) * z / 0.5;
    agree(cone(0.2, 0.6, 0.5).unwrap(), sliced(0.5, radius, |_| 0.0));
    let level = 0.003 * (1.0_f64 + 0.4 * 0.4).sqrt();
    let shell = sliced(
        0.5,
        |z| radius(z) + 0.5 * level,
        |z| radius(z) - 0.5 * level,
    );
    agree(cone_shell(0.2, 0.6, 0.5, 0.003).unwrap(), shell);
}

#[test]
fn fuel_in_a_hopper_with_a_cone() {
    let radius = |z: f64| if z < 0.2 { 0.05 + 0.2 * z / 0.2 } else { 0.25 };
    agree(
        bulk_fill(0.5, 0.6, 0.1, 0.2).unwrap(),
        sliced(0.8, radius, |_| 0.0),
    );
    let plain = bulk_fill(0.5, 0.6, 0.5, 0.0).unwrap();
    agree(plain, sliced(0.6, |_| 0.25, |_| 0.0));
    assert_eq!(bulk_fill(0.5, 0.0, 0.5, 0.0).unwrap().volume, 0.0);
}

#[test]
fn common_centre_needs_a_mass() {
    let at = |mass, x| Mass {
        mass,
        centre: Place { x, y: 0.0, z: 1.0 },
    };
    let both = combined(&[at(2.0, 0.0), at(6.0, 1.0)]).unwrap();
    assert_eq!((both.mass, both.centre.x, both.centre.z), (8.0, 0.75, 1.0));
    assert_eq!(combined(&[]), None);
    assert_eq!(combined(&[at(f64::NAN, 0.0)]), None);
}

proptest! {
    #[test]
    fn any_numbers_give_a_body_or_a_reason(a: f64, b: f64, c: f64, d: f64) {
        let bodies = [
            tube(a, b, c), ring(a, b, c), block(a, b, c), box_shell(a, b, c, d), cone(a, b, c),
            cone_shell(a, b, c, d), dished_end(a, b), bulk_fill(a, b, c, d),
        ];
        for body in bodies.into_iter().flatten() {
            prop_assert!(body.volume >= 0.0 && body.volume.is_finite());
            prop_assert!(body.centroid_height.is_finite());
        }
    }

    #[test]
    fn centroid_lies_within_the_height(
        base in 0.1..3.0_f64, top in 0.1..3.0_f64, height in 0.01..3.0_f64, wall in 1e-4..0.01_f64,
    ) {
        if let Ok(shell) = cone_shell(base, top, height, wall) {
            prop_assert!(shell.centroid_height > 0.0 && shell.centroid_height < height);
        }
        let end = dished_end(base, wall).unwrap();
        prop_assert!(end.centroid_height > 0.0 && end.centroid_height < 0.25 * base);
    }
}
