//! The examples of the demonstration: what they show, and that no way of passing them on changes a result.

use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Value, example, file, link};
use hearthplan::review::{Assessment, Verdict, assess};
use std::collections::BTreeMap;

/// Longest share link of an example, in characters: a QR code holds 2953.
const LONGEST_LINK: usize = 1_200;

/// Longest share link of an example with all its own numbers changed.
const LONGEST_CHANGED_LINK: usize = 2_100;

fn examples() -> [Design; 3] {
    [
        example::as_first_drawn(),
        example::as_improved(),
        Design::default(),
    ]
}

/// Everything a person reads in an assessment.
fn told(assessment: &Assessment) -> Vec<String> {
    let mut told: Vec<String> = assessment
        .results()
        .into_iter()
        .map(|result| format!("{} = {:?}", result.name, result.measure.si))
        .collect();
    for finding in &assessment.findings {
        told.push(format!(
            "{}: {:?}, {}, {:?}",
            finding.id,
            finding.verdict,
            finding.compared.text(System::Metric),
            finding.margin
        ));
    }
    told
}

#[test]
fn files_and_links_change_no_result() {
    for design in examples() {
        let results = told(&assess(&design));
        assert!(results.len() > 50);
        let from_file = file::read(&file::write(&design)).unwrap();
        assert_eq!(from_file.notes, []);
        assert_eq!(told(&assess(&from_file.design)), results);
        let from_link = link::read(&link::write(&design)).unwrap();
        assert_eq!(from_link.notes, []);
        assert_eq!(told(&assess(&from_link.design)), results);
    }
}

#[test]
fn links_of_the_examples_are_short() {
    for design in examples() {
        let link = link::write(&design);
        assert!(
            link.len() < LONGEST_LINK,
            "{}: {} characters",
            design.about.name,
            link.len()
        );
    }
}

#[test]
fn links_of_designs_made_from_an_example_stay_short() {
    let plain = Design::default();
    for mut design in examples() {
        for path in design.paths() {
            let Some(Value::Number(number)) = design.get(&path) else {
                continue;
            };
            if plain.get(&path) != Some(Value::Number(number)) {
                let other: f64 = format!("{:.2e}", number * 1.07).parse().unwrap();
                // Whole numbers and ends of ranges stay as they are.
                let _ = design.set(&path, Value::Number(other));
            }
        }
        let link = link::write(&design);
        assert!(
            link.len() < LONGEST_CHANGED_LINK,
            "{}: {} characters",
            design.about.name,
            link.len()
        );
        assert!(link::read(&link).unwrap().design == design);
    }
}

#[test]
fn the_review_depends_on_the_design_alone() {
    for design in examples() {
        assert_eq!(told(&assess(&design)), told(&assess(&design.clone())));
    }
}

#[test]
fn improving_the_first_sketch_takes_its_stops_away() {
    let sketch = assess(&example::as_first_drawn());
    let improved = assess(&example::as_improved());
    assert!(sketch.count(Verdict::Stop) >= 3);
    assert!(improved.count(Verdict::Stop) * 2 <= sketch.count(Verdict::Stop));
    assert!(improved.count(Verdict::Good) > sketch.count(Verdict::Good));
}

/// The result follows the words of a step, behind a colon.
#[test]
fn no_full_stop_ends_the_words_of_a_step() {
    for design in [example::as_first_drawn(), example::as_improved()] {
        for finding in assess(&design).findings {
            for step in finding.working {
                assert!(!step.words.ends_with('.'), "{}: {}", finding.id, step.words);
            }
        }
    }
}

#[test]
fn every_number_says_by_its_label_which_one_it_is() {
    for design in examples() {
        let results = assess(&design).results();
        let mut labels = BTreeMap::new();
        for result in &results {
            labels
                .entry(result.label.as_str())
                .or_insert_with(Vec::new)
                .push(result.name.as_str());
        }
        let twice: Vec<_> = labels.iter().filter(|(_, names)| names.len() > 1).collect();
        assert!(twice.is_empty(), "{twice:#?}");
    }
}
