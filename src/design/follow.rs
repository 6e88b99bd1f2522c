//! Where an input went when a design was changed, for what belongs to it but is not part of the design.

use super::declare::{Items, Record};
use super::document::Design;
use super::references::Reference;

impl Design {
    /// The path at which `after`, made from this design, has the input of this path; none if its item is gone or
    /// the change gave it another value. Items are found again by what stands in them.
    ///
    /// ```
    /// use hearthplan::design::Design;
    /// let before = Design::default();
    /// let mut after = before.clone();
    /// after.insert_item("joints", 0);
    /// assert_eq!(before.follow("base.width", &after).as_deref(), Some("base.width"));
    /// assert_eq!(before.follow("joints.0.bolt", &after).as_deref(), Some("joints.1.bolt"));
    /// ```
    pub fn follow(&self, path: &str, after: &Design) -> Option<String> {
        let followed = self
            .follow_item(path, after)
            .unwrap_or_else(|| Some(path.to_string()))?;
        let value = self.get(path)?;
        (after.get(&followed)? == value).then_some(followed)
    }

    /// As [`Design::follow`], whatever its value; none for an input that stands in no list.
    fn follow_item(&self, path: &str, after: &Design) -> Option<Option<String>> {
        let (list, rest) = path.split_once('.')?;
        let (index, field) = rest.split_once('.')?;
        let index: usize = index.parse().ok()?;
        let (old, new) = (self.list(list)?, after.list(list)?);
        let place = new_place(list, old, new, index);
        Some(place.map(|place| format!("{list}.{place}.{field}")))
    }
}

/// The place that an item of a list has in the list made from it.
fn new_place(list: &str, old: &dyn Items, new: &dyn Items, index: usize) -> Option<usize> {
    let found = |is_same: &dyn Fn(&dyn Record, &dyn Record) -> bool| {
        let item = old.item(index)?;
        let stays = |place: usize| matches!((old.item(place), new.item(place)), (Some(before), Some(now)) if is_same(before, now));
        if stays(index) {
            return Some(index);
        }
        (0..new.count())
            .filter(|&place| !stays(place))
            .find(|&place| new.item(place).is_some_and(|now| is_same(item, now)))
    };
    // What names other items has another number where those moved.
    let names_others = |input: &str| Reference::of(list, input).is_some();
    let stays = || (index < old.count() && old.count() == new.count()).then_some(index);
    found(&|one, other| is_same(one, other, |_| false))
        .or_else(|| found(&|one, other| is_same(one, other, names_others)))
        // In a list that is as long as before, what is nowhere else was changed where it stands.
        .or_else(stays)
}

/// Whether two records hold the same, but for some inputs.
fn is_same(one: &dyn Record, other: &dyn Record, but_for: impl Fn(&str) -> bool) -> bool {
    (one.inputs().iter().enumerate())
        .all(|(index, input)| but_for(input.name) || one.read(index) == other.read(index))
}
