//! Share links: the design where it differs from the defaults, compressed into the part of an
//! address behind `#`, which browsers send to no server.
//!
//! Form: the format version, a dot, and base64url of the zlib-compressed JSON of the differences.
//! The JSON has the names of the file format, so it can be read for ever; the checksum of zlib
//! tells a damaged link from a whole one.

use super::Design;
use super::tree::{self, Opened};
use super::upgrade::{self, FORMAT};
use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use miniz_oxide::deflate::compress_to_vec_zlib;
use miniz_oxide::inflate::decompress_to_vec_zlib_with_limit;
use serde_json::Value as Json;
use thiserror::Error;

/// Longest link read, in characters.
pub const LONGEST: usize = 200_000;

/// Most bytes a link may unpack to; keeps a small link from filling the memory.
const MOST_UNPACKED: usize = 256 * 1024;

/// Strongest compression of the packer.
const STRONGEST: u8 = 10;

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
    let packed = |with_unknown: bool| {
        let difference = tree::difference(design, &upgrade::start(FORMAT), with_unknown);
        // A tree of plain names and values can always be written.
        let json = serde_json::to_vec(&difference).unwrap_or_default();
        let text = URL_SAFE_NO_PAD.encode(compress_to_vec_zlib(&json, STRONGEST));
        (json.len() <= MOST_UNPACKED && text.len() < LONGEST, text)
    };
    let (fits, text) = packed(true);
    format!("{FORMAT}.{}", if fits { text } else { packed(false).1 })
}

/// Reads a link, whole or only the part behind `#`.
///
/// # Errors
/// Empty, not a share link, damaged, too large, or from a newer version.
pub fn read(text: &str) -> Result<Opened, LinkError> {
    if text.len() > LONGEST {
        return Err(LinkError::TooLarge);
    }
    let fragment = text
        .rsplit_once('#')
        .map_or(text, |(_, fragment)| fragment)
        .trim();
    if fragment.is_empty() {
        return Err(LinkError::Empty);
    }
    let (version, payload) = fragment.split_once('.').ok_or(LinkError::NotALink)?;
    let version = version.parse::<u64>().map_err(|_| LinkError::NotALink)?;
    let known = u32::try_from(version)
        .ok()
        .filter(|version| *version <= FORMAT);
    match known {
        Some(0) => Err(LinkError::NotALink),
        None => Err(LinkError::Newer { version }),
        Some(version) => unpack(payload, version),
    }
}

fn unpack(payload: &str, version: u32) -> Result<Opened, LinkError> {
    // A link copied out of a sentence often brings the sentence's end along.
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
    let json = decompress_to_vec_zlib_with_limit(&packed, MOST_UNPACKED).map_err(|error| {
        match error.status {
            miniz_oxide::inflate::TINFLStatus::HasMoreOutput => LinkError::TooLarge,
            _ => LinkError::Damaged,
        }
    })?;
    match serde_json::from_slice(&json) {
        Ok(Json::Object(entries)) => Ok(tree::lay_over(&upgrade::start(version), entries)),
        _ => Err(LinkError::Damaged),
    }
}
