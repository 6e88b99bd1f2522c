//! What chapters declare to read is all that they read, so that what is taken over after a change is what would have
//! been worked out.

use crate::random_design::{Dice, random_design, random_value};
use hearthplan::design::{Design, example};
use hearthplan::review::{Assessment, Chapter, assess, assess_after};

/// Random designs looked at per test.
const DESIGNS: u64 = if cfg!(target_family = "wasm") { 3 } else { 25 };

/// Changes of one input tried per design of the example.
const CHANGES: usize = if cfg!(target_family = "wasm") {
    20
} else {
    300
};

/// Puts a section or a list of one design into another.
fn put(name: &str, from: &Design, into: &mut Design) {
    if let (Some(theirs), Some(ours)) = (from.section(name), into.section_mut(name)) {
        for place in 0..theirs.inputs().len() {
            let value = theirs.read(place).expect("declared input");
            assert!(ours.write(place, &value));
        }
    }
    if let (Some(theirs), Some(ours)) = (from.list(name), into.list_mut(name)) {
        while ours.count() > 0 {
            ours.remove_item(0);
        }
        for item in 0..theirs.count() {
            ours.insert_new(item);
            let (theirs, ours) = (theirs.item(item), ours.item_mut(item));
            let (theirs, ours) = theirs.zip(ours).expect("item of the list");
            for place in 0..theirs.inputs().len() {
                let value = theirs.read(place).expect("declared input");
                assert!(ours.write(place, &value));
            }
        }
    }
}

/// Names of all sections and lists.
fn names() -> Vec<&'static str> {
    let sections = Design::SECTIONS.iter().map(|section| section.name);
    sections
        .chain(Design::LISTS.iter().map(|list| list.name))
        .collect()
}

/// Everything that a chapter says.
fn said(assessment: &Assessment, chapter: Chapter) -> String {
    let findings: Vec<_> = assessment.answers(chapter).collect();
    let found: &dyn std::fmt::Debug = match chapter {
        Chapter::Heart => &assessment.heart,
        Chapter::Engine => &assessment.engine,
        Chapter::Standing => &assessment.standing,
        Chapter::Warmth => &assessment.warmth,
        Chapter::Hearth => &assessment.hearth,
        Chapter::Train => &assessment.train,
        Chapter::Breath => &assessment.breath,
        Chapter::Electrics => &assessment.electrics,
        Chapter::Marking => &assessment.marking,
        Chapter::Workshop => &assessment.workshop,
        Chapter::Leaks => &assessment.leaks,
        Chapter::Order => &assessment.order,
        Chapter::Cost => &assessment.cost,
    };
    format!("{found:?} {findings:?}")
}

/// An assessment is the same as another one, to the last digit and word.
fn assert_same(one: &Assessment, other: &Assessment, what: &str) {
    if format!("{one:?}") == format!("{other:?}") {
        return;
    }
    for chapter in Chapter::ALL {
        assert_eq!(said(one, chapter), said(other, chapter), "{what}");
    }
    panic!("{what}: findings stand in another order");
}

/// The examples, which work, and random designs, in which much fails.
fn designs() -> impl Iterator<Item = Design> {
    let examples = [example::as_improved(), example::as_first_drawn()];
    examples.into_iter().chain((0..DESIGNS).map(random_design))
}

#[test]
fn every_name_is_a_section_or_a_list() {
    let names = names();
    for chapter in Chapter::ALL {
        for name in chapter.reads() {
            assert!(names.contains(&name), "{chapter:?}: {name}");
        }
    }
}

#[test]
fn a_chapter_reads_nothing_but_what_it_declares() {
    for (design, other) in designs().zip((1000..).map(random_design)) {
        let before = assess(&design);
        for chapter in Chapter::ALL {
            let reads: Vec<_> = chapter.reads().collect();
            let mut changed = design.clone();
            for name in names().into_iter().filter(|name| !reads.contains(name)) {
                put(name, &other, &mut changed);
            }
            assert_eq!(
                said(&before, chapter),
                said(&assess(&changed), chapter),
                "{chapter:?}"
            );
        }
    }
}

#[test]
fn a_review_after_another_section_is_the_whole_review() {
    for (design, other) in designs().zip((1000..).map(random_design)) {
        let before = assess(&design);
        for name in names() {
            let mut changed = design.clone();
            put(name, &other, &mut changed);
            let after = assess_after(&design, &before, &changed);
            assert_same(&after, &assess(&changed), name);
        }
    }
}

#[test]
fn a_review_after_one_input_is_the_whole_review() {
    let mut dice = Dice::new(11);
    for mut design in designs().take(4) {
        let paths = design.paths();
        let mut before = assess(&design);
        for _ in 0..CHANGES {
            let path = dice.pick(&paths);
            let input = design.input(path).expect("path of the design");
            let mut changed = design.clone();
            let value = random_value(&mut dice, input);
            changed.set(path, value).expect("value in its range");
            let after = assess_after(&design, &before, &changed);
            assert_same(&after, &assess(&changed), path);
            // Change upon change, as they are typed.
            (design, before) = (changed, after);
        }
    }
}
