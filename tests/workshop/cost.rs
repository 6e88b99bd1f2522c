//! The spread of a total against drawing every price.

use crate::random_design::Dice;
use hearthplan::design::inputs::{Cost, CostKind, CostLine, DerivedPart, PartChange};
use hearthplan::design::quantity::{Quantity, System};
use hearthplan::design::{Design, example};
use hearthplan::paper::csv::csv;
use hearthplan::paper::html;
use hearthplan::paper::sheets::all;
use hearthplan::review::{Verdict, assess, remedies};
use hearthplan::sizing::cost::{Amount, CostSheet, PerKilogram, cost_sheet, total};
use hearthplan::sizing::machine::layout;
use hearthplan::sizing::parts_list::parts_list;

fn sheet(design: &Design) -> CostSheet {
    {
        let machine = layout(design);
        cost_sheet(design, &machine, &parts_list(design, &machine))
    }
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

/// As all large numbers are written: ISO 80000-1, 7.3.1, groups of three.
#[test]
fn large_sums_of_money_are_written_in_groups() {
    let mut design = example::as_improved();
    for line in &mut design.cost_lines {
        line.low *= 1000.0;
        line.likely *= 1000.0;
        line.high *= 1000.0;
    }
    design.cost.budget = Some(3_000_000.0);
    let assessment = assess(&design);
    let told = assessment.finding("cost.budget").unwrap();
    let words = told.compared.text(System::Metric);
    assert!(
        words.contains("of 3\u{202f}000\u{202f}000 credits"),
        "{words}"
    );
    let long = words.split(|letter: char| !letter.is_ascii_digit());
    assert!(long.into_iter().all(|digits| digits.len() < 5), "{words}");

    let sheets = all(&design, &assessment, System::Metric, &[]);
    let cost = sheets.iter().find(|sheet| sheet.name == "cost").unwrap();
    let (_, _, sums) = (cost.tables())
        .find(|(name, _, _)| *name == "cost-total")
        .unwrap();
    let machine = sums.rows.first().unwrap();
    for cell in &machine.cells[1..] {
        let shown = cell.text(System::Metric);
        assert!(shown.contains('\u{202f}'), "{shown}");
        let read = Quantity::Number.read(&shown, System::Metric).unwrap();
        let meant = cell.measure().unwrap().si;
        assert!((read - meant).abs() <= 0.5, "{shown} of {meant}");
    }
    // A spreadsheet takes a number in groups for words.
    let text = csv(sums, System::Metric);
    let row = text.lines().nth(1).unwrap();
    let numbers = row.split(',').skip(1);
    assert!(
        numbers.clone().count() == 5 && numbers.into_iter().all(|one| one.parse::<f64>().is_ok()),
        "{row}"
    );
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
fn prices_that_are_more_often_dear_than_cheap_pull_the_sum_up() {
    // Triangular prices, most likely near their low end: the mean of many sums is the likely total.
    let amounts: Vec<Amount> = (1..=20)
        .map(|index| Amount::new(9.0, 10.0, 12.0 + f64::from(index)))
        .collect();
    let (mut dice, draws) = (Dice::new(3), 20_000);
    let mut triangular = |amount: &Amount| {
        let (low, likely, high) = (amount.low, amount.likely, amount.high);
        let (share, whole) = (dice.between((0.0, 1.0)), high - low);
        if share * whole < likely - low {
            low + (share * whole * (likely - low)).sqrt()
        } else {
            high - ((1.0 - share) * whole * (high - likely)).sqrt()
        }
    };
    let sums: Vec<f64> = (0..draws)
        .map(|_| amounts.iter().map(&mut triangular).sum())
        .collect();
    let found = total(amounts.iter().copied());
    let mean = sums.iter().sum::<f64>() / f64::from(draws);
    assert!((mean / found.spread.likely - 1.0).abs() < 0.005);
    assert!(found.spread.likely > 1.2 * found.plain.likely);
    let inside = |sum: &&f64| (found.spread.low..=found.spread.high).contains(*sum);
    assert!(sums.iter().filter(inside).count() as f64 > 0.9 * f64::from(draws));
}

#[test]
fn lines_of_one_price_are_dear_together() {
    let mut design = Design::default();
    let cost = &mut design.cost;
    (cost.mild_steel_low, cost.mild_steel, cost.mild_steel_high) =
        (Some(1.0), Some(2.0), Some(4.0));
    // One price alone: all lines move with it.
    let steel = sheet(&design).machine;
    assert!((steel.spread.low - steel.plain.low).abs() < 1e-9);
    assert!((steel.spread.high - steel.plain.high).abs() < 1e-9);
    let cost = &mut design.cost;
    (cost.insulation_low, cost.insulation, cost.insulation_high) =
        (Some(6.0), Some(9.0), Some(12.0));
    cost.stainless = Some(0.0);
    cost.other = Some(0.0);
    let found = sheet(&design);
    // Each price drawn once for all lines that go by it: the standard deviation of the sum of many draws.
    let kilograms = |price: PerKilogram, likely: f64| -> f64 {
        let of_price = found
            .lines
            .iter()
            .filter(|line| line.per_kilogram == Some(price));
        of_price
            .filter_map(|line| line.amount)
            .map(|amount| amount.likely / likely)
            .sum()
    };
    // Low and high as far from the mean of a triangle, 7/3, as they are: 4/3 below, 5/3 above.
    let prices = [
        (kilograms(PerKilogram::MildSteel, 2.0), 7.0 / 3.0, 5.0 / 3.0),
        (kilograms(PerKilogram::Insulation, 9.0), 9.0, 3.0),
    ];
    let (mut dice, draws) = (Dice::new(8), 40_000);
    let drawn: Vec<f64> = (0..draws)
        .map(|_| {
            let one = |(mass, likely, spread): &(f64, f64, f64)| {
                let reach = 3.0_f64.sqrt() * spread;
                mass * dice.between((likely - reach, likely + reach))
            };
            prices.iter().map(one).sum()
        })
        .collect();
    let mean = drawn.iter().sum::<f64>() / f64::from(draws);
    let squares: f64 = drawn.iter().map(|sum| (sum - mean).powi(2)).sum();
    let deviation = (squares / f64::from(draws)).sqrt();
    let spread = found.machine.spread;
    assert!((mean / spread.likely - 1.0).abs() < 0.01);
    assert!((deviation / (spread.high - spread.likely) - 1.0).abs() < 0.02);
}

#[test]
fn what_is_bought_and_named_by_no_line_has_no_price() {
    let mut design = example::as_improved();
    let lacking = |design: &Design| -> Vec<String> {
        let lines = sheet(design).lines.into_iter();
        lines
            .filter(|line| line.lacks_price())
            .map(|line| line.name)
            .collect()
    };
    assert_eq!(lacking(&design), Vec::<String>::new());
    let forgotten = ["Switch box", "Cyclone"];
    (design.cost_lines).retain(|line| !forgotten.contains(&line.name.as_str()));
    let names = lacking(&design);
    for name in forgotten {
        assert!(names.iter().any(|other| other.contains(name)), "{names:?}");
    }
    for paid in ["Blower", "Battery", "Cooler", "Trap", "Bolts", "Gasket"] {
        assert!(!names.iter().any(|other| other.contains(paid)), "{names:?}");
    }
    // However much money there is, what is missing is said.
    design.cost.budget = Some(1e6);
    let said = |design: &Design| {
        let assessment = assess(design);
        let found = assessment.finding("cost.budget").expect("asked");
        (found.verdict, found.compared.text(System::Metric))
    };
    let (verdict, words) = said(&design);
    assert_eq!(verdict, Verdict::Watch, "{words}");
    assert!(words.contains("without a price: "), "{words}");
    for name in &names {
        design.cost_lines.push(CostLine {
            name: name.clone(),
            ..line(CostKind::Bought, 20.0)
        });
    }
    assert_eq!(lacking(&design), [""; 0]);
    let (verdict, words) = said(&design);
    assert_eq!(verdict, Verdict::Good, "{words}");
    // First builds come to twice the estimate.
    let cost = sheet(&design);
    design.cost.budget = Some(0.99 * cost.first_build);
    let (verdict, words) = said(&design);
    assert_eq!(verdict, Verdict::Watch, "{words}");
    assert!(words.contains("first builds come to about "), "{words}");
    // Twice what is shown, and not a credit less.
    let shown = cost.with_contingency.spread.likely;
    assert!((cost.first_build - 2.0 * shown).abs() < 1e-9);
    for (budget, wanted) in [
        (2.0 * shown - 1.0, Verdict::Watch),
        (2.0 * shown, Verdict::Good),
    ] {
        design.cost.budget = Some(budget);
        let (verdict, words) = said(&design);
        assert_eq!(verdict, wanted, "{words}");
    }
}

/// A line pays for what it is, not for what is named after it; its own line goes before one of its kind.
#[test]
fn a_thing_is_paid_by_the_line_that_tells_most_closely_of_it() {
    let mut design = example::as_improved();
    design.battery_box.sheets = 2;
    let bought = |name: &str| CostLine {
        name: name.to_string(),
        ..line(CostKind::Bought, 20.0)
    };
    design.cost_lines = ["Battery", "Condensate trap", "Last trap"]
        .map(bought)
        .to_vec();
    let paid_by = |design: &Design, name: &str| {
        let lines = sheet(design).lines;
        let found = lines
            .iter()
            .find(|line| line.name == name && !line.from.starts_with("cost_lines"));
        found.unwrap_or_else(|| panic!("{name}")).paid_by.clone()
    };
    let last = design
        .train
        .iter()
        .position(|stage| stage.name == "Last trap")
        .unwrap();
    let stage = |design: &Design, at: usize| {
        let lines = sheet(design).lines;
        let from = format!("train.{at}");
        lines
            .into_iter()
            .find(|line| line.from == from)
            .unwrap()
            .paid_by
    };
    assert_eq!(paid_by(&design, "Shield sheets of the battery box"), None);
    assert_eq!(paid_by(&design, "Battery"), Some("Battery".to_string()));
    assert_eq!(stage(&design, last), Some("Last trap".to_string()));
    // Without a price for it, the drum of that name among the other parts stands for it, before another trap.
    design.cost_lines.pop();
    let drum = design.parts.iter().any(|part| part.name == "Last trap");
    assert!(drum && stage(&design, last) == Some("Last trap".to_string()));
    // A shield is paid by a line for shields.
    design.cost_lines.push(bought("Shields"));
    let shields = paid_by(&design, "Shield sheets of the battery box");
    assert_eq!(shields, Some("Shields".to_string()));
}

/// Prices that contradict each other are told, with the line, and each single mend passes.
#[test]
fn prices_in_an_impossible_order_are_told() {
    const ID: &str = "cost.order";
    let mut design = example::as_improved();
    let verdict = |design: &Design| assess(design).finding(ID).expect("asked").verdict;
    assert!(assess(&Design::default()).finding(ID).is_none());
    assert_eq!(verdict(&design), Verdict::Good);
    let at = design
        .cost_lines
        .iter()
        .position(|line| line.name == "Cyclone")
        .unwrap();
    let wrong = &mut design.cost_lines[at];
    (wrong.low, wrong.likely, wrong.high) = (2.0, 2.5, 2.2);
    let assessment = assess(&design);
    let told = assessment.finding(ID).expect("told");
    let words = told.compared.text(System::Metric);
    assert_eq!(told.verdict, Verdict::Watch);
    assert!(
        words.starts_with("Cyclone: low 2, likely 2.5, high 2.2; "),
        "{words}"
    );
    let mends: Vec<Design> = (remedies(&design, ID).into_iter())
        .filter_map(|remedy| remedy.change?.apply(&design))
        .collect();
    assert!(!mends.is_empty());
    for mended in mends {
        assert_eq!(verdict(&mended), Verdict::Good);
    }
    // A highest price of nothing was not entered.
    design.cost_lines[at].high = 0.0;
    assert_eq!(verdict(&design), Verdict::Good);
    design.cost.mild_steel_low = design.cost.mild_steel.map(|likely| likely + 1.0);
    let assessment = assess(&design);
    let words = assessment
        .finding(ID)
        .expect("told")
        .compared
        .text(System::Metric);
    assert!(words.starts_with("mild steel: low "), "{words}");
}

#[test]
fn tools_are_summed_apart() {
    let design = Design {
        cost_lines: vec![line(CostKind::Bought, 50.0), line(CostKind::Tool, 300.0)],
        ..Design::default()
    };
    let sheet = sheet(&design);
    // The mean of 0.8, 1 and 1.4 times the likely price.
    let mean = 3.2 / 3.0;
    assert!((sheet.machine.spread.likely - 100.0 * mean).abs() < 1e-9);
    assert!((sheet.tools.spread.likely - 600.0 * mean).abs() < 1e-9);
    assert!((sheet.with_contingency.spread.likely - 115.0 * mean).abs() < 1e-9);
    assert!((sheet.first_build - 230.0 * mean).abs() < 1e-9);
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
        let names = results.into_iter().map(|result| result.name);
        // Work takes its time at any price.
        let of_time = ["cost.work", "cost.weeks"];
        names
            .filter(|name| !of_time.iter().any(|begin| name.starts_with(begin)))
            .collect()
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

#[test]
fn a_vessel_that_is_there_costs_nothing() {
    let mut design = example::as_improved();
    design.cost.mild_steel = Some(2.0);
    design.real_vessel.measured = true;
    // A bottom would be narrower in the bore of a vessel that is there.
    design.bottom_layers.clear();
    let there = sheet(&design);
    let lines: Vec<_> = there.lines.iter().filter(|line| line.there).collect();
    assert_eq!(lines[0].from, "hearth_layers.2", "{lines:?}");
    let steel: f64 = (lines.iter())
        .map(|line| line.mass.expect("weighed").value)
        .sum();
    assert!(steel > 1.0);
    assert!(
        lines
            .iter()
            .all(|line| !line.lacks_price() && !line.invented)
    );
    let sheets = all(&design, &assess(&design), System::Metric, &[]);
    let cost = sheets.into_iter().find(|sheet| sheet.name == "cost");
    let said = html::blocks(&cost.expect("the sheet"), System::Metric);
    assert_eq!(said.matches("there already").count(), lines.len());

    design.real_vessel.measured = false;
    let bought = sheet(&design);
    assert!(bought.lines.iter().all(|line| !line.there));
    let saved = bought.machine.plain.likely - there.machine.plain.likely;
    assert!(
        (saved - 2.0 * steel).abs() < 1e-9 * saved,
        "{saved} for {steel} kg"
    );

    // Without any price it is neither a line that lacks one nor a price.
    let mut design = Design {
        cost_lines: Vec::new(),
        part_changes: Vec::new(),
        ..design
    };
    design.cost = hearthplan::design::inputs::Cost::default();
    let lacking = sheet(&design).unpriced;
    design.real_vessel.measured = true;
    let unpriced = sheet(&design);
    assert_eq!(unpriced.unpriced + lines.len(), lacking);
    assert!(!unpriced.priced);
}

/// A single price that has a spread is not made up for by another.
#[test]
fn the_sheet_tells_nothing_of_sums_that_are_alike() {
    let mut design = example::as_improved();
    design.part_changes.clear();
    design.cost_lines = vec![line(CostKind::Bought, 100.0)];
    design.cost = Cost::default();
    let total = sheet(&design).machine;
    assert!((total.spread.low - total.plain.low).abs() < 1e-9);
    let sheets = all(&design, &assess(&design), System::Metric, &[]);
    let page = sheets.iter().find(|sheet| sheet.name == "cost").unwrap();
    let words = html::blocks(page, System::Metric);
    let told = "“Low” is more than “Every line low”";
    assert!(words.contains(&format!(
        "Where several different prices have a spread, {told}"
    )));
}
