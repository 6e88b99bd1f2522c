//! Air inside sub-assemblies of the gas train, for their leak tests.

use hearthplan::design::inputs::{FilterMedium, Group, StageKind, TrainStage};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::review::{Finding, Lever, Verdict, assess};
use hearthplan::sizing::air_inside::{add_test, air_inside, follow};
use uom::si::f64::{Length, Volume};
use uom::si::length::millimeter;
use uom::si::volume::liter;

fn finding(design: &Design, id: &str) -> Finding {
    let assessment = assess(design);
    (assessment.finding(id).expect("the question is asked")).clone()
}

/// Air of the gas train follows from the sizes of its stages, by hand, where each has one; what was entered goes before it.
#[test]
fn the_air_of_the_train_follows_from_its_stages() {
    let mut design = Design::default();
    let long = Length::new::<millimeter>;
    let of = |kind| TrainStage {
        kind,
        bore: long(50.0),
        length: long(2_000.0),
        tubes: 10,
        tube_bore: long(20.0),
        tube_length: long(1_500.0),
        medium: FilterMedium::Packed,
        filter_diameter: long(400.0),
        filter_depth: long(300.0),
        vessel_diameter: long(200.0),
        vessel_height: long(250.0),
        ..TrainStage::default()
    };
    use StageKind::{Cooler, Filter, Measured, Pipe, Trap};
    design.train = [Pipe, Cooler, Trap, Filter, Pipe, Trap].map(of).to_vec();
    let voids = design.train[3].filter_voids.value;
    let round = |across: f64, high: f64| 0.25 * std::f64::consts::PI * across * across * high;
    let holds = |design: &Design, group| air_inside(design, group).map(|air| air.value);
    let by_hand = [
        (
            Group::Cooler,
            2.0 * round(0.05, 2.0) + 10.0 * round(0.02, 1.5),
        ),
        (Group::Condensate, 2.0 * round(0.2, 0.25)),
        (Group::Filter, round(0.4, 0.3 * voids + 0.2)),
    ];
    for (group, litres) in by_hand {
        let found = holds(&design, group).unwrap();
        assert!((found / litres - 1.0).abs() < 1e-12, "{found} {litres}");
    }
    // A new test of it is reckoned with that, and follows a train that was changed before it was added.
    add_test(&mut design, 0);
    let before = design.clone();
    design.choose("readings.0.group", "cooler").unwrap();
    follow(&mut design, &before, "readings.0.group");
    let (_, cooler) = by_hand[0];
    assert!((design.readings[0].volume.value - cooler).abs() <= 0.5e-4);
    // Of one that was measured as a whole nobody knows.
    design.train.push(of(Measured));
    assert_eq!(holds(&design, Group::Cooler), None);
    design.leak_test.cooler_volume = Some(Volume::new::<liter>(9.0));
    assert_eq!(
        air_inside(&design, Group::Cooler),
        design.leak_test.cooler_volume
    );
}

/// An entry from before the train was changed is told.
#[test]
fn entered_air_far_from_the_stages_is_told() {
    let plan = |share: f64| {
        let mut design = example::as_improved();
        let own = air_inside(&design, Group::Condensate).unwrap();
        design.leak_test.condensate_volume = Some(own * share);
        finding(&design, "leaks.plan")
    };
    for (share, verdict) in [
        (1.0, Verdict::Good),
        (1.29, Verdict::Good),
        (1.31, Verdict::Watch),
        (0.76, Verdict::Watch),
    ] {
        let found = plan(share);
        let words = found.compared.text(System::Metric);
        assert_eq!(found.verdict, verdict, "{share}: {words}");
        assert_eq!(
            words.contains("by their sizes its stages hold"),
            verdict == Verdict::Watch
        );
    }
    let levers = plan(2.0).levers;
    assert_eq!(
        levers,
        [Lever::input("leak_test.condensate_volume".to_string())]
    );
    assert_eq!(
        finding(&example::as_improved(), "leaks.plan").verdict,
        Verdict::Good
    );
}
