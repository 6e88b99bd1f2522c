//! Where an input went when a design was changed, for what belongs to it but is not part of the design.

use super::declare::{Items, Record};
use super::document::Design;

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
        let place = new_place(old, new, index);
        Some(place.map(|place| format!("{list}.{place}.{field}")))
    }
}

/// The place that an item of a list has in the list made from it.
fn new_place(old: &dyn Items, new: &dyn Items, index: usize) -> Option<usize> {
    let item = old.item(index)?;
    let stays = |place: usize| matches!((old.item(place), new.item(place)), (Some(before), Some(now)) if is_same(before, now));
    if stays(index) {
        return Some(index);
    }
    let moved = (0..new.count())
        .filter(|&place| !stays(place))
        .find(|&place| new.item(place).is_some_and(|now| is_same(item, now)));
    // In a list that is as long as before, what is nowhere else was changed where it stands.
    moved.or((old.count() == new.count()).then_some(index))
}

fn is_same(one: &dyn Record, other: &dyn Record) -> bool {
    (0..one.inputs().len()).all(|index| one.read(index) == other.read(index))
}
