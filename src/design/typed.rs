//! What a person types for an input of any kind, in a form or on the command line.

use super::declare::{ChoiceOption, Input, Kind, Value};
use super::document::{Design, InputError, check};
use super::inputs::CableSystem;
use super::quantity::{Quantity, ReadError, System, is_bare_gauge};
use thiserror::Error;

/// Why a typed text is not taken by an input.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum TypedError {
    /// It is no quantity of this kind; points at the place.
    #[error(transparent)]
    Unread(#[from] ReadError),
    /// It is read, but not accepted.
    #[error(transparent)]
    Refused(#[from] InputError),
    /// It is neither yes nor no.
    #[error("“{0}” is neither yes nor no")]
    NeitherYesNorNo(String),
    /// A bare number where cable goes by gauges: a thin wire by that gauge may be a thick one by that section.
    #[error("“{0}” may be a gauge or square millimetres: write {0} AWG or {0} mm²")]
    GaugeOrSection(String),
}

impl TypedError {
    /// The error as a sentence, with ranges in the given system of units.
    pub fn sentence(&self, system: System) -> String {
        match self {
            TypedError::Refused(error) => error.sentence(system),
            other => other.to_string(),
        }
    }
}

impl Input {
    /// Whether a value has the right kind and lies in the allowed range.
    pub fn takes(&self, value: &Value) -> bool {
        check(self, value).is_ok()
    }

    /// Reads what a person typed for this input: a quantity with or without unit, the name or label
    /// of an option, yes or no, or text. Nothing typed empties an optional input.
    ///
    /// ```
    /// use hearthplan::design::{Design, Value, quantity::System};
    /// let input = Design::default().input("base.width").unwrap();
    /// assert_eq!(input.read("2 ft 2 in", System::Metric), Ok(Value::Number(0.6604)));
    /// let error = input.read("9 m", System::Metric).unwrap_err();
    /// assert_eq!(error.to_string(), "Base width must be between 100 mm and 3000 mm");
    /// ```
    ///
    /// # Errors
    /// Not of this kind, or not in the allowed range.
    pub fn read(&self, text: &str, system: System) -> Result<Value, TypedError> {
        let value = match self.kind {
            Kind::Number { default: None, .. } if text.trim().is_empty() => Value::Empty,
            Kind::Number {
                quantity, allowed, ..
            } => Value::Number(snapped(quantity.read(text, system)?, allowed)),
            Kind::Choice { options, .. } => Value::Choice(option_name(options, text)),
            Kind::Text { .. } => Value::Text(text.to_string()),
            Kind::Flag { .. } => Value::Flag(yes_or_no(text)?),
        };
        check(self, &value)?;
        Ok(value)
    }
}

/// What can stand in a number: a currency with any of these cannot be told from it.
const OF_NUMBERS: [char; 7] = ['.', ',', '-', '+', '/', '\'', '"'];

impl Design {
    /// The unit shown beside a field; of money the currency of the design.
    ///
    /// ```
    /// use hearthplan::design::{Design, quantity::{Quantity, System}};
    /// let mut design = Design::default();
    /// assert_eq!(design.unit_beside(Quantity::Money, System::Metric), "");
    /// design.cost.currency = "€".to_string();
    /// assert_eq!(design.unit_beside(Quantity::Money, System::Metric), "€");
    /// assert_eq!(design.unit_beside(Quantity::MassPrice, System::Inch), "€ per lb");
    /// assert_eq!(design.unit_beside(Quantity::Length, System::Metric), "mm");
    /// ```
    pub fn unit_beside(&self, quantity: Quantity, system: System) -> String {
        let unit = quantity.unit_symbol(system);
        match quantity {
            Quantity::Money | Quantity::MassPrice => {
                let currency = self.cost.currency.trim();
                format!("{currency} {unit}").trim().to_string()
            }
            _ => unit.to_string(),
        }
    }

    /// A price as it was typed, without the currency of the design; none where that is not part of it.
    fn without_currency(&self, text: &str) -> Option<String> {
        let currency = self.cost.currency.trim();
        let of_numbers = |sign: char| sign.is_numeric() || OF_NUMBERS.contains(&sign);
        if currency.is_empty() || currency.contains(of_numbers) {
            return None;
        }
        let (before, behind) = text.split_once(currency)?;
        Some(format!("{before} {behind}"))
    }

    /// As [`Input::read`], in a design that tells how its cable is named: where it goes by gauges, a bare number is no
    /// section. A price may be typed with the currency.
    ///
    /// ```
    /// use hearthplan::design::{Design, Value, quantity::System};
    /// let mut design = Design::default();
    /// design.set("wiring.system", Value::Choice("gauge".to_string())).unwrap();
    /// let input = design.input("wiring.blower_cable").unwrap();
    /// let error = design.read_for(input, "14", System::Inch).unwrap_err();
    /// assert!(error.to_string().ends_with("write 14 AWG or 14 mm²"));
    /// assert!(design.read_for(input, "14 AWG", System::Inch).is_ok());
    /// ```
    ///
    /// # Errors
    /// As [`Input::read`], and a bare number for a cable that goes by gauges.
    pub fn read_for(&self, input: &Input, text: &str, system: System) -> Result<Value, TypedError> {
        let is_section = matches!(
            input.kind,
            Kind::Number {
                quantity: Quantity::WireSection,
                ..
            }
        );
        if is_section && self.wiring.system == CableSystem::Gauge && is_bare_gauge(text) {
            return Err(TypedError::GaugeOrSection(text.trim().to_string()));
        }
        let is_price = matches!(
            input.kind,
            Kind::Number {
                quantity: Quantity::Money | Quantity::MassPrice,
                ..
            }
        );
        let read = input.read(text, system);
        let bare = (is_price && read.is_err()).then(|| self.without_currency(text));
        match bare.flatten() {
            Some(bare) => input.read(&bare, system).or(read),
            None => read,
        }
    }
}

/// An end of the range, if the number misses it by no more than the rounding of its unit.
fn snapped(number: f64, (least, most): (f64, f64)) -> f64 {
    let meets = |end: f64| (number - end).abs() <= 1e-12 * end.abs();
    if meets(least) {
        least
    } else if meets(most) {
        most
    } else {
        number
    }
}

/// The name of the option with this name or label; the text itself if there is none.
fn option_name(options: &[ChoiceOption], text: &str) -> String {
    let text = text.trim();
    options
        .iter()
        .find(|option| {
            option.name.eq_ignore_ascii_case(text)
                || option.label.to_lowercase() == text.to_lowercase()
        })
        .map_or(text, |option| option.name)
        .to_string()
}

fn yes_or_no(text: &str) -> Result<bool, TypedError> {
    match text.trim().to_ascii_lowercase().as_str() {
        "yes" | "y" | "true" | "on" | "1" => Ok(true),
        "no" | "n" | "false" | "off" | "0" => Ok(false),
        other => Err(TypedError::NeitherYesNorNo(other.to_string())),
    }
}
