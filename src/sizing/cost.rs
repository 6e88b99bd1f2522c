//! What does it cost? Low, likely and high for each line, tools apart, and a total with its spread.
//!
//! Materials of the parts list cost their mass times a price per kilogram; all else is entered. The
//! lines are taken as independent: one is dear while another is cheap. So the spread of the total is the
//! root of the sum of the squares of the spreads of its lines (GUM, JCGM 100:2008, 5.1.2). Beside it
//! stand the plain sums, as if every line came out lowest or highest at once. Amounts are plain numbers
//! in the person's own currency.

use super::parts_list::PartLine;
use crate::design::Design;
use crate::design::inputs::{Cost, CostKind, Group, Material};

/// First builds cost about twice what was thought. Common practice, no source.
pub const FIRST_BUILD: f64 = 2.0;

/// A price or a sum of prices.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Amount {
    /// Lowest.
    pub low: f64,
    /// Most likely.
    pub likely: f64,
    /// Highest.
    pub high: f64,
}

impl Amount {
    /// The three in order of size, whichever way they were entered: the likely one stays, low and high
    /// are moved to it where they lie on the wrong side.
    ///
    /// ```
    /// use hearthplan::sizing::cost::Amount;
    /// assert_eq!(Amount::new(5.0, 4.0, 3.0), Amount { low: 4.0, likely: 4.0, high: 4.0 });
    /// ```
    pub fn new(low: f64, likely: f64, high: f64) -> Self {
        Self {
            low: low.min(likely),
            likely,
            high: high.max(likely),
        }
    }

    /// The amount so many times over.
    pub fn times(self, factor: f64) -> Self {
        Self {
            low: self.low * factor,
            likely: self.likely * factor,
            high: self.high * factor,
        }
    }
}

/// A line of the cost list.
#[derive(Debug, Clone, PartialEq)]
pub struct PricedLine {
    /// What is paid for.
    pub name: String,
    /// Sub-assembly.
    pub group: Group,
    /// What kind of thing it is.
    pub kind: CostKind,
    /// What it costs in all; none when a price is missing.
    pub amount: Option<Amount>,
    /// The price only shows how it works.
    pub invented: bool,
    /// Path of what it follows from, such as `hopper` or `cost_lines.2`.
    pub from: String,
}

/// A sum of independent lines.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Total {
    /// Sum of the likely amounts, with its low and high end by independent lines.
    pub spread: Amount,
    /// Plain sums, as if all lines came out the same way.
    pub plain: Amount,
}

/// What a machine costs.
#[derive(Debug, Clone, PartialEq)]
pub struct CostSheet {
    /// Every line, tools among them.
    pub lines: Vec<PricedLine>,
    /// The machine, without tools and before contingency.
    pub machine: Total,
    /// The machine with contingency.
    pub with_contingency: Total,
    /// Tools, which stay when the machine is done.
    pub tools: Total,
    /// The likely cost with contingency, doubled as first builds do.
    pub first_build: f64,
    /// Whether any line of the machine has a price.
    pub priced: bool,
    /// Whether any tool has a price.
    pub tools_priced: bool,
    /// Lines without a price.
    pub unpriced: usize,
    /// Lines whose price is invented.
    pub invented: usize,
}

/// Sums amounts of independent lines.
///
/// ```
/// use hearthplan::sizing::cost::{Amount, total};
/// let found = total([Amount::new(7.0, 10.0, 13.0), Amount::new(16.0, 20.0, 24.0)]);
/// assert_eq!(found.spread, Amount::new(25.0, 30.0, 35.0));
/// assert_eq!(found.plain, Amount::new(23.0, 30.0, 37.0));
/// ```
pub fn total(amounts: impl IntoIterator<Item = Amount>) -> Total {
    let mut plain = Amount::default();
    let (mut below, mut above) = (0.0, 0.0);
    for amount in amounts {
        plain.low += amount.low;
        plain.likely += amount.likely;
        plain.high += amount.high;
        below += (amount.likely - amount.low).powi(2);
        above += (amount.high - amount.likely).powi(2);
    }
    Total {
        spread: Amount {
            low: plain.likely - below.sqrt(),
            likely: plain.likely,
            high: plain.likely + above.sqrt(),
        },
        plain,
    }
}

/// The cost of a machine with these parts. Parts that are bought whole and stand in the parts list
/// without a price of their own are priced by the person's cost lines.
///
/// ```
/// use hearthplan::design::Design;
/// use hearthplan::sizing::{cost, machine, parts_list};
/// let mut design = Design::default();
/// design.cost.mild_steel = Some(2.0);
/// let parts = parts_list::parts_list(&design, &machine::layout(&design));
/// let sheet = cost::cost_sheet(&design, &parts);
/// assert!(sheet.machine.spread.likely > 0.0);
/// assert!(sheet.with_contingency.spread.likely > sheet.machine.spread.likely);
/// ```
pub fn cost_sheet(design: &Design, parts: &[PartLine]) -> CostSheet {
    let mut lines: Vec<PricedLine> = parts
        .iter()
        .filter_map(|part| part_line(design, part))
        .collect();
    lines.extend(own_lines(design));
    let sum = |tools: bool| {
        total(
            lines
                .iter()
                .filter(|line| (line.kind == CostKind::Tool) == tools)
                .filter_map(|line| line.amount),
        )
    };
    let priced = |tools: bool| {
        (lines.iter()).any(|line| (line.kind == CostKind::Tool) == tools && line.amount.is_some())
    };
    let (machine, tools) = (sum(false), sum(true));
    let factor = 1.0 + design.cost.contingency.value;
    let with_contingency = Total {
        spread: machine.spread.times(factor),
        plain: machine.plain.times(factor),
    };
    CostSheet {
        machine,
        tools,
        with_contingency,
        priced: priced(false),
        tools_priced: priced(true),
        first_build: FIRST_BUILD * with_contingency.spread.likely,
        unpriced: lines.iter().filter(|line| line.amount.is_none()).count(),
        invented: lines.iter().filter(|line| line.invented).count(),
        lines,
    }
}

/// The cost of a part; none for what weighs nothing, or is bought whole and priced elsewhere.
fn part_line(design: &Design, part: &PartLine) -> Option<PricedLine> {
    let amount = match (part.price, part.material, part.mass) {
        (Some(price), _, _) => Some(Amount::new(price, price, price)),
        (None, Some(material), mass) if mass.value > 0.0 && part.kind == CostKind::Material => {
            per_kilogram(&design.cost, material).map(|price| price.times(mass.value))
        }
        _ => return None,
    };
    Some(PricedLine {
        name: part.name.clone(),
        group: part.group,
        kind: part.kind,
        invented: design.cost.invented && part.price.is_none() && amount.is_some(),
        amount,
        from: part.from.clone(),
    })
}

fn own_lines(design: &Design) -> impl Iterator<Item = PricedLine> {
    let lines = design.cost_lines.iter().enumerate();
    lines.map(|(index, line)| PricedLine {
        name: line.name.clone(),
        group: line.group,
        kind: line.kind,
        amount: (line.likely > 0.0 || line.high > 0.0 || line.low > 0.0)
            .then(|| Amount::new(line.low, line.likely, line.high).times(line.quantity)),
        invented: line.invented,
        from: format!("cost_lines.{index}"),
    })
}

/// Price of a kilogram of a material; none when the likely one was not entered. A low or high one that
/// was not entered is the likely one.
fn per_kilogram(cost: &Cost, material: Material) -> Option<Amount> {
    let (low, likely, high) = match material {
        Material::MildSteel => (cost.mild_steel_low, cost.mild_steel, cost.mild_steel_high),
        Material::Stainless304 | Material::Stainless310 => {
            (cost.stainless_low, cost.stainless, cost.stainless_high)
        }
        Material::CeramicBlanket1260
        | Material::CeramicBlanket1430
        | Material::RockWool
        | Material::CalciumSilicate
        | Material::Vermiculite
        | Material::Perlite => (cost.insulation_low, cost.insulation, cost.insulation_high),
        Material::Aluminium
        | Material::InsulatingFirebrick
        | Material::DenseCastable
        | Material::WoodAsh
        | Material::AirGap
        | Material::Own1
        | Material::Own2
        | Material::Own3
        | Material::Own4 => (cost.other_low, cost.other, cost.other_high),
    };
    likely.map(|likely| Amount::new(low.unwrap_or(likely), likely, high.unwrap_or(likely)))
}
