//! The declaration of an input, and the macros that turn declarations into records.

use super::quantity::Quantity;
use super::source::Source;
use serde::{Deserialize, Serialize};
use uom::si::f64::{
    Angle, Area, AvailableEnergy, ElectricCharge, ElectricCurrent, ElectricPotential, Energy,
    Force, Frequency, HeatTransfer, Length, Mass, MassDensity, MassRate, Power, Pressure, Ratio,
    SpecificHeatCapacity, TemperatureInterval, ThermalConductivity, ThermodynamicTemperature, Time,
    Velocity, Volume, VolumeRate,
};

/// Converts degrees Celsius to kelvin in declarations.
///
/// ```
/// assert_eq!(hearthplan::design::celsius(20.0), 293.15);
/// ```
pub const fn celsius(degrees: f64) -> f64 {
    degrees + 273.15
}

/// One of the options of a choice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ChoiceOption {
    /// Name in files, links and on the command line.
    pub name: &'static str,
    /// Short label shown to a person.
    pub label: &'static str,
}

/// A closed set of options, declared with [`choice!`](crate::design::inputs).
pub trait Choice: Sized + Copy + PartialEq {
    /// All options, in the order they are offered.
    const OPTIONS: &'static [ChoiceOption];
    /// The option with this name, if there is one.
    fn from_name(name: &str) -> Option<Self>;
    /// The name of this option.
    fn name(self) -> &'static str;
    /// The label of this option.
    fn label(self) -> &'static str;
}

/// What kind of value an input takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Kind {
    /// A number in SI units of its quantity.
    Number {
        /// What is measured.
        quantity: Quantity,
        /// Value of a new design; none for an optional input that starts empty.
        default: Option<f64>,
        /// Smallest and largest value accepted, SI.
        allowed: (f64, f64),
        /// Smallest and largest usual value, SI.
        usual: (f64, f64),
    },
    /// One of a closed set.
    Choice {
        /// The options.
        options: &'static [ChoiceOption],
        /// Name of the option of a new design.
        default: &'static str,
    },
    /// Free text.
    Text {
        /// Text of a new design.
        default: &'static str,
        /// Longest text accepted, in characters.
        longest: usize,
    },
    /// Yes or no.
    Flag {
        /// State of a new design.
        default: bool,
    },
}

/// A number input: quantity, default, allowed range, usual range, all SI.
pub const fn number(
    quantity: Quantity,
    default: f64,
    allowed: (f64, f64),
    usual: (f64, f64),
) -> Kind {
    Kind::Number {
        quantity,
        default: Some(default),
        allowed,
        usual,
    }
}

/// A number input that may stay empty: quantity, allowed range, usual range, all SI.
pub const fn optional(quantity: Quantity, allowed: (f64, f64), usual: (f64, f64)) -> Kind {
    Kind::Number {
        quantity,
        default: None,
        allowed,
        usual,
    }
}

/// A choice input.
pub const fn choice(options: &'static [ChoiceOption], default: &'static str) -> Kind {
    Kind::Choice { options, default }
}

/// A text input.
pub const fn text(default: &'static str, longest: usize) -> Kind {
    Kind::Text { default, longest }
}

/// A yes-or-no input.
pub const fn flag(default: bool) -> Kind {
    Kind::Flag { default }
}

/// The one declaration of an input.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Input {
    /// Name in files, links and on the command line, unique in its record.
    pub name: &'static str,
    /// Short label shown to a person.
    pub label: &'static str,
    /// One line that says what it means, for someone who never heard the term.
    pub meaning: &'static str,
    /// What it takes, with default and ranges.
    pub kind: Kind,
    /// Where the default comes from.
    pub source: Source,
}

impl Input {
    /// Whether it takes whole numbers only.
    pub fn is_whole(&self) -> bool {
        matches!(
            self.kind,
            Kind::Number {
                quantity: Quantity::Count,
                ..
            }
        )
    }

    /// The value a new record has here.
    pub fn default_value(&self) -> Value {
        match self.kind {
            Kind::Number { default, .. } => default.map_or(Value::Empty, Value::Number),
            Kind::Choice { default, .. } => Value::Choice(default.to_string()),
            Kind::Text { default, .. } => Value::Text(default.to_string()),
            Kind::Flag { default } => Value::Flag(default),
        }
    }
}

/// The value of one input, numbers in SI.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Value {
    /// A number in SI units.
    Number(f64),
    /// The name of an option.
    Choice(String),
    /// Free text.
    Text(String),
    /// Yes or no.
    Flag(bool),
    /// Nothing entered in an optional input.
    Empty,
}

impl Value {
    /// The number, if it is one.
    pub fn number(&self) -> Option<f64> {
        match self {
            Value::Number(number) => Some(*number),
            _ => None,
        }
    }
}

/// A type that can be the field of a record.
pub trait Field: Sized {
    /// The value as shown to the document.
    fn read(&self) -> Value;
    /// Builds the field from a value of the right kind.
    fn from_value(value: &Value) -> Option<Self>;
    /// A value used when a declaration does not match its type; a unit test rules that out.
    fn fallback() -> Self;
}

macro_rules! measured_fields {
    ($($quantity:ident),* $(,)?) => {$(
        impl Field for $quantity {
            fn read(&self) -> Value {
                Value::Number(self.value)
            }
            fn from_value(value: &Value) -> Option<Self> {
                value.number().map(|number| $quantity {
                    dimension: std::marker::PhantomData,
                    units: std::marker::PhantomData,
                    value: number,
                })
            }
            fn fallback() -> Self {
                $quantity {
                    dimension: std::marker::PhantomData,
                    units: std::marker::PhantomData,
                    value: 0.0,
                }
            }
        }
    )*};
}

measured_fields!(
    Angle,
    Area,
    AvailableEnergy,
    ElectricCharge,
    ElectricCurrent,
    ElectricPotential,
    Energy,
    Force,
    Frequency,
    HeatTransfer,
    Length,
    Mass,
    MassDensity,
    MassRate,
    Power,
    Pressure,
    Ratio,
    SpecificHeatCapacity,
    TemperatureInterval,
    ThermalConductivity,
    ThermodynamicTemperature,
    Time,
    Velocity,
    Volume,
    VolumeRate,
);

impl<T: Field> Field for Option<T> {
    fn read(&self) -> Value {
        self.as_ref().map_or(Value::Empty, Field::read)
    }
    fn from_value(value: &Value) -> Option<Self> {
        match value {
            Value::Empty => Some(None),
            other => T::from_value(other).map(Some),
        }
    }
    fn fallback() -> Self {
        None
    }
}

impl Field for f64 {
    fn read(&self) -> Value {
        Value::Number(*self)
    }
    fn from_value(value: &Value) -> Option<Self> {
        value.number()
    }
    fn fallback() -> Self {
        0.0
    }
}

impl Field for u32 {
    fn read(&self) -> Value {
        Value::Number(f64::from(*self))
    }
    fn from_value(value: &Value) -> Option<Self> {
        value
            .number()
            .filter(|n| n.fract() == 0.0 && (0.0..=f64::from(u32::MAX)).contains(n))
            .map(|n| n as u32)
    }
    fn fallback() -> Self {
        0
    }
}

impl Field for bool {
    fn read(&self) -> Value {
        Value::Flag(*self)
    }
    fn from_value(value: &Value) -> Option<Self> {
        match value {
            Value::Flag(state) => Some(*state),
            _ => None,
        }
    }
    fn fallback() -> Self {
        false
    }
}

impl Field for String {
    fn read(&self) -> Value {
        Value::Text(self.clone())
    }
    fn from_value(value: &Value) -> Option<Self> {
        match value {
            Value::Text(text) => Some(text.clone()),
            _ => None,
        }
    }
    fn fallback() -> Self {
        String::new()
    }
}

/// A record: a fixed row of declared inputs.
pub trait Record {
    /// The declarations, in the order they are shown.
    fn inputs(&self) -> &'static [Input];
    /// The value of the input at this place of [`Record::inputs`].
    fn read(&self, index: usize) -> Option<Value>;
    /// Writes a value of the right kind; ranges are checked by [`super::Design::set`].
    fn write(&mut self, index: usize, value: &Value) -> bool;
    /// The place of the input with this name.
    fn index_of(&self, name: &str) -> Option<usize> {
        self.inputs().iter().position(|input| input.name == name)
    }
}

/// A list of records of one kind, as seen by form, link and file.
pub trait Items {
    /// Number of records.
    fn count(&self) -> usize;
    /// The record at this place.
    fn item(&self, index: usize) -> Option<&dyn Record>;
    /// The record at this place, to be changed.
    fn item_mut(&mut self, index: usize) -> Option<&mut dyn Record>;
    /// Inserts a new record with default values; places past the end append.
    fn insert_new(&mut self, index: usize);
    /// Copies the record at this place behind itself.
    fn copy_item(&mut self, index: usize);
    /// Removes the record at this place, if there is one.
    fn remove_item(&mut self, index: usize);
    /// Takes the record from one place to another, if both exist; those between close up.
    fn move_item(&mut self, from: usize, to: usize);
}

impl<T: Record + Default + Clone> Items for Vec<T> {
    fn count(&self) -> usize {
        self.len()
    }
    fn item(&self, index: usize) -> Option<&dyn Record> {
        self.get(index).map(|item| item as &dyn Record)
    }
    fn item_mut(&mut self, index: usize) -> Option<&mut dyn Record> {
        self.get_mut(index).map(|item| item as &mut dyn Record)
    }
    fn insert_new(&mut self, index: usize) {
        let place = index.min(self.len());
        self.insert(place, T::default());
    }
    fn copy_item(&mut self, index: usize) {
        if let Some(item) = self.get(index).cloned() {
            self.insert(index + 1, item);
        }
    }
    fn remove_item(&mut self, index: usize) {
        if index < self.len() {
            self.remove(index);
        }
    }
    fn move_item(&mut self, from: usize, to: usize) {
        if from < self.len() && to < self.len() {
            let item = self.remove(from);
            self.insert(to, item);
        }
    }
}

/// Declares a closed set of options.
macro_rules! choices {
    ($(#[$doc:meta])* $name:ident { $($variant:ident = $option:literal, $label:literal;)+ }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        #[allow(missing_docs, reason = "each option explains itself by its label")]
        pub enum $name { $($variant),+ }

        impl $crate::design::Choice for $name {
            const OPTIONS: &'static [$crate::design::ChoiceOption] =
                &[$($crate::design::ChoiceOption { name: $option, label: $label }),+];
            fn from_name(name: &str) -> Option<Self> {
                match name { $($option => Some(Self::$variant),)+ _ => None }
            }
            fn name(self) -> &'static str {
                match self { $(Self::$variant => $option),+ }
            }
            fn label(self) -> &'static str {
                match self { $(Self::$variant => $label),+ }
            }
        }

        impl $crate::design::declare::Field for $name {
            fn read(&self) -> $crate::design::Value {
                $crate::design::Value::Choice($crate::design::Choice::name(*self).to_string())
            }
            fn from_value(value: &$crate::design::Value) -> Option<Self> {
                match value {
                    $crate::design::Value::Choice(name) => <Self as $crate::design::Choice>::from_name(name),
                    _ => None,
                }
            }
            fn fallback() -> Self {
                [$(Self::$variant),+][0]
            }
        }
    };
}

/// Declares a record: the struct, its defaults and its input declarations, in one place.
macro_rules! record {
    ($(#[$doc:meta])* $name:ident {
        $($field:ident : $type:ty = $kind:expr, $label:literal, $meaning:literal, $source:expr;)+
    }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq)]
        pub struct $name { $(#[doc = $meaning] pub $field: $type),+ }

        impl $name {
            /// The declarations of this record's inputs.
            pub const INPUTS: &'static [$crate::design::Input] = &[
                $($crate::design::Input {
                    name: stringify!($field),
                    label: $label,
                    meaning: $meaning,
                    kind: $kind,
                    source: $source,
                }),+
            ];
        }

        impl Default for $name {
            fn default() -> Self {
                let mut declared = Self::INPUTS.iter().map($crate::design::Input::default_value);
                Self {
                    $($field: declared
                        .next()
                        .and_then(|value| <$type as $crate::design::declare::Field>::from_value(&value))
                        .unwrap_or_else(<$type as $crate::design::declare::Field>::fallback)),+
                }
            }
        }

        impl $crate::design::Record for $name {
            fn inputs(&self) -> &'static [$crate::design::Input] {
                Self::INPUTS
            }
            fn read(&self, index: usize) -> Option<$crate::design::Value> {
                let mut place = 0_usize..;
                $(if place.next() == Some(index) {
                    return Some($crate::design::declare::Field::read(&self.$field));
                })+
                None
            }
            fn write(&mut self, index: usize, value: &$crate::design::Value) -> bool {
                let mut place = 0_usize..;
                $(if place.next() == Some(index) {
                    return match <$type as $crate::design::declare::Field>::from_value(value) {
                        Some(field) => { self.$field = field; true }
                        None => false,
                    };
                })+
                false
            }
        }
    };
}

pub(in crate::design) use {choices, record};
