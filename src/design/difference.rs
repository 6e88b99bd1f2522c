//! What two designs differ in, one thing at a time, each of which can be taken over either way.

use super::declare::{Input, Kind, Record, Value};
use super::document::{Design, ListInfo};
use super::phrase::{Measure, lower_first};
use super::quantity::{Quantity, System};

/// One thing in which two designs differ.
#[derive(Debug, Clone, PartialEq)]
pub struct Differing {
    /// Name of the section or list it stands in.
    pub head: &'static str,
    /// Heading of the section or list, with the item where there is one.
    pub part: String,
    /// What differs there.
    pub what: What,
    /// Whether one of the two designs makes use of it as it stands.
    pub in_use: bool,
}

/// What differs between two designs, the first of them “one”.
#[derive(Debug, Clone, PartialEq)]
pub enum What {
    /// An input that both have, with two values.
    Input {
        /// Path of the input.
        path: String,
        /// Its declaration.
        input: &'static Input,
        /// Its value in the first design.
        one: Value,
        /// Its value in the other.
        other: Value,
    },
    /// The end of a list, that only one of them has.
    Items {
        /// The list.
        list: &'static ListInfo,
        /// Names of the items that only the first design has.
        one: Vec<String>,
        /// Names of the items that only the other has.
        other: Vec<String>,
    },
}

/// Everything in which two designs differ, in the order of the form. Items of lists are matched by
/// their place. Entries that this version does not know are left aside.
///
/// ```
/// use hearthplan::design::{Design, Value, difference::differences};
/// let one = Design::default();
/// let mut other = one.clone();
/// other.set("base.width", Value::Number(0.9)).unwrap();
/// let found = differences(&one, &other);
/// assert_eq!(found.len(), 1);
/// assert_eq!(found[0].part, "Base");
/// ```
pub fn differences(one: &Design, other: &Design) -> Vec<Differing> {
    let in_use = |path: &str| one.in_use(path) || other.in_use(path);
    let mut found = Vec::new();
    for info in Design::SECTIONS {
        if let (Some(first), Some(second)) = (one.section(info.name), other.section(info.name)) {
            let part = || info.label.to_string();
            found.extend(compare(first, second, (info.name, info.name), part, in_use));
        }
    }
    for info in Design::LISTS {
        let (Some(first), Some(second)) = (one.list(info.name), other.list(info.name)) else {
            continue;
        };
        let shared = first.count().min(second.count());
        for place in 0..shared {
            if let (Some(here), Some(there)) = (first.item(place), second.item(place)) {
                let prefix = format!("{}.{place}", info.name);
                let part = || format!("{}: {}", info.label, item_name(info, here, place));
                found.extend(compare(here, there, (info.name, &prefix), part, in_use));
            }
        }
        let rest = |items: &dyn super::Items| {
            (shared..items.count())
                .filter_map(|place| Some(item_name(info, items.item(place)?, place)))
                .collect::<Vec<_>>()
        };
        let (one, other) = (rest(first), rest(second));
        if !(one.is_empty() && other.is_empty()) {
            found.push(Differing {
                head: info.name,
                part: info.label.to_string(),
                what: What::Items {
                    list: info,
                    one,
                    other,
                },
                in_use: true,
            });
        }
    }
    found
}

fn compare(
    one: &dyn Record,
    other: &dyn Record,
    (head, prefix): (&'static str, &str),
    part: impl Fn() -> String,
    in_use: impl Fn(&str) -> bool,
) -> Vec<Differing> {
    let inputs = one.inputs().iter().enumerate();
    inputs
        .filter_map(|(place, input)| {
            let (one, other) = (one.read(place)?, other.read(place)?);
            (one != other).then(|| {
                let path = format!("{prefix}.{}", input.name);
                Differing {
                    head,
                    part: part(),
                    in_use: in_use(&path),
                    what: What::Input {
                        path,
                        input,
                        one,
                        other,
                    },
                }
            })
        })
        .collect()
}

/// What an item is called: its place, and its own name or its first choice.
fn item_name(info: &ListInfo, item: &dyn Record, place: usize) -> String {
    let number = format!("{} {}", info.item.to_lowercase(), place + 1);
    let own = info
        .inputs
        .iter()
        .enumerate()
        .filter(|(_, input)| matches!(input.kind, Kind::Text { .. } | Kind::Choice { .. }))
        .find_map(|(index, input)| Some(input.show(&item.read(index)?, System::Metric)))
        .filter(|own| !own.is_empty());
    match own {
        Some(own) => format!("{number}, {own}"),
        None => number,
    }
}

/// How much differs, in words: changes of the machine that either design makes use of counted, another name or note
/// named.
///
/// ```
/// use hearthplan::design::{Design, Value, difference::{differences, how_much}};
/// let one = Design::default();
/// let mut other = one.clone();
/// other.set("about.note", Value::Text("Feet wider.".into())).unwrap();
/// assert_eq!(how_much(&differences(&one, &other)), "only another note");
/// ```
pub fn how_much<'a>(found: impl IntoIterator<Item = &'a Differing>) -> String {
    let (mut changes, mut texts) = (0, Vec::new());
    for differing in found {
        match &differing.what {
            _ if differing.bears_on_the_machine() => changes += usize::from(differing.in_use),
            What::Input { input, .. } if matches!(input.kind, Kind::Text { .. }) => {
                texts.push(lower_first(input.label))
            }
            _ => {}
        }
    }
    let texts = texts.join(" and ");
    let changes = match changes {
        1 => "1 change".to_string(),
        0 if !texts.is_empty() => return format!("only another {texts}"),
        count => format!("{count} changes"),
    };
    if texts.is_empty() {
        changes
    } else {
        format!("{changes}, and another {texts}")
    }
}

impl Differing {
    /// Whether it bears on the machine, rather than on the name and note of the design alone.
    pub fn bears_on_the_machine(&self) -> bool {
        self.head != "about"
    }

    /// Whether it is the name of the design.
    pub fn is_the_name(&self) -> bool {
        matches!(&self.what, What::Input { path, .. } if path == "about.name")
    }

    /// Makes `into` equal to `from` in this one thing.
    pub fn take(&self, from: &Design, into: &mut Design) {
        match &self.what {
            What::Input { path, .. } => {
                if let Some(value) = from.get(path) {
                    // The value stands in a design, so its range was checked when it came in; a path
                    // that the other design has no longer changes nothing.
                    let _ = into.set(path, value);
                }
            }
            What::Items { list, .. } => {
                let (Some(given), Some(taking)) = (from.list(list.name), into.list_mut(list.name))
                else {
                    return;
                };
                while taking.count() > given.count() {
                    taking.remove_item(taking.count() - 1);
                }
                while taking.count() < given.count() {
                    let place = taking.count();
                    taking.insert_new(place);
                    let (Some(new), Some(taken)) = (given.item(place), taking.item_mut(place))
                    else {
                        return;
                    };
                    for index in 0..new.inputs().len() {
                        if let Some(value) = new.read(index) {
                            taken.write(index, &value);
                        }
                    }
                }
            }
        }
    }
}

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

    /// How far a number of this input is from another, with its sign.
    ///
    /// ```
    /// use hearthplan::design::{Design, quantity::System};
    /// let input = Design::default().input("site.air_temperature").unwrap();
    /// assert_eq!(input.show_difference(5.0, System::Metric), "+5 K");
    /// ```
    pub fn show_difference(&self, less: f64, system: System) -> String {
        match self.kind {
            Kind::Number { quantity, .. } => {
                Measure::new(quantity.of_difference(), less).show_signed(system)
            }
            _ => String::new(),
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
