//! Design files: round trip, versions, entries of other versions, values that are not taken.

use crate::random_design::random_design;
use hearthplan::design::quantity::System;
use hearthplan::design::upgrade::FORMAT;
use hearthplan::design::{Design, Note, Value, file};
use serde_json::json;

fn sentences(text: &str) -> Vec<String> {
    let opened = file::read(text).unwrap();
    opened
        .notes
        .iter()
        .map(|note| note.sentence(System::Metric))
        .collect()
}

#[test]
fn any_design_survives_its_file() {
    for seed in 0..300 {
        let design = random_design(seed);
        let text = file::write(&design);
        let opened = file::read(&text).unwrap();
        assert_eq!(opened.notes, [], "seed {seed}");
        assert!(opened.design == design, "seed {seed}");
        assert!(file::write(&opened.design) == text, "seed {seed}");
    }
}

#[test]
fn a_file_holds_the_version_and_every_input() {
    let design = random_design(3);
    let json: serde_json::Value = serde_json::from_str(&file::write(&design)).unwrap();
    assert_eq!(json["hearthplan"], json!(FORMAT));
    for path in design.paths() {
        let pointer = format!("/{}", path.replace('.', "/"));
        assert!(json.pointer(&pointer).is_some(), "{path} is missing");
    }
}

#[test]
fn entries_of_other_versions_are_kept_and_told() {
    let mut design = Design::default();
    design.set("base.width", Value::Number(0.7)).unwrap();
    let mut json: serde_json::Value = serde_json::from_str(&file::write(&design)).unwrap();
    json["oven"] = json!({"door": [1, 2, {"a.b": null}]});
    json["base"]["legs"] = json!(3);
    json["base"]["odd.na~me"] = json!("kept");
    json["hearth_layers"][1]["weave"] = json!("fine");
    let opened = file::read(&json.to_string()).unwrap();
    let mut paths: Vec<_> = opened
        .notes
        .iter()
        .map(|note| match note {
            Note::Unknown { path } => path.as_str(),
            other => panic!("{other:?}"),
        })
        .collect();
    paths.sort_unstable();
    assert_eq!(
        paths,
        [
            "base.legs",
            "base.odd~1na~0me",
            "hearth_layers.1.weave",
            "oven"
        ]
    );
    assert_eq!(opened.design.get("base.width"), Some(Value::Number(0.7)));
    let written: serde_json::Value = serde_json::from_str(&file::write(&opened.design)).unwrap();
    assert_eq!(written, json);
    assert_eq!(
        opened.notes[0].sentence(System::Metric),
        "“base.legs” is not known to this version. It is kept and saved again."
    );
}

#[test]
fn a_newer_file_is_refused() {
    let error = file::read(r#"{"hearthplan": 99, "base": {}}"#).unwrap_err();
    assert_eq!(
        error.to_string(),
        "This file was written by a newer Hearthplan (format 99; this one reads up to 2). Reload the page to get the newest, then open it again."
    );
    assert!(file::read(r#"{"hearthplan": 99999999999999999}"#).is_err());
}

#[test]
fn what_is_no_design_is_refused() {
    for (text, sentence) in [
        ("", "This file is empty."),
        (" \n", "This file is empty."),
        (
            "[]",
            "This is not a Hearthplan design: it has no format version.",
        ),
        (
            "{}",
            "This is not a Hearthplan design: it has no format version.",
        ),
        (
            r#"{"hearthplan": 0}"#,
            "This is not a Hearthplan design: it has no format version.",
        ),
        (
            r#"{"hearthplan": "1"}"#,
            "This is not a Hearthplan design: it has no format version.",
        ),
        (
            r#"{"hearthplan": -1}"#,
            "This is not a Hearthplan design: it has no format version.",
        ),
    ] {
        assert_eq!(
            file::read(text).unwrap_err().to_string(),
            sentence,
            "{text}"
        );
    }
    let large = format!(
        "{{\"hearthplan\": 1, \"x\": \"{}\"}}",
        "x".repeat(file::LARGEST)
    );
    assert_eq!(
        file::read(&large).unwrap_err().to_string(),
        "This file is too large for a design."
    );
}

#[test]
fn a_damaged_file_is_explained_by_line() {
    for (text, sentence) in [
        (
            "{\n\"hearthplan\": 1,\n\"base\": {",
            "This file ends too early, in line 3: a part of it is missing.",
        ),
        (
            "{\n\"hearthplan\": 1,\n\"base\": {}\n\"site\": {}\n}",
            "This file is damaged in line 4, character 1: a comma or a closing bracket is missing before it.",
        ),
        (
            "{\n\"hearthplan\": 1,\n}",
            "This file is damaged in line 3, character 1: there is a comma too many before it.",
        ),
        (
            "{\n\"hearthplan\" 1}",
            "This file is damaged in line 2, character 14: a colon is missing before it.",
        ),
        (
            "{\n\"hearthplan\": 1x}",
            "This file is damaged in line 2, character 16: a comma or a closing bracket is missing before it.",
        ),
        (
            "{\n\"hearthplan\": 1}\n}",
            "This file is damaged in line 3, character 1: something stands behind the end of the design.",
        ),
        (
            "{\"hearthplan\": 1, \"about\": {\"name\": \"Shed\n\"}}",
            "This file is damaged in line 1, character 41: a closing quotation mark is missing.",
        ),
        (
            "{\"hearthplan\": 1e999}",
            "This file is damaged in line 1, character 20: this number is too large.",
        ),
        (
            "hello",
            "This file is damaged in line 1, character 1: a value is missing, or not written as it should be.",
        ),
    ] {
        assert_eq!(
            file::read(text).unwrap_err().to_string(),
            sentence,
            "{text}"
        );
    }
}

#[test]
fn values_that_are_not_taken_are_told_one_by_one() {
    let text = json!({
        "hearthplan": 1,
        "base": {"width": -1, "depth": "wide", "stance": "stilts", "clearance": null},
        "hopper": {"fitted": 1},
        "blower": 5,
        "contacts": {"kind": "wheel"},
        "hearth": {"nozzle_count": 4.5},
        "about": {"name": "x".repeat(61)},
        "parts": [{"mass": 1e9, "name": "Heavy"}, 7, {"name": "Last"}],
    })
    .to_string();
    let kept = " The starting value is used instead.";
    assert_eq!(
        sentences(&text),
        [
            format!("Name takes at most 60 characters (“about.name”).{kept}"),
            format!("Base does not take this kind of value (“base.clearance”).{kept}")
                .replace("Base", "Vessel above ground"),
            format!("Base depth does not take this kind of value (“base.depth”).{kept}"),
            format!("Stands on has no option named “stilts” (“base.stance”).{kept}"),
            format!("Base width must be between 100 mm and 3000 mm (“base.width”).{kept}"),
            "“blower” does not hold what it should and was left out.".to_string(),
            "“contacts” does not hold what it should and was left out.".to_string(),
            format!("Nozzles does not take this kind of value (“hearth.nozzle_count”).{kept}"),
            format!("Hopper fitted does not take this kind of value (“hopper.fitted”).{kept}"),
            format!("Weight of one must be between 0 kg and 5000 kg (“parts.0.mass”).{kept}"),
            "“parts.1” does not hold what it should and was left out.".to_string(),
        ]
    );
    let design = file::read(&text).unwrap().design;
    let plain = Design::default();
    assert_eq!(design.base, plain.base);
    assert_eq!(design.blower, plain.blower);
    assert_eq!(design.contacts, plain.contacts);
    assert_eq!(design.parts.len(), 2);
    assert_eq!(design.parts[1].name, "Last");
}

#[test]
fn lists_longer_than_allowed_are_cut_and_told() {
    for list in Design::LISTS {
        let items = vec![json!({}); list.longest + 2];
        let text = json!({"hearthplan": 1, list.name: items}).to_string();
        let opened = file::read(&text).unwrap();
        assert_eq!(opened.design.list(list.name).unwrap().count(), list.longest);
        assert_eq!(
            opened.notes,
            [Note::TooMany {
                path: list.name.to_string(),
                longest: list.longest,
                given: list.longest + 2
            }]
        );
        assert_eq!(
            opened.notes[0].sentence(System::Metric),
            format!(
                "“{}” takes at most {} items. The other 2 were left out.",
                list.name, list.longest
            )
        );
    }
}
