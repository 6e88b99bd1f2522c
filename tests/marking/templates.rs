//! Templates against closed forms, and any design's templates.

use crate::random_design::random_design;
use hearthplan::design::example;
use hearthplan::design::inputs::{Flange, GratePlate, Hearth};
use hearthplan::sizing::branch::Branch;
use hearthplan::sizing::marking::mark_out;
use hearthplan::sizing::pattern::{
    CHECK_LINE, Cone, ContactEdge, Pattern, Saddle, Stroke, Use, cone_blank, flange, grate,
    grate_holes, nozzle_ring, patterns, rolled_plate, rolled_plate_length, saddle, saddle_hole,
    wrap_template,
};
use std::f64::consts::PI;
use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};
use uom::si::length::millimeter;

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

pub(super) fn cuts(pattern: &Pattern) -> Vec<&Stroke> {
    (pattern.lines.iter())
        .filter(|drawn| drawn.purpose == Use::Cut)
        .map(|drawn| &drawn.stroke)
        .collect()
}

fn has_check_line(pattern: &Pattern) -> bool {
    pattern.lines.iter().any(|drawn| match drawn.stroke {
        Stroke::Line { from, to } => from.y == to.y && ((to.x - from.x) - CHECK_LINE).abs() < 1e-9,
        _ => false,
    })
}

#[test]
fn a_cone_blank_follows_the_closed_form() {
    // Mean radii on the middle of the sheet; the blank's arcs are as long as the mean circles.
    for (narrow, wide, height, sheet) in [
        (300.0, 500.0, 100.0, 1.5),
        (100.0, 400.0, 0.0, 2.0),
        (0.0, 260.0, 90.0, 3.0),
        (340.0, 360.0, 400.0, 1.0),
    ] {
        let cone = Cone {
            narrow: mm(narrow),
            wide: mm(wide),
            height: mm(height),
            sheet: mm(sheet),
        };
        let pattern = cone_blank("Cone", &cone).unwrap();
        let slant = (0.5 * (wide - narrow)).hypot(height);
        let shift = sheet * height / slant;
        let arcs: Vec<f64> = cuts(&pattern)
            .into_iter()
            .filter(|stroke| matches!(stroke, Stroke::Arc { .. }))
            .map(Stroke::length)
            .collect();
        let mut wanted = vec![PI * (narrow + shift), PI * (wide + shift)];
        wanted.retain(|length| *length > 0.0);
        assert_eq!(arcs.len(), wanted.len());
        for (found, wanted) in arcs.iter().zip(wanted) {
            assert!((found - wanted).abs() < 0.01, "{found} {wanted}");
        }
        let sides = cuts(&pattern)
            .into_iter()
            .filter(|stroke| matches!(stroke, Stroke::Line { .. }));
        for side in sides {
            assert!((side.length() - slant).abs() < 1e-6);
        }
    }
}

#[test]
fn a_rolled_plate_keeps_its_volume() {
    for (inside, sheet) in [(344.0, 3.0), (100.0, 5.0), (1200.0, 1.0)] {
        let length = rolled_plate_length(mm(inside), mm(sheet)).unwrap();
        // Ring area over thickness is the neutral length.
        let outside = inside + 2.0 * sheet;
        let ring = PI / 4.0 * (outside * outside - inside * inside);
        assert!((length.get::<millimeter>() - ring / sheet).abs() < 1e-6);
    }
    assert!(rolled_plate("Tube", mm(10.0), mm(100.0), mm(5.0)).is_err());
}

#[test]
fn a_flange_has_its_bolts_on_their_circle() {
    let pattern = flange(&Flange::default()).unwrap();
    let radii: Vec<(f64, f64)> = cuts(&pattern)
        .into_iter()
        .filter_map(|stroke| match stroke {
            Stroke::Circle { centre, radius } => Some((centre.x.hypot(centre.y), *radius)),
            _ => None,
        })
        .collect();
    assert_eq!(radii.len(), 6);
    let bolts = radii.iter().filter(|(from, _)| (from - 60.0).abs() < 1e-9);
    assert_eq!(
        bolts
            .filter(|(_, radius)| (radius - 5.5).abs() < 1e-9)
            .count(),
        4
    );
}

#[test]
fn flanges_that_do_not_fit_are_refused() {
    let base = Flange::default();
    for wrong in [
        Flange {
            bolt_circle: mm(140.0),
            ..base.clone()
        },
        Flange {
            bolt_circle: mm(80.0),
            ..base.clone()
        },
        Flange {
            bolts: 40,
            ..base.clone()
        },
        Flange {
            outside: mm(f64::NAN),
            ..base.clone()
        },
        Flange {
            bore: mm(200.0),
            ..base
        },
    ] {
        let refused = flange(&wrong).unwrap_err().to_string();
        assert!(refused.len() > 15, "{refused}");
    }
}

#[test]
fn grate_holes_stay_apart_and_on_the_plate() {
    let plate = GratePlate::default();
    let holes: Vec<_> = grate_holes(&plate).unwrap().collect();
    let pitch = plate.pitch.get::<millimeter>();
    for (place, a) in holes.iter().enumerate() {
        assert!(a.x.hypot(a.y) + 6.0 + 10.0 <= 100.0 + 1e-9);
        for b in holes.iter().skip(place + 1) {
            assert!((b.x - a.x).hypot(b.y - a.y) > pitch - 1e-9);
        }
    }
    // A triangle pattern takes pitch² · √3/2 a hole.
    let expected = PI * 84.0 * 84.0 / (pitch * pitch * 0.75_f64.sqrt());
    assert!((holes.len() as f64 - expected).abs() < 0.2 * expected);
    let close = GratePlate {
        pitch: mm(12.0),
        ..plate.clone()
    };
    assert!(grate(&close).is_err());
    let crowded = GratePlate {
        diameter: mm(2000.0),
        hole: mm(2.0),
        pitch: mm(3.0),
        ..plate
    };
    assert!(grate(&crowded).is_err());
}

#[test]
fn nozzles_are_spread_evenly_round_the_fire_tube() {
    let hearth = Hearth::default();
    let pattern = nozzle_ring(&hearth, None).unwrap();
    let girth = PI * (268.0 + 10.0);
    let places: Vec<f64> = cuts(&pattern)
        .into_iter()
        .filter_map(|stroke| match stroke {
            Stroke::Circle { centre, .. } => Some(centre.x),
            _ => None,
        })
        .collect();
    assert_eq!(places.len(), 5);
    for pair in places.windows(2) {
        assert!((pair[1] - pair[0] - girth / 5.0).abs() < 1e-9);
    }
    assert!((places[0] + girth - places[4] - girth / 5.0).abs() < 1e-9);
}

fn pipe(edge: ContactEdge) -> Saddle {
    Saddle {
        shell_radius: mm(175.0),
        pipe_outside: mm(100.0),
        pipe_wall: mm(5.0),
        lean: Angle::new::<degree>(90.0),
        offset: mm(0.0),
        edge,
    }
}

fn curve(pattern: &Pattern) -> Vec<(f64, f64)> {
    let Some(Stroke::Polyline { points, .. }) = cuts(pattern).into_iter().next() else {
        panic!("no curve")
    };
    points.iter().map(|point| (point.x, point.y)).collect()
}

#[test]
fn a_saddle_says_which_edge_it_is_for_and_differs_by_edge() {
    let of = |edge| saddle("Outlet", &pipe(edge)).unwrap();
    let (outside, inside) = (of(ContactEdge::Outside), of(ContactEdge::Inside));
    assert!(outside.note.contains("outside edge"));
    assert!(inside.note.contains("inside edge"));
    let drop = |radius: f64| 175.0 - (175.0_f64.powi(2) - radius * radius).sqrt();
    let lowest = |pattern: &Pattern| {
        curve(pattern)
            .into_iter()
            .map(|(_, y)| y)
            .fold(f64::INFINITY, f64::min)
    };
    assert!((lowest(&outside) + drop(50.0)).abs() < 1e-9);
    assert!((lowest(&inside) + drop(45.0)).abs() < 1e-9);
    // Straight out, the inside edge touches first all the way round.
    let first = curve(&of(ContactEdge::FirstToTouch));
    for (found, wanted) in first.into_iter().zip(curve(&inside)) {
        assert!((found.1 - wanted.1).abs() < 1e-9, "{found:?} {wanted:?}");
    }
    let width = curve(&outside).last().unwrap().0;
    assert!((width - PI * 100.0).abs() < 1e-9);
    let all_wall = Saddle {
        pipe_wall: mm(50.0),
        ..pipe(ContactEdge::Inside)
    };
    assert!(saddle("Outlet", &all_wall).is_err());
}

/// A vector: out of the vessel through the middle of the hole, to the right seen from outside, up.
type Vector = [f64; 3];

fn cross([a, b, c]: Vector, [d, e, f]: Vector) -> Vector {
    [b * f - c * e, c * d - a * f, a * e - b * d]
}

/// The sheet wrapped round the pipe as its note says: printed side out, ends at the pipe's top, curve towards the
/// vessel. Where its point `x`, `y` then lies, for an edge of the pipe at this share of the outside radius.
fn wrapped(pipe: &Saddle, (x, y): (f64, f64), share: f64) -> Vector {
    let (sine, cosine) = pipe.lean.value.sin_cos();
    let radius = 0.5 * pipe.pipe_outside.get::<millimeter>();
    let (shell, offset) = (
        pipe.shell_radius.get::<millimeter>(),
        pipe.offset.get::<millimeter>(),
    );
    let axis = [sine, 0.0, cosine];
    let top = [-cosine, 0.0, sine];
    // Upwards on the sheet is out along the pipe, and its print looks away from the pipe: across is up × print.
    let across = cross(axis, top);
    let (over, up) = (x / radius).sin_cos();
    let from = [(shell * shell - offset * offset).sqrt(), offset, 0.0];
    std::array::from_fn(|at| {
        from[at] + axis[at] * y + share * radius * (up * top[at] + over * across[at])
    })
}

fn off_the_axis([out, right, _]: Vector) -> f64 {
    out.hypot(right)
}

#[test]
fn a_saddle_wrapped_as_told_lies_on_the_vessel() {
    let mut far_apart = 0.0_f64;
    for (offset, lean) in [
        (0.0, 90.0),
        (80.0, 60.0),
        (-80.0, 60.0),
        (80.0, 90.0),
        (120.0, 135.0),
        (-45.0, 25.0),
    ] {
        let of = |edge| Saddle {
            offset: mm(offset),
            lean: Angle::new::<degree>(lean),
            ..pipe(edge)
        };
        for (edge, share) in [(ContactEdge::Outside, 1.0), (ContactEdge::Inside, 0.9)] {
            let pipe = of(edge);
            for point in curve(&saddle("Outlet", &pipe).unwrap()) {
                let found = off_the_axis(wrapped(&pipe, point, share));
                assert!(
                    (found - 175.0).abs() < 1e-6,
                    "{offset} mm, {lean}°, {edge:?}: {point:?} lies {found} mm off the axis"
                );
            }
        }
        let pipe = of(ContactEdge::FirstToTouch);
        let pattern = saddle("Outlet", &pipe).unwrap();
        for point in curve(&pattern) {
            let edges = [1.0, 0.9].map(|share| off_the_axis(wrapped(&pipe, point, share)));
            let nearest = edges[0].min(edges[1]);
            assert!((nearest - 175.0).abs() < 1e-6, "{offset} mm, {lean}°");
            far_apart = far_apart.max((edges[0] - edges[1]).abs());
        }
        for label in &pattern.labels {
            let [_, right, _] = wrapped(&pipe, (label.at.x - 1.0, label.at.y), 1.0);
            let side = (right - offset) / 50.0;
            match label.text.as_str() {
                "right" => assert!((side - 1.0).abs() < 1e-6, "{side}"),
                "left" => assert!((side + 1.0).abs() < 1e-6, "{side}"),
                "top" | "bottom" => assert!(side.abs() < 1e-6, "{side}"),
                _ => {}
            }
        }
    }
    assert!(far_apart > 1.0, "{far_apart}");
}

#[test]
fn the_shell_shows_every_hole_whole() {
    for design in [example::as_first_drawn(), example::as_improved()] {
        let marking = mark_out(&design).unwrap();
        let pattern = wrap_template(&marking);
        let girth = marking.vessel.girth.get::<millimeter>();
        let holes = cuts(&pattern);
        // But for those in a wall of another width.
        let marks: Vec<_> = (marking.marks.iter())
            .filter(|mark| mark.other_wall.is_none())
            .collect();
        assert_eq!(holes.len(), marks.len());
        for (hole, mark) in holes.into_iter().zip(marks) {
            let Stroke::Polyline { points, .. } = hole else {
                panic!("{hole:?}")
            };
            assert!(points.iter().all(|point| point.x > 0.0 && point.x < girth));
            let wide = points
                .iter()
                .map(|point| point.y)
                .fold(f64::NEG_INFINITY, f64::max)
                - points
                    .iter()
                    .map(|point| point.y)
                    .fold(f64::INFINITY, f64::min);
            assert!(wide >= mark.diameter.get::<millimeter>() - 1e-9);
        }
    }
}

#[test]
fn every_template_of_the_examples_is_there_with_its_check_line() {
    for mut design in [example::as_first_drawn(), example::as_improved()] {
        // One that is bought is not cut.
        design.real_vessel.measured = false;
        let entries = patterns(&design);
        let names: Vec<&str> = entries.iter().map(|entry| entry.name.as_str()).collect();
        for wanted in [
            "Shell, unrolled",
            "Gas outlet: pipe end",
            "Gas outlet: hole",
            "Nozzle ring",
            "Gas outlet flange",
            "Grate",
            "Body shell",
            "Body jacket",
            "Lid plate",
            "Bottom plate",
            "Fire tube",
            "Cone above the throat",
            "Cone below the throat",
            "Hopper wall",
            "Hopper cone",
        ] {
            let there = names.iter().any(|name| name.starts_with(wanted));
            assert!(there, "{wanted}: {names:?}");
        }
        for entry in entries {
            let pattern = entry.pattern.unwrap();
            assert!(has_check_line(&pattern), "{}", entry.name);
            assert!(pattern.note.len() > 10, "{}", entry.name);
        }
    }
}

#[test]
fn a_cone_of_the_hearth_closes_around_the_middle_of_its_steel() {
    let design = example::as_improved();
    let hearth = &design.hearth;
    let entries = patterns(&design);
    let named = |name: &str| {
        let entry = entries.iter().find(|entry| entry.name == name).unwrap();
        entry.pattern.as_ref().unwrap()
    };
    let throat = hearth.throat_diameter.get::<millimeter>();
    let sheet = hearth.steel_thickness.get::<millimeter>();
    for (name, end, height) in [
        (
            "Cone above the throat",
            hearth.nozzle_ring_diameter,
            hearth.nozzle_height - hearth.straight_below_nozzles,
        ),
        (
            "Cone below the throat",
            hearth.below_throat_diameter,
            hearth.reduction_height,
        ),
    ] {
        let (end, height) = (end.get::<millimeter>(), height.get::<millimeter>());
        let cosine = height / height.hypot(0.5 * (end - throat));
        let arcs: Vec<f64> = cuts(named(name))
            .into_iter()
            .filter(|stroke| matches!(stroke, Stroke::Arc { .. }))
            .map(Stroke::length)
            .collect();
        for (arc, inside) in arcs.iter().zip([throat, end]) {
            let around = PI * (inside + sheet * cosine);
            assert!((arc - around).abs() < 1e-6, "{name}: {arc} {around}");
        }
        assert_eq!(arcs.len(), 2);
    }
    let tube = named("Fire tube").bounds();
    let around = PI * (hearth.nozzle_ring_diameter.get::<millimeter>() + sheet);
    assert!(tube.width() >= around - 1e-6);
}

#[test]
fn templates_of_any_design_are_finite() {
    let (mut made, mut refused) = (0, 0);
    for seed in 0..300 {
        for entry in patterns(&random_design(seed)) {
            match entry.pattern {
                Err(error) => {
                    refused += 1;
                    assert!(!error.to_string().contains("NaN"), "seed {seed}: {error}");
                }
                Ok(pattern) => {
                    made += 1;
                    let bounds = pattern.bounds();
                    assert!(
                        [bounds.left, bounds.low, bounds.right, bounds.high]
                            .iter()
                            .all(|side| side.is_finite()),
                        "seed {seed}: {}",
                        entry.name
                    );
                    assert!(bounds.width() >= CHECK_LINE);
                    assert!(
                        pattern
                            .lines
                            .iter()
                            .all(|drawn| drawn.stroke.length().is_finite())
                    );
                }
            }
        }
    }
    assert!(made > 500 && refused > 50, "{made} {refused}");
}

#[test]
fn a_hole_template_is_as_long_round_as_the_hole() {
    // On a shell so wide that it is flat, the outline is the circle itself.
    let cut = Branch::straight(mm(1.0e6), mm(50.0)).unwrap();
    let pattern = saddle_hole("Door", &cut);
    let around = cuts(&pattern)[0].length();
    assert!((around - PI * 100.0).abs() < 0.03);
}
