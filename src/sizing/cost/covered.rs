//! Which line pays for a part that is bought?
//!
//! A person writes a line such as "Bolts and gaskets" for what the parts list has as many lines. A line pays for a part
//! where one name holds all the words of the other. What a part is counts beside what it is called: a stage of the gas
//! train by its kind, what a joint is closed with as bolts or as gasket.

use crate::design::inputs::StageKind;
use crate::design::{Choice, Design};
use crate::sizing::machine::Piece;
use crate::sizing::parts_list::PartLine;

/// Words that tell nothing of what a thing is.
const JOINING: [&str; 5] = ["and", "for", "from", "the", "with"];

/// A name as the words that tell what the thing is.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Words<'a> {
    words: Vec<&'a str>,
    /// A bit for each letter that a word begins with: most names are told apart by these alone.
    beginnings: u32,
}

impl<'a> Words<'a> {
    /// The words of a name; one thing or several of it are the same.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub(super) fn of(name: &'a str) -> Self {
        let words: Vec<&str> = name
            .split(|letter: char| !letter.is_alphabetic())
            .filter(|word| word.chars().count() > 2)
            .filter(|word| !JOINING.iter().any(|joining| same(joining, word)))
            .map(|word| word.trim_end_matches(['s', 'S']))
            .collect();
        let beginnings = words.iter().fold(0, |bits, word| bits | beginning(word));
        Self { words, beginnings }
    }

    /// Whether one of the two names holds all the words of the other.
    fn tell_of(&self, other: &Words) -> bool {
        self.hold(other) || other.hold(self)
    }

    /// Whether all the words of the other name are here; no words tell of nothing.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn hold(&self, other: &Words) -> bool {
        let is_here = |word: &&str| self.words.iter().any(|here| same(here, word));
        !other.words.is_empty()
            && other.beginnings & !self.beginnings == 0
            && other.words.iter().all(is_here)
    }
}

/// The bit of the letter a word begins with; all letters but those of the English alphabet share one.
fn beginning(word: &str) -> u32 {
    match word
        .bytes()
        .next()
        .map(|letter| letter.to_ascii_lowercase())
    {
        Some(letter @ b'a'..=b'z') => 1 << (letter - b'a'),
        _ => 1 << 26,
    }
}

/// Whether two words are the same, in capitals or not.
#[cfg_attr(hearthplan_site, optimize(speed))]
fn same(one: &str, other: &str) -> bool {
    if one.eq_ignore_ascii_case(other) {
        return true;
    }
    if one.is_ascii() && other.is_ascii() {
        return false;
    }
    let small = |word: &str| {
        word.chars()
            .flat_map(char::to_lowercase)
            .collect::<Vec<_>>()
    };
    small(one) == small(other)
}

/// A line that may pay for parts: its name, and the words of it.
pub(super) struct Payer<'a> {
    pub(super) name: &'a str,
    pub(super) words: Words<'a>,
}

impl<'a> Payer<'a> {
    pub(super) fn of(name: &'a str) -> Self {
        Self {
            name,
            words: Words::of(name),
        }
    }
}

/// The name of the first of these lines that pays for a part too; none where none of them does.
pub(super) fn paid_by(design: &Design, part: &PartLine, payers: &[Payer]) -> Option<String> {
    let of_stage = || stage_kind(design, part).filter(|kind| *kind != StageKind::Measured);
    let [one, other] = match part.piece {
        Some(Piece::Bolts(_)) => ["bolt", "fastener"],
        Some(Piece::Gasket(_)) => ["gasket", "seal"],
        _ => [
            part.name.as_str(),
            of_stage().map_or("", |kind| kind.name()),
        ],
    };
    paid_for([one, other], payers)
}

/// The name of the first of these lines that tells of a thing by one of its two names.
pub(super) fn paid_for(names: [&str; 2], payers: &[Payer]) -> Option<String> {
    let [one, other] = names.map(Words::of);
    let pays = |payer: &&Payer| payer.words.tell_of(&one) || payer.words.tell_of(&other);
    payers.iter().find(pays).map(|payer| payer.name.to_string())
}

/// The kind of a stage of the gas train; none for another part.
pub(super) fn stage_kind(design: &Design, part: &PartLine) -> Option<StageKind> {
    let place = part.from.strip_prefix("train.")?.parse::<usize>().ok()?;
    Some(design.train.get(place)?.kind)
}
