//! What is said of an input is read by people with either rule.

use hearthplan::design::{Design, Input};

/// Metric units that a number in a hint may have, and one that says the same beside it.
const BOTH: [(&str, &str); 7] = [
    ("°C", "°F"),
    ("kg", "lb"),
    ("kg/m³", "lb/ft³"),
    ("g", "oz"),
    ("cm/s", "ft/min"),
    ("mm", "in"),
    ("Pa", "inch"),
];

fn inputs() -> impl Iterator<Item = &'static Input> {
    let sections = Design::SECTIONS.iter().map(|section| section.inputs);
    let lists = Design::LISTS.iter().map(|list| list.inputs);
    sections.chain(lists).flatten()
}

#[test]
fn a_number_in_a_hint_is_told_in_both_systems() {
    let mut told = 0;
    for input in inputs() {
        let words: Vec<&str> = input
            .meaning
            .split([' ', ',', ';', ':', '(', ')'])
            .map(|word| word.trim_end_matches('.'))
            .collect();
        for pair in words.windows(2) {
            let number = pair[0].parse::<f64>().is_ok();
            let unit = BOTH.iter().find(|(metric, _)| *metric == pair[1]);
            if let (true, Some((_, inch))) = (number, unit) {
                told += 1;
                assert!(
                    words.iter().any(|word| word.starts_with(inch)),
                    "{}: {}",
                    input.label,
                    input.meaning
                );
            }
        }
    }
    assert!(told >= 8, "{told} numbers with a metric unit");
}

/// Level ground is where everybody starts from; no standard says how a place slopes.
#[test]
fn the_slope_of_the_ground_is_a_persons_own() {
    let slope = Design::default().input("base.slope").unwrap();
    assert_eq!(slope.source, hearthplan::design::Source::YourOwn);
}
