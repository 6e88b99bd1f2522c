//! Sentences that carry quantities, worded in the person's own units only when shown.

use super::quantity::{Quantity, System};

/// Words that say what a plain number before them counts.
const COUNTED: [&str; 4] = ["ppm", "times", "holes", "joints"];

/// What units of gas in inches end with; a sentence says it once, at the last of them.
const COUNTED_AT: &str = " at 32 °F";

/// A name as it stands inside a sentence. Units and classes in it stay as they are written.
///
/// ```
/// use hearthplan::design::phrase::lower_first;
/// assert_eq!(lower_first("Blanket, 1430 °C class"), "blanket, 1430 °C class");
/// assert_eq!(lower_first("CO alarm"), "CO alarm");
/// ```
pub fn lower_first(name: &str) -> String {
    let mut letters = name.chars();
    let Some(first) = letters.next() else {
        return String::new();
    };
    // A second letter that is no small one makes it a sign, such as CO or H₂.
    let is_word =
        (letters.clone().next()).is_none_or(|letter| letter.is_lowercase() || letter == ' ');
    if is_word {
        first.to_lowercase().chain(letters).collect()
    } else {
        name.to_string()
    }
}

/// Words as they begin a sentence. What was typed stays as it was typed, since it stands in quotation marks.
///
/// ```
/// use hearthplan::design::phrase::upper_first;
/// assert_eq!(upper_first("nothing typed"), "Nothing typed");
/// assert_eq!(upper_first("“abc” is not a number"), "“abc” is not a number");
/// ```
pub fn upper_first(words: &str) -> String {
    let mut letters = words.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}

/// A number with its quantity, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measure {
    /// What is measured.
    pub quantity: Quantity,
    /// The number in SI units.
    pub si: f64,
}

impl Measure {
    /// A number with its quantity.
    pub const fn new(quantity: Quantity, si: f64) -> Self {
        Self { quantity, si }
    }

    /// The number with its unit, as shown in the given system.
    pub fn show(&self, system: System) -> String {
        self.quantity.show(self.si, system)
    }

    /// The number with its unit, rounded so that what is read again is no less.
    ///
    /// ```
    /// use hearthplan::design::phrase::Measure;
    /// use hearthplan::design::quantity::{Quantity, System};
    /// let least = Measure::new(Quantity::Displacement, 1.4521e-3);
    /// let told = least.show_at_least(System::Metric);
    /// assert!(Quantity::Displacement.read(&told, System::Metric).unwrap() >= least.si);
    /// ```
    pub fn show_at_least(&self, system: System) -> String {
        let [told, _] = self.quantity.show_range([self.si, 2.0 * self.si], system);
        told
    }

    /// The number with its unit and its sign, for a difference.
    pub fn show_signed(&self, system: System) -> String {
        self.quantity.show_signed(self.si, system)
    }
}

/// Something that stands in the place of `{}` in a [`Phrase`].
#[derive(Debug, Clone, PartialEq)]
pub enum Slot {
    /// A quantity.
    Measure(Measure),
    /// The least that does it: rounded so that whoever enters what is told has enough.
    AtLeast(Measure),
    /// A name, for example of a part.
    Name(String),
    /// A whole sentence with slots of its own.
    Phrase(Phrase),
    /// A box that is ticked once something is done.
    Tick(bool),
    /// A sentence for whoever works in these units; nothing for others.
    Only(System, Phrase),
}

impl Slot {
    /// The words, in the given system of units.
    pub fn text(&self, system: System) -> String {
        match self {
            Slot::Measure(measure) => measure.show(system),
            Slot::AtLeast(measure) => measure.show_at_least(system),
            Slot::Name(name) => name.clone(),
            Slot::Phrase(phrase) => phrase.text(system),
            Slot::Tick(false) => "☐".to_string(),
            Slot::Tick(true) => "☑".to_string(),
            Slot::Only(of, phrase) if *of == system => phrase.text(system),
            Slot::Only(..) => String::new(),
        }
    }

    /// The quantity that it is, with or without something beside it for whoever works in certain units.
    ///
    /// ```
    /// use hearthplan::design::phrase::{Measure, Phrase, Slot};
    /// use hearthplan::design::quantity::{Quantity, System};
    /// let pressure = Measure::new(Quantity::Pressure, 3_447.0);
    /// let beside = Slot::Only(System::Inch, Phrase::plain(" (0.5 psi)"));
    /// let both = Slot::from(Phrase::new("{}{}", [pressure.into(), beside]));
    /// assert_eq!(both.measure(), Some(pressure));
    /// assert_eq!(Slot::from("about an inch").measure(), None);
    /// ```
    pub fn measure(&self) -> Option<Measure> {
        match self {
            Slot::Measure(measure) => Some(*measure),
            Slot::Phrase(phrase) if phrase.template == "{}{}" => match phrase.slots.as_slice() {
                [Slot::Measure(measure), Slot::Only(..)] => Some(*measure),
                _ => None,
            },
            _ => None,
        }
    }
}

impl From<Measure> for Slot {
    fn from(measure: Measure) -> Self {
        Slot::Measure(measure)
    }
}

impl From<&str> for Slot {
    fn from(name: &str) -> Self {
        Slot::Name(name.to_string())
    }
}

impl From<String> for Slot {
    fn from(name: String) -> Self {
        Slot::Name(name)
    }
}

impl From<Phrase> for Slot {
    fn from(phrase: Phrase) -> Self {
        Slot::Phrase(phrase)
    }
}

/// A sentence with slots.
///
/// ```
/// use hearthplan::design::phrase::{Measure, Phrase};
/// use hearthplan::design::quantity::{Quantity, System};
/// let phrase = Phrase::new("base {} wide", [Measure::new(Quantity::Length, 0.66).into()]);
/// assert_eq!(phrase.text(System::Metric), "base 660 mm wide");
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Phrase {
    template: &'static str,
    slots: Vec<Slot>,
}

impl Phrase {
    /// A sentence whose `{}` are filled by the slots in order.
    pub fn new(template: &'static str, slots: impl IntoIterator<Item = Slot>) -> Self {
        Self {
            template,
            slots: slots.into_iter().collect(),
        }
    }

    /// A sentence without slots.
    pub fn plain(template: &'static str) -> Self {
        Self {
            template,
            slots: Vec::new(),
        }
    }

    /// The measure of a slot, and one that differs from it but is told in the same words.
    fn like<'a>(
        &'a self,
        slot: &'a Slot,
        own: &str,
        told: &[String],
    ) -> Option<(&'a Measure, &'a Measure)> {
        let Slot::Measure(measure) = slot else {
            return None;
        };
        let alike = (self.slots.iter().zip(told)).filter(|(_, words)| *words == own);
        alike
            .filter_map(|(other, _)| match other {
                Slot::Measure(other) => Some(other),
                _ => None,
            })
            .find(|other| other.quantity == measure.quantity && other.si != measure.si)
            .map(|other| (measure, other))
    }

    /// The first number of the sentence: what it is about.
    pub fn first_measure(&self) -> Option<Measure> {
        self.slots.iter().find_map(|slot| match slot {
            Slot::Measure(measure) => Some(*measure),
            Slot::AtLeast(_) | Slot::Name(_) | Slot::Tick(_) | Slot::Only(..) => None,
            Slot::Phrase(phrase) => phrase.first_measure(),
        })
    }

    /// What the first number of the sentence counts, where it is a plain number and the word behind it says so.
    ///
    /// ```
    /// use hearthplan::design::phrase::{Measure, Phrase};
    /// use hearthplan::design::quantity::Quantity;
    /// let number = Measure::new(Quantity::Number, 500.0);
    /// let phrase = Phrase::new("{} ppm after the longest stay", [number.into()]);
    /// assert_eq!(phrase.first_counted(), Some("ppm"));
    /// ```
    pub fn first_counted(&self) -> Option<&'static str> {
        let (place, slot) = (self.slots.iter().enumerate()).find(|(_, slot)| match slot {
            Slot::Measure(_) => true,
            Slot::AtLeast(_) | Slot::Name(_) | Slot::Tick(_) | Slot::Only(..) => false,
            Slot::Phrase(phrase) => phrase.first_measure().is_some(),
        })?;
        match slot {
            Slot::Phrase(phrase) => phrase.first_counted(),
            Slot::Measure(measure)
                if matches!(measure.quantity, Quantity::Number | Quantity::Count) =>
            {
                let behind = self.template.split("{}").nth(place + 1)?;
                let word = behind.split_whitespace().next()?;
                COUNTED.contains(&word).then_some(word)
            }
            _ => None,
        }
    }

    /// The sentence in the given system of units. Numbers of one quantity that differ never look the same, unless they
    /// differ by less than three decimals tell.
    ///
    /// ```
    /// use hearthplan::design::phrase::{Measure, Phrase};
    /// use hearthplan::design::quantity::{Quantity, System};
    /// let hot = |celsius: f64| Measure::new(Quantity::Temperature, 273.15 + celsius).into();
    /// let phrase = Phrase::new("{}, wanted at most {}", [hot(40.03), hot(40.0)]);
    /// assert_eq!(phrase.text(System::Metric), "40.03 °C, wanted at most 40 °C");
    /// let gas = |heat: f64| Measure::new(Quantity::EnergyPerVolume, heat).into();
    /// let phrase = Phrase::new("{}, wanted at least {}", [gas(3.0e6), gas(4.5e6)]);
    /// assert_eq!(
    ///     phrase.text(System::Inch),
    ///     "80.5 BTU/ft³, wanted at least 121 BTU/ft³ at 32 °F"
    /// );
    /// ```
    pub fn text(&self, system: System) -> String {
        let told: Vec<String> = self.slots.iter().map(|slot| slot.text(system)).collect();
        let of_gas = |(slot, own): (&Slot, &String)| {
            matches!(slot, Slot::Measure(_)) && own.ends_with(COUNTED_AT)
        };
        let last_of_gas = self.slots.iter().zip(&told).rposition(of_gas);
        let mut slots = self.slots.iter().zip(&told).enumerate();
        let mut text = String::with_capacity(self.template.len() + 16 * self.slots.len());
        let mut pieces = self.template.split("{}");
        text.push_str(pieces.next().unwrap_or_default());
        for piece in pieces {
            if let Some((place, (slot, own))) = slots.next() {
                let shown = match self.like(slot, own, &told) {
                    Some((measure, other)) => {
                        measure.quantity.show_apart(measure.si, other.si, system)
                    }
                    None => own.clone(),
                };
                let is_told_later = last_of_gas.is_some_and(|last| place < last);
                let short = shown.strip_suffix(COUNTED_AT).filter(|_| is_told_later);
                text.push_str(short.unwrap_or(&shown));
            }
            text.push_str(piece);
        }
        text
    }
}
