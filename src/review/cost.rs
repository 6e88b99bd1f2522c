//! What it costs.

use super::finding::{Chapter, Finding, Lever, NamedResult, Step, Verdict};
use crate::design::Design;
use crate::design::Source::CommonPractice;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::{Quantity as Q, falls_short, whole};
use crate::sizing::cost::{CostSheet, FIRST_BUILD, cost_sheet};
use crate::sizing::parts_list::PartLine;

impl CostSheet {
    /// The computed numbers with their stable names, in the person's own currency. Sums of nothing are
    /// not among them.
    pub fn results(&self) -> Vec<NamedResult> {
        let (whole, tools) = (&self.with_contingency, &self.tools);
        [
            ("low", "Cost, low", whole.spread.low),
            ("likely", "Cost, likely", whole.spread.likely),
            ("high", "Cost, high", whole.spread.high),
            ("all_low", "Cost, every line low", whole.plain.low),
            ("all_high", "Cost, every line high", whole.plain.high),
            ("tools_low", "Tools, low", tools.spread.low),
            ("tools_likely", "Tools, likely", tools.spread.likely),
            ("tools_high", "Tools, high", tools.spread.high),
            (
                "first_build",
                "Cost as first builds come out",
                self.first_build,
            ),
            (
                "unpriced_lines",
                "Lines without a price",
                self.unpriced as f64,
            ),
            (
                "invented_lines",
                "Lines with an invented price",
                self.invented as f64,
            ),
        ]
        .into_iter()
        .filter(|(name, _, _)| match *name {
            "unpriced_lines" | "invented_lines" => true,
            "tools_low" | "tools_likely" | "tools_high" => self.tools_priced,
            _ => self.priced,
        })
        .map(|(name, label, value)| {
            NamedResult::new(
                format!("cost.{name}"),
                label,
                Measure::new(Q::Number, value),
            )
        })
        .collect()
    }
}

/// Puts a design through the question of this chapter; not asked without money at hand.
pub(super) fn examine(design: &Design, parts: &[PartLine]) -> (CostSheet, Vec<Finding>) {
    let sheet = cost_sheet(design, parts);
    let findings = (design.cost.budget)
        .map(|budget| within_budget(design, &sheet, budget))
        .into_iter()
        .collect();
    (sheet, findings)
}

/// Is the money enough?
fn within_budget(design: &Design, sheet: &CostSheet, budget: f64) -> Finding {
    let cost = sheet.with_contingency.spread;
    let priced = sheet.priced;
    let money = |amount: f64| -> Slot {
        let currency = &design.cost.currency;
        format!("{} {currency}", whole(amount))
            .trim_end()
            .to_string()
            .into()
    };
    let ample = cost.high.max(sheet.first_build);
    let enough = Verdict::at_least(budget, ample, cost.likely);
    let (verdict, compared) = if !priced {
        let words = "no prices are entered yet";
        (Verdict::CannotTell, Phrase::plain(words))
    } else {
        let doubled = falls_short(budget, sheet.first_build);
        let lacking = sheet.unpriced > 0;
        let words = match (doubled, lacking) {
            (false, false) => "likely {} ({} to {}) of {}",
            (true, false) => "likely {} ({} to {}) of {}; first builds come to about {}",
            (false, true) => "likely {} ({} to {}) of {}; without a price: {}",
            (true, true) => {
                "likely {} ({} to {}) of {}; first builds come to about {}; without a price: {}"
            }
        };
        let amounts = [cost.likely, cost.low, cost.high, budget].map(money);
        let first_build = doubled.then(|| money(sheet.first_build));
        let names = lacking.then(|| unpriced(sheet).into());
        let slots = amounts.into_iter().chain(first_build).chain(names);
        let verdict = if lacking {
            enough.max(Verdict::Watch)
        } else {
            enough
        };
        (verdict, Phrase::new(words, slots))
    };
    let number = |value: f64| Measure::new(Q::Number, value);
    Finding {
        id: "cost.budget",
        chapter: Chapter::Cost,
        title: "Money at hand",
        meaning: "What the machine costs with something for what was forgotten, tools apart, against the money at hand.",
        verdict,
        compared,
        why: "A machine that is given up half built costs most of all.",
        margin: Some(budget / ample - 1.0)
            .filter(|margin| priced && sheet.unpriced == 0 && margin.is_finite()),
        working: vec![
            Step {
                words: "Sum of all lines, with something for what was forgotten",
                formula: "C = (1 + c) (Σ Lᵢ + Σ Cᵢ + Σ Hᵢ) / 3",
                values: vec![
                    (
                        "Σ Lᵢ",
                        "sum of the low prices",
                        number(sheet.machine.plain.low),
                    ),
                    (
                        "Σ Cᵢ",
                        "sum of the likely prices",
                        number(sheet.machine.plain.likely),
                    ),
                    (
                        "Σ Hᵢ",
                        "sum of the high prices",
                        number(sheet.machine.plain.high),
                    ),
                    (
                        "c",
                        "for what was forgotten",
                        Measure::new(Q::Share, design.cost.contingency.value),
                    ),
                ],
                result: number(cost.likely),
                source: CommonPractice,
                sure: "the mean of each price, since what may come out far dearer but little cheaper pulls the sum up; low and high take different prices as independent: one is dear while another is cheap; lines with one price per kilogram are dear or cheap together",
            },
            Step {
                words: "What first builds come to",
                formula: "2 C",
                values: vec![
                    ("2", "times the estimate", number(FIRST_BUILD)),
                    ("C", "that sum", number(cost.likely)),
                ],
                result: number(sheet.first_build),
                source: CommonPractice,
                sure: "from builders' talk: first builds cost about twice the estimate",
            },
        ],
        caution: None,
        levers: vec![Lever::input("cost.budget")],
        about: "cost",
    }
}

/// How many lines without a price are named.
const NAMED: usize = 3;

/// The heaviest lines without a price, and how many more there are.
fn unpriced(sheet: &CostSheet) -> String {
    let lacking = sheet.lacking();
    let names = lacking.iter().take(NAMED).map(|line| line.name.as_str());
    let names: Vec<&str> = names.collect();
    let more = sheet.unpriced.saturating_sub(names.len());
    let names = names.join(", ");
    if more > 0 {
        format!("{names} and {more} more")
    } else {
        names
    }
}
