//! What was once written opens for ever: frozen defaults, and a fixture file and link per version.
//!
//! `FREEZE=1` adds inputs that came later to the newest frozen file. `FREEZE=over` writes the
//! newest frozen file and its fixtures anew; that is only right before anybody has links of that
//! version.

use crate::random_design::random_design;
use hearthplan::design::upgrade::{FORMAT, current_defaults, newest_frozen};
use hearthplan::design::{Design, Value, file, link};
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
        fs::write(place, serde_json::to_string_pretty(&frozen).unwrap() + "\n").unwrap();
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

#[test]
fn files_and_links_of_every_version_open_as_they_were() {
    for version in 1..=FORMAT {
        let text =
            fs::read_to_string(in_project(&format!("tests/fixtures/v{version}.json"))).unwrap();
        let json: Json = serde_json::from_str(&text).unwrap();
        let mut expected = Vec::new();
        values(&json, "", &mut expected);
        expected.retain(|(path, _)| path != "hearthplan");
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
    for version in 1..=FORMAT {
        let opened = link::read(&format!("{version}.eNqrrgUAAXUA-Q")).unwrap();
        assert_eq!(opened.notes, []);
    }
}
