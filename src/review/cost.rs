//! What it costs.

use super::finding::{Chapter, Finding, Lever, NamedResult, Step, Verdict};
use crate::design::Design;
use crate::design::Source::CommonPractice;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::Quantity as Q;
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
        format!("{amount:.0} {currency}")
            .trim_end()
            .to_string()
            .into()
    };
    let enough = Verdict::at_least(budget, cost.high, cost.likely);
    let (verdict, compared) = if !priced {
        let words = "no prices are entered yet";
        (Verdict::CannotTell, Phrase::plain(words))
    } else {
        let slots = [cost.likely, cost.low, cost.high, budget].map(money);
        if sheet.unpriced > 0 {
            let words = "likely {} ({} to {}) of {}; lines without a price: {}";
            let count = Measure::new(Q::Count, sheet.unpriced as f64).into();
            let verdict = enough.max(Verdict::Watch);
            (
                verdict,
                Phrase::new(words, slots.into_iter().chain([count])),
            )
        } else {
            (enough, Phrase::new("likely {} ({} to {}) of {}", slots))
        }
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
        margin: Some(budget / cost.high - 1.0)
            .filter(|margin| priced && sheet.unpriced == 0 && margin.is_finite()),
        working: vec![
            Step {
                words: "Sum of all lines, with something for what was forgotten",
                formula: "C = (1 + c) Σ Cᵢ",
                values: vec![
                    (
                        "Σ Cᵢ",
                        "sum of the likely prices",
                        number(sheet.machine.plain.likely),
                    ),
                    (
                        "c",
                        "for what was forgotten",
                        Measure::new(Q::Share, design.cost.contingency.value),
                    ),
                ],
                result: number(cost.likely),
                source: CommonPractice,
                sure: "low and high take the lines as independent: one is dear while another is cheap",
            },
            Step {
                words: "What first builds come to",
                formula: "2 C",
                values: vec![("2", "times the estimate", number(FIRST_BUILD))],
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
