//! The archive read back by the structure of the format (PKWARE APPNOTE 6.3).

use hearthplan::design::quantity::System;
use hearthplan::design::{Design, example, file};
use hearthplan::paper::bundle;
use hearthplan::paper::sheets::Drawing;
use hearthplan::paper::tiling::{Paper, Sheet, tiled};
use hearthplan::review::assess;
use hearthplan::sizing::pattern::patterns;
use std::collections::BTreeMap;

fn number(bytes: &[u8], at: usize, width: usize) -> usize {
    (0..width)
        .map(|place| usize::from(bytes[at + place]) << (8 * place))
        .sum()
}

/// The check sum of ISO 3309, bit by bit.
fn check_sum(bytes: &[u8]) -> u32 {
    let mut sum = u32::MAX;
    for byte in bytes {
        sum ^= u32::from(*byte);
        for _ in 0..8 {
            sum = (sum >> 1) ^ (0xedb8_8320 * (sum & 1));
        }
    }
    !sum
}

/// Name and text of every file, found through the list at the end as an unpacking program does.
fn unpacked(bytes: &[u8]) -> BTreeMap<String, String> {
    let end = bytes.len() - 22;
    assert_eq!(&bytes[end..end + 4], b"PK\x05\x06");
    let count = number(bytes, end + 10, 2);
    let mut at = number(bytes, end + 16, 4);
    let mut files = BTreeMap::new();
    for _ in 0..count {
        assert_eq!(&bytes[at..at + 4], b"PK\x01\x02");
        let size = number(bytes, at + 24, 4);
        let name_length = number(bytes, at + 28, 2);
        let start = number(bytes, at + 42, 4);
        let name = String::from_utf8(bytes[at + 46..at + 46 + name_length].to_vec()).unwrap();
        assert_eq!(&bytes[start..start + 4], b"PK\x03\x04");
        let text = start + 30 + number(bytes, start + 26, 2) + number(bytes, start + 28, 2);
        let text = &bytes[text..text + size];
        assert_eq!(number(bytes, at + 16, 4) as u32, check_sum(text), "{name}");
        let text = String::from_utf8(text.to_vec()).unwrap();
        assert!(files.insert(name, text).is_none());
        at += 46 + name_length;
    }
    files
}

fn packed(design: &Design) -> Vec<u8> {
    let drawing = Drawing {
        name: "machine".to_string(),
        svg: "<svg viewBox=\"0 0 1 1\"></svg>".to_string(),
        words: "The machine".to_string(),
        is_captioned: false,
    };
    bundle(
        design,
        &assess(design),
        System::Metric,
        Paper::A4,
        &[drawing],
    )
    .unwrap()
}

#[test]
fn everything_is_in_the_archive() {
    let design = example::as_improved();
    let files = unpacked(&packed(&design));
    let opened = file::read(&files["design.json"]).unwrap();
    assert_eq!(opened.design, design);
    for name in [
        "sheets.html",
        "tables/holes.csv",
        "tables/wiring.csv",
        "drawings/shell-unrolled.svg",
        "templates/01-shell-unrolled.svg",
        "templates/01-shell-unrolled.dxf",
    ] {
        assert!(files[name].len() > 100, "{name}");
    }
    assert!(
        files["drawings/machine.svg"]
            .starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox")
    );
    // Files are called what the screen calls them.
    assert!(
        files.contains_key("tables/parts-vessel.csv")
            && files.contains_key("tables/cost-vessel.csv")
    );
    assert!(files.keys().all(|name| !name.contains("reactor")));
    for name in files.keys().filter(|name| *name != "README.txt") {
        assert!(files["README.txt"].contains(&format!("{name}: ")), "{name}");
    }
}

#[test]
fn print_pages_of_each_template_are_in_the_archive() {
    let design = example::as_improved();
    let bytes = packed(&design);
    let files = unpacked(&bytes);
    let mut told = 0;
    for (place, entry) in patterns(&design).into_iter().enumerate() {
        let Ok(pattern) = entry.pattern else { continue };
        let tiling = tiled(&pattern, &Sheet::default()).unwrap();
        let start = format!("pages/{:02}-", place + 1);
        let pages: Vec<_> = files
            .keys()
            .filter(|name| name.starts_with(&start))
            .collect();
        let wanted = if tiling.pages.len() <= 40 {
            tiling.sheets().count()
        } else {
            0
        };
        assert_eq!(pages.len(), wanted, "{start}");
        told += pages.len();
        for page in pages {
            assert!(files[page].contains("data-check=\"100\""), "{page}");
        }
    }
    assert!(told > 10, "{told} pages");
    assert!(bytes.len() < 4_000_000, "{} bytes", bytes.len());
}

#[test]
fn the_same_design_gives_the_same_bytes() {
    let design = example::as_first_drawn();
    assert_eq!(packed(&design), packed(&design));
}

#[test]
fn names_that_come_twice_do_not_spoil_the_archive() {
    let mut design = example::as_improved();
    for hole in &mut design.holes {
        hole.name = "../hole".to_string();
    }
    let files = unpacked(&packed(&design));
    assert!(files.keys().all(|name| !name.contains("..")));
}
