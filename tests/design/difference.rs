//! What two designs differ in, and answers in links.

use crate::random_design::{Dice, random_design};
use hearthplan::design::difference::{Differing, What, differences, how_much, take_over};
use hearthplan::design::inputs::StageKind;
use hearthplan::design::link::{self, Answer, LinkError, Linked};
use hearthplan::design::{Choice, Design, Kind, Value, example};
use proptest::prelude::*;

#[test]
fn a_design_does_not_differ_from_itself() {
    for seed in 0..200 {
        let design = random_design(seed);
        assert_eq!(differences(&design, &design), [], "seed {seed}");
    }
}

/// The first design with everything of the other, and the other with everything of the first.
fn all_either_way(one: &Design, other: &Design) -> (Design, Design) {
    let found = differences(one, other);
    let back: Vec<Differing> = found.iter().map(Differing::reversed).collect();
    let (mut mine, mut theirs) = (one.clone(), other.clone());
    assert!(take_over(&found, other, &mut mine));
    assert!(take_over(&back, one, &mut theirs));
    (mine, theirs)
}

/// The design after items came, went and moved, and plus-minus were said of some.
fn worked_on(design: &Design, seed: u64) -> Design {
    let mut dice = Dice::new(seed ^ 0x5eed);
    let mut changed = design.clone();
    changed
        .set_spread("fuel.moisture", Some(0.02))
        .unwrap_or(());
    for _ in 0..6 {
        let info = dice.pick(Design::LISTS);
        let count = changed.list(info.name).unwrap().count();
        if info.name == "spreads" || count == 0 {
            continue;
        }
        let place = dice.below(count);
        match dice.below(4) {
            0 if count < info.longest => changed.insert_item(info.name, place),
            1 => changed.remove_item(info.name, place),
            2 => changed.move_item(info.name, place, dice.below(count)),
            _ => {
                let input = dice.pick(info.inputs).name;
                let path = Design::item_input(info.name, place, input);
                // Whatever is no number takes no plus-minus.
                changed.set_spread(&path, Some(0.01)).unwrap_or(());
            }
        }
    }
    changed
}

fn names_an_item(differing: &Differing) -> bool {
    let names = ["material", "piece", "closing_joint", "after", "joint"];
    matches!(&differing.what, What::Input { input, .. } if names.contains(&input.name))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(if cfg!(target_family = "wasm") { 5 } else { 60 }))]

    #[test]
    fn taking_over_everything_makes_two_designs_equal(one in 0..100_000_u64, other in 0..100_000_u64) {
        let (one, other) = (random_design(one), random_design(other));
        let (mine, theirs) = all_either_way(&one, &other);
        prop_assert!(mine == other);
        prop_assert!(theirs == one);
    }

    #[test]
    fn taking_over_everything_undoes_any_work_on_lists(seed in 0..100_000_u64) {
        let one = random_design(seed);
        let other = worked_on(&one, seed);
        let (mine, theirs) = all_either_way(&one, &other);
        prop_assert!(mine == other);
        prop_assert!(theirs == one);
    }

    #[test]
    fn taking_over_one_thing_settles_that_one_alone(one in 0..100_000_u64, other in 0..100_000_u64, pick in 0..10_000_usize) {
        let (one, other) = (random_design(one), random_design(other));
        let mut found = differences(&one, &other);
        prop_assume!(!found.is_empty());
        let differing = found.remove(pick % found.len());
        // What names an item that is not here names nothing then, which is still something else.
        prop_assume!(!names_an_item(&differing));
        let mut mine = one.clone();
        prop_assume!(take_over(std::slice::from_ref(&differing), &other, &mut mine));
        let left = differences(&mine, &other);
        // An item that is gone, come or called otherwise may let others be taken for the same.
        if let What::Input { input, .. } = &differing.what
            && matches!(input.kind, Kind::Number { .. })
        {
            prop_assert_eq!(left.len(), found.len(), "{:?}", differing.what);
            prop_assert!(left.iter().all(|left| left.what != differing.what));
        }
        prop_assert!(mine != one);
    }

    #[test]
    fn row_by_row_in_any_order_two_designs_become_equal(seed in 0..100_000_u64) {
        let mut mine = random_design(seed);
        let other = worked_on(&mine, seed);
        let mut dice = Dice::new(seed);
        let rows = differences(&mine, &other).len();
        // A full list takes nothing before something else is out of it, so that a row may need another try.
        for _ in 0..10 * rows + 10 {
            let found = differences(&mine, &other);
            let row = dice.below(found.len());
            if let Some(row) = found.get(row) {
                take_over(std::slice::from_ref(row), &other, &mut mine);
            }
        }
        prop_assert_eq!(differences(&mine, &other), []);
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
fn a_layer_that_was_changed_and_a_part_that_is_gone_are_a_row_each() {
    let one = example::as_improved();
    let mut other = one.clone();
    let gone = other.parts.pop().unwrap();
    other.body_layers[1].thickness *= 2.0;
    let other_count = other.parts.len();
    let found = differences(&one, &other);
    assert_eq!(found.len(), 2, "{found:?}");
    assert_eq!(
        found[0].part(),
        "Layers of the body wall: layer 2, Rock wool"
    );
    let What::Item {
        is_added, place, ..
    } = found[1].what
    else {
        panic!("{found:?}")
    };
    assert_eq!((is_added, place), (false, other_count));
    let name = format!("Other parts: part {}, {}", other_count + 1, gone.name);
    assert_eq!(found[1].part(), name);
}

#[test]
fn a_layer_of_another_material_is_no_other_layer() {
    let one = example::as_improved();
    let mut other = one.clone();
    other
        .set(
            "body_layers.1.material",
            Value::Choice("ceramic_blanket_1260".into()),
        )
        .unwrap();
    let found = differences(&one, &other);
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(
        matches!(&found[0].what, What::Input { paths, .. } if paths[0] == "body_layers.1.material")
    );
}

/// A train of pipe, cyclone, cooler, filter, pipe and blower, with a plus-minus said of the blower's bore.
fn with_a_train() -> Design {
    let mut design = Design::default();
    while !design.train.is_empty() {
        design.remove_item("train", 0);
    }
    for (place, kind) in ["pipe", "cyclone", "cooler", "filter", "pipe", "blower"]
        .iter()
        .enumerate()
    {
        design.insert_item("train", place);
        let kind = Value::Choice(kind.to_string());
        design.set(&format!("train.{place}.kind"), kind).unwrap();
    }
    design.set("train.5.bore", Value::Number(0.045)).unwrap();
    design.set_spread("train.5.bore", Some(0.001)).unwrap();
    design
}

fn kinds(design: &Design) -> Vec<&'static str> {
    design.train.iter().map(|stage| stage.kind.name()).collect()
}

#[test]
fn a_stage_inserted_into_the_train_is_one_row_and_leaves_the_others_alone() {
    let one = with_a_train();
    let mut other = one.clone();
    other.insert_item("train", 5);
    let trap = Value::Choice("trap".into());
    other.set("train.5.kind", trap).unwrap();
    other.set_spread("train.5.bore", Some(0.002)).unwrap();
    let found = differences(&one, &other);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].part(), "Gas train: stage 6, Condensate trap");
    let What::Item {
        is_added: true,
        values,
        ..
    } = &found[0].what
    else {
        panic!("{found:?}")
    };
    assert!(values.iter().any(|(input, _)| input.label == "Trap holds"));

    let mut mine = one.clone();
    assert!(take_over(&found, &other, &mut mine));
    assert!(mine == other);
    // Put back from the other side it is one stage less, and what was said of the blower is still said of it.
    assert!(take_over(&[found[0].reversed()], &one, &mut mine));
    assert!(mine == one);
}

#[test]
fn what_differs_in_a_stage_that_stands_elsewhere_is_told_with_both_places() {
    let one = with_a_train();
    let mut other = one.clone();
    other.insert_item("train", 1);
    other.set("train.6.bore", Value::Number(0.06)).unwrap();
    other.set_spread("train.6.bore", Some(0.003)).unwrap();
    let found = differences(&one, &other);
    let parts: Vec<String> = found.iter().map(Differing::part).collect();
    assert_eq!(
        parts,
        [
            "Gas train: stage 2, Pipe with fittings",
            "Gas train: stage 6 / 7, Blower with flare branch",
            "Plus-minus: plus-minus 1, Gas train, stage 6, Blower with flare branch: pipe bore",
        ]
    );
    assert_eq!(
        found[1].reversed().part(),
        "Gas train: stage 7 / 6, Blower with flare branch"
    );
    // Without the new stage both values go to the blower, not to what stands at its place in the other.
    let mut mine = one.clone();
    assert!(take_over(&found[1..], &other, &mut mine));
    assert_eq!(kinds(&mine), kinds(&one));
    assert_eq!(mine.train[5].bore.value, 0.06);
    assert_eq!(mine.own_spread("train.5.bore"), Some(0.003));
}

#[test]
fn stages_that_changed_places_are_one_row() {
    let one = with_a_train();
    let mut other = one.clone();
    other.move_item("train", 2, 3);
    let found = differences(&one, &other);
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(matches!(found[0].what, What::Order { .. }));
    let mut mine = one.clone();
    assert!(take_over(&found, &other, &mut mine));
    assert!(mine == other);
}

#[test]
fn a_stage_of_another_kind_is_taken_out_and_put_in_by_itself() {
    let one = with_a_train();
    let mut other = one.clone();
    other
        .set("train.4.kind", Value::Choice("trap".into()))
        .unwrap();
    let found = differences(&one, &other);
    assert_eq!(found.len(), 2, "{found:?}");
    for row in &found {
        let mut mine = one.clone();
        assert!(take_over(std::slice::from_ref(row), &other, &mut mine));
        let kinds = kinds(&mine);
        let rest = kinds.iter().filter(|kind| !["pipe", "trap"].contains(kind));
        assert_eq!(rest.count(), 4, "{kinds:?}");
    }
}

#[test]
fn a_list_that_is_full_takes_no_more_and_says_so() {
    let one = with_a_train();
    let mut full = one.clone();
    let mut other = one.clone();
    other.insert_item("train", 6);
    other
        .set("train.6.kind", Value::Choice("trap".into()))
        .unwrap();
    let longest = Design::LISTS.iter().find(|info| info.name == "train");
    while full.train.len() < longest.unwrap().longest {
        full.copy_item("train", 4);
    }
    let found = differences(&full, &other);
    let added: Vec<Differing> = (found.into_iter())
        .filter(|it| matches!(it.what, What::Item { is_added: true, .. }))
        .collect();
    assert_eq!(added.len(), 1);
    let before = full.clone();
    assert!(!take_over(&added, &other, &mut full));
    assert!(full == before);
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

/// What tells a design apart from others is no part of the machine, and the invented figures of an example are.
#[test]
fn name_and_note_are_known_from_the_rest() {
    let one = Design::default();
    let mut other = one.clone();
    for (path, text) in [("about.name", "Second"), ("about.note", "My own.")] {
        other.set(path, Value::Text(text.into())).unwrap();
    }
    other
        .set("about.invented", Value::Flag(!one.about.invented))
        .unwrap();
    other.set("base.width", Value::Number(0.9)).unwrap();
    let found = differences(&one, &other);
    let of = |told: fn(&Differing) -> bool| found.iter().filter(|it| told(it)).count();
    assert_eq!(found.len(), 4);
    assert_eq!(of(Differing::is_the_name), 1);
    assert_eq!(of(Differing::is_name_or_note), 2);
}
