//! What two designs differ in, and answers in links.

use crate::random_design::{Dice, random_design};
use hearthplan::design::difference::{What, differences, how_much};
use hearthplan::design::inputs::StageKind;
use hearthplan::design::link::{self, Answer, LinkError, Linked};
use hearthplan::design::{Design, Value, example};
use proptest::prelude::*;

#[test]
fn a_design_does_not_differ_from_itself() {
    for seed in 0..200 {
        let design = random_design(seed);
        assert_eq!(differences(&design, &design), [], "seed {seed}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(if cfg!(target_family = "wasm") { 5 } else { 60 }))]

    #[test]
    fn taking_over_everything_makes_two_designs_equal(one in 0..100_000_u64, other in 0..100_000_u64) {
        let (one, other) = (random_design(one), random_design(other));
        let found = differences(&one, &other);
        let mut mine = one.clone();
        let mut theirs = other.clone();
        for differing in &found {
            differing.take(&other, &mut mine);
            differing.take(&one, &mut theirs);
        }
        prop_assert!(mine == other);
        prop_assert!(theirs == one);
    }

    #[test]
    fn taking_over_one_thing_settles_that_one_alone(one in 0..100_000_u64, other in 0..100_000_u64, pick in 0..10_000_usize) {
        let (one, other) = (random_design(one), random_design(other));
        let mut found = differences(&one, &other);
        prop_assume!(!found.is_empty());
        let differing = found.remove(pick % found.len());
        let mut mine = one.clone();
        differing.take(&other, &mut mine);
        let left = differences(&mine, &other);
        prop_assert_eq!(left.len(), found.len(), "{:?}", differing.what);
        prop_assert!(left.iter().all(|left| left.what != differing.what));
    }

    #[test]
    fn an_answer_survives_its_link(base in 0..100_000_u64, answer in 0..100_000_u64, note in "\\PC{0,60}") {
        let answer = Answer { base: random_design(base), design: random_design(answer), note };
        let text = link::write_answer(&answer);
        prop_assert_eq!(link::open(&text), Ok(Linked::Answer(Box::new(answer), Vec::new())));
    }

    #[test]
    fn no_text_behind_an_answer_sign_breaks_the_reader(text in "\\PC{0,80}") {
        let read = link::open(&format!("2~{text}"));
        prop_assert!(read.is_err());
    }
}

#[test]
fn items_are_matched_by_their_place_and_the_rest_is_named() {
    let one = example::as_improved();
    let mut other = one.clone();
    let gone = other.parts.pop().unwrap();
    other.body_layers[1].thickness *= 2.0;
    let other_count = other.parts.len();
    let found = differences(&one, &other);
    assert_eq!(found.len(), 2, "{found:?}");
    assert_eq!(found[0].part, "Layers of the body wall: layer 2, Rock wool");
    let What::Items { one, other, .. } = &found[1].what else {
        panic!("{found:?}")
    };
    assert_eq!(*one, [format!("part {}, {}", other_count + 1, gone.name)]);
    assert!(other.is_empty());
}

#[test]
fn the_name_alone_does_not_bear_on_the_machine() {
    let one = Design::default();
    let mut other = one.clone();
    other
        .set("about.name", Value::Text("Another".into()))
        .unwrap();
    other.set("base.width", Value::Number(0.9)).unwrap();
    let found = differences(&one, &other);
    let bears: Vec<_> = found
        .iter()
        .map(|differing| differing.bears_on_the_machine())
        .collect();
    assert_eq!(bears, [false, true]);
}

#[test]
fn what_differs_is_told_for_what_it_is() {
    let one = Design::default();
    let text = |text: &str| Value::Text(text.into());
    let note = ("about.note", text("Feet wider."));
    let name = ("about.name", text("Another"));
    let width = ("base.width", Value::Number(0.9));
    let depth = ("base.depth", Value::Number(1.1));
    for (changes, wanted) in [
        (vec![], "0 changes"),
        (vec![&note], "only another note"),
        (vec![&name, &note], "only another name and note"),
        (vec![&width], "1 change"),
        (vec![&width, &depth], "2 changes"),
        (vec![&width, &note], "1 change, and another note"),
    ] {
        let mut other = one.clone();
        for (path, value) in changes {
            other.set(path, value.clone()).unwrap();
        }
        assert_eq!(how_much(&differences(&one, &other)), wanted);
    }
}

/// An answer of two numbers and a part to the example.
fn small_answer() -> Answer {
    let base = example::as_first_drawn();
    let mut design = base.clone();
    design.set("base.width", Value::Number(0.8)).unwrap();
    design
        .set("hearth.throat_diameter", Value::Number(0.07))
        .unwrap();
    design.parts[2].z *= 0.5;
    Answer {
        base,
        design,
        note: "Wider, and a narrower throat: then it stands and stays clean.".into(),
    }
}

#[test]
fn a_small_answer_costs_little_more_than_the_link_it_answers() {
    let answer = small_answer();
    let plain = link::write(&answer.base).len();
    let text = link::write_answer(&answer);
    assert!(
        text.len() < plain + 400,
        "{} beside {plain} characters",
        text.len()
    );
    assert!(text.len() < link::LONGEST_SAFE, "{} characters", text.len());
}

#[test]
fn whoever_reads_an_answer_for_a_design_gets_the_one_that_answers() {
    let answer = small_answer();
    let opened = link::read(&link::write_answer(&answer)).unwrap();
    assert!(opened.design == answer.design);
}

#[test]
fn a_damaged_answer_says_so() {
    let text = link::write_answer(&small_answer());
    let mut dice = Dice::new(3);
    for _ in 0..200 {
        let end = 2 + dice.below(text.len() - 2);
        assert_eq!(link::open(&text[..end]), Err(LinkError::Damaged), "{end}");
    }
    // A design is no answer, and an answer is no design.
    assert_eq!(
        link::open(&link::write(&Design::default()).replace('.', "~")),
        Err(LinkError::Damaged)
    );
}

#[test]
fn a_long_note_is_cut() {
    let note = "木".repeat(2 * link::LONGEST_NOTE);
    let text = link::write_answer(&Answer {
        note,
        ..small_answer()
    });
    let Ok(Linked::Answer(answer, _)) = link::open(&text) else {
        panic!("an answer")
    };
    assert_eq!(answer.note.chars().count(), link::LONGEST_NOTE);
}

#[test]
fn what_neither_design_uses_does_not_count() {
    let one = example::as_improved();
    let mut other = one.clone();
    let pipe = (one.train.iter())
        .position(|stage| stage.kind == StageKind::Pipe)
        .unwrap();
    let path = format!("train.{pipe}.body_diameter");
    other.set(&path, Value::Number(0.2)).unwrap();
    let found = differences(&one, &other);
    assert_eq!(found.len(), 1);
    assert!(!found[0].in_use);
    assert_eq!(how_much(&found), "0 changes");
    // Where one of the two has a cyclone there, it counts.
    other
        .set(
            &format!("train.{pipe}.kind"),
            Value::Choice("cyclone".into()),
        )
        .unwrap();
    assert!(differences(&one, &other).iter().all(|it| it.in_use));
}
