//! The spread of a total against drawing every price.

use crate::random_design::Dice;
use hearthplan::design::Design;
use hearthplan::design::inputs::{CostKind, CostLine, DerivedPart, PartChange};
use hearthplan::design::quantity::System;
use hearthplan::paper::html;
use hearthplan::paper::sheets::all;
use hearthplan::review::assess;
use hearthplan::sizing::cost::{Amount, CostSheet, cost_sheet, total};
use hearthplan::sizing::machine::layout;
use hearthplan::sizing::parts_list::parts_list;

fn sheet(design: &Design) -> CostSheet {
    cost_sheet(design, &parts_list(design, &layout(design)))
}

fn line(kind: CostKind, likely: f64) -> CostLine {
    CostLine {
        kind,
        low: 0.8 * likely,
        likely,
        high: 1.4 * likely,
        quantity: 2.0,
        ..CostLine::default()
    }
}

#[test]
fn the_spread_is_that_of_many_draws() {
    // Low and high as one standard deviation of a price that is even between two ends: the standard
    // deviation of the sum of many draws is the spread of the total.
    let mut dice = Dice::new(5);
    let amounts: Vec<Amount> = (1..=12)
        .map(|index| {
            let likely = 10.0 * f64::from(index);
            let half = dice.between((0.05, 0.5)) * likely;
            Amount::new(likely - half, likely, likely + half)
        })
        .collect();
    let found = total(amounts.iter().copied());
    let draws = 40_000;
    let (mut sum, mut squares) = (0.0, 0.0);
    for _ in 0..draws {
        let drawn: f64 = amounts
            .iter()
            .map(|amount| {
                let reach = 3.0_f64.sqrt() * (amount.high - amount.likely);
                dice.between((amount.likely - reach, amount.likely + reach))
            })
            .sum();
        sum += drawn;
        squares += drawn * drawn;
    }
    let mean = sum / f64::from(draws);
    let deviation = (squares / f64::from(draws) - mean * mean).sqrt();
    assert!((mean / found.spread.likely - 1.0).abs() < 0.005);
    assert!((deviation / (found.spread.high - found.spread.likely) - 1.0).abs() < 0.02);
    assert!(found.plain.high > found.spread.high && found.plain.low < found.spread.low);
}

#[test]
fn tools_are_summed_apart() {
    let design = Design {
        cost_lines: vec![line(CostKind::Bought, 50.0), line(CostKind::Tool, 300.0)],
        ..Design::default()
    };
    let sheet = sheet(&design);
    assert_eq!(sheet.machine.spread.likely, 100.0);
    assert_eq!(sheet.tools.spread.likely, 600.0);
    assert!((sheet.with_contingency.spread.likely - 115.0).abs() < 1e-9);
    assert!((sheet.first_build - 230.0).abs() < 1e-9);
    // No price per kilogram was entered: the materials are told to be unpriced.
    assert!(sheet.unpriced > 8);
}

#[test]
fn materials_cost_their_mass() {
    let mut design = Design::default();
    design.cost.mild_steel_low = Some(1.0);
    design.cost.mild_steel = Some(2.0);
    let parts = parts_list(&design, &layout(&design));
    let steel: f64 = parts
        .iter()
        .filter(|part| part.kind == CostKind::Material)
        .filter(|part| part.material == Some(hearthplan::design::inputs::Material::MildSteel))
        .map(|part| part.mass.value)
        .sum();
    let before = sheet(&design);
    assert!((before.machine.plain.likely - 2.0 * steel).abs() < 1e-9);
    assert!((before.machine.plain.low - steel).abs() < 1e-9);
    assert!((before.machine.plain.high - 2.0 * steel).abs() < 1e-9);

    design.part_changes = vec![PartChange {
        piece: DerivedPart::Frame,
        price: Some(1_000.0),
        ..PartChange::default()
    }];
    let frame = before
        .lines
        .iter()
        .find(|line| line.from == "base")
        .expect("the frame");
    let was = frame.amount.expect("a price").likely;
    let now = sheet(&design).machine.plain.likely;
    assert!((now - before.machine.plain.likely - 1_000.0 + was).abs() < 1e-9);
}

#[test]
fn a_sum_of_nothing_is_no_sum() {
    let mut design = Design::default();
    let names = |design: &Design| -> Vec<String> {
        let results = sheet(design).results();
        results.into_iter().map(|result| result.name).collect()
    };
    assert_eq!(
        names(&design),
        ["cost.unpriced_lines", "cost.invented_lines"]
    );
    let said = |design: &Design| {
        let sheets = all(design, &assess(design), System::Metric, &[]);
        let cost = sheets.into_iter().find(|sheet| sheet.name == "cost");
        html::blocks(&cost.expect("the sheet"), System::Metric)
    };
    // Machine, with contingency, tools, and as first builds come out.
    assert_eq!(said(&design).matches("no prices entered").count(), 4);
    design.cost_lines = vec![line(CostKind::Tool, 3.0)];
    assert_eq!(said(&design).matches("no prices entered").count(), 3);
    assert!(names(&design).contains(&"cost.tools_likely".to_string()));
    design.cost_lines = vec![line(CostKind::Bought, 3.0)];
    assert_eq!(said(&design).matches("no prices entered").count(), 1);
    assert!(names(&design).contains(&"cost.likely".to_string()));
}
