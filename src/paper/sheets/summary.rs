//! The first sheet: what it is, and what the review says.

use super::gas_train;
use super::{Drawing, cell, row, table};
use crate::design::Design;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::design::upgrade::FORMAT;
use crate::paper::sheet::{Block, Sheet};
use crate::review::{Assessment, Chapter, Finding, TableRow, USED_VESSEL, Verdict, worst_first};

/// The numbers that a person asks for first, by their stable names.
const MAIN: [&str; 21] = [
    "engine.shaft_power_full",
    "train.engine_power",
    "train.electric_power",
    "heart.gas_flow_full",
    "heart.wood_full",
    "heart.wood_usual",
    "heart.gas_heat_full",
    "engine.lasts",
    "hearth.load_full",
    "breath.suction_side",
    "breath.engine_vacuum",
    "warmth.loss_share_full",
    "warmth.warm_up_time",
    "standing.overall_width",
    "standing.overall_depth",
    "standing.overall_height",
    "standing.mass_empty",
    "standing.mass_full",
    "standing.tip_angle_full",
    "leaks.allowed",
    "cost.work",
];

/// The questions whose cautions stand below these numbers: power, filling, tipping.
const OF_MAIN: [&str; 3] = ["engine.power", "engine.refuel", "standing.tip_full"];

pub(super) fn sheet(design: &Design, assessment: &Assessment, drawings: &[Drawing]) -> Sheet {
    let mut sheet = Sheet::new(
        "summary",
        "Summary",
        "What the machine is, and what the review of its design says.",
        &["about"],
    );
    let mut add = |block| sheet.blocks.push(block);
    add(Block::Heading(design.about.name.clone()));
    add(Block::Text(
        "A downdraft wood-gas generator with its gas train, for a petrol engine.".into(),
    ));
    if !design.about.note.is_empty() {
        add(Block::Text(design.about.note.as_str().into()));
    }
    if design.about.invented {
        add(Block::Text(
            "This is an example: the machine and its numbers are invented.".into(),
        ));
    }
    add(Block::FillIn(
        ["Date", "Printed by", "For"].map(String::from).to_vec(),
    ));
    add(counts(assessment));
    if let Some(stops) = stops_by_name(assessment) {
        add(stops);
    }
    for caution in ALWAYS {
        add(Block::Caution(caution.to_string()));
    }
    let mut told = Vec::new();
    if design.real_vessel.measured {
        told.push(USED_VESSEL);
        add(Block::Caution(USED_VESSEL.to_string()));
    }
    add(numbers(assessment));
    for id in OF_MAIN {
        if let Some(caution) = assessment
            .finding(id)
            .and_then(|found| untold(found, &mut told))
        {
            add(caution);
        }
    }
    for drawing in drawings
        .iter()
        .filter(|drawing| drawing.name != gas_train::NAME)
    {
        add(Block::Drawing {
            name: drawing.name.clone(),
            svg: drawing.svg.clone(),
            words: drawing.words.clone(),
        });
        if drawing.is_captioned {
            add(Block::Text(drawing.words.as_str().into()));
        }
    }
    for verdict in [Verdict::Stop, Verdict::CannotTell, Verdict::Watch] {
        for block in findings(assessment, verdict, &mut told) {
            add(block);
        }
    }
    // Before the table, so that no page is left with this sentence alone.
    let format = Measure::new(Q::Count, f64::from(FORMAT)).into();
    add(Block::Text(
        Phrase::new(
            "Computed by Hearthplan, design format {}. Check against your own measurements before you cut, lift or light.",
            [format],
        )
        .into(),
    ));
    for block in passing(assessment, &mut told) {
        add(block);
    }
    sheet
}

/// What holds for every wood-gas generator.
pub(super) const ALWAYS: [&str; 2] = [
    "Wood gas is poisonous: carbon monoxide has no smell. Run it outdoors or under an open roof only, and wear an alarm.",
    "Gas and air together explode. Light it with the flare open, and never look into an opening.",
];

fn counts(assessment: &Assessment) -> Block {
    let count = |verdict| Measure::new(Q::Count, assessment.count(verdict) as f64).into();
    let words = "Verdicts: {} Stop, {} Can't tell, {} Watch, {} Good.";
    Block::Text(
        Phrase::new(
            words,
            [
                Verdict::Stop,
                Verdict::CannotTell,
                Verdict::Watch,
                Verdict::Good,
            ]
            .map(count),
        )
        .into(),
    )
}

/// What fails, by name and the worst first: the findings themselves stand pages further on. None where nothing does.
fn stops_by_name(assessment: &Assessment) -> Option<Block> {
    let titles: Vec<&str> = (worst_first(&assessment.findings).into_iter())
        .filter(|finding| finding.verdict == Verdict::Stop)
        .map(|finding| finding.title)
        .collect();
    let told = format!("Do not build it like this. Stop: {}.", titles.join("; "));
    (!titles.is_empty()).then(|| Block::Text(told.as_str().into()))
}

fn numbers(assessment: &Assessment) -> Block {
    let results = assessment.results();
    let rows = MAIN
        .iter()
        .filter_map(|name| results.iter().find(|result| result.name == *name))
        .map(|result| {
            row(vec![
                result.label.as_str().into(),
                cell(result.measure.quantity, result.measure.si),
            ])
        })
        .collect();
    table(
        "numbers",
        "Main numbers",
        &["What", "Number"],
        rows,
        "No numbers can be told yet.",
    )
}

/// Heading and findings with this verdict, what does most harm first; nothing when there are none. A caution that was told stands
/// on the sheet already.
fn findings<'a>(
    assessment: &'a Assessment,
    verdict: Verdict,
    told: &mut Vec<&'a str>,
) -> Vec<Block> {
    let found: Vec<&Finding> = (worst_first(&assessment.findings).into_iter())
        .filter(|finding| finding.verdict == verdict)
        .collect();
    if found.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![Block::Heading(verdict.word().to_string())];
    for finding in found {
        let words = Phrase::new(
            "{}. {}",
            [finding.compared.clone().into(), Slot::from(finding.why)],
        );
        blocks.push(Block::Answer {
            verdict,
            question: finding.title.to_string(),
            words: words.into(),
        });
        blocks.extend(untold(finding, told));
    }
    blocks
}

/// The caution of an answer, unless it stands on the sheet already.
fn untold<'a>(finding: &'a Finding, told: &mut Vec<&'a str>) -> Option<Block> {
    let caution = (finding.caution).filter(|caution| !told.contains(caution))?;
    told.push(caution);
    Some(Block::Caution(caution.to_string()))
}

/// What passes, by chapters, each with the cautions that were not told yet; all else is told above, with why.
fn passing<'a>(assessment: &'a Assessment, told: &mut Vec<&'a str>) -> Vec<Block> {
    let mut blocks = vec![Block::Heading("What passes".to_string())];
    for chapter in Chapter::ALL {
        let good = || {
            (assessment.findings.iter()).filter(move |finding| {
                finding.chapter == chapter && finding.verdict == Verdict::Good
            })
        };
        let rows: Vec<TableRow> = good()
            .map(|finding| row(vec![finding.title.into(), finding.compared.clone().into()]))
            .collect();
        if rows.is_empty() {
            continue;
        }
        let name = format!("passing-{}", chapter.name());
        let headings = ["Question", "Answer"];
        blocks.push(table(&name, chapter.label(), &headings, rows, ""));
        blocks.extend(good().filter_map(|finding| untold(finding, told)));
    }
    if blocks.len() == 1 {
        blocks.push(Block::Text("Nothing passes yet.".into()));
    }
    blocks
}
