//! The verdicts on marking out.

use hearthplan::design::inputs::{HearthKind, Hole, HoleUse, StaysWith};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::paper::html;
use hearthplan::paper::sheets::all;
use hearthplan::review::{Chapter, Finding, Lever, Verdict, ask, assess, remedies};
use std::f64::consts::PI;
use uom::si::f64::Length;
use uom::si::length::millimeter;

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

fn finding(design: &Design, id: &str) -> Finding {
    (ask(design, Chapter::Marking).into_iter())
        .find(|finding| finding.id == id)
        .unwrap()
}

fn verdict(design: &Design, id: &str) -> Verdict {
    finding(design, id).verdict
}

#[test]
fn the_first_sketch_is_told_what_its_plan_cuts_wrong() {
    let design = example::as_first_drawn();
    assert_eq!(verdict(&design, "marking.fits"), Verdict::Good);
    let wrong = finding(&design, "marking.cut_wrong");
    assert_eq!(wrong.verdict, Verdict::Watch);
    let told = wrong.compared.text(System::Metric);
    assert!(
        told.starts_with("9 of 9 holes would be cut wrong"),
        "{told}"
    );
    assert!(told.contains("90 mm too high"), "{told}");
    assert_eq!(wrong.working.len(), 2);
    assert!((wrong.working[0].result.si - 0.090).abs() < 1e-9);
    let clash = finding(&design, "marking.clash");
    assert_eq!(clash.verdict, Verdict::Stop);
    let told = clash.compared.text(System::Metric);
    assert!(
        told.starts_with("Ash door cuts into the lower round seam by"),
        "{told}"
    );
    assert!(clash.caution.unwrap().contains("270 times its volume"));
    assert!(clash.levers.contains(&Lever::input("holes.1.height")));
    let [apart, left] = &clash.working[..] else {
        panic!("{:?}", clash.working);
    };
    let marks = assess(&design).marking.marking.unwrap().marks;
    let door = marks.iter().find(|mark| mark.name == "Ash door").unwrap();
    let to_seam = (door.above_bottom - design.real_vessel.lower_seam).abs();
    let to_seam = to_seam.value;
    assert!((apart.result.si - to_seam).abs() < 1e-9);
    let half_door = 0.5 * design.holes[1].diameter.value;
    assert!((left.result.si - (to_seam - half_door)).abs() < 1e-9);
}

#[test]
fn the_improved_design_passes() {
    let design = example::as_improved();
    for id in [
        "marking.fits",
        "marking.cut_wrong",
        "marking.clash",
        "marking.nozzles",
    ] {
        let found = finding(&design, id);
        assert_eq!(
            found.verdict,
            Verdict::Good,
            "{}",
            found.compared.text(System::Metric)
        );
    }
}

#[test]
fn nozzle_holes_that_miss_the_nozzles_are_told_and_set() {
    let mut design = example::as_improved();
    design.holes[0].height -= mm(28.0);
    let off = finding(&design, "marking.nozzles");
    assert_eq!(off.verdict, Verdict::Watch);
    assert_eq!(
        off.compared.text(System::Metric),
        "the holes sit 450 mm above the bottom end, the nozzles 478 mm above the vessel's underside: 28 mm apart, allowed 5 mm"
    );
    let found = remedies(&design, "marking.nozzles");
    let change = found[0].change.clone().unwrap();
    let mended = change.apply(&design).unwrap();
    assert!((mended.holes[0].height - mm(397.0)).abs() <= mm(5.0));
    // A few millimetres are nothing.
    design.holes[0].height = mm(394.0);
    assert_eq!(verdict(&design, "marking.nozzles"), Verdict::Good);
    // At the mark is as good as the mark; a hair above it the numbers differ.
    for (height, wanted, told) in [
        (402.0, Verdict::Good, ": 5 mm apart, allowed 5 mm"),
        (402.02, Verdict::Watch, ": 5.02 mm apart, allowed 5 mm"),
    ] {
        design.holes[0].height = mm(height);
        let found = finding(&design, "marking.nozzles");
        let words = found.compared.text(System::Metric);
        assert_eq!(found.verdict, wanted, "{words}");
        assert!(words.ends_with(told), "{words}");
    }
}

#[test]
fn as_far_from_a_seam_as_is_wanted_is_far_enough() {
    let mut design = example::as_improved();
    for (height, wanted) in [
        (74.9, Verdict::Stop),
        (75.0, Verdict::Good),
        (75.1, Verdict::Good),
    ] {
        design.holes[1].height = mm(height);
        assert_eq!(verdict(&design, "marking.clash"), wanted, "{height}");
    }
    design.holes[1].height = mm(80.0);
    for (seam, wanted) in [
        (85.9, Verdict::Good),
        (86.0, Verdict::Good),
        (86.1, Verdict::Stop),
    ] {
        design.real_vessel.lower_seam = mm(seam);
        assert_eq!(verdict(&design, "marking.clash"), wanted, "{seam}");
    }
}

#[test]
fn a_ring_of_another_number_is_told_and_a_straight_tube_has_no_nozzles() {
    let mut design = example::as_improved();
    design.hearth.nozzle_count = 6;
    // With six the other holes would have to move too.
    design.holes.truncate(1);
    let off = finding(&design, "marking.nozzles");
    assert_eq!(off.verdict, Verdict::Watch);
    assert_eq!(
        off.compared.text(System::Metric),
        "the plan has 5 holes for 6 nozzles"
    );
    let found = remedies(&design, "marking.nozzles");
    assert!(found[0].change.is_some());
    design.hearth.kind = HearthKind::Straight;
    let left_over = finding(&design, "marking.nozzles");
    assert_eq!(left_over.verdict, Verdict::Stop);
    assert!(left_over.levers.is_empty());
    design.holes.clear();
    design.flanges.clear();
    assert_eq!(ask(&design, Chapter::Marking), []);
}

#[test]
fn a_vessel_too_narrow_for_the_lining_is_told() {
    for mut design in [example::as_first_drawn(), example::as_improved()] {
        assert_eq!(verdict(&design, "marking.shell"), Verdict::Good);
        design.real_vessel.measured = true;
        design.real_vessel.girth = design.plan_vessel.girth * 0.72;
        let narrow = finding(&design, "marking.shell");
        assert_eq!(narrow.verdict, Verdict::Stop);
        // A vessel measured is a fact: the hearth gives way.
        assert!(
            narrow
                .levers
                .iter()
                .all(|lever| !matches!(lever, Lever::Input(path) if path.contains("vessel")))
        );
        // As long as it stands on paper alone another one may be planned.
        design.real_vessel.measured = false;
        let fitting = design.plan_vessel.girth;
        design.plan_vessel.girth = 0.72 * fitting;
        let remedies = remedies(&design, "marking.shell");
        let planned = (remedies.iter())
            .find(|remedy| remedy.lever == Lever::input("plan_vessel.girth"))
            .and_then(|remedy| remedy.change.clone())
            .expect("another vessel");
        let mended = planned.apply(&design).unwrap();
        assert_eq!(verdict(&mended, "marking.shell"), Verdict::Good);
        assert!((mended.plan_vessel.girth / fitting).value > 0.98);
    }
}

#[test]
fn a_shell_within_a_hundredth_is_the_wall_of_the_design() {
    let mut design = example::as_improved();
    design.real_vessel.measured = true;
    let plan = design.plan_vessel.girth;
    for (share, verdict) in [
        (1.005, Verdict::Good),
        (1.02, Verdict::Watch),
        (1.05, Verdict::Stop),
    ] {
        design.real_vessel.girth = plan * share;
        assert_eq!(self::verdict(&design, "marking.shell"), verdict, "{share}");
    }
}

#[test]
fn the_vessel_is_held_against_the_wall_that_its_holes_pass_through() {
    let told = |design: &Design| {
        let found = finding(design, "marking.shell");
        (found.verdict, found.compared.text(System::Metric))
    };
    let mut design = example::as_improved();
    let (verdict, words) = told(&design);
    assert_eq!(verdict, Verdict::Good, "{words}");
    assert!(
        words.contains("8 of 9 holes pass through the hearth wall, whose steel is 463 mm"),
        "{words}"
    );
    // A hole that binds nothing is told where it has to be marked.
    let (verdict, words) = told(&example::as_first_drawn());
    assert_eq!(verdict, Verdict::Good, "{words}");
    assert!(
        words.contains("“Thermometer” sits on the body wall"),
        "{words}"
    );

    // A body of another width, 346 mm of steel in a jacket of 548 mm.
    design.body_wall.inside_diameter = mm(340.0);
    for (layer, thickness) in (design.body_layers.iter_mut()).zip([3.0, 100.0, 1.0]) {
        layer.thickness = mm(thickness);
    }
    // As wide as the body's steel, while all pipes pass through the hearth wall.
    design.real_vessel.girth = mm(PI * 346.0);
    let (verdict, words) = told(&design);
    assert_eq!(verdict, Verdict::Stop, "{words}");
    assert!(
        words.contains("the hearth wall, whose steel is 463 mm"),
        "{words}"
    );
    assert!(words.ends_with("only the body wall is as wide"), "{words}");
    let levers = finding(&design, "marking.shell").levers;
    assert_eq!(levers[0], Lever::input("hearth_wall.inside_diameter"));

    // The same vessel is right where all holes lie on the body, and the other one is not.
    let on_hearth = design.holes.clone();
    for hole in &mut design.holes {
        hole.height = mm(570.0);
    }
    let (verdict, words) = told(&design);
    assert_eq!(verdict, Verdict::Good, "{words}");
    assert!(
        words.contains("9 of 9 holes pass through the body wall"),
        "{words}"
    );
    design.real_vessel.girth = mm(1455.0);
    let (verdict, words) = told(&design);
    assert_eq!(verdict, Verdict::Stop, "{words}");
    assert!(
        words.contains("the body wall, whose steel is 548 mm"),
        "{words}"
    );

    // With pipes through both walls the worse counts.
    design.holes[0] = on_hearth[0].clone();
    for (girth, wall) in [(1455.0, "body wall"), (PI * 346.0, "hearth wall")] {
        design.real_vessel.girth = mm(girth);
        let (verdict, words) = told(&design);
        assert_eq!(verdict, Verdict::Stop, "{words}");
        assert!(
            words.contains(&format!("pass through the {wall}")),
            "{words}"
        );
    }
    // A wall without steel is no vessel.
    (design.body_layers).retain(|layer| !layer.material.is_metal());
    design.real_vessel.girth = mm(1455.0);
    let (verdict, words) = told(&design);
    assert_eq!(verdict, Verdict::CannotTell, "{words}");
    assert!(
        words.contains("the body wall, which has no steel"),
        "{words}"
    );
}

#[test]
fn what_is_off_is_told_with_its_side_and_nothing_else() {
    let mut design = example::as_improved();
    design.real_vessel.lower_seam = mm(0.0);
    design.holes[0].stays_with = StaysWith::BottomEnd;
    let words = finding(&design, "marking.cut_wrong")
        .compared
        .text(System::Metric);
    assert!(words.ends_with(": 81 mm too low, allowed 5 mm"), "{words}");
    let cells = |design: &Design| {
        let row = assess(design).marking.off_the_plan().rows.remove(1);
        [1, 2].map(|place: usize| row.cells[place].text(System::Metric))
    };
    assert_eq!(cells(&design), ["81 mm too low", "0 mm"]);
    design.real_vessel.girth = mm(1475.0);
    assert_eq!(cells(&design), ["81 mm too low", "4 mm too far left"]);
    let sheets = all(&design, &assess(&design), System::Metric, &[]);
    let sheet = sheets
        .into_iter()
        .find(|sheet| sheet.name == "marking")
        .unwrap();
    let text = html::blocks(&sheet, System::Metric);
    assert!(text.contains("Nozzle 1: 81 mm too low<"), "{text}");
    assert!(
        text.contains("Nozzle 2: 81 mm too low and 4 mm too far left<"),
        "{text}"
    );
    design.real_vessel.lower_seam = mm(81.0);
    design.real_vessel.girth = mm(1375.0);
    assert_eq!(cells(&design), ["0 mm", "16 mm too far right"]);
    // What passes is not called too far.
    design.real_vessel.girth = mm(1471.0);
    assert_eq!(
        cells(&design),
        ["0 mm", "3.2 mm to the left, within what may be off"]
    );
}

#[test]
fn without_holes_and_flanges_only_the_fire_tube_is_asked_about() {
    let mut design = example::as_improved();
    design.holes.clear();
    design.flanges.clear();
    let asked: Vec<_> = (ask(&design, Chapter::Marking).iter())
        .map(|finding| finding.id)
        .collect();
    assert_eq!(asked, ["marking.cone_weld"]);
    assert!(assess(&design).marking.results().is_empty());
}

#[test]
fn before_the_vessel_is_measured_it_cannot_be_told() {
    let mut design = example::as_first_drawn();
    design.real_vessel.measured = false;
    assert_eq!(verdict(&design, "marking.cut_wrong"), Verdict::CannotTell);
    design.real_vessel.rolled = true;
    assert_eq!(verdict(&design, "marking.cut_wrong"), Verdict::Good);
    // A vessel that is measured goes before one that was to be rolled.
    design.real_vessel.measured = true;
    assert_eq!(verdict(&design, "marking.cut_wrong"), Verdict::Watch);
    design.real_vessel.rolled = false;
    design.real_vessel.lower_seam = mm(5000.0);
    let lost = finding(&design, "marking.clash");
    assert_eq!(lost.verdict, Verdict::CannotTell);
    assert_eq!(
        lost.compared.text(System::Metric),
        "the lower seam of your vessel must lie between its ends"
    );
}

#[test]
fn moving_a_hole_away_from_a_seam_is_found_as_a_remedy() {
    let mut design = example::as_improved();
    design.holes = vec![Hole {
        height: mm(30.0),
        ..Hole::default()
    }];
    assert_eq!(verdict(&design, "marking.clash"), Verdict::Stop);
    // A smaller hole is not what its pipe or door needs.
    let levers = finding(&design, "marking.clash").levers;
    assert!(!levers.contains(&Lever::input("holes.0.diameter")));
    let found = remedies(&design, "marking.clash");
    let change = (found.iter())
        .find(|remedy| remedy.lever == Lever::input("holes.0.height"))
        .and_then(|remedy| remedy.change.clone())
        .unwrap();
    let mended = change.apply(&design).unwrap();
    assert_eq!(verdict(&mended, "marking.clash"), Verdict::Good);
    // 30 mm of radius and 25 mm of plain sheet, and some room.
    assert!((mm(55.0)..=mm(80.0)).contains(&mended.holes[0].height));
}

/// Where several holes lie on the long seam, no one of them mends it; the front line marked elsewhere does.
#[test]
fn a_front_line_marked_elsewhere_takes_all_holes_off_the_long_seam() {
    let mut design = example::as_improved();
    design.real_vessel.long_seam = design.holes[0].angle;
    assert_eq!(verdict(&design, "marking.clash"), Verdict::Stop);
    let found = remedies(&design, "marking.clash");
    let seam = Lever::input("real_vessel.long_seam");
    let remedy = found.iter().find(|remedy| remedy.lever == seam).unwrap();
    let mended = remedy.change.clone().unwrap().apply(&design).unwrap();
    assert_eq!(verdict(&mended, "marking.clash"), Verdict::Good);
    let told = remedy.reservations(System::Metric);
    assert!(
        told.iter()
            .any(|words| words.contains("front line elsewhere")),
        "{told:?}"
    );
    // Turning a single hole is the smaller move where that is enough.
    let mut one = example::as_improved();
    one.holes[2].angle = one.real_vessel.long_seam;
    let found = remedies(&one, "marking.clash");
    assert_eq!(found[0].lever, Lever::input("holes.2.angle"));
    assert!(found[0].change.is_some());
}

#[test]
fn a_pipe_beside_the_vessel_is_stopped_and_its_offset_found() {
    let mut design = example::as_improved();
    design.holes = vec![Hole {
        carries: HoleUse::SetOn,
        offset: mm(220.0),
        ..Hole::default()
    }];
    let stopped = finding(&design, "marking.fits");
    assert_eq!(stopped.verdict, Verdict::Stop);
    assert!(
        stopped
            .compared
            .text(System::Metric)
            .contains("passes beside the vessel")
    );
    let found = remedies(&design, "marking.fits");
    assert!(found.iter().any(|remedy| remedy.change.is_some()));
}

#[test]
fn the_hole_table_has_a_row_for_each_hole_and_a_verdict_on_it() {
    let review = assess(&example::as_first_drawn()).marking;
    let table = review.hole_table();
    assert_eq!(table.rows.len(), 9);
    assert!(
        table
            .rows
            .iter()
            .all(|row| row.cells.len() == table.headings.len())
    );
    assert_eq!(table.rows[5].verdict, Some(Verdict::Stop));
    let heights = review.results();
    assert!(
        heights
            .iter()
            .any(|result| result.name == "marking.hole_6_height")
    );
}

#[test]
fn no_hole_is_good_on_a_vessel_that_nobody_measured() {
    let mut design = example::as_improved();
    let good = |design: &Design| {
        let rows = assess(design).marking.hole_table().rows;
        rows.iter().any(|row| row.verdict == Some(Verdict::Good))
    };
    design.real_vessel.measured = true;
    assert!(good(&design));
    design.real_vessel.measured = false;
    let table = assess(&design).marking.hole_table();
    assert!(!table.rows.is_empty());
    for row in &table.rows {
        assert_ne!(row.verdict, Some(Verdict::Good));
        assert_eq!(row.cells[3], "not measured".into());
    }
}

#[test]
fn holes_of_one_name_are_told_apart() {
    let mut design = example::as_improved();
    let door = design.holes[1].clone();
    design.holes.push(door);
    let told = finding(&design, "marking.clash")
        .compared
        .text(System::Metric);
    assert!(
        told.contains("Ash door (hole 2)") && told.contains("Ash door (hole 6)"),
        "{told}"
    );
    // What has a name of its own goes without.
    let alone = finding(&example::as_improved(), "marking.clash");
    assert!(!alone.compared.text(System::Metric).contains("(hole"));
}

#[test]
fn a_plain_hole_that_is_too_wide_is_no_branch() {
    let mut design = example::as_improved();
    design.holes = vec![Hole {
        name: "Ash door".into(),
        diameter: mm(600.0),
        carries: HoleUse::Open,
        ..Hole::default()
    }];
    let stopped = finding(&design, "marking.fits");
    assert_eq!(stopped.verdict, Verdict::Stop);
    assert_eq!(
        stopped.compared.text(System::Metric),
        "Ash door: the hole is 600.0 mm wide and the vessel only 463.1 mm"
    );
    assert_eq!(stopped.levers, [Lever::input("holes.0.diameter")]);
}
