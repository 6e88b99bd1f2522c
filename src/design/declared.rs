//! What is declared of an input or a list, by its name alone: without a design that has one.

use super::declare::{Input, Kind};
use super::document::{Design, ListInfo};

impl ListInfo {
    /// The declaration of an item's input of this name.
    pub fn input(&self, name: &str) -> Option<&'static Input> {
        self.inputs.iter().find(|input| input.name == name)
    }
}

impl Design {
    /// What the list of this name is for.
    pub fn list_info(name: &str) -> Option<&'static ListInfo> {
        Self::LISTS.iter().find(|info| info.name == name)
    }

    /// Smallest and largest number that an input of a section or of the items of a list takes, SI. None where there is no
    /// such input, or where it takes no number.
    ///
    /// ```
    /// # use hearthplan::design::Design;
    /// assert_eq!(Design::allowed("base", "width"), Some((0.1, 3.0)));
    /// assert_eq!(Design::allowed("train", "name"), None);
    /// ```
    pub fn allowed(head: &str, name: &str) -> Option<(f64, f64)> {
        let section = Self::SECTIONS.iter().find(|info| info.name == head);
        let inputs = match section {
            Some(info) => info.inputs,
            None => Self::list_info(head)?.inputs,
        };
        match inputs.iter().find(|input| input.name == name)?.kind {
            Kind::Number { allowed, .. } => Some(allowed),
            Kind::Choice { .. } | Kind::Text { .. } | Kind::Flag { .. } => None,
        }
    }

    /// The number nearest to this one that such an input takes, SI; its smallest for what is no number.
    ///
    /// ```
    /// # use hearthplan::design::Design;
    /// assert_eq!(Design::nearest_allowed("train", "tubes", 1000.0), 200.0);
    /// assert_eq!(Design::nearest_allowed("train", "tubes", f64::NAN), 1.0);
    /// ```
    pub fn nearest_allowed(head: &str, name: &str, number: f64) -> f64 {
        Self::allowed(head, name).map_or(number, |(least, most)| number.max(least).min(most))
    }
}
