//! A vessel that was bought longer or shorter than the plan's, and a shell that is rolled by a plan of other walls.

use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::review::{Lever, Verdict, assess, remedies};
use uom::si::f64::Length;
use uom::si::length::millimeter;

/// A vessel that was bought taller carries lid and hopper higher than was reckoned.
#[test]
fn a_vessel_taller_than_its_walls_is_told() {
    let longer = |millimetres: f64| {
        let mut design = example::as_improved();
        design.real_vessel.length += Length::new::<millimeter>(millimetres);
        design
    };
    let told = |design: &Design| {
        let assessment = assess(design);
        let finding = assessment.finding("marking.tall").unwrap();
        (finding.verdict, finding.compared.text(System::Metric))
    };
    assert_eq!(told(&longer(0.0)).0, Verdict::Good);
    let (verdict, words) = told(&longer(100.0));
    assert_eq!(verdict, Verdict::Stop);
    assert!(words.contains("100 mm more"), "{words}");
    let (verdict, words) = told(&longer(-50.0));
    assert_eq!(verdict, Verdict::Watch);
    assert!(words.contains("50 mm too little"), "{words}");
    // What the lining stands out by keeps the lid off its flange; wool fills what is left above it.
    let now = example::as_improved().hearth_wall.height;
    let mut taller = example::as_improved();
    taller.hearth_wall.height = now + Length::new::<millimeter>(16.0);
    let (verdict, words) = told(&taller);
    assert_eq!(verdict, Verdict::Watch, "{words}");
    assert!(words.contains("lid does not reach its flange"), "{words}");
    let offered = remedies(&taller, "marking.tall");
    let body = Lever::input("body_wall.height");
    let lower = offered.iter().find(|remedy| remedy.lever == body).unwrap();
    let lower = lower.change.as_ref().unwrap().apply(&taller).unwrap();
    assert_eq!(told(&lower).0, Verdict::Good);
    assert_eq!(told(&longer(-2.0)).0, Verdict::Good);
    assert_eq!(told(&longer(10.0)).0, Verdict::Good);
    let offered = remedies(&longer(100.0), "marking.tall");
    let mended = offered
        .first()
        .and_then(|remedy| remedy.change.as_ref()?.apply(&longer(100.0)));
    assert_eq!(told(&mended.unwrap()).0, Verdict::Good);
    let mut unmeasured = longer(100.0);
    unmeasured.real_vessel.measured = false;
    assert!(assess(&unmeasured).finding("marking.tall").is_none());
}

/// The example before any vessel is bought: its shell is rolled as planned.
fn rolled() -> Design {
    let mut design = example::as_improved();
    design.real_vessel.measured = false;
    design.real_vessel.rolled = true;
    design
}

fn said(design: &Design, id: &str) -> Option<(Verdict, String)> {
    let assessment = assess(design);
    let finding = assessment.finding(id)?;
    Some((finding.verdict, finding.compared.text(System::Metric)))
}

/// The wall of the hearth is made taller: shell and parts list are of two machines until plan and seam follow.
#[test]
fn a_rolled_shell_of_another_height_than_its_walls_is_told() {
    let mut design = rolled();
    for id in ["marking.tall", "marking.seams"] {
        let (verdict, words) = said(&design, id).unwrap();
        assert_eq!(verdict, Verdict::Good, "{id}: {words}");
    }
    design.hearth_wall.height += Length::new::<millimeter>(60.0);
    let (verdict, words) = said(&design, "marking.tall").unwrap();
    assert_eq!(verdict, Verdict::Watch, "{words}");
    assert!(
        words.contains(
            "911 mm long, but the walls that are rolled take 971 mm with the bottom: 60 mm apart"
        ),
        "{words}"
    );
    let (verdict, words) = said(&design, "marking.seams").unwrap();
    assert_eq!(verdict, Verdict::Watch, "{words}");
    assert!(words.contains("upper round seam of the plan lies 531 mm above the bottom end, but the walls that are rolled are welded at 591 mm"), "{words}");
    for (id, path) in [
        ("marking.tall", "plan_vessel.length"),
        ("marking.seams", "plan_vessel.upper_seam"),
    ] {
        let offered = remedies(&design, id);
        let lever = Lever::input(path);
        let remedy = offered.iter().find(|remedy| remedy.lever == lever).unwrap();
        let mended = remedy.change.as_ref().unwrap().apply(&design).unwrap();
        assert_eq!(said(&mended, id).unwrap().0, Verdict::Good, "{id}");
    }
}

/// The lower seam follows the bottom, and one that is left out is not asked for.
#[test]
fn the_lower_seam_of_a_rolled_shell_lies_where_the_bottom_ends() {
    let mut design = rolled();
    design.plan_vessel.lower_seam += Length::new::<millimeter>(6.0);
    let (verdict, words) = said(&design, "marking.seams").unwrap();
    assert_eq!(verdict, Verdict::Watch, "{words}");
    assert!(
        words.starts_with("the lower round seam of the plan"),
        "{words}"
    );
    design.plan_vessel.lower_seam = Length::default();
    assert_eq!(said(&design, "marking.seams").unwrap().0, Verdict::Good);
    design.plan_vessel.upper_seam = Length::default();
    assert_eq!(said(&design, "marking.seams"), None);
    // A vessel that is bought has the seams it has.
    let mut bought = rolled();
    bought.real_vessel.rolled = false;
    bought.hearth_wall.height += Length::new::<millimeter>(100.0);
    assert_eq!(said(&bought, "marking.seams"), None);
    assert_eq!(said(&bought, "marking.tall"), None);
}
