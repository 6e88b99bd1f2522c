//! Items of lists come, go and move, and what is said of them, or names them by their place, goes along.

use super::document::Design;

/// What is done to a list.
#[derive(Debug, Clone, Copy)]
pub(super) enum Step {
    /// A new item is put in at this place; past the end it is appended.
    Insert(usize),
    /// The item of this place is copied behind itself.
    Copy(usize),
    /// The item of this place is taken out.
    Remove(usize),
    /// An item goes from one place to another; those between close up.
    Move { from: usize, to: usize },
}

impl Step {
    /// Whether it can be done to a list of so many items.
    fn fits(self, count: usize) -> bool {
        match self {
            Step::Insert(_) => true,
            Step::Copy(index) | Step::Remove(index) => index < count,
            Step::Move { from, to } => from < count && to < count,
        }
    }

    /// Where the item of a place goes in a list of so many; none where it is taken out. A place that has no item goes on
    /// having none, but for what is appended: that may be what was missing.
    fn moved(self, count: usize, place: usize) -> Option<usize> {
        if place >= count {
            return Some(match self {
                Step::Insert(index) if index >= count => place,
                Step::Insert(_) | Step::Copy(_) => place.max(count + 1),
                Step::Remove(_) | Step::Move { .. } => place,
            });
        }
        Some(match self {
            Step::Insert(index) => place + usize::from(place >= index),
            Step::Copy(index) => place + usize::from(place > index),
            Step::Remove(index) if place == index => return None,
            Step::Remove(index) => place - usize::from(place > index),
            Step::Move { from, to } if place == from => to,
            Step::Move { from, to } if place > from && place <= to => place - 1,
            Step::Move { from, to } if place < from && place >= to => place + 1,
            Step::Move { .. } => place,
        })
    }
}

impl Design {
    /// Inserts a new item into a list; past its end it is appended.
    pub fn insert_item(&mut self, list: &str, index: usize) {
        self.arrange(list, Step::Insert(index));
    }

    /// Copies an item behind itself. What is said of it stays with the first of the two.
    pub fn copy_item(&mut self, list: &str, index: usize) {
        self.arrange(list, Step::Copy(index));
    }

    /// Removes an item, and what was said of it.
    pub fn remove_item(&mut self, list: &str, index: usize) {
        self.arrange(list, Step::Remove(index));
    }

    /// Takes an item to another place, if both places exist; those between move up.
    ///
    /// ```
    /// use hearthplan::design::Design;
    /// let mut design = Design::default();
    /// design.joints[1].after = 1;
    /// design.move_item("joints", 0, 2);
    /// assert_eq!(design.joints[0].after, 3);
    /// ```
    pub fn move_item(&mut self, list: &str, from: usize, to: usize) {
        self.arrange(list, Step::Move { from, to });
    }

    fn arrange(&mut self, list: &str, step: Step) {
        let count = self.list(list).map_or(0, |items| items.count());
        if self.arrange_alone(list, step) {
            self.name_anew(|reference, _, value| {
                reference.renamed(value, |named, place| {
                    if named == list {
                        step.moved(count, place)
                    } else {
                        Some(place)
                    }
                })
            });
        }
    }

    /// Does it to a list, to the plus-minus of its inputs and to what is not known of them, but not to what names its items
    /// by their place. False where it cannot be done.
    pub(super) fn arrange_alone(&mut self, list: &str, step: Step) -> bool {
        let Some(items) = self.list_mut(list) else {
            return false;
        };
        let count = items.count();
        if !step.fits(count) {
            return false;
        }
        match step {
            Step::Insert(index) => items.insert_new(index),
            Step::Copy(index) => items.copy_item(index),
            Step::Remove(index) => items.remove_item(index),
            Step::Move { from, to } => items.move_item(from, to),
        }
        self.paths_follow(list, |place| step.moved(count, place));
        true
    }

    /// Renames the inputs of a list, in the own plus-minus and in what is not known, after its items moved.
    fn paths_follow(&mut self, list: &str, moved: impl Fn(usize) -> Option<usize>) {
        let renamed = |path: &str| match Self::split(path) {
            Some((head, Some(place), name)) if head == list => {
                moved(place).map(|place| format!("{head}.{place}.{name}"))
            }
            _ => Some(path.to_string()),
        };
        self.spreads.retain_mut(|spread| {
            let path = renamed(&spread.input);
            let stays = path.is_some();
            spread.input = path.unwrap_or_default();
            stays
        });
        self.unknown = std::mem::take(&mut self.unknown)
            .into_iter()
            .filter_map(|(path, value)| Some((renamed(&path)?, value)))
            .collect();
    }
}
