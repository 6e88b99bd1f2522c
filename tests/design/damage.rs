//! Random and damaged texts: the readers answer every one, and never fail.

use crate::random_design::{Dice, random_design, random_text};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Opened, file, link};

/// Changes, removes, doubles or inserts a few characters.
fn damaged(dice: &mut Dice, whole: &str, insert: &[char]) -> String {
    let mut signs: Vec<char> = whole.chars().collect();
    for _ in 0..=dice.below(3) {
        let place = dice.below(signs.len());
        match dice.below(5) {
            0 if place < signs.len() => signs[place] = *dice.pick(insert),
            1 if place < signs.len() => {
                signs.remove(place);
            }
            2 => signs.truncate(place),
            3 if place < signs.len() => signs.insert(place, signs[place]),
            _ => signs.insert(place, *dice.pick(insert)),
        }
    }
    signs.into_iter().collect()
}

fn check(opened: &Opened) {
    for path in opened.design.paths() {
        let value = opened.design.get(&path).expect("path of the design");
        let mut again = Design::default();
        if path.split('.').count() == 2 {
            again
                .set(&path, value)
                .unwrap_or_else(|error| panic!("{path} was let through: {error}"));
        }
    }
    assert!(
        opened
            .notes
            .iter()
            .all(|note| !note.sentence(System::Inch).is_empty())
    );
}

#[test]
fn no_text_makes_the_file_reader_fail() {
    const SIGNS: &[char] = &[
        '{', '}', '[', ']', '"', ',', ':', '0', '-', '9', 'e', '.', ' ', '\n', 'n', 't', '木',
        '\\', '\u{0}',
    ];
    let whole = r#"{"hearthplan":1,"base":{"width":0.7,"stance":"feet"},"hopper":{"fitted":true},"parts":[{"name":"A","mass":3},{}],"own_materials":[{"temperature_2":null}],"x":[1]}"#;
    let mut dice = Dice::new(1);
    let mut opened = 0;
    for turn in 0..50_000 {
        let text = if turn % 4 == 0 {
            random_text(&mut dice, 60)
        } else {
            damaged(&mut dice, whole, SIGNS)
        };
        match file::read(&text) {
            Ok(design) => {
                opened += 1;
                if opened % 50 == 0 {
                    check(&design);
                }
            }
            Err(error) => assert!(error.to_string().ends_with('.'), "{error}"),
        }
    }
    assert!(opened > 1000, "{opened} opened");
    let whole = file::write(&random_design(2));
    for _ in 0..300 {
        if let Ok(opened) = file::read(&damaged(&mut dice, &whole, SIGNS)) {
            check(&opened);
        }
    }
}

#[test]
fn no_text_makes_the_link_reader_fail() {
    const SIGNS: &[char] = &['A', 'z', '0', '-', '_', '.', '=', '%', '#', ' ', '木'];
    let wholes: Vec<String> = (0..20)
        .map(|seed| link::write(&random_design(seed)))
        .collect();
    let short = link::write(&Design::default());
    let mut dice = Dice::new(2);
    let mut refused = 0;
    for turn in 0..50_000 {
        let text = match turn % 4 {
            0 => random_text(&mut dice, 60),
            1 => format!("{}.{}", 1 + dice.below(2), random_text(&mut dice, 60)),
            2 => damaged(&mut dice, &short, SIGNS),
            _ => {
                let whole = dice.pick(&wholes).clone();
                damaged(&mut dice, &whole, SIGNS)
            }
        };
        match link::read(&text) {
            Ok(opened) => assert!(opened.notes.len() < 1000),
            Err(error) => {
                refused += 1;
                assert!(error.to_string().ends_with('.'), "{error}");
            }
        }
    }
    assert!(refused > 40_000, "{refused} refused");
}
