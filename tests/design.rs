//! The design document: quantities, files, links, and what is in use.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test may fail loudly"
)]

#[path = "../fuzz/oracles.rs"]
mod oracles;
mod random_design;

#[path = "design/arranging.rs"]
mod arranging;
#[path = "design/choosing.rs"]
mod choosing;
#[path = "design/damage.rs"]
mod damage;
#[path = "design/difference.rs"]
mod difference;
#[path = "design/files.rs"]
mod files;
#[path = "design/for_ever.rs"]
mod for_ever;
#[path = "design/found.rs"]
mod found;
#[path = "design/links.rs"]
mod links;
#[path = "design/meanings.rs"]
mod meanings;

#[path = "design/quantity_reading.rs"]
mod quantity_reading;
#[path = "design/quantity_round_trip.rs"]
mod quantity_round_trip;
#[path = "design/quantity_showing.rs"]
mod quantity_showing;
#[path = "design/readers.rs"]
mod readers;
#[path = "design/references.rs"]
mod references;
#[path = "design/relevance.rs"]
mod relevance;
#[path = "design/searching.rs"]
mod searching;
#[path = "design/spreads.rs"]
mod spreads;
#[path = "design/typed.rs"]
mod typed;
