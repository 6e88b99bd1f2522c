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
pub(super) struct Words(Vec<String>);

impl Words {
    /// The words of a name; one thing or several of it are the same.
    pub(super) fn of(name: &str) -> Self {
        let words = name.split(|letter: char| !letter.is_alphabetic());
        Self(
            words
                .map(str::to_lowercase)
                .filter(|word| word.chars().count() > 2 && !JOINING.contains(&word.as_str()))
                .map(|word| word.trim_end_matches('s').to_string())
                .collect(),
        )
    }

    /// Whether one of the two names holds all the words of the other.
    fn tell_of(&self, other: &Self) -> bool {
        let holds = |one: &Self, other: &Self| {
            !other.0.is_empty() && other.0.iter().all(|word| one.0.contains(word))
        };
        holds(self, other) || holds(other, self)
    }
}

/// A line that may pay for parts: its name, and the words of it.
pub(super) struct Payer<'a> {
    pub(super) name: &'a str,
    pub(super) words: Words,
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
    let known_as = match part.piece {
        Some(Piece::Bolts(_)) => vec![Words::of("bolt"), Words::of("fastener")],
        Some(Piece::Gasket(_)) => vec![Words::of("gasket"), Words::of("seal")],
        _ => {
            let kind = stage_kind(design, part).filter(|kind| *kind != StageKind::Measured);
            let kind = kind.map(|kind| Words::of(kind.name()));
            [Some(Words::of(&part.name)), kind]
                .into_iter()
                .flatten()
                .collect()
        }
    };
    let pays = |payer: &&Payer| known_as.iter().any(|words| payer.words.tell_of(words));
    payers.iter().find(pays).map(|payer| payer.name.to_string())
}

/// The kind of a stage of the gas train; none for another part.
pub(super) fn stage_kind(design: &Design, part: &PartLine) -> Option<StageKind> {
    let place = part.from.strip_prefix("train.")?.parse::<usize>().ok()?;
    Some(design.train.get(place)?.kind)
}
