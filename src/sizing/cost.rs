//! What does it cost? Low, likely and high for each line, tools apart, and a total with its spread.
//!
//! Materials of the parts list cost their mass times a price per kilogram; all else is entered. The steel of a vessel that
//! is there already costs nothing, unless a price for it was entered. Lines
//! that share one price per kilogram are dear or cheap together, so that their spreads add up (GUM, JCGM
//! 100:2008, 5.2.2, note 1). Different prices are taken as independent: one is dear while another is
//! cheap. So the spread of the total is the root of the sum of the squares of the spreads of all prices
//! (GUM, 5.1.2). Prices that may come out far dearer, but little cheaper, pull a sum up: it is centred on the sum of
//! their means, that of a triangle from low over likely to high (JCGM 101:2008, 6.4.5, from memory). Beside it stand the plain sums, as if every line came out lowest or highest at once.
//! Amounts are plain numbers in the person's own currency.

mod covered;

use self::covered::{Payer, paid_by, paid_for};
use super::also_needed::also_needed;
use super::machine::{Machine, Piece};
use super::parts_list::PartLine;
use super::there_already::is_there_already;
use super::work_time::{WorkTime, work_time};
use crate::design::Design;
use crate::design::inputs::{Cost, CostKind, Group, Material};
use uom::si::f64::Mass;

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
    /// What it costs in all; none when a price is missing, or another line pays for it.
    pub amount: Option<Amount>,
    /// The price per kilogram it goes by; none for a price of its own.
    pub per_kilogram: Option<PerKilogram>,
    /// Name of the line that pays for it too; none for a line with an amount, and where nothing pays for it.
    pub paid_by: Option<String>,
    /// The price only shows how it works.
    pub invented: bool,
    /// It is of the vessel that was bought and measured, and costs nothing any more.
    pub there: bool,
    /// Path of what it follows from, such as `hopper` or `cost_lines.2`.
    pub from: String,
    /// What it weighs; none where that is not known.
    pub mass: Option<Mass>,
}

impl PricedLine {
    /// Whether nothing tells what it costs.
    pub fn lacks_price(&self) -> bool {
        self.amount.is_none() && self.paid_by.is_none()
    }
}

/// A price per kilogram, which many lines share.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PerKilogram {
    /// Of mild steel.
    MildSteel,
    /// Of stainless steel.
    Stainless,
    /// Of insulation.
    Insulation,
    /// Of castable, aluminium and own materials.
    Other,
}

impl PerKilogram {
    const ALL: [Self; 4] = [
        Self::MildSteel,
        Self::Stainless,
        Self::Insulation,
        Self::Other,
    ];
}

/// A sum of independent prices.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Total {
    /// What the sum is likely to come to, the mean of all prices, with its low and high end by independent prices.
    pub spread: Amount,
    /// Plain sums, as if all lines came out the same way.
    pub plain: Amount,
}

/// What a machine costs, in money and time.
#[derive(Debug, Clone, PartialEq)]
pub struct CostSheet {
    /// The person's own currency, as it was entered.
    pub currency: String,
    /// Every line, tools among them.
    pub lines: Vec<PricedLine>,
    /// The machine, without tools and before contingency.
    pub machine: Total,
    /// The machine with contingency.
    pub with_contingency: Total,
    /// Tools, which stay when the machine is done.
    pub tools: Total,
    /// What it likely costs with contingency, doubled as first builds do.
    pub first_build: f64,
    /// Whether any line of the machine has a price.
    pub priced: bool,
    /// Whether any tool has a price.
    pub tools_priced: bool,
    /// Lines without a price.
    pub unpriced: usize,
    /// Lines whose price is invented.
    pub invented: usize,
    /// How long the building takes.
    pub time: WorkTime,
}

impl CostSheet {
    /// Lines without a price, those that weigh most first.
    pub fn lacking(&self) -> Vec<&PricedLine> {
        let mut lacking: Vec<&PricedLine> = (self.lines.iter())
            .filter(|line| line.lacks_price())
            .collect();
        let mass = |line: &PricedLine| line.mass.map_or(0.0, |mass| mass.value);
        lacking.sort_by(|one, other| mass(other).total_cmp(&mass(one)));
        lacking
    }
}

/// Sums amounts by independent prices.
///
/// ```
/// use hearthplan::sizing::cost::{Amount, total};
/// let found = total([Amount::new(7.0, 10.0, 13.0), Amount::new(16.0, 20.0, 24.0)]);
/// assert_eq!(found.spread, Amount::new(25.0, 30.0, 35.0));
/// assert_eq!(found.plain, Amount::new(23.0, 30.0, 37.0));
/// let skewed = total([Amount::new(9.0, 10.0, 20.0), Amount::new(9.0, 10.0, 20.0)]);
/// assert_eq!(skewed.spread.likely, 26.0);
/// ```
pub fn total(amounts: impl IntoIterator<Item = Amount>) -> Total {
    let mut plain = Amount::default();
    let mut mean = 0.0;
    let (mut below, mut above) = (0.0, 0.0);
    for amount in amounts {
        plain.low += amount.low;
        plain.likely += amount.likely;
        plain.high += amount.high;
        let middle = (amount.low + amount.likely + amount.high) / 3.0;
        mean += middle;
        below += (middle - amount.low).powi(2);
        above += (amount.high - middle).powi(2);
    }
    Total {
        spread: Amount {
            low: mean - below.sqrt(),
            likely: mean,
            high: mean + above.sqrt(),
        },
        plain,
    }
}

/// The cost of a machine with these parts. Parts that are bought whole and stand in the parts list
/// without a price of their own are paid for by the person's cost lines that name them; what none of
/// them names is a line without a price.
///
/// ```
/// use hearthplan::design::Design;
/// use hearthplan::sizing::{cost, machine, parts_list};
/// let mut design = Design::default();
/// design.cost.mild_steel = Some(2.0);
/// let machine = machine::layout(&design);
/// let parts = parts_list::parts_list(&design, &machine);
/// let sheet = cost::cost_sheet(&design, &machine, &parts);
/// assert!(sheet.machine.spread.likely > 0.0);
/// assert!(sheet.with_contingency.spread.likely > sheet.machine.spread.likely);
/// ```
pub fn cost_sheet(design: &Design, machine: &Machine, parts: &[PartLine]) -> CostSheet {
    let own: Vec<PricedLine> = own_lines(design).collect();
    let own_payers: Vec<Payer> = (own.iter())
        .filter(|line| line.kind != CostKind::Tool && line.amount.is_some())
        .map(|line| Payer::of(&line.name))
        .collect();
    let mut lines: Vec<PricedLine> = parts
        .iter()
        .filter_map(|part| part_line(design, part, &own_payers))
        .collect();
    let others = (also_needed(design).into_iter()).filter(|need| !need.is_listed());
    lines.extend(others.map(|need| {
        let name = need.name(design);
        PricedLine {
            paid_by: paid_for([&name, need.kind_word()], own_payers.iter()),
            name,
            group: need.group(design),
            kind: need.cost_kind(),
            per_kilogram: None,
            amount: None,
            invented: false,
            there: false,
            from: need.from(),
            mass: None,
        }
    }));
    lines.extend(own);
    let sum = |tools: bool| {
        let of_kind = (lines.iter()).filter(|line| (line.kind == CostKind::Tool) == tools);
        total(by_price(of_kind))
    };
    let priced = |tools: bool| {
        (lines.iter()).any(|line| {
            (line.kind == CostKind::Tool) == tools && line.amount.is_some() && !line.there
        })
    };
    let (whole, tools) = (sum(false), sum(true));
    let factor = 1.0 + design.cost.contingency.value;
    let with_contingency = Total {
        spread: whole.spread.times(factor),
        plain: whole.plain.times(factor),
    };
    CostSheet {
        currency: design.cost.currency.clone(),
        machine: whole,
        tools,
        with_contingency,
        priced: priced(false),
        tools_priced: priced(true),
        first_build: FIRST_BUILD * with_contingency.spread.likely,
        unpriced: lines.iter().filter(|line| line.lacks_price()).count(),
        invented: lines.iter().filter(|line| line.invented).count(),
        time: work_time(design, machine, parts),
        lines,
    }
}

/// One amount for each price: lines that share a price are summed.
fn by_price<'a>(lines: impl Iterator<Item = &'a PricedLine>) -> impl Iterator<Item = Amount> {
    let mut shared = [Amount::default(); PerKilogram::ALL.len()];
    let mut single = Vec::new();
    for line in lines {
        let Some(amount) = line.amount else { continue };
        let of_price = (PerKilogram::ALL.iter().zip(&mut shared))
            .find(|(price, _)| line.per_kilogram == Some(**price));
        match of_price {
            Some((_, sum)) => {
                sum.low += amount.low;
                sum.likely += amount.likely;
                sum.high += amount.high;
            }
            None => single.push(amount),
        }
    }
    shared.into_iter().chain(single)
}

/// The cost of a part; none for what weighs nothing.
fn part_line(design: &Design, part: &PartLine, own: &[Payer]) -> Option<PricedLine> {
    let weighs = part.mass.value > 0.0;
    let there =
        part.price.is_none() && (part.piece).is_some_and(|piece| is_there_already(design, piece));
    let mut shared = None;
    let mut paid = None;
    // No input takes a price for what closes the vessel, so that a line of the person's own pays for it where it names it.
    let own_line = match part.piece {
        Some(Piece::Closure(closure)) => paid_for([&part.name, closure.kind_word()], own.iter()),
        _ => None,
    };
    let amount = match (part.price, part.material) {
        (Some(price), _) => Some(Amount::new(price, price, price)),
        _ if there => Some(Amount::default()),
        _ if own_line.is_some() => {
            paid = own_line;
            None
        }
        (None, Some(material)) if weighs && part.kind == CostKind::Material => {
            let price = price_of(material);
            shared = Some(price);
            per_kilogram(&design.cost, price).map(|price| price.times(part.mass.value))
        }
        (None, _) if weighs => {
            // What stands among the other parts for a stage of the gas train is no second thing to buy.
            let standing_in = (part.stand_in)
                .and_then(|index| design.parts.get(index))
                .map(|other| Payer::of(&other.name));
            paid = paid_by(design, part, own.iter().chain(&standing_in))
                .or_else(|| standing_in.map(|other| other.name.to_string()));
            None
        }
        _ => return None,
    };
    Some(PricedLine {
        per_kilogram: shared,
        paid_by: paid,
        name: part.name.clone(),
        group: part.group,
        kind: part.kind,
        invented: design.cost.invented && part.price.is_none() && amount.is_some() && !there,
        there,
        amount,
        from: part.from.clone(),
        mass: Some(part.mass),
    })
}

fn own_lines(design: &Design) -> impl Iterator<Item = PricedLine> {
    let lines = design.cost_lines.iter().enumerate();
    lines.map(|(index, line)| PricedLine {
        name: line.name.clone(),
        group: line.group,
        kind: line.kind,
        per_kilogram: None,
        paid_by: None,
        amount: (line.likely > 0.0 || line.high > 0.0 || line.low > 0.0)
            .then(|| Amount::new(line.low, line.likely, line.high).times(line.quantity)),
        invented: line.invented,
        there: false,
        from: format!("cost_lines.{index}"),
        mass: None,
    })
}

/// The price per kilogram that a material goes by.
fn price_of(material: Material) -> PerKilogram {
    match material {
        Material::MildSteel => PerKilogram::MildSteel,
        Material::Stainless304 | Material::Stainless310 => PerKilogram::Stainless,
        Material::CeramicBlanket1260
        | Material::CeramicBlanket1430
        | Material::RockWool
        | Material::CalciumSilicate
        | Material::Vermiculite
        | Material::Perlite => PerKilogram::Insulation,
        Material::Aluminium
        | Material::InsulatingFirebrick
        | Material::DenseCastable
        | Material::WoodAsh
        | Material::AirGap
        | Material::Own1
        | Material::Own2
        | Material::Own3
        | Material::Own4 => PerKilogram::Other,
    }
}

/// A price per kilogram; none when the likely one was not entered. A low or high one that was not entered
/// is the likely one.
fn per_kilogram(cost: &Cost, price: PerKilogram) -> Option<Amount> {
    let (low, likely, high) = match price {
        PerKilogram::MildSteel => (cost.mild_steel_low, cost.mild_steel, cost.mild_steel_high),
        PerKilogram::Stainless => (cost.stainless_low, cost.stainless, cost.stainless_high),
        PerKilogram::Insulation => (cost.insulation_low, cost.insulation, cost.insulation_high),
        PerKilogram::Other => (cost.other_low, cost.other, cost.other_high),
    };
    likely.map(|likely| Amount::new(low.unwrap_or(likely), likely, high.unwrap_or(likely)))
}
