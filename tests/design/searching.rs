//! Finding an input by words.

use hearthplan::design::find::{Found, find};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example};
use std::collections::BTreeMap;

fn paths(design: &Design, words: &str) -> Vec<String> {
    let found = find(design, words, System::Metric).into_iter();
    found.map(|Found { path, .. }| path).collect()
}

/// Every input with its label, those of lists by the items that are there.
fn all(design: &Design) -> Vec<(String, &'static str)> {
    let sections = Design::SECTIONS.iter().flat_map(|info| {
        (info.inputs.iter()).map(|input| (format!("{}.{}", info.name, input.name), input.label))
    });
    let lists = Design::LISTS.iter().flat_map(|info| {
        let count = design.list(info.name).map_or(0, |list| list.count());
        (0..count).flat_map(move |at| {
            (info.inputs.iter())
                .map(move |input| (Design::item_input(info.name, at, input.name), input.label))
        })
    });
    sections.chain(lists).collect()
}

#[test]
fn whatever_is_asked_is_found_by_its_label_and_nothing_else() {
    for design in [example::as_first_drawn(), example::as_improved()] {
        let mut told = 0;
        let mut by_label = BTreeMap::new();
        for (path, label) in all(&design) {
            let found = (by_label.entry(label)).or_insert_with(|| paths(&design, label));
            let is_found = found.contains(&path);
            assert_eq!(is_found, design.is_asked(&path), "{path}: {label}");
            told += usize::from(is_found);
        }
        assert!(told > 200, "{told}");
    }
}

#[test]
fn what_has_the_words_in_its_label_comes_first() {
    let design = example::as_first_drawn();
    let first = |words: &str| paths(&design, words).into_iter().next();
    for (words, wanted) in [
        ("Compression RATIO", "engine.compression_ratio"),
        ("peukert", "battery.peukert"),
        ("  width   base ", "base.width"),
    ] {
        assert_eq!(first(words).as_deref(), Some(wanted), "{words}");
    }
    assert!(paths(&design, "no such word").is_empty());
}

#[test]
fn it_is_found_by_its_value_and_by_what_may_be_chosen() {
    let mut design = Design::default();
    design
        .set("about.note", Value::Text("Feet wider.".into()))
        .unwrap();
    assert!(paths(&design, "feet wider").contains(&"about.note".to_string()));
    let chosen = design.input("fuel.kind").unwrap();
    let shown = chosen.show(&design.get("fuel.kind").unwrap(), System::Metric);
    assert!(paths(&design, &shown).contains(&"fuel.kind".to_string()));
}

#[test]
fn an_item_of_a_list_is_found_by_its_own_name() {
    let mut design = example::as_first_drawn();
    design
        .set("parts.1.name", Value::Text("Quince press".into()))
        .unwrap();
    let found = paths(&design, "quince");
    assert!(found.len() > 1);
    assert!(
        found.iter().all(|path| path.starts_with("parts.1.")),
        "{found:?}"
    );
}
