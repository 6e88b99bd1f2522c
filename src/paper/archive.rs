//! One file that holds many: a ZIP archive (PKWARE APPNOTE 6.3), stored without compression.
//!
//! Written here, since the ZIP libraries bring clocks, randomness and ciphers along that a page has no use for.

use thiserror::Error;

/// A file of the archive.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// Name with folders, such as `tables/holes.csv`.
    pub name: String,
    /// What it holds.
    pub text: String,
}

/// Why there is no archive.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum ArchiveError {
    /// Two files have one name.
    #[error("two files of the archive are named “{0}”")]
    Twice(String),
    /// More than the format holds: 65 535 files, 4 GiB.
    #[error("this is too much for one archive")]
    TooLarge,
}

/// Head of a file within the archive.
const LOCAL: u32 = 0x0403_4b50;
/// Head of an entry in the list at the end.
const LISTED: u32 = 0x0201_4b50;
/// Head of the end.
const END: u32 = 0x0605_4b50;
/// Version of the format needed: folders.
const NEEDED: u16 = 20;
/// Names are UTF-8.
const UTF8_NAMES: u16 = 1 << 11;
/// First of January 1980, the format's zero, so that the same files always give the same bytes.
const NO_DATE: u16 = 0x0021;

/// The archive. The same entries always give the same bytes.
///
/// # Errors
/// Two entries of one name, or more than the format holds.
///
/// ```
/// use hearthplan::paper::archive::{Entry, archive};
/// let entry = |name: &str| Entry { name: name.to_string(), text: "a,b\r\n".to_string() };
/// let bytes = archive(&[entry("tables/a.csv")]).unwrap();
/// assert_eq!(&bytes[..4], b"PK\x03\x04");
/// assert!(archive(&[entry("a"), entry("a")]).is_err());
/// ```
pub fn archive(entries: &[Entry]) -> Result<Vec<u8>, ArchiveError> {
    let mut bytes = Vec::new();
    let mut list = Vec::new();
    for (place, entry) in entries.iter().enumerate() {
        if entries
            .iter()
            .take(place)
            .any(|other| other.name == entry.name)
        {
            return Err(ArchiveError::Twice(entry.name.clone()));
        }
        let start = length(bytes.len())?;
        let about = facts(entry)?;
        put(&mut bytes, &[LOCAL]);
        bytes.extend(&about);
        bytes.extend(entry.name.as_bytes());
        bytes.extend(entry.text.as_bytes());
        put(&mut list, &[LISTED]);
        // Made by: the same version of the format, no particular system.
        list.extend(NEEDED.to_le_bytes());
        list.extend(&about);
        // No comment, first disk, no attributes.
        list.extend([0; 10]);
        put(&mut list, &[start]);
        list.extend(entry.name.as_bytes());
    }
    let (start, size) = (length(bytes.len())?, length(list.len())?);
    let count = u16::try_from(entries.len()).map_err(|_| ArchiveError::TooLarge)?;
    bytes.extend(list);
    put(&mut bytes, &[END, 0]);
    bytes.extend(count.to_le_bytes());
    bytes.extend(count.to_le_bytes());
    put(&mut bytes, &[size, start]);
    bytes.extend([0; 2]);
    Ok(bytes)
}

/// What the head of a file and its entry in the list have in common.
fn facts(entry: &Entry) -> Result<Vec<u8>, ArchiveError> {
    let name = u16::try_from(entry.name.len()).map_err(|_| ArchiveError::TooLarge)?;
    let size = length(entry.text.len())?;
    let mut facts = Vec::new();
    for number in [NEEDED, UTF8_NAMES, 0, 0, NO_DATE] {
        facts.extend(number.to_le_bytes());
    }
    put(
        &mut facts,
        &[crc32fast::hash(entry.text.as_bytes()), size, size],
    );
    facts.extend(name.to_le_bytes());
    facts.extend([0; 2]);
    Ok(facts)
}

fn put(bytes: &mut Vec<u8>, numbers: &[u32]) {
    for number in numbers {
        bytes.extend(number.to_le_bytes());
    }
}

fn length(bytes: usize) -> Result<u32, ArchiveError> {
    u32::try_from(bytes).map_err(|_| ArchiveError::TooLarge)
}

/// A name that every file system takes, in small letters: what is neither letter nor digit becomes a hyphen.
///
/// ```
/// assert_eq!(hearthplan::paper::archive::file_name("Gas outlet, 2\" pipe"), "gas-outlet-2-pipe");
/// ```
pub fn file_name(words: &str) -> String {
    let mut name = String::new();
    for character in words.chars().take(60) {
        if character.is_ascii_alphanumeric() {
            name.push(character.to_ascii_lowercase());
        } else if !name.ends_with('-') && !name.is_empty() {
            name.push('-');
        }
    }
    match name.trim_end_matches('-') {
        "" => "sheet".to_string(),
        name => name.to_string(),
    }
}
