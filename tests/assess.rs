//! The command line: the assessment as JSON, and one line with exit code 2 for bad input.

// WebAssembly starts no other programs.
#![cfg(not(target_family = "wasm"))]
#![allow(clippy::unwrap_used, reason = "a test may fail loudly")]

use hearthplan::design::{Design, Value, example, file};
use hearthplan::review;
use serde_json::{Value as Json, json};
use std::path::PathBuf;
use std::process::{Command, Output};
use std::sync::OnceLock;

/// Builds the example, as cargo does not do it for a single test, and gives its place: beside the
/// directory of the tests.
fn program() -> &'static PathBuf {
    static PROGRAM: OnceLock<PathBuf> = OnceLock::new();
    PROGRAM.get_or_init(|| {
        let test = std::env::current_exe().unwrap();
        let built = test.parent().and_then(|deps| deps.parent()).unwrap();
        let profile = match built.file_name().and_then(|name| name.to_str()) {
            Some("debug") | None => "dev",
            Some(profile) => profile,
        };
        let output = Command::new(env!("CARGO"))
            .current_dir(env!("CARGO_MANIFEST_DIR"))
            .args([
                "build",
                "--quiet",
                "--locked",
                "--offline",
                "--example",
                "assess",
                "--profile",
                profile,
            ])
            .arg("--target-dir")
            .arg(built.parent().unwrap())
            .output()
            .unwrap();
        assert!(
            output.status.success(),
            "{}",
            String::from_utf8_lossy(&output.stderr)
        );
        built
            .join("examples")
            .join(format!("assess{}", std::env::consts::EXE_SUFFIX))
    })
}

fn assess(arguments: &[&str]) -> Output {
    Command::new(program()).args(arguments).output().unwrap()
}

fn report(arguments: &[&str]) -> Json {
    let output = assess(arguments);
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    assert!(output.stderr.is_empty());
    serde_json::from_slice(&output.stdout).unwrap()
}

#[track_caller]
fn refused(arguments: &[&str], ending: &str) {
    let output = assess(arguments);
    let sentence = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(2), "{sentence}");
    assert!(output.stdout.is_empty());
    assert_eq!(sentence.trim_end().lines().count(), 1, "{sentence}");
    assert!(sentence.trim_end().ends_with(ending), "{sentence}");
}

/// A file with this text, named after the test that needs it.
fn file_with(name: &str, text: &str) -> PathBuf {
    let path = std::env::temp_dir().join(format!("hearthplan-{}-{name}.json", std::process::id()));
    std::fs::write(&path, text).unwrap();
    path
}

#[test]
fn the_demo_is_assessed_in_full() {
    let report = report(&["--demo"]);
    let assessment = review::assess(&example::as_improved());
    assert_eq!(report["verdict"], json!(assessment.worst().word()));
    assert_eq!(
        report["inputs"]["base"]["width"],
        json!(example::as_improved().base.width.value)
    );
    assert_eq!(
        report["findings"].as_array().map(Vec::len),
        Some(assessment.findings.len())
    );
    let results = report["results"].as_object().unwrap();
    assert_eq!(
        results.len(),
        assessment.results().len(),
        "two results share a name"
    );
    for result in assessment.results() {
        assert_eq!(
            results[&result.name].as_f64(),
            Some(result.measure.si),
            "{}",
            result.name
        );
    }
}

#[test]
fn each_answer_comes_with_its_working() {
    let report = report(&["--demo"]);
    let assessment = review::assess(&example::as_improved());
    for (told, finding) in
        std::iter::zip(report["findings"].as_array().unwrap(), &assessment.findings)
    {
        let steps = told["working"].as_array().unwrap();
        assert_eq!(steps.len(), finding.working.len(), "{}", finding.id);
        for (told, step) in std::iter::zip(steps, &finding.working) {
            assert_eq!(told["formula"], json!(step.formula));
            assert_eq!(told["result"].as_f64(), Some(step.result.si));
            assert_eq!(told["source"], json!(step.source.sentence()));
            assert_eq!(
                told["values"].as_array().map(Vec::len),
                Some(step.values.len())
            );
        }
        assert!(told.get("remedies").is_none(), "not asked for");
    }
}

#[test]
fn what_would_mend_it_is_told_when_asked_for() {
    let report = report(&["--demo", "--set", "base.width=300", "--remedies"]);
    let findings = report["findings"].as_array().unwrap();
    let tipping = findings
        .iter()
        .find(|finding| finding["name"] == json!("standing.tip_full"))
        .unwrap();
    assert_ne!(tipping["verdict"], json!("Good"));
    let remedies = tipping["remedies"].as_array().unwrap();
    let wider = remedies
        .iter()
        .find(|remedy| remedy["change"]["set"] == json!("base.width"))
        .unwrap();
    let width = wider["change"]["value"].as_f64().unwrap();
    assert!(width > 0.3 && width < 1.0, "{width} m");
    assert!(wider["stops_after"].as_u64().is_some());
    for finding in findings {
        assert!(finding["verdict"] != json!("Good") || finding["remedies"] == json!([]));
    }
}

#[test]
fn a_file_is_assessed_with_the_values_set() {
    let mut design = Design::default();
    design.set("base.width", Value::Number(0.5)).unwrap();
    let path = file_with("set", &file::write(&design));
    let report = report(&[
        path.to_str().unwrap(),
        "--set",
        "base.depth=2 ft 2 in",
        "--set",
        "hearth.kind=straight",
        "--set",
        "hopper.fitted=no",
    ]);
    std::fs::remove_file(path).unwrap();
    assert_eq!(report["inputs"]["base"]["width"], json!(0.5));
    assert_eq!(report["inputs"]["base"]["depth"], json!(0.6604));
    assert_eq!(report["inputs"]["hearth"]["kind"], json!("straight"));
    assert_eq!(report["inputs"]["hopper"]["fitted"], json!(false));
}

#[test]
fn unknown_entries_are_told_and_kept() {
    let path = file_with("unknown", r#"{"hearthplan": 1, "oven": 3}"#);
    let report = report(&[path.to_str().unwrap()]);
    std::fs::remove_file(path).unwrap();
    assert_eq!(report["notes"].as_array().map(Vec::len), Some(1));
    assert_eq!(report["inputs"]["oven"], json!(3));
}

#[test]
fn bad_input_gives_one_line() {
    let usage = "assess FILE.json|--demo|--demo=first [--set NAME=VALUE]... [--remedies] [--bundle OUT.zip]";
    refused(&[], usage);
    refused(&["--help"], usage);
    refused(&["--demo", "--set"], usage);
    refused(&["--demo", "base.width=1"], usage);
    refused(
        &["--demo", "--set", "base.width"],
        "--set takes NAME=VALUE, not “base.width”",
    );
    refused(
        &["--demo", "--set", "base.wings=2"],
        "there is no input named “base.wings”",
    );
    refused(
        &["--demo", "--set", "base.width=9 m"],
        "base.width: Base width must be between 100 mm and 3000 mm",
    );
    refused(
        &["--demo", "--set", "base.width=9 kg"],
        "base.width: “kg” is the unit of a weight; here a length is wanted",
    );
    refused(
        &["--demo", "--set", "hearth.kind=round"],
        "hearth.kind: Hearth type has no option named “round”; it has constricted, straight",
    );
    assert_eq!(assess(&["no-such-file.json"]).status.code(), Some(2));
    let damaged = file_with("damaged", "{\n\"hearthplan\": 1,\n");
    refused(
        &[damaged.to_str().unwrap()],
        "This file ends too early, in line 3: a part of it is missing.",
    );
    let outside = file_with("outside", r#"{"hearthplan": 1, "base": {"width": 7}}"#);
    refused(
        &[outside.to_str().unwrap()],
        "base.width: Base width must be between 100 mm and 3000 mm",
    );
    std::fs::remove_file(damaged).unwrap();
    std::fs::remove_file(outside).unwrap();
}
