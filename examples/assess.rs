//! Prints the full assessment of a design as JSON in SI units.
//!
//! ```text
//! cargo run --release --example assess -- FILE.json [--set NAME=VALUE]...
//! cargo run --release --example assess -- --demo
//! cargo run --release --example assess -- --demo=first
//! cargo run --release --example assess -- --demo --bundle OUT.zip
//! ```
//!
//! NAME is an input such as `base.width` or `parts.0.mass`; VALUE is typed as in the app, in metric
//! units if none is given. `--bundle` also writes all sheets, tables, drawings and templates into one archive. Bad input gives one line and exit code 2.

use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Note, Opened, example, file};
use hearthplan::paper::{self, tiling::Paper};
use hearthplan::review::{Assessment, assess};
use serde_json::{Map, Value as Json, json};
use std::io::Write as _;
use std::process::ExitCode;

const USAGE: &str = "usage: assess FILE.json|--demo [--set NAME=VALUE]... [--bundle OUT.zip]";

fn main() -> ExitCode {
    let output = run(std::env::args().skip(1)).and_then(|report| {
        let text = serde_json::to_string_pretty(&report).map_err(|error| error.to_string())?;
        writeln!(std::io::stdout(), "{text}").map_err(|error| error.to_string())
    });
    match output {
        Ok(()) => ExitCode::SUCCESS,
        Err(sentence) => {
            eprintln!("{}", sentence.replace('\n', " "));
            ExitCode::from(2)
        }
    }
}

fn run(mut arguments: impl Iterator<Item = String>) -> Result<Json, String> {
    let first = arguments.next().ok_or(USAGE)?;
    let Opened { mut design, notes } = match first.as_str() {
        "--demo" => demo(example::as_improved()),
        "--demo=first" => demo(example::as_first_drawn()),
        option if option.starts_with('-') => return Err(USAGE.to_string()),
        path => open(path)?,
    };
    let mut archive = None;
    while let Some(option) = arguments.next() {
        let what = arguments.next().ok_or(USAGE)?;
        match option.as_str() {
            "--set" => set(&mut design, &what)?,
            "--bundle" => archive = Some(what),
            _ => return Err(USAGE.to_string()),
        }
    }
    let assessment = assess(&design);
    if let Some(path) = archive {
        let bytes = paper::bundle(&design, &assessment, System::Metric, Paper::A4, &[])
            .map_err(|error| error.to_string())?;
        std::fs::write(&path, bytes).map_err(|error| format!("{path}: {error}"))?;
    }
    Ok(report(&design, &notes, &assessment))
}

fn demo(design: Design) -> Opened {
    Opened {
        design,
        notes: Vec::new(),
    }
}

/// Opens a file; what its inputs do not take is an error here, what is only unknown is not.
fn open(path: &str) -> Result<Opened, String> {
    let text = std::fs::read_to_string(path).map_err(|error| format!("{path}: {error}"))?;
    let opened = file::read(&text).map_err(|error| format!("{path}: {error}"))?;
    match opened
        .notes
        .iter()
        .find(|note| !matches!(note, Note::Unknown { .. }))
    {
        Some(Note::Refused { path: name, error }) => Err(format!("{path}: {name}: {error}")),
        Some(note) => Err(format!("{path}: {}", note.sentence(System::Metric))),
        None => Ok(opened),
    }
}

fn set(design: &mut Design, setting: &str) -> Result<(), String> {
    let (name, text) = setting
        .split_once('=')
        .ok_or_else(|| format!("--set takes NAME=VALUE, not “{setting}”"))?;
    let input = design
        .input(name)
        .ok_or_else(|| format!("there is no input named “{name}”"))?;
    let value = design
        .read_for(input, text, System::Metric)
        .map_err(|error| format!("{name}: {error}"))?;
    design
        .set(name, value)
        .map_err(|error| format!("{name}: {error}"))
}

fn report(design: &Design, notes: &[Note], assessment: &Assessment) -> Json {
    let inputs: Json = serde_json::from_str(&file::write(design)).unwrap_or_default();
    let notes: Vec<_> = notes
        .iter()
        .map(|note| note.sentence(System::Metric))
        .collect();
    let findings: Vec<_> = assessment
        .findings
        .iter()
        .map(|finding| {
            json!({
                "name": finding.id,
                "question": finding.title,
                "verdict": finding.verdict.word(),
                "compared": finding.compared.text(System::Metric),
                "why": finding.why,
                "margin": finding.margin,
                "caution": finding.caution,
            })
        })
        .collect();
    // Numbers that could not be computed become null.
    let results: Map<String, Json> = assessment
        .results()
        .into_iter()
        .map(|result| (result.name, Json::from(result.measure.si)))
        .collect();
    json!({
        "verdict": assessment.worst().word(),
        "inputs": inputs,
        "notes": notes,
        "findings": findings,
        "results": results,
    })
}
