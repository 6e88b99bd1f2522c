//! How far the machine reaches over all, against what sticks out of a base by hand.

use super::{bare, choose, close, set};
use hearthplan::design::Design;
use hearthplan::design::inputs::{Part, Shape};
use hearthplan::design::quantity::System;
use hearthplan::paper::html;
use hearthplan::paper::sheets::all;
use hearthplan::review::{Lever, Verdict, assess, remedies};
use hearthplan::sizing::machine::layout;
use hearthplan::sizing::overall::overall;
use uom::si::f64::Length;
use uom::si::length::meter;

fn metres(value: f64) -> Length {
    Length::new::<meter>(value)
}

/// A base of 2 m by 2.4 m of tube of 10 mm, the vessel well inside.
fn wide() -> Design {
    let mut design = bare();
    set(&mut design, "base.width", 2.0);
    set(&mut design, "base.depth", 2.4);
    design.parts.clear();
    design
}

fn reach(design: &Design) -> [f64; 2] {
    let found = overall(design, &layout(design)).unwrap();
    [found.width().value, found.depth().value]
}

#[test]
fn a_frame_alone_is_as_wide_as_its_base_and_its_tube() {
    let [width, depth] = reach(&wide());
    close(width, 2.01, 1e-9);
    close(depth, 2.41, 1e-9);
}

#[test]
fn what_sticks_out_counts_on_its_own_side() {
    let mut design = wide();
    design.parts.push(Part {
        shape: Shape::Weighed,
        width: metres(0.4),
        depth: metres(0.3),
        height: metres(0.2),
        x: metres(1.1),
        y: metres(-1.2),
        ..Part::default()
    });
    design.parts.push(Part {
        shape: Shape::Tube,
        diameter: metres(0.5),
        height: metres(0.2),
        x: metres(-0.9),
        ..Part::default()
    });
    let found = overall(&design, &layout(&design)).unwrap();
    close(found.right.value, 1.3, 1e-9);
    close(found.left.value, -1.15, 1e-9);
    close(found.front.value, -1.35, 1e-9);
    close(found.back.value, 1.205, 1e-9);
}

/// Fixed wheels of 200 mm reach 100 mm before and behind their axle, and are a quarter as broad as high; castors swing round
/// with 30 mm of trail.
#[test]
fn wheels_reach_out_of_the_frame() {
    let mut design = wide();
    choose(&mut design, "base.stance", "four_wheels");
    assert!(design.base.on_castors());
    let [width, depth] = reach(&design);
    close(width, 2.26, 1e-9);
    close(depth, 2.66, 1e-9);
    design.base.swivel = false;
    let [width, depth] = reach(&design);
    close(width, 2.05, 1e-9);
    close(depth, 2.6, 1e-9);
}

#[test]
fn the_summary_tells_it() {
    let design = Design::default();
    let assessment = assess(&design);
    let results = assessment.results();
    let told = |name: &str| {
        let found = results.iter().find(|result| result.name == name).unwrap();
        (found.label.clone(), found.measure.si)
    };
    let [width, depth] = reach(&design);
    close(told("standing.overall_width").1, width, 1e-12);
    close(told("standing.overall_depth").1, depth, 1e-12);
    let top = layout(&design).top.value;
    close(told("standing.overall_height").1, top, 1e-12);
    let sheets = all(&design, &assessment, System::Metric, &[]);
    let summary = sheets.iter().find(|sheet| sheet.name == "summary").unwrap();
    let text = html::blocks(summary, System::Metric);
    assert!(text.contains("Width over all, without pipes and hoses"));
}

/// What reaches furthest is named, and makes way where there is less room than it takes.
#[test]
fn a_machine_that_is_wider_than_its_room_is_told_by_what_sticks_out() {
    let mut design = wide();
    design.parts.push(Part {
        name: "Cooler".to_string(),
        shape: Shape::Weighed,
        width: metres(0.4),
        depth: metres(0.3),
        height: metres(0.2),
        x: metres(1.1),
        ..Part::default()
    });
    let asked = |design: &Design| assess(design).finding("standing.room").cloned();
    assert_eq!(asked(&design), None);
    // From −1.005 m to 1.3 m.
    for (room, verdict) in [
        (2.4, Verdict::Good),
        (2.305, Verdict::Good),
        (2.3, Verdict::Stop),
    ] {
        set(&mut design, "base.room_width", room);
        let found = asked(&design).unwrap();
        let told = found.compared.text(System::Metric);
        assert_eq!(found.verdict, verdict, "{told}");
        close(found.working[0].result.si, 2.305, 1e-9);
        assert!(told.contains("to the right “Cooler”"), "{told}");
    }
    let offered = remedies(&design, "standing.room");
    let by = |path: &str| {
        let lever = Lever::input(path.to_string());
        let remedy = offered.iter().find(|remedy| remedy.lever == lever).unwrap();
        (remedy.change.is_some(), remedy.is_fact())
    };
    assert_eq!(by("parts.0.x"), (true, false));
    assert_eq!(by("base.width"), (true, false));
    assert_eq!(by("base.room_width"), (true, true));
    // The way it fits worse is told.
    set(&mut design, "base.room_depth", 1.0);
    let told = asked(&design).unwrap().compared.text(System::Metric);
    assert!(told.contains("deep over all"), "{told}");
}
