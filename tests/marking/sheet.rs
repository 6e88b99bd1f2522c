//! What was measured of the vessel, and what the design takes it for, are one.

use crate::mended::every_remedy_passes;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use hearthplan::review::{Verdict, assess};
use hearthplan::sizing::shell_there::is_there;
use hearthplan::sizing::standing_in::stand_ins;
use hearthplan::sizing::train_mass::drum_outside;

fn told(design: &Design, id: &str) -> (Verdict, String) {
    let assessment = assess(design);
    let finding = assessment.finding(id).expect("the question is asked");
    (finding.verdict, finding.compared.text(System::Metric))
}

#[test]
fn the_sheet_measured_is_that_of_the_wall() {
    let mut design = example::as_improved();
    assert_eq!(told(&design, "marking.sheet").0, Verdict::Good);
    let wall = design.hearth_layers[2].thickness;
    for (times, wanted) in [
        (1.1, Verdict::Good),
        (0.5, Verdict::Watch),
        (2.0, Verdict::Watch),
    ] {
        design.real_vessel.sheet = times * wall;
        let (verdict, words) = told(&design, "marking.sheet");
        assert_eq!(verdict, wanted, "{words}");
    }
    assert!(told(&design, "marking.sheet").1.contains("is 3 mm thick"));
    // With one of its walls the vessel's, a single change is enough.
    design.body_layers[2].thickness = design.real_vessel.sheet;
    every_remedy_passes(&design, "marking.sheet", 1);
    // What is not measured, or is no wall of the design, is not asked about.
    design.real_vessel.measured = false;
    assert!(assess(&design).finding("marking.sheet").is_none());
}

#[test]
fn a_straight_vessel_is_not_two_widths() {
    let mut design = example::as_improved();
    assert_eq!(told(&design, "marking.shell").0, Verdict::Good);
    (design.set("body_layers.1.thickness", Value::Number(0.09))).expect("a layer");
    let (verdict, words) = told(&design, "marking.shell");
    assert_eq!(verdict, Verdict::Watch, "{words}");
    assert!(words.contains("one straight vessel is not both"), "{words}");
    every_remedy_passes(&design, "marking.shell", 1);
    // A vessel that ends with the hearth wall is another matter.
    design.real_vessel.length = design.real_vessel.upper_seam;
    assert_eq!(told(&design, "marking.shell").0, Verdict::Good);
}

/// The invented machine is one machine: each fact of it that is told twice is told alike.
#[test]
fn the_improved_example_tells_each_of_its_measures_alike() {
    let design = example::as_improved();
    for (inside, layers) in [
        (design.hearth_wall.inside_diameter, &design.hearth_layers),
        (design.body_wall.inside_diameter, &design.body_layers),
    ] {
        assert!(is_there(&design, inside, layers));
        let sheet = layers.last().expect("a layer").thickness;
        assert_eq!(sheet, design.real_vessel.sheet);
    }
    let drums = ["Filter drum"];
    for (stage, place) in design.train.iter().zip(stand_ins(&design)) {
        let Some(part) = place.and_then(|place| design.parts.get(place)) else {
            continue;
        };
        if drums.contains(&part.name.as_str()) {
            let [_, height] = drum_outside(stage).expect("a size");
            assert!((part.height - height).value.abs() < 0.001, "{}", part.name);
        }
    }
}
