//! What it costs, in money and time.

mod time;

use super::finding::{Chapter, Finding, Lever, NamedResult, Step, Verdict};
use crate::design::Design;
use crate::design::Source::CommonPractice;
use crate::design::phrase::{Measure, Phrase, Slot};
use crate::design::quantity::{Quantity as Q, falls_short, whole};
use crate::sizing::cost::{CostSheet, FIRST_BUILD, cost_sheet};
use crate::sizing::machine::Machine;
use crate::sizing::parts_list::PartLine;

impl CostSheet {
    /// The computed numbers with their stable names, amounts in the person's own currency. Sums of nothing are not among
    /// them.
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
            let is_amount = !matches!(name, "unpriced_lines" | "invented_lines");
            let label = match self.currency.trim() {
                currency if is_amount && !currency.is_empty() => format!("{label}, in {currency}"),
                _ => label.to_string(),
            };
            NamedResult::new(
                format!("cost.{name}"),
                label,
                Measure::new(Q::Number, value),
            )
        })
        .chain(time::results(&self.time))
        .collect()
    }
}

/// Puts a design through the questions of this chapter; about money and time only where it was entered how much is at
/// hand, about the order of prices only where there are any.
pub(super) fn examine(
    design: &Design,
    machine: &Machine,
    parts: &[PartLine],
) -> (CostSheet, Vec<Finding>) {
    let sheet = cost_sheet(design, machine, parts);
    let findings = (design.cost.budget)
        .map(|budget| within_budget(design, &sheet, budget))
        .into_iter()
        .chain(in_order(design))
        .chain((design.pace.weeks).map(|weeks| time::within_weeks(design, &sheet.time, weeks)))
        .collect();
    (sheet, findings)
}

/// Where prices were entered.
#[derive(Clone, Copy)]
enum Where {
    /// In the line at this place.
    Line(usize),
    /// For a kilogram of a material, by the name of its likely price.
    Kilogram(&'static str),
}

/// What was entered for one thing, lowest, likely and highest price, and where.
struct Entered<'a> {
    name: &'a str,
    prices: [f64; 3],
    place: Where,
}

impl Entered<'_> {
    /// The inputs of the three.
    fn levers(&self) -> Vec<Lever> {
        let paths = match self.place {
            Where::Line(at) => {
                ["low", "likely", "high"].map(|price| Design::item_input("cost_lines", at, price))
            }
            Where::Kilogram(likely) => {
                ["_low", "", "_high"].map(|end| format!("cost.{likely}{end}"))
            }
        };
        paths.map(Lever::input).to_vec()
    }

    /// Whether the three contradict each other; a highest price of nothing was not entered.
    fn is_out_of_order(&self) -> bool {
        let [low, likely, high] = self.prices;
        low > likely || (high > 0.0 && likely > high)
    }
}

/// Every price that was entered: the lines, and a kilogram of each material that has a likely price.
fn entered(design: &Design) -> impl Iterator<Item = Entered<'_>> {
    let lines = design
        .cost_lines
        .iter()
        .enumerate()
        .map(|(at, line)| Entered {
            name: &line.name,
            prices: [line.low, line.likely, line.high],
            place: Where::Line(at),
        });
    let cost = &design.cost;
    let of_kilogram = [
        (
            "mild_steel",
            "mild steel",
            [cost.mild_steel_low, cost.mild_steel, cost.mild_steel_high],
        ),
        (
            "stainless",
            "stainless steel",
            [cost.stainless_low, cost.stainless, cost.stainless_high],
        ),
        (
            "insulation",
            "insulation",
            [cost.insulation_low, cost.insulation, cost.insulation_high],
        ),
        (
            "other",
            "other materials",
            [cost.other_low, cost.other, cost.other_high],
        ),
    ];
    let kilograms = of_kilogram
        .into_iter()
        .filter_map(|(path, name, [low, likely, high])| {
            let likely = likely?;
            Some(Entered {
                name,
                prices: [low.unwrap_or(likely), likely, high.unwrap_or(likely)],
                place: Where::Kilogram(path),
            })
        });
    lines.chain(kilograms)
}

/// Do low, likely and high price of each thing rise? Not asked where nothing has a price.
fn in_order(design: &Design) -> Option<Finding> {
    let priced = || entered(design).filter(|one| one.prices.iter().any(|price| *price > 0.0));
    let count = |count: usize| -> Slot { Measure::new(Q::Count, count as f64).into() };
    let all = priced().count();
    let mut wrong = priced().filter(Entered::is_out_of_order);
    let first = wrong.next();
    let more = wrong.count();
    let (verdict, compared) = match &first {
        _ if all == 0 => return None,
        None => {
            let words = "things with a price: {}; of each the low one is no more than the likely one, and that no more than the high one";
            (Verdict::Good, Phrase::new(words, [count(all)]))
        }
        Some(first) => {
            let words = match more {
                0 => {
                    "{}: low {}, likely {}, high {}; the likely one is taken, and where another lies on its wrong side, that one is taken to be the same"
                }
                _ => {
                    "{}: low {}, likely {}, high {}; the likely one is taken, and where another lies on its wrong side, that one is taken to be the same; so it is with {} more"
                }
            };
            let name = match first.name {
                "" => "a line without a name",
                name => name,
            };
            let quantity = match first.place {
                Where::Line(_) => Q::Money,
                Where::Kilogram(_) => Q::MassPrice,
            };
            let slots = [Slot::from(name)]
                .into_iter()
                .chain(
                    first
                        .prices
                        .map(|price| Measure::new(quantity, price).into()),
                )
                .chain((more > 0).then(|| count(more)));
            (Verdict::Watch, Phrase::new(words, slots))
        }
    };
    Some(Finding {
        id: "cost.order",
        chapter: Chapter::Cost,
        title: "Low, likely and high price",
        meaning: "Of each thing the low price is the least, the likely one lies between, and the high one is the most.",
        verdict,
        compared,
        why: "Prices that contradict each other make the sum and its spread too small or too large.",
        margin: None,
        working: Vec::new(),
        caution: None,
        levers: first.as_ref().map_or_else(Vec::new, Entered::levers),
        about: match first.map(|one| one.place) {
            Some(Where::Kilogram(_)) => "cost",
            _ => "cost_lines",
        },
    })
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
                sure: "the mean of each price, since what may come out far dearer but little cheaper pulls the sum up; low and high take different prices as independent: one is dear while another is cheap; lines with one price by weight are dear or cheap together",
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
