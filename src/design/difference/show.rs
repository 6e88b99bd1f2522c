//! Values as a person reads them, alone and side by side.

use crate::design::declare::{Input, Kind, Value};
use crate::design::quantity::{Quantity, System};

impl Input {
    /// A value of this input as a person reads it.
    ///
    /// ```
    /// use hearthplan::design::{Design, Value, quantity::System};
    /// let input = Design::default().input("base.swivel").unwrap();
    /// assert_eq!(input.show(&Value::Flag(true), System::Metric), "yes");
    /// ```
    pub fn show(&self, value: &Value, system: System) -> String {
        match (value, self.kind) {
            (Value::Number(si), Kind::Number { quantity, .. }) => {
                with_gauge(quantity, *si, quantity.show(*si, system))
            }
            (Value::Number(number), _) => number.to_string(),
            (Value::Choice(name), Kind::Choice { options, .. }) => options
                .iter()
                .find(|option| option.name == name)
                .map_or_else(|| name.clone(), |option| option.label.to_string()),
            (Value::Flag(true), _) => "yes".to_string(),
            (Value::Flag(false), _) => "no".to_string(),
            (Value::Choice(text) | Value::Text(text), _) => text.clone(),
            (Value::Empty, _) => "nothing".to_string(),
        }
    }

    /// Two values of this input as a person reads them, numbers in the same unit wherever one suits both.
    ///
    /// ```
    /// use hearthplan::design::{Design, Value, quantity::System};
    /// let input = Design::default().input("leak_test.hold_time").unwrap();
    /// let hours = [3600.0, 60.0].map(Value::Number);
    /// assert_eq!(input.show_alike([&hours[0], &hours[1]], System::Metric), ["60 min", "1 min"]);
    /// ```
    pub fn show_alike(&self, values: [&Value; 2], system: System) -> [String; 2] {
        match (values, self.kind) {
            ([Value::Number(one), Value::Number(other)], Kind::Number { quantity, .. }) => {
                let [first, second] = quantity.show_alike([*one, *other], system);
                [(*one, first), (*other, second)].map(|(si, shown)| with_gauge(quantity, si, shown))
            }
            _ => values.map(|value| self.show(value, system)),
        }
    }
}

/// What is shown of a number, and behind the section of a wire the gauge it has.
fn with_gauge(quantity: Quantity, si: f64, shown: String) -> String {
    match quantity.gauge(si) {
        Some(gauge) => format!("{shown} ({gauge})"),
        None => shown,
    }
}
