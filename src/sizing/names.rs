//! Do two names tell of the same thing?
//!
//! Names are a person's own words. What a thing is stands before "of", "for" and the like: shield sheets of the battery box
//! are sheets. What stands behind them only tells which ones, until a comma begins the next thing.

/// Words that tell nothing of what a thing is.
const JOINING: [&str; 5] = ["and", "for", "from", "the", "with"];
/// What stands behind these words only tells which thing of its kind is meant.
const TELLING_WHICH: [&str; 8] = ["of", "for", "from", "in", "on", "at", "to", "under"];

/// Room for the words of a name as it usually is.
const USUAL_WORDS: usize = 6;
/// No word of either list is longer.
const LONGEST_SMALL: usize = 5;

/// The words of a name as they stand in it, without signs and numbers.
///
/// ```
/// use hearthplan::sizing::names::words;
/// assert!(words("Ash door, 100 mm").eq(["Ash", "door", "mm"]));
/// ```
pub fn words(name: &str) -> impl Iterator<Item = &str> + Clone {
    name.split(|letter: char| !letter.is_alphabetic())
        .filter(|word| !word.is_empty())
}

/// A name as the words that tell what the thing is.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Words<'a> {
    words: Vec<&'a str>,
    /// How many of them tell what it is; these come first.
    telling_what: usize,
    /// A bit for each word, by the letters it begins and ends with: most names are told apart by these alone.
    marks: u64,
}

/// What two names have in common.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Shared {
    /// Both have the same words.
    All,
    /// One of them holds all the words of the other.
    OfOne,
    /// Each has words that the other has not, or one has none.
    NotAll,
}

impl<'a> Words<'a> {
    /// The words of a name; one thing or several of it are the same.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub(super) fn of(name: &'a str) -> Self {
        let (mut words, mut which) = (Vec::with_capacity(USUAL_WORDS), Vec::new());
        for thing in name.split([',', ';']) {
            let mut only_which = false;
            for piece in thing.split_inclusive(|letter: char| !letter.is_alphabetic()) {
                let word = piece.trim_end_matches(|letter: char| !letter.is_alphabetic());
                let is_one_of = |small: &[&str]| {
                    word.len() <= LONGEST_SMALL
                        && (small.iter().filter(|one| one.len() == word.len()))
                            .any(|one| one.eq_ignore_ascii_case(word))
                };
                only_which |= is_one_of(&TELLING_WHICH);
                if word.chars().nth(2).is_some() && !is_one_of(&JOINING) {
                    let said = if only_which { &mut which } else { &mut words };
                    said.push(word.trim_end_matches(['s', 'S']));
                }
                only_which |= piece.ends_with(':');
            }
        }
        let telling_what = words.len();
        words.append(&mut which);
        let marks = words.iter().fold(0, |marks, word| marks | mark(word));
        Self {
            words,
            telling_what,
            marks,
        }
    }

    /// What it has in common with another name.
    pub(super) fn shared_with(&self, other: &Words) -> Shared {
        match (self.hold(other), other.hold(self)) {
            (true, true) => Shared::All,
            (false, false) => Shared::NotAll,
            _ => Shared::OfOne,
        }
    }

    /// Whether both names have the same words.
    pub(super) fn are(&self, other: &Words) -> bool {
        self.shared_with(other) == Shared::All
    }

    /// Whether one of the two names holds all the words of the other.
    pub(super) fn tell_of(&self, other: &Words) -> bool {
        self.shared_with(other) != Shared::NotAll
    }

    /// Whether all the words of the other name are here, and those that tell what it is among those that tell what this is;
    /// no words tell of nothing.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub(super) fn hold(&self, other: &Words) -> bool {
        !other.words.is_empty()
            && other.marks & !self.marks == 0
            && other.words.iter().all(|word| is_among(word, &self.words))
            && (other.what().iter()).all(|word| is_among(word, self.what()))
    }

    /// Whether this word stands anywhere in it, without its plural.
    pub(super) fn mention(&self, word: &str) -> bool {
        is_among(word, &self.words)
    }

    /// Whether it is this, in one word without its plural.
    pub(super) fn say_it_is(&self, word: &str) -> bool {
        is_among(word, self.what())
    }

    /// The words that tell what it is.
    fn what(&self) -> &[&'a str] {
        self.words.get(..self.telling_what).unwrap_or_default()
    }
}

fn is_among(word: &str, words: &[&str]) -> bool {
    words.iter().any(|here| same(here, word))
}

/// The bit of a word by its first and last letter; words of other than English letters may share one.
fn mark(word: &str) -> u64 {
    let place = |letter: Option<u8>| match letter.map(|letter| letter.to_ascii_lowercase()) {
        Some(letter @ b'a'..=b'z') => u64::from(letter - b'a'),
        _ => 26,
    };
    let mut letters = word.bytes();
    let first = place(letters.next());
    1 << ((27 * first + letters.next_back().map_or(first, |last| place(Some(last)))) % 64)
}

/// Whether two words are the same, in capitals or not.
#[cfg_attr(hearthplan_site, optimize(speed))]
fn same(one: &str, other: &str) -> bool {
    if one.eq_ignore_ascii_case(other) {
        return true;
    }
    if mark(one) != mark(other) || (one.is_ascii() && other.is_ascii()) {
        return false;
    }
    let small = |word: &str| {
        word.chars()
            .flat_map(char::to_lowercase)
            .collect::<Vec<_>>()
    };
    small(one) == small(other)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_tells_of_what_it_is_and_not_of_what_it_is_for() {
        let tell = |one: &str, other: &str| Words::of(one).tell_of(&Words::of(other));
        assert!(tell("Bolts and gaskets", "bolt"));
        assert!(tell("Blower with motor", "Blower"));
        assert!(tell("Fan: Tube cooler", "Cooler fan, tubes"));
        assert!(tell("Lids of the hopper", "Hopper: lid") || tell("lid", "Lids of the hopper"));
        for (thing, payer) in [
            ("Shield sheets of the battery box", "Battery"),
            ("Cyclone", "Paint for the cyclone"),
            ("Fan: Cooler", "Cooler"),
            ("Filter", ""),
            ("", "of the filter"),
        ] {
            assert!(
                !tell(thing, payer) && !tell(payer, thing),
                "{thing}, {payer}"
            );
        }
        // A comma begins the next thing.
        assert!(tell("Paint for the trap, cyclone", "Cyclone"));
        assert_eq!(
            Words::of("Last trap").shared_with(&Words::of("TRAPS, last")),
            Shared::All
        );
        assert_eq!(
            Words::of("Last trap").shared_with(&Words::of("trap")),
            Shared::OfOne
        );
    }
}
