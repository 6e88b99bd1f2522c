//! Properties of warming walls that need no reference.

use hearthplan::physics::conductivity::ConductivityCurve;
use hearthplan::physics::layers::{Facing, Layer, Shape, Stack};
use hearthplan::physics::steady::Outside;
use hearthplan::physics::transient::{
    Fineness, HeatStore, HotFace, OutsideLoss, WarmUpCase, warm_up,
};
use proptest::prelude::*;

fn solid(thickness: f64, conductivity: f64) -> Layer {
    Layer::Solid {
        thickness,
        conductivity: ConductivityCurve::constant(conductivity).unwrap(),
    }
}

const STEEL: HeatStore = HeatStore {
    density: 7850.0,
    heat_capacity: 550.0,
};
const WOOL: HeatStore = HeatStore {
    density: 100.0,
    heat_capacity: 840.0,
};

fn shell_with_gap() -> Stack {
    let gap = Layer::StillAir {
        thickness: 0.01,
        emittance_inside: 0.8,
        emittance_outside: 0.8,
    };
    let shape = Shape::Cylinder {
        inner_radius: 0.1,
        length: 0.5,
    };
    Stack::new(
        shape,
        &[
            solid(0.004, 25.0),
            gap,
            solid(0.04, 0.08),
            solid(0.0015, 45.0),
        ],
    )
    .unwrap()
}

const STORES: [HeatStore; 4] = [STEEL, STEEL, WOOL, STEEL];

fn case(stack: &Stack, ramp: f64) -> WarmUpCase<'_> {
    WarmUpCase {
        stack,
        stores: &STORES,
        start: 288.15,
        hot_face: HotFace {
            temperature: 1173.15,
            ramp,
        },
        outside: OutsideLoss::Air(Outside::still(288.15, 0.9)),
        duration: None,
    }
}

#[test]
fn ends_in_the_steady_state() {
    let stack = shell_with_gap();
    let course = warm_up(&case(&stack, 600.0), Fineness::QUICK).unwrap();
    let steady = stack.steady(1173.15, &Outside::still(288.15, 0.9)).unwrap();
    let end = course.duration();
    assert!((course.loss(end) / steady.heat_flow - 1.0).abs() < 0.02);
    let faces = course.faces(end);
    assert_eq!(faces.len(), steady.interfaces.len());
    for (found, wanted) in faces.iter().zip(&steady.interfaces) {
        assert!((found - wanted).abs() < 10.0, "{found} {wanted}");
    }
    assert_eq!(course.steady_loss(), steady.heat_flow);
}

#[test]
fn heat_taken_is_stored_or_lost() {
    let stack = shell_with_gap();
    let course = warm_up(&case(&stack, 0.0), Fineness::FINE).unwrap();
    let end = course.duration();
    // Stored heat worked out anew from the faces: every layer is nearly straight once steady.
    let faces = course.faces(end);
    let mut depth = 0.0;
    let mut stored = 0.0;
    for ((layer, store), pair) in stack.layers().iter().zip(STORES).zip(faces.windows(2)) {
        let end = depth + layer.thickness();
        if matches!(layer, Layer::Solid { .. }) {
            // Logarithmic profile: a fine sum over the layer.
            let slices = 2000;
            let width = layer.thickness() / f64::from(slices);
            for i in 0..slices {
                let inner = depth + f64::from(i) * width;
                let ratio = |x: f64| (x / (0.1 + depth)).ln();
                let share = ratio(0.1 + inner + 0.5 * width) / ratio(0.1 + end);
                let temperature = pair[0] + share * (pair[1] - pair[0]);
                let volume = stack.shape().volume_between(inner, inner + width);
                stored += store.density * store.heat_capacity * volume * (temperature - 288.15);
            }
        }
        depth = end;
    }
    let balance = course.heat_taken(end) - course.heat_lost(end);
    assert!((balance / stored - 1.0).abs() < 5e-3, "{balance} {stored}");
}

#[test]
fn quick_times_are_near_the_fine_ones() {
    let stack = shell_with_gap();
    for ramp in [0.0, 900.0] {
        let quick = warm_up(&case(&stack, ramp), Fineness::QUICK).unwrap();
        let fine = warm_up(&case(&stack, ramp), Fineness::FINE).unwrap();
        let pairs = [
            (quick.settled_after(0.1), fine.settled_after(0.1)),
            (
                quick.time_to_reach(0.02, 900.0),
                fine.time_to_reach(0.02, 900.0),
            ),
            (
                quick.time_to_reach(0.0555, 350.0),
                fine.time_to_reach(0.0555, 350.0),
            ),
        ];
        for (quick, fine) in pairs {
            let (quick, fine) = (quick.unwrap(), fine.unwrap());
            assert!((quick / fine - 1.0).abs() < 0.03, "{quick} {fine}");
        }
        let settled = fine.settled_after(0.1).unwrap();
        assert!((quick.heat_taken(settled) / fine.heat_taken(settled) - 1.0).abs() < 0.02);
    }
}

#[test]
fn says_when_something_is_never_reached() {
    let stack = shell_with_gap();
    let mut short = case(&stack, 0.0);
    short.duration = Some(30.0);
    let course = warm_up(&short, Fineness::QUICK).unwrap();
    assert_eq!(course.settled_after(0.1), None);
    assert_eq!(course.time_to_reach(0.05, 1000.0), None);
    assert_eq!(course.time_to_reach(0.0, 1000.0), Some(0.0));
}

#[test]
fn refuses_what_it_cannot_follow() {
    let stack = shell_with_gap();
    let mut wrong = case(&stack, 0.0);
    wrong.stores = &STORES[..2];
    assert!(warm_up(&wrong, Fineness::QUICK).is_err());
    let gap = Layer::StillAir {
        thickness: 0.01,
        emittance_inside: 0.8,
        emittance_outside: 0.8,
    };
    let shape = Shape::disc(0.4, Facing::Up);
    for layers in [
        vec![gap],
        vec![],
        vec![gap, gap, solid(0.01, 1.0), solid(0.01, 1.0)],
    ] {
        let stack = Stack::new(shape, &layers).unwrap();
        let mut case = case(&stack, 0.0);
        case.stores = &STORES[..layers.len()];
        assert!(warm_up(&case, Fineness::QUICK).is_err());
    }
}

proptest! {
    #[test]
    fn stays_between_the_ends(
        first in 0.001..0.05_f64,
        second in 0.001..0.2_f64,
        conductivity in 0.03..2.0_f64,
        coefficient in 0.0..200.0_f64,
        hot in 350.0..1500.0_f64,
        ramp in 0.0..5000.0_f64,
    ) {
        let stack = Stack::new(Shape::disc(0.5, Facing::Up), &[solid(first, 30.0), solid(second, conductivity)]).unwrap();
        let case = WarmUpCase {
            stack: &stack,
            stores: &[STEEL, WOOL],
            start: 290.0,
            hot_face: HotFace { temperature: hot, ramp },
            outside: OutsideLoss::Fixed { coefficient, air_temperature: 290.0 },
            duration: None,
        };
        let course = warm_up(&case, Fineness::QUICK).unwrap();
        for share in [0.001, 0.01, 0.1, 0.5, 1.0] {
            for temperature in course.faces(share * course.duration()) {
                // The rule is second order, so it may swing over by its own error.
                let over = 0.01 * (hot - 290.0);
                prop_assert!(temperature > 290.0 - over && temperature < hot + over, "{temperature}");
            }
        }
        prop_assert!(course.heat_taken(course.duration()) > 0.0);
    }

    #[test]
    fn arbitrary_numbers_never_panic(n: [f64; 10], cells: u32, steps: u32) {
        let stack = shell_with_gap();
        let stores = [HeatStore { density: n[0], heat_capacity: n[1] }; 4];
        let case = WarmUpCase {
            stack: &stack,
            stores: &stores,
            start: n[2],
            hot_face: HotFace { temperature: n[3], ramp: n[4] },
            outside: OutsideLoss::Fixed { coefficient: n[5], air_temperature: n[6] },
            duration: Some(n[7]),
        };
        let fineness = Fineness { cells_per_layer: cells, steps };
        prop_assert!(warm_up(&case, fineness).is_err());
        let sound = WarmUpCase { stores: &STORES, ..super::warming::case(&stack, 0.0) };
        let course = warm_up(&sound, Fineness { cells_per_layer: 1, steps: 8 }).unwrap();
        let _ = (course.temperature(n[8], n[9]), course.faces(n[9]), course.heat_taken(n[8]));
        let _ = (course.time_to_reach(n[8], n[9]), course.settled_after(n[8]));
    }
}
