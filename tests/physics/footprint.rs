use hearthplan::physics::hull::{Hull, HullError, Point};
use proptest::prelude::*;

fn points(given: &[(f64, f64)]) -> Vec<Point> {
    given.iter().map(|&(x, y)| Point { x, y }).collect()
}

#[test]
fn square_with_everything_doubled_is_still_a_square() {
    let mut given = Vec::new();
    for _ in 0..3 {
        given.extend([
            (0.0, 0.0),
            (1.0, 0.0),
            (1.0, 1.0),
            (0.0, 1.0),
            (0.5, 0.0),
            (0.5, 0.5),
            (1.0, 0.25),
        ]);
        given.extend([(1e-13, 0.0), (1.0, 1.0 - 1e-13), (0.5, -1e-13)]);
    }
    let hull = Hull::new(&points(&given)).unwrap();
    assert_eq!(hull.corners().len(), 4);
    assert!((hull.area() - 1.0).abs() < 1e-9);
    let edges = hull.edge_distances(Point { x: 0.25, y: 0.4 });
    let mut distances: Vec<f64> = edges.iter().map(|edge| edge.distance).collect();
    distances.sort_by(f64::total_cmp);
    for (found, wanted) in distances.iter().zip([0.25, 0.4, 0.6, 0.75]) {
        assert!((found - wanted).abs() < 1e-9);
    }
}

#[test]
fn outward_points_away_and_distance_turns_negative_outside() {
    let hull = Hull::new(&points(&[(0.0, 0.0), (2.0, 0.0), (1.0, 1.0)])).unwrap();
    let below = Point { x: 1.0, y: -0.3 };
    let bottom = hull
        .edge_distances(below)
        .into_iter()
        .find(|edge| edge.distance < 0.0)
        .unwrap();
    assert!((bottom.distance + 0.3).abs() < 1e-12);
    assert!((bottom.outward.y + 1.0).abs() < 1e-12 && bottom.outward.x.abs() < 1e-12);
    assert!((hull.margin(below) + 0.3).abs() < 1e-12);
}

#[test]
fn degenerate_sets_are_named() {
    assert_eq!(Hull::new(&[]), Err(HullError::TooFewPoints));
    let same = [(1.0, 1.0); 5];
    assert_eq!(Hull::new(&points(&same)), Err(HullError::TooFewPoints));
    let two = [(1.0, 1.0), (2.0, 1.0), (2.0, 1.0)];
    assert_eq!(Hull::new(&points(&two)), Err(HullError::TooFewPoints));
    let line = [(0.0, 0.0), (0.1, 0.1), (0.3, 0.3), (0.2, 0.2)];
    assert_eq!(Hull::new(&points(&line)), Err(HullError::OnOneLine));
    let broken = [(0.0, 0.0), (1.0, f64::NAN), (0.3, 0.3)];
    assert_eq!(Hull::new(&points(&broken)), Err(HullError::BadPoint(1)));
    let far = [(0.0, 0.0), (1.0, 1.0), (f64::INFINITY, 0.3)];
    assert_eq!(Hull::new(&points(&far)), Err(HullError::BadPoint(2)));
}

#[test]
fn regular_polygon_keeps_all_corners() {
    let circle: Vec<Point> = (0..24)
        .map(|i| {
            let angle = f64::from(i) * std::f64::consts::TAU / 24.0;
            Point {
                x: 0.3 * angle.cos(),
                y: 0.3 * angle.sin(),
            }
        })
        .collect();
    let hull = Hull::new(&circle).unwrap();
    assert_eq!(hull.corners().len(), 24);
    let inner_radius = 0.3 * (std::f64::consts::PI / 24.0).cos();
    assert!((hull.margin(Point::default()) - inner_radius).abs() < 1e-12);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3000))]

    #[test]
    fn every_point_lies_inside_its_hull(given in proptest::collection::vec((-3.0..3.0_f64, -3.0..3.0_f64), 3..40)) {
        let given = points(&given);
        if let Ok(hull) = Hull::new(&given) {
            for point in &given {
                prop_assert!(hull.margin(*point) >= -1e-7);
            }
            prop_assert!(hull.area() > 0.0);
            let mut reversed = given.clone();
            reversed.reverse();
            prop_assert_eq!(Hull::new(&reversed).unwrap(), hull);
        }
    }

    #[test]
    fn few_places_on_a_grid(given in proptest::collection::vec((0..3_u8, 0..3_u8), 0..12)) {
        let given: Vec<Point> = given.iter().map(|&(x, y)| Point { x: f64::from(x), y: f64::from(y) }).collect();
        if let Ok(hull) = Hull::new(&given) {
            prop_assert!((3..=8).contains(&hull.corners().len()));
            for corner in hull.corners() {
                prop_assert!(given.contains(corner));
            }
        }
    }

    #[test]
    fn any_numbers_never_panic(given in proptest::collection::vec((any::<f64>(), any::<f64>()), 0..12), x: f64, y: f64) {
        if let Ok(hull) = Hull::new(&points(&given)) {
            prop_assert!(hull.corners().len() >= 3);
            let _ = hull.margin(Point { x, y });
        }
    }
}
