//! How far the entered values may be off: usual plus-minus from a table, or the person's own.

use super::declare::Kind;
use super::document::{Design, InputError};
use super::inputs::Spread;
use super::spread_table::USUAL;
use super::{Input, Source};

/// A plus-minus as it is usually known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PlusMinus {
    /// A share of the value.
    Share(f64),
    /// The same in SI units, whatever the value.
    By(f64),
    /// From the value divided by this to the value times this.
    Times(f64),
}

impl PlusMinus {
    /// Lowest and highest value around this one, SI.
    ///
    /// ```
    /// use hearthplan::design::spread::PlusMinus;
    /// assert_eq!(PlusMinus::Times(2.0).ends(1.5), (0.75, 3.0));
    /// ```
    pub fn ends(self, value: f64) -> (f64, f64) {
        match self {
            PlusMinus::Share(share) => {
                let by = share * value.abs();
                (value - by, value + by)
            }
            PlusMinus::By(by) => (value - by, value + by),
            PlusMinus::Times(factor) => (value / factor, value * factor),
        }
    }
}

/// A row of the table of usual plus-minus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UsualSpread {
    /// Path of the input, `*` for any place in a list.
    pub path: &'static str,
    /// How far it may be off.
    pub plus_minus: PlusMinus,
    /// Where this comes from.
    pub source: Source,
}

/// An input that is in use and not known exactly.
#[derive(Debug, Clone, PartialEq)]
pub struct Doubtful {
    /// Its path.
    pub path: String,
    /// Its declaration.
    pub input: &'static Input,
    /// The value entered, SI.
    pub value: f64,
    /// Lowest value it may have, SI, inside the allowed range.
    pub low: f64,
    /// Highest value it may have, SI, inside the allowed range.
    pub high: f64,
}

/// The usual plus-minus of an input, if it has one.
///
/// ```
/// use hearthplan::design::spread::{PlusMinus, usual_spread};
/// assert_eq!(usual_spread("parts.3.mass").unwrap().plus_minus, PlusMinus::Share(0.05));
/// assert!(usual_spread("limits.tip_angle").is_none());
/// ```
pub fn usual_spread(path: &str) -> Option<&'static UsualSpread> {
    let (head, place, name) = Design::split(path)?;
    USUAL.iter().find(|row| {
        let rest = row.path.strip_prefix(head);
        let rest = rest.and_then(|rest| rest.strip_prefix('.'));
        match place {
            Some(_) => rest.and_then(|rest| rest.strip_prefix("*.")) == Some(name),
            None => rest == Some(name),
        }
    })
}

impl Design {
    /// The person's own plus-minus of an input, SI.
    pub fn own_spread(&self, path: &str) -> Option<f64> {
        self.spreads
            .iter()
            .find(|spread| spread.input == path)
            .map(|spread| spread.plus_minus)
    }

    /// Sets the person's own plus-minus of an input, SI; none takes it back to what is usual.
    ///
    /// ```
    /// use hearthplan::design::Design;
    /// let mut design = Design::default();
    /// design.set_spread("fuel.moisture", Some(0.05)).unwrap();
    /// assert_eq!(design.own_spread("fuel.moisture"), Some(0.05));
    /// design.set_spread("fuel.moisture", None).unwrap();
    /// assert_eq!(design.own_spread("fuel.moisture"), None);
    /// ```
    ///
    /// # Errors
    /// No number input has this path, the plus-minus is negative or wider than the allowed range, or the list is full.
    pub fn set_spread(&mut self, path: &str, plus_minus: Option<f64>) -> Result<(), InputError> {
        let unknown = || InputError::Unknown(path.to_string());
        let input = self.input(path).ok_or_else(unknown)?;
        let Kind::Number {
            quantity, allowed, ..
        } = input.kind
        else {
            return Err(InputError::WrongKind { label: input.label });
        };
        let Some(plus_minus) = plus_minus else {
            self.spreads.retain(|spread| spread.input != path);
            return Ok(());
        };
        // What would lie outside the allowed range is cut off anyway.
        let widest = allowed.1 - allowed.0;
        if !(0.0..=widest).contains(&plus_minus) {
            return Err(InputError::OutOfRange {
                label: "The plus-minus",
                quantity: quantity.of_difference(),
                given: plus_minus,
                allowed: (0.0, widest),
            });
        }
        match self.spreads.iter_mut().find(|spread| spread.input == path) {
            Some(spread) => spread.plus_minus = plus_minus,
            None => {
                let longest = Self::LISTS.iter().find(|list| list.name == "spreads");
                if longest.is_some_and(|list| self.spreads.len() >= list.longest) {
                    return Err(InputError::TooLong {
                        label: "The list of plus-minus",
                        longest: self.spreads.len(),
                    });
                }
                self.spreads.push(Spread {
                    input: path.to_string(),
                    plus_minus,
                });
            }
        }
        Ok(())
    }

    /// Between which values an input may lie, own plus-minus before the usual one; none when it is
    /// exact, empty, not in use, or not a number.
    pub fn doubtful(&self, path: &str) -> Option<Doubtful> {
        let input = self.input(path)?;
        let Kind::Number { allowed, .. } = input.kind else {
            return None;
        };
        let value = self.get(path)?.number()?;
        let (low, high) = match self.own_spread(path) {
            Some(own) => PlusMinus::By(own).ends(value),
            None => usual_spread(path)?.plus_minus.ends(value),
        };
        let (low, high) = (low.max(allowed.0), high.min(allowed.1));
        (low < high && value >= low && value <= high && self.in_use(path)).then(|| Doubtful {
            path: path.to_string(),
            input,
            value,
            low,
            high,
        })
    }

    /// All inputs that are not known exactly.
    pub fn all_doubtful(&self) -> Vec<Doubtful> {
        self.paths()
            .iter()
            .filter_map(|path| self.doubtful(path))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_names_a_number_input() {
        let mut design = Design::default();
        for list in Design::LISTS {
            design.insert_item(list.name, 0);
        }
        for row in USUAL {
            let input = design.input(&row.path.replace('*', "0"));
            assert!(
                input.is_some_and(|input| matches!(input.kind, Kind::Number { .. })),
                "{}",
                row.path
            );
        }
    }
}
