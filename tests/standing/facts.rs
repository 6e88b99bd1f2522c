//! Facts of the trade; common practice, no source.

use super::{add_weight, choose, set};
use hearthplan::design::Design;
use hearthplan::review::{Verdict, assess};

const INCH: f64 = 0.0254;

/// About 600 lb on castors, with a hopper: vessel, hopper and castors of a new design, and the weighed
/// rest of such a machine around them.
fn six_hundred_pounds(width: f64) -> Design {
    let mut design = Design::default();
    choose(&mut design, "base.stance", "four_wheels");
    set(&mut design, "base.width", width);
    add_weight(&mut design, 38.0, (0.0, 0.0, 0.54));
    add_weight(&mut design, 60.0, (0.0, 0.0, 1.55));
    design
}

#[test]
fn sixteen_inches_on_wheels_tips_at_the_slightest_push() {
    let assessment = assess(&six_hundred_pounds(16.0 * INCH));
    let mass = assessment.standing.full.weight.mass.value;
    assert!((mass - 272.0).abs() < 8.0, "weighs {mass} kg");
    let verdict = |id| assessment.finding(id).unwrap().verdict;
    assert_eq!(verdict("standing.tip_full"), Verdict::Stop);
    assert_eq!(verdict("standing.push"), Verdict::Stop);
    assert_eq!(verdict("standing.kerb"), Verdict::Stop);
}

#[test]
fn twenty_six_inches_does_not() {
    let assessment = assess(&six_hundred_pounds(26.0 * INCH));
    let stops: Vec<_> = (assessment.findings.iter())
        .filter(|finding| finding.id.starts_with("standing."))
        .filter(|finding| finding.verdict == Verdict::Stop)
        .map(|finding| finding.id)
        .collect();
    assert_eq!(stops, Vec::<&str>::new());
    let push = assessment.finding("standing.push").unwrap();
    assert_eq!(push.verdict, Verdict::Good);
}

#[test]
fn the_least_width_lies_between_them() {
    let deep = |width| {
        let mut design = six_hundred_pounds(width);
        set(&mut design, "base.depth", 2.0);
        design
    };
    let standing = assess(&deep(16.0 * INCH)).standing;
    let least = standing.least_width.unwrap().value;
    assert!(least > 16.0 * INCH && least < 30.0 * INCH, "{least} m");
    let at_least = assess(&deep(least));
    let narrower = assess(&deep(least - 0.003));
    let good = |assessment: &hearthplan::review::Assessment| {
        // Lengthways it is as deep as it was.
        [
            "standing.kerb",
            "standing.wind",
            "standing.tip_full",
            "standing.tip_empty",
            "standing.tip_hopper_off",
            "standing.push",
        ]
        .iter()
        .all(|id| assessment.finding(id).unwrap().verdict == Verdict::Good)
    };
    assert!(good(&at_least) && !good(&narrower));
}

#[test]
fn the_least_width_bears_wind_steps_and_slope_too() {
    let answers = [
        ("site.storm_wind", 45.0, "standing.wind"),
        ("base.walking_speed", 2.4, "standing.kerb"),
        ("base.slope", 0.15, "standing.slope"),
    ];
    for (path, value, id) in answers {
        let mut design = six_hundred_pounds(0.5);
        set(&mut design, "base.depth", 2.9);
        let calm = assess(&design).standing.least_width.unwrap();
        set(&mut design, path, value);
        let least = assess(&design).standing.least_width.unwrap();
        assert!(least > calm, "{id}: {least:?} {calm:?}");
        let verdict_at = |width: f64| {
            let mut design = design.clone();
            set(&mut design, "base.width", width);
            assess(&design).finding(id).unwrap().verdict
        };
        assert_eq!(verdict_at(least.value), Verdict::Good, "{id}");
        assert_ne!(verdict_at(least.value - 0.003), Verdict::Good, "{id}");
    }
}

#[test]
fn anchors_let_a_narrower_base_bear_the_wind() {
    let mut design = six_hundred_pounds(0.5);
    set(&mut design, "base.depth", 2.9);
    set(&mut design, "site.storm_wind", 45.0);
    let least = |design: &Design| assess(design).standing.least_width.unwrap();
    let free = least(&design);
    set(&mut design, "base.anchors", 150.0);
    let held = least(&design);
    assert!(held < free, "{held:?} {free:?}");
    set(&mut design, "base.width", held.value);
    let verdict = |design: &Design| assess(design).finding("standing.wind").unwrap().verdict;
    assert_eq!(verdict(&design), Verdict::Good);
    set(&mut design, "base.anchors", 0.0);
    assert_ne!(verdict(&design), Verdict::Good);
}
