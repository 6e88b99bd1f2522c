//! Prints the full assessment of a design as JSON in SI units.
//!
//! ```text
//! cargo run --release --example assess -- FILE.json [--set NAME=VALUE]...
//! cargo run --release --example assess -- --demo
//! cargo run --release --example assess -- --demo=first
//! cargo run --release --example assess -- --demo=first --remedies
//! cargo run --release --example assess -- --demo --bundle OUT.zip
//! ```
//!
//! NAME is an input such as `base.width` or `parts.0.mass`; VALUE is typed as in the app, in metric
//! units if none is given. `--remedies` also looks for the smallest change of each sensible input that
//! makes a question pass, which takes longer. `--bundle` also writes all sheets, tables, drawings and templates into one archive. Bad input gives one line and exit code 2.

use hearthplan::design::quantity::System;
use hearthplan::design::{Design, Kind, Note, Opened, Value, example, file};
use hearthplan::paper::{self, tiling::Paper};
use hearthplan::review::{Assessment, Change, Finding, Remedy, Step, assess, remedies};
use serde_json::{Map, Value as Json, json};
use std::io::Write as _;
use std::process::ExitCode;

const USAGE: &str = "usage: assess FILE.json|--demo|--demo=first [--set NAME=VALUE]... [--remedies] [--bundle OUT.zip]";

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
    let (mut archive, mut mends) = (None, false);
    while let Some(option) = arguments.next() {
        let mut what = || arguments.next().ok_or(USAGE);
        match option.as_str() {
            "--set" => set(&mut design, &what()?)?,
            "--bundle" => archive = Some(what()?),
            "--remedies" => mends = true,
            _ => return Err(USAGE.to_string()),
        }
    }
    let assessment = assess(&design);
    if let Some(path) = archive {
        let bytes = paper::bundle(&design, &assessment, System::Metric, Paper::A4, &[])
            .map_err(|error| error.to_string())?;
        std::fs::write(&path, bytes).map_err(|error| format!("{path}: {error}"))?;
    }
    Ok(report(&design, &notes, &assessment, mends))
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
    // Of a choice nobody can guess the names.
    let choice = match input.kind {
        Kind::Choice { options, .. } => options.iter().map(|option| option.name).collect(),
        _ => Vec::new(),
    };
    let refused = |error: String| match choice.as_slice() {
        [] => format!("{name}: {error}"),
        names => format!("{name}: {error}; it has {}", names.join(", ")),
    };
    let value = design
        .read_for(input, text, System::Metric)
        .map_err(|error| refused(error.to_string()))?;
    design
        .set(name, value)
        .map_err(|error| refused(error.to_string()))
}

/// How a number was found, in SI units.
fn working(finding: &Finding) -> Vec<Json> {
    let step = |step: &Step| {
        let values = step.values.iter().map(|(symbol, meaning, measure)| {
            json!({ "symbol": symbol, "meaning": meaning, "value": measure.si })
        });
        json!({
            "words": step.words,
            "formula": step.formula,
            "values": values.collect::<Vec<_>>(),
            "result": step.result.si,
            "source": step.source.sentence(),
            "sure": step.sure,
        })
    };
    finding.working.iter().map(step).collect()
}

/// The changes that make a question pass, each with what gets worse by it and how many Stops are left.
fn mending(design: &Design, finding: &Finding) -> Vec<Json> {
    let told = |remedy: Remedy| {
        let change = told_change(remedy.change.as_ref()?);
        Some(json!({
            "change": change,
            "worsens": remedy.worsens.iter().map(|(id, ..)| *id).collect::<Vec<_>>(),
            "stops_after": remedy.after.map(|after| after.stops),
        }))
    };
    let found = remedies(design, finding.id);
    found.into_iter().filter_map(told).collect()
}

fn told_change(change: &Change) -> Json {
    match change {
        Change::Set { path, value } => json!({ "set": path, "value": told_value(value) }),
        Change::Insert {
            list,
            index,
            fields,
        } => {
            let fields = fields.iter();
            let fields = fields.map(|(name, value)| (name.to_string(), told_value(value)));
            json!({ "insert": list, "at": index, "fields": fields.collect::<Map<_, _>>() })
        }
        Change::Move { list, from, to } => json!({ "move": list, "from": from, "to": to }),
    }
}

fn told_value(value: &Value) -> Json {
    match value {
        Value::Number(number) => Json::from(*number),
        Value::Choice(text) | Value::Text(text) => Json::from(text.as_str()),
        Value::Flag(flag) => Json::from(*flag),
        Value::Empty => Json::Null,
    }
}

fn report(design: &Design, notes: &[Note], assessment: &Assessment, mends: bool) -> Json {
    let inputs: Json = serde_json::from_str(&file::write(design)).unwrap_or_default();
    let notes: Vec<_> = notes
        .iter()
        .map(|note| note.sentence(System::Metric))
        .collect();
    let findings: Vec<_> = assessment
        .findings
        .iter()
        .map(|finding| {
            let mut told = json!({
                "name": finding.id,
                "question": finding.title,
                "verdict": finding.verdict.word(),
                "compared": finding.compared.text(System::Metric),
                "why": finding.why,
                "margin": finding.margin,
                "caution": finding.caution,
                "working": working(finding),
            });
            if mends {
                told["remedies"] = Json::from(mending(design, finding));
            }
            told
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
