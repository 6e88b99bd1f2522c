//! The circle of bolts on a flange, between its pipe and its rim.

use crate::mended::every_remedy_passes;
use hearthplan::design::inputs::Flange;
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::review::{Chapter, Finding, Verdict, ask};
use uom::si::f64::Length;
use uom::si::length::millimeter;

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

fn asked(design: &Design) -> Option<Finding> {
    (ask(design, Chapter::Marking).into_iter()).find(|finding| finding.id == "marking.bolt_circle")
}

/// The example with one flange of these measures in mm: outside, bore, bolt circle, bolt hole.
fn flange(name: &str, [outside, bore, circle, hole]: [f64; 4]) -> Design {
    let mut design = example::as_improved();
    design.flanges = vec![Flange {
        name: name.to_string(),
        outside: mm(outside),
        bore: mm(bore),
        bolt_circle: mm(circle),
        bolt_hole: mm(hole),
        ..Flange::default()
    }];
    design
}

#[test]
fn flanges_of_the_examples_have_room_for_their_bolts() {
    for design in [example::as_first_drawn(), example::as_improved()] {
        let finding = asked(&design).unwrap();
        let told = finding.compared.text(System::Metric);
        assert_eq!(finding.verdict, Verdict::Good, "{told}");
    }
    let mut none = example::as_improved();
    none.flanges.clear();
    assert!(asked(&none).is_none());
}

/// Holes of 11 mm: 13.2 mm to the rim are wanted, 11 mm the least. A washer of 20 mm takes 10 mm beside the pipe, a nut of
/// 16 mm takes 8 mm. The pipe of the gas outlet is 44.5 mm outside.
#[test]
fn a_bolt_circle_lies_between_pipe_and_rim() {
    let outside = example::as_improved();
    let outlet = (outside.holes.iter()).find(|hole| hole.name == "Gas outlet");
    let pipe = hearthplan::sizing::marking::pipe_outside(outlet.unwrap());
    let pipe = pipe.get::<millimeter>();
    for (circle, wanted, words) in [
        (120.0, Verdict::Good, "to the rim"),
        (123.5, Verdict::Good, "to the rim"),
        (123.7, Verdict::Watch, "to the rim"),
        (127.9, Verdict::Watch, "to the rim"),
        (128.1, Verdict::Stop, "to the rim"),
        (151.0, Verdict::Stop, "outside its rim"),
        (pipe + 20.1, Verdict::Good, "a washer takes"),
        (pipe + 19.9, Verdict::Watch, "a washer takes"),
        (pipe + 16.1, Verdict::Watch, "a washer takes"),
        (pipe + 15.9, Verdict::Stop, "too little for a nut"),
        (pipe - 4.0, Verdict::Stop, "lies inside “Gas outlet”"),
    ] {
        let design = flange("Gas outlet flange", [150.0, pipe, circle, 11.0]);
        let finding = asked(&design).unwrap();
        let told = finding.compared.text(System::Metric);
        assert_eq!(finding.verdict, wanted, "{circle}: {told}");
        assert!(told.contains(words), "{circle}: {told}");
        assert_eq!(finding.margin.unwrap() >= 0.0, wanted == Verdict::Good);
        if wanted != Verdict::Good {
            every_remedy_passes(&design, "marking.bolt_circle", 1);
        }
    }
}

/// A lid has no pipe, only its bore, and a blind flange nothing inside at all.
#[test]
fn without_a_pipe_the_bore_counts_and_a_blind_flange_has_none() {
    let of = |measures: [f64; 4]| {
        let finding = asked(&flange("Lid", measures)).unwrap();
        (finding.verdict, finding.compared.text(System::Metric))
    };
    let (verdict, told) = of([400.0, 300.0, 310.0, 11.0]);
    assert_eq!(verdict, Verdict::Stop, "{told}");
    assert!(told.contains("to the bore"), "{told}");
    let (verdict, told) = of([400.0, 300.0, 295.0, 11.0]);
    assert_eq!(verdict, Verdict::Stop, "{told}");
    assert!(told.contains("inside its bore"), "{told}");
    assert_eq!(of([400.0, 300.0, 315.0, 11.0]).0, Verdict::Watch);
    assert_eq!(of([400.0, 300.0, 340.0, 11.0]).0, Verdict::Good);
    assert_eq!(of([150.0, 0.0, 20.0, 11.0]).0, Verdict::Good);
}
