//! What a question answers: a verdict, the comparison behind it, its working and its levers.

use super::moving::PLACE;
use super::remedy::Change;
use crate::design::phrase::{Measure, Phrase};
use crate::design::quantity::{Quantity, System, falls_short};
use crate::design::{Design, Input, Source, Value};
use crate::sizing::ballast::hang;
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// The answer in one word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Verdict {
    /// Passes.
    Good,
    /// Passes narrowly, or only under a condition.
    Watch,
    /// Cannot be told from what was entered.
    CannotTell,
    /// Fails: do not build it like this.
    Stop,
}

impl Verdict {
    /// The word shown.
    pub fn word(self) -> &'static str {
        match self {
            Verdict::Good => "Good",
            Verdict::Watch => "Watch",
            Verdict::CannotTell => "Can't tell",
            Verdict::Stop => "Stop",
        }
    }

    /// Stop below `stop`, Good from `good` upwards, Watch between; not a number cannot be told. What equals a mark but for
    /// the last digits of a sum is as good as the mark. Where a person set the marks the wrong way round, Stop goes before
    /// Good.
    ///
    /// ```
    /// use hearthplan::review::Verdict;
    /// assert_eq!(Verdict::at_least(12.0, 15.0, 10.0), Verdict::Watch);
    /// assert_eq!(Verdict::at_least(12.0, 10.0, 15.0), Verdict::Stop);
    /// assert_eq!(Verdict::at_least(0.1 * 3.0 - 0.2, 0.1, 0.1), Verdict::Good);
    /// ```
    pub fn at_least(value: f64, good: f64, stop: f64) -> Self {
        if !value.is_finite() {
            Verdict::CannotTell
        } else if falls_short(value, stop) {
            Verdict::Stop
        } else if good.is_nan() || falls_short(value, good) {
            Verdict::Watch
        } else {
            Verdict::Good
        }
    }

    /// Stop above `stop`, Good up to `good`, Watch between; not a number cannot be told.
    pub fn at_most(value: f64, good: f64, stop: f64) -> Self {
        Self::at_least(-value, -good, -stop)
    }
}

/// How many verdicts there are that are not Good. The less of two has fewer Stops, or as many and fewer others.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Tally {
    /// Stops.
    pub stops: usize,
    /// Those that are neither Good nor Stop.
    pub watches: usize,
}

impl Tally {
    /// Counts the verdicts of these findings.
    pub fn of(findings: &[Finding]) -> Self {
        let count = |wanted: fn(Verdict) -> bool| {
            let verdicts = findings.iter().map(|finding| finding.verdict);
            verdicts.filter(|verdict| wanted(*verdict)).count()
        };
        Self {
            stops: count(|verdict| verdict == Verdict::Stop),
            watches: count(|verdict| !matches!(verdict, Verdict::Good | Verdict::Stop)),
        }
    }
}

/// The chapter a question belongs to, in the order they are asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Chapter {
    /// Wood, gas, hearth temperature, load range.
    Heart,
    /// Power, wood use, filling.
    Engine,
    /// Weight, centre of gravity, tipping.
    Standing,
    /// Heat through the shell, surfaces, warm-up.
    Warmth,
    /// Hearth load, nozzles, table.
    Hearth,
    /// Cooling, cleaning and drying the gas.
    Train,
    /// Pressure chain and blower.
    Breath,
    /// Battery, cables, fuses, battery box.
    Electrics,
    /// Holes, seams, the vessel bought.
    Marking,
    /// Parts, lifting, what comes apart.
    Workshop,
    /// Leak tests, and the gas that leaks into a room.
    Leaks,
    /// The order of the work.
    Order,
    /// What it costs.
    Cost,
}

impl Chapter {
    /// All chapters in order.
    pub const ALL: [Chapter; 13] = [
        Chapter::Heart,
        Chapter::Engine,
        Chapter::Standing,
        Chapter::Warmth,
        Chapter::Hearth,
        Chapter::Train,
        Chapter::Breath,
        Chapter::Electrics,
        Chapter::Marking,
        Chapter::Workshop,
        Chapter::Leaks,
        Chapter::Order,
        Chapter::Cost,
    ];

    /// The heading shown to a person.
    pub fn label(self) -> &'static str {
        match self {
            Chapter::Heart => "Will it make clean gas?",
            Chapter::Engine => "Does it suit the engine?",
            Chapter::Standing => "Will it stand?",
            Chapter::Warmth => "Will it stay hot?",
            Chapter::Hearth => "Is the hearth the right size?",
            Chapter::Train => "Is the gas cool, clean and dry?",
            Chapter::Breath => "Can it breathe?",
            Chapter::Electrics => "Battery and wiring",
            Chapter::Marking => "Will the holes sit right?",
            Chapter::Workshop => "Can it be lifted and taken apart?",
            Chapter::Leaks => "Is it tight?",
            Chapter::Order => "In which order is it built?",
            Chapter::Cost => "What does it cost?",
        }
    }

    /// The name used in results and findings.
    pub fn name(self) -> &'static str {
        match self {
            Chapter::Heart => "heart",
            Chapter::Engine => "engine",
            Chapter::Standing => "standing",
            Chapter::Warmth => "warmth",
            Chapter::Hearth => "hearth",
            Chapter::Train => "train",
            Chapter::Breath => "breath",
            Chapter::Electrics => "electrics",
            Chapter::Marking => "marking",
            Chapter::Workshop => "workshop",
            Chapter::Leaks => "leaks",
            Chapter::Order => "order",
            Chapter::Cost => "cost",
        }
    }
}

/// One line of the working behind a number.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What is computed, in words; the result follows them, so that no full stop ends them.
    pub words: &'static str,
    /// The formula in symbols.
    pub formula: &'static str,
    /// The values that went in: symbol, what it is, value.
    pub values: Vec<(&'static str, &'static str, Measure)>,
    /// What comes out.
    pub result: Measure,
    /// Where the method comes from.
    pub source: Source,
    /// How sure we are, in words.
    pub sure: &'static str,
}

/// What tells that a formula takes temperatures from absolute zero.
const FROM_ZERO: [&str; 4] = ["⁴", "273.15", "/T", "/ T"];

impl Step {
    /// A value, or the result, as the formula takes it: with the digits that the sum needs, and beside it in kelvin, or in
    /// the metric unit that stands in the formula, where it is shown in another.
    ///
    /// ```
    /// use hearthplan::design::{Source, phrase::Measure, quantity::{Quantity, System}};
    /// use hearthplan::review::Step;
    /// let pressure = Measure::new(Quantity::Pressure, 101_325.0);
    /// let step = Step {
    ///     words: "Share",
    ///     formula: "x = p / 101.325 kPa",
    ///     values: vec![("p", "pressure", pressure)],
    ///     result: Measure::new(Quantity::Share, 1.0),
    ///     source: Source::CommonPractice,
    ///     sure: "",
    /// };
    /// assert_eq!(step.shown(&pressure, System::Inch), "406.8 inH₂O = 101.3 kPa");
    /// assert_eq!(step.shown(&pressure, System::Metric), "101.3 kPa");
    /// ```
    pub fn shown(&self, measure: &Measure, system: System) -> String {
        let in_system = |system| measure.quantity.show_for_sum(measure.si, system);
        let (mut shown, metric) = (in_system(system), in_system(System::Metric));
        let unit = metric.rsplit(' ').next().unwrap_or_default();
        let mut pieces = (self.formula.split(' ')).map(|piece| piece.trim_matches(['(', ')', ',']));
        if metric != shown && metric.contains(' ') && pieces.any(|piece| piece == unit) {
            shown = format!("{shown} = {metric}");
        }
        let absolute = (FROM_ZERO.iter()).any(|mark| self.formula.contains(mark));
        if measure.quantity == Quantity::Temperature && absolute && measure.si.is_finite() {
            shown.push_str(&format!(" = {:.2} K", measure.si));
        }
        shown
    }
}

/// Something that could be changed to make a question pass.
#[derive(Debug, Clone, PartialEq)]
pub enum Lever {
    /// An input of the design, by path.
    Input(Cow<'static, str>),
    /// A new item in a list; `solve_for` names the field whose value is searched.
    NewItem {
        /// Name of the list.
        list: &'static str,
        /// Where to insert it.
        index: usize,
        /// Fields that are fixed; where the one that is searched is among them, the search begins there.
        fields: Vec<(&'static str, Value)>,
        /// The number field to search.
        solve_for: &'static str,
    },
    /// An item at another place of its list; the place is searched.
    Move {
        /// Name of the list.
        list: &'static str,
        /// Where it stands.
        from: usize,
    },
}

impl Lever {
    /// The input with this path.
    pub fn input(path: impl Into<Cow<'static, str>>) -> Self {
        Lever::Input(path.into())
    }

    /// The declaration of the input that is searched; none when the lever does not fit the design.
    pub fn input_of(&self, design: &Design) -> Option<&'static Input> {
        match self {
            Lever::Input(path) => design.input(path),
            Lever::NewItem {
                list, solve_for, ..
            } => Design::list_info(list)?.input(solve_for),
            Lever::Move { list, from } => {
                let count = design.list(list)?.count();
                (*from < count).then_some(&PLACE)
            }
        }
    }

    /// The change that gives the searched input this value.
    pub fn change(&self, value: Value) -> Change {
        match self {
            Lever::Input(path) => Change::Set {
                path: path.to_string(),
                value,
            },
            Lever::NewItem {
                list,
                index,
                fields,
                solve_for,
            } => {
                let mut fields = fields.clone();
                fields.retain(|(name, _)| name != solve_for);
                fields.push((solve_for, value));
                hang(list, &mut fields);
                Change::Insert {
                    list,
                    index: *index,
                    fields,
                }
            }
            Lever::Move { list, from } => Change::Move {
                list,
                from: *from,
                to: match value {
                    Value::Number(place) => place as usize,
                    _ => *from,
                },
            },
        }
    }
}

/// The answer to one question.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Unique and stable name, such as `standing.tip_full` or `warmth.touch.lid`.
    pub id: &'static str,
    /// The chapter it belongs to.
    pub chapter: Chapter,
    /// The question in a few words.
    pub title: &'static str,
    /// One line that explains the term for someone who never heard it.
    pub meaning: &'static str,
    /// The answer.
    pub verdict: Verdict,
    /// What was compared with what, in numbers.
    pub compared: Phrase,
    /// Why it matters, in one line.
    pub why: &'static str,
    /// Distance from Good as a share of the limit; 0 or more is Good. None when it cannot be told.
    pub margin: Option<f64>,
    /// How the number was found.
    pub working: Vec<Step>,
    /// The usual caution, where the matter can hurt someone.
    pub caution: Option<&'static str>,
    /// What could be changed, most sensible first.
    pub levers: Vec<Lever>,
    /// The part of the machine it is about: the name of a section or list of the design.
    pub about: &'static str,
}

/// A computed number with a stable name.
#[derive(Debug, Clone, PartialEq)]
pub struct NamedResult {
    /// Stable name, such as `standing.tip_angle_full`.
    pub name: String,
    /// Label shown to a person.
    pub label: String,
    /// The number, SI.
    pub measure: Measure,
}

impl NamedResult {
    /// A computed number with a stable name.
    pub fn new(name: impl Into<String>, label: impl Into<String>, measure: Measure) -> Self {
        Self {
            name: name.into(),
            label: label.into(),
            measure,
        }
    }
}
