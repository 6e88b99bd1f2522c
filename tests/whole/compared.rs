//! Two assessments side by side.

use crate::random_design::random_design;
use hearthplan::design::quantity::{Quantity, System};
use hearthplan::design::{Design, Value, example};
use hearthplan::review::compare::{Change, VerdictPair, result_pairs, verdict_pairs};
use hearthplan::review::{Verdict, assess};
use std::collections::BTreeSet;

#[test]
fn a_design_beside_itself_shows_no_difference() {
    for seed in 0..20 {
        let assessment = assess(&random_design(seed));
        assert!(
            verdict_pairs(&assessment, &assessment)
                .iter()
                .all(|pair| pair.change() == Change::Same && pair.told() == "same verdict")
        );
        for pair in result_pairs(&assessment, &assessment) {
            assert_eq!(pair.shown_difference(System::Metric), None, "{}", pair.name);
        }
    }
}

#[test]
fn every_verdict_and_number_of_both_is_there_once() {
    for seed in 0..20 {
        let (one, other) = (
            assess(&random_design(seed)),
            assess(&random_design(seed + 900)),
        );
        let pairs = verdict_pairs(&one, &other);
        let ids: BTreeSet<_> = one
            .findings
            .iter()
            .chain(&other.findings)
            .map(|finding| finding.id)
            .collect();
        assert_eq!(pairs.len(), ids.len(), "seed {seed}");
        let pairs = result_pairs(&one, &other);
        let here = pairs.iter().filter(|pair| pair.one.is_some()).count();
        let there = pairs.iter().filter(|pair| pair.other.is_some()).count();
        assert_eq!(
            (here, there),
            (one.results().len(), other.results().len()),
            "seed {seed}"
        );
    }
}

#[test]
fn a_wider_base_is_better_and_the_difference_is_told() {
    let design = example::as_first_drawn();
    let mut wider = design.clone();
    wider.set("base.width", Value::Number(1.0)).unwrap();
    let (one, other) = (assess(&design), assess(&wider));
    let pairs = verdict_pairs(&one, &other);
    let tip = pairs
        .iter()
        .find(|pair| {
            pair.either()
                .is_some_and(|finding| finding.id == "standing.tip_full")
        })
        .unwrap();
    assert_eq!(tip.change(), Change::Better);
    let numbers = result_pairs(&one, &other);
    let angle = numbers
        .iter()
        .find(|pair| pair.name == "standing.tip_angle_full")
        .unwrap();
    let shown = angle.shown_difference(System::Metric).unwrap();
    assert!(shown.starts_with('+') && shown.ends_with('°'), "{shown}");
}

/// Whoever does the sum with the numbers shown comes to the difference shown.
#[test]
fn a_difference_is_told_in_the_unit_and_digits_of_what_it_is_of() {
    let less =
        |quantity: Quantity, one, other, system| quantity.show_difference([one, other], system);
    for (quantity, one, other, system, wanted) in [
        (Quantity::Length, 0.6604, 0.8128, System::Metric, "+153 mm"),
        (Quantity::Length, 0.6604, 0.8128, System::Inch, "+6 in"),
        (
            Quantity::Length,
            0.8128,
            0.6604 + 0.0254 / 8.0,
            System::Inch,
            "−5 7/8 in",
        ),
        (Quantity::Power, 2880.0, 2849.2, System::Metric, "−0.03 kW"),
        (Quantity::Temperature, 293.15, 288.15, System::Inch, "−9 °F"),
        (Quantity::Share, 0.15, 0.12, System::Metric, "−3 points"),
        // No more finely than the coarser of the two is told, unless they would seem the same; what is exact bounds nothing.
        (
            Quantity::MechanicalEnergy,
            60.7,
            112.6,
            System::Metric,
            "+52 J",
        ),
        (
            Quantity::MechanicalEnergy,
            99.72,
            100.2,
            System::Metric,
            "+0.3 J",
        ),
        (Quantity::Length, 0.0005, 0.15, System::Metric, "+149.5 mm"),
        (Quantity::Length, 0.0125, 0.013, System::Metric, "+0.5 mm"),
        // What the larger unit does not tell keeps its own.
        (Quantity::Power, 2880.0, 2880.4, System::Metric, "+0.4 W"),
    ] {
        assert_eq!(less(quantity, one, other, system), wanted, "{quantity:?}");
    }
    assert_eq!(less(Quantity::Mass, f64::NAN, 1.0, System::Metric), "—");
}

/// “1115” alone does not say of what.
#[test]
fn amounts_of_money_are_told_with_their_currency() {
    let labels = |design: &Design| -> Vec<String> {
        let results = assess(design).results().into_iter();
        let of_cost = results.filter(|result| result.name.starts_with("cost."));
        of_cost.map(|result| result.label).collect()
    };
    let mut design = example::as_first_drawn();
    let told = labels(&design);
    for wanted in ["Cost, low, in credits", "Lines without a price"] {
        assert!(told.iter().any(|label| label == wanted), "{told:?}");
    }
    design.cost.currency = " ".into();
    assert!(labels(&design).iter().any(|label| label == "Cost, low"));
}

/// An empty place beside two verdicts would leave open whether they were weighed at all.
#[test]
fn each_pair_of_verdicts_tells_how_it_stands() {
    let (one, other) = (
        assess(&example::as_first_drawn()),
        assess(&example::as_improved()),
    );
    let mut told = BTreeSet::new();
    for pair in verdict_pairs(&one, &other) {
        let back = VerdictPair {
            one: pair.other,
            other: pair.one,
        };
        let expected = match pair.told() {
            "better" => "worse",
            "worse" => "better",
            alike => alike,
        };
        assert_eq!(back.told(), expected);
        let words = [pair.one, pair.other].map(|finding| finding.map(|finding| finding.verdict));
        match pair.told() {
            "same verdict" => assert!(words[0] == words[1] && words[0].is_some()),
            "as good" => assert!(words.contains(&None) && words.contains(&Some(Verdict::Good))),
            _ => assert_ne!(words[0], words[1]),
        }
        told.insert(pair.told());
    }
    assert!(told.contains("better") && told.contains("same verdict"));
}

#[test]
fn changed_verdicts_come_first_and_the_gravest_of_them_before_the_others() {
    let (one, other) = (
        assess(&example::as_first_drawn()),
        assess(&example::as_improved()),
    );
    let pairs = verdict_pairs(&one, &other);
    let changed = pairs
        .iter()
        .take_while(|pair| pair.change() != Change::Same)
        .count();
    assert!(changed > 3 && changed < pairs.len());
    let (first, rest) = pairs.split_at(changed);
    assert!(rest.iter().all(|pair| pair.change() == Change::Same));
    for part in [first, rest] {
        assert!(part.is_sorted_by_key(|pair| std::cmp::Reverse(pair.gravest())));
    }
    assert_eq!(first[0].gravest(), Some(Verdict::Stop));
}

#[test]
fn a_difference_of_temperatures_has_no_zero_of_its_own() {
    let design = Design::default();
    let mut colder = design.clone();
    let air = design
        .get("site.air_temperature")
        .unwrap()
        .number()
        .unwrap();
    colder
        .set("site.air_temperature", Value::Number(air - 10.0))
        .unwrap();
    let (one, other) = (assess(&design), assess(&colder));
    let cooler = result_pairs(&one, &other)
        .into_iter()
        .find(|pair| {
            pair.one
                .is_some_and(|measure| measure.quantity == Quantity::Temperature)
                && pair.difference().is_some_and(|less| less.si < -1.0)
        })
        .expect("some temperature falls");
    let shown = cooler.shown_difference(System::Metric).unwrap();
    assert!(shown.starts_with('−') && shown.ends_with(" K"), "{shown}");
}

#[test]
fn a_stage_that_stands_elsewhere_is_one_number_all_the_same() {
    let design = example::as_improved();
    let mut longer = design.clone();
    longer.insert_item("train", 1);
    let (one, other) = (assess(&design), assess(&longer));
    let pairs = result_pairs(&one, &other);
    for label in ["Blower with flare branch: ", "Last trap: "] {
        let of_stage: Vec<_> = (pairs.iter())
            .filter(|pair| pair.label.starts_with(label))
            .collect();
        assert!(!of_stage.is_empty(), "{label}");
        for pair in of_stage {
            assert!(pair.one.is_some() && pair.other.is_some(), "{}", pair.label);
        }
    }
}

#[test]
fn heights_from_different_places_are_no_pair() {
    let design = example::as_improved();
    let mut other = design.clone();
    other
        .set("real_vessel.tape_datum", Value::Choice("upper_seam".into()))
        .unwrap();
    let pairs = result_pairs(&assess(&design), &assess(&other));
    let heights: Vec<_> = (pairs.iter())
        .filter(|pair| pair.name == "marking.hole_1_height")
        .collect();
    assert_eq!(heights.len(), 2);
    assert!(heights.iter().all(|pair| pair.difference().is_none()));
}
