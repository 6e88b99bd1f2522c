//! Share links: the design where it differs from the defaults, compressed into the part of an
//! address behind `#`, which browsers send to no server.
//!
//! Form: the format version, a dot, and base64url of the JSON of the differences, packed as
//! `packing.rs` tells. The JSON has the names of the file format, so it can be read for ever; a
//! checksum tells a damaged link from a whole one.
//!
//! An answer to a link has `~` in place of the dot. Its JSON holds the design that is answered, what
//! the answer changes in it, and a note. Packed together, the answer costs little more than the
//! link it answers, since what both have is packed once.

use super::Design;
use super::packing::{self, MOST_UNPACKED};
use super::tree::{self, Branch, Note, Opened, Tree};
use super::upgrade::{self, FORMAT, Start};
use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use serde_json::{Map, Value as Json};
use thiserror::Error;

/// Longest link read, in characters.
pub const LONGEST: usize = 200_000;

/// Above this many characters some messengers and mail programs cut a link: common practice, no source.
pub const LONGEST_SAFE: usize = 2_000;

/// Most characters of the note of an answer.
pub const LONGEST_NOTE: usize = 600;

/// Names in an answer: the design that is answered, what is changed in it, what is said.
const BASE: &str = "base";
const CHANGED: &str = "changed";
const NOTE: &str = "note";

/// Why a link could not be opened, as a sentence.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum LinkError {
    /// No design in it.
    #[error("This link holds no design.")]
    Empty,
    /// Not of the form of a share link.
    #[error("This is not a link to a Hearthplan design.")]
    NotALink,
    /// Made by a newer version.
    #[error(
        "This link was made by a newer Hearthplan (format {version}; this one reads up to {FORMAT}). Reload the page to get the newest, then open it again."
    )]
    Newer {
        /// Format version of the link.
        version: u64,
    },
    /// A character that no link has.
    #[error(
        "This link is damaged: “{character}” does not belong in it. Copy the whole link again."
    )]
    Character {
        /// The character.
        character: char,
    },
    /// Cut short or changed.
    #[error("This link is damaged or cut short. Copy the whole link again.")]
    Damaged,
    /// Larger than any design.
    #[error("This link is too large for a design.")]
    TooLarge,
}

/// An answer to a link: a design made from another, with a few words.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// The design that is answered.
    pub base: Design,
    /// The design that answers.
    pub design: Design,
    /// What the helper has to say.
    pub note: String,
}

/// What a link holds.
#[derive(Debug, Clone, PartialEq)]
pub enum Linked {
    /// A design.
    Design(Box<Opened>),
    /// An answer, with what was not taken as it stands.
    Answer(Box<Answer>, Vec<Note>),
}

/// The design as the part of a link behind `#`.
///
/// Entries that this version does not know go along unless they would make the link too large.
///
/// ```
/// use hearthplan::design::{Design, Value, link};
/// let mut design = Design::default();
/// design.set("base.width", Value::Number(0.9)).unwrap();
/// let text = link::write(&design);
/// assert_eq!(link::read(&text).unwrap().design, design);
/// ```
pub fn write(design: &Design) -> String {
    let payload = payload(&text(design, true))
        .or_else(|| payload(&text(design, false)))
        .unwrap_or_default();
    format!("{FORMAT}.{payload}")
}

/// What a link of this design holds, not yet packed.
pub(super) fn text(design: &Design, with_unknown: bool) -> String {
    json(&tree::difference(
        design,
        &upgrade::start(FORMAT),
        with_unknown,
    ))
}

fn json(tree: &Tree) -> String {
    // A tree of plain names and values can always be written.
    serde_json::to_string(tree).unwrap_or_default()
}

/// An answer as the part of a link behind `#`. The note is cut to [`LONGEST_NOTE`] characters;
/// entries that this version does not know stay behind. Where both designs are too large for one
/// link, the one that answers goes alone.
///
/// ```
/// use hearthplan::design::{Design, Value, link::{self, Answer, Linked}};
/// let base = Design::default();
/// let mut design = base.clone();
/// design.set("base.width", Value::Number(0.9)).unwrap();
/// let answer = Answer { base, design, note: "Wider.".to_string() };
/// let text = link::write_answer(&answer);
/// assert_eq!(link::open(&text), Ok(Linked::Answer(Box::new(answer), Vec::new())));
/// ```
pub fn write_answer(answer: &Answer) -> String {
    let mut start = upgrade::start(FORMAT);
    let mut both = Tree::default();
    let base = tree::difference(&answer.base, &start, false);
    both.push(BASE, Branch::Tree(base));
    start.design = answer.base.clone();
    let changed = tree::difference(&answer.design, &start, false);
    both.push(CHANGED, Branch::Tree(changed));
    let note: String = answer.note.chars().take(LONGEST_NOTE).collect();
    both.push(NOTE, Branch::Leaf(Json::from(note)));
    match payload(&json(&both)) {
        Some(payload) => format!("{FORMAT}~{payload}"),
        None => write(&answer.design),
    }
}

/// The text packed into the payload of a link; none if it is larger than a link may be.
fn payload(text: &str) -> Option<String> {
    if text.len() > MOST_UNPACKED {
        return None;
    }
    let payload = URL_SAFE_NO_PAD.encode(packing::pack(text.as_bytes()));
    (payload.len() < LONGEST).then_some(payload)
}

/// Reads a link, whole or only the part behind `#`, for the design in it: of an answer, the one that
/// answers.
///
/// # Errors
/// Empty, not a share link, damaged, too large, or from a newer version.
pub fn read(text: &str) -> Result<Opened, LinkError> {
    open(text).map(|linked| match linked {
        Linked::Design(opened) => *opened,
        Linked::Answer(answer, notes) => Opened {
            design: answer.design,
            notes,
        },
    })
}

/// Reads a link, whole or only the part behind `#`.
///
/// # Errors
/// Empty, not a share link, damaged, too large, or from a newer version.
pub fn open(text: &str) -> Result<Linked, LinkError> {
    if text.len() > LONGEST {
        return Err(LinkError::TooLarge);
    }
    // Some messengers write the signs of others anew.
    let plain = without_percent(&without_percent(text));
    let joined: String = plain.split_whitespace().collect();
    // A message may have broken the link into lines, or may go on behind it.
    open_plain(&joined).or_else(|error| {
        let mut words = plain.split_whitespace();
        let first = words.clone().next();
        match words.find(|word| word.contains('#')).or(first) {
            Some(word) if *word != joined => open_plain(word).map_err(|_| error),
            _ => Err(error),
        }
    })
}

/// The text with what a messenger has written as `%2D` and the like.
fn without_percent(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('%') {
        plain.push_str(before);
        let sign = (after.get(..2)).and_then(|digits| u8::from_str_radix(digits, 16).ok());
        match sign.filter(u8::is_ascii) {
            Some(sign) => {
                plain.push(char::from(sign));
                rest = after.get(2..).unwrap_or_default();
            }
            None => {
                plain.push('%');
                rest = after;
            }
        }
    }
    plain.push_str(rest);
    plain
}

/// The part of a link that holds the design: the first behind a `#` that begins like one, or the last.
fn fragment(text: &str) -> &str {
    let begins = |piece: &&str| {
        let version = piece.split_once(['.', '~']).map(|(version, _)| version);
        version.is_some_and(|version| version.parse::<u64>().is_ok())
    };
    let last = text.rsplit_once('#').map_or(text, |(_, last)| last);
    text.split('#').skip(1).find(begins).unwrap_or(last)
}

fn open_plain(text: &str) -> Result<Linked, LinkError> {
    let fragment = fragment(text);
    if fragment.is_empty() {
        return Err(LinkError::Empty);
    }
    let sign = fragment.find(['.', '~']).ok_or(LinkError::NotALink)?;
    let (version, payload) = fragment.split_at(sign);
    let is_answer = payload.starts_with('~');
    let payload = payload.get(1..).unwrap_or_default();
    let version = version.parse::<u64>().map_err(|_| LinkError::NotALink)?;
    let known = u32::try_from(version)
        .ok()
        .filter(|version| *version <= FORMAT)
        .ok_or(LinkError::Newer { version })?;
    if known == 0 {
        return Err(LinkError::NotALink);
    }
    let entries = entries(known, payload)?;
    if is_answer {
        answered(upgrade::start(known), entries)
    } else {
        Ok(Linked::Design(Box::new(upgrade::open(known, entries))))
    }
}

/// The answer in these entries.
fn answered(mut start: Start, mut entries: Map<String, Json>) -> Result<Linked, LinkError> {
    let mut part = |name: &str| match entries.remove(name) {
        Some(Json::Object(part)) => Ok(part),
        _ => Err(LinkError::Damaged),
    };
    let (base, changed) = (part(BASE)?, part(CHANGED)?);
    let Opened {
        design: base,
        mut notes,
    } = tree::lay_over(&start, base);
    start.design = base.clone();
    let changed = tree::lay_over(&start, changed);
    notes.extend(changed.notes);
    let note = entries
        .get(NOTE)
        .and_then(Json::as_str)
        .unwrap_or_default()
        .chars()
        .take(LONGEST_NOTE)
        .collect();
    Ok(Linked::Answer(
        Box::new(Answer {
            base,
            design: changed.design,
            note,
        }),
        notes,
    ))
}

/// With these begins what pages and messengers put behind a link.
const BEHIND: [char; 3] = ['?', '&', '/'];

/// The entries packed into a payload.
fn entries(format: u32, payload: &str) -> Result<Map<String, Json>, LinkError> {
    // A link copied out of a sentence often brings the sentence's end along.
    let payload = payload
        .split_once(BEHIND)
        .map_or(payload, |(payload, _)| payload);
    let payload =
        payload.trim_end_matches(['.', ',', ';', ':', '!', '?', ')', ']', '>', '"', '\'', '=']);
    let belongs =
        |character: &char| character.is_ascii_alphanumeric() || matches!(character, '-' | '_');
    if let Some(character) = payload.chars().find(|character| !belongs(character)) {
        return Err(LinkError::Character { character });
    }
    let packed = URL_SAFE_NO_PAD
        .decode(payload)
        .map_err(|_| LinkError::Damaged)?;
    let json = packing::unpack(format, &packed)?;
    match serde_json::from_slice(&json) {
        Ok(Json::Object(entries)) => Ok(entries),
        _ => Err(LinkError::Damaged),
    }
}
