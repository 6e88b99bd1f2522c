//! The hole table: distances from the tape's datum, along the wrap, and to what is near.

use crate::random_design::random_design;
use hearthplan::design::inputs::{Datum, Hole, HoleUse, StaysWith};
use hearthplan::design::{Design, example};
use hearthplan::sizing::marking::{Gap, KeepFree, Marking, MarkingError, Obstacle, mark_out};
use std::f64::consts::PI;
use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};
use uom::si::length::millimeter;

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

fn keep_free(seam: f64, end: f64, hole: f64) -> KeepFree {
    KeepFree {
        seam: mm(seam),
        end: mm(end),
        hole: mm(hole),
    }
}

fn wanted(design: &Design) -> KeepFree {
    KeepFree {
        seam: design.limits.hole_to_seam,
        end: design.limits.hole_to_end,
        hole: design.limits.hole_to_hole,
    }
}

fn hole(diameter: f64, height: f64, angle: f64) -> Hole {
    Hole {
        diameter: mm(diameter),
        height: mm(height),
        angle: Angle::new::<degree>(angle),
        ..Hole::default()
    }
}

/// A shell of 1000 mm circumference and 600 mm length, seams at 100 and 500 mm, long seam at the back; as wide as its walls.
fn plain(holes: Vec<Hole>) -> Design {
    let mut design = Design::default();
    design.plan_vessel.girth = mm(1000.0);
    design.plan_vessel.length = mm(600.0);
    design.plan_vessel.lower_seam = mm(100.0);
    design.plan_vessel.upper_seam = mm(500.0);
    design.plan_vessel.datum = Datum::BottomEnd;
    for (wall, layers) in [
        (
            &mut design.hearth_wall.inside_diameter,
            &design.hearth_layers,
        ),
        (&mut design.body_wall.inside_diameter, &design.body_layers),
    ] {
        let through: Length = layers.iter().map(|layer| layer.thickness).sum();
        *wall = mm(1000.0 / PI) - 2.0 * through;
    }
    design.holes = holes;
    design
}

fn marked(design: &Design) -> Marking {
    mark_out(design).unwrap()
}

fn near(found: Length, wanted: f64) -> bool {
    (found.get::<millimeter>() - wanted).abs() < 0.15
}

#[test]
fn each_hole_keeps_its_distance_from_what_it_belongs_to() {
    let mut design = plain(vec![
        Hole {
            stays_with: StaysWith::BottomEnd,
            ..hole(20.0, 200.0, 90.0)
        },
        Hole {
            stays_with: StaysWith::TopEnd,
            ..hole(20.0, 200.0, 180.0)
        },
        Hole {
            stays_with: StaysWith::PlanDatum,
            ..hole(20.0, 200.0, 270.0)
        },
    ]);
    design.plan_vessel.datum = Datum::LowerSeam;
    let real = &mut design.real_vessel;
    real.measured = true;
    real.girth = mm(1010.0);
    real.length = mm(630.0);
    real.lower_seam = mm(190.0);
    real.upper_seam = mm(520.0);
    real.tape_datum = Datum::UpperSeam;
    let marking = marked(&design);
    let heights: Vec<f64> = (marking.marks.iter())
        .map(|mark| mark.above_bottom.get::<millimeter>())
        .collect();
    for (found, wanted) in heights.iter().zip([300.0, 330.0, 390.0]) {
        assert!((found - wanted).abs() < 1e-9, "{heights:?}");
    }
    let first = &marking.marks[0];
    assert!(near(first.from_tape_datum, -220.0));
    assert!(near(first.wrap_from_front, 252.5));
    // Measured blindly: 200 above the real seam at 190, and a quarter of 1000 instead of 1010.
    let blind = first.blind.unwrap();
    assert!(near(blind.up, 90.0) && near(blind.along, -2.5));
    assert!(near(marking.marks[2].blind.unwrap().up, 0.0));
    assert_eq!(marking.cut_wrong(mm(10.0)), [0, 1]);
    assert_eq!(marking.cut_wrong(mm(70.0)), [0]);
    // Marking and one reading of the upper seam; two readings when held by the top end.
    assert!(near(first.height_uncertainty, 2.0_f64.sqrt()));
    assert!(near(marking.marks[1].height_uncertainty, 3.0_f64.sqrt()));
}

#[test]
fn without_a_measured_vessel_nothing_is_said_to_be_wrong() {
    let mut design = example::as_first_drawn();
    design.real_vessel.measured = false;
    let marking = marked(&design);
    assert!(marking.marks.iter().all(|mark| mark.blind.is_none()));
    assert_eq!(marking.cut_wrong(mm(0.0)), [] as [usize; 0]);
    assert_eq!(marking.vessel.girth, design.plan_vessel.girth);
}

#[test]
fn clearances_are_edge_to_edge_and_round_the_wrap() {
    // 350° and 10° are 20° apart across the front mark: 55.56 mm on this shell.
    let marking = marked(&plain(vec![
        hole(20.0, 300.0, 350.0),
        hole(30.0, 300.0, 10.0),
    ]));
    let gap = marking.marks[0].clearances.holes[0];
    assert_eq!(gap.mark, 1);
    // The drilled holes are a little wider along the wrap than straight across.
    let half = |radius: f64| 1000.0 / (2.0 * PI) * (radius * 2.0 * PI / 1000.0).asin();
    assert!(near(gap.clearance, 1000.0 / 18.0 - half(10.0) - half(15.0)));
    let near_front = &marking.marks[0].clearances;
    assert!(near(near_front.lower_seam, 190.0));
    assert!(near(near_front.upper_seam, 190.0));
    assert!(near(near_front.bottom_end, 290.0));
    assert!(near(near_front.top_end, 290.0));
    assert!(near(
        near_front.long_seam,
        500.0 * 170.0 / 180.0 - half(10.0)
    ));
}

#[test]
fn overlaps_are_negative() {
    let marking = marked(&plain(vec![
        hole(40.0, 105.0, 0.0),
        hole(40.0, 120.0, 0.0),
        hole(40.0, 300.0, 180.0),
        hole(40.0, 590.0, 90.0),
    ]));
    let of = |place: usize| &marking.marks[place].clearances;
    assert!(near(of(0).lower_seam, -15.0));
    assert!(near(of(0).holes[0].clearance, -25.0));
    assert!(of(2).long_seam < mm(-19.0));
    assert!(near(of(3).top_end, -10.0));
}

#[test]
fn a_pipe_wider_than_its_hole_counts() {
    let wide = Hole {
        carries: HoleUse::SetOn,
        pipe: Some(mm(60.0)),
        ..hole(40.0, 300.0, 0.0)
    };
    let marking = marked(&plain(vec![wide]));
    assert!(near(marking.marks[0].clearances.lower_seam, 170.0));
}

fn too_near(marking: &Marking, keep_free: &KeepFree) -> Vec<Gap> {
    let gaps = marking.gaps(keep_free).into_iter();
    gaps.filter(|gap| gap.clearance < gap.wanted).collect()
}

#[test]
fn gaps_name_what_is_near_the_tightest_first_and_each_pair_once() {
    let marking = marked(&plain(vec![
        hole(20.0, 130.0, 0.0),
        hole(20.0, 160.0, 0.0),
        hole(20.0, 300.0, 90.0),
    ]));
    let clashes = too_near(&marking, &keep_free(25.0, 30.0, 25.0));
    let found: Vec<(usize, Obstacle)> = clashes.iter().map(|c| (c.mark, c.with)).collect();
    assert_eq!(found, [(0, Obstacle::Hole(1)), (0, Obstacle::LowerSeam)]);
    assert!(near(clashes[0].clearance, 10.0) && near(clashes[1].clearance, 20.0));
    assert_eq!(too_near(&marking, &keep_free(15.0, 30.0, 5.0)), []);
}

#[test]
fn a_ring_is_spread_evenly_and_numbered() {
    let ring = Hole {
        name: "Nozzle".to_string(),
        count: 5,
        ..hole(16.0, 300.0, 30.0)
    };
    let marking = marked(&plain(vec![ring]));
    assert_eq!(marking.marks.len(), 5);
    assert_eq!(marking.marks[4].name, "Nozzle 5");
    assert!(near(
        marking.marks[4].wrap_from_front,
        1000.0 * 318.0 / 360.0
    ));
    assert!(near(
        marking.marks[4].wrap_from_long_seam,
        1000.0 * 138.0 / 360.0
    ));
}

#[test]
fn the_example_shows_wrong_cuts_and_a_clash_and_the_improved_one_none() {
    let sketch = example::as_first_drawn();
    let marking = marked(&sketch);
    let wrong = marking.cut_wrong(sketch.limits.hole_off);
    assert!(!wrong.is_empty());
    let clashes = too_near(&marking, &wanted(&sketch));
    assert!(
        clashes
            .iter()
            .any(|clash| clash.with == Obstacle::LowerSeam)
    );
    let improved = example::as_improved();
    let marking = marked(&improved);
    assert_eq!(
        marking.cut_wrong(improved.limits.hole_off),
        [] as [usize; 0]
    );
    assert_eq!(too_near(&marking, &wanted(&improved)), []);
    assert_eq!(marking.refused, []);
}

#[test]
fn vessels_that_cannot_be_are_refused() {
    let mut design = plain(vec![hole(20.0, 300.0, 0.0)]);
    design.plan_vessel.upper_seam = mm(700.0);
    let refused = mark_out(&design).unwrap_err();
    assert_eq!(
        refused.to_string(),
        "the upper seam of the plan's vessel must lie between its ends"
    );
    design.plan_vessel.upper_seam = mm(50.0);
    assert!(matches!(
        mark_out(&design),
        Err(MarkingError::SeamsCrossed { .. })
    ));
    design.plan_vessel.girth = mm(f64::NAN);
    assert!(matches!(
        mark_out(&design),
        Err(MarkingError::NoSize { .. })
    ));
    let wide = plain(vec![hole(500.0, 300.0, 0.0)]);
    let marking = marked(&wide);
    assert!(marking.marks.is_empty());
    assert_eq!(marking.refused.len(), 1);
}

#[test]
fn any_holes_give_finite_rows() {
    let mut rows = 0;
    for seed in 0..400 {
        let mut design = random_design(seed);
        // Random seams and dishes seldom lie on the shell; these always do.
        design.plan_vessel.lower_seam = 0.1 * design.plan_vessel.length;
        design.plan_vessel.upper_seam = 0.9 * design.plan_vessel.length;
        design.real_vessel.lower_seam = 0.2 * design.real_vessel.length;
        design.real_vessel.upper_seam = 0.8 * design.real_vessel.length;
        design.real_vessel.dish = 0.1 * design.real_vessel.length;
        let marking = marked(&design);
        for mark in &marking.marks {
            rows += 1;
            let near = &mark.clearances;
            let mut told = vec![
                mark.above_bottom,
                mark.from_tape_datum,
                mark.height_uncertainty,
                mark.wrap_from_front,
                mark.wrap_from_long_seam,
                mark.wrap_uncertainty,
                near.lower_seam,
                near.upper_seam,
                near.bottom_end,
                near.top_end,
            ];
            // Without a long seam there is no distance to it.
            told.extend((!marking.seamless).then_some(near.long_seam));
            told.extend(near.holes.iter().map(|other| other.clearance));
            told.extend(mark.blind.iter().flat_map(|blind| [blind.up, blind.along]));
            assert!(
                told.iter().all(|length| length.value.is_finite()),
                "seed {seed}: {mark:?}"
            );
            assert!(
                mark.wrap_from_front >= mm(0.0) && mark.wrap_from_front <= marking.vessel.girth
            );
        }
    }
    assert!(rows > 1000, "{rows}");
}

#[test]
fn nothing_is_judged_by_a_seam_that_is_not_there() {
    let mut design = plain(vec![hole(60.0, 65.0, 170.0), hole(60.0, 535.0, 190.0)]);
    let clashes = |design: &Design| too_near(&marked(design), &wanted(design));
    assert!(!clashes(&design).is_empty());
    design.real_vessel.tape_datum = Datum::UpperSeam;
    (design.plan_vessel.lower_seam, design.plan_vessel.upper_seam) = (mm(0.0), mm(0.0));
    design.real_vessel.seamless = true;
    assert!(!design.in_use("real_vessel.long_seam"));
    assert_eq!(clashes(&design), []);
    let marking = marked(&design);
    assert_eq!(marking.vessel.round_seams().count(), 0);
    // A tape cannot hook to it either: the end stands in for it.
    assert_eq!(marking.tape_datum, Datum::TopEnd);
    assert!(near(marking.marks[0].from_tape_datum, -535.0));
    let rows = hearthplan::review::assess(&design)
        .marking
        .hole_table()
        .rows;
    let told = rows[0].cells[6..8]
        .iter()
        .map(|cell| cell.text(hearthplan::design::quantity::System::Metric));
    assert_eq!(told.collect::<Vec<_>>(), ["no seam", "no seam"]);
    // One round seam alone is still one.
    design.plan_vessel.lower_seam = mm(100.0);
    assert_eq!(marked(&design).vessel.round_seams().count(), 1);
    assert!(!clashes(&design).is_empty());
}

/// A tape goes the shorter way: 42 mm to the left, and not nearly all the way round to the right.
#[test]
fn the_long_seam_is_told_the_shorter_way_with_its_side() {
    use hearthplan::design::quantity::System;
    let design = plain(vec![
        hole(20.0, 300.0, 164.88),
        hole(20.0, 300.0, 180.0),
        hole(20.0, 300.0, 216.0),
    ]);
    let rows = (hearthplan::review::assess(&design).marking.hole_table()).rows;
    let told = rows.iter().map(|row| row.cells[6].text(System::Metric));
    let wanted = [
        "42 mm to its left",
        "0 mm to its right",
        "100 mm to its right",
    ];
    assert_eq!(told.collect::<Vec<_>>(), wanted);
}

/// No tape reads less than nothing: what hangs below its datum is told as below it.
#[test]
fn heights_are_told_without_a_sign() {
    use hearthplan::design::quantity::System;
    let told = |design: &Design| {
        let table = hearthplan::review::assess(design).marking.hole_table();
        let rows = table
            .rows
            .iter()
            .map(|row| row.cells[2].text(System::Metric));
        (table.headings[2], rows.collect::<Vec<_>>())
    };
    let mut design = plain(vec![hole(20.0, 300.0, 20.0), hole(20.0, 200.0, 60.0)]);
    assert_eq!(told(&design).0, "Above the bottom end");
    design.real_vessel.tape_datum = Datum::TopEnd;
    let (heading, rows) = told(&design);
    assert_eq!(heading, "Below the top end");
    assert!(rows.iter().all(|row| !row.contains('−')), "{rows:?}");
    design.real_vessel.tape_datum = Datum::LowerSeam;
    design.holes[1].height = mm(50.0);
    let (heading, rows) = told(&design);
    assert_eq!(heading, "From the lower seam");
    assert!(
        rows[0].ends_with(" above") && rows[1].ends_with(" below"),
        "{rows:?}"
    );
}
