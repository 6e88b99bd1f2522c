//! Design files: JSON in SI units with the format version, every input written.

use super::Design;
use super::tree::{self, Opened};
use super::upgrade::{self, FORMAT, VERSION_NAME};
use serde_json::{Value as Json, error::Category};
use thiserror::Error;

/// Largest file read, in bytes; a full design has less than a tenth of it.
pub const LARGEST: usize = 1_000_000;

/// Why a file could not be opened, as a sentence.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum FileError {
    /// Nothing in it.
    #[error("This file is empty.")]
    Empty,
    /// Larger than any design.
    #[error("This file is too large for a design.")]
    TooLarge,
    /// The end is missing.
    #[error("This file ends too early, in line {line}: a part of it is missing.")]
    CutShort {
        /// Line of the end, from 1.
        line: usize,
    },
    /// A place that cannot be read.
    #[error("This file is damaged in line {line}, character {column}: {reason}.")]
    Damaged {
        /// Line, from 1.
        line: usize,
        /// Character in the line, from 1.
        column: usize,
        /// What is wrong, in plain words.
        reason: &'static str,
    },
    /// Readable, but something else.
    #[error("This is not a Hearthplan design: it has no format version.")]
    NotADesign,
    /// Written by a newer version.
    #[error(
        "This file was written by a newer Hearthplan (format {version}; this one reads up to {FORMAT}). Reload the page to get the newest, then open it again."
    )]
    Newer {
        /// Format version of the file.
        version: u64,
    },
}

/// The design as the text of a file. The same design always gives the same text.
///
/// ```
/// use hearthplan::design::{Design, file};
/// let design = Design::default();
/// let opened = file::read(&file::write(&design)).unwrap();
/// assert_eq!(opened.design, design);
/// ```
pub fn write(design: &Design) -> String {
    let mut whole = tree::whole(design);
    whole.push_first(VERSION_NAME, Json::from(FORMAT));
    tree::text(&whole)
}

/// Reads the text of a file.
///
/// What is not known is kept in [`Design::unknown`]; it and values that an input does not take are
/// told in [`Opened::notes`]. Inputs that the file does not hold have the defaults of its version.
///
/// # Errors
/// Empty, too large, damaged, not a design, or from a newer version.
pub fn read(text: &str) -> Result<Opened, FileError> {
    let text = text.trim_start_matches('\u{feff}');
    if text.len() > LARGEST {
        return Err(FileError::TooLarge);
    }
    if text.trim().is_empty() {
        return Err(FileError::Empty);
    }
    let json: Json = serde_json::from_str(text).map_err(|error| damage(text, &error))?;
    let Json::Object(mut entries) = json else {
        return Err(FileError::NotADesign);
    };
    let version = entries
        .remove(VERSION_NAME)
        .and_then(|version| version.as_u64());
    match version.map(|version| (version, u32::try_from(version))) {
        None | Some((0, _)) => Err(FileError::NotADesign),
        Some((_, Ok(version))) if version <= FORMAT => Ok(upgrade::open(version, entries)),
        Some((version, _)) => Err(FileError::Newer { version }),
    }
}

fn damage(text: &str, error: &serde_json::Error) -> FileError {
    match error.classify() {
        Category::Eof => FileError::CutShort { line: error.line() },
        _ => {
            let (line, column) = place(text, error.line(), error.column());
            FileError::Damaged {
                line,
                column,
                reason: plain_reason(&error.to_string()),
            }
        }
    }
}

/// Line and character of a place that the parser tells as line and byte, where byte 0 is the end of the line before.
fn place(text: &str, line: usize, byte: usize) -> (usize, usize) {
    let (line, byte) = match byte {
        0 => (line.saturating_sub(1).max(1), usize::MAX),
        byte => (line, byte),
    };
    let whole = text.split('\n').nth(line - 1).unwrap_or_default();
    let column = whole
        .char_indices()
        .take_while(|(start, _)| *start < byte)
        .count();
    (line, column.max(1))
}

/// The parser's reason in plain words.
fn plain_reason(message: &str) -> &'static str {
    const REASONS: &[(&str, &str)] = &[
        ("trailing comma", "there is a comma too many before it"),
        (
            "expected `,`",
            "a comma or a closing bracket is missing before it",
        ),
        ("expected `:`", "a colon is missing before it"),
        (
            "key must be a string",
            "a name in quotation marks is missing",
        ),
        ("control character", "a closing quotation mark is missing"),
        (
            "invalid escape",
            "a text holds a backslash that means nothing",
        ),
        ("number out of range", "this number is too large"),
        ("invalid number", "this is not a number"),
        (
            "trailing characters",
            "something stands behind the end of the design",
        ),
        ("recursion limit", "the entries are nested too deep"),
        (
            "expected value",
            "a value is missing, or not written as it should be",
        ),
    ];
    REASONS
        .iter()
        .find(|(beginning, _)| message.starts_with(beginning))
        .map_or("it cannot be read", |(_, reason)| reason)
}
