//! Saddle and hole curves against a numerical intersection of the two cylinders.

use crate::reference::{number, numbers, rows};
use hearthplan::sizing::branch::{Branch, BranchError};
use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};
use uom::si::length::{meter, millimeter};

/// What a template may be off by, m.
const ALLOWED: f64 = 0.000_1;

fn degrees(value: f64) -> Angle {
    Angle::new::<degree>(value)
}

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

#[test]
fn curves_agree_with_the_numerical_intersection() {
    let cases = rows("branch.json", "cases");
    assert!(cases.len() >= 60);
    let length = |case, field| Length::new::<meter>(number(case, field));
    let mut widest = 0.0_f64;
    for case in &cases {
        let branch = Branch::new(
            length(case, "vessel_radius_m"),
            length(case, "branch_radius_m"),
            degrees(number(case, "lean_deg")),
            length(case, "offset_m"),
        )
        .unwrap();
        let (cuts, along) = (numbers(case, "cut_m"), numbers(case, "along_m"));
        let up = numbers(case, "up_m");
        for (place, around) in numbers(case, "around_deg").into_iter().enumerate() {
            let cut = branch.cut(degrees(around)).value;
            let outline = branch.outline(degrees(around));
            for (found, wanted) in [
                (cut, cuts[place]),
                (outline.along.value, along[place]),
                (outline.up.value, up[place]),
            ] {
                widest = widest.max((found - wanted).abs());
                assert!(
                    (found - wanted).abs() <= ALLOWED,
                    "{around}°: {found} m, reference {wanted} m: {case}"
                );
            }
        }
    }
    // A reference that never differs in the last digits would be the same formula.
    assert!(widest < ALLOWED && widest > 0.0);
}

#[test]
fn a_right_angled_branch_follows_the_textbook_drop() {
    let branch = Branch::straight(mm(150.0), mm(90.0)).unwrap();
    assert!((branch.cut(degrees(90.0)) - mm(-30.0)).value.abs() < 1e-12);
    assert!(branch.cut(degrees(0.0)).value.abs() < 1e-12);
    let side = branch.outline(degrees(90.0));
    assert!((side.along - mm(150.0) * 0.6_f64.asin()).value.abs() < 1e-12);
    assert!(side.up.value.abs() < 1e-12);
}

#[test]
fn a_leaning_branch_far_from_the_curve_of_the_shell_makes_an_ellipse() {
    // A shell so wide that it is flat: the hole is r wide and r / sin(lean) tall.
    let branch = Branch::new(mm(1.0e6), mm(30.0), degrees(40.0), mm(0.0)).unwrap();
    let top = branch.outline(degrees(0.0)).up.get::<millimeter>();
    assert!((top - 30.0 / 40.0_f64.to_radians().sin()).abs() < 0.01);
    let side = branch.outline(degrees(90.0)).along.get::<millimeter>();
    assert!((side - 30.0).abs() < 0.01);
}

#[test]
fn what_has_no_curve_is_refused_in_words() {
    let refused = |radius, lean, offset| {
        Branch::new(mm(100.0), mm(radius), degrees(lean), mm(offset)).unwrap_err()
    };
    let wide = refused(120.0, 90.0, 0.0);
    assert!(matches!(wide, BranchError::WiderThanVessel { .. }));
    assert_eq!(
        wide.to_string(),
        "the branch is 240.0 mm wide and the vessel only 200.0 mm: no saddle fits"
    );
    assert_eq!(
        refused(40.0, 90.0, -61.0).to_string(),
        "with its axis 61.0 mm to the side, a branch 80.0 mm wide passes beside the vessel: \
         at most 60.0 mm is possible"
    );
    assert!(matches!(
        refused(40.0, 5.0, 0.0),
        BranchError::TooFlat { .. }
    ));
    for broken in [f64::NAN, f64::INFINITY, 0.0, -1.0] {
        assert!(Branch::straight(mm(broken), mm(10.0)).is_err());
        assert!(Branch::straight(mm(100.0), mm(broken)).is_err());
    }
    assert!(Branch::new(mm(100.0), mm(10.0), degrees(f64::NAN), mm(0.0)).is_err());
    assert!(Branch::new(mm(100.0), mm(10.0), degrees(90.0), mm(f64::NAN)).is_err());
}

#[test]
fn a_branch_as_wide_as_the_vessel_still_has_a_curve() {
    let branch = Branch::straight(mm(100.0), mm(100.0)).unwrap();
    assert!((branch.cut(degrees(90.0)) - mm(-100.0)).value.abs() < 1e-5);
}
