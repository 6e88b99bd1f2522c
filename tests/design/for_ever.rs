//! What was once written opens for ever: frozen defaults, and a fixture file and link per version.
//!
//! `FREEZE=1` adds inputs that came later to the newest frozen file. `FREEZE=over` writes the
//! newest frozen file and its fixtures anew, and `FREEZE=words` the words its links are packed with;
//! both are only right before anybody has links of that version.

use crate::random_design::random_design;
use hearthplan::design::inputs::StageKind;
use hearthplan::design::packing::{current_words, frozen_words};
use hearthplan::design::upgrade::{FORMAT, current_defaults, newest_frozen};
use hearthplan::design::{Choice as _, Design, Value, file, link};
use serde_json::Value as Json;
use std::fs;
use std::path::PathBuf;

fn in_project(path: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(path)
}

/// Adds to the frozen tree what only the current one has; gives the paths that were added and those
/// where both differ.
fn merge(
    frozen: &mut Json,
    current: &Json,
    path: &str,
    added: &mut Vec<String>,
    changed: &mut Vec<String>,
) {
    match (frozen, current) {
        (Json::Object(frozen), Json::Object(current)) => {
            for (name, value) in current {
                let path = format!("{path}/{name}");
                match frozen.get_mut(name) {
                    Some(old) => merge(old, value, &path, added, changed),
                    None => {
                        frozen.insert(name.clone(), value.clone());
                        added.push(path);
                    }
                }
            }
        }
        (Json::Array(frozen), Json::Array(current)) if frozen.len() == current.len() => {
            for (place, (old, new)) in frozen.iter_mut().zip(current).enumerate() {
                merge(old, new, &format!("{path}/{place}"), added, changed);
            }
        }
        (frozen, current) if frozen == current => {}
        _ => changed.push(path.to_string()),
    }
}

#[test]
fn frozen_defaults_are_the_current_ones() {
    let place = in_project(&format!("src/design/defaults/v{FORMAT}.json"));
    let current = current_defaults();
    let freeze = std::env::var("FREEZE").unwrap_or_default();
    if freeze == "over" {
        fs::write(place, current).unwrap();
        let mut design = random_design(2026);
        for list in Design::LISTS {
            let items = design.list_mut(list.name).unwrap();
            while items.count() > 3 {
                items.remove_item(3);
            }
        }
        fs::write(
            in_project(&format!("tests/fixtures/v{FORMAT}.json")),
            file::write(&design),
        )
        .unwrap();
        fs::write(
            in_project(&format!("tests/fixtures/v{FORMAT}.link")),
            link::write(&design),
        )
        .unwrap();
        return;
    }
    let mut frozen: Json = serde_json::from_str(newest_frozen()).unwrap();
    let (mut added, mut changed) = (Vec::new(), Vec::new());
    merge(
        &mut frozen,
        &serde_json::from_str(&current).unwrap(),
        "",
        &mut added,
        &mut changed,
    );
    assert!(
        changed.is_empty(),
        "these defaults differ from the frozen ones, which links of format {FORMAT} rely on: {changed:?}. \
         See src/design/upgrade.rs for what to do."
    );
    if freeze == "1" {
        let written: Json = serde_json::from_str(&current).unwrap();
        assert_eq!(written, frozen, "an input of the frozen file is gone");
        // The same values, in the order in which they are declared.
        fs::write(place, current).unwrap();
    } else {
        assert!(
            added.is_empty(),
            "these inputs are new: {added:?}. Run: FREEZE=1 cargo test --test design frozen"
        );
    }
}

/// Every value of the fixture file, with its path.
fn values(json: &Json, path: &str, into: &mut Vec<(String, Json)>) {
    let below = |name: &str| {
        if path.is_empty() {
            name.to_string()
        } else {
            format!("{path}.{name}")
        }
    };
    match json {
        Json::Object(entries) => entries
            .iter()
            .for_each(|(name, json)| values(json, &below(name), into)),
        Json::Array(items) => {
            items
                .iter()
                .enumerate()
                .for_each(|(place, json)| values(json, &below(&place.to_string()), into));
        }
        leaf => into.push((path.to_string(), leaf.clone())),
    }
}

fn same(value: Option<&Value>, json: &Json) -> bool {
    match (value, json) {
        (Some(Value::Number(number)), Json::Number(json)) => json.as_f64() == Some(*number),
        (Some(Value::Text(text) | Value::Choice(text)), Json::String(json)) => text == json,
        (Some(Value::Flag(state)), Json::Bool(json)) => state == json,
        (Some(Value::Empty), Json::Null) => true,
        _ => false,
    }
}

/// Whether format 2 holds this in another form.
fn translated(path: &str) -> bool {
    let heads = ["pipes.", "fittings."];
    heads.iter().any(|head| path.starts_with(head))
        || [
            "blower.place",
            "blower.gas_temperature",
            "battery.other_load",
        ]
        .contains(&path)
}

/// The run of pipe with entered losses stands there as a train that loses the same.
fn assert_translated(design: &Design, json: &Json) {
    let was = |section: &str, name: &str| json[section][name].as_f64().unwrap();
    let order: Vec<StageKind> = design.train.iter().map(|stage| stage.kind).collect();
    let expected = match json["blower"]["place"].as_str().unwrap() {
        "hot" => "blower measured pipe measured",
        "cool" => "pipe measured blower measured",
        _ => "pipe measured measured blower",
    };
    let names: Vec<&str> = order.iter().map(|kind| kind.name()).collect();
    assert_eq!(names.join(" "), expected);
    let measured: Vec<_> = (design.train.iter())
        .filter(|stage| stage.kind == StageKind::Measured)
        .collect();
    assert_eq!(measured[0].measured_loss.value, was("pipes", "cooler_drop"));
    assert_eq!(measured[0].measured_dirty, measured[0].measured_loss);
    assert!(!measured[0].measured_linear && measured[1].measured_linear);
    assert_eq!(measured[1].measured_loss.value, was("pipes", "filter_drop"));
    assert_eq!(
        measured[1].measured_dirty.value,
        was("pipes", "dirty_filter_drop")
    );
    let pipe = (design.train.iter())
        .find(|stage| stage.kind == StageKind::Pipe)
        .unwrap();
    assert_eq!(pipe.bore.value, was("pipes", "bore"));
    assert_eq!(pipe.length.value, was("pipes", "length"));
    let given = json["fittings"].as_array().unwrap();
    let count = |name: &str| -> f64 {
        (given.iter().filter(|fitting| fitting["kind"] == name))
            .map(|fitting| fitting["count"].as_f64().unwrap())
            .sum()
    };
    // What a stage does not count is kept with the coefficients that format 1 had.
    let mut others: f64 = [
        ("entrance", 0.5),
        ("exit", 1.0),
        ("elbow_45", 0.35),
        ("tee_straight", 0.4),
        ("gate_valve", 0.17),
        ("butterfly_valve", 0.24),
        ("contraction", 0.5),
        ("enlargement", 1.0),
    ]
    .iter()
    .map(|(name, coefficient)| count(name) * coefficient)
    .sum();
    for (counted, name, coefficient) in [
        (pipe.elbows, "elbow_90", 0.75),
        (pipe.bends, "long_elbow_90", 0.45),
        (pipe.tees, "tee_branch", 1.0),
        (pipe.valves, "ball_valve", 0.06),
    ] {
        assert_eq!(f64::from(counted), count(name).min(20.0), "{name}");
        others += (count(name) - f64::from(counted)) * coefficient;
    }
    assert!((pipe.other_loss - others).abs() < 1e-9);
    let load = was("battery", "other_load");
    assert_eq!(design.loads[0].power.value, load);
    assert_eq!(design.loads[0].duty.value, 1.0);
}

/// Length and checksum of the words in the text of a file of them, as the fixture holds it.
fn sum_of_words(text: &str) -> String {
    let words: String = text.lines().filter(|line| !line.starts_with('#')).collect();
    format!(
        "{} {:08x}\n",
        words.len(),
        crc32fast::hash(words.as_bytes())
    )
}

#[test]
fn the_words_that_links_are_packed_with_never_change() {
    let place = in_project("src/design/defaults/v2.words");
    let sum = in_project("tests/fixtures/v2.words.sum");
    if std::env::var("FREEZE").unwrap_or_default() == "words" {
        let words = current_words();
        fs::write(sum, sum_of_words(&words)).unwrap();
        fs::write(place, words).unwrap();
        return;
    }
    let text = fs::read_to_string(place).unwrap();
    assert_eq!(
        sum_of_words(&text),
        fs::read_to_string(sum).unwrap(),
        "links of format 2 rely on every word of it: see src/design/packing.rs"
    );
    let words = frozen_words();
    assert!(sum_of_words(&text).starts_with(&format!("{} ", words.len())));
    // Deflate looks back 32 kB, over the text of the link and the words together.
    assert!((10_000..28_000).contains(&words.len()));
}

#[test]
fn files_and_links_of_every_version_open_as_they_were() {
    for version in 1..=FORMAT {
        let text =
            fs::read_to_string(in_project(&format!("tests/fixtures/v{version}.json"))).unwrap();
        let json: Json = serde_json::from_str(&text).unwrap();
        let mut expected = Vec::new();
        values(&json, "", &mut expected);
        expected.retain(|(path, _)| path != "hearthplan" && !(version == 1 && translated(path)));
        assert!(expected.len() > 200);
        let from_file = file::read(&text).unwrap();
        let from_link = link::read(
            &fs::read_to_string(in_project(&format!("tests/fixtures/v{version}.link"))).unwrap(),
        )
        .unwrap();
        for (opened, kind) in [(from_file, "file"), (from_link, "link")] {
            assert_eq!(opened.notes, [], "{kind} of version {version}");
            for (path, json) in &expected {
                let value = opened.design.get(path);
                assert!(
                    same(value.as_ref(), json),
                    "{kind} of version {version}: {path} is {value:?}, was {json}"
                );
            }
            if version == 1 {
                assert_translated(&opened.design, &json);
            }
            let lists_of_then = Design::LISTS
                .iter()
                .filter_map(|list| json[list.name].as_array().map(|items| (list, items.len())));
            for (list, length) in lists_of_then {
                assert_eq!(
                    opened.design.list(list.name).unwrap().count(),
                    length,
                    "{kind}: {}",
                    list.name
                );
            }
        }
    }
}

#[test]
fn the_plain_link_of_every_version_opens() {
    let plain = ["1.eNqrrgUAAXUA-Q", "2.o6a_Q6uuBQA"];
    assert_eq!(plain.len(), usize::try_from(FORMAT).unwrap());
    for link in plain {
        assert_eq!(link::read(link).unwrap().notes, [], "{link}");
    }
    assert_eq!(link::write(&Design::default()), plain[plain.len() - 1]);
}
