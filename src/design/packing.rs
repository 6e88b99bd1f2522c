//! How the text of a link is packed, format by format, and the frozen words of format 2.
//!
//! Format 1 is a zlib stream (RFC 1950). Format 2 is the CRC-32 of the text, four bytes with the
//! highest first, and a raw deflate stream (RFC 1951) that may point back into words both ends
//! know: the names of all inputs and options, and the example designs, from which most designs
//! start. What a design shares with these costs next to nothing.
//!
//! The words stand frozen in `defaults/v2.words`. Not one of them may change once links of format 2
//! are out, not even when an input gets another name: a new input's name is then simply written
//! out. The checksum is taken of the text and not of the packed bytes, so that a link opened with
//! other words than it was written with is found damaged, and never read wrongly.

use super::declare::{Input, Kind};
use super::document::Design;
use super::link::LinkError;
use super::{example, link};
use crc32fast::hash;
use miniz_oxide::deflate::core::{
    CompressorOxide, TDEFLFlush, compress_to_output, create_comp_flags_from_zip_params,
};
use miniz_oxide::inflate::core::inflate_flags::TINFL_FLAG_USING_NON_WRAPPING_OUTPUT_BUF;
use miniz_oxide::inflate::core::{DecompressorOxide, decompress};
use miniz_oxide::inflate::{TINFLStatus, decompress_to_vec_zlib_with_limit};
use std::collections::HashSet;

/// The frozen words of format 2.
const FROZEN: &str = include_str!("defaults/v2.words");

/// Most bytes a link may unpack to; keeps a small link from filling the memory.
pub(super) const MOST_UNPACKED: usize = 256 * 1024;

/// Strongest compression of the packer.
const STRONGEST: i32 = 10;

/// Bytes of the checksum in front.
const CHECKSUM: usize = 4;

/// What a line of the words starts with if it is only for people to read.
const REMARK: char = '#';

/// The words that links of the newest format are packed with: the lines of the frozen file without
/// their ends, so that no tool that changes ends of lines can change them.
pub fn frozen_words() -> String {
    FROZEN
        .lines()
        .filter(|line| !line.starts_with(REMARK))
        .collect()
}

/// Packs a text in the newest format.
pub(super) fn pack(text: &[u8]) -> Vec<u8> {
    let flags = create_comp_flags_from_zip_params(STRONGEST, 0, 0);
    let mut compressor = CompressorOxide::new(flags);
    // The packer takes no words of its own. So it packs them first, up to the end of a byte, and
    // what comes out is thrown away: the reader has them.
    compress_to_output(
        &mut compressor,
        frozen_words().as_bytes(),
        TDEFLFlush::Sync,
        |_| true,
    );
    let mut packed = hash(text).to_be_bytes().to_vec();
    compress_to_output(&mut compressor, text, TDEFLFlush::Finish, |bytes| {
        packed.extend_from_slice(bytes);
        true
    });
    packed
}

/// The text that was packed in this format.
///
/// # Errors
/// Damaged, or larger than a link may be.
pub(super) fn unpack(format: u32, packed: &[u8]) -> Result<Vec<u8>, LinkError> {
    if format == 1 {
        return decompress_to_vec_zlib_with_limit(packed, MOST_UNPACKED)
            .map_err(|error| damage(error.status));
    }
    let (checksum, packed) = packed
        .split_first_chunk::<CHECKSUM>()
        .ok_or(LinkError::Damaged)?;
    let mut text = frozen_words().into_bytes();
    let start = text.len();
    text.resize(start + MOST_UNPACKED, 0);
    let (status, read, written) = decompress(
        &mut DecompressorOxide::new(),
        packed,
        &mut text,
        start,
        TINFL_FLAG_USING_NON_WRAPPING_OUTPUT_BUF,
    );
    if status != TINFLStatus::Done || read != packed.len() {
        return Err(damage(status));
    }
    text.truncate(start + written);
    text.drain(..start);
    if hash(&text) == u32::from_be_bytes(*checksum) {
        Ok(text)
    } else {
        Err(LinkError::Damaged)
    }
}

fn damage(status: TINFLStatus) -> LinkError {
    match status {
        TINFLStatus::HasMoreOutput => LinkError::TooLarge,
        _ => LinkError::Damaged,
    }
}

/// The words that this build would freeze, as the file of them. Names come first, then the examples,
/// since the nearer a word is to the end, the less it costs.
pub fn current_words() -> String {
    /// Only for people who read the file.
    const HEAD: &str = "\
        # Words that links of format 2 are packed with, in the form a link's text has them: the names\n\
        # of all inputs and options, then the text of the example designs. Written once by a test and\n\
        # frozen: see src/design/packing.rs.\n";
    let mut known = HashSet::new();
    let mut words = HEAD.to_string();
    let mut add = |word: String| {
        if known.insert(word.clone()) {
            words.push_str(&word);
            words.push('\n');
        }
    };
    for section in Design::SECTIONS {
        add(format!("}},\"{}\":{{", section.name));
        words_of(section.inputs).for_each(&mut add);
    }
    for list in Design::LISTS {
        add(format!("}}],\"{}\":[{{", list.name));
        words_of(list.inputs).for_each(&mut add);
    }
    for design in [example::as_first_drawn(), example::as_improved()] {
        let text = link::text(&design, false);
        // Lines that a person can read, broken where no text of a design can be.
        words.push_str(&text.replace("},", "},\n"));
        words.push('\n');
    }
    words
}

/// The names of inputs and of their options, as they stand in the text of a link.
fn words_of(inputs: &'static [Input]) -> impl Iterator<Item = String> {
    inputs.iter().flat_map(|input| {
        let values: Vec<String> = match input.kind {
            Kind::Choice { options, .. } => options
                .iter()
                .map(|option| format!("\"{}\",", option.name))
                .collect(),
            Kind::Flag { .. } => vec!["true,".to_string(), "false,".to_string()],
            Kind::Text { .. } | Kind::Number { .. } => Vec::new(),
        };
        std::iter::once(format!("\"{}\":", input.name)).chain(values)
    })
}
