//! What the sheets have a person open and shut on the way of the gas is in lists, order and cost.

use hearthplan::design::inputs::{CostLine, FlowSource, StageKind};
use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example};
use hearthplan::paper::{html, sheets};
use hearthplan::review::guided::complete;
use hearthplan::review::{Verdict, assess};
use hearthplan::sizing::also_needed::ways_of_gas;

fn sheet(design: &Design, name: &str) -> String {
    let sheets = sheets::all(design, &assess(design), System::Metric, &[]);
    let sheet = sheets.iter().find(|sheet| sheet.name == name);
    html::blocks(sheet.expect("made"), System::Metric)
}

fn names(design: &Design) -> Vec<String> {
    (ways_of_gas(design).into_iter())
        .map(|need| need.name(design))
        .collect()
}

const ALL: [&str; 4] = [
    "Flare pipe with burner",
    "Valve to the flare",
    "Valve to the engine",
    "Gas-air mixer with air valve",
];

#[test]
fn flare_valves_and_mixer_stand_in_parts_order_and_cost() {
    let design = complete(&example::to_start_from(), &[]);
    assert_eq!(names(&design), ALL);
    let parts = sheet(&design, "parts");
    for name in ALL {
        assert!(parts.contains(&format!(">{name}<")), "{name}: {parts}");
    }
    assert!(parts.contains("together they take 100 Pa at full gas flow"));
    assert!(sheet(&design, "build-order").contains(&ALL.join("; ")));
    let cost = assess(&design).cost;
    for name in ALL {
        let line = cost.lines.iter().find(|line| line.name == name);
        assert!(line.is_some_and(|line| line.lacks_price()), "{name}");
    }
}

#[test]
fn what_is_named_elsewhere_is_not_told_twice() {
    let with = |name: &str| {
        let mut design = complete(&example::to_start_from(), &[]);
        design.cost_lines.push(CostLine {
            name: name.to_string(),
            ..CostLine::default()
        });
        names(&design)
    };
    assert_eq!(with("Flare stack"), ALL[1..]);
    assert_eq!(with("Two valves, to flare and engine"), [ALL[0], ALL[3]]);
    assert_eq!(with("Mixer"), ALL[..3]);
    let mut design = complete(&example::to_start_from(), &[]);
    design.parts[0].name = "Engine valve and mixer".to_string();
    assert_eq!(names(&design), ALL[..2]);
    design.train[0].name = "Pipe to the flare".to_string();
    assert_eq!(names(&design), ALL[1..2]);
    // A line of its kind pays for what is still told.
    let improved = example::as_improved();
    assert_eq!(names(&improved), ALL);
    let lines = assess(&improved).cost.lines;
    let by = |name: &str| {
        let line = lines.iter().find(|line| line.name == name);
        line.and_then(|line| line.paid_by.as_deref())
    };
    assert_eq!(
        ALL.map(by),
        [
            Some("Hearth outlet, pipe with fittings"),
            Some("Ball valves"),
            Some("Ball valves"),
            Some("Cooler tubes and fittings"),
        ]
    );
}

#[test]
fn a_machine_has_only_the_ways_that_it_has() {
    let mut design = complete(&example::to_start_from(), &[]);
    let lighting = sheet(&design, "lighting");
    for words in [
        "Valve to the flare open, valve to the engine shut, engine off",
        "shut the valve to the flare before the engine draws",
        "To stop, shut the valves to flare and engine",
    ] {
        assert!(lighting.contains(words), "{words}: {lighting}");
    }
    let mut tested = design.clone();
    tested.operation.flow_source = FlowSource::Entered;
    assert_eq!(names(&tested), ALL[..2]);
    let lighting = sheet(&tested, "lighting");
    assert!(lighting.contains("To stop, shut the valve to the flare."));
    assert!(!lighting.contains("alve to the engine"), "{lighting}");
    design.train.retain(|stage| stage.kind != StageKind::Blower);
    assert_eq!(names(&design), ALL[2..]);
    let lighting = sheet(&design, "lighting");
    assert!(lighting.contains("To stop, shut the valve to the engine."));
    assert!(!lighting.contains("valve to the flare"), "{lighting}");
}

#[test]
fn the_improved_example_pays_for_its_ways() {
    let assessment = assess(&example::as_improved());
    let costly = (assessment.findings.iter())
        .filter(|finding| finding.id.starts_with("cost.") && finding.verdict != Verdict::Good);
    assert_eq!(costly.count(), 0);
}
