//! What holds for every design.

use super::{add_weight, choose};
use hearthplan::design::{Design, Kind, Value};
use hearthplan::review::{Chapter, ask, assess};
use hearthplan::sizing::base_width::tip_angles_at_width;
use hearthplan::sizing::weight::State;
use proptest::prelude::*;
use uom::si::f64::Length;
use uom::si::length::meter;

/// A design with every number and choice of its mechanical inputs anywhere in its allowed range.
fn any_design() -> impl Strategy<Value = Design> {
    let numbers = proptest::collection::vec(0.0..=1.0_f64, 400);
    (numbers, 0_usize..6).prop_map(|(draws, parts)| {
        let mut design = Design::default();
        for _ in 0..parts {
            add_weight(&mut design, 1.0, (0.0, 0.0, 0.5));
        }
        let mut draws = draws.into_iter().cycle();
        for path in design.paths() {
            let (Some(input), Some(draw)) = (design.input(&path), draws.next()) else {
                continue;
            };
            let value = match input.kind {
                Kind::Number { allowed, .. } => {
                    let value = allowed.0 + draw * (allowed.1 - allowed.0);
                    Value::Number(if draw < 0.1 { allowed.0 } else { value })
                }
                Kind::Choice { options, .. } => {
                    let place = (draw * options.len() as f64) as usize;
                    Value::Choice(options[place.min(options.len() - 1)].name.to_string())
                }
                Kind::Flag { .. } => Value::Flag(draw > 0.5),
                Kind::Text { .. } => continue,
            };
            // A count may draw a fraction, which the design refuses; it then keeps its default.
            let _ = design.set(&path, value);
        }
        design
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, ..ProptestConfig::default() })]

    #[test]
    fn any_design_gives_finite_numbers(design in any_design()) {
        let standing = assess_standing(&design);
        for result in standing.results() {
            prop_assert!(result.measure.si.is_finite(), "{}", result.name);
        }
        for solid in &standing.machine.solids {
            prop_assert!(solid.mass.value >= 0.0, "{:?}", solid.piece);
        }
    }

    #[test]
    fn numbers_that_are_none_never_panic(design in any_design(), place in 0_usize..400, wild in prop_oneof![
        Just(f64::NAN), Just(f64::INFINITY), Just(-1.0e300), Just(-1.0), Just(0.0)
    ]) {
        let mut design = design;
        let sections = Design::SECTIONS;
        let section = &sections[place % sections.len()];
        if let Some(record) = design.section_mut(section.name) {
            record.write(place % section.inputs.len(), &Value::Number(wild));
        }
        prop_assert!(!ask(&design, Chapter::Standing).is_empty());
    }

    #[test]
    fn a_wider_base_never_tips_earlier(
        design in any_design(),
        narrow in 0.1..3.0_f64,
        wider in 0.0..2.0_f64,
        stance in 0_usize..3,
    ) {
        let mut design = design;
        choose(&mut design, "base.stance", ["feet", "two_wheels", "four_wheels"][stance]);
        // A frame above the centre of gravity would raise it as it grows.
        let standing = assess_standing(&design);
        let frame = design.base.clearance.value;
        for state in State::ALL {
            prop_assume!(standing.weights.in_state(state).centre.z.value >= frame.max(design.base.frame_side.value));
        }
        let at = |width| tip_angles_at_width(&design, Length::new::<meter>(width)).unwrap();
        let (first, second) = (at(narrow), at(narrow + wider));
        // A machine that already falls over by itself has no tip angle to lose.
        for (before, after) in [(first.full, second.full), (first.empty, second.empty), (first.hopper_off, second.hopper_off)] {
            prop_assert!(after.value >= before.value - 1e-9 || before.value <= 0.0, "{before:?} {after:?}");
        }
    }
}

fn assess_standing(design: &Design) -> hearthplan::review::Standing {
    assess(design).standing
}
