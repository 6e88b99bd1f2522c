//! Do two names tell of the same thing?
//!
//! Names are a person's own words. What a thing is stands before "of", "for" and the like: shield sheets of the battery box
//! are sheets. What stands behind them only tells which ones, until a comma begins the next thing.

/// Words that tell nothing of what a thing is.
const JOINING: [u64; 5] = [
    sign("and"),
    sign("for"),
    sign("from"),
    sign("the"),
    sign("with"),
];
/// What stands behind these words only tells which thing of its kind is meant.
const TELLING_WHICH: [u64; 8] = [
    sign("of"),
    sign("for"),
    sign("from"),
    sign("in"),
    sign("on"),
    sign("at"),
    sign("to"),
    sign("under"),
];

/// More words than any name has; what stands behind them would tell nothing more.
const MOST_WORDS: usize = 24;

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

/// The sign of no letters (FNV-1a of 64 bits, Fowler, Noll and Vo, from memory).
const NO_LETTERS: u64 = 0xcbf2_9ce4_8422_2325;

/// The sign of a word and one byte more.
const fn further(sign: u64, byte: u8) -> u64 {
    (sign ^ byte as u64).wrapping_mul(0x100_0000_01b3)
}

/// The sign of a word in small letters: two words with the same sign are the same.
const fn sign(word: &str) -> u64 {
    let (letters, mut sign, mut place) = (word.as_bytes(), NO_LETTERS, 0);
    while place < letters.len() {
        sign = further(sign, letters[place]);
        place += 1;
    }
    sign
}

/// A word as its letters come one after the other.
#[derive(Clone, Copy)]
struct Reading {
    letters: u32,
    /// Of all its letters, in small.
    sign: u64,
    /// Of what is left without each `s` at its end.
    without_plural: u64,
}

impl Reading {
    const NOTHING: Self = Self {
        letters: 0,
        sign: NO_LETTERS,
        without_plural: NO_LETTERS,
    };

    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn take(&mut self, letter: char) {
        self.letters += 1;
        if letter.is_ascii() {
            self.sign = further(self.sign, letter.to_ascii_lowercase() as u8);
        } else {
            let mut room = [0; 4];
            for small in letter.to_lowercase() {
                let bytes = small.encode_utf8(&mut room).bytes();
                self.sign = bytes.fold(self.sign, further);
            }
        }
        if !matches!(letter, 's' | 'S') {
            self.without_plural = self.sign;
        }
    }
}

/// A name as the signs of those of its words that tell something; one thing or several of it are the same.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Words {
    signs: [u64; MOST_WORDS],
    count: usize,
    /// A bit for each word that tells what it is and not only which.
    telling_what: u32,
    /// A bit for each word, by its sign: most names are told apart by these alone.
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

impl Words {
    /// The words of a name.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub(super) fn of(name: &str) -> Self {
        let mut words = Self {
            signs: [0; MOST_WORDS],
            count: 0,
            telling_what: 0,
            marks: 0,
        };
        let (mut only_which, mut word) = (false, Reading::NOTHING);
        for letter in name.chars().chain([' ']) {
            if letter.is_alphabetic() {
                word.take(letter);
                continue;
            }
            if word.letters > 0 {
                only_which |= TELLING_WHICH.contains(&word.sign);
                if word.letters > 2 && !JOINING.contains(&word.sign) {
                    words.push(word.without_plural, only_which);
                }
                word = Reading::NOTHING;
            }
            match letter {
                ',' | ';' => only_which = false,
                ':' => only_which = true,
                _ => {}
            }
        }
        words
    }

    fn push(&mut self, sign: u64, only_which: bool) {
        if let Some(place) = self.signs.get_mut(self.count) {
            *place = sign;
            self.telling_what |= u32::from(!only_which) << self.count;
            self.marks |= 1 << (sign % 64);
            self.count += 1;
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
        other.count > 0
            && other.marks & !self.marks == 0
            && (other.each()).all(|(sign, what)| {
                (self.each()).any(|(here, is_what)| here == sign && (is_what || !what))
            })
    }

    /// Whether this word, in small letters, stands anywhere in it, without its plural.
    pub(super) fn mention(&self, word: &str) -> bool {
        let sought = sign(word);
        self.each().any(|(here, _)| here == sought)
    }

    /// Whether it is this, in one word of small letters without its plural.
    pub(super) fn say_it_is(&self, word: &str) -> bool {
        let sought = sign(word);
        self.each().any(|(here, is_what)| is_what && here == sought)
    }

    /// The sign of each word, and whether it tells what it is.
    fn each(&self) -> impl Iterator<Item = (u64, bool)> {
        let signs = self.signs.iter().take(self.count).enumerate();
        signs.map(|(place, sign)| (*sign, self.telling_what >> place & 1 == 1))
    }
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
        // Capitals are small letters in other alphabets too.
        assert!(Words::of("ÖLSIEB").are(&Words::of("ölsieb")));
        assert!(Words::of("Fans of the cooler").mention("cooler"));
        assert!(!Words::of("Fans of the cooler").say_it_is("cooler"));
    }
}
