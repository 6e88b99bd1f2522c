//! Sizes that a tick keeps, and what the design has otherwise after it.

use hearthplan::design::inputs::{Joint, JointState};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example, link};
use hearthplan::paper::html::blocks;
use hearthplan::paper::sheets;
use hearthplan::review::{Verdict, assess};
use hearthplan::sizing::as_made::{keep_sizes, kept_parts, made_otherwise};
use hearthplan::sizing::build_order::turned;
use hearthplan::sizing::machine::layout;
use hearthplan::sizing::parts_list::parts_list;
use hearthplan::sizing::stock::stock;
use proptest::prelude::*;

/// The improved example with this many steps of its order ticked, one by one, as a person would.
fn ticked(steps: usize) -> Design {
    let mut design = example::as_improved();
    let work = assess(&design).order.work(&design);
    for tasks in work.iter().take(steps) {
        let joints = turned(&design, tasks, true);
        let before = std::mem::replace(&mut design.joints, joints);
        keep_sizes(&mut design, &before);
    }
    design
}

/// What the question tells, in this system; none where it is not asked.
fn told(design: &Design, system: System) -> Option<(Verdict, String)> {
    let assessment = assess(design);
    let finding = assessment.finding("workshop.as_made")?;
    Some((finding.verdict, finding.compared.text(system)))
}

fn set(design: &mut Design, path: &str, value: f64) {
    design
        .set(path, Value::Number(value))
        .expect("the input takes it");
}

#[test]
fn nothing_is_kept_before_a_tick_and_nothing_differs_at_it() {
    assert_eq!(told(&example::as_improved(), System::Metric), None);
    for steps in [1, 3, usize::MAX] {
        let design = ticked(steps);
        let (verdict, words) = told(&design, System::Metric).expect("a joint is ticked");
        assert_eq!(verdict, Verdict::Good, "{words}");
        assert!(words.starts_with(&format!("{} sizes", kept_parts(&design))));
        assert!(kept_parts(&design) > 0);
    }
}

#[test]
fn a_change_after_the_tick_is_told_with_both_sizes() {
    let mut design = ticked(usize::MAX);
    let tube = |design: &Design| {
        (design.hearth.nozzle_ring_diameter + 2.0 * design.hearth.steel_thickness).value * 1e3
    };
    let before = tube(&design);
    let wider = design.hearth.nozzle_ring_diameter.value + 0.012;
    set(&mut design, "hearth.nozzle_ring_diameter", wider);
    let (verdict, words) = told(&design, System::Metric).expect("a joint is ticked");
    assert_eq!(verdict, Verdict::Watch);
    let expected = format!("{before:.0} mm when joint");
    assert!(words.contains(&expected), "{words}");
    assert!(words.contains(&format!("{:.0} mm now", tube(&design))));
    let (_, inches) = told(&design, System::Inch).expect("a joint is ticked");
    assert!(
        inches.contains(" in when joint") && !inches.contains(" mm"),
        "{inches}"
    );
    // The change taken back, all is as it was made.
    set(&mut design, "hearth.nozzle_ring_diameter", wider - 0.012);
    assert_eq!(
        told(&design, System::Metric).expect("ticked").0,
        Verdict::Good
    );
}

#[test]
fn half_a_millimetre_is_told_so_finely_that_both_sizes_differ() {
    for system in [System::Metric, System::Inch] {
        let mut design = ticked(usize::MAX);
        let thicker = design.hearth.steel_thickness.value + 0.0005;
        set(&mut design, "hearth.steel_thickness", thicker);
        let assessment = assess(&design);
        for one in &assessment.workshop.otherwise {
            let sizes = one.sizes.expect("no part is gone");
            let [was, now] = hearthplan::review::told_apart(sizes).map(|size| size.show(system));
            assert_ne!(was, now, "{}", one.part);
        }
        assert!(!assessment.workshop.otherwise.is_empty());
    }
}

#[test]
fn a_part_that_is_gone_is_told() {
    let mut design = ticked(usize::MAX);
    design.hopper.fitted = false;
    let assessment = assess(&design);
    let gone = assessment.workshop.otherwise.iter();
    assert!(
        gone.clone()
            .any(|one| one.part == "Hopper" && one.sizes.is_none())
    );
    let (verdict, words) = told(&design, System::Metric).expect("a joint is ticked");
    assert_eq!(verdict, Verdict::Watch);
    assert!(words.contains("not in the design now"), "{words}");
}

#[test]
fn only_what_is_ticked_is_held_to_its_sizes() {
    let mut design = ticked(1);
    let joint: Vec<&Joint> = (design.joints.iter())
        .filter(|joint| !joint.made_sizes.is_empty())
        .collect();
    assert_eq!(joint.len(), 1);
    let (first, second) = (joint[0].first, joint[0].second);
    let assessment = assess(&design);
    let away = assessment.workshop.parts.iter();
    let away = away.filter(|line| line.group != first && line.group != second);
    assert!(away.count() > 0);
    // The frame belongs to another sub-assembly than the first joint of the example.
    let wider = design.base.frame_wall.value + 0.001;
    set(&mut design, "base.frame_wall", wider);
    assert_eq!(
        told(&design, System::Metric).expect("ticked").0,
        Verdict::Good
    );
}

#[test]
fn a_tick_taken_back_keeps_nothing_and_the_next_keeps_the_sizes_of_then() {
    let mut design = ticked(usize::MAX);
    let before = design.joints.clone();
    let wider = design.hopper.diameter.value + 0.05;
    set(&mut design, "hopper.diameter", wider);
    assert_eq!(
        told(&design, System::Metric).expect("ticked").0,
        Verdict::Watch
    );
    for joint in &mut design.joints {
        joint.state = JointState::Open;
    }
    keep_sizes(&mut design, &before);
    assert!(
        design
            .joints
            .iter()
            .all(|joint| joint.made_sizes.is_empty())
    );
    let open = design.joints.clone();
    for joint in &mut design.joints {
        joint.state = JointState::Made;
    }
    keep_sizes(&mut design, &open);
    assert_eq!(
        told(&design, System::Metric).expect("ticked").0,
        Verdict::Good
    );
}

#[test]
fn a_part_is_kept_by_one_joint_alone() {
    let design = ticked(usize::MAX);
    let machine = layout(&design);
    let parts = parts_list(&design, &machine);
    let metal = parts.iter().filter(|line| {
        line.material.is_some_and(|material| material.is_metal())
            && design.joints.iter().any(|joint| joint.is_of(line.group))
    });
    let sized = metal.filter(|line| stock(&design, &machine, line).is_some());
    assert_eq!(kept_parts(&design), sized.count());
    // The fullest joint leaves room for more parts than the example has.
    let longest = design
        .joints
        .iter()
        .map(|joint| joint.made_sizes.chars().count());
    assert!(longest.clone().max() < Some(950), "{longest:?}");
    // Sizes that were kept go with the design.
    let opened = link::read(&link::write(&design))
        .expect("the link opens")
        .design;
    assert_eq!(opened.joints, design.joints);
}

/// A fraction of an inch comes back as it was, and what an older tick kept to a tenth of a millimetre still counts as the same.
#[test]
fn thin_sizes_are_kept_as_they_were() {
    let sheet = |size: f64| Value::Number(size * 0.0254);
    let mut design = example::as_improved();
    let steel = (design.lid_layers.iter()).position(|layer| layer.material.is_metal());
    let lid = Design::item_input("lid_layers", steel.unwrap(), "thickness");
    design.set(&lid, sheet(0.1875)).unwrap();
    let mut old = design.clone();
    let before = design.joints.clone();
    for joint in &mut design.joints {
        joint.state = JointState::Made;
    }
    keep_sizes(&mut design, &before);
    old.joints = design.joints.clone();
    for joint in &mut old.joints {
        assert!(!joint.made_sizes.contains("4.8"), "{}", joint.made_sizes);
        joint.made_sizes = joint.made_sizes.replace("4.7625", "4.8");
    }
    assert_ne!(old.joints, design.joints);
    for mut design in [old, design.clone()] {
        assert_eq!(told(&design, System::Inch).unwrap().0, Verdict::Good);
        design.set(&lid, sheet(0.25)).unwrap();
        assert_eq!(told(&design, System::Inch).unwrap().0, Verdict::Watch);
    }
    design.set(&lid, sheet(0.25)).unwrap();
    let (_, words) = told(&design, System::Inch).unwrap();
    assert!(words.contains("0.188 in when joint"), "{words}");
}

#[test]
fn the_sheet_sets_both_beside_each_other() {
    let mut design = ticked(usize::MAX);
    let sheet = |design: &Design| {
        let all = sheets::all(design, &assess(design), System::Metric, &[]);
        let found = all.into_iter().find(|sheet| sheet.name == "build-order");
        blocks(
            &found.expect("there is a sheet of the order"),
            System::Metric,
        )
    };
    assert!(!sheet(&design).contains("Changed since the tick"));
    let wider = design.hopper.diameter.value + 0.05;
    set(&mut design, "hopper.diameter", wider);
    let told = sheet(&design);
    assert!(told.contains("Changed since the tick") && told.contains("Hopper"));
}

proptest! {
    #[test]
    fn whatever_stands_in_the_field_is_no_trouble(text in ".{0,80}", sizes in "[-0-9.e×:; ]{0,60}") {
        let mut design = example::as_improved();
        design.joints[0].state = JointState::Made;
        design.joints[0].made_sizes = format!("{text}: {sizes}");
        let machine = layout(&design);
        for one in made_otherwise(&design, &machine, &parts_list(&design, &machine)) {
            if let Some((was, now)) = one.sizes {
                prop_assert!(was.value.is_finite() && now.value.is_finite());
            }
        }
    }
}
