//! Inputs that fuzzing, or looking where it should look, found to be answered wrongly once.

use crate::oracles;
use crate::random_design::{Dice, random_design, random_text};
use hearthplan::design::link::{self, Answer, Linked};
use hearthplan::design::quantity::{Quantity, System};
use hearthplan::design::{Design, Kind, Note, Value, file};

#[test]
fn a_damaged_file_is_pointed_at_by_character_and_not_by_byte() {
    for (text, place) in [
        (
            "{\"hearthplan\":2,\"a\":\"木木木\",}",
            "line 1, character 27",
        ),
        ("{\"hearthplan\":2,\"ä\n\":1}", "line 1, character 18"),
        ("{\"hearthplan\":2,\n\n\"a\n\":1}", "line 3, character 2"),
        ("\u{feff}[\u{1}]", "line 1, character 2"),
    ] {
        let error = file::read(text).unwrap_err().to_string();
        assert!(error.contains(place), "{text:?}: {error}");
        oracles::file(text);
    }
}

/// A link has its version in front; the name of that entry of a file inside it made a file with two versions.
#[test]
fn a_link_cannot_smuggle_a_format_version_into_a_file() {
    // The length decides which form of link holds it.
    for length in 0..4 {
        let spaces = " ".repeat(length);
        let one = format!(r#"{{"hearthplan":1,"base":{{"width":0.9}}{spaces}}}"#);
        oracles::link(one.as_bytes());
        let both = format!(r#"{{"base":{{"hearthplan":1}},"changed":{{"hearthplan":1}}{spaces}}}"#);
        oracles::link(both.as_bytes());
    }
}

/// What the answered design had in an item stayed with the design that answers, which has no such item.
#[test]
fn an_answer_without_an_item_has_none_of_its_entries() {
    let text = r#"{"base":{"joints":[{"seal":"rope"}]},"changed":{"joints":[]},"note":""}"#;
    let linked = link::open(&format!("2~{}", oracles::payload("2", text.as_bytes())));
    let Ok(Linked::Answer(answer, _)) = linked else {
        panic!("an answer opens");
    };
    assert_eq!(answer.base.unknown.len(), 1);
    assert!(answer.design.unknown.is_empty());
}

/// They stayed behind when items were arranged, and were written into another item.
#[test]
fn entries_that_nobody_knows_move_with_their_item() {
    let text = r#"{"hearthplan":2,"joints":[{"seal":1},{"seal":2},{"seal":3}]}"#;
    let seals = |design: &Design| -> Vec<String> {
        let entries = design.unknown.iter();
        entries
            .map(|(path, seal)| format!("{path} {seal}"))
            .collect()
    };
    let mut design = file::read(text).unwrap().design;
    design.remove_item("joints", 0);
    assert_eq!(seals(&design), ["joints.0.seal 2", "joints.1.seal 3"]);
    design.move_item("joints", 1, 0);
    assert_eq!(seals(&design), ["joints.0.seal 3", "joints.1.seal 2"]);
    design.insert_item("joints", 1);
    assert_eq!(seals(&design), ["joints.0.seal 3", "joints.2.seal 2"]);
    assert!(file::read(&file::write(&design)).unwrap().design == design);
}

#[test]
fn a_lone_sign_is_pointed_at() {
    for text in ["-", "+", " - ", "2 ft -", "−"] {
        let error = Quantity::Length.read(text, System::Metric).unwrap_err();
        assert!(!text[error.place.clone()].trim().is_empty(), "{text}");
        assert!(!error.to_string().contains("“”"), "{error}");
    }
}

/// In the unit of the field it was infinite, or lost its digits.
#[test]
fn a_number_beyond_all_sizes_is_refused_or_zero() {
    for (text, taken) in [("1e308 m", false), ("-1e101", true), ("1e306", false)] {
        let read = Quantity::Length.read(text, System::Metric);
        assert_eq!(read.is_ok(), taken, "{text}");
    }
    for text in ["4e-320", "-1e-310 m", "0"] {
        assert_eq!(Quantity::Length.read(text, System::Metric), Ok(0.0));
    }
}

/// Opening and saving such a file took time with the square of its entries, and its notes filled the screen.
#[test]
fn entries_that_nobody_knows_are_kept_only_while_there_is_room() {
    let many: String = (0..90_000)
        .map(|number| format!(",\"{number}\":0"))
        .collect();
    let text = format!("{{\"hearthplan\":2{many}}}");
    let opened = file::read(&text).unwrap();
    let kept = opened.design.unknown.len();
    assert!((100..1000).contains(&kept), "{kept} kept");
    assert_eq!(opened.notes.len(), kept + 1);
    assert!(opened.notes.contains(&Note::LeftOut {
        entries: 90_000 - kept
    }));
    oracles::file(&text);
}

/// Every value stands in a line of its own, set in by its depth, so a file grew past what is read.
#[test]
fn a_file_with_deep_entries_can_be_read_after_it_was_written() {
    for (depth, values) in [(100, 20_000), (1, 200_000), (100, 1_000)] {
        let (open, close) = ("[".repeat(depth), "]".repeat(depth));
        let values = "0,".repeat(values);
        oracles::file(&format!(
            "{{\"hearthplan\":2,\"a\":{open}{values}0{close}}}"
        ));
    }
    let zeros = "\\u0000".repeat(90_000);
    oracles::file(&format!("{{\"hearthplan\":2,\"{zeros}\":\"{zeros}\"}}"));
}

#[test]
fn a_link_that_would_fill_the_memory_is_refused() {
    let bomb = |format: &str, bytes: Vec<u8>| {
        let payload = oracles::payload(format, &bytes);
        assert!(payload.len() < link::LONGEST);
        link::open(&format!("{format}.{payload}"))
    };
    for format in ["1", "2"] {
        let spaces = vec![b' '; 20_000_000];
        assert_eq!(bomb(format, spaces), Err(link::LinkError::TooLarge));
        // As many small values as fit.
        let maps = format!("{{\"a\":[{}0]}}", "{\"\":0},".repeat(37_000));
        assert!(bomb(format, maps.into_bytes()).is_ok());
    }
}

/// Every list as long as it gets, every text as long and as awkward.
fn fullest(seed: u64) -> Design {
    let mut dice = Dice::new(seed);
    let mut design = random_design(seed);
    for list in Design::LISTS {
        let items = design.list_mut(list.name).unwrap();
        while items.count() < list.longest {
            items.insert_new(0);
        }
    }
    for path in design.paths() {
        if let Kind::Text { longest, .. } = design.input(&path).unwrap().kind {
            let mut text: Vec<char> = Vec::new();
            while text.len() < longest {
                text.extend(random_text(&mut dice, longest - text.len()).chars());
            }
            let text = text.into_iter().collect();
            design.set(&path, Value::Text(text)).unwrap();
        }
    }
    design
}

#[test]
fn the_fullest_design_fits_into_file_and_link() {
    for seed in 0..3 {
        let design = fullest(seed);
        let text = file::write(&design);
        assert!(text.len() < 400_000, "{} bytes", text.len());
        assert!(file::read(&text).unwrap().design == design);
        assert!(link::read(&link::write(&design)).unwrap().design == design);
    }
}

/// It was written as a link that holds nothing.
#[test]
fn an_answer_too_large_for_a_link_leaves_its_base_behind() {
    let answer = Answer {
        base: fullest(1),
        design: fullest(2),
        note: "Shorter names, please.".to_string(),
    };
    match link::open(&link::write_answer(&answer)).unwrap() {
        Linked::Design(opened) => assert!(opened.design == answer.design),
        Linked::Answer(again, _) => assert!(*again == answer),
    }
}

/// The check of what is shown took for granted that all of it can be typed.
#[test]
fn a_number_too_small_to_be_counted_out_is_told_in_words() {
    let text = "15e-30 Pa";
    let tiny = Quantity::Pressure.read(text, System::Metric).unwrap();
    assert_eq!(tiny, 15e-30);
    assert_eq!(
        Quantity::Pressure.show(tiny, System::Metric),
        "under 0.000001 Pa"
    );
    let place = Quantity::ALL
        .iter()
        .position(|quantity| *quantity == Quantity::Pressure)
        .unwrap();
    // The first character picks quantity and system.
    let pick = char::from(u8::try_from(2 * place).unwrap());
    oracles::quantity(&format!("{pick}{text}"));
}
