//! The seeds of the fuzz targets and what these found, checked as the targets check any input.

use crate::oracles;
use std::fs;

#[test]
fn file_seeds_are_answered() {
    for seed in include_str!("../../fuzz/seeds/file.txt").lines() {
        oracles::file(seed);
    }
}

#[test]
fn link_seeds_are_answered() {
    for seed in include_str!("../../fuzz/seeds/link.txt").lines() {
        oracles::link(seed.as_bytes());
    }
}

#[test]
fn quantity_seeds_are_answered() {
    for seed in include_str!("../../fuzz/seeds/quantity.txt").lines() {
        oracles::quantity(seed);
    }
}

#[test]
fn fixtures_are_answered() {
    let fixture = |name: &str| {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/fixtures/");
        fs::read_to_string(format!("{folder}{name}")).unwrap()
    };
    for version in 1..=2 {
        oracles::file(&fixture(&format!("v{version}.json")));
        oracles::link(fixture(&format!("v{version}.link")).as_bytes());
    }
}
