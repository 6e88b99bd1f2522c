//! Why a text is not a quantity, worded for the person who typed it.

use super::sheet_gauge::GaugeOfSteel;
use super::units::Unit;
use super::wire_gauge::{cable, wire_gauge_name};
use super::{Quantity, is_bare_gauge};
use std::fmt;
use std::ops::Range;
use thiserror::Error;

/// Why a text is not a quantity, and where.
#[derive(Debug, Clone, PartialEq, Error)]
#[error("{reason}")]
pub struct ReadError {
    /// The offending piece, in bytes of what was typed; always on character boundaries.
    pub place: Range<usize>,
    /// What is wrong with it.
    pub reason: ReadReason,
}

/// What is wrong with a text that should be a quantity.
#[derive(Debug, Clone, PartialEq)]
pub enum ReadReason {
    /// Nothing was typed.
    Empty {
        /// What was wanted.
        wanted: Quantity,
    },
    /// The piece should be a number and is not.
    NotANumber {
        /// The piece.
        typed: String,
    },
    /// The number is larger than any that can be computed with.
    TooLarge,
    /// A comma before three figures may mark decimals or thousands.
    TwoMeanings {
        /// The piece.
        typed: String,
    },
    /// A whole number was wanted.
    NotWhole {
        /// The piece.
        typed: String,
    },
    /// No unit has this name.
    UnknownUnit {
        /// The piece.
        typed: String,
        /// What was wanted.
        wanted: Quantity,
    },
    /// Volts times amperes where watts are wanted.
    ApparentPower {
        /// The piece.
        typed: String,
        /// What was wanted.
        wanted: Quantity,
    },
    /// The unit measures something else.
    OtherQuantity {
        /// The piece.
        typed: String,
        /// What the unit measures.
        measures: Quantity,
        /// What was wanted.
        wanted: Quantity,
    },
    /// A fraction where the section of a wire is wanted.
    NoSection {
        /// The piece.
        typed: String,
    },
    /// A gauge where a thickness is wanted: sheet and tube go by other ones.
    SheetGauge {
        /// The piece.
        typed: String,
        /// What it may mean.
        means: GaugeOfSteel,
    },
    /// Several numbers that do not make one, such as `2 2 in` or `2 ft 30 in`.
    DoesNotAdd {
        /// The piece.
        typed: String,
    },
    /// Far longer than a quantity.
    TooLong,
}

impl fmt::Display for ReadReason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ReadReason::Empty { wanted } => {
                write!(f, "nothing typed; here {} is wanted", wanted.noun())
            }
            ReadReason::NotANumber { typed } => write!(f, "“{typed}” is not a number"),
            ReadReason::TooLarge => write!(f, "this number is too large"),
            ReadReason::TwoMeanings { typed } => write!(
                f,
                "“{typed}” can be read two ways: write {} or {}",
                typed.replace(',', ""),
                typed.replace(',', ".")
            ),
            ReadReason::NotWhole { typed } => write!(f, "“{typed}” is not a whole number"),
            ReadReason::UnknownUnit { typed, wanted } => match wanted.units() {
                [] => write!(
                    f,
                    "“{typed}” is not understood; here {} without a unit is wanted",
                    wanted.noun()
                ),
                units => write!(
                    f,
                    "the unit “{typed}” is not known; use {}",
                    alternatives(units)
                ),
            },
            ReadReason::ApparentPower {
                typed,
                wanted: Quantity::EnginePower,
            } => write!(
                f,
                "“{typed}” on a generator's plate is no shaft power: multiply it by the power factor, often 0.8, divide by the efficiency of the generator, often 0.8 to 0.85 (from memory), and type the result in kW"
            ),
            ReadReason::ApparentPower { typed, .. } => write!(
                f,
                "“{typed}” is volts times amperes: multiply it by the power factor, often 0.8 (from memory), and type the result in W or kW"
            ),
            ReadReason::OtherQuantity {
                typed,
                measures,
                wanted,
            } => write!(
                f,
                "“{typed}” is the unit of {}; here {} is wanted",
                measures.noun(),
                wanted.noun()
            ),
            ReadReason::NoSection { typed } => match cable(typed) {
                Some((wire, count)) => {
                    let count = COUNTS.get(count).map_or("several", |count| *count);
                    let name = wire_gauge_name(wire);
                    write!(
                        f,
                        "“{typed}” may be cable of {count} {name} wires: write {wire} AWG"
                    )
                }
                None if is_bare_gauge(typed) => {
                    write!(f, "“{typed}” may be a gauge: write {typed} AWG")
                }
                None => write!(
                    f,
                    "“{typed}” is no section of a wire: write a decimal, such as 2.5 mm², or a gauge, such as 14 AWG or 2/0 AWG"
                ),
            },
            ReadReason::SheetGauge { typed, means } => match (means.sheet, means.wall) {
                (Some(sheet), Some(wall)) => write!(
                    f,
                    "“{typed}” has two meanings: as steel sheet it is {sheet} in, as the wall of a tube {wall} in (from memory); write the inches or millimetres, best as measured"
                ),
                (Some(sheet), None) => write!(
                    f,
                    "“{typed}” is a gauge, as steel sheet {sheet} in (from memory); write the inches or millimetres, best as measured"
                ),
                _ => write!(
                    f,
                    "“{typed}” is a gauge: measure it, and write inches or millimetres"
                ),
            },
            ReadReason::DoesNotAdd { typed } => {
                write!(
                    f,
                    "“{typed}” does not add up with the rest; write one number with one unit"
                )
            }
            ReadReason::TooLong => write!(f, "this is too long for a quantity"),
        }
    }
}

/// Words for how many wires a cable has.
const COUNTS: [&str; 10] = [
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine",
];

/// The symbols of the units as `mm, cm or m`.
fn alternatives(units: &[Unit]) -> String {
    let symbols: Vec<_> = units.iter().map(|unit| unit.symbol).collect();
    match symbols.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} or {last}", rest.join(", ")),
        _ => symbols.concat(),
    }
}
