//! What it costs.

use super::{row, table};
use crate::design::inputs::{CostKind, Group};
use crate::design::phrase::{Phrase, Slot};
use crate::design::quantity::Quantity as Q;
use crate::design::{Choice, Design};
use crate::paper::archive::file_name;
use crate::paper::sheet::{Block, Sheet};
use crate::review::{Assessment, TableRow};
use crate::sizing::cost::{Amount, CostSheet, FIRST_BUILD, PricedLine, Total};

pub(super) fn sheet(design: &Design, assessment: &Assessment) -> Sheet {
    let cost = &assessment.cost;
    let currency = design.cost.currency.as_str();
    let mut sheet = Sheet::new(
        "cost",
        "Cost",
        "What it costs: low, likely and high, with tools apart.",
        &["cost", "cost_lines", "part_changes"],
    );
    let mut add = |block| sheet.blocks.push(block);
    if cost.invented > 0 {
        add(Block::Text(
            "Prices marked “invented” only show how it works. Put your own in their place.".into(),
        ));
    }
    add(Block::Text(
        Phrase::new("All amounts are in {}.", [named(currency)]).into(),
    ));
    if cost.unpriced > 0 {
        add(Block::Text(without_price(cost)));
    }
    if cost.lines.iter().any(|line| line.paid_by.is_some()) {
        add(Block::Text(
            "A part that is bought is paid for by a line where one name holds all the words of the other: the last list tells which. Look whether it really is in that price."
                .into(),
        ));
    }
    add(Block::Text(
        Phrase::new(
            "What you have already costs nothing more: give it a price of 0, under “{}” or in its line of “{}”.",
            [list("part_changes").into(), list("cost_lines").into()],
        )
        .into(),
    ));
    if cost.priced {
        add(Block::Text(
            "“Likely” is the mean: more than the likely prices added up where some may come out far dearer but none far cheaper. Where several different prices have a spread, “Low” is more than “Every line low”, and “High” less than “Every line high”: some come out dear and others cheap, so that all are hardly ever lowest or highest at once."
                .into(),
        ));
    }
    add(table(
        "cost-total",
        "In all",
        &[
            "What",
            "Low",
            "Likely",
            "High",
            "Every line low",
            "Every line high",
        ],
        totals(design, cost),
        "",
    ));
    for option in Group::OPTIONS {
        let of_group =
            |line: &&PricedLine| line.group.name() == option.name && line.kind != CostKind::Tool;
        let mut of_group: Vec<&PricedLine> = (cost.lines.iter())
            .filter(of_group)
            .filter(|line| payer(line).is_none())
            .collect();
        // What has a price comes first, then what weighs most.
        let weight = |line: &PricedLine| {
            let mass = line.mass.map_or(0.0, |mass| mass.value);
            line.lacks_price().then_some(mass)
        };
        of_group.sort_by(|one, other| match (weight(one), weight(other)) {
            (Some(one), Some(other)) => other.total_cmp(&one),
            (one, other) => one.is_some().cmp(&other.is_some()),
        });
        let lines: Vec<TableRow> = of_group.into_iter().map(priced).collect();
        if !lines.is_empty() {
            let name = format!("cost-{}", file_name(option.label));
            let caption = format!("Cost: {}", option.label);
            add(table(&name, &caption, &LINES, lines, ""));
        }
    }
    let tools = (cost.lines.iter())
        .filter(|line| line.kind == CostKind::Tool)
        .map(priced)
        .collect();
    add(table(
        "cost-tools",
        "Tools, which stay when the machine is done",
        &LINES,
        tools,
        "No tools are entered.",
    ));
    let paid = paid_with(cost);
    if !paid.is_empty() {
        add(table(
            "cost-paid-with",
            "What a line pays for besides itself",
            &["Line", "Pays for"],
            paid,
            "",
        ));
    }
    sheet
}

/// The name of the line that pays for this one, where it has no amount of its own.
fn payer(line: &PricedLine) -> Option<&str> {
    line.paid_by.as_deref().filter(|_| line.amount.is_none())
}

/// Each line that pays for others, once, with all of them.
fn paid_with(cost: &CostSheet) -> Vec<TableRow> {
    let mut paid: Vec<(&str, Vec<&str>)> = Vec::new();
    for line in &cost.lines {
        let Some(name) = payer(line) else { continue };
        match paid.iter_mut().find(|(payer, _)| *payer == name) {
            Some((_, parts)) => parts.push(&line.name),
            None => paid.push((name, vec![&line.name])),
        }
    }
    (paid.into_iter())
        .map(|(name, parts)| row(vec![name.into(), parts.join(", ").into()]))
        .collect()
}

/// How many lines without a price are named.
const NAMED: usize = 5;

/// What a list of the design is called.
fn list(name: &str) -> &'static str {
    let mut lists = Design::LISTS.iter().filter(|info| info.name == name);
    lists.next().map_or("", |info| info.label)
}

/// What a missing price means, where it is entered, and which matter most.
fn without_price(cost: &CostSheet) -> Slot {
    let section = |name| {
        let mut sections = Design::SECTIONS.iter().filter(|info| info.name == name);
        sections.next().map_or("", |info| info.label)
    };
    let heaviest = (cost.lacking().into_iter().take(NAMED))
        .filter_map(|line| {
            let mass = super::cell(Q::Mass, line.mass?.value);
            Some(Phrase::new("{} ({})", [line.name.as_str().into(), mass]))
        })
        .reduce(|named, next| Phrase::new("{}, {}", [named.into(), next.into()]));
    let begin = heaviest.map_or_else(
        || Phrase::plain(""),
        |named| Phrase::new(" Begin with what weighs most: {}.", [named.into()]),
    );
    let words = "A line with “no price” counts as nothing: the true total is higher. Prices are entered in the form: a price by weight under “{}”, the price of one piece under “{}”, and what is bought as a line of “{}” that names the part.{}";
    let slots = [
        section("cost").into(),
        list("part_changes").into(),
        list("cost_lines").into(),
        begin.into(),
    ];
    Phrase::new(words, slots).into()
}

/// Headings of all tables of lines.
const LINES: [&str; 6] = ["Line", "Kind", "Low", "Likely", "High", "Price"];

/// What stands in place of a sum of nothing.
const NO_PRICES: &str = "no prices entered";
/// The cells of a total without prices.
const UNPRICED: [&str; 5] = ["", NO_PRICES, "", "", ""];

fn named(currency: &str) -> Slot {
    if currency.trim().is_empty() {
        "your own currency".into()
    } else {
        currency.into()
    }
}

/// An amount of money, as a plain number: shown in groups like any other, and without them in a spreadsheet.
fn money(amount: f64) -> Slot {
    super::cell(Q::Number, amount)
}

fn amounts(amount: Option<Amount>) -> [Slot; 3] {
    match amount {
        Some(amount) => [amount.low, amount.likely, amount.high].map(money),
        None => [""; 3].map(Slot::from),
    }
}

fn priced(line: &PricedLine) -> TableRow {
    let mut cells: Vec<Slot> = vec![line.name.as_str().into(), line.kind.label().into()];
    cells.extend(amounts(line.amount));
    cells.push(match (line.amount, line.invented) {
        _ if line.there => "there already".into(),
        (None, _) => "no price".into(),
        (Some(_), true) => "invented".into(),
        (Some(_), false) => "your own".into(),
    });
    row(cells)
}

fn totals(design: &Design, cost: &CostSheet) -> Vec<TableRow> {
    let total = |name: Slot, total: &Total, priced: bool| {
        let mut cells = vec![name];
        if priced {
            cells.extend(amounts(Some(total.spread)));
            cells.extend([money(total.plain.low), money(total.plain.high)]);
        } else {
            cells.extend(UNPRICED.map(Slot::from));
        }
        row(cells)
    };
    let first_build = if cost.priced {
        money(cost.first_build)
    } else {
        NO_PRICES.into()
    };
    let contingency = Phrase::new(
        "Machine with {} for what was forgotten",
        [super::cell(Q::Share, design.cost.contingency.value)],
    );
    vec![
        total("Machine".into(), &cost.machine, cost.priced),
        total(contingency.into(), &cost.with_contingency, cost.priced),
        total("Tools".into(), &cost.tools, cost.tools_priced),
        row(vec![
            Phrase::new(
                "Machine, as first builds come out: {} times as much (common practice, no source)",
                [super::cell(Q::Number, FIRST_BUILD)],
            )
            .into(),
            "".into(),
            first_build,
            "".into(),
            "".into(),
            "".into(),
        ]),
    ]
}
