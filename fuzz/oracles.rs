//! What must hold for whatever a reader is given: it answers, what it read is written back and read the same, and
//! what it refuses is explained in words that point into the text.
//!
//! The fuzz targets find the inputs; `tests/design/readers.rs` runs the same checks on the seeds and on what was found.

#![allow(dead_code, reason = "each target uses the part it needs")]

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use hearthplan::design::file::{self, FileError};
use hearthplan::design::link::{self, Answer, LinkError, Linked};
use hearthplan::design::quantity::{Quantity, ReadReason, System};
use hearthplan::design::{Design, Kind, Note, Opened};

const SYSTEMS: [System; 2] = [System::Metric, System::Inch];

/// Any text as a design file.
pub fn file(text: &str) {
    match file::read(text) {
        Ok(opened) => {
            told(&opened.notes);
            written_back(&opened.design);
        }
        Err(error) => {
            sentence(&error.to_string());
            match error {
                FileError::Damaged { line, column, .. } => {
                    let line = text.split('\n').nth(line.wrapping_sub(1));
                    let length = line.expect("a line of the text").chars().count();
                    assert!((1..=length + 1).contains(&column), "character {column}");
                }
                FileError::CutShort { line } => {
                    assert!(
                        (1..=text.split('\n').count()).contains(&line),
                        "line {line}"
                    );
                }
                _ => {}
            }
        }
    }
}

/// Any text as a link. What starts with `{` is packed first, into a link of one of the forms; what stands behind `=`
/// is taken as packed already.
pub fn link(given: &[u8]) {
    match given.split_first() {
        Some((b'{', _)) => {
            let (format, sign) = [("1", '.'), ("2", '.'), ("1", '~'), ("2", '~')][given.len() % 4];
            link_text(&format!("{format}{sign}{}", payload(format, given)));
        }
        Some((b'=', packed)) => {
            let payload = URL_SAFE_NO_PAD.encode(packed);
            link_text(&format!("1.{payload}"));
            link_text(&format!("2.{payload}"));
        }
        _ => {
            if let Ok(text) = str::from_utf8(given) {
                link_text(text);
            }
        }
    }
}

/// A text as the payload of a link.
pub fn payload(format: &str, text: &[u8]) -> String {
    let packed = match format {
        "1" => miniz_oxide::deflate::compress_to_vec_zlib(text, 1),
        _ => {
            let mut packed = crc32fast::hash(text).to_be_bytes().to_vec();
            packed.extend(miniz_oxide::deflate::compress_to_vec(text, 1));
            packed
        }
    };
    URL_SAFE_NO_PAD.encode(packed)
}

fn link_text(text: &str) {
    match link::open(text) {
        Ok(Linked::Design(opened)) => {
            told(&opened.notes);
            written_back(&opened.design);
        }
        Ok(Linked::Answer(answer, notes)) => {
            told(&notes);

            answered_again(&answer);
            written_back(&answer.design);
        }
        Err(error) => {
            sentence(&error.to_string());
            if let LinkError::Character { character } = error {
                assert!(text.contains(character), "“{character}” is not in the link");
            }
        }
    }
}

/// Any text as what a person types: the first character picks quantity and system of units.
pub fn quantity(given: &str) {
    let mut signs = given.chars();
    let Some(pick) = signs.next().map(|sign| sign as usize) else {
        return;
    };
    let (text, system) = (signs.as_str(), SYSTEMS[pick % 2]);
    let quantity = Quantity::ALL[pick / 2 % Quantity::ALL.len()];
    match quantity.read(text, system) {
        Ok(si) => {
            assert!(si.is_finite());
            let written = quantity.write(si, system);
            let again = quantity.read(&written, system);
            let again = again.unwrap_or_else(|error| panic!("{si} as “{written}”: {error}"));
            let scale = if quantity == Quantity::Temperature {
                100.0
            } else {
                0.0
            };
            let most = 1e-12 * si.abs().max(scale);
            assert!(
                (again - si).abs() <= most,
                "{si} as “{written}” is read {again}"
            );
            assert_eq!(quantity.write(again, system), written);
            for system in SYSTEMS {
                let shown = quantity.show(si, system);
                let read = quantity.read(&shown, system);
                // Of the smallest and largest only that is told: “under 0.000001 Pa”.
                let told = ["under ", "over "]
                    .iter()
                    .any(|word| shown.starts_with(word));
                assert!(told || read.is_ok(), "{si} as “{shown}”: {read:?}");
            }
        }
        Err(error) => {
            let piece = text.get(error.place.clone());
            let piece = piece.unwrap_or_else(|| panic!("{:?} is outside", error.place));
            if !matches!(error.reason, ReadReason::Empty { .. } | ReadReason::TooLong) {
                assert!(!piece.trim().is_empty(), "{error} points at nothing");
            }
            assert!(!error.to_string().is_empty());
        }
    }
    for input in Design::SECTIONS.iter().flat_map(|section| section.inputs) {
        if matches!(input.kind, Kind::Number { quantity: other, .. } if other != quantity) {
            continue;
        }
        match input.read(text, system) {
            Ok(value) => assert!(input.takes(&value), "{} takes {value:?}", input.name),
            Err(error) => assert!(!error.sentence(system).is_empty()),
        }
    }
}

fn sentence(words: &str) {
    assert!(words.len() > 10 && words.ends_with('.'), "“{words}”");
}

fn told(notes: &[Note]) {
    for system in SYSTEMS {
        notes
            .iter()
            .for_each(|note| sentence(&note.sentence(system)));
    }
}

/// A design that was read has every input in its range, and comes back the same from its own file and link.
fn written_back(design: &Design) {
    for path in design.paths() {
        let (input, value) = (design.input(&path), design.get(&path));
        let takes = input
            .zip(value)
            .is_some_and(|(input, value)| input.takes(&value));
        assert!(takes, "{path} was let through");
    }
    let text = file::write(design);
    let again = file::read(&text).expect("a file that was written opens");
    same(&again, design);
    assert_eq!(file::write(&again.design), text);

    let text = link::write(design);
    assert!(text.len() <= link::LONGEST);
    let again = link::read(&text).expect("a link that was written opens");
    let mut design = design.clone();
    if again.design.unknown.is_empty() {
        // Too much for a link: it stays behind.
        design.unknown.clear();
    }
    same(&again, &design);
}

fn same(again: &Opened, design: &Design) {
    assert!(again.design == *design, "another design comes back");
    let unknown = |note: &Note| matches!(note, Note::Unknown { .. });
    assert!(again.notes.iter().all(unknown), "{:?}", again.notes);
    assert_eq!(again.notes.len(), design.unknown.len());
}

fn answered_again(answer: &Answer) {
    let mut wanted = answer.clone();
    wanted.base.unknown.clear();
    wanted.design.unknown.clear();
    let again = link::open(&link::write_answer(answer));
    let again = again.expect("an answer that was written opens");
    assert!(
        again == Linked::Answer(Box::new(wanted), Vec::new()),
        "another answer comes back"
    );
}
