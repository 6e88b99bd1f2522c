//! The nozzle holes beside the weld between fire tube and cone, and the templates of both.

use crate::mended::every_remedy_passes;
use hearthplan::design::inputs::{Hearth, HearthKind, HearthMaterial};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::review::{Chapter, Finding, Lever, Verdict, ask, assess, remedies};
use hearthplan::sizing::pattern::{Stroke, Use, nozzle_ring, patterns};
use uom::si::f64::Length;
use uom::si::length::millimeter;

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

/// The example with nozzle tubes of 13.5 mm and a wall of 5 mm, whose fire tube goes so far straight on below them; without
/// its lighting port, which is wider.
fn straight_on(millimetres: f64) -> Design {
    let mut design = example::as_improved();
    design.holes.remove(3);
    design.hearth.straight_below_nozzles = mm(millimetres);
    design
}

fn asked(design: &Design) -> Option<Finding> {
    (ask(design, Chapter::Marking).into_iter()).find(|finding| finding.id == "marking.cone_weld")
}

/// Half of 13.5 mm, and 5 mm of steel: 11.75 mm.
#[test]
fn nozzle_holes_keep_clear_of_the_weld_of_the_cone() {
    for (straight, wanted, words) in [
        (
            0.0,
            Verdict::Watch,
            "ends at the middle of the nozzle holes of 13.5 mm",
        ),
        (6.0, Verdict::Watch, "they lie in its weld"),
        (7.0, Verdict::Watch, "they lie close to its weld"),
        (11.7, Verdict::Watch, "they lie close to its weld"),
        (11.75, Verdict::Good, "they keep clear"),
        (12.0, Verdict::Good, "ends 12 mm below"),
    ] {
        let design = straight_on(straight);
        let finding = asked(&design).unwrap();
        let told = finding.compared.text(System::Metric);
        assert_eq!(finding.verdict, wanted, "{straight}: {told}");
        assert!(told.contains(words), "{straight}: {told}");
        let margin = finding.margin.unwrap();
        assert_eq!(
            margin >= 0.0,
            wanted == Verdict::Good,
            "{straight}: {margin}"
        );
        assert_eq!(
            finding.levers,
            [Lever::input("hearth.straight_below_nozzles")]
        );
        if wanted != Verdict::Good {
            every_remedy_passes(&design, "marking.cone_weld", 1);
        }
    }
}

#[test]
fn a_thicker_wall_wants_more_steel_beside_its_weld() {
    let mut design = straight_on(12.0);
    design.hearth.steel_thickness = mm(8.0);
    assert_eq!(asked(&design).unwrap().verdict, Verdict::Watch);
    design.hearth.straight_below_nozzles = mm(14.75);
    assert_eq!(asked(&design).unwrap().verdict, Verdict::Good);
    // A thin one no less than five millimetres.
    design.hearth.steel_thickness = mm(2.0);
    design.hearth.straight_below_nozzles = mm(11.7);
    assert_eq!(asked(&design).unwrap().verdict, Verdict::Watch);
}

/// As long as no ring is marked out, the tube has a wall of 3 mm around its bore.
#[test]
fn without_a_ring_of_holes_a_usual_tube_is_taken() {
    let mut design = straight_on(11.9);
    design.holes.clear();
    // A bore of 7.9 mm: 13.9 mm outside.
    assert_eq!(asked(&design).unwrap().verdict, Verdict::Watch);
    design.hearth.straight_below_nozzles = mm(11.95);
    assert_eq!(asked(&design).unwrap().verdict, Verdict::Good);
}

#[test]
fn where_no_cone_is_welded_on_nothing_is_asked() {
    let mut cast = straight_on(0.0);
    cast.hearth.material = HearthMaterial::DenseCastable;
    assert_eq!(asked(&cast), None);
    let mut straight = straight_on(0.0);
    straight.hearth.kind = HearthKind::Straight;
    assert_eq!(asked(&straight), None);
    assert!(!straight.in_use("hearth.straight_below_nozzles"));
}

#[test]
fn the_first_sketch_has_its_nozzles_in_the_weld() {
    let verdict = |design: &Design| asked(design).unwrap().verdict;
    assert_eq!(verdict(&example::as_first_drawn()), Verdict::Watch);
    assert_eq!(verdict(&example::as_improved()), Verdict::Good);
}

/// The pipe of the port is 33.7 mm wide: half of it and 5 mm are 21.85 mm, of which the fire tube goes 12 mm below the nozzles.
#[test]
fn the_lighting_port_keeps_clear_of_the_weld_of_the_cone_too() {
    let nozzles = example::as_improved().holes[0].height;
    for (above, wanted, words) in [
        (
            10.0,
            Verdict::Good,
            "least to spare: the middle of “Lighting port”, 33.7 mm wide, lies 22 mm above",
        ),
        (9.0, Verdict::Watch, "it lies close to the weld"),
        (
            0.0,
            Verdict::Watch,
            "lies 12 mm above the end of the fire tube, wanted at least 21.85 mm: it cuts the weld",
        ),
        (
            -13.0,
            Verdict::Watch,
            "lies 1 mm below the end of the fire tube, wanted at least 21.85 mm above it",
        ),
        // All of it on the cone: no matter of the weld any more.
        (-40.0, Verdict::Good, "nozzle holes of 13.5 mm"),
    ] {
        let mut design = example::as_improved();
        design.holes[3].height = nozzles + mm(above);
        let finding = asked(&design).unwrap();
        let told = finding.compared.text(System::Metric);
        assert_eq!(finding.verdict, wanted, "{above}: {told}");
        assert!(told.contains(words), "{above}: {told}");
        if wanted != Verdict::Good {
            let levers = ["holes.3.height", "hearth.straight_below_nozzles"].map(Lever::input);
            assert_eq!(finding.levers, levers);
            every_remedy_passes(&design, "marking.cone_weld", 1);
        }
    }
}

/// A port that is moved down, away from a seam above it, comes nearer to the weld of the cone, and is told to; it goes no further
/// than the fire tube.
#[test]
fn away_from_a_seam_no_port_is_moved_off_the_fire_tube() {
    for seam in [518.0, 511.0] {
        let mut design = example::as_improved();
        design.real_vessel.upper_seam = mm(seam);
        let clash = assess(&design).finding("marking.clash").unwrap().clone();
        assert_eq!(clash.verdict, Verdict::Stop);
        assert_eq!(clash.levers, [Lever::input("holes.3.height")]);
        let [remedy] = &remedies(&design, "marking.clash")[..] else {
            panic!("one lever");
        };
        let change = remedy.change.as_ref().expect("there is room on the tube");
        let changed = change.apply(&design).unwrap();
        let worse = ("marking.cone_weld", Verdict::Good, Verdict::Watch);
        assert_eq!(remedy.worsens, [worse], "{seam}");
        let port = assess(&changed);
        let port = port.finding("marking.lighting_port").unwrap();
        assert_eq!(port.verdict, Verdict::Good, "{seam}");
    }
}

#[test]
fn the_template_of_the_nozzle_ring_tells_where_the_fire_tube_ends() {
    let told = |hearth: &Hearth| nozzle_ring(hearth, Some(mm(13.5))).unwrap().note;
    let mut hearth = example::as_improved().hearth;
    for (straight, wanted, without) in [
        (
            0.0,
            "The fire tube ends there, and the cone above the throat begins: mark",
            "below that",
        ),
        (6.0, "ends 6.0 mm", "from the edge of the tube"),
        (
            6.0,
            "weld the cone on, and drill",
            "from the edge of the tube",
        ),
        (12.0, "ends 12.0 mm", "drill through both"),
        (
            12.0,
            "measure from the edge of the tube",
            "drill through both",
        ),
    ] {
        hearth.straight_below_nozzles = mm(straight);
        let note = told(&hearth);
        assert!(note.contains(wanted), "{straight}: {note}");
        assert!(!note.contains(without), "{straight}: {note}");
    }
    hearth.kind = HearthKind::Straight;
    assert!(!told(&hearth).contains("cone"), "{}", told(&hearth));
}

#[test]
fn the_end_of_the_fire_tube_is_drawn_on_the_nozzle_ring() {
    let edges = |straight: f64| {
        let ring = nozzle_ring(&straight_on(straight).hearth, None)
            .unwrap()
            .bare();
        let level = |line: &Stroke| match line {
            Stroke::Line { from, to } if from.y == to.y => Some(from.y),
            _ => None,
        };
        let aids = ring.lines.iter().filter(|line| line.purpose == Use::Aid);
        let named = (ring.labels.iter()).any(|label| label.text == "end of the fire tube");
        let levels: Vec<f64> = aids.filter_map(|line| level(&line.stroke)).collect();
        (levels, named)
    };
    assert_eq!(edges(12.0), (vec![-12.0], true));
    assert_eq!(edges(0.0), (Vec::new(), false));
}

/// The slant of a cone is the difference of the radii of its blank.
#[test]
fn the_cone_is_cut_as_much_shorter_as_the_tube_is_longer() {
    let sizes = |design: &Design| {
        let entries = patterns(design);
        let named = |name: &str| {
            let entry = entries.iter().find(|entry| entry.name == name).unwrap();
            entry.pattern.as_ref().unwrap().bare()
        };
        let cone = named("Cone above the throat");
        let radii: Vec<f64> = (cone.lines.iter())
            .filter_map(|line| match line.stroke {
                Stroke::Arc { radius, .. } => Some(radius),
                _ => None,
            })
            .collect();
        let tall = named("Fire tube").bounds().height();
        ((radii[0] - radii[1]).abs(), tall)
    };
    let (_, short) = sizes(&straight_on(0.0));
    let design = straight_on(12.0);
    let (slant, long) = sizes(&design);
    // 88 mm tall less 12 mm.
    let (wide, narrow) = (
        design.hearth.nozzle_ring_diameter,
        design.hearth.throat_diameter,
    );
    let flare = 0.5 * (wide - narrow).get::<millimeter>();
    assert!((slant - 76.0_f64.hypot(flare)).abs() < 1e-6, "{slant}");
    assert!((long - short - 12.0).abs() < 1e-6, "{long} {short}");
}
