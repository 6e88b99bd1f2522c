//! Pipes in their holes, nozzle tubes, the gas outlet and its flange.

use crate::mended::every_remedy_passes;
use hearthplan::design::inputs::{Flange, HearthKind, HoleUse, StageKind};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::review::{Chapter, Finding, Lever, Verdict, ask};
use hearthplan::sizing::machine::layout;
use hearthplan::sizing::marking::pipe_outside;
use hearthplan::sizing::nozzle_tube::{USUAL_WALL, nozzle_tube};
use hearthplan::sizing::parts_list::parts_list;
use hearthplan::sizing::pattern::{Stroke, Use, patterns};
use hearthplan::sizing::stock::{Stock, stock};
use std::f64::consts::PI;
use uom::si::f64::Length;
use uom::si::length::millimeter;

const NOZZLE: usize = 0;
const OUTLET: usize = 2;
const PORT: usize = 3;

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

fn asked(design: &Design, id: &str) -> Option<Finding> {
    (ask(design, Chapter::Marking).into_iter()).find(|finding| finding.id == id)
}

fn told(design: &Design, id: &str) -> (Verdict, String) {
    let finding = asked(design, id).unwrap();
    let good = finding.verdict == Verdict::Good;
    if let Some(margin) = finding.margin {
        assert_eq!(margin >= -1e-12, good, "{id}: {margin}");
    }
    (finding.verdict, finding.compared.text(System::Metric))
}

/// The example with pipes of known walls, and a change.
fn with(change: impl FnOnce(&mut Design)) -> Design {
    let mut design = example::as_improved();
    for (place, hole, outside, wall) in [(NOZZLE, 14.5, 13.9, 3.0), (OUTLET, 40.0, 44.5, 2.3)] {
        let pierced = &mut design.holes[place];
        pierced.diameter = mm(hole);
        pierced.pipe = Some(mm(outside));
        pierced.pipe_wall = mm(wall);
    }
    change(&mut design);
    design
}

#[test]
fn pipes_and_flanges_of_the_examples_fit() {
    for design in [example::as_first_drawn(), example::as_improved()] {
        for id in ["marking.pipes", "marking.outlet", "marking.flanges"] {
            let (verdict, words) = told(&design, id);
            assert_eq!(verdict, Verdict::Good, "{words}");
        }
    }
}

/// 33.7 mm of pipe: in from 33.9 mm, welded as it is up to 37.7 mm, with a wide weld up to 43.7 mm.
#[test]
fn a_pipe_goes_through_a_hole_that_is_a_little_wider() {
    let port = |hole: f64| with(|design| design.holes[PORT].diameter = mm(hole));
    for (hole, wanted, words) in [
        (33.0, Verdict::Stop, "does not go in"),
        (33.69, Verdict::Stop, "does not go in"),
        (33.7, Verdict::Watch, "driven in"),
        (33.89, Verdict::Watch, "driven in"),
        (33.9, Verdict::Good, ""),
        (37.7, Verdict::Good, ""),
        (37.8, Verdict::Watch, "a gap that takes a wide weld"),
        (43.7, Verdict::Watch, "a gap that takes a wide weld"),
        (43.8, Verdict::Stop, "no weld fills more than 5 mm"),
    ] {
        let design = port(hole);
        let (verdict, said) = told(&design, "marking.pipes");
        assert_eq!(verdict, wanted, "{hole}: {said}");
        assert!(said.contains(words), "{hole}: {said}");
        if wanted != Verdict::Good {
            assert!(said.starts_with("Lighting port: "), "{said}");
            let finding = asked(&design, "marking.pipes").unwrap();
            let gap = finding.working[0].result.si;
            assert!((gap - 0.5e-3 * (hole - 33.7)).abs() < 1e-12);
            every_remedy_passes(&design, "marking.pipes", 1);
        }
    }
}

/// 44.5 mm of pipe with a wall of 2.3 mm: half of the wall stands on the shell beside a hole of 42.2 mm.
#[test]
fn a_pipe_on_the_shell_needs_an_edge_to_stand_on() {
    for (hole, wanted) in [
        (20.0, Verdict::Good),
        (42.2, Verdict::Good),
        (42.3, Verdict::Watch),
        (44.5, Verdict::Watch),
        (54.5, Verdict::Watch),
        (54.6, Verdict::Stop),
    ] {
        let design = with(|design| design.holes[OUTLET].diameter = mm(hole));
        let (verdict, said) = told(&design, "marking.pipes");
        assert_eq!(verdict, wanted, "{hole}: {said}");
        if wanted != Verdict::Good {
            assert!(said.starts_with("Gas outlet: "), "{said}");
            every_remedy_passes(&design, "marking.pipes", 1);
        }
    }
    let slips = with(|design| design.holes[OUTLET].diameter = mm(43.0));
    let finding = asked(&slips, "marking.pipes").unwrap();
    assert!((finding.working[0].result.si - 0.0422).abs() < 1e-12);
}

#[test]
fn a_pipe_that_is_not_entered_cannot_be_told_to_fit() {
    for (place, words) in [
        (PORT, "as wide as its hole of 34 mm it does not go in"),
        (
            OUTLET,
            "as wide as its hole of 40 mm it has no edge to stand on",
        ),
    ] {
        let design = with(|design| design.holes[place].pipe = None);
        let (verdict, said) = told(&design, "marking.pipes");
        assert_eq!(verdict, Verdict::CannotTell);
        assert!(said.ends_with(words), "{said}");
    }
    // Openings have no pipe.
    let open = with(|design| {
        (design.holes).retain(|hole| hole.carries == HoleUse::Open);
    });
    assert_eq!(asked(&open, "marking.pipes"), None);
}

/// A tube of 13.9 mm: 2 mm of wall are left around 9.9 mm, nothing around 13.9 mm. Its own bore of 7.9 mm is nine tenths
/// of 8.78 mm.
#[test]
fn the_bore_of_a_nozzle_leaves_a_wall() {
    let bored = |bore: f64, wall: f64| {
        with(|design| {
            design.hearth.nozzle_bore = mm(bore);
            design.holes[NOZZLE].pipe_wall = mm(wall);
        })
    };
    for (bore, wall, wanted, words) in [
        (7.9, 3.0, Verdict::Good, ""),
        (8.77, 3.0, Verdict::Good, ""),
        (8.79, 3.0, Verdict::Watch, "drill the tube open"),
        (9.9, 2.0, Verdict::Good, ""),
        (10.0, 2.0, Verdict::Watch, "less than a wall of 2 mm"),
        (13.8, 0.5, Verdict::Watch, "less than a wall of 2 mm"),
        (13.9, 0.5, Verdict::Stop, "no wall is left"),
        (16.0, 0.5, Verdict::Stop, "no wall is left"),
    ] {
        let design = bored(bore, wall);
        let (verdict, said) = told(&design, "marking.pipes");
        assert_eq!(verdict, wanted, "{bore}: {said}");
        assert!(said.contains(words), "{bore}: {said}");
        if wanted != Verdict::Good {
            every_remedy_passes(&design, "marking.pipes", 1);
        }
    }
    let thin = asked(&bored(10.9, 2.0), "marking.pipes").unwrap();
    assert!((thin.working[0].result.si - 0.0015).abs() < 1e-12);
    assert!(thin.levers.contains(&Lever::input("hearth.nozzle_bore")));
    // A straight tube has no nozzles, whatever stands in their fields.
    let mut straight = bored(16.0, 3.0);
    straight.hearth.kind = HearthKind::Straight;
    assert_eq!(told(&straight, "marking.pipes").0, Verdict::Good);
}

/// Hole table, weight and shopping list speak of one tube.
#[test]
fn the_tube_that_is_bought_is_the_one_in_the_holes() {
    let mut design = example::as_improved();
    for (outside, wall) in [(13.9, 3.0), (21.3, 2.6)] {
        design.holes[NOZZLE].pipe = Some(mm(outside));
        design.holes[NOZZLE].pipe_wall = mm(wall);
        let machine = layout(&design);
        let lines = parts_list(&design, &machine);
        let line = lines.iter().find(|line| line.name == "Nozzles").unwrap();
        let Some(Stock::Tube {
            outside: bought,
            wall: thick,
            length,
        }) = stock(&design, &machine, line)
        else {
            panic!("the nozzles are a tube");
        };
        assert_eq!(bought, pipe_outside(&design.holes[NOZZLE]));
        assert!((thick - mm(wall)).abs() < mm(1e-9));
        let inside = outside - 2.0 * wall;
        let steel = 0.25e-6 * PI * (outside * outside - inside * inside) * length.value * 7900.0;
        let weighed = line.mass.value / 5.0;
        assert!((weighed - steel).abs() < 1e-9, "{weighed} {steel}");
    }
    // Where no ring is marked out, the bore with a usual wall around it.
    design.holes.clear();
    let tube = nozzle_tube(&design);
    assert!((tube.inside() - design.hearth.nozzle_bore).abs() < mm(1e-9));
    assert_eq!(tube.wall.value, USUAL_WALL);
    // A wall thicker than the tube leaves a rod.
    let mut rod = example::as_improved();
    rod.holes[NOZZLE].pipe_wall = mm(20.0);
    assert!(nozzle_tube(&rod).inside().abs() < mm(1e-9));
}

/// Behind the outlet comes a pipe of 40 mm: 36 mm and 44.4 mm are within a tenth.
#[test]
fn the_outlet_is_as_wide_as_the_pipe_behind_it() {
    let inside = |inside: f64| {
        with(|design| {
            let outlet = &mut design.holes[OUTLET];
            outlet.pipe = Some(mm(inside + 2.0 * 2.3));
            outlet.diameter = mm(inside);
        })
    };
    for (bore, wanted) in [
        (35.9, Verdict::Watch),
        (36.0, Verdict::Good),
        (44.4, Verdict::Good),
        (44.5, Verdict::Watch),
        (55.1, Verdict::Watch),
    ] {
        let design = inside(bore);
        let (verdict, said) = told(&design, "marking.outlet");
        assert_eq!(verdict, wanted, "{bore}: {said}");
        if wanted != Verdict::Good {
            assert!(said.contains("Hearth outlet behind it 40 mm"), "{said}");
            every_remedy_passes(&design, "marking.outlet", 1);
        }
    }
    let finding = asked(&inside(50.0), "marking.outlet").unwrap();
    assert!((finding.working[0].result.si - 0.050).abs() < 1e-12);
    assert!((finding.working[1].result.si - 0.8).abs() < 1e-12);

    // What stands in the way is the hole, however wide the pipe on it is.
    let throttled = with(|design| design.holes[OUTLET].diameter = mm(35.0));
    let (verdict, said) = told(&throttled, "marking.outlet");
    assert_eq!(verdict, Verdict::Watch);
    assert!(said.contains("it throttles the gas"), "{said}");
    let finding = asked(&throttled, "marking.outlet").unwrap();
    assert!((finding.working[1].result.si - 35.0 / 39.9).abs() < 1e-12);
    every_remedy_passes(&throttled, "marking.outlet", 1);
    // A pipe that is set in goes through its hole.
    let set_in = with(|design| {
        design.holes[OUTLET].carries = HoleUse::SetIn;
        design.holes[OUTLET].diameter = mm(45.5);
    });
    assert_eq!(told(&set_in, "marking.outlet").0, Verdict::Good);

    let all_wall = with(|design| design.holes[OUTLET].pipe_wall = mm(25.0));
    let (verdict, said) = told(&all_wall, "marking.outlet");
    assert_eq!(verdict, Verdict::Stop);
    assert!(said.contains("no gas passes"), "{said}");
    let open = with(|design| design.holes[OUTLET].carries = HoleUse::Open);
    assert_eq!(told(&open, "marking.outlet").0, Verdict::CannotTell);
}

#[test]
fn the_outlet_is_known_by_its_name_and_only_asked_about_where_a_bore_meets_it() {
    let named = |name: &str| with(|design| design.holes[OUTLET].name = name.to_string());
    for name in ["Gas pipe", "OUTLET", "gas-outlet (rear)"] {
        let (verdict, said) = told(&named(name), "marking.outlet");
        assert_ne!(verdict, Verdict::CannotTell, "{name}: {said}");
    }
    for name in ["Ash outlet", "Water outlet", "Gasket", "Rear"] {
        let (verdict, said) = told(&named(name), "marking.outlet");
        assert_eq!(verdict, Verdict::CannotTell, "{name}: {said}");
    }
    // The plainer name goes first.
    let two = with(|design| design.holes[PORT].name = "Gas tap".to_string());
    let (_, said) = told(&two, "marking.outlet");
    assert!(said.starts_with("Gas outlet is"), "{said}");
    // A filter is a drum.
    let drum = with(|design| design.train[0].kind = StageKind::Filter);
    assert_eq!(asked(&drum, "marking.outlet"), None);
    // The slot of a cyclone of 95 mm has the area of a bore of 37.9 mm.
    let cyclone = with(|design| {
        design.train.remove(0);
    });
    let (verdict, said) = told(&cyclone, "marking.outlet");
    assert_eq!(verdict, Verdict::Good, "{said}");
    assert!(said.contains("Cyclone behind it 37.9 mm"), "{said}");
    assert_eq!(
        asked(&with(|design| design.train.clear()), "marking.outlet"),
        None
    );
}

/// A pipe of 44.5 mm with a wall of 2.3 mm: welded on its end from 35.91 to 42.2 mm, pushed over it from 44.7 to 48.5 mm.
#[test]
fn a_flange_goes_over_its_pipe_or_on_its_end() {
    let bored = |bore: f64| with(|design| design.flanges[0].bore = mm(bore));
    for (bore, wanted, words) in [
        (35.9, Verdict::Watch, "stands in the way of the gas"),
        (35.92, Verdict::Good, "welded on the end"),
        (42.2, Verdict::Good, "welded on the end"),
        (42.3, Verdict::Watch, "too wide for its end"),
        (44.6, Verdict::Watch, "does not go over"),
        (44.7, Verdict::Good, "goes over “Gas outlet”"),
        (48.5, Verdict::Good, "goes over “Gas outlet”"),
        (48.6, Verdict::Watch, "takes a wide weld"),
        (54.5, Verdict::Watch, "takes a wide weld"),
        (54.6, Verdict::Stop, "no weld fills more than 5 mm"),
        (70.0, Verdict::Stop, "no weld fills more than 5 mm"),
    ] {
        let design = bored(bore);
        let (verdict, said) = told(&design, "marking.flanges");
        assert_eq!(verdict, wanted, "{bore}: {said}");
        assert!(said.contains(words), "{bore}: {said}");
        if wanted != Verdict::Good {
            every_remedy_passes(&design, "marking.flanges", 1);
        }
    }
    let wide = asked(&bored(50.5), "marking.flanges").unwrap();
    assert!((wide.working[0].result.si - 0.003).abs() < 1e-12);
}

#[test]
fn a_flange_belongs_to_the_pipe_it_is_named_after() {
    let flange = |name: &str, bore: f64| {
        with(|design| {
            design.flanges = vec![Flange {
                name: name.to_string(),
                bore: mm(bore),
                ..Flange::default()
            }]
        })
    };
    // The pipes of the train are 44 mm and 56 mm outside, the port 33.7 mm.
    let of = |name: &str, bore: f64| told(&flange(name, bore), "marking.flanges");
    assert_eq!(of("flange, GAS OUTLET", 57.0).0, Verdict::Stop);
    let (verdict, said) = of("Flange", 57.0);
    assert_eq!(verdict, Verdict::Good);
    assert!(said.contains("“Pipe with fittings”"), "{said}");
    assert_eq!(of("Flange of the lighting port", 57.0).0, Verdict::Stop);
    let (verdict, said) = of("Flange", 70.0);
    assert_eq!(verdict, Verdict::CannotTell);
    assert!(said.contains("fits no pipe that is entered"), "{said}");
    // Blind, or of a lid more than twice as wide as any pipe.
    for bore in [0.0, 300.0] {
        assert_eq!(asked(&flange("Flange", bore), "marking.flanges"), None);
    }
    // Without any pipe nothing can be told.
    let mut bare = flange("Flange", 300.0);
    bare.holes.clear();
    bare.train.clear();
    assert_eq!(told(&bare, "marking.flanges").0, Verdict::CannotTell);
    bare.flanges.clear();
    bare.hearth.kind = HearthKind::Straight;
    assert_eq!(ask(&bare, Chapter::Marking), []);
}

#[test]
fn the_template_of_the_nozzle_ring_is_cut_for_the_tubes() {
    let radii = |design: &Design| -> Vec<f64> {
        let ring = (patterns(design).into_iter())
            .find(|entry| entry.name == "Nozzle ring")
            .unwrap();
        (ring.pattern.unwrap().lines.iter())
            .filter_map(|line| match (&line.stroke, line.purpose) {
                (Stroke::Circle { radius, .. }, Use::Cut) => Some(*radius),
                _ => None,
            })
            .collect()
    };
    let mut design = example::as_improved();
    assert_eq!(radii(&design), [6.75; 5]);
    design.holes.clear();
    assert_eq!(radii(&design), [500.0 * design.hearth.nozzle_bore.value; 5]);
}
